"""Tables of results as CSV: units in the column names, a point as the decimal mark."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np

from explorer.engine.columns import Columns
from explorer.files.disk import FileError, write_text

_DIGITS = 9
"""Significant digits: a second in thirty years, a nanovolt in a volt."""


class TableError(FileError):
    """A table cannot be written; the text is a sentence."""


def write_trace(path: Path | str, trace: Columns) -> None:
    """Write a trace, one line for each of its rows; `connected` is 1 or 0.

    Raises
    ------
    TableError
        The place cannot be written.
    """
    write_table(
        path,
        {
            "time_s": trace.time_s.tolist(),
            "store_V": trace.store_v.tolist(),
            "terminal_V": trace.terminal_v.tolist(),
            "terminal_min_V": trace.terminal_min_v.tolist(),
            "harvest_A": trace.harvest_a.tolist(),
            "load_A": trace.load_a.tolist(),
            "connected": trace.connected.astype(np.int64).tolist(),
        },
    )


def write_table(path: Path | str, columns: Mapping[str, Sequence[float | str]]) -> None:
    """Write columns of equal length in one step: a crash leaves the old file or the new one.

    Parameters
    ----------
    path : path-like
        File to write.
    columns : mapping of str to sequence
        Values under each column's name; infinite ones are written as ``inf``.

    Raises
    ------
    TableError
        The place cannot be written.
    ValueError
        The columns differ in length.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows(
        [value if isinstance(value, str) else f"{value:.{_DIGITS}g}" for value in row]
        for row in zip(*columns.values(), strict=True)
    )
    try:
        write_text(Path(path), text.getvalue())
    except FileError as error:
        raise TableError(str(error)) from None

"""Tables of results as CSV: units in the column names, a point as the decimal mark."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np

from explorer.engine.columns import Columns
from explorer.files.disk import FileError, write_text
from explorer.quantity import show

_DIGITS = 9
"""Significant digits: a second in thirty years, a nanovolt in a volt."""
_FORMULAS = ("=", "+", "-", "@")
MOST_ROWS = 1_000_000
"""Most rows at an even step; spreadsheets end at 1 048 576 (common practice, no source)."""


class TableError(FileError):
    """A table cannot be written; the text is a sentence."""


def trace_table(trace: Columns) -> dict[str, list[float]]:
    """The columns of a trace under the names that its files bear; `connected` is 1 or 0."""
    return {
        "time_s": trace.time_s.tolist(),
        "store_V": trace.store_v.tolist(),
        "terminal_V": trace.terminal_v.tolist(),
        "terminal_min_V": trace.terminal_min_v.tolist(),
        "harvest_A": trace.harvest_a.tolist(),
        "load_A": trace.load_a.tolist(),
        "leakage_A": trace.leakage_a.tolist(),
        "connected": trace.connected.astype(np.int64).tolist(),
    }


def write_trace(path: Path | str, trace: Columns) -> None:
    """Write a trace, one line for each of its rows.

    Raises
    ------
    TableError
        The place cannot be written.
    """
    write_table(path, trace_table(trace))


def row_count(length_s: float, step_s: float) -> int:
    """Rows at an even step from the beginning of a run to its end.

    Raises
    ------
    TableError
        The step is not above zero, or makes more than `MOST_ROWS` rows.

    Examples
    --------
    >>> row_count(604_800.0, 3600.0), row_count(100.0, 30.0)
    (169, 4)
    """
    if not step_s > 0.0:
        raise TableError(f"The step is {step_s:g} s; allowed is a time above 0 s.")
    # A length that is a whole number of steps keeps its last row in spite of rounding.
    rows = length_s / step_s * (1.0 + 1e-12) + 1.0
    if rows > MOST_ROWS:
        raise TableError(
            f"A step of {step_s:g} s makes {rows:.3g} rows of {show(length_s, 's')}; at most "
            f"{MOST_ROWS} are written, so take a step of {1.01 * length_s / MOST_ROWS:.2g} s "
            "or more."
        )
    return int(rows)


def inert(cell: str) -> str:
    """A text that no spreadsheet takes for a formula: names in a table come from anybody.

    A text that begins as a formula does gets an apostrophe before it, which spreadsheets take for
    the mark of a text (common practice, no source). Numbers stay.

    Examples
    --------
    >>> inert("=1+1"), inert("-3.2"), inert("soil probe")
    ("'=1+1", '-3.2', 'soil probe')
    """
    if not cell.lstrip().startswith(_FORMULAS):
        return cell
    try:
        float(cell)
    except ValueError:
        return f"'{cell}"
    return cell


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
    writer.writerow(map(inert, columns))
    writer.writerows(
        [inert(value) if isinstance(value, str) else f"{value:.{_DIGITS}g}" for value in row]
        for row in zip(*columns.values(), strict=True)
    )
    try:
        write_text(Path(path), text.getvalue())
    except FileError as error:
        raise TableError(str(error)) from None

"""One reader for tables of readings: light logs, logged runs, captures, measured curves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from explorer.files.disk import MEGABYTE
from explorer.files.progress import Progress, no_progress
from explorer.files.table_reader.headings import Column, Quantity
from explorer.files.table_reader.layout import Wanted
from explorer.files.table_reader.order import ordered, repeated_note
from explorer.files.table_reader.parts import PartReader
from explorer.files.table_reader.told import LogError, Told
from explorer.files.table_reader.understanding import understand
from explorer.physics.arrays import FloatArray
from explorer.text import Text, say

LIMIT_BYTES = 2_000 * MEGABYTE
"""Largest table that is read (own judgement: a year of readings a second is 0.5 to 1 GB)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """A table as it was understood, in SI units."""

    name: str
    """Of the file."""
    columns: tuple[Column, ...]
    """Where times and values came from: heading, quantity and unit."""
    time_s: FloatArray
    """Since the first reading, rising, shape (n,); row numbers where the table has no times. [s]"""
    start: datetime | None
    """Date and time of the first reading; None where the file has no dates."""
    values: dict[Quantity, FloatArray]
    """By quantity, shape (n,) each, NaN where a reading is missing. [lx, V, A, W or °C]"""
    lines: NDArray[np.int64]
    """Where each stands in the file, from 1; shape (n,)."""
    notes: tuple[Text, ...]
    """What was assumed, repaired or left out, one sentence each."""
    is_whole: bool = True
    """Whether these are all readings of the file."""


def read_readings(
    path: Path,
    wanted: Sequence[Wanted],
    told: Told | None = None,
    *,
    what: str,
    timed: bool = True,
    limit_bytes: int = LIMIT_BYTES,
    progress: Progress = no_progress,
    first_only: bool = False,
) -> Readings:
    """Read a table of readings.

    Understood are UTF-8, UTF-16 and Latin-1; commas, semicolons or tabs between columns; either
    decimal mark, thousands grouped or not; a preamble, a line of units; dates in most orders,
    stop-watch times, seconds, minutes or hours by the unit, seconds since 1970, spreadsheet dates;
    codes for missing readings. Where a file can be read in two ways it is refused until told.

    Parameters
    ----------
    path : pathlib.Path
        File to read.
    wanted : sequence of Wanted
        Quantities to take, with their limits.
    told : Told, optional
        What a person said about a file that leaves something open.
    what : str
        What the file should be, such as ``say("light log")``, for the messages.
    timed : bool
        Whether the table has a column of times that rise; a curve has none.
    limit_bytes : int
        Largest file that is read.
    progress : callable
        Is told the share of the file that was read; what it raises ends the reading.
    first_only : bool
        Whether the first part of a large file is enough.

    Raises
    ------
    Undecided
        The file can be read in two ways; its `question` says what to tell.
    LogError
        The file cannot be used; the sentence names line and column.
    """
    known = understand(
        path, wanted, told or Told(), what=what, timed=timed, limit_bytes=limit_bytes
    )
    found = PartReader(known)
    parts = list(found.parts(progress, first_only=first_only))
    if not parts:
        raise LogError(
            say("{file} was emptied while it was read.", file=known.layout.name)
        )
    time_s = np.concatenate([part.time_s for part in parts])
    columns = {q: np.concatenate([part.values[q] for part in parts]) for q in parts[0].values}
    lines = np.concatenate([part.lines for part in parts])
    notes, base = found.notes, found.base
    del parts  # a long capture fills the memory once, not twice
    if known.stamps is not None and time_s.size:
        arrays = list(columns.values())
        table = arrays[0][:, np.newaxis] if len(arrays) == 1 else np.column_stack(arrays)
        is_clock = known.stamps.kind == "clock"
        in_order = ordered(time_s, table, lines, known.layout.name, start=base, is_clock=is_clock)
        keep, time_s = in_order.keep, in_order.time_s
        if not keep.all():
            time_s, lines = time_s[keep], lines[keep]
            columns = {q: column[keep] for q, column in columns.items()}
        notes += in_order.notes + repeated_note(in_order.repeated)
        start = None if base is None else base + timedelta(seconds=float(time_s[0]))
        time_s = time_s - time_s[0]
    else:
        start, time_s = None, np.arange(time_s.size, dtype=float)
    return Readings(
        name=known.layout.name, columns=known.layout.taken, time_s=time_s, start=start,
        values=columns, lines=lines, notes=tuple(notes), is_whole=found.is_whole,
    )  # fmt: skip

"""One reader for tables of readings: light logs, logged runs, captures, measured curves."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from explorer.files.disk import MEGABYTE
from explorer.files.table_reader.figures import CODES, MISSING, figures
from explorer.files.table_reader.headings import QUANTITY_NAMES, SI_UNITS, Column, Quantity
from explorer.files.table_reader.layout import Layout, Wanted
from explorer.files.table_reader.order import ordered
from explorer.files.table_reader.rows import Rows
from explorer.files.table_reader.told import LogError, Told
from explorer.files.table_reader.understanding import Understanding, stamp, understand
from explorer.text import Text, figure, joined, say

FloatArray = NDArray[np.float64]

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


def read_readings(
    path: Path,
    wanted: Sequence[Wanted],
    told: Told | None = None,
    *,
    what: str,
    timed: bool = True,
    limit_bytes: int = LIMIT_BYTES,
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
    name = known.layout.name
    notes = [*known.layout.notes, *(known.stamps.notes if known.stamps else ())]
    missing: Counter[str] = Counter()
    parts: list[tuple[FloatArray, dict[Quantity, FloatArray], NDArray[np.int64]]] = []
    base: datetime | None = None
    left_out, is_cut = 0, False
    for rows in known.rows.blocks():
        is_cut = is_cut or rows.is_cut
        values = values_of(rows, known, missing)
        keep = kept(values, known, len(rows.lines))
        left_out += int((~keep).sum())
        time_s, base = times_of(rows, keep, known, base)
        lines = np.array(rows.lines, np.int64)[keep]
        parts.append((time_s, {q: column[keep] for q, column in values.items()}, lines))
    time_s = np.concatenate([part[0] for part in parts])
    columns = {q: np.concatenate([part[1][q] for part in parts]) for q in parts[0][1]}
    lines = np.concatenate([part[2] for part in parts])
    notes += _left_out_notes(left_out, missing, is_cut=is_cut)
    if known.stamps is not None and time_s.size:
        table = np.column_stack([*columns.values()])
        in_order = ordered(
            time_s, table, lines, name, start=base, is_clock=known.stamps.kind == "clock"
        )
        keep = in_order.keep
        time_s, lines = in_order.time_s[keep], lines[keep]
        columns = {q: column[keep] for q, column in columns.items()}
        notes += in_order.notes
        start = None if base is None else base + timedelta(seconds=float(time_s[0]))
        time_s = time_s - time_s[0]
    else:
        start, time_s = None, np.arange(time_s.size, dtype=float)
    found = known.layout
    taken = tuple(c for c in (found.date, found.time, *found.values) if c is not None)
    return Readings(
        name=name, columns=taken, time_s=time_s, start=start, values=columns, lines=lines,
        notes=tuple(notes),
    )  # fmt: skip


def values_of(
    rows: Rows, known: Understanding, missing: Counter[str]
) -> dict[Quantity, FloatArray]:
    """Wanted columns of some lines in SI units, NaN where a reading is missing.

    Parameters
    ----------
    rows : Rows
        n lines.
    known : Understanding
        How the file is to be read.
    missing : Counter
        Takes the codes that stand where a reading is missing.

    Raises
    ------
    LogError
        A cell is no number, or one that is not allowed.
    """
    found: dict[Quantity, FloatArray] = {}
    wanted_of = {w.quantity: w for w in known.wanted}
    for column in known.layout.values:
        assert column.quantity is not None
        wanted = wanted_of[column.quantity]
        cells = [row[column.place] for row in rows.cells]
        values, unread = figures(cells, known.mark)
        for place in unread.tolist():
            if cells[place].strip().lower() not in MISSING:
                raise _refused(known.layout, column, wanted, rows.lines[place], cells[place])
        missing.update(cells[place].strip() for place in unread.tolist())
        code = np.isin(values, CODES)
        missing.update(cells[place].strip() for place in np.flatnonzero(code).tolist())
        values[code] = np.nan
        values *= column.scale
        wrong = (values < wanted.lowest) | (values > wanted.highest)
        if wrong.any():
            place = int(np.argmax(wrong))
            raise _refused(known.layout, column, wanted, rows.lines[place], cells[place])
        found[column.quantity] = values
    return found


def kept(
    values: dict[Quantity, FloatArray], known: Understanding, n: int
) -> NDArray[np.bool_]:
    """Which lines have every reading that is needed, shape (n,)."""
    keep = np.ones(n, bool)
    for wanted in known.wanted:
        if wanted.needed:
            keep &= ~np.isnan(values[wanted.quantity])
    return keep


def times_of(
    rows: Rows, keep: NDArray[np.bool_], known: Understanding, base: datetime | None
) -> tuple[FloatArray, datetime | None]:
    """Times of the lines that are kept, since the date `base`, and that date. [s]

    Raises
    ------
    LogError
        A cell is no time.
    """
    if known.stamps is None or not keep.any():
        return np.zeros(int(keep.sum())), base
    places = np.flatnonzero(keep).tolist()
    cells = [stamp(known.layout, rows.cells[place]) for place in places]
    try:
        found = known.stamps.read(cells, known.mark, base)
    except TypeError:
        raise LogError(
            say(
                "{file} has times with and without a time zone; use one kind.",
                file=known.layout.name,
            )
        ) from None
    if not isinstance(found, int):
        return found
    raise LogError(
        say(
            "{file}, line {line}: the time is {found}; allowed is a date such as "
            "2015-02-02 14:19:00, or seconds in every line.",
            file=known.layout.name,
            line=rows.lines[places[found]],
            found=repr(cells[found].strip()),
        )
    )


def _left_out_notes(left_out: int, missing: Counter[str], *, is_cut: bool) -> list[Text]:
    notes: list[Text] = []
    if left_out:
        notes.append(say("{n} lines have no reading and were left out.", n=left_out))
    codes = [
        say("{code} ({n})", code=repr(code), n=n) for code, n in sorted(missing.items()) if code
    ]
    if codes:
        notes.append(say("Taken as no reading: {codes}.", codes=joined(", ", codes)))
    if is_cut:
        notes.append(say("The file ends within a line; that line was left out."))
    return notes


def _refused(layout: Layout, column: Column, wanted: Wanted, line: int, cell: str) -> LogError:
    assert column.quantity is not None
    return LogError(
        say(
            "{file}, line {line}, column {column}: the {quantity} is {found}; allowed is a number "
            "from {least} to {most} {unit}.",
            file=layout.name,
            line=line,
            column=repr(column.heading),
            quantity=QUANTITY_NAMES[column.quantity],
            found=repr(cell.strip()),
            least=figure(f"{wanted.lowest / column.scale:.9g}"),
            most=figure(f"{wanted.highest / column.scale:.9g}"),
            unit=column.unit or SI_UNITS[column.quantity],
        )
    )

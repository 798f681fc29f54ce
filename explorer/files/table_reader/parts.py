"""The readings of a table as numbers, part by part, so that a long file needs little memory."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

import numpy as np
from numpy.typing import NDArray

from explorer.files.progress import Progress
from explorer.files.table_reader.figures import CODES, MISSING, figures
from explorer.files.table_reader.headings import QUANTITY_NAMES, SI_UNITS, Column, Quantity
from explorer.files.table_reader.layout import Layout, Wanted
from explorer.files.table_reader.plain import PlainReader
from explorer.files.table_reader.rows import Rows
from explorer.files.table_reader.source import below
from explorer.files.table_reader.told import LogError
from explorer.files.table_reader.understanding import Understanding, stamp
from explorer.physics.arrays import FloatArray
from explorer.text import Text, figure, joined, say

LARGE_BYTES = 20_000_000
"""From this size on the columnar reader is used, which takes 0.3 s to load (own judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Some readings in the order of the file."""

    time_s: FloatArray
    """As they stand, since `PartReader.base`; shape (n,). [s]"""
    values: dict[Quantity, FloatArray]
    """In SI units, shape (n,) each."""
    lines: NDArray[np.int64]
    """Where each stands in the file, from 1; shape (n,)."""
    characters: int
    """Of the file, that these were read from."""


class PartReader:
    """Reads a table that is understood, and remembers what it had to leave out.

    Parameters
    ----------
    known : Understanding
        How the file is to be read.
    """

    def __init__(self, known: Understanding) -> None:
        self.known = known
        self.base: datetime | None = None
        """Date from which times count."""
        self.is_whole = True
        """Whether everything was read."""
        self._missing: Counter[str] = Counter()
        self._left_out, self._is_cut = 0, False

    def parts(self, progress: Progress, *, first_only: bool = False) -> Iterator[Part]:
        """The readings from the first to the last, or only the first part of them.

        Raises
        ------
        LogError
            A line cannot be read; the sentence names line and column.
        """
        file, layout = self.known.layout.file, self.known.layout
        plain = PlainReader(self.known) if file.size >= LARGE_BYTES else None
        for block in file.blocks():
            text, first = below(block, layout.first_line)
            found = None if plain is None else plain.read(text, self.base)
            if found is not None:
                lines = first + np.arange(len(found.time_s), dtype=np.int64)
                self._missing[""] += found.empty
                self.base = found.base
                yield self._part(found.time_s, found.values, lines, len(text))
            else:
                yield self._slow_part(self.known.rows.of(block), len(text))
            progress(block.share)
            if first_only:
                self.is_whole = block.is_last
                return

    @property
    def notes(self) -> list[Text]:
        """What was assumed and what was left out so far."""
        known = self.known
        notes = [*known.layout.notes, *(known.stamps.notes if known.stamps else ())]
        return notes + _left_out_notes(self._left_out, self._missing, is_cut=self._is_cut)

    def _part(
        self,
        time_s: FloatArray,
        values: dict[Quantity, FloatArray],
        lines: NDArray[np.int64],
        characters: int,
    ) -> Part:
        keep = _kept(values, self.known, len(lines))
        if not keep.all():
            self._left_out += int((~keep).sum())
            time_s, lines = time_s[keep], lines[keep]
            values = {q: column[keep] for q, column in values.items()}
        return Part(time_s=time_s, values=values, lines=lines, characters=characters)

    def _slow_part(self, rows: Rows, characters: int) -> Part:
        self._is_cut = self._is_cut or rows.is_cut
        values = _values_of(rows, self.known, self._missing)
        keep = _kept(values, self.known, len(rows.lines))
        time_s = np.full(len(keep), np.nan)
        time_s[keep], self.base = _times_of(rows, keep, self.known, self.base)
        return self._part(time_s, values, np.array(rows.lines, np.int64), characters)


def _values_of(
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


def _kept(
    values: dict[Quantity, FloatArray], known: Understanding, n: int
) -> NDArray[np.bool_]:
    """Which lines have every reading that is needed, shape (n,)."""
    keep = np.ones(n, bool)
    for wanted in known.wanted:
        if wanted.needed:
            keep &= ~np.isnan(values[wanted.quantity])
    return keep


def _times_of(
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

"""Where the table in a file begins, how its columns are parted and what they hold."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from explorer.files.table_reader.headings import (
    EXAMPLES,
    QUANTITY_NAMES,
    Column,
    Quantity,
    column_of,
    known_unit,
    scale_of,
)
from explorer.files.table_reader.source import TextFile, cells_of, opened
from explorer.files.table_reader.told import LogError, Question, Told, Undecided
from explorer.text import Text, say

_PREAMBLE = 200
"""Lines in which the line of names is looked for (own judgement)."""
_SHOWN = 120


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A quantity that a reader asks of a table."""

    quantity: Quantity
    lowest: float
    """Least value taken, in lx, V, A, W or °C."""
    highest: float
    needed: bool = True
    """Whether a file without it is refused, and a line without it left out."""
    without_unit: bool = False
    """Whether a heading that names no unit is taken to be in lx, V, A, W or °C."""
    preferred: tuple[str, ...] = ()
    """Words of a heading that is taken before others, the first before the second."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """The shape of a table."""

    file: TextFile
    name: str
    """Of the file."""
    delimiter: str
    width: int
    """Columns in the line of names."""
    first_line: int
    """Number of the first line below the names, and below a line of units."""
    time: Column | None
    date: Column | None
    """Where dates have a column of their own."""
    values: tuple[Column, ...]
    """Columns that are wanted and were found."""
    columns: tuple[Column, ...] = field(repr=False)
    """Every column."""
    notes: tuple[Text, ...] = ()
    """What was passed over."""

    @property
    def taken(self) -> tuple[Column, ...]:
        """Columns that are read: dates, times and values."""
        return tuple(c for c in (self.date, self.time, *self.values) if c is not None)


def layout_of(
    path: Path, wanted: Sequence[Wanted], told: Told, *, timed: bool, limit_bytes: int, what: str
) -> Layout:
    """Find the line of names and the columns.

    Parameters
    ----------
    path : pathlib.Path
        Table parted by commas, semicolons or tabs; a line ``sep=;`` may say so.
    wanted : sequence of Wanted
        Quantities to look for.
    told : Told
        Its `column` picks among several.
    timed : bool
        Whether a column of times is needed.
    limit_bytes, what
        As of `explorer.files.disk.read_text`.

    Raises
    ------
    LogError
        No text, no line of names, or a column is lacking.
    Undecided
        Several columns hold what is wanted.
    """
    file = opened(path, limit_bytes=limit_bytes, what=what)
    block = next(file.blocks(1 << 16), None)
    if block is None:  # somebody emptied it since it was opened
        raise LogError(say("{path} is empty; a {what} was expected.", path=path, what=what))
    lines = block.text.split("\n")[:_PREAMBLE]
    said = next((i for i, line in enumerate(lines) if line.strip()), 0)
    delimiters = ["\t", ";", ","]
    if lines[said].strip().strip('"').lower().startswith("sep="):
        delimiters = [lines[said].strip().strip('"')[4:5] or "\t"]
        lines[: said + 1] = [""] * (said + 1)
    needed = {w.quantity for w in wanted if w.needed}
    header = _header(lines, delimiters, needed, {w.quantity for w in wanted}, timed=timed)
    if header is None:
        raise _no_header(path, lines, delimiters, wanted, timed=timed, what=what)
    at, delimiter, columns = header
    columns = tuple(c for c in columns if c.heading or c.place < len(columns) - 1)
    first_line, units = _unit_line(lines, at, delimiter, columns, path.name)
    columns = tuple(units.get(c.place, c) for c in columns)
    values = tuple(c for w in wanted if (c := _choose(columns, w, told, path.name)) is not None)
    time, date = _times(columns)
    found = {c.quantity for c in values}
    passed = [c for w in wanted if w.quantity not in found for c in columns
              if c.quantity == w.quantity]  # fmt: skip
    return Layout(
        file=file,
        name=path.name,
        delimiter=delimiter,
        width=len(columns),
        first_line=first_line,
        time=time,
        date=date,
        values=values,
        columns=columns,
        notes=tuple(
            say(
                "The column “{column}” names no unit and was passed over; write it as “{example}”.",
                column=c.heading,
                example=EXAMPLES[c.quantity],
            )
            for c in passed
            if c.quantity is not None
        ),
    )


def _header(
    lines: Sequence[str],
    delimiters: Sequence[str],
    needed: set[Quantity],
    welcome: set[Quantity],
    *,
    timed: bool,
) -> tuple[int, str, tuple[Column, ...]] | None:
    """The first line whose cells name all that is needed, else the first that names some of it."""
    best: tuple[int, str, tuple[Column, ...]] | None = None
    for at, line in enumerate(lines):
        if not line.strip() or line.startswith("#"):
            continue
        for delimiter in delimiters:
            columns = _columns(line, delimiter)
            named = {c.quantity for c in columns}
            has_time = not timed or bool(named & {"time", "date"})
            if has_time and needed <= named and named & welcome:
                return at, delimiter, columns
            if best is None and len(columns) > 1 and has_time and (named & welcome or timed):
                best = at, delimiter, columns
    return best


def _columns(line: str, delimiter: str) -> tuple[Column, ...]:
    cells = cells_of(line, 1, delimiter, "")[1] if line.count('"') % 2 == 0 else []
    return tuple(column_of(cell, place) for place, cell in enumerate(cells[0] if cells else []))


def _unit_line(
    lines: Sequence[str], at: int, delimiter: str, columns: Sequence[Column], name: str
) -> tuple[int, dict[int, Column]]:
    """First line of readings, counted from 1, and the columns to which a line of units gave one."""
    for below in range(at + 1, len(lines)):
        line = lines[below]
        if not line.strip() or line.startswith("#"):
            continue
        cells = _columns(line, delimiter)
        if any(any(ch.isdigit() for ch in c.heading) for c in cells):
            break
        said = {c.place: unit for c in cells if (unit := known_unit(c.heading)) is not None}
        if not said:
            break
        found: dict[int, Column] = {}
        for column in columns:
            unit = said.get(column.place)
            hint = next((c.heading for c in cells if c.place == column.place), "").strip("()[]")
            if unit is None:
                if column.quantity in ("time", "date") and hint:
                    found[column.place] = replace(column, hint=hint.lower())
                continue
            quantity, scale = scale_of(unit)
            if column.unit not in (None, unit) or column.quantity not in (None, quantity):
                raise LogError(
                    say(
                        "{file}, line {line}: the column {column} is {one} by its name and {other} "
                        "by the line of units; make them agree.",
                        file=name,
                        line=below + 1,
                        column=repr(column.heading),
                        one=column.unit or QUANTITY_NAMES[str(column.quantity)],
                        other=unit,
                    )
                )
            found[column.place] = replace(column, quantity=quantity, unit=unit, scale=scale)
        return below + 2, found
    return at + 2, {}


def _choose(columns: Sequence[Column], wanted: Wanted, told: Told, name: str) -> Column | None:
    """The column that holds a quantity; None where none does and none is needed."""
    fits = [c for c in columns if c.quantity == wanted.quantity]
    with_unit = [c for c in fits if c.unit is not None or wanted.without_unit]
    if told.column is not None:
        name_told = told.column.strip().lower()
        chosen = [c for c in with_unit if name_told in (c.heading.lower(), str(c.place + 1))]
        with_unit = chosen or with_unit
    if not with_unit:
        if fits and wanted.needed:
            raise LogError(
                say(
                    "{file}: the column {column} names no unit; write it into its heading, such "
                    "as “{example}”.",
                    file=name,
                    column=repr(fits[0].heading),
                    example=EXAMPLES[wanted.quantity],
                )
            )
        if wanted.needed:
            raise _lacks(name, columns, wanted.quantity)
        return None
    ranks = [_rank(c, wanted) for c in with_unit]
    best = [c for c, rank in zip(with_unit, ranks, strict=True) if rank == min(ranks)]
    if len(best) > 1:
        once = len({c.heading.lower() for c in best}) == len(best)
        raise Undecided(
            say(
                "{file} has {n} columns of {quantity}, and it must be told which to take.",
                file=name,
                n=len(best),
                quantity=QUANTITY_NAMES[wanted.quantity],
            ),
            Question(
                about="column",
                choices=tuple(
                    (c.heading if once else str(c.place + 1), say("column {n}", n=c.place + 1))
                    for c in best
                ),
            ),
        )
    return best[0]


def _rank(column: Column, wanted: Wanted) -> int:
    """Place among the preferred; a heading that is the unit or its name alone is the next best."""
    words = column.words
    for rank, word in enumerate(wanted.preferred):
        if word in words:
            return rank
    return len(wanted.preferred)


def _times(columns: Sequence[Column]) -> tuple[Column | None, Column | None]:
    """Columns of times and of dates; one that holds both comes first."""
    times = [c for c in columns if c.quantity == "time"]
    dates = [c for c in columns if c.quantity == "date"]
    both = [
        c for c in times
        if {"timestamp", "datetime", "zeitstempel"} & set(c.words)
        or {"date", "datum"} & set(c.words)
    ]  # fmt: skip
    if both:
        return both[0], None
    if not times:
        return (dates[0], None) if dates else (None, None)
    if not dates:
        return times[0], None
    clocks = [c for c in times if c.unit is None]
    return (clocks[0], dates[0]) if clocks else (times[0], None)


def _no_header(
    path: Path,
    lines: Sequence[str],
    delimiters: Sequence[str],
    wanted: Sequence[Wanted],
    *,
    timed: bool,
    what: str,
) -> LogError:
    name = path.name
    used = [line for line in lines if line.strip() and not line.startswith("#")]
    if not used:
        return LogError(
            say("{file} holds only remarks; a {what} was expected.", file=name, what=what)
        )
    delimiter = max(delimiters, key=used[0].count)
    columns = _columns(used[0], delimiter)
    if columns and not any(any(ch.isalpha() for ch in c.heading) for c in columns):
        return LogError(
            say(
                "{file} begins with numbers; a line of names must stand above them, such as "
                "“{example}”.",
                file=name,
                example=", ".join(
                    [*(["time"] if timed else []), *(EXAMPLES[w.quantity] for w in wanted)]
                ),
            )
        )
    named = {c.quantity for c in columns}
    if timed and not named & {"time", "date"}:
        return _lacks(name, columns, "time")
    lacking = next((w.quantity for w in wanted if w.quantity not in named), wanted[0].quantity)
    return _lacks(name, columns, lacking)


def _lacks(name: str, columns: Sequence[Column], quantity: Quantity) -> LogError:
    return LogError(
        say(
            "{file} has no column of {quantity}; its columns are {names}. A heading names the "
            "quantity and its unit, such as “{example}”.",
            file=name,
            quantity=QUANTITY_NAMES[quantity],
            names=", ".join(" ".join(c.heading.split()) for c in columns)[:_SHOWN] or "–",
            example=EXAMPLES[quantity],
        )
    )

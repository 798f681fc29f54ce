"""What a file as a whole says about how it is to be read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from explorer.files.table_reader.figures import CODES, figures, mark_of
from explorer.files.table_reader.layout import Layout, Wanted, layout_of
from explorer.files.table_reader.moments import moment
from explorer.files.table_reader.rows import TableRows
from explorer.files.table_reader.stamps import Stamps, is_number, stamps_of
from explorer.files.table_reader.told import DecimalMark, Question, Told, Undecided
from explorer.text import Text, figure, say


@dataclass(frozen=True, slots=True, kw_only=True)
class Understanding:
    """What a file as a whole says about how it is to be read."""

    rows: TableRows
    layout: Layout
    wanted: tuple[Wanted, ...]
    mark: DecimalMark
    stamps: Stamps | None
    """None for a table without times."""


def understand(
    path: Path, wanted: Sequence[Wanted], told: Told, *, what: str, timed: bool, limit_bytes: int
) -> Understanding:
    """What a file as a whole says about how it is to be read; arguments as `read_readings`.

    Raises
    ------
    Undecided, LogError
        As `read_readings`.
    """
    layout = layout_of(path, wanted, told, timed=timed, limit_bytes=limit_bytes, what=what)
    layout = _with_one_time(layout, TableRows(layout))
    rows = TableRows(layout)
    mark = _mark(rows, wanted, told)
    stamps = None
    if timed:
        time = layout.time or layout.date
        assert time is not None
        stamps = stamps_of(lambda: _stamps(rows), time, told, mark, layout.name)
    return Understanding(rows=rows, layout=layout, wanted=tuple(wanted), mark=mark, stamps=stamps)


def stamp(layout: Layout, row: Sequence[str]) -> str:
    """The time of a line, with its date before it where that has a column of its own."""
    time, date = layout.time or layout.date, layout.date
    assert time is not None
    cell = row[time.place].strip()
    if date is None or date is time:
        return cell
    if cell.isdigit():
        cell = cell.zfill(4 if len(cell) <= 4 else 6)  # 80500 is 08:05:00
    return f"{row[date.place].strip()} {cell}"


def _stamps(table: TableRows) -> Iterator[str]:
    for rows in table.blocks():
        yield from (stamp(table.layout, row) for row in rows.cells)


def _with_one_time(layout: Layout, table: TableRows) -> Layout:
    """The layout without a column of dates where the times have theirs, or the other way round."""
    if layout.date is None or layout.time is None:
        return layout
    if any(":" in cell for cell in table.sample(layout.date.place)):
        return replace(layout, time=layout.date, date=None)
    clocks = table.sample(layout.time.place)
    dated = [moment(cell, "dmy") is not None and not is_number(cell) for cell in clocks]
    return replace(layout, date=None) if dated and all(dated) else layout


def _mark(table: TableRows, wanted: Sequence[Wanted], told: Told) -> DecimalMark:
    """The decimal mark of the whole file.

    Raises
    ------
    Undecided
        Every number in it can be read both ways, and both are allowed.
    """
    layout = table.layout
    if told.decimal is not None:
        return told.decimal
    if layout.delimiter == "," and not layout.file.has_quotes:
        return "point"  # a file that parts its columns by commas has them nowhere else
    columns = [column.place for column in layout.values]
    if layout.time is not None and all(map(is_number, table.sample(layout.time.place))):
        columns.append(layout.time.place)
    evidence = mark_of([table.column(place) for place in columns])
    if evidence.mark is not None:
        return evidence.mark
    if evidence.example is None:
        return "point"
    others = [c.place for c in layout.columns if c.place not in columns]
    if (more := mark_of([table.column(place) for place in others]).mark) is not None:
        return more
    points, commas = _within(table, wanted, "point"), _within(table, wanted, "comma")
    if points != commas:
        return "point" if points else "comma"
    parted = evidence.example.replace(",", ".")
    whole = parted.replace(".", "")
    by_comma = "," in evidence.example
    raise Undecided(
        say(
            "{file} has numbers such as {found}, and none that tells whether its mark parts "
            "decimals or thousands.",
            file=layout.name,
            found=evidence.example,
        ),
        Question(
            about="decimal",
            choices=(
                ("comma", _means(evidence.example, parted if by_comma else whole)),
                ("point", _means(evidence.example, whole if by_comma else parted)),
            ),
        ),
    )


def _means(found: str, value: str) -> Text:
    return say("{found} is {value}", found=found, value=figure(value))


def _within(table: TableRows, wanted: Sequence[Wanted], mark: DecimalMark) -> bool:
    """Whether all values lie within what is allowed, read with one decimal mark."""
    limits = {w.quantity: w for w in wanted}
    for column in table.layout.values:
        assert column.quantity is not None
        one = limits[column.quantity]
        values = figures(list(table.column(column.place)), mark)[0] * column.scale
        values = values[~np.isin(values, CODES)]
        if bool(((values < one.lowest) | (values > one.highest)).any()):
            return False
    return True

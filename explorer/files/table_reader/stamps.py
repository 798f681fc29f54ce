"""The times of a table, in whatever way they are counted, as seconds."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from itertools import islice
from typing import Literal

import numpy as np

from explorer.files.table_reader.figures import figure_of, figures
from explorer.files.table_reader.headings import Column
from explorer.files.table_reader.moments import date_order, moment, moments
from explorer.files.table_reader.told import (
    Clock,
    DateOrder,
    DecimalMark,
    Question,
    Told,
    Undecided,
)
from explorer.physics.arrays import FloatArray
from explorer.text import Text, say

Kind = Literal["elapsed", "epoch", "serial", "dated", "clock"]

LATEST_S = 1e11
"""Latest time taken, some three thousand years."""
_EPOCHS = ((1.0, 5e8, 5e9), (1e-3, 5e11, 5e12), (1e-6, 5e14, 5e15), (1e-9, 5e17, 5e18))
"""Size of the unit, and the numbers that are dates from 1985 to 2128 in it."""
_SERIAL_FROM, _SERIAL_TO = 20_000.0, 80_000.0
"""Spreadsheet dates from 1954 to 2119."""
_SERIAL_ZERO = datetime(1899, 12, 30)
"""Day 0 of spreadsheets: so day 61 is 1 March 1900 (ECMA-376, part 1, 18.17.4.1, from memory)."""
_DAY_S = 86_400.0
_CLOCK = re.compile(
    r"(\d{1,7}):([0-5]\d)(?::([0-5]\d))?(?:[.,](\d{1,9}))?\s*([aApP]\.?\s?[mM]\.?)?"
)
_TWO_PARTS = re.compile(r"\d+:\d\d(?:[.,]\d+)?")
_NUMBER = re.compile(r"[+-]?[\d.,' ]*\d[\d.,' ]*(?:[eE][+-]?\d+)?")
_SAMPLE = 100
_DATE_WORDS = frozenset({"date", "datum", "datetime", "timestamp", "zeitstempel"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamps:
    """How a file writes its times."""

    kind: Kind
    scale: float = 1.0
    """Size of one unit of a number. [s]"""
    order: DateOrder | None = None
    """Of day and month in dates."""
    clock: Clock = "h:mm"
    """What two numbers with a colon are."""
    notes: tuple[Text, ...] = ()

    def read(
        self, cells: Sequence[str], mark: DecimalMark, base: datetime | None
    ) -> tuple[FloatArray, datetime | None] | int:
        """Seconds of some cells, or the place of the first that is no time.

        Parameters
        ----------
        cells : sequence of str
            Shape (n,).
        mark : {"point", "comma"}
            Decimal mark of numbers.
        base : datetime or None
            Date from which seconds count; None takes the first of these cells.

        Returns
        -------
        tuple
            Seconds, shape (n,), and the date from which they count; None where the file has none.

        Raises
        ------
        TypeError
            Some dates have a time zone and some have none.
        """
        if self.kind == "dated":
            return _dated(cells, self.order, base)
        if self.kind == "clock":
            return _clocks(cells, self.clock)
        if self.kind == "serial":
            cells = [_summed(cell, mark) for cell in cells]
        values, unread = figures(cells, mark)
        if unread.size:
            return int(unread[0])
        seconds, base = self.of_numbers(values, base)
        fits = np.isfinite(seconds)
        return (seconds, base) if fits.all() else int(np.argmin(fits))

    def of_numbers(
        self, values: FloatArray, base: datetime | None
    ) -> tuple[FloatArray, datetime | None]:
        """Seconds of some numbers since a date, NaN where one is no time; arguments as `read`."""
        seconds = values * self.scale
        seconds[~(np.abs(seconds) <= LATEST_S)] = np.nan
        if self.kind == "elapsed" or not len(seconds) or np.isnan(seconds[0]):
            return seconds, base
        if self.kind == "serial":
            seconds = np.round(seconds, 3)  # a day's fraction is written with some 10 digits
            zero, first = _SERIAL_ZERO, _SERIAL_ZERO + timedelta(seconds=float(seconds[0]))
        else:
            zero = datetime(1970, 1, 1, tzinfo=UTC)
            first = zero + timedelta(seconds=float(seconds[0]))
        base = base or first
        return seconds - (base - zero).total_seconds(), base


def stamps_of(
    cells: Callable[[], Iterable[str]], column: Column, told: Told, mark: DecimalMark, name: str
) -> Stamps:
    """How a file writes its times, by all of them.

    Parameters
    ----------
    cells : callable
        Gives the times of the file from the beginning, with their dates before them.
    column : Column
        Heading of the times.
    told, name
        What a person said, and the name of the file.
    mark : {"point", "comma"}
        Decimal mark of numbers.

    Raises
    ------
    Undecided
        Days and months, or hours and minutes, cannot be told apart.
    """
    sample = list(islice((cell.strip() for cell in cells() if cell.strip()), _SAMPLE))
    if not sample:
        return Stamps(kind="elapsed")
    first = sample[0]
    if is_number(first):
        return _numbers(sample, column, mark)
    if len(parts := first.split()) == 2 and all(is_number(p) for p in parts) and _serial(first):
        return Stamps(kind="serial", scale=_DAY_S)
    if _CLOCK.fullmatch(first):
        return _clock(cells, column, told, name)
    return Stamps(kind="dated", order=date_order(cells(), told.dates, column.hint, name))


def is_number(cell: str) -> bool:
    """Whether a cell can be a number in either style.

    Examples
    --------
    >>> is_number("1,234.5"), is_number("12:30")
    (True, False)
    """
    return _NUMBER.fullmatch(cell.strip()) is not None and " " not in cell.strip()


def _numbers(sample: Sequence[str], column: Column, mark: DecimalMark) -> Stamps:
    values = [figure_of(cell, mark) for cell in sample]
    first = values[0]
    if first is None:
        return Stamps(kind="elapsed")
    utc = say("The times count from 1970 in UTC, so the hours of the day are those of UTC.")
    if column.unit is not None:
        for _, low, high in _EPOCHS[:1]:
            if low <= first * column.scale <= high:
                return Stamps(kind="epoch", scale=column.scale, notes=(utc,))
        return Stamps(kind="elapsed", scale=column.scale)
    compact = moment(sample[0], None) if sample[0].isdigit() else None
    if compact is not None and 1950 <= compact.year <= 2100:
        return Stamps(kind="dated")
    for scale, low, high in _EPOCHS:
        if low <= first <= high:
            return Stamps(kind="epoch", scale=scale, notes=(utc,))
    if _SERIAL_FROM <= first <= _SERIAL_TO:
        known = np.array([value for value in values if value is not None])
        fine = bool((np.abs(np.diff(known)) < 1.0).all()) and bool((known % 1.0 > 0.0).any())
        if fine or _DATE_WORDS & set(column.words):
            found = _SERIAL_ZERO + timedelta(seconds=round(first * _DAY_S))
            note = say(
                "The times are spreadsheet dates: {found} is {date}.",
                found=sample[0],
                date=f"{found:%Y-%m-%d %H:%M:%S}",
            )
            return Stamps(kind="serial", scale=_DAY_S, notes=(note,))
    note = say("The times name no unit and are taken as seconds.")
    return Stamps(kind="elapsed", notes=(note,))


def _serial(cell: str) -> bool:
    """Whether date and time beside each other are a spreadsheet's day and fraction of a day."""
    day, share = (part.replace(",", ".") for part in cell.split())
    try:
        return _SERIAL_FROM <= float(day) <= _SERIAL_TO and 0.0 <= float(share) < 1.0
    except ValueError:
        return False


def _summed(cell: str, mark: DecimalMark) -> str:
    """Day and fraction of a day as one number."""
    parts = cell.split()
    if len(parts) != 2:
        return cell
    values = [figure_of(part, mark) for part in parts]
    total = sum(value for value in values if value is not None)
    return cell if None in values else repr(total).replace(".", "," if mark == "comma" else ".")


def _clock(
    cells: Callable[[], Iterable[str]], column: Column, told: Told, name: str
) -> Stamps:
    """Stop-watch times or times of day: what two numbers with a colon are."""
    note = say("The times have no date, so the first reading stands at Monday 00:00.")
    stamps = Stamps(kind="clock", notes=(note,))
    hint = column.hint.replace(" ", "")
    if hint.endswith(("h:mm", "hh:mm", ":ss", ":sec")):
        seconds = hint.endswith(("ss", "sec")) and hint.count(":") == 1
        return replace(stamps, clock="mm:ss" if seconds else "h:mm")
    first = next(cell for cell in cells() if cell.strip())
    if not _TWO_PARTS.match(first.strip()) or first.count(":") == 2:
        return stamps
    two: str | None = None
    for cell in cells():
        text = cell.strip()
        if _TWO_PARTS.fullmatch(text):
            two = two or text
            if "." in text or "," in text:
                return replace(stamps, clock="mm:ss")
        elif two is not None and _CLOCK.fullmatch(text):
            # 59:59 is followed by 1:00:00 on a stop-watch; AM and PM have a clock.
            return replace(stamps, clock="h:mm" if text[-1] in "mM." else "mm:ss")
    if two is None or told.clock is not None:
        return replace(stamps, clock=told.clock or "h:mm")
    raise Undecided(
        say(
            "{file} has times such as {time}, which may be hours and minutes or minutes and "
            "seconds.",
            file=name,
            time=two,
        ),
        Question(
            about="clock",
            choices=(("h:mm", say("hours and minutes")), ("mm:ss", say("minutes and seconds"))),
        ),
    )


def _clocks(cells: Sequence[str], clock: Clock) -> tuple[FloatArray, None] | int:
    seconds = np.empty(len(cells))
    for place, cell in enumerate(cells):
        match = _CLOCK.fullmatch(cell.strip())
        if match is None:
            return place
        first, second, third, fraction, half = match.groups()
        if half:
            first = str(int(first) % 12 + (12 if half[0] in "pP" else 0))
        if third is None and clock == "mm:ss":
            value = int(first) * 60.0 + int(second)
        else:
            value = int(first) * 3600.0 + int(second) * 60.0 + int(third or 0)
        seconds[place] = value + (float("0." + fraction) if fraction else 0.0)
    return seconds, None


def _dated(
    cells: Sequence[str], order: DateOrder | None, base: datetime | None
) -> tuple[FloatArray, datetime | None] | int:
    found = moments(cells, order)
    if isinstance(found, int):
        return found
    start = base or found[0]
    return np.array([(value - start).total_seconds() for value in found]), start

"""A year of quarter hours at a place: the clock on its wall, dates and weekdays."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from explorer.text import Text, figure, say, texts

MONTH_NAMES: dict[int, str] = texts({
    1: "January", 2: "February", 3: "March", 4: "April", 5: "May", 6: "June", 7: "July",
    8: "August", 9: "September", 10: "October", 11: "November", 12: "December",
})  # fmt: skip

STEP_S = 900.0
"""Clocks of all time zones differ by whole quarter hours, so that steps lie on them alike. [s]"""
DAY_S = 86_400.0
_MOST_LETTERS = 40
"""Of a wrong text that a sentence shows."""
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_DATE = re.compile(r"(\d\d)-(\d\d)")
_CLOCK = re.compile(r"(\d\d):(\d\d)")
_LEAP_YEAR = 2000


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class YearClock:
    """Steps of one calendar year and what the clock on the wall says at the beginning of each."""

    start: datetime
    """1 January, 00:00, by the clock on the wall, without a zone."""
    utc_s: NDArray[np.float64]
    """Seconds since 1970-01-01 00:00 UTC, shape (n,). [s]"""
    shift_s: NDArray[np.float64]
    """The clock ahead of what it would say without any change since 1 January, shape (n,). [s]"""

    @property
    def civil_s(self) -> NDArray[np.float64]:
        """Time since 1 January 00:00 as the clock on the wall counts it, shape (n,). [s]"""
        return np.arange(self.utc_s.size) * STEP_S + self.shift_s

    @property
    def day(self) -> NDArray[np.int64]:
        """Day of the year by the clock, 0 on 1 January, shape (n,)."""
        last = _days_in(self.start.year) - 1
        return np.clip(self.civil_s // DAY_S, 0, last).astype(np.int64)

    @property
    def month(self) -> NDArray[np.int64]:
        """Month by the clock, 0 in January, shape (n,)."""
        return month_of_days(self.start.year)[self.day]

    @property
    def weekday(self) -> NDArray[np.int64]:
        """Weekday by the clock, 0 on Monday, shape (n,)."""
        return (self.start.weekday() + self.day) % 7


@lru_cache(maxsize=8)
def year_clock(year: int, zone: str) -> YearClock:
    """The year by the clock of a time zone, named as in the IANA data base."""
    place = ZoneInfo(zone)
    begin, end = (
        (datetime(y, 1, 1, tzinfo=place) - _EPOCH).total_seconds() for y in (year, year + 1)
    )
    utc_s = np.arange(begin, end, STEP_S)
    # Clocks change on the hour or half hour of UTC, so every second step tells.
    offsets = [
        (datetime.fromtimestamp(s, place).utcoffset() or timedelta()).total_seconds()
        for s in utc_s[::2].tolist()
    ]
    offset_s = np.repeat(offsets, 2)[: utc_s.size]
    shift_s = offset_s - offset_s[0]
    for array in (utc_s, shift_s):
        array.setflags(write=False)
    return YearClock(start=datetime(year, 1, 1), utc_s=utc_s, shift_s=shift_s)


def utc_of(year: int, month_day: str, clock: str, zone: str) -> float:
    """Seconds since 1970 UTC of a time by the clock of a zone. [s]"""
    day = dated(year, month_day)
    hour, minute = (int(part) for part in clock.split(":"))
    moment = datetime(day.year, day.month, day.day, hour, minute, tzinfo=ZoneInfo(zone))
    return (moment - _EPOCH).total_seconds()


def days_between(year: int, first: str, last: str) -> NDArray[np.bool_]:
    """Which days of a year lie in a range of dates, both ends included; it may pass New Year.

    Examples
    --------
    >>> int(days_between(2026, "12-24", "01-06").sum())
    14
    """
    n = np.arange(_days_in(year))
    a, b = (dated(year, d).timetuple().tm_yday - 1 for d in (first, last))
    return (n >= a) & (n <= b) if a <= b else (n >= a) | (n <= b)


def month_of_days(year: int) -> NDArray[np.int64]:
    """Month of each day of a year, 0 in January."""
    lengths = [(date(year + m // 12, m % 12 + 1, 1) - date(year, m, 1)).days for m in range(1, 13)]
    return np.repeat(np.arange(12), lengths)


def dated(year: int, month_day: str) -> date:
    """A date in a year; 29 February counts as 28 February where there is none.

    Examples
    --------
    >>> dated(2026, "02-29").isoformat()
    '2026-02-28'
    """
    month, day = (int(part) for part in month_day.split("-"))
    if (month, day) == (2, 29) and _days_in(year) == 365:
        day = 28
    return date(year, month, day)


def _found(text: str) -> str:
    """A text in quotes, shortened: a file may say megabytes in the place of a date."""
    return repr(text if len(text) <= _MOST_LETTERS else text[: _MOST_LETTERS - 1] + "…")


def date_text(day: date) -> Text:
    """A date without its year as a person says it."""
    return say("{day} {month}", day=figure(f"{day.day}"), month=MONTH_NAMES[day.month])


def date_in_words(text: str) -> Text:
    """A date such as 12-24 of a file as a person says it.

    Examples
    --------
    >>> date_in_words("02-29")
    '29 February'
    """
    return date_text(dated(_LEAP_YEAR, text))


def date_fault(key: str, text: str) -> Text | None:
    """What is wrong with a date such as 12-24, else None."""
    found = _DATE.fullmatch(text)
    if found:
        try:
            date(_LEAP_YEAR, int(found[1]), int(found[2]))
        except ValueError:
            pass
        else:
            return None
    return say(
        "{key} ({found}) is no date; write month and day with two figures each, such as 12-24",
        key=key, found=_found(text),
    )


def clock_fault(key: str, text: str) -> Text | None:
    """What is wrong with a time of day such as 14:10, else None."""
    found = _CLOCK.fullmatch(text)
    if found and int(found[1]) < 24 and int(found[2]) < 60:
        return None
    return say(
        "{key} ({found}) is no time of day; write hour and minute with two figures each, such as "
        "14:10",
        key=key, found=_found(text),
    )


def zone_fault(zone: str) -> Text | None:
    """What is wrong with a time zone, else None."""
    try:
        ZoneInfo(zone)
    except (ValueError, OSError, KeyError):
        return say(
            "time_zone ({found}) is no time zone; write a name of the IANA data base, such as "
            "Europe/Berlin or Etc/UTC",
            found=_found(zone),
        )
    return None


def first_fault(faults: Iterable[Text | None]) -> None:
    """Raise the first fault of several as a ValueError."""
    for fault in faults:
        if fault is not None:
            raise ValueError(fault)


def _days_in(year: int) -> int:
    return (date(year + 1, 1, 1) - date(year, 1, 1)).days

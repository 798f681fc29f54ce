"""Dates and times of day as loggers and spreadsheets write them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import UTC, datetime, timedelta, timezone

from explorer.files.table_reader.told import DateOrder, Question, Undecided
from explorer.text import Text, say

_MONTHS = (
    "jan", "feb", "mar mär mrz", "apr", "may mai", "jun", "jul", "aug", "sep", "oct okt", "nov",
    "dec dez",
)  # fmt: skip
_MONTH_OF = {name: n for n, names in enumerate(_MONTHS, start=1) for name in names.split()}
_CLOCK = (
    r"(?P<h>\d{1,2}):(?P<m>\d{2})(?::(?P<s>\d{2})(?:[.,](?P<f>\d{1,9}))?)?"
    r"\s*(?P<half>[aApP]\.?\s?[mM]\.?)?\s*(?P<zone>Z|UTC|GMT|[+-]\d{2}:?\d{2})?"
)
_NUMBERED = re.compile(
    r"(?P<a>\d{1,4})(?P<mark>[./-])(?P<b>\d{1,2})(?P=mark)(?P<c>\d{1,4})(?:(?:\s*[T,]\s*|\s+)"
    + _CLOCK
    + r")?"
)
_WORDED = re.compile(
    r"(?:[A-Za-z]{2,9}\.?,\s*)?(?:(?P<a>\d{1,2})\.?[\s-]*(?P<name>[A-Za-zä]{3,9})\.?"
    r"|(?P<name2>[A-Za-zä]{3,9})\.?\s*(?P<a2>\d{1,2}))[,\s-]*(?P<c>\d{4}|\d{2})"
    r"(?:(?:\s*[T,]\s*|\s+)" + _CLOCK + r")?"
)
_COMPACT = re.compile(r"(\d{4})(\d{2})(\d{2})(?:[T\s_-]?(\d{2})(\d{2})(\d{2})?)?")


def date_order(
    cells: Iterable[str], told: DateOrder | None, hint: str, name: str
) -> DateOrder | None:
    """The order of day and month in a file, by any day above 12; None where years come first.

    Parameters
    ----------
    cells : iterable of str
        Every time or date of the file.
    told : {"dmy", "mdy"} or None
        What a person said; it decides where the file does not.
    hint : str
        What the heading says of its form, such as ``dd/mm/yyyy``.
    name : str
        Of the file.

    Raises
    ------
    Undecided
        Both orders are possible and give different dates.

    Examples
    --------
    >>> date_order(["03/04/2024", "13/04/2024"], None, "", "x.csv")
    'dmy'
    """
    open_: str | None = None
    for cell in cells:
        text = cell.strip()
        match = _NUMBERED.match(text)
        if not text:
            continue
        if match is None or len(match["a"]) > 2:
            return None
        if match["mark"] == ".":
            return "dmy"  # points are written after days (DIN 1355, from memory)
        first, second = int(match["a"]), int(match["b"])
        if first > 12:
            return "dmy"
        if second > 12:
            return "mdy"
        if first != second:
            open_ = open_ or match[0].split()[0]
    if told is not None or open_ is None:
        return told or "dmy"
    day, month = hint.find("d"), hint.find("m")
    if min(day, month) >= 0 and "y" in hint:
        return "dmy" if day < month else "mdy"
    choices: list[tuple[str, Text]] = []
    for order in ("dmy", "mdy"):
        found = moment(open_, "dmy" if order == "dmy" else "mdy")
        if found is not None:
            choices.append(
                (order, say("{found} is {date}", found=open_, date=f"{found:%Y-%m-%d}"))
            )
    raise Undecided(
        say(
            "{file} has dates such as {date}, and no day in it is above 12, so it is not known "
            "whether the day or the month comes first.",
            file=name,
            date=open_,
        ),
        Question(about="dates", choices=tuple(choices)),
    )


def moment(cell: str, order: DateOrder | None) -> datetime | None:
    """The date and time of a cell; None where it is none that exists.

    Examples
    --------
    >>> moment("6.5.2024 08:05", "dmy")
    datetime.datetime(2024, 5, 6, 8, 5)
    >>> moment("05/06/24 12:30:00 PM", "mdy")
    datetime.datetime(2024, 5, 6, 12, 30)
    >>> moment("20240506080500", None), moment("31/02/2024", "dmy")
    (datetime.datetime(2024, 5, 6, 8, 5), None)
    """
    text = cell.strip()
    try:
        if match := _NUMBERED.fullmatch(text):
            return _numbered(match, order)
        if match := _WORDED.fullmatch(text):
            month = _MONTH_OF.get((match["name"] or match["name2"])[:3].lower())
            if month is None:
                return None
            return _with_clock(match, _year(match["c"]), month, int(match["a"] or match["a2"]))
        if match := _COMPACT.fullmatch(text):
            return datetime(*(int(part) for part in match.groups() if part is not None))  # type: ignore[arg-type]
        return datetime.fromisoformat(text)
    except ValueError:
        return None


def moments(cells: Sequence[str], order: DateOrder | None) -> list[datetime] | int:
    """Dates and times of a column, or the place of the first cell that is none."""
    if order is None:
        try:
            # The plain form first, which Python reads ten times as fast.
            return [datetime.fromisoformat(cell.strip()) for cell in cells]
        except ValueError:
            pass
    found: list[datetime] = []
    for place, cell in enumerate(cells):
        value = moment(cell, order)
        if value is None:
            return place
        found.append(value)
    return found


def _numbered(match: re.Match[str], order: DateOrder | None) -> datetime | None:
    a, b, c = match["a"], int(match["b"]), match["c"]
    if len(a) > 2:
        return _with_clock(match, int(a), b, int(c)) if len(a) == 4 else None
    if len(c) not in (2, 4) or order is None:
        return None
    day, month = (int(a), b) if order == "dmy" else (b, int(a))
    return _with_clock(match, _year(c), month, day)


def _year(text: str) -> int:
    """Two digits are a year of this century."""
    return int(text) + (2000 if len(text) == 2 else 0)


def _with_clock(match: re.Match[str], year: int, month: int, day: int) -> datetime:
    date = datetime(year, month, day)
    if match["h"] is None:
        return date
    hour, half = int(match["h"]), match["half"]
    if half:
        if not 1 <= hour <= 12:
            raise ValueError
        hour = hour % 12 + (12 if half[0] in "pP" else 0)
    minute, second = int(match["m"]), int(match["s"] or 0)
    ends_day = hour == 24 and minute == second == 0
    if (hour > 23 and not ends_day) or minute > 59 or second > 59:
        raise ValueError
    micro = int((match["f"] or "0").ljust(6, "0")[:6])
    found = date + timedelta(hours=hour, minutes=minute, seconds=second, microseconds=micro)
    zone = match["zone"]
    if zone is None:
        return found
    if zone in ("Z", "UTC", "GMT"):
        return found.replace(tzinfo=UTC)
    sign = -1 if zone[0] == "-" else 1
    away = sign * timedelta(hours=int(zone[1:3]), minutes=int(zone[-2:]))
    return found.replace(tzinfo=timezone(away))

"""Dates and times of day as loggers and spreadsheets write them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime, timedelta, timezone

from explorer.files.table_reader.told import DateOrder, Question, Undecided
from explorer.text import say

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
    """The order of day and month in a file, by all of its dates; None where no numbers are open.

    Parameters
    ----------
    cells : iterable of str
        Every time or date of the file.
    told : {"dmy", "mdy", "ymd"} or None
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
    orders: list[DateOrder] = ["dmy", "mdy", "ymd"]
    differs: dict[tuple[DateOrder, ...], str] = {}
    """Dates that the orders still possible do not agree on."""
    for cell in cells:
        match = _NUMBERED.match(cell.strip())
        if match is None or len(match["a"]) > 2:
            if cell.strip():
                return None
            continue
        if match["mark"] == ".":
            return "dmy"  # points are written after days (DIN 1355, from memory)
        read = {order: _numbered_date(match, order) for order in orders}
        orders = [order for order in orders if read[order] is not None]
        if len(orders) < 2:
            return orders[0] if orders else "dmy"  # the line that is no date is named later
        if len({read[order] for order in orders}) > 1:
            differs.setdefault(tuple(orders), match[0].split()[0])
    if told is not None or not differs:
        return told or "dmy"
    from_hint = "".join(dict.fromkeys(letter for letter in hint if letter in "dmy"))
    for order in orders:
        if from_hint.startswith(order):
            return order
    example = differs.get(tuple(orders)) or next(iter(differs.values()))
    raise Undecided(
        say(
            "{file} has dates such as {date}, and nothing in it tells which of the numbers is the "
            "day, the month or the year.",
            file=name,
            date=example,
        ),
        Question(
            about="dates",
            choices=tuple(
                (order, say("{found} is {date}", found=example, date=f"{found:%Y-%m-%d}"))
                for order in orders
                if (found := moment(example, order)) is not None
            ),
        ),
    )


def _numbered_date(match: re.Match[str], order: DateOrder) -> date | None:
    """The date that three numbers are in one order; None where it is none."""
    a, b, c = match["a"], int(match["b"]), match["c"]
    if order == "ymd":
        year, month, day = a, b, int(c)
        if len(c) > 2:
            return None
    else:
        year = c
        day, month = (int(a), b) if order == "dmy" else (b, int(a))
    if len(year) not in (2, 4):
        return None
    try:
        return date(_year(year), month, day)
    except ValueError:
        return None


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
    by = "ymd" if len(match["a"]) == 4 else order
    found = None if by is None else _numbered_date(match, by)
    return None if found is None else _with_clock(match, found.year, found.month, found.day)


def _year(text: str) -> int:
    """Two digits are a year of this century."""
    return int(text) + (2000 if len(text) == 2 else 0)


def _with_clock(match: re.Match[str], year: int, month: int, day: int) -> datetime:
    midnight = datetime(year, month, day)
    if match["h"] is None:
        return midnight
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
    found = midnight + timedelta(hours=hour, minutes=minute, seconds=second, microseconds=micro)
    zone = match["zone"]
    if zone is None:
        return found
    if zone in ("Z", "UTC", "GMT"):
        return found.replace(tzinfo=UTC)
    sign = -1 if zone[0] == "-" else 1
    away = sign * timedelta(hours=int(zone[1:3]), minutes=int(zone[-2:]))
    return found.replace(tzinfo=timezone(away))

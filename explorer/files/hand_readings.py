"""Readings that a person writes down: cells as typed, kept as a logged run."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from pathlib import Path

from explorer.files.bench_log import HIGHEST_V, LOWEST_V
from explorer.files.disk import MEGABYTE, FileError, read_text, write_text
from explorer.files.logs import BRIGHTEST_LX
from explorer.quantity import parse, show
from explorer.text import say

ENDING = "by hand.csv"
"""How the name of such a file ends."""
REMARK = "# Readings by hand"
COLUMNS = "time,store_V,lux"
LIMIT_BYTES = MEGABYTE
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,6}))?)?")
_PARTS = re.compile(r"([\d.,]+)\s*(d|h|min|s|m)?\s*")
_PART_S = {"d": 86_400.0, "h": 3600.0, "min": 60.0, "m": 60.0, "s": 1.0, None: 1.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class HandRow:
    """One line of the table, as typed."""

    time: str = ""
    volts: str = ""
    lux: str = ""

    @property
    def is_begun(self) -> bool:
        """Whether it says anything of a voltage or of light."""
        return bool(self.volts.strip() or self.lux.strip())


@dataclass(frozen=True, slots=True, kw_only=True)
class HandRun:
    """What a table says."""

    lines: tuple[tuple[str, float, float | None], ...]
    """Time as written in a file, voltage [V] and light [lx]; only complete rows, in order."""
    complaints: dict[tuple[int, str], str]
    """What is wrong, by row and name of the column."""


def hand_run(rows: Sequence[HandRow], today: date) -> HandRun:
    """What a table of readings says, and what is wrong in it.

    A time is a date with a time of day, a time of day (of the day of the row above, or of the day
    after where it would lie before it; of `today` in the first row), or the time since the
    beginning, as seconds or with units (``90``, ``5 min``, ``1 h 30 min``).

    Parameters
    ----------
    rows : sequence of HandRow
        In order of time; rows without a voltage and without light are passed over.
    today : date
        Day of a first row that says only a time of day.

    Examples
    --------
    >>> rows = [HandRow(time="23:59", volts="3,3"), HandRow(time="0:01", volts="3290 mV")]
    >>> [line[0] for line in hand_run(rows, date(2026, 3, 2)).lines]
    ['2026-03-02 23:59:00', '2026-03-03 00:01:00']
    """
    lines: list[tuple[str, float, float | None]] = []
    complaints: dict[tuple[int, str], str] = {}
    start: datetime | None = None
    before_s = -1.0
    for number, row in enumerate(rows):
        if not row.is_begun:
            continue
        volts = _amount(row.volts, "V", LOWEST_V, HIGHEST_V, (number, "volts"), complaints)
        lux = None
        if row.lux.strip():
            lux = _amount(row.lux, "lx", 0.0, BRIGHTEST_LX, (number, "lux"), complaints)
        first = not lines
        try:
            since_s, start = _placed(row.time, start, before_s, today, first=first)
        except ValueError as fault:
            complaints[number, "time"] = str(fault)
            continue
        if since_s <= before_s:
            complaints[number, "time"] = say(
                "The time “{found}” does not lie after the time of the row above; rows stand in "
                "the order in which they were read.",
                found=row.time.strip(),
            )
            continue
        if volts is None or (row.lux.strip() and lux is None):
            continue
        before_s = since_s
        lines.append((_written(start, since_s), volts, lux))
    return HandRun(lines=tuple(lines), complaints=complaints)


def _written(start: datetime | None, since_s: float) -> str:
    if start is None:
        return f"{since_s:.6g}" if since_s < 1e5 else f"{since_s:.1f}"
    return str(start + timedelta(seconds=since_s))


def save_hand_run(path: Path, run: HandRun) -> None:
    """Write the complete rows as a logged run.

    Raises
    ------
    FileError
        The disk refuses.
    """
    body = [
        f"{time},{volts:.6g},{'' if lux is None else format(lux, '.6g')}"
        for time, volts, lux in run.lines
    ]
    write_text(path, "\n".join([REMARK, COLUMNS, *body]) + "\n")


def read_hand_rows(path: Path) -> tuple[HandRow, ...]:
    """Rows of a file that `save_hand_run` wrote, to go on with them.

    Raises
    ------
    FileError
        It cannot be read, or is no such file.
    """
    text = read_text(path, limit_bytes=LIMIT_BYTES, what=say("log of a run"))
    lines = text.splitlines()
    if lines[:2] != [REMARK, COLUMNS]:
        raise FileError(say("{path} does not hold readings by hand.", path=path))
    cells = [line.split(",") for line in lines[2:] if line.strip()]
    return tuple(HandRow(time=c[0], volts=c[1], lux=c[2]) for c in cells if len(c) == 3)


def latest_hand_run(folder: Path) -> Path | None:
    """The file of readings by hand that was begun last; None where there is none."""
    return max(folder.glob(f"* {ENDING}"), default=None, key=lambda path: path.name)


def _placed(
    text: str, start: datetime | None, before_s: float, today: date, *, first: bool
) -> tuple[float, datetime | None]:
    """Time since the first reading [s], and the moment of the first reading."""
    cell = text.strip()
    if match := _CLOCK.fullmatch(cell):
        if start is None and not first:
            raise ValueError(
                say(
                    "“{found}” is a time of day, but the first row counts the time since the "
                    "beginning; use one kind.",
                    found=cell,
                )
            )
        last = None if start is None else start + timedelta(seconds=max(before_s, 0.0))
        moment = _clock(match, last.date() if last else today, cell)
        if last is not None and moment < last:
            moment += timedelta(days=1)
    elif (dated := _dated(cell)) is not None:
        if start is None and not first:
            raise ValueError(
                say(
                    "“{found}” is a date, but the first row counts the time since the beginning; "
                    "use one kind.",
                    found=cell,
                )
            )
        moment = dated
    else:
        return _elapsed(cell), start
    return (0.0, moment) if start is None else ((moment - start).total_seconds(), start)


def _clock(match: re.Match[str], day: date, cell: str) -> datetime:
    micro = int((match[4] or "0").ljust(6, "0"))
    try:
        return datetime(
            day.year, day.month, day.day, int(match[1]), int(match[2]), int(match[3] or 0), micro
        )
    except ValueError:
        raise ValueError(say("“{found}” is no time of day.", found=cell)) from None


def _dated(cell: str) -> datetime | None:
    if not re.match(r"\d{4}-\d{2}-\d{2}", cell):
        return None
    try:
        return datetime.fromisoformat(cell).replace(tzinfo=None)
    except ValueError:
        return None


def _elapsed(cell: str) -> float:
    """Seconds of ``90``, ``5 min`` or ``1 h 30 min``."""
    total, at = 0.0, 0
    while at < len(cell):
        match = _PARTS.match(cell, at)
        if match is None or (match[2] is None and (at or match.end() < len(cell))):
            total, at = -1.0, 0
            break
        try:
            total += float(match[1].replace(",", ".")) * _PART_S[match[2]]
        except ValueError:
            total, at = -1.0, 0
            break
        at = match.end()
    if total < 0.0 or at == 0:
        raise ValueError(
            say(
                "“{found}” is no time; allowed is a time of day such as 14:05:30, a date such as "
                "2026-03-02 14:05, or the time since the beginning, such as 90 s or 5 min.",
                found=cell,
            )
        )
    return total


def _amount(
    cell: str,
    unit: str,
    low: float,
    high: float,
    where: tuple[int, str],
    complaints: dict[tuple[int, str], str],
) -> float | None:
    """A value in its range, or a complaint."""
    try:
        value = parse(cell, unit)
    except ValueError as fault:
        possible = [v for v in _both_ways(cell, unit) if low <= v <= high]
        if len(possible) != 1:
            complaints[where] = str(fault)
            return None
        value = possible[0]  # 4,477 V: no store has thousands of volts
    if low <= value <= high:
        return value
    complaints[where] = say(
        "“{found}” is out of range; allowed is {low} to {high}.",
        found=cell.strip(),
        low=show(low, unit),
        high=show(high, unit),
    )
    return None



def _both_ways(cell: str, unit: str) -> list[float]:
    """What a cell says with its comma between the decimals, and between thousands."""
    try:
        return [parse(cell, unit, decimal=","), parse(cell.replace(",", ""), unit)]
    except ValueError:
        return []

"""Times and moments as a person says them; never kiloseconds."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime, timedelta

from explorer.engine.system import DAY_S, WEEK_S
from explorer.quantity import show
from explorer.text import figure, joined, say, texts
from explorer.words.options import WEEKDAY_NAMES

HOUR_S = 3600.0
MONTH_S, YEAR_S = 30.4 * DAY_S, 365 * DAY_S
SHORT_MONTHS: dict[int, str] = texts({
    1: "Jan", 2: "Feb", 3: "Mar", 4: "Apr", 5: "May", 6: "Jun",
    7: "Jul", 8: "Aug", 9: "Sep", 10: "Oct", 11: "Nov", 12: "Dec",
})  # fmt: skip
_STEPS_S = (
    1e-6, 2e-6, 5e-6, 1e-5, 2e-5, 5e-5, 1e-4, 2e-4, 5e-4, 1e-3, 2e-3, 5e-3, 0.01, 0.02, 0.05,
    0.1, 0.2, 0.5, 1, 2, 5, 10, 30, 60, 120, 300, 600, 900, 1800, HOUR_S, 2 * HOUR_S, 3 * HOUR_S,
    6 * HOUR_S, 12 * HOUR_S, DAY_S, 2 * DAY_S, WEEK_S, 2 * WEEK_S, 30 * DAY_S, 60 * DAY_S,
    90 * DAY_S, YEAR_S,
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """A place on the time axis."""

    time_s: float
    label: str
    """Empty for a tick that only divides."""


def clock(
    time_s: float, weekdays: bool, offset_s: float = 0.0, finest_s: float = 60.0
) -> str:
    """A moment of the trace, with as many digits as tell it from one `finest_s` later.

    Examples
    --------
    >>> clock(86400 + 14 * 3600, True), clock(9 * 86400.0, True), clock(90.0, False)
    ('Tue 14:00', 'Wed 00:00, week 2', '90 s')
    >>> clock(50_400.25, True, finest_s=1.0), clock(50_400.25, True, finest_s=0.01)
    ('Mon 14:00:00', 'Mon 14:00:00.25')
    >>> clock(90.0213, False, finest_s=0.001)
    '90.021 s'
    """
    digits = min(max(math.ceil(-math.log10(finest_s) - 1e-9), 0), 6)
    if not weekdays:
        if finest_s >= 1.0 or time_s >= 1e6:
            return show(time_s, "s")
        return figure(f"{time_s:.{digits}f} s")
    # Rounded down to what is told: a clock shows the second that has begun.
    moment = math.floor((time_s + offset_s) * 10**digits + 1e-6) / 10**digits
    day = int(moment // DAY_S)
    rest = moment - day * DAY_S
    told = f"{int(rest) // 3600:02d}:{int(rest) % 3600 // 60:02d}"
    if finest_s < 60.0:
        width = digits + 3 if digits else 2
        second = math.floor(rest % 60.0 * 10**digits + 1e-3) / 10**digits
        told = f"{told}:{second:0{width}.{digits}f}"
    text = joined(" ", (WEEKDAY_NAMES[day % 7], figure(told)))
    return text if day < 7 else say("{moment}, week {n}", moment=text, n=day // 7 + 1)


def month_ticks(from_s: float, to_s: float, most: int, begins: datetime) -> tuple[Tick, ...]:
    """First days of months on an axis whose zero has a date, named as far as there is room."""
    first = begins + timedelta(seconds=from_s)
    year, month, ticks = first.year, first.month, list[Tick]()
    every = max(math.ceil((to_s - from_s) / MONTH_S / max(most, 1) - 0.1), 1)
    while True:
        moment = datetime(year, month, 1)
        time_s = (moment - begins).total_seconds()
        if time_s > to_s:
            return tuple(ticks)
        if time_s >= from_s:
            told = (month - 1) % every == 0
            ticks.append(Tick(time_s=time_s, label=SHORT_MONTHS[month] if told else ""))
        year, month = year + month // 12, month % 12 + 1


def time_ticks(
    from_s: float, to_s: float, most: int, weekdays: bool, offset_s: float = 0.0,
    begins: datetime | None = None,
) -> tuple[Tick, ...]:
    """Ticks of a time axis, at round times.

    Parameters
    ----------
    from_s, to_s : float
        Ends of the axis. [s]
    most : int
        Most labels that fit.
    weekdays : bool
        Whether the axis runs on a calendar week: then days carry their names, hours the clock.
    offset_s : float
        Time from Monday 00:00 to zero of the axis. [s]
    begins : datetime, optional
        Date of zero of the axis, where it has one: months carry their names.
    """
    length = max(to_s - from_s, 1e-9)
    if begins is not None and length > 1.5 * MONTH_S:
        return month_ticks(from_s, to_s, most, begins)
    step = next((s for s in _STEPS_S if length / s <= max(most, 1)), YEAR_S)
    if weekdays and (step == DAY_S or (length >= 4 * DAY_S and step < DAY_S)):
        return _named_days(from_s, to_s, offset_s)
    first = math.ceil((from_s + offset_s) / step - 1e-9)
    far_s = max(abs(from_s), abs(to_s))
    ticks = []
    while first * step <= to_s + offset_s + 1e-9 * step:
        moment = first * step
        time_s = moment - offset_s
        label = _label(moment if weekdays else time_s, step, weekdays, far_s)
        ticks.append(Tick(time_s=time_s, label=label))
        first += 1
    return tuple(ticks)


def _named_days(from_s: float, to_s: float, offset_s: float) -> tuple[Tick, ...]:
    ticks = []
    day = math.floor((from_s + offset_s) / DAY_S)
    while day * DAY_S <= to_s + offset_s:
        midnight, noon = day * DAY_S - offset_s, (day + 0.5) * DAY_S - offset_s
        if midnight >= from_s:
            ticks.append(Tick(time_s=midnight, label=""))
        if from_s <= noon <= to_s:
            ticks.append(Tick(time_s=noon, label=WEEKDAY_NAMES[day % 7]))
        day += 1
    return tuple(ticks)


def _label(moment: float, step: float, weekdays: bool, far_s: float) -> str:
    if moment < 0:
        return joined("", ("−", _label(-moment, step, weekdays, far_s)))
    if step < 1 and moment >= 10.0:  # a pulse far from the beginning: seconds, no long numbers
        digits = math.ceil(-math.log10(step) - 1e-9)
        minute = moment - moment % 60.0
        if not weekdays:
            return figure(f"{moment:.{digits}f} s")
        clock_text = f"{int(minute % DAY_S) // 3600:02d}:{int(minute % 3600) // 60:02d}"
        return figure(f"{clock_text}:{moment % 60.0:0{digits + 3}.{digits}f}")
    if step < 1e-3 and far_s >= 2e-3:  # one unit along the axis, and no thousands of it
        digits = math.ceil(-math.log10(1e3 * step) - 1e-9)
        return figure(f"{moment * 1e3:.{digits}f} ms" if moment else "0 ms")
    if step < 1e-3:
        return figure(f"{moment * 1e6:.6g} µs")
    if step < 1:
        return figure(f"{moment * 1e3:.6g} ms")
    if weekdays and step < DAY_S:
        day = math.floor(moment / DAY_S + 1e-9)
        rest = round(moment - day * DAY_S)
        if rest == 0:
            return WEEKDAY_NAMES[day % 7]
        text = f"{rest // 3600:02d}:{rest % 3600 // 60:02d}"
        return text if step >= 60 else f"{text}:{rest % 60:02d}"
    if step < 60:
        return figure(f"{moment:.10g} s")
    if step < HOUR_S:
        return figure(f"{moment / 60:.6g} min")
    if step < DAY_S:
        return figure(f"{moment / HOUR_S:.6g} h")
    return figure(f"{moment / DAY_S:.6g} d")

"""The stretches of time that the trace can show, from one pulse to one year."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from explorer.advice.case import Case
from explorer.scenario.light import WeekPattern
from explorer.scenario.light_log import DARK_BELOW_LX
from explorer.scenario.weekdays import WEEKDAYS
from explorer.scenario.year_course import hung_up_s, moment_of, week_s

HOUR_S, DAY_S, WEEK_S = 3600.0, 86_400.0, 604_800.0
SpanKey = Literal["pulse", "hour", "day", "week", "month", "year"]
SPAN_KEYS: tuple[SpanKey, ...] = ("pulse", "hour", "day", "week", "month", "year")
_LENGTH_S = {
    "pulse": WEEK_S,
    "hour": HOUR_S,
    "day": DAY_S,
    "week": WEEK_S,
    "month": 30 * DAY_S,
    "year": 365 * DAY_S,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """What is on show, on the time scale of the trace."""

    from_s: float
    to_s: float

    @property
    def length_s(self) -> float:
        """Length. [s]"""
        return self.to_s - self.from_s


def window_of(key: SpanKey, around_s: float | None, first_s: float) -> Window:
    """The stretch that a span button shows.

    Parameters
    ----------
    key : str
        Which button.
    around_s : float or None
        Moment that a person looks at. [s]
    first_s : float
        First moment with something to see; an hour begins there when nobody looks anywhere. [s]

    Returns
    -------
    Window
        An hour lies around the moment, a day is the one that holds it, counted from the
        beginning; all longer stretches begin with the scenario.
    """
    start = 0.0
    if key == "hour":
        start = first_s if around_s is None else max(around_s - HOUR_S / 2, 0.0)
    elif key == "day" and around_s is not None:
        start = max(around_s, 0.0) // DAY_S * DAY_S
    return Window(from_s=start, to_s=start + _LENGTH_S[key])


def calendar_of(case: Case) -> tuple[bool, float, datetime | None]:
    """Whether the trace of a case runs on a calendar week, where in it, and on what date it begins.

    The place in the week is the time since Monday 00:00. [s]
    """
    if case.year is not None:
        begins = moment_of(case.year, hung_up_s(case.scenario, case.year))
        return True, week_s(begins), begins
    log = case.log if case.scenario.light.pattern.kind == "log" else None
    if log is not None and log.start is not None:
        return True, log.start_of_week_s, None
    return case.scenario.light.pattern.kind == "week", 0.0, None


def first_light_s(case: Case) -> float:
    """Time from the beginning of the scenario to its first light. [s]"""
    pattern, log = case.scenario.light.pattern, case.log
    if isinstance(pattern, WeekPattern):
        starts = [
            WEEKDAYS.index(day) * DAY_S + block.from_h * HOUR_S
            for block in pattern.blocks
            for day in block.days
            if day not in pattern.dark_days and block.relative_level > 0
        ]
        return min(starts, default=0.0)
    if pattern.kind == "log" and log is not None:
        lit = (log.illuminance_lx >= DARK_BELOW_LX).nonzero()[0]
        return float(log.time_s[lit[0]]) if lit.size else 0.0
    return 0.0

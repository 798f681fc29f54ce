"""Reach: how little light, how many operations and how long a closure a design stands.

Each of these is the edge of one or two checks alone. The value at which the *verdict* turns is
another thing, and stands beside the knobs.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache, lru_cache
from typing import Literal

import numpy as np

from explorer.advice.asked import judged_at
from explorer.advice.case import Case
from explorer.advice.criteria import BALANCE, DARK, SERVICE_AND_BALANCE
from explorer.advice.edges import CLOSURE, Edges, Stopped, edge_above, find_edges
from explorer.advice.judge import judge
from explorer.advice.readings.required import nothing_asked
from explorer.advice.stops import LIGHT_STOPS, Series, three_digits
from explorer.engine.system import DAY_S
from explorer.physics.arrays import FloatArray, distinct
from explorer.scenario.demand import Every

Bound = Literal["", "more than", "less than", "none"]

MOST_DAYS = 365.0
LEAST_PER_DAY = 0.01
POINTS = 24
LONGER_THAN_PHASES = 1.001
"""Shortest interval that is tried, in lengths of the operation."""


class Reach(float):
    """An edge as an answer: a number, and whether the search ended at its bound there.

    ``bound`` says "more than" or "less than" where the edge lies beyond the number, and "none"
    where no value up to the number is enough.
    """

    bound: Bound

    def __new__(cls, value: float, bound: Bound = "") -> Reach:
        """A number with its bound."""
        made = super().__new__(cls, value)
        made.bound = bound
        return made


def reach(case: Case, stopped: Stopped = lambda: False) -> dict[str, Reach]:
    """Answers that are edges of single checks, everything else as it is.

    ``least_light_for_balance_lx`` is the light at which Balance is 1, energy alone;
    ``most_operations_per_day`` the rate of the first operation at an interval at which Service
    and Balance just pass, left out where there is none; ``longest_closure_days`` the longest
    closure after which Dark still passes.

    Raises
    ------
    Interrupted
        `stopped` said so.
    """
    found = {"least_light_for_balance_lx": _least_light(case, stopped)}
    # What is asked beside the course is no matter of how much of it is served.
    rate = _most_operations(case.with_scenario(nothing_asked(case.scenario)), stopped)
    if rate is not None:
        found["most_operations_per_day"] = rate
    found["longest_closure_days"] = _longest_closure(case, stopped)
    return found


def _least_light(case: Case, stopped: Stopped) -> Reach:
    found = find_edges(
        case, "light.illuminance_lx", BALANCE, LIGHT_STOPS, three_digits(), stopped
    )
    rising = [e.value for e in found.edges if e.holds_above]
    if rising and not found.at_low:
        return Reach(rising[0])
    return Reach(found.low, "less than") if found.at_low else Reach(found.high, "none")


def _most_operations(case: Case, stopped: Stopped) -> Reach | None:
    for i, op in enumerate(case.scenario.load.operations):
        if isinstance(op.schedule, Every):
            open_s = DAY_S * _open_share(op.schedule)
            shortest_s = LONGER_THAN_PHASES * sum(p.duration_s for p in op.phases)
            series = _intervals(open_s)
            inside = series.values[series.values >= shortest_s]
            inside = inside[inside <= open_s / LEAST_PER_DAY]
            if not inside.size:
                return None  # its phases last longer than any interval of so many a day
            path = f"load.operations.{i}.schedule.interval_s"
            return _rate(_shortest(case, path, _some(inside), series, stopped), open_s)
    return None


def _shortest(
    case: Case, path: str, values: FloatArray, series: Series, stopped: Stopped
) -> Edges:
    """From which interval on Service and Balance pass.

    Balance alone is had without a march, and what its edge serves is served from there on: only
    where that edge serves less is the edge of both looked for. What falls short with the fewest
    runs, as now, does so with more.
    """
    found = find_edges(case, path, BALANCE, values, series, stopped)
    if not SERVICE_AND_BALANCE.holds(judge(case)) and not (
        judged_at(case, path, float(values[-1]), SERVICE_AND_BALANCE)[0]
    ):
        return replace(found, edges=(), at_low=False, at_high=False)
    first = found.low if found.at_low else next(
        (e.value for e in found.edges if e.holds_above), None
    )
    if first is None or judged_at(case, path, first, SERVICE_AND_BALANCE)[0]:
        return found
    edge = edge_above(
        case, path, SERVICE_AND_BALANCE, first, series, float(values[-1]), stopped
    )
    if edge is None:
        return find_edges(case, path, SERVICE_AND_BALANCE, values, series, stopped)
    return replace(found, edges=(edge,), at_low=False, at_high=True)


def _rate(found: Edges, open_s: float) -> Reach:
    def per_day(interval_s: float) -> float:
        return float(f"{open_s / interval_s:.3g}")

    if found.none:
        return Reach(per_day(found.high), "none")
    if found.at_low:
        return Reach(per_day(found.low), "more than")
    return Reach(per_day(next(e.value for e in found.edges if e.holds_above)))


def _open_share(schedule: Every) -> float:
    """Share of a week in which an operation may be due."""
    return len(schedule.days) / 7.0 * (schedule.to_h - schedule.from_h) / 24.0


@lru_cache(maxsize=8)
def _intervals(open_s: float) -> Series:
    """Intervals that make a rate of three digits a day. [s]"""
    return Series(np.sort(open_s / three_digits().values))


def _longest_closure(case: Case, stopped: Stopped) -> Reach:
    days = durations().values
    inside = _some(days[(days >= 60.0 / DAY_S) & (days <= MOST_DAYS)])
    found = find_edges(case, CLOSURE, DARK, inside, durations(), stopped)
    if found.none:
        return Reach(found.low, "none")
    falling = [e.value for e in found.edges if not e.holds_above]
    return Reach(falling[0]) if falling else Reach(found.high, "more than")


@cache
def durations() -> Series:
    """Durations that are three digits in the unit in which a person reads them. [d]"""
    digits = three_digits().values
    parts = [
        digits[(digits >= low) & (digits < high)] * unit_s / DAY_S
        for unit_s, low, high in (
            (1.0, 1.0, 120.0), (60.0, 2.0, 120.0), (3600.0, 2.0, 48.0), (DAY_S, 2.0, 1000.0)
        )
    ]
    return Series(np.concatenate(parts))


def _some(values: FloatArray) -> FloatArray:
    """About so many of the values, even in ratio, both ends among them."""
    wanted = np.geomspace(values[0], values[-1], POINTS)
    return distinct(values[np.clip(np.searchsorted(values, wanted), 0, len(values) - 1)])

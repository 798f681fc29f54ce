"""How far the design goes: the lowest light, the highest rate and the longest dark it stands."""

from __future__ import annotations

from math import inf

import numpy as np
from numpy.typing import NDArray

from explorer.advice.readings.many import judge_many
from explorer.engine.system import DAY_S
from explorer.scenario.demand import Every
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario

FloatArray = NDArray[np.float64]
POINTS = 40
FINER = 16
"""Points at which the gap around a limit is searched again."""
ROUNDS = 3
MOST_DAYS = 365.0


def limits(scenario: Scenario, log: LightLog | None = None) -> dict[str, float]:
    """Answers found by moving one quantity until the design falls short, all else as it is.

    ``lowest_light_lx`` is the least light while lit, ``shortest_interval_s`` the shortest
    interval of the first periodic operation (``highest_rate_per_day`` the same as a rate) and
    ``longest_closure_days`` the longest dark stretch that still pass every check with a margin
    of 1. They come from the batch engine, in which pulses are averaged. Infinite or zero where
    no value within a factor of 100 passes.
    """
    found: dict[str, float] = {}
    lux = scenario.light.illuminance_lx
    if lux is None:
        lux = log.mean_lit_lx if log is not None else 0.0
    if lux > 0:
        values = np.geomspace(lux / 100.0, lux * 100.0, 2 * POINTS)
        found["lowest_light_lx"] = _first(scenario, log, "light.illuminance_lx", values)
    for i, op in enumerate(scenario.load.operations):
        if isinstance(op.schedule, Every):
            shortest = 1.01 * sum(p.duration_s for p in op.phases)
            now = op.schedule.interval_s
            values = np.geomspace(max(now / 100.0, shortest), now * 100.0, 2 * POINTS)
            path = f"load.operations.{i}.schedule.interval_s"
            shortest_s = _first(scenario, log, path, values)
            found["shortest_interval_s"] = shortest_s
            found["highest_rate_per_day"] = DAY_S / shortest_s
            break
    days = np.concatenate([[0.0], np.geomspace(0.25, MOST_DAYS, POINTS)])[::-1]
    longest = _first(scenario, log, "margins.closure_days", days)
    found["longest_closure_days"] = {inf: 0.0, MOST_DAYS: inf}.get(longest, longest)
    return found


def _first(
    scenario: Scenario, log: LightLog | None, path: str, values: FloatArray
) -> float:
    """The first value, in the order given, at which every margin reaches 1. Infinite if none.

    Margins may jump between two values, so the gap is searched again before it is interpolated.
    """
    for _ in range(ROUNDS):
        margin = judge_many(scenario, log, {path: values}).margin
        good = margin >= 1.0
        if not good.any():
            return inf
        i = int(np.argmax(good))
        if i == 0:
            return float(values[0])
        below, above, low, high = values[i - 1], values[i], margin[i - 1], margin[i]
        values = np.linspace(below, above, FINER)
    share = (1.0 - low) / (high - low)
    return float(below + share * (above - below))

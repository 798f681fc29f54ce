"""How far the design goes: the lowest light, the highest rate and the longest dark it stands."""

from __future__ import annotations

from math import inf

import numpy as np
from numpy.typing import NDArray

from explorer.advice.fleet import judge_many
from explorer.engine.system import DAY_S
from explorer.scenario.demand import Every
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario

FloatArray = NDArray[np.float64]
POINTS = 40


def limits(scenario: Scenario, log: LightLog | None = None) -> dict[str, float]:
    """Answers found by moving one quantity until the design falls short, all else as it is.

    ``lowest_light_lx`` is the least light while lit, ``shortest_interval_s`` the shortest
    interval of the first periodic operation (``highest_rate_per_day`` the same as a rate) and
    ``longest_closure_days`` the longest dark
    stretch that still pass every check with a margin of 1. They come from the batch engine:
    pulses are averaged, and values between its points are interpolated. Infinite or zero where
    no value within a factor of 100 passes.
    """
    found: dict[str, float] = {}
    lux = scenario.light.illuminance_lx
    if lux is None:
        lux = log.mean_lit_lx if log is not None else 0.0
    if lux > 0:
        values = np.geomspace(lux / 100.0, lux * 100.0, POINTS * 2)
        margin = judge_many(scenario, log, {"light.illuminance_lx": values}).margin
        found["lowest_light_lx"] = _first_crossing(values, margin)
    for i, op in enumerate(scenario.load.operations):
        if isinstance(op.schedule, Every):
            shortest = 1.01 * sum(p.duration_s for p in op.phases)
            now = op.schedule.interval_s
            values = np.geomspace(max(now / 100.0, shortest), now * 100.0, POINTS * 2)
            path = f"load.operations.{i}.schedule.interval_s"
            margin = judge_many(scenario, log, {path: values}).margin
            shortest_s = _first_crossing(values, margin)
            found["shortest_interval_s"] = shortest_s
            found["highest_rate_per_day"] = DAY_S / shortest_s
            break
    values = np.concatenate([[0.0], np.geomspace(0.25, 365.0, POINTS)])
    margin = judge_many(scenario, log, {"margins.closure_days": values}).margin
    if margin[0] < 1.0:
        found["longest_closure_days"] = 0.0
    elif margin[-1] >= 1.0:
        found["longest_closure_days"] = inf
    else:
        found["longest_closure_days"] = _first_crossing(values[::-1], margin[::-1])
    return found


def _first_crossing(values: FloatArray, margin: FloatArray) -> float:
    """The first value, in the order given, at which the margin reaches 1. Infinite if none."""
    good = margin >= 1.0
    if not good.any():
        return inf
    i = int(np.argmax(good))
    if i == 0:
        return float(values[0])
    low, high = margin[i - 1], margin[i]
    share = (1.0 - low) / (high - low) if high > low else 1.0
    return float(values[i - 1] + share * (values[i] - values[i - 1]))

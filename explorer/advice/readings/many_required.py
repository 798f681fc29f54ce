"""Amounts that are asked of many designs at once, by the batch engine."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from explorer.advice.readings import Readings, Required
from explorer.advice.readings.many import Followed, followed
from explorer.advice.readings.many_answers import dark_and_runs, full_time
from explorer.advice.readings.pulse import flat
from explorer.advice.readings.required import (
    HOUR_S,
    IN_SI,
    UNITS,
    asked_keys,
    in_steady_light,
    open_share,
)
from explorer.engine.many import prepare
from explorer.engine.system import as_judged
from explorer.physics.arrays import BoolArray, FloatArray
from explorer.scenario.build import build
from explorer.scenario.model import LIGHT_OF, Scenario

WITHIN = 1.35
"""An amount within this ratio of what is asked is for the exact march to say (own judgement)."""


def with_required(
    read: Readings, found: Followed, scenario: Scenario, mean_lit_lx: float
) -> Readings:
    """Readings of a batch with the amounts that are asked.

    Parameters
    ----------
    read : Readings
        What was read of the batch.
    found : Followed
        What it did.
    scenario : Scenario
        The batch: its numbers are plain or columns of shape (n, 1).
    mean_lit_lx : float
        Level of the place where the scenario leaves it to what was measured. [lx]
    """
    keys = asked_keys(scenario)
    if not keys:
        return read
    rows, sure = [], read.sure
    for key in keys:
        level = _level(scenario, key, mean_lit_lx)
        value, known = _value(found, scenario, key, level)
        limit = flat(getattr(scenario.margins, key), read.size) * IN_SI.get(key, 1.0)
        one = Required(
            key=key, value=value, limit=limit, unit=UNITS[key],
            light_lx=None if level is None else flat(level, read.size),
            at_most=key == "fill_within_h",
        )
        far = (one.margin > WITHIN) | (one.margin < 1.0 / WITHIN)
        rows.append(one)
        sure = sure & far & known
    return replace(read, required=tuple(rows), sure=sure)


def _level(scenario: Scenario, key: str, mean_lit_lx: float) -> float | FloatArray | None:
    if key not in LIGHT_OF:
        return None
    stated: float | None = getattr(scenario.margins, LIGHT_OF[key])
    own = scenario.light.illuminance_lx
    return stated if stated is not None else own if own is not None else mean_lit_lx


def _value(
    found: Followed, scenario: Scenario, key: str, level_lx: float | FloatArray | None
) -> tuple[FloatArray, BoolArray]:
    """What each design reaches of an amount, and where that is known well; shape (n,)."""
    size = found.readings.size
    known = np.ones(size, bool)
    if key == "store_years":
        light, charger = scenario.light, scenario.charger
        years = scenario.store.years_to_end_of_life(light.ambient_C, charger.full_V)
        return flat(years, size), known
    if level_lx is None:
        dark_s, runs = dark_and_runs(found.batch)
        return (runs if key == "operations_per_charge" else dark_s), known
    steady = in_steady_light(scenario, level_lx)
    system = as_judged(build(steady))
    if key == "fill_within_h":
        if scenario.load.indicator_share is not None:
            known = ~known  # where the energy of a store lies the march knows alone
        if scenario.load.indicator_V is not None:
            system = replace(
                system, full_v=np.minimum(scenario.load.indicator_V, scenario.charger.full_V)
            )
        return full_time(prepare(system, size)), known
    other = followed(steady, system, size).readings
    open_s = np.array([open_share(op) for op in system.load.operations]) * other.span_s[:, None]
    return (other.served / open_s).sum(axis=1) * HOUR_S, other.sure


__all__ = ["WITHIN", "with_required"]

"""The level at which a board says that its store is charged, and when it does."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from explorer.advice.case import Case
from explorer.advice.readings.starts import full_charge, full_charge_time
from explorer.advice.year.study import filled_after
from explorer.engine.march import Engine


def indicator_level(case: Case) -> float | None:
    """Open-circuit voltage of the indicator, at most full; None where there is none. [V]"""
    load = case.scenario.load
    if load.indicator_V is not None:
        return min(load.indicator_V, case.scenario.charger.full_V)
    if load.indicator_share is None:
        return None
    return level_of_energy(case.engine, load.indicator_share)


def level_of_energy(engine: Engine, share: float) -> float:
    """Open-circuit voltage at which a store holds so much of the energy of a full one. [V]"""
    field, full_c = engine.field, full_charge(engine)
    charge = np.linspace(float(field.charge_c[0]), full_c, 2049)
    volts = field.voltage_at(charge)
    steps = 0.5 * (volts[1:] + volts[:-1]) * np.diff(charge)
    energy = np.concatenate([[0.0], np.cumsum(steps)])
    return float(np.interp(share * energy[-1], energy, volts))


def indicated_after(case: Case, level_v: float) -> float:
    """From empty to a level with the device off, from the first light; infinite for never. [s]"""
    low = replace(case.system, full_v=level_v)
    return full_charge_time(Engine(low))


def indicated(case: Case) -> dict[str, float]:
    """The answer about the indicator, by its name; empty where there is none."""
    level_v = indicator_level(case)
    if level_v is None:
        return {}
    filled = indicated_after if case.year is None else filled_after
    after_s = case.once_under_any_margins(
        "indicated", lambda: filled(case, level_v)
    )
    return {"indicated_s": after_s}


__all__ = ["indicated", "indicated_after", "indicator_level", "level_of_energy"]

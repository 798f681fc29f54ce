"""The same device in the light of other places: how soon it is charged, how often it works."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

import numpy as np

from explorer.advice.case import Case, kept
from explorer.advice.readings.balance import taken_current
from explorer.advice.readings.one import balance
from explorer.advice.readings.required import HOUR_S, LOOKED_H, rate_in, steady
from explorer.advice.readings.starts import first_charge, full_charge_time
from explorer.engine.march import Engine
from explorer.engine.system import Periodic
from explorer.engine.thresholds import drawn
from explorer.physics import load as ld
from explorer.scenario.light import Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Charged:
    """What the device does in the steady light of one place."""

    name: str
    light_lx: float
    ready_s: float
    """From empty to the end of the first start-up; infinite for never. [s]"""
    full_s: float
    """From empty to full with the device off; infinite for never. [s]"""
    per_hour: float
    """Runs an hour that the light pays for: of what waits for the store as they come, else of the
    first operation at an interval by energy alone, all else as it is. [1/h]"""
    balance: float
    """Power brought over power taken."""


@kept
def elsewhere(case: Case) -> tuple[Charged, ...]:
    """The device at each of the other places of its scenario, in their order."""
    return tuple(
        _charged(case, place.name, place.illuminance_lx, place.source)
        for place in case.scenario.light.elsewhere
    )


def _charged(case: Case, name: str, level_lx: float, source: Source) -> Charged:
    engine = steady(case, level_lx, source).engine
    held = balance(engine)
    brought_w, taken_w = float(held.brought_w[0]), float(held.taken_w[0])
    return Charged(
        name=name, light_lx=level_lx,
        ready_s=first_charge(engine, None, LOOKED_H * HOUR_S).seconds,
        full_s=full_charge_time(engine), per_hour=_per_hour(engine),
        balance=brought_w / taken_w if taken_w > 0.0 else inf,
    )


def _per_hour(engine: Engine) -> float:
    """Runs an hour that a steady light pays for. [1/h]"""
    system = engine.system
    operations = system.load.operations
    first = next(
        (j for j, op in enumerate(operations) if isinstance(op.schedule, Periodic)), None
    )
    if first is None:
        return rate_in(engine)
    field = engine.field
    low, top = float(np.asarray(system.load.off_v)), float(field.open_v[-1])
    volts = np.linspace(min(low, top), min(max(system.full_v, low), top), 65)[None, :]
    (level,) = engine.levels
    esr = field.curve.esr_ohm
    brought = field.supply(level.low_a).current(volts[0], volts[0])
    leak = np.interp(volts[0], field.open_v, field.curve.leak_a)
    rates = [
        0.0 if j == first else _share(op.schedule) for j, op in enumerate(operations)
    ]
    spare = brought - taken_current(system, volts, leak[None, :], esr, list(rates))[0]
    idle = system.load.sleep + ld.Draw(current_a=system.quiescent_a)
    asleep = drawn(idle, volts, esr)[0]
    one = sum(
        phase.duration_s * (drawn(idle + phase.draw, volts, esr)[0] - asleep)
        for phase in operations[first].phases
    )
    paid = np.max(np.maximum(spare, 0.0) / np.maximum(one, 1e-30))
    return float(paid) * HOUR_S


def _share(schedule: object) -> float:
    """Mean rate of an operation over the week. [1/s]"""
    if isinstance(schedule, Periodic):
        week = sum(end - begin for begin, end in schedule.windows_s) / 604_800.0
        return week / schedule.interval_s
    return float(schedule.wanted_per_s)  # type: ignore[attr-defined]


__all__ = ["Charged", "elsewhere"]

"""At which voltages the pulses of a run begin."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf

from explorer.engine.course import Leg, Trajectory
from explorer.engine.keys import On
from explorer.engine.motions import Engine


def lowest_begin(engine: Engine, run: Trajectory) -> float:
    """Lowest open-circuit voltage at which a pulse begins; infinite where none does. [V]

    What a pulse leaves behind is no beginning: a device that waits for a voltage begins there,
    however low its last run ended.
    """
    charge = _lowest(run.legs)
    return float(engine.field.voltage_at(charge)) if charge < inf else inf


def _lowest(legs: Iterable[Leg]) -> float:
    """The same as a charge. [C]"""
    lowest, busy = inf, False
    for leg in legs:
        if leg.repeats is not None:
            lowest, busy = min(lowest, _lowest(leg.repeats.legs)), False
            continue
        draw = leg.draw if isinstance(leg.draw, On) else On()
        active = bool(draw.active)
        if leg.cycles is not None or draw.averaged:
            lowest = min(lowest, leg.begin_c, leg.end_c)
        elif active and not busy:
            lowest = min(lowest, leg.begin_c)
        busy = active
    return lowest


__all__ = ["lowest_begin"]

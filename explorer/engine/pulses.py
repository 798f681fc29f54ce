"""At which voltages the pulses of a run begin."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf

from explorer.engine.course import Key, Leg, Trajectory
from explorer.engine.motions import Engine


def lowest_begin(engine: Engine, run: Trajectory) -> float:
    """Lowest open-circuit voltage at which a pulse begins; infinite where none does. [V]

    What a pulse leaves behind is no beginning: a device that waits for a voltage begins there,
    however low its last run ended.
    """
    keys: dict[int, Key] = {
        id(motion): where[2]  # type: ignore[index]
        for where, motion in engine._motions.items()
    }
    charge = _lowest(keys, run.legs)
    return float(engine.field.voltage_at(charge)) if charge < inf else inf


def _lowest(keys: dict[int, Key], legs: Iterable[Leg]) -> float:
    """The same as a charge. [C]"""
    lowest, busy = inf, False
    for leg in legs:
        if leg.repeats is not None:
            lowest, busy = min(lowest, _lowest(keys, leg.repeats.legs)), False
            continue
        key = keys[id(leg.low)]
        active = key[0] == "on" and bool(key[2])
        if leg.cycles is not None or (key[0] == "on" and key[1]):
            lowest = min(lowest, leg.begin_c, leg.end_c)
        elif active and not busy:
            lowest = min(lowest, leg.begin_c)
        busy = active
    return lowest


__all__ = ["lowest_begin"]

"""At which voltages the operations of a run begin, and when the first of them is done."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf

from explorer.engine.course import Leg, Trajectory
from explorer.engine.keys import On
from explorer.engine.motions import Engine


def lowest_begins(engine: Engine, run: Trajectory) -> list[float]:
    """Lowest open-circuit voltage at which each operation begins; infinite where none does. [V]

    What a pulse leaves behind is no beginning: a device that waits for a voltage begins there,
    however low its last run ended.
    """
    lowest = [inf] * len(engine.system.load.operations)
    _look(run.legs, lowest)
    return [float(engine.field.voltage_at(q)) if q < inf else inf for q in lowest]


def _look(legs: Iterable[Leg], lowest: list[float]) -> None:
    """Lower the charges to the lowest with which an operation begins in some legs. [C]"""
    before: set[int] = set()
    for leg in legs:
        if leg.repeats is not None:
            _look(leg.repeats.legs, lowest)
            before = set()
            continue
        draw = leg.draw if isinstance(leg.draw, On) else On()
        along = list(draw.averaged)
        if leg.cycles is not None:
            along.append(leg.cycles[0].key.operation)
        for j in along:
            lowest[j] = min(lowest[j], leg.begin_c, leg.end_c)
        active = {j for j, _ in draw.active}
        for j in active - before:
            lowest[j] = min(lowest[j], leg.begin_c)
        before = active


def first_done(engine: Engine, run: Trajectory) -> float:
    """Time at which the first operation of a run is done; infinite where none is. [s]"""
    operations = engine.system.load.operations
    done = inf
    for leg, after in zip(run.legs, [*run.legs[1:], None], strict=True):
        if leg.begin_s >= done:
            break
        draw = leg.draw if isinstance(leg.draw, On) else On()
        along = list(draw.averaged)
        if leg.cycles is not None:
            along.append(leg.cycles[0].key.operation)
        for j in along:
            length = operations[j].duration_s
            if leg.end_s - leg.begin_s >= length:
                done = min(done, leg.begin_s + length)
        for j, k in draw.active:
            last = k == len(operations[j].phases) - 1
            next_on = after is not None and isinstance(after.draw, On)
            if last and next_on and (j, k) not in after.draw.active:  # type: ignore[union-attr]
                done = min(done, leg.end_s)
    return done


__all__ = ["first_done", "lowest_begins"]

"""At which voltages the operations of a run begin, and when the first of them is done."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf
from typing import NamedTuple

from explorer.engine.course import Leg, Trajectory
from explorer.engine.keys import On
from explorer.engine.march import Engine
from explorer.engine.schedule import TIME_GRAIN_S
from explorer.engine.system import Periodic


def lowest_begins(engine: Engine, run: Trajectory) -> list[float]:
    """Lowest open-circuit voltage at which each operation begins; infinite where none does. [V]

    What a pulse leaves behind is no beginning: a device that waits for a voltage begins there,
    however low its last run ended. An operation that cuts the device off as soon as it begins
    begins all the same; any that is due may be that one.
    """
    operations = engine.system.load.operations
    lowest = [inf] * len(operations)
    _look(run.legs, lowest, [len(operation.phases) for operation in operations])
    fatal = _cut_off_at_once(run)
    for j, operation in enumerate(operations):
        if isinstance(operation.schedule, Periodic):
            lowest[j] = min(lowest[j], fatal)
    return [float(engine.field.voltage_at(q)) if q < inf else inf for q in lowest]


def _look(legs: Iterable[Leg], lowest: list[float], phases: list[int]) -> None:
    """Lower the charges to the lowest with which an operation begins in some legs. [C]"""
    before: frozenset[int] = frozenset()
    # By place in memory: thousands of legs follow a few motions, which they keep.
    known: dict[tuple[int, int], _Begun] = {}
    for leg in legs:
        if leg.repeats is not None:
            _look(leg.repeats.legs, lowest, phases)
            before = frozenset()
            continue
        name = id(leg.low), id(leg.cycles[0]) if leg.cycles is not None else 0
        begun = known.get(name)
        if begun is None:
            begun = known[name] = _begun(leg, phases)
        for j in begun.along:
            lowest[j] = min(lowest[j], leg.begin_c, leg.end_c)
        for j in begun.first:
            lowest[j] = min(lowest[j], leg.begin_c)
        for j in begun.active:
            if j not in before:
                lowest[j] = min(lowest[j], leg.begin_c)
        before = begun.under_way


class _Begun(NamedTuple):
    """Which operations run in a leg."""

    along: tuple[int, ...]
    """They begin anywhere along it."""
    first: tuple[int, ...]
    """They begin with it."""
    active: tuple[int, ...]
    """They are at one phase all along, and began with it if they did not run before."""
    under_way: frozenset[int]
    """They go on after it."""


def _begun(leg: Leg, phases: list[int]) -> _Begun:
    draw = leg.draw if isinstance(leg.draw, On) else On()
    along, first = list(draw.averaged), tuple[int, ...]()
    active = tuple({j for j, _ in draw.active})
    under_way = set(active)
    if leg.cycles is not None:
        key = leg.cycles[0].key
        if key.part is None:
            along.append(key.operation)
        else:
            if key.part[0] == 0:
                first = (key.operation,)
            if key.part[1] < phases[key.operation]:
                under_way.add(key.operation)
    return _Begun(tuple(along), first, active, frozenset(under_way))


def _cut_off_at_once(run: Trajectory) -> float:
    """Lowest charge at which an operation began and was cut off in the same moment. [C]"""
    ends = {
        leg.end_s: leg for leg in run.legs
        if leg.connected and leg.repeats is None
        and (leg.cycles is None or leg.cycles[0].key.part is None)
    }
    lowest = inf
    for event in run.events:
        leg = ends.get(event.time_s) if event.kind == "brown_out" else None
        if leg is not None and isinstance(leg.draw, On) and not leg.draw.active:
            lowest = min(lowest, event.charge_c)
    return lowest


def first_done(engine: Engine, run: Trajectory) -> float:
    """Time at which the first operation of a run is done; infinite where none is. [s]

    Every run of an operation lasts as long as its phases, unless it is cut off.
    """
    lengths = [op.duration_s for op in engine.system.load.operations]
    begun: dict[int, float] = {}
    for leg in run.legs:
        if not leg.connected:
            begun.clear()
            continue
        draw = leg.draw if isinstance(leg.draw, On) else On()
        now = [*draw.averaged, *(j for j, _ in draw.active)]
        if leg.cycles is not None:
            now.append(leg.cycles[0].key.operation)
        for j in now:
            begun.setdefault(j, leg.begin_s)
        ends = [at + lengths[j] for j, at in begun.items()]
        if ends and min(ends) <= leg.end_s + TIME_GRAIN_S:
            return min(ends)
    return inf


__all__ = ["first_done", "lowest_begins"]

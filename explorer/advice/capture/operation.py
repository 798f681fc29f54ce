"""A reduced cycle as an operation of a device."""

from __future__ import annotations

import math

from explorer.advice.capture.phases import Reduced
from explorer.scenario.demand import Every, Load, Operation, Phase, Schedule
from explorer.scenario.fields import describe


def taken(
    load: Load, found: Reduced, name: str, place: int | None = None, *, keeps_schedule: bool = False
) -> Load:
    """A load that does what was captured.

    Its sleep current becomes the cycle's where the device rests in it; else the phases are what is
    drawn beside the sleep current that the load has.

    Parameters
    ----------
    load : Load
        What else it is: thresholds, regulator, start-up.
    found : Reduced
        The cycle.
    name : str
        What the device does in it.
    place : int, optional
        Operation that it stands for, or the number of operations to stand beside them; left out,
        it stands for all of them.
    keeps_schedule : bool
        Whether it runs when the operation ran for which it stands, not once in every cycle.

    Raises
    ------
    pydantic.ValidationError
        A current or the length of the cycle is out of the range of a scenario, or the phases last
        longer than the schedule allows.
    """
    operations = load.operations
    schedule: Schedule = Every(interval_s=found.interval_s)
    replaced = place if place is not None else 0
    if keeps_schedule and replaced < len(operations):
        schedule = operations[replaced].schedule
    beside_a = 0.0 if found.rests else load.sleep_A
    made = Operation(name=name, schedule=schedule, phases=_phases(found, beside_a))
    first, stop = (0, len(operations)) if place is None else (place, place + 1)
    operations = (*operations[:first], made, *operations[stop:])
    data = load.model_dump()
    data["operations"] = [operation.model_dump() for operation in operations]
    if found.rests:
        data["sleep_A"] = found.sleep_a
    return Load.model_validate(data)


def _phases(found: Reduced, beside_a: float) -> tuple[Phase, ...]:
    """Phases of the cycle less a current that is drawn beside them."""
    longest_s = describe(Phase, "duration_s").high
    phases: list[Phase] = []
    for amps, seconds in zip(found.extra_a.tolist(), found.duration_s.tolist(), strict=True):
        parts = math.ceil(seconds / longest_s)
        draw = max(amps - beside_a, 0.0)
        phases += [Phase(current_A=draw, duration_s=seconds / parts)] * parts
    return tuple(phases)

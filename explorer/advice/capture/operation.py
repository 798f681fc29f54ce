"""A reduced cycle as an operation of a device."""

from __future__ import annotations

import math
from typing import Any

from explorer.advice.capture.phases import Reduced
from explorer.scenario.demand import Every, Load, Operation, Phase
from explorer.scenario.fields import describe


def operation(found: Reduced, name: str) -> Operation:
    """The cycle as an operation that repeats for ever; its phases draw beside the sleep current.

    Raises
    ------
    pydantic.ValidationError
        A current or the length of the cycle is out of the range of a scenario.
    """
    longest_s = describe(Phase, "duration_s").high
    phases: list[Phase] = []
    for amps, seconds in zip(found.extra_a.tolist(), found.duration_s.tolist(), strict=True):
        parts = math.ceil(seconds / longest_s)
        phases += [Phase(current_A=amps, duration_s=seconds / parts)] * parts
    return Operation(
        name=name, schedule=Every(interval_s=found.interval_s), phases=tuple(phases)
    )


def taken(load: Load, found: Reduced, name: str, place: int | None = None) -> Load:
    """A load that does what was captured.

    Parameters
    ----------
    load : Load
        What else it is: thresholds, regulator, start-up.
    found : Reduced
        The cycle.
    name : str
        What the device does in it.
    place : int, optional
        Operation that it stands for; left out, it stands for all of them.

    Raises
    ------
    pydantic.ValidationError
        As `operation`.
    """
    data: dict[str, Any] = load.model_dump()
    made = operation(found, name).model_dump()
    kept = list(data["operations"])
    data["operations"] = [made] if place is None else [*kept[:place], made, *kept[place + 1 :]]
    data["sleep_A"] = found.sleep_a
    return Load.model_validate(data)

"""At which voltage a device is cut off, and what decides that: not always its threshold."""

from __future__ import annotations

from typing import Literal

import numpy as np

from explorer.physics.arrays import Number
from explorer.scenario.demand import Load
from explorer.scenario.model import Scenario

Cause = Literal["threshold", "device", "dropout", "input", "store"]
_DIGITS = 9
"""Of a voltage, behind the point."""


def needs(load: Load) -> dict[Cause, Number]:
    """What the device, and a regulator before it, need at the terminals. [V]"""
    found: dict[Cause, Number] = {"device": load.minimum_V}
    regulator = load.regulator
    if regulator.kind == "linear":
        found["dropout"] = regulator.output_V + regulator.dropout_V
    elif regulator.kind == "switching":
        found["input"] = regulator.minimum_input_V
    return found


def cut_off(scenario: Scenario) -> tuple[Cause, float]:
    """What cuts the device off, and at which voltage. [V]

    Of several that are equal the threshold counts first, also where a sum of two is so but for
    its rounding.

    Examples
    --------
    >>> cut_off(Scenario())
    ('threshold', 2.4)
    """
    found: dict[Cause, float] = {"threshold": scenario.load.disconnect_V}
    found |= {cause: float(np.asarray(volts)) for cause, volts in needs(scenario.load).items()}
    found["store"] = scenario.store.empty_v
    cause = max(found, key=lambda cause: round(found[cause], _DIGITS))
    return cause, found[cause]

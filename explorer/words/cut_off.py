"""What is said where the disconnect voltage is not the one at which the device is cut off."""

from __future__ import annotations

from explorer.scenario.cut_off import Cause, cut_off
from explorer.scenario.model import Scenario
from explorer.text import Text, figure, say, texts

_REASONS: dict[Cause, str] = texts({
    "device": "minimum operating voltage",
    "dropout": "output and dropout voltage of the regulator",
    "input": "minimum input of the regulator",
    "store": "lowest voltage of the store",
})


def cut_off_note(scenario: Scenario) -> Text | None:
    """Which voltage counts in place of a disconnect voltage below it; None where that counts.

    Examples
    --------
    >>> from explorer.scenario.model import with_value
    >>> cut_off_note(with_value(Scenario(), "load.minimum_V", 2.8))
    'Cuts off at 2.8 V already (minimum operating voltage), above the disconnect voltage.'
    """
    cause, volts = cut_off(scenario)
    if cause == "threshold":
        return None
    return say(
        "Cuts off at {volts} already ({reason}), above the disconnect voltage.",
        volts=volts_text(volts), reason=_REASONS[cause],
    )


def volts_text(volts: float) -> Text:
    """A voltage as the lines of the trace have it.

    Examples
    --------
    >>> volts_text(2.21942)
    '2.219 V'
    """
    return figure(f"{volts:.4g} V")

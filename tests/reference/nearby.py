"""The same design in circumstances that differ by less than anybody can tell.

What a design does may hang on microvolts: which of two operations begins first, whether a pulse
touches the cut-off, on which side of a fork its course goes on. There a number is right if it is
right under some nudge, and where nudges lead the reference itself to different ends it says
nothing. Both would hide a fault that many designs show: who compares says how it did (`How`), and
the ordinary run names the designs that need it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from tests.reference.device import Device


@dataclass(frozen=True)
class Nudge:
    """What is changed."""

    light: float = 1.0
    """Share of the light."""
    thresholds_v: float = 0.0
    """Volts by which lie higher: the cut-off, the charger's return from full, and what operations
    wait for."""
    begin_v: float = 0.0
    """Volts by which the store begins its run, and its course, higher."""


GIVEN = Nudge()
NUDGES = (
    Nudge(light=1.0 - 1e-4), Nudge(light=1.0 + 1e-4), Nudge(light=1.0 - 3e-5),
    Nudge(light=1.0 + 3e-5), Nudge(light=1.0 - 1e-5), Nudge(light=1.0 + 1e-5),
    Nudge(thresholds_v=-2e-6), Nudge(thresholds_v=2e-6), Nudge(thresholds_v=-1e-5),
    Nudge(thresholds_v=1e-5), Nudge(begin_v=-5e-5), Nudge(begin_v=5e-5),
)  # fmt: skip
"""What is tried, one after another: up to a hundredth of a per cent of the light, a hundredth of a
millivolt of a threshold, a twentieth of one of what the store begins with."""

AS_GIVEN, NUDGED, ON_A_HAIR = "as given", "nudged", "on a hair"


@dataclass(frozen=True)
class Nearest:
    """What a comparison found, and how it had to be made."""

    off: Mapping
    """Differences by name."""
    how: str = AS_GIVEN

    @property
    def wrong(self):
        """Those beyond what is allowed."""
        return {name: off for name, off in self.off.items() if off.share > 1.0}


def in_light(case, share):
    """A case in a share of its light."""
    scenario, log = case
    if share == 1.0:
        return case
    lux = scenario.light.illuminance_lx
    if lux is None:
        return scenario, replace(log, illuminance_lx=log.illuminance_lx * share)
    light = scenario.light.model_copy(update={"illuminance_lx": lux * share})
    return scenario.model_copy(update={"light": light}), log


def device(case, nudge=GIVEN):
    """The reference's numbers of a case, nudged."""
    found = Device(*in_light(case, nudge.light))
    found.off_v += nudge.thresholds_v
    found.resume_v += nudge.thresholds_v
    for job in found.jobs:
        if job.ready_v is not None:
            job.ready_v += nudge.thresholds_v
    found.first_y = higher(found, found.first_y, nudge.begin_v)
    return found


def higher(device, y, volts):
    """A state of the store so many volts higher."""
    return device.store.state(device.store.volts(y) + volts) if volts else y


def nearest(compare):
    """Differences from `compare(nudge)` under the first nudge that explains them all, if any does.

    All numbers of a design must be right under one and the same nudge.
    """
    given = Nearest(compare(GIVEN))
    if not given.wrong:
        return given
    for nudge in NUDGES:
        found = Nearest(compare(nudge), NUDGED)
        if not found.wrong and not given.off.keys() - found.off.keys():
            return found  # it was followed as far
    return given

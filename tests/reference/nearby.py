"""The same design in light that differs by less than anybody can tell.

What a design does may hang on microvolts: which of two operations begins first, whether a pulse
touches the cut-off. There a number is right if it is right in some light within a hundredth of a
per cent of the one given.
"""

from dataclasses import replace

LIGHTS = (1.0, 1.0 - 1e-4, 1.0 + 1e-4, 1.0 - 3e-5, 1.0 + 3e-5)
"""Shares of the light that are tried, one after another."""


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


def nearest(compare):
    """Differences by name from `compare(share of the light)`, in the light where they are least."""
    best, least = None, None
    for share in LIGHTS:
        found = compare(share)
        worst = max((off.share for off in found.values()), default=0.0)
        if best is not None and best.keys() - found.keys():
            continue  # there it was not followed so far
        if least is None or worst < least:
            best, least = found, worst
        if worst <= 1.0:
            break
    return best

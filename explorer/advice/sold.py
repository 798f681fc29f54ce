"""How far modules on sale lie around the one that stands for a panel without a data sheet."""

from __future__ import annotations

from explorer.advice.case import Case
from explorer.scenario import parts

UNKNOWN_LX = 200.0
"""Level at which the span is read where light is as in a log that is not at hand: the dim one of
data sheets, where modules differ most."""


def sold_span(case: Case) -> tuple[float, float] | None:
    """What the weakest and the best modules on sale give, over what is computed.

    Parameters
    ----------
    case : Case
        The design and its light.

    Returns
    -------
    tuple of float or None
        None where the panel has a data sheet.
    """
    scenario = case.scenario
    if scenario.panels.data_sheet:
        return None
    light = scenario.light
    lux = light.illuminance_lx
    if lux is None:
        lux = case.mean_lit_lx or UNKNOWN_LX
    at_cells = lux * light.orientation_factor * light.cover_factor * light.soiling_factor
    return parts.sold_share(scenario.panels.technology, float(at_cells))

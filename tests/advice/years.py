"""Designs in a year of daylight, for tests."""

from __future__ import annotations

from functools import cache
from typing import Any

from explorer.advice.case import Case
from explorer.scenario.model import Scenario, with_values
from tests.advice.demos import demo

WARM = (2, 3, 6, 9, 13, 17, 19, 19, 15, 11, 6, 3)
"""Mean temperatures of the months of an inland place. [°C]"""
EVENINGS = {"days": ("mon", "tue", "wed", "thu", "fri", "sat", "sun"), "from_h": 8.0, "to_h": 18.0}


def daylight(temperatures: tuple[float, ...] = WARM, **more: Any) -> dict[str, Any]:
    """A pattern of daylight deep in a room."""
    return {
        "kind": "daylight", "year": 2027, "latitude_deg": 51.6, "longitude_deg": 0.0,
        "time_zone": "Etc/UTC", "hung_up": "10-01",
        "place": {"kind": "indoors", "daylight_factor": 0.02, "sun": "sky_alone"},
        "months": [
            {"clear_share": 0.2, "partly_share": 0.3, "mean_C": t} for t in temperatures
        ],
        **more,
    }


def in_a_year(scenario: Scenario, pattern: dict[str, Any], **changes: Any) -> Case:
    """A design in a year of daylight."""
    return Case(with_values(
        scenario, {"light.pattern": pattern, "light.illuminance_lx": None, **changes}
    ))


@cache
def plant_label() -> Case:
    """A demonstration whose store is too small for the dark weeks of a year."""
    return in_a_year(demo("plant_label")[0], daylight())

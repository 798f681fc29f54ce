"""Cautions of a year: frost and heat behind glass."""

from __future__ import annotations

from explorer.quantity import show
from explorer.scenario.daylight import DaylightPattern, Indoors
from explorer.scenario.model import Scenario
from explorer.scenario.storage import CellStore
from explorer.text import Text, say

NIGHTS_K = 10.0
"""By how much a month may be colder at times than its mean, where that was not told (own
judgement)."""


def frost(scenario: Scenario) -> Text | None:
    """What cold does to a cell, where the year may bring it; else None."""
    pattern, store = scenario.light.pattern, scenario.store
    if not isinstance(pattern, DaylightPattern) or not isinstance(store, CellStore):
        return None
    coldest = min(month.mean_C - (month.swing_C or NIGHTS_K) for month in pattern.months)
    if not pattern.weather_file and coldest >= store.charge_above_C:
        return None
    return say(
        "Below {least} °C this cell must take no charge: lithium plates out and may short it weeks "
        "later. A month's mean hides its nights. Use a charger that measures the cell's "
        "temperature, or a store that bears frost.",
        least=show(store.charge_above_C, ""),
    )


def heat(scenario: Scenario) -> Text | None:
    """What the sun does behind glass, where the design lies there; else None."""
    pattern = scenario.light.pattern
    if not isinstance(pattern, DaylightPattern):
        return None
    place = pattern.place
    behind = isinstance(place, Indoors) or place.glass == "coated_glass"
    if not behind and scenario.light.cover_factor == 1.0:
        return None
    return say(
        "Behind sunlit glass and in closed housings it may be 60 °C and more while the air is "
        "mild. Cells and supercapacitors age fast there, and cells may catch fire; keep the store "
        "in the shade of the panel and out of the pane's corner, and measure on a sunny day. A "
        "dark panel close to a pane may also crack it."
    )

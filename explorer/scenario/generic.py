"""What generic panels and stores cost, weigh and take up, so that builds can be ranked.

Prices are relative: they stand for no currency and for no maker. Own judgement, no source. What is
known of one's own parts is in part files.
"""

from __future__ import annotations

from explorer.scenario import parts
from explorer.scenario.parts import StoreFamily
from explorer.scenario.supply import Technology

PANEL_AREAS: dict[Technology, tuple[float, ...]] = {
    "amorphous": (4.0, 8.0, 15.0, 30.0, 60.0, 120.0, 250.0),
    "crystalline": (4.0, 8.0, 15.0, 30.0, 60.0, 120.0, 250.0),
    "gallium_arsenide": (2.0, 4.0, 8.0, 15.0, 30.0),
    "dye_sensitised": (8.0, 15.0, 30.0, 60.0),
    "organic": (8.0, 15.0, 30.0, 60.0, 120.0),
    "perovskite": (8.0, 15.0, 30.0, 60.0),
}
"""Active areas in which such panels are had, roughly. [cm²]"""
PER_PANEL = 1.0
"""Handling, wires and frame of one panel, whatever its size."""
PER_CM2: dict[Technology, float] = {
    "amorphous": 0.04, "crystalline": 0.03, "gallium_arsenide": 1.0, "dye_sensitised": 0.25,
    "organic": 0.15, "perovskite": 0.2,
}  # fmt: skip
PER_STORE, PER_CM3 = 0.3, 0.1
"""Of a store of the first cost class; the others cost their class times as much."""
PANEL_CM, PANEL_G_PER_CM2 = 0.2, 0.45
"""Thickness and weight of a panel on glass."""
PANEL_V = 4.2
"""Of a panel at its best point, which suits the usual converters."""


def cells_for(technology: Technology) -> int:
    """Cells in series of a panel that works at about `PANEL_V` in dim light.

    Examples
    --------
    >>> cells_for("amorphous")
    8
    """
    one_v = parts.cell(technology).modules[0].max_power_v.typical
    return max(round(PANEL_V / one_v), 1)


def panels_price(count: float, area_cm2: float, technology: Technology) -> float:
    """Relative price of so many panels of one area.

    Examples
    --------
    >>> panels_price(16, 12.0, "amorphous") > panels_price(1, 192.0, "amorphous")
    True
    """
    return count * (PER_PANEL + PER_CM2[technology] * area_cm2)


def store_price(family: StoreFamily, size: float, stretch: float = 1.0) -> float:
    """Relative price of a store of a family. [same unit]

    `stretch` is how much longer than usual its string of units is: each of them is larger as well.
    """
    volume = family.volume_cm3(size) * stretch**2
    return family.cost_class * (PER_STORE + PER_CM3 * volume)

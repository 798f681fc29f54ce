"""Relative prices of generic panels and stores, so that designs can be ranked by cost.

They stand for no currency and for no maker: own judgement, no source. Prices of one's own parts are
in part files.
"""

from __future__ import annotations

from explorer.scenario.parts import StoreFamily
from explorer.scenario.supply import Technology

PER_PANEL = 1.0
"""Handling, wires and frame of one panel, whatever its size."""
PER_CM2: dict[Technology, float] = {"amorphous": 0.04, "gallium_arsenide": 1.0}
PER_STORE, PER_CM3 = 0.3, 0.1
"""Of a store of the first cost class; the others cost their class times as much."""


def panels_price(count: float, area_cm2: float, technology: Technology) -> float:
    """Relative price of so many panels of one area.

    Examples
    --------
    >>> panels_price(16, 12.0, "amorphous") > panels_price(1, 192.0, "amorphous")
    True
    """
    return count * (PER_PANEL + PER_CM2[technology] * area_cm2)


def store_price(family: StoreFamily, size: float) -> float:
    """Relative price of a store of a family. [same unit]"""
    return family.cost_class * (PER_STORE + PER_CM3 * family.volume_cm3(size))

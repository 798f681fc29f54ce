"""The store of a scenario: a capacitor, a supercapacitor bank or a small rechargeable cell.

A store is asked, not tested for its kind. All kinds answer to ``size``, ``size_key``,
``size_unit``, ``resistance_key``, ``leakage_key``, ``in_series``, ``empty_v``, ``reach_v``,
``highest_v``, ``unit_rated_v``, ``unit_voltage``, ``resized``, ``built``, ``initial_charge_c`` and
``years_to_end_of_life``.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from explorer.scenario.banks import CapacitorStore, SupercapacitorStore
from explorer.scenario.cells import CellStore

StoreKind = Literal["capacitor", "supercapacitor", "cell"]
Store = Annotated[
    CapacitorStore | SupercapacitorStore | CellStore, Field(discriminator="kind")
]

__all__ = ["CapacitorStore", "CellStore", "Store", "StoreKind", "SupercapacitorStore"]

"""The store of a scenario: a capacitor, a supercapacitor bank or a small rechargeable cell.

A store is asked, not tested for its kind. All kinds answer to ``size``, ``size_key``,
``size_unit``, ``resistance_key``, ``leakage_key``, ``is_lithium``, ``usual_full``,
``followers``, ``spread``, ``in_series``,
``empty_v``, ``reach_v``, ``highest_v``, ``unit_rated_v``, ``unit_voltage``, ``most_charge_A``,
``resized``, ``built``, ``initial_charge_c``, ``wear_per_year``, ``worn`` and
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

SIZE_PATHS = tuple(
    f"store.{kind.size_key}" for kind in (CapacitorStore, SupercapacitorStore, CellStore)
)
"""Where the size of any store stands in a scenario."""

__all__ = ["SIZE_PATHS", "CapacitorStore", "CellStore", "Store", "StoreKind", "SupercapacitorStore"]

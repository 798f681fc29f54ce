"""What one unit of a store is rated for, and what it meets."""

from __future__ import annotations

from explorer.scenario import parts
from explorer.scenario.storage import CellStore, Store, SupercapacitorStore


def rated_voltage(store: Store) -> float:
    """Largest voltage that one unit or cell may see. [V]"""
    if isinstance(store, CellStore):
        return parts.chemistry(store.chemistry).maximum_v
    return float(store.rated_V)


def worst_unit_voltage(store: Store, bank_v: float) -> float:
    """Voltage of the unit that takes the largest share of a bank's voltage. [V]

    Units in series carry one charge, so without balancing the one at the low end of the
    tolerance takes ``(1/(1-t)) / (1/(1-t) + (n-1)/(1+t))`` of the voltage (charge sharing of
    capacitors in series). Balancing, or a single unit, shares equally.
    """
    if isinstance(store, CellStore):
        return bank_v / store.cells_in_series
    n, t = store.units_in_series, store.tolerance
    if n == 1 or (isinstance(store, SupercapacitorStore) and store.balancing != "none"):
        return bank_v / n
    weak = 1.0 / (1.0 - t)
    return bank_v * weak / (weak + (n - 1) / (1.0 + t))

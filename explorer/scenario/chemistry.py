"""The shipped chemistries of small cells, each read once."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from explorer.physics.arrays import FloatArray
from explorer.resource_files import read_notes, read_table, resource_path

ChemistryName = Literal["lithium_ion", "iron_phosphate", "titanate"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Chemistry:
    """Open-circuit voltage of one rechargeable cell against its state of charge."""

    name: ChemistryName
    state_of_charge: FloatArray
    """Rising from 0 to 1, shape (n,)."""
    open_circuit_v: FloatArray
    """Strictly rising, shape (n,). [V]"""
    minimum_v: float
    maximum_v: float
    origin: str
    licence: str
    kind: str
    notes: str


@cache
def chemistry(name: ChemistryName) -> Chemistry:
    """Open-circuit curve of a cell chemistry.

    Raises
    ------
    FileNotFoundError
        No such chemistry is shipped.
    """
    path = resource_path("chemistry", f"{name}.csv")
    table, notes = read_table(path), read_notes(path)
    volts = table["open_circuit_V"]
    return Chemistry(
        name=name,
        state_of_charge=table["state_of_charge"],
        open_circuit_v=volts,
        minimum_v=float(volts[0]),
        maximum_v=float(volts[-1]),
        origin=notes["origin"],
        licence=notes["licence"],
        kind=notes["kind"],
        notes=notes["notes"],
    )

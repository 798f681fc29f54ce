"""The table of generic stores: one source for the library and for the defaults of a scenario."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from typing import Any

from explorer.resource_files import resource_path


@cache
def family_rows() -> tuple[dict[str, Any], ...]:
    """Families as listed in ``resources/parts/stores.json``."""
    text = resource_path("parts", "stores.json").read_text(encoding="utf-8")
    return tuple(json.loads(text)["families"])


HOURS_PER_MONTH = 730.5


def monthly_loss(numbers: Mapping[str, float], capacity_mah: float) -> float:
    """Share of a cell's capacity lost in a month: its own, and what its protection circuit takes.

    The circuit's current is the same in a small and a large cell.
    """
    circuit_mah = 1e3 * numbers.get("protection_A", 0.0) * HOURS_PER_MONTH
    return float(f"{numbers['self_discharge_per_month'] + circuit_mah / capacity_mah:.2g}")


class Usual:
    """Numbers of one family at one size, as the defaults of a scenario take them.

    Parameters
    ----------
    key : str
        Family.
    size : float
        Capacitance of the whole store, or capacity for a cell. [F or mAh]
    """

    def __init__(self, key: str, size: float) -> None:
        row = next(row for row in family_rows() if row["key"] == key)
        self._numbers: dict[str, float] = {k: n["value"] for k, n in row["numbers"].items()}
        self._plus_minus = {
            k: n["plus_minus"] for k, n in row["numbers"].items() if "plus_minus" in n
        }
        self.size = size

    def plus_minus_share(self, key: str) -> float:
        """Uncertainty of a number for one unit more, as a share of it (95 %), to two digits."""
        return float(f"{self._plus_minus[key] / self._numbers[key]:.2g}")

    def __getitem__(self, key: str) -> float:
        """A number that holds at every size."""
        return float(self._numbers[key])

    @property
    def monthly_loss(self) -> float:
        """Share of a cell's capacity lost in a month, protection circuit included."""
        return monthly_loss(self._numbers, self.size)

    def per_size(self, key: str) -> float:
        """A share per farad or mAh, at this size; to three digits."""
        return float(f"{self._numbers[key] * self.size:.3g}")

    def over_size(self, key: str) -> float:
        """A product with farad or mAh, at this size; to three digits."""
        return float(f"{self._numbers[key] / self.size:.3g}")

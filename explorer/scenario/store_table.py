"""The table of generic stores: one source for the library and for the defaults of a scenario."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from explorer.resource_files import resource_path


@cache
def family_rows() -> tuple[dict[str, Any], ...]:
    """Families as listed in ``resources/parts/stores.json``."""
    text = resource_path("parts", "stores.json").read_text(encoding="utf-8")
    return tuple(json.loads(text)["families"])


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
        self.size = size

    def __getitem__(self, key: str) -> float:
        """A number that holds at every size."""
        return float(self._numbers[key])

    def per_size(self, key: str) -> float:
        """A share per farad or mAh, at this size; to three digits."""
        return float(f"{self._numbers[key] * self.size:.3g}")

    def over_size(self, key: str) -> float:
        """A product with farad or mAh, at this size; to three digits."""
        return float(f"{self._numbers[key] / self.size:.3g}")

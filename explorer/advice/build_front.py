"""What a build is, what it should have little of, and which of many no other beats."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from explorer.advice.verdict import Verdict
from explorer.physics.arrays import FloatArray
from explorer.scenario.model import Scenario
from explorer.scenario.price import RELATIVE, Price

OwnAlone = Literal["panels", "stores"]
SIZES = ("panel_cm2", "volume_cm3", "mass_g")
MEASURES = ("price", *SIZES)
"""What a build should have little of."""
ALIKE = 1.06
"""Builds within this ratio of each other in a measure count as alike in it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What a build may have at most; None where it does not matter."""

    lithium: bool = True
    """Whether lithium cells may be used."""
    most_parts: int | None = None
    """Panels, charger and store together."""
    price: float | None = None
    """In the first of `Builds.currencies`, and in no other beside it."""
    panel_cm2: float | None = None
    volume_cm3: float | None = None
    mass_g: float | None = None
    height_mm: float | None = None
    """Of store and charger; a panel lies flat."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Combination:
    """Panels, charger and store, with what is known of them."""

    scenario: Scenario
    panels: str
    charger: str
    store: str
    part_count: int
    """Panels, charger and store together."""
    cost: Price
    panel_cm2: float
    volume_cm3: float
    """Of panels and store; not a number where a part of one's own does not say."""
    mass_g: float
    height_mm: float
    """Of the store; not a number where it is not known."""

    @property
    def price(self) -> float:
        """In the one currency of all its parts; not a number where there are several."""
        return self.cost.single


@dataclass(frozen=True, slots=True, kw_only=True)
class Build(Combination):
    """One that was judged."""

    verdict: Verdict
    """By the exact march."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Builds:
    """What a search has found so far; arrays of shape (builds that run,)."""

    tried: int
    """Combinations that the batch engine has looked at."""
    measures: dict[str, FloatArray]
    """Of each build that runs by the batch engine, by the names of `measures_of`."""
    front: tuple[Build, ...]
    """Those that no other beats in all measures, confirmed; by price."""
    is_done: bool
    currencies: tuple[str, ...] = (RELATIVE,)
    """Of the prices, the one that limits hold in first."""
    within: int | None = None
    """Combinations within the limits; None where it was not counted."""
    own_alone: tuple[OwnAlone, ...] = ()
    """What was tried of one's own alone, as that has prices and generic parts have none."""

    @property
    def running(self) -> int:
        """Builds that run by the batch engine."""
        return len(self.measures[SIZES[0]])


def measures_of(currencies: Sequence[str]) -> tuple[str, ...]:
    """Names of what a build should have little of: prices in several currencies are several.

    Examples
    --------
    >>> measures_of(("EUR",))
    ('price', 'panel_cm2', 'volume_cm3', 'mass_g')
    >>> measures_of(("EUR", "relative"))[:3]
    ('price EUR', 'price relative', 'panel_cm2')
    """
    several = len(currencies) > 1
    return (*(f"price {c}" for c in currencies), *SIZES) if several else MEASURES


def measure_of(build: Combination, name: str) -> float:
    """One of the measures of a build; not a number where it is not known."""
    head, of_several, currency = name.partition(" ")
    value = build.cost.amount(currency) if of_several else getattr(build, head)
    return float(value)


def front_of(table: FloatArray) -> NDArray[np.intp]:
    """Rows that no other row beats: no worse in every column and better in one.

    Parameters
    ----------
    table : ndarray
        Shape (n, k), less is better; what is not known counts as the worst.

    Examples
    --------
    >>> front_of(np.array([[1.0, 5.0], [2.0, 2.0], [3.0, 3.0], [5.0, 1.0]])).tolist()
    [0, 1, 3]
    """
    known = np.where(np.isnan(table), np.inf, table)
    left = np.lexsort(known.T[::-1])
    kept: list[int] = []
    while len(left):
        first, left = left[0], left[1:]
        kept.append(int(first))
        beaten = (known[left] >= known[first]).all(axis=1)
        left = left[~beaten]
    return np.array(sorted(kept), dtype=np.intp)


def coarse(table: FloatArray) -> FloatArray:
    """Measures in steps of `ALIKE`: what differs by less is no reason to choose."""
    with np.errstate(divide="ignore"):
        return np.asarray(np.floor(np.log(table) / np.log(ALIKE)))


def by_cost(table: FloatArray) -> NDArray[np.intp]:
    """Rows by what they cost in the first currency, where that is the same in the next."""
    costs = table[:, : -len(SIZES)]
    return np.asarray(np.lexsort(costs.T[::-1]))


def cost_from(costs: Sequence[float], currencies: Sequence[str]) -> Price:
    """What a build costs, from its row of a table."""
    if np.isnan(costs).any():
        return Price(is_known=False)
    return Price(tuple(
        (c, amount) for c, amount in zip(currencies, costs, strict=False)
        if amount > 0.0 or len(currencies) == 1
    ))  # fmt: skip


def by_price(build: Combination, currencies: Sequence[str]) -> tuple[float, ...]:
    """Where a build stands among others: by currency, then by what it comes to in it."""
    if not build.cost.is_known:
        return (inf, build.panel_cm2)
    amounts = [build.cost.amount(c) for c in currencies]
    paid = [at for at, amount in enumerate(amounts) if amount > 0.0]
    group = paid[0] if len(paid) == 1 else len(amounts) * bool(paid)
    return (group, *amounts, build.panel_cm2)

"""What a store is worth after years like the one that was followed, and when the verdict turns."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from explorer.advice.case import Case, kept
from explorer.advice.judge import judge
from explorer.advice.verdict import State
from explorer.advice.year.study import aged, lived, seasons_of, wear_per_year
from explorer.engine.system import System
from explorer.physics.ageing import LONGEST_YEARS
from explorer.physics.store import Cell, Store

AGES = (1, 2, 3, 5, 7, 10, 15, 20, 25)
"""Ages at which a verdict is looked for. [a]"""
NEAR_FULL = 0.9
"""Share of the full voltage above which a store counts as held high."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Life:
    """What a year does to the store."""

    cycles_per_year: float
    """Charge taken out in the year over the charge of a full store."""
    mean_c: float
    """Mean temperature. [degC]"""
    warmest_c: float
    near_full_share: float
    """Share of the time above `NEAR_FULL` of the full voltage."""
    wear_per_year: float
    """Share of the life that a year takes."""

    @property
    def years_to_end(self) -> float:
        """Until the store counts as worn out, at most `LONGEST_YEARS`. [a]"""
        return min(1.0 / max(self.wear_per_year, 1e-9), LONGEST_YEARS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Worn:
    """What is left of a store after some years, over what it was when new."""

    years: float
    size_share: float
    """Of capacitance or capacity."""
    resistance_ratio: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """When the verdict becomes another one as the store ages."""

    new: State
    """What a new store gives."""
    years: float | None
    """First age at which it is worse; None where it is not within the ages looked at. [a]"""
    then: State
    """The verdict at that age, or at the last one looked at."""
    looked_years: float


def as_new(case: Case) -> Case:
    """The same design with a new store."""
    return case if _age(case) <= 0.0 else case.with_value("store.years_in_service", 0.0)


@kept
def life(case: Case) -> Life:
    """What a year does to a new store of the design."""
    case = as_new(case)
    gone = lived(case)
    full_v = case.scenario.charger.full_V
    return Life(
        cycles_per_year=gone.cycles,
        mean_c=float(np.mean(gone.temperature_c)), warmest_c=float(np.max(gone.temperature_c)),
        near_full_share=float(np.mean(gone.store_v >= NEAR_FULL * full_v)),
        wear_per_year=wear_per_year(case),
    )


def worn_after(case: Case, years: float) -> Worn:
    """What is left of the store of a design after some years like the one that was followed."""
    found = life(case)
    system: System = seasons_of(as_new(case))[1].engines[0].system
    old = case.scenario.store.worn(system.store, found.wear_per_year * years)
    return Worn(
        years=years, size_share=_size(old) / _size(system.store),
        resistance_ratio=_ohm(old) / max(_ohm(system.store), 1e-12)
        if _ohm(system.store) > 0.0 else 1.0,
    )


def verdict_turn(case: Case, stopped: Callable[[], bool] = lambda: False) -> Turn:
    """The first of `AGES` at which the verdict is worse than with a new store.

    Looked for by halves: what age takes does not come back.
    """
    order: dict[State, int] = {"falls_short": 0, "marginal": 1, "runs": 2}
    new = judge(as_new(case)).state
    ages = [age for age in AGES if age <= LONGEST_YEARS]

    def at(years: float) -> State:
        other = aged(case, float(years), life(case).wear_per_year)
        found = judge(other).state
        other.forget()
        return found

    last = at(ages[-1])
    if order[last] >= order[new] or stopped():
        return Turn(new=new, years=None, then=last, looked_years=ages[-1])
    low, high, then = -1, len(ages) - 1, last
    while high - low > 1 and not stopped():
        middle = (low + high) // 2
        state = at(ages[middle])
        if order[state] < order[new]:
            high, then = middle, state
        else:
            low = middle
    return Turn(new=new, years=ages[high], then=then, looked_years=ages[-1])


def _age(case: Case) -> float:
    return float(np.asarray(case.scenario.store.years_in_service))


def _size(store: Store) -> float:
    """Capacity [C] or capacitance [F]."""
    one = store.capacity_c if isinstance(store, Cell) else store.capacitance_f
    return float(np.asarray(one))


def _ohm(store: Store) -> float:
    return float(np.asarray(store.series_ohm))


__all__ = ["Life", "Turn", "Worn", "as_new", "life", "verdict_turn", "worn_after"]

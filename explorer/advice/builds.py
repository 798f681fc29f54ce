"""Which build? Every combination of panels, charger and store that runs, and the best of them.

Generic parts come in the sizes in which they are had, one's own as they are. The batch engine
looks at all combinations at once; whatever stands on the front is confirmed by the exact march, so
that no build is shown that a check of its scenario would refuse.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from math import nan
from typing import Any

import numpy as np
from numpy.typing import NDArray

from explorer.advice.build_front import (
    MEASURES,
    SIZES,
    Build,
    Builds,
    OwnAlone,
    Wanted,
    by_cost,
    by_price,
    coarse,
    cost_from,
    front_of,
    measures_of,
)
from explorer.advice.build_parts import (
    ChargerKind,
    PanelKind,
    StoreKind,
    changed,
    options,
    panel_title,
)
from explorer.advice.case import Case
from explorer.advice.contest import sizes_of
from explorer.advice.fleet import fleet, prospects
from explorer.advice.judge import judge
from explorer.advice.together import together
from explorer.advice.year.bounds import ruled_out
from explorer.advice.year.prospects import prospects_of_year
from explorer.physics.arrays import BoolArray, FloatArray
from explorer.quantity import show
from explorer.scenario.model import Scenario
from explorer.scenario.part import ChargerPart, Part, taken
from explorer.scenario.price import RELATIVE, currencies_of
from explorer.text import say

COUNTS = (1, 2, 3, 4)
"""Panels in parallel that are tried."""
HOPEFUL = 0.9
"""Share of what is wanted from which a build is looked at more closely."""
HOPEFUL_YEAR = 0.98
"""The same of a year, of which no more is known than bounds."""
MOST_MARCHES = 200
"""Builds that are judged exactly before the search ends."""


@dataclass(slots=True, eq=False)
class _Seen:
    """Builds that may run, row by row."""

    currencies: tuple[str, ...]
    own_alone: tuple[OwnAlone, ...]
    panel: list[PanelKind] = field(default_factory=list)
    charger: list[ChargerKind] = field(default_factory=list)
    store: list[StoreKind] = field(default_factory=list)
    count: list[int] = field(default_factory=list)
    area: list[float] = field(default_factory=list)
    size: list[float] = field(default_factory=list)
    rows: list[tuple[float, ...]] = field(default_factory=list)
    """Measures of each build."""
    tried: int = 0
    within: int = 0
    """Of those that were tried the ones that are within the limits."""

    def table(self) -> FloatArray:
        """Shape (builds, measures)."""
        width = len(measures_of(self.currencies))
        return np.array(self.rows, dtype=np.float64).reshape(-1, width)


def search(
    case: Case, *, own: Sequence[Part] = (), wanted: Wanted | None = None,
    stopped: Callable[[], bool] = lambda: False,
) -> Iterator[Builds]:
    """Builds that run, and their front, as it grows.

    Parameters
    ----------
    case : Case
        The design; its place, device and requirements stay, and its charger beside one's own.
    own : sequence of Part
        Panels, chargers and stores of one's own. Where there are own parts with prices, generic
        ones, whose prices are relative, are left out of that kind.
    wanted : Wanted, optional
        What a build may have at most.
    stopped : callable
        Asked between batches and before every march.

    Yields
    ------
    Builds
        After each kind of panel, and after each march that changes the front.
    """
    wanted = wanted or Wanted()
    panels, chargers, stores = options(case.scenario, own)
    stores = [s for s in stores if wanted.lithium or not s.is_lithium]
    seen = _Seen(_currencies(own, panels, stores), _own_alone(panels, stores))
    for panel in panels:
        looks = [
            look for charger in chargers for store in stores
            if (look := _look(case, panel, charger, store, wanted, seen.currencies)) is not None
        ]
        seen.tried += sum(len(look.fits) for look in looks)
        seen.within += sum(int(look.fits.sum()) for look in looks)
        if not _gather(case, looks, seen, stopped):
            return
        yield _so_far(seen, (), is_done=False)
    yield from _confirmed(case, seen, stopped)


def _own_alone(
    panels: Sequence[PanelKind], stores: Sequence[StoreKind]
) -> tuple[OwnAlone, ...]:
    of_panels = all(kind.part is not None for kind in panels)
    of_stores = all(kind.part is not None for kind in stores)
    return (*(("panels",) if of_panels else ()), *(("stores",) if of_stores else ()))


def _currencies(
    own: Sequence[Part], panels: Sequence[PanelKind], stores: Sequence[StoreKind]
) -> tuple[str, ...]:
    """Currencies of what is tried, that of most of one's own parts first, the relative one last.

    It comes first where no panel and no store has another: chargers beside the present one are but
    a choice, and a limit on the price is one in the first.
    """
    kinds: list[PanelKind | StoreKind] = [*panels, *stores]
    chosen = [kind.part for kind in kinds if kind.part is not None]
    tried = [*chosen, *(p for p in own if isinstance(p, ChargerPart))]
    named = [c for c in currencies_of(tried) if c != RELATIVE]
    generic = any(kind.part is None for kind in kinds)
    if not generic and RELATIVE not in currencies_of(tried):
        return tuple(named)
    if any(c != RELATIVE for c in currencies_of(chosen)):
        return (*named, RELATIVE)
    return (RELATIVE, *named)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Look:
    """All counts, areas and sizes of three parts; arrays of shape (combinations,)."""

    panel: PanelKind
    charger: ChargerKind
    store: StoreKind
    base: Scenario
    count: NDArray[Any]
    area: FloatArray
    size: FloatArray
    table: FloatArray
    """Measures, shape (combinations, measures)."""
    fits: BoolArray
    """Which of them are within the limits."""
    changes: dict[str, Any]


def _look(
    case: Case, panel: PanelKind, charger: ChargerKind, store: StoreKind, wanted: Wanted,
    currencies: tuple[str, ...],
) -> _Look | None:
    """What can be made of three parts; None where they do not go together."""
    base = _based(case.scenario, panel, charger, store)
    if base is None:
        return None
    sizes = np.array(store.sizes)
    count, area, at = (
        grid.ravel()
        for grid in np.meshgrid(COUNTS, panel.areas, np.arange(len(sizes)), indexing="ij")
    )
    at = at.astype(np.intp)
    number = count * base.panels.in_series
    stretch = store.stretch(base)
    table = _measures(
        panel, charger, store, stretch, number.astype(float), area, at, currencies
    )
    fits = _allowed(table, number, wanted)
    if wanted.height_mm is not None:
        # Of a store what is not known is not within a limit; chargers are flat where none is told.
        heights = np.array([store.height_mm(size, stretch) for size in store.sizes])[at]
        fits &= heights <= wanted.height_mm
        if charger.height_mm > wanted.height_mm:
            fits[:] = False
    changes: dict[str, Any] = {"panels.count": count, "panels.active_area_cm2": area}
    if store.family is not None:
        changes = {
            **{p: v[at] for p, v in sizes_of(base, base, store.family).items()}, **changes
        }  # fmt: skip
    return _Look(
        panel=panel, charger=charger, store=store, base=base, count=count, area=area,
        size=sizes[at], table=table, fits=fits, changes=changes,
    )


def _gather(
    case: Case, looks: Sequence[_Look], seen: _Seen, stopped: Callable[[], bool]
) -> bool:
    """Put down what may run, as far as the batch engine says; False where it was stopped."""
    some = [np.flatnonzero(look.fits) for look in looks]
    asked = [k for k, rows in enumerate(some) if len(rows)]
    hopeful: dict[int, BoolArray] = {}
    for group in together([
        (looks[k].base, {p: v[some[k]] for p, v in looks[k].changes.items()}) for k in asked
    ]):
        if stopped():
            return False
        members = [asked[i] for i in group.members]
        found = _hopeful(case.with_scenario(group.scenario), group.changes)
        ends = np.cumsum([len(some[k]) for k in members])
        hopeful.update(zip(members, np.split(found, ends[:-1]), strict=True))
    for k, found in sorted(hopeful.items()):
        look = looks[k]
        for i in some[k][found].tolist():
            seen.panel.append(look.panel)
            seen.charger.append(look.charger)
            seen.store.append(look.store)
            seen.count.append(int(look.count[i]))
            seen.area.append(float(look.area[i]))
            seen.size.append(float(look.size[i]))
            seen.rows.append(tuple(look.table[i].tolist()))
    return not stopped()


def _hopeful(here: Case, changes: dict[str, Any]) -> BoolArray:
    """Which variants may run; the march has the word, if they come to the front."""
    if here.year is not None:
        return np.asarray(prospects_of_year(here, changes) >= HOPEFUL_YEAR)
    may = np.asarray(prospects(here, changes) >= HOPEFUL)
    if may.any():
        found = fleet(here, {p: v[may] for p, v in changes.items()}, only_runs=True)
        # What the averages do not suit may run.
        may[may] = (found.codes == 2) | (~found.sure & (found.reserve > HOPEFUL))
    return may


def _based(
    scenario: Scenario, panel: PanelKind, charger: ChargerKind, store: StoreKind
) -> Scenario | None:
    """The scenario on three kinds of part, in their first sizes."""
    section = panel.section if panel.part is None else taken(panel.part, scenario.panels)
    with_panel = changed(scenario, {"panels": section})
    with_charger = None if with_panel is None else charger.on(with_panel)
    return None if with_charger is None else store.on(with_charger, store.sizes[0])


def _measures(
    panel: PanelKind, charger: ChargerKind, store: StoreKind, stretch: float, count: FloatArray,
    area: FloatArray, at: NDArray[np.intp], currencies: tuple[str, ...],
) -> FloatArray:
    """Shape (builds, measures), in the order of `measures_of`; panels in series count, too."""
    price, volume, mass = np.array([store.measures(s, stretch) for s in store.sizes])[at].T
    costs = np.zeros((len(count), max(len(currencies), 1)))
    for part, amount in (
        (panel, panel.price(count, area)), (charger, charger.price), (store, price)
    ):  # fmt: skip
        if np.isnan(amount).any():
            costs[:] = nan  # one part without a price: nothing is known of the whole
        elif part.currency in currencies:
            costs[:, currencies.index(part.currency)] += amount
    return np.column_stack((
        costs,
        count * panel.outside_cm2(area),
        count * panel.volume_cm3(area) + volume,
        count * panel.mass_g(area) + mass,
    ))  # fmt: skip


def _allowed(table: FloatArray, count: NDArray[Any], wanted: Wanted) -> BoolArray:
    fits = np.ones(len(table), dtype=bool)
    for at, name in zip((0, *range(-len(SIZES), 0)), MEASURES, strict=True):
        most = getattr(wanted, name)
        if most is not None:
            fits &= table[:, at] <= most  # what is not known is not within a limit
    if wanted.price is not None:  # what is paid in another currency is not known in this one
        fits &= (table[:, 1 : -len(SIZES)] == 0.0).all(axis=1)
    if wanted.most_parts is not None:
        fits &= count + 2 <= wanted.most_parts
    return fits


def _confirmed(
    case: Case, seen: _Seen, stopped: Callable[[], bool]
) -> Iterator[Builds]:
    """The front, each of it judged by the exact march; what does not run makes room for others."""
    table = seen.table()
    left = np.arange(len(table))
    verdicts: dict[int, Build | None] = {}
    marches = 0
    while True:
        # Of builds that are alike the cheaper stands for them.
        order = left[by_cost(table[left])]
        front = order[front_of(coarse(table[order]))]
        open_ = [int(i) for i in front if int(i) not in verdicts]
        good = tuple(b for i in front if (b := verdicts.get(int(i))) is not None)
        done = not open_ or marches >= MOST_MARCHES or stopped()
        yield _so_far(seen, good, is_done=done)
        if done:
            return
        for i in open_:
            if stopped():
                break
            verdicts[i] = _judged(case, seen, i)
            marches += 1
        refused = [i for i in open_ if verdicts.get(i, 0) is None]
        left = left[~np.isin(left, refused)]


def _judged(case: Case, seen: _Seen, i: int) -> Build | None:
    """One build with its exact verdict; None where it does not run."""
    panel, charger, store = seen.panel[i], seen.charger[i], seen.store[i]
    base = _based(case.scenario, panel, charger, store)
    assert base is not None
    sized = store.on(base, seen.size[i])
    if sized is None:
        return None
    scenario = changed(sized, {
        "panels": sized.panels.model_copy(
            update={"count": seen.count[i], "active_area_cm2": seen.area[i]}
        )
    })  # fmt: skip
    if scenario is None:
        return None
    own = case.with_scenario(scenario)
    if own.year is not None and ruled_out(own, cleanly=True) is not None:
        own.forget()
        return None
    verdict = judge(own)
    own.forget()
    if verdict.state != "runs":
        return None
    *costs, panel_cm2, volume_cm3, mass_g = seen.rows[i]
    number = seen.count[i] * scenario.panels.in_series
    return Build(
        scenario=scenario, panels=panel_title(panel, number, seen.area[i]),
        charger=charger.title, store=_store_title(store, scenario), verdict=verdict,
        part_count=number + 2, height_mm=store.height_mm(seen.size[i], store.stretch(base)),
        cost=cost_from(costs, seen.currencies), panel_cm2=panel_cm2, volume_cm3=volume_cm3,
        mass_g=mass_g,
    )  # fmt: skip


def _store_title(store: StoreKind, scenario: Scenario) -> str:
    size = show(scenario.store.size, scenario.store.size_unit)
    return say("{title}, {size}", title=store.title(scenario), size=size)


def _so_far(seen: _Seen, front: tuple[Build, ...], *, is_done: bool) -> Builds:
    table = seen.table()
    return Builds(
        tried=seen.tried, within=seen.within, currencies=seen.currencies, is_done=is_done,
        own_alone=seen.own_alone,
        measures={name: table[:, at] for at, name in enumerate(measures_of(seen.currencies))},
        front=tuple(sorted(front, key=lambda build: by_price(build, seen.currencies))),
    )  # fmt: skip


__all__ = ["search"]

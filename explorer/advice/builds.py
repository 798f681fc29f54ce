"""Which build? Every combination of panels, charger and store that runs, and the best of them.

Generic parts come in the sizes in which they are had, one's own as they are. The batch engine
looks at all combinations at once; whatever stands on the front is confirmed by the exact march, so
that no build is shown that a check of its scenario would refuse.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from math import nan
from typing import Any, get_args

import numpy as np
from numpy.typing import NDArray
from pydantic import ValidationError

from explorer.advice.case import Case
from explorer.advice.contest import fitted_title, own_store, replaced_store, sizes_of
from explorer.advice.fleet import fleet
from explorer.advice.judge import judge
from explorer.advice.verdict import Verdict
from explorer.quantity import show
from explorer.scenario import parts
from explorer.scenario.generic import (
    PANEL_AREAS,
    PANEL_CM,
    PANEL_G_PER_CM2,
    cells_for,
    panels_price,
    store_price,
)
from explorer.scenario.model import Scenario
from explorer.scenario.part import ChargerPart, PanelPart, Part, StorePart, taken
from explorer.scenario.parts import StoreFamily
from explorer.scenario.supply import Panels, Technology
from explorer.text import figure, say, texts

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

COUNTS = (1, 2, 3, 4)
"""Panels in parallel that are tried."""
MEASURES = ("price", "panel_cm2", "volume_cm3", "mass_g")
"""What a build should have little of."""
_TECHNOLOGIES: dict[Technology, str] = texts({
    "amorphous": "amorphous silicon", "crystalline": "crystalline silicon",
    "gallium_arsenide": "gallium-arsenide", "dye_sensitised": "dye-sensitised",
    "organic": "organic", "perovskite": "perovskite",
})  # fmt: skip
ALIKE = 1.06
"""Builds within this ratio of each other in a measure count as alike in it."""
MOST_MARCHES = 200
"""Builds that are judged exactly before the search ends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What a build may have at most; None where it does not matter."""

    lithium: bool = True
    """Whether lithium cells may be used."""
    most_parts: int | None = None
    """Panels, charger and store together."""
    price: float | None = None
    panel_cm2: float | None = None
    volume_cm3: float | None = None
    mass_g: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """One combination, with what is known of it."""

    scenario: Scenario
    panels: str
    charger: str
    store: str
    part_count: int
    """Panels, charger and store together."""
    price: float
    """In the currency of one's own parts, or relative where all parts are generic."""
    panel_cm2: float
    volume_cm3: float
    """Of panels and store; not a number where a part of one's own does not say."""
    mass_g: float
    verdict: Verdict
    """By the exact march."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Builds:
    """What a search has found so far; arrays of shape (builds that run,)."""

    tried: int
    """Combinations that the batch engine has looked at."""
    measures: dict[str, FloatArray]
    """Of each build that runs by the batch engine, by the names in `MEASURES`."""
    front: tuple[Build, ...]
    """Those that no other beats in all measures, confirmed; by price."""
    is_done: bool
    currency: str = ""
    """Of the prices; empty where they are relative."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Panel:
    """Panels that can be had in some areas."""

    section: Panels
    title: str | None
    """Of one's own; None for a generic kind."""
    areas: tuple[float, ...]
    part: PanelPart | None = None

    def price(self, count: FloatArray, area: FloatArray) -> FloatArray:
        if self.part is not None:
            return count * _known(self.part.price)
        kind = self.section.technology
        both = zip(count.tolist(), area.tolist(), strict=True)
        return np.array([panels_price(n, cm2, kind) for n, cm2 in both])

    def outside_cm2(self, area: FloatArray) -> FloatArray:
        """Area of one panel with its frame."""
        own = None if self.part is None else self.part.area_cm2
        return area if own is None else np.full_like(area, own)

    def volume_cm3(self, area: FloatArray) -> FloatArray:
        if self.part is not None and self.part.volume_cm3 is not None:
            return np.full_like(area, self.part.volume_cm3)
        return self.outside_cm2(area) * PANEL_CM

    def mass_g(self, area: FloatArray) -> FloatArray:
        if self.part is not None and self.part.mass_g is not None:
            return np.full_like(area, self.part.mass_g)
        return self.outside_cm2(area) * PANEL_G_PER_CM2


@dataclass(frozen=True, slots=True, kw_only=True)
class _Store:
    """A family in its sizes, or one store of one's own."""

    family: StoreFamily | None
    part: StorePart | None = None

    @property
    def is_lithium(self) -> bool:
        if self.family is not None:
            return self.family.chemistry is not None or self.family.key == "hybrid"
        assert self.part is not None
        return self.part.store.kind == "cell"

    @property
    def sizes(self) -> tuple[float, ...]:
        if self.family is not None:
            return self.family.sizes
        assert self.part is not None
        return (self.part.store.size,)

    def on(self, scenario: Scenario, size: float) -> Scenario | None:
        """The scenario with this store."""
        if self.family is not None:
            return replaced_store(scenario, self.family, size)
        assert self.part is not None
        return own_store(scenario, self.part)

    def measures(self, size: float) -> tuple[float, float, float]:
        """Price, volume and mass."""
        if self.family is not None:
            family = self.family
            return store_price(family, size), family.volume_cm3(size), family.mass_g(size)
        assert self.part is not None
        return _known(self.part.price), _known(self.part.volume_cm3), _known(self.part.mass_g)

    def title(self, scenario: Scenario) -> str:
        if self.family is not None:
            return fitted_title(self.family, scenario.charger.full_V)
        assert self.part is not None
        return self.part.title


@dataclass(frozen=True, slots=True, kw_only=True)
class _Charger:
    part: ChargerPart | None
    """None for the one that the design has."""

    def on(self, scenario: Scenario) -> Scenario | None:
        if self.part is None:
            return scenario
        return _changed(scenario, {"charger": taken(self.part, scenario.charger)})

    @property
    def price(self) -> float:
        return 0.0 if self.part is None else _known(self.part.price)

    @property
    def title(self) -> str:
        if self.part is None:
            return say("as it is")
        return self.part.title


@dataclass(slots=True, eq=False)
class _Seen:
    """Builds that may run, row by row."""

    panel: list[_Panel] = field(default_factory=list)
    charger: list[_Charger] = field(default_factory=list)
    store: list[_Store] = field(default_factory=list)
    count: list[int] = field(default_factory=list)
    area: list[float] = field(default_factory=list)
    size: list[float] = field(default_factory=list)
    rows: list[tuple[float, ...]] = field(default_factory=list)
    """Measures of each build."""

    def table(self) -> FloatArray:
        """Shape (builds, measures)."""
        return np.array(self.rows, dtype=np.float64).reshape(-1, len(MEASURES))


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
        Asked between kinds of store and before every march.

    Yields
    ------
    Builds
        After each kind of panel, and after each march that changes the front.
    """
    wanted = wanted or Wanted()
    seen, tried = _Seen(), 0
    panels, chargers, stores = _options(case.scenario, own)
    currency = next((p.currency for p in own if p.price is not None and p.currency), "")
    for panel in panels:
        for charger in chargers:
            for store in stores:
                if stopped():
                    return
                if not store.is_lithium or wanted.lithium:
                    tried += _look(case, panel, charger, store, wanted, seen)
        yield _so_far(seen, tried, (), currency, is_done=False)
    yield from _confirmed(case, seen, tried, currency, stopped)


def _options(
    scenario: Scenario, own: Sequence[Part]
) -> tuple[list[_Panel], list[_Charger], list[_Store]]:
    own_panels = [p for p in own if isinstance(p, PanelPart)]
    own_stores = [p for p in own if isinstance(p, StorePart)]
    priced = any(p.price is not None for p in own)
    panels = [
        _Panel(section=p.panels, title=p.title, part=p,
               areas=(p.panels.active_area_cm2,))
        for p in own_panels
    ]  # fmt: skip
    if not (priced and own_panels):
        panels += [_generic(technology) for technology in _technologies(scenario)]
    stores = [_Store(family=None, part=p) for p in own_stores]
    if not (priced and own_stores):
        stores += [_Store(family=family) for family in parts.store_families()]
    chargers = [_Charger(part=None)]
    chargers += [_Charger(part=p) for p in own if isinstance(p, ChargerPart)]
    return panels, chargers, stores


def _technologies(scenario: Scenario) -> tuple[Technology, ...]:
    """What is sold in numbers, and the technology that the design has."""
    known: tuple[Technology, ...] = get_args(Technology)
    usual = ("amorphous", "crystalline", "gallium_arsenide")
    return tuple(t for t in known if t in usual or t == scenario.panels.technology)


def _generic(technology: Technology) -> _Panel:
    areas = PANEL_AREAS[technology]
    section = Panels(
        technology=technology, active_area_cm2=areas[0], cells_in_series=cells_for(technology)
    )
    return _Panel(section=section, title=None, areas=areas)


def _look(
    case: Case, panel: _Panel, charger: _Charger, store: _Store, wanted: Wanted, seen: _Seen
) -> int:
    """Let the batch engine look at all counts, areas and sizes of three parts."""
    base = _based(case.scenario, panel, charger, store)
    if base is None:
        return 0
    sizes = np.array(store.sizes)
    count, area, at = (
        grid.ravel()
        for grid in np.meshgrid(COUNTS, panel.areas, np.arange(len(sizes)), indexing="ij")
    )
    at = at.astype(np.intp)
    table = _measures(panel, charger, store, count.astype(float), area, at)
    fits = _allowed(table, count, wanted)
    if not fits.any():
        return len(fits)
    changes: dict[str, Any] = {"panels.count": count, "panels.active_area_cm2": area}
    if store.family is not None:
        changes = {
            **{p: v[at] for p, v in sizes_of(base, base, store.family).items()}, **changes
        }  # fmt: skip
    found = fleet(case.with_scenario(base), {p: v[fits] for p, v in changes.items()})
    # What the averages do not suit may run: the march says, if it ever comes to the front.
    hopeful = (found.codes == 2) | (~found.sure & (found.reserve > 0.9))
    for i in np.flatnonzero(fits)[hopeful].tolist():
        seen.panel.append(panel)
        seen.charger.append(charger)
        seen.store.append(store)
        seen.count.append(int(count[i]))
        seen.area.append(float(area[i]))
        seen.size.append(float(sizes[at[i]]))
        seen.rows.append(tuple(table[i].tolist()))
    return len(fits)


def _based(
    scenario: Scenario, panel: _Panel, charger: _Charger, store: _Store
) -> Scenario | None:
    """The scenario on three kinds of part, in their first sizes."""
    section = panel.section if panel.part is None else taken(panel.part, scenario.panels)
    with_panel = _changed(scenario, {"panels": section})
    with_charger = None if with_panel is None else charger.on(with_panel)
    return None if with_charger is None else store.on(with_charger, store.sizes[0])


def _changed(scenario: Scenario, sections: dict[str, Any]) -> Scenario | None:
    try:
        return Scenario.model_validate(
            scenario.model_dump() | {key: one.model_dump() for key, one in sections.items()}
        )
    except ValidationError:
        return None


def _measures(
    panel: _Panel, charger: _Charger, store: _Store, count: FloatArray, area: FloatArray,
    at: NDArray[np.intp],
) -> FloatArray:
    """Shape (builds, measures), in the order of `MEASURES`."""
    price, volume, mass = np.array([store.measures(size) for size in store.sizes])[at].T
    return np.column_stack((
        panel.price(count, area) + charger.price + price,
        count * panel.outside_cm2(area),
        count * panel.volume_cm3(area) + volume,
        count * panel.mass_g(area) + mass,
    ))  # fmt: skip


def _allowed(table: FloatArray, count: NDArray[Any], wanted: Wanted) -> BoolArray:
    fits = np.ones(len(table), dtype=bool)
    for at, name in enumerate(MEASURES):
        most = getattr(wanted, name)
        if most is not None:
            fits &= table[:, at] <= most  # what is not known is not within a limit
    if wanted.most_parts is not None:
        fits &= count + 2 <= wanted.most_parts
    return fits


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


def _coarse(table: FloatArray) -> FloatArray:
    """Measures in steps of `ALIKE`: what differs by less is no reason to choose."""
    with np.errstate(divide="ignore"):
        return np.asarray(np.floor(np.log(table) / np.log(ALIKE)))


def _confirmed(
    case: Case, seen: _Seen, tried: int, currency: str, stopped: Callable[[], bool]
) -> Iterator[Builds]:
    """The front, each of it judged by the exact march; what does not run makes room for others."""
    table = seen.table()
    left = np.arange(len(table))
    verdicts: dict[int, Build | None] = {}
    marches = 0
    while True:
        # Of builds that are alike the cheaper stands for them.
        order = left[np.argsort(table[left, 0], kind="stable")]
        front = order[front_of(_coarse(table[order]))]
        open_ = [int(i) for i in front if int(i) not in verdicts]
        good = tuple(b for i in front if (b := verdicts.get(int(i))) is not None)
        done = not open_ or marches >= MOST_MARCHES or stopped()
        yield _so_far(seen, tried, good, currency, is_done=done)
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
    scenario = _changed(sized, {
        "panels": sized.panels.model_copy(
            update={"count": seen.count[i], "active_area_cm2": seen.area[i]}
        )
    })  # fmt: skip
    if scenario is None:
        return None
    own = case.with_scenario(scenario)
    verdict = judge(own)
    own.forget()
    if verdict.state != "runs":
        return None
    measures = dict(zip(MEASURES, seen.rows[i], strict=True))
    return Build(
        scenario=scenario, panels=_panel_title(panel, seen.count[i], seen.area[i]),
        charger=charger.title, store=_store_title(store, scenario), verdict=verdict,
        part_count=seen.count[i] + 2, **measures,
    )  # fmt: skip


def _panel_title(panel: _Panel, count: int, area: float) -> str:
    if panel.title is not None:
        return say("{n} × {title}", n=count, title=panel.title)
    kind = _TECHNOLOGIES[panel.section.technology]
    return say("{n} × {area} cm², {kind}", n=count, area=figure(f"{area:g}"), kind=kind)


def _store_title(store: _Store, scenario: Scenario) -> str:
    size = show(scenario.store.size, scenario.store.size_unit)
    return say("{title}, {size}", title=store.title(scenario), size=size)


def _so_far(
    seen: _Seen, tried: int, front: tuple[Build, ...], currency: str, *, is_done: bool
) -> Builds:
    table = seen.table()
    return Builds(
        tried=tried, measures={name: table[:, at] for at, name in enumerate(MEASURES)},
        front=tuple(sorted(front, key=lambda build: (build.price, build.panel_cm2))),
        is_done=is_done, currency=currency,
    )  # fmt: skip


def _known(value: float | None) -> float:
    return nan if value is None else value


__all__ = ["MEASURES", "Build", "Builds", "Wanted", "front_of", "search"]

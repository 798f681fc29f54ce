"""The build nearest to a place of a map: whole panels, sizes as sold, parts of one's own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import log

from pydantic import ValidationError

from explorer.advice.build_parts import PanelKind, changed, panel_title
from explorer.advice.contest import own_store, title_with
from explorer.advice.stops import WHOLE, stops_of
from explorer.quantity import show
from explorer.scenario import parts
from explorer.scenario.generic import PANEL_AREAS, panels_price, store_price
from explorer.scenario.model import Scenario, size_path, with_values
from explorer.scenario.origin import FromPart
from explorer.scenario.part import PanelPart, Part, StorePart, is_changed, taken
from explorer.scenario.parts import StoreFamily
from explorer.scenario.price import RELATIVE, Price, price_of
from explorer.scenario.storage import Store
from explorer.text import say

AREA = "panels.active_area_cm2"
ONE_STEP = 1.21
"""Ratio of neighbours in the E12 series: so near, a part of one's own stands for a generic one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AsSold:
    """A build as it is sold."""

    scenario: Scenario
    panels: str
    store: str
    cost: Price
    now: Price
    """Of the present design."""


def nearest_as_sold(
    scenario: Scenario, place: Mapping[str, float], own: Sequence[Part]
) -> AsSold | None:
    """The build nearest to some values of a map's axes.

    Parameters
    ----------
    scenario : Scenario
        The present design; what is not on an axis stays.
    place : mapping
        Values by path. Panels are counted; a store's size and the area of a panel go to the
        nearest in which they are sold; everything else is taken as it is.
    own : sequence of Part
        Parts of one's own; a store of the same kind, or a panel of the same technology, that is
        within a step of the size is taken.

    Returns
    -------
    AsSold or None
        None where the scenario does not allow it.

    Examples
    --------
    >>> found = nearest_as_sold(Scenario(), {"panels.count": 2.4, "store.capacitance_F": 1.05}, ())
    >>> found.scenario.panels.count, found.scenario.store.capacitance_F
    (2, 1.0)
    """
    size, values, store, panel = size_path(scenario), dict(place), None, None
    if size in values:
        store = _own_near(scenario, values[size], own)
        values[size] = _nearest(values[size], stops_of(size))
    if AREA in values or ("panels.count" in values and _own_price(scenario.panels) is None):
        panel = _own_panel_near(scenario, values.get(AREA), own)
    if AREA in values:
        values[AREA] = _nearest(values[AREA], PANEL_AREAS[scenario.panels.technology])
    found = _at(scenario, values)
    if found is not None and store is not None:
        found = own_store(found, store)
    if found is not None and panel is not None:
        found = changed(found, {"panels": taken(panel, found.panels)})
    if found is None:
        return None
    return AsSold(
        scenario=found, panels=_panels_title(found), store=_store_title(found.store),
        cost=cost_of(found), now=cost_of(scenario),
    )  # fmt: skip


def cost_at(scenario: Scenario, place: Mapping[str, float]) -> Price | None:
    """What a design costs with other values; None where they are not allowed."""
    found = _at(scenario, place)
    return None if found is None else cost_of(found)


def _at(scenario: Scenario, place: Mapping[str, float]) -> Scenario | None:
    """A design with some values, panels counted."""
    try:
        return with_values(scenario, {
            path: round(value) if path.rpartition(".")[2] in WHOLE else value
            for path, value in place.items()
        })
    except (KeyError, ValidationError):  # it may be of another kind by now
        return None


def cost_of(scenario: Scenario) -> Price:
    """What panels and store of a design cost, and its charger where one's own has a price."""
    panels, store = scenario.panels, scenario.store
    each = _own_price(panels) or price_of(
        panels_price(1.0, panels.active_area_cm2, panels.technology), RELATIVE
    )
    cost = each * (panels.count * panels.in_series) + (
        _own_price(store) or _generic_price(store)
    )
    charger = _own_price(scenario.charger)
    return cost + charger if charger is not None and charger.is_known else cost


def _own_price(section: FromPart) -> Price | None:
    """Of the part of one's own that a section still is; None for a generic one."""
    if section.part is None or is_changed(section):
        return None
    return price_of(section.part.price, section.part.currency)


def _generic_price(store: Store) -> Price:
    family = family_like(store)
    usual = family.numbers.get("units_in_series", store.in_series)
    return price_of(store_price(family, store.size, store.in_series / usual), RELATIVE)


def family_like(store: Store) -> StoreFamily:
    """The generic kind that a store is most like, by its resistance and its leakage for its size.

    Examples
    --------
    >>> family = parts.store_families()[3]
    >>> family_like(family.store(0.47)).key == family.key
    True
    """
    def unlike(family: StoreFamily) -> float:
        other = family.store(store.size)
        far = _far(getattr(store, store.resistance_key), getattr(other, other.resistance_key))
        far += _far(store.in_series, other.in_series)
        if store.kind == "cell":
            return far + 100.0 * (store.chemistry != family.chemistry)
        # What must not be emptied is another kind of thing.
        return far + 100.0 * ((store.empty_v > 0.0) != (other.empty_v > 0.0))

    return min((f for f in parts.store_families() if f.kind == store.kind), key=unlike)


def _far(one: float, other: float) -> float:
    """How far two values lie apart, in steps of e; nothing counts as very little."""
    return abs(log(max(one, 1e-9) / max(other, 1e-9)))


def _nearest(value: float, stops: Sequence[float]) -> float:
    return min(stops, key=lambda stop: _far(stop, value))


def _own_near(scenario: Scenario, size: float, own: Sequence[Part]) -> StorePart | None:
    """The store of one's own that is nearest in size, where one is within a step."""
    like = [
        part for part in own
        if isinstance(part, StorePart) and part.store.kind == scenario.store.kind
        and _far(part.store.size, size) <= log(ONE_STEP)
    ]
    return min(like, key=lambda part: _far(part.store.size, size), default=None)


def _own_panel_near(
    scenario: Scenario, area: float | None, own: Sequence[Part]
) -> PanelPart | None:
    """The panel of one's own that is nearest in area, where one is within a step.

    Without an area it is that of the present panel.
    """
    wanted = scenario.panels.active_area_cm2 if area is None else area
    like = [
        part for part in own
        if isinstance(part, PanelPart) and part.panels.technology == scenario.panels.technology
        and _far(part.panels.active_area_cm2, wanted) <= log(ONE_STEP)
    ]
    return min(like, key=lambda part: _far(part.panels.active_area_cm2, wanted), default=None)


def _panels_title(scenario: Scenario) -> str:
    panels = scenario.panels
    part = None if panels.part is None or is_changed(panels) else panels.part
    kind = PanelKind(
        section=panels, title=None if part is None else part.title,
        areas=(panels.active_area_cm2,),
    )
    return panel_title(kind, panels.count * panels.in_series, panels.active_area_cm2)


def _store_title(store: Store) -> str:
    own = store.part is not None and not is_changed(store)
    if own and store.part is not None:
        title: str = store.part.title
    elif store.kind == "cell":
        title = family_like(store).title
    else:
        title = title_with(family_like(store), store.in_series)
    return say("{title}, {size}", title=title, size=show(store.size, store.size_unit))


__all__ = ["AREA", "AsSold", "cost_at", "cost_of", "family_like", "nearest_as_sold"]

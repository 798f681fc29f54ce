"""Kinds of panel, store and charger that a search for a build chooses from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import nan
from typing import Any, get_args

import numpy as np
from pydantic import ValidationError

from explorer.advice.contest import fitted_title, own_store, replaced_store
from explorer.physics.arrays import FloatArray
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
from explorer.scenario.price import RELATIVE, named
from explorer.scenario.supply import Panels, Technology
from explorer.text import figure, say, texts

_TECHNOLOGIES: dict[Technology, str] = texts({
    "amorphous": "amorphous silicon", "crystalline": "crystalline silicon",
    "gallium_arsenide": "gallium-arsenide", "dye_sensitised": "dye-sensitised",
    "organic": "organic", "perovskite": "perovskite",
})  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelKind:
    """Panels that can be had in some areas."""

    section: Panels
    title: str | None
    """Of one's own; None for a generic kind."""
    areas: tuple[float, ...]
    part: PanelPart | None = None

    @property
    def currency(self) -> str:
        """Of the price."""
        return RELATIVE if self.part is None else named(self.part.currency)

    def price(self, count: FloatArray, area: FloatArray) -> FloatArray:
        """Of so many panels of an area; not a number where it is not known."""
        if self.part is not None:
            return count * known(self.part.price)
        kind = self.section.technology
        both = zip(count.tolist(), area.tolist(), strict=True)
        return np.array([panels_price(n, cm2, kind) for n, cm2 in both])

    def outside_cm2(self, area: FloatArray) -> FloatArray:
        """Area of one panel with its frame."""
        own = None if self.part is None else self.part.area_cm2
        return area if own is None else np.full_like(area, own)

    def volume_cm3(self, area: FloatArray) -> FloatArray:
        """Of one panel."""
        if self.part is not None and self.part.volume_cm3 is not None:
            return np.full_like(area, self.part.volume_cm3)
        return self.outside_cm2(area) * PANEL_CM

    def mass_g(self, area: FloatArray) -> FloatArray:
        """Of one panel."""
        if self.part is not None and self.part.mass_g is not None:
            return np.full_like(area, self.part.mass_g)
        return self.outside_cm2(area) * PANEL_G_PER_CM2


@dataclass(frozen=True, slots=True, kw_only=True)
class StoreKind:
    """A family in its sizes, or one store of one's own."""

    family: StoreFamily | None
    part: StorePart | None = None

    @property
    def is_lithium(self) -> bool:
        """Whether it is a lithium cell, or a hybrid of one."""
        if self.family is not None:
            return self.family.chemistry is not None or self.family.key == "hybrid"
        assert self.part is not None
        return self.part.store.is_lithium

    @property
    def sizes(self) -> tuple[float, ...]:
        """Capacitance of the whole store, or capacity for a cell. [F or mAh]"""
        if self.family is not None:
            return self.family.sizes
        assert self.part is not None
        return (self.part.store.size,)

    @property
    def currency(self) -> str:
        """Of the price."""
        return RELATIVE if self.part is None else named(self.part.currency)

    def on(self, scenario: Scenario, size: float) -> Scenario | None:
        """The scenario with this store."""
        if self.family is not None:
            return replaced_store(scenario, self.family, size)
        assert self.part is not None
        return own_store(scenario, self.part)

    def stretch(self, scenario: Scenario) -> float:
        """How much longer than usual the string of its units is in a scenario on it."""
        units = scenario.store.in_series
        usual = units if self.family is None else self.family.numbers.get("units_in_series", units)
        return float(units / usual)

    def measures(self, size: float, stretch: float = 1.0) -> tuple[float, float, float]:
        """Price, volume and mass; of a longer string each unit is larger as well."""
        if self.family is not None:
            family, more = self.family, stretch**2
            return (
                store_price(family, size, stretch), family.volume_cm3(size) * more,
                family.mass_g(size) * more,
            )
        assert self.part is not None
        return known(self.part.price), known(self.part.volume_cm3), known(self.part.mass_g)

    def height_mm(self, size: float, stretch: float = 1.0) -> float:
        """Height of the part, mounted; not a number where one's own does not say. [mm]"""
        if self.family is not None:
            return self.family.height_mm(size * stretch)
        assert self.part is not None
        return known(self.part.height_mm)

    def title(self, scenario: Scenario) -> str:
        """What it is called at the scenario's full voltage."""
        if self.family is not None:
            return fitted_title(self.family, scenario.charger.full_V)
        assert self.part is not None
        return self.part.title


@dataclass(frozen=True, slots=True, kw_only=True)
class ChargerKind:
    """The charger that the design has, or one of one's own."""

    part: ChargerPart | None
    """None for the one that the design has."""

    def on(self, scenario: Scenario) -> Scenario | None:
        """The scenario with this charger; None where it does not go with the rest."""
        if self.part is None:
            return scenario
        return changed(scenario, {"charger": taken(self.part, scenario.charger)})

    @property
    def height_mm(self) -> float:
        """Nothing that matters for the one that is there. [mm]"""
        return 0.0 if self.part is None else known(self.part.height_mm)

    @property
    def currency(self) -> str:
        """Of the price; of what is there already none."""
        return "" if self.part is None else named(self.part.currency)

    @property
    def price(self) -> float:
        """Nothing for the one that is there."""
        return 0.0 if self.part is None else known(self.part.price)

    @property
    def title(self) -> str:
        """What it is called."""
        if self.part is None:
            return say("as it is")
        return self.part.title


def options(
    scenario: Scenario, own: Sequence[Part]
) -> tuple[list[PanelKind], list[ChargerKind], list[StoreKind]]:
    """What is tried; generic kinds are left out where priced parts of one's own stand for them."""
    own_panels = [p for p in own if isinstance(p, PanelPart)]
    own_stores = [p for p in own if isinstance(p, StorePart)]
    priced = any(p.price is not None for p in own)
    panels = [
        PanelKind(section=p.panels, title=p.title, part=p,
               areas=(p.panels.active_area_cm2,))
        for p in own_panels
    ]  # fmt: skip
    if not (priced and own_panels):
        panels += [_generic(technology) for technology in _technologies(scenario)]
    stores = [StoreKind(family=None, part=p) for p in own_stores]
    if not (priced and own_stores):
        stores += [StoreKind(family=family) for family in parts.store_families()]
    chargers = [ChargerKind(part=None)]
    chargers += [ChargerKind(part=p) for p in own if isinstance(p, ChargerPart)]
    return panels, chargers, stores


def _technologies(scenario: Scenario) -> tuple[Technology, ...]:
    """What is sold in numbers, and the technology that the design has."""
    known: tuple[Technology, ...] = get_args(Technology)
    usual = ("amorphous", "crystalline", "gallium_arsenide")
    return tuple(t for t in known if t in usual or t == scenario.panels.technology)


def _generic(technology: Technology) -> PanelKind:
    areas = PANEL_AREAS[technology]
    section = Panels(
        technology=technology, active_area_cm2=areas[0], cells_in_series=cells_for(technology)
    )
    return PanelKind(section=section, title=None, areas=areas)


def panel_title(panel: PanelKind, count: int, area: float) -> str:
    """So many panels, in words."""
    if panel.title is not None:
        return say("{n} × {title}", n=count, title=panel.title)
    kind = _TECHNOLOGIES[panel.section.technology]
    return say("{n} × {area} cm², {kind}", n=count, area=figure(f"{area:g}"), kind=kind)


def changed(scenario: Scenario, sections: dict[str, Any]) -> Scenario | None:
    """The scenario with other sections; None where that is not allowed."""
    try:
        return Scenario.model_validate(
            scenario.model_dump() | {key: one.model_dump() for key, one in sections.items()}
        )
    except ValidationError:
        return None


def known(value: float | None) -> float:
    """A value, or not a number where it is not known."""
    return nan if value is None else value

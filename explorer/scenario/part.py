"""A part of one's own: a panel, charger, store or load with what it costs and measures."""

from __future__ import annotations

import hashlib
import json
from typing import Annotated, Any, Final, Literal

from pydantic import Field, TypeAdapter, model_validator

from explorer.scenario.demand import Load
from explorer.scenario.fields import Name, Section, choice, quantity
from explorer.scenario.measured import MeasuredValue, check_measured, still_measured
from explorer.scenario.origin import PartOrigin
from explorer.scenario.storage import Store, SupercapacitorStore
from explorer.scenario.supply import Charger, ConverterCharger, Panels
from explorer.text import say

FORMAT: Final = "gloaming-part"
VERSION: Final = 2
PartKind = Literal["panel", "charger", "store", "load"]
SECTION_OF: dict[PartKind, str] = {
    "panel": "panels", "charger": "charger", "store": "store", "load": "load",
}  # fmt: skip
"""Key of the section of a scenario that a part of each kind holds, there as in its file."""
_FINGERPRINT_LETTERS = 12
_OF_THE_ARRAY = ("count", "in_series")
"""What a scenario says of its panels beside what one panel is."""
_OF_THE_PLACE = ("years_in_service", "initial_V", "initial_charge")
"""What a scenario says of its store beside what the store is."""


class _AnyPart(Section):
    """What is known of a part of any kind."""

    format: Literal["gloaming-part"] = FORMAT
    version: Literal[2] = VERSION
    title: Name = choice("", "Title", "What the part is called.")
    source: Name = choice("", "Source", "Where its values come from, such as a data sheet.")
    date: Name = choice("", "Date", "Of its values, such as 2026-03-01.")
    price: float | None = quantity(None, "Price", "", 0, 1e9, "Of one part.")
    currency: Name = choice("", "Currency", "Of the price, such as EUR.")
    volume_cm3: float | None = quantity(None, "Volume", "cm³", 0, 1e9, "Of one part.")
    mass_g: float | None = quantity(None, "Mass", "g", 0, 1e9, "Of one part.")
    height_mm: float | None = quantity(None, "Height", "mm", 0, 10_000, "Of one part, mounted.")
    area_cm2: float | None = quantity(None, "Area", "cm²", 0, 1e9, "Outside, frame included.")
    measured: tuple[MeasuredValue, ...] = choice(
        (), "Measured values", "Values that were measured of this very part, each with its ±."
    )

    @model_validator(mode="after")
    def _has_a_name(self) -> _AnyPart:
        if not self.title.strip():
            raise ValueError(say("title must not be empty"))
        kind: PartKind | None = getattr(self, "kind", None)
        if kind is not None:
            check_measured(getattr(self, SECTION_OF[kind]), self.measured)
        return self


class PanelPart(_AnyPart):
    """One panel."""

    kind: Literal["panel"] = "panel"
    panels: Panels = choice(Panels(), "Panels", "One panel.")

    @model_validator(mode="after")
    def _is_one_panel(self) -> PanelPart:
        if (self.panels.count, self.panels.in_series) != (1, 1):
            raise ValueError(
                say("panels.count and panels.in_series must be 1: the part is one panel")
            )
        return self


class ChargerPart(_AnyPart):
    """A charger with its settings."""

    kind: Literal["charger"] = "charger"
    charger: Charger = choice(ConverterCharger(), "Charger", "From panel to store.")


class StorePart(_AnyPart):
    """A whole store."""

    kind: Literal["store"] = "store"
    store: Store = choice(SupercapacitorStore(), "Store", "What holds the energy.")


class LoadPart(_AnyPart):
    """A device with its load switch and its operations."""

    kind: Literal["load"] = "load"
    load: Load = choice(Load(), "Load", "The device.")


Part = PanelPart | ChargerPart | StorePart | LoadPart
PART: TypeAdapter[Part] = TypeAdapter(Annotated[Part, Field(discriminator="kind")])
KINDS: dict[PartKind, type[Part]] = {
    "panel": PanelPart, "charger": ChargerPart, "store": StorePart, "load": LoadPart,
}  # fmt: skip


def section_of(part: Part) -> Any:
    """The section that a part holds."""
    return getattr(part, SECTION_OF[part.kind])


def part_from(kind: PartKind, section: Any, **known: Any) -> Part:
    """A part that holds a section of a scenario.

    Parameters
    ----------
    kind : PartKind
        What the part is.
    section : Section
        Panels, charger, store or load of a scenario; of panels one is kept, and no section
        keeps where it was taken from. What is still as it was measured stays so.
    **known
        Title, source, date, price and so on.

    Raises
    ------
    pydantic.ValidationError
        Something that is known is not allowed.
    """
    update: dict[str, Any] = {"part": None}
    if kind == "panel":
        update |= dict.fromkeys(_OF_THE_ARRAY, 1)
    bare = section.model_copy(update=update)
    known = {**known, "measured": known.get("measured") or still_measured(section)}
    return KINDS[kind](**{SECTION_OF[kind]: bare}, **known)


def taken(part: Part, present: Any) -> Any:
    """The section of a part as a scenario takes it, with where it comes from.

    Parameters
    ----------
    part : Part
        What is taken.
    present : Section
        The section that gives way; the number of panels stays.
    """
    section = section_of(part)
    origin = PartOrigin(
        title=part.title, source=part.source, fingerprint=fingerprint(section),
        measured=part.measured, price=part.price, currency=part.currency,
    )  # fmt: skip
    update: dict[str, Any] = {"part": origin}
    if part.kind == "panel":
        update |= {key: getattr(present, key) for key in _OF_THE_ARRAY}
    return section.model_copy(update=update)


def fingerprint(section: Any) -> str:
    """Short hash of the values of a section, without its origin and what a design adds to it."""
    data = section.model_dump(mode="json", exclude={"part", *_OF_THE_ARRAY, *_OF_THE_PLACE})
    text = json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:_FINGERPRINT_LETTERS]


def is_changed(section: Any) -> bool:
    """Whether a section differs from the part that it was taken from."""
    return section.part is not None and section.part.fingerprint != fingerprint(section)

"""Help for every quantity of a scenario: what it is, typical values, where to read it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from explorer.resource_files import resource_path
from explorer.scenario import daylight, demand, light, measured, model, origin, storage, supply
from explorer.scenario.demand import Phase
from explorer.scenario.fields import Section, describe
from explorer.scenario.model import Scenario, get_value, owner_class
from explorer.state.shape import shape_of
from explorer.text import Text, figure, say, texts

SECTIONS: dict[type[Section], str] = {
    Scenario: "scenario",
    light.Light: "light",
    light.SteadyPattern: "pattern",
    light.WeekPattern: "pattern",
    light.LogPattern: "pattern",
    light.LitBlock: "block",
    light.Elsewhere: "elsewhere",
    daylight.DaylightPattern: "pattern",
    daylight.SkyMonth: "month",
    daylight.Outdoors: "spot",
    daylight.Indoors: "spot",
    daylight.SkyReading: "reading",
    daylight.LampHours: "lamps",
    daylight.Holidays: "holidays",
    supply.Panels: "panels",
    supply.SheetPoint: "sheet",
    supply.ConverterCharger: "charger",
    supply.DirectCharger: "charger",
    supply.EfficiencyPoint: "efficiency",
    storage.CapacitorStore: "store",
    storage.SupercapacitorStore: "store",
    storage.CellStore: "store",
    demand.Load: "load",
    demand.Regulator: "regulator",
    demand.Operation: "operation",
    demand.Every: "schedule",
    demand.WhenReady: "schedule",
    demand.UntilEmpty: "schedule",
    demand.Phase: "phase",
    model.Margins: "margins",
    origin.PartOrigin: "part",
    measured.MeasuredValue: "measured",
}
"""Every section class of the scenario, by the name under which its help is kept."""
SECTION_TITLES = texts({
    "scenario": "Scenario",
    "light": "Light",
    "pattern": "Hours of light",
    "block": "Lit period",
    "elsewhere": "Another place",
    "month": "Month of a year of daylight",
    "spot": "Where the panel is",
    "reading": "One reading that sets the daylight",
    "lamps": "Lamps beside the daylight",
    "holidays": "Holidays",
    "panels": "Panels",
    "sheet": "Data-sheet line of a panel",
    "charger": "Charger",
    "efficiency": "Efficiency row of a converter",
    "store": "Store",
    "load": "Load",
    "regulator": "Regulator",
    "operation": "Operation",
    "schedule": "Schedule",
    "phase": "Phase",
    "margins": "What must be reached",
    "part": "Part of one's own",
    "measured": "Measured value of a part",
})  # fmt: skip
_KIND_LABELS = texts({
    "pattern": "Kind of hours of light",
    "spot": "Where the panel is",
    "charger": "Kind of charger",
    "store": "Kind of store",
    "schedule": "Kind of schedule",
})  # fmt: skip
_FIXED = frozenset({"format", "version"})
_CONTAINERS = frozenset({"section", "list", "union"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """Help of one quantity."""

    key: str
    label: str
    unit: str
    what: str
    typical: str
    read: str
    """Where to read it: on a data sheet, on an instrument, or nowhere."""
    basis: str
    """How the typical values are known."""

    @property
    def section(self) -> str:
        """Title of the part of the scenario that it belongs to."""
        return SECTION_TITLES[self.key.partition(".")[0]]


def field_keys() -> tuple[str, ...]:
    """Keys of every number, choice and text of the scenario model, in the model's order."""
    return tuple(dict.fromkeys(_walk()))


def _walk() -> Iterator[str]:
    for section, name in SECTIONS.items():
        for key in section.model_fields:
            if key not in _FIXED and (
                key == "kind" or shape_of(section, key).kind not in _CONTAINERS
            ):
                yield f"{name}.{key}"


@cache
def entries() -> dict[str, Entry]:
    """All help entries by key, in the model's order; a quantity without one is left out.

    Raises
    ------
    FileNotFoundError
        The help of the program is missing.
    """
    path = resource_path("help", "quantities.json")
    told = json.loads(path.read_text(encoding="utf-8"))["quantities"]
    return {key: _entry(key, told[key]) for key in field_keys() if key in told}


def _entry(key: str, text: dict[str, str]) -> Entry:
    name, _, last = key.partition(".")
    owners = [s for s, n in SECTIONS.items() if n == name and last in s.model_fields]
    label, unit = "", ""
    if last != "kind" or name == "regulator":
        field = describe(owners[0], last)
        label, unit = field.label, field.unit
    else:
        label = _KIND_LABELS[name]
    told = {part: _said(words) for part, words in text.items()}
    return Entry(key=key, label=label, unit=unit, **told)


def _said(words: str) -> Text:
    """A text of the help; one that is nothing but a number is the same in every language."""
    if any(letter.isalpha() for letter in words):
        return say(words)
    return figure(words.removesuffix(".")) + "."


def help_key(scenario: Scenario, path: str) -> str | None:
    """Help key of a path of the scenario, such as ``load.operations.0.phases.0.current_A``.

    ``….amount`` stands for what a phase draws and ``….kind`` for the kind of a section. None
    where the path names no quantity.
    """
    head, _, last = path.rpartition(".")
    try:
        if last == "amount":
            phase = get_value(scenario, head)
            if not isinstance(phase, Phase):
                return None
            return f"phase.{phase.amount_key}"
        name = SECTIONS[owner_class(scenario, path)]
    except KeyError:
        return None
    key = f"{name}.{last}"
    return key if key in field_keys() else None


def kinds_of(key: str) -> tuple[str, ...]:
    """The words that a choice may take; empty for numbers and texts."""
    name, _, last = key.partition(".")
    if last == "kind" and name != "regulator":
        found = [s for s, n in SECTIONS.items() if n == name]
        return tuple(str(s.model_fields["kind"].default) for s in found)
    owner = next(s for s, n in SECTIONS.items() if n == name and last in s.model_fields)
    shape = shape_of(owner, last)
    return shape.options if shape.kind == "option" else ()



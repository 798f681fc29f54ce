"""Texts about parts of one's own, without widgets."""

from __future__ import annotations

from typing import Any

from explorer.quantity import show
from explorer.scenario.fields import Section, describe
from explorer.scenario.measured import MeasuredValue, still_measured
from explorer.scenario.model import Scenario, owner_class
from explorer.scenario.part import SECTION_OF, Part, PartKind, is_changed, section_of
from explorer.scenario.storage import CellStore
from explorer.text import Text, joined, say, texts
from explorer.words.options import option

KIND_NAMES: dict[PartKind, str] = texts({
    "panel": "Panel", "charger": "Charger", "store": "Store", "load": "Load",
})  # fmt: skip
KIND_TITLES: dict[PartKind, str] = texts({
    "panel": "Panels", "charger": "Chargers", "store": "Stores", "load": "Loads",
})  # fmt: skip


def part_summary(part: Part) -> Text:
    """The values that tell one part from another, in one line."""
    match part.kind:
        case "panel":
            panels = part.panels
            found = [
                option(panels.technology), show(panels.active_area_cm2, "cm²"),
                _cells(panels.cells_in_series),
            ]  # fmt: skip
            if panels.data_sheet:
                found.append(_sheet(len(panels.data_sheet)))
        case "charger":
            found = [
                option(part.charger.kind),
                say("full at {volts}", volts=show(part.charger.full_V, "V")),
            ]
        case "store":
            store = part.store
            kind = option(store.chemistry if isinstance(store, CellStore) else store.kind)
            found = [kind, show(store.size, store.size_unit)]
            if store.in_series > 1:
                found.append(say("{n} in series", n=store.in_series))
        case _:
            found = [
                _operations(len(part.load.operations)),
                say("asleep {current}", current=show(part.load.sleep_A, "A")),
            ]
    found += [measured_text(section_of(part), one) for one in part.measured]
    return joined(", ", found)


def _cells(n: int) -> Text:
    return say("1 cell") if n == 1 else say("{n} cells in series", n=n)


def _sheet(n: int) -> Text:
    return say("data sheet of 1 point") if n == 1 else say("data sheet of {n} points", n=n)


def _operations(n: int) -> Text:
    return say("1 operation") if n == 1 else say("{n} operations", n=n)


def measured_text(section: Section, one: MeasuredValue) -> Text:
    """A measured value with its ±, in one line.

    Examples
    --------
    >>> from explorer.scenario.storage import CapacitorStore
    >>> one = MeasuredValue(key="capacitance_F", value=0.0131, plus_minus=0.0002)
    >>> measured_text(CapacitorStore(capacitance_F=0.0131), one)
    'Capacitance measured as 13.1 mF ± 200 µF'
    """
    told = describe(owner_class(section, one.key), one.key.rpartition(".")[2])
    return say(
        "{label} measured as {value} ± {plus_minus}",
        label=told.label, value=show(one.value, told.unit, 4),
        plus_minus=show(one.plus_minus, told.unit, 2),
    )  # fmt: skip


def origin_line(section: Any) -> Text:
    """Which part a section was taken from, in one line; that there is none otherwise."""
    if section.part is None:
        return say("No part of your own.")
    named = [section.part.title, section.part.source] if section.part.source else [
        section.part.title
    ]
    name = joined(", ", named)
    known = [measured_text(section, one) for one in still_measured(section)]
    said = say("Part: {name}; changed since it was taken.", name=name) if is_changed(section) else (
        say("Part: {name}.", name=name)
    )
    return joined(" ", (said, joined("; ", known) + ".")) if known else said


def taken_rows(scenario: Scenario) -> tuple[tuple[str, str, str, str], ...]:
    """Kind, title, source and state of every part that a scenario took."""
    rows = []
    for kind, key in SECTION_OF.items():
        section = getattr(scenario, key)
        if section.part is not None:
            state = say("changed since") if is_changed(section) else say("as it was taken")
            source = section.part.source or say("not named")
            rows.append((KIND_NAMES[kind], section.part.title, source, state))
    return tuple(rows)

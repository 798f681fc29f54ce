"""Every input of a scenario as rows, read from the scenario model."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from explorer.quantity import show
from explorer.scenario.calendar import date_in_words
from explorer.scenario.daylight import DATE_KEYS
from explorer.scenario.demand import Phase
from explorer.scenario.fields import Section, describe
from explorer.scenario.localised import OTHER_NAMES
from explorer.scenario.model import Scenario, get_value
from explorer.text import joined, say
from explorer.words.options import WEEKDAYS, option

AMOUNTS = ("current_A", "power_W", "resistance_ohm")
"""Of these a phase has one; the others are no inputs of it."""
DIGITS = 12
"""Significant digits: enough that the sheet holds the value that was computed with."""
FIXED = ("format", "version", *OTHER_NAMES)
"""Keys of the file that say how it is written, not what it says."""


@dataclass(frozen=True, slots=True, kw_only=True)
class InputRow:
    """One value of a scenario."""

    path: str
    section: str
    """Label of the part of the scenario that it belongs to."""
    group: str
    """Which of several things of its kind it belongs to; empty where there is only one."""
    label: str
    value: str
    changed: bool
    """Whether it differs from the default."""


def input_rows(scenario: Scenario) -> tuple[InputRow, ...]:
    """Every input of a scenario, each once, section by section.

    Within a section its kind comes first and what there may be several of comes last.
    """
    rows = tuple(_rows(scenario, scenario, "", say("Scenario"), ""))
    sections = list(dict.fromkeys(row.section for row in rows))
    return tuple(
        sorted(
            rows,
            key=lambda row: (
                sections.index(row.section), row.group != "", row.path.split(".")[1:] != ["kind"]
            ),
        )
    )  # fmt: skip


def _rows(
    scenario: Scenario, part: Section, head: str, section: str, group: str
) -> Iterator[InputRow]:
    for key in type(part).model_fields:
        path = f"{head}{key}"
        value = getattr(part, key)
        if path in FIXED or (isinstance(part, Phase) and key in AMOUNTS and value is None):
            continue
        if key == "part" and value is None:
            continue  # nothing was taken
        label = _label(scenario, part, head, key)
        if isinstance(value, Section):
            inner = label if not head else section
            yield from _rows(scenario, value, f"{path}.", inner, group)
        elif isinstance(value, tuple) and any(isinstance(item, Section) for item in value):
            for i, item in enumerate(value):
                name = say("{label} {n}", label=label, n=i + 1)
                inner_group = joined(", ", (group, name)) if group else name
                yield from _rows(scenario, item, f"{path}.{i}.", section, inner_group)
        else:
            changed = value != default_of(scenario, part, path, key)
            text = value_text(type(part), key, value)
            if changed and text is value:  # what a person wrote is put into no other language
                text = joined("", (value,))
            yield InputRow(
                path=path, section=section, group=group, label=label, value=text, changed=changed
            )


def _label(scenario: Scenario, part: Section, head: str, key: str) -> str:
    """The model's label; a `kind` is called as the part that it is the kind of."""
    info = type(part).model_fields[key]
    if info.title is None and head:
        above, _, name = head.rstrip(".").rpartition(".")
        owner = get_value(scenario, above) if above else scenario
        if name in type(owner).model_fields:
            return describe(type(owner), name).label
    return describe(type(part), key).label


def value_text(owner: type[Section], key: str, value: Any) -> str:
    """An input with its unit, to all its digits."""
    if value is None:
        return say("left empty")
    if isinstance(value, tuple) and value and isinstance(value[0], float):
        unit = key.rpartition("_")[2]
        return joined(", ", (show(number, unit, DIGITS) for number in value))
    if isinstance(value, tuple):
        listed = (WEEKDAYS.get(word) or str(word) for word in value)
        return joined(", ", listed) if value else say("none")
    if isinstance(value, str):
        if key in DATE_KEYS:
            return date_in_words(value)
        own_words = owner.model_fields[key].annotation is str
        return (value or say("left empty")) if own_words else option(value)
    return show(float(value), describe(owner, key).unit, DIGITS)


def default_of(scenario: Scenario, part: Section, path: str, key: str) -> Any:
    """What a new scenario holds at a path; else what a new part of this kind does."""
    try:
        fresh = get_value(Scenario(), path)
        owner = get_value(Scenario(), path.rpartition(".")[0]) if "." in path else Scenario()
    except KeyError:
        return describe(type(part), key).default
    same = type(owner) is type(part) or key == "kind"
    return fresh if same else describe(type(part), key).default

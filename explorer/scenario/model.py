"""The scenario: the one definition of what a file holds, its ranges, labels, units and help."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final, Literal

from pydantic import model_validator

from explorer.scenario.consistency import contradiction, sheet_contradiction
from explorer.scenario.demand import Load
from explorer.scenario.fields import Name, Prose, Section, choice, quantity
from explorer.scenario.light import Light
from explorer.scenario.storage import Store, SupercapacitorStore
from explorer.scenario.supply import Charger, ConverterCharger, Panels
from explorer.scenario.year_light import real_over_computed

FORMAT: Final = "gloaming-scenario"
VERSION: Final = 3
MARGIN_BY_KNOWLEDGE = {"meter_at_panel": 1.3, "phone_or_lamp_data": 1.6, "guess": 2.0}
"""Design margin that follows from how the light is known (own judgement, no source)."""


LIGHT_OF = {"operations_per_hour": "rate_light_lx", "fill_within_h": "fill_light_lx"}
"""Amounts that are asked in a steady light, and the field that says in which."""


class Margins(Section):
    """What the design must reach."""

    design_margin: float | None = quantity(
        None,
        "Required margin",
        "",
        1,
        10,
        "Ratio of available to needed from which the verdict is Runs. Empty: set by how "
        "the light is known.",
    )
    start_within_h: float = quantity(
        168.0, "Start within", "h", 0.001, 8760, "Longest time allowed from empty until "
                                                 "the start-up is complete."
    )
    closure_days: float = quantity(
        0.0, "Longest closure", "d", 0, 365, "Dark period to survive in addition to the "
                                             "usual nights and weekends."
    )
    served_share: float = quantity(
        0.99, "Operations completed", "", 0, 1,
        "Share of the wanted operations that must be served."
    )
    full_sun_lx: float = quantity(
        100_000.0, "Brightest light", "lx", 0, 150_000,
        "Sunlight that the panel may meet; the current that it then drives into a cell is checked.",
    )
    operations_per_charge: float | None = quantity(
        None, "Operations per charge", "", 0.01, 1e9,
        "Runs that a full store must serve without light. Empty: nothing is asked.",
    )
    operations_per_hour: float | None = quantity(
        None, "Operations per hour", "1/h", 1e-4, 1e7,
        "Runs an hour, while they are due, under steady light. Empty: nothing is asked.",
    )
    rate_light_lx: float | None = quantity(
        None, "Light for that rate", "lx", 1, 200_000,
        "Steady light in which the rate must be reached. Empty: the illuminance of the place.",
    )
    fill_within_h: float | None = quantity(
        None, "Filled within", "h", 1e-5, 8760,
        "Longest time from empty to full, or to the indicator level where there is one, with the "
        "device off. Empty: nothing is asked.",
    )
    fill_light_lx: float | None = quantity(
        None, "Light for filling", "lx", 1, 200_000,
        "Steady light in which it must fill in time. Empty: the illuminance of the place.",
    )
    dark_days: float | None = quantity(
        None, "Days from full", "d", 0.001, 3650,
        "Time that a full store must carry the device without light. Empty: nothing is asked.",
    )
    store_years: float | None = quantity(
        None, "Years of the store", "a", 0.1, 30,
        "Until the store counts as worn out. Empty: nothing is asked.",
    )


class Names(Section):
    """What a scenario is called in another language; an empty text leaves the scenario's own."""

    title: Name = choice("", "Title", "Name of the scenario.")
    place: Name = choice("", "Place", "Where the device hangs.")
    operations: tuple[Name, ...] = choice(
        (), "Operations", "Names of the operations, in their order."
    )
    notes: Prose = choice("", "Notes", "Anything the next reader should know.")


class Scenario(Section):
    """A device at a place, ready to be judged."""

    format: Literal["gloaming-scenario"] = FORMAT
    version: Literal[3] = VERSION
    title: Name = choice("New scenario", "Title", "Name of the scenario.")
    place: Name = choice("", "Place", "Where the device hangs.")
    light: Light = choice(Light(), "Light", "Light at the place.")
    panels: Panels = choice(Panels(), "Panels", "The panel array.")
    charger: Charger = choice(ConverterCharger(), "Charger", "From panel to store.")
    store: Store = choice(SupercapacitorStore(), "Store", "What holds the energy.")
    load: Load = choice(Load(), "Load", "The device.")
    margins: Margins = choice(Margins(), "Margins", "What must be reached.")
    notes: Prose = choice("", "Notes", "Anything the next reader should know.")
    names_de: Names | None = choice(None, "In German", "What it is called in German.")

    @model_validator(mode="after")
    def _voltages_fit_together(self) -> Scenario:
        if fault := contradiction(self.charger, self.store, self.load):
            raise ValueError(fault)
        if fault := sheet_contradiction(self.panels):
            raise ValueError(fault)
        return self

    @property
    def design_margin(self) -> float:
        """The margin asked for: the one set, or the one that follows from the light."""
        if self.margins.design_margin is not None:
            return self.margins.design_margin
        known, pattern = MARGIN_BY_KNOWLEDGE[self.light.known_by], self.light.pattern
        if pattern.kind != "daylight":
            return known
        # A month may be as dark as this, however well the place is known.
        return max(known, round(1.0 / real_over_computed(pattern)[0], 2))


def first_scenario() -> Scenario:
    """What a new scenario begins with: one that runs in the light of a desk.

    The defaults of single fields are modest parts; put together they never start there. Somebody
    who changes one thing after another sees more from a design that runs.
    """
    fresh = with_value(Scenario(), "panels.count", 3)
    return with_value(fresh, "load.operations.0.schedule.interval_s", 300.0)


def get_value(scenario: Section, path: str) -> Any:
    """Value at a dotted path such as ``load.operations.0.phases.1.current_A``.

    Raises
    ------
    KeyError
        No such key; the message names it.
    """
    node: Any = scenario
    for part in path.split("."):
        try:
            node = node[int(part)] if part.lstrip("-").isdigit() else getattr(node, part)
        except (AttributeError, IndexError, TypeError):
            raise KeyError(f"{path}: there is no {part!r} here") from None
    return node


def owner_class(scenario: Section, path: str) -> type[Section]:
    """Class of the section that declares the last key of a path."""
    head, _, _ = path.rpartition(".")
    node = get_value(scenario, head) if head else scenario
    return type(node)


def size_path(scenario: Scenario) -> str:
    """Path of the store's size: its capacitance or its capacity."""
    return f"store.{scenario.store.size_key}"


def with_value(scenario: Scenario, path: str, value: Any) -> Scenario:
    """A copy with one value changed, validated as a whole.

    A change of ``store.capacitance_F`` or ``store.capacity_mAh`` stays within the family of
    parts: series resistance falls and leakage and current limits rise in proportion, as they
    do along a maker's range.

    Raises
    ------
    KeyError
        No such path.
    pydantic.ValidationError
        The value, or the scenario with it, is not allowed.
    """
    return with_values(scenario, {path: value})


def with_values(scenario: Scenario, changes: Mapping[str, Any]) -> Scenario:
    """A copy with several values changed at once, validated only when all are in place.

    The store's size is changed first, as in `with_value`, so that a resistance or a leakage
    among the changes counts as it is given. Sections without a change are shared with `scenario`.

    Raises
    ------
    KeyError
        No such path.
    pydantic.ValidationError
        A value, or the scenario with all of them, is not allowed.
    """
    size = size_path(scenario)
    touched = {path.partition(".")[0] for path in changes}
    data = {
        key: part.model_dump() if key in touched and isinstance(part, Section) else part
        for key, part in scenario
    }
    # A size that is no size is refused below, by its range.
    if size in changes and changes[size] > 0:
        data["store"].update(scenario.store.resized(changes[size]))
    for path, value in changes.items():
        get_value(scenario, path)
        _put(data, path, value)
    return Scenario.model_validate(data)


def _put(node: Any, path: str, value: Any) -> None:
    """Write a value into nested dictionaries and lists."""
    *head, last = path.split(".")
    for part in head:
        if part.isdigit():
            node = node[int(part)]
        else:
            if isinstance(node[part], tuple):
                node[part] = list(node[part])
            node = node[part]
    node[int(last) if last.isdigit() else last] = value

"""What a closed fold holds, at a glance: its most telling values as label and value."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from explorer.advice.readings.required import asked_keys
from explorer.quantity import show
from explorer.scenario.daylight import DaylightPattern, Outdoors, Place
from explorer.scenario.fields import describe
from explorer.scenario.light import LogPattern, WeekPattern
from explorer.scenario.model import Scenario, get_value, owner_class
from explorer.text import Text, figure, joined, say
from explorer.words.figures import lower_first, quantity_text
from explorer.words.options import WEEKDAYS, option
from explorer.words.readout import Line

MOST = 4
"""Lines of a glance."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Glimpse:
    """What a fold holds, and the sections of a scenario that this is read from."""

    sections: tuple[str, ...]
    lines: Callable[[Scenario], tuple[Line, ...]]

    def holds_for(self, scenario: Scenario, other: Scenario) -> bool:
        """Whether two scenarios share all that is read; an edit keeps the other sections."""
        return all(getattr(scenario, name) is getattr(other, name) for name in self.sections)


def _place(place: Place) -> Text:
    if isinstance(place, Outdoors):
        return say("out of doors") if place.glass == "no_glass" else say("at a window")
    return say("in a room")


def light_glance(scenario: Scenario) -> tuple[Line, ...]:
    """Source, hours, and what lies between the light and the panel.

    Of a year of daylight where the panel is, and the lamps beside it.
    """
    light = scenario.light
    if isinstance(light.pattern, DaylightPattern):
        place = _place(light.pattern.place)
        year = (
            Line(label=describe(type(light), "pattern").label, value=_hours(scenario)),
            Line(label=describe(DaylightPattern, "place").label, value=place),
        )
        return (*year, _line(scenario, "light.source")) if light.pattern.lamps else year
    return (
        _line(scenario, "light.source"),
        Line(label=describe(type(light), "pattern").label, value=_hours(scenario)),
        _line(scenario, "light.orientation_factor"),
        _line(scenario, "light.ambient_C"),
    )


def _hours(scenario: Scenario) -> str:
    pattern = scenario.light.pattern
    if isinstance(pattern, WeekPattern) and len(pattern.blocks) == 1:
        block = pattern.blocks[0]
        days = [WEEKDAYS[day] for day in block.days if day not in pattern.dark_days]
        if not days:
            return say("always dark")
        named = days[0] if len(days) == 1 else joined("–", (days[0], days[-1]))
        hours = figure(f"{block.from_h:g}–{block.to_h:g} h")
        return say("{days} {hours}", days=named, hours=hours)
    if isinstance(pattern, LogPattern):
        return joined("", (pattern.file.rpartition("/")[2],))
    return option(pattern.kind)


def supply_glance(scenario: Scenario) -> tuple[Line, ...]:
    """Cells and area of a panel, charger and its full threshold."""
    return (
        _line(scenario, "panels.technology"),
        _line(scenario, "panels.active_area_cm2"),
        Line(label=say("Charger"), value=option(scenario.charger.kind)),
        _line(scenario, "charger.full_V"),
    )


def store_glance(scenario: Scenario) -> tuple[Line, ...]:
    """Kind of store, what it loses, and its age."""
    store = scenario.store
    keys = ["esr_ohm", "resistance_ohm", "leakage_A", "self_discharge_per_month"]
    if store.years_in_service:
        keys.append("years_in_service")
    kind = Line(label=say("Kind"), value=option(store.kind))
    return (kind, *(_line(scenario, f"store.{key}") for key in keys if hasattr(store, key)))[:MOST]


def load_glance(scenario: Scenario) -> tuple[Line, ...]:
    """What it does how often, and its thresholds."""
    operations = scenario.load.operations
    lines = []
    if operations:
        schedule = operations[0].schedule
        interval = getattr(schedule, "interval_s", None)
        often = option(schedule.kind) if interval is None else say(
            "every {time}", time=quantity_text(interval, "s")
        )
        more = len(operations) - 1
        lines.append(
            Line(
                label=joined("", (operations[0].name,)) if operations[0].name else say("Operation"),
                value=say("{often}, and {n} more", often=often, n=more) if more else often,
            )
        )
    keys = ("sleep_A", "connect_V", "disconnect_V")
    return (*lines, *(_line(scenario, f"load.{key}") for key in keys))


def margins_glance(scenario: Scenario) -> tuple[Line, ...]:
    """What the verdict asks for."""
    return (
        _line(scenario, "margins.start_within_h"),
        *([_line(scenario, "margins.closure_days")] if scenario.margins.closure_days else []),
        *(_line(scenario, f"margins.{key}") for key in asked_keys(scenario)),
        _line(scenario, "margins.served_share"),
    )


def _line(scenario: Scenario, path: str) -> Line:
    """Label and value of one field."""
    key = path.rpartition(".")[2]
    info = describe(owner_class(scenario, path), key)
    value = get_value(scenario, path)
    if isinstance(value, str):
        shown: Text | str = option(value)
    elif key == "served_share":
        shown = quantity_text(value, "share")
    elif key in ("closure_days", "dark_days", "fill_within_h", "start_within_h"):
        shown = quantity_text(value, info.unit)
    else:
        shown = show(value, info.unit, 3 if info.unit else 6)
    return Line(label=info.label, value=shown)


GLIMPSES = {
    "light": Glimpse(sections=("light",), lines=light_glance),
    "supply": Glimpse(sections=("panels", "charger"), lines=supply_glance),
    "store": Glimpse(sections=("store",), lines=store_glance),
    "load": Glimpse(sections=("load",), lines=load_glance),
    "margins": Glimpse(sections=("margins",), lines=margins_glance),
}
"""By the fold."""


def glance_text(lines: tuple[Line, ...]) -> Text:
    """All in one line: words as they are, numbers after what they are."""
    return joined(", ", (_in_line(line) for line in lines))


def _in_line(line: Line) -> str:
    if not line.value[:1].isdigit():
        return line.value
    return joined(" ", (lower_first(line.label), line.value))


__all__ = [
    "GLIMPSES", "Glimpse", "glance_text", "light_glance", "load_glance", "margins_glance",
    "store_glance", "supply_glance",
]  # fmt: skip

"""The four knobs: which value each moves, and the list of stops that its slider walks."""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass
from typing import Any

from explorer.advice.case import Case
from explorer.advice.stops import largest_phase_path, stops_of
from explorer.quantity import show
from explorer.scenario.daylight import DaylightPattern
from explorer.scenario.demand import Operation
from explorer.scenario.fields import Section, describe
from explorer.scenario.light import LogPattern
from explorer.scenario.model import Scenario, get_value, owner_class, size_path
from explorer.text import say

LIGHT_PATH = "light.illuminance_lx"
PATTERN_PATH = "light.pattern"
KNOB_KEYS = ("light", "panels", "store", "pulse")


@dataclass(frozen=True, slots=True, kw_only=True)
class Landmark:
    """A named place, or a named stretch, on a knob's track."""

    label: str
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Knob:
    """What one slider needs to know."""

    key: str
    path: str
    label: str
    unit: str
    help: str
    low: float
    """Least value that the exact field takes."""
    high: float
    whole: bool
    """Whether only whole numbers make sense."""
    stops: tuple[float, ...]
    landmarks: tuple[Landmark, ...]

    def position(self, value: float) -> int:
        """Index of the stop nearest to `value`, by ratio."""
        if value <= self.stops[0]:
            return 0
        if value >= self.stops[-1]:
            return len(self.stops) - 1
        above = bisect_left(self.stops, value)
        low, high = self.stops[above - 1], self.stops[above]
        return above if value * value >= low * high else above - 1

    def value(self, position: int) -> float:
        """Value of a stop; the ends beyond the list."""
        return self.stops[min(max(position, 0), len(self.stops) - 1)]

    def step(self, value: float, steps: int) -> float:
        """The stop `steps` further up or down, starting from any value.

        A value between two stops first goes to its neighbour.
        """
        above = bisect_left(self.stops, value)
        on_a_stop = above < len(self.stops) and self.stops[above] == value
        start = above if on_a_stop or steps < 0 else above - 1
        return self.value(start + steps)

    def fraction(self, value: float) -> float:
        """Where a value lies on the track, 0 to 1, between its neighbouring stops by ratio."""
        if value <= self.stops[0]:
            return 0.0
        if value >= self.stops[-1]:
            return 1.0
        above = bisect_left(self.stops, value)
        low, high = self.stops[above - 1], self.stops[above]
        part = math.log(value / low) / math.log(high / low)
        return (above - 1 + part) / (len(self.stops) - 1)


# Corridor and desk: EN 12464-1 as quoted by lighting firms; the others are common practice,
# no source.
LIGHT_LANDMARKS = (
    Landmark(label=say("corridor"), low=100.0, high=100.0),
    Landmark(label=say("desk"), low=500.0, high=500.0),
    Landmark(label=say("window"), low=1300.0, high=1300.0),
    Landmark(label=say("shade"), low=10_000.0, high=10_000.0),
    Landmark(label=say("sun"), low=100_000.0, high=100_000.0),
)
# Where parts of each kind are sold; common practice, no source.
CAPACITANCE_LANDMARKS = (
    Landmark(label=say("capacitor"), low=1e-4, high=2.2e-2),
    Landmark(label=say("supercapacitor"), low=2.2e-2, high=100.0),
)
CAPACITY_LANDMARKS = (
    Landmark(label=say("coin cell"), low=1.0, high=120.0),
    Landmark(label=say("pouch or round cell"), low=120.0, high=10_000.0),
)


def _ticks(unit: str, *named: float) -> tuple[Landmark, ...]:
    return tuple(Landmark(label=show(v, unit), low=v, high=v) for v in named)


PANEL_LANDMARKS = _ticks("", 1, 4, 8, 12, 16)
PULSE_LANDMARKS = {
    "current_A": _ticks("A", 1e-4, 1e-3, 1e-2, 0.1, 1.0, 10.0),
    "power_W": _ticks("W", 1e-4, 1e-2, 1.0, 100.0),
    "resistance_ohm": _ticks("Ω", 1.0, 100.0, 1e4, 1e6),
}


def knobs_for(
    scenario: Scenario, operation: int = 0, held: str = ""
) -> tuple[Knob, Knob, Knob, Knob]:
    """The four knobs of a scenario.

    Parameters
    ----------
    scenario : Scenario
        What the knobs move.
    operation : int
        Which operation's largest phase the load knob moves; taken within the list.
    held : str
        Path of a phase that the load knob goes on moving while it is one of that operation.

    Returns
    -------
    tuple of Knob
        Light, panels, store and load pulse.
    """
    pulse_path = pulse_amount_path(scenario, operation, held)
    unit_key = pulse_path.rpartition(".")[2].replace("sleep_A", "current_A")
    store_path = size_path(scenario)
    cell = store_path.endswith("mAh")
    return (
        _knob(scenario, "light", LIGHT_PATH, LIGHT_LANDMARKS),
        _knob(scenario, "panels", "panels.count", PANEL_LANDMARKS),
        _knob(scenario, "store", store_path, CAPACITY_LANDMARKS if cell else CAPACITANCE_LANDMARKS),
        _knob(
            scenario,
            "pulse",
            pulse_path,
            PULSE_LANDMARKS[unit_key],
            label="" if pulse_path == "load.sleep_A" else say("Load pulse"),
        ),
    )


def pulse_amount_path(scenario: Scenario, operation: int, held: str = "") -> str:
    """Path of what the load knob moves: the held phase where there is one, else the largest."""
    largest = largest_phase_path(scenario, operation)
    head, _, key = held.rpartition(".")
    if held and head.rpartition(".")[0] == largest.rpartition(".")[0].rpartition(".")[0]:
        try:
            if get_value(scenario, f"{head}.{key}") is not None:
                return held
        except (KeyError, IndexError):
            pass  # the phase has been removed
    return largest


def knob_value(case: Case, knob: Knob) -> float:
    """What a knob shows: its value, or the log's mean while lit where that is left empty."""
    value = get_value(case.scenario, knob.path)
    return max(measured_level(case), knob.low) if value is None else float(value)


def measured_level(case: Case) -> float:
    """Mean of the log, or of the year, while lit; 1 lx where there is none. [lx]"""
    # Three digits: more would not fit, and no log knows them.
    try:
        mean_lx = case.mean_lit_lx
    except ValueError:  # a year whose weather file cannot be read
        return 1.0
    return max(float(f"{mean_lx:.3g}"), 1.0)


def pattern_values(case: Case, pattern: Section) -> dict[str, Any]:
    """Values by path that put another pattern of light in place, with a level that suits it.

    Daylight is as bright as computed, not as the level that lamps had; lamps have a level.
    """
    if isinstance(pattern, DaylightPattern):
        return {PATTERN_PATH: pattern, LIGHT_PATH: None}
    if case.scenario.light.illuminance_lx is None and not isinstance(pattern, LogPattern):
        return {LIGHT_PATH: measured_level(case), PATTERN_PATH: pattern}
    return {PATTERN_PATH: pattern}


def operation_name(operation: Operation, index: int) -> str:
    """Name of an operation in the choice beside the load knob."""
    return operation.name or say("operation {n}", n=index + 1)


def _knob(
    scenario: Scenario,
    key: str,
    path: str,
    landmarks: tuple[Landmark, ...],
    label: str = "",
) -> Knob:
    field = describe(owner_class(scenario, path), path.rpartition(".")[2])
    return Knob(
        key=key,
        path=path,
        label=label or field.label,
        unit=field.unit,
        help=field.help,
        low=field.low,
        high=field.high,
        whole=key == "panels",
        stops=stops_of(path),
        landmarks=landmarks,
    )

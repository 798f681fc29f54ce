"""The values in which a quantity is had: parts as they are sold, whole panels, neat numbers."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from explorer.physics.arrays import FloatArray
from explorer.scenario.fields import describe
from explorer.scenario.model import Scenario, owner_class, size_path

LIGHT_STEPS = (1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0)
E12 = (1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2)
"""Preferred numbers, IEC 60063."""
WHOLE = ("count", "in_series", "units_in_series", "cells_in_series")
"""Keys of numbers that come in ones."""
_NEAT_S = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0,
           45.0, 50.0)  # fmt: skip
_NEAT_H = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 18.0, 20.0)
_NEAT_D = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 7.0, 10.0, 14.0, 21.0, 28.0, 30.0, 60.0, 100.0)
"""Intervals that a person would set, in seconds and minutes, hours, days (own judgement)."""


def decades(
    steps: tuple[float, ...], low_exponent: int, high_exponent: int
) -> tuple[float, ...]:
    """Stops that repeat `steps` in every decade; the last is the upper end itself.

    Examples
    --------
    >>> decades((1.0, 2.0, 5.0), 0, 2)
    (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
    """
    stops = [
        float(f"{step:g}e{exponent}")
        for exponent in range(low_exponent, high_exponent)
        for step in steps
    ]
    return (*stops, float(f"1e{high_exponent}"))


LIGHT_STOPS = decades(LIGHT_STEPS, 1, 5)
PANEL_STOPS = tuple(float(n) for n in range(1, 17))
CAPACITANCE_STOPS = decades(E12, -4, 2)
CAPACITY_STOPS = decades(LIGHT_STEPS, 0, 4)
AMOUNT_STOPS = {
    "current_A": decades(E12, -4, 1),
    "power_W": decades(E12, -4, 2),
    "resistance_ohm": decades(E12, 0, 6),
}
"""Of a phase of the load, by what it is given in."""


@dataclass(frozen=True, slots=True, eq=False)
class Series:
    """Rising values, of which an edge or a remedy takes one."""

    values: FloatArray

    def between(self, one: float, other: float) -> FloatArray:
        """The values of the series strictly between two others, rising."""
        low, high = min(one, other), max(one, other)
        inside = (self.values > low * (1 + 1e-9)) & (self.values < high * (1 - 1e-9))
        return self.values[inside]


def _digits(count: int) -> FloatArray:
    """All numbers of so many significant digits."""
    first = 10 ** (count - 1)
    whole = np.arange(first, 10 * first, dtype=float)
    powers = range(-12 - count + 1, 10 - count + 1)
    # Whole numbers and powers of ten up to 22 are exact: so is the rounding of what they make.
    return np.concatenate([whole * 10.0**p if p >= 0 else whole / 10.0**-p for p in powers])


@cache
def _series(kind: str) -> Series:
    if kind == "whole":
        return Series(np.arange(1.0, 10_001.0))
    if kind == "parts":
        return Series(np.array(decades(E12, -12, 6)))
    if kind == "cells":
        return Series(np.array(decades(LIGHT_STEPS, -3, 7)))
    if kind == "times":
        short = np.array(decades(LIGHT_STEPS, -6, 0)[:-1])
        neat = [np.array(_NEAT_S), 60.0 * np.array(_NEAT_S), 3600.0 * np.array(_NEAT_H),
                86_400.0 * np.array(_NEAT_D)]  # fmt: skip
        return Series(np.concatenate([short, *neat]))
    return Series(_digits(3 if kind == "three digits" else 2))


def three_digits() -> Series:
    """All numbers of three significant digits."""
    return _series("three digits")


def series_of(path: str) -> Series:
    """The values in which the quantity at a path is had.

    Capacitors come in the steps of IEC 60063, panels in ones, intervals as a person sets them,
    thresholds in three significant digits, everything else in two.

    Examples
    --------
    >>> series_of("store.capacitance_F").between(1.0, 2.0).tolist()
    [1.2, 1.5, 1.8]
    >>> series_of("light.illuminance_lx").between(230.0, 260.0).tolist()
    [240.0, 250.0]
    """
    key = path.rpartition(".")[2]
    if key in WHOLE:
        return _series("whole")
    if key == "capacitance_F":
        return _series("parts")
    if key == "capacity_mAh":
        return _series("cells")
    if key == "interval_s":
        return _series("times")
    return _series("three digits" if key.endswith("_V") else "two digits")


def stops_of(path: str) -> tuple[float, ...]:
    """The stops of the knob that moves a quantity.

    Raises
    ------
    KeyError
        No knob moves it.
    """
    stops = {
        "light.illuminance_lx": LIGHT_STOPS, "panels.count": PANEL_STOPS,
        "store.capacitance_F": CAPACITANCE_STOPS, "store.capacity_mAh": CAPACITY_STOPS,
        "load.sleep_A": AMOUNT_STOPS["current_A"], **AMOUNT_STOPS,
    }  # fmt: skip
    return stops[path] if path in stops else stops[path.rpartition(".")[2]]


def knob_paths(scenario: Scenario, operation: int = 0) -> tuple[str, str, str, str]:
    """Paths of the four quantities that knobs move: light, panels, store, load pulse."""
    return (
        "light.illuminance_lx", "panels.count", size_path(scenario),
        largest_phase_path(scenario, operation),
    )  # fmt: skip


def largest_phase_path(scenario: Scenario, operation: int) -> str:
    """Path of the amount of an operation's largest phase.

    A load without operations has its largest start-up phase moved, one without phases its sleep
    current.
    """
    operations = scenario.load.operations
    if operations:
        index = min(max(operation, 0), len(operations) - 1)
        k = largest_phase(scenario, index)
        phase = operations[index].phases[k]
        return f"load.operations.{index}.phases.{k}.{phase.amount_key}"
    start_up = scenario.load.start_up
    if not start_up:
        return "load.sleep_A"
    k = max(range(len(start_up)), key=lambda i: _power(scenario, start_up[i]))
    return f"load.start_up.{k}.{start_up[k].amount_key}"


def largest_phase(scenario: Scenario, operation: int) -> int:
    """Index of the phase of an operation that draws most power at the device's voltage."""
    phases = scenario.load.operations[operation].phases
    return max(range(len(phases)), key=lambda k: _power(scenario, phases[k]))


def _power(scenario: Scenario, phase: object) -> float:
    """Power of a phase at the regulator's output, or at the connect voltage without one. [W]"""
    regulator = scenario.load.regulator
    volts = scenario.load.connect_V if regulator.kind == "none" else regulator.output_V
    current, power, ohms = (
        getattr(phase, key) for key in ("current_A", "power_W", "resistance_ohm")
    )
    if current is not None:
        return float(current * volts)
    return float(power) if power is not None else float(volts**2 / ohms)


def in_range(scenario: Scenario, path: str, values: FloatArray) -> FloatArray:
    """Those values that the field at a path takes."""
    info = describe(owner_class(scenario, path), path.rpartition(".")[2])
    return values[(values >= info.low) & (values <= info.high)]

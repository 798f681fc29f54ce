"""Readings: what a run says, as numbers that the checks are made from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import inf

import numpy as np

from explorer.physics.arrays import BoolArray, FloatArray, IntArray
from explorer.scenario.ratings import Rating

FARTHEST = 20.0
"""A dark stretch is followed for this many times its length; a longer margin says nothing."""
START_UP = -1
"""Stands for the start-up where an operation is named by its number."""


def times(lasts_s: FloatArray, needed_s: FloatArray) -> FloatArray:
    """How many times a stretch a store lasts, shape (n,).

    Infinite where it lasts for ever or there is no stretch; 0 where one without end is not lasted.
    """
    some = (needed_s > 0.0) & np.isfinite(lasts_s)
    return np.where(some, lasts_s / np.where(some, needed_s, 1.0), np.inf)


@dataclass(frozen=True, slots=True, kw_only=True)
class DarkReading:
    """The stretch in which the store pays for everything and fares worst; arrays of shape (n,)."""

    needed_s: FloatArray
    """Its length; 0 where there is no dark stretch and no closure, infinite where light never
    comes. [s]"""
    lasts_s: FloatArray
    """Time to the cut-off, the reserve kept, followed for `FARTHEST` times its length. [s]"""
    begin_v: FloatArray
    """Store voltage with which it begins in the course. [V]"""
    closure: BoolArray
    """Whether it is the declared closure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PulseReading:
    """The phase that pulls the terminals deepest against what they may fall; shape (n,)."""

    operation: IntArray
    """Its number, or `START_UP`."""
    phase: IntArray
    begin_v: FloatArray
    """Store voltage at which the operation or the start-up begins. [V]"""
    lowest_v: FloatArray
    """Lowest terminal voltage, without light; 0 where it collapses. [V]"""
    need_v: FloatArray
    """What the device or its regulator needs, whichever is higher. [V]"""
    ramp_v: FloatArray
    """Fall of the store's own voltage from the beginning to the lowest point. [V]"""
    short_s: FloatArray
    """Time from the beginning after which the terminals are down to the need; infinite if they
    never are. [s]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Required:
    """An amount that is asked of a design, with what it reaches; arrays of shape (n,)."""

    key: str
    """Its field among the margins."""
    value: FloatArray
    """What the design reaches; infinite without end, or where it never fills."""
    limit: FloatArray
    unit: str
    light_lx: FloatArray | None = None
    """Steady light in which it is asked; None where light is no matter. [lx]"""
    at_most: bool = False
    """Whether the value must stay below the limit."""
    due: float = inf
    """Of a rate the most that the schedule lets the device do."""

    @property
    def margin(self) -> FloatArray:
        """Reached over asked, or allowed over needed."""
        with np.errstate(divide="ignore"):
            return self.limit / self.value if self.at_most else self.value / self.limit


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """Everything that the checks read, of n designs; there is no margin in it."""

    ready_s: FloatArray
    """From an empty store at the first light to the end of the first start-up; infinite where it
    never gets there, shape (n,). [s]"""
    level_v: FloatArray
    """Store voltage that suits the balance best, shape (n,). [V]"""
    brought_w: FloatArray
    """Mean power that the light brings with the store held there, shape (n,). [W]"""
    taken_w: FloatArray
    """Mean power that everything wanted, leakage and charger take there, shape (n,). [W]"""
    dark: DarkReading
    pulse: PulseReading | None
    """None where nothing ever pulses."""
    ratings: tuple[Rating, ...]
    served: FloatArray
    """Completed runs in the course, shape (n, operations); none where it never starts."""
    wanted: FloatArray
    """Runs wanted in the same time, shape (n, operations)."""
    connected: FloatArray
    """Share of the course in which the device is connected, shape (n,)."""
    cut_offs: FloatArray
    """Cut-offs in the course, shape (n,)."""
    span_s: FloatArray
    """Length of the course that was followed, shape (n,). [s]"""
    repeats: BoolArray
    """Whether the course comes back to where it began, shape (n,)."""
    sure: BoolArray
    """Whether these readings may decide by themselves, shape (n,); where not, the exact march
    does."""
    falls: BoolArray
    """Whether it surely falls short, whatever else is read, shape (n,)."""
    within: Mapping[str, FloatArray] = field(default_factory=dict)
    """Share by which the margin of a check may differ from the exact one, shape (n,); none for what
    the exact march reads."""
    required: tuple[Required, ...] = ()
    """Amounts that are asked beside what the course must serve."""
    low: Readings | None = None
    """The same with each store where it is least in its band; None where that is no matter."""
    high: Readings | None = None
    """The same with each store where it is most in its band."""

    @property
    def size(self) -> int:
        """Number of designs."""
        return len(self.ready_s)


__all__ = ["FARTHEST", "START_UP", "DarkReading", "PulseReading", "Readings", "Required",
           "times"]

"""Light at run time: exact levels for blocks of hours, blended levels for a measured log.

A week of blocks has a handful of levels and each gets its own exact motion. A log has thousands;
there a fixed ladder of levels is tabulated once and each reading blends its two neighbours.
"""

from __future__ import annotations

from copy import copy
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from explorer.engine.cycles import Cycle
from explorer.engine.flows import BlendedFlow, Flow
from explorer.engine.keys import MotionKey
from explorer.engine.speeds import Field, Regime

EXACT_LEVELS = 40
"""Most distinct levels for which each is tabulated by itself."""
LADDER_RATIO = 1.3
"""Step of the ladder of blended levels."""
FINER = 8
"""Finer steps within one of the ladder, where only the charging current is needed."""
LADDER_DECADES = 3.5
GATHER_S = 900.0
"""Longest window into which readings of a log are gathered. [s]"""
GATHER_V = 0.01
"""Most that the store may move within such a window. [V]"""
TINY_V = 0.3
"""A store that one reading moves by more than this follows the light at once; its readings are
gathered in windows of `TINY_GATHER_S` whatever it does meanwhile. [V]"""
TINY_GATHER_S = 300.0

FloatArray = NDArray[np.float64]


class Motion:
    """A regime with the charges at which its thresholds lie.

    Averaged pulses, if any, are part of the flow, the drawn current and the lowest terminal
    voltage, but not of the regime.
    """

    __slots__ = ("connect_c", "drawn_a", "flow", "key", "off_c", "regime", "terminal_min_v")

    def __init__(
        self,
        key: MotionKey,
        flow: Flow,
        regime: Regime,
        off_c: float,
        connect_c: float,
        averaged: tuple[FloatArray, FloatArray] | None = None,
    ) -> None:
        self.key = key
        self.flow = flow
        self.regime = regime
        self.off_c = off_c
        self.connect_c = connect_c
        self.drawn_a, self.terminal_min_v = averaged or (regime.drawn_a, regime.terminal_v)

    def named(self, key: MotionKey) -> Motion:
        """The same motion under another name: a draw in the dark is one at every light level."""
        twin = copy(self)
        twin.key = key
        return twin

    def run(self, x: float, duration: float, low: float, high: float) -> tuple[float, float]:
        """See `Flow.run`."""
        return self.flow.run(x, duration, low, high)


class BlendedMotion:
    """Two motions mixed, with the interface of `Motion`."""

    __slots__ = ("connect_c", "flow", "off_c")

    def __init__(self, a: Motion, b: Motion, weight: float) -> None:
        self.flow = BlendedFlow(a.flow, b.flow, weight)
        self.off_c = _mix(a.off_c, b.off_c, weight)
        self.connect_c = _mix(a.connect_c, b.connect_c, weight)

    def run(self, x: float, duration: float, low: float, high: float) -> tuple[float, float]:
        """See `Flow.run`."""
        return self.flow.run(x, duration, low, high)


def _mix(a: float, b: float, weight: float) -> float:
    return a if a == b else (1.0 - weight) * a + weight * b


class Stretch(NamedTuple):
    """One reading of a log: its motion and the bounds within which that holds."""

    flow: Flow | BlendedFlow
    low: float
    high: float
    low_motion: Motion
    high_motion: Motion
    cycles: tuple[Cycle, Cycle] | None


class Level:
    """Light of one segment: two neighbours of the ladder and a weight, or one exact level."""

    __slots__ = ("exact", "high_a", "low_a", "weight")

    def __init__(self, low_a: float, high_a: float, weight: float) -> None:
        self.low_a = low_a
        self.high_a = high_a
        self.weight = weight
        self.exact = low_a == high_a
        """Whether the level stands by itself."""


@dataclass(frozen=True, slots=True)
class Timeline:
    """Levels that the march runs through; lists of one length, with one more edge."""

    edges_s: list[float]
    levels: list[Level]
    illuminance_lx: FloatArray
    charge_a: FloatArray
    """Charging current with the store at the connect voltage. [A]"""


def timeline(field: Field) -> Timeline:
    """Levels and edges of a system's light.

    Notes
    -----
    A log with many levels is gathered into windows of up to `GATHER_S` where the store moves by
    less than `GATHER_V` meanwhile, each with its mean *charging current* at the connect voltage:
    light itself is never averaged. A window then blends the two rungs of a ladder of levels
    between which that current lies. For a converter this is exact, since its current at one
    voltage fixes it at all; elsewhere the error is of second order.
    """
    course = field.system.light
    currents, volts = course.photocurrent_a, field.system.load.connect_v
    distinct = np.unique(currents)
    if len(distinct) <= EXACT_LEVELS:
        made = {float(a): Level(float(a), float(a), 0.0) for a in distinct}
        levels = [made[a] for a in currents.tolist()]
        amps = np.interp(currents, distinct, field.charge_currents(distinct, volts))
        return Timeline(course.edges_s.tolist(), levels, course.illuminance_lx, amps)
    top = float(distinct[-1])
    rungs = int(np.ceil(LADDER_DECADES * np.log(10.0) / np.log(LADDER_RATIO)))
    fine = np.concatenate(
        [[0.0], top * LADDER_RATIO ** (-np.arange(rungs * FINER, -1, -1.0) / FINER)]
    )
    fine_a = np.maximum.accumulate(field.charge_currents(fine, volts))
    edges, amps, lux = _gathered(field, np.interp(currents, fine, fine_a))
    ladder = np.concatenate([[0.0], fine[1::FINER]])
    ladder_a = np.interp(ladder, fine, fine_a)
    field.prepare(ladder)
    # A reading lies between two rungs by its charging current, not by its light.
    index = np.clip(np.searchsorted(ladder_a, amps, side="right") - 1, 0, len(ladder) - 2)
    gap = ladder_a[index + 1] - ladder_a[index]
    weight = np.clip((amps - ladder_a[index]) / np.where(gap > 0, gap, 1.0), 0.0, 1.0)
    dark = Level(0.0, 0.0, 0.0)
    steps = ladder.tolist()
    unlit = amps <= ladder_a[0]
    levels = [
        dark if off else Level(steps[i], steps[i + 1], w)
        for i, w, off in zip(index.tolist(), weight.tolist(), unlit.tolist(), strict=True)
    ]
    return Timeline(edges.tolist(), levels, lux, amps)


def _gathered(field: Field, amps: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Edges, mean charging current and mean illuminance of a log in windows."""
    course, volts = field.system.light, field.system.load.connect_v
    edges, lux = course.edges_s, course.illuminance_lx
    span = np.diff(edges)
    begin = field.charge_at(volts)
    single = np.percentile(np.abs(amps) * span, 95)
    tiny = field.voltage_at(begin + single) - field.voltage_at(begin) > TINY_V
    width = TINY_GATHER_S if tiny else GATHER_S
    window = np.floor(edges[:-1] / width)
    fits = np.floor((edges[1:] - 1e-6) / width) == window
    # A stretch that passes a window's edge stands alone, and so do the parts around it.
    parted = (np.diff(window) != 0) | ~fits[1:] | ~fits[:-1]
    group = np.cumsum(np.concatenate([[0], parted]))
    moved = np.asarray(np.bincount(group, np.abs(amps) * span), float)
    rise = field.voltage_at(begin + moved) - field.voltage_at(begin)
    alone = (rise > GATHER_V) & ~tiny
    starts = np.concatenate([[True], parted]) | alone[group]
    first = np.flatnonzero(starts)
    time = np.add.reduceat(span, first)
    mean = np.add.reduceat(amps * span, first) / time
    mean_lux = np.add.reduceat(lux * span, first) / time
    return np.append(edges[first], edges[-1]), mean, mean_lux

"""Light at run time: exact levels for blocks of hours, blended levels for a measured log.

A week of blocks has a handful of levels and each gets its own exact motion. A log has thousands;
there a ladder of its levels is tabulated once and each reading blends two of them.
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
from explorer.physics.charger import DirectCharger

EXACT_LEVELS = 40
"""Most distinct levels for which each is tabulated by itself."""
RUNGS = 24
"""Levels of the ladder that a longer log is blended from, besides none, the faintest and the
brightest."""
WIDEST = 0.25
"""Gap between two readings, as a logarithm of light, beyond which a wider one counts no more."""
FINER = 8
"""Finer steps within one of the ladder, where only the charging current is needed."""
GATHER_S = 900.0
"""Longest window into which readings of a log are gathered. [s]"""
GATHER_V = 0.01
"""Most that the store may move within such a window. [V]"""
TINY_V = 0.3
"""A store that one reading moves by more than this follows the light at once; its readings are
gathered in windows of `TINY_GATHER_S` whatever it does meanwhile. [V]"""
TINY_GATHER_S = 300.0

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.intp]


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
    """Light of one segment: two rungs of the ladder and a weight, or one exact level."""

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
    less than `GATHER_V` meanwhile, and each window blends two rungs of a ladder of levels, chosen
    where this log has its light (`_ladder`). What is kept is

    - behind a converter the window's mean *charging current* at the connect voltage: its current
      at one voltage fixes it at all of them;
    - behind a diode the window's mean *light*, and how far the readings lie from it. At one
      store voltage the current rises in proportion to the light once that lifts the panel above
      the store, and is none below: a blend of two rungs is exact but for readings that lie between
      the same two rungs as the bend.
    """
    course = field.system.light
    currents, volts = course.photocurrent_a, field.system.load.connect_v
    distinct = np.unique(currents)
    if len(distinct) <= EXACT_LEVELS:
        made = {float(a): Level(float(a), float(a), 0.0) for a in distinct}
        levels = [made[a] for a in currents.tolist()]
        amps = np.interp(currents, distinct, field.charge_currents(distinct, volts))
        return Timeline(course.edges_s.tolist(), levels, course.illuminance_lx, amps)
    span = np.diff(course.edges_s)
    ladder = _ladder(currents, span)
    direct = isinstance(field.system.charger, DirectCharger)
    fine = _refined(ladder)
    fine_a = field.charge_currents(fine, volts)
    if not direct:
        fine_a = np.maximum.accumulate(fine_a)
    amps = np.interp(currents, fine, fine_a)
    starts = _windows(field, currents if direct else amps)
    time = np.add.reduceat(span, starts)

    def mean(values: FloatArray) -> FloatArray:
        return np.asarray(np.add.reduceat(values * span, starts) / time)

    field.prepare(ladder)
    amps_mean = mean(amps)
    if direct:
        low, high, weight = _two_rungs(ladder, currents, span, starts)
    else:
        low, high, weight = _by_current(ladder, np.interp(ladder, fine, fine_a), amps_mean)
        # Too weak for normal running, a reading may still be good for a cold start.
        faint = amps_mean <= fine_a[0]
        by_light = _two_rungs(ladder, currents, span, starts)
        low, high, weight = (
            np.where(faint, a, b) for a, b in zip(by_light, (low, high, weight), strict=True)
        )
    dark = Level(0.0, 0.0, 0.0)
    steps = ladder.tolist()
    levels = [
        dark if not any_light else Level(steps[i], steps[j], w)
        for i, j, w, any_light in zip(
            low.tolist(), high.tolist(), weight.tolist(), (mean(currents) > 0).tolist(),
            strict=True,
        )
    ]
    edges = np.append(course.edges_s[starts], course.edges_s[-1])
    return Timeline(edges.tolist(), levels, mean(course.illuminance_lx), amps_mean)


def _ladder(currents: FloatArray, span: FloatArray) -> FloatArray:
    """Levels of light that are tabulated for a log: none, and `RUNGS` of its own readings.

    A reading is never further wrong than its distance from the nearest rung, so rungs stand
    close where much light arrives: their density goes with the root of the light's, which
    makes the sum over all readings of light times distance smallest.
    """
    order = np.argsort(currents)
    lit = order[currents[order] > 0]
    amps, light = currents[lit], (currents * span)[lit]
    gap = np.minimum(np.diff(np.log(amps)), WIDEST)
    share = 0.5 * (np.append(gap, WIDEST) + np.append(WIDEST, gap))
    passed = np.cumsum(np.sqrt(light * share))
    at = np.searchsorted(passed, passed[-1] * (np.arange(RUNGS) + 0.5) / RUNGS)
    chosen = np.append(amps[np.minimum(at, len(amps) - 1)], (amps[0], amps[-1]))
    return np.unique(np.append(chosen, 0.0))


def _refined(ladder: FloatArray) -> FloatArray:
    """The ladder with `FINER` steps from rung to rung."""
    share = np.arange(FINER) / FINER
    between = ladder[:-1, None] + share * np.diff(ladder)[:, None]
    return np.append(between.ravel(), ladder[-1])


Rungs = tuple[IntArray, IntArray, FloatArray]
"""Lower and upper rung of each window, and the share of the upper one."""


def _by_current(ladder: FloatArray, ladder_a: FloatArray, amps: FloatArray) -> Rungs:
    """Neighbouring rungs between which a charging current lies."""
    low = np.clip(np.searchsorted(ladder_a, amps, side="right") - 1, 0, len(ladder) - 2)
    gap = ladder_a[low + 1] - ladder_a[low]
    weight = np.clip((amps - ladder_a[low]) / np.where(gap > 0, gap, 1.0), 0.0, 1.0)
    return low, low + 1, weight


def _two_rungs(
    ladder: FloatArray, currents: FloatArray, span: FloatArray, starts: IntArray
) -> Rungs:
    """Rungs near the means of a window's darker and brighter readings; they keep the mean."""
    count = np.diff(np.append(starts, len(currents)))
    time = np.add.reduceat(span, starts)
    mean = np.add.reduceat(currents * span, starts) / time
    bright = currents > np.repeat(mean, count) * (1.0 + 1e-12)
    bright_s = np.add.reduceat(span * bright, starts)
    above = np.add.reduceat(currents * span * bright, starts)
    spread = (bright_s > 0) & (bright_s < time)
    upper = np.where(spread, above / np.where(spread, bright_s, 1.0), mean)
    lower = np.where(spread, (mean * time - above) / np.where(spread, time - bright_s, 1.0), mean)
    middle = 0.5 * (ladder[1:] + ladder[:-1])
    below = np.clip(np.searchsorted(ladder, mean, side="right") - 1, 0, len(ladder) - 2)
    low = np.minimum(np.searchsorted(middle, lower), below)
    high = np.maximum(np.searchsorted(middle, upper), below + 1)
    return low, high, np.clip((mean - ladder[low]) / (ladder[high] - ladder[low]), 0.0, 1.0)


def _windows(field: Field, amps: FloatArray) -> IntArray:
    """First reading of every window into which a log is gathered.

    Parameters
    ----------
    field : Field
        The system.
    amps : ndarray
        Largest charging current of each reading. [A]
    """
    course, volts = field.system.light, field.system.load.connect_v
    edges = course.edges_s
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
    return np.flatnonzero(np.concatenate([[True], parted]) | alone[group])

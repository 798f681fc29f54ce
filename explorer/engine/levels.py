"""Light at run time: exact levels for blocks of hours, blended levels for a measured log.

A week of blocks has a handful of levels and each gets its own exact motion. A log has thousands;
there a ladder of its levels is tabulated once and each reading blends two of them.
"""

from __future__ import annotations

from copy import copy
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from explorer.engine.cycles import Cycle
from explorer.engine.flows import BlendedFlow, Flow
from explorer.engine.keys import MotionKey
from explorer.engine.speeds import Field, Regime
from explorer.physics.arrays import FloatArray, IntArray, distinct
from explorer.physics.charger import DirectCharger

EXACT_LEVELS = 40
"""Most distinct levels for which each is tabulated by itself."""
RUNGS = 20
"""Shares into which the light of a longer log is parted, each between two levels of a ladder."""
MOST_SHARE = 1.4
"""Most of a share between two levels: halves of what holds a little more hold well less."""
FINEST = 0.07 / 16.0
"""Closest two levels of a ladder, as a logarithm of light."""
WIDEST_STEPS = 512
"""Widest apart two levels may be, in closest steps: a power of two."""
WIDEST = 0.25
"""Gap between two readings, as a logarithm of light, beyond which a wider one counts no more."""
FINER = 8
"""Finer steps within one of the ladder, where only the charging current is needed."""
GATHER_S = 900.0
"""Longest window into which readings of a log are gathered. [s]"""
SHORTER_S = (300.0, 60.0)
"""Parts of it, each one of the one before, that serve where the store moves too much in it. [s]"""
GATHER_V = 0.01
"""Most that the store may move within such a window. [V]"""
EVEN = 0.4
"""Most by which readings that are gathered behind a diode may differ from each other, as a share
of the bright readings of the log."""
TINY_V = 0.3
"""A store that one reading moves by more than this follows the light at once; its readings are
gathered in windows of `TINY_GATHER_S` whatever it does meanwhile. [V]"""
TINY_GATHER_S = 300.0


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
        self.off_c = mix(a.off_c, b.off_c, weight)
        self.connect_c = mix(a.connect_c, b.connect_c, weight)

    def run(self, x: float, duration: float, low: float, high: float) -> tuple[float, float]:
        """See `Flow.run`."""
        return self.flow.run(x, duration, low, high)


def mix(a: float, b: float, weight: float) -> float:
    """A value between two, also where both are infinite."""
    return a if a == b else (1.0 - weight) * a + weight * b


class Pair(NamedTuple):
    """Two levels that readings of a log blend, in one state of the device."""

    flows: tuple[Flow, Flow]
    low_c: float
    high_c: float
    """Bounds within which the flows hold, whatever the weight, the load's switch aside. [C]"""
    low: Motion
    high: Motion
    cycles: tuple[Cycle, Cycle] | None

    def bounds(self, weight: float, connects: bool) -> tuple[float, float]:
        """Bounds within which a blend holds. [C]"""
        low_c, high_c = self.low_c, self.high_c
        if self.cycles is None:
            low_c = max(low_c, mix(self.low.off_c, self.high.off_c, weight))
            if connects:
                high_c = min(high_c, mix(self.low.connect_c, self.high.connect_c, weight))
        return low_c, high_c


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


def timeline(field: Field, shares: float = RUNGS) -> Timeline:
    """Levels and edges of a system's light.

    Parameters
    ----------
    field : Field
        The system.
    shares : float
        Shares into which the light of a long log is parted.

    Notes
    -----
    A log with many levels is gathered into windows of up to `GATHER_S` where the store moves by
    less than `GATHER_V` meanwhile, and each window blends two rungs of a ladder of levels, chosen
    where this log has its light (`_ladder`). What is kept is

    - behind a converter the window's mean *charging current* at the connect voltage: its current
      at one voltage fixes it at all of them;
    - behind a diode its mean *light*, and how far the readings lie from it. At one store voltage
      the current rises in proportion to the light once that lifts the panel above the store, and
      is none below: a blend of two rungs is exact but where that bend lies between them.
    """
    course = field.system.light
    currents, volts = course.photocurrent_a, field.system.load.connect_v
    each = distinct(currents)
    if len(each) <= EXACT_LEVELS:
        made = {float(a): Level(float(a), float(a), 0.0) for a in each}
        levels = [made[a] for a in currents.tolist()]
        amps = np.interp(currents, each, field.charge_currents(each, volts))
        return Timeline(course.edges_s.tolist(), levels, course.illuminance_lx, amps)
    span = np.diff(course.edges_s)
    ladder = _ladder(currents, span, shares)
    direct = isinstance(field.system.charger, DirectCharger)
    fine = _refined(ladder)
    fine_a = field.charge_currents(fine, volts)
    if not direct:
        fine_a = np.maximum.accumulate(fine_a)
    amps = np.interp(currents, fine, fine_a)
    if direct:
        starts = _windows(field, currents, EVEN * float(np.percentile(currents[currents > 0], 95)))
    else:
        starts = _windows(field, amps, np.inf)
    time = np.add.reduceat(span, starts)

    def mean(values: FloatArray) -> FloatArray:
        return np.asarray(np.add.reduceat(values * span, starts) / time)

    field.prepare(ladder)
    amps, light = mean(amps), mean(currents)
    low, high, weight = _by_light(ladder, currents, span, starts)
    if not direct:
        # Too weak for normal running, a reading may still be good for a cold start.
        runs = amps > fine_a[0]
        found, share = _between(np.interp(ladder, fine, fine_a), amps)
        low, high = np.where(runs, found, low), np.where(runs, found + 1, high)
        weight = np.where(runs, share, weight)
    dark = Level(0.0, 0.0, 0.0)
    steps = ladder.tolist()
    levels = [
        Level(steps[i], steps[j], w) if lit else dark
        for i, j, w, lit in zip(
            low.tolist(), high.tolist(), weight.tolist(), (light > 0).tolist(), strict=True
        )
    ]
    edges = np.append(course.edges_s[starts], course.edges_s[-1])
    return Timeline(edges.tolist(), levels, mean(course.illuminance_lx), amps)


def _ladder(currents: FloatArray, span: FloatArray, shares: float) -> FloatArray:
    """Levels of light that are tabulated for a log: none, and steps of one scale for all logs.

    A reading is never further wrong than its distance from the nearest rung, so rungs stand
    close where much light arrives: their density goes with the root of the light's, which
    makes the sum over all readings of light times distance smallest. The scale is parted into
    halves, and these again, until none holds more than one share of so many: the same log in
    other light, or beside another store, finds most of its rungs tabulated.
    """
    order = np.argsort(currents)
    lit = order[currents[order] > 0]
    amps, light = currents[lit], (currents * span)[lit]
    gap = np.minimum(np.diff(np.log(amps)), WIDEST)
    share = 0.5 * (np.append(gap, WIDEST) + np.append(WIDEST, gap))
    passed = np.cumsum(np.sqrt(light * share))
    places = np.log(amps) / FINEST
    low, high = int(np.floor(places[0] - 1e-9)), int(np.ceil(places[-1] + 1e-9))
    held = np.interp(np.arange(low, high + 1), places, passed * (shares / passed[-1])).tolist()
    rungs = {low, high}
    parts = [(begin, WIDEST_STEPS) for begin in range(low - low % WIDEST_STEPS, high, WIDEST_STEPS)]
    while parts:
        begin, steps = parts.pop()
        first, last = max(begin, low), min(begin + steps, high)
        if first >= last:
            continue
        if steps > 1 and held[last - low] - held[first - low] > MOST_SHARE:
            half = steps // 2
            parts += [(begin, half), (begin + half, half)]
        elif begin >= low:
            rungs.add(begin)
    return np.append(0.0, np.exp(np.array(sorted(rungs)) * FINEST))


def _refined(ladder: FloatArray) -> FloatArray:
    """The ladder with `FINER` steps from rung to rung."""
    share = np.arange(FINER) / FINER
    between = ladder[:-1, None] + share * np.diff(ladder)[:, None]
    return np.append(between.ravel(), ladder[-1])


def _between(rungs: FloatArray, values: FloatArray) -> tuple[IntArray, FloatArray]:
    """Rung below each value, and the share of the next one in it; `rungs` do not fall."""
    low = np.clip(np.searchsorted(rungs, values, side="right") - 1, 0, len(rungs) - 2)
    gap = rungs[low + 1] - rungs[low]
    return low, np.clip((values - rungs[low]) / np.where(gap > 0, gap, 1.0), 0.0, 1.0)


def _by_light(
    ladder: FloatArray, currents: FloatArray, span: FloatArray, starts: IntArray
) -> tuple[IntArray, IntArray, FloatArray]:
    """Two rungs for each window, and the share of the upper one, that keep its mean light.

    They lie near the means of the window's darker and brighter readings.
    """
    count = np.diff(np.append(starts, len(currents)))
    time = np.add.reduceat(span, starts)
    mean = np.add.reduceat(currents * span, starts) / time
    bright = span * (currents > np.repeat(mean, count) * (1.0 + 1e-12))
    bright_s = np.add.reduceat(bright, starts)
    above = np.add.reduceat(currents * bright, starts)
    several = (bright_s > 0) & (bright_s < time)
    upper = np.where(several, above / np.where(several, bright_s, 1.0), mean)
    dark_s = np.where(several, time - bright_s, 1.0)
    lower = np.where(several, (mean * time - above) / dark_s, mean)
    middle = 0.5 * (ladder[1:] + ladder[:-1])
    below, _ = _between(ladder, mean)
    low = np.minimum(np.searchsorted(middle, lower), below)
    high = np.maximum(np.searchsorted(middle, upper), below + 1)
    weight = (mean - ladder[low]) / (ladder[high] - ladder[low])
    return low, high, np.clip(weight, 0.0, 1.0)


def _windows(field: Field, amps: FloatArray, even_a: float) -> IntArray:
    """First reading of every window into which a log is gathered.

    Parameters
    ----------
    field : Field
        The system.
    amps : ndarray
        Largest charging current of each reading. [A]
    even_a : float
        Most by which the readings of one window may differ. [A]
    """
    course, volts = field.system.light, field.system.load.connect_v
    edges = course.edges_s
    span = np.diff(edges)
    top_v = min(volts, float(field.open_v[-1]))
    top_c = field.charge_at(top_v)
    single = float(np.percentile(np.abs(amps) * span, 95))
    tiny = top_v - field.voltage_at(top_c - single) > TINY_V
    begins, settled = np.ones(len(amps), bool), np.zeros(len(amps), bool)
    for width in (TINY_GATHER_S,) if tiny else (GATHER_S, *SHORTER_S):
        window = np.floor(edges[:-1] / width)
        fits = np.floor((edges[1:] - 1e-6) / width) == window
        # A stretch that passes a window's edge stands alone, and so do the parts around it.
        parted = np.concatenate([[True], (np.diff(window) != 0) | ~fits[1:] | ~fits[:-1]])
        group, first = np.cumsum(parted) - 1, np.flatnonzero(parted)
        moved = np.asarray(np.bincount(group, np.abs(amps) * span), float)
        alone = (top_v - field.voltage_at(top_c - moved) > GATHER_V) & (not tiny)
        alone |= np.maximum.reduceat(amps, first) - np.minimum.reduceat(amps, first) > even_a
        gathered = ~alone[group] & ~settled
        begins[gathered] = parted[gathered]
        settled |= gathered
    return np.flatnonzero(begins)

"""Light at run time: exact levels for blocks of hours, blended levels for a measured log.

A week of blocks has a handful of levels and each gets its own exact motion. A log has thousands;
there a fixed ladder of levels is tabulated once and each reading blends its two neighbours.
"""

from __future__ import annotations

from bisect import bisect_right
from math import inf

import numpy as np

from explorer.engine.cycle import Cycle
from explorer.engine.field import Field, Regime
from explorer.engine.flow import Flow, _cross, _drift
from explorer.engine.system import LightCourse

EXACT_LEVELS = 40
"""Most distinct levels for which each is tabulated by itself."""
LADDER_RATIO = 1.15
"""Step of the ladder of blended levels."""
LADDER_DECADES = 3.5


class Motion:
    """A regime with the charges at which its thresholds lie."""

    __slots__ = ("connect_c", "flow", "off_c", "regime")

    def __init__(self, flow: Flow, regime: Regime, off_c: float, connect_c: float) -> None:
        self.flow = flow
        self.regime = regime
        self.off_c = off_c
        self.connect_c = connect_c

    def run(self, x: float, duration: float, low: float, high: float) -> tuple[float, float]:
        """See `Flow.run`."""
        return self.flow.run(x, duration, low, high)


class BlendedFlow:
    """Motion between two flows on the same nodes: speed (1 - w) f_a + w f_b."""

    __slots__ = ("_a", "_b", "_w")

    def __init__(self, a: Flow, b: Flow, weight: float) -> None:
        self._a, self._b, self._w = a, b, weight

    def run(self, x: float, duration: float, low: float, high: float) -> tuple[float, float]:
        """See `Flow.run`; walks cell by cell, which is quick for the short stretches of a log."""
        xl, w, u = self._a._xl, self._w, 1.0 - self._w
        fa, fb = self._a._fl, self._b._fl
        last = len(xl) - 2
        left = duration
        cell = min(max(bisect_right(xl, x) - 1, 0), last)
        while left > 0:
            f0 = u * fa[cell] + w * fb[cell]
            f1 = u * fa[cell + 1] + w * fb[cell + 1]
            width = xl[cell + 1] - xl[cell]
            if width <= 0:
                if (f0 > 0) != (f1 > 0):
                    break
                cell += 1 if f0 > 0 else -1
                if not 0 <= cell <= last:
                    break
                continue
            slope = (f1 - f0) / width
            speed = f0 + slope * (x - xl[cell])
            if speed > 0:
                bound = min(xl[cell + 1], high)
                if x >= high:
                    return high, duration - left
                ahead = f0 + slope * (bound - xl[cell])
                leave = _cross(bound - x, speed, ahead) if ahead > 0 else inf
                if leave > left:
                    return min(x + _drift(speed, slope, left), bound), duration
                x, left = bound, left - leave
                if bound >= high:
                    return high, duration - left
                if cell == last:
                    break
                cell += 1
            elif speed < 0:
                if x <= low:
                    return low, duration - left
                if x <= xl[cell]:
                    if cell == 0:
                        break
                    cell -= 1
                    continue
                bound = max(xl[cell], low)
                ahead = f0 + slope * (bound - xl[cell])
                leave = _cross(x - bound, -speed, -ahead) if ahead < 0 else inf
                if leave > left:
                    return max(x + _drift(speed, slope, left), bound), duration
                x, left = bound, left - leave
                if bound <= low:
                    return low, duration - left
            else:
                break
        return x, duration


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


class Level:
    """Light of one segment: two neighbours of the ladder and a weight, or one exact level."""

    __slots__ = ("high_a", "low_a", "weight")

    def __init__(self, low_a: float, high_a: float, weight: float) -> None:
        self.low_a = low_a
        self.high_a = high_a
        self.weight = weight

    @property
    def exact(self) -> bool:
        """Whether the level stands by itself."""
        return self.low_a == self.high_a


def levels_of(course: LightCourse) -> list[Level]:
    """The level of every segment of a light course."""
    currents = course.photocurrent_a
    distinct = np.unique(currents)
    if len(distinct) <= EXACT_LEVELS:
        made = {float(a): Level(float(a), float(a), 0.0) for a in distinct}
        return [made[a] for a in currents.tolist()]
    top = float(distinct[-1])
    rungs = int(np.ceil(LADDER_DECADES * np.log(10.0) / np.log(LADDER_RATIO)))
    ladder = np.concatenate([[0.0], top * LADDER_RATIO ** -np.arange(rungs, -1, -1.0)])
    index = np.clip(np.searchsorted(ladder, currents, side="right") - 1, 0, len(ladder) - 2)
    weight = (currents - ladder[index]) / (ladder[index + 1] - ladder[index])
    dark = Level(0.0, 0.0, 0.0)
    rungs_a = ladder.tolist()
    return [
        dark if w == 0.0 and i == 0 else Level(rungs_a[i], rungs_a[i + 1], w)
        for i, w in zip(index.tolist(), weight.tolist(), strict=True)
    ]


def blended_cycle(a: Cycle, b: Cycle, weight: float) -> BlendedFlow:
    """Motion along two generators mixed."""
    return BlendedFlow(a.generator, b.generator, weight)


__all__ = [
    "BlendedFlow",
    "BlendedMotion",
    "Field",
    "Level",
    "Motion",
    "blended_cycle",
    "levels_of",
]

"""Turns that one leg stands for: when each begins, and how far it lies above the one that is kept.

Turns may drift, and last longer or less from one to the next; both change evenly with the turn,
as `explorer.engine.repeats` follows them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from explorer.engine.course import Leg
from explorer.engine.orbits import grain
from explorer.physics.arrays import FloatArray, IntArray

MOST_CHANGE = 0.5
"""Change over all turns of a leg, relative to one turn, above which it is not followed evenly."""


def raised(
    legs: Sequence[Leg], opening_c: float, by_c: float, inrush_c: Callable[[float], float]
) -> list[Leg]:
    """The legs of a turn so much higher, where a connect takes more at once. [C]"""
    out, before = [], opening_c
    for leg in legs:
        begin = leg.begin_c + by_c
        if leg.begin_c < before:
            begin = before + by_c - inrush_c(before + by_c)
        out.append(leg._replace(begin_c=begin, end_c=leg.end_c + by_c))
        before = leg.end_c
    return out


@dataclass(frozen=True, slots=True, kw_only=True)
class Turns:
    """Legs that repeat one turn; arrays of shape (n,), one for each moment asked for."""

    turn_s: FloatArray
    """Length of the turn that is kept. [s]"""
    opening_c: FloatArray
    closing_c: FloatArray
    """Charges at which it begins and ends. [C]"""
    times: FloatArray
    """How often it is repeated."""
    span_s: FloatArray
    begin_c: FloatArray
    end_c: FloatArray
    """Length of the leg [s] and the charges at its ends [C]."""

    def part(self, where: IntArray) -> Turns:
        """Some of the moments."""
        return Turns(
            turn_s=self.turn_s[where], opening_c=self.opening_c[where],
            closing_c=self.closing_c[where], times=self.times[where], span_s=self.span_s[where],
            begin_c=self.begin_c[where], end_c=self.end_c[where],
        )

    def split(self, since: FloatArray, late: bool) -> tuple[IntArray, FloatArray]:
        """Turn of each moment, and the time since it began as in the turn that is kept. [s]

        Parameters
        ----------
        since : ndarray
            Time since the leg began, shape (n,). [s]
        late : bool
            Whether a moment between two turns belongs to the later one.
        """
        change = self._change(self.turn_s, self.span_s)
        # t = T (k + change k (k + 1) / 2), solved for k.
        half = 0.5 * change
        root = np.sqrt(np.maximum((1.0 + half) ** 2 + 4.0 * half * since / self._turn(change), 0.0))
        count = 2.0 * (since / self._turn(change)) / (1.0 + half + root)
        share = grain(since) / self.turn_s + 1e-12 * count
        count = np.floor(count + share) if late else np.ceil(count - share) - 1.0
        count = np.clip(count, 0.0, self.times - 1.0)
        begin, end = (self._sum(change, k) * self._turn(change) for k in (count, count + 1.0))
        into = (since - begin) * self.turn_s / np.maximum(end - begin, 1e-300)
        return count.astype(np.intp), np.clip(into, 0.0, self.turn_s)

    def drift(self) -> bool:
        """Whether any of them lies elsewhere than the turn that is kept."""
        near = 1e-12 * np.abs(self.opening_c)
        begins, ends = self.begin_c - self.opening_c, self.end_c - self.closing_c
        return bool(np.any((np.abs(begins) > near) | (np.abs(ends) > near)))

    def shift(self, count: NDArray[Any], into: FloatArray) -> FloatArray:
        """How far a turn lies above the one that is kept, at moments of it. [C]"""
        moved = self.end_c - self.begin_c
        change = self._change(self.closing_c - self.opening_c, moved)
        each = moved / self._sum(change, self.times)
        k = count.astype(np.float64)
        first = self.begin_c + each * self._sum(change, k)
        then = self.begin_c + each * self._sum(change, k + 1.0)
        share = into / self.turn_s
        return np.asarray(
            (1.0 - share) * (first - self.opening_c) + share * (then - self.closing_c)
        )

    def stretched(
        self, count: IntArray, whole: FloatArray, part: FloatArray
    ) -> FloatArray:
        """What so many whole turns and a part carry; turns may last longer or less. [C]"""
        longer = self.span_s / (self.times * self.turn_s)
        return np.asarray((count * whole + part) * longer)

    def _turn(self, change: FloatArray) -> FloatArray:
        return np.asarray(self.span_s / self._sum(change, self.times))

    def _change(self, one: FloatArray, all_turns: FloatArray) -> FloatArray:
        """Relative change from turn to turn of what depends evenly on where a turn begins.

        Known is what the kept turn has of it, and all of these together.
        """
        n, above = self.times, self.begin_c - self.opening_c
        each_c = (self.end_c - self.begin_c) / n
        middle = above + 0.5 * (n - 1.0) * each_c
        rise = (all_turns / n - one) / np.where(middle == 0.0, np.inf, middle)
        first, step = one + rise * above, rise * each_c
        change = step / np.where(first == step, np.inf, first - step)
        even = (np.abs(change) * (n + 1.0) < 2.0 * MOST_CHANGE) & (one != 0.0) & (all_turns != 0.0)
        return np.where(even, change, 0.0)

    @staticmethod
    def _sum(change: FloatArray, count: FloatArray) -> FloatArray:
        return np.asarray(count + 0.5 * change * count * (count + 1.0))

"""Runs of a device that goes on until its store gives out, as they lie in a trajectory."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np

from explorer.engine.course import Leg
from explorer.engine.keys import StartUp
from explorer.physics.arrays import FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Runs:
    """Runs from the end of a start-up to the cut-off; arrays of shape (runs,).

    Where a turn repeats, one run of it stands for all of its kind.
    """

    begin_s: FloatArray
    length_s: FloatArray
    times: FloatArray
    """How often each took place."""
    period_s: FloatArray
    """From the beginning of the run before; not a number where none was before."""

    def count(self, least_s: float) -> float:
        """How many were as long as that."""
        return float(self.times[self.length_s >= least_s * (1.0 - 1e-6)].sum())

    def typical(self, values: FloatArray) -> float:
        """The median of a value over all runs; not a number where there is none."""
        known = ~np.isnan(values)
        if not known.any():
            return float("nan")
        order = np.argsort(values[known])
        passed = np.cumsum(self.times[known][order])
        at = int(np.searchsorted(passed, 0.5 * passed[-1]))
        return float(values[known][order][min(at, len(order) - 1)])


@dataclass(slots=True)
class _Walk:
    """Where a look along legs stands."""

    rows: list[tuple[float, float, float, float]] = field(default_factory=list)
    begin_s: float | None = None
    """When the run began that is under way; None where there is none."""
    last_s: float = float("nan")
    """When the run before began."""

    def along(self, legs: Iterable[Leg], shift_s: float, times: float) -> float:
        """Look along legs that take place so often; returns the time at their end. [s]"""
        now = shift_s
        for leg in legs:
            length = leg.end_s - leg.begin_s
            if leg.repeats is not None:
                self._turns(leg, now, times)
            elif not leg.connected:
                self._ends(now, times)
            elif not isinstance(leg.draw, StartUp) and self.begin_s is None:
                self.begin_s = now
            now += length
        return now

    def _turns(self, leg: Leg, now: float, times: float) -> None:
        """The first turn as it follows on what was before, then one that follows on its like."""
        assert leg.repeats is not None
        turn = leg.repeats.legs
        end = self.along(turn, now, times)
        if leg.repeats.times > 1.0:
            before = self.last_s, self.begin_s
            self.along(turn, end, times * (leg.repeats.times - 1.0))
            # What began within a turn began within the last one; what goes on goes on.
            ahead = (leg.end_s - leg.begin_s) - 2.0 * (end - now)
            if self.last_s != before[0]:
                self.last_s += ahead
            if self.begin_s is not None and self.begin_s != before[1]:
                self.begin_s += ahead

    def _ends(self, now: float, times: float) -> None:
        if self.begin_s is not None:
            self.rows.append((self.begin_s, now - self.begin_s, times, self.begin_s - self.last_s))
            self.last_s, self.begin_s = self.begin_s, None


def runs_in(legs: Iterable[Leg]) -> Runs:
    """Every run that ends in a cut-off.

    One that is under way at the end is left out. One that is under way at the beginning counts with
    what is seen of it.
    """
    walk = _Walk()
    walk.along(legs, 0.0, 1.0)
    table = np.array(walk.rows, float).reshape(-1, 4).T
    return Runs(begin_s=table[0], length_s=table[1], times=table[2], period_s=table[3])


def first_run_done(legs: Iterable[Leg], least_s: float) -> float:
    """Time from the first leg on at which a run has lasted that long; infinite where none does."""
    walk = _Walk()
    end = walk.along(legs, 0.0, 1.0)
    begun = [row[0] for row in walk.rows if row[1] >= least_s * (1.0 - 1e-6)]
    if walk.begin_s is not None and end - walk.begin_s >= least_s:
        begun.append(walk.begin_s)
    return min(begun, default=float("inf")) + least_s


__all__ = ["Runs", "first_run_done", "runs_in"]

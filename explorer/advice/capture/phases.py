"""A captured cycle as few phases that keep its charge and the droop that any store makes of it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from explorer.advice.capture.droop import Hull, hull_of, worst_error
from explorer.advice.capture.habit import Habit, rest_begins
from explorer.advice.capture.record import Capture
from explorer.advice.capture.splits import Cuts, cuts
from explorer.physics.arrays import FloatArray
from explorer.text import say

MOST_PHASES = 40
MOST_ERROR = 0.01
"""Share by which the deepest droop may part from the capture's, in any store."""
_LONGER = (0.0, 0.05, 0.1, 0.2, 0.4, 0.8, 1.6, 1e9)
"""By such shares a phase may last longer than in the capture, where phases run out."""
_LAST = 1e-6
"""Share of a cycle that is left for sleep where the device never sleeps."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reduced:
    """One cycle as an operation: phases beside the sleep current, then sleep."""

    sleep_a: float
    """Drawn at all times. [A]"""
    extra_a: FloatArray
    """Drawn beside it by each phase, shape (n,). [A]"""
    duration_s: FloatArray
    """Of each phase, shape (n,). [s]"""
    interval_s: float
    """Length of the cycle. [s]"""
    rests: bool
    """Whether the device rests at its end, so that the sleep current is one."""
    charge_c: float
    """Of the cycle as captured. [C]"""
    charge_error: float
    """Share by which the phases miss it."""
    droop_error: float
    """Largest share by which the deepest droop misses the capture's, over every store."""

    def steps(self) -> tuple[FloatArray, FloatArray]:
        """Edges [s] and whole currents [A] of phases and rest, shapes (n + 2,) and (n + 1,)."""
        edges = np.concatenate(([0.0], np.cumsum(self.duration_s), [self.interval_s]))
        return edges, np.append(self.extra_a, 0.0) + self.sleep_a


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Cycle:
    """A cycle with what is worked out of it once."""

    capture: Capture
    edges_s: FloatArray
    """Where readings begin and end, shape (n + 1,). [s]"""
    charge_c: FloatArray
    """Drawn up to there, shape (n + 1,). [C]"""
    rest: int
    """Reading from which on the device rests; n where it does not."""
    whole: Hull
    busy: Hull
    """Of what comes before the rest."""


def reduced(cycle: Capture, known: Habit, most: int = MOST_PHASES) -> Reduced:
    """One cycle as at most `most` phases and a sleep current.

    A phase has the mean current of its stretch, so the charge is right at each of its ends. Corners
    of the hull (`droop`) get phases of their own; what lies between them is taken in the longest
    stretches that droop no deeper. Droops are kept twice: until the device rests, and over the
    whole cycle.

    Parameters
    ----------
    cycle : Capture
        One cycle.
    known : Habit
        Of the whole capture: above which current the device is awake.
    most : int
        Phases at most.

    Raises
    ------
    ValueError
        The cycle takes no charge.
    """
    seen = _looked_at(cycle, known)
    awake = replace(seen, rest=len(cycle.time_s), busy=seen.whole)
    tried: list[Reduced] = []
    for longer in _LONGER:
        for one in (seen, awake):
            tried += _ways(one, longer, most)
            few = [way for way in tried if len(way.extra_a) <= most]
            if few and min(way.droop_error for way in few) <= MOST_ERROR:
                return min(few, key=lambda way: way.droop_error)
    return min(few, key=lambda way: way.droop_error)


def _ways(seen: _Cycle, longer: float, most: int) -> list[Reduced]:
    """The cycle with its rest as sleep alone and, where that will not do, in phases too."""
    n = len(seen.capture.time_s)
    found = cuts(seen.edges_s, seen.charge_c, seen.busy, (0, seen.rest), longer, most)
    ways = [_assembled(seen, found, found)]
    if ways[0].droop_error > MOST_ERROR and seen.rest < n:
        # The noise of the rest stands out against the whole: it is told too.
        left = max(most - len(found.limit_a), 1)
        rest = cuts(seen.edges_s, seen.charge_c, seen.whole, (seen.rest, n), longer, left)
        ways.append(_assembled(seen, found.followed_by(rest), found))
    return ways


def _looked_at(cycle: Capture, known: Habit) -> _Cycle:
    edges = np.append(cycle.time_s, cycle.span_s)
    charge = np.concatenate(([0.0], cycle.charge_c()))
    if charge[-1] <= 0.0:
        raise ValueError(
            say("the cycle takes no charge; is the current's sign turned, or the zero shifted?")
        )
    rest = int(np.searchsorted(edges, rest_begins(cycle, known)))
    rest = rest or len(cycle.time_s)  # what never wakes is taken as it is
    return _Cycle(
        capture=cycle, edges_s=edges, charge_c=charge, rest=rest,
        whole=hull_of(cycle.current_a, charge[1:]),
        busy=hull_of(cycle.current_a[:rest], charge[1 : rest + 1]),
    )  # fmt: skip


def _assembled(seen: _Cycle, found: Cuts, busy: Cuts) -> Reduced:
    """Phases from cuts, of which `busy` come before the rest; the better of two sleep currents."""
    charges, lasts = np.diff(seen.charge_c[found.place]), np.diff(seen.edges_s[found.place])
    total_c, span_s = float(seen.charge_c[-1]), float(seen.edges_s[-1])
    rest_s = span_s - float(seen.edges_s[seen.rest])
    asleep_a = max((total_c - float(seen.charge_c[seen.rest])) / rest_s, 0.0) if rest_s else 0.0
    least_a = max(min(float((charges / lasts).min()), asleep_a), 0.0)
    made = [
        _with_sleep(seen, found, sleep_a, len(busy.limit_a)) for sleep_a in {asleep_a, least_a}
    ]
    made.sort(key=lambda one: -one.sleep_a)
    return made[0] if made[0].droop_error <= MOST_ERROR else made[-1]


def _with_sleep(seen: _Cycle, found: Cuts, sleep_a: float, busy: int) -> Reduced:
    """Phases beside a sleep current, their charges exact in sum."""
    span_s = float(seen.edges_s[-1])
    lasts = np.diff(seen.edges_s[found.place])
    extra_c = np.diff(seen.charge_c[found.place]) - sleep_a * lasts
    extra_c[-1] += float(seen.charge_c[-1]) - sleep_a * span_s - extra_c.sum()
    extra_c = _nowhere_negative(extra_c)
    least = extra_c / np.maximum(found.limit_a - sleep_a, 1e-30)
    lasts = np.maximum(lasts, least)
    over_s = float(lasts.sum()) - span_s * (1.0 - _LAST)
    if over_s > 0.0:
        # What lasts longer elsewhere is taken from where there is room.
        room = np.maximum(lasts - least, 0.0)
        lasts -= room * min(over_s / max(float(room.sum()), 1e-300), 0.999)
        lasts *= min(1.0, span_s * (1.0 - _LAST) / float(lasts.sum()))
    return _with_errors(seen, sleep_a, extra_c / lasts, lasts, busy)


def _with_errors(
    seen: _Cycle, sleep_a: float, extra_a: FloatArray, duration_s: FloatArray, busy: int
) -> Reduced:
    """The same with what is missed, worked out from the phases alone; `busy` come before rest."""
    total_c, span_s = float(seen.charge_c[-1]), float(seen.edges_s[-1])
    currents = np.append(extra_a, 0.0) + sleep_a
    lasts = np.append(duration_s, span_s - duration_s.sum())
    drawn = np.cumsum(currents * lasts)
    droops = worst_error(hull_of(currents, drawn), seen.whole)
    if seen.rest < len(seen.capture.time_s):
        droops = max(droops, worst_error(hull_of(currents[:busy], drawn[:busy]), seen.busy))
    return Reduced(
        sleep_a=sleep_a, extra_a=extra_a, duration_s=duration_s, interval_s=span_s,
        rests=seen.rest < len(seen.capture.time_s),
        charge_c=total_c, charge_error=abs(float(drawn[-1]) / total_c - 1.0), droop_error=droops,
    )  # fmt: skip


def _nowhere_negative(charges: FloatArray) -> FloatArray:
    """Charges of which what flows back is taken from all others, each by the same share."""
    drawn = np.maximum(charges, 0.0)
    out: FloatArray = drawn * max(float(charges.sum()), 0.0) / max(float(drawn.sum()), 1e-300)
    return out

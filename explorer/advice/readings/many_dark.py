"""Dark stretches of many designs: the one in which each store comes nearest to its end."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from explorer.advice.readings import FARTHEST, DarkReading, times
from explorer.advice.readings.balance import taken_current
from explorer.advice.readings.dark import FOLLOWED_S, gaps
from explorer.advice.readings.many_levels import LOWEST_OF, full_charge, lowest_charge
from explorer.advice.readings.pulse import flat
from explorer.engine import many_run as run
from explorer.engine.many import Batch, Stretches, Supplied
from explorer.engine.system import DAY_S, Periodic
from explorer.engine.thresholds import along, charge_at
from explorer.physics.arrays import BoolArray, FloatArray, Number
from explorer.scenario.model import Scenario


def dark(
    scenario: Scenario, batch: Batch, course: run.Rows, edges_c: FloatArray, edges_on: BoolArray,
    *, some: BoolArray | None = None, place: int = 0,
) -> DarkReading:
    """The dark stretch of every design, or of some, in which its store comes nearest to its end.

    A store begins it where it is expected, or with the least (`place` -1) or most (+1) that it
    may then hold.
    """
    s, size = batch.stretches, batch.size
    closure_s = flat(scenario.margins.closure_days, size) * DAY_S
    worst = _Worst(batch, place)
    some = np.ones(size, bool) if some is None else some
    floor = np.minimum(np.max(list(batch.floor_c.values()), axis=0), batch.nodes_c[:, -1])
    kinds, kind_of = np.unique(batch.given_a > 0.0, axis=0, return_inverse=True)
    for kind, brings in enumerate(kinds):
        rows = np.flatnonzero((kind_of.ravel() == kind) & some)
        if not len(rows):
            continue
        found = gaps(brings[s.level], s.edges_s)
        lowest, many = np.zeros(len(rows), np.intp), 1
        if found:
            lengths = np.array([g.length_s for g in found])
            begins = np.array([g.stretch for g in found])
            # Nights of one length follow days that are alike and begin alike.
            many = len(set(lengths.tolist()))
            left = np.maximum(edges_c[begins][:, rows] - floor[rows], 0.0)
            # Where the device is off already nothing can be cut off; where it always is, it lasts
            # for none.
            on = edges_on[begins][:, rows]
            left = np.where(on | ~on.any(axis=0), np.where(on, left, 0.0), np.inf)
            last = np.where(np.isfinite(left), lengths[:, None], -1.0)
            tried = (
                (np.argmax(last, axis=0), 1), (np.argmin(left, axis=0), many),
                (np.argmin(left / lengths[:, None], axis=0), many),
            )
            for which, alike in tried:
                begin_c = np.where(on.any(axis=0), edges_c[begins[which], rows], 0.0)
                worst.look(rows, begins[which], lengths[which], alike, begin_c)
            lowest = begins[np.argmin(left, axis=0)]
        closed = closure_s[rows] > 0
        if closed.any():
            needed = closure_s[rows][closed]
            begin_c = edges_c[lowest, rows] if found else lowest_charge(batch, course)[rows]
            worst.look(
                rows[closed], lowest[closed], needed, many, begin_c[closed], closure=True
            )
    return DarkReading(
        needed_s=worst.needed_s, lasts_s=worst.lasts_s, begin_v=worst.begin_v,
        closure=worst.closure,
    )


class _Worst:
    """Row by row the stretch that was found worst so far."""

    def __init__(self, batch: Batch, place: int) -> None:
        n = batch.size
        self.batch, self.place = batch, place
        self.needed_s, self.lasts_s = np.zeros(n), np.full(n, np.inf)
        self.begin_v, self.closure = np.zeros(n), np.zeros(n, bool)

    def look(
        self, rows: NDArray[np.intp], first: NDArray[np.intp], needed_s: FloatArray, many: int,
        begin_c: FloatArray, *, closure: bool = False,
    ) -> None:
        """Follow some systems through a stretch and keep it where it is worse."""
        batch = self.batch
        if self.place > 0:
            begin = np.minimum(begin_c + batch.grain_c[rows], batch.nodes_c[rows, -1])
        else:
            many = many if self.place == 0 else LOWEST_OF
            begin = np.minimum(begin_c, full_charge(batch, many)[rows])
        if self.place < 0:
            begin = np.maximum(begin - batch.grain_c[rows], 0.0)
        endless = np.isinf(needed_s)
        most_s = np.where(endless, FOLLOWED_S, FARTHEST * needed_s)
        lasts = run.dark_time(batch, rows, begin, first, most_s)
        lasts = np.where(endless & (lasts >= FOLLOWED_S), np.inf, lasts)
        worse = times(lasts, needed_s) < times(self.lasts_s[rows], self.needed_s[rows])
        chosen = rows[worse]
        self.needed_s[chosen], self.lasts_s[chosen] = needed_s[worse], lasts[worse]
        self.begin_v[chosen] = along(begin, batch.nodes_c[rows], batch.nodes_v[rows])[worse]
        self.closure[chosen] = closure


def dark_at_most(scenario: Scenario, at: Supplied, night_s: float | None = None) -> FloatArray:
    """What the time to the cut-off is at most, over the longest time without light, (systems,).

    Of that time the longest of the light's own where `night_s` is left out; light that never
    comes is no bound.

    For this nothing is run: from a full store to the cut-off voltage, at the least current that is
    drawn on the way by what sleeps and by what always runs by the clock. Infinite where there is
    neither a night nor a closure.
    """
    load, size = at.system.load, at.size
    rates: list[Number] = [
        1.0 / op.schedule.interval_s
        if isinstance(op.schedule, Periodic) and op.schedule.always else 0.0
        for op in load.operations
    ]
    amps = taken_current(at.system, at.each_v, at.leak_a, at.esr, rates)
    off_v = np.minimum(flat(load.off_v, size), at.nodes_v[:, -1])
    least = np.where(at.nodes_v >= off_v[:, None], amps, np.inf).min(axis=1)
    held_c = at.nodes_c[:, -1] - charge_at(off_v, at.nodes_v, at.nodes_c)
    closure_s = flat(scenario.margins.closure_days, size) * DAY_S
    night_s = longest_night(at.stretches) if night_s is None else night_s
    needed_s = np.maximum(closure_s, night_s)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(needed_s > 0.0, held_c / np.maximum(least, 0.0) / needed_s, np.inf)


def longest_night(stretches: Stretches) -> float:
    """Longest time in a row in which no system has light; the period goes round. [s]"""
    unlit = (stretches.photocurrent_a.max(axis=0) <= 0.0)[stretches.level].tolist()
    length = np.diff(stretches.edges_s).tolist()
    longest = passed = 0.0
    for is_unlit, seconds in zip(2 * unlit, 2 * length, strict=True):
        passed = passed + seconds if is_unlit else 0.0
        longest = max(longest, passed)
    return 0.0 if all(unlit) else longest


def about_dusk(batch: Batch, at_s: FloatArray, within_s: FloatArray) -> BoolArray:
    """Whether the light goes so soon after a time within its course, or came so short before.

    All of shape (systems,); a time that is not finite is at none.
    """
    s, found = batch.stretches, np.zeros(batch.size, bool)
    period, some = float(s.edges_s[-1]), np.isfinite(at_s)
    kinds, kind_of = np.unique(batch.given_a > 0.0, axis=0, return_inverse=True)
    for kind, brings in enumerate(kinds):
        rows = np.flatnonzero((kind_of.ravel() == kind) & some)
        for gap in gaps(brings[s.level], s.edges_s):
            if gap.length_s > period:
                continue
            to_dusk = (gap.begin_s - at_s[rows]) % period
            since_dawn = (at_s[rows] - gap.begin_s - gap.length_s) % period
            found[rows] |= np.minimum(to_dusk, since_dawn) <= within_s[rows]
    return found


def replaced(which: BoolArray, one: DarkReading, other: DarkReading) -> DarkReading:
    """One reading where it is said, else the other."""
    return DarkReading(**{
        name: np.where(which, getattr(one, name), getattr(other, name))
        for name in DarkReading.__slots__
    })


__all__ = ["about_dusk", "dark", "dark_at_most", "longest_night", "replaced"]

"""Readings of many designs at once by the batch engine, in which pulses are averaged."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from explorer.advice.readings import FARTHEST, BoolArray, DarkReading, FloatArray, Readings
from explorer.advice.readings.balance import (
    Balance,
    best_level,
    lowest_held,
    taken_current,
    wanted_runs,
)
from explorer.advice.readings.dark import gaps
from explorer.advice.readings.pulse import Store, deepest_pulse, flat
from explorer.engine import many_run as run
from explorer.engine.many import Batch, Supplied, charging_current, prepare
from explorer.engine.system import DAY_S, WEEK_S, Periodic, System, WhenReady
from explorer.engine.thresholds import along, charge_at
from explorer.scenario.model import Scenario
from explorer.scenario.ratings import Rating, ratings

SETTLED = 1e-3
"""Fall of a store over one period, relative to a full one, that counts as none."""
MOST_SECANTS = 3
DRIFTED = 0.02
"""Change of a store over one period, relative to a full one, beyond which it has not settled."""
TOLERANCE = {
    "starts": 0.1, "balance": 0.05, "dark": 0.15, "pulse": 0.15, "ratings": 0.01, "service": 0.05,
}
"""Share by which the margin of a check may differ from the exact one where a reading is `sure`; of
a ratio above 3 no more is known than that."""
LARGE = 0.15
"""Largest run, as a share of what the store holds above its cut-off, that may be averaged; also the
widest band between full and resume in which a store may stand anywhere."""
HOPELESS = 0.5
"""Share of what is needed below which the light decides, whatever else is read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Followed:
    """A batch and what its systems did: what readings and answers are made from."""

    batch: Batch
    course: run.Rows
    """The period that stands for the repeating course."""
    edges_c: FloatArray
    """Charge at the edges of its stretches, (stretches, systems). [C]"""
    readings: Readings


def readings(
    scenario: Scenario, system: System, size: int, *, worth: Any = None
) -> Readings:
    """What the checks read of `size` designs; see `followed`."""
    return followed(scenario, system, size, worth=worth).readings


def followed(
    scenario: Scenario, system: System, size: int, *, worth: Any = None
) -> Followed:
    """Run `size` designs and read what the checks read of them.

    Parameters
    ----------
    scenario, system : Scenario, System
        A batch: their numbers are plain or columns of shape (size, 1).
    size : int
        Number of designs.
    worth : callable, optional
        Given the time to ready, the balance and the ratings, says which designs are worth being
        followed any further; what is read of the others says nothing.
    """
    batch = prepare(system, size)
    allowed = float(np.max(flat(scenario.margins.start_within_h, size))) * 3600.0
    ready = _first_charge(batch, allowed)
    held, rated = _balance(batch), ratings(scenario, system)
    worth_it = np.ones(size, bool) if worth is None else worth(ready, held, rated)
    course, edges_c, edges_on, settled = _course(batch, worth_it)
    served, wanted = _runs(batch, course)
    starts = np.isfinite(ready)
    period = float(batch.stretches.edges_s[-1])
    found = Readings(
        ready_s=ready,
        level_v=held.level_v,
        brought_w=held.brought_w,
        taken_w=held.taken_w,
        dark=_dark(scenario, batch, course, edges_c, edges_on),
        pulse=_pulse(batch, course),
        ratings=rated,
        served=np.where(starts[:, None], served, 0.0),
        wanted=wanted,
        connected=np.where(starts, _connected(course, period), 0.0),
        cut_offs=course.lost,
        span_s=np.full(size, period),
        repeats=settled,
        sure=_sure(batch, course, settled, ready, held, rated),
    )
    return Followed(batch=batch, course=course, edges_c=edges_c, readings=found)


def _first_charge(batch: Batch, allowed_s: float) -> FloatArray:
    """Time from the first light on an empty store to the end of the first start-up. [s]"""
    return ready_from(batch, batch.nodes_c[:, 0], 4.0 * allowed_s)


def first_light(batch: Batch) -> int:
    """Number of the stretch in which the light first comes on."""
    s = batch.stretches
    lit = np.flatnonzero(s.photocurrent_a.max(axis=0)[s.level] > 0)
    return int(lit[0]) if len(lit) else 0


def ready_from(batch: Batch, charge_c: FloatArray, most_s: float) -> FloatArray:
    """Time from the first light to the end of a start-up that succeeds, (systems,). [s]

    Parameters
    ----------
    batch : Batch
        The systems.
    charge_c : ndarray
        What is in the stores when the light comes on, (systems,). [C]
    most_s : float
        How long is looked, two periods at least. [s]
    """
    s = batch.stretches
    count, period, first = len(s.level), float(s.edges_s[-1]), first_light(batch)
    rows = run.begin_rows(batch, charge_c, connected=False)
    reached = np.min([run.starts_at(batch, k) for k in set(s.level.tolist())], axis=0)
    active = np.isfinite(reached)
    passed = 0.0
    while passed < max(most_s, 2.0 * period) and active.any():
        before = rows.charge_c.copy()
        for i in range(count):
            run.run_stretch(batch, rows, (first + i) % count, active)
            active = active & ~np.isfinite(rows.first_s)
            if not active.any():
                break
        passed += period
        active &= np.abs(rows.charge_c - before) > 1e-6 * batch.nodes_c[:, -1]
    start = sum(p.duration_s for p in batch.system.load.start_up)
    return np.asarray(rows.first_s + flat(start, batch.size))


def _course(
    batch: Batch, followed: BoolArray
) -> tuple[run.Rows, FloatArray, BoolArray, BoolArray]:
    """A period that stands for the repeating course, and if it settled.

    Between them stand the charge and the switch at its edges.

    Variants that are not `followed` stay at full.

    The second period from a full store; where the store falls slowly on, one from the level
    towards which it falls, found by secants.
    """
    full = batch.nodes_c[:, -1]
    cut = np.minimum(np.max([c.need_c for c in batch.cut.values()], axis=0), full)
    first = run.begin_rows(batch, full, connected=True)
    run.run_period(batch, first, active=followed)
    found = run.begin_rows(batch, first.charge_c, first.connected)
    run.run_period(batch, found, active=followed)
    edges_c, edges_on = np.array(found.at_edges), np.array(found.on_at_edges)
    before, before_drift = full, first.charge_c - full
    start, drift = first.charge_c, found.charge_c - first.charge_c
    falling = first.connected
    for _ in range(MOST_SECANTS):
        falling = falling & found.connected & (drift < -SETTLED * full) & (before_drift < 0)
        if not falling.any():
            break
        apart = np.where(falling & (start != before), start - before, 1.0)
        slope = (drift - before_drift) / apart
        step = np.where(slope < -1e-6, -drift / np.where(slope < -1e-6, slope, -1.0), -full)
        begin = np.where(falling, np.maximum(start + step, cut), start)
        settled = run.begin_rows(batch, begin, begin > cut)
        run.run_period(batch, settled, active=falling)
        found.take(settled, falling)
        edges_c = np.where(falling, np.array(settled.at_edges), edges_c)
        edges_on = np.where(falling, np.array(settled.on_at_edges), edges_on)
        before, before_drift = start, drift
        start, drift = begin, settled.charge_c - begin
    band = np.maximum(full - full_charge(batch, 10**6), 0.0)
    moved = np.abs(found.charge_c - edges_c[0])
    return found, edges_c, edges_on, moved <= DRIFTED * full + band + batch.grain_c


def _sure(
    batch: Batch, course: run.Rows, settled: BoolArray, ready_s: FloatArray, held: Balance,
    rated: tuple[Rating, ...],
) -> BoolArray:
    """Where readings agree with the exact ones within `TOLERANCE`, or decide by themselves.

    Pulses are averaged here, and one period stands for the course: a device that is cut off, a
    start-up that leaves too little to go on, runs that are large against the store and several
    operations that wait are better marched. A design that is past saving by what is exact here,
    its ratings, or by half of the light, needs none of it.
    """
    size = batch.size
    start_c = batch.connect_c - batch.start.taken_c
    cut = np.max([c.need_c for c in batch.cut.values()], axis=0)
    waits = sum(isinstance(op.schedule, WhenReady) for op in batch.system.load.operations)
    # After a log of less than a week the hours of the operations go on: of them only a mean is had.
    hours = any(
        isinstance(op.schedule, Periodic) and not op.schedule.always
        for op in batch.system.load.operations
    )
    odd = hours and batch.stretches.edges_s[-1] % WEEK_S > 1.0
    plain = settled & (course.lost == 0) & (course.connected_s > 0)
    plain &= (start_c > cut) & (batch.connect_c >= batch.start.need_c) & np.isfinite(ready_s)
    full = batch.nodes_c[:, -1]
    most = np.minimum(full, batch.waits.ready_c)
    plain &= (batch.waits.run_c < LARGE * (most - cut)) | np.isinf(batch.waits.ready_c)
    plain &= ~course.at_most
    floor = np.max(list(batch.floor_c.values()), axis=0)
    plain &= batch.grain_c < LARGE * (full - cut)
    plain &= full - full_charge(batch, 10**6) < LARGE * (full - floor)
    hopeless = held.brought_w < HOPELESS * held.taken_w
    broken = np.zeros(size, bool)
    for row in rated:
        broken |= flat(row.margin, size) < 1.0
    return np.asarray((plain & (waits <= 1) & (not odd)) | hopeless | broken)


def balance_of(at: Supplied, flowing: Callable[[int], FloatArray] | None = None) -> Balance:
    """Mean powers at the node of each system's table that suits the balance best.

    Parameters
    ----------
    at : Supplied
        The systems.
    flowing : callable, optional
        Charging current of a light level at all nodes but the lowest, where it is known. [A]
    """
    s, system, size = at.stretches, at.system, at.size
    period = float(s.edges_s[-1])
    share = np.bincount(s.level, np.diff(s.edges_s), minlength=s.photocurrent_a.shape[1]) / period
    low = np.minimum(flat(lowest_held(system), size), at.nodes_v[:, -1])[:, None]
    # The empty end of a table is no place for a balance: there nothing falls any further.
    inner, leak = at.nodes_v[:, 1:], at.leak_a[:, 1:]
    volts = np.concatenate([low, inner], axis=1)
    brought, back = np.zeros(volts.shape), np.zeros(volts.shape)
    for level, part in enumerate(share.tolist()):
        if flowing is None:
            current = charging_current(at, level, volts)
        else:
            current = np.concatenate(
                [charging_current(at, level, low), flowing(level)], axis=1
            )
        brought += part * np.maximum(current, 0.0)
        back -= part * np.minimum(current, 0.0)
    leaks = np.concatenate([along(low[:, 0], inner, leak)[:, None], leak], axis=1)
    rates = [w / period for w in wanted_runs(system, period)]
    taken = back + taken_current(system, volts, leaks, at.esr, rates)
    # Below the lowest level at which everything runs a voltage is no candidate.
    brought = np.where(volts < low, -1.0, brought)
    return best_level(volts, brought, taken)


def _balance(batch: Batch) -> Balance:
    own = batch.supplied.leak_a[:, 1:] + np.asarray(batch.system.quiescent_a, float)
    return balance_of(
        batch.supplied, lambda level: batch.flows.at_nodes(batch.off[level])[:, 1:] + own
    )


def full_charge(batch: Batch, gaps: int) -> FloatArray:
    """Charge of a full store at the lowest of several moments. [C]

    A full store stands anywhere between its threshold and the level at which charging resumes;
    the lowest of n such moments is expected n / (n + 1) of the way down. What waits for less than
    a full store keeps it from filling up: then no such moment comes, and the charge is infinite.
    """
    system = batch.system
    fall = np.asarray(system.full_hysteresis_v, float) * (gaps / (gaps + 1.0))
    found = charge_at(np.asarray(system.full_v, float) - fall, batch.nodes_v, batch.nodes_c)
    return np.where(batch.waits.ready_c < batch.nodes_c[:, -1], np.inf, found)


def _dark(
    scenario: Scenario, batch: Batch, course: run.Rows, edges_c: FloatArray, edges_on: BoolArray
) -> DarkReading:
    """The dark stretch of every design in which its store comes nearest to its cut-off."""
    s, size = batch.stretches, batch.size
    closure_s = flat(scenario.margins.closure_days, size) * DAY_S
    worst = _Worst(batch)
    floor = np.minimum(np.max(list(batch.floor_c.values()), axis=0), batch.nodes_c[:, -1])
    kinds, kind_of = np.unique(batch.given_a > 0.0, axis=0, return_inverse=True)
    for kind, brings in enumerate(kinds):
        rows = np.flatnonzero(kind_of.ravel() == kind)
        found = gaps(brings[s.level], s.edges_s, steady=brings.size == 1)
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


def lowest_charge(batch: Batch, course: run.Rows) -> FloatArray:
    """Lowest charge of each course, at the end of its largest run, shape (n,). [C]"""
    seen = [*course.at_edges, *course.lowest_c.T, full_charge(batch, 10**6)]
    return np.asarray(np.maximum(np.min(seen, axis=0) - batch.grain_c, 0.0))


class _Worst:
    """Row by row the stretch that was found worst so far."""

    def __init__(self, batch: Batch) -> None:
        n = batch.size
        self.batch = batch
        self.needed_s, self.lasts_s = np.zeros(n), np.full(n, np.inf)
        self.begin_v, self.closure = np.zeros(n), np.zeros(n, bool)

    def look(
        self, rows: NDArray[np.intp], first: NDArray[np.intp], needed_s: FloatArray, many: int,
        begin_c: FloatArray, *, closure: bool = False,
    ) -> None:
        """Follow some systems through a stretch and keep it where it is worse."""
        batch = self.batch
        begin = np.minimum(begin_c, full_charge(batch, many)[rows])
        lasts = run.dark_time(batch, rows, begin, first, FARTHEST * needed_s)
        with np.errstate(divide="ignore", invalid="ignore"):
            before = self.lasts_s[rows] / self.needed_s[rows]
        worse = lasts / needed_s < np.where(self.needed_s[rows] > 0, before, np.inf)
        chosen = rows[worse]
        self.needed_s[chosen], self.lasts_s[chosen] = needed_s[worse], lasts[worse]
        self.begin_v[chosen] = along(begin, batch.nodes_c[rows], batch.nodes_v[rows])[worse]
        self.closure[chosen] = closure


def _pulse(batch: Batch, course: run.Rows) -> Any:
    """The deepest pulse, each operation at the lowest voltage of the course."""
    system, size = batch.system, batch.size
    off, connect = flat(system.load.off_v, size), flat(system.load.connect_v, size)
    begins = []
    for op, low_c in zip(system.load.operations, course.lowest_c.T, strict=True):
        if isinstance(op.schedule, WhenReady):
            begin = flat(op.schedule.ready_v, size)
        else:
            seen = np.isfinite(low_c)
            low_v = along(np.where(seen, low_c, 0.0), batch.nodes_c, batch.nodes_v)
            begin = np.where(seen, low_v, connect)
        begins.append(np.maximum(begin, off))
    store = Store(batch.nodes_v, batch.nodes_c, flat(batch.esr, size))
    return deepest_pulse(system, store, begins)


def _connected(course: run.Rows, period_s: float) -> FloatArray:
    """Share of the course in which each device is connected."""
    share = np.minimum(course.connected_s / period_s, 1.0)
    return np.where((course.lost == 0) & (share > 1.0 - 1e-9), 1.0, share)


def _runs(batch: Batch, course: run.Rows) -> tuple[FloatArray, FloatArray]:
    """Runs completed and wanted in the course, (systems, operations)."""
    s, size, system = batch.stretches, batch.size, batch.system
    span, period = np.diff(s.edges_s), float(s.edges_s[-1])
    wanted = np.zeros((size, len(system.load.operations)))
    served = np.zeros_like(wanted)
    for j, (op, runs) in enumerate(
        zip(system.load.operations, wanted_runs(system, period), strict=True)
    ):
        wanted[:, j] = flat(runs, size)
        if isinstance(op.schedule, Periodic):
            due = float(s.due[:, j] @ span)
            share = course.due_s[:, j] / due if due > 0 else np.ones(size)
            served[:, j] = wanted[:, j] * np.clip(share, 0.0, 1.0)
        else:
            served[:, j] = np.where(batch.waits.first == j, course.ran, 0.0)
    return served, wanted


__all__ = [
    "BoolArray", "Followed", "balance_of", "first_light", "followed", "full_charge",
    "lowest_charge", "readings", "ready_from",
]

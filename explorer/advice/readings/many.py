"""Readings of many designs at once by the batch engine, in which pulses are averaged."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from explorer.advice.checks import Asked, asked_of
from explorer.advice.readings import Readings
from explorer.advice.readings.balance import (
    Balance,
    best_level,
    lowest_held,
    taken_current,
    wanted_runs,
)
from explorer.advice.readings.many_dark import about_dusk, dark, longest_night, replaced
from explorer.advice.readings.many_levels import LOWEST_OF, full_charge, lowest_charge
from explorer.advice.readings.many_sure import FAILS, falls, sure, wide, within
from explorer.advice.readings.pulse import Store, deepest_pulse, flat
from explorer.engine import many_run as run
from explorer.engine.many import Batch, Supplied, charging_current, prepare
from explorer.engine.system import DAY_S, Periodic, System, WhenReady
from explorer.engine.thresholds import along
from explorer.physics.arrays import BoolArray, FloatArray
from explorer.scenario.model import Scenario
from explorer.scenario.ratings import ratings

SETTLED = 1e-3
"""Fall of a store over one period, relative to a full one, that counts as none."""
HOPELESS = 2.0
"""Times the time allowed after which a first charge is followed no more where it is asked only
whether a design runs."""
MOST_SECANTS = 3
SWAY = 0.005
"""Share by which days are taken longer, and shorter, to see what a first charge may just miss. That
of 95 in 100 drawn banks is had to 0.0006; one that stands at the end of a day a little below the
end of its cold start was seen to be off by 0.0024."""
NIGHT_AND = 0.1
"""Share of a first charge by which it may come sooner or later beside a night;"""
ABOUT = 0.02
"""share of it within which it then ends before the light goes, or after it comes."""
DRIFTED = 0.02
"""Change of a store over one period, relative to a full one, beyond which it has not settled."""
@dataclass(frozen=True, slots=True, kw_only=True)
class Followed:
    """A batch and what its systems did: what readings and answers are made from."""

    batch: Batch
    course: run.Rows
    "The period that stands for the steady cycle."
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
    # One that takes much longer than is allowed is not worth it, however long it takes.
    allowed_s = _allowed_s(scenario, size)
    most_s = _long_enough(batch, allowed_s) if worth is None else HOPELESS * allowed_s
    ready = ready_from(batch, batch.nodes_c[:, 0], most_s)
    held, rated = _balance(batch), ratings(scenario, system)
    worth_it = np.ones(size, bool) if worth is None else worth(ready, held, rated)
    course, edges_c, edges_on, settled = _course(batch, worth_it)
    served, wanted = _runs(batch, course)
    starts = np.isfinite(ready)
    connect_s = _begins_s(batch) + ready - _start_up_s(batch)
    logged = scenario.light.pattern.kind == "log"
    period = float(batch.stretches.edges_s[-1])
    found = Readings(
        ready_s=ready,
        level_v=held.level_v,
        brought_w=held.brought_w,
        taken_w=held.taken_w,
        dark=dark(scenario, batch, course, edges_c, edges_on),
        pulse=_pulse(batch, course),
        ratings=rated,
        served=np.where(starts[:, None], served, 0.0),
        wanted=wanted,
        connected=np.where(starts, _connected(course, period), 0.0),
        cut_offs=course.lost,
        span_s=np.full(size, period),
        repeats=settled,
        sure=sure(batch, course, settled, ready),
        falls=np.zeros(size, bool),
        within=within(batch, connect_s, logged=logged),
    )
    earliest_s, latest_s = ready, ready
    if not logged and worth is None:
        earliest_s, latest_s = _a_night_apart(batch, ready, asked_of(scenario, size), found.sure)
    found = replace(found, falls=falls(scenario, batch, course, found, earliest_s))
    apart = wide(batch)
    if apart.any():
        found = _at_both_ends(scenario, batch, course, edges_c, edges_on, found, apart)
    if (earliest_s != latest_s).any():
        found = replace(
            found, low=replace(found.low or found, ready_s=latest_s),
            high=replace(found.high or found, ready_s=earliest_s),
        )
    return Followed(batch=batch, course=course, edges_c=edges_c, readings=found)


def _at_both_ends(
    scenario: Scenario, batch: Batch, course: run.Rows, edges_c: FloatArray, edges_on: BoolArray,
    found: Readings, apart: BoolArray,
) -> Readings:
    """Readings with those of stores that may stand far apart, at both ends of where they may."""
    low, high = (
        dark(scenario, batch, course, edges_c, edges_on, some=apart, place=place)
        for place in (-1, +1)
    )
    pulse = None
    if found.pulse is not None:
        lowest = np.where(apart, lowest_charge(batch, course), np.inf)
        pulse = _pulse(batch, course, lowest)
    return replace(
        found,
        # What is served in spite of a failing night is seen in the course alone.
        low=replace(
            found, dark=replaced(apart, low, found.dark), pulse=pulse,
            repeats=found.repeats & ~apart,
        ),
        high=replace(found, dark=replaced(apart, high, found.dark)),
    )


def _long_enough(batch: Batch, wanted_s: float) -> float:
    """How long a first charge is followed: until it tells whether it ever comes. [s]"""
    return max(4.0 * wanted_s, 2.0 * float(batch.stretches.edges_s[-1]))


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
        How long is looked. [s]
    """
    return np.asarray(_charged(batch, charge_c, most_s).first_s + _start_up_s(batch))


def _begins_s(batch: Batch) -> float:
    """Time within the light's course at which it first comes on. [s]"""
    return float(batch.stretches.edges_s[first_light(batch)])


def _start_up_s(batch: Batch) -> FloatArray:
    """Length of a start-up, (systems,). [s]"""
    return flat(sum(p.duration_s for p in batch.system.load.start_up), batch.size)


def _a_night_apart(
    batch: Batch, ready_s: FloatArray, asked: Asked, decides: BoolArray
) -> tuple[FloatArray, FloatArray]:
    """Earliest and latest time to ready, (systems,) each: one may just miss an evening. [s]

    Or stand a little below the voltage of a cold start when that comes. Looked at is only what
    might pass a limit by it, where that `decides` or a late start alone does: with days that are
    somewhat longer, and shorter.
    """
    s = batch.stretches
    limits = np.array([asked.start_within_s, asked.start_within_s / asked.margin])
    with np.errstate(invalid="ignore"):
        late = np.abs(limits - ready_s) <= longest_night(s) + NIGHT_AND * ready_s
    decides = decides | (asked.start_within_s < FAILS * ready_s)
    close = decides & late.any(axis=0)
    close &= about_dusk(batch, _begins_s(batch) + ready_s, ABOUT * ready_s)
    if not close.any():
        return ready_s, ready_s
    most_s = float(ready_s[close].max()) * (1.0 + NIGHT_AND) + longest_night(s) + DAY_S
    found = [
        np.where(close, _charged(
            batch, batch.nodes_c[:, 0], most_s, some=close, pace=pace
        ).first_s + _start_up_s(batch), ready_s)
        for pace in (1.0 + SWAY, 1.0 - SWAY)
    ]  # fmt: skip
    return np.minimum(ready_s, found[0]), np.maximum(ready_s, found[1])


def _charged(
    batch: Batch, charge_c: FloatArray, most_s: float, *, some: BoolArray | None = None,
    pace: float = 1.0,
) -> run.Rows:
    """Every system at the end of a start-up that succeeds, or at the end of the search for it.

    Parameters
    ----------
    batch, charge_c, most_s
        As of `ready_from`.
    some : ndarray, optional
        Which systems are followed, (systems,); all if left out.
    pace : float
        How much longer than it is light is taken to last.
    """
    s = batch.stretches
    count, period, first = len(s.level), float(s.edges_s[-1]), first_light(batch)
    lit = s.photocurrent_a.max(axis=0) > 0.0
    rows = run.begin_rows(batch, charge_c, connected=False)
    reached = np.min([run.starts_at(batch, k) for k in set(s.level.tolist())], axis=0)
    active = np.isfinite(reached)
    if some is not None:
        active &= some
    passed = 0.0
    while passed < most_s and active.any():
        before = rows.charge_c.copy()
        for i in range(count):
            if rows.passed_s >= most_s:
                break
            k = (first + i) % count
            run.run_stretch(batch, rows, k, active, pace=pace if lit[s.level[k]] else 1.0)
            active = active & ~np.isfinite(rows.first_s)
            if not active.any():
                break
        passed += period
        active &= np.abs(rows.charge_c - before) > 1e-6 * batch.nodes_c[:, -1]
    return rows


def never_connects(scenario: Scenario, system: System, size: int, spare: FloatArray) -> BoolArray:
    """Which stores never reach the voltage at which their device connects, (systems,).

    Nor do they in light that is brighter by a share `spare` of shape (systems,).
    """
    brighter = (1.0 + spare)[:, None] * system.light.photocurrent_a
    batch = prepare(replace(system, light=replace(system.light, photocurrent_a=brighter)), size)
    most_s = _long_enough(batch, _allowed_s(scenario, size))
    rows = _charged(batch, batch.nodes_c[:, 0], most_s)
    return np.asarray(~np.isfinite(rows.first_s) & ~rows.connected & (rows.lost == 0))


def _allowed_s(scenario: Scenario, size: int) -> float:
    return float(np.max(flat(scenario.margins.start_within_h, size))) * 3600.0


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
    band = np.maximum(full - full_charge(batch, LOWEST_OF), 0.0)
    moved = np.abs(found.charge_c - edges_c[0])
    return found, edges_c, edges_on, moved <= DRIFTED * full + band + batch.grain_c


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


def _pulse(batch: Batch, course: run.Rows, lowest_c: FloatArray | float = np.inf) -> Any:
    """The deepest pulse, each operation at the lowest voltage of the course, or a lower one."""
    system, size = batch.system, batch.size
    off, connect = flat(system.load.off_v, size), flat(system.load.connect_v, size)
    begins = []
    for op, low_c in zip(system.load.operations, course.lowest_c.T, strict=True):
        if isinstance(op.schedule, WhenReady):
            begin = flat(op.schedule.ready_v, size)
        else:
            low_c = np.minimum(low_c, lowest_c)
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
    "Followed", "balance_of", "first_light", "followed", "never_connects", "readings", "ready_from",
]

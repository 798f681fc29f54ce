"""The six checks of many variants at once, read from the batch engine.

What each check compares is said in `explorer.advice.checks`; here are arrays of shape (variants,).
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from explorer.advice import safety
from explorer.advice.checks import NO_LIMIT
from explorer.engine import many_run as run
from explorer.engine.many import Batch, along, charge_at
from explorer.engine.system import DAY_S, Periodic, WhenReady
from explorer.physics import load as ld
from explorer.physics import store as st
from explorer.scenario.model import Scenario
from explorer.scenario.ratings import ratings

FloatArray = NDArray[np.float64]
LONG = 0.3
"""Dark stretches of this share of the longest are judged by the level that they begin with."""
SETTLED = 1e-3
"""Fall of a store over one period, relative to a full one, that counts as none."""
MOST_SECANTS = 3
MOST_LOOKED = 20.0
"""Times the length of a dark stretch for which it is followed."""


def column(value: Any, size: int) -> FloatArray:
    """One number for each variant."""
    return np.broadcast_to(np.asarray(value, float).reshape(-1), (size,))


def margins(
    scenario: Scenario, batch: Batch, *, only_runs: bool = False
) -> tuple[dict[str, FloatArray], FloatArray]:
    """Available over needed for each check, and the time of the first charge. [s]

    With `only_runs` a variant whose start, balance or ratings fail is not followed any further:
    its other margins say nothing, and it does not run whatever they are.
    """
    size, system = batch.size, batch.system
    allowed = column(scenario.margins.start_within_h, size) * 3600.0
    first = _first_charge(batch, float(np.max(allowed)))
    with np.errstate(divide="ignore", invalid="ignore"):
        starts = np.where(np.isfinite(first), allowed / np.maximum(first, 1e-9), 0.0)
    balance = _balance(batch)
    rated = column(safety.ratings_margin(ratings(scenario, system)), size)
    asked = column(scenario.design_margin, size)
    followed = np.ones(size, bool)
    if only_runs:
        followed = (starts >= asked) & (balance >= asked) & (rated >= 1.0)
    course, edges_c = _course(batch, followed)
    return {
        "starts": starts,
        "balance": balance,
        "dark": _dark(scenario, batch, course, edges_c),
        "pulse": _pulse(scenario, batch, course),
        "ratings": rated,
        "service": _service(scenario, batch, course, balance),
    }, first


def _first_charge(batch: Batch, allowed_s: float) -> FloatArray:
    """Time from the first light on an empty store to the first connect that stays. [s]"""
    s = batch.stretches
    count, period = len(s.level), float(s.edges_s[-1])
    lit = np.flatnonzero(s.photocurrent_a.max(axis=0)[s.level] > 0)
    first = int(lit[0]) if len(lit) else 0
    rows = run.begin_rows(batch, batch.nodes_c[:, 0], connected=False)
    active = run.may_start(batch)
    passed = 0.0
    while passed < max(4.0 * allowed_s, 2.0 * period) and active.any():
        before = rows.charge_c.copy()
        for i in range(count):
            run.run_stretch(batch, rows, (first + i) % count, active)
            active = active & ~np.isfinite(rows.first_s)
            if not active.any():
                break
        passed += period
        active &= np.abs(rows.charge_c - before) > 1e-6 * batch.nodes_c[:, -1]
    start = sum(p.duration_s for p in batch.system.load.start_up)
    return np.asarray(rows.first_s + column(start, batch.size))


def _course(batch: Batch, followed: NDArray[np.bool_]) -> tuple[run.Rows, FloatArray]:
    """A period that stands for the repeating course, and the charge at its edges.

    Variants that are not `followed` stay at full.

    The second period from a full store; where the store falls slowly on, one from the level
    towards which it falls, found by secants.
    """
    full = batch.nodes_c[:, -1]
    cut = np.minimum(np.max(list(batch.cut_c.values()), axis=0), full)
    first = run.begin_rows(batch, full, connected=True)
    run.run_period(batch, first, active=followed)
    found = run.begin_rows(batch, first.charge_c, first.connected)
    run.run_period(batch, found, active=followed)
    edges_c = np.array(found.at_edges)
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
        before, before_drift = start, drift
        start, drift = begin, settled.charge_c - begin
    return found, edges_c


def _voltage_at(batch: Batch, charge: FloatArray) -> FloatArray:
    return along(charge, batch.nodes_c, batch.nodes_v)


def _balance(batch: Batch) -> FloatArray:
    s = batch.stretches
    span = np.bincount(s.level, np.diff(s.edges_s), minlength=s.photocurrent_a.shape[1])
    needed = batch.mean_a * s.edges_s[-1]
    return np.asarray((np.maximum(batch.given_a, 0.0) @ span) / np.maximum(needed, 1e-30))


def _gaps(short: NDArray[np.bool_], edges_s: FloatArray) -> list[tuple[int, float]]:
    """Runs of stretches that are short of light: number of the first, and length [s]."""
    if short.all() or not short.any():
        return [(0, float(edges_s[-1]))] if short.all() else []
    span, count = np.diff(edges_s), len(short)
    first = int(np.flatnonzero(~short)[0])
    found: list[tuple[int, float]] = []
    for i in range(first, first + count):
        if not short[i % count]:
            continue
        if short[(i - 1) % count] and found:
            begin, length = found[-1]
            found[-1] = (begin, length + float(span[i % count]))
        else:
            found.append((i % count, float(span[i % count])))
    return found


def _full_charge(batch: Batch, gaps: int) -> FloatArray:
    """Charge of a full store at the lowest of several moments. [C]

    A full store stands anywhere between its threshold and the level at which charging resumes;
    the lowest of n such moments is expected n / (n + 1) of the way down.
    """
    system = batch.system
    fall = np.asarray(system.full_hysteresis_v, float) * (gaps / (gaps + 1.0))
    return charge_at(np.asarray(system.full_v, float) - fall, batch.nodes_v, batch.nodes_c)


def _dark(
    scenario: Scenario, batch: Batch, course: run.Rows, edges_c: FloatArray
) -> FloatArray:
    """Smallest time available over time needed, over the dark stretches of every variant."""
    s, size = batch.stretches, batch.size
    closure = column(scenario.margins.closure_days, size) * DAY_S
    worst = np.full(size, np.inf)
    by_level = batch.given_a < batch.mean_a[:, None]
    kinds, kind_of = np.unique(by_level, axis=0, return_inverse=True)
    for kind, short in enumerate(kinds):
        rows = np.flatnonzero(kind_of.ravel() == kind)
        gaps = _gaps(short[s.level], s.edges_s)

        def lasts(
            first: NDArray[np.intp], needed: FloatArray, gaps: int,
            rows: NDArray[np.intp] = rows,
        ) -> FloatArray:
            begin = np.minimum(edges_c[first, rows], _full_charge(batch, gaps)[rows])
            most = MOST_LOOKED * needed
            return run.dark_time(batch, rows, begin, first, most) / needed

        least = np.full(len(rows), np.inf)
        lowest, length, longest = np.zeros(len(rows), np.intp), np.zeros(len(rows)), 0.0
        many = 1
        if gaps:
            longest = max(g[1] for g in gaps)
            at = next(g[0] for g in gaps if g[1] == longest)
            long = [g for g in gaps if g[1] >= LONG * longest]
            # Nights of one length follow days that are alike and begin alike.
            many = len({g[1] for g in long})
            begins = np.array([g[0] for g in long])
            which = np.argmin(edges_c[begins][:, rows], axis=0)
            lowest, length = begins[which], np.array([g[1] for g in long])[which]
            least = lasts(np.full(len(rows), at), np.full(len(rows), longest), 1)
            if np.any(lowest != at):
                least = np.minimum(least, lasts(lowest, length, many))
        closed = closure[rows] > 0
        if closed.any():
            needed = np.maximum(np.maximum(closure[rows], longest), 1e-9)
            least = np.where(closed, np.minimum(least, lasts(lowest, needed, many)), least)
        worst[rows] = least
    return worst


def _pulse(scenario: Scenario, batch: Batch, course: run.Rows) -> FloatArray:
    size, system = batch.size, batch.system
    esr = (
        system.store.resistance_ohm if isinstance(system.store, st.Cell) else system.store.esr_ohm
    )
    resistance = column(esr, size)
    cut = np.maximum(column(scenario.load.disconnect_V, size), 1e-3)
    flat = (course.lost > 0) | ~np.isfinite(course.lowest_c) | batch.spoiled.any(axis=1)
    low_c = np.where(flat, 0.0, course.lowest_c)
    low = np.where(flat, cut, np.maximum(_voltage_at(batch, low_c), cut))
    minimum = column(system.load.minimum_v, size)
    margin, deepest = np.full(size, NO_LIMIT), np.full(size, np.inf)
    for op in system.load.operations:
        start = low
        if isinstance(op.schedule, WhenReady):
            start = column(op.schedule.ready_v, size)
        start = np.minimum(start, batch.nodes_v[:, -1])
        q = charge_at(start[:, None], batch.nodes_v, batch.nodes_c)
        for phase in op.phases:
            draw = _flat(system.load.sleep + phase.draw, size)
            amps = np.asarray(draw.current_a) + column(system.quiescent_a, size)
            draw = replace(draw, current_a=amps)
            first_v = ld.terminal_voltage(_voltage_at(batch, q), 0.0, draw, resistance)
            amps = ld.drawn_current(draw, np.maximum(first_v, 1e-3))
            q = np.maximum(q - amps * column(phase.duration_s, size), 0.0)
            last_v = ld.terminal_voltage(_voltage_at(batch, q), 0.0, draw, resistance)
            lowest = np.maximum(np.minimum(first_v, last_v), 0.0)
            here = (start - minimum) / np.maximum(start - lowest, 1e-9)
            here = np.where(lowest <= 0, np.minimum(here, 0.5), here)
            margin = np.where(lowest < deepest, here, margin)
            deepest = np.minimum(deepest, lowest)
    return margin


def _flat(draw: ld.Draw, size: int) -> ld.Draw:
    return ld.Draw(
        current_a=column(draw.current_a, size),
        power_w=column(draw.power_w, size),
        conductance_s=column(draw.conductance_s, size),
    )


def _service(
    scenario: Scenario, batch: Batch, course: run.Rows, balance: FloatArray
) -> FloatArray:
    size = batch.size
    asked = column(scenario.margins.served_share, size)
    share = np.ones(size)
    s = batch.stretches
    span = np.diff(s.edges_s)
    for j, op in enumerate(batch.system.load.operations):
        if isinstance(op.schedule, Periodic):
            due = float(s.due[:, j] @ span)
            share = np.minimum(share, course.due_s[:, j] / due if due > 0 else 1.0)
        else:
            share = np.minimum(share, np.where(batch.spoiled[:, j], 0.0, balance))
    share = np.clip(share, 0.0, 1.0)
    return np.where(share >= asked, np.maximum(share / np.maximum(asked, 1e-9), 1.0),
                    share / np.maximum(asked, 1e-9))

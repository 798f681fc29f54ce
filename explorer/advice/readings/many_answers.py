"""Answers of many designs at once, as `explorer.advice.answers` has them of one."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from explorer.advice.checks import Asked, shares
from explorer.advice.readings.dark import FOLLOWED_S, gaps
from explorer.advice.readings.many import Followed, first_light, ready_from
from explorer.advice.readings.many_levels import lowest_charge
from explorer.advice.readings.pulse import Store, deepest_pulse, flat
from explorer.advice.readings.starts import MOST_FILLING, STUCK
from explorer.engine import many_run as run
from explorer.engine.many import Batch, rate_while_due
from explorer.engine.system import WEEK_S, Periodic
from explorer.engine.thresholds import along, charge_at
from explorer.physics.arrays import FloatArray


def answers(found: Followed, asked: Asked) -> dict[str, FloatArray]:
    """Answers by name, arrays of shape (n,); infinite means never, or without end.

    The names are those of `explorer.advice.answers.answers`, but for the two that count to the
    first connect and to the end of the first operation.
    """
    batch, read, course = found.batch, found.readings, found.course
    n, period = batch.size, float(batch.stretches.edges_s[-1])
    full = batch.nodes_c[:, -1]
    dark_s, runs = dark_and_runs(batch)
    cut_c = np.minimum(charge_at(batch.system.load.off_v, batch.nodes_v, batch.nodes_c), full)
    lowest_c = lowest_charge(batch, course)
    some = read.taken_w > 0
    served = shares(read, asked)[:, :-1]
    return {
        "first_charge_s": read.ready_s,
        "full_charge_s": full_time(batch),
        "dark_time_s": dark_s,
        "operations_per_charge": runs,
        "recovery_s": ready_from(batch, np.broadcast_to(cut_c, (n,)), 4.0 * period),
        "lowest_store_V": along(lowest_c, batch.nodes_c, batch.nodes_v),
        "highest_store_V": along(np.max(found.edges_c, axis=0), batch.nodes_c, batch.nodes_v),
        "lowest_terminal_V": _lowest_terminal(batch, lowest_c),
        "served_share": np.where(
            np.isfinite(read.ready_s), np.min(served, axis=1, initial=1.0), 0.0
        ),
        "balance_ratio": np.where(
            some, read.brought_w / np.where(some, read.taken_w, 1.0), np.inf
        ),
        "cut_offs_per_week": read.cut_offs / read.span_s * WEEK_S,
        "longest_dark_s": _longest_dark(batch),
    }


def dark_and_runs(batch: Batch) -> tuple[FloatArray, FloatArray]:
    """Time that a full store lasts in the dark [s] and runs done in it, (systems,) each.

    Infinite where it has no end.
    """
    n = batch.size
    everyone, first = np.arange(n), np.zeros(n, np.intp)
    full = batch.nodes_c[:, -1]
    dark_s = run.dark_time(batch, everyone, full, first, np.full(n, FOLLOWED_S))
    dark_s = np.where(dark_s >= FOLLOWED_S * (1.0 - 1e-9), np.inf, dark_s)
    return dark_s, _runs_in_the_dark(batch, dark_s)


def full_time(batch: Batch) -> FloatArray:
    """From empty to full without a load, from the first light, (systems,). [s]"""
    s, n = batch.stretches, batch.size
    span, count, first = np.diff(s.edges_s), len(s.level), first_light(batch)
    charge, full = batch.nodes_c[:, 0].copy(), batch.nodes_c[:, -1]
    found, todo, passed = np.full(n, np.inf), np.arange(n), 0.0
    for _ in range(MOST_FILLING):
        before = charge.copy()
        for i in range(count):
            k = (first + i) % count
            which = np.full(len(todo), batch.off[int(s.level[k])], np.intp)
            time = np.full(len(todo), span[k])
            end = batch.flows.advance(which, todo, charge[todo], time)
            met = end >= full[todo] * (1.0 - 1e-12)
            if met.any():
                hit = todo[met]
                found[hit] = passed + np.minimum(
                    batch.flows.time_to(which[met], hit, charge[hit], full[hit]), span[k]
                )
            charge[todo] = end
            todo = todo[~met]
            passed += float(span[k])
        todo = todo[np.abs(charge - before)[todo] > STUCK * full[todo]]
        if not len(todo):
            break
    return found


def _runs_in_the_dark(batch: Batch, dark_s: FloatArray) -> FloatArray:
    """Runs from a full store until its cut-off, (systems,); infinite where it has no end."""
    s, load = batch.stretches, batch.system.load
    span = np.diff(s.edges_s)
    some = np.isfinite(dark_s)
    lasts = np.where(some, dark_s, 0.0)
    runs = np.zeros(batch.size)
    for j, op in enumerate(load.operations):
        if isinstance(op.schedule, Periodic):
            due = np.concatenate([[0.0], np.cumsum(s.due[:, j] * span)])
            periods, rest = np.divmod(lasts, s.edges_s[-1])
            open_s = periods * due[-1] + np.interp(rest, s.edges_s, due)
            runs += flat(rate_while_due(op), batch.size) * open_s
    waits = batch.waits
    over = batch.nodes_c[:, -1] >= waits.ready_c
    spare = np.where(over, batch.nodes_c[:, -1] - waits.ready_c, 0.0)
    runs += np.where(over, np.floor(spare / waits.run_c) + 1.0, 0.0)
    return np.where(some, runs, np.inf)


def _lowest_terminal(batch: Batch, lowest_c: FloatArray) -> FloatArray:
    """Lowest terminal voltage of a course without a connect, (systems,). [V]"""
    load = batch.system.load
    lowest_v = along(lowest_c, batch.nodes_c, batch.nodes_v)
    system = replace(batch.system, load=replace(load, start_up=(), bulk_f=0.0))
    taken = batch.grain_c
    begin_v = along(lowest_c + taken, batch.nodes_c, batch.nodes_v)
    store = Store(batch.nodes_v, batch.nodes_c, flat(batch.esr, batch.size))
    pulse = deepest_pulse(system, store, [begin_v for _ in load.operations])
    return lowest_v if pulse is None else np.minimum(lowest_v, pulse.lowest_v)


def _longest_dark(batch: Batch) -> FloatArray:
    """Longest stretch in which the light brings nothing, (systems,). [s]"""
    s = batch.stretches
    found = np.zeros(batch.size)
    kinds, kind_of = np.unique(batch.given_a > 0.0, axis=0, return_inverse=True)
    for kind, brings in enumerate(kinds):
        stretches = gaps(brings[s.level], s.edges_s)
        longest = max((g.length_s for g in stretches), default=0.0)
        found[kind_of.ravel() == kind] = longest
    return found


__all__ = ["answers"]

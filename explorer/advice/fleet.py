"""Judge many variants of a scenario at once: for break-even values, maps and spreads.

The six checks are those of `explorer.advice.checks`, read from the batch engine, in which pulses
are averaged over their cycle. Verdicts agree with the exact ones except close to a limit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from explorer.advice.checks import NO_LIMIT, PULSE_MARGIN
from explorer.advice.verdict import CHECK_NAMES, State
from explorer.engine import batch as eb
from explorer.engine.system import DAY_S, WEEK_S, Periodic, System
from explorer.physics import load as ld
from explorer.physics import store as st
from explorer.scenario.build import build
from explorer.scenario.fields import Section
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario, resized
from explorer.scenario.ratings import rated_voltage, worst_unit_voltage
from explorer.scenario.storage import CellStore

FloatArray = NDArray[np.float64]
STATES: tuple[State, ...] = ("falls_short", "marginal", "runs")
LOG_LEVELS = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Fleet:
    """Verdicts of many variants; arrays of shape (variants,)."""

    margins: dict[str, FloatArray]
    """Available over needed for each of the six checks."""
    wanted: dict[str, FloatArray]
    """Margin that counts as a clean pass."""
    first_charge_s: FloatArray

    @property
    def reserve(self) -> FloatArray:
        """Smallest margin over the margin wanted: 1 or more runs."""
        return np.min([self.margins[n] / self.wanted[n] for n in CHECK_NAMES], axis=0)

    @property
    def telling(self) -> FloatArray:
        """Smallest reserve of those energy and pulse checks that tell the variants apart."""
        rows = [self.margins[n] / self.wanted[n] for n in ("starts", "balance", "dark", "pulse")]
        apart = [r for r in rows if np.ptp(r) > 0]
        return np.min(apart, axis=0) if apart else self.reserve

    @property
    def margin(self) -> FloatArray:
        """Smallest margin: below 1 the variant falls short."""
        return np.min([self.margins[n] for n in CHECK_NAMES], axis=0)

    @property
    def codes(self) -> NDArray[np.intp]:
        """0 falls short, 1 marginal, 2 runs."""
        return (self.margin >= 1.0).astype(np.intp) + (
            (self.margin >= 1.0) & (self.reserve >= 1.0)
        ).astype(np.intp)

    @property
    def governing(self) -> NDArray[np.intp]:
        """Index into CHECK_NAMES of the check with the smallest reserve."""
        table = np.array([self.margins[n] / self.wanted[n] for n in CHECK_NAMES])
        return np.asarray(np.argmin(table, axis=0))


def varied(scenario: Scenario, changes: Mapping[str, ArrayLike]) -> Scenario:
    """A scenario whose numbers at the given paths are columns of shape (variants, 1).

    The result is for building only: it is not validated and cannot be saved. A change of the
    store's size stays within the family of parts, as in `with_value`.
    """
    out = scenario
    for path, values in changes.items():
        column = np.asarray(values, float).reshape(-1, 1)
        if path in ("store.capacitance_F", "store.capacity_mAh"):
            for key, grown in resized(out.store, column).items():
                out = _put(out, ["store", key], grown)
        out = _put(out, path.split("."), column)
    return out


def _put(node: Any, path: list[str], value: Any) -> Any:
    head, rest = path[0], path[1:]
    if isinstance(node, tuple):
        i = int(head)
        new = _put(node[i], rest, value) if rest else value
        return (*node[:i], new, *node[i + 1 :])
    assert isinstance(node, Section)
    if not hasattr(node, head):
        raise KeyError(f"there is no {head!r} here")
    child = _put(getattr(node, head), rest, value) if rest else value
    return node.model_copy(update={head: child})


def gathered_log(log: LightLog) -> LightLog:
    """A log in hours and a few levels, which keep the light of the hours they stand for."""
    hours = np.append(np.arange(0.0, log.duration_s, 3600.0), log.duration_s)
    total = np.concatenate([[0.0], np.cumsum(log.illuminance_lx * np.diff(log.time_s))])
    mean = np.diff(np.interp(hours, log.time_s, total)) / np.diff(hours)
    cuts = np.concatenate(
        [[1e-4], np.geomspace(0.02, 1.0, LOG_LEVELS)]
    ) * max(float(mean.max()), 1e-9)
    level = np.searchsorted(cuts, mean, side="left")
    value = np.array([
        np.average(mean[level == k], weights=np.diff(hours)[level == k])
        if np.any(level == k) else 0.0
        for k in range(level.max() + 1)
    ])
    parted = np.concatenate([[True], np.diff(level) != 0])
    return LightLog(
        time_s=np.append(hours[:-1][parted], log.duration_s),
        illuminance_lx=value[level[parted]],
        start=log.start,
        step_s=3600.0,
    )


def judge_many(
    scenario: Scenario, log: LightLog | None, changes: Mapping[str, ArrayLike]
) -> Fleet:
    """Verdicts of the variants that `changes` describes.

    Parameters
    ----------
    scenario : Scenario
        The design that is varied.
    log : LightLog, optional
        The measured light, where the scenario's pattern is a log.
    changes : mapping of str to array_like
        Values at dotted paths; arrays of one length, the number of variants.
    """
    size = max((np.size(v) for v in changes.values()), default=1)
    many = varied(scenario, changes)
    if log is not None:
        light = many.light
        if light.illuminance_lx is None:
            light = light.model_copy(update={"illuminance_lx": log.mean_lit_lx})
        coarse = gathered_log(log)
        scale = coarse.mean_lit_lx / log.mean_lit_lx if log.mean_lit_lx > 0 else 1.0
        light = light.model_copy(update={"illuminance_lx": light.illuminance_lx * scale})
        many, log = many.model_copy(update={"light": light}), coarse
    system = build(many, log)
    batch = eb.prepare(system, size)
    return _judged(many, system, batch, size)


def _column(value: Any, size: int) -> FloatArray:
    return np.broadcast_to(np.asarray(value, float).reshape(-1), (size,))


def _judged(scenario: Scenario, system: System, batch: eb.Batch, size: int) -> Fleet:
    margins: dict[str, FloatArray] = {}
    allowed = _column(scenario.margins.start_within_h, size) * 3600.0
    first = _first_charge(batch, float(np.max(allowed)))
    with np.errstate(divide="ignore", invalid="ignore"):
        margins["starts"] = np.where(np.isfinite(first), allowed / np.maximum(first, 1e-9), 0.0)
    got, need = _balance(batch)
    margins["balance"] = got / np.maximum(need, 1e-30)
    rows, second = _course(batch)
    margins["dark"] = _dark(scenario, batch, second, got, need)
    margins["pulse"] = _pulse(scenario, system, batch, second, size)
    margins["ratings"] = _ratings(scenario, system, size)
    margins["service"] = _service(scenario, batch, second, size)
    asked = _column(scenario.design_margin, size)
    plain = np.ones(size)
    wanted = {
        "starts": asked, "balance": asked, "dark": asked, "pulse": PULSE_MARGIN * plain,
        "ratings": plain, "service": plain,
    }
    return Fleet(
        margins={k: np.clip(margins[k], 0.0, NO_LIMIT) for k in CHECK_NAMES},
        wanted=wanted,
        first_charge_s=first,
    )


def _first_charge(batch: eb.Batch, allowed_s: float) -> FloatArray:
    """Time from the first light on an empty store to the first connect that stays. [s]"""
    levels = batch.stretches.photocurrent_a
    lit = np.flatnonzero(levels.max(axis=0)[batch.stretches.level] > 0)
    first = int(lit[0]) if len(lit) else 0
    rows = eb.begin_rows(batch, batch.nodes_c[:, 0], connected=False)
    period = float(batch.stretches.edges_s[-1])
    passed = 0.0
    while passed < 2.0 * max(allowed_s, period) and not np.isfinite(rows.first_s).all():
        before = rows.charge_c.copy()
        eb.run_period(batch, rows, first)
        passed += period
        still = ~np.isfinite(rows.first_s)
        moved = np.abs(rows.charge_c - before) > 1e-6 * batch.nodes_c[:, -1]
        if not np.any(still & moved):
            break
    start = sum(p.duration_s for p in batch.system.load.start_up)
    return rows.first_s + _column(start, batch.size)


def _course(batch: eb.Batch) -> tuple[eb.Rows, eb.Rows]:
    """A period from full, and the one after it, which stands for the repeating course."""
    first = eb.begin_rows(batch, batch.nodes_c[:, -1], connected=True)
    eb.run_period(batch, first)
    drift = first.charge_c - batch.nodes_c[:, -1]
    second = eb.begin_rows(batch, first.charge_c, connected=True)
    second.connected = first.connected.copy()
    eb.run_period(batch, second)
    # A slow decline: go on along its drift until it would repeat.
    next_drift = second.charge_c - first.charge_c
    with np.errstate(divide="ignore", invalid="ignore"):
        slope = (next_drift - drift) / np.where(drift != 0, drift, 1.0)
        total = np.where(slope < -1e-6, -next_drift / slope, 0.0)
    slow = (np.abs(next_drift) > 1e-4 * batch.nodes_c[:, -1]) & (next_drift * drift > 0)
    slow &= second.connected & first.connected
    if slow.any():
        begin = np.where(slow, first.charge_c + np.nan_to_num(total), first.charge_c)
        begin = np.clip(begin, batch.nodes_c[:, 0], batch.nodes_c[:, -1])
        third = eb.begin_rows(batch, begin, connected=True)
        third.connected = np.where(slow, begin > batch.cut_c, first.connected)
        eb.run_period(batch, third)
        second = third
    return first, second


def _mean_rates(batch: eb.Batch) -> FloatArray:
    """Mean current of everything wanted at the connect voltage. [A]"""
    rows = np.arange(batch.size)
    which = np.full(batch.size, batch.on[eb.DARK], np.intp)
    at = np.minimum(batch.connect_c, batch.nodes_c[:, -1])
    _, speed = batch.flows.begin(which, rows, at)
    return -speed


def _charge_rates(batch: eb.Batch) -> FloatArray:
    """Charging current at the connect voltage, (systems, levels). [A]"""
    rows = np.arange(batch.size)
    at = np.minimum(batch.connect_c, batch.nodes_c[:, -1])
    quiet = _column(batch.system.quiescent_a, batch.size)
    leak = _leak_at(batch, at)
    rates = []
    for level in range(batch.stretches.photocurrent_a.shape[1]):
        which = np.full(batch.size, batch.off[level], np.intp)
        _, speed = batch.flows.begin(which, rows, at)
        rates.append(speed + quiet + leak)
    return np.stack(rates, axis=1)


def _leak_at(batch: eb.Batch, charge: FloatArray) -> FloatArray:
    store = batch.system.store
    if isinstance(store, st.Cell):
        return _column(store.self_discharge_a, batch.size)
    volts = _voltage_at(batch, charge)
    return st.bank_leakage(store, volts[:, None])[:, 0] if np.ndim(store.leakage_a) else (
        st.bank_leakage(store, volts)
    )


def _voltage_at(batch: eb.Batch, charge: FloatArray) -> FloatArray:
    nodes, volts = batch.nodes_c, batch.nodes_v
    j = np.clip((nodes <= charge[:, None]).sum(axis=1) - 1, 0, nodes.shape[1] - 2)
    rows = np.arange(len(nodes))
    gap = nodes[rows, j + 1] - nodes[rows, j]
    share = np.where(gap > 0, (charge - nodes[rows, j]) / np.where(gap > 0, gap, 1.0), 0.0)
    return np.asarray(volts[rows, j] + np.clip(share, 0, 1) * (volts[rows, j + 1] - volts[rows, j]))


def _balance(batch: eb.Batch) -> tuple[FloatArray, FloatArray]:
    s = batch.stretches
    span = np.bincount(s.level, np.diff(s.edges_s), minlength=s.photocurrent_a.shape[1])
    got = np.maximum(_charge_rates(batch), 0.0) @ span
    return got, _mean_rates(batch) * s.edges_s[-1]


def _dark(
    scenario: Scenario, batch: eb.Batch, course: eb.Rows, got: FloatArray, need: FloatArray
) -> FloatArray:
    """Smallest time available over time needed, over the dark stretches of every variant."""
    s, size = batch.stretches, batch.size
    floor = _reserve_floor(batch)
    short = _charge_rates(batch)[:, s.level] < _mean_rates(batch)[:, None]
    span = np.diff(s.edges_s)
    count = len(span)
    needed, level_c = np.zeros(size), np.full(size, np.nan)
    worst = np.full(size, np.inf)
    longest, lowest = np.zeros(size), np.full(size, np.inf)
    run_length, begin_c = np.zeros(size), np.zeros(size)
    for step in range(2 * count):
        k = step % count
        dark = short[:, k]
        fresh = dark & (run_length == 0)
        begin_c = np.where(fresh, course.at_edges[k], begin_c)
        run_length = np.where(dark, run_length + span[k], run_length)
        following = short[:, (k + 1) % count]
        ends = dark & ~following & (step >= count // 2)
        longer = ends & (run_length > longest)
        longest = np.where(longer, run_length, longest)
        needed = np.where(longer, run_length, needed)
        level_c = np.where(longer, begin_c, level_c)
        lowest = np.where(ends, np.minimum(lowest, begin_c), lowest)
        run_length = np.where(dark, run_length, 0.0)
    always = short.all(axis=1)
    period = float(s.edges_s[-1])
    needed = np.where(always, period, needed)
    level_c = np.where(always, course.at_edges[0], level_c)
    lowest = np.where(always, course.at_edges[0], lowest)
    has = needed > 0
    start_c = np.where(has, np.nan_to_num(level_c), batch.nodes_c[:, -1])
    time = eb.dark_time(batch, start_c, floor)
    worst = np.where(has, time / np.maximum(needed, 1e-9), worst)
    closure = _column(scenario.margins.closure_days, size) * DAY_S
    from_c = np.where(np.isfinite(lowest), lowest, course.at_edges[0])
    closed = eb.dark_time(batch, from_c, floor) / np.maximum(np.maximum(closure, needed), 1e-9)
    return np.where(closure > 0, np.minimum(worst, closed), worst)


def _reserve_floor(batch: eb.Batch) -> FloatArray:
    """Charge that keeps the reserve above the cut-off. [C]"""
    load = batch.system.load
    if not np.any(np.asarray(load.reserve_j) > 0):
        return batch.cut_c
    q, v = batch.nodes_c, batch.nodes_v
    steps = 0.5 * (v[:, 1:] + v[:, :-1]) * np.diff(q, axis=1)
    energy = np.concatenate([np.zeros((len(q), 1)), np.cumsum(steps, axis=1)], axis=1)
    floor = np.empty(len(q))
    reserve = _column(load.reserve_j, len(q))
    for i in range(len(q)):
        base = np.interp(batch.cut_c[i], q[i], energy[i])
        floor[i] = np.interp(base + reserve[i], energy[i], q[i])
    return floor


def _pulse(
    scenario: Scenario, system: System, batch: eb.Batch, course: eb.Rows, size: int
) -> FloatArray:
    esr = (
        system.store.resistance_ohm if isinstance(system.store, st.Cell) else system.store.esr_ohm
    )
    resistance = _column(esr, size)
    cut = _column(scenario.load.disconnect_V, size)
    low_c = np.where(np.isfinite(course.lowest_c), course.lowest_c, batch.cut_c)
    low = np.where(course.lost > 0, cut, np.maximum(_voltage_at(batch, low_c), cut))
    low = np.maximum(low, 1e-3)
    minimum = _column(system.load.minimum_v, size)
    margin = np.full(size, NO_LIMIT)
    begin_c = eb.charge_at(low[:, None], batch.nodes_v, batch.nodes_c)
    begin_c = np.minimum(begin_c, batch.nodes_c[:, -1])
    for op in system.load.operations:
        q = begin_c
        for phase in op.phases:
            draw = _flat(system.load.sleep + phase.draw, size)
            draw = replace(draw, current_a=draw.current_a + _column(system.quiescent_a, size))
            first_v = ld.terminal_voltage(_voltage_at(batch, q), 0.0, draw, resistance)
            amps = ld.drawn_current(draw, np.maximum(first_v, 1e-3))
            q = np.maximum(q - amps * _column(phase.duration_s, size), 0.0)
            last_v = ld.terminal_voltage(_voltage_at(batch, q), 0.0, draw, resistance)
            lowest = np.minimum(first_v, last_v)
            droop = np.maximum(low - np.maximum(lowest, 0.0), 1e-9)
            here = (low - minimum) / droop
            margin = np.minimum(margin, np.where(lowest <= 0, np.minimum(here, 0.5), here))
    return margin


def _flat(draw: ld.Draw, size: int) -> ld.Draw:
    return ld.Draw(
        current_a=_column(draw.current_a, size),
        power_w=_column(draw.power_w, size),
        conductance_s=_column(draw.conductance_s, size),
    )


def _ratings(scenario: Scenario, system: System, size: int) -> FloatArray:
    store = scenario.store
    full = _column(scenario.charger.full_V, size)
    margin = _column(rated_voltage(store), size) / _column(worst_unit_voltage(store, full), size)
    ambient = _column(scenario.light.ambient_C, size)
    if isinstance(store, CellStore):
        volts = np.maximum(_column(system.load.off_v, size), 0.3)
        drawn = np.zeros(size)
        load = system.load
        draws = [load.sleep, *(p.draw for p in load.start_up)]
        draws += [load.sleep + p.draw for op in load.operations for p in op.phases]
        for draw in draws:
            drawn = np.maximum(drawn, ld.drawn_current(_flat(draw, size), volts))
        margin = np.minimum(margin, _column(store.discharge_limit_A, size) / np.maximum(drawn, 1e-12))
        inside = (ambient > store.charge_above_C) & (ambient <= store.charge_below_C)
        return np.where(inside, margin, 0.0)
    return np.where(ambient <= store.rated_C, margin, 0.0)


def _service(scenario: Scenario, batch: eb.Batch, course: eb.Rows, size: int) -> FloatArray:
    asked = _column(scenario.margins.served_share, size)
    share = np.ones(size)
    s = batch.stretches
    span = np.diff(s.edges_s)
    got, need = _balance(batch)
    for j, op in enumerate(batch.system.load.operations):
        if isinstance(op.schedule, Periodic):
            due = float(s.due[:, j] @ span)
            share = np.minimum(share, course.due_s[:, j] / max(due, 1e-9))
        else:
            share = np.minimum(share, got / np.maximum(need, 1e-30))
    share = np.clip(share, 0.0, 1.0)
    return np.where(share >= asked, np.maximum(share / np.maximum(asked, 1e-9), 1.0),
                    share / np.maximum(asked, 1e-9))


__all__ = ["Fleet", "STATES", "WEEK_S", "gathered_log", "judge_many", "varied"]

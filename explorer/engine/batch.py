"""Many systems at once: the same exact motion, with systems along a leading array axis.

Pulses are averaged over their cycle and their droop is judged apart, so a batch is for maps,
spreads and break-even values; where its verdict is close the exact engine has the last word.
Numeric leaves of the `System` may be arrays of shape (systems, 1); the light's hours, the kinds
of parts and the operations' windows are common to all.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explorer.engine.row_flows import RowFlows
from explorer.engine.system import WEEK_S, Operation, Periodic, System, WhenReady
from explorer.physics import charger as ch
from explorer.physics import load as ld
from explorer.physics import store as st

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.intp]
BoolArray = NDArray[np.bool_]

COLD_NODES = 14
WARM_NODES = 42
MOST_TURNS = 6
"""Most connects and cut-offs followed one by one within a stretch of constant light."""


DARK: tuple[int, tuple[bool, ...]] = (-1, ())
"""Key of the motion in the dark with every operation at its mean rate."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretches:
    """One period of light and windows in stretches where nothing changes but the store."""

    edges_s: FloatArray
    level: IntArray
    """Light level of each stretch."""
    due: BoolArray
    """Shape (stretches, operations): which operations are due."""
    photocurrent_a: FloatArray
    """Of each level, shape (systems or 1, levels). [A]"""


def stretches_of(system: System) -> Stretches:
    """Split a period at every change of light and every edge of a window."""
    light, operations = system.light, system.load.operations
    current = np.atleast_2d(light.photocurrent_a)
    edges = set(light.edges_s.tolist())
    for op in operations:
        if isinstance(op.schedule, Periodic) and not op.schedule.always:
            edges.update(e - light.begins_at_s for w in op.schedule.windows_s for e in w)
    at = np.array(sorted(e for e in edges if 0.0 <= e <= light.period_s))
    middle = 0.5 * (at[:-1] + at[1:])
    segment = np.searchsorted(light.edges_s, middle, side="right") - 1
    columns, level = np.unique(current, axis=1, return_inverse=True)
    return Stretches(
        edges_s=at,
        level=level.ravel()[segment].astype(np.intp),
        due=np.array(
            [[_is_due(op, m + light.begins_at_s) for op in operations] for m in middle], bool
        ).reshape(len(middle), len(operations)),
        photocurrent_a=columns,
    )


def _is_due(operation: Operation, at_s: float) -> bool:
    schedule = operation.schedule
    if isinstance(schedule, WhenReady) or schedule.always:
        return True
    inside = at_s % WEEK_S
    return any(begin <= inside < end for begin, end in schedule.windows_s)


def duty(operation: Operation, *, windows_vary: bool) -> tuple[float | FloatArray, float]:
    """Runs per second while due, and share of the week in which it is due."""
    schedule = operation.schedule
    if isinstance(schedule, WhenReady):
        return schedule.wanted_per_s, 1.0
    share = sum(end - begin for begin, end in schedule.windows_s) / WEEK_S
    rate = 1.0 / np.asarray(schedule.interval_s, float)
    return (rate if windows_vary else rate * share), share


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """Tables of many systems, ready to run."""

    system: System
    stretches: Stretches
    flows: RowFlows
    nodes_c: FloatArray
    """Charge at the nodes, (systems, nodes). [C]"""
    nodes_v: FloatArray
    connect_c: FloatArray
    """Charge at which the load connects, (systems,). [C]"""
    cut_c: FloatArray
    """Charge below which the next pulse is cut off, (systems,). [C]"""
    start_c: FloatArray
    """Charge that a connect and a start-up take, (systems,). [C]"""
    on: dict[tuple[int, tuple[bool, ...]], int]
    """Motion with the load connected, by light level and operations due."""
    off: dict[int, int]

    @property
    def size(self) -> int:
        """Number of systems."""
        return len(self.nodes_c)


def prepare(system: System, size: int) -> Batch:
    """Tabulate the motions of `size` systems.

    Raises
    ------
    ValueError
        A numeric leaf has a leading axis that is neither 1 nor `size`.
    """
    stretches = stretches_of(system)
    volts, charge, side_v = _nodes(system, size)
    curve_leak, esr, limit = _store_limits(system, charge, volts)
    quiet = ld.Draw(current_a=system.quiescent_a)
    levels = [
        stretches.photocurrent_a[:, k : k + 1] for k in range(stretches.photocurrent_a.shape[1])
    ]
    given = [_supply(system, amps, esr) for amps in levels]
    windows_vary = bool(np.any(stretches.due.min(axis=0) != stretches.due.max(axis=0)))
    speeds: list[FloatArray] = []
    off: dict[int, int] = {}
    on: dict[tuple[int, tuple[bool, ...]], int] = {}
    wanted = {(int(k), tuple(map(bool, d))) for k, d in zip(stretches.level, stretches.due,
                                                               strict=True)}
    for k in range(len(levels)):
        off[k] = len(speeds)
        speeds.append(_speed(system, given[k], quiet, volts, side_v, esr, limit, curve_leak))
    dark_idle = _drawn(system.load.sleep + quiet, volts, esr)
    extra = []
    for op in system.load.operations:
        rate, _ = duty(op, windows_vary=windows_vary)
        taken = sum(
            (_drawn(system.load.sleep + quiet + p.draw, volts, esr) - dark_idle) * p.duration_s
            for p in op.phases
        )
        extra.append(np.asarray(rate * taken))
    for k, due in sorted(wanted):
        speed = _speed(
            system, given[k], system.load.sleep + quiet, volts, side_v, esr, limit, curve_leak
        )
        for j, is_due in enumerate(due):
            if is_due or not windows_vary:
                speed = speed - extra[j]
        on[(k, due)] = len(speeds)
        speeds.append(speed)
    on[DARK] = len(speeds)
    mean = [
        x * duty(op, windows_vary=False)[0] / duty(op, windows_vary=windows_vary)[0]
        for x, op in zip(extra, system.load.operations, strict=True)
    ]
    speeds.append(-dark_idle - curve_leak - sum(mean, np.zeros_like(charge)))
    for s in speeds:
        s[:, 0] = np.maximum(s[:, 0], 0.0)
    connect = charge_at(system.load.connect_v, volts, charge)
    return Batch(
        system=system,
        stretches=stretches,
        flows=RowFlows(charge, [np.broadcast_to(s, charge.shape) for s in speeds]),
        nodes_c=charge,
        nodes_v=volts,
        connect_c=connect,
        cut_c=_cut_charge(system, volts, charge, esr),
        start_c=_start_charge(system, size),
        on=on,
        off=off,
    )


def _nodes(system: System, size: int) -> tuple[FloatArray, FloatArray, FloatArray]:
    full = np.broadcast_to(np.asarray(system.full_v, float), (size, 1))
    if isinstance(system.store, st.Cell):
        share = np.linspace(0.0, 1.0, COLD_NODES + WARM_NODES)
        top = np.interp(full, system.store.open_circuit_v, system.store.state_of_charge)
        share = share[None, :] * top
        volts = np.interp(share, system.store.state_of_charge, system.store.open_circuit_v)
        charge = share * np.asarray(system.store.capacity_c, float)
        return volts, np.ascontiguousarray(np.broadcast_to(charge, volts.shape)), volts
    bottom = np.broadcast_to(np.asarray(system.store.lowest_v, float), (size, 1))
    if isinstance(system.charger, ch.Converter):
        split = np.broadcast_to(np.asarray(system.charger.cold_below_v, float), (size, 1))
    else:
        split = 0.25 * full
    split = np.clip(split, bottom + 0.02 * (full - bottom), 0.9 * full)
    low = bottom + (split - bottom) * np.linspace(0.0, 1.0, COLD_NODES)
    high = split + (full - split) * np.linspace(0.0, 1.0, WARM_NODES)
    volts = np.concatenate([low, high], axis=1)
    side = volts.copy()
    side[:, COLD_NODES - 1] *= 1.0 - 1e-9
    charge = np.broadcast_to(st.bank_charge(system.store, volts), volts.shape)
    return volts, np.ascontiguousarray(charge), side


def _store_limits(
    system: System, charge: FloatArray, volts: FloatArray
) -> tuple[FloatArray, FloatArray, FloatArray]:
    store = system.store
    if isinstance(store, st.Cell):
        leak = np.where(charge > 0, np.asarray(store.self_discharge_a, float), 0.0)
        limit = np.asarray(store.charge_limit_a if store.may_charge else 0.0, float)
        return leak, np.asarray(store.resistance_ohm, float), limit
    return st.bank_leakage(store, volts), np.asarray(store.esr_ohm, float), np.asarray(np.inf)


def _supply(system: System, amps: FloatArray, esr: FloatArray) -> object:
    if isinstance(system.charger, ch.Converter):
        return ch.converter_input(system.charger, system.panel, amps)
    return amps


def _charge_current(
    system: System, given: object, side_v: FloatArray, source_v: FloatArray, esr: FloatArray
) -> FloatArray:
    if isinstance(system.charger, ch.Converter):
        assert isinstance(given, ch.ConverterInput)
        return ch.converter_current(system.charger, given, side_v, source_v, esr)
    return ch.direct_current(system.charger, system.panel, given, source_v, esr)  # type: ignore[arg-type]


def _drawn(draw: ld.Draw, volts: FloatArray, esr: FloatArray) -> FloatArray:
    terminal = ld.terminal_voltage(volts, 0.0, draw, esr)
    return ld.drawn_current(draw, np.where(terminal > 0, terminal, np.maximum(0.5 * volts, 1e-3)))


def _speed(
    system: System,
    given: object,
    draw: ld.Draw,
    volts: FloatArray,
    side_v: FloatArray,
    esr: FloatArray,
    limit: FloatArray,
    leak: FloatArray,
) -> FloatArray:
    drawn = _drawn(draw, volts, esr)
    charge = _charge_current(system, given, side_v, volts - drawn * esr, esr)
    return np.asarray(np.minimum(charge, limit) - drawn - leak)


def charge_at(value: object, volts: FloatArray, charge: FloatArray) -> FloatArray:
    """Charge at a voltage, row by row; infinite above the nodes."""
    v = np.broadcast_to(np.asarray(value, float).reshape(-1, 1), (len(volts), 1))
    j = np.clip((volts <= v).sum(axis=1) - 1, 0, volts.shape[1] - 2)[:, None]
    v0, v1 = np.take_along_axis(volts, j, 1), np.take_along_axis(volts, j + 1, 1)
    q0, q1 = np.take_along_axis(charge, j, 1), np.take_along_axis(charge, j + 1, 1)
    gap = np.where(v1 > v0, v1 - v0, 1.0)
    found = q0 + (v - v0) / gap * (q1 - q0)
    return np.where(v > volts[:, -1:], np.inf, np.maximum(found, 0.0))[:, 0]


def needed_voltage(draw: ld.Draw, off_v: object, esr: object) -> FloatArray:
    """Open-circuit voltage at which a draw pulls the terminals down to a limit. [V]

    ``v = off + i(off) R``; where the limit lies below the voltage of greatest power the draw
    collapses earlier, at ``2 sqrt(p R)``.
    """
    off, r = np.asarray(off_v, float), np.asarray(esr, float)
    knee = np.sqrt(np.asarray(draw.power_w, float) * r)
    lowest = np.maximum(off, np.maximum(knee, 1e-6))
    return np.asarray(lowest + ld.drawn_current(draw, lowest) * r)


def _cut_charge(
    system: System, volts: FloatArray, charge: FloatArray, esr: FloatArray
) -> FloatArray:
    load = system.load
    quiet = ld.Draw(current_a=system.quiescent_a)
    off = np.asarray(load.off_v, float)
    cut = charge_at(needed_voltage(load.sleep + quiet, off, esr), volts, charge)
    for op in load.operations:
        before = np.zeros(1)
        for phase in op.phases:
            draw = load.sleep + quiet + phase.draw
            needed = needed_voltage(draw, off, esr)
            taken = (ld.drawn_current(draw, needed) * phase.duration_s).reshape(-1)
            before = before + taken
            cut = np.maximum(cut, charge_at(needed, volts, charge) + before)
    return cut


def _start_charge(system: System, size: int) -> FloatArray:
    load = system.load
    volts = np.asarray(load.connect_v, float)
    filled = volts
    if load.regulator is not None:
        filled = np.minimum(volts, np.asarray(load.regulator.output_v, float))
    total = np.asarray(load.bulk_f, float) * filled
    for phase in load.start_up:
        total = total + ld.drawn_current(phase.draw, volts) * phase.duration_s
    return np.broadcast_to(np.asarray(total, float).reshape(-1), (size,)).copy()


@dataclass(slots=True)
class Rows:
    """Where every system of a batch stands, and what it has done since."""

    charge_c: FloatArray
    connected: BoolArray
    first_s: FloatArray
    """Time of the first connect that stays, infinite before. [s]"""
    passed_s: float
    connected_s: FloatArray
    due_s: FloatArray
    """Connected time in which each operation was due, (systems, operations). [s]"""
    lowest_c: FloatArray
    lost: FloatArray
    """Cut-offs."""
    at_edges: list[FloatArray]
    """Charge at the beginning of every stretch run so far. [C]"""


def begin_rows(batch: Batch, charge_c: FloatArray, connected: bool) -> Rows:
    """Every system at a charge, connected or not."""
    n = batch.size
    return Rows(
        charge_c=np.broadcast_to(charge_c, (n,)).astype(float),
        connected=np.full(n, connected),
        first_s=np.full(n, np.inf),
        passed_s=0.0,
        connected_s=np.zeros(n),
        due_s=np.zeros((n, len(batch.system.load.operations))),
        lowest_c=np.full(n, np.inf),
        lost=np.zeros(n),
        at_edges=[],
    )


def run_period(batch: Batch, rows: Rows, first: int = 0, may_start: BoolArray | None = None) -> None:
    """Move every system through one period, beginning at stretch number `first`."""
    count = len(batch.stretches.level)
    for i in range(count):
        k = (first + i) % count
        run_stretch(batch, rows, k, may_start)


def run_stretch(batch: Batch, rows: Rows, k: int, may_start: BoolArray | None = None) -> None:
    """Move every system through one stretch of constant light."""
    s = batch.stretches
    duration = float(s.edges_s[k + 1] - s.edges_s[k])
    level, due = int(s.level[k]), tuple(map(bool, s.due[k]))
    off_id, on_id = batch.off[level], batch.on[(level, due)]
    can = np.ones(batch.size, bool) if may_start is None else may_start
    can = can & (batch.connect_c - batch.start_c > batch.cut_c)
    rows.at_edges.append(rows.charge_c.copy())
    rows.lowest_c = np.minimum(
        rows.lowest_c, np.where(rows.connected, rows.charge_c, np.inf)
    )
    left = np.full(batch.size, duration)
    on_time = np.zeros(batch.size)
    for _ in range(MOST_TURNS):
        todo = np.flatnonzero(left > 0)
        if not len(todo):
            break
        q, on, time = rows.charge_c[todo], rows.connected[todo], left[todo]
        # Thresholds that are met already.
        rise = ~on & can[todo] & (q >= batch.connect_c[todo])
        q = np.where(rise, q - batch.start_c[todo], q)
        rows.first_s[todo] = np.where(
            rise & ~np.isfinite(rows.first_s[todo]),
            rows.passed_s + duration - time, rows.first_s[todo],
        )
        on = on | rise
        fall = on & (q < batch.cut_c[todo])
        rows.lost[todo] += fall
        on = on & ~fall
        which = np.where(on, on_id, off_id)
        end = batch.flows.advance(which, todo, q, time)
        bound = np.where(on, batch.cut_c[todo], np.where(can[todo], batch.connect_c[todo], np.inf))
        met = np.where(on, end < bound, end >= bound)
        met &= ~(~on & (q >= bound))
        used = time.copy()
        if met.any():
            hit = np.flatnonzero(met)
            used[hit] = np.minimum(
                batch.flows.time_to(which[hit], todo[hit], q[hit], bound[hit]), time[hit]
            )
            end[hit] = bound[hit]
        on_time[todo] += np.where(on, used, 0.0)
        left[todo] = np.where(met, np.maximum(time - used, 0.0), 0.0)
        rows.charge_c[todo] = np.where(met & on, end * (1.0 - 1e-12), end)
        rows.connected[todo] = on
        rows.lowest_c[todo] = np.where(
            on, np.minimum(rows.lowest_c[todo], end), rows.lowest_c[todo]
        )
    rest = np.flatnonzero(left > 0)
    if len(rest):
        on_time[rest] += left[rest] * _running_share(batch, rest, on_id, off_id)
    rows.connected_s += on_time
    rows.due_s += on_time[:, None] * np.array(due, float)
    rows.passed_s += duration


def _running_share(batch: Batch, rows: IntArray, on_id: int, off_id: int) -> FloatArray:
    """Share of time connected of systems that go to and fro between the thresholds."""
    up, down = batch.connect_c[rows], batch.cut_c[rows]
    ones = np.ones(len(rows), np.intp)
    fall = batch.flows.time_to(ones * on_id, rows, up - batch.start_c[rows], down)
    rise = batch.flows.time_to(ones * off_id, rows, down, up)
    with np.errstate(invalid="ignore"):
        share = fall / (fall + rise)
    return np.where(np.isfinite(share), share, 0.0)


def dark_time(batch: Batch, charge_c: FloatArray, floor_c: FloatArray) -> FloatArray:
    """Time in the dark from a charge to a floor, operations at their mean rate. [s]"""
    which = np.full(batch.size, batch.on[DARK], np.intp)
    rows = np.arange(batch.size)
    floor = np.where(np.isfinite(floor_c), floor_c, batch.nodes_c[:, -1])
    above = charge_c > floor_c
    time = batch.flows.time_to(which, rows, np.maximum(charge_c, floor), floor)
    return np.where(above, time, 0.0)

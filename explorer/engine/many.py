"""Many systems at once: the same exact motion, with systems along a leading array axis.

Pulses are averaged over their cycle and their droop is judged apart, so a batch is for maps,
spreads and break-even values; where its verdict is close the exact engine has the last word.
Numeric leaves of the `System` may be arrays of shape (systems, 1); the light's hours, the kinds
of parts and the operations' windows are common to all.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

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
CELL_NODES = 36
"""A cell's currents bend less along its charge than those of a bank."""
Due = tuple[bool, ...]
"""Which operations are due."""


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
    weeks = np.arange(np.floor(-light.begins_at_s / WEEK_S), light.period_s / WEEK_S + 1.0)
    for op in operations:
        if isinstance(op.schedule, Periodic) and not op.schedule.always:
            opens = np.ravel(op.schedule.windows_s) - light.begins_at_s
            edges.update((opens[:, None] + weeks * WEEK_S).ravel().tolist())
    at = np.array(sorted(e for e in edges if 0.0 <= e <= light.period_s))
    middle = 0.5 * (at[:-1] + at[1:])
    segment = np.searchsorted(light.edges_s, middle, side="right") - 1
    columns, level = _distinct(current)
    return Stretches(
        edges_s=at,
        level=level[segment].astype(np.intp),
        due=np.array(
            [[_is_due(op, m + light.begins_at_s) for op in operations] for m in middle], bool
        ).reshape(len(middle), len(operations)),
        photocurrent_a=columns,
    )


def _distinct(columns: FloatArray) -> tuple[FloatArray, IntArray]:
    """The columns that differ, and which of them each one is.

    Told apart by one weighted sum each, which costs far less than sorting whole columns.
    """
    weights = np.sin(np.arange(1.0, len(columns) + 1.0)) + 2.0
    sums = np.add.reduce(columns * weights[:, None], axis=0)
    _, first, which = np.unique(sums, return_index=True, return_inverse=True)
    found = columns[:, first]
    if np.array_equal(found[:, which.ravel()], columns):
        return found, which.ravel()
    found, which = np.unique(columns, axis=1, return_inverse=True)
    return found, which.ravel()


def _is_due(operation: Operation, at_s: float) -> bool:
    schedule = operation.schedule
    if isinstance(schedule, WhenReady) or schedule.always:
        return True
    inside = at_s % WEEK_S
    return any(begin <= inside < end for begin, end in schedule.windows_s)


def rate_while_due(operation: Operation) -> FloatArray:
    """Runs per second while an operation is due; a window holds a whole number of runs. [1/s]"""
    schedule = operation.schedule
    if isinstance(schedule, WhenReady):
        return np.asarray(schedule.wanted_per_s, float)
    interval = np.asarray(schedule.interval_s, float)
    if schedule.always:
        return 1.0 / interval
    lengths = [end - begin for begin, end in schedule.windows_s]
    runs = sum((np.ceil(s / interval - 1e-9) for s in lengths), np.zeros_like(interval))
    return np.asarray(runs / sum(lengths))


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
    cut_c: dict[Due, FloatArray]
    """Charge below which sleep or the next run is cut off, (systems,), by operations due. [C]"""
    floor_c: dict[Due, FloatArray]
    """The same with the reserve kept. [C]"""
    start_c: FloatArray
    """Charge that a connect and a start-up take, (systems,). [C]"""
    ready_c: FloatArray
    """Charge at which the operations that wait for one begin, the least of them, (systems,);
    infinite without any. [C]"""
    spoiled: BoolArray
    """Shape (systems, operations): whether a run that waits for a charge ends in a cut-off."""
    leak_a: FloatArray
    """Leakage at the nodes, (systems, nodes). [A]"""
    esr: FloatArray
    """Series resistance of the store, plain or (systems, 1). [ohm]"""
    given_a: FloatArray
    """Charging current at the connect voltage, (systems, levels). [A]"""
    given: list[object]
    """What the panel offers the charger, by light level; see `charging_current`."""
    on: dict[tuple[int, Due], int]
    """Motion with the load connected, by light level and operations due."""
    off: dict[int, int]
    dark: dict[Due, int]
    """Motion in the dark with the load connected, by operations due; those that wait for a
    charge do not run there."""
    dark_mean: int
    """The same with every operation at its mean rate over the period."""

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
    operations = system.load.operations
    volts, charge, side_v = _nodes(system, size)
    leak, esr, limit = _store_limits(system, charge, volts)
    quiet = ld.Draw(current_a=system.quiescent_a)
    idle = system.load.sleep + quiet
    levels = stretches.photocurrent_a
    given = [_supply(system, levels[:, k : k + 1], esr) for k in range(levels.shape[1])]
    waits = [isinstance(op.schedule, WhenReady) for op in operations]
    dark_idle = -_drawn(idle, volts, esr) - leak
    extra = [rate_while_due(op) * _charge_of_run(op, idle, volts, esr) for op in operations]
    for j, op in enumerate(operations):
        if isinstance(op.schedule, WhenReady):
            extra[j] = np.where(volts >= op.schedule.ready_v, extra[j], 0.0)
    speeds: list[FloatArray] = []

    def add(speed: FloatArray, due: Due) -> int:
        """Number of a new motion; an empty store does not fall."""
        for j, is_due in enumerate(due):
            if is_due:
                speed = speed - extra[j]
        speed = np.array(np.broadcast_to(speed, charge.shape))
        speed[:, 0] = np.maximum(speed[:, 0], 0.0)
        speeds.append(speed)
        return len(speeds) - 1

    dues = [tuple(map(bool, d)) for d in stretches.due]
    off: dict[int, int] = {}
    on: dict[tuple[int, Due], int] = {}
    for k, one in enumerate(given):
        off[k] = add(_speed(system, one, quiet, volts, side_v, esr, limit, leak), ())
        lit = _speed(system, one, idle, volts, side_v, esr, limit, leak)
        for due in sorted({d for n, d in zip(stretches.level, dues, strict=True) if n == k}):
            on[(k, due)] = add(lit, due)
    dark = {
        due: add(dark_idle, tuple(d and not w for d, w in zip(due, waits, strict=True)))
        for due in sorted(set(dues))
    }
    share = np.diff(stretches.edges_s) @ stretches.due / stretches.edges_s[-1]
    mean = sum((extra[j] * share[j] for j, w in enumerate(waits) if not w), np.zeros(1))
    dark_mean = add(dark_idle - mean, ())
    ready, spoiled = _waiting(system, volts, charge, esr)
    return Batch(
        system=system,
        stretches=stretches,
        flows=RowFlows(charge, speeds),
        nodes_c=charge,
        nodes_v=volts,
        connect_c=charge_at(system.load.connect_v, volts, charge),
        cut_c=_cut_charges(system, set(dues), volts, charge, esr),
        floor_c=_cut_charges(_with_reserve(system, volts, charge), set(dues), volts, charge, esr),
        start_c=_start_charge(system, size),
        ready_c=ready,
        spoiled=spoiled,
        leak_a=np.broadcast_to(leak, charge.shape),
        esr=esr,
        given_a=np.concatenate(
            [_given_at_connect(system, size, one, esr, limit) for one in given], axis=1
        ),
        given=given,
        on=on,
        off=off,
        dark=dark,
        dark_mean=dark_mean,
    )


def _charge_of_run(
    operation: Operation, idle: ld.Draw, volts: FloatArray, esr: FloatArray
) -> FloatArray:
    """Charge that one run takes beside what is drawn anyway, at store voltages. [C]"""
    before = _drawn(idle, volts, esr)
    return sum(
        ((_drawn(idle + p.draw, volts, esr) - before) * p.duration_s for p in operation.phases),
        np.zeros_like(before),
    )


def _given_at_connect(
    system: System, size: int, given: object, esr: FloatArray, limit: FloatArray
) -> FloatArray:
    """Charging current of one light level at the connect voltage, shape (systems, 1). [A]"""
    at = np.broadcast_to(np.asarray(system.load.connect_v, float), (size, 1))
    return np.broadcast_to(
        np.minimum(_charge_current(system, given, at, at, esr), limit), (size, 1)
    )


def charging_current(batch: Batch, level: int, volts: FloatArray) -> FloatArray:
    """Charging current of one light level at store voltages of shape (systems, k). [A]"""
    system = batch.system
    _, _, limit = _store_limits(system, np.ones_like(volts), volts)
    amps = _charge_current(system, batch.given[level], volts, volts, np.asarray(batch.esr))
    return np.broadcast_to(np.minimum(amps, limit), volts.shape)


def _nodes(system: System, size: int) -> tuple[FloatArray, FloatArray, FloatArray]:
    full = np.broadcast_to(np.asarray(system.full_v, float), (size, 1))
    if isinstance(system.store, st.Cell):
        share = np.linspace(0.0, 1.0, CELL_NODES)
        share = share[None, :] * system.store.share_at(full)
        volts = system.store.voltage_at(share)
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
    esr, limit = (np.asarray(x, float) for x in (store.series_ohm, store.most_charge_a))
    return store.leak_a(charge, volts), esr, limit


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


def _cut_charges(
    system: System, dues: set[Due], volts: FloatArray, charge: FloatArray, esr: FloatArray
) -> dict[Due, FloatArray]:
    """Charge below which sleep or the next run is cut off; waiting runs choose their own. [C]"""
    load = system.load
    idle = load.sleep + ld.Draw(current_a=system.quiescent_a)
    asleep = charge_at(needed_voltage(idle, load.off_v, esr), volts, charge)
    needed = [_charge_for_run(system, op, volts, charge, esr) for op in load.operations]
    found = {}
    for due in dues:
        found[due] = asleep
        for op, is_due, need in zip(load.operations, due, needed, strict=True):
            if is_due and isinstance(op.schedule, Periodic):
                found[due] = np.maximum(found[due], need)
    return found


def _with_reserve(system: System, volts: FloatArray, charge: FloatArray) -> System:
    """The system with its load cut off while the reserve is still in the store."""
    reserve = np.asarray(system.load.reserve_j, float)
    if not np.any(reserve > 0):
        return system
    steps = 0.5 * (volts[:, 1:] + volts[:, :-1]) * np.diff(charge, axis=1)
    energy = np.concatenate([np.zeros((len(volts), 1)), np.cumsum(steps, axis=1)], axis=1)
    off = np.broadcast_to(np.asarray(system.load.off_v, float), (len(volts), 1))[:, 0]
    kept = along(off, volts, energy) + np.broadcast_to(reserve, (len(volts), 1))[:, 0]
    off_v = np.maximum(along(kept, energy, volts), off)[:, None]
    return replace(system, load=replace(system.load, off_v=off_v))


def along(at: FloatArray, positions: FloatArray, values: FloatArray) -> FloatArray:
    """Values between nodes, row by row; held beyond the ends."""
    j = np.clip((positions <= at[:, None]).sum(axis=1) - 1, 0, positions.shape[1] - 2)
    rows = np.arange(len(positions))
    p0, p1 = positions[rows, j], positions[rows, j + 1]
    share = np.clip((at - p0) / np.where(p1 > p0, p1 - p0, 1.0), 0.0, 1.0)
    return np.asarray(values[rows, j] + share * (values[rows, j + 1] - values[rows, j]))


def _charge_for_run(
    system: System, operation: Operation, volts: FloatArray, charge: FloatArray, esr: FloatArray
) -> FloatArray:
    """Charge with which a run has to begin if it is not to be cut off. [C]"""
    idle = system.load.sleep + ld.Draw(current_a=system.quiescent_a)
    off = np.asarray(system.load.off_v, float)
    needed_c, before = np.zeros(len(volts)), np.zeros(1)
    for phase in operation.phases:
        draw = idle + phase.draw
        needed = needed_voltage(draw, off, esr)
        end_c = charge_at(needed, volts, charge)
        taken = (ld.drawn_current(draw, needed) * phase.duration_s).reshape(-1)
        if np.any(np.asarray(draw.conductance_s) > 0):
            # A resistance takes more at the higher voltage with which the phase begins.
            begin = along(np.where(np.isfinite(end_c), end_c, 0.0) + taken, charge, volts)
            middle = 0.5 * (begin[:, None] + needed)
            taken = (ld.drawn_current(draw, middle) * phase.duration_s).reshape(-1)
        before = before + taken
        needed_c = np.maximum(needed_c, end_c + before)
    return needed_c


RUN_STEPS = 4
"""Steps in which a phase of a waiting run is followed."""


def _waiting(
    system: System, volts: FloatArray, charge: FloatArray, esr: FloatArray
) -> tuple[FloatArray, BoolArray]:
    """Least charge that starts a waiting run, and which of them end in a cut-off."""
    least = np.full(len(volts), np.inf)
    spoiled = np.zeros((len(volts), len(system.load.operations)), bool)
    idle = system.load.sleep + ld.Draw(current_a=system.quiescent_a)
    off = np.asarray(system.load.off_v, float)
    for j, op in enumerate(system.load.operations):
        if not isinstance(op.schedule, WhenReady):
            continue
        ready = charge_at(op.schedule.ready_v, volts, charge)
        least = np.minimum(least, ready)
        q = np.where(np.isfinite(ready), ready, 0.0)[:, None]
        low = ~np.isfinite(ready)[:, None]
        for phase in op.phases:
            draw = idle + phase.draw
            for step in range(RUN_STEPS + 1):
                store_v = along(q[:, 0], charge, volts)[:, None]
                low = low | (ld.terminal_voltage(store_v, 0.0, draw, esr) < off)
                if step < RUN_STEPS:
                    taken = _drawn(draw, store_v, esr) * phase.duration_s / RUN_STEPS
                    q = np.maximum(q - taken, 0.0)
        spoiled[:, j] = low[:, 0]
    return least, spoiled


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

"""Many systems at once: the same exact motion, with systems along a leading array axis.

Pulses are averaged over their cycle and their droop is judged apart, so a batch is for maps,
spreads and break-even values; where its verdict is close the exact engine has the last word.
Numeric leaves of the `System` may be arrays of shape (systems, 1); the light's hours, the kinds
of parts and the operations' windows are common to all.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from explorer.engine.course import give_way
from explorer.engine.row_flows import RowFlows
from explorer.engine.system import WEEK_S, Operation, Periodic, System, WhenReady
from explorer.engine.thresholds import (
    Cut,
    Due,
    Start,
    Waiting,
    asleep_charge,
    charge_at,
    cut_charges,
    drawn,
    floor_charge,
    largest_run,
    start_up,
    waiting,
)
from explorer.physics import charger as ch
from explorer.physics import load as ld
from explorer.physics import store as st
from explorer.physics.arrays import BoolArray, FloatArray, IntArray

COLD_NODES = 14
WARM_NODES = 42
WEEKS = 4
"""Weeks over which runs in windows are counted."""
CELL_NODES = 36
"""A cell's currents bend less along its charge than those of a bank."""


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
    assert isinstance(schedule, Periodic)
    if schedule.always:
        return 1.0 / np.asarray(schedule.interval_s, float)
    open_s = sum(end - begin for begin, end in schedule.windows_s)
    return np.asarray(schedule.runs_between(0.0, WEEKS * WEEK_S)) / (WEEKS * open_s)


@dataclass(frozen=True, slots=True, kw_only=True)
class Supplied:
    """Many systems with their stores in nodes, and what the light brings to them."""

    system: System
    stretches: Stretches
    nodes_c: FloatArray
    """Charge at the nodes, (systems, nodes). [C]"""
    nodes_v: FloatArray
    each_c: FloatArray
    """The same as `nodes_c`, with one row where all stores are alike. [C]"""
    side_v: FloatArray
    """The same as `nodes_v`, but just below where a converter begins to convert; where all stores
    are alike it has one row. [V]"""
    each_v: FloatArray
    """The same as `nodes_v`, with one row where all stores are alike. [V]"""
    leak_a: FloatArray
    """Leakage at the nodes, (systems, nodes). [A]"""
    esr: FloatArray
    """Series resistance of the store, plain or (systems, 1). [ohm]"""
    limit_a: FloatArray
    """Largest charging current of the store, plain or (systems, 1). [A]"""
    given: list[object]
    """What the panel offers the charger, by light level; see `charging_current`."""

    @property
    def size(self) -> int:
        """Number of systems."""
        return len(self.nodes_c)


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """Tables of many systems, ready to run."""

    supplied: Supplied
    system: System
    stretches: Stretches
    flows: RowFlows
    nodes_c: FloatArray
    """Charge at the nodes, (systems, nodes). [C]"""
    nodes_v: FloatArray
    connect_c: FloatArray
    """Charge at which the load connects in the dark, (systems,). [C]"""
    connect_at_c: FloatArray
    """The same in the light, whose current lifts the terminals, (systems, levels). [C]"""
    asleep_c: FloatArray
    """Charge below which a sleeping device is cut off, (systems,). [C]"""
    cut: dict[Due, Cut]
    """Where it is cut off, by operations due."""
    floor_c: dict[Due, FloatArray]
    """Charge at which a store in the dark is at its end, the reserve kept, (systems,). [C]"""
    start: Start
    waits: Waiting
    grain_c: FloatArray
    """Charge of the largest run at the cut-off voltage, (systems,). [C]"""
    esr: FloatArray
    """Series resistance of the store, plain or (systems, 1). [ohm]"""
    given_a: FloatArray
    """Charging current at the connect voltage, (systems, levels). [A]"""
    on: dict[tuple[int, Due], int]
    """Motion with the load connected, by light level and operations due; runs that wait for a
    charge are no part of it."""
    off: dict[int, int]
    dark: dict[Due, int]
    """Motion in the dark with the load connected, by operations due."""
    dark_mean: int
    """The same with every operation at its mean rate over the period."""
    starts: dict[int, FloatArray] = field(default_factory=dict)
    """What `many_run.starts_at` found, by light level."""

    @property
    def size(self) -> int:
        """Number of systems."""
        return len(self.nodes_c)


def supplied(system: System, size: int) -> Supplied:
    """The stores of `size` systems in nodes, and what each light level offers them.

    Raises
    ------
    ValueError
        A numeric leaf has a leading axis that is neither 1 nor `size`.
    """
    stretches = stretches_of(system)
    each_v, each_c, side_v = _nodes(system)
    leak, esr, limit = _store_limits(system, each_c, each_v)
    levels, shape = stretches.photocurrent_a, (size, each_v.shape[1])
    return Supplied(
        system=system, stretches=stretches, side_v=side_v, each_v=each_v, each_c=each_c,
        nodes_c=np.ascontiguousarray(np.broadcast_to(each_c, shape)),
        nodes_v=np.ascontiguousarray(np.broadcast_to(each_v, shape)),
        leak_a=np.broadcast_to(leak, shape), esr=esr, limit_a=limit,
        given=[_supply(system, levels[:, k : k + 1], esr) for k in range(levels.shape[1])],
    )


def prepare(system: System, size: int) -> Batch:
    """Tabulate the motions of `size` systems.

    Raises
    ------
    ValueError
        A numeric leaf has a leading axis that is neither 1 nor `size`.
    Interrupted
        Nobody waits for it any more, see `explorer.engine.course.until`.
    """
    give_way()  # of several batches in a row each takes a part of a second
    at = supplied(system, size)
    stretches, volts, charge = at.stretches, at.nodes_v, at.nodes_c
    each_v, side_v = at.each_v, at.side_v
    leak, esr, limit, given = at.leak_a, at.esr, at.limit_a, at.given
    operations = system.load.operations
    quiet = ld.Draw(current_a=system.quiescent_a)
    idle = system.load.sleep + quiet
    waits = [isinstance(op.schedule, WhenReady) for op in operations]
    # A blocking diode leaks back in the dark.
    unlit = _supply(system, np.zeros((1, 1)), esr)
    dark_idle = _speed(system, unlit, idle, each_v, side_v, esr, limit, leak)
    extra = [
        np.zeros(1) if wait else rate_while_due(op) * _charge_of_run(op, idle, each_v, esr)
        for op, wait in zip(operations, waits, strict=True)
    ]
    speeds: list[FloatArray] = []

    def add(speed: FloatArray, due: Due) -> int:
        """Number of a new motion; an empty store does not fall."""
        for j, is_due in enumerate(due):
            if is_due:
                speed = speed - extra[j]
        speed = np.array(np.broadcast_to(speed, (len(speed), charge.shape[1])))
        speed[:, 0] = np.maximum(speed[:, 0], 0.0)
        speeds.append(speed)
        return len(speeds) - 1

    dues = [tuple(map(bool, d)) for d in stretches.due]
    off: dict[int, int] = {}
    on: dict[tuple[int, Due], int] = {}
    dark = {due: add(dark_idle, due) for due in sorted(set(dues))}
    for k, one in enumerate(given):
        is_lit = bool((stretches.photocurrent_a[:, k] != 0.0).any())
        one = one if is_lit else unlit
        off[k] = add(_speed(system, one, quiet, each_v, side_v, esr, limit, leak), ())
        lit = _speed(system, one, idle, each_v, side_v, esr, limit, leak) if is_lit else None
        for due in sorted({d for n, d in zip(stretches.level, dues, strict=True) if n == k}):
            on[(k, due)] = dark[due] if lit is None else add(lit, due)
    share = np.diff(stretches.edges_s) @ stretches.due / stretches.edges_s[-1]
    mean = sum((x * y for x, y in zip(extra, share, strict=True)), np.zeros(1))
    # What is always due keeps its mean rate at every moment.
    dark_mean = dark[dues[0]] if len(dark) == 1 else add(dark_idle - mean, ())
    cuts = cut_charges(system, set(dues), volts, charge, esr)
    given_a = np.concatenate(
        [_given_at_connect(system, size, one, esr, limit) for one in given], axis=1
    )
    lifted_v = system.load.connect_v - np.maximum(given_a, 0.0) * esr
    return Batch(
        supplied=at,
        system=system,
        stretches=stretches,
        flows=RowFlows(at.each_c, speeds),
        nodes_c=charge,
        nodes_v=volts,
        connect_c=charge_at(system.load.connect_v, volts, charge),
        connect_at_c=np.stack([charge_at(v, volts, charge) for v in lifted_v.T], axis=1),
        asleep_c=asleep_charge(system, volts, charge, esr),
        cut=cuts,
        floor_c={due: floor_charge(system, cut, volts, charge) for due, cut in cuts.items()},
        start=start_up(system, volts, charge, esr),
        waits=waiting(system, volts, charge, esr),
        grain_c=largest_run(system, size),
        esr=esr,
        given_a=given_a,
        on=on,
        off=off,
        dark=dark,
        dark_mean=dark_mean,
    )


def _charge_of_run(
    operation: Operation, idle: ld.Draw, volts: FloatArray, esr: FloatArray
) -> FloatArray:
    """Charge that one run takes beside what is drawn anyway, at store voltages. [C]"""
    before = drawn(idle, volts, esr)
    return sum(
        ((drawn(idle + p.draw, volts, esr) - before) * p.duration_s for p in operation.phases),
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


def charging_current(at: Supplied, level: int, volts: FloatArray) -> FloatArray:
    """Charging current of one light level at store voltages of shape (systems, k). [A]"""
    amps = _charge_current(at.system, at.given[level], volts, volts, np.asarray(at.esr))
    return np.broadcast_to(np.minimum(amps, at.limit_a), volts.shape)


def _nodes(system: System) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Voltage, charge and `side_v` at the nodes of each store; one row where all are alike."""
    full = np.asarray(system.full_v, float).reshape(-1, 1)
    if isinstance(system.store, st.Cell):
        share = np.linspace(0.0, 1.0, CELL_NODES)
        share = share[None, :] * system.store.share_at(full)
        volts = system.store.voltage_at(share)
        charge = share * np.asarray(system.store.capacity_c, float)
        return volts, charge, volts
    bottom = np.asarray(system.store.lowest_v, float).reshape(-1, 1)
    if isinstance(system.charger, ch.Converter):
        split = np.asarray(system.charger.cold_below_v, float).reshape(-1, 1)
    else:
        split = 0.25 * full
    split = np.clip(split, bottom + 0.02 * (full - bottom), 0.9 * full)
    low = bottom + (split - bottom) * np.linspace(0.0, 1.0, COLD_NODES)
    high = split + (full - split) * np.linspace(0.0, 1.0, WARM_NODES)
    volts = np.concatenate([low, high], axis=1)
    side = volts.copy()
    side[:, COLD_NODES - 1] *= 1.0 - 1e-9
    return volts, st.bank_charge(system.store, volts), side


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
    load_a = drawn(draw, volts, esr)
    charge = _charge_current(system, given, side_v, volts - load_a * esr, esr)
    return np.asarray(np.minimum(charge, limit) - load_a - leak)

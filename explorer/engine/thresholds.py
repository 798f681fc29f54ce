"""Charges at which many systems connect, start up, run and are cut off, row by row.

Arrays have systems along the first axis; numbers of the `System` are plain or columns.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from explorer.engine.system import Periodic, Phase, System, WhenReady
from explorer.physics import load as ld
from explorer.physics.arrays import BoolArray, FloatArray, Number

Due = tuple[bool, ...]
"""Which operations are due."""
LOWEST_V = 0.3
"""Voltage below which no device is taken to run. [V]"""
RUN_STEPS = 4
"""Steps in which a phase of a waiting run is followed."""


def drawn(draw: ld.Draw, volts: FloatArray, esr: Number) -> FloatArray:
    """Current of a draw at store voltages; where it collapses, at half of them. [A]"""
    terminal = ld.terminal_voltage(volts, 0.0, draw, esr)
    return ld.drawn_current(draw, np.where(terminal > 0, terminal, np.maximum(0.5 * volts, 1e-3)))


def charge_at(value: object, volts: FloatArray, charge: FloatArray) -> FloatArray:
    """Charge at a voltage, row by row; infinite above the nodes."""
    v = np.asarray(value, float).reshape(-1)
    rows, j = _cells(v, volts)
    v0, v1, q0, q1 = volts[rows, j], volts[rows, j + 1], charge[rows, j], charge[rows, j + 1]
    gap = np.where(v1 > v0, v1 - v0, 1.0)
    found = q0 + (v - v0) / gap * (q1 - q0)
    return np.where(v > volts[:, -1], np.inf, np.maximum(found, 0.0))


def _cells(at: FloatArray, positions: FloatArray) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Number of each row, and the cell of it in which a place lies."""
    j = (positions <= at[:, None]).sum(axis=1) - 1
    return np.arange(len(positions)), np.minimum(np.maximum(j, 0), positions.shape[1] - 2)


def needed_voltage(draw: ld.Draw, off_v: object, esr: object) -> FloatArray:
    """Open-circuit voltage at which a draw pulls the terminals down to a limit. [V]

    ``v = off + i(off) R``; where the limit lies below the voltage of greatest power the draw
    collapses earlier, at ``2 sqrt(p R)``.
    """
    off, r = np.asarray(off_v, float), np.asarray(esr, float)
    knee = np.sqrt(np.asarray(draw.power_w, float) * r)
    lowest = np.maximum(off, np.maximum(knee, 1e-6))
    return np.asarray(lowest + ld.drawn_current(draw, lowest) * r)


class Cut(NamedTuple):
    """Where a device is cut off; charges of shape (systems,). [C]"""

    need_c: FloatArray
    """Below this, sleep or the next run is cut off."""
    left_c: FloatArray
    """Where the store then stands: a run that fails takes something before."""


def asleep_charge(
    system: System, volts: FloatArray, charge: FloatArray, esr: FloatArray
) -> FloatArray:
    """Charge below which a sleeping device is cut off, shape (systems,). [C]"""
    idle = system.load.sleep + ld.Draw(current_a=system.quiescent_a)
    return charge_at(needed_voltage(idle, system.load.off_v, esr), volts, charge)


def cut_charges(
    system: System, dues: set[Due], volts: FloatArray, charge: FloatArray, esr: FloatArray
) -> dict[Due, Cut]:
    """Where it is cut off by the operations due; waiting runs choose their own charge."""
    load = system.load
    idle = load.sleep + ld.Draw(current_a=system.quiescent_a)
    asleep = asleep_charge(system, volts, charge, esr)
    needed = [
        _charge_for_run(system, idle, op.phases, volts, charge, esr) for op in load.operations
    ]
    found = {}
    for due in dues:
        cut = Cut(asleep, asleep)
        for op, is_due, run in zip(load.operations, due, needed, strict=True):
            if is_due and isinstance(op.schedule, Periodic):
                deeper = run.need_c > cut.need_c
                cut = Cut(
                    np.where(deeper, run.need_c, cut.need_c),
                    np.where(deeper, np.minimum(run.left_c, run.need_c), cut.left_c),
                )
        found[due] = cut
    return found


def floor_charge(
    system: System, cut: Cut, volts: FloatArray, charge: FloatArray
) -> FloatArray:
    """Charge at which a store in the dark is at its end, the reserve kept, (systems,). [C]"""
    reserve = np.asarray(system.load.reserve_j, float)
    if not np.any(reserve > 0):
        return cut.need_c
    steps = 0.5 * (volts[:, 1:] + volts[:, :-1]) * np.diff(charge, axis=1)
    energy = np.concatenate([np.zeros((len(volts), 1)), np.cumsum(steps, axis=1)], axis=1)
    kept = along(cut.left_c, charge, energy) + reserve.reshape(-1)
    above = np.where(kept > energy[:, -1], np.inf, along(kept, energy, charge))
    return np.maximum(cut.need_c, above)


def along(at: FloatArray, positions: FloatArray, values: FloatArray) -> FloatArray:
    """Values between nodes, row by row; held beyond the ends."""
    rows, j = _cells(at, positions)
    p0, p1 = positions[rows, j], positions[rows, j + 1]
    share = (at - p0) / np.where(p1 > p0, p1 - p0, 1.0)
    share = np.minimum(np.maximum(share, 0.0), 1.0)
    return np.asarray(values[rows, j] + share * (values[rows, j + 1] - values[rows, j]))


def _charge_for_run(
    system: System, beside: ld.Draw, phases: Sequence[Phase], volts: FloatArray,
    charge: FloatArray, esr: FloatArray,
) -> Cut:
    """Charge with which phases have to begin in the dark if none is to be cut off."""
    off = np.asarray(system.load.off_v, float)
    needed_c, before = np.zeros(len(volts)), np.zeros(1)
    left_c = np.zeros(len(volts))
    for phase in phases:
        draw = beside + phase.draw
        needed = needed_voltage(draw, off, esr)
        end_c = charge_at(needed, volts, charge)
        taken = (ld.drawn_current(draw, needed) * phase.duration_s).reshape(-1)
        if np.any(np.asarray(draw.conductance_s) > 0):
            # A resistance takes more at the higher voltage with which the phase begins.
            begin = along(np.where(np.isfinite(end_c), end_c, 0.0) + taken, charge, volts)
            middle = 0.5 * (begin[:, None] + needed)
            taken = (ld.drawn_current(draw, middle) * phase.duration_s).reshape(-1)
        before = before + taken
        deeper = end_c + before > needed_c
        left_c = np.where(deeper, end_c, left_c)
        needed_c = np.where(deeper, end_c + before, needed_c)
    return Cut(needed_c, left_c)


class Waiting(NamedTuple):
    """Operations that wait for a charge; the one that waits for the least takes all."""

    ready_c: FloatArray
    """Charge at which it begins, shape (systems,); infinite without any. [C]"""
    first: NDArray[np.intp]
    """Its number, shape (systems,)."""
    run_c: FloatArray
    """Charge that one run takes, shape (systems,). [C]"""
    run_s: FloatArray
    """Length of one run, shape (systems,). [s]"""
    spoiled: BoolArray
    """Whether a run ends in a cut-off, shape (systems, operations)."""


def waiting(
    system: System, volts: FloatArray, charge: FloatArray, esr: FloatArray
) -> Waiting:
    """What waits for a charge."""
    size, operations = len(volts), system.load.operations
    least, first = np.full(size, np.inf), np.zeros(size, np.intp)
    taken_c, taken_s = np.ones(size), np.zeros(size)
    spoiled = np.zeros((size, len(operations)), bool)
    idle = system.load.sleep + ld.Draw(current_a=system.quiescent_a)
    off = np.asarray(system.load.off_v, float)
    for j, op in enumerate(operations):
        if not isinstance(op.schedule, WhenReady):
            continue
        ready = charge_at(op.schedule.ready_v, volts, charge)
        q = np.where(np.isfinite(ready), ready, 0.0)[:, None]
        begin, low, length = q, ~np.isfinite(ready)[:, None], np.zeros(1)
        for phase in op.phases:
            draw = idle + phase.draw
            length = length + np.asarray(phase.duration_s, float).reshape(-1)
            for step in range(RUN_STEPS + 1):
                store_v = along(q[:, 0], charge, volts)[:, None]
                low = low | (ld.terminal_voltage(store_v, 0.0, draw, esr) < off)
                if step < RUN_STEPS:
                    amps = drawn(draw, store_v, esr)
                    q = np.maximum(q - amps * phase.duration_s / RUN_STEPS, 0.0)
        sooner = ready < least
        least, first = np.where(sooner, ready, least), np.where(sooner, j, first)
        taken_c = np.where(sooner, np.maximum((begin - q)[:, 0], 1e-30), taken_c)
        taken_s = np.where(sooner, length, taken_s)
        spoiled[:, j] = low[:, 0]
    return Waiting(least, first, taken_c, taken_s, spoiled)


class Start(NamedTuple):
    """What a connect and a start-up take and need, shape (systems,)."""

    taken_c: FloatArray
    need_c: FloatArray
    """Charge with which the connect has to come, in the dark, if the start-up is to end."""
    left_c: FloatArray
    """Where the store stands after a start-up that was cut off."""
    length_s: FloatArray


def start_up(
    system: System, volts: FloatArray, charge: FloatArray, esr: FloatArray
) -> Start:
    """What a connect and a start-up take and need."""
    load, size = system.load, len(volts)
    connect = np.asarray(load.connect_v, float)
    filled = connect
    if load.regulator is not None:
        filled = np.minimum(connect, np.asarray(load.regulator.output_v, float))
    inrush = (np.asarray(load.bulk_f, float) * filled).reshape(-1)
    quiet = ld.Draw(current_a=system.quiescent_a)
    run = _charge_for_run(system, quiet, load.start_up, volts, charge, esr)
    taken, length = inrush, np.zeros(1)
    for phase in load.start_up:
        amps = drawn(quiet + phase.draw, np.broadcast_to(connect, (size, 1)), esr)
        taken = taken + (amps * phase.duration_s)[:, 0]
        length = length + np.asarray(phase.duration_s, float).reshape(-1)
    return Start(
        np.broadcast_to(taken, (size,)).copy(),
        run.need_c + inrush if load.start_up else np.zeros(size),
        run.left_c,
        np.broadcast_to(length, (size,)).copy(),
    )


def largest_run(system: System, size: int) -> FloatArray:
    """Charge of the largest run at the cut-off voltage, shape (size,). [C]"""
    volts = np.maximum(np.asarray(system.load.off_v, float), LOWEST_V)
    most = np.zeros(size)
    for op in system.load.operations:
        amps = [ld.drawn_current(p.draw, volts) * p.duration_s for p in op.phases]
        taken = sum(amps, np.zeros(1))
        most = np.maximum(most, np.asarray(taken).reshape(-1))
    return most

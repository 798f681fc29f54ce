"""The deepest pulse: what a run of phases does to the terminals without any light."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from explorer.advice.readings import START_UP, FloatArray, PulseReading
from explorer.engine.system import Phase, System
from explorer.engine.thresholds import along, charge_at, needed_voltage
from explorer.physics import load as ld
from explorer.physics.arrays import Number

STEPS = 2
"""Steps in which the current of a phase follows the falling voltage."""
COLLAPSED = 0.5
"""Most that is to spare where the terminals collapse, however far they may fall."""


class Store:
    """The store's curve for many designs, row by row.

    Parameters
    ----------
    nodes_v, nodes_c : ndarray
        Open-circuit voltage [V] at charges [C], shape (n, nodes).
    esr : ndarray
        Series resistance, shape (n,). [ohm]
    """

    def __init__(self, nodes_v: FloatArray, nodes_c: FloatArray, esr: FloatArray) -> None:
        self.nodes_v, self.nodes_c, self.esr = nodes_v, nodes_c, esr

    def charge(self, volts: FloatArray) -> FloatArray:
        """Charge at a voltage, shape (n,). [C]"""
        return charge_at(np.minimum(volts, self.nodes_v[:, -1]), self.nodes_v, self.nodes_c)

    def volts(self, charge: FloatArray) -> FloatArray:
        """Open-circuit voltage at a charge, shape (n,). [V]"""
        return along(charge, self.nodes_c, self.nodes_v)


def deepest_pulse(
    system: System, store: Store, begin_v: Sequence[FloatArray]
) -> PulseReading | None:
    """The phase with the least to spare between what the terminals may fall and what they do.

    Every operation and the start-up is run from the lowest store voltage at which it may run,
    without light: the resistance's step at once, the store's own fall as its charge goes.

    Parameters
    ----------
    system : System
        Numbers plain, or columns of shape (n, 1).
    store : Store
        Of n designs.
    begin_v : sequence of ndarray
        Store voltage at which each operation begins, shape (n,). [V]

    Returns
    -------
    PulseReading or None
        None where there are neither operations nor a start-up.
    """
    n = len(store.nodes_v)
    idle = system.load.sleep + ld.Draw(current_a=system.quiescent_a)
    runs = [
        (j, np.broadcast_to(begin, (n,)), np.zeros(n), op.phases, idle)
        for j, (op, begin) in enumerate(zip(system.load.operations, begin_v, strict=True))
    ]
    if system.load.start_up or np.any(np.asarray(system.load.bulk_f) > 0):
        connect = flat(system.load.connect_v, n)
        quiet = ld.Draw(current_a=system.quiescent_a)
        runs.append((START_UP, connect, inrush(system, n), system.load.start_up, quiet))
    need = flat(system.load.minimum_v, n)
    found: PulseReading | None = None
    for number, begin, taken, phases, beside in runs:
        for one in _followed(store, number, begin, taken, phases, beside, need):
            found = one if found is None else _worse(found, one)
    return found


def spare(reading: PulseReading) -> FloatArray:
    """Drop available over drop taken, shape (n,); infinite where nothing falls."""
    available = np.maximum(reading.begin_v - reading.need_v, 0.0)
    taken = reading.begin_v - reading.lowest_v
    some = taken > 0
    ratio = np.where(some, available / np.where(some, taken, 1.0), np.inf)
    return np.where(reading.lowest_v > 0, ratio, np.minimum(ratio, COLLAPSED))


def flat(value: Number, n: int) -> FloatArray:
    """One number for each design, shape (n,)."""
    return np.broadcast_to(np.asarray(value, float).reshape(-1), (n,))


def inrush(system: System, n: int) -> FloatArray:
    """Charge that the empty bulk capacitance takes at a connect, shape (n,). [C]"""
    volts: Number = system.load.connect_v
    if system.load.regulator is not None:
        volts = np.minimum(volts, system.load.regulator.output_v)
    return flat(ld.inrush_charge(system.load.bulk_f, volts), n)


def _followed(
    store: Store, number: int, begin: FloatArray, taken: FloatArray, phases: Sequence[Phase],
    beside: ld.Draw, need: FloatArray,
) -> Iterator[PulseReading]:
    """A reading for every phase of one run."""
    n = len(begin)
    begin = np.minimum(begin, store.nodes_v[:, -1])
    bottom = store.nodes_c[:, 0]
    charge = np.maximum(store.charge(begin) - taken, bottom)
    passed, short, gone = np.zeros(n), np.full(n, np.inf), np.zeros(n, bool)
    for k, phase in enumerate(phases):
        draw = _flat_draw(beside + phase.draw, n)
        step_s = flat(phase.duration_s, n) / STEPS
        lowest, ramp = np.full(n, np.inf), np.zeros(n)
        before, amps = charge, np.zeros(n)
        for step in range(STEPS + 1):
            store_v = store.volts(charge)
            terminal = ld.terminal_voltage(store_v, 0.0, draw, store.esr)
            terminal = np.where(gone, 0.0, np.maximum(terminal, 0.0))
            below = (terminal <= need) & (need > 0) & ~np.isfinite(short)
            if below.any():
                enough = store.charge(needed_voltage(draw, need, store.esr))
                spent_s = np.maximum(before - enough, 0.0) / np.maximum(amps, 1e-30)
                since = passed - np.where(amps > 0, step_s, 0.0)
                short = np.where(below, since + np.minimum(spent_s, passed - since), short)
            deeper = terminal < lowest
            lowest = np.where(deeper, terminal, lowest)
            ramp = np.where(deeper, begin - store_v, ramp)
            if step == STEPS:
                break
            within = np.where(terminal > 0, terminal, np.maximum(0.5 * store_v, 1e-3))
            amps = ld.drawn_current(draw, within)
            before, after = charge, charge - amps * step_s
            gone = gone | (after < bottom)
            charge, passed = np.maximum(after, bottom), passed + step_s
        yield PulseReading(
            operation=np.full(n, number), phase=np.full(n, k), begin_v=begin, lowest_v=lowest,
            need_v=need, ramp_v=ramp, short_s=short,
        )


def _flat_draw(draw: ld.Draw, n: int) -> ld.Draw:
    return ld.Draw(
        current_a=flat(draw.current_a, n),
        power_w=flat(draw.power_w, n),
        conductance_s=flat(draw.conductance_s, n),
    )


def _worse(a: PulseReading, b: PulseReading) -> PulseReading:
    """Row by row the one that has less to spare."""
    second = spare(b) < spare(a)
    return PulseReading(**{
        name: np.where(second, getattr(b, name), getattr(a, name))
        for name in PulseReading.__slots__
    })

"""The deepest pulse: what a run of phases does to the terminals without any light."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from explorer.advice.readings import START_UP, PulseReading
from explorer.engine.system import Phase, System
from explorer.engine.thresholds import along, charge_at, needed_voltage
from explorer.physics import load as ld
from explorer.physics.arrays import FloatArray, Number

STEPS = 2
"""Steps in which the current of a phase follows the falling voltage."""
STILL = 1e-13
"""Relative change of a charge that counts as none."""
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
        """Open-circuit voltage at charges, shape (n, steps). [V]"""
        if len(charge) == 1:
            return np.asarray(np.interp(charge, self.nodes_c[0], self.nodes_v[0]))
        at = [along(one, self.nodes_c, self.nodes_v) for one in charge.T]
        return np.stack(at, axis=1)


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
        if phases:
            one = _followed(store, number, begin, taken, phases, beside, need)
            found = one if found is None else _worse(found, one)
    return found


def spare(reading: PulseReading) -> FloatArray:
    """Drop available over drop taken, shape (n,); infinite where nothing falls."""
    return _spared(reading.begin_v, reading.lowest_v, reading.need_v)


def _spared(begin_v: FloatArray, lowest_v: FloatArray, need_v: FloatArray) -> FloatArray:
    available = np.maximum(begin_v - need_v, 0.0)
    taken = begin_v - lowest_v
    some = taken > 0
    ratio = np.where(some, available / np.where(some, taken, 1.0), np.inf)
    return np.where(lowest_v > 0, ratio, np.minimum(ratio, COLLAPSED))


def flat(value: Number, n: int) -> FloatArray:
    """One number for each design, shape (n,)."""
    each = np.asarray(value, float).reshape(-1)
    return each if len(each) == n else np.broadcast_to(each, (n,))


def inrush(system: System, n: int) -> FloatArray:
    """Charge that the empty bulk capacitance takes at a connect, shape (n,). [C]"""
    volts: Number = system.load.connect_v
    if system.load.regulator is not None:
        volts = np.minimum(volts, system.load.regulator.output_v)
    return flat(ld.inrush_charge(system.load.bulk_f, volts), n)


def _followed(
    store: Store, number: int, begin: FloatArray, taken: FloatArray, phases: Sequence[Phase],
    beside: ld.Draw, need: FloatArray,
) -> PulseReading:
    """The worst phase of one run; arrays have a row for each design and a column for each step."""
    n, count = len(begin), len(phases)
    begin = np.minimum(begin, store.nodes_v[:, -1])
    bottom = store.nodes_c[:, :1]
    first = np.maximum(store.charge(begin) - taken, bottom[:, 0])
    draw = _draws(beside, phases, n)
    step_s = _columns([phase.duration_s for phase in phases], n) / STEPS
    charge, gone, amps = _steps(store, first, draw, step_s, bottom)
    # Every phase is looked at where it begins, between its steps and where it ends.
    at = STEPS * np.arange(count)[:, None] + np.arange(STEPS + 1)
    passed = np.concatenate(
        [np.zeros((n, 1)), np.cumsum(np.repeat(step_s, STEPS, axis=1), axis=1)], axis=1
    )
    each = ld.Draw(**{
        part: np.asarray(getattr(draw, part))[:, :, None]
        for part in ("current_a", "power_w", "conductance_s")
    })
    store_v, esr = store.volts(charge)[:, at], store.esr[:, None, None]
    terminal = np.maximum(ld.terminal_voltage(store_v, 0.0, each, esr), 0.0)
    terminal = np.where(gone[:, at], 0.0, terminal)
    lowest_v = terminal.min(axis=2)
    worst = _spared(begin[:, None], lowest_v, need[:, None]).argmin(axis=1)
    rows = np.arange(n)
    deepest = terminal[rows, worst].argmin(axis=1)
    short_s = _shorts(store, terminal, need, draw, charge, amps, passed, at)[rows, worst]
    return PulseReading(
        operation=np.full(n, number), phase=worst, begin_v=begin, lowest_v=lowest_v[rows, worst],
        need_v=need, ramp_v=begin - store_v[rows, worst, deepest], short_s=short_s,
    )


def _steps(
    store: Store, first: FloatArray, draw: ld.Draw, step_s: FloatArray, bottom: FloatArray
) -> tuple[FloatArray, NDArray[np.bool_], FloatArray]:
    """Charge at each step, whether the store gave out before, and the current of each step.

    Shapes (n, steps + 1), the same, (n, steps). The current of a step follows from the charge with
    which it begins, and that from the currents before. Of many designs step after step is taken;
    of one all at once, and again until nothing changes: at least one more comes out right each
    time, and mostly all do in a few.
    """
    wide = ld.Draw(**{
        part: np.repeat(getattr(draw, part), STEPS, axis=1)
        for part in ("current_a", "power_w", "conductance_s")
    })
    seconds, esr = np.repeat(step_s, STEPS, axis=1), store.esr[:, None]
    n, steps = seconds.shape
    charge, gone = np.repeat(first[:, None], steps + 1, axis=1), np.zeros((n, steps + 1), bool)
    amps = np.zeros((n, steps))
    width = steps if n == 1 else 1
    for begin in range(0, steps, width):
        now, then = slice(begin, begin + width), slice(begin + 1, begin + width + 1)
        some = ld.Draw(
            current_a=np.asarray(wide.current_a)[:, now], power_w=np.asarray(wide.power_w)[:, now],
            conductance_s=np.asarray(wide.conductance_s)[:, now],
        )
        for _ in range(width):
            store_v = store.volts(charge[:, now])
            terminal = ld.terminal_voltage(store_v, 0.0, some, esr)
            terminal = np.where(gone[:, now], 0.0, terminal)
            within = np.where(terminal > 0, terminal, np.maximum(0.5 * store_v, 1e-3))
            amps[:, now] = ld.drawn_current(some, within)
            after = charge[:, begin : begin + 1] - np.cumsum((amps * seconds)[:, now], axis=1)
            over = np.logical_or.accumulate(after < bottom, axis=1)
            gone[:, then] = over | gone[:, begin : begin + 1]
            after = np.maximum(after, bottom)
            still = np.all(np.abs(after - charge[:, then]) <= STILL * after)
            charge[:, then] = after
            if still:
                break
    return charge, gone, amps


def _shorts(
    store: Store, terminal: FloatArray, need: FloatArray, draw: ld.Draw, charge: FloatArray,
    amps: FloatArray, passed: FloatArray, at: NDArray[np.intp],
) -> FloatArray:
    """Time after which the terminals are down to the need, as each phase knows it, (n, phases)."""
    n, count = terminal.shape[:2]
    below = ((terminal <= need[:, None, None]) & (need[:, None, None] > 0)).reshape(n, -1)
    out = np.full((n, count), np.inf)
    some = np.flatnonzero(below.any(axis=1))
    if not some.size:
        return out
    flat_at = below[some].argmax(axis=1)
    phase, step = flat_at // (STEPS + 1), flat_at % (STEPS + 1)
    here = at[phase, step]
    since = np.maximum(here - 1, 0)
    own = ld.Draw(**{
        part: np.asarray(getattr(draw, part))[some, phase]
        for part in ("current_a", "power_w", "conductance_s")
    })
    part = Store(store.nodes_v[some], store.nodes_c[some], store.esr[some])
    enough = part.charge(needed_voltage(own, need[some], store.esr[some]))
    spent_s = np.maximum(charge[some, since] - enough, 0.0) / np.maximum(amps[some, since], 1e-30)
    whole_s = passed[some, here] - passed[some, since]
    # Where a phase begins, what it asks for at once is short at once.
    then_s = passed[some, since] + np.minimum(spent_s, whole_s)
    when = np.where(step > 0, then_s, passed[some, here])
    out[some] = np.where(np.arange(count) >= phase[:, None], when[:, None], np.inf)
    return out


def _columns(values: Sequence[Number], n: int) -> FloatArray:
    """One number for each design and phase, shape (n, phases)."""
    if all(isinstance(value, float) or np.ndim(value) == 0 for value in values):
        each = np.array([values], float)
        return each if n == 1 else np.broadcast_to(each, (n, len(values)))
    return np.stack([flat(value, n) for value in values], axis=1)


def _draws(beside: ld.Draw, phases: Sequence[Phase], n: int) -> ld.Draw:
    """Draws of all phases with what is drawn beside them, numbers of shape (n, phases)."""
    return ld.Draw(**{
        part: _columns([getattr(phase.draw, part) for phase in phases], n)
        + flat(getattr(beside, part), n)[:, None]
        for part in ("current_a", "power_w", "conductance_s")
    })


def _worse(a: PulseReading, b: PulseReading) -> PulseReading:
    """Row by row the one that has less to spare."""
    second = spare(b) < spare(a)
    return PulseReading(**{
        name: np.where(second, getattr(b, name), getattr(a, name))
        for name in PulseReading.__slots__
    })

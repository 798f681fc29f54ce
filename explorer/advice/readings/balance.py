"""What the light brings and what everything takes with the store held at one voltage."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from explorer.engine.system import WEEK_S, Operation, System, WhenReady
from explorer.engine.thresholds import drawn
from explorer.physics import load as ld
from explorer.physics.arrays import FloatArray, Number

SEVERAL = 8
"""Courses over which runs in windows are counted."""


class Balance(NamedTuple):
    """Powers at the store voltage at which their ratio is best; arrays of shape (n,)."""

    level_v: FloatArray
    brought_w: FloatArray
    taken_w: FloatArray


def best_level(volts: FloatArray, brought_a: FloatArray, taken_a: FloatArray) -> Balance:
    """Of several held voltages, the one at which the light brings the most of what is taken.

    Parameters
    ----------
    volts, brought_a, taken_a : ndarray
        Store voltage [V] and mean currents there [A], shape (n, voltages).
    """
    ratio = brought_a / np.maximum(taken_a, 1e-30)
    at = np.arange(len(volts)), np.argmax(ratio, axis=1)
    level = volts[at]
    return Balance(level, brought_a[at] * level, taken_a[at] * level)


def lowest_held(system: System) -> Number:
    """Lowest store voltage at which everything can run: the cut-off, or the level waited for. [V]

    A number, or a column where the system's numbers are columns.
    """
    lowest: Number = system.load.off_v
    for op in system.load.operations:
        if isinstance(op.schedule, WhenReady):
            lowest = np.maximum(lowest, op.schedule.ready_v)
    return np.minimum(lowest, system.full_v)


def taken_current(
    system: System, volts: FloatArray, leak_a: FloatArray, esr: Number, rates: list[Number]
) -> FloatArray:
    """Mean current of everything wanted, leakage and charger included. [A]

    Parameters
    ----------
    system : System
        Its numbers are plain, or columns of shape (n, 1).
    volts, leak_a : ndarray
        Store voltages [V] and leakage there [A], shape (n, voltages).
    esr : array_like
        Series resistance of the store, plain or shape (n, 1). [ohm]
    rates : list
        Runs per second of every operation, plain or shape (n, 1). [1/s]
    """
    idle = system.load.sleep + ld.Draw(current_a=system.quiescent_a)
    asleep = drawn(idle, volts, esr)
    total = asleep + leak_a
    for op, rate in zip(system.load.operations, rates, strict=True):
        for phase in op.phases:
            extra = drawn(idle + phase.draw, volts, esr) - asleep
            total = total + rate * phase.duration_s * extra
    return np.asarray(total)


def wanted_runs(system: System, span_s: float) -> list[Number]:
    """Runs that each operation should complete in a span from the beginning of the light.

    Plain, or of shape (n, 1). A log that covers a part of the week wants what its own hours
    want, not a mean week.
    """
    return [_wanted(op, system.light.begins_at_s, span_s) for op in system.load.operations]


def _wanted(operation: Operation, begin_s: float, span_s: float) -> Number:
    schedule = operation.schedule
    if isinstance(schedule, WhenReady):
        return schedule.wanted_per_s * span_s
    # Where the interval does not fit the windows, weeks differ: what counts is their mean.
    several = SEVERAL if span_s % WEEK_S < 1.0 else 1
    return schedule.runs_between(begin_s, begin_s + several * span_s) / several

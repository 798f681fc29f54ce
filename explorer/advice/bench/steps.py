"""A step of current at the head of a log, from which the resistance of the store follows."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from explorer.advice.bench.noise import noise_of
from explorer.quantity import show
from explorer.scenario.logged_run import BenchRun
from explorer.text import say

SETTLED = 0.01
"""Share of the log within which a step is over: the reading falls through the resistance, and then
charge moves within the electrodes (own judgement)."""
CURVE_TO = 0.25
"""Share of the log up to which its fall is drawn back to the beginning, by a parabola; IEC 62391-1
takes a straight line, which the capacitance of most units bends."""
CLEAR = 8.0
"""How many times the noise a step must be, and half as many times what the curve leaves."""
LEAST_ROWS = 10
"""Rows that must be left of a log that is cut."""
BEYOND, OVER = 0.3, 0.1
"""Shares of the drop that are left where it counts as a step, and where it is over."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """The store at rest, then under a current."""

    drop_v: float
    """From the first reading to the curve of what follows, drawn back to it. [V]"""
    rows: int
    """Rows at the head that the step takes."""


def step_of(run: BenchRun) -> Step | None:
    """The step with which a log begins; None where it begins in no step.

    Examples
    --------
    >>> t = np.arange(0.0, 100.0, 0.2)
    >>> v = np.where(t > 0.0, 2.9 - 0.01 * t, 3.0)
    >>> run = BenchRun(name="a", time_s=t, volts=v, low_v=v, high_v=v, step_s=0.2, readings=500)
    >>> round(step_of(run).drop_v, 6)
    0.1
    """
    time_s, volts = run.time_s, run.volts
    after = (time_s >= SETTLED * run.span_s) & (time_s <= CURVE_TO * run.span_s)
    early = int(np.searchsorted(time_s, SETTLED * run.span_s))
    if early < 1 or np.count_nonzero(after) < 8:
        return None
    curve = np.polynomial.Polynomial.fit(time_s[after], volts[after], 2)
    left_v = np.abs(volts[: early + 1] - curve(time_s[: early + 1]))
    drop_v = float(volts[0] - curve(time_s[0]))
    rough_v = float(np.std(volts[after] - curve(time_s[after])))
    if drop_v < CLEAR * max(noise_of(volts), 0.5 * rough_v, 1e-4):
        return None
    if left_v.min() > BEYOND * drop_v:
        return None
    over = np.flatnonzero(left_v <= OVER * drop_v)
    rows = int(over[0]) if len(over) else early
    return Step(drop_v=drop_v, rows=rows)


def until_cut_off(run: BenchRun, disconnect_v: float) -> BenchRun:
    """A discharge from rest, as far as the device draws; any other run as it is.

    Whatever empties a store below the voltage at which the device cuts off is not the device.
    """
    below = np.flatnonzero(run.volts < disconnect_v)
    if not len(below) or below[0] < LEAST_ROWS or step_of(run) is None:
        return run
    end = int(below[0])
    note = say(
        "The log goes on below the cut-off at {volts}; it is compared up to there, after {time}.",
        volts=show(disconnect_v, "V"),
        time=show(float(run.time_s[end]), "s"),
    )
    return replace(
        run, time_s=run.time_s[:end], volts=run.volts[:end], low_v=run.low_v[:end],
        high_v=run.high_v[:end], notes=(*run.notes, note),
    )  # fmt: skip

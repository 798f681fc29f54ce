"""What the engine is given: a panel in changing light, a charger, a store and a load."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from explorer.physics.arrays import FloatArray, Number
from explorer.physics.charger import Converter, DirectCharger
from explorer.physics.load import Draw, Regulator
from explorer.physics.panel import Panel
from explorer.physics.store import Store

WEEK_S = 604_800.0
DAY_S = 86_400.0
LEAST_LOAD_V = 0.3
"""Voltage for which a load's currents are told at least; a device that runs below this is rare
(own judgement). [V]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class LightCourse:
    """Light that is constant between edges and repeats after the last one."""

    edges_s: FloatArray
    """Shape (n + 1,), beginning at 0 and rising. [s]"""
    photocurrent_a: FloatArray
    """Of the whole array, shape (n,). [A]"""
    illuminance_lx: FloatArray
    """At the place, shape (n,). [lx]"""
    begins_at_s: float = 0.0
    """Seconds since Monday 00:00 at which the course begins; places weekly windows. [s]"""

    @property
    def period_s(self) -> float:
        """Time after which the course repeats. [s]"""
        return float(self.edges_s[-1])


@dataclass(frozen=True, slots=True, kw_only=True)
class Phase:
    """A stretch of constant draw at the store's terminals."""

    draw: Draw
    duration_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Periodic:
    """Repeat at an interval inside windows of the week."""

    interval_s: float
    windows_s: tuple[tuple[float, float], ...]
    """Start and end since Monday 00:00, in order and apart; the whole week means always. [s]"""

    @property
    def always(self) -> bool:
        """Whether it is due at every hour."""
        return self.windows_s == ((0.0, WEEK_S),)

    def runs_between(self, begin_s: float, end_s: float) -> Number:
        """Runs that begin in a span of a device that is never off; plain, or a column.

        A run begins when the interval since the last is over and a window is open, so that of
        windows shorter than the interval some see none.

        Parameters
        ----------
        begin_s, end_s : float
            Times since a Monday 00:00. [s]
        """
        interval = np.asarray(self.interval_s, float)
        if self.always:
            return (end_s - begin_s) / interval
        opens, closes = np.array(self.windows_s).T
        week = WEEK_S * np.arange(begin_s // WEEK_S, end_s // WEEK_S + 1.0)[:, None]
        due, count = np.full(interval.shape, begin_s), np.zeros(interval.shape)
        for opening, closing in zip(
            (week + opens).ravel().tolist(),
            np.minimum(week + closes, end_s).ravel().tolist(), strict=True,
        ):
            first = np.maximum(opening, due)
            runs = np.maximum(np.ceil((closing - first) / interval - 1e-9), 0.0)
            due = np.where(runs > 0, first + runs * interval, due)
            count = count + runs
        return count if interval.ndim else float(count)


@dataclass(frozen=True, slots=True, kw_only=True)
class WhenReady:
    """Run whenever the store's open-circuit voltage has reached a level."""

    ready_v: float
    wanted_per_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """Phases that run one after another, again and again."""

    name: str
    schedule: Periodic | WhenReady
    phases: tuple[Phase, ...]

    @property
    def duration_s(self) -> float:
        """Length of one run. [s]"""
        return sum(p.duration_s for p in self.phases)


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """Load switch, regulator and device."""

    connect_v: float
    off_v: float
    """Terminal voltage below which the device is off: the switch's threshold, the device's
    minimum or the regulator's need, whichever is highest. [V]"""
    minimum_v: float
    """The device's own need at the store's terminals, regulator included. [V]"""
    bulk_f: float
    start_up: tuple[Phase, ...]
    sleep: Draw
    operations: tuple[Operation, ...]
    regulator: Regulator = None
    retry_delay_s: float = 1.0
    """Least time from a cut-off to the next connect. [s]"""
    reserve_j: float = 0.0
    until_empty: Operation | None = None
    """What runs from every connect until the cut-off, as it is judged: waiting for the connect
    voltage, start-up included, for the least length that counts. The march knows it as `sleep`,
    and no operations."""


@dataclass(frozen=True, slots=True, kw_only=True)
class System:
    """Everything that one run of the engine needs."""

    light: LightCourse
    panel: Panel
    charger: DirectCharger | Converter
    full_v: float
    full_hysteresis_v: float
    quiescent_a: float
    store: Store
    initial_charge_c: float
    load: Load


def as_judged(system: System) -> System:
    """The system with all it should do among its operations, as balance and pulses are judged.

    What runs until the store gives out counts with the least length that is wanted of it; a march
    lets it run as long as there is anything.
    """
    until = system.load.until_empty
    if until is None:
        return system
    return replace(system, load=replace(system.load, sleep=Draw(), operations=(until,)))

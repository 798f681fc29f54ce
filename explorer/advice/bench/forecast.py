"""A forecast held against a logged run: the model started where the log starts, and what is left.

What a meter shows is the voltage at the store's terminals, so that is what is compared.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from datetime import datetime
from math import isfinite

import numpy as np
from numpy.typing import NDArray

from explorer.advice.bench.conditions import under_conditions
from explorer.advice.bench.steps import step_of, until_cut_off
from explorer.advice.case import TABLES, Case
from explorer.engine.columns import Voltages
from explorer.engine.course import Standing
from explorer.engine.keys import OFF, On
from explorer.engine.march import Engine
from explorer.engine.trace import Trace
from explorer.physics.arrays import FloatArray
from explorer.physics.load import terminal_voltage
from explorer.scenario.logged_run import BenchRun, thinned
from explorer.scenario.model import Scenario
from explorer.text import say

YEAR_S = 365.0 * 86_400.0
"""Length of the course of daylight, which has no 29 February. [s]"""
BAND_SHARE = 0.01
"""How far from the forecast's pulse envelope a reading may lie, as a share of the full voltage
(own judgement: a bench meter and the tabulated motion together stay well within it)."""
SHOWN_ROWS = 2000
"""Rows that are compared and drawn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """A logged run and the forecast at its moments; arrays of shape (n,)."""

    run: BenchRun
    forecast_v: FloatArray
    """Terminal voltage between pulses. [V]"""
    low_v: FloatArray
    """Lower edge of the band that the readings may lie in. [V]"""
    high_v: FloatArray
    """Upper edge of the band. [V]"""
    illuminance_lx: FloatArray
    """Light that the forecast was made under. [lx]"""
    connected: bool
    """Whether the device is taken as connected when the log begins."""
    begin_s: float
    """Time within the light's course at which the log begins. [s]"""
    notes: tuple[str, ...]
    """What was assumed, one sentence each."""

    @property
    def residual_v(self) -> FloatArray:
        """Reading less forecast. [V]"""
        return self.run.volts - self.forecast_v

    @property
    def rms_v(self) -> float:
        """Root of the mean square of the residuals. [V]"""
        return float(np.sqrt(np.mean(self.residual_v**2)))

    @property
    def bias_v(self) -> float:
        """Mean of the residuals. [V]"""
        return float(np.mean(self.residual_v))

    @property
    def worst(self) -> tuple[float, float]:
        """The residual that is largest either way [V], and when it was [s]."""
        at = int(np.argmax(np.abs(self.residual_v)))
        return float(self.residual_v[at]), float(self.run.time_s[at])

    @property
    def outside(self) -> NDArray[np.bool_]:
        """Which rows lie outside of the band."""
        return (self.run.volts < self.low_v) | (self.run.volts > self.high_v)

    @property
    def outside_share(self) -> float:
        """Share of the rows that lie outside of the band."""
        return float(np.mean(self.outside))

    @property
    def stretches(self) -> tuple[tuple[float, float], ...]:
        """Where the run leaves the band, from and to. [s]"""
        edges = np.flatnonzero(np.diff(np.concatenate([[0], self.outside.astype(np.int8), [0]])))
        t = self.run.time_s
        return tuple(
            (float(t[a]), float(t[b - 1])) for a, b in zip(edges[::2], edges[1::2], strict=True)
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Beginning:
    """Where and how a forecast begins, or begins anew."""

    first_v: float
    """Terminal voltage at its first row. [V]"""
    connected: bool
    row: int = 0
    at_rest: bool = False
    """Whether the voltage was read at rest, before a current stepped in: then it is that of the
    store, behind its resistance."""


def agreement(case: Case, run: BenchRun, beginning: Beginning | None = None) -> Agreement:
    """The forecast along a run, and how well it fits.

    Parameters
    ----------
    case : Case
        The device that was logged; its own measured light does not count where the run brings its
        own.
    run : BenchRun
        Joined to `SHOWN_ROWS` rows where it is longer.
    beginning : Beginning, optional
        Where the forecast begins; at the first reading when left out.

    Raises
    ------
    ValueError
        The forecast cannot be followed over the whole run.
    """
    case = under_conditions(case, run)
    run = thinned(until_cut_off(run, case.scenario.load.disconnect_V), SHOWN_ROWS)
    begin_s, scenario = begins_at(case, run), case.scenario
    start = beginning or first_beginning(case, run)
    found = forecast(case, run, (start,))
    spare = BAND_SHARE * scenario.charger.full_V
    low = np.minimum(found.terminal_min_v, found.terminal_v)
    high = np.maximum(_between_pulses(case, found), found.terminal_v)
    # When a full store turns within the charger's hysteresis is chance.
    full_v = scenario.charger.full_V
    resume_v = full_v - scenario.charger.full_hysteresis_V
    is_full = found.terminal_v >= resume_v
    return Agreement(
        run=run,
        forecast_v=found.terminal_v,
        low_v=np.where(is_full, np.minimum(low, resume_v), low) - spare,
        high_v=np.where(is_full, np.maximum(high, full_v), high) + spare,
        illuminance_lx=found.illuminance_lx,
        connected=start.connected,
        begin_s=begin_s,
        notes=(*run.notes, *_assumed(scenario, run, start)),
    )


def _between_pulses(case: Case, found: Voltages) -> FloatArray:
    """Terminal voltage of a device that only sleeps, in the dark: below the store's by its drop."""
    system = case.system
    under_load = terminal_voltage(
        found.store_v, 0.0, system.load.sleep, float(np.asarray(system.store.series_ohm))
    )
    return np.where(found.connected, under_load, found.store_v)


def begins_at(case: Case, run: BenchRun) -> float:
    """Time within the scenario's course of light at which a run begins. [s]

    A date places the run in the week of lit blocks, and in the year of daylight; without one it
    begins on Monday at midnight, on New Year's Day, or where the light's own log begins.
    """
    log, pattern = case.log, case.scenario.light.pattern
    if run.light is None and pattern.kind == "daylight" and run.start is not None:
        start = run.start.replace(tzinfo=None)
        return (start - datetime(start.year, 1, 1)).total_seconds() % YEAR_S
    if run.light is None and pattern.kind == "week":
        return run.start_of_week_s
    if run.light is not None or log is None or log.start is None or run.start is None:
        return 0.0
    if (log.start.tzinfo is None) != (run.start.tzinfo is None):
        return 0.0
    late_s = (run.start - log.start).total_seconds()
    return late_s if 0.0 <= late_s < log.duration_s else 0.0


def first_beginning(case: Case, run: BenchRun) -> Beginning:
    """The beginning at the first reading.

    Between cut-off and connect voltage a device may be on or off; whichever follows the run better
    counts.
    """
    first_v, load = float(run.volts[0]), case.scenario.load
    told = run.conditions.connected
    if told is not False and step_of(run) is not None and first_v > load.disconnect_V:
        return Beginning(first_v=first_v, connected=True, at_rest=True)
    if told is not None:
        return Beginning(first_v=first_v, connected=told)
    if first_v >= load.connect_V:
        return Beginning(first_v=first_v, connected=True)
    if first_v <= load.disconnect_V:
        return Beginning(first_v=first_v, connected=False)
    choices = [Beginning(first_v=first_v, connected=on) for on in (True, False)]
    few = thinned(run, 300)
    misses = [
        float(np.abs(few.volts - forecast(case, few, (c,), lowest=False).terminal_v).mean())
        for c in choices
    ]
    return choices[int(np.argmin(misses))]


def forecast(
    case: Case, run: BenchRun, begins: Sequence[Beginning], *, lowest: bool = True
) -> Voltages:
    """The model at the moments of a run, under the light that counts for it.

    `terminal_min_v` is the lowest around each moment, within the longest interval of the
    operations: a log and a model do not begin their pulses at the same moment.

    Parameters
    ----------
    case : Case
        As `under_conditions` gives it.
    run : BenchRun
        Gives the moments.
    begins : sequence of Beginning
        Where the forecast begins, at the first row, and where it begins anew.
    lowest : bool
        False leaves out what lies around the moments, which is most of the work.

    Raises
    ------
    ValueError
        More happens than can be followed.
    """
    system = case.system
    # The tables must reach up to where the run begins.
    volts = np.maximum(max(b.first_v for b in begins) + 0.1, system.store.empty_v)
    system = replace(system, initial_charge_c=float(system.store.charge_at(volts)))
    engine = Engine(system, library=TABLES)
    offset_s, width_s = begins_at(case, run), window_s(case.scenario, run) if lowest else 0.0
    rows = [b.row for b in begins] + [len(run.time_s)]
    parts = [
        _along(engine, run.time_s[a:b], begin, offset_s, width_s)
        for begin, a, b in zip(begins, rows, rows[1:], strict=False)
    ]
    return Voltages(
        **{
            name.name: np.concatenate([getattr(part, name.name) for part in parts])
            for name in fields(Voltages)
        }
    )


def _along(
    engine: Engine, time_s: FloatArray, begin: Beginning, offset_s: float, width_s: float
) -> Voltages:
    """One part of a forecast at its moments."""
    begin_s, span_s = offset_s + float(time_s[0]), float(time_s[-1] - time_s[0])
    done = engine.march(span_s + 1e-3, _start(engine, begin, begin_s), begin_s=begin_s)
    if done.span_s < span_s:
        raise ValueError(
            say("More happens in this run than can be followed; log a shorter stretch.")
        )
    found = Trace(engine, done).voltages(time_s - time_s[0], width_s)
    return replace(found, time_s=time_s)


def window_s(scenario: Scenario, run: BenchRun) -> float:
    """Time within which each pulse comes by once; not less than the rows are apart. [s]"""
    apart_s = run.span_s / max(len(run.time_s) - 1, 1)
    intervals = (
        op.schedule.interval_s for op in scenario.load.operations if op.schedule.kind == "every"
    )
    return max(apart_s, *intervals, 1e-6)


def _start(engine: Engine, beginning: Beginning, begin_s: float) -> Standing:
    """The state in which the terminals show the first reading."""
    field, period = engine.field, engine.edges[-1]
    at = int(np.searchsorted(engine.edges, begin_s % period, side="right")) - 1
    level = engine.levels[min(max(at, 0), len(engine.levels) - 1)]
    draw = On() if beginning.connected else OFF
    regime = engine.motion(level.low_a, True, draw).regime
    if beginning.at_rest:
        open_v = min(max(beginning.first_v, field.open_v[0]), field.open_v[-1])
        return Standing(charge_c=float(field.charge_at(open_v)), connected=beginning.connected)
    charge = regime.charge_at_terminal(field, beginning.first_v)
    if not isfinite(charge):
        ends = field.charge_c[[0, -1]]
        charge = float(ends[0] if charge < 0 else ends[1])
    return Standing(charge_c=charge, connected=beginning.connected)


def _assumed(scenario: Scenario, run: BenchRun, start: Beginning) -> tuple[str, ...]:
    notes: list[str] = []
    undated = run.start is None and run.conditions.begins_s is None
    if run.light is None and undated and scenario.light.pattern.kind == "week":
        notes.append(
            say("The log has no date, so it is taken to begin on Monday at midnight.")
        )
    told = run.conditions.connected is not None
    if not told and scenario.load.disconnect_V < start.first_v < scenario.load.connect_V:
        notes.append(
            say("The device is taken as connected when the log begins.")
            if start.connected
            else say("The device is taken as not connected when the log begins.")
        )
    return tuple(notes)

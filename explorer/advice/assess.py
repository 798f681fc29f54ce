"""One assessment of a scenario: verdict, answers and what the window draws."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from explorer.advice.answers import answers
from explorer.advice.case import Case, judging, kept
from explorer.advice.judge import judge
from explorer.advice.readings import START_UP
from explorer.advice.readings.found import readings
from explorer.advice.readings.indicator import indicator_level
from explorer.advice.readings.one import opening, study
from explorer.advice.readings.pulse import inrush
from explorer.advice.verdict import Verdict
from explorer.advice.year.answers import opening_trace, year_trace
from explorer.advice.year.readings import worst_of_course
from explorer.advice.year.study import year_study
from explorer.engine.flows import Flow
from explorer.engine.keys import OFF, DrawKey, On, StartUp
from explorer.engine.seasons_trace import SeasonsTrace
from explorer.engine.system import System, as_judged
from explorer.engine.trace import Trace
from explorer.physics import load as ld
from explorer.physics.arrays import FloatArray
from explorer.quantity import show
from explorer.scenario.model import Scenario
from explorer.text import say

POINTS = 9
"""Points along one phase of the zoomed pulse."""
MOST_POINTS = 4000
"""Points of the whole zoomed pulse, where it has many phases; each has two at least."""
MOST_MARKS = 400
"""Events of a run that are kept as marks."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """Something that happened at a moment of the trace."""

    time_s: float
    kind: str
    """`connect`, `disconnect`, `brown_out` or `full`."""
    volts: float
    """Open-circuit voltage of the store then. [V]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Threshold:
    """A voltage that the trace is read against."""

    label: str
    volts: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PulseView:
    """The deepest pulse at the lowest store voltage, split into its step and its ramp."""

    title: str
    time_s: FloatArray
    store_v: FloatArray
    terminal_v: FloatArray
    minimum_v: float
    step_v: float
    """Droop across the series resistance. [V]"""
    ramp_v: float
    """Fall of the store's own voltage. [V]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Assessment:
    """All that one evaluation of the model says."""

    case: Case
    verdict: Verdict
    answers: dict[str, float]
    """Numbers with a unit suffix; infinite means never or without end. Empty where they were
    not asked for."""
    trace: Trace
    """The run from the scenario's own beginning."""
    repeating: Trace
    """The course that repeats, which the checks judge."""
    marks: tuple[Mark, ...]
    thresholds: tuple[Threshold, ...]
    period_s: float
    """Time after which the light repeats. [s]"""

    @property
    def scenario(self) -> Scenario:
        """The design."""
        return self.case.scenario

    @property
    def pulse(self) -> PulseView | None:
        """The deepest pulse; None where the device draws none. Few look at it."""
        return pulse_view(self.case)


def assess(
    case: Case, *, span_s: float | None = None, with_answers: bool = True
) -> Assessment:
    """Verdict, answers and trace of a case.

    Parameters
    ----------
    case : Case
        What is judged.
    span_s : float, optional
        Length of the trace; one period of the light when left out. [s]
    with_answers : bool
        False leaves the answers out, which saves a quarter of the work while a knob is dragged.
    """
    with judging():
        return _assessed(case, span_s, with_answers)


def _assessed(case: Case, span_s: float | None, with_answers: bool) -> Assessment:
    if case.year is not None:
        return _year_assessed(case, with_answers)
    found = study(case)
    period = found.engine.edges[-1]
    span = period if span_s is None else span_s
    run = opening(case) if span == period else found.engine.march(span)
    events = run.events[:MOST_MARKS]
    volts = found.engine.field.voltage_at(np.array([e.charge_c for e in events]))
    marks = tuple(
        Mark(time_s=e.time_s, kind=e.kind, volts=v)
        for e, v in zip(events, volts.tolist(), strict=True)
    )
    return Assessment(
        case=case,
        verdict=judge(case),
        answers=answers(case) if with_answers else {},
        trace=found.repeating.beside(run),
        repeating=found.repeating,
        marks=marks,
        thresholds=_thresholds(case, found.system),
        period_s=period,
    )


def run_for(case: Case, span_s: float | None = None) -> Trace:
    """The run from the scenario's own beginning; of a year from its hanging-up.

    Parameters
    ----------
    case : Case
        The design.
    span_s : float, optional
        How long; one period of the light when left out. [s]
    """
    if case.year is None:
        engine = case.engine
        return Trace(engine, engine.march(engine.edges[-1] if span_s is None else span_s))
    if span_s is None:
        return opening_trace(case)
    found = year_study(case)
    begin = found.opening.parts[0].start
    run = found.seasons.march(span_s, begin, begin_s=found.hung_s)
    return SeasonsTrace(found.seasons, run.parts)


def _year_assessed(case: Case, with_answers: bool) -> Assessment:
    """The same of a year: its trace always lasts a year, from the hanging-up on."""
    found, marks = year_study(case), []
    for part, event in found.opening.events(MOST_MARKS):
        volts = found.seasons.engines[part.month].field.voltage_at(event.charge_c)
        marks.append(Mark(time_s=event.time_s, kind=event.kind, volts=float(volts)))
    pulsed = found.months[worst_of_course(case, "pulse")].engine
    return Assessment(
        case=case,
        verdict=judge(case),
        answers=answers(case) if with_answers else {},
        trace=opening_trace(case),
        repeating=year_trace(case),
        marks=tuple(marks),
        thresholds=_thresholds(case, pulsed.system),
        period_s=found.seasons.year_s,
    )


def _thresholds(case: Case, system: System) -> tuple[Threshold, ...]:
    scenario = case.scenario
    rows = [
        Threshold(label=say("full"), volts=scenario.charger.full_V),
        Threshold(label=say("connects"), volts=scenario.load.connect_V),
        Threshold(label=say("cuts off"), volts=system.load.off_v),
    ]
    level_v = indicator_level(case)
    if level_v is not None:
        rows.append(Threshold(label=say("indicator"), volts=round(level_v, 2)))
    return tuple(rows)


@kept
def pulse_view(case: Case) -> PulseView | None:
    """The deepest pulse of a case; of a year that of the month in which it is the deepest."""
    pulse = readings(case).pulse
    if pulse is None:
        return None
    if case.year is None:
        engine = study(case).engine
    else:
        engine = year_study(case).months[worst_of_course(case, "pulse")].engine
    system, field = as_judged(engine.system), engine.field
    load = system.load
    esr = field.curve.esr_ohm
    quiet = ld.Draw(current_a=system.quiescent_a)
    idle = load.sleep + quiet
    number, low = int(pulse.operation[0]), float(pulse.begin_v[0])
    q = field.charge_at(min(low, float(field.open_v[-1])))
    name: str = say("start-up")
    phases, beside = load.start_up, quiet
    keys: list[DrawKey] = [OFF, *(StartUp(k) for k in range(len(phases))), On()]
    if number != START_UP:
        phases, beside = load.operations[number].phases, idle
        name = load.operations[number].name
        keys = [On(), *(On(active=((number, k),)) for k in range(len(phases))), On()]
        if load.until_empty is not None:
            idle = beside = quiet
            keys = [OFF, *(StartUp(k) for k in range(len(phases) - 1)), On(), OFF]
    lead = 0.2 * sum(p.duration_s for p in phases)
    stretches = [(quiet if number == START_UP else idle, lead)]
    stretches += [(beside + p.draw, p.duration_s) for p in phases]
    stretches.append((idle, lead))
    begin_c: list[float] = []
    phases_of: dict[Flow, list[int]] = {}
    for i, (key, (_, duration)) in enumerate(zip(keys, stretches, strict=True)):
        if i == 1 and number == START_UP:
            q = max(q - float(inrush(system, 1)[0]), 0.0)
        flow = engine.motion(0.0, False, key).flow
        phases_of.setdefault(flow, []).append(i)
        begin_c.append(q)
        q = flow.advance(q, duration)
    lengths = np.array([duration for _, duration in stretches])
    points = max(min(POINTS, MOST_POINTS // len(lengths)), 2)
    since = lengths[:, None] * np.linspace(0.0, 1.0, points)
    charge = np.repeat(np.array(begin_c)[:, None], points, axis=1)
    for flow, some in phases_of.items():
        moved = flow.advance_all(charge[some].ravel(), since[some].ravel())
        charge[some] = moved.reshape(-1, points)
    volts = field.voltage_at(charge)
    amps, watts, siemens = np.array(
        [(d.current_a, d.power_w, d.conductance_s) for d, _ in stretches], float
    ).T[:, :, None]
    drawn = ld.Draw(current_a=amps, power_w=watts, conductance_s=siemens)
    terminal = np.maximum(ld.terminal_voltage(volts, 0.0, drawn, esr), 0.0)
    starts = np.concatenate([[-lead], np.cumsum(lengths[:-1]) - lead])
    ramp = float(pulse.ramp_v[0])
    return PulseView(
        title=say("{operation} at {volts}", operation=name, volts=show(low, "V")),
        time_s=(starts[:, None] + since).ravel(),
        store_v=volts.ravel(),
        terminal_v=terminal.ravel(),
        minimum_v=load.minimum_v,
        step_v=low - float(pulse.lowest_v[0]) - ramp,
        ramp_v=ramp,
    )


__all__ = ["Assessment", "Mark", "PulseView", "Threshold", "assess", "judge"]

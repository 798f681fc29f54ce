"""The runs behind a verdict: first charge, repeating course, dark stretches, one charge."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, isfinite

import numpy as np

from explorer.advice.case import Case, kept
from explorer.engine.course import Standing, StopAt, Trajectory
from explorer.engine.motions import Engine
from explorer.engine.pulses import lowest_begin
from explorer.engine.sample import Extremes, columns, extremes
from explorer.engine.steady import STUDY_LEGS, RepeatingCourse, repeating_course
from explorer.engine.system import WEEK_S, Periodic, System, WhenReady
from explorer.engine.walk import MOST_TRIES
from explorer.physics import load as ld
from explorer.scenario.model import Scenario

DARK_LIMIT_S = 40 * 365.25 * 86_400.0
OPENING_COLUMNS = 1000
FARTHEST = 20.0
"""A dark stretch is followed for this many times its length; a longer margin says nothing."""
STUCK = 1e-7
"""Relative change of charge over a period below which a store that never connected is stuck."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstCharge:
    """From an empty store to the first operation."""

    seconds: float
    """Infinite where it never gets there. [s]"""
    connects: float
    """How often the load was connected on the way."""
    stuck_v: float
    """Highest voltage reached where it never gets there. [V]"""
    looked_s: float
    """Time that was looked at. [s]"""
    end: Standing
    end_s: float
    """Time within the light's course at the end. [s]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class DarkStretch:
    """A stretch in which the store pays for everything."""

    needed_s: float
    available_s: float
    begin_v: float
    closure: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Study:
    """Everything that checks and answers are read from."""

    case: Case
    system: System
    engine: Engine
    opening: Trajectory
    """The first period from the scenario's own beginning."""
    first: FirstCharge
    course: RepeatingCourse
    extremes: Extremes
    lowest_between_v: float
    """Lowest store voltage at which a pulse begins in the repeating course; infinite where none
    does. [V]"""
    dark: tuple[DarkStretch, ...]
    available_c: float
    """Charge that the charger could deliver in a period with the store at connect level. [C]"""
    needed_c: float
    """Charge that everything wanted takes in a period at that level. [C]"""
    served: tuple[float, ...]
    wanted: tuple[float, ...]

    @property
    def scenario(self) -> Scenario:
        """The design."""
        return self.case.scenario


@kept
def study(case: Case) -> Study:
    """Run all that a verdict needs."""
    scenario, system, engine = case.scenario, case.system, case.engine
    opening = _opening(engine)
    first = _started(engine, opening)
    if first is not None:
        course = repeating_course(engine, opening.end)
    else:
        first = _first_charge(engine, scenario.margins.start_within_h * 3600.0)
        course = _settled(engine, first)
    trace = columns(engine, course.run, 0)
    found = extremes(trace)
    available, needed = _budget_at_connect(engine)
    return Study(
        case=case,
        system=system,
        engine=engine,
        opening=opening,
        first=first,
        course=course,
        extremes=found,
        lowest_between_v=lowest_begin(engine, course.run),
        dark=_dark_stretches(engine, course, scenario.margins.closure_days * 86_400.0),
        available_c=available,
        needed_c=needed,
        served=tuple(course.run.tally.served),
        wanted=wanted_runs(system, course.run.span_s),
    )


def wanted_runs(system: System, span_s: float) -> tuple[float, ...]:
    """Runs that each operation should complete in a span from the beginning of the light.

    A log that covers a part of the week wants what its own hours want, not a mean week.
    """
    begin = system.light.begins_at_s
    wanted = []
    for op in system.load.operations:
        schedule = op.schedule
        if isinstance(schedule, WhenReady):
            wanted.append(schedule.wanted_per_s * span_s)
            continue
        if schedule.always:
            wanted.append(span_s / schedule.interval_s)
            continue
        opens, closes = np.array(schedule.windows_s).T
        week = WEEK_S * np.arange(begin // WEEK_S, (begin + span_s) // WEEK_S + 1.0)[:, None]
        opens = np.maximum(week + opens, begin)
        closes = np.minimum(week + closes, begin + span_s)
        runs = np.ceil(np.maximum(closes - opens, 0.0) / schedule.interval_s - 1e-9)
        wanted.append(float(runs.sum()))
    return tuple(wanted)


def first_light(system: System) -> float:
    """Time within the course at which the light first comes on. [s]"""
    lit = np.flatnonzero(system.light.photocurrent_a > 0)
    return float(system.light.edges_s[lit[0]]) if len(lit) else 0.0


def _full_charge(engine: Engine) -> float:
    return min(engine.field.full_c, float(engine.field.charge_c[-1]))


def _opening(engine: Engine) -> Trajectory:
    """The first period from the scenario's own beginning, with legs short enough to be drawn."""
    period = engine.edges[-1]
    return engine.march(period, longest_leg_s=period / OPENING_COLUMNS, most_legs=STUDY_LEGS)


def _started(engine: Engine, opening: Trajectory) -> FirstCharge | None:
    """The first charge as the opening shows it: an empty store that starts in the first period."""
    empty = engine.system.initial_charge_c <= float(engine.field.charge_c[0])
    whole = opening.span_s >= engine.edges[-1] - 1e-6
    light_s, done_s = first_light(engine.system), opening.first_operation_s
    if not (empty and whole and light_s <= done_s < inf):
        return None
    connects = sum(e.kind == "connect" and e.time_s <= done_s for e in opening.events)
    leg = next(leg for leg in opening.legs if leg.end_s > done_s)
    return FirstCharge(
        seconds=done_s - light_s, connects=float(connects), stuck_v=0.0,
        looked_s=done_s - light_s,
        end=Standing(charge_c=leg.begin_c, connected=True, charging=leg.charging), end_s=done_s,
    )


def _first_charge(engine: Engine, allowed_s: float) -> FirstCharge:
    period = engine.edges[-1]
    begin = first_light(engine.system)
    state = Standing(charge_c=0.0, connected=False)
    passed = connects = 0.0
    limit = max(4.0 * allowed_s, 2.0 * period)
    highest = 0.0
    while passed < limit:
        run = engine.march(
            period, state, begin_s=begin + passed, stop_at=StopAt.FIRST_OPERATION,
            most_legs=STUDY_LEGS,
        )
        connects += run.tally.connects
        if isfinite(run.first_operation_s):
            done = passed + run.first_operation_s
            return FirstCharge(
                seconds=done, connects=connects, stuck_v=0.0, looked_s=done, end=run.end,
                end_s=begin + done,
            )
        highest = max(highest, max((leg.end_c for leg in run.legs), default=0.0))
        passed += period
        moved = abs(run.end.charge_c - state.charge_c)
        state = run.end
        if run.tally.cut_offs >= MOST_TRIES:
            break
        if moved <= STUCK * _full_charge(engine):
            break
    return FirstCharge(
        seconds=inf, connects=connects, stuck_v=float(engine.field.voltage_at(highest)),
        looked_s=passed, end=state, end_s=begin + passed,
    )


def _settled(engine: Engine, first: FirstCharge) -> RepeatingCourse:
    """The course that follows from the first operation, or from a full store without one."""
    period = engine.edges[-1]
    if isfinite(first.seconds):
        into = first.end_s % period
        run = engine.march(period - into, first.end, begin_s=into, most_legs=STUDY_LEGS)
        return repeating_course(engine, run.end)
    full = Standing(charge_c=_full_charge(engine), connected=True, charging=False)
    return repeating_course(engine, full)


def mean_draw(engine: Engine, volts: float) -> float:
    """Mean current of everything wanted, leakage included, at a store voltage. [A]"""
    system, field = engine.system, engine.field
    esr = field.curve.esr_ohm

    def drawn(draw: ld.Draw) -> float:
        terminal = float(ld.terminal_voltage(volts, 0.0, draw, esr))
        return float(ld.drawn_current(draw, terminal if terminal > 0 else volts))

    idle = drawn(system.load.sleep)
    total = idle + system.quiescent_a
    total += float(np.interp(volts, field.open_v, field.curve.leak_a))
    period = system.light.period_s
    for op, runs in zip(system.load.operations, wanted_runs(system, period), strict=True):
        extra = sum(
            (drawn(system.load.sleep + p.draw) - idle) * p.duration_s for p in op.phases
        )
        total += extra * runs / period
    return total


def _budget_at_connect(engine: Engine) -> tuple[float, float]:
    span = np.diff(engine.edges)
    needed = mean_draw(engine, engine.system.load.connect_v) * engine.edges[-1]
    return float(np.maximum(engine.charge_a, 0.0) @ span), needed


def dark_gaps(engine: Engine) -> list[tuple[float, float]]:
    """Stretches (begin, length) in which the light gives less than the mean draw. [s]"""
    short = engine.charge_a < mean_draw(engine, engine.system.load.connect_v)
    edges = engine.edges
    if short.all() or not short.any():
        return [(0.0, edges[-1])] if short.all() else []
    n = len(short)
    first = int(np.flatnonzero(~short)[0])
    gaps: list[tuple[float, float]] = []
    i = first
    while i < first + n:
        if short[i % n]:
            begin, length = edges[i % n], 0.0
            while i < first + n and short[i % n]:
                length += edges[i % n + 1] - edges[i % n]
                i += 1
            gaps.append((float(begin), float(length)))
        else:
            i += 1
    return gaps


def _level_at(run: Trajectory, seconds: float) -> float:
    """Charge at a time of a run. [C]"""
    times = [leg.begin_s for leg in run.legs]
    i = max(int(np.searchsorted(times, seconds + 1e-6, side="right")) - 1, 0)
    leg = run.legs[i]
    if leg.end_s <= leg.begin_s:
        return leg.end_c
    share = min(max((seconds - leg.begin_s) / (leg.end_s - leg.begin_s), 0.0), 1.0)
    return leg.begin_c + share * (leg.end_c - leg.begin_c)


def _dark_stretches(
    engine: Engine, course: RepeatingCourse, closure_s: float
) -> tuple[DarkStretch, ...]:
    gaps = dark_gaps(engine)
    if not gaps and closure_s <= 0:
        return ()
    longest = max((length for _, length in gaps), default=0.0)
    by_length = sorted(gaps, key=lambda g: -g[1])[:1]
    levels = [(_level_at(course.run, begin), begin) for begin, length in gaps
              if length >= 0.3 * longest]
    chosen = list(by_length)
    if levels:
        at = min(levels)[1]
        length = next(g[1] for g in gaps if g[0] == at)
        if (at, length) not in chosen:
            chosen.append((at, length))
    stretches = [
        _survive(engine, _level_at(course.run, begin), begin, length, closure=False)
        for begin, length in chosen
    ]
    if closure_s > 0:
        level, begin = min(levels) if levels else (_lowest_connected(course), 0.0)
        stretches.append(
            _survive(engine, level, begin, max(closure_s, longest), closure=True)
        )
    return tuple(stretches)


def _lowest_connected(course: RepeatingCourse) -> float:
    """Lowest charge of a course while connected: a closure may begin at the worst moment. [C]"""
    on = [min(leg.begin_c, leg.end_c) for leg in course.run.legs if leg.connected]
    return min(on, default=course.start.charge_c)


def _survive(
    engine: Engine, charge: float, begin_s: float, needed_s: float, *, closure: bool
) -> DarkStretch:
    """How long a store lasts in the dark, down to the cut-off or to the reserve."""
    run = engine.dark().march(
        FARTHEST * needed_s, Standing(charge_c=charge, connected=True), begin_s=begin_s,
        stop_at=StopAt.CUT_OFF,
    )
    available = run.span_s if run.tally.cut_offs else FARTHEST * needed_s
    if run.tally.cut_offs and engine.system.load.reserve_j > 0:
        available = min(available, _time_below(run, _reserve_charge(engine, run.end.charge_c)))
    return DarkStretch(
        needed_s=needed_s,
        available_s=available,
        begin_v=float(engine.field.voltage_at(charge)),
        closure=closure,
    )


def _time_below(run: Trajectory, charge: float) -> float:
    """First time at which a falling run is down to a charge; infinite if it never is. [s]"""
    for leg in run.legs:
        if leg.begin_c <= charge:
            return leg.begin_s
        if leg.end_c <= charge:
            flow = leg.cycles[0].generator if leg.cycles else leg.low.flow
            return leg.begin_s + min(flow.time_to(leg.begin_c, charge), leg.end_s - leg.begin_s)
    return inf


def _reserve_charge(engine: Engine, cut_c: float) -> float:
    """Charge that leaves the reserve above the charge at which the load is cut off. [C]"""
    q, v = engine.field.charge_c, engine.field.open_v
    energy = np.concatenate([[0.0], np.cumsum(0.5 * (v[1:] + v[:-1]) * np.diff(q))])
    floor_j = float(np.interp(cut_c, q, energy))
    return float(np.interp(floor_j + engine.system.load.reserve_j, energy, q))


def one_charge(engine: Engine) -> Trajectory:
    """From a full store in the dark until the load is cut off."""
    full = Standing(charge_c=_full_charge(engine), connected=True, charging=False)
    return engine.dark().march(DARK_LIMIT_S, full, stop_at=StopAt.CUT_OFF)


def full_charge_time(engine: Engine) -> float:
    """From empty to full without a load. [s]"""
    period = engine.edges[-1]
    begin = first_light(engine.system)
    state = Standing(charge_c=0.0, connected=False)
    unloaded = engine.unloaded()
    passed = 0.0
    for _ in range(60):
        run = unloaded.march(period, state, begin_s=begin + passed, stop_at=StopAt.FULL)
        if not run.end.charging:
            return passed + run.span_s
        passed += period
        if abs(run.end.charge_c - state.charge_c) <= STUCK * _full_charge(engine):
            break
        state = run.end
    return inf


def recovery_time(engine: Engine) -> float:
    """From the cut-off to the next operation, beginning when the light comes on. [s]"""
    cut_c = engine.field.charge_at(engine.system.load.off_v)
    begin = first_light(engine.system)
    run = engine.march(
        4.0 * engine.edges[-1],
        Standing(charge_c=min(cut_c, _full_charge(engine)), connected=False),
        begin_s=begin,
        stop_at=StopAt.FIRST_OPERATION,
    )
    return run.first_operation_s


__all__ = ["DarkStretch", "FirstCharge", "Periodic", "Study", "recovery_time", "study"]

"""Readings of one design by the exact march: first charge, course, dark, one charge."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, isfinite

import numpy as np

from explorer.advice.case import Case, kept
from explorer.advice.readings import DarkReading, PulseReading, Readings
from explorer.advice.readings.balance import (
    Balance,
    best_level,
    lowest_held,
    taken_current,
    wanted_runs,
)
from explorer.advice.readings.dark import Gap, InTheDark, gaps, nothing_in_the_dark, worst_dark
from explorer.advice.readings.pulse import Store, deepest_pulse
from explorer.advice.readings.required import required
from explorer.advice.readings.runs import Served, served_in
from explorer.advice.readings.starts import (
    FirstCharge,
    begins_empty,
    first_charge,
    full_charge,
    opening_run,
)
from explorer.engine.columns import Extremes
from explorer.engine.course import Standing, Trajectory
from explorer.engine.march import Engine
from explorer.engine.pulses import lowest_begins
from explorer.engine.steady import (
    HOPELESS_CUT_OFFS,
    LEFT_AFTER,
    STUDY_LEGS,
    RepeatingCourse,
    repeating_course,
)
from explorer.engine.system import DAY_S, System, WhenReady, as_judged
from explorer.engine.trace import Trace
from explorer.physics.arrays import FloatArray
from explorer.scenario.hours import HOUR_S
from explorer.scenario.ratings import ratings

LAST_TRIES = 8
"""Courses after a full store that are followed until a device that never starts is off for good."""
ALIKE = 1e-3
"""Share of the cut-offs by which two courses of a hopeless device may differ and count as one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Study:
    """The runs of one design: what its readings, its answers and its budget come from."""

    system: System
    engine: Engine
    first: FirstCharge
    course: RepeatingCourse
    """From the first operation, or from a full store where the device never starts."""
    repeating: Trace
    """Its run, to be asked at any moment."""
    gaps: tuple[Gap, ...]
    """Dark stretches of one period of the light."""
    in_the_dark: InTheDark
    """How long the store lasts without light."""

    @property
    def extremes(self) -> Extremes:
        """Of the course."""
        return self.repeating.extremes()

    @property
    def starts(self) -> bool:
        """Whether the device ever gets past its start-up."""
        return isfinite(self.first.seconds)


def study(case: Case) -> Study:
    """Run all that a verdict needs; cases that differ in what is asked of them share it."""
    allowed_s = case.scenario.margins.start_within_h * HOUR_S
    return case.once_under_any_margins(("study", allowed_s), lambda: _studied(case, allowed_s))


def opening(case: Case) -> Trajectory:
    """The first period from the scenario's own beginning."""
    return case.once_under_any_margins("opening", lambda: opening_run(case.engine))


def _studied(case: Case, allowed_s: float) -> Study:
    engine = case.engine
    # A beginning with an empty store is the first charge itself; another is only looked at.
    opens = opening(case) if begins_empty(engine) else None
    first = first_charge(engine, opens, allowed_s)
    course = _settled(engine, first, opens)
    brings = np.asarray(engine.charge_a) > 0.0
    return Study(
        system=case.system,
        engine=engine,
        first=first,
        course=course,
        repeating=Trace(engine, course.run),
        gaps=tuple(gaps(brings, np.asarray(engine.edges))),
        in_the_dark=InTheDark(engine),
    )


def _settled(
    engine: Engine, first: FirstCharge, opens: Trajectory | None
) -> RepeatingCourse:
    """The course that follows from the first operation, or from a full store without one."""
    if not isfinite(first.seconds):
        start = Standing(charge_c=full_charge(engine), connected=True, charging=False)
        course = repeating_course(engine, start)
        tries = 0.0 if opens is None else opens.tally.cut_offs
        seen = [tries] if tries > HOPELESS_CUT_OFFS else []
        for _ in range(LAST_TRIES):
            # What is left of the full store is spent in tries: in the end it is off for good.
            now = course.run.tally.cut_offs
            if now == 0 or any(_alike(now, before) for before in seen):
                break
            seen.append(now)
            course = repeating_course(engine, course.run.end)
        return course
    if first.opens and opens is not None:
        return repeating_course(engine, opens.end)
    period = engine.edges[-1]
    into = first.end_s % period
    run = engine.march(
        period - into, first.end, begin_s=into, most_legs=STUDY_LEGS, most_cut_offs=LEFT_AFTER
    )
    return repeating_course(engine, run.end)


def _alike(one: float, other: float) -> bool:
    """Whether as many cut-offs tell of one course."""
    few = max(one, other) <= HOPELESS_CUT_OFFS
    return one == other if few else abs(one - other) <= ALIKE * other


@kept
def readings(case: Case) -> Readings:
    """What the checks read of one design; arrays of length 1."""
    found = study(case)
    run, system, powers = found.course.run, found.system, held(case)
    span = run.span_s
    did = served(case)
    return Readings(
        ready_s=np.array([found.first.seconds]),
        level_v=powers.level_v,
        brought_w=powers.brought_w,
        taken_w=powers.taken_w,
        dark=dark(case),
        pulse=case.once_under_any_margins("pulse", lambda: pulse(found.engine, run)),
        ratings=ratings(case.scenario, system),
        served=did.served,
        wanted=did.wanted,
        connected=did.connected,
        cut_offs=did.cut_offs,
        span_s=np.array([span]),
        repeats=np.array([found.course.settled]),
        sure=np.array([True]),
        falls=np.array([False]),
        required=required(case),
    )


def served(case: Case) -> Served:
    """What the course of one design served, for which nothing but that is marched."""
    found = study(case)
    return served_in(found.system, found.course.run, starts=found.starts)


def held(case: Case) -> Balance:
    """The balance of one design, for which nothing is marched."""
    return case.once_under_any_margins("held", lambda: balance(case.engine))


@kept
def dark(case: Case) -> DarkReading:
    """The worst dark stretch of the course of one design."""
    found = study(case)
    if found.system.load.until_empty is not None:
        return nothing_in_the_dark()
    closure_s = case.scenario.margins.closure_days * DAY_S
    return worst_dark(found.repeating, list(found.gaps), closure_s, found.in_the_dark)


def balance(engine: Engine) -> Balance:
    """Mean powers with the store held at the voltage that suits the balance best."""
    system, field = as_judged(engine.system), engine.field
    low, top = float(np.asarray(lowest_held(system))), float(field.open_v[-1])
    low, full = min(low, top), min(system.full_v, top)
    between = field.open_v[(field.open_v > low) & (field.open_v < full)]
    volts = np.concatenate([[low], between, [max(full, low)]])
    span, period = np.diff(engine.edges), engine.edges[-1]
    shares: dict[float, float] = {}
    for level, length in zip(engine.levels, span.tolist(), strict=True):
        for amps, part in ((level.low_a, 1.0 - level.weight), (level.high_a, level.weight)):
            if part > 0.0:
                shares[amps] = shares.get(amps, 0.0) + part * length / period
    brought, back = np.zeros_like(volts), np.zeros_like(volts)
    for amps, share in shares.items():
        current = field.supply(amps).current(volts, volts)
        brought += share * np.maximum(current, 0.0)
        back -= share * np.minimum(current, 0.0)
    leak = np.interp(volts, field.open_v, field.curve.leak_a)
    rates = [w / period for w in wanted_runs(system, period)]
    taken = taken_current(system, volts, leak, field.curve.esr_ohm, rates) + back
    return best_level(volts[None, :], brought[None, :], taken[None, :])


def pulse(engine: Engine, run: Trajectory) -> PulseReading | None:
    """The deepest pulse, each operation at the lowest voltage at which it begins in a run."""
    system, field = as_judged(engine.system), engine.field
    load = system.load
    begins = [inf] if load.until_empty is not None else lowest_begins(engine, run)
    levels: list[FloatArray] = []
    for op, begin in zip(load.operations, begins, strict=True):
        if isinstance(op.schedule, WhenReady):
            begin = max(op.schedule.ready_v, begin if begin < inf else 0.0)
        elif not isfinite(begin):
            # None begins in the course: the first one would follow the start-up.
            begin = load.connect_v
        levels.append(np.array([max(begin, load.off_v)]))
    store = Store(field.open_v[None, :], field.charge_c[None, :], np.array([field.curve.esr_ohm]))
    return deepest_pulse(system, store, levels)


__all__ = ["Study", "balance", "dark", "held", "opening", "pulse", "readings", "served", "study"]

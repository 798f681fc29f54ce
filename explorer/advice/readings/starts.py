"""From an empty store: to the first connect, to ready, to the first operation done, to full."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, isfinite

import numpy as np

from explorer.engine.course import Standing, StopAt, Trajectory
from explorer.engine.march import Engine
from explorer.engine.pulses import first_done
from explorer.engine.steady import MOST_PERIODS, STUDY_LEGS
from explorer.engine.system import DAY_S, System
from explorer.engine.walk import MOST_TRIES

STUCK = 1e-7
"""Relative change of charge over a period below which a store that never connected is stuck."""
LONGER = 30.0
"""Times as long as before is looked for the end of the first operation."""
TRIED_S = 31 * DAY_S
"""How long a start-up is tried in the brightest light. [s]"""
MOST_TRIED_LEGS = 20_000
"""Legs after which a start-up that was never completed is followed no further in steady light."""
MOST_FILLING = 60
"""Periods for which an empty store without a load is followed on its way to full."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstCharge:
    """From an empty store to the end of the first start-up."""

    seconds: float
    """Infinite where it never gets there. [s]"""
    connect_s: float
    """From the same moment to the first connect; infinite where there is none. [s]"""
    connects: float
    """How often the load was connected on the way."""
    stuck_v: float
    """Highest voltage reached where it never gets there. [V]"""
    looked_s: float
    """Time that was looked at. [s]"""
    end: Standing
    end_s: float
    """Time within the light's course at the end. [s]"""
    opens: bool = False
    """Whether the scenario's own beginning is this charge."""


def first_light(system: System) -> float:
    """Time within the course at which the light first comes on. [s]"""
    lit = np.flatnonzero(system.light.photocurrent_a > 0)
    return float(system.light.edges_s[lit[0]]) if len(lit) else 0.0


def full_charge(engine: Engine) -> float:
    """Charge of a full store. [C]"""
    return min(engine.field.full_c, float(engine.field.charge_c[-1]))


def opening_run(engine: Engine) -> Trajectory:
    """The first period from the scenario's own beginning."""
    period = engine.edges[-1]
    return engine.march(period, most_legs=STUDY_LEGS)


def begins_empty(engine: Engine) -> bool:
    """Whether the scenario begins with an empty store."""
    return engine.system.initial_charge_c <= float(engine.field.charge_c[0])


def _as_opened(engine: Engine, opening: Trajectory) -> FirstCharge | None:
    """The first charge as the opening shows it: an empty store that starts in the first period."""
    whole = opening.span_s >= engine.edges[-1] - 1e-6
    light_s, done_s = first_light(engine.system), opening.first_operation_s
    if not (whole and light_s <= done_s < inf):
        return None
    connect_s = next(e.time_s for e in opening.events if e.kind == "connect") - light_s
    return FirstCharge(
        seconds=done_s - light_s, connect_s=connect_s, connects=opening.first_connects,
        stuck_v=0.0, looked_s=done_s - light_s, end=_once_started(opening), end_s=done_s,
        opens=True,
    )


def _once_started(run: Trajectory) -> Standing:
    """Where a run stands at the end of its first start-up."""
    leg = next((leg for leg in run.legs if leg.end_s > run.first_operation_s), None)
    if leg is None:
        return run.end
    return Standing(charge_c=leg.begin_c, connected=True, charging=leg.charging)


def starts_in_vain(engine: Engine) -> bool:
    """Whether every try of a start-up fails, even in the brightest light of the engine's course.

    More light and more charge never hurt a start-up.
    """
    if not engine.system.load.start_up:
        return False
    bright = engine.in_steady_light(float(np.max(engine.system.light.photocurrent_a)))
    run = bright.march(
        TRIED_S, engine.initial_state(), stop_at=StopAt.FIRST_OPERATION, most_legs=MOST_TRIED_LEGS
    )
    return run.tally.cut_offs >= MOST_TRIES


def first_charge(
    engine: Engine, opening: Trajectory | None, allowed_s: float
) -> FirstCharge:
    """From an empty store at the first light to the end of the first start-up.

    Parameters
    ----------
    engine : Engine
        The system.
    opening : Trajectory, optional
        From `opening_run`, where that begins with an empty store: it is the first charge itself.
    allowed_s : float
        Time allowed; four times as long is looked at. [s]
    """
    found = None if opening is None else _as_opened(engine, opening)
    if found is not None:
        return found
    period = engine.edges[-1]
    begin = first_light(engine.system)
    state = Standing(charge_c=0.0, connected=False)
    passed = connects = highest = 0.0
    connect_s = inf
    while passed < max(4.0 * allowed_s, 2.0 * period):
        run = engine.march(
            period, state, begin_s=begin + passed, stop_at=StopAt.FIRST_OPERATION,
            most_legs=STUDY_LEGS,
        )
        given_up = run.tally.cut_offs >= MOST_TRIES and run.first_operation_s == inf
        if given_up and not starts_in_vain(engine):  # later on the light may be brighter
            run = engine.march(period, state, begin_s=begin + passed, most_legs=STUDY_LEGS)
        if connects == 0 and run.tally.connects > 0:
            connect_s = passed + next(e.time_s for e in run.events if e.kind == "connect")
        if isfinite(run.first_operation_s):
            done, connects = passed + run.first_operation_s, connects + run.first_connects
            return FirstCharge(
                seconds=done, connect_s=connect_s, connects=connects, stuck_v=0.0, looked_s=done,
                end=_once_started(run), end_s=begin + done,
            )
        connects += run.tally.connects
        highest = max(highest, max((leg.end_c for leg in run.legs), default=0.0))
        passed += period
        moved = abs(run.end.charge_c - state.charge_c)
        state = run.end
        if run.tally.cut_offs >= MOST_TRIES or moved <= STUCK * full_charge(engine):
            break
    return FirstCharge(
        seconds=inf, connect_s=connect_s, connects=connects,
        stuck_v=float(engine.field.voltage_at(highest)), looked_s=passed, end=state,
        end_s=begin + passed,
    )


def first_operation_time(engine: Engine, first: FirstCharge, course: Trajectory) -> float:
    """From an empty store at the first light to the end of the first operation. [s]

    Infinite where none is done within `MOST_PERIODS` of the start-up, or after `MOST_TRIES` where
    none is done later on either; a device without operations has done what it does once it is
    ready.

    Parameters
    ----------
    engine : Engine
        The system.
    first : FirstCharge
        Its first start.
    course : Trajectory
        The course that it settles to.
    """
    until = engine.system.load.until_empty
    if until is not None and isfinite(first.seconds):
        least_s = until.phases[-1].duration_s
        run = engine.march(
            least_s, first.end, begin_s=first.end_s, stop_at=StopAt.CUT_OFF, most_legs=STUDY_LEGS
        )
        through = run.tally.cut_offs == 0 and run.span_s >= least_s * (1.0 - 1e-6)
        return first.seconds + least_s if through else inf
    if not isfinite(first.seconds) or not engine.system.load.operations:
        return first.seconds
    longest = MOST_PERIODS * engine.edges[-1]
    span = min(2.0 * max(op.duration_s for op in engine.system.load.operations), longest)
    # What is done later on may be in vain for a whole dim morning first.
    most_tries = inf if any(course.tally.served) else MOST_TRIES
    while True:
        # The first operation mostly comes soon: what follows it is not followed.
        run = engine.march(
            span, first.end, begin_s=first.end_s, most_legs=STUDY_LEGS, most_cut_offs=most_tries
        )
        done = first_done(engine, run)
        if isfinite(done) or span >= longest or run.tally.cut_offs > most_tries:
            return first.seconds + done
        span = min(LONGER * span, longest)


def full_charge_time(engine: Engine) -> float:
    """From empty to full without a load. [s]"""
    period = engine.edges[-1]
    begin = first_light(engine.system)
    state = Standing(charge_c=0.0, connected=False)
    unloaded = engine.unloaded()
    passed = 0.0
    for _ in range(MOST_FILLING):
        run = unloaded.march(period, state, begin_s=begin + passed, stop_at=StopAt.FULL)
        if not run.end.charging:
            return passed + run.span_s
        passed += period
        if abs(run.end.charge_c - state.charge_c) <= STUCK * full_charge(engine):
            break
        state = run.end
    return inf


def recovery_time(engine: Engine) -> float:
    """From the cut-off voltage, when the light comes on, to the end of the start-up. [s]"""
    cut_c = engine.field.charge_at(engine.system.load.off_v)
    run = engine.march(
        4.0 * engine.edges[-1],
        Standing(charge_c=min(cut_c, full_charge(engine)), connected=False),
        begin_s=first_light(engine.system),
        stop_at=StopAt.FIRST_OPERATION,
    )
    return run.first_operation_s

"""The repeating course: what a store does once its habit has settled under repeating light.

Mostly one period leads back to where it began, and the fixed point of its map is found without
months of marching. Some courses repeat after several periods, such as a device that is cut off
every third week; a few never do.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf

from explorer.engine.course import Event, Leg, Standing, Tally, Trajectory
from explorer.engine.march import Engine
from explorer.engine.progress import MAX_EVENTS
from explorer.engine.repeats import weekly
from explorer.engine.schedule import MOMENT_S
from explorer.engine.system import WEEK_S, Periodic, WhenReady

TOLERANCE = 5e-5
"""How far a course may still have to go, relative to a full store."""
SAME = 1e-9
"""The same where nothing else tells them apart: what follows is what came before."""
NEAR_S = 1.0
"""How far a clock may still have to go. [s]"""
UNKNOWN = 20.0
"""How many times its drift a course is taken to have to go, while its slope is not known."""
OFTEN = 8.0
"""Runs, or turns at full, in a period from which on it does not matter where in the last one the
period ends."""
CALM = 3
"""Periods without a cut-off after which a store that ends somewhere in its band has settled;"""
CALM_TURNS, CALM_LEGS = 300.0, 6_000
"""if a period holds so many turns in it, or they took so many legs: else it is followed until it
stands where it stood before."""
MOST_PERIODS = 14
"""Periods in which a course is looked for,"""
MOST_CHEAP_PERIODS = 80
"""and the same while all of them have few legs: a course of eight periods settles slowly."""
MOST_SHORT_PERIODS = 200
"""The same for periods much shorter than a week."""
FEW_LEGS = 10_000
"""Legs of all periods after which no further one is looked at beyond `MOST_PERIODS`."""
LONGEST_COURSE = 8
"""Most periods after which a course may repeat; so many stand for one that does not."""
SECANTS_UNTIL = 5
"""Periods within which a device that runs is stepped along a slow drift; later
ones follow one another, so that a longer course shows."""
STUDY_LEGS = 60_000
"""Most legs of a period that are followed to judge it; more are needed only by a store that is
emptied thousands of times a week. Whatever is read from such a run goes by the time that was
followed."""
MOST_LEGS = 2 * STUDY_LEGS
"""Legs after which a course counts as settled that is within a run, or a turn at full, of it."""
HOPELESS_CUT_OFFS = 500
"""A period with more cut-offs than this is taken as it is: the design fails whatever follows."""
LEFT_AFTER = 10.0 * HOPELESS_CUT_OFFS
"""Cut-offs after which a first part of a period is followed no further."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RepeatingCourse:
    """What the store does in the periods after which it does the same again."""

    start: Standing
    run: Trajectory
    """One march through all of its periods."""
    drift_c: float
    """Change of charge left over the whole course. [C]"""
    periods: int = 1
    """After how many periods of the light it repeats."""
    settled: bool = True
    """Whether it was seen to come back, or fails too often to matter; else the last periods stand
    for the course as they are."""

    @property
    def repeats(self) -> bool:
        """Whether the device stands at the end as at the beginning, connected or not."""
        return self.start.connected == self.run.end.connected


def repeating_course(engine: Engine, start: Standing) -> RepeatingCourse:
    """The course that a store settles into from a given state at the beginning of a period.

    The map of one period rises with the charge while the device stays connected, so its orbit
    runs one way towards a fixed point; secant steps bring it there in a few periods. A period may
    hold a run more than the next: its drift is taken without that. Cut-offs break the map, and its
    orbit may then go round several places: it is followed until it comes back to one of the last
    `LONGEST_COURSE`, and the course is all of it from there. Which course is found depends on the
    start: there may be one that runs and one that never connects.
    """
    period = engine.edges[-1]
    full = min(engine.field.full_c, float(engine.field.charge_c[-1]))
    near = TOLERANCE * full
    state, asleep, slope, legs = start, not start.connected, inf, 0
    before: tuple[float, float] | None = None
    orbit, runs = [start], list[Trajectory]()
    """Where periods began that followed one another, without a secant step between, and they."""
    grain, calm_for = 0.0, 0
    seldom = any(
        isinstance(op.schedule, Periodic) and op.schedule.interval_s * OFTEN > period
        for op in engine.system.load.operations
    )
    for turn in range(_most_periods(period)):
        if turn >= MOST_PERIODS and legs > FEW_LEGS:
            break
        run = engine.march(period, state, most_legs=STUDY_LEGS)
        orbit.append(run.end)
        runs.append(run)
        legs += len(run.legs)
        calm = state.connected == run.end.connected and not run.tally.cut_offs
        drift = _even_drift(engine, run, state) if calm else run.end.charge_c - state.charge_c
        if before is not None and before[0] == state.charge_c:
            before = None  # no secant leads through one place
        if calm and before is not None:
            slope = (drift - before[1]) / (state.charge_c - before[0])
        left = abs(drift / slope) if -1.0 < slope < -1e-6 else UNKNOWN * abs(drift)
        band, turns = _band(engine, run)
        grain = _grain(engine) + band
        calm_for = calm_for + 1 if calm else 0
        moved_c = abs(run.end.charge_c - state.charge_c)
        in_band = (
            calm_for >= CALM
            and (turns > CALM_TURNS or legs > CALM_LEGS)
            and moved_c <= near + band
        )
        # Of what runs a few times in a period it matters where its clock stands.
        alike = not seldom or run.end.goes_on_as(state, inf, NEAR_S)
        strict = turn < MOST_PERIODS
        settled = run.end.goes_on_as(state, SAME * full, MOMENT_S) or (
            calm and ((left <= near and (alike or not strict)) or in_band)
        )
        hopeless = run.tally.cut_offs > HOPELESS_CUT_OFFS
        cut_short = run.span_s < period * (1.0 - 1e-9)
        # What is cut off begins anew: where its clock stands decides what follows, too.
        clock_s = NEAR_S if strict and (seldom or not calm) else inf
        back = _came_back(orbit, near, twice=not calm, grain_s=clock_s)
        if back and _still_to_go(orbit, back) > near:
            back = 0
        if back == 0 and legs > MOST_LEGS:
            back = _came_back(orbit, near + grain, twice=not calm)
        if settled or hopeless or cut_short or (back == 1 and not calm):
            return RepeatingCourse(
                start=state, run=run, drift_c=run.end.charge_c - state.charge_c,
                settled=hopeless or not cut_short,
            )
        if back > 1:
            return _together(engine, orbit[-1 - back], runs[-back:], settled=True)
        guess = run.end
        same = run.end.connected == state.connected
        asleep = asleep and not (run.end.connected or run.tally.connects)
        steps = asleep or (turn < SECANTS_UNTIL and alike)
        if same and steps and before is not None and 0.0 < drift / before[1] < 1.0:
            # A slow drift one way: step along the secant. Anything else is left to iteration.
            step = (drift - before[1]) / (state.charge_c - before[0])
            if step < -1e-6:
                charge_c = min(max(state.charge_c - drift / step, 0.0), full)
                guess = replace(run.end, charge_c=charge_c)
                orbit, runs = [guess], []
        before = (state.charge_c, drift) if same and drift != 0.0 else None
        state = guess
    if not runs:  # the last that was done is a step: where it leads is still to be followed
        runs = [engine.march(period, state, most_legs=STUDY_LEGS)]
        orbit.append(runs[0].end)
    longest = min(LONGEST_COURSE, len(orbit) - 1)
    back = _came_back(orbit, near + grain, twice=True)
    if back:
        return _together(engine, orbit[-1 - back], runs[-back:], settled=True)
    return _together(engine, orbit[-1 - longest], runs[-longest:], settled=False)


def _most_periods(period_s: float) -> int:
    """Periods of few legs in which a course is looked for: more of those shorter than a week."""
    return max(MOST_CHEAP_PERIODS, min(int(MOST_PERIODS * WEEK_S / period_s), MOST_SHORT_PERIODS))


def _even_drift(engine: Engine, run: Trajectory, begin: Standing) -> float:
    """Change of charge in a period, without what one run more or less makes of it. [C]

    A clock that does not divide the period lets now one run more fall into it and now one less.
    """
    drift_c = run.end.charge_c - begin.charge_c
    for j, op in enumerate(engine.system.load.operations):
        if isinstance(op.schedule, Periodic) and op.schedule.always and not engine.averaged[j]:
            more = run.tally.served[j] - run.span_s / op.schedule.interval_s
            if abs(more) < 1.0:
                drift_c += more * engine.charge_of(op)
    return drift_c


def _grain(engine: Engine) -> float:
    """What the largest operation takes: a period may cut one run of it in two. [C]"""
    return max((engine.charge_of(op) for op in engine.system.load.operations), default=0.0)


def _came_back(
    orbit: list[Standing], grain_c: float, *, twice: bool, grain_s: float = inf
) -> int:
    """How many periods ago the orbit stood where it stands now; 0 where it never did.

    Where it must be seen `twice`, it stood there a period before, too: a place that is only close
    by is left again.
    """
    for back in range(1, min(LONGEST_COURSE, len(orbit) - 1) + 1):
        pairs = [(orbit[-1], orbit[-1 - back])]
        if twice:
            if len(orbit) < back + 2:
                break
            pairs.append((orbit[-2], orbit[-2 - back]))
        if all(
            now.goes_on_as(then, grain_c, grain_s) if grain_s < inf
            else abs(now.charge_c - then.charge_c) <= grain_c and now.connected == then.connected
            for now, then in pairs
        ):
            return back
    return 0


def _still_to_go(orbit: list[Standing], back: int) -> float:
    """How far a course that comes back after so many periods still drifts, if told. [C]

    What is left of a drift that fades evenly is a geometric row.
    """
    if len(orbit) <= 2 * back:
        return 0.0
    first, then, now = (orbit[-1 - k * back].charge_c for k in (2, 1, 0))
    last, before = now - then, then - first
    if last * before <= 0.0:
        return 0.0
    ratio = last / before
    return abs(last) * (min(ratio / (1.0 - ratio), UNKNOWN) if ratio < 1.0 else UNKNOWN)


def _band(engine: Engine, run: Trajectory) -> tuple[float, float]:
    """Charge within which a store stands anywhere when a period ends [C], and its turns there.

    One that fills up again and again stands between resume and full; one whose device waits for a
    voltage, within a run of that.
    """
    fills = float(sum(event.kind == "full" for event in run.events))
    fills += sum(leg.repeats.times for leg in run.legs if leg.repeats is not None)
    ends_full = not run.end.charging or run.end.charge_c >= engine.field.resume_c
    found = [
        (engine.charge_of(op), served)
        for op, served in zip(engine.system.load.operations, run.tally.served, strict=True)
        if isinstance(op.schedule, WhenReady)
    ]
    if ends_full:
        found.append((engine.field.full_c - engine.field.resume_c, fills))
    return max(((c, turns) for c, turns in found if turns >= OFTEN), default=(0.0, 0.0))


def _together(
    engine: Engine, start: Standing, runs: list[Trajectory], *, settled: bool
) -> RepeatingCourse:
    """A course of several periods, each of which began where the one before ended."""
    period, count = engine.edges[-1], len(runs)
    if weekly(engine.system.load, period):
        run = _joined(runs)
    else:  # each was marched from the same hour of the week
        run = engine.march(count * period, start, most_legs=count * STUDY_LEGS)
    return RepeatingCourse(
        start=start, run=run, drift_c=run.end.charge_c - start.charge_c, periods=count,
        settled=settled,
    )


def _joined(runs: list[Trajectory]) -> Trajectory:
    """Runs that followed one another as one."""
    legs, events = list[Leg](), list[Event]()
    tally, passed_s, first_s = Tally(served=[0.0] * len(runs[0].tally.served)), 0.0, inf
    for run in runs:
        legs += [Leg._make((leg[0] + passed_s, leg[1] + passed_s, *leg[2:])) for leg in run.legs]
        events += [event._replace(time_s=event.time_s + passed_s) for event in run.events]
        tally.add(run.tally)
        first_s = min(first_s, run.first_operation_s + passed_s)
        passed_s += run.span_s
    return Trajectory(
        legs, events[:MAX_EVENTS], tally, runs[-1].end, passed_s, first_s, runs[0].begin_s
    )

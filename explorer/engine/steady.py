"""The repeating course: what a store does once its habit has settled under repeating light.

Mostly one period leads back to where it began, and the fixed point of its map is found without
months of marching. Some courses repeat after several periods, such as a device that is cut off
every third week; a few never do.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from explorer.engine.course import Standing, Trajectory
from explorer.engine.march import Engine
from explorer.engine.schedule import MOMENT_S

TOLERANCE = 2e-5
"""Change over a course, relative to a full store, that counts as none; one run of the largest
operation counts as none too, since a period may cut one in two."""
SAME = 1e-9
"""The same where nothing else tells them apart: what follows is what came before."""
MOST_PERIODS = 14
"""Periods in which a course is looked for."""
LONGEST_COURSE = 8
"""Most periods after which a course may repeat; so many stand for one that does not."""
SECANTS_UNTIL = 5
"""Periods within which a slow drift of a device that runs is stepped along; later ones follow one
another, so that a longer course shows."""
STUDY_LEGS = 60_000
"""Most legs of a period that are followed to judge it; more are needed only by a store that is
emptied thousands of times a week. Whatever is read from such a run goes by the time that was
followed."""
HOPELESS_CUT_OFFS = 500
"""A period with more cut-offs than this is taken as it is: the design fails whatever follows."""


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
    runs one way towards a fixed point; secant steps bring it there in a few periods. Cut-offs
    break the map, and its orbit may then go round several places: it is followed until it comes
    back to one of the last `LONGEST_COURSE`, and the course is one march from there. Which course
    is found depends on the start: there may be one that runs and one that never connects.
    """
    period = engine.edges[-1]
    full = min(engine.field.full_c, float(engine.field.charge_c[-1]))
    grain = TOLERANCE * full + max(
        (engine.charge_of(op) for op in engine.system.load.operations), default=0.0
    )
    state, asleep = start, not start.connected
    before: tuple[float, float] | None = None
    orbit = [start]
    """Where periods began that followed one another, without a secant step between."""
    for turn in range(MOST_PERIODS):
        run = engine.march(period, state, most_legs=STUDY_LEGS)
        drift = run.end.charge_c - state.charge_c
        orbit.append(run.end)
        back = _came_back(orbit, grain + _band(engine, run), twice=run.tally.cut_offs > 0)
        if run.end.goes_on_as(state, SAME * full, MOMENT_S):
            back = 1
        hopeless = run.tally.cut_offs > HOPELESS_CUT_OFFS
        cut_short = run.span_s < period * (1.0 - 1e-9)
        if back == 1 or hopeless or cut_short:
            return RepeatingCourse(
                start=state, run=run, drift_c=drift, settled=hopeless or not cut_short
            )
        if back:
            return _marched(engine, orbit[-1 - back], back, settled=True)
        guess = run.end
        same = run.end.connected == state.connected
        asleep = asleep and not (run.end.connected or run.tally.connects)
        steps = asleep or turn < SECANTS_UNTIL
        if same and steps and before is not None and 0.0 < drift / before[1] < 1.0:
            # A slow drift one way: step along the secant. Anything else is left to iteration.
            slope = (drift - before[1]) / (state.charge_c - before[0])
            if slope < -1e-6:
                charge_c = min(max(state.charge_c - drift / slope, 0.0), full)
                guess = replace(run.end, charge_c=charge_c)
                orbit = [guess]
        before = (state.charge_c, drift) if same and drift != 0.0 else None
        state = guess
    longest = min(LONGEST_COURSE, len(orbit) - 1)
    return _marched(engine, orbit[-1 - longest], longest, settled=False)


def _came_back(orbit: list[Standing], grain_c: float, *, twice: bool) -> int:
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
            abs(now.charge_c - then.charge_c) <= grain_c and now.connected == then.connected
            for now, then in pairs
        ):
            return back
    return 0


def _band(engine: Engine, run: Trajectory) -> float:
    """Charge within which a store that fills up stands anywhere when a period ends. [C]"""
    fills = any(event.kind == "full" for event in run.events)
    ends_full = not run.end.charging or run.end.charge_c >= engine.field.resume_c
    return engine.field.full_c - engine.field.resume_c if fills and ends_full else 0.0


def _marched(
    engine: Engine, start: Standing, periods: int, *, settled: bool
) -> RepeatingCourse:
    """A course of several periods as one march."""
    run = engine.march(
        periods * engine.edges[-1], start, most_legs=periods * STUDY_LEGS
    )
    drift_c = run.end.charge_c - start.charge_c
    return RepeatingCourse(
        start=start, run=run, drift_c=drift_c, periods=periods, settled=settled
    )

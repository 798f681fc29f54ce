"""The repeating course: the fixed point of one period's map, found without months of marching."""

from __future__ import annotations

from dataclasses import dataclass

from explorer.engine.course import Standing, Trajectory
from explorer.engine.march import Engine

TOLERANCE = 2e-5
"""Change over one period, relative to a full store, that counts as none; one run of the largest
operation counts as none too, since a period may cut one in two."""
ROUGH_TOLERANCE = 0.05
"""The same after `PATIENCE` periods: a store that is charged and emptied many times a day ends
each period at another point of its course, which is repeating all the same."""
PATIENCE = 5
MOST_PERIODS = 14
STUDY_LEGS = 60_000
"""Most legs of a period that are followed to judge it; more are needed only by a store that is
emptied thousands of times a week."""
HOPELESS_CUT_OFFS = 500
"""A period with more cut-offs than this is taken as it is: the design fails whatever follows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RepeatingCourse:
    """What the store does in a period once it repeats."""

    start: Standing
    run: Trajectory
    drift_c: float
    """Change of charge left over one period. [C]"""

    @property
    def repeats(self) -> bool:
        """Whether a course was found that repeats within the tolerance."""
        return self.start.connected == self.run.end.connected


def repeating_course(engine: Engine, start: Standing) -> RepeatingCourse:
    """The course that a store settles into from a given state at the beginning of a period.

    The map of one period rises with the charge, so its orbit runs one way towards a fixed
    point; secant steps bring it there in a few periods. Which course is found depends on the
    start: there may be one that runs and one that never connects.
    """
    period = engine.edges[-1]
    full = min(engine.field.full_c, float(engine.field.charge_c[-1]))
    grain = TOLERANCE * full + max(
        (engine.charge_of(op) for op in engine.system.load.operations), default=0.0
    )
    state = start
    before: tuple[float, float] | None = None
    best: RepeatingCourse | None = None
    for turn in range(MOST_PERIODS):
        run = engine.march(period, state, most_legs=STUDY_LEGS)
        drift = run.end.charge_c - state.charge_c
        same = run.end.connected == state.connected
        best = RepeatingCourse(start=state, run=run, drift_c=drift)
        if same and abs(drift) <= (grain if turn < PATIENCE else ROUGH_TOLERANCE * full):
            break
        if run.tally.cut_offs > HOPELESS_CUT_OFFS:
            break
        guess = run.end.charge_c
        if same and before is not None and 0.0 < drift / before[1] < 1.0:
            # A slow drift one way: step along the secant. Anything else is left to iteration.
            slope = (drift - before[1]) / (state.charge_c - before[0])
            if slope < -1e-6:
                guess = min(max(state.charge_c - drift / slope, 0.0), full)
        before = (state.charge_c, drift) if same and drift != 0.0 else None
        state = Standing(charge_c=guess, connected=run.end.connected, charging=run.end.charging)
    assert best is not None
    return best

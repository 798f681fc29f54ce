"""The repeating course: the fixed point of one period's map, found without months of marching."""

from __future__ import annotations

from dataclasses import dataclass

from explorer.engine.legs import State, Trajectory
from explorer.engine.march import Engine

TOLERANCE = 2e-6
"""Change over one period, relative to a full store, that counts as none."""
MOST_PERIODS = 14


@dataclass(frozen=True, slots=True, kw_only=True)
class RepeatingCourse:
    """What the store does in a period once it repeats."""

    start: State
    run: Trajectory
    drift_c: float
    """Change of charge left over one period. [C]"""

    @property
    def repeats(self) -> bool:
        """Whether a course was found that repeats within the tolerance."""
        return self.start.connected == self.run.end.connected


def repeating_course(engine: Engine, start: State) -> RepeatingCourse:
    """The course that a store settles into from a given state at the beginning of a period.

    The map of one period rises with the charge, so its orbit runs one way towards a fixed
    point; secant steps bring it there in a few periods. Which course is found depends on the
    start: there may be one that runs and one that never connects.
    """
    period = engine.edges[-1]
    full = min(engine.field.full_c, float(engine.field.charge_c[-1]))
    state = start
    below: tuple[float, float] | None = None
    best: RepeatingCourse | None = None
    for _ in range(MOST_PERIODS):
        run = engine.march(period, state)
        drift = run.end.charge_c - state.charge_c
        best = RepeatingCourse(start=state, run=run, drift_c=drift)
        same = run.end.connected == state.connected
        if abs(drift) <= TOLERANCE * full and same:
            return best
        guess = run.end.charge_c
        if below is not None and same:
            slope = (drift - below[1]) / (state.charge_c - below[0] or 1e-300)
            if slope < -1e-3:
                guess = state.charge_c - drift / slope
                guess = min(max(guess, 0.0), full)
        below = (state.charge_c, drift) if same else None
        state = State(
            charge_c=guess, connected=run.end.connected, charging=run.end.charging
        )
    assert best is not None
    return best

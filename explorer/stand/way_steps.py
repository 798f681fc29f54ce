"""What a worker process finds out for the stand: a way forward, and a challenge that can be won."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from explorer.advice.case import Case
from explorer.advice.edges import Stopped
from explorer.advice.judge import judge
from explorer.advice.way import levers_of, way_to_run
from explorer.engine.course import Interrupted
from explorer.stand.challenges import CHALLENGES, FIRST, Challenge, set_challenge
from explorer.state.knobs import knob_value, knobs_for


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """What would make the design run, of what visitors may move."""

    runs: bool
    """Whether it runs already."""
    targets: dict[str, float] = field(default_factory=dict)
    """Value to go to, by path; empty where nothing helps, or nothing is needed."""


def way_steps(movable: tuple[str, ...], case: Case, stopped: Stopped) -> Iterator[Way]:
    """The smallest change of the movable knobs that makes a design run."""
    found = found_way(movable, case, stopped)
    if found is not None:
        yield found


def found_way(
    movable: tuple[str, ...], case: Case, stopped: Stopped = lambda: False
) -> Way | None:
    """A way forward; None where the search was told to stop.

    Parameters
    ----------
    movable : tuple of str
        Keys of the knobs that visitors may move.
    case : Case
        The design.
    stopped : callable
        Asked between evaluations.
    """
    if judge(case).state == "runs":
        return Way(runs=True)
    knobs = [knob for knob in knobs_for(case.scenario) if knob.key in movable]
    stops = {knob.path: knob.stops for knob in knobs}
    levers = levers_of(case, stops, {knob.path: knob_value(case, knob) for knob in knobs})
    try:
        remedy = way_to_run(case, levers, stopped)
    except Interrupted:
        return None
    if stopped():
        return None
    changes = () if remedy is None else remedy.changes
    return Way(runs=False, targets={c.path: float(c.new) for c in changes})


def is_winnable(
    movable: tuple[str, ...], case: Case, stopped: Stopped = lambda: False
) -> bool:
    """Whether a design runs, or can be made to run with what visitors may move.

    A search that was told to stop has found nothing.
    """
    found = found_way(movable, case, stopped)
    return found is not None and (found.runs or bool(found.targets))


def challenge_steps(
    movable: tuple[str, ...], case: Case, stopped: Stopped
) -> Iterator[Challenge | None]:
    """The challenge that suits a design: not met as it is, and to be won with the knobs.

    The weekend where it can be; a longer dark stretch where that is too easy, a shorter one
    where it is out of reach.
    """
    own_days = case.scenario.margins.closure_days
    longer = [c for c in CHALLENGES[FIRST:] if c.closure_days > own_days]
    shorter = [c for c in CHALLENGES[:FIRST] if c.closure_days > own_days]
    for some in (longer, shorter[::-1]):
        for challenge in some:
            if stopped():
                return
            found = found_way(movable, set_challenge(case, challenge), stopped)
            if found is None:
                return
            if found.targets:
                yield challenge
                return
            if found.runs != (some is longer):
                break  # what comes next is as far out of reach, or as easy
    yield None

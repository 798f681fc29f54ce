"""What a course served and how long it stayed connected, whatever the device does in it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from explorer.advice.readings.balance import wanted_runs
from explorer.engine.course import Trajectory
from explorer.engine.give_outs import Runs, runs_in
from explorer.engine.march import Engine
from explorer.engine.system import System, as_judged
from explorer.engine.trace import Trace
from explorer.physics.arrays import FloatArray

PARTS = 64
"""Parts of a run over which its energy is summed."""


class Served(NamedTuple):
    """Of one course; arrays of shape (1,), of operations (1, operations)."""

    served: FloatArray
    wanted: FloatArray
    connected: FloatArray
    """Share of the course."""
    cut_offs: FloatArray


def served_in(system: System, run: Trajectory, *, starts: bool) -> Served:
    """What a course served; nothing where the device never starts.

    A device that runs until the store gives out is cut off as it should be: that counts neither as
    a cut-off nor as time without service. One that is never cut off does all that is wanted.
    """
    wanted = np.array([float(np.asarray(w)) for w in wanted_runs(as_judged(system), run.span_s)])
    served = np.array(run.tally.served, float)
    connected, cut_offs = connected_share(run, starts=starts), float(run.tally.cut_offs)
    until = system.load.until_empty
    if until is not None:
        endless = cut_offs == 0.0 and connected >= 1.0
        least_s = until.phases[-1].duration_s
        served = wanted if endless else np.array([runs_in(run.legs).count(least_s)])
        connected, cut_offs = 1.0 if starts else 0.0, 0.0
    if not starts:
        served = np.zeros(len(wanted))
    return Served(
        served[None, :], wanted[None, :], np.array([connected]), np.array([cut_offs])
    )


def connected_share(run: Trajectory, *, starts: bool) -> float:
    """Share of a run in which the device is connected; 0 where it never starts."""
    if not starts or run.span_s <= 0:
        return 0.0
    off = any(not leg.connected for leg in run.legs)
    # Sums of times are good to some digits: all of it is all of it.
    return min(run.tally.connected_s / run.span_s, 1.0) if off or run.tally.cut_offs else 1.0


def give_out_answers(
    engine: Engine, courses: Sequence[tuple[Trajectory, Trace]]
) -> dict[str, float]:
    """Answers about runs until the store gives out, by name; none of any other device.

    ``run_length_s``, ``run_period_s`` and ``run_energy_J`` are of the run of middle length,
    ``runs_per_hour`` and ``run_duty`` of the whole course. Infinite where a run has no end.

    Parameters
    ----------
    engine : Engine
        The device, as it is all the time.
    courses : sequence of tuple
        The repeating course, or one of every month, each with its trace.
    """
    until = engine.system.load.until_empty
    if until is None:
        return {}
    found = [runs_in(course.legs) for course, _ in courses]
    runs = Runs(**{
        name: np.concatenate([getattr(one, name) for one in found])
        for name in ("begin_s", "length_s", "times", "period_s")
    })
    span_s = sum(course.span_s for course, _ in courses)
    on_s = sum(course.tally.connected_s for course, _ in courses)
    duty = min(on_s / span_s, 1.0) if span_s > 0 else 0.0
    endless = not len(runs.times) and duty >= 1.0 - 1e-9
    length = float("inf") if endless else runs.typical(runs.length_s)
    return {
        "run_length_s": _or_none(length),
        "run_period_s": float("inf") if endless else _or_none(runs.typical(runs.period_s)),
        "runs_per_hour": runs.count(until.phases[-1].duration_s) / (span_s / 3600.0),
        "run_duty": duty,
        "run_energy_J": float("inf") if endless else _energy(found, length, courses),
    }


def _or_none(value: float) -> float:
    """Not a number stands for what never happens: 0."""
    return 0.0 if np.isnan(value) else value


def _energy(
    found: Sequence[Runs], length_s: float, courses: Sequence[tuple[Trajectory, Trace]]
) -> float:
    """Energy that the load takes in the run whose length is nearest to the typical one. [J]"""
    far = [np.min(np.abs(runs.length_s - length_s), initial=np.inf) for runs in found]
    nearest = int(np.argmin(far))
    if not np.isfinite(far[nearest]):
        return 0.0
    runs, (_, trace) = found[nearest], courses[nearest]
    at = int(np.argmin(np.abs(runs.length_s - length_s)))
    edges = runs.begin_s[at] + runs.length_s[at] * np.linspace(0.0, 1.0, PARTS + 1)
    rows = trace.rows(edges[:-1], edges[1:])
    width = np.diff(edges)
    middle = trace.voltages(0.5 * (edges[:-1] + edges[1:]))
    return float(np.sum(rows.load_a * width * middle.terminal_v))


__all__ = ["Served", "connected_share", "give_out_answers", "served_in"]

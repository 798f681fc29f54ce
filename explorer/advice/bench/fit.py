"""Fit chosen values of a scenario to logged runs of one device, with how well they determine each.

Nonlinear least squares in the logarithm of the values (trust region reflective, M. A. Branch et
al., SIAM J. Sci. Comput. 21 (1999) 1-23, as scipy has it), with a soft loss beyond three times the
noise, so that single readings within a pulse do not pull. The voltage at the beginning is fitted
too: the first reading has noise as all others, and must not tilt the whole run. A full store rises
and falls within the hysteresis of its charger, and when it turns is chance; so voltages above the
one at which charging resumes count as equal, and where the run leaves them the forecast begins
anew, at a voltage that is fitted too.

Several runs are fitted together: the values are common, the beginnings each run's own, and from
where plain least squares ends the runs are weighed against each other (`weighing`).

The ± holds what the noise leaves open, and what the values that are not fitted, the meter and the
clock may be wrong by (JCGM 100:2008, 5.1: each moves the solution by its standard deviation, and
the squares add up).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import least_squares

from explorer.advice.bench.certainty import (
    FINEST_V,
    root_mean_square,
    soft_scale,
)
from explorer.advice.bench.forecast import Agreement, agreement
from explorer.advice.bench.parameters import Parameter, check_choice, with_values
from explorer.advice.bench.problem import Halt, Stopped
from explorer.advice.bench.sure import Moved, certainty, nothing_sure, weighed
from explorer.advice.bench.together import Together
from explorer.advice.case import Case
from explorer.physics.arrays import FloatArray
from explorer.scenario.logged_run import BenchRun

ROUND = 15
"""Steps between two looks at the noise."""
MOST_ROUNDS = 6
FEW = 8
"""Steps of a search that begins elsewhere."""
CLOSE_ENOUGH = 1e-5
"""Relative change of values and misfit at which a round ends; the tables round no finer."""
ELSEWHERE = 0.7
"""How far away the other starts lie, in e-folds: twice or half of each value, by turns."""
AS_GOOD = 1.02
"""Misfit over the least, up to which another solution counts as good as the best."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """One value after a fit."""

    parameter: Parameter
    value: float
    plus_minus: float
    """Half-width within which the true value lies with `CONFIDENCE`; infinite where the run says
    nothing. [unit]"""
    by_readings: float
    """The same from the noise of the readings alone. [unit]"""
    mostly: str
    """What is not fitted and makes most of the ±; empty where nothing does."""
    at_limit: bool
    """Whether the search ended at an end of its range."""
    slides: bool
    """Whether it may move along together with another, and the run looks the same."""
    is_followed: bool
    """Whether the forecast follows the run at all, within what is unsure."""

    @property
    def determined(self) -> bool:
        """Whether the run says anything of it: its ± does not exceed its value."""
        sees = self.plus_minus <= abs(self.value) and not self.at_limit
        return sees and not self.slides and self.is_followed


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """A search as far as it has come."""

    values: tuple[Fitted, ...]
    correlation: FloatArray
    """Between the values, as the noise of the readings leaves it, shape (n, n)."""
    inseparable: tuple[tuple[int, ...], ...]
    """Groups of values that this run cannot tell apart.

    They slide along a direction that the run hardly sees (`CORRELATED`), and one of them is not
    known to `LOOSE`.
    """
    before: tuple[Agreement, ...]
    """Of each run."""
    after: tuple[Agreement, ...]
    begins_v: tuple[tuple[float, ...], ...]
    """Fitted voltages at each beginning, by run. [V]"""
    moved: tuple[Moved, ...]
    """What is not fitted, where it is done."""
    evaluations: int
    effective: float
    """Independent readings that the residuals are worth."""
    missed_before_v: float
    """Root mean square of what is fitted, at the beginning [V]."""
    missed_v: float
    """The same at the present values [V]."""
    converged: bool
    done: bool

    @property
    def is_followed(self) -> bool:
        """Whether the forecast follows the run, within what is unsure."""
        return all(value.is_followed for value in self.values)

    @property
    def found(self) -> dict[str, float]:
        """Value under each path."""
        return {f.parameter.path: f.value for f in self.values}

    @property
    def is_good(self) -> bool:
        """Whether the values may be used: the search ended, and not worse than it began."""
        return self.converged and self.missed_v <= max(self.missed_before_v, FINEST_V) * 1.001


def fit(
    case: Case,
    runs: Sequence[BenchRun],
    chosen: Sequence[Parameter],
    stopped: Stopped = lambda: False,
    known: Mapping[str, float] | None = None,
) -> Iterator[Fit]:
    """Search the values with which the forecast follows logged runs best; growing answers.

    Parameters
    ----------
    case : Case
        The device that was logged, with the values to begin from, and its own measured light.
    runs : sequence of BenchRun
        What was logged of one and the same device.
    chosen : sequence of Parameter
        What may vary.
    stopped : callable, optional
        Asked before every evaluation of the model; the search ends early once it says so.
    known : mapping, optional
        How far values that are not fitted may lie from what the scenario says, as shares under
        their paths, where somebody knows them better than their usual tolerance.

    Yields
    ------
    Fit
        One after each round; the last is done. None after a stop.

    Raises
    ------
    ValueError
        Nothing is chosen, or the runs are too short for it.
    """
    check_choice(chosen, sum(len(run.time_s) for run in runs))
    problem = Together(case, runs, chosen, stopped, known or {})
    before = tuple(agreement(case, run) for run in runs)
    try:
        yield from _rounds(problem, before)
    except Halt:
        return


def _rounds(problem: Together, before: tuple[Agreement, ...]) -> Iterator[Fit]:
    at = np.clip(np.zeros_like(problem.low), problem.low, problem.high)
    first = problem.residuals(at)
    scale = soft_scale(first)
    problem, rivals = _on_or_off(problem, at, scale)
    apart = np.zeros(len(problem.chosen))
    for number in range(MOST_ROUNDS):
        at, ended = _one_round(problem, at, scale)
        now = soft_scale(problem.residuals(at))
        # The noise is known only at the solution: as long as it falls, there is a round more.
        settled = ended and now > 0.9 * scale
        scale = now
        if settled:
            at, apart = _elsewhere(problem, at, scale, rivals)
        last = settled or number == MOST_ROUNDS - 1
        standing = _Standing(at=at, apart=apart, first_v=root_mean_square(first))
        yield _answer(problem, standing, before, converged=settled, done=last)
        if last:
            return


def _on_or_off(
    problem: Together, at: FloatArray, scale: float
) -> tuple[Together, tuple[Together, ...]]:
    """Between cut-off and connect a device may be on or off: what a round follows better, first."""
    choices = (problem, *problem.begun_otherwise())
    if len(choices) == 1:
        return problem, ()
    misfits = [
        _misfit(one.residuals(_one_round(one, at, scale, FEW)[0]), scale) for one in choices
    ]
    best = int(np.argmin(misfits))
    return choices[best], tuple(one for i, one in enumerate(choices) if i != best)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Standing:
    """Where a search stands."""

    at: FloatArray
    apart: FloatArray
    """How far away solutions lie that are as good, in the logarithm of each value."""
    first_v: float
    """Misfit at the beginning. [V]"""


def _elsewhere(
    problem: Together, at: FloatArray, scale: float, rivals: Sequence[Together]
) -> tuple[FloatArray, FloatArray]:
    """The best solution from three starts, and how far away others lie that are as good.

    Rivals that begin otherwise count among the others.
    """
    n = len(problem.chosen)
    turns = np.where(np.arange(len(at)) % 2 == 0, 1.0, -1.0) * (np.arange(len(at)) < n)
    found = [at]
    for sign in (1.0, -1.0):
        start = np.clip(at + sign * ELSEWHERE * turns, problem.low, problem.high)
        found.append(_one_round(problem, start, scale, FEW)[0])
    misfits = [_misfit(problem.residuals(point), scale) for point in found]
    best = int(np.argmin(misfits)) if min(misfits) * AS_GOOD < misfits[0] else 0
    others = [
        point
        for place, (point, misfit) in enumerate(zip(found, misfits, strict=True))
        if place != best and misfit <= AS_GOOD * misfits[best]
    ]
    for rival in rivals:
        point = _one_round(rival, np.clip(np.zeros_like(at), rival.low, rival.high), scale)[0]
        if _misfit(rival.residuals(point), scale) <= AS_GOOD * misfits[best]:
            others.append(point)
    apart = [np.abs(other - found[best])[:n] for other in others]
    return found[best], np.max(apart, axis=0) if apart else np.zeros(n)


def _misfit(missed: FloatArray, scale: float) -> float:
    """The soft loss, as `least_squares` has it, and what the tables round."""
    ratio = missed / scale
    finest = len(missed) * (FINEST_V / scale) ** 2
    return float(np.sum(2.0 * (np.sqrt(1.0 + ratio**2) - 1.0))) + finest


def _one_round(
    problem: Together, at: FloatArray, scale: float, most: int = ROUND
) -> tuple[FloatArray, bool]:
    """Where a few evaluations lead, and whether the search ended there.

    It counts from where it begins, so that its trust region begins anew with one e-fold.
    """

    def residuals(moved: FloatArray) -> FloatArray:
        return problem.residuals(at + moved)

    def jacobian(moved: FloatArray) -> FloatArray:
        return problem.jacobian(at + moved)

    done = least_squares(
        residuals,
        np.zeros_like(at),
        jac=jacobian,
        bounds=(problem.low - at - 1e-9, problem.high - at + 1e-9),
        loss="soft_l1",
        f_scale=scale,
        xtol=CLOSE_ENOUGH,
        ftol=CLOSE_ENOUGH,
        gtol=1e-12,
        x_scale="jac",
        max_nfev=most,
    )
    # Where no step of any length helps, the surface is uneven and this is as low as it gets.
    stays = bool(np.max(np.abs(done.x)) < CLOSE_ENOUGH)
    return np.clip(at + done.x, problem.low, problem.high), bool(done.status > 0) or stays


def _answer(
    problem: Together,
    standing: _Standing,
    before: tuple[Agreement, ...],
    *,
    converged: bool,
    done: bool,
) -> Fit:
    """What is known at a point of the search; uncertainties where it is done."""
    n = len(problem.chosen)
    at = weighed(problem, standing.at) if done else standing.at
    missed = problem.residuals(at)
    sure = certainty(problem, at, standing.apart) if done else nothing_sure(n, len(missed))
    values = problem.values(at)
    rows = tuple(
        Fitted(
            parameter=p,
            value=values[p.path],
            plus_minus=values[p.path] * _wide(sure.whole[i]),
            by_readings=values[p.path] * _wide(sure.by_readings[i]),
            mostly=sure.mostly[i],
            at_limit=bool(min(at[i] - problem.low[i], problem.high[i] - at[i]) < 1e-3),
            slides=any(i in group for group in sure.ridges),
            is_followed=sure.is_followed,
        )
        for i, p in enumerate(problem.chosen)
    )
    fitted = problem.given.with_scenario(with_values(problem.given.scenario, values))
    begins = [
        part.begins(at[place]) for part, place in zip(problem.parts, problem.places, strict=True)
    ]
    return Fit(
        values=rows,
        correlation=sure.correlation,
        inseparable=sure.ridges,
        before=before,
        after=tuple(
            agreement(fitted, part.run, begin[0])
            for part, begin in zip(problem.parts, begins, strict=True)
        ),
        begins_v=tuple(tuple(one.first_v for one in begin) for begin in begins),
        moved=sure.moved,
        evaluations=problem.evaluations,
        effective=sure.effective,
        missed_before_v=standing.first_v,
        missed_v=root_mean_square(missed),
        converged=converged,
        done=done,
    )


def _wide(logarithm: float) -> float:
    """Half-width as a share of the value: the upper side of one in the logarithm."""
    return float(np.expm1(min(logarithm, 50.0))) if np.isfinite(logarithm) else np.inf

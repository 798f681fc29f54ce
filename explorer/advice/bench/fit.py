"""Fit chosen values of a scenario to a logged run, with how well the run determines each.

Nonlinear least squares in the logarithm of the values (trust region reflective, M. A. Branch et
al., SIAM J. Sci. Comput. 21 (1999) 1-23, as scipy has it), with a soft loss beyond three times the
noise, so that single readings within a pulse do not pull. The voltage at the beginning is fitted
too: the first reading has noise as all others, and must not tilt the whole run. A full store rises
and falls within the hysteresis of its charger, and when it turns is chance; so voltages above the
one at which charging resumes count as equal, and where the run leaves them the forecast begins
anew, at a voltage that is fitted too.

The ± holds what the noise leaves open, and what the values that are not fitted, the meter and the
clock may be wrong by (JCGM 100:2008, 5.1: each moves the solution by its standard deviation, and
the squares add up).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import stats
from scipy.optimize import least_squares

from explorer.advice.bench.certainty import (
    FINEST_V,
    covariance_of,
    pulls,
    ridges,
    root_mean_square,
    soft_scale,
    unexplained,
)
from explorer.advice.bench.forecast import BAND_SHARE, Agreement, agreement
from explorer.advice.bench.parameters import Parameter, check_choice, with_values
from explorer.advice.bench.problem import RECTANGLE, Halt, Problem, Stopped
from explorer.advice.bench.unsure import Unsure
from explorer.advice.case import Case
from explorer.scenario.logged_run import BenchRun

FloatArray = NDArray[np.float64]

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
WIDE_STEP = 0.03
"""Relative step of the derivatives from which the ± follows: wide enough to pass over the turns of
single events, which the surface is uneven by."""
STRONG = 0.1
"""Half-width in e-folds from which one thing that is unsure is looked at by fits of its own."""
MOST_AGAIN = 2
"""Of how many things at most."""
MOST_STEPS = 6
"""Steps of such a fit."""
CONFIDENCE = 0.95
"""Chance that the true value lies within the ± that is given."""
CORRELATED = 0.95
"""Correlation from which two values cannot be told apart (own judgement: there each alone is known
three times worse than it would be with the other given, 1/sqrt(1 - 0.95²) = 3.2)."""
LOOSE = 0.1
"""Share of a value that its ± must exceed for the correlation to matter."""
TELLING = 0.5
"""Share of the ± squared from which one thing that is unsure is named."""


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
    before: Agreement
    after: Agreement
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
    run: BenchRun,
    chosen: Sequence[Parameter],
    stopped: Stopped = lambda: False,
    known: Mapping[str, float] | None = None,
) -> Iterator[Fit]:
    """Search the values with which the forecast follows a run best; growing answers.

    Parameters
    ----------
    case : Case
        The device that was logged, with the values to begin from, and its own measured light.
    run : BenchRun
        What was logged.
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
        Nothing is chosen, or the run is too short for it.
    """
    check_choice(chosen, len(run.time_s))
    problem = Problem(case, run, chosen, stopped, known or {})
    before = agreement(case, run)
    try:
        yield from _rounds(problem, before)
    except Halt:
        return


def _rounds(problem: Problem, before: Agreement) -> Iterator[Fit]:
    at = np.clip(np.zeros_like(problem.low), problem.low, problem.high)
    first = problem.residuals(at)
    scale = soft_scale(first)
    problem, rival = _on_or_off(problem, at, scale)
    others: tuple[FloatArray, ...] = ()
    for number in range(MOST_ROUNDS):
        at, ended = _one_round(problem, at, scale)
        now = soft_scale(problem.residuals(at))
        # The noise is known only at the solution: as long as it falls, there is a round more.
        settled = ended and now > 0.9 * scale
        scale = now
        if settled:
            at, others = _elsewhere(problem, at, scale, rival)
        last = settled or number == MOST_ROUNDS - 1
        standing = _Standing(at=at, others=others, first_v=root_mean_square(first))
        yield _answer(problem, standing, before, converged=settled, done=last)
        if last:
            return


def _on_or_off(
    problem: Problem, at: FloatArray, scale: float
) -> tuple[Problem, Problem | None]:
    """Between cut-off and connect a device may be on or off: what a round follows better, first."""
    other = problem.begun_otherwise()
    if other is None:
        return problem, None
    misfits = [
        _misfit(one.residuals(_one_round(one, at, scale, FEW)[0]), scale)
        for one in (problem, other)
    ]
    return (problem, other) if misfits[0] <= misfits[1] else (other, problem)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Standing:
    """Where a search stands."""

    at: FloatArray
    others: tuple[FloatArray, ...]
    """Solutions elsewhere that are as good."""
    first_v: float
    """Misfit at the beginning. [V]"""


def _elsewhere(
    problem: Problem, at: FloatArray, scale: float, rival: Problem | None
) -> tuple[FloatArray, tuple[FloatArray, ...]]:
    """The best solution from three starts, and those of the others that are as good.

    A rival that begins otherwise counts among the others.
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
    if rival is not None:
        point = _one_round(rival, np.clip(np.zeros_like(at), rival.low, rival.high), scale)[0]
        if _misfit(rival.residuals(point), scale) <= AS_GOOD * misfits[best]:
            others.append(point)
    return found[best], tuple(others)


def _misfit(missed: FloatArray, scale: float) -> float:
    """The soft loss, as `least_squares` has it, and what the tables round."""
    ratio = missed / scale
    finest = len(missed) * (FINEST_V / scale) ** 2
    return float(np.sum(2.0 * (np.sqrt(1.0 + ratio**2) - 1.0))) + finest


def _one_round(
    problem: Problem, at: FloatArray, scale: float, most: int = ROUND
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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Certainty:
    """Half-widths of the logarithms, shape (n,), and what else is known of them."""

    whole: FloatArray
    by_readings: FloatArray
    mostly: tuple[str, ...]
    correlation: FloatArray
    ridges: tuple[tuple[int, ...], ...]
    effective: float
    is_followed: bool


def _certainty(problem: Problem, standing: _Standing, missed: FloatArray) -> _Certainty:
    """What the noise, what is not fitted and other solutions leave open."""
    at, n = standing.at, len(problem.chosen)
    jacobian = problem.jacobian(at)
    names = problem.unsure
    columns = np.column_stack([problem.unsure_by(at, one) for one in names])
    left = unexplained(missed, jacobian, columns)
    covariance, effective = covariance_of(left, jacobian)
    full_v = problem.case.scenario.charger.full_V
    sizes = np.sqrt(np.diag(covariance))[:n]
    correlation = covariance[:n, :n] / np.outer(sizes, sizes)
    freedom = max(effective - len(at), 1.0)
    by_readings = sizes * float(stats.t.ppf(0.5 + CONFIDENCE / 2.0, freedom))
    by_each = float(stats.norm.ppf(0.5 + CONFIDENCE / 2.0)) * pulls(missed, jacobian, columns)
    by_each = np.abs(by_each[:, :n])
    # A strong one is no straight line: the fit is done again with it at both of its ends.
    strong = [k for k in np.argsort(-by_each.max(axis=1)) if by_each[k].max() > STRONG]
    for k in strong[:MOST_AGAIN]:
        by_each[k] = np.maximum(by_each[k], _again(problem, at, names[k], missed, jacobian))
    shares = by_each**2
    apart = [np.abs(other[:n] - at[:n]) for other in standing.others]
    apart_by = np.max(apart, axis=0) if apart else np.zeros(n)
    whole = np.sqrt(by_readings**2 + shares.sum(axis=0))
    # Noise alone lets two starts end apart; what goes beyond that is added.
    whole = np.where(apart_by > 0.1 * whole, np.hypot(whole, apart_by), whole)
    strongest = shares.argmax(axis=0)
    mostly = tuple(
        names[k].label if shares[k, i] > TELLING * whole[i] ** 2 else ""
        for i, k in enumerate(strongest.tolist())
    )
    return _Certainty(
        whole=whole,
        by_readings=by_readings,
        mostly=mostly,
        correlation=correlation,
        ridges=tuple(
            group
            for group in ridges(jacobian, n, 1.0 - CORRELATED)
            if any(whole[i] > LOOSE for i in group)
        ),
        effective=effective,
        is_followed=float(np.median(np.abs(left))) <= BAND_SHARE * full_v,
    )


def _again(
    problem: Problem, at: FloatArray, one: Unsure, missed: FloatArray, jacobian: FloatArray
) -> FloatArray:
    """Half-width from one thing that is unsure, by fits with it at both ends; shape (n,).

    They go along the derivatives at the solution as long as that helps.
    """
    n, scale = len(problem.chosen), soft_scale(missed)
    wide = float(stats.norm.ppf(0.5 + CONFIDENCE / 2.0)) * RECTANGLE
    found = [np.zeros(n)]
    for share in (-1.0, 1.0):
        there = problem.with_moved(one, share)
        if there is None:
            continue
        best, left = at, there.residuals(at)
        for _ in range(MOST_STEPS):
            step = pulls(missed, jacobian, left[:, None])[0]
            point = np.clip(best + step, problem.low, problem.high)
            now = there.residuals(point)
            if _misfit(now, scale) >= 0.99 * _misfit(left, scale):
                break
            best, left = point, now
        found.append(np.abs(best - at)[:n] * wide)
    return np.asarray(np.max(found, axis=0))


def _answer(
    problem: Problem, standing: _Standing, before: Agreement, *, converged: bool, done: bool
) -> Fit:
    """What is known at a point of the search; uncertainties where it is done."""
    at, n = standing.at, len(problem.chosen)
    missed = problem.residuals(at)
    unknown = np.full(n, np.inf)
    sure = (
        _certainty(problem, standing, missed)
        if done
        else _Certainty(
            whole=unknown, by_readings=unknown, mostly=("",) * n, correlation=np.eye(n),
            ridges=(), effective=float(len(missed)), is_followed=True,
        )
    )  # fmt: skip
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
    after = agreement(fitted, problem.run, problem.begins(at)[0])
    return Fit(
        values=rows,
        correlation=sure.correlation,
        inseparable=sure.ridges,
        before=before,
        after=after,
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

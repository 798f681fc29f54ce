"""Fit chosen values of a scenario to a logged run, with how well the run determines each.

Nonlinear least squares in the logarithm of the values (trust region reflective, M. A. Branch et
al., SIAM J. Sci. Comput. 21 (1999) 1-23, as scipy has it), with a soft loss beyond three times the
noise, so that single readings within a pulse do not pull. The voltage at the beginning is fitted
too: the first reading has noise as all others, and must not tilt the whole run. A full store rises
and falls within the hysteresis of its charger, and when it turns is chance; so voltages above the
one at which charging resumes count as equal, and where the run leaves them the forecast begins
anew, at a voltage that is fitted too.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from pydantic import ValidationError
from scipy import stats
from scipy.optimize import least_squares

from explorer.advice.bench.certainty import (
    FINEST_V,
    covariance_of,
    root_mean_square,
    soft_scale,
)
from explorer.advice.bench.forecast import (
    Agreement,
    Beginning,
    agreement,
    first_beginning,
    forecast,
    noise_of,
    under_logged_light,
    window_s,
)
from explorer.advice.bench.parameters import (
    Parameter,
    check_choice,
    sees_pulses,
    with_values,
)
from explorer.advice.case import Case
from explorer.scenario.logged_run import BenchRun, thinned

FloatArray = NDArray[np.float64]
Stopped = Callable[[], bool]

FIT_ROWS = 1500
"""Rows that are fitted; more would only repeat each other."""
STEP = 5e-3
"""Relative step of the differences for the Jacobian; well above what the tables round."""
FIRST_VOLT_STEP_V = 1e-3
SCALE_V = 0.01
"""Unit of the fitted beginning, so that it weighs like the logarithm of a value. [V]"""
ROUND = 15
"""Steps between two looks at the noise."""
MOST_ROUNDS = 6
CONFIDENCE = 0.95
"""Chance that the true value lies within the ± that is given."""
CORRELATED = 0.95
"""Correlation from which two values cannot be told apart (own judgement: there each alone is known
three times worse than it would be with the other given, 1/sqrt(1 - 0.95²) = 3.2)."""
LOOSE = 0.1
"""Share of a value that its ± must exceed for the correlation to matter."""
LEAST_PART = 5
"""Rows without which the forecast does not begin anew."""
FAR_V = 10.0
"""Residual of values that make no scenario. [V]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """One value after a fit."""

    parameter: Parameter
    value: float
    plus_minus: float
    """Half-width within which the true value lies with `CONFIDENCE`; infinite where the run says
    nothing. [unit]"""
    at_limit: bool
    """Whether the search ended at an end of its range."""

    @property
    def determined(self) -> bool:
        """Whether the run says anything of it: its ± does not exceed its value."""
        return self.plus_minus <= abs(self.value) and not self.at_limit


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """A search as far as it has come."""

    values: tuple[Fitted, ...]
    correlation: FloatArray
    """Between the values, shape (n, n)."""
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
    def inseparable(self) -> tuple[tuple[int, int], ...]:
        """Pairs of values that this run cannot tell apart.

        Their correlation reaches `CORRELATED`, and one of them is not known to `LOOSE`.
        """
        n = len(self.values)
        return tuple(
            (i, j)
            for i in range(n)
            for j in range(i + 1, n)
            if abs(self.correlation[i, j]) >= CORRELATED
            and any(v.plus_minus > LOOSE * v.value for v in (self.values[i], self.values[j]))
        )

    @property
    def found(self) -> dict[str, float]:
        """Value under each path."""
        return {f.parameter.path: f.value for f in self.values}

    @property
    def is_good(self) -> bool:
        """Whether the values may be used: the search ended, and not worse than it began."""
        return self.converged and self.missed_v <= max(self.missed_before_v, FINEST_V) * 1.001


class _Halt(Exception):
    """Somebody asked to stop."""


class _Problem:
    """Residuals of a run as a function of the fitted values.

    The unknowns are the logarithms of the values over their starts, and then the voltages at each
    beginning in units of `SCALE_V`.
    """

    def __init__(
        self,
        case: Case,
        run: BenchRun,
        chosen: Sequence[Parameter],
        stopped: Stopped,
    ) -> None:
        self.given, self.case = case, under_logged_light(case, run)
        scenario = case.scenario
        self.chosen, self.stopped = tuple(chosen), stopped
        rows = FIT_ROWS
        self.with_pulses = sees_pulses(scenario, run)
        if self.with_pulses:
            # Every row must hold at least one pulse for its lowest reading to say anything.
            rows = int(np.clip(run.span_s / (1.01 * window_s(scenario, run)), 8, FIT_ROWS))
        self.run = thinned(run, rows)
        self.full = self._full_stretches()
        self.starts = self._starts()
        self.evaluations = 0
        bounds = [(np.log(p.low / p.start), np.log(p.high / p.start)) for p in self.chosen]
        bounds += [(-0.5 / SCALE_V, 0.5 / SCALE_V)] * len(self.starts)
        self.low, self.high = np.array(bounds).T

    def _full_stretches(self) -> list[tuple[int, int]]:
        """Rows in which the run is full: from near the top until it has left the hysteresis."""
        charger, volts = self.case.scenario.charger, self.run.volts
        room, found, since = charger.full_hysteresis_V, [], -1
        left_v = charger.full_V - room - max(0.3 * room, 4.0 * noise_of(volts))
        for row, reading in enumerate(volts.tolist()):
            if since < 0 and reading >= charger.full_V - 0.5 * room:
                since = row
            elif since >= 0 and reading < left_v:
                found.append((since, row))
                since = -1
        return [*found, (since, len(volts))] if since >= 0 else found

    def _starts(self) -> tuple[Beginning, ...]:
        """The first reading, and each at which the run is no longer full."""
        volts = self.run.volts
        again = [row for _, row in self.full if row < len(volts) - LEAST_PART]
        return (
            first_beginning(self.case, self.run),
            *(Beginning(first_v=float(volts[r]), connected=True, row=r) for r in again),
        )

    def values(self, unknowns: FloatArray) -> dict[str, float]:
        """Value under each path."""
        return {
            p.path: float(np.clip(p.start * np.exp(u), p.low, p.high))
            for p, u in zip(self.chosen, unknowns.tolist(), strict=False)
        }

    def begins(self, unknowns: FloatArray) -> tuple[Beginning, ...]:
        """Where the forecast begins."""
        moved = SCALE_V * unknowns[len(self.chosen) :]
        return tuple(
            replace(start, first_v=start.first_v + by)
            for start, by in zip(self.starts, moved.tolist(), strict=True)
        )

    def residuals(self, unknowns: FloatArray) -> FloatArray:
        """Reading less forecast at every row, and of the lowest readings where pulses show. [V]"""
        if self.stopped():
            raise _Halt
        self.evaluations += 1
        try:
            scenario = with_values(self.case.scenario, self.values(unknowns))
            found = forecast(
                self.case.with_scenario(scenario), self.run, self.begins(unknowns),
                lowest=self.with_pulses,
            )
        except (ValidationError, ValueError):
            return np.full(len(self.run.volts) * (1 + self.with_pulses), FAR_V)
        missed = self._missed(found.terminal_v)
        if not self.with_pulses:
            return missed
        return np.concatenate([missed, self.run.low_v - found.terminal_min_v])

    def _missed(self, forecast_v: FloatArray) -> FloatArray:
        """Readings less forecast, where both are full nothing. [V]"""
        charger = self.case.scenario.charger
        resume_v = charger.full_V - charger.full_hysteresis_V
        missed = np.minimum(self.run.volts, resume_v) - np.minimum(forecast_v, resume_v)
        for first, end in self.full:
            # Once it was full too, a forecast may fall back below at another moment than the run.
            reached = np.maximum.accumulate(np.minimum(forecast_v[first:end], resume_v))
            missed[first:end] = resume_v - reached
        return missed

    def jacobian(self, unknowns: FloatArray) -> FloatArray:
        """Derivatives by central differences, shape (rows, unknowns).

        The rows of one beginning do not know the others, so all are moved at once.
        """
        n = len(self.chosen)
        moves = [np.eye(len(unknowns))[i] * STEP for i in range(n)]
        moves.append(np.where(np.arange(len(unknowns)) < n, 0.0, FIRST_VOLT_STEP_V / SCALE_V))
        slopes = []
        for move in moves:
            up = np.clip(unknowns + move, self.low, self.high)
            down = np.clip(unknowns - move, self.low, self.high)
            width = max(float(np.max(up - down)), 1e-12)
            slopes.append((self.residuals(up) - self.residuals(down)) / width)
        by_start = slopes.pop()
        rows = np.arange(len(self.run.volts))
        part = np.searchsorted([s.row for s in self.starts], rows, side="right") - 1
        part = np.tile(part, len(by_start) // len(part))
        own = [np.where(part == k, by_start, 0.0) for k in range(len(self.starts))]
        return np.column_stack([*slopes, *own])


def fit(
    case: Case,
    run: BenchRun,
    chosen: Sequence[Parameter],
    stopped: Stopped = lambda: False,
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
    problem = _Problem(case, run, chosen, stopped)
    before = agreement(case, run)
    try:
        yield from _rounds(problem, before)
    except _Halt:
        return


def _rounds(problem: _Problem, before: Agreement) -> Iterator[Fit]:
    at = np.clip(np.zeros_like(problem.low), problem.low, problem.high)
    first = problem.residuals(at)
    scale = soft_scale(first)
    for number in range(MOST_ROUNDS):
        at, ended = _one_round(problem, at, scale)
        now = soft_scale(problem.residuals(at))
        # The noise is known only at the solution: as long as it falls, there is a round more.
        settled = ended and now > 0.9 * scale
        scale = now
        last = settled or number == MOST_ROUNDS - 1
        yield _answer(problem, at, before, root_mean_square(first), converged=settled, done=last)
        if last:
            return


def _one_round(problem: _Problem, at: FloatArray, scale: float) -> tuple[FloatArray, bool]:
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
        xtol=1e-6,
        ftol=1e-6,
        gtol=1e-12,
        x_scale="jac",
        max_nfev=ROUND,
    )
    return np.clip(at + done.x, problem.low, problem.high), bool(done.status > 0)


def _answer(
    problem: _Problem,
    at: FloatArray,
    before: Agreement,
    missed_before_v: float,
    *,
    converged: bool,
    done: bool,
) -> Fit:
    """What is known at a point of the search; uncertainties where it is done."""
    missed = problem.residuals(at)
    n = len(problem.chosen)
    spread, effective = np.full(n, np.inf), float(len(missed))
    correlation = np.eye(n)
    if done:
        covariance, effective = covariance_of(missed, problem.jacobian(at))
        sizes = np.sqrt(np.diag(covariance))
        correlation = (covariance / np.outer(sizes, sizes))[:n, :n]
        freedom = max(effective - len(at), 1.0)
        spread = sizes[:n] * float(stats.t.ppf(0.5 + CONFIDENCE / 2.0, freedom))
    values = problem.values(at)
    rows = tuple(
        Fitted(
            parameter=p,
            value=values[p.path],
            plus_minus=values[p.path] * float(spread[i]),
            at_limit=bool(min(at[i] - problem.low[i], problem.high[i] - at[i]) < 1e-3),
        )
        for i, p in enumerate(problem.chosen)
    )
    fitted = problem.given.with_scenario(with_values(problem.given.scenario, values))
    after = agreement(fitted, problem.run, problem.begins(at)[0])
    return Fit(
        values=rows,
        correlation=correlation,
        before=before,
        after=after,
        evaluations=problem.evaluations,
        effective=effective,
        missed_before_v=missed_before_v,
        missed_v=root_mean_square(missed),
        converged=converged,
        done=done,
    )

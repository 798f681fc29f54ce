"""What the readings, and what is not fitted, leave open of a solution."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtri, stdtrit

from explorer.advice.bench.certainty import noise_variance, ridges, unexplained
from explorer.advice.bench.forecast import BAND_SHARE
from explorer.advice.bench.together import Common, Together
from explorer.advice.bench.weighing import Said, Weighing
from explorer.physics.arrays import FloatArray

CONFIDENCE = 0.95
"""Chance that the true value lies within the ± that is given."""
NORMAL = float(ndtri(0.5 + CONFIDENCE / 2.0))
"""Standard deviations in that ±."""
WIDE_STEP = 0.03
"""Relative step of the derivatives from which the ± follows: wide enough to pass over the turns of
single events, which the surface is uneven by."""
STRONG = 0.1
"""Half-width in e-folds from which one thing that is unsure is looked at by fits of its own."""
MOST_AGAIN = 2
"""Of how many things at most."""
MOST_STEPS = 6
"""Steps of such a fit, and of the weighing of several runs."""
SMALL_STEP = 1e-3
"""Step in the logarithm of values at which they end."""
STEADY = 0.9
"""Share of the step before that a step must stay below to be one towards a solution."""
CORRELATED = 0.95
"""Correlation from which two values cannot be told apart (own judgement: there each alone is known
three times worse than it would be with the other given, 1/sqrt(1 - 0.95²) = 3.2)."""
LOOSE = 0.1
"""Share of a value that its ± must exceed for the correlation to matter."""
TELLING = 0.5
"""Share of the ± squared from which one thing that is unsure is named."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """How far one thing that is not fitted may move the fitted values."""

    label: str
    name: str
    """Under which another fit has the same thing; empty where nothing else has it."""
    lasts: bool
    """Whether it is still the same months later."""
    by: FloatArray
    """In the logarithm of each value, with `CONFIDENCE` and a sign, shape (n,)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Certainty:
    """Half-widths of the logarithms, shape (n,), and what else is known of them."""

    whole: FloatArray
    by_readings: FloatArray
    mostly: tuple[str, ...]
    correlation: FloatArray
    ridges: tuple[tuple[int, ...], ...]
    effective: float
    is_followed: bool
    moved: tuple[Moved, ...]


def nothing_sure(n: int, rows: int) -> Certainty:
    """What is known of n values while a search goes on."""
    unknown = np.full(n, np.inf)
    return Certainty(
        whole=unknown, by_readings=unknown, mostly=("",) * n, correlation=np.eye(n), ridges=(),
        effective=float(rows), is_followed=True, moved=(),
    )  # fmt: skip


def said_by(problem: Together, at: FloatArray) -> tuple[Said, ...]:
    """What each run says near a solution."""
    missed, jacobian = problem.residuals(at), problem.jacobian(at, WIDE_STEP)
    sides = np.array([problem.unsure_by(at, one) for one in problem.unsure])
    more, less = sides[:, 0].T, sides[:, 1].T
    left = unexplained(missed, jacobian, 0.5 * (more + less))
    parts = zip(*(problem.split(o) for o in (missed, left, jacobian, more, less)), strict=True)
    found = []
    for own, calm, slopes, up, down in parts:
        variance, worth = noise_variance(calm, slopes)
        found.append(
            Said(
                missed=own, left=calm, variance=variance, worth=worth, jacobian=slopes,
                columns=up, otherwise=down,
            )
        )  # fmt: skip
    return tuple(found)


def half_widths(weighing: Weighing, n: int) -> tuple[FloatArray, FloatArray]:
    """Half-widths of the logarithms of n values by the readings alone, and by all; shape (n,)."""
    freedom = max(weighing.effective - len(weighing.noise), 1.0)
    chance = float(stdtrit(freedom, 0.5 + CONFIDENCE / 2.0))
    by_readings = chance * np.sqrt(np.diag(weighing.noise))[:n]
    by_each = NORMAL * weighing.pulls[:, :n]
    return by_readings, np.sqrt(by_readings**2 + (by_each**2).sum(axis=0))


def weighed(problem: Together, at: FloatArray) -> FloatArray:
    """From where least squares ended to where the runs, weighed against each other, lead."""
    if len(problem.parts) == 1:
        return at
    n, before = len(problem.chosen), np.inf
    weighing = Weighing(said_by(problem, at))
    for _ in range(MOST_STEPS):
        step = weighing.step(problem.split(problem.residuals(at)))
        size = float(np.max(np.abs(step[:n])))
        if size > STEADY * before:
            break
        at, before = np.clip(at + step, problem.low, problem.high), size
        if size < SMALL_STEP:
            break
    return at


def certainty(problem: Together, at: FloatArray, apart: FloatArray) -> Certainty:
    """What the noise, what is not fitted and other solutions leave open.

    Parameters
    ----------
    problem : Together
        The runs.
    at : ndarray
        The solution.
    apart : ndarray
        How far away others lie that are as good, in the logarithm of each value.
    """
    n, names = len(problem.chosen), problem.unsure
    said = said_by(problem, at)
    weighing = Weighing(said)
    by_readings, _ = half_widths(weighing, n)
    by_each = NORMAL * weighing.pulls[:, :n]
    # A strong one is no straight line: the fit is done again with it at both of its ends.
    largest = np.abs(by_each).max(axis=1)
    strong = [k for k in np.argsort(-largest) if largest[k] > STRONG]
    for k in strong[:MOST_AGAIN]:
        again = _again(problem, at, names[k], weighing)
        by_each[k] = np.where(np.abs(by_each[k]) >= again, by_each[k], _signed(again, by_each[k]))
    shares = by_each**2
    whole = np.sqrt(by_readings**2 + shares.sum(axis=0))
    # Noise alone lets two starts end apart; what goes beyond that is added.
    whole = np.where(apart > 0.1 * whole, np.hypot(whole, apart), whole)
    strongest = shares.argmax(axis=0)
    sizes = np.sqrt(np.diag(weighing.noise))[:n]
    calm = np.concatenate([one.jacobian / np.sqrt(one.variance) for one in said])
    return Certainty(
        whole=whole,
        by_readings=by_readings,
        mostly=tuple(
            names[k].label if shares[k, i] > TELLING * whole[i] ** 2 else ""
            for i, k in enumerate(strongest.tolist())
        ),
        correlation=weighing.noise[:n, :n] / np.outer(sizes, sizes),
        ridges=tuple(
            group
            for group in ridges(calm, n, 1.0 - CORRELATED)
            if any(whole[i] > LOOSE for i in group)
        ),
        effective=weighing.effective,
        is_followed=all(
            _follows(part.under.scenario.charger.full_V, one, weight)
            for part, one, weight in zip(problem.parts, said, problem.weights, strict=True)
        ),
        moved=tuple(
            Moved(label=one.label, name=one.name, lasts=one.lasts, by=by)
            for one, by in zip(names, by_each, strict=True)
        ),
    )


def _follows(full_v: float, one: Said, weight: float) -> bool:
    return float(np.median(np.abs(one.left))) / weight <= BAND_SHARE * full_v


def _signed(size: FloatArray, sign: FloatArray) -> FloatArray:
    return np.where(sign < 0.0, -size, size)


def _again(
    problem: Together, at: FloatArray, one: Common, weighing: Weighing
) -> FloatArray:
    """Half-width from one thing that is unsure, by fits with it at both ends; shape (n,).

    They go along the derivatives at the solution as long as that helps.
    """
    n = len(problem.chosen)
    found = [np.zeros(n)]
    for share in (-1.0, 1.0):
        there = problem.with_moved(one, share)
        if there is None:
            continue
        point, before = at, np.inf
        for _ in range(MOST_STEPS):
            step = weighing.step(problem.split(there.residuals(point)))
            size = float(np.max(np.abs(step[:n])))
            if size > STEADY * before or size < SMALL_STEP:
                break
            point, before = np.clip(point + step, problem.low, problem.high), size
        found.append(np.abs(point - at)[:n] * NORMAL * one.deviation)
    return np.asarray(np.max(found, axis=0))

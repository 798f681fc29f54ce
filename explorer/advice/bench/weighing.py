"""How a solution moves with the readings of several runs, and what is left open.

Within a run its readings count alike, as in least squares. What each run says of the unknowns is
then weighed against the others by how well it says it: the noise of its readings, and what it may
be wrong by because something that is not fitted is. That is generalised least squares (A. C.
Aitken, Proc. Roy. Soc. Edinburgh 55 (1936) 42) of the runs' projections on what they say of the
unknowns; of one run alone it is ordinary least squares. So a run that depends on what nobody knows
never spoils what another has told.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from explorer.advice.bench.certainty import SEEN, column_sizes, weights_of
from explorer.physics.arrays import FloatArray

FINEST_SHARE = 1e-3
"""Least noise in the weighing, as a share of what is unsure in a run: no run counts more than a
million times another."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What one run says of the unknowns, near a solution."""

    missed: FloatArray
    """Residuals, shape (rows,). [V]"""
    left: FloatArray
    """What is left of them once what is unsure has moved as it likely has. [V]"""
    variance: float
    """Of the noise that each reading counts with. [V²]"""
    worth: float
    """How many independent readings they are worth."""
    jacobian: FloatArray
    """Shape (rows, unknowns of all runs)."""
    columns: FloatArray
    """What one standard deviation of each unsure thing adds, shape (rows, things). [V]"""
    otherwise: FloatArray
    """The same where each is less in place of more; alike where the run answers evenly. [V]"""


class Weighing:
    """Weighs what runs say of the unknowns.

    Attributes
    ----------
    noise : ndarray
        Covariance of the unknowns by the noise of the readings alone.
    pulls : ndarray
        How far one standard deviation of each unsure thing moves the solution, each value as the
        side does that moves it farther; shape (things, unknowns).
    effective : float
        Independent readings that the residuals are worth.
    """

    def __init__(self, runs: Sequence[Said]) -> None:
        self._bases: list[FloatArray] = []
        signals, columns, others, variances, effective = [], [], [], [], 0.0
        for run in runs:
            weight = weights_of(run.missed)[:, None]
            size = column_sizes(run.jacobian)
            base, strength, _ = np.linalg.svd(weight * run.jacobian / size, full_matrices=False)
            base = (weight * base[:, strength > SEEN * strength[0]]).T
            self._bases.append(base)
            signals.append(base @ run.jacobian)
            columns.append(base @ run.columns)
            others.append(base @ run.otherwise)
            variances.append(np.full(len(base), run.variance))
            effective += run.worth
        signal = np.concatenate(signals)
        variance_all = np.concatenate(variances)
        means = [0.5 * (a + b) for a, b in zip(columns, others, strict=True)]
        whitener = _whitener(means, variances)
        size = column_sizes(signal)
        left, strength, axes = np.linalg.svd(whitener @ (signal / size))
        seen = int(np.count_nonzero(strength > SEEN * strength[0]))
        inverse = (axes[:seen].T / strength[:seen]) @ left[:, :seen].T
        self.gain = inverse @ whitener / size[:, None]
        # A direction that no run sees must come out as unknown, not as known for certain.
        blind = (axes[seen:].T / (SEEN * strength[0])) / size[:, None]
        self.noise = (self.gain * variance_all) @ self.gain.T + blind @ blind.T
        more, less = (-(self.gain @ np.concatenate(one)).T for one in (columns, others))
        self.pulls = np.where(np.abs(more) >= np.abs(less), more, less)
        self.effective = effective

    def step(self, missed: Sequence[FloatArray]) -> FloatArray:
        """How far from the solution the unknowns lie that leave these residuals, by run."""
        said = [base @ one for base, one in zip(self._bases, missed, strict=True)]
        return np.asarray(-self.gain @ np.concatenate(said))


def _whitener(columns: Sequence[FloatArray], variances: Sequence[FloatArray]) -> FloatArray:
    """What makes all that the runs say equally sure and independent; square."""
    column = np.concatenate(columns)
    if len(columns) == 1:
        return np.eye(len(column))  # as many as unknowns: no weight changes the solution
    floor = FINEST_SHARE * max(float(np.linalg.norm(one, 2)) for one in columns)
    noise = np.maximum(np.concatenate(variances), max(floor**2, 1e-24))
    whole = np.diag(noise) + column @ column.T
    return np.asarray(np.linalg.inv(np.linalg.cholesky(whole)))

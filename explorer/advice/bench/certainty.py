"""How well the readings of a run determine what was fitted to them."""

from __future__ import annotations

import numpy as np

from explorer.physics.arrays import FloatArray

SOFT_FROM = 3.0
"""Residuals beyond this many times the noise count less."""
MEMBER = 0.25
"""Share of a direction from which an unknown belongs to those that slide along it."""
SEEN = 1e-6
"""Strength over the greatest from which a direction counts as seen at all."""
FINEST_V = 2e-5
"""Residuals are taken as no smaller than the tables of the engine are. [V]"""


def soft_scale(residuals: FloatArray) -> float:
    """Size from which residuals count less: a robust estimate of their noise, and times three."""
    telling = residuals[residuals != 0.0]
    noise = 1.4826 * float(np.median(np.abs(telling))) if len(telling) else 0.0
    return SOFT_FROM * max(noise, FINEST_V)


def noise_variance(missed: FloatArray, jacobian: FloatArray) -> tuple[float, float]:
    """Variance of the noise that each reading counts with [V²], and how many they are worth.

    For a loss with the derivative psi the covariance is E[psi^2]/E[psi']^2 (J'J)^-1 (P. J. Huber,
    Robust Statistics, 1981, chapter 7; from memory). Neighbouring residuals that resemble each
    other are worth less: n (1 - r)/(1 + r) of n readings with the correlation r from one to the
    next (for a first-order process; common practice, no source); the variance is as much larger.
    """
    unknowns = int(np.count_nonzero(np.any(jacobian != 0.0, axis=0)))
    telling = missed != 0.0  # where both are full nothing is learnt
    if np.count_nonzero(telling) > unknowns:
        missed = missed[telling]
    rows = len(missed)
    scale = soft_scale(missed)
    ratio = missed / scale
    pull = missed / np.sqrt(1.0 + ratio**2)
    weight = np.mean((1.0 + ratio**2) ** -1.5)
    variance = float(np.mean(pull**2) / weight**2) * rows / max(rows - unknowns, 1)
    variance = max(variance, (0.1 * FINEST_V) ** 2)
    alike = _likeness(missed)
    effective = rows * (1.0 - alike) / (1.0 + alike)
    return variance * rows / effective, effective


def column_sizes(jacobian: FloatArray) -> FloatArray:
    """Length of each column, of one without effect as good as none. [V]"""
    size = np.linalg.norm(jacobian, axis=0)
    return np.asarray(np.maximum(size, 1e-12 * max(float(size.max()), 1e-12)))


def weights_of(missed: FloatArray) -> FloatArray:
    """Root of the weight that the soft loss gives each residual."""
    return np.asarray((1.0 + (missed / soft_scale(missed)) ** 2) ** -0.25)


def unexplained(missed: FloatArray, jacobian: FloatArray, columns: FloatArray) -> FloatArray:
    """What is left of the residuals once things that are unsure may move by what they may. [V]

    Each column is what one standard deviation of one thing adds; together they are moved as far
    as ridge regression finds likely. What is left is noise, and no longer what the fit could not
    know, which counts by itself.
    """
    weight = weights_of(missed)[:, None]
    noise = soft_scale(missed) / SOFT_FROM
    for _ in range(3):  # the noise is known only once it is left alone
        own = np.hstack([jacobian / np.maximum(np.linalg.norm(jacobian, axis=0), 1e-12), columns])
        prior = noise * np.diag([1e-6] * jacobian.shape[1] + [1.0] * columns.shape[1])
        target = np.concatenate([-weight[:, 0] * missed, np.zeros(len(prior))])
        moved = np.linalg.lstsq(np.vstack([weight * own, prior]), target, rcond=None)[0]
        left = np.where(missed != 0.0, missed + own @ moved, 0.0)
        noise = soft_scale(left) / SOFT_FROM
    return np.asarray(left)


def ridges(jacobian: FloatArray, count: int, least: float) -> tuple[tuple[int, ...], ...]:
    """Groups of the first `count` unknowns along which the run hardly changes.

    The columns of the unknowns, of unit length and without what the rest of the Jacobian explains,
    have a singular value for every direction in which they may slide together. Of two columns with
    the correlation r the smaller is sqrt(1 - r).

    Parameters
    ----------
    jacobian : ndarray
        Shape (rows, unknowns).
    count : int
        Unknowns that are asked about.
    least : float
        Square of the singular value from which a direction counts as seen.

    Examples
    --------
    >>> x = np.linspace(0.0, 1.0, 50)
    >>> y = np.cos(5 * x)
    >>> ridges(np.column_stack([x, y, x + y, np.sin(9 * x)]), 4, 0.05)
    ((0, 1, 2),)
    """
    own, rest = jacobian[:, :count], jacobian[:, count:]
    if rest.size:
        base, _ = np.linalg.qr(rest)
        own = own - base @ (base.T @ own)
    size = np.linalg.norm(own, axis=0)
    seen = np.flatnonzero(size > 1e-9 * max(float(np.linalg.norm(jacobian, axis=0).max()), 1e-12))
    if len(seen) < 2:
        return ()
    _, strength, axes = np.linalg.svd(own[:, seen] / size[seen], full_matrices=False)
    return tuple(
        tuple(int(seen[i]) for i in np.flatnonzero(np.abs(axis) > MEMBER))
        for value, axis in zip(strength, axes, strict=True)
        if value**2 <= least
    )


def root_mean_square(missed: FloatArray) -> float:
    """Root mean square. [V]"""
    return float(np.sqrt(np.mean(missed**2)))


def _likeness(missed: FloatArray) -> float:
    """Correlation of each residual with the next, 0 to 0.99."""
    around = missed - np.mean(missed)
    whole = float(around @ around)
    if whole <= len(missed) * (0.1 * FINEST_V) ** 2:
        return 0.0
    return float(np.clip(around[1:] @ around[:-1] / whole, 0.0, 0.99))

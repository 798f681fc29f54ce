"""How well the readings of a run determine what was fitted to them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]

SOFT_FROM = 3.0
"""Residuals beyond this many times the noise count less."""
FINEST_V = 2e-5
"""Residuals are taken as no smaller than the tables of the engine are. [V]"""


def soft_scale(residuals: FloatArray) -> float:
    """Size from which residuals count less: a robust estimate of their noise, and times three."""
    telling = residuals[residuals != 0.0]
    noise = 1.4826 * float(np.median(np.abs(telling))) if len(telling) else 0.0
    return SOFT_FROM * max(noise, FINEST_V)


def covariance_of(missed: FloatArray, jacobian: FloatArray) -> tuple[FloatArray, float]:
    """Covariance of the unknowns, and how many independent readings the residuals are worth.

    For a loss with the derivative psi it is E[psi^2]/E[psi']^2 (J'J)^-1 (P. J. Huber, Robust
    Statistics, 1981, chapter 7; from memory). Neighbouring residuals that resemble each other are
    worth less: n (1 - r)/(1 + r) of n readings with the correlation r from one to the next (for a
    first-order process; common practice, no source).
    """
    telling = missed != 0.0  # where both are full nothing is learnt
    if np.count_nonzero(telling) > jacobian.shape[1]:
        missed, jacobian = missed[telling], jacobian[telling]
    rows, unknowns = jacobian.shape
    scale = soft_scale(missed)
    ratio = missed / scale
    pull = missed / np.sqrt(1.0 + ratio**2)
    weight = np.mean((1.0 + ratio**2) ** -1.5)
    variance = float(np.mean(pull**2) / weight**2) * rows / max(rows - unknowns, 1)
    variance = max(variance, (0.1 * FINEST_V) ** 2)
    alike = _likeness(missed)
    effective = rows * (1.0 - alike) / (1.0 + alike)
    size = np.linalg.norm(jacobian, axis=0)
    size = np.maximum(size, 1e-12 * max(float(size.max()), 1e-12))
    _, strength, axes = np.linalg.svd(jacobian / size, full_matrices=False)
    # A direction that the run does not see must come out as unknown, not as known for certain.
    strength = np.maximum(strength, 1e-6 * strength[0])
    inverse = (axes.T / strength**2) @ axes
    covariance = variance * rows / effective * inverse / np.outer(size, size)
    return np.asarray(covariance), effective


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

"""How deep a store droops under a current, for every store at once.

From full charge a store of capacitance C behind a resistance R stands ``R i(t) + q(t) / C`` lower
at a moment t, with q the charge drawn so far. Times C, its deepest droop is

    F(τ) = max over t of (τ i(t) + q(t)),    τ = R C,

the support function of the points (i, q) in the directions of the first quadrant. So their upper
right hull says everything that any store can tell about a capture, and two captures whose F agree
within a share droop within that share in every store there is.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explorer.physics.arrays import FloatArray, Number

FINE = 20_000
"""Into so many parts of the charge a long capture is gathered: its droop is good to 1 / FINE."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Hull:
    """Corners of the upper right hull; charge rises and current falls from one to the next."""

    current_a: FloatArray
    charge_c: FloatArray
    place: NDArray[np.intp]
    """Of which reading each corner is."""

    def deepest(self, tau_s: Number) -> FloatArray:
        """F at times R C, of the shape given. [C]"""
        tau = np.asarray(tau_s, float)
        corner = np.searchsorted(-self.turns_s, -tau)
        depth: FloatArray = tau * self.current_a[corner] + self.charge_c[corner]
        return depth

    @property
    def turns_s(self) -> FloatArray:
        """Times R C at which one corner takes over from the next, falling. [s]"""
        with np.errstate(divide="ignore"):
            turns: FloatArray = np.diff(self.charge_c) / -np.diff(self.current_a)
        return turns

    def most_current(self, charge_c: FloatArray, over: float) -> FloatArray:
        """Largest current at a charge that droops no more than a share `over` deeper. [A]"""
        more = 1.0 + over
        limit: FloatArray = np.interp(charge_c, more * self.charge_c, more * self.current_a)
        return limit


def hull_of(current_a: FloatArray, charge_c: FloatArray) -> Hull:
    """Upper right hull of readings.

    Parameters
    ----------
    current_a, charge_c : ndarray
        Current of a reading and charge drawn up to its end, shape (n,). [A], [C]
    """
    place = _highest_of_parts(current_a, charge_c)
    order = place[np.argsort(charge_c[place], kind="stable")]
    later = np.maximum.accumulate(current_a[order][::-1])[::-1]
    # A reading counts where no later one draws as much.
    order = order[current_a[order] > np.append(later[1:], -np.inf)]
    corners: list[int] = []
    i, q = current_a[order].tolist(), charge_c[order].tolist()
    for k in range(len(order)):
        while len(corners) > 1:
            a, b = corners[-2], corners[-1]
            if (i[b] - i[a]) * (q[k] - q[a]) > (i[k] - i[a]) * (q[b] - q[a]):
                break
            corners.pop()
        corners.append(k)
    kept = order[corners]
    return Hull(current_a=current_a[kept], charge_c=charge_c[kept], place=kept)


def worst_error(found: Hull, truth: Hull) -> float:
    """Largest share by which droops differ, over every store; exact, as F is straight between."""
    turns = np.concatenate([found.turns_s, truth.turns_s, [0.0]])
    ratio = found.deepest(turns) / truth.deepest(turns)
    largest = found.current_a[0] / truth.current_a[0]  # where the resistance is all
    return float(max(np.abs(ratio - 1.0).max(), abs(largest - 1.0)))


def _highest_of_parts(current_a: FloatArray, charge_c: FloatArray) -> NDArray[np.intp]:
    """Readings that can be corners: of each part of the charge the one that draws most."""
    if len(current_a) <= FINE:
        return np.arange(len(current_a))
    part = np.floor(np.maximum.accumulate(charge_c) * (FINE / charge_c.max()))
    begins = np.flatnonzero(np.diff(part, prepend=-np.inf))
    high = np.maximum.reduceat(current_a, begins)
    counts = np.diff(begins, append=len(current_a))
    hits = np.flatnonzero(current_a == np.repeat(high, counts))
    return np.append(hits[np.searchsorted(hits, begins)], int(np.argmax(charge_c)))

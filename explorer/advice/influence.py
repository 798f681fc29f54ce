"""What matters most among built units: ranks against what they have to spare."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from explorer.physics.arrays import FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Influence:
    """Share of the spread of the governing margin that one tolerance explains."""

    path: str
    label: str
    share: float


def _ranks(values: FloatArray) -> FloatArray:
    """Place of each value among all, from 1; equal ones share the mean of their places.

    Examples
    --------
    >>> _ranks(np.array([3.0, 1.0, 3.0, 7.0])).tolist()
    [2.5, 1.0, 2.5, 4.0]
    """
    _, group, size = np.unique(values, return_inverse=True, return_counts=True)
    ranks: FloatArray = (np.cumsum(size) - (size - 1) / 2.0)[group]
    return ranks


def influences(
    labels: Mapping[str, str], values: Mapping[str, FloatArray], reserve: FloatArray
) -> tuple[Influence, ...]:
    """Squared rank correlation with the reserve of the first units, as a share of their sum.

    Parameters
    ----------
    labels, values : mapping
        What varies, by its path: its name, and its value in each unit, shape (units,).
    reserve : ndarray
        What the first of the units have to spare.
    """
    if len(reserve) < 3 or np.ptp(reserve) == 0:
        return tuple(Influence(path=p, label=label, share=0.0) for p, label in labels.items())
    ranked = _ranks(reserve)
    strength = []
    for path in labels:
        x = values[path][: len(reserve)]
        r = 0.0 if np.ptp(x) == 0 else float(np.corrcoef(_ranks(x), ranked)[0, 1])
        strength.append(r * r)
    total = sum(strength) or 1.0
    rows = [
        Influence(path=path, label=label, share=s / total)
        for (path, label), s in zip(labels.items(), strength, strict=True)
    ]
    return tuple(sorted(rows, key=lambda i: -i.share))

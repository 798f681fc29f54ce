"""Closing in on the value of a series at which something that is judged changes."""

from __future__ import annotations

from collections.abc import Callable
from math import inf, log

import numpy as np

from explorer.advice.stops import Series
from explorer.physics.arrays import FloatArray

SECANTS = 2.0
"""How far a search by the root of the level may fall behind halving before it halves."""
BEYOND = 1.03
"""By how much more than levels say a step goes, to come out on the other side."""


def closed_in(
    judged: Callable[[float], tuple[bool, float]], series: Series,
    holds: tuple[float, float], fails: tuple[float, float],
) -> tuple[float, float]:
    """Neighbours of a series between a value that holds and one that does not.

    Parameters
    ----------
    judged : callable
        Whether a value holds, and its level, which is 1 where that changes.
    series : Series
        The values that may be taken.
    holds, fails : tuple of float
        A value of either kind with its level.

    Returns
    -------
    tuple of float
        The last value that holds, and its neighbour that does not.
    """
    held, left = False, SECANTS * len(series.between(holds[0], fails[0]))
    while len(between := series.between(holds[0], fails[0])):
        middle = len(between) // 2
        if len(between) <= left:  # else levels tell too little
            middle = _guess(between, holds, fails, beyond=held)
        left /= 2
        value = float(between[middle])
        held, level = judged(value)
        holds, fails = ((value, level), fails) if held else (holds, (value, level))
    return holds[0], fails[0]


def passes(before: tuple[float, float] | None, fails: tuple[float, float]) -> float:
    """A value a little above that at which a level should pass 1, by one or two that fail."""
    value, level = fails[0], min(max(fails[1], 0.1), 0.999)
    slope = 1.0
    if before is not None and before[1] > 0.0:
        slope = log(level / before[1]) / log(value / before[0])
    return float(value * BEYOND * level ** (-1.0 / min(max(slope, 0.1), 1.0)))


def _guess(
    between: FloatArray, holds: tuple[float, float], fails: tuple[float, float], *, beyond: bool
) -> int:
    """Index beside the value at which the level should pass 1, straight between its logarithms.

    On the side that should hold, or `beyond` it, so that two guesses in turn enclose the edge.
    """
    (a, up), (b, down) = holds, fails
    if not (inf > up >= 1.0 > down > 0.0 and a > 0.0 and b > 0.0):
        return len(between) // 2
    share = log(up) / (log(up) - log(down))
    above = int(np.searchsorted(between, a * (b / a) ** share))
    wanted = above if (a > b) != beyond else above - 1
    return min(max(wanted, 0), len(between) - 1)

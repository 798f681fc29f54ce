"""Where on a plot a label can stand without lying on a curve or on another label."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QRectF

FloatArray = NDArray[np.float64]
Line = tuple[FloatArray, FloatArray]
"""Pixels across, never falling, and down; NaN parts a line. Shapes (n,)."""
CLEARANCE_PX = 2.0


def free_place(
    places: Sequence[QRectF], lines: Sequence[Line], taken: Sequence[QRectF]
) -> int:
    """Index of the first place that nothing crosses; of the least covered where all are crossed.

    Parameters
    ----------
    places : sequence of QRectF
        Where the label may stand, the preferred one first.
    lines : sequence of tuple
        Curves.
    taken : sequence of QRectF
        Places of other labels.
    """
    covered = []
    for index, place in enumerate(places):
        near = place.adjusted(-CLEARANCE_PX, -CLEARANCE_PX, CLEARANCE_PX, CLEARANCE_PX)
        hidden = sum(_height_in(near, line) for line in lines)
        hidden += sum(near.intersected(other).height() for other in taken)
        if hidden == 0.0:
            return index
        covered.append(hidden)
    return int(np.argmin(covered))


def _height_in(box: QRectF, line: Line) -> float:
    """How much of the height of a box a line sweeps, at least a pixel where it enters it."""
    x, y = line
    first, last = np.searchsorted(x, (box.left(), box.right()))
    inside = y[max(first - 1, 0) : last + 1].copy()
    if inside.size == 0 or x[-1] < box.left() or x[0] > box.right():
        return 0.0
    # Where it enters and leaves, between two points of the line.
    if 0 < first < len(x):
        inside[0] = np.interp(box.left(), x[first - 1 : first + 1], y[first - 1 : first + 1])
    if 0 < last < len(x):
        inside[-1] = np.interp(box.right(), x[last - 1 : last + 1], y[last - 1 : last + 1])
    above, below = np.fmax(inside[:-1], inside[1:]), np.fmin(inside[:-1], inside[1:])
    if inside.size == 1:
        above = below = inside
    overlap = np.minimum(above, box.bottom()) - np.maximum(below, box.top())
    touched = overlap[overlap >= 0.0]  # a pair of NaN touches nothing
    return float(np.maximum(touched, 1.0).max(initial=0.0))

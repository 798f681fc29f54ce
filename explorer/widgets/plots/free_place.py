"""Where on a plot a label can stand without lying on a curve or on another label."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QRectF

FloatArray = NDArray[np.float64]
Line = tuple[FloatArray, FloatArray]
"""Pixels across, never falling, shape (n,), and down, (n,), or (k, n) for k lines over the same
places; NaN parts a line."""
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
    margin = CLEARANCE_PX
    near = [place.adjusted(-margin, -margin, margin, margin) for place in places]
    covered: list[float] = []
    # Mostly one of the first places is free, and the others need no look.
    while len(covered) < len(near) and 0.0 not in covered:
        some = near[len(covered) : 4 * len(covered) + 2]
        edges = np.array([(box.left(), box.right(), box.top(), box.bottom()) for box in some])
        hidden = sum((_heights_in(edges, line) for line in lines), np.zeros(len(some)))
        for other in taken:
            hidden += [box.intersected(other).height() for box in some]
        covered += hidden.tolist()
    return covered.index(min(covered))


def _heights_in(boxes: FloatArray, line: Line) -> FloatArray:
    """How much of the height of each box lines sweep, and how deep in it they run on average."""
    left, right, top, bottom = boxes.T[:, :, None]
    x, y = line
    first, last = x.searchsorted((left.min(), right.max()))
    part = slice(max(first - 1, 0), last + 1)
    x, y = x[part], y[..., None, part]
    if not len(x) or np.fmin.reduce(y, axis=None) > bottom.max() or (
        np.fmax.reduce(y, axis=None) < top.min()
    ):
        return np.zeros(len(boxes))
    x0, x1, y0, y1 = x[:-1], x[1:], y[..., :-1], y[..., 1:]
    if len(x) == 1:
        x0, x1, y0, y1 = x, x, y, y
    # A line that is parted ends at its last point.
    lone = np.isnan(y0) | np.isnan(y1)
    only = np.isnan(y0)
    x0, y0 = np.where(only, x1, x0), np.where(only, y1, y0)
    x1, y1 = np.where(lone, x0, x1), np.where(lone, y0, y1)
    begin, end = np.maximum(x0, left), np.minimum(x1, right)
    rise = (y1 - y0) / np.where(x1 > x0, x1 - x0, 1.0)
    at_begin = y0 + rise * (begin - x0)
    at_end = np.where(x1 > x0, y0 + rise * (end - x0), y1)
    overlap = np.minimum(np.maximum(at_begin, at_end), bottom)
    overlap -= np.maximum(np.minimum(at_begin, at_end), top)
    touched = (overlap >= 0.0) & (begin <= end)
    swept = np.where(touched, np.maximum(overlap, 1.0), 0.0).max(axis=-1, initial=0.0)
    # One that runs along the letters hides more of them than one that dips into a corner.
    middle = 0.5 * (at_begin + at_end)
    deep = np.maximum(np.minimum(middle - top, bottom - middle), 0.0)
    share = (end - begin) / np.maximum(right - left, 1.0)
    along = np.where(touched, deep * share, 0.0).sum(axis=-1)
    return np.asarray((swept + along).reshape(-1, len(boxes)).sum(axis=0))

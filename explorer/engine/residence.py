"""Time along the legs of a run: at which charges the store is, and for how long."""

from __future__ import annotations

from itertools import pairwise
from math import ceil, log2

import numpy as np
from numpy.typing import NDArray

from explorer.engine.cycles import Cycle
from explorer.engine.flows import Flow
from explorer.physics.arrays import FloatArray

_gauss = np.polynomial.legendre.leggauss(4)
POINTS: FloatArray = 0.5 + 0.5 * np.asarray(_gauss[0], float)
WEIGHTS: FloatArray = 0.5 * np.asarray(_gauss[1], float)
"""Gauss-Legendre nodes and weights on 0 to 1."""
MOST_EDGES = 64
"""Most table nodes at which one leg is split."""
MILD = 0.5
"""Change of speed along a leg, relative to it, below which one set of nodes is enough."""


def spread(
    nodes: FloatArray, speed: FloatArray, charge: FloatArray, seconds: FloatArray
) -> FloatArray:
    """Time at charges in the columns of `explorer.engine.audit_powers.powers`. [s]

    Where the speed turns round between two equal nodes the store stays there, in such a mix of
    both sides that it does not move.
    """
    n = len(nodes)
    cell, share = place(nodes, charge)
    spent = hats(n, cell, share, seconds)
    below = np.maximum(cell - 1, 0)
    held = (charge == nodes[cell]) & (cell > 0) & (nodes[below] == nodes[cell])
    held &= (speed[below] >= 0.0) & (speed[cell] <= 0.0) & (speed[below] != speed[cell])
    if held.any():
        at, time = cell[held], seconds[held]
        part = -speed[at] / (speed[at - 1] - speed[at])
        np.add.at(spent, at - 1, time * part)
        np.add.at(spent, at, -time * part)
    pinned = float(seconds[charge >= nodes[-1]].sum()) if speed[-1] > 0.0 else 0.0
    spent[n - 1] -= pinned
    inside = np.bincount(cell, seconds * share * (1.0 - share), n - 1)
    return np.concatenate([spent, [pinned], inside])


def place(nodes: FloatArray, charge: FloatArray) -> tuple[NDArray[np.intp], FloatArray]:
    """Cell of each charge and the place in it, from 0 to 1."""
    cell = np.clip(np.searchsorted(nodes, charge, side="right") - 1, 0, len(nodes) - 2)
    width = nodes[cell + 1] - nodes[cell]
    share = np.clip((charge - nodes[cell]) / np.where(width > 0, width, 1.0), 0.0, 1.0)
    return cell, share


def hats(
    n: int, cell: NDArray[np.intp], share: FloatArray, amount: FloatArray
) -> FloatArray:
    """Amounts in cells, each divided linearly between its two nodes."""
    return np.asarray(
        np.bincount(cell, amount * (1.0 - share), n) + np.bincount(cell + 1, amount * share, n)
    )


def graded(stiffness: float, even: int) -> FloatArray:
    """Edges on 0 to 1, finer towards both ends the faster the motion may settle."""
    edges = np.linspace(0.0, 1.0, even + 1 if stiffness > MILD else 2)
    if stiffness > MILD * even:
        near = edges[1] * 0.5 ** np.arange(1, min(ceil(log2(stiffness)) + 2, 40))
        edges = np.unique(np.concatenate([edges, near, 1.0 - near]))
    return edges


def along(
    flow: Flow, begin: FloatArray, end: FloatArray, span: FloatArray, times: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Charges along legs of one motion and the time that each stands for."""
    nodes = flow.nodes
    last = len(nodes) - 2
    cells = [np.clip(np.searchsorted(nodes, x, side="right") - 1, 0, last) for x in (begin, end)]
    # A leg that ends on a node may have come to rest there on the way.
    far = (np.abs(cells[1] - cells[0]) > 1) | (end == nodes[cells[1]]) | (end >= nodes[-1])
    stiff = np.maximum(np.abs(flow.slope[cells[0]]), np.abs(flow.slope[cells[1]])) * span > MILD
    hard = far | stiff
    easy = ~hard
    x, t, w = [np.repeat(begin[easy], len(POINTS))], [], []
    t.append(np.outer(span[easy], POINTS).ravel())
    w.append(np.outer(span[easy] * times[easy], WEIGHTS).ravel())
    # A course that repeats itself leaves many equal legs.
    grain = np.array([1e-9 * nodes[-1], 1e-9])
    same, first, which = np.unique(
        np.round(np.column_stack([begin[hard], span[hard]]) / grain),
        axis=0, return_index=True, return_inverse=True,
    )
    often = np.bincount(which.ravel(), times[hard], len(same))
    for i, n in zip(np.flatnonzero(hard)[first], often, strict=True):
        edges = _edges(flow, float(begin[i]), float(end[i]), float(span[i]))
        width = np.diff(edges)
        t.append((edges[:-1, None] + width[:, None] * POINTS).ravel())
        w.append((width[:, None] * WEIGHTS).ravel() * n)
        x.append(np.full(len(t[-1]), begin[i]))
    return flow.advance_all(np.concatenate(x), np.concatenate(t)), np.concatenate(w)


def along_equal(
    flow: Flow, begin: FloatArray, duration: float, slope: float, times: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """The same for stretches of equal length, split alike as for a given slope of the speed."""
    edges = graded(slope * duration, even=4) * duration
    width = np.diff(edges)
    t = (edges[:-1, None] + width[:, None] * POINTS).ravel()
    w = (width[:, None] * WEIGHTS).ravel()
    q = flow.advance_all(np.repeat(begin, len(t)), np.tile(t, len(begin)))
    return q, np.outer(times, w).ravel()


def _edges(flow: Flow, begin: float, end: float, span: float) -> FloatArray:
    """Times at which a leg is split: where it passes nodes, and finer where it settles."""
    low, high = min(begin, end), max(begin, end)
    first, last = np.searchsorted(flow.nodes, [low, high])
    step = max(1, ceil((last - first) / MOST_EDGES))
    inside = flow.nodes[first:last]
    jumps = inside[:-1][np.diff(inside) == 0.0]
    passed = np.unique(np.concatenate([inside[::step], jumps]))
    if begin > end:
        passed = passed[::-1]
    met = np.array([flow.time_to(begin, float(q)) for q in (*passed, end) if q != begin])
    edges = np.unique(np.concatenate([[0.0], met[(met > 0.0) & (met < span)], [span]]))
    slope = float(np.abs(flow.slope[max(first - 1, 0) : last + 1]).max(initial=0.0))
    parts = [
        a + (b - a) * graded(slope * (b - a), even=4)[:-1]
        for a, b in pairwise(edges.tolist())
    ]
    return np.append(np.concatenate(parts), span)


def orbit(cycle: Cycle, begin: float, count: int) -> FloatArray:
    """Charges at which successive cycles begin, by doubling."""
    charge, power = np.array([begin]), cycle.map
    while len(charge) < count:
        charge = np.concatenate([charge, power(charge)])
        power = power.then(power)
    return charge[:count]

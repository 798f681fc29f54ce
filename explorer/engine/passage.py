"""Charge that currents carry while the store moves: closed forms, no step and no quadrature.

Speeds and currents are linear in the charge within a cell of the tables. With speed v and slope s
at its beginning the motion is x(t) = x + v t phi_1(s t), so the time integral of a current that
has the value c there and the slope g is

    c t + g v t^2 phi_2(s t),    phi_2(z) = (e^z - 1 - z) / z^2

(integral of the exponential series). Cells that are crossed whole are summed beforehand, like
travel times.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from explorer.engine.flows import Flow
from explorer.engine.laws import crossings, drifts
from explorer.physics.arrays import FloatArray, IntArray

HARVEST, LOAD, LEAKAGE = 0, 1, 2
"""Rows of every table of currents; harvest less load less leakage is the speed."""


class Passage:
    """A flow with the currents that make its speed.

    Parameters
    ----------
    flow : Flow
        The motion, on n nodes.
    currents : ndarray
        Harvest, load and leakage at the nodes, shape (3, n). [A]
    """

    def __init__(self, flow: Flow, currents: FloatArray) -> None:
        self.flow, self.currents = flow, currents
        nodes, speed = flow.nodes, flow.speed
        width = np.diff(nodes)
        self._rise = np.diff(currents, axis=1) / np.where(width > 0.0, width, np.inf)
        a, b = speed[:-1], speed[1:]
        passed = a * b > 0.0
        times = crossings(width, a, b, blocked=0.0)
        # Time runs along the motion; the charge carried across a cell is the same either way.
        carried = carried_within(
            currents[:, :-1], self._rise, np.abs(a), np.sign(a) * flow.slope, times
        )
        whole = np.where(passed & (width > 0.0), carried, 0.0)
        self._until = np.concatenate([np.zeros((3, 1)), np.cumsum(whole, axis=1)], axis=1)

    def carried(self, begin: FloatArray, end: FloatArray, seconds: FloatArray) -> FloatArray:
        """Charges carried on the way from one charge to another, shape (3, n). [C]

        Parameters
        ----------
        begin, end, seconds : ndarray
            The motion is at `begin` first and at `end` after `seconds`. Shape (n,).
        """
        flow = self.flow
        nodes, speed, travel = flow.nodes, flow.speed, flow.travel
        last = len(nodes) - 2
        up = end > begin
        first = _cell(nodes, begin, up)
        final = _cell(nodes, end, ~up)
        final = np.where(up, np.maximum(final, first), np.minimum(final, first))
        near = np.where(up, first + 1, first)
        whole = first == final
        v = speed[first] + flow.slope[first] * (begin - nodes[first])
        edge = np.where(whole, end, nodes[near])
        ahead = speed[first] + flow.slope[first] * (edge - nodes[first])
        leave = np.minimum(_leave(edge - begin, v, ahead), seconds)
        still = begin == end
        leave = np.where(still, 0.0, np.where(whole & ~_arrived(nodes, end), seconds, leave))
        out = self._within(first, begin, v, leave)
        far = ~whole
        rest = seconds - leave
        if far.any():
            enter = np.where(up, final, np.minimum(final + 1, last + 1))
            rest = np.where(far, rest - np.abs(travel[enter] - travel[near]), rest)
            rest = np.maximum(rest, 0.0)
            between = self._until[:, enter] - self._until[:, near]
            between = np.where(up, between, -between)
            start, v = nodes[enter], speed[enter]
            ahead = speed[final] + flow.slope[final] * (end - nodes[final])
            arrive = np.minimum(_leave(end - start, v, ahead), rest)
            time = np.where(_arrived(nodes, end), arrive, rest)
            out = out + np.where(far, between + self._within(final, start, v, time), 0.0)
            rest = np.where(far, rest - time, rest)
        held = rest > 0.0
        if held.any():
            out[:, held] += self.resting(end[held]) * rest[held]
        return out

    def _within(
        self, cell: IntArray, begin: FloatArray, speed: FloatArray, seconds: FloatArray
    ) -> FloatArray:
        at = self.currents[:, cell] + self._rise[:, cell] * (begin - self.flow.nodes[cell])
        # The current grows with the charge, and time runs along the motion.
        return carried_within(
            at, self._rise[:, cell], speed, self.flow.slope[cell], seconds
        )

    def resting(self, charge: FloatArray) -> FloatArray:
        """Currents where the store stays at a charge: they cancel. Shape (3, n). [A]"""
        nodes, speed = self.flow.nodes, self.flow.speed
        at = _cell(nodes, charge, np.ones(charge.shape, bool))
        below = np.maximum(at - 1, 0)
        twin = (nodes[below] == nodes[at]) & (charge == nodes[at]) & (at > 0)
        cell = np.where(twin, below, at)
        width = np.where(twin, 1.0, nodes[cell + 1] - nodes[cell])
        share = np.clip((charge - nodes[cell]) / np.where(width > 0.0, width, 1.0), 0.0, 1.0)
        turn = speed[cell + 1] - speed[cell]
        mixed = np.clip(speed[cell + 1] / np.where(turn == 0.0, 1.0, turn), 0.0, 1.0)
        share = np.where(twin, 1.0 - mixed, share)
        out = self.currents[:, cell] * (1.0 - share) + self.currents[:, cell + 1] * share
        return balanced(out, charge >= nodes[-1])


def balanced(currents: FloatArray, full: NDArray[np.bool_]) -> FloatArray:
    """Currents of a store that does not move: what it cannot take or give does not flow.

    A cell at its top takes no more than is drawn; at the bottom nothing is left to leak.
    """
    net = currents[HARVEST] - currents[LOAD] - currents[LEAKAGE]
    currents[HARVEST] -= np.where(full, net, 0.0)
    currents[LEAKAGE] += np.where(full, 0.0, net)
    return currents


def carried_within(
    current: FloatArray, rise: FloatArray, speed: FloatArray, slope: FloatArray,
    seconds: FloatArray,
) -> FloatArray:
    """Charge that currents carry within one cell. [C]

    Parameters
    ----------
    current, rise : ndarray
        Currents at the beginning [A] and by how much they grow with the charge [A/C]; (3, n).
    speed, slope : ndarray
        Speed there [A] and by how much it grows with the charge [1/s]; (n,).
    seconds : ndarray
        Shape (n,).
    """
    z = slope * seconds
    small = np.abs(z) < 1e-2
    safe = np.where(small, 1.0, np.minimum(z, 700.0))
    series = 0.5 + z / 6.0 * (1.0 + z / 4.0 * (1.0 + z / 5.0 * (1.0 + z / 6.0)))
    phi = np.where(small, series, (np.expm1(safe) - safe) / safe**2)
    return np.asarray(current * seconds + rise * (speed * seconds**2 * phi))


def _leave(width: FloatArray, begin: FloatArray, end: FloatArray) -> FloatArray:
    """Time across signed widths at signed speeds; infinite where the end is never reached. [s]"""
    time = crossings(np.abs(width), np.abs(begin), end * np.sign(begin))
    return np.where(begin * width > 0.0, time, np.where(width == 0.0, 0.0, np.inf))


def _cell(nodes: FloatArray, x: FloatArray, up: NDArray[np.bool_]) -> IntArray:
    """Cell above (or below) each place, where it is a node."""
    right = np.searchsorted(nodes, x, side="right") - 1
    left = np.searchsorted(nodes, x, side="left") - 1
    return np.clip(np.where(up, right, left), 0, len(nodes) - 2)


def _arrived(nodes: FloatArray, x: FloatArray) -> NDArray[np.bool_]:
    """Whether each place is a node, at which a motion may have come to rest."""
    at = np.minimum(np.searchsorted(nodes, x), len(nodes) - 1)
    return np.asarray(nodes[at] == x)


def walk_blends(
    nodes: FloatArray,
    speeds: FloatArray,
    currents: FloatArray | None,
    blend: tuple[IntArray, IntArray, FloatArray],
    begin: FloatArray,
    seconds: FloatArray,
) -> tuple[FloatArray, FloatArray]:
    """Motions between two flows each, cell by cell, all at once.

    Parameters
    ----------
    nodes : ndarray
        Shape (k,). [C]
    speeds, currents : ndarray
        One row for each flow: (r, k) and (3, r, k), or None where no charges are asked for. [A]
    blend : tuple of ndarray
        Rows of the lower and the upper flow and the weight of the upper one; (n,) each.
    begin, seconds : ndarray
        Where each motion begins and how long it lasts, shape (n,). [C, s]

    Returns
    -------
    tuple
        Charges at the end, (n,), and charges carried, (3, n). [C]
    """
    low, high, weight = blend
    last = len(nodes) - 2
    x, left = begin.copy(), seconds.copy()
    out = np.zeros((3, len(x)))
    cell = np.clip(np.searchsorted(nodes, x, side="right") - 1, 0, last)
    live = np.flatnonzero(left > 0.0)
    while live.size:
        c, lo, hi, w = cell[live], low[live], high[live], weight[live]
        here, time = x[live], left[live]
        f0, f1 = (
            (1.0 - w) * speeds[lo, k] + w * speeds[hi, k] for k in (c, c + 1)
        )
        width = nodes[c + 1] - nodes[c]
        flat = width <= 0.0
        slope = (f1 - f0) / np.where(flat, np.inf, width)
        v = f0 + slope * (here - nodes[c])
        back = ~flat & (v < 0.0) & (here <= nodes[c])
        # Between two equal nodes the motion goes through, or stays where it turns round.
        stays = np.where(flat, (f0 > 0.0) != (f1 > 0.0), v == 0.0)
        stays |= (flat | back) & (c == 0) & (f0 <= 0.0)
        stays |= (v > 0.0) & (here >= nodes[c + 1]) & (c == last)
        moves = ~flat & ~back & ~stays
        bound = np.where(v > 0.0, nodes[c + 1], nodes[c])
        leave = np.where(moves, _leave(bound - here, v, f0 + slope * (bound - nodes[c])), 0.0)
        used = np.minimum(leave, time)
        if currents is not None:
            i0, i1 = (
                (1.0 - w) * currents[:, lo, k] + w * currents[:, hi, k] for k in (c, c + 1)
            )
            rise = (i1 - i0) / np.where(flat, np.inf, width)
            there = i0 + rise * (here - nodes[c])
            out[:, live] += carried_within(there, rise, v, slope, used)
            if stays.any():
                turn = f1 - f0
                mixed = np.clip(f1 / np.where(turn == 0.0, 1.0, turn), 0.0, 1.0)
                held = balanced(np.where(flat, i1 + (i0 - i1) * mixed, there), here >= nodes[-1])
                out[:, live] += held * np.where(stays, time, 0.0)
        passes = moves & (leave <= time)
        to = np.where(passes, bound, np.clip(here + drifts(v, slope, used), nodes[c], nodes[c + 1]))
        x[live] = np.where(moves, to, here)
        left[live] = np.where(stays | (moves & ~passes), 0.0, time - used)
        step = np.where(flat, np.where(f0 > 0.0, 1, -1), np.where(back | (v < 0.0), -1, 1))
        goes = flat | back | passes
        at_end = passes & (v > 0.0) & (c == last)
        cell[live] = np.clip(np.where(goes & ~at_end, c + step, c), 0, last)
        live = live[left[live] > 0.0]
    return x, out

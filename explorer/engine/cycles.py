"""Load cycles as maps of the store's charge: composed phase by phase, repeated by doubling.

One cycle takes the charge at its beginning to the charge at its end. The map of a cycle is the
composition of the exact motions of its phases; n cycles are the n-th power of the map. Where the
map is close to the identity its powers are the motion along a *generator* g, so that any number
of cycles, also a fraction of one, is two look-ups in a table (see `Cycle`). Where it is not,
powers are built by doubling. Orbits of a rising map never turn, so a bound is met once.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from copy import copy

import numpy as np
from numpy.typing import NDArray

from explorer.engine.flows import Flow
from explorer.engine.keys import CycleKey
from explorer.engine.laws import log_mean
from explorer.engine.passes import CyclePhase, Passes
from explorer.physics.arrays import FloatArray, Number

GENERATOR_TOLERANCE_V = 2e-6
"""Largest difference between one step of the generator and the map, per cycle. [V]"""
BEND_V = 2e-5
"""Largest error of a straight line between two nodes of a map, or of two cycles taken at once:
where a cold start ends within a cycle, a little more at its beginning makes much of its end. [V]"""
EVEN_FALL = 1.1
"""Where the terminals fall this much faster than the store from one node to the next, the place
between them at which a cycle is cut off is not read off a straight line."""
MOST_POWERS = 40
"""Powers of a map that are built at most, each of twice as many cycles as the one before."""


class FlowMap:
    """A rising map of the charge, tabulated as its displacement on fixed nodes."""

    __slots__ = ("_lists", "displacement", "nodes")

    def __init__(self, nodes: FloatArray, displacement: FloatArray) -> None:
        self.nodes = nodes
        self.displacement = displacement
        self._lists: tuple[list[float], list[float]] | None = None

    def __call__(self, charge: Number) -> Number:
        """Where the map takes a charge, linear in the displacement between nodes."""
        return charge + np.interp(charge, self.nodes, self.displacement)

    def at(self, charge: float) -> float:
        """The same for one charge of many that are asked one by one."""
        if self._lists is None:
            self._lists = self.nodes.tolist(), self.displacement.tolist()
        nodes, moved = self._lists
        cell = bisect_right(nodes, charge) - 1
        if cell < 0:
            return charge + moved[0]
        if cell >= len(nodes) - 1:
            return charge + moved[-1]
        begin, first = nodes[cell], moved[cell]
        rise = (moved[cell + 1] - first) / (nodes[cell + 1] - begin)
        return charge + (first + rise * (charge - begin))

    def then(self, later: FlowMap) -> FlowMap:
        """The map that applies this one first and `later` after it."""
        middle = self.nodes + self.displacement
        return FlowMap(
            self.nodes,
            self.displacement + np.interp(middle, later.nodes, later.displacement),
        )


def tabulated(nodes: FloatArray, open_v: FloatArray, off_v: float) -> FloatArray:
    """Charges from which cycles are tabulated: not from far below a cut-off. [C]"""
    keep = np.append(np.diff(nodes) > 0, True)
    keep[: max(int(np.searchsorted(open_v, off_v)) - 2, 0)] = False
    return np.asarray(nodes[keep])


class Cycle:
    """A composed load cycle at one light level.

    Parameters
    ----------
    key : CycleKey
        Names it.
    pulse : Passes
        The phases of the operation, from the nodes on that `tabulated` gives.
    rest : CyclePhase or None
        The rest until the next start; None for a run of the operation alone, which is taken once
        and has no powers.
    nodes : ndarray
        Charges of the phases' flows. [C]
    open_v : ndarray
        Open-circuit voltage at these. [V]
    off_v : float
        A cycle whose terminal voltage falls below this is not completed. [V]

    Notes
    -----
    The generator is ``g = (D / T) ln(1 + D') / D'`` with D the displacement over one cycle of
    length T: exact for an affine map, and with an error of D^2 D''/12 otherwise (series of the
    logarithm of a map). It is used only where one step of it reproduces the map within
    `GENERATOR_TOLERANCE_V`.
    """

    def __init__(
        self,
        key: CycleKey,
        pulse: Passes,
        rest: CyclePhase | None,
        nodes: FloatArray,
        open_v: FloatArray,
        off_v: float,
    ) -> None:
        self.key = key
        whole = pulse if rest is None else pulse.then(rest)
        self.nodes, x = pulse.stages[0], whole.end_c
        self.length_s, self.stages = whole.seconds, whole.stages
        self.pulse_min_v, self.pulse_lowest_c = pulse.lowest_v, pulse.lowest_c
        self.pulse_highest_c = pulse.highest_c
        """What the pulse alone does, before the rest of the cycle."""
        self.map = FlowMap(self.nodes, x - self.nodes)
        self.terminal_min_v = whole.lowest_v
        self.lowest_c, self.highest_c = whole.lowest_c, whole.highest_c
        self._all_nodes, self._all_open_v = nodes, open_v
        self._open_v, self._off_v = np.interp(self.nodes, nodes, open_v), off_v
        gain = np.maximum(_slopes(self.nodes, self.map.displacement), -0.999)
        speed = self.map.displacement * log_mean(1.0 + gain) / self.length_s
        self.generator = Flow(self.nodes, speed)
        self._holds = np.zeros(len(x), bool)
        if rest is not None:
            once = self.generator.advance_all(self.nodes, self.length_s)
            volts = np.interp(once, nodes, open_v) - np.interp(x, nodes, open_v)
            self._holds = np.abs(volts) <= GENERATOR_TOLERANCE_V
        self._straight = self._is_straight()
        self._powers = {0: self.map}
        self._fits: list[tuple[float, float]] = []
        self._exact: list[tuple[float, float]] = []

    def bounded(self, key: CycleKey, low_c: float, high_c: float) -> Cycle:
        """The same cycle where it must stay between open-circuit bounds. [C]"""
        twin = copy(self)
        twin.key = key
        twin._fits = self._spans(self._straight, low_c, high_c)
        twin._exact = self._spans(self._holds, low_c, high_c)
        return twin

    def _is_straight(self) -> NDArray[np.bool_]:
        """Whether the map may be read off straight lines beside a node, shape (n,)."""
        moved_v = self._volts(self.nodes + self.map.displacement) - self._open_v
        step_v = self._open_v[1:] - self._open_v[:-1]
        slope = (moved_v[1:] - moved_v[:-1]) / np.maximum(step_v, 1e-12)
        bend_v = 0.25 * np.abs(slope[1:] - slope[:-1]) * np.minimum(step_v[1:], step_v[:-1])
        out = np.ones(len(self.nodes), bool)
        out[1:-1] = bend_v <= BEND_V
        return out

    def _volts(self, charge: Number) -> FloatArray:
        return np.asarray(np.interp(charge, self._all_nodes, self._all_open_v))

    def _spans(
        self, mask: NDArray[np.bool_], low_c: float, high_c: float
    ) -> list[tuple[float, float]]:
        """Ranges of charge where a mask holds and a whole cycle stays within bounds. [C]

        The bounds are met between nodes, as exactly as the map itself is known there.
        """
        nodes, lowest, highest = self.nodes, self.lowest_c, self.highest_c
        whole, lowest_v = self.terminal_min_v >= self._off_v, self.terminal_min_v
        inside = mask & whole & (lowest >= low_c) & (highest <= high_c)
        spans = []
        for first, last in _runs(inside):
            begin, end = float(nodes[first]), float(nodes[last])
            if first > 0 and mask[first - 1] and highest[first - 1] <= high_c:
                # Whichever is met first on the way down: the bound, or the cut-off.
                at, least, volts, open_v = (
                    values[first - 1 : first + 1].tolist()
                    for values in (nodes, lowest, lowest_v, self._open_v)
                )
                met = _line(low_c, least, at)
                if whole[first - 1] or volts[1] - volts[0] <= EVEN_FALL * (open_v[1] - open_v[0]):
                    begin = max(met, _line(self._off_v, volts, at))
            after = last + 1 < len(nodes) and mask[last + 1] and whole[last + 1]
            if after and lowest[last + 1] >= low_c:
                at, most = (values[last : last + 2].tolist() for values in (nodes, highest))
                end = _line(high_c, most, at)
            if end > begin:
                spans.append((begin, end))
        return spans

    @staticmethod
    def _span(spans: list[tuple[float, float]], charge: float) -> tuple[float, float] | None:
        for span in spans:
            if span[0] <= charge <= span[1]:
                return span
        return None

    def smooth_span(self, charge: float) -> tuple[float, float] | None:
        """Range around a charge in which the generator holds, if any. [C]"""
        return self._span(self._exact, charge)

    def is_smooth(self, charge: FloatArray) -> NDArray[np.bool_]:
        """Whether the generator holds at charges, shape (n,). [C]"""
        found = np.zeros(len(charge), bool)
        for low, high in self._exact:
            found |= (low <= charge) & (charge <= high)
        return found

    @property
    def widest_span(self) -> tuple[float, float]:
        """The longest range in which the generator holds; empty where there is none. [C]"""
        return max(self._exact, key=lambda s: s[1] - s[0], default=(np.inf, -np.inf))

    def whole_span(self, charge: float) -> tuple[float, float] | None:
        """Range around a charge in which cycles complete, if any. [C]"""
        return self._span(self._fits, charge)

    def begins(self, charge: float, count: int) -> float:
        """Charge at which the cycle after `count` others begins, as a march takes them. [C]"""
        if self.smooth_span(charge) is not None:
            return self.generator.advance(charge, count * self.length_s)
        return self.leap(charge, count, -np.inf, np.inf)[0]

    def power(self, k: int) -> FlowMap:
        """The map of 2^k cycles, built when first needed."""
        found = self._powers.get(k)
        if found is None:
            half = self.power(k - 1)
            found = self._powers[k] = half.then(half)
        return found

    def leap(self, charge: float, at_most: int, low: float, high: float) -> tuple[float, int]:
        """Apply the map as often as the bounds and `at_most` allow, by doubling.

        Returns
        -------
        tuple
            Charge and number of cycles; every cycle began inside the bounds.
        """
        done = 0
        for k in range(min(at_most.bit_length(), MOST_POWERS) - 1, -1, -1):
            if done + (1 << k) > at_most:
                continue
            reached = float(self.power(k)(charge))
            if low <= reached <= high and (k == 0 or self._agrees(k, charge, reached)):
                charge, done = reached, done + (1 << k)
        return charge, done

    def _agrees(self, k: int, charge: float, reached: float) -> bool:
        """Whether 2^k cycles at once lead where twice half of them do."""
        half = self.power(k - 1)
        apart = self._volts(half(half(charge))) - self._volts(reached)
        return abs(float(apart)) <= BEND_V


def _slopes(x: FloatArray, y: FloatArray) -> FloatArray:
    """Slope at each node of a parabola through it and its neighbours, as `numpy.gradient` has it.

    Its ends are one-sided. Said in fewer steps, as it is asked for each cycle.
    """
    step = x[1:] - x[:-1]
    rise = (y[1:] - y[:-1]) / step
    out = np.empty_like(y)
    out[0], out[-1] = rise[0], rise[-1]
    before, after = step[:-1], step[1:]
    out[1:-1] = (rise[:-1] * after + rise[1:] * before) / (before + after)
    return out


def _line(x: float, known_x: Sequence[float], known_y: Sequence[float]) -> float:
    """A straight line between two points that goes no further than these."""
    (x0, x1), (y0, y1) = known_x, known_y
    if x >= x1:
        return y1
    return y0 if x <= x0 else y0 + (y1 - y0) / (x1 - x0) * (x - x0)


def _runs(mask: NDArray[np.bool_]) -> list[tuple[int, int]]:
    """First and last index of every stretch of True."""
    edges = ((mask[1:] != mask[:-1]).nonzero()[0] + 1).tolist()
    if mask[0]:
        edges.insert(0, 0)
    if mask[-1]:
        edges.append(len(mask))
    return [(a, b - 1) for a, b in zip(edges[::2], edges[1::2], strict=True)]

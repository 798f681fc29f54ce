"""Phases one after another, for stores that begin with any charge: where they end, how deep."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

import numpy as np

from explorer.engine.flows import Flow
from explorer.engine.laws import drifts
from explorer.physics.arrays import FloatArray

SEVERAL = 12
"""Phases above which most steps are taken within cells of the tables: quicker one by one."""
FEW = 16
"""Places up to which those that leave their cell are moved one by one."""


class CyclePhase:
    """One phase of a cycle: its motion, its terminal voltage and its length."""

    __slots__ = ("duration_s", "flow", "terminal_v")

    def __init__(
        self, flow: Flow, terminal_v: FloatArray, duration_s: float
    ) -> None:
        self.flow = flow
        self.terminal_v = terminal_v
        self.duration_s = duration_s


class Passes:
    """Phases in a row, from each of some charges on.

    Parameters
    ----------
    phases : sequence of CyclePhase
        In order.
    begin_c : ndarray
        Charges at which the first one begins, rising, shape (n,). [C]
    """

    def __init__(self, phases: Sequence[CyclePhase], begin_c: FloatArray) -> None:
        self.seconds = sum(phase.duration_s for phase in phases)
        self.stages: list[FloatArray] = []
        """Charges at which each phase begins, shape (n,) each. [C]"""
        self.end_c = self.lowest_c = self.highest_c = begin_c
        self.lowest_v = np.full_like(begin_c, np.inf)
        """Lowest terminal voltage. [V]"""
        if len(phases) > SEVERAL:
            self._follow_many(phases)
        else:
            for phase in phases:
                self._follow(phase)

    def then(self, phase: CyclePhase) -> Passes:
        """The same with one more phase at its end."""
        more = Passes((), self.end_c)
        more.seconds = self.seconds + phase.duration_s
        more.stages = list(self.stages)
        more.lowest_c, more.highest_c = self.lowest_c, self.highest_c
        more.lowest_v = self.lowest_v
        more._follow(phase)
        return more

    def _follow(self, phase: CyclePhase) -> None:
        x, nodes = self.end_c, phase.flow.nodes
        self.stages.append(x)
        begin_v = np.interp(x, nodes, phase.terminal_v)
        x = phase.flow.advance_all(x, phase.duration_s)
        end_v = np.interp(x, nodes, phase.terminal_v)
        self.lowest_v = np.minimum(self.lowest_v, np.minimum(begin_v, end_v))
        self.lowest_c = np.minimum(self.lowest_c, x)
        self.highest_c = np.maximum(self.highest_c, x)
        self.end_c = x

    def _follow_many(self, phases: Sequence[CyclePhase]) -> None:
        """The same for hundreds of phases, of which most do not leave a cell of the tables."""
        nodes = phases[0].flow.nodes
        x, steps = self.end_c.copy(), dict[tuple[Flow, float], _Step]()
        below, above = nodes[:-1].copy(), nodes[1:].copy()
        below[0], above[-1] = -inf, inf
        cell = _cells(nodes, x)
        depths: dict[Flow, _Depth] = {}
        lowest_c, highest_c = x.copy(), x.copy()
        for phase in phases:
            flow, seconds = phase.flow, phase.duration_s
            step = steps.get((flow, seconds))
            if step is None:
                step = steps[flow, seconds] = _Step(flow, seconds)
            depth = depths.get(flow)
            if depth is None:
                depth = depths[flow] = _Depth(nodes, phase.terminal_v, len(x))
            self.stages.append(x)
            depth.reach(x)
            to = step.times.take(cell)
            to *= x
            to += step.more.take(cell)
            left = ((to < below.take(cell)) | (to > above.take(cell))).nonzero()[0]
            if len(left):
                to[left] = _moved(flow, x[left], seconds)
                cell[left] = _cells(nodes, to[left])
            x = to
            depth.reach(x)
            np.minimum(lowest_c, x, out=lowest_c)
            np.maximum(highest_c, x, out=highest_c)
        # What left its range by a rounding is at its end.
        self.end_c = np.minimum(np.maximum(x, nodes[0]), nodes[-1])
        self.lowest_c, self.highest_c = np.maximum(lowest_c, nodes[0]), highest_c
        for depth in depths.values():
            self.lowest_v = np.minimum(self.lowest_v, depth.lowest_v())


class _Step:
    """A motion for a time, as a straight line from place to place within each cell."""

    def __init__(self, flow: Flow, seconds: float) -> None:
        slope, speed, nodes = flow.slope, flow.speed[:-1], flow.nodes[:-1]
        long = drifts(np.ones_like(slope), slope, np.full_like(slope, seconds))
        self.times = 1.0 + long * slope
        self.more = long * (speed - slope * nodes)


class _Depth:
    """How low the terminals are pulled in the phases of one motion."""

    def __init__(self, nodes: FloatArray, terminal_v: FloatArray, size: int) -> None:
        self._nodes, self._terminal_v = nodes, terminal_v
        self._rises = bool(np.all(terminal_v[1:] >= terminal_v[:-1]))
        self._lowest = np.full(size, np.inf)

    def reach(self, x: FloatArray) -> None:
        """Note charges; where the voltage rises with the charge the lowest one says it all."""
        at = x if self._rises else np.interp(x, self._nodes, self._terminal_v)
        np.minimum(self._lowest, at, out=self._lowest)

    def lowest_v(self) -> FloatArray:
        """Lowest terminal voltage. [V]"""
        if not self._rises:
            return self._lowest
        return np.asarray(np.interp(self._lowest, self._nodes, self._terminal_v))


def _cells(nodes: FloatArray, x: FloatArray) -> np.ndarray[tuple[int, ...], np.dtype[np.intp]]:
    found = nodes.searchsorted(x, side="right") - 1
    return np.asarray(np.minimum(np.maximum(found, 0), len(nodes) - 2))


def _moved(flow: Flow, x: FloatArray, seconds: float) -> FloatArray:
    if len(x) > FEW:
        return flow.advance_all(x, seconds)
    return np.array([flow.advance(one, seconds) for one in x.tolist()])

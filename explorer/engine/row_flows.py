"""The vector form of a motion: many places, of one system or of many, moved at once.

`explorer.engine.flows` walks one place through the same tables.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from explorer.engine.laws import (
    STANDSTILL,
    crossings,
    crossings_unwatched,
    drifts_unwatched,
)
from explorer.physics.arrays import FloatArray, IntArray

ShortArray = NDArray[np.int16]


class _Bases(NamedTuple):
    """Where the tables of each place begin; None where there is one of each."""

    nodes: IntArray | None
    motion: IntArray | None
    cells: IntArray | None

    def part(self, some: IntArray) -> _Bases:
        """Those of some of the places."""
        if self.motion is None or self.cells is None:
            return self
        nodes = None if self.nodes is None else self.nodes[some]
        return _Bases(nodes, self.motion[some], self.cells[some])


_ONLY = _Bases(None, None, None)


def _from(base: IntArray | None, index: IntArray) -> IntArray:
    return index if base is None else base + index


class RowFlows:
    """Motions on the nodes of many systems, several motions to a system.

    Parameters
    ----------
    nodes : ndarray
        Positions, rising along each row; two equal nodes make a place where the speed may jump.
        Shape (systems, nodes), or (1, nodes) where they are the same for all.
    speeds : list of ndarray
        Speeds at the nodes, one array for each motion, of either shape.
    """

    def __init__(self, nodes: FloatArray, speeds: list[FloatArray]) -> None:
        count = nodes.shape[1]
        self.count, self._alike = count, len(nodes) == 1
        self._nodes = np.ascontiguousarray(nodes).ravel()
        rows = np.array([max(len(nodes), len(one)) for one in speeds])
        # The rows of a motion follow those of the one before; one that all share has but one.
        self._first, self._each = np.cumsum(rows) - rows, (rows > 1).astype(np.intp)
        shape = (int(rows.sum()), count)
        speed, travel = np.empty(shape), np.empty(shape)
        travel[:, 0] = 0.0
        slope = np.empty((shape[0], count - 1))
        # How far a motion comes that enters a cell upwards from its lower node, or downwards from
        # its upper one: one place more for the nodes at the ends.
        end_up = np.full(shape, count - 1, np.int16)
        end_down = np.full(shape, -1, np.int16)
        width = nodes[:, 1:] - nodes[:, :-1]
        gap = np.where(width > 0, width, np.inf)
        cells = np.arange(count - 1, dtype=np.int16)
        # One motion at a time: its tables stay in the processor's cache.
        for first, size, given in zip(self._first.tolist(), rows.tolist(), speeds, strict=True):
            own = slice(first, first + size)
            s = np.where(np.abs(given) < STANDSTILL, 0.0, given)
            speed[own] = s
            a, b = s[:, :-1], s[:, 1:]
            slope[own] = (b - a) / gap
            np.cumsum(crossings(width, a, b, blocked=0.0), axis=1, out=travel[own, 1:])
            stop = np.where(b <= 0, cells, np.int16(count - 1))
            end_up[own, :-1] = np.minimum.accumulate(stop[:, ::-1], axis=1)[:, ::-1]
            stop = np.where(a >= 0, cells, np.int16(-1))
            end_down[own, 1:] = np.maximum.accumulate(stop, axis=1)
        self._speed, self._travel = speed.ravel(), travel.ravel()
        self._slope: FloatArray = slope.ravel()
        self._end_up, self._end_down = end_up.ravel(), end_down.ravel()

    @classmethod
    def joined(cls, flows: list[RowFlows]) -> RowFlows:
        """Motions of one system as one, each tabulated before by itself."""
        whole = cls.__new__(cls)
        whole.count, whole._alike, whole._nodes = flows[0].count, True, flows[0]._nodes
        whole._first, whole._each = np.arange(len(flows)), np.zeros(len(flows), np.intp)
        for name in ("_speed", "_travel", "_slope", "_end_up", "_end_down"):
            setattr(whole, name, np.concatenate([getattr(one, name) for one in flows]))
        return whole

    @property
    def tables(self) -> tuple[FloatArray, FloatArray, ShortArray, ShortArray]:
        """Slopes, travel times, and the last cells of a way up and down, all in one row."""
        return self._slope, self._travel, self._end_up, self._end_down

    def at_nodes(self, which: int) -> FloatArray:
        """Speed of one motion at the nodes, (systems, nodes), or of one row that all share."""
        end = [*self._first.tolist(), len(self._speed) // self.count][which + 1]
        return self._speed.reshape(-1, self.count)[self._first[which] : end]

    def _search(self, table: FloatArray, base: IntArray | None, value: FloatArray) -> IntArray:
        """Last index j of each row with table[j] <= value, at most count - 2."""
        if base is None or len(table) == self.count:
            found = table.searchsorted(value, side="right") - 1
            return np.asarray(np.minimum(np.maximum(found, 0), self.count - 2))
        low, last = base.copy(), base + (self.count - 1)
        size = 1
        while size * 2 < self.count:
            size *= 2
        while size:
            probe = np.minimum(low + size, last)
            low = np.where(table.take(probe) <= value, probe, low)
            size //= 2
        return np.asarray(np.minimum(low - base, self.count - 2))

    def _bases(self, which: IntArray, rows: IntArray) -> _Bases:
        """Where the tables of motions and systems begin."""
        row = self._first.take(which) + rows * self._each.take(which)
        nodes = None if self._alike else rows * self.count
        return _Bases(nodes, row * self.count, row * (self.count - 1))

    def begin(
        self, which: IntArray, rows: IntArray, x: FloatArray
    ) -> tuple[IntArray, FloatArray]:
        """Cell in which the motion from a position begins, and the speed there."""
        return self._begin(self._bases(which, rows), x)

    def _begin(self, base: _Bases, x: FloatArray) -> tuple[IntArray, FloatArray]:
        cell = self._search(self._nodes, base.nodes, x)
        inside = x - self._nodes.take(_from(base.nodes, cell))
        speed = self._speed.take(_from(base.motion, cell)) + inside * self._slope.take(
            _from(base.cells, cell)
        )
        if not (inside <= 0.0).any():
            return cell, speed
        for _ in range(3):
            back = (speed < 0) & (cell > 0) & (x <= self._nodes.take(_from(base.nodes, cell)))
            if not back.any():
                break
            cell = np.where(back, cell - 1, cell)
            at = _from(base.nodes, cell)
            jump = back & (self._nodes.take(at + 1) == self._nodes.take(at))
            below = np.minimum(self._speed.take(_from(base.motion, cell)), 0.0)
            speed = np.where(jump, below, speed)
        return cell, speed

    def advance(
        self, which: IntArray, rows: IntArray, x: FloatArray, duration: FloatArray
    ) -> FloatArray:
        """Positions after a time.

        Parameters
        ----------
        which, rows, x, duration : ndarray
            Motion, system, position and time, all of one shape (n,).
        """
        return self._advance(self._bases(which, rows), x, duration)

    def along(self, x: FloatArray, duration: FloatArray) -> FloatArray:
        """Positions after a time where there is but one motion of one system; shape (n,) each."""
        return self._advance(_ONLY, x, duration)

    def _advance(self, base: _Bases, x: FloatArray, duration: FloatArray) -> FloatArray:
        with np.errstate(all="ignore"):
            return self._advance_unwatched(base, x, duration)

    def _advance_unwatched(self, base: _Bases, x: FloatArray, duration: FloatArray) -> FloatArray:
        cell, speed = self._begin(base, x)
        near = cell + (speed > 0)
        gap = np.abs(self._nodes.take(_from(base.nodes, near)) - x)
        ahead = self._speed.take(_from(base.motion, near))
        # Most of what runs for a short time stays in its cell, even at the higher of both speeds.
        fastest = np.maximum(np.abs(speed), np.abs(ahead))
        some = ((fastest * duration >= gap) & (speed * ahead > 0.0)).nonzero()[0]
        if len(some):
            leave = crossings_unwatched(gap[some], speed[some], ahead[some])
            later = duration[some] > leave
            some, leave = some[later], leave[later]
        if len(some):
            x, time = np.array(x, float), np.array(duration, float)
            far = base.part(some)
            here, start, time[some] = self._beyond(
                far, time[some] - leave, cell[some], near[some]
            )
            cell[some] = here
            x[some] = self._nodes.take(_from(far.nodes, start))
            speed[some] = self._speed.take(_from(far.motion, start))
            duration = time
        moved = x + drifts_unwatched(speed, self._slope.take(_from(base.cells, cell)), duration)
        at = _from(base.nodes, cell)
        return np.asarray(
            np.minimum(np.maximum(moved, self._nodes.take(at)), self._nodes.take(at + 1))
        )

    def _beyond(
        self, base: _Bases, over: FloatArray, cell: IntArray, near: IntArray
    ) -> tuple[IntArray, IntArray, FloatArray]:
        """Where a motion comes to that leaves its first cell by the node `near`.

        Returns
        -------
        tuple
            Last cell, the node at which it is entered, and the time left there.
        """
        at, up = _from(base.motion, near), near > cell
        target = self._travel.take(at) + np.where(up, over, -over)
        j = self._search(self._travel, base.motion, target)
        last = np.where(
            up,
            np.minimum(np.maximum(j, near), self._end_up.take(at)),
            np.minimum(np.maximum(j, self._end_down.take(at)), cell - 1),
        )
        here = np.minimum(np.maximum(last, 0), self.count - 2)
        start = last + ~up
        # Beyond the outermost node nothing moves.
        entered = self._travel.take(_from(base.motion, start))
        return here, start, np.where(here == last, np.abs(target - entered), 0.0)

    def time_to(
        self, which: IntArray, rows: IntArray, x: FloatArray, target: FloatArray
    ) -> FloatArray:
        """Time until a position is reached, infinite where it never is; arrays of one shape."""
        base_n, base, base_c = bases = self._bases(which, rows)
        assert base is not None
        assert base_c is not None
        cell, speed = self._begin(bases, x)
        up = speed > 0
        never = ~np.isfinite(target)
        target = np.where(never, x, target)
        goal = self._search(self._nodes, base_n, target)
        at_node = (target <= self._nodes.take(_from(base_n, goal))) & ~up & (goal > 0)
        goal = np.where(at_node, goal - 1, goal)
        there = self._speed[base + goal] + self._slope[base_c + goal] * (
            target - self._nodes.take(_from(base_n, goal))
        )
        direct = crossings(np.abs(target - x), speed, there)
        near, far = cell + up, goal + ~up
        ahead, left = (self._nodes.take(_from(base_n, place)) for place in (near, far))
        first = crossings(np.abs(ahead - x), speed, self._speed[base + near])
        rest = crossings(np.abs(target - left), self._speed[base + far], there)
        between = np.abs(self._travel[base + far] - self._travel[base + near])
        blocked = np.where(
            up, self._end_up[base + cell] < goal, self._end_down[base + cell + 1] > goal
        )
        stuck = (there * speed <= 0) | (speed == 0) | ((target > x) != up)
        long = np.where(blocked, np.inf, first + between + rest)
        time = np.where(goal == cell, direct, long)
        time = np.where(target == x, 0.0, np.where(stuck, np.inf, time))
        return np.where(never, np.inf, time)

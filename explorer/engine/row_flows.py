"""The vector form of a motion: many places, of one system or of many, moved at once.

`explorer.engine.flows` walks one place through the same tables.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from explorer.engine.laws import STANDSTILL, crossings, drifts

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.intp]
ShortArray = NDArray[np.int16]
BoolArray = NDArray[np.bool_]


class RowFlows:
    """Motions on the nodes of many systems, several motions to a system.

    Parameters
    ----------
    nodes : ndarray
        Positions, rising along each row; two equal nodes make a place where the speed may jump.
        Shape (systems, nodes).
    speeds : list of ndarray
        Speeds at the nodes, one array of that shape for each motion.
    """

    def __init__(self, nodes: FloatArray, speeds: list[FloatArray]) -> None:
        rows, count = nodes.shape
        self.rows, self.count = rows, count
        shape = (len(speeds), rows, count)
        self._nodes = np.ascontiguousarray(nodes).ravel()
        speed, travel = np.empty(shape), np.zeros(shape)
        slope = np.empty((len(speeds), rows, count - 1))
        end_up = np.empty(slope.shape, np.int16)
        end_down = np.empty(slope.shape, np.int16)
        width = np.diff(nodes, axis=1)
        gap = np.where(width > 0, width, np.inf)
        cells = np.arange(count - 1, dtype=np.int16)
        # One motion at a time: its tables stay in the processor's cache.
        for m, given in enumerate(speeds):
            s = np.where(np.abs(given) < STANDSTILL, 0.0, given)
            speed[m] = s
            a, b = s[:, :-1], s[:, 1:]
            slope[m] = (b - a) / gap
            np.cumsum(crossings(width, a, b, blocked=0.0), axis=1, out=travel[m, :, 1:])
            stop = np.where(b <= 0, cells, np.int16(count - 1))
            end_up[m] = np.minimum.accumulate(stop[:, ::-1], axis=1)[:, ::-1]
            np.maximum.accumulate(np.where(a >= 0, cells, np.int16(-1)), axis=1, out=end_down[m])
        self._speed, self._travel = speed.ravel(), travel.ravel()
        self._slope: FloatArray = slope.ravel()
        self._end_up, self._end_down = end_up.ravel(), end_down.ravel()

    @property
    def tables(self) -> tuple[FloatArray, FloatArray, FloatArray, ShortArray, ShortArray]:
        """Speeds, slopes, travel times, and the last cells of a way up and down, all in one row."""
        speed, slope, travel = self._speed, self._slope, self._travel
        return speed, slope, travel, self._end_up, self._end_down

    def at_nodes(self, which: int) -> FloatArray:
        """Speed of one motion at the nodes, (systems, nodes)."""
        return np.asarray(self._speed.reshape(-1, self.rows, self.count)[which])

    def _search(self, table: FloatArray, base: IntArray, value: FloatArray) -> IntArray:
        """Last index j of each row with table[j] <= value, at most count - 2."""
        if len(table) == self.count:
            found = table.searchsorted(value, side="right") - 1
            return np.asarray(np.clip(found, 0, self.count - 2))
        low, last = base.copy(), base + (self.count - 1)
        size = 1
        while size * 2 < self.count:
            size *= 2
        while size:
            probe = np.minimum(low + size, last)
            low = np.where(table.take(probe) <= value, probe, low)
            size //= 2
        return np.asarray(np.minimum(low - base, self.count - 2))

    def begin(
        self, which: IntArray, rows: IntArray, x: FloatArray
    ) -> tuple[IntArray, FloatArray]:
        """Cell in which the motion from a position begins, and the speed there."""
        base_n, base = rows * self.count, (which * self.rows + rows) * self.count
        cell = self._search(self._nodes, base_n, x)
        base_c = (which * self.rows + rows) * (self.count - 1)
        speed = self._speed[base + cell] + self._slope[base_c + cell] * (
            x - self._nodes[base_n + cell]
        )
        for _ in range(3):
            back = (speed < 0) & (cell > 0) & (x <= self._nodes[base_n + cell])
            if not back.any():
                break
            cell = np.where(back, cell - 1, cell)
            jump = back & (self._nodes[base_n + cell + 1] == self._nodes[base_n + cell])
            speed = np.where(jump, np.minimum(self._speed[base + cell], 0.0), speed)
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
        cell, speed = self.begin(which, rows, x)
        near = cell + (speed > 0)
        base_n, base = rows * self.count, (which * self.rows + rows) * self.count
        gap = np.abs(self._nodes[base_n + near] - x)
        leave = crossings(gap, speed, self._speed[base + near])
        end = np.array(x, float)
        moves, stays = speed != 0, duration <= leave
        # Most of what runs for a short time stays in its cell, which costs less to follow.
        some = np.flatnonzero(moves & stays)
        if len(some):
            end[some] = self._within(
                which[some], rows[some], x[some], duration[some], cell[some], speed[some]
            )
        some = np.flatnonzero(moves & ~stays)
        if len(some):
            over = duration[some] - np.where(np.isfinite(leave[some]), leave[some], 0.0)
            end[some] = self._beyond(which[some], rows[some], over, cell[some], speed[some] > 0)
        return end

    def _within(
        self, which: IntArray, rows: IntArray, x: FloatArray, duration: FloatArray,
        cell: IntArray, speed: FloatArray,
    ) -> FloatArray:
        """Positions after a time that ends in the cell in which it begins."""
        at = rows * self.count + cell
        slope = self._slope[(which * self.rows + rows) * (self.count - 1) + cell]
        moved = x + drifts(speed, slope, duration)
        return np.asarray(np.clip(moved, self._nodes[at], self._nodes[at + 1]))

    def _beyond(
        self, which: IntArray, rows: IntArray, over: FloatArray, cell: IntArray, up: BoolArray
    ) -> FloatArray:
        """Positions after the time that is over once the first cell is left."""
        n = self.count
        base_n, base = rows * n, (which * self.rows + rows) * n
        base_c = (which * self.rows + rows) * (n - 1)
        near = cell + up
        target = self._travel[base + near] + np.where(up, over, -over)
        j = self._search(self._travel, base, target)
        end_up = self._end_up[base_c + np.minimum(near, n - 2)]
        end_down = np.where(cell > 0, self._end_down[base_c + np.maximum(cell - 1, 0)], -1)
        j_up = np.minimum(np.maximum(j, near), end_up)
        j_down = np.minimum(np.maximum(j, end_down), cell - 1)
        here = np.where(up, j_up, j_down)
        at_top, at_bottom = here > n - 2, here < 0
        here = np.clip(here, 0, n - 2)
        start = here + ~up
        time = np.abs(target - self._travel[base + start])
        moved = self._nodes[base_n + start] + drifts(
            self._speed[base + start], self._slope[base_c + here], time
        )
        moved = np.clip(moved, self._nodes[base_n + here], self._nodes[base_n + here + 1])
        moved = np.where(at_top, self._nodes[base_n + n - 1], moved)
        return np.asarray(np.where(at_bottom, self._nodes[base_n], moved))

    def time_to(
        self, which: IntArray, rows: IntArray, x: FloatArray, target: FloatArray
    ) -> FloatArray:
        """Time until a position is reached, infinite where it never is; arrays of one shape."""
        cell, speed = self.begin(which, rows, x)
        n = self.count
        base_n, base = rows * n, (which * self.rows + rows) * n
        base_c = (which * self.rows + rows) * (n - 1)
        up = speed > 0
        never = ~np.isfinite(target)
        target = np.where(never, x, target)
        goal = self._search(self._nodes, base_n, target)
        at_node = (target <= self._nodes[base_n + goal]) & ~up & (goal > 0)
        goal = np.where(at_node, goal - 1, goal)
        there = self._speed[base + goal] + self._slope[base_c + goal] * (
            target - self._nodes[base_n + goal]
        )
        direct = crossings(np.abs(target - x), speed, there)
        near, far = cell + up, goal + ~up
        first = crossings(np.abs(self._nodes[base_n + near] - x), speed, self._speed[base + near])
        rest = crossings(
            np.abs(target - self._nodes[base_n + far]), self._speed[base + far], there
        )
        between = np.abs(self._travel[base + far] - self._travel[base + near])
        end_up = self._end_up[base_c + cell]
        end_down = self._end_down[base_c + cell]
        blocked = np.where(up, end_up < goal, end_down > goal)
        stuck = (there * speed <= 0) | (speed == 0) | ((target > x) != up)
        long = np.where(blocked, np.inf, first + between + rest)
        time = np.where(goal == cell, direct, long)
        time = np.where(target == x, 0.0, np.where(stuck, np.inf, time))
        return np.where(never, np.inf, time)

"""Exact motions of many systems at once; see `explorer.engine.flow` for one."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.intp]


class RowFlows:
    """Motions on the nodes of many systems, several motions to a system; see `Flow`."""

    def __init__(self, nodes: FloatArray, speeds: list[FloatArray]) -> None:
        rows, count = nodes.shape
        self.rows, self.count = rows, count
        speed = np.stack(speeds)
        width = np.diff(nodes, axis=1)
        a, b = speed[:, :, :-1], speed[:, :, 1:]
        same = a * b > 0
        safe_a = np.where(same, a, 1.0)
        ratio = np.where(same, b, 1.0) / safe_a - 1.0
        near = np.abs(ratio) < 1e-7
        mean_log = np.where(near, 1.0 - 0.5 * ratio, np.log1p(ratio) / np.where(near, 1.0, ratio))
        step = np.where(same, width * mean_log / np.abs(safe_a), 0.0)
        travel = np.zeros_like(speed)
        np.cumsum(step, axis=2, out=travel[:, :, 1:])
        cells = np.arange(count - 1)
        stop_up = np.where(b <= 0, cells, count - 1)
        end_up = np.minimum.accumulate(stop_up[:, :, ::-1], axis=2)[:, :, ::-1]
        stop_down = np.where(a >= 0, cells, -1)
        end_down = np.maximum.accumulate(stop_down, axis=2)
        wide = np.where(width > 0, width, 1.0)
        slope = np.where(width > 0, (b - a) / wide, 0.0)
        self._nodes = nodes.ravel()
        self._speed, self._travel = speed.ravel(), travel.ravel()
        self._slope = slope.ravel()
        self._end_up, self._end_down = end_up.ravel(), end_down.ravel()

    def _search(self, table: FloatArray, base: IntArray, value: FloatArray) -> IntArray:
        """Last index j of each row with table[j] <= value, at most count - 2."""
        low = np.zeros(len(value), dtype=np.intp)
        size = 1
        while size * 2 < self.count:
            size *= 2
        while size:
            probe = low + size
            inside = probe < self.count
            probe = np.minimum(probe, self.count - 1)
            low = np.where(inside & (table[base + probe] <= value), probe, low)
            size //= 2
        return np.minimum(low, self.count - 2)

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
        for _ in range(2):
            back = (speed < 0) & (cell > 0) & (x <= self._nodes[base_n + cell])
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
        up = speed > 0
        n = self.count
        base_n, base = rows * n, (which * self.rows + rows) * n
        base_c = (which * self.rows + rows) * (n - 1)
        near = cell + up
        ahead = self._speed[base + near]
        gap = np.abs(self._nodes[base_n + near] - x)
        leave = _cross(gap, speed, ahead)
        stays = duration <= leave
        over = np.where(stays, 0.0, duration - np.where(np.isfinite(leave), leave, 0.0))
        target = self._travel[base + near] + np.where(up, over, -over)
        j = self._search(self._travel, base, target)
        end_up = self._end_up[base_c + np.minimum(near, n - 2)]
        end_down = np.where(cell > 0, self._end_down[base_c + np.maximum(cell - 1, 0)], -1)
        j_up = np.minimum(np.maximum(j, near), end_up)
        j_down = np.minimum(np.maximum(j, end_down), cell - 1)
        here = np.where(stays, cell, np.where(up, j_up, j_down))
        at_top, at_bottom = here > n - 2, here < 0
        here = np.clip(here, 0, n - 2)
        start = np.where(up, here, here + 1)
        from_x = np.where(stays, x, self._nodes[base_n + start])
        from_v = np.where(stays, speed, self._speed[base + start])
        time = np.where(stays, duration, np.abs(target - self._travel[base + start]))
        moved = from_x + _drift(from_v, self._slope[base_c + here], time)
        low, high = self._nodes[base_n + here], self._nodes[base_n + here + 1]
        moved = np.clip(moved, low, high)
        moved = np.where(at_top & ~stays, self._nodes[base_n + n - 1], moved)
        moved = np.where(at_bottom & ~stays, self._nodes[base_n], moved)
        return np.where(speed == 0, x, moved)

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
        direct = _cross(np.abs(target - x), speed, there)
        near, far = cell + up, goal + ~up
        first = _cross(np.abs(self._nodes[base_n + near] - x), speed, self._speed[base + near])
        rest = _cross(
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


def _cross(width: FloatArray, begin: FloatArray, end: FloatArray) -> FloatArray:
    """Time across a width at a speed that runs linearly between two values of one sign."""
    with np.errstate(invalid="ignore"):
        ok = (begin * end > 0) & np.isfinite(end)
    a = np.where(ok, np.abs(begin), 1.0)
    z = np.maximum(np.where(ok, np.abs(end), 1.0) / a - 1.0, -1.0 + 1e-16)
    small = np.abs(z) < 1e-8
    log = np.where(small, 1.0 - 0.5 * z, np.log1p(z) / np.where(small, 1.0, z))
    return np.where(ok, width / a * log, np.where(width <= 0, 0.0, np.inf))


def _drift(speed: FloatArray, slope: FloatArray, duration: FloatArray) -> FloatArray:
    z = slope * np.where(np.isfinite(duration), duration, 0.0)
    small = np.abs(z) < 1e-8
    factor = np.where(
        small, 1.0 + 0.5 * z, np.expm1(np.minimum(z, 700.0)) / np.where(small, 1.0, z)
    )
    return np.asarray(speed * duration * factor)

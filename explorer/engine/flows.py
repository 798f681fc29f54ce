"""Exact motion along a line whose speed is piecewise linear.

For one light level and load phase the charge obeys dq/dt = f(q), with f tabulated at nodes and
linear between them. Inside a cell the motion is an exponential, so the time from one node to the
next is a logarithm and the whole motion is one table of travel times: any stretch of time, long
or stiff, is two look-ups, and a threshold is hit exactly. No step size is involved.
"""

from __future__ import annotations

from bisect import bisect_right
from math import expm1, inf, log1p

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]

STANDSTILL = 1e-30
"""A speed below this is none: what is left where currents cancel."""


class Flow:
    """Motion dx/dt = f(x) on fixed nodes.

    Parameters
    ----------
    nodes : ndarray
        Positions, rising; two equal nodes make a place where the speed may jump.
    speed : ndarray
        f at the nodes, same shape.
    """

    __slots__ = (
        "_end_down", "_end_up", "_fl", "_sl", "_tl", "_xl", "nodes", "slope", "speed", "travel",
    )

    def __init__(self, nodes: FloatArray, speed: FloatArray) -> None:
        self.nodes = nodes
        speed = np.where(np.abs(speed) < STANDSTILL, 0.0, speed)
        self.speed = speed
        width = np.diff(nodes)
        a, b = speed[:-1], speed[1:]
        wide = width > 0
        self.slope = np.where(wide, (b - a) / np.where(wide, width, 1.0), 0.0)
        same = a * b > 0
        times = np.where(same, b, 1.0) / np.where(same, a, 1.0)
        ratio = times - 1.0
        near = np.abs(ratio) < 1e-7
        # log1p for ratios near 1, log where 1 would swallow a small one.
        log = np.where(ratio < -0.5, np.log(times), np.log1p(np.maximum(ratio, -0.5)))
        mean_log = np.where(near, 1.0 - 0.5 * ratio, log / np.where(near, 1.0, ratio))
        step = np.where(same, width * mean_log / np.abs(np.where(same, a, 1.0)), 0.0)
        self.travel = np.concatenate([[0.0], np.cumsum(step)])
        cells = np.arange(len(width))
        stop_up = np.where(b <= 0, cells, len(width))
        self._end_up: list[int] = [
            *np.minimum.accumulate(stop_up[::-1])[::-1].tolist(), len(width),
        ]
        stop_down = np.where(a >= 0, cells, -1)
        self._end_down: list[int] = np.maximum.accumulate(stop_down).tolist()
        self._xl: list[float] = nodes.tolist()
        self._fl: list[float] = speed.tolist()
        self._sl: list[float] = self.slope.tolist()
        self._tl: list[float] = self.travel.tolist()

    def _locate(self, x: float) -> tuple[int, float]:
        """Cell in which the motion from x begins, and the speed there."""
        xl, fl = self._xl, self._fl
        cell = bisect_right(xl, x) - 1
        last = len(xl) - 2
        if cell > last:
            cell = last
        elif cell < 0:
            cell = 0
        speed = fl[cell] + self._sl[cell] * (x - xl[cell])
        while speed < 0 and cell > 0 and x <= xl[cell]:
            cell -= 1
            if xl[cell + 1] == xl[cell]:
                if fl[cell] >= 0:
                    return cell, 0.0
                speed = fl[cell]
        return cell, speed

    def advance(self, x: float, duration: float) -> float:
        """Position after a time."""
        return self.run(x, duration, -inf, inf)[0]

    def run(self, x: float, duration: float, low: float, high: float) -> tuple[float, float]:
        """Move for a time, or until a bound is met.

        Returns
        -------
        tuple
            Position and time used; the time is below `duration` only where a bound was met.
        """
        cell, speed = self._locate(x)
        if speed > 0:
            if x >= high:
                return x, 0.0
            end = self._up(cell, x, speed, duration)
            if end >= high:
                used = self.time_to(x, high)
                return (high, used) if used <= duration else (end, duration)
            return end, duration
        if speed < 0:
            if x <= low:
                return x, 0.0
            end = self._down(cell, x, speed, duration)
            if end <= low:
                used = self.time_to(x, low)
                return (low, used) if used <= duration else (end, duration)
            return end, duration
        return x, duration

    def _up(self, cell: int, x: float, speed: float, duration: float) -> float:
        xl, fl, tl = self._xl, self._fl, self._tl
        ahead = fl[cell + 1]
        if ahead <= 0:
            return min(x + _drift(speed, self._sl[cell], duration), xl[cell + 1])
        leave = _cross(xl[cell + 1] - x, speed, ahead)
        if duration <= leave:
            return min(x + _drift(speed, self._sl[cell], duration), xl[cell + 1])
        target = tl[cell + 1] + duration - leave
        end = self._end_up[cell + 1]
        if target >= tl[end]:
            cell = end
            if cell >= len(xl) - 1:
                return xl[-1]
            if xl[cell + 1] == xl[cell]:
                return xl[cell]
        else:
            cell = bisect_right(tl, target, cell + 1, end + 1) - 1
        moved = xl[cell] + _drift(fl[cell], self._sl[cell], target - tl[cell])
        return min(moved, xl[cell + 1])

    def _down(self, cell: int, x: float, speed: float, duration: float) -> float:
        xl, fl, tl = self._xl, self._fl, self._tl
        ahead = fl[cell]
        if ahead >= 0:
            return max(x + _drift(speed, self._sl[cell], duration), xl[cell])
        leave = _cross(x - xl[cell], -speed, -ahead)
        if duration <= leave:
            return max(x + _drift(speed, self._sl[cell], duration), xl[cell])
        # Travel time grows towards lower nodes here: the table is read from the top down.
        target = tl[cell] - (duration - leave)
        end = self._end_down[cell - 1] if cell > 0 else -1
        if end < 0 and target <= tl[0]:
            return xl[0]
        if target <= tl[end + 1]:
            if end < 0 or xl[end + 1] == xl[end]:
                return xl[end + 1]
            moved = xl[end + 1] + _drift(fl[end + 1], self._sl[end], tl[end + 1] - target)
            return max(moved, xl[end])
        cell = bisect_right(tl, target, end + 1, cell + 1) - 1
        moved = xl[cell + 1] + _drift(fl[cell + 1], self._sl[cell], tl[cell + 1] - target)
        return max(moved, xl[cell])

    def time_to(self, x: float, target: float) -> float:
        """Time until a position is reached; infinite where it never is."""
        if x == target:
            return 0.0
        cell, speed = self._locate(x)
        xl, fl, tl = self._xl, self._fl, self._tl
        if speed == 0 or (target > x) != (speed > 0):
            return inf
        goal = min(max(bisect_right(xl, target) - 1, 0), len(xl) - 2)
        if speed > 0:
            # A place where the speed jumps is reached before the jump.
            while goal > 0 and xl[goal - 1] == target:
                goal -= 1
            if goal == cell:
                there = fl[goal] + self._sl[goal] * (target - xl[goal])
                return _cross(target - x, speed, there) if there > 0 else inf
            if self._end_up[cell] < goal or fl[cell + 1] <= 0:
                return inf
            there = fl[goal] + self._sl[goal] * (target - xl[goal])
            if there <= 0 and target > xl[goal]:
                return inf
            rest = _cross(target - xl[goal], fl[goal], there) if target > xl[goal] else 0.0
            return _cross(xl[cell + 1] - x, speed, fl[cell + 1]) + tl[goal] - tl[cell + 1] + rest
        while goal < cell and xl[goal + 1] <= target:
            goal += 1
        if goal >= cell:
            there = fl[cell] + self._sl[cell] * (target - xl[cell])
            return _cross(x - target, -speed, -there) if there < 0 else inf
        if fl[cell] >= 0 or self._end_down[cell - 1] > goal:
            return inf
        there = fl[goal] + self._sl[goal] * (target - xl[goal])
        if there >= 0 and target < xl[goal + 1]:
            return inf
        rest = (
            _cross(xl[goal + 1] - target, -fl[goal + 1], -there) if target < xl[goal + 1] else 0.0
        )
        return _cross(x - xl[cell], -speed, -fl[cell]) + tl[cell] - tl[goal + 1] + rest

    def path(self, x: float, times: FloatArray) -> FloatArray:
        """Positions after several rising times from one start, shape as `times`."""
        nodes, speed, slope, travel = self.nodes, self.speed, self.slope, self.travel
        cell, v = self._locate(x)
        if v == 0:
            return np.full(times.shape, x)
        up = v > 0
        near = cell + 1 if up else cell
        ahead = self._fl[near]
        inside = ahead * v > 0
        leave = _cross(abs(self._xl[near] - x), abs(v), abs(ahead)) if inside else inf
        count = int(np.searchsorted(times, leave, side="right"))
        out = np.empty_like(times)
        out[:count] = x + _drift_all(np.full(count, v), np.full(count, slope[cell]), times[:count])
        if count < len(times):
            later = times[count:] - leave
            last = len(nodes) - 2
            if up:
                target, end = travel[near] + later, self._end_up[near]
                j = np.minimum(np.searchsorted(travel, target, side="right") - 1, end)
                at_end, cells, start = j > last, np.minimum(j, last), np.minimum(j, last)
            else:
                target = travel[near] - later
                end = self._end_down[cell - 1] if cell > 0 else -1
                j = np.maximum(np.searchsorted(travel, target, side="right") - 1, end)
                j = np.minimum(j, cell - 1)
                at_end, cells = j < 0, np.maximum(j, 0)
                start = cells + 1
            moved = nodes[start] + _drift_all(
                speed[start], slope[cells], np.abs(target - travel[start])
            )
            moved = np.clip(moved, nodes[cells], nodes[cells + 1])
            out[count:] = np.where(at_end, nodes[-1] if up else nodes[0], moved)
        low, high = self._xl[cell], self._xl[cell + 1]
        out[:count] = np.clip(out[:count], low, high)
        return out

    def advance_all(self, x: FloatArray, duration: float | FloatArray) -> FloatArray:
        """Many starting points at once; the vectorised twin of `advance`."""
        nodes, speed, slope = self.nodes, self.speed, self.slope
        last = len(nodes) - 2
        x = np.clip(x, nodes[0], nodes[-1])
        duration = np.broadcast_to(np.asarray(duration, float), x.shape)
        cell = np.clip(np.searchsorted(nodes, x, side="right") - 1, 0, last)
        v = speed[cell] + slope[cell] * (x - nodes[cell])
        for _ in range(3):
            back = (v < 0) & (cell > 0) & (x <= nodes[cell])
            if not back.any():
                break
            cell = np.where(back, cell - 1, cell)
            jump = back & (nodes[np.minimum(cell + 1, last + 1)] == nodes[cell])
            v = np.where(jump, np.minimum(speed[cell], 0.0), v)
        out = x.copy()
        up = v > 0
        if up.any():
            out[up] = self._all_up(x[up], cell[up], v[up], duration[up])
        down = v < 0
        if down.any():
            out[down] = self._all_down(x[down], cell[down], v[down], duration[down])
        return out

    def _all_up(
        self, x: FloatArray, cell: NDArray[np.intp], v: FloatArray, duration: FloatArray
    ) -> FloatArray:
        nodes, speed, slope, travel = self.nodes, self.speed, self.slope, self.travel
        ahead = speed[cell + 1]
        leave = np.where(ahead > 0, _cross_all(nodes[cell + 1] - x, v, ahead), np.inf)
        stays = duration <= leave
        if stays.all():
            return np.minimum(x + _drift_all(v, slope[cell], duration), nodes[cell + 1])
        target = travel[cell + 1] + np.where(stays, 0.0, duration - leave)
        end = np.asarray(self._end_up)[cell + 1]
        j = np.searchsorted(travel, target, side="right") - 1
        j = np.minimum(np.maximum(j, cell + 1), end)
        at_end = j >= len(nodes) - 1
        k = np.minimum(j, len(nodes) - 2)
        begin = np.where(stays, x, nodes[k])
        begin_v = np.where(stays, v, speed[k])
        here = np.where(stays, cell, k)
        time = np.where(stays, duration, target - travel[k])
        moved = np.minimum(begin + _drift_all(begin_v, slope[here], time), nodes[here + 1])
        out: FloatArray = np.where(at_end & ~stays, nodes[-1], moved)
        return out

    def _all_down(
        self, x: FloatArray, cell: NDArray[np.intp], v: FloatArray, duration: FloatArray
    ) -> FloatArray:
        nodes, speed, slope, travel = self.nodes, self.speed, self.slope, self.travel
        ahead = speed[cell]
        leave = np.where(ahead < 0, _cross_all(x - nodes[cell], -v, -ahead), np.inf)
        stays = duration <= leave
        if stays.all():
            return np.maximum(x + _drift_all(v, slope[cell], duration), nodes[cell])
        target = travel[cell] - np.where(stays, 0.0, duration - leave)
        end_table = np.concatenate([[-1], np.asarray(self._end_down)])
        end = end_table[cell]
        j = np.searchsorted(travel, target, side="right") - 1
        j = np.minimum(np.maximum(j, end), cell - 1)
        at_end = j < 0
        k = np.maximum(j, 0)
        begin = np.where(stays, x, nodes[k + 1])
        begin_v = np.where(stays, v, speed[k + 1])
        here = np.where(stays, cell, k)
        time = np.where(stays, duration, travel[k + 1] - target)
        moved = np.maximum(begin + _drift_all(begin_v, slope[here], time), nodes[here])
        return np.where(at_end & ~stays, nodes[0], moved)


def _drift(speed: float, slope: float, duration: float) -> float:
    """Distance moved in a time from a point of given speed and slope of speed."""
    z = slope * duration
    if -1e-8 < z < 1e-8:
        return speed * duration * (1.0 + 0.5 * z)
    return speed * expm1(min(z, 700.0)) / slope


def _cross(width: float, begin: float, end: float) -> float:
    """Time across a width at a speed that runs linearly from one positive value to another."""
    z = end / begin - 1.0
    if -1e-8 < z < 1e-8:
        return width / begin * (1.0 - 0.5 * z)
    return width / begin * (log1p(z) / z) if z > -1.0 else inf


def _drift_all(speed: FloatArray, slope: FloatArray, duration: FloatArray) -> FloatArray:
    z = slope * np.where(np.isfinite(duration), duration, 0.0)
    small = np.abs(z) < 1e-8
    factor = np.where(
        small, 1.0 + 0.5 * z, np.expm1(np.minimum(z, 700.0)) / np.where(small, 1.0, z)
    )
    return np.asarray(speed * duration * factor)


def _cross_all(width: FloatArray, begin: FloatArray, end: FloatArray) -> FloatArray:
    z = np.maximum(end / begin - 1.0, -1.0 + 1e-16)
    small = np.abs(z) < 1e-8
    return np.asarray(
        width / begin * np.where(small, 1.0 - 0.5 * z, np.log1p(z) / np.where(small, 1.0, z))
    )

"""Exact motion along a line whose speed is piecewise linear.

For one light level and load phase the charge obeys dq/dt = f(q), with f tabulated at nodes and
linear between them. Inside a cell the motion is an exponential, so the time from one node to the
next is a logarithm and the whole motion is one table of travel times: any stretch of time, long
or stiff, is two look-ups, and a threshold is hit exactly. No step size is involved.
"""

from __future__ import annotations

from bisect import bisect_right
from math import expm1, inf, log

import numpy as np

from explorer.engine.laws import SMALL, STANDSTILL, crossing, drift
from explorer.engine.row_flows import RowFlows, ShortArray
from explorer.physics.arrays import FloatArray


class Flow:
    """Motion dx/dt = f(x) on fixed nodes.

    Parameters
    ----------
    nodes : ndarray
        Positions, rising; two equal nodes make a place where the speed may jump.
    speed : ndarray
        f at the nodes, same shape.
    """

    __slots__ = ("_end_down", "_end_up", "_fl", "_rows", "_tl", "_xl", "nodes", "speed")

    def __init__(self, nodes: FloatArray, speed: FloatArray) -> None:
        self.nodes = nodes
        self.speed = np.where(np.abs(speed) < STANDSTILL, 0.0, speed)
        # Many motions never need all of their tables: they are made when first asked for.
        self._rows: RowFlows | None = None
        self._xl: list[float] = []
        self._fl: list[float] = []
        self._tl: list[float] = []
        self._end_up: ShortArray
        self._end_down: ShortArray

    @property
    def rows(self) -> RowFlows:
        """The vector form of the same motion."""
        if self._rows is None:
            self._rows = RowFlows(self.nodes[None, :], [self.speed[None, :]])
        return self._rows

    @property
    def slope(self) -> FloatArray:
        """Change of speed per place in each cell, shape (nodes - 1,)."""
        return self.rows.tables[0]

    @property
    def travel(self) -> FloatArray:
        """Travel time from the lowest node, where nothing is in the way, shape (nodes,)."""
        return self.rows.tables[1]

    def lists(self) -> tuple[list[float], list[float]]:
        """Nodes and speeds as lists, which a walk reads faster than arrays."""
        if not self._xl:
            # What is asked for comes last: another thread may look meanwhile.
            self._fl = self.speed.tolist()
            self._xl = _listed(self.nodes)
        return self._xl, self._fl

    def _tabulate(self) -> list[float]:
        self.lists()
        _, travel, self._end_up, self._end_down = self.rows.tables
        self._tl = travel.tolist()
        return self._tl

    def _locate(self, x: float) -> tuple[int, float, float]:
        """Cell in which the motion from x begins, the speed there, and how it changes with x."""
        xl, fl = self._xl, self._fl
        cell = bisect_right(xl, x) - 1
        last = len(xl) - 2
        cell = last if cell > last else 0 if cell < 0 else cell
        begin, first = xl[cell], fl[cell]
        width = xl[cell + 1] - begin
        slope = (fl[cell + 1] - first) / width if width > 0.0 else 0.0
        speed = first + slope * (x - begin)
        if speed < 0.0 and x <= begin:
            return self._below(cell, x, speed)
        return cell, speed, slope

    def _below(self, cell: int, x: float, speed: float) -> tuple[int, float, float]:
        """The same where the motion goes down from the lower end of a cell, or from below it."""
        xl, fl = self._xl, self._fl
        slope = 0.0
        while speed < 0.0 and cell > 0 and x <= xl[cell]:
            cell -= 1
            width = xl[cell + 1] - xl[cell]
            slope = (fl[cell + 1] - fl[cell]) / width if width > 0.0 else 0.0
            if width <= 0.0:
                if fl[cell] >= 0.0:
                    return cell, 0.0, slope
                speed = fl[cell]
        return cell, speed, slope

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
        xl, fl = self._xl or self.lists()[0], self._fl
        # Where the motion begins, as in `_locate`: said here, as nothing else is done so often.
        cell = bisect_right(xl, x) - 1
        last = len(xl) - 2
        cell = last if cell > last else 0 if cell < 0 else cell
        begin, bound, first, ahead = xl[cell], xl[cell + 1], fl[cell], fl[cell + 1]
        slope = (ahead - first) / (bound - begin) if bound > begin else 0.0
        speed = first + slope * (x - begin)
        if speed > 0.0:
            if x >= high:
                return x, 0.0
            # Even at the higher of both speeds the cell's end is too far, which needs no logarithm.
            if (ahead if ahead > speed else speed) * duration < bound - x:
                z = slope * duration
                if -SMALL < z < SMALL:
                    end = x + speed * duration * (1.0 + 0.5 * z)
                else:
                    end = x + speed * expm1(z) / slope
            else:
                end = self._up(cell, x, speed, slope, duration)
            if end < high:
                return end, duration
            used = self.time_to(x, high)
            return (high, used) if used <= duration else (end, duration)
        if speed < 0.0:
            if x <= low:
                return x, 0.0
            if x <= begin:
                cell, speed, slope = self._below(cell, x, speed)
                if speed == 0.0:
                    return x, duration
                begin, first = xl[cell], fl[cell]
            if (first if first < speed else speed) * duration > begin - x:
                z = slope * duration
                if -SMALL < z < SMALL:
                    end = x + speed * duration * (1.0 + 0.5 * z)
                else:
                    end = x + speed * expm1(z) / slope
            else:
                end = self._down(cell, x, speed, slope, duration)
            if end > low:
                return end, duration
            used = self.time_to(x, low)
            return (low, used) if used <= duration else (end, duration)
        return x, duration

    def _up(self, cell: int, x: float, speed: float, slope: float, duration: float) -> float:
        xl, fl = self._xl, self._fl
        ahead = fl[cell + 1]
        leave = crossing(xl[cell + 1] - x, speed, ahead) if ahead > 0.0 else inf
        if duration <= leave:
            return min(x + drift(speed, slope, duration), xl[cell + 1])
        tl = self._tl or self._tabulate()
        target = tl[cell + 1] + duration - leave
        end = self._end_up.item(cell + 1)
        if target >= tl[end]:
            cell = end
            if cell >= len(xl) - 1:
                return xl[-1]
            if xl[cell + 1] == xl[cell]:
                return xl[cell]
        else:
            cell = bisect_right(tl, target, cell + 1, end + 1) - 1
        first = fl[cell]
        slope = (fl[cell + 1] - first) / (xl[cell + 1] - xl[cell])
        return min(xl[cell] + drift(first, slope, target - tl[cell]), xl[cell + 1])

    def _down(self, cell: int, x: float, speed: float, slope: float, duration: float) -> float:
        xl, fl = self._xl, self._fl
        ahead = fl[cell]
        leave = crossing(x - xl[cell], -speed, -ahead) if ahead < 0.0 else inf
        if duration <= leave:
            return max(x + drift(speed, slope, duration), xl[cell])
        tl = self._tl or self._tabulate()
        # Travel time grows towards lower nodes here: the table is read from the top down.
        target = tl[cell] - (duration - leave)
        end = self._end_down.item(cell)
        if end < 0 and target <= tl[0]:
            return xl[0]
        if target <= tl[end + 1]:
            if end < 0 or xl[end + 1] == xl[end]:
                return xl[end + 1]
            cell = end
        else:
            cell = bisect_right(tl, target, end + 1, cell + 1) - 1
        first = fl[cell + 1]
        slope = (first - fl[cell]) / (xl[cell + 1] - xl[cell])
        return max(xl[cell + 1] + drift(first, slope, tl[cell + 1] - target), xl[cell])

    def time_to(self, x: float, target: float) -> float:
        """Time until a position is reached; infinite where it never is."""
        if x == target:
            return 0.0
        tl = self._tl or self._tabulate()
        cell, speed, slope = self._locate(x)
        xl, fl = self._xl, self._fl
        if speed == 0 or (target > x) != (speed > 0):
            return inf
        goal = min(max(bisect_right(xl, target) - 1, 0), len(xl) - 2)
        if speed > 0:
            # A place where the speed jumps is reached before the jump.
            while goal > 0 and xl[goal - 1] == target:
                goal -= 1
            there = self._speed_at(goal, target)
            if goal == cell:
                return crossing(target - x, speed, there) if there > 0 else inf
            if self._end_up.item(cell) < goal or fl[cell + 1] <= 0:
                return inf
            if there <= 0 and target > xl[goal]:
                return inf
            rest = crossing(target - xl[goal], fl[goal], there) if target > xl[goal] else 0.0
            return crossing(xl[cell + 1] - x, speed, fl[cell + 1]) + tl[goal] - tl[cell + 1] + rest
        while goal < cell and xl[goal + 1] <= target:
            goal += 1
        if goal >= cell:
            there = fl[cell] + slope * (target - xl[cell])
            return crossing(x - target, -speed, -there) if there < 0 else inf
        if fl[cell] >= 0 or self._end_down.item(cell) > goal:
            return inf
        there = self._speed_at(goal, target)
        if there >= 0 and target < xl[goal + 1]:
            return inf
        rest = (
            crossing(xl[goal + 1] - target, -fl[goal + 1], -there) if target < xl[goal + 1] else 0.0
        )
        return crossing(x - xl[cell], -speed, -fl[cell]) + tl[cell] - tl[goal + 1] + rest

    def _speed_at(self, cell: int, x: float) -> float:
        begin, first = self._xl[cell], self._fl[cell]
        width = self._xl[cell + 1] - begin
        return first + (self._fl[cell + 1] - first) / width * (x - begin) if width > 0.0 else first

    def path(self, x: float, times: FloatArray) -> FloatArray:
        """Positions after several times from one start, shape as `times`."""
        return self.advance_all(np.full(times.shape, float(x)), times)

    def advance_all(self, x: FloatArray, duration: float | FloatArray) -> FloatArray:
        """Positions after a time, or a time for each, from many starting points of shape (n,)."""
        times = duration if isinstance(duration, np.ndarray) else np.full(x.shape, float(duration))
        inside = np.minimum(np.maximum(x, self.nodes[0]), self.nodes[-1])
        return self.rows.along(inside, times)


_LISTED: list[tuple[FloatArray, list[float]]] = []
"""Nodes that were listed lately: all motions of a store are tabulated at the same."""
MOST_LISTED = 8


def _listed(nodes: FloatArray) -> list[float]:
    for known, listed in _LISTED:
        if known is nodes:
            return listed
    found: list[float] = nodes.tolist()
    _LISTED.insert(0, (nodes, found))
    del _LISTED[MOST_LISTED:]
    return found


class BlendedFlow:
    """Motion between two flows on the same nodes: speed (1 - w) f_a + w f_b."""

    __slots__ = ("_a", "_b", "_w")

    def __init__(self, a: Flow, b: Flow, weight: float) -> None:
        self._a, self._b, self._w = a, b, weight

    def tabulated(self) -> Flow:
        """The same with tables of its own: worth it where many places or times are asked for."""
        a, b, w = self._a, self._b, self._w
        return Flow(a.nodes, (1.0 - w) * a.speed + w * b.speed)

    def run(self, x: float, duration: float, low: float, high: float) -> tuple[float, float]:
        """See `Flow.run`; walks cell by cell, which is quick for the short stretches of a log."""
        return blended(self._a, self._b, self._w, x, duration, low, high)


def blended(
    a: Flow, b: Flow, w: float, x: float, duration: float, low: float, high: float
) -> tuple[float, float]:
    """See `BlendedFlow.run`.

    A whole cell is left at the speed of its own edge, with which the next one begins: what follows
    the first is plain, as a small store crosses dozens of cells within a reading. Up and down are
    written out, for a call in each cell would cost as much as the cell.
    """
    xl, fa = (a._xl, a._fl) if a._xl else a.lists()
    fb = b._fl if b._xl else b.lists()[1]
    u, last, left = 1.0 - w, len(xl) - 2, duration
    cell = bisect_right(xl, x) - 1
    cell = 0 if cell < 0 else cell if cell < last else last
    while left > 0:
        begin, end = xl[cell], xl[cell + 1]
        f0 = u * fa[cell] + w * fb[cell]
        f1 = u * fa[cell + 1] + w * fb[cell + 1]
        if end <= begin:
            if (f0 > 0) != (f1 > 0):
                break
            cell += 1 if f0 > 0 else -1
            if not 0 <= cell <= last:
                break
            continue
        speed = f0 + (f1 - f0) / (end - begin) * (x - begin)
        if speed > 0:
            if x >= high:
                return high, duration - left
            while end > begin:
                bound, ahead = end, f1
                if high < end:
                    bound, ahead = high, f0 + (f1 - f0) / (end - begin) * (high - begin)
                # Even at the higher of both speeds the bound is too far: no logarithm is needed.
                if (speed if f1 < f0 else ahead) * left < bound - x:
                    return x + drift(speed, (f1 - f0) / (end - begin), left), duration
                times = ahead / speed
                z = times - 1.0
                if times <= 0.0:
                    leave = inf
                else:
                    share = 1.0 - 0.5 * z if -SMALL < z < SMALL else log(times) / z
                    leave = (bound - x) / speed * share
                if leave > left:
                    moved = drift(speed, (f1 - f0) / (end - begin), left)
                    return min(x + moved, bound), duration
                x, left = bound, left - leave
                if bound >= high:
                    return high, duration - left
                if cell == last or left <= 0:
                    return x, duration
                cell += 1
                begin, end, f0 = end, xl[cell + 1], f1
                f1 = u * fa[cell + 1] + w * fb[cell + 1]
                speed = f0
        elif speed < 0:
            if x <= low:
                return low, duration - left
            while end > begin and x > begin:
                bound, ahead = begin, f0
                if low > begin:
                    bound, ahead = low, f0 + (f1 - f0) / (end - begin) * (low - begin)
                if (ahead if f1 > f0 else speed) * left > bound - x:
                    return x + drift(speed, (f1 - f0) / (end - begin), left), duration
                times = ahead / speed
                z = times - 1.0
                if times <= 0.0:
                    leave = inf
                else:
                    share = 1.0 - 0.5 * z if -SMALL < z < SMALL else log(times) / z
                    leave = (bound - x) / speed * share
                if leave > left:
                    moved = drift(speed, (f1 - f0) / (end - begin), left)
                    return max(x + moved, bound), duration
                x, left = bound, left - leave
                if bound <= low:
                    return low, duration - left
                if cell == 0 or left <= 0:
                    return x, duration
                cell -= 1
                begin, end, f1 = xl[cell], begin, f0
                f0 = u * fa[cell] + w * fb[cell]
                speed = f1
            if x <= begin < end:  # at the edge of a cell the one below is left
                if cell == 0:
                    break
                cell -= 1
        else:
            break
    return x, duration

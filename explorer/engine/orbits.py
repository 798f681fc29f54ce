"""Inside composed load cycles: where each cycle begins, what it carries, and its phases."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from explorer.engine.cycles import Cycle
from explorer.engine.extent import Extent
from explorer.engine.modes import Modes
from explorer.engine.passes import SEVERAL
from explorer.physics.arrays import BoolArray, FloatArray, IntArray

GRAIN_S = 1e-9
"""Two moments closer than this are one. [s]"""


def grain(time_s: FloatArray) -> FloatArray:
    """How far two moments at these times may lie apart and be one: rounding counts. [s]"""
    return np.maximum(GRAIN_S, 1e-15 * np.abs(time_s))


class Passed(NamedTuple):
    """Ends of what is passed of phases: the beginnings first, then the ends; shape (n,)."""

    row: IntArray
    place: IntArray
    """Which of the stretches that were asked for."""
    begin_c: FloatArray
    """Where the phase begins. [C]"""
    seconds: FloatArray
    """How long ago that was. [s]"""


class Orbits:
    """The cycles of one operation at one light level, counted and opened.

    Parameters
    ----------
    modes : Modes
        Rows of the engine, for the phases.
    cycle : Cycle
        The composed cycle.
    """

    def __init__(self, modes: Modes, cycle: Cycle) -> None:
        self.modes, self.cycle = modes, cycle
        key = cycle.key
        engine, follows = modes.engine, modes.engine.phases(key)
        rows = {
            draw: modes.plain(engine.motion(key.photocurrent_a, key.charging, draw))
            for draw in {draw for draw, _ in follows}
        }
        self.phases = [(rows[draw], seconds) for draw, seconds in follows]
        """Row and length of each. [s]"""
        self._rows = np.array([row for row, _ in self.phases], np.intp)
        self._lengths_s = np.array([seconds for _, seconds in self.phases])
        self._ends_s = np.cumsum(self._lengths_s)
        self._sums: list[FloatArray] = []
        self._rates: FloatArray | None = None

    # ---- from cycle to cycle -------------------------------------------------------------

    def begins(self, first_c: FloatArray, count: IntArray, smooth: BoolArray) -> FloatArray:
        """Charges at which the cycles after `count` others begin. [C]"""
        cycle = self.cycle
        out = first_c.copy()
        if smooth.any():
            seconds = cycle.length_s * count[smooth].astype(np.float64)
            out[smooth] = cycle.generator.advance_all(first_c[smooth], seconds)
        rough = (~smooth).nonzero()[0]
        for k in self._bits(count[rough]):
            some = rough[(count[rough] >> k) & 1 == 1]
            out[some] = cycle.power(k)(out[some])
        return out

    def carried(self, first_c: FloatArray, count: IntArray, smooth: BoolArray) -> FloatArray:
        """Charges that so many whole cycles carry, shape (3, n). [C]"""
        out, at = np.zeros((3, len(first_c))), first_c.copy()
        for k in self._bits(count):
            some = ((count >> k) & 1 == 1).nonzero()[0]
            out[:, some] += _looked_up(at[some], self.cycle.nodes, self._sum(k))
            at[some] = self.cycle.power(k)(at[some])
        return settled(out, self.begins(first_c, count, smooth) - first_c)

    @staticmethod
    def _bits(count: IntArray) -> range:
        """From the highest: the march leaps in this order too."""
        return range(int(count.max(initial=0)).bit_length() - 1, -1, -1)

    def _sum(self, k: int) -> FloatArray:
        """Charges that 2^k cycles carry from each node on, shape (3, n). [C]"""
        while len(self._sums) <= k:
            if not self._sums:
                x = self.cycle.nodes
                length = np.full(len(x), self.cycle.length_s)
                self._sums.append(self.within_carried(x, length))
                continue
            last, power = self._sums[-1], self.cycle.power(len(self._sums) - 1)
            middle = np.asarray(power(self.cycle.nodes))
            self._sums.append(last + _looked_up(middle, self.cycle.nodes, last))
        return self._sums[k]

    def rates(self) -> FloatArray:
        """Mean currents along the generator, which add up to its speed; shape (3, n). [A]

        A sum over cycles is the integral of a rate: with D = T g d/dx, T the length of a cycle
        and g the generator, the rate is D / (e^D - 1) of what one cycle carries, over T
        (Euler and Maclaurin); three terms of that series are taken.
        """
        if self._rates is None:
            cycle, carried = self.cycle, self._sum(0)
            moved = cycle.length_s * cycle.generator.speed

            def along(values: FloatArray) -> FloatArray:
                return np.asarray(moved * np.gradient(values, cycle.nodes, axis=-1))

            first = along(carried)
            rates = (carried - 0.5 * first + along(first) / 12.0) / cycle.length_s
            self._rates = settled(rates, cycle.generator.speed)
        return self._rates

    # ---- inside a cycle ------------------------------------------------------------------

    def within(
        self, begin_c: FloatArray, seconds: FloatArray, late: bool
    ) -> tuple[FloatArray, IntArray]:
        """Charge at moments of a cycle and the row that holds there.

        Parameters
        ----------
        begin_c, seconds : ndarray
            Where the cycle begins and how long ago; (n,). [C, s]
        late : bool
            Whether a moment between two phases belongs to the later one.
        """
        q, left = begin_c.copy(), seconds.copy()
        row = np.full(len(q), self.phases[-1][0])
        todo = np.ones(len(q), bool)
        for i, (mode, length) in enumerate(self.phases):
            ends = (left < length - GRAIN_S) if late else (left <= length + GRAIN_S)
            ends = todo & (ends | (i == len(self.phases) - 1))
            time = np.where(ends, np.minimum(left, length), length)
            q[todo] = self.modes.flow(mode).advance_all(q[todo], time[todo])
            row[ends] = mode
            left = left - length
            todo &= ~ends
            if not todo.any():
                break
        return q, row

    def within_carried(self, begin_c: FloatArray, seconds: FloatArray) -> FloatArray:
        """Charges carried since a cycle began, shape (3, n). [C]"""
        q, left = begin_c.copy(), seconds.copy()
        out = np.zeros((3, len(q)))
        for mode, length in self.phases:
            some = (left > 0.0).nonzero()[0]
            if not some.size:
                break
            time = np.minimum(left[some], length)
            end = self.modes.flow(mode).advance_all(q[some], time)
            out[:, some] += self.modes.passage(mode).carried(q[some], end, time)
            q[some] = end
            left = left - length
        return out

    def sketched(
        self, begin_c: FloatArray, a: FloatArray, b: FloatArray
    ) -> tuple[Passed, IntArray]:
        """What a store passes from one moment of a cycle to another, by the cycle's tables.

        They know where each phase begins, as exactly as the cycle's powers do.

        Parameters
        ----------
        begin_c, a, b : ndarray
            Where the cycle begins [C], and from when to when in it, shape (n,). [s]

        Returns
        -------
        tuple
            What is passed of phases; and where a pulse of many phases is passed whole, which is
            left out of that (see `pulse_extent`).
        """
        ends, last = self._ends_s, len(self.phases) - 1
        begins = np.concatenate([[0.0], ends[:-1]])
        first = np.minimum(np.searchsorted(ends - GRAIN_S, a, side="right"), last)
        final = np.maximum(
            np.searchsorted(begins + GRAIN_S, b, side="left"),
            np.where(a <= b, np.searchsorted(begins, a, side="right"), 0),
        ) - 1
        # Behind a pulse that is passed whole only the rest of the cycle is left to look at.
        whole = np.zeros(len(a), bool)
        if last > SEVERAL and self.cycle.key.part is None:
            whole = (a <= GRAIN_S) & (b >= ends[-2] - GRAIN_S)
            first = np.where(whole, last, first)
        count = np.maximum(final, first) - first + 1
        place = np.repeat(np.arange(len(a)), count)
        phase = np.arange(len(place)) + np.repeat(first - np.cumsum(count) + count, count)
        at = self._phase_begins(begin_c[place], phase)
        from_s, row = begins[phase], self._rows[phase]
        time = np.concatenate([a[place] - from_s, b[place] - from_s])
        length = self._lengths_s[phase]
        time = np.minimum(np.maximum(time, 0.0), np.concatenate([length, length]))
        passed = Passed(
            np.concatenate([row, row]), np.concatenate([place, place]), np.concatenate([at, at]),
            time,
        )
        return passed, whole.nonzero()[0]

    def placed(
        self, begin_c: FloatArray, seconds: FloatArray
    ) -> tuple[IntArray, FloatArray, FloatArray]:
        """Row that holds at moments of a cycle, where its phase begins, and the time since then.

        By the cycle's tables, as `sketched`; arrays of shape (n,).
        """
        begins = self._ends_s - self._lengths_s
        phase = (self._ends_s - GRAIN_S).searchsorted(seconds, side="right")
        phase = np.minimum(phase, len(self.phases) - 1)
        since = np.minimum(np.maximum(seconds - begins[phase], 0.0), self._lengths_s[phase])
        return self._rows[phase], self._phase_begins(begin_c, phase), since

    def _phase_begins(self, begin_c: FloatArray, phase: IntArray) -> FloatArray:
        """Charges at which phases of cycles begin, by the cycles' tables. [C]"""
        used = np.bincount(phase, minlength=1).nonzero()[0]
        shifts = np.stack([self.cycle.stages[k] for k in used.tolist()]) - self.cycle.nodes
        return begin_c + _mixed(begin_c, self.cycle.nodes, shifts, used.searchsorted(phase))

    def pulse_extent(self, begin_c: FloatArray) -> Extent:
        """How far the store goes within pulses, without the rest of their cycles. [C]"""
        cycle = self.cycle
        lowest_c, highest_c, lowest_v = (
            np.interp(begin_c, cycle.nodes, values)
            for values in (cycle.pulse_lowest_c, cycle.pulse_highest_c, cycle.pulse_min_v)
        )
        return Extent(
            lowest_c=np.minimum(lowest_c, begin_c), highest_c=np.maximum(highest_c, begin_c),
            lowest_v=np.maximum(lowest_v, 0.0), end_c=np.asarray(lowest_c),
        )

    def between(
        self, begin_c: FloatArray, a: FloatArray, b: FloatArray
    ) -> Iterator[Passed]:
        """What a store passes from one moment of a cycle to another, phase by phase.

        Parameters
        ----------
        begin_c, a, b : ndarray
            Where the cycle begins [C], and from when to when in it [s].
        """
        q, begin_s = begin_c, 0.0
        for i, (mode, length) in enumerate(self.phases):
            end_s, last = begin_s + length, i == len(self.phases) - 1
            seen = (a < end_s - GRAIN_S) | last
            seen &= (b > begin_s + GRAIN_S) | ((a <= b) & (a >= begin_s))
            some = seen.nonzero()[0]
            if some.size:
                at = q[some]
                time = np.concatenate([a[some], b[some]]) - begin_s
                time = np.minimum(np.maximum(time, 0.0), length)
                row = np.full(len(time), mode)
                yield Passed(row, np.concatenate([some, some]), np.concatenate([at, at]), time)
            if not last:
                q = self.modes.flow(mode).advance_all(q, length)
            begin_s = end_s

    def whole_extent(self, begin_c: FloatArray) -> Extent:
        """How far the store goes within whole cycles. [C]"""
        nodes, cycle = self.cycle.nodes, self.cycle
        lowest_c, highest_c, lowest_v = (
            np.interp(begin_c, nodes, values)
            for values in (cycle.lowest_c, cycle.highest_c, cycle.terminal_min_v)
        )
        return Extent(
            lowest_c=np.minimum(lowest_c, begin_c),
            highest_c=np.maximum(highest_c, begin_c),
            lowest_v=np.maximum(lowest_v, 0.0),
            end_c=np.asarray(self.cycle.map(begin_c)),
        )


def settled(carried: FloatArray, net: FloatArray) -> FloatArray:
    """Charges or currents of shape (3, n) made to add up to their net, each by its own share."""
    sign = np.array([1.0, -1.0, -1.0])[:, None]
    missing = net - (sign * carried).sum(axis=0)
    size = np.abs(carried)
    total = size.sum(axis=0)
    share = size / np.where(total > 0.0, total, 1.0)
    return np.asarray(carried + sign * share * missing)


def _mixed(
    x: FloatArray, nodes: FloatArray, table: FloatArray, row: IntArray
) -> FloatArray:
    """Values at places, each in its own row of a table, linear between nodes."""
    cell = np.minimum(np.maximum(nodes.searchsorted(x, side="right") - 1, 0), len(nodes) - 2)
    share = (x - nodes[cell]) / (nodes[cell + 1] - nodes[cell])
    share = np.minimum(np.maximum(share, 0.0), 1.0)
    low = table[row, cell]
    return np.asarray(low + share * (table[row, cell + 1] - low))


def _looked_up(x: FloatArray, nodes: FloatArray, table: FloatArray) -> FloatArray:
    return np.stack([np.interp(x, nodes, row) for row in table])

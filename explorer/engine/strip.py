"""Legs in a row that can be asked at any moment: where the store is and what was carried.

A leg is plain (one motion, or two that mix), a number of composed cycles, or a turn that repeats.
The last two are unrolled: which cycle or turn a moment lies in, and what that one does.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from explorer.engine.course import Leg, give_way
from explorer.engine.leg_kinds import BLENDED, CYCLES, PLAIN, TURNS, Book, kinds_of
from explorer.engine.modes import Blend
from explorer.engine.orbits import Orbits, grain, settled
from explorer.engine.passage import LOAD, walk_blends
from explorer.engine.turns import Turns, raised
from explorer.physics.arrays import BoolArray, FloatArray, IntArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Moments:
    """A store at moments; arrays of shape (n,)."""

    charge_c: FloatArray
    row: Blend
    """What it follows there."""
    connected: BoolArray


class Strip:
    """Courses of legs, one laid after another; a run is one course, and so is a turn that repeats.

    Parameters
    ----------
    book : Book
        Tables of the engine that made them.
    courses : sequence of tuple
        Legs in order of time, and the charge before the first one and before what it may lose at
        once. [C]
    """

    def __init__(self, book: Book, courses: Sequence[tuple[Sequence[Leg], float]]) -> None:
        give_way()  # of a device that fails a million times each of these takes a second
        self._book, self.modes = book, book.modes
        legs = [leg for course, _ in courses for leg in course]
        columns = list(zip(*legs, strict=True)) or [()] * len(Leg._fields)
        begin, end, self.begin_c, self.end_c = (np.array(c, float) for c in columns[:4])
        sizes = [len(course) for course, _ in courses]
        self.first = np.concatenate([[0], np.cumsum(sizes)])
        """First leg of each course, and the number of all."""
        opens, last = self.first[:-1], self.first[1:] - 1
        self.course_s = end[last] - begin[opens]
        """Length of each course. [s]"""
        self.offset_s = np.concatenate([[0.0], np.cumsum(self.course_s)[:-1]])
        """When each begins on the common line of time. [s]"""
        moved = np.repeat(self.offset_s - begin[opens], sizes)
        self.begin_s, self.end_s = begin + moved, end + moved
        self.opening_c = np.array([charge for _, charge in courses], float)
        self.closing_c = self.end_c[last]
        before = np.concatenate([[0.0], self.end_c[:-1]])
        before[opens] = self.opening_c
        self._inrush_c = before - self.begin_c
        self.connected = np.array(columns[6], bool)
        kinds = kinds_of(book, legs, columns, end - begin)
        self.kind, low_row, high_row = kinds.kind, kinds.low_row, kinds.high_row
        self.orbits, self._repeated = kinds.orbits, kinds.repeated
        self._which, self.times, self.smooth = kinds.which, kinds.times, kinds.smooth
        self.inner = (
            Strip(book, [(r.legs, r.opening_c) for r in self._repeated]) if self._repeated else None
        )
        """The turns that legs repeat, one course each."""
        weight = np.array([level.weight for level in columns[4]])
        self.row = Blend(low_row, high_row, np.where(self.kind == BLENDED, weight, 0.0))
        self._turns: Turns | None = None
        self._farthest: tuple[Strip, FloatArray] | None = None
        self._until: FloatArray | None = None

    @property
    def turns(self) -> Turns:
        """What every leg repeats; legs that repeat nothing count as one turn of their own."""
        if self._turns is None:
            self._turns = self._all_turns()
        return self._turns

    def _all_turns(self) -> Turns:
        span_s, k = self.end_s - self.begin_s, self._which
        own = (span_s, self.begin_c, self.end_c, np.ones(len(k)))
        kept = own
        if self.inner is not None:
            k = np.minimum(k, len(self.inner.course_s) - 1)
            kept = (
                self.inner.course_s[k], self.inner.opening_c[k], self.inner.closing_c[k], self.times
            )
        repeats = self.kind == TURNS
        turn_s, opening_c, closing_c, times = (
            np.where(repeats, a, b) for a, b in zip(kept, own, strict=True)
        )
        return Turns(
            turn_s=turn_s, opening_c=opening_c, closing_c=closing_c, times=times, span_s=span_s,
            begin_c=self.begin_c, end_c=self.end_c,
        )

    def _lifted(self) -> tuple[Strip, FloatArray]:
        """The turns that legs repeat as far above the kept ones as they come, and how far. [C]"""
        if self._farthest is None:
            some = (self.kind == TURNS).nonzero()[0]
            turns = self.turns.part(some)
            shift = turns.shift(turns.times - 1.0, turns.turn_s)
            far = np.zeros(len(self._repeated))
            for k, c in zip(self._which[some].tolist(), shift.tolist(), strict=True):
                far[k] = c if abs(c) > abs(far[k]) else far[k]
            inrush_c = self.modes.engine.inrush_c
            lifted = [
                (raised(turn.legs, turn.opening_c, c, inrush_c), turn.opening_c + c)
                for turn, c in zip(self._repeated, far.tolist(), strict=True)
            ]
            self._farthest = Strip(self._book, lifted), far
        return self._farthest

    # ---- which leg -----------------------------------------------------------------------

    def late(
        self, time_s: FloatArray, course: IntArray | int = 0
    ) -> tuple[IntArray, FloatArray]:
        """Leg that begins last before or at each moment, and the time since then. [s]"""
        at = np.searchsorted(self.begin_s, time_s + grain(time_s), side="right") - 1
        return self._since(at, time_s, course)

    def early(
        self, time_s: FloatArray, course: IntArray | int = 0
    ) -> tuple[IntArray, FloatArray]:
        """Leg that begins last before each moment, and the time since then. [s]"""
        at = np.searchsorted(self.begin_s, time_s - grain(time_s), side="left") - 1
        return self._since(at, time_s, course)

    def _since(
        self, leg: IntArray, time_s: FloatArray, course: IntArray | int
    ) -> tuple[IntArray, FloatArray]:
        leg = np.minimum(np.maximum(leg, self.first[course]), self.first[course + 1] - 1)
        length = self.end_s[leg] - self.begin_s[leg]
        return leg, np.minimum(np.maximum(time_s - self.begin_s[leg], 0.0), length)

    # ---- at moments ----------------------------------------------------------------------

    def at(
        self, time_s: FloatArray, course: IntArray | int = 0, *,
        late: bool = True, before: bool = False,
    ) -> Moments:
        """The store at moments of the common line of time.

        Parameters
        ----------
        time_s : ndarray
            Shape (n,). [s]
        course : ndarray or int
            Course of each moment.
        late : bool
            Whether a moment between two motions belongs to the later one.
        before : bool
            The charge before what is lost at once at this very moment.
        """
        leg, since = self.late(time_s, course) if late else self.early(time_s, course)
        found = self._in_legs(leg, since, late, before)
        if before:
            found.charge_c[:] += np.where(since <= grain(time_s), self._inrush_c[leg], 0.0)
        return found

    def _in_legs(
        self, leg: IntArray, since: FloatArray, late: bool, before: bool = False
    ) -> Moments:
        kind, row = self.kind[leg], self.row.part(leg)
        q = np.empty(len(leg))
        connected = self.connected[leg]
        plain = kind == PLAIN
        q[plain] = self.along_plain(leg[plain], since[plain])
        mixed = kind == BLENDED
        if mixed.any():
            q[mixed] = self.along_blends(leg[mixed], since[mixed])
        low, high = row.low.copy(), row.high.copy()
        for orbits, some in self.cycling(leg):
            at, time = leg[some], since[some]
            count, into = self.cycle_of(orbits, at, time, late)
            begin_c = orbits.begins(self.begin_c[at], count, self.smooth[at])
            q[some], low[some] = orbits.within(begin_c, into, late)
            high[some] = low[some]
        weight = row.weight.copy()
        some = (kind == TURNS).nonzero()[0]
        if some.size and self.inner is not None:
            at, turn = leg[some], self._which[leg[some]]
            turns = self.turns.part(at)
            count, into = turns.split(since[some], late)
            inner = self.inner.at(self.inner.offset_s[turn] + into, turn, late=late, before=before)
            q[some] = inner.charge_c + turns.shift(count, into)
            low[some], high[some] = inner.row.low, inner.row.high
            weight[some] = inner.row.weight
            connected[some] = inner.connected
        return Moments(charge_c=q, row=Blend(low, high, weight), connected=connected)

    def sketched(self, time_s: FloatArray, course: IntArray | int = 0) -> FloatArray:
        """Charges at moments, those within cycles by the cycles' tables; shape (n,). [C]"""
        leg, since = self.late(time_s, course)
        kind, row = self.kind[leg], self.row.low[leg].copy()
        ended = since >= self.end_s[leg] - self.begin_s[leg]
        q = np.where(ended, self.end_c[leg], self.begin_c[leg])
        left = np.where(ended, 0.0, since)
        mixed = kind == BLENDED
        if mixed.any():
            q[mixed], left[mixed] = self.along_blends(leg[mixed], since[mixed]), 0.0
        for orbits, some in self.cycling(leg):
            at = leg[some]
            count, into = self.cycle_of(orbits, at, since[some], late=True)
            begin_c = orbits.begins(self.begin_c[at], count, self.smooth[at])
            row[some], q[some], left[some] = orbits.placed(begin_c, into)
        turning = (kind == TURNS).nonzero()[0]
        if turning.size and self.inner is not None:
            at, turn = leg[turning], self._which[leg[turning]]
            turns = self.turns.part(at)
            count, into = turns.split(since[turning], late=True)
            inner = self.inner.sketched(self.inner.offset_s[turn] + into, turn)
            q[turning], left[turning] = inner + turns.shift(count, into), 0.0
        moves = (left > 0.0).nonzero()[0]
        q[moves] = self.modes.along(row[moves], q[moves], left[moves])
        return q

    def along_plain(self, leg: IntArray, since: FloatArray) -> FloatArray:
        """Charges along plain legs. [C]"""
        begin, length = self.begin_c[leg], self.end_s[leg] - self.begin_s[leg]
        q: FloatArray = np.where(since >= length, self.end_c[leg], begin)
        inside = ((since > 0.0) & (since < length)).nonzero()[0]
        q[inside] = self.modes.along(self.row.low[leg[inside]], begin[inside], since[inside])
        return q

    def along_blends(self, leg: IntArray, since: FloatArray) -> FloatArray:
        """Charges along legs whose motion is a mixture. [C]"""
        length = self.end_s[leg] - self.begin_s[leg]
        q: FloatArray = np.where(since >= length, self.end_c[leg], self.begin_c[leg])
        inside = ((since > 0.0) & (since < length)).nonzero()[0]
        if inside.size:
            q[inside] = self._blended(leg[inside], since[inside])[0]
        return q

    def _blended(
        self, leg: IntArray, since: FloatArray, *, carried: bool = False
    ) -> tuple[FloatArray, FloatArray]:
        """Charges at the end of blended motions, and those carried where they are asked for."""
        modes, row = self.modes, self.row.part(leg)
        return walk_blends(
            modes.nodes, modes.speeds, modes.currents if carried else None,
            (row.low, row.high, row.weight), self.begin_c[leg], since,
        )

    def cycle_of(
        self, orbits: Orbits, leg: IntArray, since: FloatArray, late: bool
    ) -> tuple[IntArray, FloatArray]:
        """Cycle of each moment, and the time since that began. [s]"""
        length = orbits.cycle.length_s
        share = grain(self.begin_s[leg] + since) / length
        count = since / length
        count = np.floor(count + share) if late else np.ceil(count - share) - 1.0
        count = np.minimum(np.maximum(count, 0.0), np.maximum(self.times[leg] - 1.0, 0.0))
        into = np.minimum(np.maximum(since - count * length, 0.0), length)
        return count.astype(np.intp), into

    def which_cycles(self) -> list[IntArray]:
        """Legs that run through each of the cycles."""
        some = (self.kind == CYCLES).nonzero()[0]
        return [some[self._which[some] == k] for k in range(len(self.orbits))]

    def place(self, leg: IntArray) -> IntArray:
        """Place of each leg's cycle in `orbits`, or of its turn among the courses of `inner`."""
        return self._which[leg]

    @property
    def mean_c(self) -> FloatArray:
        """Mean charge over each course, straight along its legs. [C]"""
        length = self.end_s - self.begin_s
        total = np.add.reduceat(0.5 * (self.begin_c + self.end_c) * length, self.first[:-1])
        return np.asarray(total / np.maximum(self.course_s, 1e-300))

    def cycling(self, leg: IntArray) -> Iterator[tuple[Orbits, IntArray]]:
        """Cycles that some legs run through, and which of the legs."""
        some = (self.kind[leg] == CYCLES).nonzero()[0]
        for k, part in _groups(self._which[leg[some]]):
            yield self.orbits[k], some[part]

    # ---- charges carried -----------------------------------------------------------------

    def carried(self, time_s: FloatArray, course: IntArray | int = 0) -> FloatArray:
        """Charges carried from the beginning of a course to moments, shape (3, n). [C]

        What is lost at once at a moment comes after it; it counts as load.
        """
        leg, since = self.early(time_s, course)
        out = self._before()[:, leg] + self._carried_in(leg, since)
        out -= np.broadcast_to(self._opened()[:, course].reshape(3, -1), out.shape)
        begun = time_s - self.offset_s[course] > grain(time_s)
        return np.where(begun, out, 0.0)

    @property
    def totals(self) -> FloatArray:
        """Charges carried by each course, shape (3, k). [C]"""
        return np.diff(self._opened(), axis=1)

    def _opened(self) -> FloatArray:
        """Charges carried before each course begins, and by all; shape (3, k + 1). [C]"""
        out = self._before()[:, self.first].copy()
        out[LOAD, :-1] -= self._inrush_c[self.first[:-1]]
        return out

    def _before(self) -> FloatArray:
        """Charges carried before each leg, what it loses at once included; shape (3, n + 1)."""
        if self._until is None:
            n = len(self.begin_s)
            whole = self._carried_in(np.arange(n), self.end_s - self.begin_s)
            until = np.concatenate([np.zeros((3, 1)), np.cumsum(whole, axis=1)], axis=1)
            until[LOAD, :n] += np.cumsum(self._inrush_c)
            until[LOAD, n] += self._inrush_c.sum()
            self._until = until
        return self._until

    def _carried_in(self, leg: IntArray, since: FloatArray) -> FloatArray:
        """Charges carried since legs began, shape (3, n). [C]"""
        kind = self.kind[leg]
        out = np.zeros((3, len(leg)))
        plain = (kind == PLAIN).nonzero()[0]
        end_c = self.along_plain(leg[plain], since[plain])
        for row, some in _groups(self.row.low[leg[plain]]):
            at = plain[some]
            out[:, at] = self.modes.passage(row).carried(
                self.begin_c[leg[at]], end_c[some], since[at]
            )
        mixed = kind == BLENDED
        if mixed.any():
            out[:, mixed] = self._blended(leg[mixed], since[mixed], carried=True)[1]
        for orbits, some in self.cycling(leg):
            at, time = leg[some], since[some]
            count, into = self.cycle_of(orbits, at, time, late=False)
            ended = into >= orbits.cycle.length_s - grain(self.begin_s[at] + time)
            count, into = np.where(ended, count + 1, count), np.where(ended, 0.0, into)
            first, smooth = self.begin_c[at], self.smooth[at]
            out[:, some] = orbits.carried(first, count, smooth)
            part = (into > 0.0).nonzero()[0]
            begin_c = orbits.begins(first[part], count[part], smooth[part])
            out[:, some[part]] += orbits.within_carried(begin_c, into[part])
            # A leg ends where its march says: the last of its cycles may be one by the map alone.
            ends = count >= self.times[at]
            over, at = some[ends], at[ends]
            out[:, over] = settled(out[:, over], self.end_c[at] - self.begin_c[at])
        some = (kind == TURNS).nonzero()[0]
        if some.size and self.inner is not None:
            at, turn = leg[some], self._which[leg[some]]
            turns = self.turns.part(at)
            count, into = turns.split(since[some], late=False)
            time_s = self.inner.offset_s[turn] + into
            inside = self.inner.at(time_s, turn, late=False)
            moved = inside.charge_c + turns.shift(count, into) - self.begin_c[at]
            carried = turns.stretched(
                count, self.inner.totals[:, turn], self.inner.carried(time_s, turn)
            )
            if turns.drift():
                lifted, far = self._lifted()
                full = np.where(far[turn] == 0.0, np.inf, far[turn])
                middle = turns.shift(0.5 * (count - 1.0), 0.5 * turns.turn_s)
                whole = middle / full * (lifted.totals - self.inner.totals)[:, turn]
                more = lifted.carried(time_s, turn) - self.inner.carried(time_s, turn)
                more *= turns.shift(count, into) / full
                carried += turns.stretched(count, whole, more)
            out[:, some] = settled(carried, moved)
        return out


def _groups(values: IntArray) -> list[tuple[int, IntArray]]:
    """Each value with the places where it stands."""
    if not len(values):
        return []
    if (values == values[0]).all():
        return [(int(values[0]), np.arange(len(values)))]
    order = np.argsort(values, kind="stable")
    ordered = values[order]
    first = [0, *((ordered[1:] != ordered[:-1]).nonzero()[0] + 1).tolist(), len(values)]
    return [(int(ordered[a]), order[a:b]) for a, b in itertools.pairwise(first)]

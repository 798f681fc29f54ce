"""Of which kind each leg of a course is, and the rows of the tables that it follows.

A leg is plain (one motion, or two that mix), a number of composed cycles, or a turn that repeats.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from itertools import count as numbers
from typing import Any, TypeVar
from weakref import ref

import numpy as np

from explorer.engine.course import Leg, Repeats
from explorer.engine.cycles import Cycle
from explorer.engine.modes import Modes
from explorer.engine.orbits import Orbits
from explorer.physics.arrays import BoolArray, FloatArray, IntArray

PLAIN, BLENDED, CYCLES, TURNS = range(4)
WHOLE = 1e-6
"""Relative difference from a whole number of cycles that is rounding."""
_T = TypeVar("_T")


class Book:
    """What the legs of one engine share: rows and opened cycles."""

    def __init__(self, modes: Modes) -> None:
        self.modes = modes
        self._opened: dict[Cycle, Orbits] = {}

    def orbits(self, cycle: Cycle) -> Orbits:
        """A cycle, opened."""
        found = self._opened.get(cycle)
        if found is None:
            found = self._opened[cycle] = Orbits(self.modes, cycle)
        return found

    def rates(self, cycle: Cycle) -> FloatArray:
        """Mean currents of a cycle at its nodes, see `Orbits.rates`."""
        return self.orbits(cycle).rates()


@dataclass(frozen=True, slots=True, kw_only=True)
class LegKinds:
    """Kinds of the legs of a course; arrays of shape (n,)."""

    kind: IntArray
    low_row: IntArray
    high_row: IntArray
    which: IntArray
    """Which of the cycles, or of the turns that repeat, a leg runs through."""
    times: FloatArray
    """How often."""
    smooth: BoolArray
    """Whether its cycles follow each other so smoothly that they need not be walked."""
    orbits: list[Orbits]
    repeated: list[Repeats]


def kinds_of(
    book: Book, legs: Sequence[Leg], columns: Sequence[Sequence[Any]], length_s: FloatArray
) -> LegKinds:
    """Kind of every leg, and what it follows.

    Thousands of legs are of a few sorts, and what belongs to a sort is found once: by places in
    memory, which is quicker than by name, and the legs keep what stands there.

    Parameters
    ----------
    book : Book
        Tables of the engine that made the legs.
    legs, columns : sequence
        The legs, and the same field by field.
    length_s : ndarray
        How long each takes, shape (n,). [s]
    """
    count = len(legs)
    begin_c = np.array(columns[2], float)
    which, often, smooth = np.zeros(count, np.intp), np.zeros(count), np.zeros(count, bool)
    orbits, repeated = list[Orbits](), list[Repeats]()
    low, high, cycles, repeats = columns[7:11]
    exact = [level.exact for level in columns[4]]
    cycle = [0 if pair is None else id(pair[0]) for pair in cycles]
    known: dict[tuple[int, int, int, int, bool], int] = defaultdict(numbers().__next__)
    sort = np.array([
        known[one]
        for one in zip(map(id, low), map(id, high), cycle, map(id, repeats), exact, strict=True)
    ], np.intp)
    # In one go: there may be as many sorts as turns that repeat.
    ends = np.cumsum(np.bincount(sort))
    each = np.split(np.argsort(sort, kind="stable"), ends[:-1])[: len(known)]
    found, taken = list[tuple[int, int, int]](), list[tuple[IntArray, int]]()
    for some in each:
        leg = legs[some[0]]
        if leg.repeats is not None:
            which[some] = len(repeated)
            often[some] = leg.repeats.times
            repeated.append(leg.repeats)
            found.append((TURNS, 0, 0))
            continue
        if leg.cycles is not None and leg.level.exact and not leg.averages:
            times = length_s[some] / leg.cycles[0].length_s
            whole = np.rint(times)
            # Under a log cycles are taken in fractions.
            counts = (whole > 0.0) & (np.abs(times - whole) < WHOLE * whole)
            some = some[counts]
            if len(some):
                which[some] = _place(orbits, book.orbits(leg.cycles[0]))
                smooth[some] = leg.cycles[0].is_smooth(begin_c[some])
                often[some] = whole[counts]
                taken.append((some, book.modes.plain(leg.low)))
            if len(some) == len(counts):
                found.append((PLAIN, 0, 0))
                continue
        found.append(_plain_kind(book, leg))
    table = np.array(found, np.intp).reshape(-1, 3).T[:, sort]
    for some, row in taken:
        table[0, some], table[1:, some] = CYCLES, row
    return LegKinds(
        kind=table[0], low_row=table[1], high_row=table[2], which=which, times=often,
        smooth=smooth, orbits=orbits, repeated=repeated,
    )


def _plain_kind(book: Book, leg: Leg) -> tuple[int, int, int]:
    """Kind of a leg that is no whole number of cycles, and the rows that it follows."""
    modes = book.modes
    low = high = modes.plain(leg.low)
    if leg.cycles is None:
        if leg.high is not leg.low:
            high = modes.plain(leg.high)
    elif leg.averages:
        low = high = modes.pulsed(leg.low, leg.cycles[0])
    else:
        # Under a log cycles are taken in fractions: their pulses have no moments of their own.
        low, high = (
            modes.generated(motion, cycle, partial(_rates, ref(book), cycle))
            for motion, cycle in zip((leg.low, leg.high), leg.cycles, strict=True)
        )
    return (PLAIN if low == high else BLENDED), low, high


def _rates(of: ref[Book], cycle: Cycle) -> FloatArray:
    """What a book says of a cycle, which holds the rows that ask for it: no circle closes."""
    book = of()
    assert book is not None, "who asks holds it"
    return book.rates(cycle)


def _place(kept: list[_T], one: _T) -> int:
    """Place of a thing in a list that it is put on once."""
    for i in range(len(kept) - 1, -1, -1):
        if kept[i] is one:
            return i
    kept.append(one)
    return len(kept) - 1

"""Edges: the values of one quantity at which what is said of a design changes.

The batch engine finds where something changes, the exact march has the word on both sides of every
edge and closes in. Knob, remedy, map, guide, sheet and answers show what comes out here.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from math import inf, log

import numpy as np

from explorer.advice.asked import judged_at, seen_at
from explorer.advice.case import Case
from explorer.advice.closing_in import closed_in, passes
from explorer.advice.criteria import BALANCE, DARK, Criterion
from explorer.advice.fleet import balances
from explorer.advice.stops import Series, in_range, series_of
from explorer.engine.course import Interrupted
from explorer.physics.arrays import BoolArray, FloatArray
from explorer.scenario.model import get_value

Stopped = Callable[[], bool]

MOST_LOOKED = 12
"""Values that are judged exactly only because the batch engine is not sure of them."""
MOST_STRIDES = 6
"""Steps in which an edge above a value that fails is looked for."""
STRIDES = (1, 4, 16)
"""Values that are passed over on the way from where the batch engine sees an edge."""
SEEN = 24
"""Values at which the batch engine is asked at once where it looks for an edge."""
FEW_OF_YEAR = 7
"""Values of a quantity between which a change of the verdict on a year is looked for."""
FAR = 8.0
"""Times a limit, or a share of it, beyond which a level is far from it."""
CLOSURE = "margins.closure_days"


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """A change between two neighbours in the values in which a quantity is had."""

    value: float
    """The last value that is as asked: the edge, rounded towards the side that holds."""
    beyond: float
    """Its neighbour, which is not."""

    @property
    def holds_above(self) -> bool:
        """Whether what is asked holds for larger values."""
        return self.value > self.beyond


@dataclass(frozen=True, slots=True, kw_only=True)
class Edges:
    """Where along a quantity a design is as asked."""

    path: str
    low: float
    high: float
    """The range that was looked at."""
    edges: tuple[Edge, ...]
    """Rising."""
    at_low: bool
    """Whether the lowest value of the range is as asked."""
    at_high: bool

    @property
    def none(self) -> bool:
        """Whether no value of the range is as asked."""
        return not self.edges and not self.at_low

    @property
    def stretches(self) -> tuple[tuple[float | None, float | None], ...]:
        """Stretches that are as asked, by their first and last value; None at the range's end."""
        ups: list[float | None] = [e.value for e in self.edges if e.holds_above]
        downs: list[float | None] = [e.value for e in self.edges if not e.holds_above]
        if self.at_low:
            ups.insert(0, None)
        if self.at_high:
            downs.append(None)
        return tuple(zip(ups, downs, strict=True))

    def holds(self, value: float) -> bool:
        """Whether a value of the range is as asked."""
        return any(
            (low is None or value >= low) and (high is None or value <= high)
            for low, high in self.stretches
        )

    def nearest(self, now: float) -> float | None:
        """The edge's value nearest to another by ratio; None where there is no edge."""
        if not self.edges:
            return None
        far = [abs(log(max(e.value, 1e-30) / max(now, 1e-30))) for e in self.edges]
        return self.edges[int(np.argmin(far))].value


@dataclass(slots=True, eq=False)
class Scan:
    """One quantity of a case at rising values: what is known of each, and how surely."""

    case: Case
    path: str
    criterion: Criterion
    values: FloatArray
    series: Series
    holds: BoolArray
    level: FloatArray
    sure: BoolArray
    stopped: Stopped = lambda: False
    probes: bool = True
    """Whether what was not judged exactly must be put to the test."""
    exact: BoolArray = field(init=False)
    """Which values the exact march has judged."""

    def __post_init__(self) -> None:
        self.exact = np.zeros(len(self.values), bool)

    def look(self, i: int) -> None:
        """Judge one of the values exactly."""
        if not self.exact[i]:
            self.holds[i], self.level[i] = self._judged(float(self.values[i]))
            self.exact[i] = True

    def _judged(self, value: float) -> tuple[bool, float]:
        if self.stopped():
            raise Interrupted
        return judged_at(self.case, self.path, value, self.criterion)

    def confirm(self, first: int = 0, last: int | None = None) -> None:
        """Judge exactly on both sides of every change, until the two engines agree there."""
        last = len(self.values) - 1 if last is None else last
        while True:
            changes = first + np.flatnonzero(np.diff(self.holds[first : last + 1]))
            beside = [j for i in changes.tolist() for j in (i, i + 1) if not self.exact[j]]
            if not beside:
                return
            for j in beside:
                self.look(j)

    def doubt(self, most: int = MOST_LOOKED) -> None:
        """Judge exactly where the batch engine is not sure, nearest to the limit first.

        What lies far from it is left to the march only where `probe` finds the batch wrong: a
        store of microfarads takes seconds.
        """
        open_ = np.flatnonzero(~self.sure & ~self.exact)
        far = np.abs(np.log(np.clip(self.level[open_], 1e-6, 1e6)))
        for i in open_[np.argsort(far, kind="stable")][:most].tolist():
            if 1.0 / FAR < self.level[i] < FAR:
                self.look(i)

    def probe(self) -> bool:
        """Judge exactly the middle of every stretch of one verdict.

        False where the batch engine was wrong there although it was sure.
        """
        before = self.holds.copy()
        parts = np.split(np.arange(len(before)), np.flatnonzero(np.diff(before)) + 1)
        for part in parts:
            self.look(int(part[len(part) // 2]))
        return bool(np.array_equal(before, self.holds))

    def edge(self, i: int) -> Edge:
        """Close in on the change between values i and i + 1, both judged exactly."""
        good, bad = (i, i + 1) if self.holds[i] else (i + 1, i)
        holds = (float(self.values[good]), float(self.level[good]))
        fails = (float(self.values[bad]), float(self.level[bad]))
        return _edge(closed_in(self._judged, self.series, holds, fails))

    def edges(self) -> Edges:
        """Every change, closed in on."""
        self.confirm()
        self.doubt()
        self.confirm()
        if self.probes and not self.probe():
            # Of a design that the batch engine does not know it is asked at every value.
            for i in range(len(self.values)):
                self.look(i)
        changes = np.flatnonzero(np.diff(self.holds)).tolist()
        return Edges(
            path=self.path, low=float(self.values[0]), high=float(self.values[-1]),
            edges=tuple(self.edge(i) for i in changes),
            at_low=bool(self.holds[0]), at_high=bool(self.holds[-1]),
        )


def _edge(sides: tuple[float, float]) -> Edge:
    return Edge(value=sides[0], beyond=sides[1])


def edge_above(
    case: Case, path: str, criterion: Criterion, value: float, series: Series, most: float,
    stopped: Stopped = lambda: False,
) -> Edge | None:
    """The edge above a value that fails: where the batch engine sees it, else in strides.

    The strides go by how far a value fails.

    Parameters
    ----------
    case, path, criterion, series, stopped
        As of `find_edges`.
    value : float
        A value at which the design is not as asked.
    most : float
        The largest value that is tried.

    Returns
    -------
    Edge or None
        None where it is not found in a few strides.
    """

    def judged(at: float) -> tuple[bool, float]:
        if stopped():
            raise Interrupted
        held, level = judged_at(case, path, at, criterion)
        # Of several checks another one speaks where it holds: between the two nothing is straight.
        return held, inf if held else level

    before, fails = None, (value, judged(value)[1])
    places = np.append(series.between(value, most), most)
    seen = _seen_among(case, path, criterion, places)
    if seen is not None:
        sides = _around(judged, places, seen, fails)
        if sides is not None:
            return _edge(closed_in(judged, series, *sides))
    for _ in range(MOST_STRIDES):
        ahead = series.values[(series.values > fails[0] * (1 + 1e-9)) & (series.values <= most)]
        if not len(ahead):
            return None
        wanted = passes(before, fails)
        at = float(ahead[min(int(np.searchsorted(ahead, wanted)), len(ahead) - 1)])
        held, level = judged(at)
        if held:
            return _edge(closed_in(judged, series, (at, level), fails))
        before, fails = fails, (at, level)
    return None


def _seen_among(
    case: Case, path: str, criterion: Criterion, values: FloatArray
) -> int | None:
    """Index of the first of rising values that the batch engine sees hold after one that fails.

    None where it sees no such place, and of a year, of which it knows too little.
    """
    low, high = 0, len(values) - 1
    while case.year is None:
        some = np.unique(np.linspace(low, high, min(SEEN, high - low + 1)).astype(int))
        holds = criterion.seen(seen_at(case, path, values[some]))[0]
        first = int(np.argmax(holds))
        if not holds[first] or first == 0:
            return None
        low, high = int(some[first - 1]), int(some[first])
        if high - low == 1:
            return high
    return None


def _around(
    judged: Callable[[float], tuple[bool, float]], values: FloatArray, seen: int,
    fails: tuple[float, float],
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """A value that holds and one that does not, found in growing strides from where one is seen.

    Parameters
    ----------
    judged : callable
        Whether a value holds, and its level.
    values : ndarray
        Rising values.
    seen : int
        Which of them is thought to be the first that holds.
    fails : tuple of float
        A value below them that does not hold, with its level.

    Returns
    -------
    tuple or None
        Both with their levels; None where none was found that holds.
    """

    def look(i: int) -> tuple[bool, tuple[float, float]]:
        value = float(values[i])
        held, level = judged(value)
        return held, (value, level)

    found, here = look(seen)
    for stride in STRIDES:
        seen += -stride if found else STRIDES[1] * stride
        if not 0 <= seen < len(values):
            break
        held, there = look(seen)
        if held != found:
            return (here, there) if found else (there, here)
        here = there
    return (here, fails) if found else None


def scan(
    case: Case, path: str, criterion: Criterion, values: Sequence[float] | FloatArray,
    series: Series | None = None, stopped: Stopped = lambda: False,
) -> Scan:
    """What the batch engine knows of a quantity; values beyond the field's range are left out."""
    inside = in_range(case.scenario, path, np.asarray(values, float))
    if case.year is not None:
        return _scan_of_year(case, path, criterion, inside, series or series_of(path), stopped)
    series, near = series or series_of(path), _near(case, path, criterion, inside)
    if near is not None:
        return Scan(
            case, path, criterion, inside, series, near >= 1.0, near,
            np.ones(len(inside), bool), stopped, probes=False,
        )
    holds, level, sure = criterion.seen(seen_at(case, path, inside))
    return Scan(case, path, criterion, inside, series, holds, level, sure, stopped)


def _scan_of_year(
    case: Case, path: str, criterion: Criterion, values: FloatArray, series: Series,
    stopped: Stopped,
) -> Scan:
    """Some of the values and the present one, each judged exactly.

    The batch engine knows too little of a year to say where nothing needs to be looked at.
    """
    some = np.linspace(0, len(values) - 1, min(FEW_OF_YEAR, len(values))).round().astype(int)
    now = get_value(case.scenario, path)
    now = case.mean_lit_lx if now is None else float(np.asarray(now))
    few = np.union1d(values[some], in_range(case.scenario, path, np.array([now])))
    blank = np.zeros(len(few), bool)
    found = Scan(
        case, path, criterion, few, series, blank.copy(), np.zeros(len(few)), ~blank, stopped,
        probes=False,
    )
    for i in range(len(few)):
        found.look(i)
    return found


def _near(
    case: Case, path: str, criterion: Criterion, values: FloatArray
) -> FloatArray | None:
    """How near designs are to what is asked, by rules that the exact engine has too; else None."""
    if criterion == BALANCE:
        return balances(case, {path: values})
    if criterion == DARK and path == CLOSURE:
        return _falling(lambda v: judged_at(case, path, v, criterion)[1], values)
    return None


def _falling(level: Callable[[float], float], values: FloatArray) -> FloatArray:
    """Levels that fall along rising values, worked out beside the place where they pass 1."""
    out = np.empty(len(values))
    low, high = -1, len(values)
    while high - low > 1:
        middle = (low + high) // 2
        found = level(float(values[middle]))
        if found >= 1.0:
            out[low + 1 : middle + 1], low = found, middle
        else:
            out[middle:high], high = found, middle
    return out


def find_edges(
    case: Case, path: str, criterion: Criterion, values: Sequence[float] | FloatArray,
    series: Series | None = None, stopped: Stopped = lambda: False,
) -> Edges:
    """Where along a quantity a design is as asked, every edge confirmed by the exact march.

    Parameters
    ----------
    case : Case
        The design; everything but the quantity stays as it is.
    path : str
        The quantity.
    criterion : Criterion
        What is asked of the design.
    values : sequence of float
        Rising values between which the batch engine looks for a change.
    series : Series, optional
        The values that an edge may take; those in which the quantity is had when left out.
    stopped : callable
        Asked before every march.

    Raises
    ------
    Interrupted
        `stopped` said so.
    """
    key = ("edges", path, criterion, tuple(float(v) for v in values), series)
    return case.once(
        key, lambda: scan(case, path, criterion, values, series, stopped).edges()
    )

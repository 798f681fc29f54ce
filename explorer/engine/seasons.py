"""A year whose months each have a system of their own, marched one after another.

Light, panel, charger and store differ from month to month; the device and its clock are the same.
What is handed from one month to the next is where the store stands, by its voltage, as the same
voltage is the same state of charge in the cold and in the heat; and what the device is about.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from math import inf

import numpy as np

from explorer.engine.course import Event, Standing, StopAt, Tally, Trajectory
from explorer.engine.march import Engine
from explorer.engine.steady import STUDY_LEGS

TOLERANCE = 5e-5
"""How near to where a month began a year before one must begin to go on as it did, relative to a
full store."""
MOST_YEARS = 6
"""Years for which a store is followed until it has settled."""
MOST_CUT_OFFS = 1000
"""Cut-offs in a month after which the light of each quarter of an hour is no matter any more."""
GRAIN_S = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A march within one month."""

    month: int
    """Which of the year's months, from 0."""
    begin_s: float
    """Since the march of which it is a part began. [s]"""
    into_s: float
    """Since the month began. [s]"""
    start: Standing
    run: Trajectory
    engine: Engine
    """What it was marched with."""

    @property
    def end_s(self) -> float:
        """Since the march of which it is a part began. [s]"""
        return self.begin_s + self.run.span_s


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """A march through several months."""

    parts: tuple[Part, ...]
    end: Standing
    """In the system of the last part's month."""

    @property
    def span_s(self) -> float:
        """How far it came. [s]"""
        return sum(part.run.span_s for part in self.parts)

    @property
    def first_operation_s(self) -> float:
        """When the first start-up was completed; infinite where none was. [s]"""
        done = (p.begin_s + p.run.first_operation_s for p in self.parts)
        return min(done, default=inf)

    @property
    def tally(self) -> Tally:
        """What was counted in all parts."""
        total = Tally(served=[0.0] * len(self.parts[0].run.tally.served))
        for part in self.parts:
            total.add(part.run.tally)
        return total

    def events(self, most: int) -> list[tuple[Part, Event]]:
        """The first events, their times since the march began."""
        found: list[tuple[Part, Event]] = []
        for part in self.parts:
            for event in part.run.events[: most - len(found)]:
                found.append((part, event._replace(time_s=part.begin_s + event.time_s)))
        return found


class Seasons:
    """The months of a year, each with an engine of its own.

    Parameters
    ----------
    engines : sequence of Engine
        One for each month, in their order; the light of each lasts as long as its month.
    plainer : callable, optional
        Gives the engine of a month in a plainer light, for months in which a device is cut off
        more than `MOST_CUT_OFFS` times.
    in_vain : set of int
        Months in which every try of a start-up fails: the plainer light is good enough for a
        device that is off as such a month begins, and may try a million times.
    """

    def __init__(
        self, engines: Sequence[Engine], plainer: Callable[[int], Engine] | None = None,
        in_vain: AbstractSet[int] = frozenset(),
    ) -> None:
        self.engines = tuple(engines)
        self._plainer, self._in_vain = plainer, in_vain
        self._tried: dict[int, tuple[Standing, Trajectory]] = {}
        """Whole months of tries that fail, as they were marched last, and how they began."""
        lengths = [engine.edges[-1] for engine in self.engines]
        self.edges_s = np.concatenate([[0.0], np.cumsum(lengths)]).tolist()
        """Where the months begin, and where the year ends. [s]"""

    @property
    def year_s(self) -> float:
        """Length of the year. [s]"""
        return float(self.edges_s[-1])

    @property
    def all_in_vain(self) -> bool:
        """Whether the device never gets past its start-up."""
        return len(self._in_vain) == len(self.engines)

    def month_at(self, time_s: float) -> int:
        """The month in which a moment of the year lies."""
        place = bisect_right(self.edges_s, time_s % self.year_s + GRAIN_S) - 1
        return min(place, len(self.engines) - 1)

    def full_c(self, month: int) -> float:
        """Charge of a full store in a month. [C]"""
        field = self.engines[month].field
        return min(field.full_c, float(field.charge_c[-1]))

    def handed_on(self, standing: Standing, month: int, to: int) -> Standing:
        """Where a store that stands somewhere in one month stands in another: at its voltage."""
        one, other = self.engines[month].field, self.engines[to].field
        if one is other or one.grid == other.grid:
            return standing
        volts = float(one.voltage_at(standing.charge_c))
        return replace(standing, charge_c=float(other.charge_at(volts)))

    def within(
        self, month: int, span_s: float, start: Standing, *, into_s: float = 0.0,
        stop_at: StopAt | None = None, started: bool = True,
    ) -> tuple[Trajectory, Engine]:
        """A march within one month, and what it was marched with.

        Parameters
        ----------
        month : int
            The month.
        span_s, into_s : float
            Length of the run, and time of the month at which it begins. [s]
        start : Standing
            Where it begins.
        stop_at : StopAt, optional
            End as soon as this happens.
        started : bool
            Whether the device has got past its start-up before: until it has, the light of each
            quarter of an hour counts.
        """
        def run(engine: Engine, most: float) -> Trajectory:
            return engine.march(
                span_s, start, begin_s=into_s, stop_at=stop_at, most_legs=STUDY_LEGS,
                most_cut_offs=most,
            )

        engine = self.engines[month]
        if self._plainer is None:
            return run(engine, inf), engine
        if month in self._in_vain and not start.connected:
            engine = self._plainer(month)
            whole = stop_at is None and into_s <= 0.0 and span_s >= _length(self, month) - GRAIN_S
            before = self._tried.get(month) if whole else None
            if before is not None and _goes_on(self, month, before[0], start, late=False):
                return before[1], engine
            found = run(engine, inf)
            if whole:
                self._tried[month] = start, found
            return found, engine
        found = run(engine, MOST_CUT_OFFS if started else inf)
        if started and found.tally.cut_offs > MOST_CUT_OFFS:
            engine = self._plainer(month)
            found = run(engine, inf)
        return found, engine

    def march(
        self, span_s: float, start: Standing, *, begin_s: float = 0.0,
        stop_at: StopAt | None = None,
    ) -> Chain:
        """Run for a span of time, through as many months as that takes.

        Parameters
        ----------
        span_s : float
            Length of the run. [s]
        start : Standing
            Where it begins, in the system of the month in which it begins.
        begin_s : float
            Time of the year at which it begins. [s]
        stop_at : StopAt, optional
            End as soon as this happens.
        """
        parts: list[Part] = []
        passed, state, started = 0.0, start, start.connected
        month = self.month_at(begin_s)
        into = max(begin_s % self.year_s - self.edges_s[month], 0.0)
        while passed < span_s - GRAIN_S:
            wanted = min(_length(self, month) - into, span_s - passed)
            run, engine = self.within(
                month, wanted, state, into_s=into, stop_at=stop_at, started=started
            )
            started = started or run.first_operation_s < inf
            parts.append(
                Part(
                    month=month, begin_s=passed, into_s=into, start=state, run=run, engine=engine
                )
            )
            passed += run.span_s
            if run.span_s < wanted - GRAIN_S:
                return Chain(parts=tuple(parts), end=run.end)
            following = (month + 1) % len(self.engines)
            state = run.end
            if passed < span_s - GRAIN_S:
                state = self.handed_on(run.end, month, following)
                month, into = following, 0.0
        return Chain(parts=tuple(parts), end=state)


@dataclass(frozen=True, slots=True, kw_only=True)
class SettledYear:
    """What the store does in a year, month by month from the first."""

    months: tuple[Part, ...]
    """One march for each month; `begin_s` counts from the beginning of the year."""
    settled: bool
    """Whether the next year was seen to go the same way; else the last one stands for it."""
    years: int
    """Years that were followed."""


def settled_year(seasons: Seasons, opening: Chain) -> SettledYear:
    """The year that follows from a first one, followed until months begin as they did before.

    Parameters
    ----------
    seasons : Seasons
        The year.
    opening : Chain
        A year's march from any day on.

    Notes
    -----
    What a store does in a month follows from how it begins it: from the first month that begins as
    it did a year before, all go as they went. A large store that fills over years is stepped along
    the drift that it shows from one year to the next, as far as that shrinks evenly.
    """
    count = len(seasons.engines)
    found: dict[int, Part] = {}
    for part in opening.parts:
        # The first month of an opening may have begun before it.
        if part.into_s <= GRAIN_S and part.run.span_s >= _length(seasons, part.month) - GRAIN_S:
            found[part.month] = part
    last = opening.parts[-1]
    state, month = opening.end, last.month
    into = last.into_s + last.run.span_s
    if into >= _length(seasons, month) - GRAIN_S:
        state = seasons.handed_on(state, month, (month + 1) % count)
        month, into = (month + 1) % count, 0.0
    if into > GRAIN_S:
        rest = seasons.march(
            _length(seasons, month) - into, state, begin_s=seasons.edges_s[month] + into
        )
        state, month = seasons.handed_on(rest.end, month, (month + 1) % count), (month + 1) % count
    settled, marched, first, drifts = False, 0, month, list[float]()
    while marched < count * MOST_YEARS:
        before, following = found.get(month), (month + 1) % count
        late = marched >= count
        if before is not None and _goes_on(seasons, month, before.start, state, late=late):
            if len(found) == count:
                settled = True
                break
            # It goes as it went: the month in which the opening began is still to come.
            end = before.run.end
        else:
            if before is not None and month == first and state.connected == before.start.connected:
                drifts.append(state.charge_c - before.start.charge_c)
                state = _stepped(seasons, month, state, drifts)
            run, engine = seasons.within(month, _length(seasons, month), state)
            found[month] = Part(
                month=month, begin_s=seasons.edges_s[month], into_s=0.0, start=state, run=run,
                engine=engine,
            )
            end, marched = run.end, marched + 1
        state, month = seasons.handed_on(end, month, following), following
    return SettledYear(
        months=tuple(
            replace(found[m], begin_s=seasons.edges_s[m]) for m in range(count)
        ),
        settled=settled, years=1 + (marched + count - 1) // count,
    )


def _length(seasons: Seasons, month: int) -> float:
    return float(seasons.edges_s[month + 1] - seasons.edges_s[month])


def _goes_on(
    seasons: Seasons, month: int, before: Standing, now: Standing, *, late: bool
) -> bool:
    """Whether a month that begins so goes as it went; `late`, but for a run or a turn at full."""
    if before.connected != now.connected:
        return False
    engine, grain = seasons.engines[month], 0.0
    if late:
        # A clock that does not divide the year stands elsewhere in its interval a year later.
        field, load = engine.field, engine.system.load
        grain = max((engine.charge_of(op) for op in load.operations), default=0.0)
        if not (now.charging and before.charging):
            grain += field.full_c - field.resume_c
    moved = abs(now.charge_c - before.charge_c)
    return moved <= TOLERANCE * seasons.full_c(month) + grain


def _stepped(seasons: Seasons, month: int, state: Standing, drifts: list[float]) -> Standing:
    """Where a slow drift of a store ends that shrinks evenly from year to year."""
    if len(drifts) < 2 or drifts[-2] == 0.0:
        return state
    ratio = drifts[-1] / drifts[-2]
    if not 0.0 < ratio < 1.0:
        return state
    charge_c = state.charge_c + drifts[-1] * ratio / (1.0 - ratio)
    drifts.clear()
    return replace(state, charge_c=min(max(charge_c, 0.0), seasons.full_c(month)))

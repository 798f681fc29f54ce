"""Dark stretches: where they lie in the course, and how long the store lasts in them."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, isinf

import numpy as np

from explorer.advice.readings import FARTHEST, DarkReading
from explorer.advice.readings.starts import full_charge
from explorer.engine.course import Leg, Standing, StopAt, Trajectory
from explorer.engine.march import Engine
from explorer.engine.schedule import MOMENT_S
from explorer.engine.steady import STUDY_LEGS
from explorer.engine.system import DAY_S, WEEK_S, Periodic
from explorer.engine.trace import Trace
from explorer.physics.arrays import BoolArray, FloatArray

PARTS, ROUNDS = 64, 5
"""Parts of a span in which a voltage is looked for, and how often the right one is parted again."""
MOST_TRIED = 40
"""Dark stretches of a course that are followed where each may be the hardest."""
FOLLOWED_S = 40 * 365.25 * 86_400.0
"""How long a full store is followed in the dark. [s]"""
MOST_DARK_LEGS = STUDY_LEGS
"""Legs after which it is followed no further: only runs without a pause between them take so many.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A stretch in which the light brings nothing to the store."""

    begin_s: float
    """Time within the course. [s]"""
    length_s: float
    """Infinite where light never comes. [s]"""
    stretch: int
    """Number of the stretch of light with which it begins."""


def gaps(brings: BoolArray, edges_s: FloatArray) -> list[Gap]:
    """Dark stretches of light that repeats; where none of it brings anything they have no end.

    Parameters
    ----------
    brings : ndarray
        Whether each stretch of light brings anything to the store, shape (n,).
    edges_s : ndarray
        Edges of the stretches, shape (n + 1,). [s]
    """
    count = len(brings)
    if brings.all():
        return []
    if not brings.any():
        return [Gap(begin_s=0.0, length_s=inf, stretch=0)]
    span = np.diff(edges_s)
    first = int(np.flatnonzero(brings)[0])
    found: list[Gap] = []
    begin, length = -1, 0.0
    for i in range(first, first + count + 1):
        if not brings[i % count]:
            begin = i % count if begin < 0 else begin
            length += float(span[i % count])
        elif begin >= 0:
            found.append(Gap(begin_s=float(edges_s[begin]), length_s=length, stretch=begin))
            begin, length = -1, 0.0
    return found


class InTheDark:
    """How long a store lasts without light; what was followed once is not followed again.

    Parameters
    ----------
    engine : Engine
        The system.
    """

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
        self._followed: dict[tuple[float, float], tuple[float, float]] = {}
        """By charge and beginning: how long it was followed, and how long it lasts. [s]"""

    def lasts(self, charge: float, begin_s: float, most_s: float) -> float:
        """Time down to the cut-off or to the reserve, at most so much. [s]

        Parameters
        ----------
        charge : float
            What is in the store at the beginning. [C]
        begin_s : float
            Time within the light's course at which it begins: windows are kept. [s]
        most_s : float
            How long it is followed. [s]
        """
        followed_s, lasts_s = self._followed.get((charge, begin_s), (0.0, 0.0))
        if lasts_s >= followed_s and most_s > followed_s:
            # A reserve counts from the charge at which the device is cut off, which a pulse may
            # do long after the store is down to it: that is followed, however late.
            kept = self._engine.system.load.reserve_j > 0
            followed_s = max(most_s, FOLLOWED_S) if kept else most_s
            run = self._engine.dark().march(
                followed_s, Standing(charge_c=charge, connected=True), begin_s=begin_s,
                stop_at=StopAt.CUT_OFF, most_legs=MOST_DARK_LEGS,
            )
            lasts_s = min(_kept_until(self._engine, run, followed_s), followed_s)
            self._followed[charge, begin_s] = followed_s, lasts_s
        return min(lasts_s, most_s)


def worst_dark(
    course: Trace, found: list[Gap], closure_s: float, in_the_dark: InTheDark,
    below: float = inf,
) -> DarkReading:
    """The dark stretch of a course in which the store comes nearest to its cut-off.

    A closure begins like the stretch that begins with the least charge, or at the worst moment
    where there is no other dark. What is seen to last longer, for its length, than the worst one
    so far is followed no further.

    Parameters
    ----------
    course : Trace
        The repeating course, of one or several periods of the light.
    found : list of Gap
        Dark stretches of one period.
    closure_s : float
        Declared closure; 0 for none. [s]
    in_the_dark : InTheDark
        Of the same system.
    below : float
        Time that it lasts over its length from which on a stretch is of no interest.
    """
    engine, span_s = course.engine, course.span_s
    period = engine.edges[-1]
    many = [
        Gap(begin_s=g.begin_s + k * period, length_s=g.length_s, stretch=g.stretch)
        for k in range(max(round(span_s / period), 1))
        for g in sorted(found, key=lambda g: g.begin_s)
        if g.begin_s + k * period <= span_s
    ]
    # Where the device is off already nothing can be cut off; where it always is, it lasts for none.
    charge_c, connected = course.charge_at(np.array([g.begin_s for g in many]))
    levels = [(q, g) for q, on, g in zip(charge_c.tolist(), connected, many, strict=True) if on]
    if many and not levels:
        levels = [(0.0, g) for g in many]
    tried = [(q, g.begin_s, g.length_s, False) for q, g in _hardest(engine, levels)]
    if closure_s > 0:
        if levels:
            charge, gap = min(levels, key=lambda pair: pair[0])
            begin_s = gap.begin_s
        else:
            charge, begin_s = _lowest_connected(course.run), 0.0
        tried.append((charge, begin_s, closure_s, True))
    best: tuple[float, float, float, float, bool] | None = None
    most = min(FARTHEST, below)
    for charge, begin_s, needed_s, closure in tried:
        endless = isinf(needed_s)
        lasts_s = in_the_dark.lasts(charge, begin_s, FOLLOWED_S if endless else most * needed_s)
        if endless and lasts_s >= FOLLOWED_S:
            lasts_s = inf
        margin = lasts_s / needed_s if lasts_s < inf else inf
        most = min(most, margin)
        if best is None or margin < best[0] * (1.0 - 1e-12):
            volts = float(engine.field.voltage_at(charge))
            best = margin, needed_s, lasts_s, volts, closure
    if best is None:
        best = inf, 0.0, inf, 0.0, False
    return DarkReading(
        needed_s=np.array([best[1]]), lasts_s=np.array([best[2]]), begin_v=np.array([best[3]]),
        closure=np.array([best[4]]),
    )


def _hardest(
    engine: Engine, levels: list[tuple[float, Gap]]
) -> list[tuple[float, Gap]]:
    """Those stretches than which no other is both as long and begins with as little.

    Where operations keep windows, a shorter stretch may be the one in which they are open: those
    are compared that begin at one moment of the day, or of the week where days differ. Where one
    waits for a voltage, a store that holds enough for one more run may end lower after it.
    """
    system = engine.system
    schedules = [op.schedule for op in system.load.operations]
    if not all(isinstance(s, Periodic) for s in schedules):
        return sorted(levels, key=lambda pair: pair[0] / pair[1].length_s)[:MOST_TRIED]
    kept = {s.windows_s for s in schedules if isinstance(s, Periodic) and not s.always}
    alike_s = DAY_S if all(_daily(windows) for windows in kept) else WEEK_S
    hard: list[tuple[float, Gap]] = []
    least: dict[int, float] = {}
    for charge, gap in sorted(levels, key=lambda pair: (-pair[1].length_s, pair[0])):
        since_s = (gap.begin_s + system.light.begins_at_s) % alike_s if kept else 0.0
        moment = round(since_s / MOMENT_S)
        if charge < least.get(moment, inf):
            least[moment] = charge
            hard.append((charge, gap))
    return sorted(hard, key=lambda pair: pair[0] / pair[1].length_s)[:MOST_TRIED] if kept else hard


def _daily(windows_s: tuple[tuple[float, float], ...]) -> bool:
    """Whether windows of the week are open at the same hours of every day."""
    hours = [(opens % DAY_S, closes - opens) for opens, closes in windows_s]
    count = len(hours) // 7
    return len(hours) == 7 * count and hours == 7 * hours[:count]


def _lowest_connected(course: Trajectory) -> float:
    """Lowest charge of a course while connected: a closure may begin at the worst moment. [C]"""
    on = [min(leg.begin_c, leg.end_c) for leg in course.legs if leg.connected]
    return min(on, default=0.0)


def nothing_in_the_dark() -> DarkReading:
    """Of a device that runs until the store gives out: the dark asks nothing of it."""
    return DarkReading(
        needed_s=np.zeros(1), lasts_s=np.zeros(1), begin_v=np.zeros(1),
        closure=np.zeros(1, bool),
    )


def one_charge(engine: Engine) -> tuple[float, float]:
    """From a full store in the dark until the cut-off, the reserve kept: time [s] and runs done.

    Infinite where the store lasts for ever.
    """
    full = Standing(charge_c=full_charge(engine), connected=True, charging=False)
    dark = engine.dark()
    run = dark.march(FOLLOWED_S, full, stop_at=StopAt.CUT_OFF, most_legs=MOST_DARK_LEGS)
    until = _kept_until(engine, run, FOLLOWED_S)
    if until < run.span_s:
        run = dark.march(until, full, stop_at=StopAt.CUT_OFF, most_legs=MOST_DARK_LEGS)
    through = engine.system.load.until_empty
    if through is not None:
        return until, float(until >= through.phases[-1].duration_s)
    if until == inf:
        return inf, inf
    more = until / run.span_s if run.span_s < until * (1.0 - 1e-9) else 1.0
    return until, more * sum(run.tally.served)


def _kept_until(engine: Engine, run: Trajectory, wanted_s: float) -> float:
    """Time at which a run in the dark is cut off or down to its reserve; infinite if never. [s]

    One of too many legs, which ends before the time that was wanted, is taken to go on falling.
    """
    if not run.tally.cut_offs:
        # What is cut off later may be down to its reserve before.
        cut_c = engine.field.charge_at(engine.system.load.off_v)
        if engine.system.load.reserve_j > 0:
            cut_c = _reserve_charge(engine, cut_c)
            if (found_s := _time_below(engine, run, cut_c)) < inf:
                return found_s
        return _if_it_goes_on(run, cut_c) if run.span_s < wanted_s * (1.0 - 1e-9) else inf
    if engine.system.load.reserve_j <= 0:
        return run.span_s
    return min(run.span_s, _time_below(engine, run, _reserve_charge(engine, run.end.charge_c)))


def _if_it_goes_on(run: Trajectory, charge: float) -> float:
    """Time at which a run is down to a charge that goes on falling as it fell; infinite if not."""
    if not run.legs:  # too short for one
        return inf
    begin, end = run.legs[0].begin_c, run.end.charge_c
    return run.span_s * (begin - charge) / (begin - end) if end < begin else inf


def _time_below(engine: Engine, run: Trajectory, charge: float) -> float:
    """First time at which a run is down to a charge, pulses included; infinite if never. [s]"""
    trace: Trace | None = None
    volts = float(engine.field.voltage_at(charge))
    for leg in run.legs:
        if leg.begin_c <= charge:
            return leg.begin_s
        if leg.cycles is not None or leg.repeats is not None:
            if leg.cycles is not None and _lowest_of(leg) > charge:
                continue
            if leg.cycles is not None and not leg.averages:
                found = _within_cycles(engine, leg, charge)
                if found < inf:
                    return found
                continue
            trace = trace or Trace(engine, run)
            found = _first_below(trace, leg.begin_s, leg.end_s, volts)
            if found < inf:
                return found
        elif leg.end_c <= charge:
            passed = leg.low.flow.time_to(leg.begin_c, charge)
            return leg.begin_s + min(passed, leg.end_s - leg.begin_s)
    return inf


def _lowest_of(leg: Leg) -> float:
    """A charge that no pulse of a leg of composed cycles goes below. [C]"""
    assert leg.cycles is not None
    ends = np.array([leg.begin_c, leg.end_c])
    return min(float(np.interp(ends, c.nodes, c.lowest_c).min()) for c in leg.cycles)


def _within_cycles(engine: Engine, leg: Leg, charge: float) -> float:
    """First time at which composed cycles are down to a charge, one of them opened. [s]

    Infinite where none of them is: the one that would follow them counts no more.
    """
    assert leg.cycles is not None
    cycle = leg.cycles[0]
    count = max(round((leg.end_s - leg.begin_s) / cycle.length_s), 1)

    # The first cycle whose pulse passes the charge; what it begins with falls from one to the next.
    low, high = 0, count - 1
    while low < high:
        middle = (low + high) // 2
        at_c = cycle.begins(leg.begin_c, middle)
        passes = float(np.interp(at_c, cycle.nodes, cycle.lowest_c)) <= charge
        low, high = (low, middle) if passes else (middle + 1, high)
    # Between nodes the table is straight: the cycle that passes may be the one after.
    for k in range(low, min(low + 2, count)):
        at, now = leg.begin_s + k * cycle.length_s, cycle.begins(leg.begin_c, k)
        for draw, duration in engine.phases(cycle.key):
            motion = engine.motion(cycle.key.photocurrent_a, leg.charging, draw)
            now, used = motion.run(now, duration, charge, inf)
            at += used
            if used < duration:
                return at
    return inf


def _first_below(trace: Trace, begin_s: float, end_s: float, volts: float) -> float:
    """First time within a span at which the store is down to a voltage; infinite if never. [s]"""
    for _ in range(ROUNDS):
        edges = np.linspace(begin_s, end_s, PARTS + 1)
        low = trace.lowest_v(edges[:-1], edges[1:]) <= volts
        if not low.any():
            return inf
        i = int(np.argmax(low))
        begin_s, end_s = float(edges[i]), float(edges[i + 1])
    return end_s


def _reserve_charge(engine: Engine, cut_c: float) -> float:
    """Charge that leaves the reserve above the charge at which the load is cut off. [C]"""
    q, v = engine.field.charge_c, engine.field.open_v
    energy = np.concatenate([[0.0], np.cumsum(0.5 * (v[1:] + v[:-1]) * np.diff(q))])
    floor_j = float(np.interp(cut_c, q, energy))
    return float(np.interp(floor_j + engine.system.load.reserve_j, energy, q))

"""What a run may pass over at once: turns that repeat, as values; the run itself is not changed.

While light and windows stay the same, a course that comes back to the same event with the same
charge goes on as before.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import copysign, floor, inf, log, remainder
from typing import NamedTuple

from explorer.engine.course import Repeats, Standing, Tally
from explorer.engine.progress import Progress, Skip, Stride
from explorer.engine.schedule import MOMENT_S, TIME_GRAIN_S
from explorer.engine.system import DAY_S, WEEK_S, Load, Periodic

Trial = Callable[[Standing, float, float], Standing | None]
"""Where a run that begins at a time stands after a span; None where that takes too many legs."""

REPEAT_DRIFT = 1e-4
"Largest relative change of charge from one turn of a steady cycle to the next that is\n"
"followed without a look at the turn before."
EVEN = 0.02
"""Two turns whose length and drift differ by less than this share are even."""
REPEAT_REACH = 0.01
"""How far an even drift is followed, as a share of a full store."""
FEWEST = 4
"""Turns that drift and are passed over at once at least: to learn of them takes two, and the one
that is kept is no exact likeness of the others."""
BAND_REACH = 0.01
"""The same for turns that meet full on the way, as a share of the band between full and resume."""
FADING = 0.8
"""A drift below this share of the one before soon comes to nothing: it is waited for."""
NO_DRIFT = 1e-9
"""Relative change of charge in a turn that counts as none."""
PIECE = 0.1
"""Relative change of the drift over the turns that one leg stands for."""
SPENT = 1e-6
"""Charge, relative to a full store, below which all that a fading drift still moves is so little
that one leg stands for the rest of its turns."""


# ---- turns from event to event ---------------------------------------------------------------


class Seen(NamedTuple):
    """An event as it was met last time."""

    time_s: float
    charge_c: float
    leg: int
    tally: Tally
    due_s: tuple[float, ...]
    """How long after it each start is due and each phase ends, that of a start-up too. [s]"""
    retry_at: float
    """When the load may connect again. [s]"""
    turn_s: float
    """Length of the turn that ended there, 0 for the first. [s]"""
    drift_c: float


def seen(run: Progress, before: Seen | None) -> Seen:
    """The event that a run has just met, given how it was met before."""
    turn_s = run.t - before.time_s if before is not None else 0.0
    drift_c = run.q - before.charge_c if before is not None else 0.0
    due_s = (*run.clock.standing(run.t)[1], run.phase_end - run.t)
    return Seen(
        run.t, run.q, len(run.legs), run.tally.copy(), due_s, run.retry_at, turn_s, drift_c
    )


def turns(
    run: Progress, event: object, before: Seen | None, now: Seen, trial: Trial
) -> Skip | None:
    """Whole turns of a course that has come back to the same event in the same light."""
    if before is None or now.turn_s <= 0.0 or not _alike(now.due_s, before.due_s):
        return None
    turn_s, drift_c = now.turn_s, now.drift_c
    if event == "full" and abs(turn_s - before.turn_s) > EVEN * turn_s:
        # A course that fails again and again below full: its turns must be seen to be even.
        return None
    limit = min(run.segment_end, run.end, run.clock.window_edge)
    same_wait = run.waits_to_retry and now.retry_at == before.retry_at
    waits_s = [max(at.retry_at - at.time_s, 0.0) for at in (before, now)]
    if not same_wait and abs(waits_s[1] - waits_s[0]) > MOMENT_S:
        return None  # the next attempt comes at another moment of the turn
    if same_wait:
        # The turn lies within one wait for the next attempt, and so must what is skipped.
        limit = min(limit, run.retry_at)
    scale = run.field.full_c
    course = EvenTurns(turn_s, drift_c, 1.0, 0.0)
    reach = inf
    if abs(drift_c) > NO_DRIFT * scale:
        if before.turn_s == 0.0:
            return None  # how the drift changes is known only from a second turn
        # A slow drift may be followed for a while; a faster one must be seen to be even.
        slow = abs(drift_c) <= REPEAT_DRIFT * scale
        ratio = drift_c / before.drift_c if before.drift_c else -1.0
        even = abs(turn_s - before.turn_s) <= EVEN * turn_s and abs(ratio - 1.0) <= EVEN
        if not slow and not (even and event == "connect"):
            return None
        if abs(ratio) < FADING:
            return None  # a few turns more, and there is none
        reach = (REPEAT_REACH if even else 20 * REPEAT_DRIFT) * scale
        # No further than to where the next turn would no longer begin.
        ends_c = (_turn_end(run, event, drift_c) - run.q) * copysign(1.0, drift_c)
        # Nor so far that the one that is tried out would not hold.
        reach = min(reach, ends_c - 2.0 * abs(drift_c) if event == "connect" else ends_c)
        if not even and FADING <= ratio <= 1.0 / FADING:
            course = EvenTurns(turn_s, drift_c, ratio, 0.0)
        if even:
            longer = (turn_s - before.turn_s) / before.drift_c
            course = EvenTurns(turn_s, drift_c, ratio, longer)
    inner, strides, skipped = tuple(run.legs[before.leg :]), list[Stride](), 0
    if course.drift_c and len({leg.charging for leg in inner}) > 1:
        # Full on the way, a turn forgets with what charge it began: what follows comes earlier or
        # later instead of lying higher or lower.
        reach = min(reach, BAND_REACH * (scale - run.field.resume_c))
    passed_s, charge_c = 0.0, run.q
    while True:
        least = 1 if skipped else FEWEST if course.drift_c else 2
        whole = course.turns_within(limit - run.t - passed_s, reach, SPENT * scale)
        count, missed_c = whole, 0.0
        if whole >= least and event == "connect" and course.drift_c:
            begin = Standing(charge_c=charge_c, connected=False, charging=run.charging)
            count, missed_c = _turns_that_hold(trial, course, whole, begin, run.t + passed_s)
        if count < least:
            break
        seconds, moved_c = course.after(count)
        # What the drift misses by grows with the square of the way: a third of it is its mean.
        moved_c += missed_c * count / 3.0
        passed_s, charge_c = passed_s + seconds, charge_c + moved_c
        turn = Repeats(inner, float(count), before.charge_c)
        strides.append(
            Stride(seconds=seconds, end_c=charge_c, charging=run.charging, repeats=turn)
        )
        reach = reach - abs(moved_c) if count == whole else 0.0
        course = course.later(count, NO_DRIFT * scale)
        skipped += count
    if not skipped:
        return None
    gain = run.tally.since(before.tally, skipped, passed_s / turn_s)
    return Skip(
        strides=tuple(strides), gain=gain, phases_move=True, retry_moves=not same_wait
    )


def _alike(one_s: tuple[float, ...], other_s: tuple[float, ...]) -> bool:
    return len(one_s) == len(other_s) and all(
        a == b or abs(a - b) < MOMENT_S for a, b in zip(one_s, other_s, strict=True)
    )


def _turns_that_hold(
    trial: Trial, course: EvenTurns, count: int, begin: Standing, begin_s: float
) -> tuple[int, float]:
    """As many of these turns as may be skipped, and what the drift of the next one misses by. [C]

    The turn after them is tried out: a start that fails at once may last a little, or pass a phase,
    once the store holds more.
    """
    while count > 0:
        seconds, moved_c = course.after(count)
        next_s, next_c = course.later(count, 0.0).after(1)
        start = replace(begin, charge_c=begin.charge_c + moved_c)
        end = trial(start, begin_s + seconds, next_s)
        if end is not None and not end.connected:
            missed_c = end.charge_c - start.charge_c - next_c
            if abs(missed_c) <= EVEN * abs(next_c):
                return count, missed_c
        count //= 2
    return 0, 0.0


def _turn_end(run: Progress, event: object, drift_c: float) -> float:
    """Charge up to which a course that drifts goes on repeating. [C]"""
    field = run.field
    if drift_c > 0.0:
        return field.full_c if run.charging else inf
    # Charging begins again on the way down; a run begins only where the store is ready, and a load
    # connects only where it holds enough for that.
    end = -inf if run.charging else field.resume_c
    if event == "connect":
        end = max(end, run.motions()[2].connect_c)
    if isinstance(event, tuple):
        end = max(end, next(charge for j, charge in run.ready if j == event[1]))
    return end


class EvenTurns(NamedTuple):
    """Turns whose drift and length change evenly with the charge where they begin.

    Such a drift grows or fades by the same ratio from turn to turn, so that any number of turns is
    a geometric sum.
    """

    turn_s: float
    """Length of the last turn. [s]"""
    drift_c: float
    """Its change of charge. [C]"""
    ratio: float
    """Drift of a turn over that of the turn before."""
    longer_s_per_c: float
    """By how much a turn lasts longer for each coulomb at its beginning. [s/C]"""

    def after(self, turns: int) -> tuple[float, float]:
        """Time and change of charge of the next turns. [s, C]"""
        total, sum_of_sums = float(turns), 0.5 * turns * (turns + 1)
        if abs(self.ratio - 1.0) * turns > 1e-6:
            total = self.ratio * (self.ratio**turns - 1.0) / (self.ratio - 1.0)
            sum_of_sums = (total - turns) / (self.ratio - 1.0)
        seconds = turns * self.turn_s + self.longer_s_per_c * self.drift_c * sum_of_sums
        return seconds, self.drift_c * total

    def later(self, turns: int, no_drift_c: float) -> EvenTurns:
        """The course after so many turns more; a drift that has faded away is none."""
        _, charge_c = self.after(turns)
        last_c = self.drift_c * self.ratio**turns
        turn_s = self.turn_s + self.longer_s_per_c * charge_c / self.ratio
        if abs(last_c) <= no_drift_c:
            return EvenTurns(turn_s, 0.0, 1.0, 0.0)
        return EvenTurns(turn_s, last_c, self.ratio, self.longer_s_per_c)

    def turns_within(self, seconds: float, reach_c: float, spent_c: float = 0.0) -> int:
        """Most turns in a time, one left over, and within a reach, that may be taken as one.

        A drift that fades, and moves no more than `spent_c` until it has, may be taken to its end.
        """
        turns = seconds / self.turn_s - 1.0
        if self.drift_c:
            growth = log(self.ratio)
            ends = reach_c / abs(self.drift_c)
            if abs(growth) > 1e-9:
                left = 1.0 + ends * (self.ratio - 1.0) / self.ratio
                ends = log(left) / growth if left > 0.0 else inf
            # The middle turn stands for all: they may differ only so much.
            change = max(abs(growth), abs(self.longer_s_per_c * self.drift_c) / self.turn_s)
            fades = self.ratio < 1.0
            if fades and abs(self.drift_c) * self.ratio <= spent_c * (1.0 - self.ratio):
                change = 0.0
            turns = min(turns, ends, max(PIECE / max(change, 1e-12), 2.0))
        whole = max(floor(turns), 0)
        while whole > 0 and self.after(whole)[0] > seconds - self.turn_s:
            whole -= max(1, whole // 16)
        return whole


# ---- periods of the light --------------------------------------------------------------------


class Period(NamedTuple):
    """How a period of the light began."""

    time_s: float
    charge_c: float
    state: tuple[object, ...]
    due_s: tuple[float, ...]
    """How long after the beginning everything is due. [s]"""
    leg: int
    event: int
    tally: Tally


def period(run: Progress) -> Period:
    """How the period that has just begun begins."""
    busy, due_s = run.clock.standing(run.t)
    return Period(
        run.t, run.q, (run.stage, run.charging, busy, run.clock.small),
        (*due_s, max(run.retry_at - run.t, 0.0)), len(run.legs), len(run.events),
        run.tally.copy(),
    )


def periods(run: Progress, before: Period, now: Period, most_legs: int) -> int:
    """How many periods of light follow that are as the last one, which left all as it found it."""
    length_s = now.time_s - before.time_s
    return _as_before(run, before, now, most_legs) if weekly(run.load, length_s) else 0


def days(run: Progress, before: Period, now: Period, most: int, most_legs: int) -> int:
    """The same of days that are alike, of which so many follow."""
    if abs(now.time_s - before.time_s - DAY_S) > MOMENT_S:
        return 0
    return min(_as_before(run, before, now, most_legs), most)


def _as_before(run: Progress, before: Period, now: Period, most_legs: int) -> int:
    """How often what was done since a moment fits in, where it left all as it found it."""
    if run.stage == "start" or now.state != before.state:
        return 0
    length_s = now.time_s - before.time_s
    drifts = abs(now.charge_c - before.charge_c) > NO_DRIFT * run.field.full_c
    if drifts or not _alike(now.due_s, before.due_s):
        return 0
    fit = floor((run.end - run.t) / length_s + TIME_GRAIN_S)
    return max(min(fit, (most_legs - now.leg) // max(now.leg - before.leg, 1)), 0)


def weekly(load: Load, length_s: float) -> bool:
    """Whether windows open and close alike in every period of the light."""
    schedules = [op.schedule for op in load.operations]
    windows = any(isinstance(s, Periodic) and not s.always for s in schedules)
    return not windows or abs(remainder(length_s, WEEK_S)) < MOMENT_S

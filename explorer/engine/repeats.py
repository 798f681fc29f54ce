"""Courses that repeat: a full store that stops and resumes, a load that starts and fails.

While light and windows stay the same, a course that comes back to the same event with the same
charge goes on as before; whole turns of it are skipped and counted.
"""

from __future__ import annotations

from math import copysign, floor, inf, log, remainder
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from explorer.engine.course import Leg, Repeats, Standing, Tally
from explorer.engine.cycles import Cycle
from explorer.engine.keys import OFF, DrawKey, On
from explorer.engine.levels import Motion
from explorer.engine.schedule import TIME_GRAIN_S
from explorer.engine.system import WEEK_S, Periodic

if TYPE_CHECKING:
    from explorer.engine.walk import Run

SKIP_TURNS = 3
"""Fewest turns between full and resume that are skipped at once."""
REPEAT_DRIFT = 1e-4
"""Largest relative change of charge from one turn of a repeating course to the next that is
followed without a look at the turn before."""
EVEN = 0.02
"""Two turns whose length and drift differ by less than this share are even."""
REPEAT_REACH = 0.01
"""How far an even drift is followed, as a share of a full store."""
MOMENT_S = 1e-6
"""Largest difference of two moments that count as one from period to period. [s]"""
NO_DRIFT = 1e-9
"""Relative change of charge in a turn that counts as none."""
NO_DRIFT_OF_PULSES = 1e-8
"""The same from pulse to pulse of a store that cycles at full, where every turn forgets most of the
drift of the one before."""
MOST_PULSES = 12
"""Pulses at full that are walked one by one in the hope that they repeat; then means are taken."""
MOST_TRIAL_LEGS = 200
"""Legs after which the trial of a turn is given up."""
PIECE = 0.1
"""Relative change of the drift over the turns that one leg stands for."""


class Seen(NamedTuple):
    """An event as it was met last time."""

    time_s: float
    charge_c: float
    leg: int
    tally: Tally
    turn_s: float
    """Length of the turn that ended there, 0 for the first. [s]"""
    drift_c: float
    retry_at: float
    """When the load could connect again. [s]"""


def stay_full(run: Run) -> bool:
    """Skip whole turns between full and resume while nothing else changes; False where not."""
    clock, on = run.clock, run.stage == "on"
    if not run.level.exact or run.stage == "start" or clock.busy or (on and run.ready):
        return False
    until = min(run.segment_end, run.end)
    if run.waits_to_retry:
        until = min(until, run.retry_at)
    if on:
        until = min(until, clock.window_edge, clock.others_due())
    fast = clock.fast if on else None
    draw = run.draw()
    if fast is not None:
        if not run.engine.compose:
            return False
        if run.pulses_walked >= MOST_PULSES or not _refills(run, draw, fast):
            return _stay_with_pulses(run, On((*clock.small, fast)), fast, until)
        until = min(until, clock.next_start[fast])
        run.pulses_walked += 1
    turns = _turns(run, draw, until - run.t)
    if turns < SKIP_TURNS:
        return False
    level = run.level.low_a
    falling, rising = (run.engine.motion(level, charging, draw) for charging in (False, True))
    _skip_full(run, turns, (falling, rising), (None, None))
    return True


def _turns(run: Run, draw: DrawKey, seconds: float) -> int:
    """How often a store goes from full to resume and back in a time; 0 where it does not."""
    engine, field, level = run.engine, run.field, run.level.low_a
    falling, rising = (engine.motion(level, charging, draw) for charging in (False, True))
    if draw == OFF:
        connect_c = min(falling.connect_c, rising.connect_c)
        if engine.may_connect and not run.waits_to_retry and connect_c <= field.full_c:
            return 0
    elif max(falling.off_c, rising.off_c) >= field.resume_c:
        return 0
    turn_s = falling.flow.time_to(field.full_c, field.resume_c)
    turn_s += rising.flow.time_to(field.resume_c, field.full_c)
    return floor(max(seconds, 0.0) / turn_s) if turn_s < inf else 0


def _refills(run: Run, draw: DrawKey, fast: int) -> bool:
    """Whether a pulse takes a full store below resume and it is full again before the next.

    Then pulses forget each other, and soon begin with the same charge each time.
    """
    field, level = run.field, run.level.low_a
    down = run.engine.cycle(level, False, run.clock.small, fast)
    low_c = float(np.interp(field.full_c, down.nodes, down.pulse_lowest_c))
    rising = run.engine.motion(level, True, draw)
    return low_c <= field.resume_c and (
        rising.flow.time_to(low_c, field.full_c) < down.length_s
    )


def _skip_full(
    run: Run,
    turns: int,
    motions: tuple[Motion, Motion],
    cycles: tuple[tuple[Cycle, Cycle] | None, tuple[Cycle, Cycle] | None],
) -> None:
    """Let the store fall and rise so often."""
    field, connected = run.field, run.stage != "off"
    falling, rising = motions
    fall_s = falling.flow.time_to(field.full_c, field.resume_c)
    turn_s = fall_s + rising.flow.time_to(field.resume_c, field.full_c)
    legs = (
        Leg(0.0, fall_s, field.full_c, field.resume_c, run.level, False, connected,
            falling, falling, cycles[0], None, run.segment),
        Leg(fall_s, turn_s, field.resume_c, field.full_c, run.level, True, connected,
            rising, rising, cycles[1], None, run.segment),
    )
    run.add(
        run.t + turns * turn_s, field.full_c, falling, falling,
        repeats=Repeats(legs, float(turns), field.full_c),
    )
    run.count(turns * turn_s)
    run.tally.full_s += turns * (fall_s - turn_s)


def _stay_with_pulses(run: Run, draw: On, fast: int, until: float) -> bool:
    """The same where pulses come so often that each turn holds their mean.

    A turn may be much shorter than a cycle, and a cycle that begins near full would run far
    beyond it. The place within the hysteresis band at the end is an estimate, good to about one
    pulse.
    """
    clock, field, level = run.clock, run.field, run.level.low_a
    turns = _turns(run, draw, until - run.t)
    if turns < SKIP_TURNS:
        return False
    falling, rising = (run.engine.motion(level, charging, draw) for charging in (False, True))
    down, up = (run.engine.cycle(level, c, clock.small, fast) for c in (False, True))
    # Every pulse must be carried, also one that begins where charging begins again.
    if min(c.pulse_min_at(field.resume_c) for c in (down, up)) < run.load.off_v:
        return False
    _skip_full(run, turns, (falling, rising), ((down, down), (up, up)))
    # The last turn is not whole; it follows the same means up to where something changes.
    for motion, cycle, high, low in (
        (falling, down, field.full_c, field.resume_c),
        (rising, up, field.resume_c, field.full_c),
    ):
        left = until - run.t
        if left <= TIME_GRAIN_S:
            break
        run.charging = motion is rising
        whole_s = motion.flow.time_to(high, low)
        if whole_s <= left:
            run.add(run.t + whole_s, low, motion, motion, cycles=(cycle, cycle))
        else:
            end_c = motion.flow.advance(run.q, left)
            run.add(until, end_c, motion, motion, cycles=(cycle, cycle))
    run.tally.served[fast] += clock.catch_up(fast, run.t)
    return True


def repeat_pulses(run: Run, j: int) -> bool:
    """Skip whole intervals of an operation that begins once more with the same charge."""
    clock, tally = run.clock, run.tally
    where = (("pulse", j), run.charging, clock.small, clock.window_edge)
    before = run.seen.get(where)
    run.seen[where] = Seen(run.t, run.q, len(run.legs), tally.copy(), 0.0, 0.0, run.retry_at)
    if before is None:
        return False
    interval_s = run.operations[j].schedule.interval_s  # type: ignore[union-attr]
    others = [
        n for n in range(len(tally.served))
        if n != j and n not in clock.small and tally.served[n] != before.tally.served[n]
    ]
    same = (
        abs(run.t - before.time_s - interval_s) < MOMENT_S
        and abs(run.q - before.charge_c) <= NO_DRIFT_OF_PULSES * run.scale_c
        and tally.cut_offs == before.tally.cut_offs
    )
    if others or not same:
        return False
    limit = min(run.segment_end, run.end, clock.window_edge, clock.others_due())
    turns = floor((limit - run.t) / interval_s + TIME_GRAIN_S)
    if turns < 1:
        return False
    low, high, _ = run.motions()
    inner = tuple(run.legs[before.leg :])
    run.add(
        run.t + turns * interval_s, run.q, low, high,
        repeats=Repeats(inner, float(turns), before.charge_c),
    )
    tally.repeat_since(before.tally, turns, turns)
    clock.next_start[j] += turns * interval_s
    run.pulses_walked = 0
    return True


def repeat(run: Run, event: object) -> bool:
    """Skip whole turns of a course that has come back to the same event in the same light."""
    clock = run.clock
    if run.stage == "on" and any(s < inf for s in clock.next_start):
        return False
    # While off no window is watched, but the turn to come may run into one that opens or closes.
    if run.stage != "on":
        clock.look(run.t)
    limit = min(run.segment_end, run.end, clock.window_edge)
    where = (event, run.stage, run.charging, clock.small, clock.window_edge)
    before = run.seen.get(where)
    turn_s = run.t - before.time_s if before is not None else 0.0
    drift_c = run.q - before.charge_c if before is not None else 0.0
    run.seen[where] = Seen(
        run.t, run.q, len(run.legs), run.tally.copy(), turn_s, drift_c, run.retry_at
    )
    if before is None or turn_s <= 0.0:
        return False
    same_wait = run.waits_to_retry and run.retry_at == before.retry_at
    if same_wait:
        # The turn lies within one wait for the next attempt, and so must what is skipped.
        limit = min(limit, run.retry_at)
    if event == "full" and abs(turn_s - before.turn_s) > EVEN * turn_s:
        # A course that fails again and again below full: its turns must be seen to be even.
        return False
    scale = run.scale_c
    course = _Course(turn_s, drift_c, 1.0, 0.0)
    reach = inf
    if abs(drift_c) > NO_DRIFT * scale:
        if before.turn_s == 0.0:
            return False  # how the drift changes is known only from a second turn
        # A slow drift may be followed for a while; a faster one must be seen to be even.
        slow = abs(drift_c) <= REPEAT_DRIFT * scale
        ratio = drift_c / before.drift_c if before.drift_c else -1.0
        even = abs(turn_s - before.turn_s) <= EVEN * turn_s and abs(ratio - 1.0) <= EVEN
        if not slow and not (even and event == "connect"):
            return False
        reach = (REPEAT_REACH if even else 20 * REPEAT_DRIFT) * scale
        # No further than to where the next turn would no longer begin.
        reach = min(reach, (_turn_end(run, event, drift_c) - run.q) * copysign(1.0, drift_c))
        if even:
            longer = (turn_s - before.turn_s) / before.drift_c
            course = _Course(turn_s, drift_c, ratio, longer)
    before_t, inner, skipped = run.t, tuple(run.legs[before.leg :]), 0
    retry = run.retry_at - run.t
    low, high, _ = run.motions()
    while (turns := course.turns_within(limit - run.t, reach)) >= (1 if skipped else 2):
        if event == "connect" and course.drift_c:
            whole, turns = turns, _turns_that_hold(run, course, turns)
            reach = reach if turns == whole else 0.0
        if turns < (1 if skipped else 2):
            break
        seconds, charge_c = course.after(turns)
        turn = Repeats(inner, float(turns), before.charge_c)
        run.add(run.t + seconds, run.q + charge_c, low, high, repeats=turn)
        reach -= abs(charge_c)
        course = course.later(turns, NO_DRIFT * scale)
        skipped += turns
    if not skipped:
        return False
    run.tally.repeat_since(before.tally, skipped, (run.t - before_t) / turn_s)
    if not same_wait:
        run.retry_at = run.t + retry if retry > -inf else -inf
    # Other events keep their memory: skipped turns may be part of a longer turn.
    del run.seen[where]
    return True


def _turns_that_hold(run: Run, course: _Course, turns: int) -> int:
    """As many of these turns as may be skipped: the one after them is tried out.

    A start that fails at once may last a little, or pass a phase, once the store holds more.
    """
    while turns > 0:
        seconds, charge_c = course.after(turns)
        next_s, next_c = course.later(turns, 0.0).after(1)
        start = Standing(charge_c=run.q + charge_c, connected=False, charging=run.charging)
        trial = type(run)(run.engine, next_s, start, run.t + seconds, run.longest_leg_s)
        trial.go(None, MOST_TRIAL_LEGS)
        missed_c = abs(trial.q - start.charge_c - next_c)
        if trial.stage == "off" and missed_c <= EVEN * abs(next_c):
            return turns
        turns //= 2
    return 0


class _Course(NamedTuple):
    """A course of turns whose drift and length change evenly with the charge where they begin.

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

    def later(self, turns: int, no_drift_c: float) -> _Course:
        """The course after so many turns more; a drift that has faded away is none."""
        _, charge_c = self.after(turns)
        last_c = self.drift_c * self.ratio**turns
        turn_s = self.turn_s + self.longer_s_per_c * charge_c / self.ratio
        if abs(last_c) <= no_drift_c:
            return _Course(turn_s, 0.0, 1.0, 0.0)
        return _Course(turn_s, last_c, self.ratio, self.longer_s_per_c)

    def turns_within(self, seconds: float, reach_c: float) -> int:
        """Most turns in a time, one left over, and within a reach, that may be taken as one."""
        turns = seconds / self.turn_s - 1.0
        if self.drift_c:
            growth = log(self.ratio)
            ends = reach_c / abs(self.drift_c)
            if abs(growth) > 1e-9:
                left = 1.0 + ends * (self.ratio - 1.0) / self.ratio
                ends = log(left) / growth if left > 0.0 else inf
            # The middle turn stands for all: they may differ only so much.
            change = max(abs(growth), abs(self.longer_s_per_c * self.drift_c) / self.turn_s)
            turns = min(turns, ends, max(PIECE / max(change, 1e-12), 2.0))
        whole = max(floor(turns), 0)
        while whole > 0 and self.after(whole)[0] > seconds - self.turn_s:
            whole -= max(1, whole // 16)
        return whole


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


def repeat_periods(run: Run) -> None:
    """Copy a whole period of light that left everything as it found it, as often as it fits.

    Unlike a turn it is copied leg by leg, as its course is looked at day by day.
    """
    busy, due_s = run.clock.standing(run.t)
    state = (run.stage, run.charging, busy, run.clock.small)
    retry_s = max(run.retry_at - run.t, 0.0)
    before, run.period = run.period, Period(
        run.t, run.q, state, (*due_s, retry_s), len(run.legs), len(run.events), run.tally.copy()
    )
    if run.stop_at is not None or run.stage == "start" or before is None or state != before.state:
        return
    scale = run.scale_c
    length_s, inner = run.t - before.time_s, run.legs[before.leg :]
    same = all(
        a == b or abs(a - b) < MOMENT_S
        for a, b in zip(run.period.due_s, before.due_s, strict=True)
    )
    if not same or abs(run.q - before.charge_c) > NO_DRIFT * scale or not _weekly(run, length_s):
        return
    periods = floor((run.end - run.t) / length_s + TIME_GRAIN_S)
    periods = min(periods, (run.most_legs - len(run.legs)) // max(len(inner), 1))
    if periods < 1:
        return
    happened = run.events[before.event :]
    for k in range(1, periods + 1):
        later_s = k * length_s
        run.legs += [
            leg._replace(begin_s=leg.begin_s + later_s, end_s=leg.end_s + later_s)
            for leg in inner
        ]
        for event in happened:
            run.remember(event._replace(time_s=event.time_s + later_s))
    run.tally.repeat_since(before.tally, periods, periods)
    run.t += periods * length_s
    run.base += periods * length_s
    run.segment_end += periods * length_s
    run.retry_at += periods * length_s
    run.clock.shift(periods * length_s)
    run.clock.look(run.t)
    run.seen.clear()
    run.period = None


def _weekly(run: Run, length_s: float) -> bool:
    """Whether windows open and close alike in every period of the light."""
    schedules = [op.schedule for op in run.operations]
    windows = any(isinstance(s, Periodic) and not s.always for s in schedules)
    return not windows or abs(remainder(length_s, WEEK_S)) < MOMENT_S


def _turn_end(run: Run, event: object, drift_c: float) -> float:
    """Charge up to which a course that drifts goes on repeating. [C]"""
    if drift_c > 0.0:
        return run.field.full_c if run.charging else inf
    # Charging begins again on the way down; a run begins only where the store is ready.
    end = -inf if run.charging else run.field.resume_c
    if isinstance(event, tuple):
        end = max(end, next(charge for j, charge in run.ready if j == event[1]))
    return end

"""What a run whose store is full may pass over: turns between full and resume, as values."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import floor, inf, lcm

import numpy as np

from explorer.engine.course import Leg, Repeats, Tally
from explorer.engine.cycles import Cycle
from explorer.engine.keys import On
from explorer.engine.motions import FullTurn
from explorer.engine.progress import Progress, Skip, Stride
from explorer.engine.repeats import Seen
from explorer.engine.schedule import TIME_GRAIN_S, Clock

SKIP_TURNS = 3
"""Fewest turns between full and resume that are skipped at once."""
SAME_PHASE = 1e-6
"""Two pulses at full come alike if their moments differ by less than this share of an interval."""
MOST_WALKED = 32
"""Turns at full that are walked in the hope that they repeat; then pulses count with their mean."""
MOST_IN_BEAT = 600
"""The same where the beat of several clocks is waited for."""
BEATS = 3.0
"""Beats within which turns are to come alike, and that a light must last to wait for them."""
MOST_COUNT = 200
"""Most starts of one clock in a beat."""


def full_turns(run: Progress, pulses_as_mean: bool) -> Skip | None:
    """Whole turns between full and resume while nothing else changes.

    Parameters
    ----------
    run : Progress
        A run whose store is full.
    pulses_as_mean : bool
        Whether the turns hold pulses with their mean; otherwise the next pulse ends them.
    """
    clock, level = run.clock, run.level
    if run.stage == "on" and run.ready and not clock.busy:
        return None
    until = min(run.segment_end, run.end, run.phase_end)
    if run.waits_to_retry:
        until = min(until, run.retry_at)
    fast = None
    if clock.busy:
        until = min(until, clock.next_moment(run.t))
    elif run.stage == "on":
        until = min(until, clock.window_edge, clock.others_due())
        fast = clock.fast
    if fast is not None:
        if not run.engine.compose:
            return None
        if pulses_as_mean and level.exact:
            return _full_turns_with_pulses(run, fast, until)
        until = min(until, clock.next_start[fast])
    turn = run.engine.full_turn(level, run.draw())
    turns = _often(run, turn, until - run.t)
    if turns < SKIP_TURNS:
        return None
    stride = _repeated(run, turn, turns, None, None)
    return Skip(strides=(stride,), gain=_counted(run, (stride,), turns * turn.fall_s))


def full_place(run: Progress) -> tuple[object, ...]:
    """When everything is due after a store is full: two that are alike go on alike. [intervals]

    Rounded, so that it can be looked up.
    """
    clock = run.clock
    parts = ((j, (clock.next_start[j] - run.t) / clock.interval_s(j)) for j in clock.due)
    return tuple((j, round(share / SAME_PHASE)) for j, share in parts)


def walked_enough(run: Progress, since_s: float, fulls: int) -> bool:
    """Whether turns at full have not come alike and will hardly do so any more.

    Parameters
    ----------
    run : Progress
        A run whose store is full.
    since_s : float
        When it was full for the first time in this light. [s]
    fulls : int
        How often it was full since then.
    """
    if fulls <= MOST_WALKED:
        return False
    if fulls > MOST_IN_BEAT or len(run.clock.due) < 2:
        return True
    wait_s = BEATS * _beat(run.clock)
    until = min(run.segment_end, run.end, run.clock.window_edge)
    return run.t - since_s > wait_s or until - since_s < wait_s


def _beat(clock: Clock) -> float:
    """Time after which all clocks that are due come together again; infinite for never. [s]"""
    intervals = [clock.interval_s(j) for j in clock.due]
    shortest, count = min(intervals), 1
    for interval_s in intervals:
        ratio = Fraction(interval_s / shortest).limit_denominator(MOST_COUNT)
        if abs(ratio * shortest / interval_s - 1.0) > SAME_PHASE:
            return inf
        count = lcm(count, ratio.numerator)
    return count * shortest


def full_again(run: Progress, then: Seen, now: Seen) -> Skip | None:
    """Turns from full to full in which the same pulses come at the same moments.

    A store that charges much faster than it falls forgets from turn to turn when its pulses came,
    so that they soon come alike: in every turn, in every few, or in every beat of several clocks.

    Parameters
    ----------
    run : Progress
        A run whose store is full.
    then : Seen
        When it was full before in the same light, with the same `full_place`.
    now : Seen
        This time.
    """
    clock, tally = run.clock, run.tally
    counts = {j: round((now.time_s - then.time_s) / clock.interval_s(j)) for j in clock.due}
    waiting = any(
        n not in counts and n not in clock.small and tally.served[n] != then.tally.served[n]
        for n in range(len(tally.served))
    )
    if waiting or tally.cut_offs != then.tally.cut_offs or not counts:
        return None
    turn_s = next(count * clock.interval_s(j) for j, count in counts.items())
    if turn_s <= 0.0:
        return None
    others = (due for j, due in enumerate(clock.next_start) if j not in counts)
    limit = min(run.segment_end, run.end, clock.window_edge, *others)
    turns = floor((limit - run.t) / turn_s + TIME_GRAIN_S)
    if turns < 1:
        return None
    turn = Repeats(tuple(run.legs[then.leg :]), float(turns), then.charge_c)
    stride = Stride(seconds=turns * turn_s, end_c=run.q, charging=run.charging, repeats=turn)
    gain = tally.since(then.tally, turns, stride.seconds / (now.time_s - then.time_s))
    starts = tuple((j, turns * count) for j, count in counts.items())
    return Skip(strides=(stride,), gain=gain, starts=starts)


def _full_turns_with_pulses(run: Progress, fast: int, until: float) -> Skip | None:
    """The same with pulses that a turn holds with their mean.

    A turn may be much shorter than a cycle, and a cycle that begins near full would run far
    beyond it. The place within the hysteresis band at the end is an estimate, good to about one
    pulse.
    """
    field, engine, level, small = run.field, run.engine, run.level.low_a, run.clock.small
    turn = engine.full_turn(run.level, On((*small, fast)))
    turns = _often(run, turn, until - run.t)
    if turns < SKIP_TURNS:
        return None
    down, up = (engine.cycle(level, charging, small, fast) for charging in (False, True))
    # Every pulse must be carried, also one that begins where charging begins again.
    lowest_v = min(np.interp(field.resume_c, c.nodes, c.pulse_min_v) for c in (down, up))
    if lowest_v < run.load.off_v:
        return None
    strides = [_repeated(run, turn, turns, down, up)]
    left, full_s = until - run.t - turns * turn.turn_s, turns * turn.fall_s
    # The last turn is not whole; it follows the same means up to where something changes.
    for charging, motion, cycle, whole_s, begin_c, end_c in (
        (False, turn.falling[0], down, turn.fall_s, field.full_c, field.resume_c),
        (True, turn.rising[0], up, turn.rise_s, field.resume_c, field.full_c),
    ):
        if left <= TIME_GRAIN_S:
            break
        seconds = min(whole_s, left)
        if whole_s > left:
            end_c = motion.flow.advance(begin_c, left)
        strides.append(
            Stride(seconds=seconds, end_c=end_c, charging=charging, motion=motion, cycle=cycle)
        )
        left -= seconds
        full_s += 0.0 if charging else seconds
    gain = _counted(run, strides, full_s)
    passed = run.clock.passed(fast, run.t + sum(s.seconds for s in strides))
    gain.served[fast] += passed
    return Skip(strides=tuple(strides), gain=gain, starts=((fast, passed),))


def _often(run: Progress, turn: FullTurn, seconds: float) -> int:
    """How often a full store turns in a time; 0 where something else happens on the way."""
    field = run.field
    if run.stage == "off":
        connects = run.engine.may_connect and turn.connect_c <= field.full_c
        if connects and not run.waits_to_retry:
            return 0
    elif turn.off_c >= field.resume_c:
        return 0
    return floor(max(seconds, 0.0) / turn.turn_s) if turn.turn_s < inf else 0


def _repeated(
    run: Progress, turn: FullTurn, turns: int, down: Cycle | None, up: Cycle | None
) -> Stride:
    field, connected = run.field, run.stage != "off"
    legs = (
        Leg(0.0, turn.fall_s, field.full_c, field.resume_c, run.level, False, connected,
            *turn.falling, _pair(down), None),
        Leg(turn.fall_s, turn.turn_s, field.resume_c, field.full_c, run.level, True, connected,
            *turn.rising, _pair(up), None),
    )
    return Stride(
        seconds=turns * turn.turn_s, end_c=field.full_c, charging=False, motion=turn.falling[0],
        repeats=Repeats(legs, float(turns), field.full_c),
    )


def _pair(cycle: Cycle | None) -> tuple[Cycle, Cycle] | None:
    return None if cycle is None else (cycle, cycle)


def _counted(run: Progress, strides: Sequence[Stride], full_s: float) -> Tally:
    """What a time in the present state counts."""
    seconds, clock = sum(stride.seconds for stride in strides), run.clock
    gain = Tally(served=[0.0] * len(run.load.operations), full_s=full_s)
    if run.stage != "off":
        gain.connected_s = seconds
        if run.stage == "on":
            for j in clock.small:
                gain.served[j] = seconds / clock.interval_s(j)
    return gain

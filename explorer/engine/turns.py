"""Courses that repeat: a full store that stops and resumes, a load that starts and fails.

While light and windows stay the same, a course that comes back to the same event with the same
charge goes on as before; whole turns of it are skipped and counted.
"""

from __future__ import annotations

from math import floor, inf
from typing import TYPE_CHECKING, NamedTuple

from explorer.engine.clock import TIME_GRAIN_S
from explorer.engine.cycle import Cycle
from explorer.engine.legs import Key, Leg, Tally

if TYPE_CHECKING:
    from explorer.engine.run import Run

SKIP_TURNS = 3
"""Fewest turns between full and resume that are skipped at once."""
REPEAT_DRIFT = 1e-4
"""Largest relative change of charge from one turn of a repeating course to the next that is
followed without a look at the turn before."""
EVEN = 0.02
"""Two turns whose length and drift differ by less than this share are even."""
REPEAT_REACH = 0.02
"""How far an even drift is followed, as a share of a full store."""


class Seen(NamedTuple):
    """An event as it was met last time."""

    time_s: float
    charge_c: float
    leg: int
    tally: Tally
    turn_s: float
    """Length of the turn that ended there, 0 for the first. [s]"""
    drift_c: float


def stay_full(run: Run) -> bool:
    """Skip whole turns between full and resume while nothing else changes; False where not.

    With pulses the turn is an average one, so the place within the hysteresis band at the end is
    an estimate, good to about one pulse.
    """
    clock, on = run.clock, run.stage == "on"
    if not run.level.exact or run.stage == "start" or clock.busy or (on and run.ready):
        return False
    fast, until = None, min(run.segment_end, run.end)
    if on:
        fast = clock.fast
        until = min(until, clock.window_edge, clock.others_due())
        if fast is not None and not run.engine.compose:
            return False
    field, level = run.field, run.level.low_a
    # Pulses count with their mean: a turn may be much shorter than a cycle, and a cycle that
    # begins near full would run far beyond it.
    key: Key = run.key() if fast is None else ("on", (*clock.small, fast), ())
    falling, rising = (run.engine.motion(level, charging, key) for charging in (False, True))
    fall_s = falling.flow.time_to(field.full_c, field.resume_c)
    turn_s = fall_s + rising.flow.time_to(field.resume_c, field.full_c)
    if not turn_s < inf:
        return False
    turns = floor((until - run.t) / turn_s)
    if turns < SKIP_TURNS:
        return False
    cycles: list[tuple[Cycle, Cycle] | None] = [None, None]
    if fast is not None:
        made = [run.engine.cycle(level, c, clock.small, fast) for c in (False, True)]
        cycles = [(made[0], made[0]), (made[1], made[1])]
    connected = run.stage != "off"
    legs = (
        Leg(0.0, fall_s, field.full_c, field.resume_c, run.level, False, connected,
            falling, falling, cycles[0], None, run.segment),
        Leg(fall_s, turn_s, field.resume_c, field.full_c, run.level, True, connected,
            rising, rising, cycles[1], None, run.segment),
    )
    run.add(
        run.t + turns * turn_s, field.full_c, falling, falling, repeats=(legs, float(turns))
    )
    run.count(turns * turn_s)
    run.tally.full_s += turns * (fall_s - turn_s)
    # The last turn is not whole; it follows the same means up to where something changes.
    for motion, pair, high, low in (
        (falling, cycles[0], field.full_c, field.resume_c),
        (rising, cycles[1], field.resume_c, field.full_c),
    ):
        left = until - run.t
        if left <= TIME_GRAIN_S:
            break
        run.charging = motion is rising
        whole_s = motion.flow.time_to(high, low)
        if whole_s <= left:
            run.add(run.t + whole_s, low, motion, motion, cycles=pair)
        else:
            run.add(until, motion.flow.advance(run.q, left), motion, motion, cycles=pair)
    if fast is not None:
        run.tally.served[fast] += clock.catch_up(fast, run.t)
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
    run.seen[where] = Seen(run.t, run.q, len(run.legs), run.tally.copy(), turn_s, drift_c)
    if before is None or turn_s <= 0.0:
        return False
    if event == "full" and abs(turn_s - before.turn_s) > EVEN * turn_s:
        # A course that fails again and again below full: its turns must be seen to be even.
        return False
    turns = floor((limit - run.t) / turn_s) - 1
    full_c = run.field.full_c
    scale = full_c if full_c < inf else float(run.field.charge_c[-1])
    if abs(drift_c) > 1e-9 * scale:
        # A slow drift may be followed for a while; a faster one must be seen to be even.
        even = event == "connect" and (
            abs(turn_s - before.turn_s) <= EVEN * turn_s
            and abs(drift_c - before.drift_c) <= EVEN * abs(drift_c)
        )
        if abs(drift_c) > REPEAT_DRIFT * scale and not even:
            return False
        reach = REPEAT_REACH if even else 20 * REPEAT_DRIFT
        turns = min(turns, floor(reach * scale / abs(drift_c)))
        # No further than to where the next turn would no longer begin.
        turns = floor(min(turns, (_turn_end(run, event, drift_c) - run.q) / drift_c))
    if turns < 2:
        return False
    run.tally.repeat_since(before.tally, turns)
    low, high, _ = run.motions(run.key())
    retry = run.retry_at - run.t
    run.add(
        run.t + turns * turn_s, run.q + turns * drift_c, low, high,
        repeats=(tuple(run.legs[before.leg :]), float(turns)),
    )
    run.retry_at = run.t + retry if retry > -inf else -inf
    # Other events keep their memory: skipped turns may be part of a longer turn.
    del run.seen[where]
    return True


def _turn_end(run: Run, event: object, drift_c: float) -> float:
    """Charge up to which a course that drifts goes on repeating. [C]"""
    if drift_c > 0.0:
        return run.field.full_c if run.charging else inf
    # Charging begins again on the way down; a run begins only where the store is ready.
    end = -inf if run.charging else run.field.resume_c
    if isinstance(event, tuple):
        end = max(end, next(charge for j, charge in run.ready if j == event[1]))
    return end

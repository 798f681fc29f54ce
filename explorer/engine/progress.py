"""A march in progress: where it stands, what it leaves behind, and how it passes over a skip."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from math import floor, inf

from explorer.engine.course import Event, Leg, Pending, Repeats, Standing, Tally
from explorer.engine.cycles import Cycle
from explorer.engine.keys import OFF, DrawKey, On, StartUp
from explorer.engine.levels import BlendedMotion, Motion
from explorer.engine.motions import Motions
from explorer.engine.schedule import TIME_GRAIN_S, Clock
from explorer.engine.system import WhenReady

MAX_EVENTS = 4000

NEW = tuple.__new__
"""Makes a leg in half the time that its own name takes."""

Followed = tuple[Motion, Motion, Motion | BlendedMotion]
"""Motions of the level's two neighbours, and the one that the store follows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stride:
    """One leg of what is passed over."""

    seconds: float
    end_c: float
    charging: bool
    motion: Motion | None = None
    """None for the one that the run follows now."""
    cycle: Cycle | None = None
    repeats: Repeats | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Skip:
    """What a run passes over at once."""

    strides: tuple[Stride, ...]
    gain: Tally
    """What is counted meanwhile."""
    starts: tuple[tuple[int, int], ...] = ()
    """Operations and how many of their starts pass."""
    phases_move: bool = False
    """Whether what runs goes on as it was."""
    retry_moves: bool = False
    """Whether the wait for the next attempt to connect goes on as it was."""


class Progress:
    """Where a march stands and what it leaves behind.

    Parameters
    ----------
    engine : Motions
        What it moves along.
    span_s, begin_s : float
        Length of the run and time within the light's course at which it begins. [s]
    start : Standing
        Where it begins.
    """

    def __init__(
        self, engine: Motions, span_s: float, start: Standing, begin_s: float
    ) -> None:
        self.engine = engine
        self.load = engine.system.load
        self.operations = self.load.operations
        self.field = engine.field
        period = engine.edges[-1]
        self.base = floor(begin_s / period) * period
        self.t = begin_s
        self.begin_s = begin_s
        self.end = begin_s + span_s
        self.segment = bisect_right(engine.edges, begin_s - self.base) - 1
        self.segment = min(max(self.segment, 0), len(engine.levels) - 1)
        self.segment_end = self.base + engine.edges[self.segment + 1]
        self.level = engine.levels[self.segment]
        self.q = start.charge_c
        self.charging = start.charging
        self.stage = "on" if start.connected else "off"
        self.start_k = 0
        self.phase_end = inf
        self.retry_at = -inf
        self.clock = Clock(self.operations, engine.averaged, engine.system.light.begins_at_s)
        self.ready = [
            (j, self.field.charge_at(op.schedule.ready_v))
            for j, op in enumerate(self.operations)
            if isinstance(op.schedule, WhenReady)
        ]
        """Operations that wait for a charge, and that charge. [C]"""
        self.tally = Tally(served=[0.0] * len(self.operations))
        self.legs: list[Leg] = []
        self.events: list[Event] = []
        self.first_operation = inf
        self.first_connects = 0.0
        self.noted_at, self.at_once = -inf, 0
        """When something happened last, and how much happened at that moment before. [s]"""
        self._followed_at: object = None
        self._followed: Followed
        self._go_on(start)

    def _go_on(self, start: Standing) -> None:
        """Take up what the device was about."""
        pending = start.pending
        if pending is None:
            if start.connected:
                self.clock.start(self.t)
            return
        if pending.retry_s > 0.0:
            self.retry_at = self.t + pending.retry_s
        if not start.connected:
            return
        if pending.start_up is not None:
            self.stage, self.start_k = "start", pending.start_up[0]
            self.phase_end = self.t + pending.start_up[1]
            return
        self.clock.resume(self.t, pending.starts_s, pending.running)

    def standing(self) -> Standing:
        """Where it stands now."""
        starts_s, running = self.clock.pending(self.t)
        start_up = (self.start_k, self.phase_end - self.t) if self.stage == "start" else None
        return Standing(
            charge_c=self.q,
            connected=self.stage != "off",
            charging=self.charging,
            pending=Pending(
                starts_s=starts_s, running=running, start_up=start_up,
                retry_s=max(self.retry_at - self.t, 0.0),
            ),
        )

    def draw(self) -> DrawKey:
        """Names the present draw."""
        if self.stage == "on":
            return On(self.clock.small, self.clock.busy)
        return OFF if self.stage == "off" else StartUp(self.start_k)

    def motions(self) -> Followed:
        """What the store follows now."""
        level, clock = self.level, self.clock
        now = (level, self.charging, self.stage, self.start_k, clock.small, clock.busy)
        # Mostly as it was before the last leg, and otherwise found by plain tuples: keys are slow.
        if now == self._followed_at:
            return self._followed
        where = (level.low_a, *now[1:])
        low = self.engine.found.get(where) or self._find(level.low_a, where)
        found: Followed = (low, low, low)
        if not level.exact:
            where = (level.high_a, *now[1:])
            high = self.engine.found.get(where) or self._find(level.high_a, where)
            found = (low, high, BlendedMotion(low, high, level.weight))
        self._followed_at, self._followed = now, found
        return found

    def _find(self, photocurrent_a: float, where: object) -> Motion:
        found = self.engine.motion(photocurrent_a, self.charging, self.draw())
        self.engine.found[where] = found
        return found

    @property
    def waits_to_retry(self) -> bool:
        """Whether the load is off and may not connect yet, whatever the voltage."""
        return self.stage == "off" and self.retry_at > self.t + TIME_GRAIN_S

    # ---- what it leaves behind -----------------------------------------------------------

    def _note(self, kind: str) -> None:
        self.at_once = self.at_once + 1 if self.t == self.noted_at else 0
        self.noted_at = self.t
        self._remember(Event(self.t - self.begin_s, kind, self.q))

    def _remember(self, event: Event) -> None:
        """Keep an event, unless there are too many to look at."""
        if len(self.events) < MAX_EVENTS:
            self.events.append(event)

    def _add(
        self, end_s: float, end_c: float, low: Motion, high: Motion,
        cycles: tuple[Cycle, Cycle] | None = None, repeated: Repeats | None = None,
    ) -> None:
        """Add a leg and go to its end."""
        if end_s > self.t:
            self.legs.append(NEW(Leg, (
                self.t - self.begin_s, end_s - self.begin_s, self.q, end_c, self.level,
                self.charging, self.stage != "off", low, high, cycles, repeated,
            )))
        self.t, self.q = end_s, end_c

    def _count(self, duration: float) -> None:
        """Count a stretch of time in the present state."""
        if self.stage != "off":
            self.tally.connected_s += duration
            if self.stage == "on":
                for j in self.clock.small:
                    self.tally.served[j] += duration / self.clock.interval_s(j)
        if not self.charging:
            self.tally.full_s += duration

    def _pass(self, skip: Skip) -> None:
        """Pass over what repeats."""
        low, high, _ = self.motions()
        begin_s = self.t
        for stride in skip.strides:
            self.charging = stride.charging
            pair = (low, high) if stride.motion is None else (stride.motion, stride.motion)
            cycles = None if stride.cycle is None else (stride.cycle, stride.cycle)
            self._add(self.t + stride.seconds, stride.end_c, *pair, cycles, stride.repeats)
        self.tally.add(skip.gain)
        for operation, count in skip.starts:
            self.clock.pass_starts(operation, count)
        if skip.phases_move:
            self.clock.shift(self.t - begin_s)
            self.phase_end += self.t - begin_s
        if skip.retry_moves:
            self.retry_at += self.t - begin_s

    def _copy(
        self, begin_c: float, first_leg: int, first_event: int, before: Tally, length_s: float,
        count: int,
    ) -> None:
        """Let what came since a moment come again so often, leg by leg, with all that is due."""
        # It left all as it found it, but for rounding, which would count as taken at a connect.
        self.q = begin_c
        self.legs[-1] = self.legs[-1]._replace(end_c=begin_c)
        inner, happened = self.legs[first_leg:], self.events[first_event:]
        for times in range(1, count + 1):
            later_s = times * length_s
            # A year copies thousands: times come first in a leg, and the rest of it stays.
            self.legs += [
                NEW(Leg, (a + later_s, b + later_s, c, d, e, f, g, h, i, j, k))
                for a, b, c, d, e, f, g, h, i, j, k in inner
            ]
            for event in happened:
                self._remember(event._replace(time_s=event.time_s + later_s))
        self.tally.add(self.tally.since(before, count, count))
        passed_s = count * length_s
        self.t += passed_s
        self.base += passed_s
        self.segment_end += passed_s
        self.retry_at += passed_s
        self.clock.shift(passed_s)
        self.clock.look(self.t)

"""One march through time: from threshold to threshold, never through small steps.

Between two events (light changes, a phase ends, a threshold is met) the store moves along one
exact `Flow`. Pulses that are small against the store are taken many cycles at a time, large ones
one by one. A course that returns to the same event in the same light repeats itself and is
skipped over whole (`explorer.engine.repeats`).
"""

from __future__ import annotations

from math import floor, inf
from typing import TYPE_CHECKING

import numpy as np

from explorer.engine import repeats as turns
from explorer.engine.course import Event, Leg, Repeats, Standing, StopAt, Tally, Trajectory
from explorer.engine.cycles import Cycle
from explorer.engine.keys import OFF, DrawKey, On, StartUp
from explorer.engine.levels import BlendedMotion, Motion
from explorer.engine.schedule import TIME_GRAIN_S, Clock
from explorer.engine.system import WhenReady
from explorer.physics.load import inrush_charge

if TYPE_CHECKING:
    from explorer.engine.motions import Engine

MAX_LEGS = 400_000
MAX_EVENTS = 4000
MOST_TRIES = 2000
"""Failed start-ups after which a first operation is no longer waited for."""

Motions = tuple[Motion, Motion, Motion | BlendedMotion]


class Run:
    """One march in progress.

    Parameters
    ----------
    engine : Engine
        The system's motions.
    span_s, begin_s : float
        Length of the run and time within the light's course at which it begins. [s]
    start : Standing
        Where it begins.
    longest_leg_s : float
        Legs that are built by doubling are cut to this length. [s]
    """

    def __init__(
        self, engine: Engine, span_s: float, start: Standing, begin_s: float, longest_leg_s: float
    ) -> None:
        self.engine = engine
        self.load = engine.system.load
        self.operations = self.load.operations
        self.field = engine.field
        self.longest_leg_s = longest_leg_s
        period = engine.edges[-1]
        self.base = floor(begin_s / period) * period
        self.t = begin_s
        self.begin_s = begin_s
        self.end = begin_s + span_s
        self.segment = int(np.searchsorted(engine.edges, begin_s - self.base, side="right")) - 1
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
        self.seen: dict[object, turns.Seen] = {}
        full_c = self.field.full_c
        self.scale_c = full_c if full_c < inf else float(self.field.charge_c[-1])
        """Charge that changes are measured against. [C]"""
        self.pulses_walked = 0
        self.most_legs = MAX_LEGS
        self.new_period = False
        """Whether a period of the light has just begun."""
        self.period: turns.Period | None = None
        """How the last one began."""
        self.stop_at: StopAt | None = None
        self._followed: dict[object, Motions] = {}
        self._cycles: dict[object, tuple[Cycle, Motion]] = {}
        if start.connected:
            self.clock.start(self.t)

    # ---- the loop ------------------------------------------------------------------------

    def go(self, stop_at: StopAt | None, most_legs: int) -> Trajectory:
        """March to the end."""
        self.stop_at, self.most_legs = stop_at, most_legs
        while self.t < self.end - TIME_GRAIN_S:
            if stop_at is not None and self._happened(stop_at):
                break
            if len(self.legs) > most_legs:
                break
            self._pass_edges()
            if self.new_period:
                self.new_period = False
                turns.repeat_periods(self)
                continue
            motions = self.motions()
            if self._switch(motions[2]):
                continue
            if not self.level.exact and self._cruise():
                continue
            if self.stage == "on" and (self._take_cycles() or self._begin_due()):
                continue
            self._move(motions)
        state = Standing(charge_c=self.q, connected=self.stage != "off", charging=self.charging)
        return Trajectory(
            self.legs,
            self.events,
            self.tally,
            state,
            self.t - self.begin_s,
            self.first_operation - self.begin_s,
        )

    def _begin_due(self) -> bool:
        """Begin the operations whose time has come; True where something changed."""
        clock, fast = self.clock, self.clock.fast
        alone = fast is not None and self.engine.compose and self.level.exact and not clock.busy
        if alone and self.t + TIME_GRAIN_S >= clock.next_start[fast] and (  # type: ignore[index]
            turns.repeat_pulses(self, fast)  # type: ignore[arg-type]
        ):
            return True
        return clock.begin_due(self.t)

    def _happened(self, what: StopAt) -> bool:
        if what is StopAt.FIRST_OPERATION:
            return self.first_operation < inf or self.tally.cut_offs >= MOST_TRIES
        return self.tally.cut_offs > 0 if what is StopAt.CUT_OFF else not self.charging

    def draw(self) -> DrawKey:
        """Names the present draw."""
        if self.stage == "on":
            return On(self.clock.small, self.clock.busy)
        return OFF if self.stage == "off" else StartUp(self.start_k)

    def motions(self) -> Motions:
        """Motions of the level's two neighbours, and the one that the store follows."""
        clock, level = self.clock, self.level
        # Plain tuples are found much faster than keys, and this is asked before every leg.
        where = (level, self.charging, self.stage, self.start_k, clock.small, clock.busy)
        found = self._followed.get(where)
        if found is None:
            draw = self.draw()
            low = self.engine.motion(level.low_a, self.charging, draw)
            if level.exact:
                found = low, low, low
            else:
                high = self.engine.motion(level.high_a, self.charging, draw)
                found = low, high, BlendedMotion(low, high, level.weight)
            self._followed[where] = found
        return found

    def _pass_edges(self) -> None:
        """Let the clock's own events happen: light, windows, ends of phases."""
        t = self.t + TIME_GRAIN_S
        while t >= self.segment_end:
            self.segment += 1
            if self.segment >= len(self.engine.levels):
                self.segment = 0
                self.base += self.engine.edges[-1]
                self.new_period = True
            self.segment_end = self.base + self.engine.edges[self.segment + 1]
            self.level = self.engine.levels[self.segment]
            self.seen.clear()
            self.pulses_walked = 0
        if self.stage == "start":
            while self.stage == "start" and t >= self.phase_end:
                self._next_start_phase()
        elif self.stage == "on":
            if t >= self.clock.window_edge:
                self.clock.look(self.t)
            if self.clock.busy:
                for j in self.clock.end_phases(self.t):
                    self.tally.served[j] += 1.0

    def _next_start_phase(self) -> None:
        self.start_k += 1
        if self.start_k < len(self.load.start_up):
            self.phase_end += self.load.start_up[self.start_k].duration_s
            return
        self.stage = "on"
        self.phase_end = inf
        self.tally.started += 1
        if self.first_operation == inf:
            self.first_operation = self.t
        self.clock.start(self.t)

    @property
    def waits_to_retry(self) -> bool:
        """Whether the load is off and may not connect yet, whatever the voltage."""
        return self.stage == "off" and self.retry_at > self.t + TIME_GRAIN_S

    # ---- thresholds ----------------------------------------------------------------------

    def _switch(self, motion: Motion | BlendedMotion) -> bool:
        """Let a threshold that is met take effect; True where something changed."""
        q, field = self.q, self.field
        if self.charging and q >= field.full_c:
            self.charging = False
            self._note("full")
            if self.stop_at is None and not turns.stay_full(self):
                turns.repeat(self, "full")
            return True
        if not self.charging and q <= field.resume_c:
            self.charging = True
            return True
        if self.stage == "off":
            if q >= motion.connect_c and self.engine.may_connect and not self.waits_to_retry:
                self._connect()
                return True
            return False
        if q <= motion.off_c:
            self._cut_off()
            return True
        if self.stage == "on" and self.ready and not self.clock.busy:
            for j, charge in self.ready:
                if q >= charge:
                    turns.repeat(self, ("ready", j))
                    self.clock.begin(j, self.t)
                    return True
        return False

    def _connect(self) -> None:
        self._note("connect")
        if turns.repeat(self, "connect"):
            return
        self.tally.connects += 1
        volts = float(self.field.voltage_at(self.q))
        regulator = self.load.regulator
        if regulator is not None:
            volts = min(volts, float(np.asarray(regulator.output_v)))
        self.q = max(self.q - float(inrush_charge(self.load.bulk_f, volts)), 0.0)
        self.stage, self.start_k = "start", -1
        self.phase_end = self.t
        self._next_start_phase()

    def _cut_off(self) -> None:
        busy = self.stage == "start" or bool(self.clock.busy)
        self._note("brown_out" if busy else "disconnect")
        self.tally.cut_offs += 1
        self.stage = "off"
        self.phase_end = inf
        self.clock.stop()
        self.retry_at = self.t + self.load.retry_delay_s

    def _note(self, kind: str) -> None:
        self.remember(Event(self.t - self.begin_s, kind, self.q))

    def remember(self, event: Event) -> None:
        """Keep an event, unless there are too many to look at."""
        if len(self.events) < MAX_EVENTS:
            self.events.append(event)

    # ---- legs ----------------------------------------------------------------------------

    def _move(self, motions: Motions) -> None:
        """One plain leg: to the next clock event or threshold."""
        low_m, high_m, motion = motions
        until = min(self.segment_end, self.end)
        low, high = -inf, inf
        if self.charging:
            high = self.field.full_c
        else:
            low = self.field.resume_c
        if self.stage == "off":
            if self.waits_to_retry:
                until = min(until, self.retry_at)
            elif self.engine.may_connect:
                high = min(high, motion.connect_c)
        else:
            low = max(low, motion.off_c)
            moment = self.phase_end if self.stage == "start" else self.clock.next_moment(self.t)
            until = min(until, moment)
            if self.stage == "on" and self.ready and not self.clock.busy:
                high = min(high, *(charge for _, charge in self.ready))
        q, used = motion.run(self.q, until - self.t, low, high)
        self.add(self.t + used if used < until - self.t else until, q, low_m, high_m)

    def add(
        self,
        end_s: float,
        end_c: float,
        low: Motion,
        high: Motion,
        *,
        cycles: tuple[Cycle, Cycle] | None = None,
        repeats: Repeats | None = None,
    ) -> None:
        """Add a leg and go to its end; a leg that repeats others is counted by its maker."""
        duration = end_s - self.t
        connected = self.stage != "off"
        if duration > 0:
            self.legs.append(
                Leg(
                    self.t - self.begin_s, end_s - self.begin_s, self.q, end_c, self.level,
                    self.charging, connected, low, high, cycles, repeats, self.segment,
                )
            )
            if repeats is None:
                self.count(duration)
        self.t, self.q = end_s, end_c

    def count(self, duration: float) -> None:
        """Count a stretch of time in the present state."""
        if self.stage != "off":
            self.tally.connected_s += duration
            if self.stage == "on":
                for j in self.clock.small:
                    interval = self.operations[j].schedule.interval_s  # type: ignore[union-attr]
                    self.tally.served[j] += duration / interval
        if not self.charging:
            self.tally.full_s += duration

    def _take_cycles(self) -> bool:
        """Take whole load cycles at once; False where the store must be walked."""
        clock, fast = self.clock, self.clock.fast
        if fast is None or clock.busy or not self.engine.compose or not self.level.exact:
            return False
        if clock.next_start[fast] > self.t + 2 * TIME_GRAIN_S:
            return False
        interval = self.operations[fast].schedule.interval_s  # type: ignore[union-attr]
        until = min(self.segment_end, self.end, clock.others_due(), clock.window_edge)
        at_most = floor((until - self.t) / interval + 1e-9)
        if at_most < 1:
            return False
        where = (self.level, self.charging, clock.small, fast)
        if where not in self._cycles:
            level = self.level.low_a
            self._cycles[where] = (
                self.engine.cycle(level, self.charging, clock.small, fast),
                self.engine.motion(level, self.charging, On(clock.small)),
            )
        cycle, motion = self._cycles[where]
        span = cycle.smooth_span(self.q)
        if span is not None:
            low, high = self._inside(span)
            flow = cycle.generator
            _, used = flow.run(self.q, at_most * interval, low, high)
            count = min(floor(used / interval + 1e-9), at_most)
            end_c = flow.advance(self.q, count * interval)
        else:
            whole = cycle.whole_span(self.q)
            if whole is None:
                return False
            low, high = self._inside(whole)
            if self.longest_leg_s < inf:
                at_most = min(at_most, max(1, floor(self.longest_leg_s / interval)))
            end_c, count = cycle.leap(self.q, at_most, low, high)
        if count < 1:
            return False
        self.add(self.t + count * interval, end_c, motion, motion, cycles=(cycle, cycle))
        self.tally.served[fast] += count
        clock.after_cycles(fast, self.t)
        return True

    def _inside(self, span: tuple[float, float]) -> tuple[float, float]:
        low, high = span
        if self.charging:
            high = min(high, self.field.full_c)
        else:
            low = max(low, self.field.resume_c)
        for _, charge in self.ready:
            high = min(high, charge)
        return low, high

    def _cruise(self) -> bool:
        """Run through the readings of a log in one go, until something else happens.

        Pulses are taken along the generator, in fractions of a cycle. False where the store
        must be walked.
        """
        clock, on = self.clock, self.stage == "on"
        if self.stage == "start" or clock.busy or (on and self.ready):
            return False
        if self.waits_to_retry:
            return False
        fast, limit = None, self.end
        if on:
            fast = clock.fast
            if fast is not None and not self.engine.compose:
                return False
            limit = min(limit, clock.others_due(), clock.window_edge)
        draw = self.draw()
        engine, begin_t = self.engine, self.t
        stretches = engine.stretches(self.charging, draw, fast)
        edges, levels, last = engine.edges, engine.levels, len(engine.levels) - 1
        charging, offset = self.charging, self.begin_s
        t, q, segment, base = self.t, self.q, self.segment, self.base
        segment_end = self.segment_end
        while t < limit - TIME_GRAIN_S:
            found = stretches[segment]
            if found is None:
                found = engine.make_stretch(segment, charging, draw, fast)
                stretches[segment] = found
            if not found.low < q < found.high:
                break
            until = segment_end if segment_end < limit else limit
            to, used = found.flow.run(q, until - t, found.low, found.high)
            met = used < until - t
            end = t + used if met else until
            self.legs.append(
                Leg(
                    t - offset, end - offset, q, to, levels[segment], charging, on,
                    found.low_motion, found.high_motion, found.cycles, None, segment,
                )
            )
            t, q = end, to
            if met:
                break
            if t >= segment_end - TIME_GRAIN_S:
                segment += 1
                if segment > last:
                    segment, base = 0, base + edges[-1]
                    self.new_period = True
                segment_end = base + edges[segment + 1]
                if self.new_period:
                    break
        if t <= begin_t:
            return False
        if segment != self.segment or base != self.base:
            self.seen.clear()
        self.t, self.q, self.segment, self.base = t, q, segment, base
        self.segment_end, self.level = segment_end, levels[segment]
        self.count(t - begin_t)
        if fast is not None:
            self.tally.served[fast] += clock.catch_up(fast, t)
        return True

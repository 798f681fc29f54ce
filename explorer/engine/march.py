"""March a store through time: from threshold to threshold, never through small steps.

Between two events (light changes, a phase ends, a threshold is met) the store moves along one
exact `Flow`. Pulses that are small against the store are taken many cycles at a time, large ones
one by one. A course that returns to the same event in the same light repeats itself and is
skipped over whole.
"""

from __future__ import annotations

from math import ceil, floor, inf

import numpy as np

from explorer.engine.cycle import Cycle, CyclePhase
from explorer.engine.field import Field
from explorer.engine.illumination import (
    BlendedFlow,
    BlendedMotion,
    Level,
    Motion,
    Stretch,
    timeline,
)
from explorer.engine.legs import Event, Key, Leg, State, Tally, Trajectory
from explorer.engine.system import WEEK_S, Operation, Periodic, Phase, System, WhenReady
from explorer.physics.load import Draw, drawn_current, inrush_charge, terminal_voltage

AVERAGED_BELOW_V = 1e-4
"""A run of an operation that moves the store less than this is spread over its interval. [V]"""
AVERAGED_IN_LOG_V = 1e-3
"""The same under a measured log, whose readings blur single pulses anyway. [V]"""
OFF: Key = ("off",)
MAX_LEGS = 400_000
MAX_EVENTS = 4000
MOST_TRIES = 2000
"""Failed start-ups after which a first operation is no longer waited for."""
SKIP_TURNS = 3
"""Fewest turns between full and resume that are skipped at once."""
TIME_GRAIN_S = 1e-9
REPEAT_DRIFT = 1e-4
"""Largest relative change of charge from one turn of a repeating course to the next that is
followed without a look at the turn before."""
EVEN = 0.02
"""Two turns whose length and drift differ by less than this share are even."""
REPEAT_REACH = 0.02
"""How far an even drift is followed, as a share of a full store."""


class Engine:
    """A system made ready to be marched; tables are built when first needed and kept."""

    def __init__(self, system: System, *, nodes: int = 400, compose: bool = True) -> None:
        self.system = system
        self.field = Field(system, nodes)
        self.compose = compose
        course = timeline(self.field)
        self.levels, self.edges = course.levels, course.edges_s
        self.illuminance_lx = course.illuminance_lx
        self.charge_a = course.charge_a
        self._motions: dict[object, Motion] = {}
        self._cycles: dict[object, Cycle] = {}
        self._stretches: dict[object, list[Stretch | None]] = {}
        self.may_connect = True
        self.averaged = tuple(self._is_small(op) for op in system.load.operations)

    def _is_small(self, operation: Operation) -> bool:
        """Whether one run of an operation moves the store by less than `AVERAGED_BELOW_V`."""
        if not self.compose or not isinstance(operation.schedule, Periodic):
            return False
        load, field = self.system.load, self.field
        # Where the voltage bends most with charge: a cell's curve is flat in one place only.
        charge = field.charge_c[field.open_v >= min(load.off_v, field.open_v[-1])]
        taken = np.minimum(self.charge_of(operation), charge)
        moved = np.max(field.voltage_at(charge) - field.voltage_at(charge - taken))
        steady = all(level.exact for level in self.levels)
        return bool(moved < (AVERAGED_BELOW_V if steady else AVERAGED_IN_LOG_V))

    def charge_of(self, operation: Operation) -> float:
        """About the charge that one run of an operation takes, at the cut-off voltage. [C]"""
        volts = max(self.system.load.off_v, 0.3)
        return sum(float(drawn_current(p.draw, volts)) * p.duration_s for p in operation.phases)

    # ---- motions -------------------------------------------------------------------------

    def motion(self, photocurrent_a: float, charging: bool, key: Key) -> Motion:
        """Motion at one exact light level; `key` is OFF, ("start", k) or ("on", small, active)."""
        where = (photocurrent_a, charging, key)
        found = self._motions.get(where)
        if found is None:
            found = self._make_motion(photocurrent_a, charging, key)
            self._motions[where] = found
        return found

    def _make_motion(self, photocurrent_a: float, charging: bool, key: Key) -> Motion:
        field, load = self.field, self.system.load
        regime = field.regime(photocurrent_a, charging, key, self._draw(key))
        if key == OFF:
            connect = regime.charge_at_terminal(field, load.connect_v)
            return Motion(regime.flow, regime, -inf, connect)
        off = regime.charge_at_terminal(field, load.off_v)
        flow, averaged = regime.flow, None
        small = key[1] if key[0] == "on" else ()
        if small:
            drawn, lowest = regime.drawn_a, regime.terminal_v
            speed = regime.flow.speed.copy()
            idle = field.regime(0.0, False, ("on", (), ()), load.sleep)
            for j in small:  # type: ignore[attr-defined]
                operation = load.operations[j]
                interval = operation.schedule.interval_s  # type: ignore[union-attr]
                for k, phase in enumerate(operation.phases):
                    busy = field.regime(
                        0.0, False, ("on", (), ((j, k),)), load.sleep + phase.draw
                    )
                    share = phase.duration_s / interval
                    speed += (busy.flow.speed - idle.flow.speed) * share
                    drawn = drawn + (busy.drawn_a - idle.drawn_a) * share
                    at_terminal = terminal_voltage(
                        field.side_v,
                        regime.charge_a,
                        load.sleep + phase.draw + field.quiescent,
                        field.curve.esr_ohm,
                    )
                    lowest = np.minimum(lowest, at_terminal)
                    off = max(off, busy.charge_at_terminal(field, load.off_v))
            speed[0] = max(speed[0], 0.0)
            flow, averaged = type(flow)(field.charge_c, speed), (drawn, lowest)
        return Motion(flow, regime, off, inf, averaged)

    def _draw(self, key: Key) -> Draw:
        load = self.system.load
        if key == OFF:
            return Draw()
        if key[0] == "start":
            return load.start_up[key[1]].draw  # type: ignore[index]
        draw = load.sleep
        for j, k in key[2]:  # type: ignore[attr-defined]
            draw = draw + load.operations[j].phases[k].draw
        return draw

    def cycle(
        self, photocurrent_a: float, charging: bool, small: tuple[int, ...], fast: int
    ) -> Cycle:
        """The composed cycle of one operation at one exact light level."""
        where = (photocurrent_a, charging, small, fast)
        found = self._cycles.get(where)
        if found is None:
            operation = self.system.load.operations[fast]
            keys: list[tuple[Key, float]] = [
                (("on", small, ((fast, k),)), p.duration_s)
                for k, p in enumerate(operation.phases)
            ]
            rest = operation.schedule.interval_s - operation.duration_s  # type: ignore[union-attr]
            keys.append((("on", small, ()), rest))
            phases = []
            for key, duration in keys:
                motion = self.motion(photocurrent_a, charging, key)
                phases.append(
                    CyclePhase(motion.flow, motion.terminal_min_v, motion.drawn_a, duration)
                )
            field = self.field
            found = Cycle(
                phases,
                field.open_v,
                self.system.load.off_v,
                -inf if charging else field.resume_c,
                field.full_c if charging else inf,
            )
            self._cycles[where] = found
        return found

    def stretches(self, charging: bool, key: Key, fast: int | None) -> list[Stretch | None]:
        """Stretches of a log that were made so far, one place for each reading."""
        return self._stretches.setdefault((charging, key, fast), [None] * len(self.levels))

    def make_stretch(
        self, segment: int, charging: bool, key: Key, fast: int | None
    ) -> Stretch:
        """One reading of a log, with the bounds within which its motion holds."""
        level, field = self.levels[segment], self.field
        low_motion = self.motion(level.low_a, charging, key)
        high_motion = low_motion if level.exact else self.motion(level.high_a, charging, key)
        flow: Flow | BlendedFlow
        low, high = (-inf, field.full_c) if charging else (field.resume_c, inf)
        cycles = None
        if fast is None:
            motion = (
                low_motion if level.exact
                else BlendedMotion(low_motion, high_motion, level.weight)
            )
            flow = motion.flow
            low = max(low, motion.off_c)
            if self.may_connect:
                high = min(high, motion.connect_c)
        else:
            small: tuple[int, ...] = key[1]  # type: ignore[assignment]
            first = self.cycle(level.low_a, charging, small, fast)
            second = first if level.exact else self.cycle(level.high_a, charging, small, fast)
            cycles = (first, second)
            flow = first.generator if level.exact else BlendedFlow(
                first.generator, second.generator, level.weight
            )
            a, b = first.widest_span, second.widest_span
            low, high = max(low, a[0], b[0]), min(high, a[1], b[1])
        return Stretch(flow, low, high, low_motion, high_motion, cycles)

    # ---- runs ----------------------------------------------------------------------------

    def initial_state(self) -> State:
        """The state in which the scenario begins."""
        return State(charge_c=self.system.initial_charge_c, connected=False)

    def march(
        self,
        span_s: float,
        start: State | None = None,
        *,
        begin_s: float = 0.0,
        stop_at: str = "",
        longest_leg_s: float = inf,
        most_legs: int = MAX_LEGS,
    ) -> Trajectory:
        """Run for a span of time.

        Parameters
        ----------
        span_s : float
            Length of the run. [s]
        start : State, optional
            Where it begins; the scenario's own beginning when left out.
        begin_s : float
            Time within the light course at which it begins. [s]
        stop_at : str
            End as soon as this happens: "operation" (a start-up is completed), "cut_off" or
            "full"; empty to run on.
        longest_leg_s : float
            Legs that are built by doubling are cut to this length, for drawing. [s]
        most_legs : int
            End after this many legs; the trajectory's span tells how far it came.
        """
        run = _Run(self, span_s, start or self.initial_state(), begin_s, longest_leg_s)
        return run.go(stop_at, most_legs)

    def dark(self) -> Engine:
        """The same system in the dark for ever, with the tables that it shares kept."""
        twin = object.__new__(Engine)
        twin.__dict__.update(self.__dict__)
        twin.levels = [Level(0.0, 0.0, 0.0)]
        twin.edges = [0.0, WEEK_S]
        twin._stretches = {}
        twin.illuminance_lx = np.zeros(1)
        return twin

    def unloaded(self) -> Engine:
        """The same system with the load switch held open."""
        twin = object.__new__(Engine)
        twin.__dict__.update(self.__dict__)
        twin.may_connect = False
        twin._stretches = {}
        return twin

    def at_level(self, photocurrent_a: float) -> Engine:
        """The same system at one light level for ever."""
        twin = self.dark()
        twin.levels = [Level(photocurrent_a, photocurrent_a, 0.0)]
        return twin


class _Run:
    """One march in progress."""

    def __init__(
        self, engine: Engine, span_s: float, start: State, begin_s: float, longest_leg_s: float
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
        self.turn = 0
        self.level = engine.levels[self.segment]
        self.q = start.charge_c
        self.charging = start.charging
        self.stage = "on" if start.connected else "off"
        self.start_k = 0
        self.phase_end = inf
        self.retry_at = -inf
        n = len(self.operations)
        self.next_start = [inf] * n
        self.active: list[tuple[int, float] | None] = [None] * n
        self.small: tuple[int, ...] = ()
        self.window_edge = inf
        self.tally = Tally(served=[0.0] * n)
        self.legs: list[Leg] = []
        self.events: list[Event] = []
        self.first_operation = inf
        self.seen: dict[object, tuple[float, float, int, Tally, float, float]] = {}
        self.offset = engine.system.light.begins_at_s
        self.stop_at = ""
        if start.connected:
            self._schedule_all()

    # ---- schedule ------------------------------------------------------------------------

    def _schedule_all(self) -> None:
        """Begin every operation's schedule now, as after a start-up."""
        self.active = [None] * len(self.operations)
        for j, op in enumerate(self.operations):
            self.next_start[j] = (
                self._open_from(op.schedule, self.t)
                if isinstance(op.schedule, Periodic) and not self.engine.averaged[j]
                else inf
            )
        self._refresh_windows()

    def _refresh_windows(self) -> None:
        """Which averaged operations are due now, and when that may change."""
        small, edge = [], inf
        for j, op in enumerate(self.operations):
            schedule = op.schedule
            if not isinstance(schedule, Periodic):
                continue
            if schedule.always:
                if self.engine.averaged[j]:
                    small.append(j)
                continue
            opens = self._open_from(schedule, self.t)
            if opens <= self.t + TIME_GRAIN_S:
                if self.engine.averaged[j]:
                    small.append(j)
                edge = min(edge, self._close_after(schedule, self.t))
            else:
                edge = min(edge, opens)
        self.small = tuple(small)
        self.window_edge = edge

    def _week_time(self, t: float) -> tuple[float, float]:
        absolute = t + self.offset
        week = floor((absolute + TIME_GRAIN_S) / WEEK_S) * WEEK_S
        return week - self.offset, absolute - week

    def _open_from(self, schedule: Periodic, t: float) -> float:
        """Earliest time from t at which the schedule's window is open."""
        if schedule.always:
            return t
        week, inside = self._week_time(t)
        for begin, end in schedule.windows_s:
            if inside < end - TIME_GRAIN_S:
                return week + max(begin, inside) if begin > inside else t
        return week + WEEK_S + schedule.windows_s[0][0]

    def _close_after(self, schedule: Periodic, t: float) -> float:
        """Time at which the window that is open at t closes."""
        if schedule.always:
            return inf
        week, inside = self._week_time(t)
        for begin, end in schedule.windows_s:
            if begin - TIME_GRAIN_S <= inside < end - TIME_GRAIN_S:
                return week + end
        return t

    # ---- the loop ------------------------------------------------------------------------

    def go(self, stop_at: str, most_legs: int) -> Trajectory:
        """March to the end."""
        self.stop_at = stop_at
        while self.t < self.end - TIME_GRAIN_S:
            if stop_at and self._happened(stop_at):
                break
            if len(self.legs) > most_legs:
                break
            self._pass_edges()
            if self._switch():
                continue
            if not self.level.exact and self._cruise():
                continue
            if self.stage == "on" and (self._take_cycles() or self._begin_due()):
                continue
            self._move()
        state = State(charge_c=self.q, connected=self.stage != "off", charging=self.charging)
        return Trajectory(
            self.legs,
            self.events,
            self.tally,
            state,
            self.t - self.begin_s,
            self.first_operation - self.begin_s,
        )

    def _happened(self, what: str) -> bool:
        if what == "operation":
            return self.first_operation < inf or self.tally.cut_offs >= MOST_TRIES
        return self.tally.cut_offs > 0 if what == "cut_off" else not self.charging

    def _pass_edges(self) -> None:
        """Let the clock's own events happen: light, windows, ends of phases."""
        t = self.t + TIME_GRAIN_S
        while t >= self.segment_end:
            self.segment += 1
            if self.segment >= len(self.engine.levels):
                self.segment = 0
                self.base += self.engine.edges[-1]
            self.turn += 1
            self.segment_end = self.base + self.engine.edges[self.segment + 1]
            self.level = self.engine.levels[self.segment]
            self.seen.clear()
        if self.stage == "start":
            while self.stage == "start" and t >= self.phase_end:
                self._next_start_phase()
        elif self.stage == "on":
            if t >= self.window_edge:
                self._refresh_windows()
            for j, running in enumerate(self.active):
                if running is not None and t >= running[1]:
                    self._next_phase(j, running)

    def _begin_due(self) -> bool:
        """Begin the operations whose time has come; True where the draw may have changed."""
        changed = False
        for j, due in enumerate(self.next_start):
            if self.t + TIME_GRAIN_S >= due and self.active[j] is None:
                self._begin(j)
                changed = True
        return changed

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
        self._schedule_all()

    def _begin(self, j: int) -> None:
        schedule = self.operations[j].schedule
        if isinstance(schedule, Periodic):
            opens = self._open_from(schedule, self.t)
            if opens > self.t + TIME_GRAIN_S:
                self.next_start[j] = opens
                return
            following = self.next_start[j] + schedule.interval_s
            if following >= self._close_after(schedule, self.t) - TIME_GRAIN_S:
                following = self._open_from(schedule, following)
            self.next_start[j] = following
        self.active[j] = (0, self.t + self.operations[j].phases[0].duration_s)

    def _next_phase(self, j: int, running: tuple[int, float]) -> None:
        k = running[0] + 1
        if k < len(self.operations[j].phases):
            self.active[j] = (k, running[1] + self.operations[j].phases[k].duration_s)
        else:
            self.active[j] = None
            self.tally.served[j] += 1.0

    def _key(self) -> Key:
        if self.stage == "off":
            return OFF
        if self.stage == "start":
            return ("start", self.start_k)
        busy = tuple((j, a[0]) for j, a in enumerate(self.active) if a is not None)
        return ("on", self.small, busy)

    def _motions(self, key: Key) -> tuple[Motion, Motion, Motion | BlendedMotion]:
        level, engine = self.level, self.engine
        low = engine.motion(level.low_a, self.charging, key)
        if level.exact:
            return low, low, low
        high = engine.motion(level.high_a, self.charging, key)
        return low, high, BlendedMotion(low, high, level.weight)

    def _switch(self) -> bool:
        """Let a threshold that is met take effect; True where something changed."""
        q, field = self.q, self.field
        if self.charging and q >= field.full_c:
            self.charging = False
            self._note("full")
            if not self.stop_at:
                self._stay_full()
            return True
        if not self.charging and q <= field.resume_c:
            self.charging = True
            return True
        _, _, motion = self._motions(self._key())
        if self.stage == "off":
            if (
                q >= motion.connect_c
                and self.engine.may_connect
                and self.t >= self.retry_at - TIME_GRAIN_S
            ):
                self._connect()
                return True
            return False
        if q <= motion.off_c:
            self._cut_off()
            return True
        if self.stage == "on":
            for j, op in enumerate(self.operations):
                if (
                    isinstance(op.schedule, WhenReady)
                    and self.active[j] is None
                    and q >= field.charge_at(op.schedule.ready_v)
                    and not any(self.active)
                ):
                    self._repeat(("ready", j))
                    self._begin(j)
                    return True
        return False

    def _connect(self) -> None:
        self._note("connect")
        if self._repeat("connect"):
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
        busy = self.stage == "start" or any(a is not None for a in self.active)
        self._note("brown_out" if busy else "disconnect")
        self.tally.cut_offs += 1
        self.stage = "off"
        self.phase_end = inf
        self.active = [None] * len(self.operations)
        self.next_start = [inf] * len(self.operations)
        self.retry_at = self.t + self.load.retry_delay_s

    def _note(self, kind: str) -> None:
        if len(self.events) < MAX_EVENTS:
            self.events.append(Event(self.t - self.begin_s, kind, self.q))

    # ---- legs ----------------------------------------------------------------------------

    def _move(self) -> None:
        """One plain leg: to the next clock event or threshold."""
        key = self._key()
        low_m, high_m, motion = self._motions(key)
        until = min(self.segment_end, self.end, self._next_clock())
        low, high = -inf, inf
        if self.charging:
            high = self.field.full_c
        else:
            low = self.field.resume_c
        if self.stage == "off":
            if self.retry_at > self.t + TIME_GRAIN_S:
                until = min(until, self.retry_at)
            elif self.engine.may_connect:
                high = min(high, motion.connect_c)
        else:
            low = max(low, motion.off_c)
            if self.stage == "on" and not any(self.active):
                for op in self.operations:
                    if isinstance(op.schedule, WhenReady):
                        high = min(high, self.field.charge_at(op.schedule.ready_v))
        q, used = motion.run(self.q, until - self.t, low, high)
        self._add(self.t + used if used < until - self.t else until, q, low_m, high_m)

    def _next_clock(self) -> float:
        if self.stage == "start":
            return self.phase_end
        if self.stage == "off":
            return inf
        soonest = self.window_edge
        for running in self.active:
            if running is not None and running[1] < soonest:
                soonest = running[1]
        for due in self.next_start:
            if due < soonest:
                soonest = due
        return max(soonest, self.t + TIME_GRAIN_S)

    def _add(
        self,
        end_s: float,
        end_c: float,
        low: Motion,
        high: Motion,
        *,
        cycles: tuple[Cycle, Cycle] | None = None,
        repeats: tuple[tuple[Leg, ...], float] | None = None,
    ) -> None:
        duration = end_s - self.t
        connected = self.stage != "off"
        if duration > 0:
            self.legs.append(
                Leg(
                    self.t - self.begin_s, end_s - self.begin_s, self.q, end_c, self.level,
                    self.charging, connected, low, high, cycles, repeats, self.segment,
                )
            )
            if connected and repeats is None:
                self.tally.connected_s += duration
                for j in self.small:
                    if self.stage == "on":
                        schedule = self.operations[j].schedule
                        self.tally.served[j] += duration / schedule.interval_s  # type: ignore[union-attr]
            if not self.charging and repeats is None:
                self.tally.full_s += duration
        self.t, self.q = end_s, end_c

    def _take_cycles(self) -> bool:
        """Take whole load cycles at once; False where the store must be walked."""
        if not self.engine.compose or any(self.active):
            return False
        fast, soonest_other = self._fast_operation()
        if fast is None:
            return False
        schedule = self.operations[fast].schedule
        assert isinstance(schedule, Periodic)
        interval = schedule.interval_s
        until = min(
            self.segment_end, self.end, soonest_other, self.window_edge,
            self._close_after(schedule, self.t),
        )
        level = self.level
        low_cycle = self.engine.cycle(level.low_a, self.charging, self.small, fast)
        key: Key = ("on", self.small, ())
        if not level.exact:
            return False
        if self.next_start[fast] > self.t + 2 * TIME_GRAIN_S:
            return False
        at_most = floor((until - self.t) / interval + 1e-9)
        if at_most < 1:
            return False
        span = low_cycle.smooth_span(self.q)
        if span is not None:
            low, high = self._inside(span)
            flow = low_cycle.generator
            _, used = flow.run(self.q, at_most * interval, low, high)
            count = min(floor(used / interval + 1e-9), at_most)
            end_c = flow.advance(self.q, count * interval)
        else:
            whole = low_cycle.whole_span(self.q)
            if whole is None:
                return False
            low, high = self._inside(whole)
            longest = max(1, floor(self.longest_leg_s / interval)) if self.longest_leg_s < inf else at_most
            end_c, count = low_cycle.leap(self.q, min(at_most, longest), low, high)
        if count < 1:
            return False
        motion = self.engine.motion(level.low_a, self.charging, key)
        self._add(
            self.t + count * interval, end_c, motion, motion, cycles=(low_cycle, low_cycle)
        )
        self._count_cycles(fast, schedule, count)
        return True

    def _cruise(self) -> bool:
        """Run through the readings of a log in one go, until something else happens.

        Pulses are taken along the generator, in fractions of a cycle. False where the store
        must be walked.
        """
        if self.stage == "start" or any(self.active) or self._waits_for_ready():
            return False
        if self.stage == "off" and self.retry_at > self.t + TIME_GRAIN_S:
            return False
        fast, limit = None, self.end
        if self.stage == "on":
            fast, other = self._fast_operation()
            if fast is not None and not self.engine.compose:
                return False
            limit = min(limit, other, self.window_edge)
        key = self._key()
        engine, begin_t = self.engine, self.t
        stretches = engine.stretches(self.charging, key, fast)
        edges, levels, last = engine.edges, engine.levels, len(engine.levels) - 1
        connected, charging, offset = self.stage != "off", self.charging, self.begin_s
        t, q, segment, base = self.t, self.q, self.segment, self.base
        segment_end = self.segment_end
        while t < limit - TIME_GRAIN_S:
            found = stretches[segment]
            if found is None:
                found = engine.make_stretch(segment, charging, key, fast)
                stretches[segment] = found
            if not found.low < q < found.high:
                break
            until = segment_end if segment_end < limit else limit
            to, used = found.flow.run(q, until - t, found.low, found.high)
            met = used < until - t
            end = t + used if met else until
            self.legs.append(
                Leg(
                    t - offset, end - offset, q, to, levels[segment], charging, connected,
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
                segment_end = base + edges[segment + 1]
        if t <= begin_t:
            return False
        if segment != self.segment or base != self.base:
            self.seen.clear()
        self.t, self.q, self.segment, self.base = t, q, segment, base
        self.segment_end, self.level = segment_end, levels[segment]
        duration = t - begin_t
        if not charging:
            self.tally.full_s += duration
        if connected:
            self.tally.connected_s += duration
            for j in self.small:
                self.tally.served[j] += duration / self.operations[j].schedule.interval_s  # type: ignore[union-attr]
            if fast is not None:
                self._catch_up(fast)
        return True

    def _waits_for_ready(self) -> bool:
        return self.stage == "on" and any(
            isinstance(op.schedule, WhenReady) for op in self.operations
        )

    def _inside(self, span: tuple[float, float]) -> tuple[float, float]:
        low, high = span
        if self.charging:
            high = min(high, self.field.full_c)
        else:
            low = max(low, self.field.resume_c)
        for op in self.operations:
            if isinstance(op.schedule, WhenReady):
                high = min(high, self.field.charge_at(op.schedule.ready_v))
        return low, high

    def _count_cycles(self, fast: int, schedule: Periodic, count: int) -> None:
        self.tally.served[fast] += count
        following = self.t
        if following >= self._close_after(schedule, following - schedule.interval_s) - 1e-6:
            following = self._open_from(schedule, following)
        self.next_start[fast] = following

    def _fast_operation(self) -> tuple[int | None, float]:
        """The most frequent operation that is due now, and when another one is due."""
        fast, shortest = None, inf
        for j, op in enumerate(self.operations):
            if (
                isinstance(op.schedule, Periodic)
                and not self.engine.averaged[j]
                and op.schedule.interval_s < shortest
                and self._open_from(op.schedule, self.t) <= self.t + TIME_GRAIN_S
            ):
                fast, shortest = j, op.schedule.interval_s
        others = min((s for j, s in enumerate(self.next_start) if j != fast), default=inf)
        return fast, others

    # ---- repeating courses ---------------------------------------------------------------

    def _stay_full(self) -> None:
        """Skip whole turns between full and resume while nothing else changes.

        With pulses the turn is an average one, so the place within the hysteresis band at the
        end is an estimate, good to about one pulse.
        """
        if not self.level.exact or self.stage == "start" or any(self.active):
            return
        fast, other, until = None, inf, min(self.segment_end, self.end)
        if self.stage == "on":
            fast, other = self._fast_operation()
            until = min(until, self.window_edge, other)
            if any(isinstance(op.schedule, WhenReady) for op in self.operations):
                return
        field, level = self.field, self.level.low_a
        # Pulses count with their mean: a turn may be much shorter than a cycle, and a cycle that
        # begins near full would run far beyond it.
        key: Key = self._key() if fast is None else ("on", (*self.small, fast), ())
        motions = [self.engine.motion(level, c, key) for c in (False, True)]
        flows = [m.flow for m in motions]
        cycles = []
        if fast is not None:
            if not self.engine.compose:
                return
            cycles = [self.engine.cycle(level, c, self.small, fast) for c in (False, True)]
        fall_s = flows[0].time_to(field.full_c, field.resume_c)
        rise_s = flows[1].time_to(field.resume_c, field.full_c)
        turn_s = fall_s + rise_s
        if not turn_s < inf:
            return
        turns = floor((until - self.t) / turn_s)
        if turns < SKIP_TURNS:
            return
        begin = self.t
        legs = tuple(
            Leg(
                a, b, p, q, self.level, c, self.stage != "off", m, m,
                (cycles[c], cycles[c]) if cycles else None, None, self.segment,
            )
            for a, b, p, q, c, m in (
                (0.0, fall_s, field.full_c, field.resume_c, False, motions[0]),
                (fall_s, turn_s, field.resume_c, field.full_c, True, motions[1]),
            )
        )
        self._add(
            begin + turns * turn_s, field.full_c, motions[0], motions[0],
            repeats=(legs, float(turns)),
        )
        self.tally.full_s += turns * fall_s
        if self.stage == "on":
            self.tally.connected_s += turns * turn_s
            for j in self.small:
                schedule = self.operations[j].schedule
                self.tally.served[j] += turns * turn_s / schedule.interval_s  # type: ignore[union-attr]
            if fast is not None:
                self._catch_up(fast)

    def _catch_up(self, j: int) -> None:
        """Count the runs whose start has passed and set the next start."""
        late = self.t - self.next_start[j]
        if late >= 0:
            interval = self.operations[j].schedule.interval_s  # type: ignore[union-attr]
            done = floor(late / interval) + 1
            self.tally.served[j] += done
            self.next_start[j] += done * interval

    def _repeat(self, event: object) -> bool:
        """Skip whole turns of a course that has come back to the same event in the same light."""
        clocked = any(s < inf for s in self.next_start) and self.stage == "on"
        if clocked or (self.stage == "on" and event == "full" and any(self.active)):
            return False
        # While off no window is watched, but the turn to come may run into one that opens or closes.
        if self.stage != "on":
            self._refresh_windows()
        limit = min(self.segment_end, self.end, self.window_edge)
        where = (event, self.stage, self.charging, self.small, self.window_edge)
        before = self.seen.get(where)
        turn_s, drift_c = (
            (self.t - before[0], self.q - before[1]) if before is not None else (0.0, 0.0)
        )
        self.seen[where] = (self.t, self.q, len(self.legs), _copy(self.tally), turn_s, drift_c)
        if before is None or turn_s <= 0.0:
            return False
        turns = floor((limit - self.t) / turn_s) - 1
        scale = self.field.full_c if self.field.full_c < inf else self.field.charge_c[-1]
        if abs(drift_c) > 1e-9 * scale:
            # A slow drift may be followed for a while; a faster one must be seen to be even.
            even = event == "connect" and (
                abs(turn_s - before[4]) <= EVEN * turn_s
                and abs(drift_c - before[5]) <= EVEN * abs(drift_c)
            )
            if abs(drift_c) > REPEAT_DRIFT * scale and not even:
                return False
            reach = REPEAT_REACH if even else 20 * REPEAT_DRIFT
            turns = min(turns, floor(reach * scale / abs(drift_c)))
            # No further than to where the next turn would no longer begin.
            turns = floor(min(turns, (self._turn_end(event, drift_c) - self.q) / drift_c))
        if turns < 2:
            return False
        first, last, tally = before[2], len(self.legs), before[3]
        _scale(self.tally, tally, turns)
        any_motion = self._motions(self._key())
        end_s = self.t + turns * turn_s
        retry = self.retry_at - self.t
        self._add(
            end_s, self.q + turns * drift_c, any_motion[0], any_motion[1],
            repeats=(tuple(self.legs[first:last]), float(turns)),
        )
        self.retry_at = end_s + retry if retry > -inf else -inf
        self.seen.clear()
        return True


    def _turn_end(self, event: object, drift_c: float) -> float:
        """Charge up to which a course that drifts goes on repeating. [C]"""
        if drift_c > 0.0:
            return self.field.full_c if self.charging else inf
        if isinstance(event, tuple):
            ready = self.operations[event[1]].schedule
            assert isinstance(ready, WhenReady)
            return self.field.charge_at(ready.ready_v)
        return -inf


def _copy(tally: Tally) -> Tally:
    return Tally(
        served=list(tally.served),
        connects=tally.connects,
        cut_offs=tally.cut_offs,
        connected_s=tally.connected_s,
        full_s=tally.full_s,
        started=tally.started,
    )


def _scale(tally: Tally, before: Tally, turns: float) -> None:
    """Add what happened since `before` another `turns` times."""
    tally.served = [
        now + turns * (now - then) for now, then in zip(tally.served, before.served, strict=True)
    ]
    for name in ("connects", "cut_offs", "connected_s", "full_s", "started"):
        now, then = getattr(tally, name), getattr(before, name)
        setattr(tally, name, now + turns * (now - then))


__all__ = ["AVERAGED_BELOW_V", "Engine", "Phase", "ceil"]

"""A system made ready to be marched: its motions and cycles, built when first needed and kept.

The march itself, from threshold to threshold, is in `explorer.engine.walk`.
"""

from __future__ import annotations

from copy import copy
from math import inf

import numpy as np

from explorer.engine.course import OFF, Key, State, Trajectory
from explorer.engine.cycles import Cycle, CyclePhase
from explorer.engine.flows import Flow
from explorer.engine.levels import (
    BlendedFlow,
    BlendedMotion,
    Level,
    Motion,
    Stretch,
    timeline,
)
from explorer.engine.speeds import Field
from explorer.engine.system import WEEK_S, Operation, Periodic, System
from explorer.engine.walk import MAX_LEGS, Run
from explorer.physics.charger import Converter
from explorer.physics.load import Draw, drawn_current, terminal_voltage

AVERAGED_BELOW_V = 1e-4
"""A run of an operation that moves the store less than this is spread over its interval. [V]"""
AVERAGED_IN_LOG_V = 1e-3
"""The same under a measured log, whose readings blur single pulses anyway. [V]"""


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
            level, charges = self._effective(photocurrent_a, charging)
            if (level, charges) != (photocurrent_a, charging):
                # A copy shares its tables but says of which light it is: the ledger needs that.
                found = copy(self.motion(level, charges, key))
            else:
                found = self._make_motion(photocurrent_a, charging, key)
            self._motions[where] = found
        return found

    def _effective(self, photocurrent_a: float, charging: bool) -> tuple[float, bool]:
        """Light and charger state that give the same motion: without charge, light is nothing."""
        dark = photocurrent_a == 0.0 and isinstance(self.system.charger, Converter)
        return (0.0, False) if dark or not charging else (photocurrent_a, charging)

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
                interval = operation.schedule.interval_s
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
            assert isinstance(key[1], int)
            return load.start_up[key[1]].draw
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
            field = self.field
            # Just below full: at the very top of its range a store stays, never seen full.
            low, high = (
                (-inf, field.full_c * (1.0 - 1e-12)) if charging else (field.resume_c, inf)
            )
            found = self._unbounded(*self._effective(photocurrent_a, charging), small, fast)
            found = found.bounded(low, high)
            self._cycles[where] = found
        return found

    def _unbounded(
        self, photocurrent_a: float, charging: bool, small: tuple[int, ...], fast: int
    ) -> Cycle:
        where = ("unbounded", photocurrent_a, charging, small, fast)
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
            found = Cycle(phases, self.field.open_v, self.system.load.off_v)
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
        run = Run(self, span_s, start or self.initial_state(), begin_s, longest_leg_s)
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

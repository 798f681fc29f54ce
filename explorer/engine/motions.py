"""What a march moves along: motions and cycles of a system, built when first needed and kept."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from math import inf
from weakref import ref

import numpy as np

from explorer.engine.course import Allowance, Walked
from explorer.engine.cycles import Cycle, tabulated
from explorer.engine.days import alike_days
from explorer.engine.flows import Flow
from explorer.engine.keys import OFF, CycleKey, DrawKey, MotionKey, Off, On, StartUp
from explorer.engine.levels import RUNGS, BlendedMotion, Level, Motion, Pair, timeline
from explorer.engine.library import Library, frozen
from explorer.engine.passes import CyclePhase, Passes
from explorer.engine.speeds import Field
from explorer.engine.system import LEAST_LOAD_V, Operation, Periodic, Phase, System
from explorer.physics.charger import Converter
from explorer.physics.load import Draw, drawn_current, inrush_charge, terminal_voltage

AVERAGED_BELOW_V = 1e-4
"""A run of an operation that moves the store less than this is spread over its interval. [V]"""
AVERAGED_IN_LOG_V = 1e-3
"""The same under a measured log, whose readings blur single pulses anyway. [V]"""
AVERAGED_BELOW_S = 900.0
"""Interval from which on runs are not spread over it in steady light: in a row they can be told
apart, and walking them costs little. [s]"""
MOTION_BYTES = 150
"""About what a motion takes for each of its nodes, once it was walked along. [bytes]"""


Active = tuple[tuple[int, int], ...]
"""Operations that run, each with its phase."""
Phases = tuple[tuple[Motion, Flow, float, float], ...]
"""Phases of an operation: motion, its flow, the charge of a cut-off [C] and the length [s]."""


@dataclass(frozen=True, slots=True)
class FullTurn:
    """A full store that falls to where charging begins again, and rises back."""

    falling: tuple[Motion, Motion]
    rising: tuple[Motion, Motion]
    """Motions of the level's two neighbours, which are one where the level is exact."""
    fall_s: float
    rise_s: float
    rising_connect_c: float
    rising_off_c: float

    @property
    def turn_s(self) -> float:
        """Length of the whole turn, infinite where it never ends. [s]"""
        return self.fall_s + self.rise_s

    @property
    def connect_c(self) -> float:
        """Lowest charge at which a load that is off would connect meanwhile. [C]"""
        return min(self.falling[0].connect_c, self.rising_connect_c)

    @property
    def off_c(self) -> float:
        """Highest charge at which a load that is on would be cut off meanwhile. [C]"""
        return max(self.falling[0].off_c, self.rising_off_c)


class Motions:
    """The motions and cycles of a system.

    Parameters
    ----------
    system : System
        The system.
    nodes : int
        About how many charges they are tabulated at.
    compose : bool
        Whether load cycles may be taken many at a time.
    library : Library, optional
        Where tables are kept that other systems may share; one of its own when left out.
    shares : float
        Shares into which the light of a long log is parted; see `levels.timeline`.
    """

    def __init__(
        self, system: System, *, nodes: int = 400, compose: bool = True,
        library: Library | None = None, shares: float = RUNGS,
    ) -> None:
        self.system = system
        self.library = Library() if library is None else library
        self.field = Field(system, nodes, self.library)
        self.compose = compose
        course = timeline(self.field, shares)
        self.levels, self.edges = course.levels, course.edges_s
        self.illuminance_lx = course.illuminance_lx
        self.charge_a = course.charge_a
        self.days = alike_days(
            self.edges, self.levels, system.load.operations, system.light.begins_at_s
        )
        self._motions: dict[MotionKey, Motion] = {}
        self._cycles: dict[CycleKey, Cycle] = {}
        self._unbounded_cycles: dict[CycleKey, Cycle] = {}
        self._stretches: dict[tuple[bool, DrawKey, int | None], Stretches] = {}
        self.found: dict[object, Motion] = {}
        self.found_cycles: dict[object, tuple[Cycle, Motion]] = {}
        self.found_phases: dict[object, Phases] = {}
        """What runs have found, by plain tuples: they are found much faster than keys."""
        self._full_turns: dict[tuple[float, float, float, DrawKey], FullTurn] = {}
        self.may_connect = True
        self.allowance: Allowance | None = None
        """What marches may spend together; None for as much as they need."""
        self.walked = Walked()
        """Of this engine and of those made from it."""
        self.alike = [_first_alike(op.phases) for op in system.load.operations]
        """For each phase of an operation the first one with the same draw, which stands for it."""
        self._charges: dict[int, tuple[Operation, float]] = {}
        """What a run takes, by the place in memory of its operation, which is kept there. [C]"""
        self.averaged = tuple(self._is_small(op) for op in system.load.operations)

    def _is_small(self, operation: Operation) -> bool:
        """Whether runs of an operation come often and move the store by almost nothing."""
        if not self.compose or not isinstance(operation.schedule, Periodic):
            return False
        steady = all(level.exact for level in self.levels)
        if steady and operation.schedule.interval_s >= AVERAGED_BELOW_S:
            return False
        load, field = self.system.load, self.field
        # Where the voltage bends most with charge: a cell's curve is flat in one place only.
        charge = field.charge_c[field.open_v >= min(load.off_v, field.open_v[-1])]
        taken = np.minimum(self.charge_of(operation), charge)
        moved = np.max(field.voltage_at(charge) - field.voltage_at(charge - taken))
        return bool(moved < (AVERAGED_BELOW_V if steady else AVERAGED_IN_LOG_V))

    def inrush_c(self, charge: float) -> float:
        """What the bulk capacitance takes at a connect of a store that holds a charge. [C]"""
        load, volts = self.system.load, float(self.field.voltage_at(charge))
        if load.regulator is not None:
            volts = min(volts, float(np.asarray(load.regulator.output_v)))
        return float(inrush_charge(load.bulk_f, volts))

    def charge_of(self, operation: Operation) -> float:
        """About the charge that one run of an operation takes, at the cut-off voltage. [C]"""
        _, found = self._charges.get(id(operation), (operation, None))
        if found is None:
            volts, amps = max(self.system.load.off_v, LEAST_LOAD_V), dict[int, float]()
            found, phases = 0.0, operation.phases
            for phase, k in zip(phases, _first_alike(phases), strict=True):
                if k not in amps:
                    amps[k] = float(drawn_current(phase.draw, volts))
                found += amps[k] * phase.duration_s
            self._charges[id(operation)] = operation, found
        return found

    # ---- motions -------------------------------------------------------------------------

    def motion(self, photocurrent_a: float, charging: bool, draw: DrawKey) -> Motion:
        """Motion at one exact light level."""
        if isinstance(draw, On) and draw.active:
            draw = On(draw.averaged, tuple((j, self.alike[j][k]) for j, k in draw.active))
        key = MotionKey(photocurrent_a, charging, draw)
        found = self._motions.get(key)
        if found is None:
            level, charges = self._effective(photocurrent_a, charging)
            if (level, charges) != (photocurrent_a, charging):
                found = self.motion(level, charges, draw).named(key)
            else:
                found = self._make_motion(key)
            self._motions[key] = found
        return found

    def made(self, motion: Motion) -> bool:
        """Whether a motion is one of these."""
        return self._motions.get(motion.key) is motion

    def _effective(self, photocurrent_a: float, charging: bool) -> tuple[float, bool]:
        """Light and charger state that give the same motion: without charge, light is nothing."""
        dark = photocurrent_a == 0.0 and isinstance(self.system.charger, Converter)
        return (0.0, False) if dark or not charging else (photocurrent_a, charging)

    def _make_motion(self, key: MotionKey) -> Motion:
        field, load = self.field, self.system.load
        currents = field.currents(key, self.draw(key.draw))
        beside: Hashable = None
        if isinstance(key.draw, On) and key.draw.averaged:
            beside = (frozen(load.sleep), *(
                frozen(load.operations[j]) for j in key.draw.averaged
            ))
        threshold_v = load.connect_v if key.draw == OFF else load.off_v
        found = self.library.get(
            "motion", (field.grid, currents, key.draw == OFF, threshold_v, beside),
            lambda: self._new_motion(key), MOTION_BYTES * len(field.charge_c),
        )
        return found if found.key == key else found.named(key)

    def _new_motion(self, key: MotionKey) -> Motion:
        field, load = self.field, self.system.load
        regime = field.regime(key, self.draw(key.draw))
        if key.draw == OFF:
            connect = regime.charge_at_terminal(field, load.connect_v)
            return Motion(key, regime.flow, regime, -inf, connect)
        off = regime.charge_of_cut_off(field, load.off_v)
        flow, averaged = regime.flow, None
        if isinstance(key.draw, On) and key.draw.averaged:
            drawn, lowest = regime.drawn_a, regime.terminal_v
            speed = regime.flow.speed.copy()
            idle = field.regime(MotionKey(0.0, False, On()), load.sleep)
            for j in key.draw.averaged:
                operation = load.operations[j]
                interval = operation.schedule.interval_s  # type: ignore[union-attr]
                for k, phase in enumerate(operation.phases):
                    busy = field.regime(
                        MotionKey(0.0, False, On(active=((j, k),))), load.sleep + phase.draw
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
        return Motion(key, flow, regime, off, inf, averaged)

    def draw(self, key: DrawKey) -> Draw:
        """The draw of a name, without averaged operations."""
        load = self.system.load
        if isinstance(key, Off):
            return Draw()
        if isinstance(key, StartUp):
            return load.start_up[key.phase].draw
        draw = load.sleep
        for j, k in key.active:
            draw = draw + load.operations[j].phases[k].draw
        return draw

    def cycle(
        self, photocurrent_a: float, charging: bool, averaged: tuple[int, ...], operation: int,
        part: tuple[int, int] | None = None, beside: Active = (),
    ) -> Cycle:
        """The composed cycle of one operation at one exact light level, or part of one run."""
        key = CycleKey(photocurrent_a, charging, averaged, operation, part, beside)
        found = self._cycles.get(key)
        if found is None:
            field = self.field
            # Just below full: at the very top of its range a store stays, never seen full.
            low, high = (
                (-inf, field.full_c * (1.0 - 1e-12)) if charging else (field.resume_c, inf)
            )
            level, charges = self._effective(photocurrent_a, charging)
            whole = self._unbounded(key._replace(photocurrent_a=level, charging=charges))
            found = self._cycles[key] = self.library.get(
                "bounded cycle", (whole, key, low, high),
                lambda: whole.bounded(key, low, high), 1_000,
            )
        return found

    def _unbounded(self, key: CycleKey) -> Cycle:
        found = self._unbounded_cycles.get(key)
        if found is None:
            field, off_v = self.field, self.system.load.off_v
            follows = self.phases(key)
            motions = {
                draw: self.motion(key.photocurrent_a, key.charging, draw)
                for draw in {draw for draw, _ in follows}
            }
            phases = [
                CyclePhase(motions[draw].flow, motions[draw].terminal_min_v, seconds)
                for draw, seconds in follows
            ]
            rest = None if key.part else phases.pop()
            nodes, open_v = field.charge_c, field.open_v
            pulse = self.library.get(
                "pulse", (off_v, *((phase.flow, phase.duration_s) for phase in phases)),
                lambda: Passes(phases, tabulated(nodes, open_v, off_v)),
                8 * (len(phases) + 4) * len(nodes),
            )
            over = rest and (rest.flow, rest.duration_s)
            found = self._unbounded_cycles[key] = self.library.get(
                "cycle", (pulse, over), lambda: Cycle(key, pulse, rest, nodes, open_v, off_v),
                2 * MOTION_BYTES * len(nodes),
            )
        return found

    def phases(self, key: CycleKey) -> list[tuple[DrawKey, float]]:
        """Draws of a cycle in their order and how long each lasts; the rest comes last. [s]"""
        operation, alike = self.system.load.operations[key.operation], self.alike[key.operation]
        draws = {
            k: On(key.averaged, tuple(sorted([*key.beside, (key.operation, k)])))
            for k in set(alike)
        }
        some = slice(*key.part) if key.part else slice(None)
        found: list[tuple[DrawKey, float]] = [
            (draws[k], phase.duration_s)
            for k, phase in zip(alike[some], operation.phases[some], strict=True)
        ]
        if key.part is None:
            rest = operation.schedule.interval_s  # type: ignore[union-attr]
            found.append((On(key.averaged), rest - operation.duration_s))
        return found

    def full_turn(self, level: Level, draw: DrawKey) -> FullTurn:
        """What a full store does while nothing else happens."""
        name = (level.low_a, level.high_a, level.weight, draw)
        found = self._full_turns.get(name)
        if found is None:
            full_c, resume_c = self.field.full_c, self.field.resume_c
            falling, rising = (
                (self.motion(level.low_a, charges, draw), self.motion(level.high_a, charges, draw))
                for charges in (False, True)
            )
            fall_s = falling[0].flow.time_to(full_c, resume_c)
            back: Motion | BlendedMotion = rising[0]
            if level.exact:
                rise_s = rising[0].flow.time_to(resume_c, full_c)
            else:
                # No light lasts longer than all of them.
                back, longest_s = BlendedMotion(*rising, level.weight), self.edges[-1]
                reached_c, rise_s = back.run(resume_c, longest_s, -inf, full_c)
                rise_s = rise_s if reached_c >= full_c else inf
            found = FullTurn(falling, rising, fall_s, rise_s, back.connect_c, back.off_c)
            self._full_turns[name] = found
        return found

    def stretches(self, charging: bool, draw: DrawKey, fast: int | None) -> Stretches:
        """Stretches of a log in one state, made when first needed."""
        found = self._stretches.get((charging, draw, fast))
        if found is None:
            found = self._stretches[charging, draw, fast] = Stretches(self, charging, draw, fast)
        return found


class Stretches:
    """What the readings of a log are followed along in one state of the device.

    Readings are many, pairs of levels that they blend are few: what belongs to a pair is found
    once.
    """

    def __init__(self, of: Motions, charging: bool, draw: DrawKey, fast: int | None) -> None:
        # A strong reference would close a circle, and only the collector could take it away: it
        # would hold a drag for a quarter of a second.
        self._of = ref(of)
        self._charging, self._draw, self._fast = charging, draw, fast
        self._pairs: dict[tuple[float, float], Pair] = {}
        self.made: list[Pair | None] = [None] * len(of.levels)
        """The pair of each reading, once it was asked for."""

    def make(self, segment: int) -> Pair:
        """The pair of one reading."""
        of = self._of()
        assert of is not None, "who asks holds it"
        level = of.levels[segment]
        pair = self._pairs.get((level.low_a, level.high_a))
        if pair is None:
            pair = self._pairs[level.low_a, level.high_a] = self._pair(of, level)
        self.made[segment] = pair
        return pair

    def _pair(self, of: Motions, level: Level) -> Pair:
        charging, draw, fast = self._charging, self._draw, self._fast
        low_c, high_c = (-inf, of.field.full_c) if charging else (of.field.resume_c, inf)
        low = of.motion(level.low_a, charging, draw)
        high = low if level.exact else of.motion(level.high_a, charging, draw)
        if fast is None:
            return Pair((low.flow, high.flow), low_c, high_c, low, high, None)
        small = draw.averaged if isinstance(draw, On) else ()
        first = of.cycle(level.low_a, charging, small, fast)
        second = first if level.exact else of.cycle(level.high_a, charging, small, fast)
        a, b = first.widest_span, second.widest_span
        return Pair(
            (first.generator, second.generator), max(low_c, a[0], b[0]), min(high_c, a[1], b[1]),
            low, high, (first, second),
        )


def _first_alike(phases: Sequence[Phase]) -> list[int]:
    first: dict[tuple[float, ...], int] = {}
    draws = (phase.draw for phase in phases)
    amounts = ((float(d.current_a), float(d.power_w), float(d.conductance_s)) for d in draws)
    return [first.setdefault(amount, k) for k, amount in enumerate(amounts)]

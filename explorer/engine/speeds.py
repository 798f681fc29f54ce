"""Charging speed over the store's charge, for each light level, charger state and load phase."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import replace
from math import nextafter
from typing import overload

import numpy as np

from explorer.engine.flows import Flow
from explorer.engine.keys import DrawKey, MotionKey
from explorer.engine.library import Library, frozen
from explorer.engine.system import System
from explorer.physics import charger as ch
from explorer.physics import load as ld
from explorer.physics.arrays import FloatArray, Number
from explorer.physics.store import Store, StoreCurve

BAND_NODES = (0.01, 0.04, 0.12, 0.3)
"""Further nodes inside the band between resume and full, from either end, as shares of it."""
COUPLING_ROUNDS = 6
"""Most rounds in which charging current and terminal voltage are made to agree."""
COUPLING_TOLERANCE_V = 1e-7
"""They agree once the drop over the store's resistance moves by less than this. [V]"""
BISECTIONS = 60
"""Halvings that find a terminal voltage."""
NO_STEP_V = 1e-9
"""Nodes that lie closer are one place, at which something jumps. [V]"""
LEAST_TERMINAL_V = 1e-3
"""Terminal voltage that a draw is worked out for at least. [V]"""


class Supply:
    """Charging current at one light level, for any voltage behind the store's resistance."""

    def __init__(
        self,
        charger: ch.DirectCharger | ch.Converter,
        curve: StoreCurve,
        given: ch.ConverterInput | ch.DirectCurve,
    ) -> None:
        self._limit_a = curve.charge_limit_a
        self._esr = curve.esr_ohm
        self._charger = charger
        if isinstance(given, ch.ConverterInput):
            self.given = given
        else:
            self.table = given.behind(curve.esr_ohm)

    def current(self, store_v: FloatArray, source_v: FloatArray) -> FloatArray:
        """Charging current. [A]"""
        if isinstance(self._charger, ch.Converter):
            amps = ch.converter_current(
                self._charger, self.given, store_v, source_v, self._esr
            )
        else:
            amps = np.interp(source_v, self.table.source_v, self.table.current_a)
        return np.minimum(amps, self._limit_a)

    def into(self, store_v: FloatArray, terminal_v: FloatArray) -> FloatArray:
        """Charging current at terminal voltages. [A]"""
        if isinstance(self._charger, ch.Converter):
            amps = ch.converter_current(self._charger, self.given, store_v, terminal_v, 0.0)
        else:
            amps, source_v = self.table.current_a, self.table.source_v
            amps = np.interp(terminal_v, source_v + amps * self._esr, amps)
        return np.minimum(amps, self._limit_a)


class Voltages:
    """Voltages at which currents are tabulated; two stores may have the same."""

    def __init__(self, side_v: FloatArray) -> None:
        self.side_v = side_v
        step = side_v[1:] - side_v[:-1]
        before, after = step[:-1], step[1:]
        both = before + after
        cubes = before * before * before + after * after * after
        smooth = (before > NO_STEP_V) & (after > NO_STEP_V)
        self._step_v = np.where(step > NO_STEP_V, step, 1.0)
        self._lower_v = np.where(smooth, cubes / (6.0 * both * both + NO_STEP_V**2), 0.0)

    def below(self, amps: FloatArray) -> FloatArray:
        """Currents at nodes [A] such that straight lines between them bring what a diode brings.

        Its current runs out along an exponential, e-fold within some 30 mV, and chords of that lie
        above it: between nodes 8 mV apart by 0.7 %. Nodes that are lower by h² f''/12 have chords
        of the same mean (the straight spline nearest to a parabola in the mean square).
        """
        slope = (amps[1:] - amps[:-1]) / self._step_v
        found = amps.copy()
        found[1:-1] -= (slope[1:] - slope[:-1]) * self._lower_v
        return found


class Currents:
    """One light level, charger state and draw over voltage: currents and terminal voltage."""

    __slots__ = ("charge_a", "draw", "drawn_a", "source_v", "terminal_v")

    def __init__(
        self, at: Voltages, esr_ohm: float, supply: Supply | None, draw: ld.Draw
    ) -> None:
        v, esr = at.side_v, esr_ohm
        self.draw = draw
        drawn = ld.drawn_current(draw, v)
        charge = np.zeros_like(v)
        source, apart_v = v, charge
        for _ in range(COUPLING_ROUNDS):
            source = v - drawn * esr
            if supply is not None:
                if not draw.is_current and source.min() < 0.0:
                    # Where a power is out of reach, its drop is not real; that of a current is.
                    real = np.minimum(v - draw.current_a * esr, 0.0)
                    source = np.maximum(source, real)
                charge = supply.current(v, source)
            terminal = ld.terminal_voltage(v, charge, draw, esr)
            if draw.is_current:
                break
            reached = np.where(terminal > 0, terminal, 0.5 * v)
            before = drawn
            drawn = ld.drawn_current(draw, np.maximum(reached, LEAST_TERMINAL_V))
            apart_v = esr * np.abs(drawn - before)
            if apart_v.max() < COUPLING_TOLERANCE_V:
                break
        if supply is not None and esr > 0.0:
            # Left over: what a charger lifts that the load alone would pull below zero.
            left = (terminal <= 0.0) & (charge > 0.0)
            if not draw.is_current:
                left |= (apart_v > COUPLING_TOLERANCE_V) | (
                    source - (v - drawn * esr) > COUPLING_TOLERANCE_V
                )
            if left.any():
                terminal[left], charge[left], drawn[left] = _lifted(v[left], esr, supply, draw)
        self.terminal_v = terminal
        self.charge_a = at.below(charge) if supply is not None else charge
        self.drawn_a = drawn
        self.source_v = source


def _lifted(
    volts: FloatArray, esr_ohm: float, supply: Supply, draw: ld.Draw
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Terminal voltage, charging and drawn current, by bisection.

    Below the voltage at which the power that passes the resistance is greatest there is none;
    there the power counts as a current, so that the balance of the node rises throughout.
    """
    power = float(np.asarray(draw.power_w))
    stiff = 1.0 + float(np.asarray(draw.conductance_s)) * esr_ohm
    least_v = max((power * esr_ohm / stiff) ** 0.5, 0.0)

    def above(volts: FloatArray, terminal_v: FloatArray) -> FloatArray:
        net = supply.into(volts, terminal_v) - ld.drawn_current(draw, terminal_v)
        return terminal_v - volts - esr_ohm * net

    least = np.full_like(volts, least_v)
    some = above(volts, np.maximum(least, LEAST_TERMINAL_V)) < 0.0
    found, at = least, volts[some]
    if some.any():
        low, high = least[some], at + esr_ohm * supply.into(at, 0.0 * at)
        for _ in range(BISECTIONS):
            middle = 0.5 * (low + high)
            lower = above(at, middle) > 0.0
            low, high = np.where(lower, low, middle), np.where(lower, middle, high)
        found[some] = high
    drawn_at = np.where(some, found, np.maximum(0.5 * volts, LEAST_TERMINAL_V))
    return (
        np.where(some, found, ld.COLLAPSED_V),
        supply.into(volts, np.where(some, found, 0.0)),
        ld.drawn_current(draw, drawn_at),
    )


class Regime:
    """Currents of one light level, charger state and draw, and the speed that they make."""

    __slots__ = ("charge_a", "currents", "drawn_a", "flow", "source_v", "terminal_v")

    def __init__(self, field: Field, currents: Currents) -> None:
        self.currents = currents
        self.terminal_v = currents.terminal_v
        self.charge_a = currents.charge_a
        self.drawn_a = currents.drawn_a
        self.source_v = currents.source_v
        speed = currents.charge_a - currents.drawn_a - field.curve.leak_a
        if speed[0] < 0:
            speed[0] = 0.0
        self.flow = Flow(field.charge_c, speed)

    def charge_at_terminal(self, field: Field, volts: float) -> float:
        """Smallest charge at which the terminal voltage reaches a value; infinite if none. [C]"""
        i = self._reaches(volts)
        if i is None:
            return np.inf
        if i == 0:
            return -np.inf
        below, above = self.terminal_v[i - 1 : i + 1].tolist()
        share = (volts - below) / (above - below)
        if below <= 0:
            # There is no terminal voltage at the lower node: it begins within the cell, with an
            # infinite slope, so a straight line would miss.
            share = self._share_at_terminal(field, i, volts)
        begin_c, end_c = field.charge_c[i - 1 : i + 1].tolist()
        return float(begin_c + share * (end_c - begin_c))

    def _reaches(self, volts: float) -> int | None:
        """First node at which the terminal voltage has reached a value, None where none has."""
        reached = self.terminal_v >= volts
        i = int(reached.argmax())
        return i if reached[i] else None

    def charge_of_cut_off(self, field: Field, volts: float) -> float:
        """Charge down to which the terminals hold a voltage; infinite if they never do. [C]

        Where a cold start ends they may jump there. A store that rises from that place is above
        it: a device that the jump connects is not cut off by it.
        """
        found = self.charge_at_terminal(field, volts)
        i = self._reaches(volts)
        jumps = i and field.charge_c[i - 1] == field.charge_c[i] == found
        return nextafter(found, 0.0) if jumps and self.flow.speed[i] > 0.0 else found

    def _share_at_terminal(self, field: Field, i: int, volts: float) -> float:
        """Where in the cell below node `i` the terminal voltage reaches a value, by bisection."""
        low, high = 0.0, 1.0
        (v0, v1), (a0, a1) = field.side_v[i - 1 : i + 1], self.charge_a[i - 1 : i + 1]
        draw, esr = self.currents.draw, field.curve.esr_ohm
        for _ in range(40):
            share = 0.5 * (low + high)
            reached = ld.terminal_voltage(
                v0 + share * (v1 - v0), a0 + share * (a1 - a0), draw, esr
            )
            low, high = (low, share) if reached >= volts else (share, high)
        return high


def _ending_at_empty(curve: StoreCurve) -> StoreCurve:
    """The curve with its empty end twice, so that a draw stops there and not little by little."""
    leak = np.concatenate([curve.leak_a[:1], curve.leak_a])
    if curve.open_v[0] > 0.0:
        leak[1] = leak[2]  # a cell discharges itself until it is empty
    return replace(
        curve,
        charge_c=np.concatenate([curve.charge_c[:1], curve.charge_c]),
        open_v=np.concatenate([curve.open_v[:1], curve.open_v]),
        leak_a=leak,
    )


class Grid:
    """A store tabulated at its nodes."""

    def __init__(
        self, store: Store, top_v: float, marks_v: tuple[float, ...], nodes: int, library: Library
    ) -> None:
        self.curve = _ending_at_empty(store.curve(top_v=top_v, marks_v=marks_v, nodes=nodes))
        open_v = self.curve.open_v
        lower_twin = np.append(np.diff(self.curve.charge_c) == 0, False)
        side_v = np.where(lower_twin, open_v * (1.0 - 1e-12), open_v)
        self.voltages = library.get(
            "voltages", side_v.tobytes(), lambda: Voltages(side_v), 2 * side_v.nbytes
        )


class Field:
    """All regimes of a system, built when first asked for.

    Parameters
    ----------
    system : System
        The system.
    nodes : int
        About how many charges currents are tabulated at.
    library : Library
        Where tables are kept that other systems may share.
    """

    def __init__(self, system: System, nodes: int, library: Library) -> None:
        self.system = system
        self.library = library
        marks = [system.full_v, system.full_v - system.full_hysteresis_v, system.load.connect_v]
        # Whole cycles are taken from node to node: finer nodes inside the band spare walking there.
        for share in BAND_NODES:
            band = system.full_hysteresis_v * share
            marks += [system.full_v - band, system.full_v - system.full_hysteresis_v + band]
        if isinstance(system.charger, ch.Converter):
            cold = float(np.asarray(system.charger.cold_below_v))
            marks += [cold, cold]
            if system.charger.table is not None and len(system.charger.table.volts) > 1:
                marks += system.charger.table.volts  # the current bends there
        # Above full, and not below where the run begins.
        top_v = system.store.reaching(1.02 * system.full_v + 0.02, system.initial_charge_c)
        made_of = (system.store, top_v, tuple(marks), nodes)
        self.grid = library.get(
            "grid", frozen(made_of), lambda: Grid(*made_of, library), 40 * nodes
        )
        self.curve = self.grid.curve
        self.charge_c = self.curve.charge_c
        self.open_v = self.curve.open_v
        self.side_v = self.grid.voltages.side_v
        # A cell may be full before its charger's threshold is reached: it takes no more.
        full_v = min(system.full_v, float(self.open_v[-1]))
        self.full_c = self.charge_at(full_v)
        self.resume_c = self.charge_at(full_v - system.full_hysteresis_v)
        self.quiescent = ld.Draw(current_a=system.quiescent_a)
        self._source = (frozen(system.charger), frozen(system.panel))
        self._supplies: dict[float, Supply] = {}
        self._regimes: dict[MotionKey, Regime] = {}
        self._drawn: dict[DrawKey, tuple[ld.Draw, Hashable]] = {}
        """Draws with what the charger takes for itself, and their names in the library."""

    def charge_at(self, volts: float) -> float:
        """Charge at an open-circuit voltage, infinite above the store's range. [C]"""
        if volts > self.open_v[-1]:
            return np.inf
        return float(np.interp(volts, self.open_v, self.charge_c))

    @overload
    def voltage_at(self, charge: float) -> float: ...

    @overload
    def voltage_at(self, charge: FloatArray) -> FloatArray: ...

    def voltage_at(self, charge: Number) -> Number:
        """Open-circuit voltage at a charge. [V]"""
        return np.interp(charge, self.charge_c, self.open_v)

    def supply(self, photocurrent_a: float) -> Supply:
        """The charger at one light level."""
        found = self._supplies.get(photocurrent_a)
        if found is None:
            found = self._supplies[photocurrent_a] = self._supply(photocurrent_a, None)
        return found

    def _supply(self, photocurrent_a: float, given: ch.ConverterInput | None) -> Supply:
        system, curve = self.system, self.curve
        charger, panel = system.charger, system.panel

        def working() -> ch.ConverterInput | ch.DirectCurve:
            if isinstance(charger, ch.Converter):
                return given or ch.converter_input(charger, panel, photocurrent_a)
            return ch.direct_curve(charger, panel, photocurrent_a, 0.0)

        # What a panel gives its charger does not depend on the store that lies behind.
        size = 1_000 if isinstance(charger, ch.Converter) else 40_000
        point = self.library.get("working point", (self._source, photocurrent_a), working, size)
        return self.library.get(
            "supply", (self._source, photocurrent_a, curve.esr_ohm, curve.charge_limit_a),
            lambda: Supply(charger, curve, point), size // 2,
        )

    def prepare(self, photocurrents_a: FloatArray) -> None:
        """Work out a converter's input at many light levels at once."""
        charger = self.system.charger
        if not isinstance(charger, ch.Converter):
            return
        unknown = [
            amps for amps in photocurrents_a.tolist()
            if not self.library.knows("working point", (self._source, amps))
        ]
        if not unknown:
            return
        given = ch.converter_input(charger, self.system.panel, np.array(unknown))
        for i, amps in enumerate(unknown):
            one = ch.ConverterInput(
                panel_w=given.panel_w[i], panel_a=given.panel_a[i],
                warm_w=given.warm_w[i], cold_w=given.cold_w[i],
                warm_at_w=tuple(watt[i] for watt in given.warm_at_w),
            )
            self._supplies[amps] = self._supply(amps, one)

    def charge_currents(self, photocurrents_a: FloatArray, volts: float) -> FloatArray:
        """Charging current at one store voltage and many light levels. [A]"""
        esr, limit = self.curve.esr_ohm, self.curve.charge_limit_a
        return self.library.get(
            "charge at one voltage",
            (self._source, photocurrents_a.tobytes(), volts, esr, limit),
            lambda: self._charge_currents(photocurrents_a, volts), 2 * photocurrents_a.nbytes,
        )

    def _charge_currents(self, photocurrents_a: FloatArray, volts: float) -> FloatArray:
        charger, panel, esr = self.system.charger, self.system.panel, self.curve.esr_ohm
        at = np.full(photocurrents_a.shape, volts)
        if isinstance(charger, ch.Converter):
            given = ch.converter_input(charger, panel, photocurrents_a)
            amps = ch.converter_current(charger, given, at, at, esr)
        else:
            amps = ch.direct_current(charger, panel, photocurrents_a, at, esr)
        return np.minimum(amps, self.curve.charge_limit_a)

    def regime(self, key: MotionKey, draw: ld.Draw) -> Regime:
        """The regime that a key names, with the draw that it stands for."""
        found = self._regimes.get(key)
        if found is None:
            found = self._regimes[key] = Regime(self, self.currents(key, draw))
        return found

    def currents(self, key: MotionKey, draw: ld.Draw) -> Currents:
        """The currents that a key names over voltage, with the draw that it stands for."""
        supply = self.supply(key.photocurrent_a) if key.charging else None
        found = self._drawn.get(key.draw)
        if found is None:
            drawn = draw + self.quiescent
            found = self._drawn[key.draw] = drawn, frozen(drawn)
        (drawn, named), esr, at = found, self.curve.esr_ohm, self.grid.voltages
        return self.library.get(
            "currents", (at, supply, esr, named),
            lambda: Currents(at, esr, supply, drawn), 40 * len(at.side_v),
        )

"""Charging speed over the store's charge, for each light level, charger state and load phase."""

from __future__ import annotations

from dataclasses import replace
from typing import overload

import numpy as np

from explorer.engine.flows import Flow
from explorer.engine.keys import MotionKey
from explorer.engine.system import System
from explorer.physics import charger as ch
from explorer.physics import load as ld
from explorer.physics.arrays import FloatArray, Number
from explorer.physics.store import StoreCurve

BAND_NODES = (0.01, 0.04, 0.12, 0.3)
"""Further nodes inside the band between resume and full, from either end, as shares of it."""
COUPLING_ROUNDS = 6
"""Most rounds in which charging current and terminal voltage are made to agree."""
COUPLING_TOLERANCE_V = 1e-7
"""They agree once the drop over the store's resistance moves by less than this. [V]"""
LEAST_TERMINAL_V = 1e-3
"""Terminal voltage that a draw is worked out for at least. [V]"""


class Supply:
    """Charging current at one light level, for any voltage behind the store's resistance."""

    def __init__(
        self,
        system: System,
        curve: StoreCurve,
        photocurrent_a: float,
        given: ch.ConverterInput | None = None,
    ) -> None:
        self._limit_a = curve.charge_limit_a
        self._esr = curve.esr_ohm
        self._charger = system.charger
        if isinstance(system.charger, ch.Converter):
            self.given = given or ch.converter_input(
                system.charger, system.panel, photocurrent_a
            )
        else:
            self.table = ch.direct_curve(
                system.charger, system.panel, photocurrent_a, curve.esr_ohm
            )

    def current(self, store_v: FloatArray, source_v: FloatArray) -> FloatArray:
        """Charging current. [A]"""
        if isinstance(self._charger, ch.Converter):
            amps = ch.converter_current(
                self._charger, self.given, store_v, source_v, self._esr
            )
        else:
            amps = np.interp(source_v, self.table.source_v, self.table.current_a)
        return np.minimum(amps, self._limit_a)



class Regime:
    """One light level, charger state and draw: speed, terminal voltage and currents at nodes."""

    __slots__ = ("_draw", "charge_a", "drawn_a", "flow", "source_v", "terminal_v")

    def __init__(
        self, field: Field, supply: Supply | None, draw: ld.Draw
    ) -> None:
        v, esr = field.side_v, field.curve.esr_ohm
        self._draw = draw
        drawn = ld.drawn_current(draw, v)
        charge = np.zeros_like(v)
        source = v
        for _ in range(COUPLING_ROUNDS):
            # Where a draw is out of reach its drop is not real: no charger feeds a voltage below 0.
            source = np.maximum(v - drawn * esr, 0.0)
            if supply is not None:
                charge = supply.current(v, source)
            terminal = ld.terminal_voltage(v, charge, draw, esr)
            reached = np.where(terminal > 0, terminal, 0.5 * v)
            before = drawn
            drawn = ld.drawn_current(draw, np.maximum(reached, LEAST_TERMINAL_V))
            if esr * np.max(np.abs(drawn - before)) < COUPLING_TOLERANCE_V:
                break
        self.terminal_v = terminal
        self.charge_a = charge
        self.drawn_a = drawn
        self.source_v = source
        speed = charge - drawn - field.curve.leak_a
        if speed[0] < 0:
            speed[0] = 0.0
        self.flow = Flow(field.charge_c, speed)

    def charge_at_terminal(self, field: Field, volts: float) -> float:
        """Smallest charge at which the terminal voltage reaches a value; infinite if none. [C]"""
        reached = np.maximum.accumulate(self.terminal_v) >= volts
        i = int(np.argmax(reached))
        if not reached[i]:
            return np.inf
        if i == 0:
            return -np.inf
        below, above = self.terminal_v[i - 1], self.terminal_v[i]
        share = (volts - below) / (above - below)
        if below <= 0:
            # There is no terminal voltage at the lower node: it begins within the cell, with an
            # infinite slope, so a straight line would miss.
            share = self._share_at_terminal(field, i, volts)
        q = field.charge_c
        return float(q[i - 1] + share * (q[i] - q[i - 1]))

    def _share_at_terminal(self, field: Field, i: int, volts: float) -> float:
        """Where in the cell below node `i` the terminal voltage reaches a value, by bisection."""
        low, high = 0.0, 1.0
        (v0, v1), (a0, a1) = field.side_v[i - 1 : i + 1], self.charge_a[i - 1 : i + 1]
        for _ in range(40):
            share = 0.5 * (low + high)
            reached = ld.terminal_voltage(
                v0 + share * (v1 - v0), a0 + share * (a1 - a0), self._draw, field.curve.esr_ohm
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


class Field:
    """All regimes of a system, built when first asked for."""

    def __init__(self, system: System, nodes: int = 400) -> None:
        self.system = system
        marks = [system.full_v, system.full_v - system.full_hysteresis_v, system.load.connect_v]
        # Whole cycles are taken from node to node: finer nodes inside the band spare walking there.
        band = system.full_hysteresis_v * np.array(BAND_NODES)
        marks += [*(system.full_v - band), *(system.full_v - system.full_hysteresis_v + band)]
        if isinstance(system.charger, ch.Converter):
            cold = float(np.asarray(system.charger.cold_below_v))
            marks += [cold, cold]
        # Above full, and not below where the run begins.
        top_v = system.store.reaching(1.02 * system.full_v + 0.02, system.initial_charge_c)
        self.curve = _ending_at_empty(
            system.store.curve(top_v=top_v, marks_v=marks, nodes=nodes)
        )
        self.charge_c = self.curve.charge_c
        self.open_v = self.curve.open_v
        lower_twin = np.append(np.diff(self.charge_c) == 0, False)
        self.side_v = np.where(lower_twin, self.open_v * (1.0 - 1e-12), self.open_v)
        # A cell may be full before its charger's threshold is reached: it takes no more.
        full_v = min(system.full_v, float(self.open_v[-1]))
        self.full_c = self.charge_at(full_v)
        self.resume_c = self.charge_at(full_v - system.full_hysteresis_v)
        self.quiescent = ld.Draw(current_a=system.quiescent_a)
        self._supplies: dict[float, Supply] = {}
        self._regimes: dict[MotionKey, Regime] = {}

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
            found = Supply(self.system, self.curve, photocurrent_a)
            self._supplies[photocurrent_a] = found
        return found

    def prepare(self, photocurrents_a: FloatArray) -> None:
        """Work out a converter's input at many light levels at once."""
        charger = self.system.charger
        if not isinstance(charger, ch.Converter):
            return
        given = ch.converter_input(charger, self.system.panel, photocurrents_a)
        for i, amps in enumerate(photocurrents_a.tolist()):
            one = ch.ConverterInput(
                panel_w=given.panel_w[i], panel_a=given.panel_a[i],
                warm_w=given.warm_w[i], cold_w=given.cold_w[i],
            )
            self._supplies[amps] = Supply(self.system, self.curve, amps, one)

    def charge_currents(self, photocurrents_a: FloatArray, volts: float) -> FloatArray:
        """Charging current at one store voltage and many light levels. [A]"""
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
            supply = self.supply(key.photocurrent_a) if key.charging else None
            found = Regime(self, supply, draw + self.quiescent)
            self._regimes[key] = found
        return found

"""Loads: what a device and its regulator draw from the store's terminals.

Every draw is written as ``i(v) = i_0 + p/v + g v``: a constant current, a constant power and a
conductance. With the store's series resistance the terminal voltage then has a closed form.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from explorer.physics.arrays import FloatArray, Number


@dataclass(frozen=True, slots=True, kw_only=True)
class Draw:
    """Constant-current, constant-power and conductance parts of a draw."""

    current_a: Number = 0.0
    power_w: Number = 0.0
    conductance_s: Number = 0.0

    def __add__(self, other: Draw) -> Draw:
        """Both draws at once."""
        return Draw(
            current_a=self.current_a + other.current_a,
            power_w=self.power_w + other.power_w,
            conductance_s=self.conductance_s + other.conductance_s,
        )

    @property
    def is_current(self) -> bool:
        """Whether it is a plain current, the same at any voltage."""
        watt, siemens = self.power_w, self.conductance_s
        return (
            isinstance(watt, float) and isinstance(siemens, float) and watt == siemens == 0.0
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class LinearRegulator:
    """Passes the load's current on and adds its ground current."""

    output_v: Number
    ground_a: Number


@dataclass(frozen=True, slots=True, kw_only=True)
class SwitchingRegulator:
    """Draws the load's power over its efficiency, plus a quiescent current."""

    output_v: Number
    efficiency: Number
    quiescent_a: Number


Regulator = LinearRegulator | SwitchingRegulator | None


def through_regulator(device: Draw, regulator: Regulator) -> Draw:
    """What the store sees of a draw on the device's side of a regulator.

    A linear regulator passes current; a switching one passes power over its efficiency (common
    practice, no source). The regulator's own current is added by `regulator_draw`.
    """
    if regulator is None:
        return device
    v = np.asarray(regulator.output_v, float)
    current = device.current_a + device.power_w / v + device.conductance_s * v
    if isinstance(regulator, LinearRegulator):
        return Draw(current_a=current)
    return Draw(power_w=current * v / regulator.efficiency)


def regulator_draw(regulator: Regulator) -> Draw:
    """The regulator's own current, drawn for as long as the load is connected."""
    if isinstance(regulator, LinearRegulator):
        return Draw(current_a=regulator.ground_a)
    if isinstance(regulator, SwitchingRegulator):
        return Draw(current_a=regulator.quiescent_a)
    return Draw()


def drawn_current(draw: Draw, terminal_v: Number) -> FloatArray:
    """Current at a terminal voltage. [A]"""
    v = np.asarray(terminal_v, float)
    if draw.is_current:
        return np.asarray(draw.current_a + np.zeros_like(v))
    return np.asarray(
        draw.current_a + draw.power_w / np.maximum(v, 1e-9) + draw.conductance_s * v
    )


COLLAPSED_V = -1.0
"""Stands for a terminal voltage that does not exist: the draw asks more than the ESR passes. [V]"""


def terminal_voltage(
    store_v: Number, charge_a: Number, draw: Draw, esr_ohm: Number
) -> FloatArray:
    """Terminal voltage of a store behind its series resistance.

    Root of ``(1 + g R) v^2 - (v_0 + (i_c - i_0) R) v + p R = 0``. A constant power p is within
    reach only while ``w^2 >= 4 (1 + g R) p R``; for g = 0 and i = 0 that is p <= v_0^2 / 4R
    (maximum power transfer). Beyond it the value is `COLLAPSED_V`.

    Parameters
    ----------
    store_v, charge_a, esr_ohm : array_like
        Open-circuit voltage [V], charging current [A] and series resistance [ohm].
    draw : Draw
        What is drawn.

    Examples
    --------
    100 mA through 50 mohm at 3 V:

    >>> float(terminal_voltage(3.0, 0.0, Draw(current_a=0.1), 0.05))
    2.995
    """
    r = np.asarray(esr_ohm, float)
    w = np.asarray(store_v, float) + (charge_a - np.asarray(draw.current_a, float)) * r
    if draw.is_current:
        return np.where(w > 0, w, COLLAPSED_V)
    stiff = 1.0 + np.asarray(draw.conductance_s, float) * r
    below = w * w - 4.0 * stiff * draw.power_w * r
    reached = (below >= 0) & (w > 0)
    root = np.sqrt(np.maximum(below, 0.0))
    return np.where(reached, (w + root) / (2.0 * stiff), COLLAPSED_V)


def inrush_charge(bulk_f: Number, voltage_v: Number) -> FloatArray:
    """Charge that an empty bulk capacitance takes at a connect, Q = C V. [C]"""
    charge: FloatArray = np.asarray(bulk_f, float) * np.asarray(voltage_v, float)
    return charge

"""Single-diode model of a panel array, written in the voltage across its diode.

Current and voltage come in closed form from the diode voltage ``u``::

    I(u) = I_L - I_0 (exp(u/a) - 1) - u (G + k I_L)
    V(u) = u - I(u) R_s

with ``a = n N_s kT/q``. The shunt has a dark part ``G`` and, for amorphous cells, a part that
grows with the photocurrent (photo-shunt ``k I_L``; Merten et al., IEEE Trans. Electron Devices
45 (1998) 423 describe such voltage- and light-dependent collection; the linear form used here
is its low-voltage limit, quoted from memory). The parametric form follows Bishop, Solar Cells
25 (1988) 73.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from explorer.physics.arrays import FloatArray, Number


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """Single-diode parameters of a panel or an array; each may be an array that broadcasts."""

    saturation_a: Number
    """Diode saturation current I_0. [A]"""
    slope_v: Number
    """Modified ideality a = n N_s kT/q. [V]"""
    series_ohm: Number
    """Series resistance R_s. [ohm]"""
    shunt_s: Number
    """Dark shunt conductance G. [S]"""
    photo_shunt_per_v: Number = 0.0
    """Shunt conductance per photocurrent k. [1/V]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelPoint:
    """Points on the I-V curve; arrays of one shape."""

    voltage_v: FloatArray
    current_a: FloatArray

    @property
    def power_w(self) -> FloatArray:
        """Electrical power. [W]"""
        return self.voltage_v * self.current_a


def array_of(panel: Panel, *, in_series: Number, in_parallel: Number) -> Panel:
    """Parameters of equal panels, ``in_series`` to a string and ``in_parallel`` strings.

    Photocurrent scales with ``in_parallel`` and is not part of the parameters.
    """
    s, p = np.asarray(in_series, float), np.asarray(in_parallel, float)
    return Panel(
        saturation_a=panel.saturation_a * p,
        slope_v=panel.slope_v * s,
        series_ohm=panel.series_ohm * s / p,
        shunt_s=panel.shunt_s * p / s,
        photo_shunt_per_v=panel.photo_shunt_per_v / s,
    )


def current_of_diode(panel: Panel, photocurrent_a: Number, diode_v: Number) -> FloatArray:
    """Terminal current at a diode voltage. [A]"""
    light, u = np.asarray(photocurrent_a, float), np.asarray(diode_v, float)
    shunt = panel.shunt_s + panel.photo_shunt_per_v * light
    return light - panel.saturation_a * np.expm1(u / panel.slope_v) - u * shunt


def curve(panel: Panel, photocurrent_a: Number, diode_v: Number) -> PanelPoint:
    """Points of the I-V curve at given diode voltages.

    Parameters
    ----------
    panel : Panel
        Parameters.
    photocurrent_a : array_like
        Photocurrent I_L. [A]
    diode_v : array_like
        Voltage across the diode; broadcasts against the photocurrent. [V]

    Returns
    -------
    PanelPoint
        Voltage and current at the terminals.
    """
    current = current_of_diode(panel, photocurrent_a, diode_v)
    return PanelPoint(voltage_v=diode_v - current * panel.series_ohm, current_a=current)


def diode_voltage_at_current(
    panel: Panel, photocurrent_a: Number, current_a: Number
) -> FloatArray:
    """Diode voltage at which the panel delivers a current not above its short-circuit value. [V]

    Newton's method on a convex, falling curve started from above, so it converges from one side.
    """
    light, i = np.broadcast_arrays(
        np.asarray(photocurrent_a, float), np.asarray(current_a, float)
    )
    shunt = panel.shunt_s + panel.photo_shunt_per_v * light
    spare = light - i
    u = panel.slope_v * np.log1p(np.maximum(spare, 0.0) / panel.saturation_a)
    with np.errstate(divide="ignore", invalid="ignore"):
        ohmic = np.where(shunt > 0, spare / np.where(shunt > 0, shunt, 1.0), np.inf)
    u = np.minimum(u, ohmic)
    for _ in range(60):
        grown = panel.saturation_a * np.exp(np.minimum(u / panel.slope_v, 600.0))
        step = (grown - panel.saturation_a + u * shunt - spare) / (grown / panel.slope_v + shunt)
        u = u - step
        if np.all(np.abs(step) <= 1e-14 * (np.abs(u) + panel.slope_v)):
            break
    return np.asarray(u)


def open_circuit_voltage(panel: Panel, photocurrent_a: Number) -> FloatArray:
    """Voltage at zero current. [V]"""
    return diode_voltage_at_current(panel, photocurrent_a, 0.0)


def current_at_voltage(
    panel: Panel, photocurrent_a: Number, voltage_v: Number
) -> FloatArray:
    """Terminal current at a terminal voltage. [A]

    Solves ``u - I(u) R_s = V`` for the diode voltage by Newton's method; the function is convex
    and rising, and the start lies above the solution.
    """
    light, v = np.broadcast_arrays(
        np.asarray(photocurrent_a, float), np.asarray(voltage_v, float)
    )
    top = diode_voltage_at_current(panel, light, np.minimum(0.0, -np.abs(light)))
    u = np.minimum(v + np.maximum(light, 0.0) * panel.series_ohm, np.maximum(top, v))
    for _ in range(100):
        current = current_of_diode(panel, light, u)
        slope = (
            panel.saturation_a / panel.slope_v * np.exp(u / panel.slope_v)
            + panel.shunt_s
            + panel.photo_shunt_per_v * light
        )
        step = (u - current * panel.series_ohm - v) / (1.0 + panel.series_ohm * slope)
        u = u - step
        if np.all(np.abs(step) <= 1e-15 + 1e-14 * np.abs(u)):
            break
    return current_of_diode(panel, light, u)


def maximum_power(panel: Panel, photocurrent_a: Number) -> PanelPoint:
    """The point where voltage times current is largest.

    Root of dP/du by bisection; the derivative falls from short circuit to open circuit, so the
    bracket always holds it.
    """
    light = np.asarray(photocurrent_a, float)
    low = np.zeros_like(light)
    high = open_circuit_voltage(panel, light)
    for _ in range(52):
        middle = 0.5 * (low + high)
        rising = _power_slope(panel, light, middle) > 0
        low = np.where(rising, middle, low)
        high = np.where(rising, high, middle)
    return curve(panel, light, 0.5 * (low + high))


def _power_slope(panel: Panel, light: FloatArray, u: FloatArray) -> FloatArray:
    current = current_of_diode(panel, light, u)
    slope = -(
        panel.saturation_a / panel.slope_v * np.exp(u / panel.slope_v)
        + panel.shunt_s
        + panel.photo_shunt_per_v * light
    )
    voltage = u - current * panel.series_ohm
    return np.asarray((1.0 - slope * panel.series_ohm) * current + voltage * slope)


def current_over(panel: Panel, photocurrent_a: float, points: int = 800) -> PanelPoint:
    """I-V curve of one light level from short circuit to open circuit, for drawing."""
    top = float(open_circuit_voltage(panel, photocurrent_a))
    return curve(panel, photocurrent_a, np.linspace(0.0, top, points))

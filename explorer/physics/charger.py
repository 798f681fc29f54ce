"""Chargers: the current that reaches the store from a panel.

Both kinds drive a source voltage ``w`` (the store behind its series resistance, less what the
load drops there) through a path resistance, so that the store's resistance enters exactly.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from explorer.physics import panel as pv
from explorer.physics.arrays import FloatArray, Number
from explorer.physics.efficiency import EfficiencyTable


@dataclass(frozen=True, slots=True, kw_only=True)
class DirectCharger:
    """Panel through a blocking diode into the store."""

    diode_saturation_a: Number
    diode_slope_v: Number
    """Ideality times kT/q of the blocking diode. [V]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Converter:
    """Switching converter that holds the panel at a working point."""

    voc_fraction: Number | None
    """Panel voltage over V_oc; None tracks the maximum-power point."""
    efficiency: Number
    fixed_loss_w: Number
    loss_ohm: Number
    output_limit_a: Number
    minimum_panel_v: Number
    minimum_panel_w: Number
    cold_below_v: Number
    cold_efficiency: Number
    cold_panel_v: Number
    cold_panel_w: Number
    table: EfficiencyTable | None = None
    """Stands for efficiency, fixed loss and path resistance where it is given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ConverterInput:
    """What a converter takes from the panel at one or more light levels."""

    panel_w: FloatArray
    """Panel power at the working point. [W]"""
    panel_a: FloatArray
    """Panel current at the working point. [A]"""
    warm_w: FloatArray
    """Power left for the store and the path resistance in normal running. [W]"""
    cold_w: FloatArray
    """The same during a cold start. [W]"""
    warm_at_w: tuple[FloatArray, ...] = ()
    """In normal running at each store voltage of an efficiency table that has several; `warm_w` is
    the most of them. [W]"""


def converter_input(
    converter: Converter, panel: pv.Panel, photocurrent_a: Number
) -> ConverterInput:
    """Working point and power after the converter's own losses.

    ``P_out = efficiency * P_panel - fixed loss``, or by the table where there is one, zero where
    the panel's voltage or power is below what the converter needs (loss split as in design
    handbooks of switching converters: common practice, no source).

    Parameters
    ----------
    converter : Converter
        Parameters.
    panel : Panel
        The array.
    photocurrent_a : array_like
        Photocurrent. [A]
    """
    open_v = pv.open_circuit_voltage(panel, photocurrent_a)
    if converter.voc_fraction is None:
        point = pv.maximum_power(panel, photocurrent_a)
        voltage, current = point.voltage_v, point.current_a
    else:
        voltage = open_v * converter.voc_fraction
        current = pv.current_at_voltage(panel, photocurrent_a, voltage)
    power = np.maximum(voltage * current, 0.0)
    runs = (voltage >= converter.minimum_panel_v) & (power >= converter.minimum_panel_w)
    if converter.table is None:
        warm = np.where(runs, converter.efficiency * power - converter.fixed_loss_w, 0.0)
        by_volts: tuple[FloatArray, ...] = ()
    else:
        by_volts = tuple(np.where(runs, w, 0.0) for w in converter.table.outputs(power))
        warm = np.max(by_volts, axis=0)
    starts = (open_v >= converter.cold_panel_v) & (power >= converter.cold_panel_w)
    cold = np.where(starts, converter.cold_efficiency * power, 0.0)
    return ConverterInput(
        panel_w=power,
        panel_a=np.maximum(current, 0.0),
        warm_w=np.maximum(warm, 0.0),
        cold_w=cold,
        warm_at_w=by_volts if len(by_volts) > 1 else (),
    )


def power_into(
    power_w: Number, source_v: Number, path_ohm: Number, limit_a: Number
) -> FloatArray:
    """Current that a power source drives into a voltage behind a resistance.

    Root of ``I (w + I R) = P``, written so that it stays exact for R = 0, limited to
    ``limit_a``. [A]

    Examples
    --------
    >>> float(power_into(1.0, 2.0, 0.0, 10.0))
    0.5
    """
    p, w, r = np.asarray(power_w, float), np.asarray(source_v, float), np.asarray(path_ohm, float)
    root = np.sqrt(w * w + 4.0 * r * p)
    base = np.maximum(w + root, 1e-12)
    current: FloatArray = np.minimum(2.0 * p / base, limit_a)
    return current


def converter_current(
    converter: Converter,
    given: ConverterInput,
    store_v: Number,
    source_v: Number,
    esr_ohm: Number,
) -> FloatArray:
    """Charging current from a converter. [A]

    Parameters
    ----------
    converter : Converter
        Parameters.
    given : ConverterInput
        From `converter_input`, broadcasting against the voltages.
    store_v : array_like
        Open-circuit voltage of the store; decides between cold start and normal running. [V]
    source_v : array_like
        Store voltage less the load's drop across the store's resistance. [V]
    esr_ohm : array_like
        Series resistance of the store. [ohm]

    Notes
    -----
    While cold the path is a pass-through or a charge pump that gives no more current than the
    panel does (assumption, common practice, no source).
    """
    path = converter.loss_ohm + np.asarray(esr_ohm, float)
    cold = np.asarray(store_v, float) < converter.cold_below_v
    warm_w: Number = given.warm_w
    if given.warm_at_w and converter.table is not None:
        warm_w = converter.table.between(given.warm_at_w, store_v)
    limit_a = converter.output_limit_a
    return power_into(
        np.where(cold, given.cold_w, warm_w), source_v, path,
        np.where(cold, np.minimum(given.panel_a, limit_a), limit_a),
    )


def direct_current(
    charger: DirectCharger,
    panel: pv.Panel,
    photocurrent_a: Number,
    source_v: Number,
    path_ohm: Number,
) -> FloatArray:
    """Charging current through a blocking diode, negative where the diode leaks back. [A]

    Solves ``u - I (R_s + R) - n V_T ln(1 + I/I_s) = w`` for the panel's diode voltage ``u``.
    The left side rises in ``u``: Newton's method, kept within a bracket.

    Parameters
    ----------
    charger : DirectCharger
        The blocking diode.
    panel : Panel
        The array.
    photocurrent_a : array_like
        Photocurrent. [A]
    source_v : array_like
        Voltage that the path ends in. [V]
    path_ohm : array_like
        Resistance beside the panel's own. [ohm]
    """
    light, w = np.broadcast_arrays(np.asarray(photocurrent_a, float), np.asarray(source_v, float))
    leak = np.asarray(charger.diode_saturation_a, float)
    slope_d = np.asarray(charger.diode_slope_v, float)
    path = panel.series_ohm + np.asarray(path_ohm, float)
    high = pv.diode_voltage_at_current(panel, light, -leak * (1.0 - 1e-6))
    low = np.minimum(w, 0.0)
    u = np.minimum(w + slope_d * np.log1p(np.maximum(light, 0.0) / leak) + light * path, high)
    shunt = panel.shunt_s + panel.photo_shunt_per_v * light
    for _ in range(120):
        grown = panel.saturation_a * np.exp(u / panel.slope_v)
        current = light - (grown - panel.saturation_a) - u * shunt
        fall = grown / panel.slope_v + shunt
        above = np.maximum(leak + current, 1e-7 * leak)
        miss = u - current * path - slope_d * np.log(above / leak) - w
        low, high = np.where(miss < 0.0, u, low), np.where(miss < 0.0, high, u)
        # Where the current has all but run out, the diode's drop bends within it: there the same
        # step is taken in the logarithm of the current.
        bent = slope_d * fall > above
        grows = np.expm1(np.clip(miss / (slope_d + above * (1.0 / fall + path)), -40.0, 40.0))
        step = np.where(
            bent, above * grows / fall, miss / (1.0 + fall * (path + slope_d / above))
        )
        inside = (u - step > low) & (u - step < high)
        following = np.where(inside, u - step, 0.5 * (low + high))
        near = np.abs(following - u) <= 1e-15 * (np.abs(u) + panel.slope_v)
        done = near | (np.abs(miss) <= 1e-11 * slope_d)
        if np.all(done):
            break
        u = np.where(done, u, following)
    amps: FloatArray = np.maximum(pv.current_of_diode(panel, light, u), -leak)
    return amps


@dataclass(frozen=True, slots=True, kw_only=True)
class DirectCurve:
    """Charging current against source voltage at one light level, both rising in order."""

    source_v: FloatArray
    current_a: FloatArray
    panel_v: FloatArray

    def behind(self, path_ohm: float) -> DirectCurve:
        """The same with a further resistance in the path."""
        source = np.maximum.accumulate(self.source_v - self.current_a * path_ohm)
        return DirectCurve(source_v=source, current_a=self.current_a, panel_v=self.panel_v)


def direct_curve(
    charger: DirectCharger,
    panel: pv.Panel,
    photocurrent_a: float,
    path_ohm: float,
    points: int = 800,
) -> DirectCurve:
    """The relation of `direct_current` in closed form, for interpolation.

    The panel's diode voltage is the parameter, so every point is exact. Half of the points are
    even in that voltage, half in the blocking diode's drop: where the current runs out, the drop
    bends within microamperes, and there the store comes to rest.
    """
    leak = float(np.asarray(charger.diode_saturation_a))
    stop = float(pv.diode_voltage_at_current(panel, photocurrent_a, -leak))
    even = np.linspace(0.0, stop, points, endpoint=False)
    # Below a twentieth of its leakage the current hardly changes any more.
    turn = np.log(0.05)
    drops = np.concatenate([
        np.linspace(np.log(1e-9), turn, points // 8, endpoint=False),
        np.linspace(turn, np.log1p(photocurrent_a / leak), points - points // 8),
    ])
    amps = np.minimum(leak * np.expm1(drops), photocurrent_a)
    by_drop = pv.diode_voltage_at_current(panel, photocurrent_a, amps)
    u = np.sort(np.concatenate([even, by_drop]))
    point = pv.curve(panel, photocurrent_a, u)
    current = np.maximum(point.current_a, -leak * (1.0 - 1e-9))
    diode = np.asarray(charger.diode_slope_v) * np.log1p(current / leak)
    source = point.voltage_v - diode - current * path_ohm
    source = np.maximum.accumulate(source)
    return DirectCurve(source_v=source, current_a=current, panel_v=point.voltage_v)

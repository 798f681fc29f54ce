"""The panel's I-V and P-V curves at the scenario's light, with the point at which it works."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from explorer.advice.case import Case
from explorer.advice.charger_curve import ChargerCurve, charger_curve
from explorer.advice.readings.required import in_steady_light
from explorer.physics import charger as ch
from explorer.physics import panel as pv
from explorer.physics.arrays import FloatArray
from explorer.quantity import show
from explorer.scenario.build import build
from explorer.text import say


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkingPoint:
    """A named point on the curve."""

    label: str
    voltage_v: float
    current_a: float

    @property
    def power_w(self) -> float:
        """Power there. [W]"""
        return self.voltage_v * self.current_a


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelCurve:
    """Curves of the whole array at one light level."""

    illuminance_lx: float
    voltage_v: FloatArray
    current_a: FloatArray
    points: tuple[WorkingPoint, ...]
    """Maximum power, and where the charger holds the panel with the store at its thresholds."""
    note: str
    """What the charger makes of this light, in a sentence."""
    charger: ChargerCurve
    """What the charger makes of any input."""

    @property
    def power_w(self) -> FloatArray:
        """Power along the curve. [W]"""
        return self.voltage_v * self.current_a


def panel_curve(case: Case, illuminance_lx: float | None = None) -> PanelCurve:
    """Curves and working points of the array.

    Parameters
    ----------
    case : Case
        The design in its light.
    illuminance_lx : float, optional
        Light at the place; the scenario's own level when left out. [lx]
    """
    light, lux = case.light, illuminance_lx
    if lux is None:
        lux = light.illuminance_lx
    if lux is None:
        lux = case.mean_lit_lx
    scenario = in_steady_light(case.scenario.model_copy(update={"light": light}), lux)
    system = build(scenario)
    amps = float(system.light.photocurrent_a[0])
    curve = pv.current_over(system.panel, amps, points=400)
    charger = charger_curve(scenario, system, amps)
    peak = pv.maximum_power(system.panel, amps)
    points = [
        WorkingPoint(
            label=say("maximum power point"), voltage_v=float(peak.voltage_v),
            current_a=float(peak.current_a),
        )
    ]
    if isinstance(system.charger, ch.Converter):
        given = ch.converter_input(system.charger, system.panel, amps)
        current = float(given.panel_a)
        volts = float(given.panel_w) / current if current > 0 else 0.0
        points.append(
            WorkingPoint(label=say("operating point"), voltage_v=volts, current_a=current)
        )
        share = float(given.panel_w) / points[0].power_w if points[0].power_w > 0 else 0.0
        if float(given.warm_w) <= 0:
            note = say(
                "The panel gives less than the converter needs; the converter does not run "
                "in this light."
            )
        elif float(given.cold_w) <= 0:
            note = say("The converter runs, but in this light it cannot start from an empty store.")
        else:
            kept = charger.working[1] if charger.working is not None else 0.0
            note = say(
                "The converter takes {share} % of the largest power and passes on {kept} % of it.",
                share=f"{100 * share:.0f}", kept=f"{100 * kept:.0f}",
            )
    else:
        esr = 0.0
        for label, volts in (
            (say("store at cut-off"), system.load.off_v),
            (say("connect voltage"), system.load.connect_v),
            (say("store full"), system.full_v),
        ):
            at = np.array([volts])
            current = float(
                ch.direct_current(system.charger, system.panel, amps, at, esr)[0]
            )
            drop = float(
                np.asarray(system.charger.diode_slope_v)
                * np.log1p(max(current, 0.0) / np.asarray(system.charger.diode_saturation_a))
            )
            points.append(
                WorkingPoint(
                    label=label, voltage_v=volts + drop, current_a=max(current, 0.0)
                )
            )
        ceiling = float(pv.open_circuit_voltage(system.panel, amps))
        if ceiling < system.full_v:
            note = say(
                "In this light the panel reaches at most {volts} V, so the store never "
                "becomes full through the diode.",
                volts=show(ceiling, ""),
            )
        else:
            note = say("The store sets the panel's voltage; the working point moves as it fills.")
    return PanelCurve(
        illuminance_lx=float(lux),
        voltage_v=curve.voltage_v,
        current_a=curve.current_a,
        points=tuple(points),
        note=note,
        charger=charger,
    )

"""Systems built by hand, small enough that a pencil can follow them."""

import numpy as np

from explorer.engine.system import (
    WEEK_S,
    LightCourse,
    Load,
    Operation,
    Periodic,
    Phase,
    System,
    WhenReady,
)
from explorer.physics.charger import Converter, DirectCharger
from explorer.physics.efficiency import EfficiencyCurve, EfficiencyTable
from explorer.physics.load import Draw
from explorer.physics.panel import Panel, maximum_power
from explorer.physics.store import CapacitorBank

ALWAYS = ((0.0, WEEK_S),)
NEVER_V = 1e3
NO_DRAW = Draw()

CURRENT_SOURCE = Panel(saturation_a=1e-40, slope_v=0.5, series_ohm=0.0, shunt_s=0.0)
"""Delivers its photocurrent into any voltage below 40 V."""
NO_DROP = DirectCharger(diode_saturation_a=1.0, diode_slope_v=1e-9)
"""A blocking diode without a drop."""
AMORPHOUS = Panel(
    saturation_a=2e-14, slope_v=0.36, series_ohm=900.0, shunt_s=1e-7, photo_shunt_per_v=0.03
)
"""Much as a small amorphous panel of eight cells."""
CRYSTALLINE = Panel(saturation_a=2e-9, slope_v=0.21, series_ohm=20.0, shunt_s=8e-6)
"""Much as a small crystalline panel of eight cells."""
SCHOTTKY = DirectCharger(diode_saturation_a=7.2e-8, diode_slope_v=0.0304)


def resistor_source(ohm):
    """A panel that is a voltage source behind a resistance; give it V / ohm as photocurrent."""
    return Panel(saturation_a=1e-40, slope_v=0.5, series_ohm=0.0, shunt_s=1.0 / ohm)


def steady(photocurrent_a, illuminance_lx=500.0):
    return levels([(0.0, photocurrent_a)], WEEK_S, illuminance_lx)


def levels(begins, period_s, illuminance_lx=500.0, begins_at_s=0.0):
    """A light course from (begin, photocurrent) pairs."""
    times, amps = zip(*begins, strict=True)
    return LightCourse(
        edges_s=np.array([*times, period_s], float),
        photocurrent_a=np.array(amps, float),
        illuminance_lx=np.where(np.array(amps) > 0, illuminance_lx, 0.0),
        begins_at_s=begins_at_s,
    )


def converter(**changes):
    given = {
        "voc_fraction": None,
        "efficiency": 0.85,
        "fixed_loss_w": 1e-6,
        "loss_ohm": 0.5,
        "output_limit_a": 0.1,
        "minimum_panel_v": 0.1,
        "minimum_panel_w": 3e-6,
        "cold_below_v": 0.0,
        "cold_efficiency": 0.05,
        "cold_panel_v": 0.4,
        "cold_panel_w": 5e-6,
    }
    return Converter(**{**given, **changes})


RISING = EfficiencyTable(
    volts=(1.0, 2.5, 4.5),
    curves=tuple(
        EfficiencyCurve(power_w=(1e-5, 1e-4, 3e-3), share=(a, a + 0.2, a + 0.25))
        for a in (0.3, 0.5, 0.6)
    ),
)
"""Efficiencies that rise with the power and with the store's voltage."""


def power_source(power_w, panel, photocurrent_a, **changes):
    """A converter without losses that gives a set power at one light level."""
    best = float(maximum_power(panel, photocurrent_a).power_w)
    none = {
        "efficiency": power_w / best,
        "fixed_loss_w": 0.0,
        "loss_ohm": 0.0,
        "output_limit_a": 1e3,
        "minimum_panel_v": 0.0,
        "minimum_panel_w": 0.0,
    }
    return converter(**{**none, **changes})


def bank(capacitance_f, rated_v=5.5, esr_ohm=0.0, leakage_a=0.0, **more):
    return CapacitorBank(
        capacitance_f=capacitance_f, rated_v=rated_v, esr_ohm=esr_ohm, leakage_a=leakage_a, **more
    )


def pulse(current_a, duration_s, interval_s, windows_s=ALWAYS, name="pulse"):
    return Operation(
        name=name,
        schedule=Periodic(interval_s=interval_s, windows_s=windows_s),
        phases=(Phase(draw=Draw(current_a=current_a), duration_s=duration_s),),
    )


def when_ready(ready_v, *phases, name="ready"):
    return Operation(
        name=name,
        schedule=WhenReady(ready_v=ready_v, wanted_per_s=1e-4),
        phases=tuple(Phase(draw=d, duration_s=t) for d, t in phases),
    )


def load(**changes):
    given = {
        "connect_v": NEVER_V,
        "off_v": 0.0,
        "minimum_v": 0.0,
        "bulk_f": 0.0,
        "start_up": (),
        "sleep": NO_DRAW,
        "operations": (),
    }
    return Load(**{**given, **changes})


def system(**changes):
    given = {
        "light": steady(0.0),
        "panel": CURRENT_SOURCE,
        "charger": NO_DROP,
        "full_v": 5.0,
        "full_hysteresis_v": 0.05,
        "quiescent_a": 0.0,
        "store": bank(1.0),
        "initial_charge_c": 0.0,
        "load": load(),
    }
    return System(**{**given, **changes})

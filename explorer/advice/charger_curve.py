"""What a charger makes of its input: efficiency over power, or charging current over voltage."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from explorer.engine.system import System
from explorer.physics import charger as ch
from explorer.physics import panel as pv
from explorer.physics.arrays import FloatArray
from explorer.quantity import show
from explorer.scenario.model import Scenario
from explorer.scenario.supply import EfficiencyPoint
from explorer.text import Text, say

_POINTS = 120
_LEAST_W, _MOST_W = 1e-6, 1e-2
"""Range of input powers that is shown at least. [W]"""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ChargerCurve:
    """Curves of one charger; `inputs` and each curve have the shape (points,)."""

    kind: str
    """``"efficiency"`` over input power, or ``"current"`` over the store's voltage."""
    inputs: FloatArray
    """Input power [W], or store voltage [V]."""
    curves: tuple[tuple[Text, FloatArray], ...]
    """Name, and share of the power that arrives or charging current. [A]"""
    rows: tuple[tuple[int, float, float], ...]
    """Curve, input power and efficiency of every row of a table."""
    working: tuple[float, float] | None
    """Where it works in the light, with the store at its connect level; None where it does not."""


def charger_curve(scenario: Scenario, system: System, photocurrent_a: float) -> ChargerCurve:
    """Curves of the design's charger, and where it works in a light.

    Parameters
    ----------
    scenario : Scenario
        The design.
    system : System
        What `build` made of it, at the temperature of that light.
    photocurrent_a : float
        Of the whole array in that light. [A]
    """
    charger = system.charger
    if isinstance(charger, ch.Converter):
        rows = getattr(scenario.charger, "efficiency_table", ())
        return _efficiency(system, charger, rows, photocurrent_a)
    return _current(system, charger, photocurrent_a)


def _efficiency(
    system: System, charger: ch.Converter, rows: Sequence[EfficiencyPoint], photocurrent_a: float
) -> ChargerCurve:
    powers = [row.input_W for row in rows]
    given = ch.converter_input(charger, system.panel, photocurrent_a)
    watt = float(given.panel_w)
    shown = [w for w in (watt, *powers) if w > 0.0]
    low, high = min([_LEAST_W, *shown]), max([_MOST_W, *shown])
    # The curve bends in its first row.
    inputs = np.unique(np.concatenate([np.geomspace(low, high, _POINTS), powers]))
    volts = charger.table.volts if charger.table is not None else ()
    several = len(volts) > 1
    connect_v = system.load.connect_v
    levels = volts if several else (connect_v,)
    curves = tuple(
        (say("store at {volts}", volts=show(v, "V")) if several else say("efficiency"),
         _share(charger, inputs, v))
        for v in levels
    )  # fmt: skip
    runs = float(given.warm_w) > 0.0
    share = float(_share(charger, np.array([watt]), connect_v)[0]) if runs else 0.0
    return ChargerCurve(
        kind="efficiency", inputs=inputs, curves=curves,
        rows=tuple(
            (volts.index(row.store_V) if several else 0, row.input_W, row.efficiency)
            for row in rows
        ),
        working=(watt, share) if runs else None,
    )  # fmt: skip


def _share(charger: ch.Converter, input_w: FloatArray, store_v: float) -> FloatArray:
    """Share of input powers that reaches a store at a voltage, in normal running."""
    if charger.table is not None:
        output_w = charger.table.between(charger.table.outputs(input_w), store_v)
    else:
        left_w = np.maximum(charger.efficiency * input_w - charger.fixed_loss_w, 0.0)
        amps = ch.power_into(left_w, store_v, charger.loss_ohm, charger.output_limit_a)
        output_w = np.asarray(amps * store_v)
    share: FloatArray = output_w / np.maximum(input_w, 1e-300)
    return share


def _current(system: System, charger: ch.DirectCharger, photocurrent_a: float) -> ChargerCurve:
    panel = system.panel
    top_v = max(system.full_v, float(pv.open_circuit_voltage(panel, photocurrent_a)))
    volts = np.linspace(0.0, 1.02 * top_v, _POINTS)
    amps = np.maximum(ch.direct_current(charger, panel, photocurrent_a, volts, 0.0), 0.0)
    connect_v = system.load.connect_v
    at = float(np.interp(connect_v, volts, amps))
    return ChargerCurve(
        kind="current", inputs=volts, curves=((say("charging current"), amps),), rows=(),
        working=(connect_v, at) if at > 0.0 else None,
    )  # fmt: skip

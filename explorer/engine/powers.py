"""Where power goes at every charge of the store, for one light level, charger state and draw.

Everything here follows from the physics of the parts, not from the speed with which the engine
moves the store: the two are held against each other by `explorer.engine.ledger`.
"""

from __future__ import annotations

from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from explorer.engine.field import Field, Regime
from explorer.engine.legs import Key
from explorer.engine.march import OFF, Engine
from explorer.physics import charger as ch
from explorer.physics import load as ld
from explorer.physics import panel as pv

FloatArray = NDArray[np.float64]


class Row(IntEnum):
    """Rows of a table of powers; operations follow after the last."""

    AVAILABLE = 0
    """What the panel could give at its maximum-power point."""
    TAKEN = 1
    TOO_WEAK = 2
    """At a working point that the charger does not run at."""
    LIMITED = 3
    """Held back by a limit of the charging current."""
    CLIPPED = 4
    """What would be taken if the store were not full."""
    DELIVERABLE = 5
    """What would then reach the store's terminals."""
    CHARGER = 6
    CHARGED = 7
    ESR = 8
    LEAKAGE = 9
    QUIESCENT = 10
    REGULATOR = 11
    SLEEP = 12
    START_UP = 13


OPERATIONS = len(Row)
"""Row of the first operation."""
BLOCKED = 1e-4
"""Share of the saturation current, short of the whole of it, below which a diode blocks."""


def powers(engine: Engine, photocurrent_a: float, charging: bool, key: Key) -> FloatArray:
    """Powers at the charge nodes of an engine, one row for each `Row` and operation. [W]

    Returns
    -------
    ndarray
        Shape (rows, nodes + 1). The last column belongs to a store that is pinned at the top of
        its table, where the charger can only replace what is drawn.
    """
    small = key[1] if key[0] == "on" else ()
    if not small:
        return _one(engine, photocurrent_a, charging, key)
    active: tuple[tuple[int, int], ...] = key[2]  # type: ignore[assignment]
    table = _one(engine, photocurrent_a, charging, ("on", (), active))
    mean = table.copy()
    for j in small:  # type: ignore[attr-defined]
        operation = engine.system.load.operations[j]
        for k, phase in enumerate(operation.phases):
            busy = _one(engine, photocurrent_a, charging, ("on", (), (*active, (j, k))))
            mean += (busy - table) * phase.duration_s / operation.schedule.interval_s  # type: ignore[union-attr]
    return mean


def _one(engine: Engine, photocurrent_a: float, charging: bool, key: Key) -> FloatArray:
    """The same without averaged operations."""
    field = engine.field
    regime = field.regime(photocurrent_a, charging, key, engine._draw(key))
    would = regime if charging else field.regime(photocurrent_a, True, key, engine._draw(key))
    table = np.zeros((OPERATIONS + len(engine.system.load.operations), len(field.charge_c) + 1))
    inside = table[:, :-1]
    supply = _supply_side(field, photocurrent_a, would)
    inside[Row.AVAILABLE] = float(pv.maximum_power(field.system.panel, photocurrent_a).power_w)
    inside[Row.TOO_WEAK] = supply[Row.TOO_WEAK]
    inside[Row.LIMITED] = supply[Row.LIMITED]
    if charging:
        for row in (Row.TAKEN, Row.CHARGER, Row.CHARGED):
            inside[row] = supply[row]
    else:
        inside[Row.CLIPPED] = np.maximum(supply[Row.TAKEN], 0.0)
        inside[Row.DELIVERABLE] = np.maximum(supply[Row.CHARGED], 0.0)
    _load_side(engine, regime, key, inside)
    table[:, -1] = inside[:, -1]
    if charging:
        idle = field.regime(photocurrent_a, False, key, engine._draw(key))
        rise, fall = regime.flow.speed[-1], -idle.flow.speed[-1]
        if rise > 0.0:
            held = _one(engine, photocurrent_a, False, key)[:, -2]
            table[:, -1] = (fall * inside[:, -1] + rise * held) / max(fall + rise, 1e-300)
    return table


def _reached(field: Field, regime: Regime) -> FloatArray:
    """Terminal voltage, where there is one. [V]"""
    at = np.where(regime.terminal_v > 0, regime.terminal_v, 0.5 * field.side_v)
    return np.asarray(np.maximum(at, 0.0))


def _supply_side(field: Field, photocurrent_a: float, regime: Regime) -> dict[Row, FloatArray]:
    """From the panel's working point to the store's terminals, at every node. [W]"""
    charger, amps = field.system.charger, regime.charge_a
    charged = _reached(field, regime) * amps
    if isinstance(charger, ch.Converter):
        return _converter(field, charger, photocurrent_a, amps, charged)
    supply = field.supply(photocurrent_a)
    free_a = np.interp(regime.source_v, supply.table.source_v, supply.table.current_a)
    at_panel = np.interp(regime.source_v, supply.table.source_v, supply.table.panel_v)
    forward = 1.0 + amps / np.asarray(charger.diode_saturation_a, float)
    drop = np.asarray(charger.diode_slope_v) * np.log(np.maximum(forward, 1e-12))
    # A diode that blocks has any voltage across it: what lies between panel and store.
    drop = np.where(forward < BLOCKED, at_panel - _reached(field, regime), drop)
    limited = free_a > field.curve.charge_limit_a
    # A limiter is taken to hold the panel back without a loss of its own.
    taken = np.where(limited, charged + drop * amps, at_panel * amps)
    return {
        Row.TOO_WEAK: np.zeros_like(amps),
        Row.LIMITED: np.where(limited, at_panel * free_a - taken, 0.0),
        Row.TAKEN: taken,
        Row.CHARGER: drop * amps,
        Row.CHARGED: charged,
    }


def _converter(
    field: Field,
    charger: ch.Converter,
    photocurrent_a: float,
    amps: FloatArray,
    charged: FloatArray,
) -> dict[Row, FloatArray]:
    given = field.supply(photocurrent_a).given
    work_w, work_a = float(given.panel_w), float(given.panel_a)
    work_v = work_w / work_a if work_a > 0 else 0.0
    open_v = float(pv.open_circuit_voltage(field.system.panel, photocurrent_a))
    runs = work_v >= charger.minimum_panel_v and work_w >= charger.minimum_panel_w
    starts = open_v >= charger.cold_panel_v and work_w >= charger.cold_panel_w
    cold = field.side_v < charger.cold_below_v
    running = np.where(cold, starts, runs)
    path = np.asarray(charger.loss_ohm, float) * amps**2
    share = np.where(cold, charger.cold_efficiency, charger.efficiency)
    fixed = np.where(cold, 0.0, charger.fixed_loss_w)
    limit = min(float(np.asarray(charger.output_limit_a)), field.curve.charge_limit_a)
    needed = (charged + path + fixed) / share
    held = running & (amps >= limit * (1.0 - 1e-12)) & (needed < work_w)
    taken = np.where(running, np.where(held, needed if limit > 0.0 else 0.0, work_w), 0.0)
    own = (1.0 - share) * taken + np.minimum(fixed, share * taken)
    # A pass-through that gives no more current than the panel does loses the rest of the power.
    starved = cold & running & ~held
    lost = np.where(starved, taken - charged, np.where(taken > 0.0, own + path, 0.0))
    return {
        Row.TOO_WEAK: np.where(running, 0.0, work_w),
        Row.LIMITED: np.where(running, work_w - taken, 0.0),
        Row.TAKEN: taken,
        Row.CHARGER: lost,
        Row.CHARGED: charged,
    }


def _load_side(engine: Engine, regime: Regime, key: Key, table: FloatArray) -> None:
    """From the store to the device, written into the rows of a table. [W]"""
    field, load = engine.field, engine.system.load
    volts = _reached(field, regime)
    own = ld.regulator_draw(load.regulator)
    parts: list[tuple[int, ld.Draw]] = []
    if key != OFF:
        if key[0] == "start":
            parts.append((Row.START_UP, _less(load.start_up[key[1]].draw, own)))  # type: ignore[index]
        else:
            parts.append((Row.SLEEP, _less(load.sleep, own)))
            parts += [
                (OPERATIONS + j, load.operations[j].phases[k].draw)
                for j, k in key[2]  # type: ignore[attr-defined]
            ]
        parts.append((Row.REGULATOR, own))
    leak = field.curve.leak_a.copy()
    met = np.ones_like(leak)
    # An empty store passes on what the charger gives and no more.
    wanted = float(ld.drawn_current(engine._draw(key) + field.quiescent, max(volts[0], 1e-3)))
    if regime.charge_a[0] < wanted + leak[0]:
        met[0] = max(float(regime.charge_a[0]), 0.0) / (wanted + leak[0])
    at = np.maximum(volts, 1e-3)
    table[Row.QUIESCENT] += volts * ld.drawn_current(field.quiescent, at) * met
    total = ld.drawn_current(field.quiescent, at) * met
    for row, draw in parts:
        amps = ld.drawn_current(draw, at) * met
        total = total + amps
        power = volts * amps
        useful = power if row == Row.REGULATOR else _useful(load.regulator, draw, amps, power)
        table[row] += useful
        table[Row.REGULATOR] += power - useful
    table[Row.ESR] += (regime.charge_a - total) ** 2 * field.curve.esr_ohm
    table[Row.LEAKAGE] += field.side_v * leak * met


def _less(draw: ld.Draw, own: ld.Draw) -> ld.Draw:
    """A draw without the regulator's own current."""
    return ld.Draw(
        current_a=np.asarray(draw.current_a) - own.current_a,
        power_w=draw.power_w,
        conductance_s=draw.conductance_s,
    )


def _useful(
    regulator: ld.Regulator, draw: ld.Draw, amps: FloatArray, power: FloatArray
) -> FloatArray:
    """Power that arrives behind the regulator. [W]"""
    if isinstance(regulator, ld.LinearRegulator):
        return np.asarray(np.minimum(regulator.output_v * amps, power))
    if isinstance(regulator, ld.SwitchingRegulator):
        return np.asarray(power * regulator.efficiency)
    return power

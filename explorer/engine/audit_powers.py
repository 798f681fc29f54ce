"""Where power goes at every charge of the store, for one light level, charger state and draw.

Everything here follows from the physics of the parts, not from the speed with which the engine
moves the store: the two are held against each other by `explorer.engine.audit`.
"""

from __future__ import annotations

from enum import IntEnum

import numpy as np
from numpy.typing import ArrayLike

from explorer.engine.keys import DrawKey, MotionKey, Off, On, StartUp
from explorer.engine.motions import Motions
from explorer.engine.speeds import LEAST_TERMINAL_V, Field, Regime
from explorer.physics import charger as ch
from explorer.physics import load as ld
from explorer.physics import panel as pv
from explorer.physics.arrays import FloatArray


class Post(IntEnum):
    """Posts of the account, one row each in a table of powers; operations follow the last."""

    AVAILABLE = 0
    """What the panel could give at its maximum-power point; left to the reader of the table."""
    TAKEN = 1
    TOO_WEAK = 2
    """At a working point that the charger does not run at."""
    LIMITED = 3
    """Held back by a limit of the charging current."""
    CLIPPED = 4
    """What would be taken if the store were not full."""
    CHARGER = 5
    CHARGED = 6
    ESR = 7
    LEAKAGE = 8
    QUIESCENT = 9
    REGULATOR = 10
    SLEEP = 11
    START_UP = 12


OPERATIONS = len(Post)
"""Post of the first operation."""
SPENT = (
    Post.CHARGER, Post.ESR, Post.LEAKAGE, Post.QUIESCENT, Post.REGULATOR, Post.SLEEP, Post.START_UP,
)
"""Rows, beside the operations, in which what is taken from the panel and the store ends."""
BLOCKED = 1e-4
"""Share of the saturation current, short of the whole of it, below which a diode blocks."""


def powers(engine: Motions, key: MotionKey) -> FloatArray:
    """Powers along the charge of an engine's store, one row for each `Post` and operation. [W]

    Voltages and currents are linear between nodes, as they are for the engine; powers are their
    products and so bend in between.

    Returns
    -------
    ndarray
        Shape (rows, 2 nodes). First the powers at the nodes; then, in one column, those of a
        store that is pinned at the top of its table, where the charger can only replace what is
        drawn; then for each cell the factor of ``s (1 - s)``, with s the place in the cell, that
        is added to the straight line between its nodes.
    """
    points = _mean(engine, key)
    n = len(engine.field.charge_c)
    nodes, middles = points[:, :n], points[:, n:]
    bend = 4.0 * middles - 2.0 * (nodes[:, :-1] + nodes[:, 1:])
    top = nodes[:, -1:]
    rise = _into_store(top)
    if key.charging and rise > 0.0:
        held = _mean(engine, key._replace(charging=False))[:, n - 1 : n]
        fall = -_into_store(held)
        top = (fall * top + rise * held) / max(fall + rise, 1e-300)
    return np.concatenate([nodes, top, bend], axis=1)


def _into_store(powers_w: FloatArray) -> float:
    """Power that is left for the store of one column of powers. [W]"""
    column = powers_w[:, 0]
    return float(column[Post.TAKEN] - column[list(SPENT)].sum() - column[OPERATIONS:].sum())


def _mean(engine: Motions, key: MotionKey) -> FloatArray:
    """Powers at nodes and middles of cells, averaged operations counted with their mean. [W]"""
    if not isinstance(key.draw, On) or not key.draw.averaged:
        return _one(engine, key)
    active = key.draw.active
    table = _one(engine, key._replace(draw=On(active=active)))
    mean = table.copy()
    for j in key.draw.averaged:
        operation = engine.system.load.operations[j]
        for k, phase in enumerate(operation.phases):
            busy = _one(engine, key._replace(draw=On(active=(*active, (j, k)))))
            interval = operation.schedule.interval_s  # type: ignore[union-attr]
            mean += (busy - table) * phase.duration_s / interval
    return mean


def _one(engine: Motions, key: MotionKey) -> FloatArray:
    """The same without averaged operations."""
    field, draw = engine.field, engine.draw(key.draw)
    at = _Points(field, field.regime(key, draw))
    would = at
    if not key.charging:
        would = _Points(field, field.regime(key._replace(charging=True), draw))
    table = np.zeros((OPERATIONS + len(engine.system.load.operations), len(at.store_v)))
    supply = _supply_side(field, key.photocurrent_a, would)
    table[Post.TOO_WEAK] = supply[Post.TOO_WEAK]
    table[Post.LIMITED] = supply[Post.LIMITED]
    if key.charging:
        for row in (Post.TAKEN, Post.CHARGER, Post.CHARGED):
            table[row] = supply[row]
    else:
        table[Post.CLIPPED] = np.maximum(supply[Post.TAKEN], 0.0)
    _load_side(engine, at, key.draw, table)
    return table


class _Points:
    """Voltages and currents at the nodes of a field and in the middles of its cells."""

    __slots__ = ("charge_a", "leak_a", "regime", "store_v", "terminal_v")

    def __init__(self, field: Field, regime: Regime) -> None:
        self.regime = regime
        self.store_v = _with_middles(field.side_v)
        self.leak_a = _with_middles(field.curve.leak_a)
        self.charge_a = _with_middles(regime.charge_a)
        self.charge_a[0] = max(self.charge_a[0], 0.0)  # nothing leaks back out of an empty store
        at = np.where(regime.terminal_v > 0, regime.terminal_v, 0.5 * field.side_v)
        self.terminal_v = _with_middles(np.maximum(at, 0.0))


def _with_middles(at_nodes: FloatArray) -> FloatArray:
    return np.concatenate([at_nodes, 0.5 * (at_nodes[:-1] + at_nodes[1:])])


def _plain(value: ArrayLike) -> float:
    return float(np.asarray(value))


def _supply_side(field: Field, photocurrent_a: float, at: _Points) -> dict[Post, FloatArray]:
    """From the panel's working point to the store's terminals. [W]"""
    charger, amps = field.system.charger, at.charge_a
    charged = at.terminal_v * amps
    if isinstance(charger, ch.Converter):
        return _converter(field, charger, photocurrent_a, at, charged)
    supply, regime = field.supply(photocurrent_a), at.regime
    free_a = np.interp(regime.source_v, supply.table.source_v, supply.table.current_a)
    panel_v = np.interp(regime.source_v, supply.table.source_v, supply.table.panel_v)
    limit_a = field.curve.charge_limit_a
    forward = 1.0 + np.minimum(free_a, limit_a) / _plain(charger.diode_saturation_a)
    drop = _plain(charger.diode_slope_v) * np.log(np.maximum(forward, 1e-12))
    # A diode that blocks has any voltage across it: what lies between panel and store.
    drop = np.where(forward < BLOCKED, panel_v - at.terminal_v[: len(panel_v)], drop)
    free_a, panel_v, drop = (_with_middles(x) for x in (free_a, panel_v, drop))
    limited = free_a > limit_a
    # A limiter is taken to hold the panel back without a loss of its own.
    taken = np.where(limited, charged + drop * amps, panel_v * amps)
    return {
        Post.TOO_WEAK: np.zeros_like(amps),
        Post.LIMITED: np.where(limited, panel_v * free_a - taken, 0.0),
        Post.TAKEN: taken,
        Post.CHARGER: drop * amps,
        Post.CHARGED: charged,
    }


def _converter(
    field: Field,
    charger: ch.Converter,
    photocurrent_a: float,
    at: _Points,
    charged: FloatArray,
) -> dict[Post, FloatArray]:
    given = field.supply(photocurrent_a).given
    work_w, work_a = _plain(given.panel_w), _plain(given.panel_a)
    work_v = work_w / work_a if work_a > 0 else 0.0
    open_v = float(pv.open_circuit_voltage(field.system.panel, photocurrent_a))
    runs = work_v >= _plain(charger.minimum_panel_v) and work_w >= _plain(charger.minimum_panel_w)
    starts = open_v >= _plain(charger.cold_panel_v) and work_w >= _plain(charger.cold_panel_w)
    cold = at.store_v < _plain(charger.cold_below_v)
    running = np.where(cold, starts, runs)
    amps = at.charge_a
    path = _plain(charger.loss_ohm) * amps**2
    share = np.where(cold, _plain(charger.cold_efficiency), _plain(charger.efficiency))
    fixed = np.where(cold, 0.0, _plain(charger.fixed_loss_w))
    limit = min(_plain(charger.output_limit_a), field.curve.charge_limit_a)
    needed = (charged + path + fixed) / share
    if charger.table is not None:
        warm_w = charger.table.input_for(charged + path, at.store_v, work_w)
        needed = np.where(cold, needed, warm_w)
        fixed = np.zeros_like(needed)
    held = running & (amps >= limit * (1.0 - 1e-12)) & (needed < work_w)
    taken = np.where(running, np.where(held, needed if limit > 0.0 else 0.0, work_w), 0.0)
    own = (1.0 - share) * taken + np.minimum(fixed, share * taken)
    if charger.table is not None:
        own = np.where(cold, own, taken - charged - path)
    # A pass-through that gives no more current than the panel does loses the rest of the power.
    starved = cold & running & ~held
    lost = np.where(starved, taken - charged, np.where(taken > 0.0, own + path, 0.0))
    return {
        Post.TOO_WEAK: np.where(running, 0.0, work_w),
        Post.LIMITED: np.where(running, work_w - taken, 0.0),
        Post.TAKEN: taken,
        Post.CHARGER: lost,
        Post.CHARGED: charged,
    }


def _load_side(engine: Motions, at: _Points, name: DrawKey, table: FloatArray) -> None:
    """From the store to the device, written into the rows of a table. [W]"""
    field, load = engine.field, engine.system.load
    own = ld.regulator_draw(load.regulator)
    parts: list[tuple[int, ld.Draw]] = []
    if not isinstance(name, Off):
        if isinstance(name, StartUp):
            parts.append((Post.START_UP, _less(load.start_up[name.phase].draw, own)))
        else:
            parts.append((Post.SLEEP, _less(load.sleep, own)))
            parts += [
                (OPERATIONS + j, load.operations[j].phases[k].draw)
                for j, k in name.active
            ]
        parts.append((Post.REGULATOR, own))
    volts = np.maximum(at.terminal_v, LEAST_TERMINAL_V)
    met = np.ones_like(volts)
    # An empty store passes on what the charger gives and no more.
    wanted = float(ld.drawn_current(engine.draw(name) + field.quiescent, volts[0])) + at.leak_a[0]
    if 0.0 < wanted > at.charge_a[0]:
        met[0] = max(float(at.charge_a[0]), 0.0) / wanted
    total = ld.drawn_current(field.quiescent, volts) * met
    table[Post.QUIESCENT] = at.terminal_v * total
    for row, draw in parts:
        amps = ld.drawn_current(draw, volts) * met
        total = total + amps
        power = at.terminal_v * amps
        useful = power if row == Post.REGULATOR else _useful(load.regulator, amps, power)
        table[row] += useful
        table[Post.REGULATOR] += power - useful
    table[Post.ESR] = (at.charge_a - total) ** 2 * field.curve.esr_ohm
    table[Post.LEAKAGE] = at.store_v * at.leak_a * met


def _less(draw: ld.Draw, own: ld.Draw) -> ld.Draw:
    """A draw without the regulator's own current."""
    return ld.Draw(
        current_a=np.asarray(draw.current_a) - own.current_a,
        power_w=draw.power_w,
        conductance_s=draw.conductance_s,
    )


def _useful(regulator: ld.Regulator, amps: FloatArray, power: FloatArray) -> FloatArray:
    """Power that arrives behind the regulator. [W]"""
    if isinstance(regulator, ld.LinearRegulator):
        return np.asarray(np.minimum(_plain(regulator.output_v) * amps, power))
    if isinstance(regulator, ld.SwitchingRegulator):
        return np.asarray(power * _plain(regulator.efficiency))
    return power

"""Territory: the verdict over any two quantities, as a map with the present design on it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil

import numpy as np
from numpy.typing import NDArray

from explorer.advice.fleet import judge_many
from explorer.advice.stops import largest_phase
from explorer.scenario.demand import Every
from explorer.scenario.fields import describe
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario, get_value, owner_class, size_path
from explorer.text import Text, say

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.intp]

POINTS = 64
COUNTS = 16
"""Most panels on an axis."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """A quantity and the values that a map takes of it, rising."""

    path: str
    label: str
    unit: str
    values: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Territory:
    """Verdicts on a grid; arrays of shape (y values, x values)."""

    x: Axis
    y: Axis
    codes: IntArray
    """0 falls short, 1 marginal, 2 runs."""
    margin: FloatArray
    """Smallest margin; its contour at 1 parts falling short from the rest."""
    reserve: FloatArray
    """Smallest margin over the margin wanted; its contour at 1 bounds where it runs."""
    governing: IntArray
    """Index of the check that governs."""


def axis_of(scenario: Scenario, path: str, low: float, high: float, points: int = POINTS) -> Axis:
    """An axis over a field from one value to another, even in ratio, within its range."""
    info = describe(owner_class(scenario, path), path.rpartition(".")[2])
    low, high = max(low, info.low), min(high, info.high)
    if isinstance(info.default, int) and not isinstance(info.default, bool):
        values = tuple(float(v) for v in range(ceil(low), int(high) + 1))
    elif low <= 0:
        values = tuple(np.linspace(low, high, points).tolist())
    else:
        values = tuple(np.geomspace(low, high, points).tolist())
    return Axis(path=path, label=info.label, unit=info.unit, values=values)


def axis_choices(scenario: Scenario, log: LightLog | None = None) -> tuple[Axis, ...]:
    """Quantities worth a map, each around its present value."""
    lux = scenario.light.illuminance_lx
    if lux is None:
        lux = log.mean_lit_lx if log is not None and log.mean_lit_lx > 0 else 300.0
    size = size_path(scenario)
    now = float(get_value(scenario, size))
    axes = [
        axis_of(scenario, "light.illuminance_lx", lux / 8.0, lux * 8.0),
        axis_of(scenario, "panels.count", 1, COUNTS),
        axis_of(scenario, size, now / 20.0, now * 20.0),
    ]
    for i, op in enumerate(scenario.load.operations):
        if isinstance(op.schedule, Every):
            path = f"load.operations.{i}.schedule.interval_s"
            shortest = 1.05 * sum(p.duration_s for p in op.phases)
            now = op.schedule.interval_s
            axis = axis_of(scenario, path, max(now / 20.0, shortest), now * 20.0)
            axes.append(replace(axis, label=_of_operation(axis.label, op.name)))
        k = largest_phase(scenario, i)
        path = f"load.operations.{i}.phases.{k}.{op.phases[k].amount_key}"
        now = float(get_value(scenario, path))
        if now > 0:
            axis = axis_of(scenario, path, now / 10.0, now * 10.0)
            axes.append(replace(axis, label=_of_operation(axis.label, op.name)))
    for path in ("load.sleep_A", "store.leakage_A", "store.esr_ohm"):
        head, _, key = path.rpartition(".")
        if key in type(get_value(scenario, head)).model_fields:
            now = float(get_value(scenario, path))
            if now > 0:
                axes.append(axis_of(scenario, path, now / 20.0, now * 20.0))
    axes.append(axis_of(scenario, "margins.closure_days", 0.0, 30.0))
    return tuple(axes)


def _of_operation(label: str, name: str) -> Text:
    return say("{label} of “{operation}”", label=label, operation=name)


def coarse(axis: Axis, count: int) -> Axis:
    """The same axis with about `count` of its values, both ends among them."""
    if len(axis.values) <= count:
        return axis
    picked = np.unique(np.linspace(0, len(axis.values) - 1, count).round().astype(int))
    return replace(axis, values=tuple(axis.values[i] for i in picked))


def territory(scenario: Scenario, log: LightLog | None, x: Axis, y: Axis) -> Territory:
    """Verdict over two quantities.

    Parameters
    ----------
    scenario : Scenario
        The present design; everything else stays as it is.
    log : LightLog, optional
        The measured light, where the scenario's pattern is a log.
    x, y : Axis
        Two different quantities.
    """
    across, up = np.meshgrid(np.array(x.values), np.array(y.values))
    shape = across.shape
    changes = {x.path: across.ravel(), y.path: up.ravel()}
    # A store's size sets its resistance and leakage, so it must be changed before them.
    order = sorted(changes, key=lambda p: p not in ("store.capacitance_F", "store.capacity_mAh"))
    fleet = judge_many(scenario, log, {p: changes[p] for p in order})
    return Territory(
        x=x, y=y,
        codes=fleet.codes.reshape(shape),
        margin=fleet.margin.reshape(shape),
        reserve=fleet.reserve.reshape(shape),
        governing=fleet.governing.reshape(shape),
    )

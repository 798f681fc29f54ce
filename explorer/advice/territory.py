"""Territory: the verdict over any two quantities, as a map with the present design on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

import numpy as np
from numpy.typing import NDArray

from explorer.advice.asked import verdict_with
from explorer.advice.case import Case
from explorer.advice.criteria import RUNS, WORKS
from explorer.advice.edges import Edges, Stopped, find_edges
from explorer.advice.fleet import fleet
from explorer.advice.stops import E12, decades, knob_paths, largest_phase, series_of, stops_of
from explorer.advice.verdict import CHECK_NAMES, Verdict
from explorer.physics.arrays import FloatArray, IntArray
from explorer.scenario.demand import Every
from explorer.scenario.fields import describe
from explorer.scenario.generic import PANEL_AREAS
from explorer.scenario.model import Scenario, get_value, owner_class, size_path
from explorer.scenario.part import PanelPart, Part
from explorer.text import Text, say

POINTS = 64
ROW_POINTS = 32
"""Values along an axis between which an edge is looked for."""
AT_A_TIME = 64
"""Points that are judged exactly between two pictures."""
MOST_JUDGED, MOST_JUDGED_LOG = 512, 64
"""Points of a map that are judged exactly, nearest to a limit first; fewer under a log."""
JUST_BELOW = 0.999
ALIKE = 1e-6
"""Sizes that differ by less are one."""
COUNTS = 16
"""Most panels on an axis."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """A quantity and the values that a map takes of it, rising."""

    path: str
    label: str
    unit: str
    values: tuple[float, ...]
    as_sold: bool = False
    """Whether there is nothing between the values: parts in the sizes in which they are sold."""


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
    sure: NDArray[np.bool_]
    """Where the verdict is far from a limit, or was judged by the exact march."""


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


def axis_choices(case: Case, own: Sequence[Part] = ()) -> tuple[Axis, ...]:
    """Quantities worth a map, each around its present value.

    The area of a panel goes through those of panels on sale and, of the same technology, of one's
    own; a data sheet sets what its panel gives whatever the area, so there it is left out.
    """
    scenario = case.scenario
    lux = scenario.light.illuminance_lx
    if lux is None:
        lux = case.mean_lit_lx or 300.0
    size = size_path(scenario)
    now = float(get_value(scenario, size))
    axes = [
        axis_of(scenario, "light.illuminance_lx", lux / 8.0, lux * 8.0),
        axis_of(scenario, "panels.count", 1, COUNTS),
        _sizes_sold(axis_of(scenario, size, now / 20.0, now * 20.0), stops_of(size), now),
    ]
    if not scenario.panels.data_sheet:
        kind, now = scenario.panels.technology, scenario.panels.active_area_cm2
        mine = [
            part.panels.active_area_cm2 for part in own
            if isinstance(part, PanelPart) and part.panels.technology == kind
        ]
        axis = axis_of(scenario, "panels.active_area_cm2", now / 20.0, now * 20.0)
        axis = _sizes_sold(axis, (*PANEL_AREAS[kind], *mine), now)
        if len(axis.values) > 1:
            axes.append(axis)
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


def _sizes_sold(axis: Axis, sizes: Sequence[float], now: float) -> Axis:
    """The sizes in which a part is had along an axis, and the one that the design has."""
    low, high = axis.values[0], axis.values[-1]
    sold = list({stop for stop in sizes if low <= stop <= high})
    if not any(abs(stop / now - 1.0) < ALIKE for stop in sold):
        sold.append(now)
    return replace(axis, values=tuple(sorted(sold)), as_sold=True)


def _of_operation(label: str, name: str) -> Text:
    return say("{label} of “{operation}”", label=label, operation=name)


def coarse(axis: Axis, count: int) -> Axis:
    """The same axis with about `count` of its values, both ends among them."""
    if len(axis.values) <= count:
        return axis
    picked = np.unique(np.linspace(0, len(axis.values) - 1, count).round().astype(int))
    return replace(axis, values=tuple(axis.values[i] for i in picked))


def territory(case: Case, x: Axis, y: Axis) -> Territory:
    """Verdict over two quantities by the batch engine.

    Parameters
    ----------
    case : Case
        The present design; everything else stays as it is.
    x, y : Axis
        Two different quantities.
    """
    across, up = np.meshgrid(np.array(x.values), np.array(y.values))
    shape = across.shape
    changes = {x.path: across.ravel(), y.path: up.ravel()}
    # A store's size sets its resistance and leakage, so it must be changed before them.
    order = sorted(changes, key=lambda path: path != size_path(case.scenario))
    seen = fleet(case, {path: changes[path] for path in order})
    sure = WORKS.seen(seen)[2] & RUNS.seen(seen)[2]
    return Territory(
        x=x, y=y,
        codes=seen.codes.reshape(shape),
        margin=seen.margin.reshape(shape),
        reserve=seen.reserve.reshape(shape),
        governing=seen.governing.reshape(shape),
        sure=sure.reshape(shape),
    )


def refined(case: Case, found: Territory, stopped: Stopped) -> Iterator[Territory]:
    """The same map, its points near a limit judged by the exact march, nearest first.

    Yields
    ------
    Territory
        After every `AT_A_TIME` points, and when as many are judged as may be.
    """
    level = np.minimum(np.abs(_logs(found.margin)), np.abs(_logs(found.reserve))).ravel()
    near = np.flatnonzero(~found.sure.ravel())
    most = MOST_JUDGED_LOG if case.is_long else MOST_JUDGED
    near = near[np.argsort(level[near], kind="stable")][:most]
    table = {n: getattr(found, n).copy() for n in ("codes", "margin", "reserve", "governing")}
    sure = found.sure.copy()
    for count, at in enumerate(near.tolist(), 1):
        if stopped():
            return
        j, i = divmod(at, len(found.x.values))
        place = {found.x.path: found.x.values[i], found.y.path: found.y.values[j]}
        for name, value in _exactly(case, place).items():
            table[name][j, i] = value
        sure[j, i] = True
        if count % AT_A_TIME == 0 or count == len(near):
            yield replace(found, **{n: t.copy() for n, t in table.items()}, sure=sure.copy())


def _exactly(case: Case, place: dict[str, float]) -> dict[str, float]:
    """What a map shows of one point, by the exact march; a design that is not allowed fails."""
    verdict = verdict_with(case, place)
    if verdict is None:
        return {"codes": 0, "margin": 0.0, "reserve": 0.0, "governing": 0}
    return point_of(verdict)


def point_of(verdict: Verdict) -> dict[str, float]:
    """What a map shows of a design that was judged exactly, by the names of its tables."""
    works, runs = WORKS.holds(verdict), RUNS.holds(verdict)
    return {
        "codes": int(works) + int(works and runs),
        "margin": _on_its_side(WORKS.level(verdict), works),
        "reserve": _on_its_side(RUNS.level(verdict), runs),
        "governing": CHECK_NAMES.index(verdict.governing.name),
    }


def _on_its_side(level: float, holds: bool) -> float:
    """A level on the side of 1 on which the verdict is, so that lines are drawn between them."""
    return max(level, 1.0) if holds else min(level, JUST_BELOW)


def _logs(margin: FloatArray) -> FloatArray:
    return np.asarray(np.log(np.clip(margin, 1e-6, 1e6)))


def row_of(
    case: Case, x: Axis, stopped: Stopped = lambda: False
) -> tuple[Edges, Edges]:
    """Where along the first quantity of a map the present design works, and where it runs.

    Raises
    ------
    Interrupted
        `stopped` said so.
    """
    stops = axis_stops(case.scenario, x)
    works = find_edges(case, x.path, WORKS, stops, stopped=stopped)
    return works, find_edges(case, x.path, RUNS, stops, stopped=stopped)


def axis_stops(scenario: Scenario, axis: Axis) -> tuple[float, ...]:
    """The stops of the knob that moves a quantity, or values in which it is had along an axis."""
    operations = range(max(len(scenario.load.operations), 1))
    if any(axis.path in knob_paths(scenario, i) for i in operations):
        return stops_of(axis.path)
    if axis.as_sold:  # few sizes are sold: between them it is looked for an edge as well
        low, high = axis.values[0], axis.values[-1]
        between = (v for v in decades(E12, -3, 5) if low < v < high)
        return tuple(sorted({*axis.values, *between}))
    series = series_of(axis.path).values
    series = series[(series >= axis.values[0]) & (series <= axis.values[-1])]
    wanted = np.array(axis.values[:: max(len(axis.values) // ROW_POINTS, 1)])
    near = series[np.clip(np.searchsorted(series, wanted), 0, len(series) - 1)]
    lowest = [0.0] if axis.values[0] == 0.0 else []
    return tuple(np.unique(np.concatenate([lowest, near])).tolist())

"""Turn a trajectory into columns for drawing and files, and find its extremes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explorer.engine.columns import Columns
from explorer.engine.course import Leg, Trajectory
from explorer.engine.keys import CycleKey, MotionKey
from explorer.engine.march import Engine
from explorer.engine.speeds import Field

FloatArray = NDArray[np.float64]


STRAIGHT = 0.005
"""A leg that moves the store by less than this share of its range is nearly straight: it gets rows
of its own only where it is four columns long."""


@dataclass(frozen=True, slots=True)
class _Rows:
    """Values along one leg; arrays of one length."""

    time_s: FloatArray
    store_v: FloatArray
    store_min_v: FloatArray
    terminal_v: FloatArray
    terminal_min_v: FloatArray
    harvest_a: FloatArray
    load_a: FloatArray


def columns(engine: Engine, run: Trajectory, count: int = 1000) -> Columns:
    """Sample a trajectory.

    Parameters
    ----------
    engine : Engine
        The engine that made it.
    run : Trajectory
        What it made.
    count : int
        About how many rows to return; 0 returns the ends of the legs alone. Legs keep their
        ends as rows; where there are more legs than `count`, rows are joined so that the lowest
        and highest values stay.

    Returns
    -------
    Columns
        At most about twice `count` rows.
    """
    if not run.legs:
        return _single(engine, run)
    step = run.span_s / count if 0 < len(run.legs) <= count // 2 else np.inf
    ends_s = np.array([(leg.begin_s, leg.end_s) for leg in run.legs])
    ends_c = np.array([(leg.begin_c, leg.end_c) for leg in run.legs])
    length, move = np.diff(ends_s, axis=1)[:, 0], np.abs(np.diff(ends_c, axis=1)[:, 0])
    straight = move < STRAIGHT * float(engine.field.charge_c[-1])
    long = length >= np.where(straight, 4.0 * step, step)
    paths = [
        _path(leg, step) if far else (t, q)
        for leg, far, t, q in zip(run.legs, long.tolist(), ends_s, ends_c, strict=True)
    ]
    sizes = np.array([len(q) for _, q in paths])
    table = _looked_up(
        engine.field, run.legs, sizes,
        np.concatenate([t for t, _ in paths]), np.concatenate([q for _, q in paths]),
    )
    owner = np.repeat(np.arange(len(sizes)), sizes)
    connected = np.array([leg.connected for leg in run.legs])[owner]
    lux = engine.illuminance_lx[np.array([leg.segment for leg in run.legs])][owner]
    if 0 < 2 * count < len(owner):
        return _thinned(table, connected, lux, run.span_s / count, count)
    return Columns(**table, connected=connected, illuminance_lx=lux)


def _single(engine: Engine, run: Trajectory) -> Columns:
    volts = np.full(1, float(engine.field.voltage_at(run.end.charge_c)))
    zero = np.zeros(1)
    return Columns(
        time_s=zero, store_v=volts, store_min_v=volts, terminal_v=volts, terminal_min_v=volts,
        harvest_a=zero, load_a=zero, connected=np.array([run.end.connected]),
        illuminance_lx=zero,
    )


def _path(leg: Leg, step_s: float) -> tuple[FloatArray, FloatArray]:
    """Times and charges along one leg, both ends included."""
    duration = leg.end_s - leg.begin_s
    inner = 0 if leg.repeats is not None or not leg.level.exact else int(duration / step_s)
    if inner == 0:
        return np.array([leg.begin_s, leg.end_s]), np.array([leg.begin_c, leg.end_c])
    t = np.linspace(leg.begin_s, leg.end_s, inner + 2)
    flow = leg.low.flow
    if leg.cycles is not None:
        # Only whole cycles lie on the generator's path.
        flow, length = leg.cycles[0].generator, leg.cycles[0].length_s
        whole = np.unique(np.round((t - leg.begin_s) / length)) * length
        t = np.append(leg.begin_s + whole[:-1], leg.end_s)
    q = flow.path(leg.begin_c, t - leg.begin_s)
    q[-1] = leg.end_c
    return t, q


def at_moments(engine: Engine, run: Trajectory, time_s: FloatArray) -> Columns:
    """What a run says at given moments, exactly where it is followed exactly.

    Parameters
    ----------
    engine : Engine
        The engine that made it.
    run : Trajectory
        What it made.
    time_s : ndarray
        Rising, from the beginning of the run to its end, shape (n,). [s]

    Returns
    -------
    Columns
        Arrays of shape (n,). Where pulses are composed it is the middle of each pulse's saw-tooth,
        whatever the moment within a cycle; a turn that repeats shows its highest voltage.
    """
    if not run.legs:
        one = _single(engine, run)
        many = {name: np.repeat(getattr(one, name), len(time_s)) for name in _Rows.__slots__[1:]}
        return Columns(
            time_s=time_s, connected=np.repeat(one.connected, len(time_s)),
            illuminance_lx=np.repeat(one.illuminance_lx, len(time_s)), **many,
        )
    begins = np.array([leg.begin_s for leg in run.legs])
    owner = np.clip(np.searchsorted(begins, time_s, side="right") - 1, 0, None)
    used, first, sizes = np.unique(owner, return_index=True, return_counts=True)
    legs = [run.legs[i] for i in used.tolist()]
    paths = [
        _charge_at(engine.field, leg, time_s[at : at + size])
        for leg, at, size in zip(legs, first.tolist(), sizes.tolist(), strict=True)
    ]
    table = _looked_up(engine.field, legs, sizes, time_s, np.concatenate(paths))
    return Columns(
        **table,
        connected=np.array([leg.connected for leg in legs])[np.repeat(np.arange(len(legs)), sizes)],
        illuminance_lx=engine.illuminance_lx[
            np.repeat([leg.segment for leg in legs], sizes)
        ],
    )


def _charge_at(field: Field, leg: Leg, time_s: FloatArray) -> FloatArray:
    """Charges at moments of one leg. [C]"""
    passed = np.clip(time_s - leg.begin_s, 0.0, leg.end_s - leg.begin_s)
    if leg.repeats is not None or not leg.level.exact:
        share = passed / (leg.end_s - leg.begin_s)
        return np.asarray(leg.begin_c + share * (leg.end_c - leg.begin_c))
    if leg.cycles is None:
        return leg.low.flow.path(leg.begin_c, passed)
    cycle = leg.cycles[0]
    times = np.append(passed, leg.end_s - leg.begin_s)
    tops = cycle.generator.path(leg.begin_c, times)
    # Powers of the map do not lie on the generator: what they miss grows along the leg.
    tops = (tops + (leg.end_c - tops[-1]) * times / times[-1])[:-1]
    return np.asarray(tops - 0.5 * (tops - np.interp(tops, cycle.nodes, cycle.pulse_lowest_c)))


def _looked_up(
    field: Field, legs: list[Leg], sizes: NDArray[np.intp], t: FloatArray, q: FloatArray
) -> dict[str, FloatArray]:
    """Values of every row; the rows of legs that share a motion are looked up together."""
    begin = np.concatenate([[0], np.cumsum(sizes)])
    groups: dict[tuple[MotionKey, MotionKey, CycleKey | None, int], list[int]] = {}
    for i, leg in enumerate(legs):
        alone = i if leg.repeats is not None else -1
        cycle = leg.cycles[0].key if leg.cycles else None
        groups.setdefault((leg.low.key, leg.high.key, cycle, alone), []).append(i)
    weight = np.repeat([leg.level.weight for leg in legs], sizes)
    last = np.zeros(len(q), bool)
    last[begin[1:] - 1] = True
    table = {name: np.empty(len(q)) for name in _Rows.__slots__}
    for members in groups.values():
        rows = np.concatenate([np.arange(begin[i], begin[i + 1]) for i in members])
        values = _values(field, legs[members[0]], t[rows], q[rows], weight[rows], last[rows])
        for name, column in table.items():
            column[rows] = getattr(values, name)
    return table


def _values(
    field: Field,
    leg: Leg,
    t: FloatArray,
    q: FloatArray,
    weight: FloatArray,
    last: NDArray[np.bool_],
) -> _Rows:
    """Values at charges along one leg, or along several that share its motion.

    `weight` blends the leg's two motions and `last` marks the rows that end a leg.
    """
    nodes = field.charge_c

    def mixed(name: str, of: str = "regime") -> FloatArray:
        low, high = (
            getattr(m if of == "motion" else m.regime, name) for m in (leg.low, leg.high)
        )
        at_low: FloatArray = np.interp(q, nodes, low)
        if leg.high is leg.low:
            return at_low
        return np.asarray((1.0 - weight) * at_low + weight * np.interp(q, nodes, high))

    volts = np.interp(q, nodes, field.open_v)
    terminal = np.maximum(mixed("terminal_v"), 0.0)
    low_v, low_t = volts, np.maximum(mixed("terminal_min_v", "motion"), 0.0)
    drawn = mixed("drawn_a", "motion") - field.system.quiescent_a
    harvest = mixed("charge_a")
    if leg.cycles is not None:
        cycle = leg.cycles[0]
        if leg.averages:
            # A pulse may begin anywhere along it; what follows the pulse is the leg itself.
            begin, lowest_c, lowest_v = q, cycle.pulse_lowest_c, cycle.pulse_min_v
        else:
            # A row that ends a leg belongs to the cycle before it, not to one after it.
            begin = np.where(last, cycle.map.before(q), q)
            lowest_c, lowest_v = cycle.lowest_c, cycle.terminal_min_v
        low_v = np.interp(np.interp(begin, cycle.nodes, lowest_c), nodes, field.open_v)
        low_t = np.maximum(np.interp(begin, cycle.nodes, lowest_v), 0.0)
        drawn = np.interp(q, cycle.nodes, cycle.mean_drawn_a) - field.system.quiescent_a
    if leg.repeats is not None:
        legs = leg.repeats.legs
        rows = [
            _values(
                field, sub, np.array([sub.begin_s, sub.end_s]),
                np.array([sub.begin_c, sub.end_c]), np.full(2, sub.level.weight),
                np.array([False, True]),
            )
            for sub in legs
        ]
        span = sum(sub.end_s - sub.begin_s for sub in legs)
        lowest = [_lowest(field, sub, row) for sub, row in zip(legs, rows, strict=True)]
        low_v = np.full_like(volts, min(v for v, _ in lowest))
        low_t = np.full_like(volts, min(v for _, v in lowest))
        volts = np.full_like(volts, max(float(r.store_v.max()) for r in rows))
        terminal = np.full_like(volts, max(float(r.terminal_v.max()) for r in rows))
        drawn = np.full_like(volts, _weighted(rows, legs, "load_a") / span)
        harvest = np.full_like(volts, _weighted(rows, legs, "harvest_a") / span)
    return _Rows(t, volts, low_v, terminal, low_t, harvest, drawn)


def _lowest(field: Field, leg: Leg, row: _Rows) -> tuple[float, float]:
    """Lowest store and terminal voltage of a leg that is part of a repeating course. [V]

    A turn may be shorter than a load cycle, so only the pulse itself counts, not the rest that
    follows it.
    """
    if leg.cycles is None:
        return float(row.store_min_v.min()), float(row.terminal_min_v.min())
    cycle = leg.cycles[0]
    lowest = min(leg.begin_c, leg.end_c)
    charge = float(np.interp(lowest, cycle.nodes, cycle.pulse_lowest_c))
    terminal = float(np.interp(lowest, cycle.nodes, cycle.pulse_min_v))
    return float(field.voltage_at(charge)), max(terminal, 0.0)


def _weighted(rows: list[_Rows], legs: tuple[Leg, ...], name: str) -> float:
    return sum(
        float(getattr(r, name).mean()) * (leg.end_s - leg.begin_s)
        for r, leg in zip(rows, legs, strict=True)
    )


def _thinned(
    table: dict[str, FloatArray],
    connected: NDArray[np.bool_],
    lux: FloatArray,
    step_s: float,
    count: int,
) -> Columns:
    """Join rows into columns that keep the extremes."""
    bins = np.minimum((table["time_s"] / step_s).astype(int), count - 1)
    first = np.flatnonzero(np.diff(bins, prepend=-1))
    low, high, mean = np.minimum.reduceat, np.maximum.reduceat, np.add.reduceat
    size = np.diff(np.append(first, len(bins)))
    out = {
        "time_s": table["time_s"][first],
        "store_v": high(table["store_v"], first),
        "store_min_v": low(table["store_min_v"], first),
        "terminal_v": high(table["terminal_v"], first),
        "terminal_min_v": low(table["terminal_min_v"], first),
        "harvest_a": mean(table["harvest_a"], first) / size,
        "load_a": mean(table["load_a"], first) / size,
    }
    return Columns(
        **out,
        connected=np.logical_or.reduceat(connected, first),
        # It holds until the next column, which may lie hours later.
        illuminance_lx=lux[np.append(first[1:], len(bins)) - 1],
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Extremes:
    """Lowest and highest points of a run."""

    lowest_store_v: float
    lowest_store_s: float
    highest_store_v: float
    lowest_terminal_v: float
    """While connected; infinite when never connected. [V]"""


def extremes(trace: Columns) -> Extremes:
    """Extremes of a sampled run; rows hold the ends of every leg, so none is missed."""
    on = trace.connected
    i = int(np.argmin(trace.store_min_v))
    return Extremes(
        lowest_store_v=float(trace.store_min_v[i]),
        lowest_store_s=float(trace.time_s[i]),
        highest_store_v=float(trace.store_v.max()),
        lowest_terminal_v=float(trace.terminal_min_v[on].min()) if on.any() else float("inf"),
    )

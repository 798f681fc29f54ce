"""Audit of a run: every joule from the panel's output to the device, and what does not add up.

Each leg is followed in time with Gauss-Legendre nodes; how long the store stays at each charge
is gathered on the nodes of the engine's tables, apart for every motion, and the powers there
(`explorer.engine.powers`) turn time into energy. The change of the stored energy is taken from
the charges at the two ends alone, so that the residual checks motion, bookkeeping and physics
against each other.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil, log2

import numpy as np
from numpy.typing import NDArray

from explorer.engine.cycle import Cycle
from explorer.engine.flow import Flow
from explorer.engine.illumination import BlendedFlow, Motion
from explorer.engine.legs import Key, Leg, Trajectory
from explorer.engine.march import Engine
from explorer.engine.powers import OPERATIONS, SPENT, Row, powers

FloatArray = NDArray[np.float64]

POINTS, WEIGHTS = (a * 0.5 for a in np.polynomial.legendre.leggauss(4))
POINTS = POINTS + 0.5
"""Gauss-Legendre nodes and weights on 0 to 1."""
MOST_EDGES = 64
"""Most table nodes at which one leg is split."""
MOST_STROBES = 4096
"""Most cycles of a leg that are summed one by one; more are integrated along the generator."""
MILD = 0.5
"""Change of speed along a leg, relative to it, below which one set of nodes is enough."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledger:
    """Energies of a run. [J]"""

    span_s: float
    panel_maximum_j: float
    """What the panel could have given at its maximum-power point."""
    panel_taken_j: float
    """What was taken from it."""
    tracking_loss_j: float
    """Lost because the panel did not work at its maximum-power point."""
    too_weak_j: float
    """Given up in light that is too weak for the charger."""
    limited_j: float
    """Held back by a limit of the charging current."""
    clipped_j: float
    """Panel output that would have been taken while the store was full."""
    clipped_charge_j: float
    """What the charger could have delivered into the store's terminals meanwhile."""
    charger_loss_j: float
    """Lost in the converter, or in the blocking diode."""
    charged_j: float
    """Delivered into the store's terminals."""
    esr_loss_j: float
    leakage_j: float
    """Balancing included."""
    quiescent_j: float
    """Of the charger."""
    regulator_loss_j: float
    sleep_j: float
    start_up_j: float
    """Start-up phases and the filling of the bulk capacitance."""
    inrush_j: float
    """The part of `start_up_j` that fills the bulk capacitance, its resistive loss included."""
    operations_j: tuple[float, ...]
    """At the device, one for each operation."""
    stored_j: float
    """Change of the stored energy."""
    residual_j: float
    """Taken from the panel and not found again; zero but for the error of the engine."""

    @property
    def turned_over_j(self) -> float:
        """Energy that came from the panel and out of the store. [J]"""
        return max(self.panel_taken_j, 0.0) + max(-self.stored_j, 0.0)


def ledger(engine: Engine, trajectory: Trajectory) -> Ledger:
    """Account for all energy of a run.

    Parameters
    ----------
    engine : Engine
        The engine that made the run, or one that shares its tables (`Engine.dark` and its like).
    trajectory : Trajectory
        The run.

    Raises
    ------
    ValueError
        The run was made by another engine.
    """
    book = _Book(engine)
    begin_c = _begin(trajectory)
    flat = list(_flat(trajectory.legs, 1.0))
    book.add(flat)
    totals = book.totals()
    inrush = sum(
        (float(book.energy(a)) - float(book.energy(b))) * times
        for a, b, times in _drops(trajectory.legs, begin_c, trajectory.end.charge_c, 1.0)
    )
    stored = float(book.energy(trajectory.end.charge_c) - book.energy(begin_c))
    operations = totals[OPERATIONS:]
    spent = totals[list(SPENT)].sum() + operations.sum() + inrush
    unused = totals[[Row.TAKEN, Row.TOO_WEAK, Row.LIMITED, Row.CLIPPED]].sum()
    return Ledger(
        span_s=trajectory.span_s,
        panel_maximum_j=float(totals[Row.AVAILABLE]),
        panel_taken_j=float(totals[Row.TAKEN]),
        tracking_loss_j=float(totals[Row.AVAILABLE] - unused),
        too_weak_j=float(totals[Row.TOO_WEAK]),
        limited_j=float(totals[Row.LIMITED]),
        clipped_j=float(totals[Row.CLIPPED]),
        clipped_charge_j=float(totals[Row.DELIVERABLE]),
        charger_loss_j=float(totals[Row.CHARGER]),
        charged_j=float(totals[Row.CHARGED]),
        esr_loss_j=float(totals[Row.ESR]),
        leakage_j=float(totals[Row.LEAKAGE]),
        quiescent_j=float(totals[Row.QUIESCENT]),
        regulator_loss_j=float(totals[Row.REGULATOR]),
        sleep_j=float(totals[Row.SLEEP]),
        start_up_j=float(totals[Row.START_UP]) + inrush,
        inrush_j=inrush,
        operations_j=tuple(float(j) for j in operations),
        stored_j=stored,
        residual_j=float(totals[Row.TAKEN] - spent) - stored,
    )


def _begin(trajectory: Trajectory) -> float:
    """Charge before anything happened; a connect at once comes before the first leg. [C]"""
    if trajectory.events and trajectory.events[0].time_s <= 0.0:
        return trajectory.events[0].charge_c
    return trajectory.legs[0].begin_c if trajectory.legs else trajectory.end.charge_c


def _flat(legs: Iterable[Leg], times: float) -> Iterable[tuple[Leg, float]]:
    """Legs without repeats, each with how often it was run through."""
    for leg in legs:
        if leg.repeats is None:
            yield leg, times
        else:
            inner, turns = leg.repeats
            yield from _flat(inner, times * turns)


def _drops(
    legs: Iterable[Leg], begin_c: float, end_c: float, times: float
) -> Iterable[tuple[float, float, float]]:
    """Charges before and after every instant loss of charge, and how often it happened."""
    last = begin_c
    for leg in legs:
        if leg.begin_c != last:
            yield last, leg.begin_c, times
        if leg.repeats is not None:
            inner, turns = leg.repeats
            drift = (leg.end_c - leg.begin_c) / turns
            # The turn ends where the next one begins: an instant loss there opens each turn.
            yield from _drops(inner, inner[-1].end_c - drift, inner[-1].end_c, times * turns)
        last = leg.end_c
    if end_c != last:
        yield last, end_c, times


class _Book:
    """Time spent at every charge, apart for each motion, and what that costs."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
        self._nodes = engine.field.charge_c
        volts = engine.field.open_v
        steps = 0.5 * (volts[1:] + volts[:-1]) * np.diff(self._nodes)
        self._stored = np.concatenate([[0.0], np.cumsum(steps)])
        self._keys = {id(m): where for where, m in engine._motions.items()}
        self._cycle_keys = {id(c): where for where, c in engine._cycles.items()}
        self._spent: dict[int, tuple[Motion, FloatArray]] = {}
        self._strobes: dict[int, tuple[Cycle, FloatArray]] = {}

    def energy(self, charge_c: float) -> float:
        """Energy stored at a charge: the integral of the open-circuit voltage. [J]"""
        nodes, volts = self._nodes, self._engine.field.open_v
        i = int(np.clip(np.searchsorted(nodes, charge_c, side="right") - 1, 0, len(nodes) - 2))
        here = float(np.interp(charge_c, nodes, volts))
        return float(self._stored[i] + 0.5 * (here + volts[i]) * (charge_c - nodes[i]))

    def totals(self) -> FloatArray:
        """Energies, one for each row of the tables of powers. [J]"""
        for cycle, counts in list(self._strobes.values()):
            self._open_cycles(cycle, counts)
        rows = OPERATIONS + len(self._engine.system.load.operations)
        total = np.zeros(rows)
        for motion, seconds in self._spent.values():
            photocurrent, charging, key = self._key_of(motion)
            total += powers(self._engine, photocurrent, charging, key) @ seconds
        return total

    def _key_of(self, motion: Motion) -> tuple[float, bool, Key]:
        try:
            return self._keys[id(motion)]  # type: ignore[return-value]
        except KeyError:
            raise ValueError("the run was made by another engine than the one given") from None

    # ---- legs ----------------------------------------------------------------------------

    def add(self, legs: list[tuple[Leg, float]]) -> None:
        """Enter legs, each with how often it was run through."""
        groups: dict[tuple[int, int], list[tuple[Leg, float]]] = {}
        for leg, times in legs:
            if leg.cycles is not None and not self._averages(leg):
                self._add_cycles(leg, times)
            elif leg.high is not leg.low:
                flow = BlendedFlow(leg.low.flow, leg.high.flow, leg.level.weight)
                t, q, w = _along_blend(flow, leg)
                self._enter(leg.low, leg.high, leg.level.weight, q, w * times)
            else:
                groups.setdefault((id(leg.low), 0), []).append((leg, times))
        for members in groups.values():
            motion = members[0][0].low
            begin = np.array([leg.begin_c for leg, _ in members])
            end = np.array([leg.end_c for leg, _ in members])
            span = np.array([leg.end_s - leg.begin_s for leg, _ in members])
            times = np.array([n for _, n in members])
            self._enter(motion, motion, 0.0, *_along(motion.flow, begin, end, span, times))

    def _enter(
        self, low: Motion, high: Motion, weight: float, charge: FloatArray, seconds: FloatArray
    ) -> None:
        """Spread time spent at charges over the nodes of one motion, or of two that mix."""
        speed = low.flow.speed
        if high is not low:
            speed = (1.0 - weight) * speed + weight * high.flow.speed
        spent = _spread(self._nodes, speed, charge, seconds)
        for motion, share in ((low, 1.0 - weight), (high, weight)):
            if share != 0.0:
                _, held = self._spent.setdefault(id(motion), (motion, np.zeros(len(spent))))
                held += share * spent

    # ---- composed cycles -----------------------------------------------------------------

    def _averages(self, leg: Leg) -> bool:
        """Whether the leg's motion holds the pulses of its cycles already, with their mean."""
        assert leg.cycles is not None
        key, fast = self._key_of(leg.low)[2], self._cycle_key_of(leg.cycles[0])[3]
        return key[0] == "on" and fast in key[1]  # type: ignore[operator]

    def _cycle_key_of(self, cycle: Cycle) -> tuple[float, bool, tuple[int, ...], int]:
        try:
            return self._cycle_keys[id(cycle)]  # type: ignore[return-value]
        except KeyError:
            raise ValueError("the run was made by another engine than the one given") from None

    def _add_cycles(self, leg: Leg, times: float) -> None:
        """Count the cycles of a leg by the charge at which they begin."""
        assert leg.cycles is not None
        low, high = leg.cycles
        span = leg.end_s - leg.begin_s
        count = span / low.length_s
        whole = round(count)
        if high is low and abs(count - whole) < 1e-6 * max(whole, 1):
            if low.smooth_span(leg.begin_c) is None:
                self._count(low, _orbit(low, leg.begin_c, whole), times)
                return
            if whole <= MOST_STROBES:
                at = low.generator.path(leg.begin_c, np.arange(whole) * low.length_s)
                self._count(low, at, times)
                return
        flow: Flow | BlendedFlow = low.generator
        if high is low:
            q, w = _along(
                low.generator, np.array([leg.begin_c]), np.array([leg.end_c]),
                np.array([span]), np.ones(1),
            )
        else:
            flow = BlendedFlow(low.generator, high.generator, leg.level.weight)
            _, q, w = _along_blend(flow, leg)
        # A sum over cycles is the integral less half of the difference of its ends
        # (Euler and Maclaurin).
        q = np.concatenate([q, [leg.begin_c, leg.end_c]])
        w = np.concatenate([w / low.length_s, [0.5, -0.5]]) * times
        weight = leg.level.weight if high is not low else 0.0
        self._count(low, q, w * (1.0 - weight))
        if weight:
            self._count(high, q, w * weight)

    def _count(self, cycle: Cycle, charge: FloatArray, counts: FloatArray | float) -> None:
        """Spread cycles that begin at charges over the nodes of a composed cycle."""
        places = _place(cycle.nodes, charge)
        spread = _hats(len(cycle.nodes), *places, np.broadcast_to(counts, charge.shape))
        _, held = self._strobes.setdefault(id(cycle), (cycle, np.zeros(len(spread))))
        held += spread

    def _open_cycles(self, cycle: Cycle, counts: FloatArray) -> None:
        """Turn counted cycles into time spent in the motions of their phases."""
        photocurrent, charging, small, fast = self._cycle_key_of(cycle)
        operation = self._engine.system.load.operations[fast]
        some = counts != 0.0
        x, times = cycle.nodes[some], counts[some]
        phases: list[tuple[Key, float]] = [
            (("on", small, ((fast, k),)), p.duration_s) for k, p in enumerate(operation.phases)
        ]
        phases.append((("on", small, ()), cycle.length_s - operation.duration_s))
        for key, duration in phases:
            motion = self._engine.motion(photocurrent, charging, key)
            self._keys.setdefault(id(motion), (photocurrent, charging, key))
            edges = _graded(float(np.abs(motion.flow.slope).max()) * duration, even=4)
            share = (edges[:-1, None] + np.diff(edges)[:, None] * POINTS).ravel()
            width = (np.diff(edges)[:, None] * WEIGHTS).ravel()
            q = motion.flow.advance_all(
                np.repeat(x, len(share)), np.tile(share * duration, len(x))
            )
            self._enter(
                motion, motion, 0.0, q, (times[:, None] * width * duration).ravel()
            )
            x = motion.flow.advance_all(x, duration)


# ---- time along legs ---------------------------------------------------------------------


def _spread(
    nodes: FloatArray, speed: FloatArray, charge: FloatArray, seconds: FloatArray
) -> FloatArray:
    """Time at charges in the columns of `explorer.engine.powers.powers`. [s]

    Where the speed turns round between two equal nodes the store stays there, in such a mix of
    both sides that it does not move.
    """
    n = len(nodes)
    cell, share = _place(nodes, charge)
    spent = _hats(n, cell, share, seconds)
    below = np.maximum(cell - 1, 0)
    held = (charge == nodes[cell]) & (cell > 0) & (nodes[below] == nodes[cell])
    held &= (speed[below] >= 0.0) & (speed[cell] <= 0.0) & (speed[below] != speed[cell])
    if held.any():
        at, time = cell[held], seconds[held]
        part = -speed[at] / (speed[at - 1] - speed[at])
        np.add.at(spent, at - 1, time * part)
        np.add.at(spent, at, -time * part)
    pinned = float(seconds[charge >= nodes[-1]].sum()) if speed[-1] > 0.0 else 0.0
    spent[n - 1] -= pinned
    inside = np.bincount(cell, seconds * share * (1.0 - share), n - 1)
    return np.concatenate([spent, [pinned], inside])


def _place(nodes: FloatArray, charge: FloatArray) -> tuple[NDArray[np.intp], FloatArray]:
    """Cell of each charge and the place in it, from 0 to 1."""
    cell = np.clip(np.searchsorted(nodes, charge, side="right") - 1, 0, len(nodes) - 2)
    width = nodes[cell + 1] - nodes[cell]
    share = np.clip((charge - nodes[cell]) / np.where(width > 0, width, 1.0), 0.0, 1.0)
    return cell, share


def _hats(
    n: int, cell: NDArray[np.intp], share: FloatArray, amount: FloatArray
) -> FloatArray:
    """Amounts in cells, each divided linearly between its two nodes."""
    return np.asarray(
        np.bincount(cell, amount * (1.0 - share), n) + np.bincount(cell + 1, amount * share, n)
    )


def _graded(stiffness: float, even: int) -> FloatArray:
    """Edges on 0 to 1, finer towards both ends the faster the motion may settle."""
    edges = np.linspace(0.0, 1.0, even + 1 if stiffness > MILD else 2)
    if stiffness > MILD * even:
        near = edges[1] * 0.5 ** np.arange(1, min(ceil(log2(stiffness)) + 2, 40))
        edges = np.unique(np.concatenate([edges, near, 1.0 - near]))
    return edges


def _along(
    flow: Flow, begin: FloatArray, end: FloatArray, span: FloatArray, times: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Charges along legs of one motion and the time that each stands for."""
    nodes = flow.nodes
    last = len(nodes) - 2
    cells = [np.clip(np.searchsorted(nodes, x, side="right") - 1, 0, last) for x in (begin, end)]
    # A leg that ends on a node may have come to rest there on the way.
    far = (np.abs(cells[1] - cells[0]) > 1) | (end == nodes[cells[1]]) | (end >= nodes[-1])
    stiff = np.maximum(np.abs(flow.slope[cells[0]]), np.abs(flow.slope[cells[1]])) * span > MILD
    hard = far | stiff
    easy = ~hard
    x, t, w = [np.repeat(begin[easy], len(POINTS))], [], []
    t.append(np.outer(span[easy], POINTS).ravel())
    w.append(np.outer(span[easy] * times[easy], WEIGHTS).ravel())
    # A course that repeats itself leaves many equal legs.
    grain = np.array([1e-9 * nodes[-1], 1e-9])
    same, first, which = np.unique(
        np.round(np.column_stack([begin[hard], span[hard]]) / grain),
        axis=0, return_index=True, return_inverse=True,
    )
    often = np.bincount(which.ravel(), times[hard], len(same))
    for i, n in zip(np.flatnonzero(hard)[first], often, strict=True):
        edges = _edges(flow, float(begin[i]), float(end[i]), float(span[i]))
        width = np.diff(edges)
        t.append((edges[:-1, None] + width[:, None] * POINTS).ravel())
        w.append((width[:, None] * WEIGHTS).ravel() * n)
        x.append(np.full(len(t[-1]), begin[i]))
    return flow.advance_all(np.concatenate(x), np.concatenate(t)), np.concatenate(w)


def _edges(flow: Flow, begin: float, end: float, span: float) -> FloatArray:
    """Times at which a leg is split: where it passes nodes, and finer where it settles."""
    low, high = min(begin, end), max(begin, end)
    first, last = np.searchsorted(flow.nodes, [low, high])
    step = max(1, ceil((last - first) / MOST_EDGES))
    inside = flow.nodes[first:last]
    jumps = inside[:-1][np.diff(inside) == 0.0]
    passed = np.unique(np.concatenate([inside[::step], jumps]))
    if begin > end:
        passed = passed[::-1]
    met = np.array([flow.time_to(begin, float(q)) for q in (*passed, end) if q != begin])
    edges = np.unique(np.concatenate([[0.0], met[(met > 0.0) & (met < span)], [span]]))
    slope = float(np.abs(flow.slope[max(first - 1, 0) : last + 1]).max(initial=0.0))
    parts = [
        a + (b - a) * _graded(slope * (b - a), even=4)[:-1]
        for a, b in zip(edges[:-1], edges[1:], strict=True)
    ]
    return np.append(np.concatenate(parts), span)


def _along_blend(flow: BlendedFlow, leg: Leg) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Times, charges and the time that each stands for, along one leg of a log."""
    span = leg.end_s - leg.begin_s
    slope = max(float(np.abs(part.slope).max()) for part in (flow._a, flow._b))
    edges = _graded(slope * span, even=2) * span
    width = np.diff(edges)
    t = (edges[:-1, None] + width[:, None] * POINTS).ravel()
    q = np.array([flow.run(leg.begin_c, float(s), -np.inf, np.inf)[0] for s in t])
    return t, q, (width[:, None] * WEIGHTS).ravel()


def _orbit(cycle: Cycle, begin: float, count: int) -> FloatArray:
    """Charges at which successive cycles begin, by doubling."""
    charge, power = np.array([begin]), cycle.map
    while len(charge) < count:
        charge = np.concatenate([charge, power(charge)])
        power = power.then(power)
    return charge[:count]


__all__ = ["Ledger", "ledger"]

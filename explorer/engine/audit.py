"""Audit of a run: every joule from the panel's output to the device, and what does not add up.

Each leg is followed in time with Gauss-Legendre nodes; how long the store stays at each charge
is gathered on the nodes of the engine's tables, apart for every motion, and the powers there
(`explorer.engine.audit_powers`) turn time into energy. The change of the stored energy is taken
from the charges at the two ends alone, so that the residual checks motion, bookkeeping and physics
against each other.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from explorer.engine.audit_powers import OPERATIONS, SPENT, Post, powers
from explorer.engine.course import Leg, Trajectory, give_way
from explorer.engine.cycles import Cycle
from explorer.engine.flows import BlendedFlow, Flow
from explorer.engine.keys import CycleKey, MotionKey
from explorer.engine.levels import Motion
from explorer.engine.motions import Motions
from explorer.engine.residence import along, along_equal, hats, orbit, place, spread
from explorer.engine.schedule import TIME_GRAIN_S
from explorer.physics.arrays import FloatArray
from explorer.physics.panel import maximum_power

MOST_STROBES = 4096
"""Most cycles of a leg that are summed one by one; more are integrated along the generator."""


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


def ledger(engine: Motions, trajectory: Trajectory) -> Ledger:
    """Account for all energy of a run.

    Parameters
    ----------
    engine : Motions
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
    flat = [
        (part, times * share) for leg, times in _flat(trajectory.legs, 1.0)
        for part, share in _in_its_light(engine, leg, trajectory.begin_s)
    ]
    book.add(flat)
    totals = book.totals()
    inrush = sum(
        (float(book.energy(a)) - float(book.energy(b))) * times
        for a, b, times in _drops(trajectory.legs, begin_c, trajectory.end.charge_c, 1.0)
    )
    stored = float(book.energy(trajectory.end.charge_c) - book.energy(begin_c))
    operations = totals[OPERATIONS:]
    spent = totals[list(SPENT)].sum() + operations.sum() + inrush
    unused = totals[[Post.TAKEN, Post.TOO_WEAK, Post.LIMITED, Post.CLIPPED]].sum()
    return Ledger(
        span_s=trajectory.span_s,
        panel_maximum_j=float(totals[Post.AVAILABLE]),
        panel_taken_j=float(totals[Post.TAKEN]),
        tracking_loss_j=float(totals[Post.AVAILABLE] - unused),
        too_weak_j=float(totals[Post.TOO_WEAK]),
        limited_j=float(totals[Post.LIMITED]),
        clipped_j=float(totals[Post.CLIPPED]),
        charger_loss_j=float(totals[Post.CHARGER]),
        charged_j=float(totals[Post.CHARGED]),
        esr_loss_j=float(totals[Post.ESR]),
        leakage_j=float(totals[Post.LEAKAGE]),
        quiescent_j=float(totals[Post.QUIESCENT]),
        regulator_loss_j=float(totals[Post.REGULATOR]),
        sleep_j=float(totals[Post.SLEEP]),
        start_up_j=float(totals[Post.START_UP]) + inrush,
        inrush_j=inrush,
        operations_j=tuple(float(j) for j in operations),
        stored_j=stored,
        residual_j=float(totals[Post.TAKEN] - spent) - stored,
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
            yield from _flat(_middle_turn(leg), times * leg.repeats.times)


def _in_its_light(
    engine: Motions, leg: Leg, begin_s: float
) -> Iterable[tuple[Leg, float]]:
    """A leg, parted by the light that it passes, and the share of each part that counts.

    A store that does not charge goes on as one leg whatever the light is, but what is left unused
    meanwhile is that of each reading. Of a reading between two rungs each counts for its share.

    Parameters
    ----------
    engine : Motions
        The engine of the run.
    leg : Leg
        A leg without repeats.
    begin_s : float
        Moment of the light at which the run begins. [s]
    """
    edges, levels = np.asarray(engine.edges), engine.levels
    period_s = float(edges[-1])
    turn, into_s = divmod(begin_s + leg.begin_s + TIME_GRAIN_S, period_s)
    first = int(edges.searchsorted(into_s, side="right")) - 1
    base_s = turn * period_s - begin_s
    alone = leg.end_s <= base_s + edges[first + 1] + TIME_GRAIN_S
    mixed = alone and (leg.level.exact or leg.high is not leg.low)
    if leg.charging or mixed or leg.level is not levels[first]:
        yield leg, 1.0
        return
    ends_s = np.concatenate([
        base_s + k * period_s + edges[1:]
        for k in range(int((leg.end_s - base_s - TIME_GRAIN_S) // period_s) + 1)
    ])[first:]
    ends_s = np.append(ends_s[ends_s < leg.end_s - TIME_GRAIN_S], leg.end_s)
    flow = leg.low.flow if leg.cycles is None or leg.averages else leg.cycles[0].generator
    charges = np.append(leg.begin_c, flow.path(leg.begin_c, ends_s - leg.begin_s)).tolist()
    charges[-1] = leg.end_c
    times = [leg.begin_s, *ends_s.tolist()]
    for i, (begin, end) in enumerate(pairwise(times)):
        level = levels[(first + i) % len(levels)]
        part = leg._replace(
            begin_s=begin, end_s=end, begin_c=charges[i], end_c=charges[i + 1], level=level
        )
        for amps, share in ((level.low_a, 1.0 - level.weight), (level.high_a, level.weight)):
            if share:
                yield _in_light(engine, part, amps), share


def _in_light(engine: Motions, leg: Leg, photocurrent_a: float) -> Leg:
    """The same way of a store that does not charge, in other light."""
    motion = engine.motion(photocurrent_a, False, leg.draw)
    cycles = None
    if leg.cycles is not None:
        key = leg.cycles[0].key._replace(photocurrent_a=photocurrent_a)
        cycle = engine.cycle(*key)
        cycles = cycle, cycle
    return leg._replace(low=motion, high=motion, cycles=cycles)


def _shift(leg: Leg) -> float:
    """How far the middle one of its turns lies above the turn that a leg repeats. [C]"""
    assert leg.repeats is not None
    turns = leg.repeats.times
    middle = leg.begin_c + 0.5 * (leg.end_c - leg.begin_c) * (turns + 1.0) / turns
    return middle - leg.repeats.legs[-1].end_c


def _middle_turn(leg: Leg) -> list[Leg]:
    """The legs that one stands for, as in its middle turn where the turns drift."""
    assert leg.repeats is not None
    inner, turns, _ = leg.repeats
    shift, opens_s = _shift(leg), inner[0].begin_s
    stretch = (leg.end_s - leg.begin_s) / (turns * (inner[-1].end_s - opens_s))
    return [
        sub._replace(
            begin_s=opens_s + (sub.begin_s - opens_s) * stretch,
            end_s=opens_s + (sub.end_s - opens_s) * stretch,
            begin_c=sub.begin_c + shift,
            end_c=sub.end_c + shift,
        )
        for sub in inner
    ]


def _drops(
    legs: Iterable[Leg], begin_c: float, end_c: float, times: float
) -> Iterable[tuple[float, float, float]]:
    """Charges before and after every instant loss of charge, and how often it happened."""
    last = begin_c
    for leg in legs:
        if leg.begin_c != last:
            yield last, leg.begin_c, times
        if leg.repeats is not None:
            inner, opening_c = _middle_turn(leg), leg.repeats.opening_c + _shift(leg)
            yield from _drops(inner, opening_c, inner[-1].end_c, times * leg.repeats.times)
        last = leg.end_c
    if end_c != last:
        yield last, end_c, times


class _Book:
    """Time spent at every charge, apart for each motion, and what that costs."""

    def __init__(self, engine: Motions) -> None:
        self._engine = engine
        self._nodes = engine.field.charge_c
        volts = engine.field.open_v
        steps = 0.5 * (volts[1:] + volts[:-1]) * np.diff(self._nodes)
        self._stored = np.concatenate([[0.0], np.cumsum(steps)])
        self._spent: dict[MotionKey, FloatArray] = {}
        self._strobes: dict[CycleKey, tuple[Cycle, list[FloatArray], list[FloatArray]]] = {}

    def energy(self, charge_c: float) -> float:
        """Energy stored at a charge: the integral of the open-circuit voltage. [J]"""
        nodes, volts = self._nodes, self._engine.field.open_v
        i = int(np.clip(np.searchsorted(nodes, charge_c, side="right") - 1, 0, len(nodes) - 2))
        here = float(np.interp(charge_c, nodes, volts))
        return float(self._stored[i] + 0.5 * (here + volts[i]) * (charge_c - nodes[i]))

    def totals(self) -> FloatArray:
        """Energies, one for each row of the tables of powers. [J]"""
        for cycle, begins, counts in list(self._strobes.values()):
            places = place(cycle.nodes, np.concatenate(begins))
            self._open_cycles(cycle, hats(len(cycle.nodes), *places, np.concatenate(counts)))
        rows = OPERATIONS + len(self._engine.system.load.operations)
        total = np.zeros(rows)
        best: dict[float, float] = {}
        for key, seconds in self._spent.items():
            photocurrent = key.photocurrent_a
            total += powers(self._engine, key) @ seconds
            if photocurrent not in best:
                point = maximum_power(self._engine.system.panel, photocurrent)
                best[photocurrent] = float(point.power_w)
            nodes_and_top = len(self._nodes) + 1
            total[Post.AVAILABLE] += best[photocurrent] * seconds[:nodes_and_top].sum()
        return total

    # ---- legs ----------------------------------------------------------------------------

    def add(self, legs: list[tuple[Leg, float]]) -> None:
        """Enter legs, each with how often it was run through."""
        groups: dict[MotionKey, list[tuple[Leg, float]]] = {}
        for leg, times in legs:
            if not self._engine.made(leg.low):
                raise ValueError("the run was made by another engine than the one given")
            if leg.cycles is not None and not leg.averages:
                give_way()  # of a device that fails all year these take a minute
                self._add_cycles(leg, times)
            elif leg.high is not leg.low:
                give_way()
                flow = BlendedFlow(leg.low.flow, leg.high.flow, leg.level.weight).tabulated()
                q, w = _along(flow, leg, times)
                self._enter(leg.low, leg.high, leg.level.weight, q, w)
            else:
                groups.setdefault(leg.low.key, []).append((leg, times))
        for members in groups.values():
            motion = members[0][0].low
            begin = np.array([leg.begin_c for leg, _ in members])
            end = np.array([leg.end_c for leg, _ in members])
            span = np.array([leg.end_s - leg.begin_s for leg, _ in members])
            often = np.array([n for _, n in members])
            give_way()
            self._enter(motion, motion, 0.0, *along(motion.flow, begin, end, span, often))

    def _enter(
        self, low: Motion, high: Motion, weight: float, charge: FloatArray, seconds: FloatArray
    ) -> None:
        """Spread time spent at charges over the nodes of one motion, or of two that mix."""
        speed = low.flow.speed
        if high is not low:
            speed = (1.0 - weight) * speed + weight * high.flow.speed
        spent = spread(self._nodes, speed, charge, seconds)
        for motion, share in ((low, 1.0 - weight), (high, weight)):
            if share != 0.0:
                self._spent.setdefault(motion.key, np.zeros(len(spent)))[:] += share * spent

    # ---- composed cycles -----------------------------------------------------------------

    def _add_cycles(self, leg: Leg, times: float) -> None:
        """Count the cycles of a leg by the charge at which they begin."""
        assert leg.cycles is not None
        low, high = leg.cycles
        span = leg.end_s - leg.begin_s
        count = span / low.length_s
        whole = round(count)
        if high is low and abs(count - whole) < 1e-6 * max(whole, 1):
            if low.smooth_span(leg.begin_c) is None:
                self._count(low, orbit(low, leg.begin_c, whole), times)
                return
            if whole <= MOST_STROBES:
                begins = np.arange(whole, dtype=float) * low.length_s
                at = low.generator.path(leg.begin_c, begins)
                self._count(low, at, times)
                return
        flow = low.generator
        if high is not low:
            flow = BlendedFlow(low.generator, high.generator, leg.level.weight).tabulated()
        q, w = _along(flow, leg, 1.0)
        # A sum over cycles is the integral less half of the difference of its ends
        # (Euler and Maclaurin).
        q = np.concatenate([q, [leg.begin_c, leg.end_c]])
        w = np.concatenate([w / low.length_s, [0.5, -0.5]]) * times
        weight = leg.level.weight if high is not low else 0.0
        self._count(low, q, w * (1.0 - weight))
        if weight:
            self._count(high, q, w * weight)

    def _count(self, cycle: Cycle, charge: FloatArray, counts: FloatArray | float) -> None:
        """Note cycles that begin at charges, to be spread over the nodes of their tables."""
        _, begins, often = self._strobes.setdefault(cycle.key, (cycle, [], []))
        begins.append(charge)
        often.append(np.broadcast_to(np.asarray(counts, float), charge.shape))

    def _open_cycles(self, cycle: Cycle, counts: FloatArray) -> None:
        """Turn counted cycles into time spent in the motions of their phases."""
        some = counts != 0.0
        x, times = cycle.nodes[some], counts[some]
        key = cycle.key
        for draw, duration in self._engine.phases(key):
            motion = self._engine.motion(key.photocurrent_a, key.charging, draw)
            end = motion.flow.advance_all(x, duration)
            # What comes to rest on a node on the way needs to be split there.
            rests = np.isin(end, self._nodes)
            span = np.full(int(rests.sum()), duration)
            q, w = along(motion.flow, x[rests], end[rests], span, times[rests])
            self._enter(motion, motion, 0.0, q, w)
            free = x[~rests]
            slope = float(np.abs(motion.flow.slope).max())
            q, w = along_equal(motion.flow, free, duration, slope, times[~rests])
            self._enter(motion, motion, 0.0, q, w)
            x = end


def _along(flow: Flow, leg: Leg, times: float) -> tuple[FloatArray, FloatArray]:
    """Charges along one leg and the time that each stands for."""
    begin, end = np.array([leg.begin_c]), np.array([leg.end_c])
    return along(flow, begin, end, np.array([leg.end_s - leg.begin_s]), np.array([times]))


__all__ = ["Ledger", "ledger"]

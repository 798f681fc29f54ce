"""What a store may follow, as rows of one table: currents and terminal voltages at the nodes."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explorer.engine.cycles import Cycle
from explorer.engine.flows import Flow
from explorer.engine.levels import Motion
from explorer.engine.march import Engine
from explorer.engine.passage import HARVEST, LEAKAGE, LOAD, Passage
from explorer.engine.row_flows import RowFlows
from explorer.physics.arrays import FloatArray, IntArray


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """One motion at the n nodes of the engine."""

    flow: Flow
    currents: Callable[[], FloatArray]
    """Harvest, load and leakage, shape (3, n); a picture does not need them. [A]"""
    terminal_v: FloatArray
    lowest_v: FloatArray
    """Lowest terminal voltage, that of pulses which the motion holds with their mean included."""
    lowest_c: FloatArray
    """Charge to which such pulses take the store; that of the node where there are none."""


@dataclass(frozen=True, slots=True)
class Blend:
    """Which rows hold at places: two and the weight of the upper one; arrays of shape (n,)."""

    low: IntArray
    high: IntArray
    weight: FloatArray

    def part(self, where: NDArray[np.bool_] | IntArray | slice) -> Blend:
        """Some of the places."""
        return Blend(self.low[where], self.high[where], self.weight[where])

    @classmethod
    def all_of(cls, parts: list[Blend]) -> Blend:
        """Places one after another."""
        return cls(
            np.concatenate([one.low for one in parts]),
            np.concatenate([one.high for one in parts]),
            np.concatenate([one.weight for one in parts]),
        )

    @classmethod
    def single(cls, row: IntArray) -> Blend:
        """One row at each place."""
        return cls(row, row, np.zeros(len(row)))


class Modes:
    """Rows of one engine, made when a leg first needs them."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine
        self.nodes = engine.field.charge_c
        self._index: dict[Hashable, int] = {}
        self._rows: list[_Row] = []
        self._passages: dict[int, Passage] = {}
        self._stacked: list[FloatArray] = []
        self._together: dict[bytes, RowFlows] = {}
        self._currents = np.empty((3, 0, len(self.nodes)))

    # ---- rows ----------------------------------------------------------------------------

    def plain(self, motion: Motion) -> int:
        """Row of a motion; its averaged pulses count with their mean."""
        # By place in memory, which is quicker than by name: what stands there stays.
        found = self._index.get(motion)
        if found is None:
            found = self._add(motion, self._plain(motion))
        return found

    def pulsed(self, motion: Motion, cycle: Cycle) -> int:
        """Row of a motion that holds a cycle's pulses with their mean: they show as lowest."""
        key = (motion, cycle)
        found = self._index.get(key)
        if found is None:
            row = self._plain(motion)
            found = self._add(key, self._with_pulses(row, cycle, row.flow, row.currents))
        return found

    def generated(
        self, motion: Motion, cycle: Cycle, rates: Callable[[], FloatArray]
    ) -> int:
        """Row of a cycle's generator and its currents; `motion` is the rest between pulses."""
        key = (cycle, motion, "generator")
        found = self._index.get(key)
        if found is None:
            nodes = self.nodes

            def currents() -> FloatArray:
                return np.stack([np.interp(nodes, cycle.nodes, values) for values in rates()])

            # A generator lives on some of the nodes, and is linear between them.
            flow = self.engine.library.get(
                "generator", (cycle, self.engine.field.grid),
                lambda: Flow(nodes, np.interp(nodes, cycle.nodes, cycle.generator.speed)),
                20 * len(nodes),
            )
            row = self._with_pulses(self._plain(motion), cycle, flow, currents)
            found = self._add(key, row)
        return found

    def _add(self, key: Hashable, row: _Row) -> int:
        self._index[key] = len(self._rows)
        self._rows.append(row)
        self._stacked = []
        return len(self._rows) - 1

    def _plain(self, motion: Motion) -> _Row:
        quiescent, leak = self.engine.system.quiescent_a, self.engine.field.curve.leak_a

        def currents() -> FloatArray:
            made = np.stack(
                [motion.regime.charge_a, motion.drawn_a - quiescent, leak + quiescent]
            )
            # An empty store gives nothing: what should leak or feed the charger does not.
            net = made[HARVEST, 0] - made[LOAD, 0] - made[LEAKAGE, 0]
            made[LEAKAGE, 0] += net - motion.flow.speed[0]
            return made

        return _Row(
            flow=motion.flow,
            currents=currents,
            terminal_v=np.maximum(motion.regime.terminal_v, 0.0),
            lowest_v=np.maximum(motion.terminal_min_v, 0.0),
            lowest_c=self.nodes,
        )

    def _with_pulses(
        self, row: _Row, cycle: Cycle, flow: Flow, currents: Callable[[], FloatArray]
    ) -> _Row:
        def lowest() -> tuple[FloatArray, FloatArray]:
            volts, charge = (
                np.interp(self.nodes, cycle.nodes, values)
                for values in (cycle.pulse_min_v, cycle.pulse_lowest_c)
            )
            return np.maximum(volts, 0.0), np.minimum(charge, self.nodes)

        lowest_v, lowest_c = self.engine.library.get(
            "lowest in pulses", (cycle, self.engine.field.grid), lowest, 16 * len(self.nodes)
        )
        return _Row(
            flow=flow,
            currents=currents,
            terminal_v=row.terminal_v,
            lowest_v=np.minimum(lowest_v, row.lowest_v),
            lowest_c=lowest_c,
        )

    # ---- motion --------------------------------------------------------------------------

    def flow(self, row: int) -> Flow:
        """Motion of one row."""
        return self._rows[row].flow

    def along(self, row: IntArray, charge: FloatArray, seconds: FloatArray) -> FloatArray:
        """Charges some time later along one row at each place; arrays of shape (n,). [C]"""
        some = np.flatnonzero(np.bincount(row))
        if len(some) < 2:
            return self.flow(int(some[0])).advance_all(charge, seconds) if len(some) else charge
        found = self._together.get(some.tobytes())
        if found is None:
            found = RowFlows.joined([self.flow(one).rows for one in some.tolist()])
            self._together[some.tobytes()] = found
        inside = np.minimum(np.maximum(charge, self.nodes[0]), self.nodes[-1])
        return found.advance(np.searchsorted(some, row), np.zeros_like(row), inside, seconds)

    def passage(self, row: int) -> Passage:
        """The motion of one row with its currents."""
        found = self._passages.get(row)
        if found is None:
            found = Passage(self._rows[row].flow, self._rows[row].currents())
            self._passages[row] = found
        return found

    def _tables(self) -> list[FloatArray]:
        """Speed, terminal voltage, its lowest, lowest charge; (r, n) each."""
        if not self._stacked:
            self._stacked = [
                np.stack([r.flow.speed for r in self._rows]),
                np.stack([r.terminal_v for r in self._rows]),
                np.stack([r.lowest_v for r in self._rows]),
                np.stack([r.lowest_c for r in self._rows]),
            ]
        return self._stacked

    @property
    def speeds(self) -> FloatArray:
        """Shape (r, n). [A]"""
        return self._tables()[0]

    @property
    def currents(self) -> FloatArray:
        """Harvest, load and leakage, shape (3, r, n). [A]"""
        more = self._rows[self._currents.shape[1] :]
        if more:
            made = np.stack([r.currents() for r in more], axis=1)
            self._currents = np.concatenate([self._currents, made], axis=1)
        return self._currents

    # ---- values at charges ---------------------------------------------------------------

    def volts(self, charge: FloatArray) -> FloatArray:
        """Open-circuit voltage. [V]"""
        return self.engine.field.voltage_at(charge)

    def terminal_v(self, at: Blend, charge: FloatArray) -> FloatArray:
        """Terminal voltage. [V]"""
        return self._mixed(self._tables()[1:2], at, charge)[0]

    def lowest(self, at: Blend, charge: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Lowest terminal voltage and charge of pulses that begin there. [V, C]"""
        lowest_v, lowest_c = self._mixed(self._tables()[2:], at, charge)
        return lowest_v, lowest_c

    def currents_at(self, at: Blend, charge: FloatArray) -> FloatArray:
        """Harvest, load and leakage, shape (3, n). [A]"""
        return np.stack(self._mixed(list(self.currents), at, charge))

    def _mixed(
        self, tables: list[FloatArray], at: Blend, charge: FloatArray
    ) -> list[FloatArray]:
        nodes = self.nodes
        last = len(nodes) - 2
        cell = np.minimum(np.searchsorted(nodes, charge, side="right"), last + 1) - 1
        cell = np.maximum(cell, 0)
        width = nodes[cell + 1] - nodes[cell]
        share = (charge - nodes[cell]) / np.where(width > 0.0, width, np.inf)
        share = np.minimum(np.maximum(share, 0.0), 1.0)
        below = at.low * len(nodes) + cell
        blends = bool(np.any(at.weight))
        above = at.high * len(nodes) + cell
        out = []
        for table in tables:
            flat = table.reshape(-1)
            value = flat[below]
            value = value + share * (flat[below + 1] - value)
            if blends:
                other = flat[above]
                other = other + share * (flat[above + 1] - other)
                value = value + at.weight * (other - value)
            out.append(value)
        return out

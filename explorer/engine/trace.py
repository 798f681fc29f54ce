"""A run that can be asked what it was at any moment, over any step, in any pixel column."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from explorer.engine.columns import Columns, Extremes, Voltages
from explorer.engine.course import Trajectory, give_way
from explorer.engine.extent import Extent
from explorer.engine.leg_kinds import Book
from explorer.engine.march import Engine
from explorer.engine.modes import Modes
from explorer.engine.orbits import grain
from explorer.engine.passage import HARVEST, LEAKAGE, LOAD
from explorer.engine.picture import Picture
from explorer.engine.span import Spans
from explorer.engine.strip import Moments, Strip
from explorer.physics.arrays import FloatArray

SAMPLES = (0.19, 0.5, 0.81)
"""Places within a pixel column whose median is typical of it; uneven, so that no rhythm of the
load falls in with them."""
HIDDEN = 1e-3
"""A column hides something where it goes further beyond its edges than this share of all that is
on show."""
ROUNDING = 1e-14
"""Relative difference of two sums of charge that counts as none."""


class Trace:
    """What a run says at any moment.

    Parameters
    ----------
    engine : Engine
        The engine that made the run, or one that shares its tables.
    run : Trajectory
        What it made.

    Notes
    -----
    Exact are: legs along one motion; composed cycles, which are opened where a moment lies in one;
    turns that repeat, which are unrolled. Pulses too small to be walked (`Engine.averaged`), those
    under a measured log and those of a store that chatters at full count with their mean current;
    they show in the lowest terminal voltage alone. Turns that drift are moved by their drift.
    """

    def __init__(self, engine: Engine, run: Trajectory, book: Book | None = None) -> None:
        self.engine, self.run = engine, run
        self._book = book or Book(Modes(engine))
        self._modes = self._book.modes
        self._legs: Strip | None = None
        self._asked: Spans | None = None
        self._extremes: Extremes | None = None
        self._picture: tuple[tuple[float, float, int], Picture] | None = None
        """The last one, with what it shows."""

    def beside(self, run: Trajectory) -> Trace:
        """Another run of the same engine, which shares the tables of this one."""
        return Trace(self.engine, run, self._book)

    @property
    def span_s(self) -> float:
        """How long the run lasts. [s]"""
        return self.run.span_s

    @property
    def opening_c(self) -> float:
        """Charge before anything happened; a connect at once comes after it. [C]"""
        first = self.run.events[0] if self.run.events else None
        if first is not None and first.time_s <= 0.0:
            return first.charge_c
        return self.run.legs[0].begin_c if self.run.legs else self.run.end.charge_c

    @property
    def _strip(self) -> Strip:
        if self._legs is None:
            self._legs = Strip(self._book, [(self.run.legs, self.opening_c)])
        return self._legs

    @property
    def _spans(self) -> Spans:
        if self._asked is None:
            self._asked = Spans(self._strip)
        return self._asked

    # ---- rows ----------------------------------------------------------------------------

    def at(self, time_s: FloatArray) -> Columns:
        """The run at moments, shape (n,). [s]"""
        return self.rows(time_s, time_s)

    def steps(self, step_s: float) -> Columns:
        """The run at an even step from its beginning; the last step ends with the run."""
        begin = step_s * np.arange(int(self.span_s / step_s * (1.0 + 1e-12) + 1.0), dtype=float)
        begin[-1] = min(begin[-1], self.span_s)
        return self.rows(begin, np.append(begin[1:], self.span_s))

    def eventful(self, count: int) -> Columns:
        """About `count` rows at an even step, and further ones where something happens."""
        moments: FloatArray = np.linspace(0.0, self.span_s, count + 1)
        if len(self.run.legs) <= count:
            moments = np.union1d(moments, [leg.end_s for leg in self.run.legs])
            moments = moments[moments <= self.span_s]
        return self.rows(moments, np.append(moments[1:], moments[-1]))

    def rows(self, begin_s: FloatArray, end_s: FloatArray) -> Columns:
        """Rows with a step each.

        Parameters
        ----------
        begin_s, end_s : ndarray
            Moment of each row, and the end of its step, which may be the moment itself; within the
            run, shape (n,). [s]
        """
        if not self.run.legs:
            return self._only(begin_s)
        now = self._strip.at(begin_s, before=True)
        give_way()
        currents = self._means(begin_s, end_s, now)
        give_way()
        return Columns(
            **_fields(self._voltages(now, begin_s, self._spans.extent(begin_s, end_s))),
            harvest_a=currents[HARVEST],
            load_a=currents[LOAD],
            leakage_a=currents[LEAKAGE],
        )

    def _means(self, begin_s: FloatArray, end_s: FloatArray, now: Moments) -> FloatArray:
        """Mean currents of steps, shape (3, n); `now` is at their beginnings. [A]"""
        strip, modes = self._strip, self._modes
        width = end_s - begin_s
        long = width > 0.0
        currents = np.empty((3, len(width)))
        if not long.all():
            currents[:, ~long] = modes.currents_at(now.row.part(~long), now.charge_c[~long])
        if long.any():
            both = strip.carried(np.concatenate([begin_s[long], end_s[long]]))
            n = both.shape[1] // 2
            passed = both[:, n:] - both[:, :n]
            # What is left of a difference of two equal sums is no current.
            passed[np.abs(passed) < ROUNDING * np.abs(both[:, n:])] = 0.0
            currents[:, long] = passed / width[long]
        return currents

    def _voltages(
        self, now: Moments, time_s: FloatArray, extent: Extent | None
    ) -> Voltages:
        """Rows at moments, with the minima of the stretches they lie in, or their own."""
        modes = self._modes
        terminal = modes.terminal_v(now.row, now.charge_c)
        if extent is None:
            lowest_v, lowest_c = modes.lowest(now.row, now.charge_c)
        else:
            lowest_v, lowest_c = extent.lowest_v, extent.lowest_c
        return Voltages(
            time_s=time_s,
            store_v=modes.volts(now.charge_c),
            store_min_v=modes.volts(np.minimum(lowest_c, now.charge_c)),
            terminal_v=terminal,
            terminal_min_v=np.minimum(lowest_v, terminal),
            connected=now.connected,
            illuminance_lx=self._illuminance_lx(time_s),
        )

    def lowest_v(self, begin_s: FloatArray, end_s: FloatArray) -> FloatArray:
        """Lowest open-circuit voltage of the store from moments to others, shape (n,). [V]"""
        return self._modes.volts(self._spans.extent(begin_s, end_s).lowest_c)

    def charge_at(self, time_s: FloatArray) -> tuple[FloatArray, NDArray[np.bool_]]:
        """Charge of the store at moments, and whether the load is connected; shape (n,). [C]"""
        if not self.run.legs:
            end = self.run.end
            return np.full(len(time_s), end.charge_c), np.full(len(time_s), end.connected)
        now = self._strip.at(time_s, before=True)
        return now.charge_c, now.connected

    def voltages(self, time_s: FloatArray, width_s: float = 0.0) -> Voltages:
        """The run at moments, with minima over a width around them, or their own. [s]"""
        if not self.run.legs:
            return self._only(time_s)
        now = self._strip.at(time_s, before=True)
        if width_s <= 0.0:
            return self._voltages(now, time_s, None)
        begin = np.maximum(time_s - 0.5 * width_s, 0.0)
        end = np.minimum(begin + width_s, self.span_s)
        return self._voltages(now, time_s, self._spans.extent(begin, end))

    def around(self, time_s: FloatArray, width_s: float) -> Columns:
        """The run at moments, with minima and means over a width around them. [s]"""
        begin = np.maximum(time_s - 0.5 * width_s, 0.0)
        near = self.rows(begin, np.minimum(begin + width_s, self.span_s))
        return replace(near, **_fields(self.voltages(time_s, width_s)))

    def _only(self, time_s: FloatArray) -> Columns:
        """Rows of a run without a leg: its only state."""
        volts = np.full(len(time_s), float(self.engine.field.voltage_at(self.run.end.charge_c)))
        zero = np.zeros(len(time_s))
        return Columns(
            time_s=time_s, store_v=volts, store_min_v=volts, terminal_v=volts,
            terminal_min_v=volts, harvest_a=zero, load_a=zero, leakage_a=zero,
            connected=np.full(len(time_s), self.run.end.connected), illuminance_lx=zero,
        )

    # ---- extremes and pictures -----------------------------------------------------------

    def extremes(self) -> Extremes:
        """Lowest and highest points of the whole run."""
        if self._extremes is None:
            self._extremes = self._found_extremes()
        return self._extremes

    def _found_extremes(self) -> Extremes:
        volts = self.engine.field.voltage_at
        if not self.run.legs:
            only = float(volts(self.run.end.charge_c))
            return Extremes(
                lowest_store_v=only, highest_store_v=only, lowest_terminal_v=np.inf,
                lowest_ever_v=only,
            )
        whole = self._spans.courses
        return Extremes(
            lowest_store_v=float(volts(whole.lowest_c[0])),
            highest_store_v=float(volts(max(whole.highest_c[0], self.opening_c))),
            lowest_terminal_v=float(self._spans.lowest_connected_v()[0]),
            lowest_ever_v=float(whole.lowest_v[0]),
        )

    def picture(self, from_s: float, to_s: float, columns: int) -> Picture:
        """What a span shows in so many pixel columns: nothing missed, nothing invented.

        Parameters
        ----------
        from_s, to_s : float
            Span on show. [s]
        columns : int
            Width in pixels.
        """
        seen = from_s, to_s, columns
        if self._picture is None or self._picture[0] != seen:
            self._picture = seen, self._pictured(*seen)
        return self._picture[1]

    def _pictured(self, from_s: float, to_s: float, columns: int) -> Picture:
        edges = np.linspace(from_s, to_s, columns + 1)
        begin, end = np.maximum(edges[:-1], 0.0), np.minimum(edges[1:], self.span_s)
        some = np.flatnonzero(begin < end)
        table = np.full((4, columns), np.nan)
        edge_v = np.full(columns + 1, np.nan)
        if self.run.legs and some.size:
            seen = slice(int(some[0]), int(some[-1]) + 2)
            edge_v[seen], table[:, some] = self._painted(edges[seen], begin[some], end[some])
        low, high, typical, lowest = table
        return Picture(
            edge_s=edges, edge_v=edge_v, low_v=low, high_v=high, typical_v=typical,
            terminal_low_v=lowest,
        )

    def _painted(
        self, edges: FloatArray, begin: FloatArray, end: FloatArray
    ) -> tuple[FloatArray, FloatArray]:
        """Voltages at the edges of columns that hold something, and of the columns, (4, n)."""
        volts, strip = self._modes.volts, self._strip
        extent, typical_c = self._spans.sketched(begin, end)
        # What is lost at once where the picture begins is seen: the store is shown before it.
        opening_c = np.array([self.opening_c])
        first_c = opening_c if begin[0] <= 0.0 else strip.at(begin[:1], before=True).charge_c
        extent.highest_c[:1] = np.maximum(extent.highest_c[:1], first_c)
        low, high = volts(extent.lowest_c), volts(extent.highest_c)
        typical = 0.5 * (low + high)
        least = HIDDEN * (high.max() - low.min())
        tall = high - low > least
        dense = tall & np.isfinite(typical_c)
        typical[dense] = volts(typical_c[dense])
        edge_c = np.append(first_c, extent.end_c)
        edge_v = volts(edge_c)
        ends = edge_v[:-1], edge_v[1:]
        beyond = np.maximum(high - np.maximum(*ends), np.minimum(*ends) - low)
        hides = np.flatnonzero(tall & ~dense & (beyond > least))
        if hides.size:
            width = end[hides] - begin[hides]
            places = [begin[hides] + share * width for share in SAMPLES]
            found = strip.sketched(np.concatenate(places)).reshape(len(SAMPLES), -1)
            typical[hides] = volts(np.sort(found, axis=0)[len(SAMPLES) // 2])
        edge_v[(edges < 0.0) | (edges > self.span_s * (1.0 + 1e-12))] = np.nan
        return edge_v, np.stack([low, high, typical, extent.lowest_v])

    def _illuminance_lx(self, time_s: FloatArray) -> FloatArray:
        """Light at moments; where it changes, the light after. [lx]"""
        edges = np.asarray(self.engine.edges)
        into = np.mod(self.run.begin_s + time_s + grain(time_s), edges[-1])
        now = np.searchsorted(edges[1:-1], into, side="right")
        return np.asarray(self.engine.illuminance_lx[now])

    def light(self) -> tuple[FloatArray, FloatArray]:
        """Edges of the stretches of equal light, shape (n + 1,), and the light, (n,). [s, lx]"""
        edges, begin_s = np.asarray(self.engine.edges), self.run.begin_s
        end_s = begin_s + self.span_s
        periods = np.arange(begin_s // edges[-1], np.ceil(end_s / edges[-1]))
        begin = (periods[:, None] * edges[-1] + edges[:-1]).ravel() - begin_s
        lux = np.tile(self.engine.illuminance_lx, len(periods))
        seen = np.flatnonzero((np.append(begin[1:], np.inf) > 0.0) & (begin < self.span_s))
        begin, lux = np.maximum(begin[seen], 0.0), lux[seen]
        first = np.flatnonzero(np.append(True, np.diff(lux) != 0.0)[: len(lux)])
        return np.append(begin[first], self.span_s), lux[first]


def _fields(rows: Voltages) -> dict[str, Any]:
    return {field.name: getattr(rows, field.name) for field in fields(Voltages)}

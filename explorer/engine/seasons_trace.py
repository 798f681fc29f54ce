"""A march through several months that can be asked what it was, as one trace."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import fields, replace

import numpy as np
from numpy.typing import NDArray

from explorer.engine.columns import Columns, Extremes, Voltages
from explorer.engine.picture import Picture
from explorer.engine.seasons import GRAIN_S, Part, Seasons
from explorer.engine.trace import Trace
from explorer.physics.arrays import BoolArray, FloatArray

_MEANS = ("harvest_a", "load_a", "leakage_a")
_LOWEST = ("store_min_v", "terminal_min_v")


class SeasonsTrace(Trace):
    """What a march through months says at any moment.

    Parameters
    ----------
    seasons : Seasons
        The year.
    parts : sequence of Part
        Marches one after another; the first begins at 0.
    traces : sequence of Trace, optional
        Of the parts, where they are made already.
    """

    def __init__(
        self, seasons: Seasons, parts: Sequence[Part], traces: Sequence[Trace] | None = None
    ) -> None:
        self.parts = tuple(parts)
        self.traces = tuple(traces or (
            Trace(part.engine, part.run) for part in self.parts
        ))
        first = self.traces[0]
        super().__init__(first.engine, first.run, first._book)
        self._begin = np.array([part.begin_s for part in self.parts])

    @property
    def span_s(self) -> float:
        """How long all of it lasts. [s]"""
        return self.parts[-1].end_s

    @property
    def opening_c(self) -> float:
        """Charge before anything happened. [C]"""
        return self.traces[0].opening_c

    def _which(self, time_s: FloatArray) -> NDArray[np.intp]:
        """Part in which each moment lies; one between two belongs to the later."""
        at = np.searchsorted(self._begin, np.asarray(time_s) + GRAIN_S, side="right") - 1
        return np.clip(at, 0, len(self.parts) - 1)

    def _gathered(
        self, time_s: FloatArray, ask: Callable[[Trace, FloatArray, BoolArray], Voltages]
    ) -> Voltages:
        """Rows at moments, each from the part that it lies in, in the order of the moments."""
        which = self._which(time_s)
        found: Voltages | None = None
        for k in np.unique(which).tolist():
            some = which == k
            rows = ask(self.traces[k], time_s[some] - self._begin[k], some)
            if found is None:
                found = replace(rows, **{
                    f.name: np.zeros(len(time_s), getattr(rows, f.name).dtype)
                    for f in fields(rows)
                })
            for f in fields(rows):
                getattr(found, f.name)[some] = getattr(rows, f.name)
        if found is None:
            return ask(self.traces[0], time_s, np.zeros(0, bool))
        found.time_s[:] = time_s
        return found

    def rows(self, begin_s: FloatArray, end_s: FloatArray) -> Columns:
        """Rows with a step each; a step may pass from month to month."""
        begin_s, end_s = np.asarray(begin_s, float), np.asarray(end_s, float)
        last = np.append(self._begin[1:], self.span_s)[self._which(begin_s)]

        def ask(trace: Trace, at: FloatArray, some: BoolArray) -> Columns:
            width = np.minimum(end_s, last)[some] - begin_s[some]
            return trace.rows(at, np.minimum(at + np.maximum(width, 0.0), trace.span_s))

        found = self._gathered(begin_s, ask)
        assert isinstance(found, Columns)
        beyond = np.flatnonzero(end_s > last + GRAIN_S)
        if beyond.size:
            rest = self.rows(last[beyond], end_s[beyond])
            whole = end_s[beyond] - begin_s[beyond]
            share = (last[beyond] - begin_s[beyond]) / whole
            for name in _MEANS:
                own = getattr(found, name)
                own[beyond] = share * own[beyond] + (1.0 - share) * getattr(rest, name)
            for name in _LOWEST:
                own = getattr(found, name)
                own[beyond] = np.minimum(own[beyond], getattr(rest, name))
        return found

    def eventful(self, count: int) -> Columns:
        """About `count` rows at an even step."""
        moments: FloatArray = np.linspace(0.0, self.span_s, count + 1)
        return self.rows(moments, np.append(moments[1:], moments[-1]))

    def voltages(self, time_s: FloatArray, width_s: float = 0.0) -> Voltages:
        """The run at moments, with minima over a width around them, or their own. [s]"""
        return self._gathered(
            np.asarray(time_s, float), lambda trace, at, some: trace.voltages(at, width_s)
        )

    def lowest_v(self, begin_s: FloatArray, end_s: FloatArray) -> FloatArray:
        """Lowest open-circuit voltage of the store from moments to others, shape (n,). [V]"""
        return self.rows(begin_s, end_s).store_min_v

    def charge_at(self, time_s: FloatArray) -> tuple[FloatArray, BoolArray]:
        """Charge of the store at moments, and whether the load is connected; shape (n,). [C]"""
        which = self._which(time_s)
        charge_c, connected = np.zeros(len(time_s)), np.zeros(len(time_s), bool)
        for k in np.unique(which).tolist():
            some = which == k
            charge_c[some], connected[some] = self.traces[k].charge_at(
                time_s[some] - self._begin[k]
            )
        return charge_c, connected

    def extremes(self) -> Extremes:
        """Lowest and highest points of the whole run."""
        if self._extremes is None:
            each = [trace.extremes() for trace in self.traces]
            self._extremes = Extremes(
                lowest_store_v=min(e.lowest_store_v for e in each),
                highest_store_v=max(e.highest_store_v for e in each),
                lowest_terminal_v=min(e.lowest_terminal_v for e in each),
                lowest_ever_v=min(e.lowest_ever_v for e in each),
            )
        return self._extremes

    def _pictured(self, from_s: float, to_s: float, columns: int) -> Picture:
        """A column that holds the end of a month shows what the two months show of it together."""
        edges = np.linspace(from_s, to_s, columns + 1)
        found = np.full((4, columns), np.nan)
        edge_v = np.full(columns + 1, np.nan)
        width = (to_s - from_s) / columns
        for part, trace in zip(self.parts, self.traces, strict=True):
            end = part.end_s
            if end <= from_s or part.begin_s >= to_s:
                continue
            first = max(int((part.begin_s - from_s) / width), 0)
            last = min(int(np.ceil((end - from_s) / width - 1e-9)), columns)
            if last <= first:
                continue
            own = trace.picture(
                float(edges[first]) - part.begin_s, float(edges[last]) - part.begin_s, last - first
            )
            some = slice(first, last)
            found[0, some] = np.fmin(found[0, some], own.low_v)
            found[1, some] = np.fmax(found[1, some], own.high_v)
            found[2, some] = np.where(np.isnan(own.typical_v), found[2, some], own.typical_v)
            found[3, some] = np.fmin(found[3, some], own.terminal_low_v)
            at = slice(first, last + 1)
            edge_v[at] = np.where(np.isnan(own.edge_v), edge_v[at], own.edge_v)
        return Picture(
            edge_s=edges, edge_v=edge_v, low_v=found[0], high_v=found[1], typical_v=found[2],
            terminal_low_v=found[3],
        )

    def light(self) -> tuple[FloatArray, FloatArray]:
        """Edges of the stretches of equal light, shape (n + 1,), and the light, (n,). [s, lx]"""
        edges, lux = [], []
        for part, trace in zip(self.parts, self.traces, strict=True):
            own_s, own_lx = trace.light()
            edges.append(own_s[:-1] + part.begin_s)
            lux.append(own_lx)
        return np.append(np.concatenate(edges), self.span_s), np.concatenate(lux)


__all__ = ["SeasonsTrace"]

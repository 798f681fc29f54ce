"""What a picture of a run shows, column by column of pixels, and the lines to draw it with."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from explorer.physics.arrays import BoolArray, FloatArray

MOST_COLUMNS = 1000
"""Columns of a picture at most; a wider one has columns of more than a pixel."""
NEAR = 25
"""Columns around one within which ups and downs are counted."""
CROWDED = 0.5
"""Share of them that hide something above which they are drawn as a band, not as a line."""
STRAIGHT = 0.03
"""Bend at a column's edge, in pixels, below which most edges need not be drawn."""
KEPT = 8
"""Of edges that need not be drawn every so many are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """What one pixel column after another shows of a run; NaN where nothing was computed.

    Arrays have shape (n,), one value for each column, or (n + 1,) at its edges.
    """

    edge_s: FloatArray
    """Edges of the columns, shape (n + 1,). [s]"""
    edge_v: FloatArray
    """Open-circuit voltage of the store at the edges, shape (n + 1,). [V]"""
    low_v: FloatArray
    high_v: FloatArray
    """Lowest and highest open-circuit voltage within the columns. [V]"""
    typical_v: FloatArray
    """Open-circuit voltage of most of the column's time. [V]"""
    terminal_low_v: FloatArray
    """Lowest terminal voltage within the columns. [V]"""
    _dense: dict[float, tuple[BoolArray, BoolArray]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )
    """What is hidden and what is dense, by the height of a pixel: line and bands ask for both."""

    def hidden(self, pixel_v: float) -> BoolArray:
        """Columns that go further beyond their edges than a pixel is high, shape (n,). [V]"""
        return self._told(pixel_v)[0]

    def dense(self, pixel_v: float) -> BoolArray:
        """Columns whose ups and downs are too close for a line, shape (n,). [V]"""
        return self._told(pixel_v)[1]

    def _told(self, pixel_v: float) -> tuple[BoolArray, BoolArray]:
        found = self._dense.get(pixel_v)
        if found is None:
            found = self._dense[pixel_v] = self._looked_at(pixel_v)
        return found

    def _looked_at(self, pixel_v: float) -> tuple[BoolArray, BoolArray]:
        with np.errstate(invalid="ignore"):
            above = self.high_v - np.fmax(self.edge_v[:-1], self.edge_v[1:])
            below = np.fmin(self.edge_v[:-1], self.edge_v[1:]) - self.low_v
            hides = np.asarray(np.maximum(above, below) > pixel_v)
        if not hides.any():
            return hides, hides
        seen = np.isfinite(self.low_v)
        hidden = around(hides.astype(float), np.add, NEAR)
        return hides, seen & (hidden > CROWDED * around(seen.astype(float), np.add, NEAR))

    def line(self, pixel_v: float) -> tuple[FloatArray, FloatArray]:
        """The store's curve through what was computed, NaN between its parts; shape (m,). [s, V]

        Exact at the edges of the columns; where one hides more than a pixel it goes to the lowest
        and the highest point, and where the columns are dense it keeps to what is typical.

        Parameters
        ----------
        pixel_v : float
            Height of a pixel. [V]
        """
        hidden, dense = self.hidden(pixel_v), self.dense(pixel_v)
        seen = np.isfinite(self.low_v)
        middle = 0.5 * (self.edge_s[1:] + self.edge_s[:-1])
        up = self.edge_v[1:] > self.edge_v[:-1]
        first = np.where(up, self.low_v, self.high_v)
        second = np.where(up, self.high_v, self.low_v)
        sharp = hidden & ~dense
        drawn = seen & ~dense
        edge = np.append(drawn, False) | np.append(False, drawn)
        bend = np.abs(np.diff(self.edge_v, 2))
        still = np.zeros(len(edge), bool)
        still[1:-1] = bend < STRAIGHT * pixel_v
        still[::KEPT] = False
        lonely = np.append(False, sharp | dense) | np.append(sharp | dense, False)
        ends = np.append(True, ~seen) | np.append(~seen, True)
        edge &= ~still | lonely | ends
        n = len(seen)
        x, y = np.empty((2, n + 1, 3))
        x[:, 0], y[:, 0] = self.edge_s, self.edge_v
        x[:n, 1] = x[:n, 2] = middle
        x[n, 1:] = y[n, 1:] = np.nan
        y[:n, 1] = np.where(seen, first, np.nan)
        if dense.any():
            total = around(np.where(dense, self.typical_v, 0.0), np.add, NEAR)
            usual = total / np.maximum(around(dense.astype(float), np.add, NEAR), 1.0)
            y[:n, 1][dense] = usual[dense]
        y[:n, 2] = second
        keep = np.zeros((n + 1, 3), bool)
        keep[:, 0] = edge
        keep[:n, 1] = sharp | dense | ~seen
        keep[:n, 2] = sharp
        return x[keep], y[keep]

    def bands(self, pixel_v: float) -> list[tuple[FloatArray, FloatArray, FloatArray]]:
        """Times, lowest and highest voltage of the stretches that are too dense for a line."""
        out: list[tuple[FloatArray, FloatArray, FloatArray]] = []
        dense = self.dense(pixel_v)
        if not dense.any():
            return out
        # A tooth may be a little wider than a column: the band is as high as its neighbours.
        low, high = around(self.low_v, np.fmin, 3), around(self.high_v, np.fmax, 3)
        for a, b in zip(*runs(dense), strict=True):
            places = np.clip(np.arange(a - 1, b + 1), a, b - 1)
            x = 0.5 * (self.edge_s[places] + self.edge_s[places + 1])
            x[0], x[-1] = self.edge_s[a], self.edge_s[b]
            out.append((x, low[places], high[places]))
        return out

    def envelope(self) -> list[tuple[FloatArray, FloatArray, FloatArray]]:
        """Times, lowest terminal and highest store voltage of each stretch that was computed."""
        out = []
        for a, b in zip(*runs(np.isfinite(self.low_v)), strict=True):
            middle = 0.5 * (self.edge_s[a:b] + self.edge_s[a + 1 : b + 1])
            out.append((middle, self.terminal_low_v[a:b], self.high_v[a:b]))
        return out


def around(values: FloatArray, join: np.ufunc, width: int) -> FloatArray:
    """Values joined over so many places around each; what lies outside repeats the ends."""
    half, n = width // 2, len(values)
    wide = np.concatenate([np.full(half, values[0]), values, np.full(half, values[-1])])
    if join is np.add:
        total = np.cumsum(np.append(0.0, wide))
        return np.asarray(total[width:] - total[:-width])
    out = wide[:n].copy()
    for k in range(1, width):
        join(out, wide[k : k + n], out=out)
    return out


def runs(mask: BoolArray) -> tuple[list[int], list[int]]:
    """Where each stretch of True begins, and where it has ended."""
    if mask.all():
        return ([0], [len(mask)]) if len(mask) else ([], [])
    change = np.diff(mask.astype(np.int8), prepend=0, append=0)
    return np.flatnonzero(change == 1).tolist(), np.flatnonzero(change == -1).tolist()

"""From the values of a map's axis to its length and back, with ticks and stops that read well."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explorer.advice.stops import E12, LIGHT_STEPS, decades
from explorer.advice.territory import Axis
from explorer.words.drawers import axis_value, is_count

FloatArray = NDArray[np.float64]
_FINE = frozenset({"lx", "s", "min", "h", "mAh", "d"})
"""Units whose stops follow the light's steps; the others follow the preferred numbers of parts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """A marked value."""

    share: float
    """Place along the axis, 0 to 1."""
    text: str


class Scale:
    """One axis of a map: even in ratio, even in steps, or one cell for each count.

    Of what is sold in sizes each has its cell too, which ends half way, in ratio, to the next.
    """

    def __init__(self, axis: Axis) -> None:
        self.axis = axis
        self.counts = is_count(axis)
        self.low, self.high = axis.values[0], axis.values[-1]
        self.is_log = self.low > 0 and not self.counts

    def share(self, value: float) -> float:
        """Place of a value along the axis; 0 and 1 are its ends, cells of counts are whole."""
        if self.counts:
            return (value - self.low + 0.5) / (self.high - self.low + 1.0)
        if self.is_log:
            return math.log(max(value, 1e-30) / self.low) / math.log(self.high / self.low)
        return (value - self.low) / (self.high - self.low)

    def value(self, share: float) -> float:
        """Value at a place, within the ends and to three digits."""
        share = min(max(share, 0.0), 1.0)
        if self.counts:
            cells = self.high - self.low + 1.0
            return self.low + min(math.floor(share * cells), cells - 1.0)
        if self.is_log:
            value = self.low * (self.high / self.low) ** share
            if self.axis.as_sold:
                return min(self.axis.values, key=lambda sold: abs(math.log(sold / value)))
        else:
            value = self.low + share * (self.high - self.low)
        return min(max(float(f"{value:.3g}"), self.low), self.high)

    def holds(self, value: float) -> bool:
        """Whether a value lies on the axis."""
        return self.low <= value <= self.high

    def rows(self, pixels: int, values: tuple[float, ...]) -> FloatArray:
        """Fractional index into `values` at every pixel; whole where the axis counts."""
        shares = (np.arange(pixels) + 0.5) / pixels
        if self.counts:
            wanted = np.floor(shares * (self.high - self.low + 1.0)) + self.low
            # A coarse map leaves counts out: the nearest one stands for them.
            known = np.asarray(values)
            nearest = np.abs(wanted[:, None] - known[None, :]).argmin(axis=1)
            return np.asarray(nearest, dtype=np.float64)
        known = np.array([self.share(v) for v in values])
        if self.axis.as_sold:
            nearest = np.abs(shares[:, None] - known[None, :]).argmin(axis=1)
            return np.asarray(nearest, dtype=np.float64)
        return np.asarray(np.interp(shares, known, np.arange(len(values), dtype=float)))

    def stop(self, value: float, steps: int) -> float:
        """The stop `steps` further along, starting from any value."""
        if self.counts:
            return min(max(round(value) + steps, self.low), self.high)
        stops = self._stops()
        if not stops:
            return value
        if steps > 0:
            at = bisect_right(stops, value * (1 + 1e-9)) + steps - 1
        else:
            at = bisect_left(stops, value * (1 - 1e-9)) + steps
        return stops[min(max(at, 0), len(stops) - 1)]

    def ticks(self, pixels: float, room: float) -> list[Tick]:
        """Marked values with at least `room` pixels between them."""
        most = max(int(pixels / room), 1)
        for values in self._tick_choices():
            if len(values) <= most:
                return [Tick(share=self.share(v), text=axis_value(self.axis, v)) for v in values]
        return []

    def _stops(self) -> list[float]:
        if self.axis.as_sold:
            return list(self.axis.values)
        if not self.is_log:
            return [float(v) for v in range(math.ceil(self.low), math.floor(self.high) + 1)]
        steps = LIGHT_STEPS if self.axis.unit in _FINE else E12
        low, high = math.floor(math.log10(self.low)), math.ceil(math.log10(self.high))
        return [v for v in decades(steps, low, high) if self.holds(v)]

    def _tick_choices(self) -> list[list[float]]:
        if self.counts:
            whole = range(int(self.low), int(self.high) + 1)
            return [[float(v) for v in whole if v % n == 0 or n == 1] for n in (1, 2, 4, 8, 16)]
        if not self.is_log:
            out = []
            for step in (1.0, 2.0, 5.0, 10.0, 20.0, 50.0):
                first = math.ceil(self.low / step)
                last = math.floor(self.high / step)
                out.append([k * step for k in range(first, last + 1)])
            return out
        if self.axis.unit == "s":
            return [
                [v for v in chosen if self.holds(v)]
                for chosen in (_TIMES, _TIMES[::2], _TIMES[::3], _TIMES[::5])
            ]
        low, high = math.floor(math.log10(self.low)), math.ceil(math.log10(self.high))
        return [
            [v for v in decades(steps, low, high) if self.holds(v)]
            for steps in ((1.0, 2.0, 5.0), (1.0, 3.0), (1.0,))
        ] + [[v for v in decades((1.0,), low, high) if self.holds(v)][::2]]


_TIMES = (
    0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 60.0, 120.0, 300.0, 600.0, 1200.0, 1800.0,
    3600.0, 7200.0, 14_400.0, 28_800.0, 43_200.0, 86_400.0, 172_800.0, 345_600.0, 604_800.0,
)  # fmt: skip

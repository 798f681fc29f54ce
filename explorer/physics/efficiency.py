"""A converter's efficiency as its data sheet gives it: against input power, by store voltage."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from explorer.physics.arrays import FloatArray, Number

_HALVINGS = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class EfficiencyCurve:
    """Rows at one store voltage."""

    power_w: tuple[float, ...]
    """Input power, rising. [W]"""
    share: tuple[float, ...]
    """Output over input power."""

    def at(self, power_w: Number) -> FloatArray:
        """Efficiency at input powers, of their shape.

        Monotone cubic between rows, in the logarithm of power [F. N. Fritsch, J. Butland, SIAM J.
        Sci. Stat. Comput. 5 (1984) 300]. Above the last row it stays; below the first the lost
        power stays, so the efficiency falls and reaches 0 (own judgement, on the safe side).

        Examples
        --------
        >>> curve = EfficiencyCurve(power_w=(1e-5, 1e-3), share=(0.5, 0.9))
        >>> curve.at([2.5e-6, 1e-5, 1e-4, 1.0]).round(3).tolist()
        [0.0, 0.5, 0.7, 0.9]
        """
        power = np.maximum(np.asarray(power_w, float), 1e-300)
        x, y = np.log(np.array(self.power_w)), np.array(self.share)
        if len(x) == 1:
            inside = np.broadcast_to(y[0], power.shape)
        else:
            inside = _monotone(x, y, np.clip(np.log(power), x[0], x[-1]))
        lost_w = (1.0 - y[0]) * self.power_w[0]
        below = np.maximum(1.0 - lost_w / power, 0.0)
        share: FloatArray = np.where(power < self.power_w[0], below, inside)
        return share


@dataclass(frozen=True, slots=True, kw_only=True)
class EfficiencyTable:
    """Curves by store voltage; straight between them, the outermost beyond."""

    volts: tuple[float, ...]
    """Store voltages, rising; one of any value where the sheet gives none. [V]"""
    curves: tuple[EfficiencyCurve, ...]
    """At each of them."""
    scale: Number = 1.0
    """By which the table is multiplied; no efficiency exceeds 1."""

    def outputs(self, power_w: Number) -> tuple[FloatArray, ...]:
        """Output power at each store voltage, in the shape of the input power. [W]"""
        power = np.asarray(power_w, float)
        return tuple(np.minimum(self.scale * c.at(power), 1.0) * power for c in self.curves)

    def between(self, outputs_w: Sequence[FloatArray], store_v: Number) -> FloatArray:
        """Output power at store voltages, from that at each voltage of the table. [W]"""
        volts = np.asarray(store_v, float)
        total = np.zeros(())
        for place, watt in enumerate(outputs_w):
            weight = np.zeros(len(self.volts))
            weight[place] = 1.0
            total = total + np.interp(volts, self.volts, weight) * watt
        return total

    def input_for(self, output_w: FloatArray, store_v: FloatArray, most_w: float) -> FloatArray:
        """Least input power that gives an output at store voltages, at most `most_w`. [W]"""
        low, high = np.zeros_like(output_w), np.full_like(output_w, most_w)
        for _ in range(_HALVINGS):
            middle = 0.5 * (low + high)
            enough = self.between(self.outputs(middle), store_v) >= output_w
            low, high = np.where(enough, low, middle), np.where(enough, middle, high)
        return high


def _monotone(x: FloatArray, y: FloatArray, at: FloatArray) -> FloatArray:
    """Cubic through points that rises and falls only where they do."""
    step = np.diff(x)
    slope = np.diff(y) / step
    tangent = np.empty_like(y)
    before, after = slope[:-1], slope[1:]
    first, second = 2.0 * step[1:] + step[:-1], step[1:] + 2.0 * step[:-1]
    turns = before * after <= 0.0
    with np.errstate(divide="ignore", invalid="ignore"):
        tangent[1:-1] = np.where(
            turns, 0.0, (first + second) / (first / before + second / after)
        )
    tangent[0] = _end(slope, step)
    tangent[-1] = _end(slope[::-1], step[::-1])
    place = np.clip(np.searchsorted(x, at, side="right") - 1, 0, len(step) - 1)
    width = step[place]
    t = (at - x[place]) / width
    value: FloatArray = (
        (1.0 + 2.0 * t) * (1.0 - t) ** 2 * y[place]
        + t * (1.0 - t) ** 2 * width * tangent[place]
        + t**2 * (3.0 - 2.0 * t) * y[place + 1]
        + t**2 * (t - 1.0) * width * tangent[place + 1]
    )
    return value


def _end(slope: FloatArray, step: FloatArray) -> float:
    """Tangent at an end: that of a parabola through three points, kept from overshooting."""
    if len(slope) == 1:
        return float(slope[0])
    found = ((2.0 * step[0] + step[1]) * slope[0] - step[0] * slope[1]) / (step[0] + step[1])
    if found * slope[0] <= 0.0:
        return 0.0
    if slope[0] * slope[1] < 0.0 and abs(found) > 3.0 * abs(slope[0]):
        return float(3.0 * slope[0])
    return float(found)

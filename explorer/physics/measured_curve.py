"""What a measured curve of a panel says in the words of a data sheet."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from explorer.physics.arrays import FloatArray
from explorer.physics.panel import Panel, current_at_voltage
from explorer.quantity import show
from explorer.text import say

LEAST_POINTS = 8
"""Points from which a curve is one (own judgement)."""
_NEAR_ZERO, _NEAR_PEAK, _FLAT = 0.15, 0.85, 0.3
"""Shares of current, of power and of voltage within which points count for a landmark."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Landmarks:
    """Where a curve begins, ends and gives most."""

    short_circuit_a: float
    open_circuit_v: float
    max_power_a: float
    max_power_v: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveMisfit:
    """How far a fitted curve passes from measured points, over the short-circuit current."""

    points: int
    root_mean_square: float
    largest: float


def ordered_curve(voltage_v: FloatArray, current_a: FloatArray) -> tuple[FloatArray, FloatArray]:
    """The points by rising voltage, current drawn from the panel counted as positive. [V], [A]

    A source meter counts the current into the panel; points of one voltage become their mean.
    """
    volts, place = np.unique(voltage_v, return_inverse=True)
    amps = np.bincount(place, current_a) / np.bincount(place)
    inside = volts * amps
    generates = inside[np.argmax(np.abs(inside))] if len(inside) else 0.0
    return volts, -amps if generates < 0.0 else amps


def landmarks(volts: FloatArray, amps: FloatArray) -> Landmarks:
    """Short circuit, open circuit and the point of greatest power of a curve.

    A straight line through the points near short circuit and a cubic through those near the
    greatest power, so that the noise of single points counts little.

    Parameters
    ----------
    volts, amps : ndarray
        From `ordered_curve`, shape (n,). [V], [A]

    Raises
    ------
    ValueError
        The curve is too short to say one of them.
    """
    if len(volts) < LEAST_POINTS:
        raise ValueError(
            say("the curve has {n} points; at least {least} are needed",
                n=len(volts), least=LEAST_POINTS)
        )  # fmt: skip
    most = float(amps[volts >= 0.0].max(initial=0.0))
    if most <= 0.0:
        raise ValueError(say("the curve holds no point at which the panel gives power"))
    end_v = _end(volts, amps, most)
    flat = volts <= _FLAT * end_v
    if flat.sum() < 2:
        raise ValueError(
            say("the curve begins at {volts}; measure from short circuit on",
                volts=show(float(volts[0]), "V"))
        )  # fmt: skip
    short_a = np.polyfit(volts[flat], amps[flat], 1)[1]
    inside = (volts > 0.0) & (volts < end_v)
    power = volts * amps
    near = inside & (power >= _NEAR_PEAK * power[inside].max())
    best_v = float(volts[inside][np.argmax(power[inside])])
    best_w = float(power[inside].max())
    if near.sum() > 4:
        along = np.linspace(volts[near].min(), volts[near].max(), 200)
        smooth = np.polyval(np.polyfit(volts[near] - best_v, power[near], 3), along - best_v)
        best_v, best_w = float(along[np.argmax(smooth)]), float(smooth.max())
    return Landmarks(
        short_circuit_a=float(short_a), open_circuit_v=end_v,
        max_power_a=best_w / best_v, max_power_v=best_v,
    )  # fmt: skip


def thinned(volts: FloatArray, amps: FloatArray, most: int) -> tuple[FloatArray, FloatArray]:
    """At most so many points of a curve, where the panel gives power; ends and bend are kept.

    They lie evenly along the curve as it is drawn.
    """
    inside = (volts >= 0.0) & (amps >= 0.0)
    volts, amps = volts[inside], amps[inside]
    if len(volts) <= most:
        return volts, amps
    steps = np.hypot(np.diff(volts) / np.ptp(volts), np.diff(amps) / np.ptp(amps))
    along = np.concatenate(([0.0], np.cumsum(steps)))
    place = np.unique(np.searchsorted(along, np.linspace(0.0, along[-1], most)))
    place = np.minimum(place, len(volts) - 1)
    return volts[place], amps[place]


def curve_misfit(
    panel: Panel, photocurrent_a: float, volts: FloatArray, amps: FloatArray
) -> CurveMisfit:
    """How far a panel's curve passes from points between short circuit and open circuit."""
    short_a = float(current_at_voltage(panel, photocurrent_a, 0.0))
    inside = (volts >= 0.0) & (amps >= 0.0)
    missed = current_at_voltage(panel, photocurrent_a, volts[inside]) - amps[inside]
    share = np.abs(missed) / short_a
    return CurveMisfit(
        points=int(inside.sum()),
        root_mean_square=float(np.sqrt(np.mean(share**2))),
        largest=float(share.max()),
    )


def _end(volts: FloatArray, amps: FloatArray, most: float) -> float:
    """Voltage at which the current has fallen to zero. [V]"""
    peak = int(np.argmax(volts * amps))
    below = peak + np.flatnonzero(amps[peak:] <= 0.0)
    if len(below):
        k = int(below[0])
        share = amps[k - 1] / (amps[k - 1] - amps[k])
        return float(volts[k - 1] + share * (volts[k] - volts[k - 1]))
    near = np.arange(len(volts)) > peak
    near &= amps <= _NEAR_ZERO * most
    if near.sum() < 2:
        raise ValueError(
            say("the curve ends at {volts} with {amps}; measure on until the current is zero",
                volts=show(float(volts[-1]), "V"), amps=show(float(amps[-1]), "A"))
        )  # fmt: skip
    # Voltage over current, as the curve is steep there.
    return float(np.polyfit(amps[near], volts[near], 1)[1])

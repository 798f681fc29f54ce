"""The two laws of a motion whose speed is linear in the place, for one value and for arrays.

Where the speed is ``v + s x`` the place moves by ``v (exp(s t) - 1) / s`` in a time t, and a width
w between the speeds a and b is crossed in ``w ln(b / a) / (b - a)`` (solution of a linear
differential equation). Everything else about a motion is bookkeeping of cells.
"""

from __future__ import annotations

from math import expm1, inf, log

import numpy as np

from explorer.physics.arrays import FloatArray

SMALL = 1e-8
"""Relative change below which an exponential and a logarithm are their first two terms; what is
left out is below a rounding error."""
MOST_EXPONENT = 700.0
"""Exponents are held here, short of an overflow; nodes bound the motion long before."""
LONGEST_S = 1e300
"""An endless time, for a product with a slope of 0."""
STANDSTILL = 1e-30
"""A speed below this is none: what is left where currents cancel."""


def drift(speed: float, slope: float, duration: float) -> float:
    """Distance moved in a time from a point of given speed and slope of speed."""
    z = slope * duration
    if abs(z) < SMALL:
        return speed * duration * (1.0 + 0.5 * z)
    return speed * expm1(min(z, MOST_EXPONENT)) / slope


def drifts(speed: FloatArray, slope: FloatArray, duration: FloatArray) -> FloatArray:
    """The same for arrays of one shape."""
    with np.errstate(all="ignore"):
        return drifts_unwatched(speed, slope, duration)


def drifts_unwatched(speed: FloatArray, slope: FloatArray, duration: FloatArray) -> FloatArray:
    """The same where the caller sees to it that numpy does not warn."""
    z = slope * np.minimum(duration, LONGEST_S)
    grown = speed * np.expm1(np.minimum(z, MOST_EXPONENT)) / slope
    return np.where(np.abs(z) < SMALL, speed * duration * (1.0 + 0.5 * z), grown)


def crossing(width: float, begin: float, end: float) -> float:
    """Time across a width at a speed that runs linearly between two positive values."""
    times = end / begin
    if abs(times - 1.0) < SMALL:
        return width / begin * (1.5 - 0.5 * times)
    return width / begin * (log(times) / (times - 1.0)) if times > 0.0 else inf


def crossings(
    width: FloatArray, begin: FloatArray, end: FloatArray, blocked: float = inf
) -> FloatArray:
    """The same for arrays, whichever way the speeds point.

    Where the speed changes its sign or stops on the way the time is `blocked`, and 0 where there is
    no width.
    """
    with np.errstate(all="ignore"):
        return crossings_unwatched(width, begin, end, blocked)


def crossings_unwatched(
    width: FloatArray, begin: FloatArray, end: FloatArray, blocked: float = inf
) -> FloatArray:
    """The same where the caller sees to it that numpy does not warn."""
    times = end / begin
    time = width / np.abs(begin) * _log_mean(times)
    ok = (times > 0.0) & (times < inf)
    return np.where(ok, time, np.where(width <= 0.0, 0.0, blocked))


def log_mean(times: FloatArray) -> FloatArray:
    """``ln(r) / (r - 1)`` of positive ratios r, 1 where they are 1."""
    with np.errstate(all="ignore"):
        return _log_mean(times)


def _log_mean(times: FloatArray) -> FloatArray:
    z = times - 1.0
    return np.where(np.abs(z) < SMALL, 1.0 - 0.5 * z, np.log(times) / z)

"""Where the sun stands.

J. Meeus, Astronomical Algorithms, 2nd ed. (1998), chapters 12, 13, 22 and 25 ("low accuracy": the
mean motion, the equation of the centre, aberration and the main term of nutation); coefficients
from memory. Against the solar position algorithm of the NREL, as pvlib computes it, it was never
farther off than 0.01 degrees between 1990 and 2050 (tests/outside/test_sun.py).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from explorer.physics.arrays import FloatArray

_J2000_S = 946_728_000.0
"""2000-01-01 12:00 UTC, in seconds since 1970. [s]"""
_DAY_S = 86_400.0
_CENTURY_DAYS = 36_525.0
_CLOCK_BEHIND_S = 69.0
"""Dynamical time over universal time: 57 s in 1990, 64 s in 2000, 69 s since 2020. Ten seconds are
0.0001 degrees of the sun's way. [s]"""
_PARALLAX_DEG = 8.794 / 3600.0
"""Of the sun at the horizon, seen from the ground instead of the centre of the Earth. [deg]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class SunPosition:
    """Direction to the middle of the sun, without refraction."""

    elevation_deg: FloatArray
    """Above the horizon. [deg]"""
    azimuth_deg: FloatArray
    """From north over east, 0 to 360. [deg]"""


def sun_position(utc_s: ArrayLike, latitude_deg: float, longitude_deg: float) -> SunPosition:
    """Where the sun stands at moments and at one place.

    Parameters
    ----------
    utc_s : array_like, shape (...)
        Seconds since 1970-01-01 00:00 UTC. [s]
    latitude_deg : float
        North is positive. [deg]
    longitude_deg : float
        East is positive. [deg]

    Returns
    -------
    SunPosition
        Arrays of the shape of `utc_s`.

    Examples
    --------
    Noon of the equinox of 2020 on the equator, where the equation of time is -7.4 minutes:

    >>> round(float(sun_position(1584705600.0 + 444.0, 0.0, 0.0).elevation_deg), 1)
    89.9
    """
    days = (np.asarray(utc_s, float) - _J2000_S) / _DAY_S
    t = (days + _CLOCK_BEHIND_S / _DAY_S) / _CENTURY_DAYS
    anomaly = np.radians((357.52911 + 35999.05029 * t) % 360.0)
    centre = (
        (1.914602 - 0.004817 * t) * np.sin(anomaly)
        + 0.019993 * np.sin(2.0 * anomaly)
        + 0.000289 * np.sin(3.0 * anomaly)
    )
    node = np.radians((125.04 - 1934.136 * t) % 360.0)
    nutation = -0.00478 * np.sin(node)
    longitude = np.radians(
        (280.46646 + 36000.76983 * t + 0.0003032 * t**2 + centre - 0.00569 + nutation) % 360.0
    )
    tilt = np.radians(23.439291 - 0.0130042 * t + 0.00256 * np.cos(node))
    right_ascension = np.arctan2(np.cos(tilt) * np.sin(longitude), np.cos(longitude))
    sin_declination = np.sin(tilt) * np.sin(longitude)
    cos_declination = np.sqrt(1.0 - sin_declination**2)
    sidereal = 280.46061837 + 360.98564736629 * days + nutation * np.cos(tilt)
    hour_angle = np.radians((sidereal + longitude_deg) % 360.0) - right_ascension
    latitude = np.radians(latitude_deg)
    toward_south = cos_declination * np.cos(hour_angle)
    up = np.sin(latitude) * sin_declination + np.cos(latitude) * toward_south
    north = np.cos(latitude) * sin_declination - np.sin(latitude) * toward_south
    east = -cos_declination * np.sin(hour_angle)
    up = np.clip(up, -1.0, 1.0)
    lowered_deg = _PARALLAX_DEG * np.sqrt(1.0 - up**2)
    return SunPosition(
        elevation_deg=np.asarray(np.degrees(np.arcsin(up)) - lowered_deg),
        azimuth_deg=np.asarray(np.degrees(np.arctan2(east, north)) % 360.0),
    )


def refraction(elevation_deg: ArrayLike) -> FloatArray:
    """By how much air lifts the sun, for 1010 hPa and 10 °C. [deg]

    G. G. Bennett, Journal of Navigation 35 (1982) 255, as turned round by Saemundsson (Sky and
    Telescope 72 (1986) 70), from memory; nothing far below the horizon.

    Examples
    --------
    >>> round(float(refraction(0.0)), 2)
    0.48
    """
    h = np.maximum(np.asarray(elevation_deg, float), -1.0)
    lifted = 1.02 / 60.0 / np.tan(np.radians(h + 10.3 / (h + 5.11)))
    return np.where(np.asarray(elevation_deg, float) < -1.0, 0.0, np.maximum(lifted, 0.0))


def air_mass(elevation_deg: ArrayLike) -> FloatArray:
    """Relative optical air mass of the sun's way; 1 overhead, 38 at the horizon.

    F. Kasten and A. T. Young, Applied Optics 28 (1989) 4735, of the elevation as seen, with
    refraction.

    Examples
    --------
    >>> air_mass([90.0, 30.0]).round(3).tolist()
    [1.0, 1.994]
    """
    h = np.maximum(np.asarray(elevation_deg, float), 0.0)
    return np.asarray(1.0 / (np.sin(np.radians(h)) + 0.50572 * (h + 6.07995) ** -1.6364))

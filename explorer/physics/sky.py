"""Daylight: how bright three skies are, and what of it falls on a plane.

Illuminance of the skies: IES Calculation Procedures Committee, "Recommended practice for the
calculation of daylight availability", Journal of the IES 13:4 (1984) 381,
doi 10.1080/00994480.1984.10748791; coefficients from memory, held against measured years in
tests/outside/test_sky.py. No light while the sun is below the horizon: twilight is left out.

How it is spread over the sky: CIE S 011 / ISO 15469:2004, sky types 16 (overcast), 7 (partly
cloudy) and 12 (clear); coefficients from memory. Of measured skies, as in a weather file, the
spread alone is used.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from explorer.physics.arrays import FloatArray
from explorer.physics.sun import SunPosition, air_mass, refraction

Sky = Literal["clear", "partly_cloudy", "overcast"]
SKIES: tuple[Sky, ...] = ("clear", "partly_cloudy", "overcast")

BRIGHTEST_LX = 127_500.0
"""Sunlight outside the air, as the recommended practice has it. [lx]"""
_EXTINCTION = {"clear": 0.21, "partly_cloudy": 0.80}
_GRADATION = {"clear": (-1.0, -0.32), "partly_cloudy": (0.0, -1.0)}
"""a and b of the CIE's 1 + a·exp(b / cos Z)."""
_RING = {"clear": (10.0, -3.0, 0.45), "partly_cloudy": (5.0, -2.5, 0.30)}
"""c, d and e of the CIE's 1 + c·(exp(d·χ) - exp(d·π/2)) + e·cos²χ."""
_CLEAR_FROM, _OVERCAST_TO = 4.5, 1.065
"""Clearness of R. Perez et al., Solar Energy 44 (1990) 271, from which a sky is one of the two
clearest of eight kinds, and up to which it is the dullest."""
_BAND_DEG, _SLICE_DEG = 2.5, 5.0
"""Patches in which the sky is summed up."""
_TABLE_ELEVATION_DEG = np.arange(0.0, 91.0, 5.0)
_TABLE_AZIMUTH_DEG = np.arange(0.0, 181.0, 15.0)
"""Places of the sun for which the spread is summed up; between them it is interpolated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """A plane and what stands before it."""

    tilt_deg: float = 0.0
    """0 lies flat and looks up, 90 stands upright, 180 looks down. [deg]"""
    azimuth_deg: float = 180.0
    """Direction that it faces, from north over east. [deg]"""
    horizon_deg: float = 0.0
    """Elevation up to which things around hide the sky. [deg]"""
    overhang_deg: float = 180.0
    """Angle above the horizon ahead, seen along the plane's azimuth, from which on an overhang as
    long as the wall hides the sky; 180 hides nothing. [deg]"""
    ground_reflectance: float = 0.0
    """Share of the light on the ground that it throws back."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Daylight:
    """Light out of doors, arrays of one shape."""

    diffuse_lx: FloatArray
    """Of the sky alone on level ground. [lx]"""
    normal_lx: FloatArray
    """Of the sun on a plane that faces it. [lx]"""

    def level(self, sun: SunPosition) -> FloatArray:
        """On level ground, sun and sky. [lx]"""
        height = np.sin(np.radians(np.maximum(sun.elevation_deg, 0.0)))
        return np.asarray(self.diffuse_lx + self.normal_lx * height)


def daylight(sky: Sky, sun: SunPosition) -> Daylight:
    """Light out of doors under one of the three skies; nothing while the sun is down.

    Examples
    --------
    >>> noon = SunPosition(elevation_deg=np.array([30.0]), azimuth_deg=np.array([180.0]))
    >>> round(float(daylight("overcast", noon).diffuse_lx[0]))
    10809
    """
    seen_deg = sun.elevation_deg + refraction(sun.elevation_deg)
    height = np.sin(np.radians(np.maximum(seen_deg, 0.0)))
    if sky == "overcast":
        diffuse = 300.0 + 21_000.0 * height
    elif sky == "partly_cloudy":
        diffuse = 300.0 + 45_000.0 * height
    else:
        diffuse = 800.0 + 15_500.0 * np.sqrt(height)
    normal = np.zeros_like(height)
    if sky != "overcast":
        normal = BRIGHTEST_LX * np.exp(-_EXTINCTION[sky] * air_mass(seen_deg))
    up = seen_deg > 0.0
    return Daylight(
        diffuse_lx=np.where(up, diffuse, 0.0), normal_lx=np.where(up, normal, 0.0)
    )


def sky_seen(plane: Plane, sky: Sky, sun: SunPosition) -> FloatArray:
    """Light of the sky alone on a plane over that on level ground.

    Examples
    --------
    The CIE overcast sky on an open upright wall (textbook value 0.396):

    >>> noon = SunPosition(elevation_deg=np.array([30.0]), azimuth_deg=np.array([180.0]))
    >>> round(float(sky_seen(Plane(tilt_deg=90.0), "overcast", noon)[0]), 3)
    0.396
    """
    facing = Plane(
        tilt_deg=plane.tilt_deg, horizon_deg=plane.horizon_deg, overhang_deg=plane.overhang_deg
    )
    if sky == "overcast":
        return np.full(np.shape(sun.elevation_deg), _overcast_seen(facing))
    away = np.abs((sun.azimuth_deg - plane.azimuth_deg + 180.0) % 360.0 - 180.0)
    return _between(_table(facing, sky), np.clip(sun.elevation_deg, 0.0, 90.0), away)


def on_plane(plane: Plane, sky: Sky, sun: SunPosition, light: Daylight) -> FloatArray:
    """Illuminance of a plane: sun, sky and ground. [lx]

    Parameters
    ----------
    plane : Plane
        Where the light falls.
    sky : {"clear", "partly_cloudy", "overcast"}
        How the light of the sky is spread.
    sun : SunPosition
        Where the sun stands.
    light : Daylight
        How much there is.
    """
    ground = plane.ground_reflectance * (1.0 - np.cos(np.radians(plane.tilt_deg))) / 2.0
    return np.asarray(
        light.diffuse_lx * sky_seen(plane, sky, sun)
        + light.normal_lx * sun_seen(plane, sun)
        + ground * light.level(sun)
    )


def sun_seen(plane: Plane, sun: SunPosition) -> FloatArray:
    """Cosine of the angle at which the sun meets a plane; 0 behind it, or where it is hidden."""
    away = np.radians(sun.azimuth_deg - plane.azimuth_deg)
    return _cosine(plane, np.radians(sun.elevation_deg), away)


def clearness(sun: SunPosition, light: Daylight) -> FloatArray:
    """How clear a sky is, from 1 (overcast) to 6 and more, by R. Perez et al. (1990)."""
    zenith = np.radians(90.0 - np.maximum(sun.elevation_deg, 0.0))
    ratio = light.normal_lx / np.maximum(light.diffuse_lx, 1.0)
    return np.asarray(1.0 + ratio / (1.0 + 1.041 * zenith**3))


def sky_kind(sun: SunPosition, light: Daylight) -> NDArray[np.int64]:
    """Which of the `SKIES` measured light is most like, as its index."""
    clear = clearness(sun, light)
    return np.where(clear >= _CLEAR_FROM, 0, np.where(clear <= _OVERCAST_TO, 2, 1))


def _cosine(plane: Plane, elevation: ArrayLike, away: ArrayLike) -> FloatArray:
    """Cosine to a plane of directions that it sees, 0 of all others; angles in radians."""
    up, flat = np.sin(elevation), np.cos(elevation)
    ahead = flat * np.cos(away)
    tilt = np.radians(plane.tilt_deg)
    cosine = np.sin(tilt) * ahead + np.cos(tilt) * up
    seen = up > np.sin(np.radians(plane.horizon_deg))
    if plane.overhang_deg < 180.0:
        seen = seen & (np.arctan2(up, ahead) < np.radians(plane.overhang_deg))
    return np.where(seen, np.maximum(cosine, 0.0), 0.0)


def _patches() -> tuple[FloatArray, FloatArray, FloatArray]:
    """Elevation and azimuth of the middle of each patch of half the sky, and its solid angle."""
    bands = np.radians(np.arange(_BAND_DEG / 2.0, 90.0, _BAND_DEG))
    slices = np.radians(np.arange(_SLICE_DEG / 2.0, 180.0, _SLICE_DEG))
    elevation, azimuth = (a.ravel() for a in np.meshgrid(bands, slices, indexing="ij"))
    half = np.radians(_BAND_DEG) / 2.0
    size = np.sin(elevation + half) - np.sin(elevation - half)
    return elevation, azimuth, size * np.radians(_SLICE_DEG)


@lru_cache(maxsize=32)
def _overcast_seen(facing: Plane) -> float:
    elevation, away, size = _patches()
    bright = size * (1.0 + 2.0 * np.sin(elevation))
    return float(bright @ _cosine(facing, elevation, away) / (bright @ np.sin(elevation)))


@lru_cache(maxsize=32)
def _table(facing: Plane, sky: Sky) -> FloatArray:
    """`sky_seen` by elevation and azimuth of the sun, of a plane that faces azimuth 0."""
    elevation, away, size = _patches()
    a, b = _GRADATION[sky]
    c, d, e = _RING[sky]
    bright = size * (1.0 + a * np.exp(b / np.sin(elevation)))
    height = np.radians(_TABLE_ELEVATION_DEG)[:, None, None]
    seen, level = 0.0, 0.0
    # The two halves of the sky, left and right of the plane's azimuth.
    for side in (away, -away):
        apart = np.radians(_TABLE_AZIMUTH_DEG)[:, None] - side
        cos_chi = np.sin(height) * np.sin(elevation) + np.cos(height) * np.cos(
            elevation
        ) * np.cos(apart)
        chi = np.arccos(np.clip(cos_chi, -1.0, 1.0))
        ring = 1.0 + c * (np.exp(d * chi) - np.exp(d * np.pi / 2.0)) + e * cos_chi**2
        seen = seen + ring @ (bright * _cosine(facing, elevation, side))
        level = level + ring @ (bright * np.sin(elevation))
    table = np.asarray(seen / level)
    table.setflags(write=False)
    return table


def _between(table: FloatArray, elevation_deg: FloatArray, away_deg: FloatArray) -> FloatArray:
    """A table at any place of the sun, linear between four of its own."""
    row = elevation_deg / (_TABLE_ELEVATION_DEG[1] - _TABLE_ELEVATION_DEG[0])
    column = away_deg / (_TABLE_AZIMUTH_DEG[1] - _TABLE_AZIMUTH_DEG[0])
    r = np.minimum(row.astype(int), table.shape[0] - 2)
    c = np.minimum(column.astype(int), table.shape[1] - 2)
    y, x = row - r, column - c
    return np.asarray(
        (1.0 - y) * ((1.0 - x) * table[r, c] + x * table[r, c + 1])
        + y * ((1.0 - x) * table[r + 1, c] + x * table[r + 1, c + 1])
    )

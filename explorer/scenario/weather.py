"""A year of measured or typical weather, ready to light a scenario."""

from __future__ import annotations

from dataclasses import dataclass

from explorer.physics.arrays import FloatArray

HOURS = 8760
"""Of a year without 29 February, which weather years leave out."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WeatherYear:
    """Hours of a year at a place; hour i lasts from i to i + 1 hours after 1 January 00:00.

    Two years of weather are equal only when they are the same object, so that one may be the key of
    a cache.
    """

    diffuse_lx: FloatArray
    """Light of the sky alone on level ground, shape (8760,). [lx]"""
    normal_lx: FloatArray
    """Sunlight on a plane that faces the sun, shape (8760,). [lx]"""
    temperature_c: FloatArray
    """Of the air, shape (8760,). [°C]"""
    latitude_deg: float
    longitude_deg: float
    utc_offset_s: float
    """The standard time of the file ahead of UTC. [s]"""
    name: str = ""
    """Of the file."""
    site: str = ""
    """Of the station, as the file names it."""
    notes: tuple[str, ...] = ()
    """What was used, repaired or left out, one sentence each."""

    def __post_init__(self) -> None:
        for values in (self.diffuse_lx, self.normal_lx, self.temperature_c):
            if values.shape != (HOURS,):
                raise ValueError(f"a weather year has {HOURS} hours, found {values.shape}")

"""Light of the three skies and on a plane, against measured years, pvlib and textbooks."""

from functools import cache
from pathlib import Path

import numpy as np
import pvlib
import pytest

from explorer.files.weather import read_weather
from explorer.physics.sky import (
    SKIES,
    Daylight,
    Plane,
    daylight,
    on_plane,
    sky_kind,
    sky_seen,
    sun_seen,
)
from explorer.physics.sun import SunPosition, sun_position
from explorer.scenario.year_light import REAL_OVER_OVERCAST, REAL_OVER_SHARES, REAL_OVER_SKY

DATA = Path(pvlib.__file__).parent / "data"
MONTH = np.repeat(np.arange(12), np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]) * 24)
YEARS = ("703165TY.csv", "723170TYA.CSV", "12839.tm2")
"""Open data of the NREL that pvlib carries: two TMY3 years and one of the TMY2."""
SOUTH = SunPosition(elevation_deg=np.array([40.0]), azimuth_deg=np.array([180.0]))


@cache
def measured(name):
    """Measured light, tenths of cloud, and the light of each sky, hour by hour."""
    if name.endswith("tm2"):
        table, about = pvlib.iotools.read_tmy2(DATA / name)
        light = [table[key].to_numpy() * 100.0 for key in ("DHillum", "DNillum")]
        cloud = table["TotCld"].to_numpy()
        place = about["latitude"], about["longitude"], about["TZ"] * 3600.0
    else:
        weather = read_weather(DATA / name)
        table, _ = pvlib.iotools.read_tmy3(DATA / name, map_variables=False)
        light = [weather.diffuse_lx, weather.normal_lx]
        cloud = table["TotCld (tenths)"].to_numpy()
        place = weather.latitude_deg, weather.longitude_deg, weather.utc_offset_s
    hours = 978_307_200.0 + 3600.0 * np.arange(8760.0) - place[2]
    sun = sun_position(hours[:, None] + 600.0 * (np.arange(6) + 0.5), *place[:2])
    height = np.maximum(np.sin(np.radians(sun.elevation_deg)), 0.0).mean(axis=1)
    skies = {sky: daylight(sky, sun).level(sun).mean(axis=1) for sky in SKIES}
    # Clear up to 2 tenths of cloud, overcast from 9.
    kind = np.where(cloud <= 2, 0, np.where(cloud >= 9, 2, 1))
    return light[0] + light[1] * height, height, kind, skies


@cache
def hour_by_hour(name):
    """The light of a year where its sun is well up, and the sun."""
    weather = read_weather(DATA / name)
    hours = 978_307_200.0 + 3600.0 * (np.arange(8760.0) + 0.5) - weather.utc_offset_s
    sun = sun_position(hours, weather.latitude_deg, weather.longitude_deg)
    up = sun.elevation_deg > 3.0
    light = Daylight(diffuse_lx=weather.diffuse_lx * up, normal_lx=weather.normal_lx * up)
    return up, light, sun


def by_month(values):
    return np.bincount(MONTH, weights=values)


@pytest.mark.parametrize("name", YEARS)
def test_months_of_measured_years_lie_where_the_answer_says_they_may(name):
    real, height, kind, skies = measured(name)
    day = (height > 0.0).astype(float)
    shares = [by_month(day * (kind == n)) / by_month(day) for n in range(3)]
    given = sum(s * by_month(skies[sky]) for s, sky in zip(shares, SKIES, strict=True))
    for model, (low, high) in (
        (given, REAL_OVER_SHARES),
        (by_month(skies["overcast"]), REAL_OVER_OVERCAST),
    ):
        ratio = by_month(real) / model
        assert low <= ratio.min()
        assert ratio.max() <= high


def test_hours_of_one_sky_are_spread_as_the_answer_says():
    every = [measured(name) for name in YEARS]
    for number, sky in enumerate(SKIES):
        ratios = np.concatenate([
            (real / np.maximum(skies[sky], 1.0))[(kind == number) & (height > 0.15)]
            for real, height, kind, skies in every
        ])
        low, mean, high = REAL_OVER_SKY[sky]
        assert (np.quantile(ratios, 0.1), ratios.mean(), np.quantile(ratios, 0.9)) == pytest.approx(
            (low, mean, high), rel=0.02
        )


def test_overcast_sky_of_the_cie_on_tilted_planes():
    # Upright: 0.396 of level ground (textbook value, from memory). At any tilt: P. Moon and D. E.
    # Spencer, Illuminating Engineering 37 (1942) 707, from memory.
    for tilt in (0.0, 30.0, 60.0, 90.0, 120.0):
        b = np.radians(tilt)
        exact = 0.182 * (1.178 * (1.0 + np.cos(b)) + (np.pi - b) * np.cos(b) + np.sin(b))
        found = float(sky_seen(Plane(tilt_deg=tilt), "overcast", SOUTH)[0])
        assert found == pytest.approx(exact, rel=3e-3)
    upright = float(sky_seen(Plane(tilt_deg=90.0), "overcast", SOUTH)[0])
    assert upright == pytest.approx(0.396, abs=0.001)


@pytest.mark.parametrize("name", YEARS[:2])
@pytest.mark.parametrize(
    ("tilt", "azimuth", "low", "high"),
    [(90, 0, 0.88, 0.96), (90, 90, 0.82, 0.87), (90, 180, 0.82, 0.87), (90, 270, 0.82, 0.87),
     (45, 180, 0.90, 0.93), (30, 0, 1.00, 1.02), (0, 0, 0.999, 1.001)],
)  # fmt: skip
def test_planes_get_what_the_model_of_perez_gives_or_a_little_less(name, tilt, azimuth, low, high):
    # pvlib 0.16, R. Perez et al., Solar Energy 44 (1990) 271, of the same hours' skies, and the
    # isotropic sky of B. Liu and R. Jordan, Solar Energy 4 (1960) 1.
    up, light, sun = hour_by_hour(name)
    plane, zenith = Plane(tilt_deg=tilt, azimuth_deg=azimuth), 90.0 - sun.elevation_deg
    under = [light.diffuse_lx * sky_seen(plane, sky, sun) for sky in SKIES]
    seen = np.choose(sky_kind(sun, light), under)
    lm_per_w = 110.0
    perez = lm_per_w * np.nan_to_num(pvlib.irradiance.perez(
        tilt, azimuth, light.diffuse_lx / lm_per_w, light.normal_lx / lm_per_w,
        pvlib.irradiance.get_extra_radiation(1 + np.arange(8760) // 24),
        zenith, sun.azimuth_deg, pvlib.atmosphere.get_relative_airmass(zenith),
    ))  # fmt: skip
    assert low <= seen.sum() / perez.sum() <= high
    isotropic = pvlib.irradiance.isotropic(tilt, light.diffuse_lx).sum()
    assert 0.7 < seen.sum() / isotropic < 1.1
    beam = np.maximum(pvlib.irradiance.aoi_projection(tilt, azimuth, zenith, sun.azimuth_deg), 0.0)
    assert np.abs(sun_seen(plane, sun) - beam)[up].max() < 1e-9


def test_what_stands_before_a_plane_takes_its_share():
    light = daylight("clear", SOUTH)
    wall = {"tilt_deg": 90.0, "azimuth_deg": 180.0}
    free = on_plane(Plane(**wall), "clear", SOUTH, light)
    # Sun at 40 degrees: a skyline of 45 hides it, one of 35 does not; the same of an overhang.
    for hidden, seen in (
        ({"horizon_deg": 45.0}, {"horizon_deg": 35.0}),
        ({"overhang_deg": 35.0}, {"overhang_deg": 45.0}),
    ):
        assert sun_seen(Plane(**wall, **hidden), SOUTH)[0] == 0.0
        assert sun_seen(Plane(**wall, **seen), SOUTH)[0] == pytest.approx(np.cos(np.radians(40.0)))
        assert on_plane(Plane(**wall, **seen), "clear", SOUTH, light) < free
    # Uniform ground: half of it is seen by a wall.
    ground = on_plane(Plane(**wall, ground_reflectance=0.2), "clear", SOUTH, light) - free
    assert ground == pytest.approx(0.1 * light.level(SOUTH))

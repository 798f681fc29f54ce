"""Where the sun stands, against the algorithm of the NREL and against textbooks."""

from datetime import UTC, datetime

import numpy as np
import pandas as pd
import pvlib
import pytest

from explorer.physics.sun import air_mass, refraction, sun_position

YEARS = (datetime(1990, 1, 1, tzinfo=UTC).timestamp(), datetime(2050, 1, 1, tzinfo=UTC).timestamp())


@pytest.mark.parametrize("latitude", range(-90, 91, 15))
def test_sun_stands_within_a_hundredth_of_a_degree_of_the_algorithm_of_the_nrel(latitude):
    # pvlib 0.16 spa_python: I. Reda and A. Andreas, NREL/TP-560-34302 (2008), good to 0.0003°.
    rng = np.random.default_rng(latitude + 90)
    utc_s, longitude = rng.uniform(*YEARS, 1500), rng.uniform(-180.0, 180.0)
    moments = pd.to_datetime((utc_s * 1e9).astype("int64"), utc=True)
    spa = pvlib.solarposition.spa_python(
        moments, latitude, longitude, altitude=0.0, pressure=101_000.0, temperature=10.0,
        delta_t=None,
    )
    sun = sun_position(utc_s, latitude, longitude)
    up = np.radians(sun.elevation_deg)
    aside = (sun.azimuth_deg - spa["azimuth"].to_numpy() + 180.0) % 360.0 - 180.0
    assert np.abs(sun.elevation_deg - spa["elevation"].to_numpy()).max() < 0.012
    assert np.abs(aside * np.cos(up)).max() < 0.012
    seen = spa["elevation"].to_numpy() > 0.0
    lifted = (spa["apparent_elevation"] - spa["elevation"]).to_numpy()
    assert np.abs(refraction(sun.elevation_deg) - lifted)[seen].max() < 0.01


def test_worked_example_of_the_nrel():
    # I. Reda and A. Andreas, NREL/TP-560-34302, appendix A.5, from memory: 2003-10-17 12:30:30 at
    # UTC-7, 39.742476° N, 105.1786° W, 1830.14 m: topocentric elevation without refraction
    # 39.872046°, zenith with it 50.11162°, azimuth 194.340241°.
    moment = datetime(2003, 10, 17, 19, 30, 30, tzinfo=UTC).timestamp()
    sun = sun_position(moment, 39.742476, -105.1786)
    assert float(sun.elevation_deg) == pytest.approx(39.872046, abs=0.01)
    assert float(sun.azimuth_deg) == pytest.approx(194.340241, abs=0.01)
    # At 820 hPa there is less air than the 1010 hPa of the formula.
    lifted = float(refraction(sun.elevation_deg)) * 820.0 / 1010.0 * 283.0 / 284.0
    assert 90.0 - float(sun.elevation_deg) - lifted == pytest.approx(50.11162, abs=0.01)


@pytest.mark.parametrize(
    ("latitude", "date", "hours"),
    [
        # Sunrise equation, cos H = -tan(latitude)·tan(declination), 2H/15; declination 0 at the
        # equinox, 23.44° at the solstice (any textbook of astronomy), for the sun's middle.
        (0.0, (2026, 3, 20), 12.00),
        (40.0, (2026, 3, 20), 12.00),
        (60.0, (2026, 3, 20), 12.00),
        (40.0, (2026, 6, 21), 14.84),
        (50.0, (2026, 6, 21), 16.15),
        (50.0, (2026, 12, 21), 7.85),
        (-35.0, (2026, 12, 21), 14.36),
        (67.0, (2026, 6, 21), 24.0),
        (67.0, (2026, 12, 21), 0.0),
    ],
)
def test_days_are_as_long_as_the_sunrise_equation_says(latitude, date, hours):
    moments = datetime(*date, tzinfo=UTC).timestamp() + 60.0 * np.arange(1440.0)
    up = sun_position(moments, latitude, 0.0).elevation_deg > 0.0
    assert up.sum() / 60.0 == pytest.approx(hours, abs=0.06)


def test_air_mass_of_the_published_table():
    # F. Kasten and A. T. Young, Applied Optics 28 (1989) 4735, table of the revised values.
    assert air_mass([90.0, 30.0, 10.0, 5.0, 0.0]) == pytest.approx(
        [1.0, 1.9939, 5.586, 10.316, 37.92], rel=2e-3
    )

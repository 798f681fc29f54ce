"""Weather files against the readers of pvlib, and the efficacy of light in a measured year."""

from pathlib import Path

import numpy as np
import pvlib
import pytest

from explorer.files.weather import read_weather
from explorer.files.weather_rows import read_tmy3
from explorer.files.weather_year import DIFFUSE_LM_PER_W, NORMAL_LM_PER_W

DATA = Path(pvlib.__file__).parent / "data"


@pytest.mark.parametrize("name", ["703165TY.csv", "723170TYA.CSV"])
def test_a_tmy3_year_is_read_as_pvlib_reads_it(name):
    table, about = pvlib.iotools.read_tmy3(DATA / name, map_variables=True)
    rows = read_tmy3((DATA / name).read_text().splitlines(), name)
    for key, column in (
        ("global_w", "ghi"), ("normal_w", "dni"), ("diffuse_w", "dhi"),
        ("temperature_c", "temp_air"), ("global_lx", "GH illum (lx)"),
    ):
        assert np.array_equal(rows.values[key], table[column].to_numpy())
    assert (rows.latitude_deg, rows.longitude_deg) == (about["latitude"], about["longitude"])
    assert rows.utc_offset_s == about["TZ"] * 3600.0


def test_hundreds_of_lux_under_the_heading_of_lux_are_found_out():
    # One file has all of its light in hundreds, the other that of 2 to 31 January alone.
    for name, hundreds in (("703165TY.csv", (20, 30)), ("723170TYA.CSV", (330, 365))):
        weather = read_weather(DATA / name)
        rows = read_tmy3((DATA / name).read_text().splitlines(), name)
        days = (rows.values["diffuse_w"] > 20.0).reshape(-1, 24).any(axis=1)
        efficacy = weather.diffuse_lx.reshape(-1, 24).sum(axis=1) / np.maximum(
            rows.values["diffuse_w"].reshape(-1, 24).sum(axis=1), 1.0
        )
        assert efficacy[days].min() > 80.0
        assert efficacy[days].max() < 170.0
        (told,) = [n for n in weather.notes if "hundreds of lux" in n]
        n = int(told.split(" days in hundreds")[0].split()[-1])
        assert hundreds[0] <= n <= hundreds[1]


def test_efficacy_of_sky_and_sun_lies_a_little_above_what_is_taken():
    rows = read_tmy3((DATA / "703165TY.csv").read_text().splitlines(), "703165TY.csv")
    later = slice(31 * 24, None)
    sky, sun = (
        rows.values[lux][later].sum() / rows.values[watts][later].sum()
        for lux, watts in (("diffuse_lx", "diffuse_w"), ("normal_lx", "normal_w"))
    )
    assert (sky, sun) == pytest.approx((119.0, 91.0), abs=1.0)
    assert sky > DIFFUSE_LM_PER_W
    assert sun > NORMAL_LM_PER_W

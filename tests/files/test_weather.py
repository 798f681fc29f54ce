"""Weather files: read whole, or refused with the line and what to do."""

import pytest

from explorer.files.weather import read_weather, resolve_weather
from explorer.files.weather_rows import WeatherError
from explorer.scenario.daylight import DaylightPattern
from explorer.scenario.light import Light
from explorer.scenario.model import Scenario
from tests.weather_files import HEAD, epw, rows


@pytest.fixture
def written(tmp_path):
    def write(made, head=HEAD, encoding="utf-8"):
        path = tmp_path / "fernhollow.epw"
        path.write_bytes(epw(made, head).encode(encoding))
        return path

    return write


def test_an_epw_year_is_read(written):
    weather = read_weather(written(rows()))
    assert (weather.latitude_deg, weather.longitude_deg) == (51.5, 7.5)
    assert weather.utc_offset_s == 3600.0
    assert weather.temperature_c[0] == 1.0
    assert weather.temperature_c[-1] == 12.0
    # The row of 9:00 is the hour that ends then.
    assert weather.diffuse_lx[:24].tolist() == [0.0] * 8 + [26_000.0] * 7 + [0.0] * 9
    assert weather.normal_lx[10] == 18_000.0
    assert "Fernhollow" in weather.notes[0]


def test_names_in_an_old_code_page_do_no_harm(written):
    head = [HEAD[0].replace("Fernhollow", "Fernhöhle"), *HEAD[1:]]
    assert read_weather(written(rows(), head, "latin-1")).site == "Fernhöhle"


def test_29_february_is_left_out_and_told(written):
    weather = read_weather(written(rows(leap=True)))
    assert weather.diffuse_lx.size == 8760
    assert "24 hours of 29 February were left out." in weather.notes


def test_missing_values_are_filled_from_the_nearest_day_and_told(written):
    made = rows()
    for cells in made[24 * 40 : 24 * 42]:
        cells[6] = "99.9"
    made[24 * 100 + 11][13] = "9999"
    weather = read_weather(written(made))
    assert weather.temperature_c[24 * 40 : 24 * 42].tolist() == [2.0] * 48
    told = " ".join(weather.notes)
    assert "48 missing hours of air temperature" in told
    assert "1 missing hours of global horizontal irradiance" in told


def test_too_many_missing_values_are_refused(written):
    made = rows()
    for cells in made[:2000]:
        cells[14] = "9999"
    with pytest.raises(WeatherError, match="2000 of 8760 hours have no direct normal"):
        read_weather(written(made))


@pytest.mark.parametrize(
    ("factor", "words"),
    [(1.0, "Light of 365 days as"), (0.01, "of 365 days in hundreds"), (0.0, "are empty"),
     (0.3, "contradict")],
)  # fmt: skip
def test_columns_of_lux_are_held_to_those_of_watts(written, factor, words):
    made = rows()
    for cells in made:
        cells[16:19] = [f"{float(c) * factor:g}" for c in cells[16:19]]
    weather = read_weather(written(made))
    assert any(words in note for note in weather.notes)
    # 130 lm/W for the sky where they are taken, 115 lm/W where they are not.
    assert weather.diffuse_lx[11] == (26_000.0 if factor in (1.0, 0.01) else 23_000.0)


@pytest.mark.parametrize(
    ("damage", "words"),
    [
        (lambda made: made[:5000], "ends at line 5008, before 07-28 09:00: it holds 5000 hours"),
        (lambda made: made[:100] + made[101:], "line 109: expected 01-05 05:00, found 01-05 06:00"),
        (lambda made: [*made[:50], made[49], *made[50:]], "line 59: expected 01-03 03:00, found"),
        (lambda made: [*made[:50], made[50][:12], *made[51:]], "line 59 has 12 columns.*cut off"),
        (lambda made: put(made, 60, 13, "bright"), "line 69, column 14: global.*'bright'; 0 to"),
        (lambda made: put(made, 60, 6, "nan"), "line 69, column 7: air temperature is 'nan'"),
        (lambda made: put(made, 60, 13, "-20"), "global horizontal irradiance is '-20'"),
        (lambda made: put(made, 60, 2, "31x"), "line 69: '1 31x 13' is no month, day and hour"),
        (lambda made: put(made, 60, 3, "0"), "no month, day and hour from 1 to 24"),
        (lambda made: [], "ends at line 0"),
    ],
)
def test_damaged_files_are_refused_with_the_line(written, damage, words):
    with pytest.raises(WeatherError, match=words):
        read_weather(written(damage(rows())))


def put(made, row, column, text):
    made[row][column] = text
    return made


def test_what_is_no_weather_file_is_refused(tmp_path, written):
    other = tmp_path / "other.csv"
    other.write_text("time,lux\n2015-02-02 00:00,5\n")
    for path, words in (
        (other, "EPW begins with LOCATION"),
        (tmp_path / "none.epw", "There is no file"),
        (tmp_path, "folder"),
        (written(rows(), ["LOCATION,Fernhollow,x,x,x,x,north,east,1.0,5", *HEAD[1:]]), "line 1"),
        (written(rows(), ["LOCATION,Fernhollow,x,x,x,x,95.0,0.0,1.0,5", *HEAD[1:]]), "line 1"),
    ):
        with pytest.raises(WeatherError, match=words):
            read_weather(path)


def test_a_weather_file_lies_beside_its_scenario(written):
    path = written(rows())
    named = Scenario(
        light=Light(illuminance_lx=None, pattern=DaylightPattern(weather_file=path.name))
    )
    beside = path.parent / "design.json"
    found = resolve_weather(named, beside)
    assert found is not None
    assert resolve_weather(named, beside) is found
    assert resolve_weather(Scenario(), beside) is None
    with pytest.raises(WeatherError, match="no such file beside"):
        resolve_weather(named, None)
    again = rows()
    again[0][6] = "-30.0"
    written(again)
    assert resolve_weather(named, beside).temperature_c[0] == -30.0

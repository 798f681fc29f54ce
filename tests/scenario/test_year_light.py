"""The light of a year: by the calendar, the sun, the place, the lamps and one reading."""

from datetime import datetime

import numpy as np
import pytest
from pydantic import ValidationError

from explorer.scenario.build import build
from explorer.scenario.calendar import (
    clock_fault,
    date_fault,
    utc_of,
    year_clock,
    zone_fault,
)
from explorer.scenario.course import current_per_lux_of, light_course
from explorer.scenario.daylight import (
    DaylightPattern,
    Holidays,
    Indoors,
    LampHours,
    Outdoors,
    SkyMonth,
    SkyReading,
)
from explorer.scenario.idle import idle_keys
from explorer.scenario.light import Light
from explorer.scenario.model import Scenario
from explorer.scenario.supply import Panels
from explorer.scenario.weather import WeatherYear
from explorer.scenario.year_light import REAL_OVER_SKY, year_light, year_scale

FLAT = Outdoors(tilt_deg=0.0)


def year(weather=None, **changes):
    return year_light(Light(pattern=DaylightPattern(**changes), illuminance_lx=None), weather)


def months(**changes):
    return (SkyMonth(**changes),) * 12


def step_at(light, date, clock, zone="Europe/Berlin"):
    utc_s = utc_of(light.start.year, date, clock, zone)
    return int((utc_s - light.clock.utc_s[0]) // light.step_s)


def test_a_year_begins_at_new_year_by_the_clock_on_the_wall_and_has_all_its_quarter_hours():
    for y, days in ((2026, 365), (2028, 366)):
        light = year(year=y)
        assert light.start == datetime(y, 1, 1)
        assert light.daylight_lx.size == days * 96
        assert light.clock.weekday[0] == light.start.weekday()
        assert light.clock.month[-1] == 11


def test_summer_time_moves_lamps_and_leaves_the_sun():
    zones = {}
    for zone in ("Europe/Berlin", "Etc/GMT-1"):
        light = year(time_zone=zone, lamps=(LampHours(from_h=6.0, to_h=7.0),))
        zones[zone] = light
    summer, standard = zones.values()
    assert np.array_equal(summer.daylight_lx, standard.daylight_lx)
    july = np.flatnonzero(summer.clock.month == 6)
    lit = [np.flatnonzero(z.electric_lx[july])[0] for z in (summer, standard)]
    assert lit[1] - lit[0] == 4  # quarter hours
    assert summer.electric_lx.sum() == standard.electric_lx.sum()


def test_clocks_of_half_hours_and_of_the_south_make_whole_years():
    for zone, shift_s in (("Asia/Kathmandu", 0.0), ("Australia/Lord_Howe", -1800.0)):
        clock = year_clock(2026, zone)
        assert clock.utc_s.size == 365 * 96
        assert clock.shift_s.min() == shift_s


def test_lamps_follow_the_weekdays_of_the_calendar_and_stay_off_on_holidays():
    hours = LampHours(days=("mon", "sat"), from_h=8.0, to_h=8.5, illuminance_lx=100.0)
    light = year(
        year=2026, lamps=(hours,), holidays=(Holidays(from_date="12-24", to_date="01-06"),)
    )
    # 2026 has 52 Mondays and 52 Saturdays; 3 and 5 January, 26 and 28 December are holidays.
    assert light.electric_lx.sum() == pytest.approx((104 - 4) * 2 * 100.0)
    assert light.electric_lx[step_at(light, "01-10", "08:15")] == 100.0
    assert light.electric_lx[step_at(light, "01-03", "08:15")] == 0.0
    assert light.daylight_lx[step_at(light, "01-03", "12:00")] > 0.0
    half = year(lamps=(LampHours(from_h=8.0, to_h=8.05, illuminance_lx=100.0),))
    # Three minutes of a quarter hour.
    assert half.electric_lx.max() == pytest.approx(20.0)


def test_closed_blinds_make_holidays_dark():
    closed = Holidays(from_date="07-01", to_date="08-10", blinds="blinds_closed")
    light = year(holidays=(closed,))
    assert light.daylight_lx[step_at(light, "07-20", "12:00")] == 0.0
    assert light.daylight_lx[step_at(light, "08-11", "12:00")] > 0.0


def test_overcast_days_of_a_month_come_first_in_one_row():
    light = year(place=FLAT, months=months(clear_share=0.2, partly_share=0.3))
    noon = [step_at(light, f"06-{day:02}", "13:20") for day in range(1, 31)]
    # At 63 degrees: overcast 19 000 lx, sun and clouds 87 000 lx, clear 105 000 lx.
    kinds = np.digitize(light.daylight_lx[noon], (30_000.0, 98_000.0))
    assert kinds.tolist() == [0] * 15 + [1] * 9 + [2] * 6


def test_a_place_in_a_room_gets_its_share_of_the_sky_and_of_the_sun_only_if_asked():
    sky = months(clear_share=1.0)
    outside = year(place=FLAT, months=sky)
    both = year(place=Indoors(daylight_factor=0.02, sun="sky_and_sun"), months=sky)
    alone = year(place=Indoors(daylight_factor=0.02), months=sky)
    assert both.daylight_lx == pytest.approx(0.02 * outside.daylight_lx, rel=1e-9)
    assert alone.daylight_lx.sum() < 0.5 * both.daylight_lx.sum()
    assert both.daylight_source == "daylight_glass"
    assert outside.daylight_source == "daylight_open"


def test_a_wall_to_the_north_of_the_south_gets_the_sun():
    sky = months(clear_share=1.0)
    here = year(months=sky, latitude_deg=50.0).daylight_lx.sum()
    there = year(months=sky, latitude_deg=-50.0, longitude_deg=10.0).daylight_lx.sum()
    assert there > 2.0 * here


@pytest.mark.parametrize(
    ("place", "blinds", "told"),
    [
        (Outdoors(), "blinds_closed", True), (Outdoors(), "blinds_open", False),
        (Outdoors(glass="coated_glass"), "blinds_closed", False),
        (Indoors(), "blinds_closed", False),
    ],
)  # fmt: skip
def test_closed_blinds_before_a_panel_in_the_open_are_pointed_out(place, blinds, told):
    light = year(place=place, holidays=(Holidays(blinds=blinds),))
    assert ("closed blinds" in " ".join(light.notes)) is told
    at_noon = light.daylight_lx[step_at(light, "12-28", "12:00")]
    assert bool(at_noon == 0.0) is (blinds == "blinds_closed")


@pytest.mark.parametrize("sky", ["overcast", "partly_cloudy", "clear"])
def test_one_reading_sets_the_year(sky):
    shares = {"clear": {"clear_share": 1.0}, "partly_cloudy": {"partly_share": 1.0}}.get(sky, {})
    reading = SkyReading(illuminance_lx=1300.0, date="05-12", time="14:10", sky=sky)
    light = year(place=Indoors(), months=months(**shares), reading=reading)
    # The reading lies two thirds into a step, whose mean the light is.
    assert light.daylight_lx[step_at(light, "05-12", "14:10")] == pytest.approx(1300.0, rel=0.01)
    assert "1300 lx on 12 May at 14:10" in " ".join(light.notes)
    free = year(place=Indoors(), months=months(**shares))
    assert light.factor == pytest.approx(
        light.daylight_lx.sum() / free.daylight_lx.sum() / REAL_OVER_SKY[sky][1]
    )
    low, high = light.real_over_computed
    assert low < 1.0 < high


def test_a_reading_by_night_is_refused_and_says_what_to_check():
    with pytest.raises(ValidationError, match=r"sun is down.*time_zone"):
        DaylightPattern(reading=SkyReading(illuminance_lx=5.0, time="23:30"))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"time_zone": "Mars/Olympus"}, "no time zone.*IANA"),
        ({"time_zone": "../etc"}, "no time zone"),
        ({"months": (SkyMonth(),) * 11}, "12 entries.*found 11"),
        ({"hung_up": "13-01"}, "no date"),
        ({"holidays": ({"from_date": "24.12."},)}, "no date.*12-24"),
        ({"reading": {"time": "25:00"}}, "no time of day"),
        ({"months": ({"clear_share": 0.7, "partly_share": 0.7},) * 12}, "must not exceed 1"),
        ({"lamps": ({"from_h": 9.0, "to_h": 8.0},)}, "later than from_h"),
    ],
)
def test_what_is_no_calendar_is_refused_in_a_sentence(changes, words):
    with pytest.raises(ValidationError, match=words):
        DaylightPattern(**changes)


def test_currents_are_mixed_by_source_and_temperature_hour_by_hour():
    sky = tuple(SkyMonth(mean_C=c) for c in (-10.0, *[20.0] * 11))
    pattern = DaylightPattern(months=sky, lamps=(LampHours(),))
    light = Light(pattern=pattern, illuminance_lx=None, cover_factor=0.8)
    panels = Panels(technology="crystalline")
    found, whole = year_light(light), light_course(light, panels, None)
    for date in ("01-12", "07-13"):
        step = step_at(found, date, "12:00")
        ambient_c = float(found.temperature_c[step])
        expected = sum(
            lux[step] * current_per_lux_of(source, light, panels, ambient_c)
            for lux, source in (
                (found.daylight_lx, "daylight_open"), (found.electric_lx, "led_4000"),
            )
        )
        assert whole.photocurrent_a[step] == pytest.approx(float(expected), rel=1e-12)
    assert {found.temperature_c[0], found.temperature_c[-1]} == {-10.0, 20.0}
    assert whole.begins_at_s == 3 * 86_400.0  # 2026 began on a Thursday


def test_the_light_level_scales_the_whole_year_to_its_mean_while_lit():
    pattern = DaylightPattern(lamps=(LampHours(),))
    found = year_light(Light(pattern=pattern, illuminance_lx=None))
    scaled = light_course(Light(pattern=pattern, illuminance_lx=250.0), Panels(), None)
    lux = scaled.illuminance_lx
    scale = year_scale(250.0, found)
    assert lux == pytest.approx(scale * (found.daylight_lx + found.electric_lx))
    lit = lux >= scale  # what is 1 lx before
    assert lux[lit].mean() == pytest.approx(250.0)


def hourly(diffuse, normal=0.0, temperature=10.0):
    full = (np.full(8760, float(v)) for v in (diffuse, normal, temperature))
    names = ("diffuse_lx", "normal_lx", "temperature_c")
    return WeatherYear(
        **dict(zip(names, full, strict=True)),
        latitude_deg=50.0, longitude_deg=15.0, utc_offset_s=3600.0,
    )


def test_hours_of_a_weather_file_keep_their_sums():
    weather = hourly(0.0)
    weather.diffuse_lx[11::24] = 12_000.0  # the hour before noon of every day
    weather.temperature_c[:744] = -7.0
    light = year(weather, place=FLAT, weather_file="any.epw", time_zone="Etc/GMT-1")
    by_hour = light.daylight_lx.reshape(-1, 4).mean(axis=1)
    assert by_hour[11::24] == pytest.approx(12_000.0)
    assert by_hour.sum() == pytest.approx(365 * 12_000.0)
    assert light.temperature_c[744 * 4 - 1] == -7.0
    assert light.temperature_c[744 * 4] == 10.0
    summer = year(weather, place=FLAT, weather_file="any.epw")
    assert summer.daylight_lx == pytest.approx(light.daylight_lx)  # the sun keeps no summer time


def test_a_leap_year_repeats_the_28th_of_february_of_a_weather_file():
    weather = hourly(5000.0)
    weather.temperature_c[58 * 24 : 59 * 24] = -20.0
    light = year(weather, place=FLAT, weather_file="any.epw", year=2028, time_zone="Etc/GMT-1")
    assert (light.temperature_c == -20.0).sum() == 2 * 96


def test_a_scenario_that_names_a_weather_file_is_not_run_without_it():
    pattern = DaylightPattern(weather_file="missing.epw")
    with pytest.raises(ValueError, match="names a weather file"):
        build(Scenario(light=Light(pattern=pattern, illuminance_lx=None)))


def test_the_margin_asked_for_covers_how_dark_a_month_may_be():
    def asked(**changes):
        pattern = DaylightPattern(**changes)
        return Scenario(light=Light(pattern=pattern, illuminance_lx=None)).design_margin

    assert asked() == 1.3  # overcast throughout is darker than any month
    # An overcast sky at the reading may have been 1.67 times as bright as such skies are.
    assert asked(reading=SkyReading(illuminance_lx=1000.0)) == 1.67
    assert asked(reading=SkyReading(illuminance_lx=1000.0, sky="clear")) == 1.3
    assert asked(weather_file="any.epw") == 1.3


def test_fields_that_forms_leave_out_change_nothing():
    weather, named = hourly(5000.0, 2000.0), {"weather_file": "any.epw"}
    for idle, others, given in (
        (SkyReading(), {"reading": SkyReading(date="01-05", time="03:00", sky="clear")}, None),
        (
            DaylightPattern(**named),
            {"latitude_deg": -20.0, "longitude_deg": 100.0, "months": months(mean_C=-20.0)},
            weather,
        ),
    ):
        base = named if given is not None else {}
        keys = set(idle_keys(idle))
        if given is None:
            assert keys == {"date", "time", "sky"}
        else:
            assert keys == set(others)
        one, other = year(given, **base), year(given, **base, **others)
        assert np.array_equal(one.daylight_lx, other.daylight_lx)
        assert np.array_equal(one.temperature_c, other.temperature_c)


@pytest.mark.parametrize("fault", [date_fault, clock_fault, lambda _, text: zone_fault(text)])
def test_a_text_without_end_in_the_place_of_a_date_is_told_in_a_line(fault):
    assert len(fault("date", "a" * 5000)) < 200
    assert "'12-4'" in date_fault("date", "12-4")

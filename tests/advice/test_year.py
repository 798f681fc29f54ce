"""A verdict on a year: months by the same rules as weeks, and what only a year can say."""

from datetime import datetime

import numpy as np
import pytest

from explorer.advice.answers import answers
from explorer.advice.assess import run_for
from explorer.advice.case import Case
from explorer.advice.checks import asked_of, judged
from explorer.advice.judge import judge
from explorer.advice.readings.found import readings
from explorer.advice.safety import hazards
from explorer.advice.year.answers import (
    longest_dark,
    month_answers,
    working_days,
    year_calendar,
    year_trace,
)
from explorer.advice.year.readings import (
    month_checks,
    tightest,
    worst_months,
    year_ratings,
    year_readings,
)
from explorer.advice.year.study import year_study
from explorer.scenario.model import with_values
from explorer.scenario.weather import WeatherYear
from explorer.scenario.year_course import moment_of, months_of
from explorer.words.moments import time_ticks
from tests.advice.demos import demo
from tests.advice.years import EVENINGS, WARM, daylight, in_a_year, plant_label

SWING = -np.cos(2.0 * np.pi * (np.arange(24) - 2.0) / 24.0)
DARK = {"kind": "indoors", "daylight_factor": 0.0, "sun": "sky_alone"}


@pytest.mark.parametrize("name", ["soil_probe", "plant_label"])
def test_a_year_of_equal_days_is_judged_as_its_week(name):
    scenario, _ = demo(name)
    lux = scenario.light.illuminance_lx
    block = {**EVENINGS, "relative_level": 1.0, "daylight_share": 0.0}
    same = {"light.daylight_share": 0.0, "light.ambient_C": 20.0}
    week = Case(with_values(
        scenario, {"light.pattern": {"kind": "week", "blocks": [block]}, **same}
    ))
    lamps = daylight((20.0,) * 12, place=DARK, lamps=[{**EVENINGS, "illuminance_lx": lux}])
    year = in_a_year(scenario, lamps, **same)
    for one, other in zip(judge(week).checks, judge(year).checks, strict=True):
        # The light of a year begins at noon, that of a week on Monday: Starts counts from its own.
        tolerance = {"starts": 0.2, "pulse": 0.05}.get(one.name, 0.02)
        assert other.margin == pytest.approx(one.margin, rel=tolerance), one.name
        assert other.state == one.state


def test_december_is_the_worst_month_and_named_so():
    verdict = {check.name: check for check in judge(plant_label()).checks}
    assert worst_months(plant_label())["balance"] == 11
    assert "December" in verdict["balance"].sentence
    assert "1 October" in verdict["starts"].sentence
    margins = month_checks(plant_label())["balance"].margin
    assert margins[11] < margins[9] < margins[6]


def test_the_verdict_on_the_year_is_no_better_than_its_worst_month():
    year, months = judge(plant_label()), month_checks(plant_label())
    for check in year.checks:
        if check.name in ("dark", "pulse", "ratings"):
            assert check.margin == pytest.approx(months[check.name].margin.min())
    service = year_readings(plant_label())
    assert service.served.sum() < service.wanted.sum()
    assert year.state == "falls_short"


def test_a_full_store_counts_towards_the_tightest_months_but_not_towards_the_year():
    scenario = plant_label().scenario
    large = {"kind": "cell", "chemistry": "titanate", "capacity_mAh": 3.0}
    small_window = tightest(plant_label())
    case = in_a_year(scenario, daylight(), store=large, **{
        "charger.full_V": 2.7, "load.connect_V": 2.2, "load.disconnect_V": 2.0,
        "load.minimum_V": 1.9,
    })
    window = tightest(case)
    assert window.gives_w > small_window.gives_w > 0.0
    alone = month_checks(case)["balance"].margin.min()
    assert window.ratio > alone


def test_frost_and_noons_within_a_month_are_held_against_a_cell():
    cell = {"kind": "cell", "chemistry": "lithium_ion", "capacity_mAh": 20.0}
    scenario = plant_label().scenario

    def rated(swing_c):
        months = [{"mean_C": t, "swing_C": swing_c} for t in WARM]
        case = in_a_year(scenario, daylight(months=months), store=cell, **{"charger.full_V": 4.1})
        return case, {row.key: row for row in year_ratings(case)}

    _, calm = rated(0.0)
    case, wild = rated(4.0)
    assert calm["too_cold"].seen == 2.0
    assert calm["too_cold"].margin > 1.0
    assert (wild["too_cold"].seen, wild["too_hot"].seen) == (-2.0, 23.0)
    assert wild["too_cold"].margin == 0.0
    said = {danger.key: danger.sentence for danger in hazards(
        months_of(case.scenario, case.year)[0].scenario, year_ratings(case)
    )}
    assert "At −2 °C" in said["cold_charging"]
    assert "mean of the month, 2 °C" in said["cold_charging"]


def test_the_coldest_hour_of_light_comes_from_the_weather_file():
    case = in_a_year(plant_label().scenario, daylight(weather_file="any.epw"))
    weather = WeatherYear(
        latitude_deg=51.6, longitude_deg=0.0, utc_offset_s=0.0, diffuse_lx=np.full(8760, 5000.0),
        normal_lx=np.zeros(8760), temperature_c=10.0 + 8.0 * np.tile(SWING, 365), notes=(),
    )
    months = months_of(case.scenario, Case(case.scenario, None, weather).year)
    assert months[11].coldest_c > 5.0  # nights of -8 K bring no light
    assert months[11].warmest_c == pytest.approx(18.0, abs=0.1)
    assert months[5].coldest_c < months[11].coldest_c  # days of June begin early


def test_another_day_of_hanging_up_changes_starts_alone():
    scenario = plant_label().scenario
    summer = in_a_year(scenario, daylight(hung_up="06-01"))
    by_date = {c.name: c for c in judge(summer).checks}
    for check in judge(plant_label()).checks:
        if check.name == "starts":
            assert by_date["starts"].margin > 1.5 * check.margin
        else:
            assert by_date[check.name].margin == pytest.approx(check.margin, rel=0.02)


def test_days_on_which_it_works_are_those_on_which_it_is_never_off():
    works = year_calendar(plant_label()).works
    first, last = working_days(plant_label())
    assert works[first - 1 : last].all()
    assert not works[first - 2]
    assert not works[last % len(works)]
    assert answers(plant_label())["days_off"] == (~works).sum() > 5


def test_the_longest_dark_stretch_is_a_holiday_behind_closed_blinds():
    closed = [{"from_date": "12-24", "to_date": "01-02", "blinds": "blinds_closed"}]
    case = in_a_year(plant_label().scenario, daylight(holidays=closed))
    dark = longest_dark(case)
    assert dark is not None
    assert dark[0].date() == datetime(2027, 12, 23).date()
    assert (dark[1] - dark[0]).days in (10, 11)
    assert judge(case).governing.name == "dark"


def test_the_trace_of_a_year_agrees_with_its_months():
    found, trace = year_study(plant_label()), year_trace(plant_label())
    for run in (found.months[0], found.months[4]):
        inside = np.array([86_400.0, 9.37 * 86_400.0, run.run.span_s - 1.0])
        own = run.trace.at(inside).store_v
        assert trace.at(inside + run.part.begin_s).store_v == pytest.approx(own)
    edge = found.months[3].part.begin_s
    both = trace.rows(np.array([edge - 3600.0]), np.array([edge + 7200.0]))
    parts = trace.rows(np.array([edge - 3600.0, edge]), np.array([edge, edge + 7200.0]))
    assert both.load_a[0] * 3.0 == pytest.approx(parts.load_a[0] + 2.0 * parts.load_a[1])
    assert both.store_min_v[0] == parts.store_min_v.min()
    picture = trace.picture(0.0, trace.span_s, 700)
    assert np.nanmin(picture.low_v) == pytest.approx(trace.extremes().lowest_store_v, abs=1e-6)
    assert np.nanmax(picture.high_v) == pytest.approx(trace.extremes().highest_store_v, abs=1e-6)


def test_what_comes_in_goes_out_or_stays():
    rows, found = month_answers(plant_label()), year_study(plant_label())
    got = sum(row.taken_in_j for row in rows)
    gone = sum(row.used_j + row.leaked_j for row in rows)
    assert gone == pytest.approx(got, rel=0.01)  # what the store's resistance takes is not told
    assert rows[6].thrown_away_j > 10.0 * rows[11].thrown_away_j
    assert found.course.settled


def test_readings_of_a_year_make_its_checks_like_any_other():
    case = plant_label()
    table = judged(readings(case), asked_of(case.scenario, 1))
    for check in judge(case).checks:
        assert check.margin == float(table[check.name].margin[0])


def test_a_trace_of_a_year_has_months_on_its_axis():
    found = year_study(plant_label())
    begins = moment_of(found.year, found.hung_s)
    ticks = time_ticks(0.0, 365 * 86_400.0, 12, True, 0.0, begins)
    assert [t.label for t in ticks][:4] == ["Nov", "Dec", "Jan", "Feb"]
    assert ticks[0].time_s == (30.0 + 0.5) * 86_400.0  # hung up at noon on 1 October
    assert [t.label for t in time_ticks(0.0, 365 * 86_400.0, 4, True, 0.0, begins)][:3] == [
        "", "", "Jan",
    ]


def test_a_table_of_a_year_begins_on_the_day_of_hanging_up():
    run, whole = run_for(plant_label(), 40 * 86_400.0), run_for(plant_label())
    rows = run.steps(3600.0)
    assert len(rows.time_s) == 961  # it passes from October to November
    assert rows.store_v[0] < 0.1
    assert rows.store_v[-1] == pytest.approx(float(whole.at(rows.time_s[-1:]).store_v[0]))
    assert whole.span_s == 365 * 86_400.0

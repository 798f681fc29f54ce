import numpy as np
import pytest

from explorer.advice.case import Case
from explorer.scenario.light import Light, LitBlock, LogPattern, SteadyPattern, WeekPattern
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario
from explorer.state.spans import DAY_S, HOUR_S, SPAN_KEYS, first_light_s, window_of


def test_spans_go_from_a_pulse_to_a_year():
    assert SPAN_KEYS == ("pulse", "hour", "day", "week", "month", "year")
    assert window_of("year", None, 0.0).length_s == 365 * DAY_S


def test_an_hour_begins_with_the_first_event_or_lies_around_the_cursor():
    assert window_of("hour", None, 8 * HOUR_S).from_s == 8 * HOUR_S
    around = window_of("hour", 10 * HOUR_S, 0.0)
    assert (around.from_s, around.to_s) == (9.5 * HOUR_S, 10.5 * HOUR_S)


def test_a_day_is_the_one_under_the_cursor():
    assert window_of("day", 2.6 * DAY_S, 0.0).from_s == 2 * DAY_S


@pytest.mark.parametrize("key", ["week", "month", "year"])
def test_long_spans_begin_with_the_scenario(key):
    assert window_of(key, 5 * DAY_S, 3.0).from_s == 0.0


def test_first_light_of_a_week_leaves_dark_days_out():
    pattern = WeekPattern(blocks=(LitBlock(from_h=9.0, to_h=12.0),), dark_days=("mon",))
    assert first_light_s(Case(Scenario(light=Light(pattern=pattern)))) == DAY_S + 9 * HOUR_S


def test_first_light_of_a_log_is_its_first_lit_reading():
    log = LightLog(
        time_s=np.array([0.0, 60.0, 120.0]),
        illuminance_lx=np.array([0.0, 5.0]),
        start=None,
        step_s=60.0,
    )
    assert first_light_s(Case(Scenario(light=Light(pattern=LogPattern())), log)) == 60.0
    assert first_light_s(Case(Scenario(light=Light(pattern=SteadyPattern())))) == 0.0

"""Reach: answers that are the edge of one check, and what is said where the search ends."""

import pickle

import numpy as np
import pytest
from hypothesis import given, settings

from explorer.advice import asked
from explorer.advice.answers import answers
from explorer.advice.case import Case
from explorer.advice.criteria import SERVICE_AND_BALANCE
from explorer.advice.edges import CLOSURE
from explorer.advice.judge import judge
from explorer.advice.reach import Reach, durations, reach
from explorer.advice.readings import one
from explorer.advice.stops import LIGHT_STOPS, three_digits
from explorer.scenario.demand import Every, Phase, WhenReady
from explorer.scenario.model import Scenario, with_value
from explorer.words.answers import value_of
from tests.advice.demos import LOGGED, NAMES, demo
from tests.advice.test_edges import GENERATED, cases
from tests.depth import THOROUGH, some

LIGHT = "light.illuminance_lx"


def margin(case, name):
    return next(c.margin for c in judge(case).checks if c.name == name)


def beside(series, value, side):
    """The neighbour of a value in a series."""
    i = int(np.argmin(np.abs(series.values - value)))
    return float(series.values[i + side])


def rate_margin(case, per_day):
    """Service and Balance of a design that does its first operation at an interval so often."""
    found = enumerate(case.scenario.load.operations)
    i, op = next((i, op) for i, op in found if isinstance(op.schedule, Every))
    share = len(op.schedule.days) / 7 * (op.schedule.to_h - op.schedule.from_h) / 24
    path = f"load.operations.{i}.schedule.interval_s"
    changed = case.with_value(path, 86_400.0 * share / per_day)
    return min(margin(changed, "balance"), margin(changed, "service"))


def assert_edges_of_single_checks(case, found):
    light = found["least_light_for_balance_lx"]
    if not light.bound:
        less = beside(three_digits(), light, -1)
        assert margin(case.with_value(LIGHT, float(light)), "balance") >= 1.0
        assert margin(case.with_value(LIGHT, less), "balance") < 1.0
    elif light.bound == "none":
        assert margin(case.with_value(LIGHT, float(light)), "balance") < 1.0
    rate = found.get("most_operations_per_day")
    if rate is not None and not rate.bound:
        assert rate_margin(case, rate) >= 1.0
        assert rate_margin(case, beside(three_digits(), rate, +1)) < 1.0
    days = found["longest_closure_days"]
    if not days.bound:
        assert margin(case.with_value(CLOSURE, float(days)), "dark") >= 1.0
        assert margin(case.with_value(CLOSURE, beside(durations(), days, +1)), "dark") < 1.0
    else:  # beyond the longest that is tried, or below the shortest
        held = margin(case.with_value(CLOSURE, float(days)), "dark") >= 1.0
        assert held == (days.bound == "more than")


@pytest.mark.parametrize("name", some([n for n in NAMES if n != LOGGED], 2))
def test_each_answer_is_the_edge_of_its_check_alone(name):
    case = Case(*demo(name))
    assert_edges_of_single_checks(case, reach(case))


@settings(max_examples=12 if THOROUGH else 6, phases=GENERATED)
@given(cases())
def test_each_answer_of_a_generated_design_is_the_edge_of_its_check(case):
    assert_edges_of_single_checks(case, reach(case))


def courses_of(monkeypatch, case):
    """How many courses are marched for the answers of a case that was judged."""
    judge(case)
    marched = []
    studied = one._studied
    monkeypatch.setattr(one, "_studied", lambda *given: marched.append(1) or studied(*given))
    reach(case)
    return len(marched)


def test_light_and_closure_are_found_without_another_course(monkeypatch):
    """Balance needs no march, and a closure changes nothing of the course."""
    assert courses_of(monkeypatch, Case(*demo("vent_flap"))) == 0


def test_a_rate_that_balance_bounds_takes_one_more_course(monkeypatch):
    assert courses_of(monkeypatch, Case(*demo("watering_valve"))) == 1


@pytest.mark.parametrize("name", some(["soil_probe", "plant_label"], 2))
def test_a_rate_is_judged_by_its_course_as_by_a_whole_verdict(name):
    case = Case(demo(name)[0])
    for interval_s in (64.0, 100.0, 123.0, 227.0, 1000.0):
        other = case.with_value("load.operations.0.schedule.interval_s", interval_s)
        verdict = judge(Case(other.scenario))
        holds, level = SERVICE_AND_BALANCE.at_once(other)
        assert holds == SERVICE_AND_BALANCE.holds(verdict)
        if margin(other, "balance") >= 1.0:  # else that is enough to know
            assert level == SERVICE_AND_BALANCE.level(verdict)


def test_a_search_for_a_rate_makes_no_verdicts(monkeypatch):
    case, made = Case(demo("soil_probe")[0]), []
    judge(case)
    monkeypatch.setattr(asked, "judge", lambda other: made.append(other) or judge(other))
    assert reach(case)["most_operations_per_day"] > 0.0
    assert made == []


def test_the_balance_at_the_light_found_is_one():
    case = Case(*demo("soil_probe"))
    lux = reach(case)["least_light_for_balance_lx"]
    found = answers(case.with_value(LIGHT, float(lux)))
    assert found["balance_ratio"] == pytest.approx(1.0, abs=0.02)


def test_what_waits_for_its_store_has_no_rate():
    case = Case(*demo("vent_flap"))
    assert all(isinstance(op.schedule, WhenReady) for op in case.scenario.load.operations)
    assert "most_operations_per_day" not in reach(case)


def test_what_lasts_longer_than_all_the_times_at_which_it_may_begin_has_no_rate():
    """Four hours of each time, begun within three minutes of a Thursday: a hundredth a day is
    an interval of 43 minutes of such Thursdays."""
    (op, *_), changed = Scenario().load.operations, Every(
        interval_s=6e5, days=("thu",), from_h=0.0, to_h=0.05
    )
    long = op.model_copy(update={
        "schedule": changed, "phases": (Phase(current_A=1e-3, duration_s=14_400.0),)
    })  # fmt: skip
    assert "most_operations_per_day" not in reach(
        Case(with_value(Scenario(), "load.operations", (long,)))
    )


def test_where_nothing_helps_neither_never_nor_zero_is_said():
    for value, key, said in (
        (Reach(1e5, "none"), "least_light_for_balance_lx", "none up to 100000 lx"),
        (Reach(10.0, "less than"), "least_light_for_balance_lx", "less than 10 lx"),
        (Reach(0.01, "none"), "most_operations_per_day", "not even 0.01"),
        (Reach(419.0, "more than"), "most_operations_per_day", "more than 419"),
        (Reach(365.0, "more than"), "longest_closure_days", "more than 365 d"),
        (Reach(1 / 1440, "none"), "longest_closure_days", "none"),
        (Reach(3.11), "longest_closure_days", "3.11 d"),
        (Reach(183.0), "least_light_for_balance_lx", "183 lx"),
    ):
        assert value_of(key, value) == said


def test_a_light_beyond_the_search_is_a_bound_and_no_edge():
    """No light that is looked at feeds an ampere of sleep."""
    case = Case(*demo("soil_probe")).with_value("load.sleep_A", 1.0)
    least = reach(case)["least_light_for_balance_lx"]
    assert (least, least.bound) == (LIGHT_STOPS[-1], "none")


def test_a_store_that_hardly_discharges_outlasts_the_year():
    case = Case(*demo("soil_probe"))
    for path, value in {
        "load.operations.0.schedule.interval_s": 86_400.0, "load.sleep_A": 0.0,
        "store.capacitance_F": 20.0, "store.leakage_A": 0.0, "store.balancing_A": 0.0,
        "charger.quiescent_A": 0.0, "margins.start_within_h": 8000.0,
    }.items():  # fmt: skip
        case = case.with_value(path, value)
    days = reach(case)["longest_closure_days"]
    assert (days, days.bound) == (365.0, "more than")
    assert margin(case.with_value(CLOSURE, 365.0), "dark") >= 1.0


def test_an_answer_keeps_its_bound_in_a_copy():
    value = pickle.loads(pickle.dumps(Reach(3.0, "more than")))
    assert (value, value.bound) == (3.0, "more than")

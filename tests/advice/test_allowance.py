"""Designs that take long to follow are tried first, and given up early; then they go on."""

from concurrent.futures import ThreadPoolExecutor

import pytest

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.engine.course import Allowance, Unfinished
from explorer.files.logs import resolve_log
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.model import with_value

EVENTS = 4000


def opened(name):
    path = scenario_folder() / f"{name}.json"
    scenario = load_scenario(path).scenario
    return scenario, resolve_log(scenario, path)


@pytest.fixture
def beacon():
    """A store of 1.5 mF that sends every second under the bundled office log."""
    office, log = opened("seminar_room_co2")
    scenario = opened("door_counter")[0].model_copy(update={"light": office.light})
    scenario = with_value(scenario, "store.capacitance_F", 1.5e-3)
    return Case(with_value(scenario, "load.operations.0.schedule.interval_s", 1.0), log)


def test_a_case_that_would_take_long_is_given_up(beacon):
    with pytest.raises(Unfinished), beacon.within(EVENTS):
        assess(beacon, with_answers=False)
    assert beacon.engine.allowance is None


@pytest.mark.parametrize("name", ["door_counter", "plant_label", "soil_probe", "vent_flap"])
def test_a_demonstration_is_judged_within_the_allowance(name):
    case = Case(*opened(name))
    with case.within(EVENTS):
        found = assess(case)
    assert found.verdict.word == assess(Case(*opened(name))).verdict.word


def test_a_case_that_was_given_up_goes_on_to_the_same_answers():
    case, whole = Case(*opened("plant_label")), Case(*opened("plant_label"))
    with pytest.raises(Unfinished), case.within(150):
        assess(case)
    one, other = assess(case), assess(whole)
    assert one.answers == other.answers
    assert one.verdict == other.verdict


def test_marches_spend_one_allowance_together():
    case = Case(*opened("vent_flap"))
    case.engine.allowance = allowance = Allowance(10_000)
    case.engine.march(case.engine.edges[-1])
    first = 10_000 - allowance.events
    case.engine.dark().march(case.engine.edges[-1])
    assert 0 < first < 10_000 - allowance.events


def test_what_another_thread_marches_is_not_given_up():
    case = Case(*opened("plant_label"))
    period = case.engine.edges[-1]
    with case.within(20), ThreadPoolExecutor(1) as pool:
        run = pool.submit(case.engine.march, period).result()
        with pytest.raises(Unfinished):
            case.engine.march(period)
    assert run.span_s == period

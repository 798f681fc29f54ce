import gc
from weakref import ref

import pytest

from explorer.advice.assess import assess
from explorer.advice.case import CASE_BYTES, LEG_BYTES
from explorer.files.beside import NOTHING, Beside, resolve_case
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.daylight import DaylightPattern
from explorer.scenario.model import Scenario, with_value
from explorer.state.cases import MOST_CASES, MOST_YEARS, ROOM, Cases


def with_panels(count):
    return with_value(Scenario(), "panels.count", count)


def test_a_design_that_was_on_show_lately_has_its_case_of_then():
    cases = Cases()
    first = cases.of(with_panels(1), NOTHING)
    assert cases.of(with_panels(2), NOTHING) is not first
    assert cases.of(with_panels(1), NOTHING) is first


def test_the_one_on_show_longest_ago_makes_room_and_lets_go_of_its_results():
    cases = Cases()
    first, second = (cases.of(with_panels(n), NOTHING) for n in (1, 2))
    for case in (first, second):
        case.once("a result", lambda: 1.0)
    for n in (*range(3, MOST_CASES + 1), 1, MOST_CASES + 1):
        cases.of(with_panels(n), NOTHING)
    assert cases.of(with_panels(1), NOTHING) is first
    assert first.knows("a result")
    assert cases.of(with_panels(2), NOTHING) is not second
    assert not second.knows("a result")


def test_a_year_takes_more_room_than_a_week():
    cases, base = Cases(), with_value(Scenario(), "light.pattern", DaylightPattern())
    years = [
        cases.of(with_value(base, "panels.count", n), NOTHING) for n in range(1, MOST_YEARS + 2)
    ]
    assert cases.of(years[1].scenario, NOTHING) is years[1]
    assert cases.of(years[0].scenario, NOTHING) is not years[0]


def test_in_another_measured_light_every_design_is_another_case():
    cases = Cases()
    first = cases.of(with_panels(1), NOTHING)
    assert cases.of(with_panels(1), Beside()) is not first


def test_what_a_case_takes_grows_with_the_legs_of_its_runs():
    case = Cases().of(Scenario(), NOTHING)
    assert case.size == CASE_BYTES
    assess(case)
    legs = len(case.engine.march(604_800.0).legs)
    assert legs > 0
    assert case.size > CASE_BYTES + LEG_BYTES * legs
    before = case.size
    dark = case.engine.dark().march(604_800.0)  # what an engine is made into counts with it
    assert case.size == before + LEG_BYTES * len(dark.legs)


def test_designs_of_long_runs_make_room_before_there_are_many():
    cases = Cases()
    long = [cases.of(with_panels(n), NOTHING) for n in (1, 2, 3)]
    for case in long:
        case.engine.walked.legs += ROOM // LEG_BYTES // 2
    last = cases.of(with_panels(4), NOTHING)
    kept = [cases.of(case.scenario, NOTHING) is case for case in (long[2], last)]
    assert kept == [True, True]
    assert cases.of(with_panels(1), NOTHING) is not long[0]


@pytest.mark.parametrize("name", ["seminar_room_co2", "soil_probe", "watering_valve"])
def test_a_design_that_is_let_go_of_leaves_nothing_to_the_collector(name):
    """What refers to itself in a circle waits for the collector, which then holds a drag."""
    path = scenario_folder() / f"{name}.json"
    case = resolve_case(load_scenario(path).scenario, path)
    gc.disable()
    try:
        found = assess(case)
        found.trace.picture(0.0, found.trace.span_s, 300)
        found.trace.steps(3600.0)
        kept = [ref(case.engine), ref(found.trace._book), ref(found.trace._modes)]
        assert all(one() is not None for one in kept)
        case.forget()
        del case, found
        assert [one() for one in kept] == [None, None, None]
    finally:
        gc.enable()

"""What visitors may move is enough: proven by search, for every exhibit that comes along."""

from functools import cache

import pytest

from explorer.advice.case import Case
from explorer.advice.judge import judge
from explorer.files.logs import resolve_log
from explorer.files.scenario_json import load_scenario
from explorer.scenario.model import with_value, with_values
from explorer.stand.challenges import challenged
from explorer.stand.way_steps import challenge_steps, found_way, is_winnable
from explorer.state.knobs import KNOB_KEYS, knobs_for
from explorer.state.stand_plan import bundled_names, scenario_path
from tests.depth import THOROUGH
from tests.sharing import cases_are_shared  # noqa: F401

AGAIN = ("bundled:door_counter", "bundled:watering_valve")
"""A week of light, a converter and a supercapacitor, as the soil probe: where the tests go deep."""


def case_of(name, **changes):
    path = scenario_path(name)
    scenario = load_scenario(path).scenario
    log = resolve_log(scenario, path)
    return Case(with_values(scenario, changes) if changes else scenario, log)


def went(case, targets):
    whole = {path: int(v) if path.endswith("count") else v for path, v in targets.items()}
    return case.with_scenario(with_values(case.scenario, whole))


@cache
def challenge_of(name):
    return next(challenge_steps(KNOB_KEYS, case_of(name), lambda: False))


@pytest.mark.parametrize("name", [n for n in bundled_names() if THOROUGH or n not in AGAIN])
def test_every_exhibit_can_be_brought_to_run_and_its_challenge_be_won(name):
    case = case_of(name)
    way = found_way(KNOB_KEYS, case)
    assert way.runs or judge(went(case, way.targets)).state == "runs"
    challenge = challenge_of(name)
    assert challenge is not None
    harder = case.with_scenario(challenged(case.scenario, challenge))
    assert judge(harder).state != "runs"
    assert judge(went(harder, found_way(KNOB_KEYS, harder).targets)).state == "runs"


@pytest.mark.parametrize("name", ["bundled:soil_probe", "bundled:door_counter"])
def test_a_way_forward_leads_over_stops_of_knobs_that_may_be_moved(name):
    case = case_of(name)
    for movable in (("light", "store"), KNOB_KEYS):
        stops = {k.path: k.stops for k in knobs_for(case.scenario) if k.key in movable}
        for path, value in found_way(movable, case).targets.items():
            assert value in stops[path]


def test_there_is_a_way_from_the_worst_setting_too():
    case = case_of("bundled:soil_probe")
    worst = {knob.path: knob.stops[0] for knob in knobs_for(case.scenario)}
    worst["panels.count"] = 1
    lost = case.with_scenario(with_values(case.scenario, worst))
    assert judge(lost).state == "falls_short"
    assert judge(went(lost, found_way(KNOB_KEYS, lost).targets)).state == "runs"


def test_an_exhibit_that_no_knob_can_save_is_found_out():
    hot = case_of("bundled:soil_probe", **{"light.ambient_C": 80.0})
    assert not is_winnable(KNOB_KEYS, hot)
    demo = load_scenario(scenario_path("bundled:door_counter")).scenario
    unbalanced = with_value(demo, "store.balancing", "none")
    assert not is_winnable(KNOB_KEYS, Case(unbalanced))


def test_the_weekend_is_the_challenge_where_it_can_be_won():
    assert challenge_of("bundled:plant_label").key == "weekend"
    assert challenge_of("bundled:vent_flap").closure_days < 62 / 24

"""Limits: at each of them the exact verdict flips."""

from math import inf

import pytest

from explorer.advice.limits import limits
from explorer.scenario.model import with_value
from tests.advice.demos import NAMES, demo, exact, exact_at

AROUND = 0.06
"""Share beside the limit at which the exact engine must have changed its mind."""


@pytest.fixture(scope="module")
def found():
    return {name: limits(*demo(name)) for name in NAMES}


WORKING = [n for n in NAMES if n != "door_counter"]


@pytest.mark.parametrize("name", WORKING)
def test_at_the_lowest_light_the_design_begins_to_work(found, name):
    lux = found[name]["lowest_light_lx"]
    path = "light.illuminance_lx"
    assert exact_at(name, path, lux * (1 - AROUND)).state == "falls_short"
    assert exact_at(name, path, lux * (1 + AROUND)).state != "falls_short"


@pytest.mark.parametrize("name", [n for n in WORKING if n != "vent_flap"])
def test_at_the_shortest_interval_the_design_begins_to_work(found, name):
    seconds = found[name]["shortest_interval_s"]
    path = "load.operations.0.schedule.interval_s"
    assert exact_at(name, path, seconds * (1 - AROUND)).state == "falls_short"
    assert exact_at(name, path, seconds * (1 + AROUND)).state != "falls_short"
    assert found[name]["highest_rate_per_day"] == pytest.approx(86_400.0 / seconds)


# The vent flap's store goes up and down all the time; the exact engine begins a closure at its
# lowest point, the batch, which averages the runs, does not know that point.
@pytest.mark.parametrize("name", [n for n in WORKING if n != "vent_flap"])
def test_after_the_longest_closure_the_store_is_flat(found, name):
    days = found[name]["longest_closure_days"]
    path = "margins.closure_days"
    assert 0.0 < days < 60.0
    assert exact_at(name, path, days * (1 - AROUND)).state != "falls_short"
    assert exact_at(name, path, days * (1 + AROUND)).state == "falls_short"


def test_a_design_that_no_light_saves_has_no_limit(found):
    assert found["door_counter"]["lowest_light_lx"] == inf
    assert found["door_counter"]["longest_closure_days"] == 0.0
    assert found["door_counter"]["highest_rate_per_day"] == 0.0


def test_an_operation_that_waits_for_its_store_has_no_shortest_interval(found):
    assert "shortest_interval_s" not in found["vent_flap"]


def test_a_store_that_hardly_discharges_outlasts_the_year():
    scenario, log = demo("soil_probe")
    for path, value in {
        "load.operations.0.schedule.interval_s": 86_400.0, "load.sleep_A": 0.0,
        "store.capacitance_F": 20.0, "store.leakage_A": 0.0, "store.balancing_A": 0.0,
        "charger.quiescent_A": 0.0, "margins.start_within_h": 8000.0,
    }.items():
        scenario = with_value(scenario, path, value)
    assert limits(scenario, log)["longest_closure_days"] == inf
    assert exact(with_value(scenario, "margins.closure_days", 365.0), log).state != "falls_short"

"""Several runs of one device are one story: its values, what to measure next, what has aged."""

from dataclasses import replace
from datetime import timedelta

import numpy as np
import pytest

from explorer.advice.bench.conditions import under_conditions
from explorer.advice.bench.drift import drift
from explorer.advice.bench.fit import fit
from explorer.advice.bench.forecast import begins_at
from explorer.advice.bench.outlook import best_of, measurements, outlook
from explorer.advice.bench.parameters import parameter, with_values
from explorer.advice.case import Case
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.logged_run import Conditions
from explorer.words.conditions import conditions_text
from explorer.words.outlook import drift_sentences, next_sentences
from tests.bench_runs import START, dark_run, hanging_run, step_run
from tests.depth import thorough

PROBE = load_scenario(scenario_folder() / "soil_probe.json").scenario
CASE = Case(PROBE)
SIZE, SLEEP, LIGHT = "store.capacitance_F", "load.sleep_A", "light.illuminance_lx"
TRUTH = {SIZE: 1.31, SLEEP: 1.2 * PROBE.load.sleep_A, LIGHT: 310.0}
DEVICE = with_values(PROBE, TRUTH)
MONTHS = timedelta(days=200)


def fitted(runs, *paths):
    return list(fit(CASE, runs, [parameter(PROBE, p) for p in paths]))[-1]


@pytest.fixture(scope="module")
def dark():
    return dark_run(DEVICE)


@pytest.fixture(scope="module")
def step():
    return step_run(DEVICE, seed=2)


@pytest.fixture(scope="module")
def dark_alone(dark):
    return fitted([dark], SIZE, SLEEP)


@pytest.fixture(scope="module")
def dark_and_step(dark, step):
    return fitted([dark, step], SIZE, SLEEP)


def test_two_runs_tell_apart_what_neither_does_alone(dark_alone, dark_and_step):
    assert dark_alone.inseparable == ((0, 1),)
    both = dark_and_step
    assert both.is_good
    assert both.inseparable == ()
    for value in both.values:
        assert value.determined
        assert abs(value.value - TRUTH[value.parameter.path]) < value.plus_minus
    assert both.values[0].plus_minus < 0.05 * both.values[0].value
    assert [one.run.name for one in both.after] == ["a.csv", "a.csv"]


@thorough
def test_a_run_that_hangs_on_unknown_light_spoils_nothing_that_another_has_told(step):
    alone = fitted([step], SIZE).values[0]
    with_light = fitted([step, hanging_run(DEVICE, days=1.0, seed=3)], SIZE).values[0]
    assert with_light.plus_minus < 1.05 * alone.plus_minus
    assert abs(with_light.value - TRUTH[SIZE]) < with_light.plus_minus


def test_what_it_says_to_measure_next_narrows_the_values_as_it_said(
    dark, dark_alone, dark_and_step
):
    found = outlook(CASE, [dark], dark_alone)
    best = best_of(found)
    assert best.measurement.run.conditions.draw == "current"
    assert "steady current of 2 mA" in " ".join(next_sentences(dark_alone, found))
    # The run that was then made is about that measurement; see STEP of the logged runs.
    for expected, value in zip(best.expected, dark_and_step.values, strict=True):
        assert expected == pytest.approx(value.plus_minus, rel=0.6)
    gains = [one.gain for one in found]
    assert gains == sorted(gains, reverse=True)
    assert all(g >= 0.0 for g in gains)  # no measurement takes anything away


def test_a_measurement_keeps_within_the_store(dark):
    for one in measurements(CASE):
        assert one.run.volts.max() <= PROBE.charger.full_V + 1e-3
        assert np.all(np.diff(one.run.time_s) > 0.0)


def test_conditions_take_the_place_of_the_design(dark):
    lamp = replace(dark, conditions=Conditions(light_lx=800.0, draw="asleep"))
    there = under_conditions(CASE, lamp).scenario
    assert there.light.illuminance_lx == 800.0
    assert there.light.pattern.kind == "steady"
    assert there.load.operations == ()
    assert there.load.sleep_A == PROBE.load.sleep_A
    off = under_conditions(CASE, replace(dark, conditions=Conditions(draw="off"))).scenario
    assert off.load.sleep_A == 0.0
    assert off.light == PROBE.light
    assert conditions_text(lamp) == (
        "in steady light of 800 lx; connected: the device without its operations"
    )


def test_a_dated_log_under_daylight_begins_on_its_day_of_the_year(dark):
    data = PROBE.model_dump()
    data["light"] |= {"pattern": {"kind": "daylight"}, "illuminance_lx": None}
    case = Case(type(PROBE).model_validate(data))
    run = replace(dark, conditions=Conditions(), start=START)
    assert begins_at(case, run) == (31 + 28 + 1) * 86_400.0 + 9 * 3600.0
    # In the dark of the bench the season does not matter.
    assert begins_at(under_conditions(case, dark), dark) == 0.0


@pytest.fixture(scope="module")
def sittings(step):
    aged = with_values(DEVICE, {SIZE: 0.88 * TRUTH[SIZE]})
    # The meter reads 0.4 % too much both times.
    runs = [
        step_run(one, gain=1.004, seed=seed, start=START + late)
        for one, seed, late in ((DEVICE, 5, timedelta(0)), (aged, 6, MONTHS), (DEVICE, 7, MONTHS))
    ]
    return [fitted([run], SIZE) for run in runs]


def test_what_has_aged_is_seen_better_than_either_value_is_known(sittings):
    before, after, _ = sittings
    found = drift(before, after)
    change = found.changes[0]
    assert change.is_seen
    assert change.ratio_low < 0.88 < change.ratio_high
    assert change.plus_minus < 0.7 * change.each_for_itself
    assert found.apart_s == MONTHS.total_seconds()
    assert "Voltmeter" in found.same
    said = " ".join(drift_sentences(found))
    assert "Capacitance has changed by −12 %" in said
    assert "same meters" in said


def test_another_meter_makes_a_change_less_sure(sittings):
    before, after, _ = sittings
    same, other = (drift(before, after, same_meter=m).changes[0] for m in (True, False))
    assert same.plus_minus < other.plus_minus <= 1.001 * other.each_for_itself
    assert "Other meters" in " ".join(drift_sentences(drift(before, after, same_meter=False)))


def test_no_change_is_seen_where_there_is_none(sittings):
    before, _, unchanged = sittings
    found = drift(before, unchanged)
    assert not found.changes[0].is_seen
    assert "no change is seen" in drift_sentences(found)[0]


def test_what_the_runs_do_not_tell_has_no_drift(dark_alone):
    found = drift(dark_alone, dark_alone)
    assert not any(one.is_told for one in found.changes)
    assert "do not tell" in drift_sentences(found)[0]

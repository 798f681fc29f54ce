"""Where the verdict on a year turns: found by few marches, confirmed by whole years."""

from functools import cache

import numpy as np
import pytest

from explorer.advice.asked import verdict_with
from explorer.advice.break_even import break_even
from explorer.advice.case import Case
from explorer.advice.contest import contest, present_entry
from explorer.advice.criteria import RUNS, WORKS
from explorer.advice.edges import find_edges
from explorer.advice.gathered import gathered
from explorer.advice.judge import judge
from explorer.advice.readings.dark import one_charge
from explorer.advice.readings.required import one_charge_of
from explorer.advice.remedies import _pair, find_remedies, levers
from explorer.advice.spread import confirmed, default_tolerances, sampled_share, spread
from explorer.advice.stops import series_of
from explorer.advice.year.answers import year_answers
from explorer.advice.year.bounds import falls_short_by, outlasted
from explorer.advice.year.life import as_new, life
from explorer.advice.year.study import seasons_of, wear_of, year_study
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.model import with_value
from explorer.scenario.year_course import darkest
from explorer.words.drawers import CODES, spread_answer, spread_note
from tests.depth import some, thorough
from tests.reference.yearly import numbered_year

STORES = (1.0, 4.0, 20.0, 60.0, 1000.0, 10_000.0)
CAPACITY, CAPACITANCE = "store.capacity_mAh", "store.capacitance_F"


@cache
def scenario(name):
    return load_scenario(scenario_folder() / f"{name}.json").scenario


@cache
def sensor():
    return Case(scenario("window_air_sensor"))


@cache
def by_store():
    return break_even(sensor(), CAPACITY, STORES)


@thorough
def test_a_design_that_runs_lies_between_the_edges_of_its_knob():
    assert judge(sensor()).state == "runs"
    for edges in (by_store().works, by_store().runs):
        assert edges.holds(20.0)
        assert not edges.at_low
        assert not edges.at_high
        assert len(edges.edges) == 2


@pytest.mark.parametrize("asked", ["works", "runs"])
def test_an_edge_of_a_year_is_what_the_whole_year_says_on_both_sides(asked):
    criterion = {"works": WORKS, "runs": RUNS}[asked]
    edge = getattr(by_store(), asked).edges[0]
    assert not len(series_of(CAPACITY).between(edge.value, edge.beyond))
    for value, holds in ((edge.value, True), (edge.beyond, False)):
        verdict = judge(Case(with_value(scenario("window_air_sensor"), CAPACITY, value)))
        assert criterion.holds(verdict) == holds


@pytest.mark.parametrize(("path", "value"), some([
    (CAPACITANCE, 2.2), (CAPACITANCE, 15.0), ("load.operations.0.phases.0.current_A", 0.4),
], 2))
def test_a_bound_never_rules_out_what_the_whole_year_lets_pass(path, value):
    case = Case(with_value(scenario("north_door_counter"), path, value))
    verdict = judge(case)
    for criterion, cleanly in ((WORKS, False), (RUNS, True)):
        if falls_short_by(case, cleanly=cleanly) is not None:
            assert not criterion.holds(verdict)
    least, connected = outlasted(case)
    found = year_study(case)
    span = sum(run.run.span_s for run in found.months)
    assert sum(run.run.tally.connected_s for run in found.months) / span <= connected + 1e-6
    dark = next(check for check in verdict.checks if check.name == "dark")
    assert dark.margin <= least + 1e-6 or value == 0.4  # off before the longest stretch begins


def test_a_start_up_that_fails_in_the_brightest_light_is_tried_in_plainer_light_all_year():
    case = Case(with_value(scenario("north_door_counter"), CAPACITANCE, 1e-4))
    found = year_study(case)
    assert seasons_of(case)[1].all_in_vain
    assert falls_short_by(case, cleanly=False) == 0.0
    assert judge(case).state == "falls_short"
    assert not found.starts
    for run in found.months:
        assert run.run.span_s == pytest.approx(run.month.length_s)
        assert len(run.engine.levels) < 100
        light = run.engine.system.light
        fine = run.month.course
        assert light.photocurrent_a @ np.diff(light.edges_s) == pytest.approx(
            fine.photocurrent_a @ np.diff(fine.edges_s)
        )
    assert sum(run.run.tally.cut_offs for run in found.months) > 100_000


def test_stores_are_compared_by_whole_years_and_by_the_life_that_these_leave_them():
    case = sensor()
    assert present_entry(case).years_to_end == pytest.approx(life(case).years_to_end)
    entry = next(e for e in contest(case) if e.key == "memory_backup")
    whole = Case(entry.scenario)
    assert entry.verdict.checks == judge(whole).checks
    assert entry.years_to_end == pytest.approx(life(whole).years_to_end)


def test_many_designs_at_once_have_a_store_as_worn_as_the_year_leaves_it():
    case = Case(with_value(scenario("north_door_counter"), "store.years_in_service", 3.0))
    assert wear_of(case) == pytest.approx(3.0 * life(case).wear_per_year)
    # Built at the temperature of those weeks, not of the year.
    built = gathered(case).system.store
    worn = seasons_of(case)[1].engines[0].system.store
    new = seasons_of(as_new(case))[1].engines[0].system.store
    assert built.capacitance_f == pytest.approx(worn.capacitance_f)
    assert built.capacitance_f < 0.95 * new.capacitance_f


@pytest.mark.parametrize("name", ["north_door_counter", "window_air_sensor"])
def test_the_answers_of_one_charge_are_of_the_store_that_the_years_have_left(name):
    case = Case(with_value(scenario(name), "store.years_in_service", 8.0))
    months, seasons = seasons_of(case)
    darkest_of = months.index(darkest(months))
    lasts_s, runs = one_charge(seasons.engines[darkest_of])
    found = year_answers(case)
    assert found["dark_time_s"] == pytest.approx(lasts_s)
    assert found["operations_per_charge"] == pytest.approx(runs)
    assert one_charge_of(as_new(case))[0] > 1.05 * lasts_s


def test_built_units_are_judged_by_whole_years_and_those_judged_stand_for_all():
    case = sensor()
    blurred = spread(case, default_tolerances(case.scenario), builds=40)
    assert blurred.runs == (0.0, 1.0)
    # Six weeks without light: what it sleeps with, and what it holds.
    assert {i.path for i in blurred.influences[:2]} == {"load.sleep_A", CAPACITY}
    found = confirmed(blurred, most=3)
    assert found.drawn == found.judged == found.builds == 3
    assert np.isfinite(found.first_charge_s).all()
    place = {path: float(values[1]) for path, values in found.values.items()}
    assert CODES[int(found.codes[1])] == verdict_with(case, place).state
    assert found.works == sampled_share(int((found.codes[:3] >= 1).sum()), 3)
    assert "of such devices run" in spread_answer(found)
    assert f"({found.drawn} drawn)" in spread_answer(found)
    assert "3 devices, drawn at random" in spread_note(found)


FALLS_SHORT = 4
"""A drawn year of lamps alone, whose store is too small for its longest holidays."""


@cache
def too_small():
    return Case(numbered_year(FALLS_SHORT))


def test_a_remedy_of_a_year_is_found_by_whole_years():
    small = too_small()
    assert judge(small).governing.name == "dark"
    shown = next(found for found in find_remedies(small) if found.singles)
    (remedy,) = shown.singles
    (change,) = remedy.changes
    lever = next(q for q in levers(small) if q.path == change.path)
    edges = find_edges(small, change.path, RUNS, lever.stops).edges
    assert change.new in [edge.value for edge in edges]
    assert judge(Case(remedy.scenario)).state == "runs"


@thorough
def test_two_changes_of_a_year_are_bounded_first_and_found_by_whole_years():
    small = too_small()
    found = _pair(small, lambda: False)
    assert len(found.changes) == 2
    assert found.verdict.state == judge(Case(found.scenario)).state == "runs"
    larger = found.changes[0]
    lever = next(q for q in levers(small) if q.path == larger.path)
    before = [v for v in lever.values.tolist() if v < larger.new][-1]
    less = Case(with_value(found.scenario, larger.path, before))
    assert judge(less).state != "runs"  # no larger than it must be beside the other

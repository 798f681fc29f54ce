"""Edges: on both sides of every value shown the exact verdict differs as it is said."""

from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from explorer.advice.break_even import break_even, draft
from explorer.advice.case import Case
from explorer.advice.criteria import RUNS, WORKS, Criterion
from explorer.advice.edges import Edge, Edges, Scan, find_edges
from explorer.advice.judge import judge
from explorer.advice.stops import (
    LIGHT_STOPS,
    Series,
    knob_paths,
    series_of,
    stops_of,
    three_digits,
)
from explorer.advice.verdict import CHECK_NAMES
from explorer.engine.course import Interrupted
from explorer.scenario.model import get_value
from explorer.words.edges import break_even_text
from tests.advice.demos import LOGGED, NAMES, demo
from tests.depth import THOROUGH, some

LIGHT = "light.illuminance_lx"
SIZE = "store.capacitance_F"
QUICK = [n for n in NAMES if n != LOGGED]


def case_of(name, **values):
    case = Case(*demo(name))
    for path, value in values.items():
        case = case.with_value(path, value)
    return case


def at(case, path, value):
    whole = isinstance(get_value(case.scenario, path), int)
    return judge(case.with_value(path, int(value) if whole else value))


def assert_true_on_both_sides(case, found, criterion, series):
    for edge in found.edges:
        assert criterion.holds(at(case, found.path, edge.value)), edge
        assert not criterion.holds(at(case, found.path, edge.beyond)), edge
        assert len(series.between(edge.value, edge.beyond)) == 0, edge


@pytest.mark.parametrize("name", QUICK)
def test_beside_a_knob_the_exact_verdict_changes_at_every_value_named(name):
    case = case_of(name)
    # Of demonstrations one after the other every other knob, by turns.
    turns = 1 if THOROUGH else 2
    for path in knob_paths(case.scenario)[QUICK.index(name) % turns :: turns]:
        found = break_even(case, path, stops_of(path))
        for edges, criterion in ((found.works, WORKS), (found.runs, RUNS)):
            assert_true_on_both_sides(case, edges, criterion, series_of(path))


def test_under_a_measured_log_too():
    case = case_of(LOGGED)
    found = find_edges(case, "panels.count", WORKS, stops_of("panels.count"))
    assert found.edges
    assert_true_on_both_sides(case, found, WORKS, series_of("panels.count"))


@pytest.mark.parametrize("name", some(["vent_flap", "plant_label"], 2))
def test_the_track_agrees_with_the_exact_march_at_its_stops(name):
    case = case_of(name)
    path = knob_paths(case.scenario)[3]
    found = break_even(case, path, stops_of(path))
    for stop, state in some(zip(found.stops, found.states, strict=True), 3):
        assert state == at(case, path, stop).state, stop


def test_a_store_is_named_in_the_sizes_in_which_it_is_sold():
    case = case_of("soil_probe")
    found = break_even(case, SIZE, stops_of(SIZE))
    assert {e.value for e in found.runs.edges} <= set(stops_of(SIZE))
    assert break_even_text(found, "F").startswith("runs at 1.8 F, marginal between ")


def test_more_storage_that_starts_too_late_bounds_the_range():
    """A larger store lasts longer but fills later, so both ends of the range are named."""
    case = case_of("soil_probe")
    found = break_even(case, SIZE, stops_of(SIZE))
    (low, high), = found.works.stretches
    assert found.stops[0] < low < high < found.stops[-1]
    assert found.states[found.stops.index(found.best)] == "runs"


@pytest.mark.parametrize(
    ("runs", "works", "said"),
    [
        ((1.2, 1.5), (0.82, 1.5), "runs between 1.2 F and 1.5 F, marginal from 0.82 F"),
        ((1.2, 1.5), (1.2, 2.2), "runs between 1.2 F and 1.5 F, marginal up to 2.2 F"),
        ((1.2, 1.5), (0.82, 2.2),
         "runs between 1.2 F and 1.5 F, marginal between 0.82 F and 2.2 F"),
        ((1.2, None), (0.82, None), "runs from 1.2 F, marginal from 0.82 F"),
    ],
)  # fmt: skip
def test_an_end_at_which_it_runs_is_told_once(runs, works, said):
    found = SimpleNamespace(
        works=SimpleNamespace(path=SIZE, none=False, at_low=False, at_high=False, edges=(),
                              stretches=(works,)),
        runs=SimpleNamespace(path=SIZE, none=False, stretches=(runs,)),
    )
    assert break_even_text(found, "F") == said


def test_a_count_is_named_as_a_whole_number():
    found = break_even(case_of("soil_probe"), "panels.count", stops_of("panels.count"))
    (edge,) = found.works.edges
    assert (edge.value, edge.beyond) == (2.0, 1.0)
    assert break_even_text(found, "").startswith("marginal from 2, ")


def test_plain_sentences_where_nothing_changes():
    bright = break_even(case_of("plant_label"), LIGHT, [600.0, 800.0])
    assert break_even_text(bright, "lx") == "runs at every value"
    dim = break_even(case_of("door_counter"), LIGHT, [5.0, 10.0, 20.0])
    assert break_even_text(dim, "lx") == "no value of this alone makes it run"
    assert set(dim.states) == {"falls_short"}
    assert dim.works.none


def test_marginal_at_best_is_said_so():
    found = break_even(case_of("soil_probe"), SIZE, [0.2, 0.5, 1.0, 1.3, 1.4])
    assert "runs" not in found.states
    assert "marginal" in found.states
    assert break_even_text(found, "F").endswith("runs at no value")


def test_several_stretches_are_all_named():
    edges = Edges(
        path=LIGHT, low=10.0, high=1e5, at_low=True, at_high=True,
        edges=(Edge(value=20.0, beyond=21.0), Edge(value=50.0, beyond=49.0)),
    )
    found = break_even(case_of("plant_label"), LIGHT, [600.0, 800.0])
    found = type(found)(
        path=LIGHT, stops=found.stops, states=found.states, best=600.0, works=edges, runs=edges
    )
    assert break_even_text(found, "lx") == "runs up to 20 lx and from 50 lx"
    assert [edges.holds(v) for v in (15.0, 20.0, 30.0, 50.0, 60.0)] == [
        True, True, False, True, True,
    ]


def test_an_edge_knows_its_side():
    assert Edge(value=50.0, beyond=49.0).holds_above
    assert not Edge(value=20.0, beyond=21.0).holds_above


def test_what_was_found_hangs_on_the_case(monkeypatch):
    case = case_of("vent_flap")
    found = find_edges(case, LIGHT, RUNS, LIGHT_STOPS)
    monkeypatch.setattr("explorer.advice.asked.judge", None)
    assert find_edges(case, LIGHT, RUNS, LIGHT_STOPS) is found


def test_a_draft_has_verdicts_and_no_values():
    case = case_of("soil_probe")
    found = draft(case, LIGHT, LIGHT_STOPS)
    assert found.is_draft
    assert len(found.states) == len(LIGHT_STOPS)
    assert not break_even(case, LIGHT, LIGHT_STOPS).is_draft


def test_a_search_that_is_told_to_stop_stops_before_the_next_march():
    with pytest.raises(Interrupted):
        break_even(case_of("soil_probe"), LIGHT, LIGHT_STOPS, lambda: True)


def test_a_batch_that_is_sure_and_wrong_is_found_out():
    """Said to work at every light, surely: the march in the middle of that stretch says no."""
    case, values = case_of("vent_flap"), np.array([20.0, 50.0, 100.0, 200.0, 500.0, 1000.0])
    scan = Scan(
        case, LIGHT, WORKS, values, series_of(LIGHT), np.ones(6, bool), np.full(6, 9.0),
        np.ones(6, bool),
    )
    found = scan.edges()
    assert len(found.edges) == 1
    assert_true_on_both_sides(case, found, WORKS, series_of(LIGHT))


def test_the_exact_march_overrules_the_batch():
    """A scan that begins with the opposite of the truth ends with the truth beside its edges."""
    case = case_of("soil_probe")
    truth = find_edges(case, LIGHT, WORKS, LIGHT_STOPS)
    values = np.array(LIGHT_STOPS)
    wrong = values >= 200.0  # the true edge lies above
    scan = Scan(
        case, LIGHT, WORKS, values, series_of(LIGHT), wrong, np.ones(len(values)),
        np.ones(len(values), bool),
    )
    found = scan.edges()
    assert found.edges == truth.edges


# --- generated designs ---

GENERATED = (Phase.explicit, Phase.generate)
"""A design of many numbers shrinks for minutes, and is as good a witness as it is."""
BASES = st.sampled_from(QUICK)
FACTOR = st.floats(-1.0, 1.0).map(lambda x: float(f"{4.0**x:.4g}"))


@st.composite
def cases(draw):
    """A demonstration with light, store, work, thresholds and wishes moved at random."""
    case = case_of(draw(BASES))
    scenario = case.scenario
    paths = [*knob_paths(scenario), "load.sleep_A", "store.years_in_service"]
    for path in paths:
        now = get_value(scenario, path)
        if isinstance(now, int):
            value = draw(st.integers(1, 8))
        elif path.endswith("years_in_service"):
            value = draw(st.sampled_from([0.0, 3.0, 10.0]))
        else:
            value = now * draw(FACTOR)
        try:
            case = case.with_value(path, value)
        except ValidationError:
            continue
    case = case.with_value("margins.closure_days", draw(st.sampled_from([0.0, 0.0, 1.0, 5.0])))
    return case.with_value("light.known_by", draw(st.sampled_from(["meter_at_panel", "guess"])))


@settings(max_examples=12 if THOROUGH else 5, phases=GENERATED)
@given(cases(), st.data())
def test_on_both_sides_of_every_edge_the_exact_verdict_differs_as_said(case, data):
    path = data.draw(st.sampled_from(knob_paths(case.scenario)))
    found = break_even(case, path, stops_of(path))
    for edges, criterion in ((found.works, WORKS), (found.runs, RUNS)):
        assert_true_on_both_sides(case, edges, criterion, series_of(path))


# The same designs every time: of a stop far from any limit only the batch has spoken.
@settings(max_examples=6 if THOROUGH else 3, phases=GENERATED, derandomize=True)
@given(cases(), st.data())
def test_the_track_of_a_generated_design_agrees_with_the_exact_march(case, data):
    path = data.draw(st.sampled_from(knob_paths(case.scenario)))
    found = break_even(case, path, stops_of(path))
    for i in data.draw(st.lists(st.integers(0, len(found.stops) - 1), min_size=2, max_size=2)):
        assert found.states[i] == at(case, path, found.stops[i]).state


@settings(max_examples=12 if THOROUGH else 5, phases=GENERATED)
@given(cases(), st.sampled_from(CHECK_NAMES))
def test_the_edges_of_one_check_are_edges_of_that_check(case, name):
    criterion = Criterion(checks=(name,))
    found = find_edges(case, LIGHT, criterion, LIGHT_STOPS, three_digits())
    assert_true_on_both_sides(case, found, criterion, three_digits())


def test_values_of_a_series_lie_strictly_between():
    series = Series(np.array([1.0, 2.0, 3.0]))
    assert series.between(3.0, 1.0).tolist() == [2.0]
    assert series.between(1.0, 2.0).tolist() == []

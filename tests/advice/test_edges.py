"""Break-even: the sentence beside a knob says what its stops do."""

import numpy as np
import pytest

from explorer.advice.edges import break_even, break_evens
from explorer.advice.readings.many import STATES, judge_many
from tests.advice.demos import CODES, demo, exact_at

LIGHT = "light.illuminance_lx"
SIZE = "store.capacitance_F"
STOPS = np.geomspace(50.0, 5000.0, 21)


def number_after(text, word):
    """The first number after a word, with the sign of its unit's prefix taken into account."""
    value, unit = text.split(word, 1)[1].split()[:2]
    scale = {"m": 1e-3, "µ": 1e-6, "k": 1e3}.get(unit[0] if len(unit) > 1 else "", 1.0)
    return float(value) * (1.0 if unit.startswith(("lx", "min")) else scale)


def test_states_are_those_of_the_fleet_at_the_stops():
    scenario, log = demo("soil_probe")
    found = break_even(scenario, log, LIGHT, STOPS)
    fleet = judge_many(scenario, log, {LIGHT: STOPS})
    assert found.states == tuple(STATES[c] for c in fleet.codes)
    assert found.stops == tuple(STOPS.tolist())


def test_the_value_named_lies_in_the_gap_where_the_verdict_changes():
    scenario, log = demo("soil_probe")
    found = break_even(scenario, log, SIZE, np.geomspace(0.5, 6.0, 15))
    first = found.states.index("runs")
    named = number_after(found.sentence, "between" if "between" in found.sentence else "from")
    assert found.stops[first - 1] < named <= found.stops[first] * 1.01
    word = "marginal between" if "marginal between" in found.sentence else "marginal from"
    marginal = number_after(found.sentence, word)
    work = next(i for i, s in enumerate(found.states) if s != "falls_short")
    assert found.stops[work - 1] < marginal <= found.stops[work] * 1.01


def test_the_value_named_is_the_exact_limit_within_a_few_percent():
    scenario, log = demo("soil_probe")
    found = break_even(scenario, log, SIZE, np.geomspace(0.5, 6.0, 15))
    named = number_after(found.sentence, "between" if "between" in found.sentence else "from")
    assert exact_at("soil_probe", SIZE, 1.08 * named).state == "runs"
    assert exact_at("soil_probe", SIZE, 0.92 * named).state != "runs"


def test_more_storage_that_starts_too_late_bounds_the_range():
    """A larger store lasts longer but fills later, so both ends of the range are named."""
    scenario, log = demo("soil_probe")
    found = break_even(scenario, log, SIZE, np.geomspace(0.3, 30.0, 31))
    assert found.states[0] != "runs"
    assert found.states[-1] != "runs"
    assert "runs" in found.states
    assert found.sentence.startswith("runs between")
    assert found.states[found.stops.index(found.best)] == "runs"
    fleet = judge_many(scenario, log, {SIZE: np.array(found.stops)})
    assert found.best == found.stops[int(np.argmax(fleet.reserve))]
    assert found.stops[0] < found.best < found.stops[-1]


def test_a_count_is_named_as_a_whole_number():
    scenario, log = demo("door_counter")
    fair = scenario.model_copy(update={
        "charger": scenario.charger.model_copy(update={"full_V": 3.6}),
        "store": scenario.store.model_copy(update={"capacitance_F": 1.2, "esr_ohm": 12.0}),
    })
    found = break_even(fair, log, "panels.count", range(1, 31))
    first = found.states.index("runs")
    assert found.sentence.startswith(f"runs from {int(found.stops[first])}")


def test_plain_sentences_where_nothing_changes():
    scenario, log = demo("plant_label")
    assert break_even(scenario, log, LIGHT, [600.0, 800.0]).sentence == "runs at every stop"
    dim, log = demo("door_counter")
    hopeless = break_even(dim, log, LIGHT, [5.0, 10.0, 20.0])
    assert hopeless.sentence == "no value of this alone makes it run"
    assert set(hopeless.states) == {"falls_short"}


def test_marginal_at_best_is_said_so():
    scenario, log = demo("soil_probe")
    found = break_even(scenario, log, SIZE, [0.2, 0.5, 1.0, 1.3, 1.4])
    assert "runs" not in found.states
    assert "marginal" in found.states
    assert found.sentence.endswith("runs at no value")


@pytest.mark.parametrize("name", ["watering_valve", "plant_label"])
def test_several_knobs_are_moved_each_alone(name):
    scenario, log = demo(name)
    stops = {LIGHT: STOPS, SIZE: np.geomspace(0.1, 10.0, 9)}
    together = break_evens(scenario, log, stops)
    assert together == {p: break_even(scenario, log, p, v) for p, v in stops.items()}


def test_states_agree_with_the_exact_engine_away_from_the_limit():
    scenario, log = demo("watering_valve")
    found = break_even(scenario, log, SIZE, [1.0, 2.0, 4.5, 8.0])
    for stop, state in zip(found.stops, found.states, strict=True):
        assert CODES[state] == CODES[exact_at("watering_valve", SIZE, stop).state], stop


def test_at_the_value_named_the_exact_verdict_really_changes():
    """The start may jump by a night between two stops; the gap is looked at again."""
    scenario, log = demo("soil_probe")
    found = break_even(scenario, log, LIGHT, STOPS)
    named = number_after(found.sentence, "marginal from")
    assert exact_at("soil_probe", LIGHT, 0.94 * named).state == "falls_short"
    assert exact_at("soil_probe", LIGHT, 1.06 * named).state != "falls_short"

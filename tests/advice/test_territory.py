"""Territory: a map whose every place says what the design there would do."""

from dataclasses import replace

import numpy as np
import pytest

from explorer.advice.break_even import break_even
from explorer.advice.case import Case
from explorer.advice.fleet import fleet
from explorer.advice.stops import knob_paths, largest_phase, stops_of
from explorer.advice.territory import (
    axis_choices,
    axis_of,
    axis_stops,
    coarse,
    refined,
    row_of,
    territory,
)
from explorer.advice.verdict import CHECK_NAMES
from explorer.engine.course import Interrupted
from explorer.scenario.model import get_value, with_value
from tests.advice.demos import CODES, LOGGED, NAMES, demo, exact, judge_many, reserve_of
from tests.depth import THOROUGH, some


def axes(name):
    return {a.path: a for a in axis_choices(Case(*demo(name)))}


@pytest.mark.parametrize("name", NAMES)
def test_choices_are_named_apart_and_rise_around_the_present_design(name):
    scenario, log = demo(name)
    found = axes(name)
    labels = [a.label for a in found.values()]
    assert len(set(labels)) == len(labels) == len(axis_choices(Case(scenario, log))) >= 7
    for path, axis in found.items():
        values = np.array(axis.values)
        assert np.all(np.diff(values) > 0)
        now = get_value(scenario, path)
        now = log.mean_lit_lx if now is None else now
        assert values[0] <= now <= values[-1], path
        assert len(values) in (16, 64) or axis.as_sold
        for end in (values[0], values[-1]):
            with_value(scenario, path, int(end) if path == "panels.count" else float(end))


def test_panels_are_counted_on_an_axis():
    assert axes("soil_probe")["panels.count"].values == tuple(float(n) for n in range(1, 17))


def test_an_axis_stays_within_what_a_scenario_may_hold():
    scenario, _ = demo("soil_probe")
    axis = axis_of(scenario, "light.illuminance_lx", 1e-3, 1e9)
    assert axis.values[0] == pytest.approx(1.0)
    assert axis.values[-1] == pytest.approx(200_000.0)
    even = axis_of(scenario, "margins.closure_days", 0.0, 10.0, points=11)
    assert even.values == pytest.approx(range(11))


@pytest.mark.parametrize("count", [2, 9, 16, 40, 64, 100])
def test_a_coarse_axis_keeps_both_ends(count):
    fine = axes("soil_probe")["light.illuminance_lx"]
    rough = coarse(fine, count)
    assert (rough.values[0], rough.values[-1]) == (fine.values[0], fine.values[-1])
    assert set(rough.values) <= set(fine.values)
    assert len(rough.values) == min(count, 64)
    assert (rough.path, rough.label, rough.unit) == (fine.path, fine.label, fine.unit)


@pytest.mark.parametrize("name", some(NAMES, 2))
def test_every_place_is_judged_as_that_variant(name):
    scenario, log = demo(name)
    found = axes(name)
    size = next(p for p in found if p.startswith("store.capa"))
    columns, rows = (5, 4) if THOROUGH else (3, 2)
    x, y = coarse(found[size], columns), coarse(found["light.illuminance_lx"], rows)
    drawn = territory(Case(scenario, log), x, y)
    assert drawn.codes.shape == drawn.reserve.shape == (rows, columns)
    for j, lux in enumerate(y.values):
        for i, amount in enumerate(x.values):
            one = judge_many(scenario, log, {x.path: [amount], y.path: [lux]})
            assert drawn.codes[j, i] == one.codes[0]
            assert drawn.margin[j, i] == pytest.approx(float(one.margin[0]), rel=1e-9)
            assert drawn.reserve[j, i] == pytest.approx(float(one.reserve[0]), rel=1e-9)
            assert CHECK_NAMES[drawn.governing[j, i]] == CHECK_NAMES[one.governing[0]]


def within(axis):
    """All but the ends, where a store is cut off ten thousand times a week."""
    return replace(axis, values=axis.values[1:-1])


@pytest.mark.parametrize("name", ["soil_probe", "watering_valve", "plant_label", LOGGED])
def test_spot_checks_agree_with_the_exact_engine(name):
    scenario, log = demo(name)
    found = axes(name)
    size = next(p for p in found if p.startswith("store.capa"))
    if THOROUGH:
        points = 3 if name == LOGGED else 5
        x, y = (coarse(found[path], points) for path in (size, "light.illuminance_lx"))
    else:
        x, y = (within(coarse(found[path], 5)) for path in (size, "light.illuminance_lx"))
    drawn = territory(Case(scenario, log), x, y)
    seen = set()
    for j, lux in enumerate(y.values):
        for i, amount in enumerate(x.values):
            tried = with_value(with_value(scenario, x.path, amount), y.path, lux)
            verdict = exact(tried, log)
            seen.add(verdict.state)
            near = min(abs(m - 1) for c in verdict.checks for m in (c.margin, c.reserve)) < 0.05
            assert drawn.codes[j, i] == CODES[verdict.state] or near, (amount, lux)
            if verdict.state != "falls_short" and reserve_of(verdict) < 1.0:
                assert drawn.reserve[j, i] == pytest.approx(reserve_of(verdict), rel=0.1)
    assert len(seen) >= 2


def test_axes_may_be_exchanged():
    scenario, log = demo("soil_probe")
    found = axes("soil_probe")
    # The size is changed first either way, since it brings its own resistance.
    x, y = (coarse(found[p], 4) for p in ("store.capacitance_F", "store.esr_ohm"))
    one, other = territory(Case(scenario, log), x, y), territory(Case(scenario, log), y, x)
    np.testing.assert_allclose(one.reserve, other.reserve.T, rtol=1e-12)
    np.testing.assert_array_equal(one.codes, other.codes.T)


def never():
    return False


@pytest.mark.parametrize("name", some(["soil_probe", "vent_flap"], 2))
def test_near_a_limit_the_map_shows_what_the_exact_march_says(name):
    scenario, log = demo(name)
    found = axes(name)
    size = next(p for p in found if p.startswith("store.capa"))
    x, y = coarse(found[size], 12), coarse(found["light.illuminance_lx"], 12)
    drawn = territory(Case(scenario, log), x, y)
    *_, final = refined(Case(scenario, log), drawn, never)
    assert not drawn.sure.all()
    assert final.sure.all()
    for j, i in np.argwhere(~drawn.sure).tolist():
        tried = with_value(with_value(scenario, x.path, x.values[i]), y.path, y.values[j])
        verdict = exact(tried, log)
        assert final.codes[j, i] == CODES[verdict.state]
        assert CHECK_NAMES[final.governing[j, i]] == verdict.governing.name
    np.testing.assert_array_equal(final.codes[drawn.sure], drawn.codes[drawn.sure])


@pytest.mark.parametrize(("name", "other"), [
    ("soil_probe", "light.illuminance_lx"), ("soil_probe", "store.leakage_A"),
    ("vent_flap", "light.illuminance_lx"), ("plant_label", "light.illuminance_lx"),
])  # fmt: skip
def test_every_place_of_a_map_has_the_verdict_of_the_march(name, other):
    """Whoever judged it: near a limit the march did, elsewhere the batch decides alike."""
    scenario, log = demo(name)
    found = axes(name)
    size = next(p for p in found if p.startswith("store.capa"))
    x, y = (coarse(found[path], 9 if THOROUGH else 5) for path in (other, size))
    drawn = territory(Case(scenario, log), x, y)
    final = [drawn, *refined(Case(scenario, log), drawn, never)][-1]
    for j, amount in enumerate(y.values):
        for i, value in enumerate(x.values):
            # The size first: it brings a leakage of its own.
            tried = with_value(with_value(scenario, y.path, amount), x.path, value)
            assert final.codes[j, i] == CODES[exact(tried, log).state], (value, amount)
    assert len(np.unique(final.codes)) >= 2


def test_a_store_that_does_not_last_a_night_needs_no_march():
    """Whole rows of a map: what is cut off although it began full falls short in any light."""
    scenario, log = demo("soil_probe")
    lux = np.geomspace(300.0, 2000.0, 12)
    small = with_value(scenario, "store.capacitance_F", 0.9)
    found = fleet(Case(small), {"light.illuminance_lx": lux})
    nights = found.margins["dark"]
    assert (found.readings.falls & (nights > 0.5) & (nights < 0.9)).all()
    assert not found.codes.any()
    for value in lux[::4]:
        brighter = with_value(small, "light.illuminance_lx", float(value))
        assert exact(brighter, log).state == "falls_short"


def test_a_map_s_levels_lie_on_the_side_of_its_verdicts():
    """So that the lines are drawn where the colours change."""
    scenario, log = demo("soil_probe")
    found = axes("soil_probe")
    x, y = (coarse(found[p], 14) for p in ("store.capacitance_F", "light.illuminance_lx"))
    *_, final = refined(Case(scenario, log), territory(Case(scenario, log), x, y), never)
    np.testing.assert_array_equal(final.margin >= 1.0, final.codes >= 1)
    np.testing.assert_array_equal((final.reserve >= 1.0) & (final.margin >= 1.0), final.codes == 2)


def test_the_exact_march_stops_when_told():
    case = Case(*demo("soil_probe"))
    found = axes("soil_probe")
    x, y = (coarse(found[p], 12) for p in ("store.capacitance_F", "light.illuminance_lx"))
    assert list(refined(case, territory(case, x, y), lambda: True)) == []
    with pytest.raises(Interrupted):
        row_of(case, x, lambda: True)


def test_a_row_of_the_map_has_the_edges_that_the_knob_names():
    case = Case(*demo("soil_probe"))
    for path in some(knob_paths(case.scenario), 2):
        axis = next(a for a in axis_choices(case) if a.path == path)
        works, runs = row_of(case, axis)
        knob = break_even(Case(*demo("soil_probe")), path, stops_of(path))
        assert (works, runs) == (knob.works, knob.runs)


@pytest.mark.parametrize("name", NAMES)
def test_along_every_axis_there_are_values_to_look_between(name):
    scenario, _ = demo(name)
    for axis in axes(name).values():
        stops = axis_stops(scenario, axis)
        assert len(stops) >= 12
        assert list(stops) == sorted(set(stops))


def test_the_largest_phase_is_the_one_that_draws_most():
    scenario, _ = demo("soil_probe")
    assert scenario.load.operations[0].phases[largest_phase(scenario, 0)].name == "send"
    flap, _ = demo("vent_flap")
    # 22 Ω at the 3.9 V at which it connects takes more than the 60 mA of the turning motor.
    assert largest_phase(flap, 0) == 0

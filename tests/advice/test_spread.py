"""Spread: what tolerances do to built devices, the same answer to the same question."""

from dataclasses import replace

import numpy as np
import pytest

from explorer.advice.asked import verdict_with
from explorer.advice.case import Case
from explorer.advice.spread import (
    LIGHT_SPREAD,
    confirmed,
    default_tolerances,
    drawn_values,
    spread,
)
from explorer.advice.verdict import CHECK_NAMES
from explorer.engine.course import Interrupted
from explorer.scenario.model import get_value, with_value
from explorer.scenario.supply import SheetPoint
from tests.advice.demos import CODES, LOGGED, NAMES, demo, exact, reserve_of
from tests.depth import THOROUGH

BUILDS = 400


def scaled(tolerances, factor):
    return tuple(replace(t, amount=t.amount * factor) for t in tolerances)


def runs_well(**values):
    """A probe that runs with a little to spare."""
    scenario, log = demo("soil_probe")
    for path, value in {"store.capacitance_F": 1.9, **values}.items():
        scenario = with_value(scenario, path, value)
    assert exact(scenario, log).state == "runs"
    return scenario, log


@pytest.mark.parametrize("name", NAMES)
def test_tolerances_fit_the_parts_of_the_design(name):
    scenario, _ = demo(name)
    found = default_tolerances(scenario)
    assert len({t.path for t in found}) == len(found)
    assert len({t.label for t in found}) == len(found)
    for tolerance in found:
        get_value(scenario, tolerance.path)
        assert tolerance.amount > 0
    light = next(t for t in found if t.path == "light.illuminance_lx")
    assert light.amount == LIGHT_SPREAD[scenario.light.known_by]


@pytest.mark.parametrize(("name", "path"), [
    ("north_door_counter", "light.ambient_C"), ("seminar_room_co2", "charger.voc_fraction"),
])  # fmt: skip
def test_what_counts_for_nothing_in_a_design_varies_nothing(name, path):
    """Months have temperatures of their own; a tracker of the best point has no fraction."""
    scenario, _ = demo(name)
    assert path not in {t.path for t in default_tolerances(scenario)}
    counted = {t.path for t in default_tolerances(demo("soil_probe")[0])}
    assert {"light.ambient_C", "charger.voc_fraction"} & counted


def test_a_panel_without_a_data_sheet_may_be_any_that_is_sold():
    scenario, _ = demo("soil_probe")
    sold = next(t for t in default_tolerances(scenario) if t.path == "panels.active_area_cm2")
    # The weakest amorphous module gives 3.0 where the usual one gives 4.8 µW/cm² at 200 lx
    assert sold.amount == pytest.approx(1.0 - 3.0 / 4.8, abs=0.04)
    measured = with_value(scenario, "panels.data_sheet", [SheetPoint().model_dump()])
    assert "panels.active_area_cm2" not in {t.path for t in default_tolerances(measured)}


@pytest.mark.parametrize("name", NAMES)
def test_every_demonstration_gives_finite_numbers(name):
    scenario, log = demo(name)
    found = spread(Case(scenario, log), default_tolerances(scenario), builds=BUILDS)
    assert found.builds == BUILDS == len(found.reserve) == len(found.margin)
    assert np.all(np.isfinite(found.reserve))
    assert np.all(np.isfinite(found.margin))
    assert not np.any(np.isnan(found.first_charge_s))
    assert 0.0 <= found.runs.low <= found.works.high <= 1.0
    assert set(found.governing.tolist()) <= set(range(len(CHECK_NAMES)))
    assert sum(i.share for i in found.influences) == pytest.approx(1.0)
    shares = [i.share for i in found.influences]
    assert shares == sorted(shares, reverse=True)


def test_the_same_seed_gives_the_same_units():
    scenario, log = demo("soil_probe")
    tolerances = default_tolerances(scenario)
    one, two, other = (
        spread(Case(scenario, log), tolerances, builds=BUILDS, seed=s) for s in (1, 1, 2)
    )
    np.testing.assert_array_equal(one.reserve, two.reserve)
    assert one.influences == two.influences
    assert not np.array_equal(one.reserve, other.reserve)
    assert other.works.high == pytest.approx(one.works.high, abs=0.05)


def test_units_are_judged_alike_in_chunks_and_together(monkeypatch):
    scenario, log = demo("watering_valve")
    tolerances = default_tolerances(scenario)
    whole = spread(Case(scenario, log), tolerances, builds=150)
    monkeypatch.setattr("explorer.advice.spread.CHUNK", 64)
    parts = spread(Case(scenario, log), tolerances, builds=150)
    np.testing.assert_allclose(parts.reserve, whole.reserve, rtol=1e-9)


def test_units_without_tolerances_are_all_as_designed():
    scenario, log = runs_well()
    for tolerances in ((), scaled(default_tolerances(scenario), 0.0)):
        found = spread(Case(scenario, log), tolerances, builds=50)
        assert np.all(found.codes == 2)
        assert float(found.reserve[0]) == pytest.approx(
            reserve_of(exact(scenario, log)), rel=0.05
        )


def test_wider_tolerances_leave_fewer_that_run():
    scenario, log = runs_well()
    tolerances = default_tolerances(scenario)
    shares = [
        np.mean(spread(Case(scenario, log), scaled(tolerances, f), builds=BUILDS).codes == 2)
        for f in (0.02, 1.0, 2.5)
    ]
    assert shares[0] == 1.0
    assert shares[0] > shares[1] > shares[2]


def test_light_ranks_first_where_light_governs():
    """With a store that never fails, how much light there is decides when it first starts.

    The time is farads over light: light that a phone has read (40 %) outweighs the store (20 %).
    """
    scenario, log = runs_well(**{"store.capacitance_F": 3.0, "light.illuminance_lx": 310.0,
                                 "margins.start_within_h": 300.0})
    scenario = with_value(scenario, "light.known_by", "phone_or_lamp_data")
    tolerances = default_tolerances(scenario)
    found = spread(Case(scenario, log), tolerances, builds=BUILDS)
    assert CHECK_NAMES[int(np.bincount(found.governing).argmax())] in ("starts", "balance")
    # A panel that nobody has chosen yet matters about as much as such light.
    assert {i.path for i in found.influences[:2]} == {
        "panels.active_area_cm2", "light.illuminance_lx"
    }
    chosen = tuple(t for t in tolerances if t.path != "panels.active_area_cm2")
    known = spread(Case(scenario, log), chosen, builds=BUILDS)
    assert known.influences[0].path == "light.illuminance_lx"
    assert known.influences[0].share > 0.35


def test_an_aged_store_runs_less_often_than_a_new_one():
    scenario, log = runs_well()
    tolerances = default_tolerances(scenario)
    new, aged = (
        spread(Case(scenario, log), tolerances, builds=BUILDS, years=y) for y in (0.0, 10.0)
    )
    assert (new.years, aged.years) == (0.0, 10.0)
    assert np.mean(aged.codes == 2) < np.mean(new.codes == 2)
    assert np.median(aged.reserve) < np.median(new.reserve)


@pytest.mark.parametrize("name", [LOGGED, "soil_probe"])
def test_values_stay_within_their_tolerance_and_favour_the_middle(name):
    scenario, log = demo(name)
    tolerances = default_tolerances(scenario)
    drawn = drawn_values(Case(scenario, log), tolerances, 4000, seed=3)
    for tolerance in tolerances:
        nominal = get_value(scenario, tolerance.path)
        nominal = log.mean_lit_lx if nominal is None else nominal
        reach = tolerance.amount * (nominal if tolerance.kind == "relative" else 1.0)
        off = (drawn[tolerance.path] - nominal) / reach
        if tolerance.path == "light.cover_factor":
            off = off[off < 0.0]  # nothing lets more light through than an open window
        assert np.all(np.abs(off) <= 1.0 + 1e-9)
        assert np.mean(np.abs(off) < 0.5) == pytest.approx(0.75, abs=0.12), tolerance.path


def test_capacitance_that_comes_out_low_does_not_raise_the_resistance():
    """Tolerance is not a walk along a maker's range: resistance has a spread of its own."""
    scenario, log = demo("vent_flap")
    only = tuple(t for t in default_tolerances(scenario) if t.path == "store.capacitance_F")
    found = spread(Case(scenario, log), only, builds=200)
    ranged = spread(
        Case(scenario, log), tuple(replace(t, path="store.esr_ohm") for t in only), builds=200
    )
    assert np.ptp(found.margin) >= 0.0
    assert [i.path for i in ranged.influences] == ["store.esr_ohm"]


@pytest.fixture(scope="module")
def near_the_limit():
    """Units of a design on its limit, what is made of them, and what the exact march says."""
    scenario, log = demo("soil_probe")
    case = Case(scenario, log)
    few = scaled(default_tolerances(scenario), 0.4)
    found = spread(case, few, builds=90 if THOROUGH else 60)
    truth = []
    for i in range(found.builds):
        verdict = verdict_with(case, {path: float(v[i]) for path, v in found.values.items()})
        truth.append(0 if verdict is None else CODES[verdict.state])
    return found, np.array(truth)


def test_units_near_a_limit_are_judged_by_the_exact_march(near_the_limit):
    found, truth = near_the_limit
    final = confirmed(found)
    assert final.judged == np.sum(~(found.works_sure & found.runs_sure)) > 10
    np.testing.assert_array_equal(final.codes, truth)
    assert final.runs.low == final.runs.high == pytest.approx(np.mean(truth == 2))
    assert final.works.low == final.works.high == pytest.approx(np.mean(truth >= 1))


@pytest.mark.parametrize("most", [0, 12, 44])
def test_what_remains_undecided_is_a_range_that_holds_the_truth(near_the_limit, most):
    found, truth = near_the_limit
    final = confirmed(found, most=most)
    assert final.judged <= most
    for share, code in ((final.runs, 2), (final.works, 1)):
        assert share.low <= np.mean(truth >= code) <= share.high
    before = found.runs.high - found.runs.low
    assert final.runs.high - final.runs.low <= before
    assert before > 0.0


def test_what_was_seen_of_some_units_decides_others(near_the_limit):
    found, _ = near_the_limit
    final = confirmed(found, most=44)
    undecided = np.sum(~(final.works_sure & final.runs_sure))
    assert undecided < np.sum(~(found.works_sure & found.runs_sure)) - final.judged


def test_the_exact_judging_of_units_stops_when_told(near_the_limit):
    with pytest.raises(Interrupted):
        confirmed(near_the_limit[0], lambda: True)

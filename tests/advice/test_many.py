"""Many variants at once are judged as each would be alone."""

from functools import cache

import numpy as np
import pytest

from explorer.advice.answers import answers
from explorer.advice.case import Case
from explorer.advice.criteria import RUNS, WORKS
from explorer.advice.fleet import fleet as fleet_of
from explorer.advice.fleet import gathered_log, with_gathered_log
from explorer.advice.judge import judge
from explorer.advice.spread import default_tolerances
from explorer.advice.territory import axis_choices, coarse
from explorer.advice.variants import varied
from explorer.advice.verdict import CHECK_NAMES
from explorer.engine.system import WEEK_S
from explorer.scenario.course import light_course
from explorer.scenario.demand import Load
from explorer.scenario.light import Light, LogPattern, SteadyPattern
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario, get_value, with_value
from explorer.scenario.storage import CapacitorStore
from explorer.scenario.supply import DirectCharger
from tests.advice.demos import CODES, LOGGED, NAMES, demo, exact, exact_at, judge_many, reserve_of
from tests.depth import THOROUGH, some

AGREE = 0.05
"""Share by which a margin below 3 may differ from the exact one where a design does not fail."""
CLOSE = 0.05
"""Share of a limit within which the batch and the exact engine may part."""
NIGHT_S = 16 * 3600.0


def same(a, b):
    for name in CHECK_NAMES:
        np.testing.assert_allclose(a.margins[name], b.margins[name], rtol=1e-9, err_msg=name)
    np.testing.assert_allclose(a.first_charge_s, b.first_charge_s, rtol=1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_a_demonstration_is_judged_as_by_the_exact_engine(name):
    scenario, log = demo(name)
    fleet, verdict = judge_many(scenario, log, {}), exact(scenario, log)
    assert int(fleet.codes[0]) == CODES[verdict.state]
    for check in verdict.checks:
        if check.name in ("dark", "pulse") and not np.isfinite(fleet.first_charge_s[0]):
            continue  # The course of what never starts is a beginning that nobody sees.
        ours = float(fleet.margins[check.name][0])
        if check.margin < 3.0 or ours < 3.0:
            assert ours == pytest.approx(check.margin, rel=AGREE, abs=1e-3), check.name
        else:
            assert ours == pytest.approx(check.margin, rel=0.15), check.name


def around(name, points=4):
    scenario, log = demo(name)
    for axis in axis_choices(Case(scenario, log)):
        values = np.array(coarse(axis, points + 2).values)[1:-1]
        fleet = judge_many(scenario, log, {axis.path: values})
        for i, value in enumerate(values):
            whole = axis.path == "panels.count"
            tried = with_value(scenario, axis.path, int(value) if whole else float(value))
            yield axis.path, value, exact(tried, log), fleet, i


@pytest.mark.parametrize("name", some(NAMES, 2))
def test_variants_around_a_demonstration_get_the_exact_verdict(name):
    """Codes may part only near a limit, and margins of designs that work by a few percent."""
    seen = parted = 0
    points = 3 if THOROUGH and name != LOGGED else 2
    for path, value, verdict, fleet, i in around(name, points):
        where = f"{path} = {value:g}"
        seen += 1
        if int(fleet.codes[i]) != CODES[verdict.state]:
            parted += 1
            theirs = [x for c in verdict.checks for x in (c.margin, c.reserve)]
            assert min(abs(x - 1.0) for x in theirs) < CLOSE, where
        if verdict.state == "falls_short":
            continue
        for check in verdict.checks:
            ours = float(fleet.margins[check.name][i])
            if check.name == "starts":
                # A start that just misses an evening comes the next morning.
                late = abs(float(fleet.first_charge_s[i]) - check.value)
                assert late < max(0.12 * check.value, NIGHT_S), where
            elif check.margin < 3.0:
                assert ours == pytest.approx(check.margin, rel=0.12), (where, check.name)
        governs = {verdict.governing.name, CHECK_NAMES[fleet.governing[i]]}
        if reserve_of(verdict) < 2.0 and "starts" not in governs:
            assert float(fleet.reserve[i]) == pytest.approx(reserve_of(verdict), rel=0.12), where
    assert seen > 10
    assert parted <= 0.1 * seen


@cache
def varied_in(name):
    """What a spread or a map of a demonstration may vary."""
    scenario, log = demo(name)
    paths = {t.path for t in default_tolerances(scenario)}
    return sorted(paths | {a.path for a in axis_choices(Case(scenario, log))})


def share_of(name):
    """Its share of that: what several demonstrations have in common falls to one of them."""
    found = []
    for turn, path in enumerate(sorted({p for other in NAMES for p in varied_in(other)})):
        having = [other for other in NAMES if path in varied_in(other)]
        if name == having[turn % len(having)]:
            found.append(path)
    return found


@pytest.mark.parametrize("name", NAMES)
def test_values_side_by_side_are_judged_as_one_by_one(name):
    """Every quantity that a spread or a map may vary builds arrays without mixing its rows."""
    scenario, log = demo(name)
    assert len(varied_in(name)) > 12
    for path in varied_in(name) if THOROUGH else share_of(name):
        now = get_value(scenario, path)
        now = log.mean_lit_lx if now is None else float(now)
        values = np.array([0.9, 1.1]) * now if now else np.array([1.0, 2.0])
        if path == "panels.count":
            values = np.array([1.0, now + 1.0])
        together = judge_many(scenario, log, {path: values})
        alone = judge_many(scenario, log, {path: values[1:]})
        for check in CHECK_NAMES:
            assert together.margins[check][1] == pytest.approx(
                alone.margins[check][0], rel=1e-7, abs=1e-12
            ), (path, check)


def test_several_quantities_at_once_are_judged_as_a_scenario_that_has_them():
    scenario, log = demo("soil_probe")
    changes = {"store.capacitance_F": 2.0, "light.illuminance_lx": 350.0, "load.sleep_A": 4e-6}
    built = scenario
    for path, value in changes.items():
        built = with_value(built, path, value)
    many = judge_many(scenario, log, {p: [v, 1.01 * v] for p, v in changes.items()})
    one = judge_many(built, log, {})
    for name in CHECK_NAMES:
        assert many.margins[name][0] == pytest.approx(one.margins[name][0], rel=1e-9)


def test_a_larger_store_brings_its_own_resistance_and_leakage():
    scenario, _ = demo("soil_probe")
    grown = varied(scenario, {"store.capacitance_F": [3.0]}).store
    assert grown.esr_ohm.item() == pytest.approx(scenario.store.esr_ohm / 2.0)
    assert grown.leakage_A.item() == pytest.approx(scenario.store.leakage_A * 2.0)


@pytest.mark.parametrize("path", ["store.leakage_A", "light.illuminance_lx"])
def test_the_numbers_of_the_caller_stay_as_they_are(path):
    scenario, log = demo("watering_valve")
    values = np.array([1.0, 1.5]) * get_value(scenario, path)
    before = values.copy()
    same(judge_many(scenario, log, {path: values}), judge_many(scenario, log, {path: before}))
    np.testing.assert_array_equal(values, before)


def test_pulses_inside_a_window_spare_the_dark_outside_it():
    """The counter sleeps from closing time to Tuesday: a mean load would empty it sooner."""
    verdict = exact_at("door_counter", "panels.count", 6)
    dark = next(c for c in verdict.checks if c.name == "dark")
    fleet = judge_many(*demo("door_counter"), {"panels.count": [6.0]})
    assert float(fleet.margins["dark"][0]) == pytest.approx(dark.margin, rel=0.03)


def test_beyond_a_week_in_the_dark_a_window_counts_by_its_mean():
    scenario, log = demo("door_counter")
    large = with_value(scenario, "store.capacitance_F", 10.0 * scenario.store.size)
    lasts = answers(Case(large, log))["dark_time_s"]
    assert lasts > 1.2 * WEEK_S
    found = fleet_of(Case(large, log), {"panels.count": [1, 2]}, with_answers=True)
    assert found.answers["dark_time_s"] == pytest.approx(np.full(2, lasts), rel=0.02)


def test_a_run_that_waits_for_its_voltage_begins_there():
    for ohm in (4.6, 10.0, 22.0):
        verdict = exact_at("vent_flap", "load.operations.0.phases.0.resistance_ohm", ohm)
        fleet = judge_many(
            *demo("vent_flap"), {"load.operations.0.phases.0.resistance_ohm": [ohm]}
        )
        assert int(fleet.codes[0]) == CODES[verdict.state]
    small = judge_many(*demo("vent_flap"), {"store.capacitance_F": [0.012, 0.033]})
    assert small.margins["service"][0] == 0.0
    assert small.margins["service"][1] >= 1.0
    assert exact_at("vent_flap", "store.capacitance_F", 0.012).state == "falls_short"


# ---- how a fleet is read --------------------------------------------------------------------


def test_reserve_code_and_reason_fit_together():
    scenario, log = demo("soil_probe")
    fleet = judge_many(scenario, log, {"store.capacitance_F": np.geomspace(0.3, 30.0, 40)})
    assert set(fleet.codes.tolist()) == {0, 1, 2}
    for i, code in enumerate(fleet.codes):
        margins = {n: float(fleet.margins[n][i]) for n in CHECK_NAMES}
        reserves = {n: margins[n] / float(fleet.wanted[n][i]) for n in CHECK_NAMES}
        expected = 0 if min(margins.values()) < 1 else 2 if min(reserves.values()) >= 1 else 1
        assert code == expected
        counted = [n for n in CHECK_NAMES if n not in ("ratings", "service") or margins[n] < 1]
        assert fleet.reserve[i] == pytest.approx(min(reserves[n] for n in counted))
        assert fleet.margin[i] == pytest.approx(min(margins[n] for n in counted))
        failing = [n for n in counted if margins[n] < 1.0] or counted
        assert CHECK_NAMES[fleet.governing[i]] == min(failing, key=reserves.get)


@pytest.mark.parametrize("name", NAMES)
def test_the_check_that_governs_is_the_one_that_the_sign_names(name):
    scenario, log = demo(name)
    for changes in ({}, {"light.illuminance_lx": 130.0}, {"margins.closure_days": 8.0}):
        tried = scenario
        for path, value in changes.items():
            tried = with_value(tried, path, value)
        verdict = exact(tried, log)
        found = CHECK_NAMES[int(judge_many(tried, log, {}).governing[0])]
        ours = next(c for c in verdict.checks if c.name == found)
        theirs = verdict.governing
        assert ours.state == theirs.state
        assert ours.reserve == pytest.approx(theirs.reserve, abs=0.05)


def test_promise_tells_apart_variants_that_all_fail():
    scenario, log = demo("door_counter")
    fleet = judge_many(scenario, log, {"light.illuminance_lx": [10.0, 60.0, 150.0]})
    assert np.all(fleet.codes == 0)
    assert np.all(np.diff(fleet.promise) > 0)


# ---- logs -----------------------------------------------------------------------------------


def test_a_gathered_log_brings_the_same_light_in_a_few_levels():
    _, log = demo(LOGGED)
    found = gathered_log(log)
    assert found.lux_hours == pytest.approx(log.lux_hours, rel=1e-9)
    assert found.duration_s == log.duration_s
    assert len(found.illuminance_lx) < 200 < len(log.illuminance_lx)
    assert len(np.unique(found.illuminance_lx)) <= 9


def test_a_gathered_log_keeps_its_dark_stretches_as_they_were_read():
    """A lamp that flickers, and is out for 23 and for 41 minutes, across the hour."""
    rng = np.random.default_rng(3)
    lux = 300.0 * rng.uniform(0.9, 1.1, 48 * 60)
    for first, minutes in ((47, 23), (700, 41), (1500, 23), (2005, 7)):
        lux[first : first + minutes] = 0.0
    log = LightLog(
        time_s=60.0 * np.arange(lux.size + 1), illuminance_lx=lux, start=None, step_s=60.0
    )
    found = gathered_log(log)
    dark = np.diff(found.time_s)[found.illuminance_lx == 0.0] / 60.0
    assert dark.tolist() == [23.0, 41.0, 23.0, 7.0]
    assert len(found.illuminance_lx) < 40
    store = CapacitorStore(capacitance_F=0.05, rated_V=6.3, esr_ohm=0.1, leakage_A=1e-6)
    load = Load(connect_V=3.0, disconnect_V=2.5, minimum_V=2.4, sleep_A=4e-5, operations=())
    light = Light(illuminance_lx=900.0, pattern=LogPattern())
    scenario = Scenario(light=light, store=store, load=load)
    margin = next(c.margin for c in exact(scenario, log).checks if c.name == "dark")
    assert 0.3 < margin < 3.0
    ours = judge_many(scenario, log, {}).margins["dark"]
    assert ours == pytest.approx([margin], rel=AGREE)


def test_a_gathered_log_keeps_the_level_that_was_set():
    scenario, log = demo(LOGGED)
    for lux in (None, 150.0):
        given = scenario.model_copy(
            update={"light": scenario.light.model_copy(update={"illuminance_lx": lux})}
        )
        light = [
            light_course(s.light, s.panels, found)
            for s, found in ((given, log), with_gathered_log(given, log))
        ]
        amps = [float(c.photocurrent_a @ np.diff(c.edges_s)) for c in light]
        assert amps[1] == pytest.approx(amps[0], rel=1e-9)


def test_asking_only_what_runs_gives_the_same_answer():
    """And the same margins, first charge included, wherever a variant does run."""
    seen = []
    for name in NAMES:
        scenario, log = demo(name)
        for axis in some(axis_choices(Case(scenario, log)), 3):
            values = np.array(coarse(axis, 7).values)
            whole, short = (
                judge_many(scenario, log, {axis.path: values}, only_runs=short)
                for short in (False, True)
            )
            runs = whole.reserve >= 1.0
            np.testing.assert_array_equal(short.reserve >= 1.0, runs)
            for check in CHECK_NAMES:
                np.testing.assert_allclose(short.margins[check][runs], whole.margins[check][runs])
            seen += runs.tolist()
    assert min(seen.count(True), seen.count(False)) > 20


def test_a_store_that_never_reaches_its_connect_voltage_needs_no_march():
    """Nor where its course from a full store would be cut off now and then, which is unsure."""
    lux = np.geomspace(150.0, 400.0, 24)
    case = Case(with_value(demo("watering_valve")[0], "panels.count", 2))
    seen = fleet_of(case, {"light.illuminance_lx": lux})
    never = np.isinf(seen.readings.ready_s)
    assert 5 < never.sum() < len(lux)
    assert seen.sure[never][:-1].all()
    assert (seen.codes[never] == 0).all()
    for k in np.flatnonzero(never)[::6].tolist():
        verdict = judge(case.with_value("light.illuminance_lx", float(lux[k])))
        assert verdict.state == "falls_short"
        assert verdict.checks[0].margin == 0.0


def test_what_just_misses_an_evening_may_start_a_night_later():
    """Of many lights those are left to the march in which a first charge ends about dusk."""
    scenario, _ = demo("soil_probe")
    three = with_value(scenario, "panels.count", 3)
    lux = np.concatenate([np.linspace(240.0, 250.0, 5), np.linspace(251.35, 252.05, 15)])
    found = fleet_of(Case(three), {"light.illuminance_lx": lux})
    sure = WORKS.seen(found)[2] & RUNS.seen(found)[2]
    assert 5 <= np.count_nonzero(~sure) < len(lux)
    codes = [CODES[judge(Case(with_value(three, "light.illuminance_lx", x))).state] for x in lux]
    assert set(codes) == {0, 1}
    np.testing.assert_array_equal(found.codes[sure], np.array(codes)[sure])
    assert (found.codes != codes).any()  # so it is worth the march


def test_a_first_charge_that_dies_away_at_its_connect_is_known_less_well():
    dim = Light(illuminance_lx=100.0, pattern=SteadyPattern())

    def within(connect_v):
        load = Load(connect_V=connect_v, disconnect_V=1.0, minimum_V=1.0)
        found = fleet_of(Case(Scenario(light=dim, charger=DirectCharger(), load=load)), {})
        assert np.isfinite(found.first_charge_s).all()
        return float(found.readings.within["starts"][0])

    assert within(3.0) < 0.5 * within(4.8)

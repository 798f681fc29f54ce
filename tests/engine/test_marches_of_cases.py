"""Marches of designs that are hard to follow; figures from `tests.outside.reference_ode`.

The reference steps the equations of the parts event by event and knows no skipped turns.
"""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from explorer.engine import at_full, repeats
from explorer.engine.audit import ledger
from explorer.engine.course import Standing
from explorer.engine.march import Engine
from explorer.engine.trace import Trace
from explorer.files.scenario_json import load_scenario
from explorer.physics.load import Draw
from explorer.scenario.build import build
from explorer.scenario.model import with_value
from tests.engine.systems import (
    AMORPHOUS,
    SCHOTTKY,
    bank,
    converter,
    load,
    pulse,
    steady,
    system,
)

CASES = Path(__file__).parents[1] / "cases"
WEEK_S = 604_800.0


def marched(name, span_s, **changes):
    scenario = load_scenario(CASES / f"{name}.json").scenario
    for path, value in changes.items():
        scenario = with_value(scenario, path.replace("__", "."), value)
    engine = Engine(build(scenario))
    return engine, engine.march(span_s)


@pytest.mark.parametrize("interval_s", [1.031, 1.036, 1.045])
def test_a_store_that_hovers_just_above_its_cut_off_is_not_walked(interval_s):
    """Between the last two nodes above it; the walk, pulse by pulse, is what is right."""
    name, path = "steady_light_that_just_holds", "load.operations.0.schedule.interval_s"
    scenario = with_value(load_scenario(CASES / f"{name}.json").scenario, path, interval_s)
    system_ = build(scenario)
    quick, slow = (Engine(system_, compose=c) for c in (True, False))
    one, two = quick.march(4000.0), slow.march(4000.0)
    assert len(one.legs) < 20 < len(two.legs)
    assert one.tally.served == two.tally.served
    assert one.tally.cut_offs == two.tally.cut_offs == 0
    assert volts(quick, one.end.charge_c) == pytest.approx(volts(slow, two.end.charge_c), abs=5e-5)


def volts(engine, charge_c):
    return float(engine.field.voltage_at(charge_c))


def unfolded(legs):
    for leg in legs:
        if leg.repeats is None:
            yield leg
        else:
            yield from unfolded(leg.repeats.legs)


def test_a_device_whose_store_fills_while_it_may_not_connect_comes_back_after_the_delay():
    engine, run = marched("retry_longer_than_charge", 4.8 * 3600.0)
    assert run.tally.served == [29.0]
    assert (run.tally.cut_offs, run.tally.connects) == (1.0, 2.0)
    cut_s = next(e.time_s for e in run.events if e.kind == "brown_out")
    back_s = [e.time_s for e in run.events if e.kind == "connect"][1]
    assert back_s - cut_s == pytest.approx(60.0, abs=1e-6)
    assert run.tally.connected_s == pytest.approx(17_209.5797, abs=1e-3)
    assert volts(engine, run.end.charge_c) == pytest.approx(4.482836, abs=2e-5)


def test_a_delay_that_ends_between_full_and_resume_is_kept_as_well():
    """Turns within the wait for an attempt are too long to be skipped three at a time."""
    for delay_s in (20.0, 30.0, 45.0):
        _, run = marched("retry_longer_than_charge", 3600.0, load__retry_delay_s=delay_s)
        assert run.tally.connects == 2.0
        assert run.tally.served == [6.0]


def test_a_device_that_is_cut_off_every_minute_is_cut_off_every_minute():
    engine, run = marched("cut_off_every_minute", 7200.0)
    assert (run.tally.connects, run.tally.cut_offs, run.tally.served) == (120.0, 120.0, [0.0])
    assert run.tally.connected_s == pytest.approx(5.93380, abs=1e-4)
    assert volts(engine, run.end.charge_c) == pytest.approx(4.472539, abs=2e-5)
    _, week = marched("cut_off_every_minute", WEEK_S)
    assert week.tally.cut_offs == pytest.approx(WEEK_S / 60.05, rel=1e-3)
    assert week.span_s == pytest.approx(WEEK_S)


def test_pulses_larger_than_the_band_of_a_full_store_are_followed_exactly():
    engine, run = marched("full_and_resume_with_pulses", 7200.0)
    assert run.tally.served == [12.0]
    assert volts(engine, run.end.charge_c) == pytest.approx(4.479164, abs=2e-5)


def test_a_store_that_cycles_at_full_is_never_lower_than_its_pulses_take_it():
    engine, opening = marched("full_and_resume_with_pulses", WEEK_S)
    run = engine.march(WEEK_S, opening.end)
    found = Trace(engine, run).extremes()
    # Pulses begin between 4.45 and 4.5 V and take 1 mC out of 2.2 mF.
    assert 4.45 - 1e-3 / 2.2e-3 - 1e-3 < found.lowest_store_v < 4.5 - 1e-3 / 2.2e-3
    assert found.lowest_store_v == pytest.approx(4.0251, abs=2e-3)
    assert found.lowest_terminal_v == pytest.approx(4.0232, abs=2e-3)
    assert found.highest_store_v == pytest.approx(4.5, abs=1e-9)


def test_skipped_intervals_of_a_full_store_are_counted_and_paid_for():
    engine, run = marched("full_and_resume_with_pulses", WEEK_S)
    walker = Engine(engine.system, compose=False)
    walked = walker.march(WEEK_S)
    assert len(run.legs) < 100 < len(walked.legs)
    assert run.tally.served == walked.tally.served == [1008.0]
    assert run.tally.full_s == pytest.approx(walked.tally.full_s, rel=1e-6)
    assert run.end.charge_c == pytest.approx(walked.end.charge_c, rel=1e-6)
    one, other = ledger(engine, run), ledger(walker, walked)
    assert one.operations_j == pytest.approx(other.operations_j, rel=1e-6)
    assert one.panel_taken_j == pytest.approx(other.panel_taken_j, rel=1e-5)
    assert abs(one.residual_j) < 1e-5 * one.turned_over_j


def test_pulses_that_never_come_alike_stay_between_their_own_bounds(monkeypatch):
    """There turns are taken with the mean of their pulses; the lowest is a pulse at resume."""
    monkeypatch.setattr(at_full, "full_again", lambda *_: None)
    engine, opening = marched("full_and_resume_with_pulses", WEEK_S, store__capacitance_F=0.22)
    run = engine.march(WEEK_S, opening.end)
    assert any(leg.averages for leg in unfolded(run.legs))
    found = Trace(engine, run).extremes()
    assert 4.45 - 1e-3 / 0.22 - 1e-3 < found.lowest_store_v <= 4.45


@pytest.mark.parametrize(
    "changes", [{"store__capacitance_F": 4.95e-4}, {"store__esr_ohm": 100.9}]
)
@pytest.mark.parametrize("walked_first", [32, 0])
def test_a_pulse_that_only_a_full_store_carries_is_not_taken_with_its_mean(
    changes, walked_first, monkeypatch
):
    """Pulses of 2.02 V: from full the terminals keep 2.48 V, from resume 2.43 V; off is 2.45 V."""
    monkeypatch.setattr(at_full, "MOST_WALKED", walked_first)
    engine, run = marched(
        "full_and_resume_with_pulses", 21_600.0, load__disconnect_V=2.45, **changes
    )
    walked = Engine(engine.system, compose=False).march(21_600.0)
    assert walked.tally.cut_offs > 0
    assert run.tally.cut_offs == walked.tally.cut_offs
    assert run.tally.served == walked.tally.served


@pytest.mark.parametrize(("sleep_a", "interval_s"), [(1e-8, 600.0), (2e-6, 9.0)])
def test_a_full_store_that_rests_between_its_pulses_is_followed_exactly(sleep_a, interval_s):
    """It falls too slowly, or for too short a time, to reach resume before the next pulse."""
    scenario = load_scenario(CASES / "full_and_resume_with_pulses.json").scenario
    device = scenario.load
    schedule = device.operations[0].schedule.model_copy(update={"interval_s": interval_s})
    one = device.operations[0].model_copy(update={"schedule": schedule})
    device = device.model_copy(update={"operations": (one,), "sleep_A": sleep_a})
    engine = Engine(build(scenario.model_copy(update={"load": device})))
    run, walked = (e.march(7200.0) for e in (engine, Engine(engine.system, compose=False)))
    assert len(run.legs) < len(walked.legs)
    assert run.tally.served == walked.tally.served
    assert run.end.charge_c == pytest.approx(walked.end.charge_c, rel=1e-6)
    assert run.tally.full_s == pytest.approx(walked.tally.full_s, rel=1e-6)


def test_a_device_that_is_cut_off_between_full_and_resume_is_cut_off_there(monkeypatch):
    """Off at 4.47 V, charging again at 4.45 V, on again at 4.49 V."""
    given_ = system(
        light=steady(1e-4), panel=AMORPHOUS, charger=SCHOTTKY, full_v=4.5,
        store=bank(1e-3, leakage_a=2e-6),
        full_hysteresis_v=0.05,
        load=load(connect_v=4.49, off_v=4.47, sleep=Draw(current_a=2e-6), retry_delay_s=1.0),
    )
    engine, begin = Engine(given_), Standing(charge_c=4.5e-3, connected=True, charging=False)
    run = engine.march(3600.0, begin)
    monkeypatch.setattr(at_full, "full_turns", lambda *_: None)
    monkeypatch.setattr(repeats, "turns", lambda *_: None)
    walked = engine.march(3600.0, begin)
    assert walked.tally.cut_offs > 50.0
    assert run.tally.cut_offs == walked.tally.cut_offs
    assert run.tally.connected_s == pytest.approx(walked.tally.connected_s, rel=1e-6)


@settings(max_examples=60, deadline=None)
@given(
    farad=st.floats(-3.0, 0.0), light_a=st.floats(-4.5, -3.0), interval=st.floats(0.7, 3.5),
    share=st.floats(0.02, 0.9), sleep_a=st.floats(-7.0, -5.0), band_v=st.floats(-2.0, -0.7),
    harvest=st.sampled_from([SCHOTTKY, converter(voc_fraction=0.75)]),
)
def test_a_full_store_with_pulses_ends_where_it_ends_when_walked(
    farad, light_a, interval, share, sleep_a, band_v, harvest
):
    """Sizes as powers of ten; a share of what the light gives goes into pulses."""
    farad, light_a, interval, sleep_a, band_v = (
        10.0**x for x in (farad, light_a, interval, sleep_a, band_v)
    )
    one = pulse(share * light_a * interval / 0.1, 0.1, interval)
    given_ = system(
        light=steady(light_a), panel=AMORPHOUS, charger=harvest,
        store=bank(farad, esr_ohm=0.1), full_v=4.5, full_hysteresis_v=band_v,
        load=load(
            connect_v=3.0, off_v=1.5, sleep=Draw(current_a=sleep_a), operations=(one,)
        ),
    )
    begin = Standing(charge_c=4.4 * farad, connected=True)
    engine, walker = Engine(given_), Engine(given_, compose=False)
    run, walked = (e.march(200.5 * interval, begin) for e in (engine, walker))
    means = any(leg.averages for leg in unfolded(run.legs)) or any(engine.averaged)
    assert run.end.charge_c / farad == pytest.approx(
        walked.end.charge_c / farad, abs=(band_v + 1.2e-4 + share * light_a * interval / farad)
        if means else 1e-4,
    )
    if not means:
        assert run.tally.served == walked.tally.served
        assert run.tally.full_s == pytest.approx(walked.tally.full_s, rel=1e-4, abs=1.0)


def test_a_hiccup_of_72_minutes():
    engine, run = marched("hiccup_of_72_minutes", 40_000.0)
    assert (run.tally.connects, run.tally.cut_offs, run.tally.served) == (9.0, 9.0, [109.0])
    assert run.tally.connected_s == pytest.approx(6354.596, abs=0.05)
    assert volts(engine, run.end.charge_c) == pytest.approx(3.577022, abs=1e-4)
    found = Trace(engine, engine.march(WEEK_S, run.end)).extremes()
    assert found.lowest_store_v == pytest.approx(2.4, abs=0.01)
    assert found.highest_store_v == pytest.approx(3.6, abs=0.01)


def test_two_trains_of_pulses_after_a_dark_morning():
    engine, run = marched("dark_morning_then_pulses", 43_200.0)
    assert run.tally.served == [239.0, 236.0]
    assert run.tally.connected_s == pytest.approx(14_338.773, abs=1e-2)
    assert [e.kind for e in run.events if e.time_s < 28_800.0] == []
    assert volts(engine, run.end.charge_c) == pytest.approx(4.999266, abs=2e-5)
    for hours, expected_v in ((2.0, 1.714), (4.0, 0.819), (6.0, 0.314)):
        dark = engine.march(hours * 3600.0)
        assert volts(engine, dark.end.charge_c) == pytest.approx(expected_v, abs=1e-3)
        assert not dark.end.connected


def test_two_trains_of_pulses_over_three_days():
    # The numbers were found with this bend, which was the usual one then.
    engine, run = marched("two_pulse_trains", 3 * 86_400.0, store__capacitance_bend=0.33)
    assert run.tally.served == [2432.0, 2391.0]
    assert (run.tally.connects, run.tally.cut_offs) == (4.0, 4.0)
    assert run.tally.connected_s == pytest.approx(145_853.132, abs=1e-2)
    assert volts(engine, run.end.charge_c) == pytest.approx(2.310400, abs=2e-5)


def test_a_motor_that_runs_whenever_its_store_is_ready_makes_a_saw_tooth():
    engine, run = marched("burst_motor", 600.0)
    assert run.tally.served == [74.0]
    assert volts(engine, run.end.charge_c) == pytest.approx(4.82296, abs=1e-3)
    turn = next(leg for leg in run.legs if leg.repeats is not None).repeats.legs
    assert turn[-1].end_s - turn[0].begin_s == pytest.approx(8.0, abs=0.3)
    charges = [c for leg in turn for c in (leg.begin_c, leg.end_c)]
    assert volts(engine, min(charges)) == pytest.approx(2.3, abs=0.1)
    assert volts(engine, max(charges)) == pytest.approx(5.0, abs=1e-6)

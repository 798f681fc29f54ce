"""Columns say what the march did: envelopes, drawn currents and a closed balance of charge."""

import numpy as np
import pytest

from explorer.engine.course import Standing
from explorer.engine.march import Engine
from explorer.engine.sample import at_moments, columns, extremes
from explorer.engine.system import DAY_S, Phase
from explorer.physics.load import Draw
from tests.engine.systems import (
    AMORPHOUS,
    CRYSTALLINE,
    SCHOTTKY,
    bank,
    converter,
    levels,
    load,
    pulse,
    steady,
    system,
    when_ready,
)


def sender(**changes):
    given = {
        "connect_v": 3.2,
        "off_v": 2.4,
        "start_up": (Phase(draw=Draw(current_a=1e-3), duration_s=0.5),),
        "sleep": Draw(current_a=5e-6),
        "operations": (pulse(0.02, 0.05, 20.0),),
    }
    return load(**{**given, **changes})


def balance(engine, run, count=4000):
    """Charge in, and charge out or kept, from the columns alone. [C]"""
    trace = columns(engine, run, count)
    given = engine.system
    middle = 0.5 * (trace.store_v + trace.store_min_v)  # of the envelope
    leak = np.interp(middle, engine.field.open_v, engine.field.curve.leak_a)
    came = np.trapezoid(trace.harvest_a, trace.time_s)
    went = np.trapezoid(trace.load_a + leak + given.quiescent_a, trace.time_s)
    begin = given.initial_charge_c
    return came, went + run.end.charge_c - begin


BALANCED = {
    "pulses on a converter": (
        system(
            light=levels([(0, 400e-6), (3000, 0.0), (5000, 200e-6)], 9000),
            panel=CRYSTALLINE,
            charger=converter(),
            store=bank(0.2, esr_ohm=2.0, leakage_a=5e-6),
            quiescent_a=1e-6,
            initial_charge_c=0.66,
            load=sender(),
        ),
        9000.0,
    ),
    "pulses so small that they are averaged": (
        system(
            light=levels([(0, 400e-6), (3000, 0.0), (5000, 200e-6)], 9000),
            panel=AMORPHOUS,
            charger=SCHOTTKY,
            store=bank(12.0, esr_ohm=2.0, leakage_a=5e-6),
            quiescent_a=1e-6,
            initial_charge_c=40.0,
            load=sender(),
        ),
        9000.0,
    ),
    "constant power through a resistance": (
        system(
            light=steady(500e-6),
            panel=AMORPHOUS,
            charger=SCHOTTKY,
            store=bank(0.5, esr_ohm=3.0, leakage_a=1e-6),
            initial_charge_c=1.65,
            load=sender(sleep=Draw(power_w=2e-3), operations=()),
        ),
        2000.0,
    ),
}


@pytest.mark.parametrize("compose", [True, False], ids=["composed", "walked"])
@pytest.mark.parametrize("name", BALANCED)
def test_charge_that_came_went_somewhere(name, compose):
    given, span_s = BALANCED[name]
    engine = Engine(given, compose=compose)
    run = engine.march(span_s)
    came, went = balance(engine, run)
    assert came > 0.0
    # The design asks for 0.1 %; rows a few seconds apart are good to that.
    assert went == pytest.approx(came, rel=1e-3)


def test_full_store_takes_in_what_it_gives():
    given = system(
        light=steady(400e-6),
        panel=CRYSTALLINE,
        charger=converter(),
        store=bank(0.05, esr_ohm=1.0, leakage_a=2e-5),
        initial_charge_c=0.249,
        load=sender(operations=()),
    )
    engine = Engine(given)
    run = engine.march(200_000.0)
    came, went = balance(engine, run)
    assert run.tally.full_s > 0.5 * 200_000.0
    assert went == pytest.approx(came, rel=1e-3)


def test_averaged_pulses_show_in_the_drawn_current_and_in_the_lowest_voltage():
    # 20 mA over 20 ohm is 0.4 V of droop, though the charge of a pulse moves 5 F by 40 µV.
    given = system(
        light=steady(300e-6),
        panel=AMORPHOUS,
        charger=SCHOTTKY,
        store=bank(5.0, esr_ohm=20.0),
        initial_charge_c=15.0,
        load=load(
            connect_v=2.9,
            off_v=2.0,
            sleep=Draw(current_a=3e-6),
            operations=(pulse(0.02, 0.01, 2.0),),
        ),
    )
    lowest, drawn = [], []
    for compose in (True, False):
        engine = Engine(given, compose=compose)
        run = engine.march(100.0, Standing(charge_c=15.0, connected=True))
        assert engine.averaged == (compose,)
        trace = columns(engine, run, 400)
        lowest.append(extremes(trace).lowest_terminal_v)
        drawn.append(np.trapezoid(trace.load_a, trace.time_s))
    assert lowest[0] == pytest.approx(lowest[1], abs=1e-3)
    assert lowest[0] == pytest.approx(3.0 - 0.4, abs=0.02)
    assert drawn[0] == pytest.approx(100.0 * (3e-6 + 1e-4), rel=1e-9)
    assert drawn[1] == pytest.approx(drawn[0], rel=0.02)


@pytest.mark.parametrize("farad", [0.005, 0.05, 0.5])
def test_composed_envelope_has_the_extremes_of_the_walk(farad):
    given = system(
        light=levels([(0, 200e-6), (1000, 0.0)], 1600),
        panel=CRYSTALLINE,
        charger=converter(),
        store=bank(farad, esr_ohm=1.5, leakage_a=1e-6),
        load=sender(),
    )
    found = []
    for compose in (True, False):
        engine = Engine(given, compose=compose)
        run = engine.march(1600.0, Standing(charge_c=farad * 3.5, connected=True))
        found.append(extremes(columns(engine, run, 3000)))
    quick, slow = found
    assert quick.lowest_store_v == pytest.approx(slow.lowest_store_v, abs=1e-3)
    assert quick.highest_store_v == pytest.approx(slow.highest_store_v, abs=1e-3)
    assert quick.lowest_terminal_v == pytest.approx(slow.lowest_terminal_v, abs=1e-3)


def test_rows_never_go_back_in_time_and_keep_their_promises():
    given = system(
        light=levels([(0, 300e-6), (700, 0.0), (1300, 100e-6)], 2000),
        panel=AMORPHOUS,
        charger=SCHOTTKY,
        store=bank(4.7e-3, esr_ohm=2.0, leakage_a=1e-6),
        load=sender(operations=(when_ready(3.6, (Draw(power_w=0.05), 0.1)),)),
    )
    engine = Engine(given)
    run = engine.march(4000.0)
    for count in (20, 200, 5000):
        trace = columns(engine, run, count)
        assert np.all(np.diff(trace.time_s) >= 0.0)
        assert trace.time_s[0] == 0.0
        assert len(trace.time_s) <= 2 * count
        assert np.all(trace.store_min_v <= trace.store_v + 1e-12)
        assert np.all(trace.terminal_min_v <= trace.terminal_v + 1e-12)
        assert np.all(trace.load_a[~trace.connected] == pytest.approx(0.0, abs=1e-12))
        assert set(np.unique(trace.illuminance_lx)) <= {0.0, 500.0}


def test_thinned_rows_keep_the_deepest_pulse():
    given = system(
        store=bank(0.02, esr_ohm=4.0),
        load=sender(operations=(pulse(0.05, 0.02, 7.0),), sleep=Draw()),
    )
    engine = Engine(given, compose=False)
    run = engine.march(140.0, Standing(charge_c=0.09, connected=True))
    fine, coarse = (extremes(columns(engine, run, n)) for n in (5000, 12))
    assert coarse.lowest_terminal_v == fine.lowest_terminal_v
    assert coarse.lowest_store_v == fine.lowest_store_v


@pytest.mark.parametrize("amps", [0.0, 20e-6, 400e-6])
def test_moments_between_composed_pulses_are_the_mean_of_pulses_walked_one_by_one(amps):
    given = system(
        light=steady(amps), panel=CRYSTALLINE, charger=converter(), store=bank(0.2, esr_ohm=2.0),
        quiescent_a=1e-6, initial_charge_c=0.66, load=sender(),
    )
    moments = np.arange(0.0, 3000.0, 0.5)  # forty within each cycle
    start = Standing(charge_c=0.66, connected=True)
    found = {}
    for compose in (True, False):
        engine = Engine(given, compose=compose)
        run = engine.march(3000.0, start)
        assert any(leg.cycles is not None for leg in run.legs) == compose
        found[compose] = at_moments(engine, run, moments).store_v.reshape(-1, 40).mean(axis=1)
    # The run and its pulses must move it, or the comparison says nothing.
    assert np.abs(found[True] - found[False]).max() < 2e-4
    assert np.ptp(found[False]) > 0.003


def test_a_moment_of_a_discharge_through_leakage_is_the_closed_form():
    given = system(light=steady(0.0), store=bank(0.1, leakage_a=1e-5, rated_v=5.0),
                   initial_charge_c=0.4, load=sender())
    engine = Engine(given)
    moments = np.array([0.0, 1234.5, 40_000.0])
    found = at_moments(engine, engine.unloaded().march(50_000.0), moments)
    leak_ohm = 5.0 / 1e-5
    assert found.store_v == pytest.approx(4.0 * np.exp(-moments / (leak_ohm * 0.1)), abs=1e-6)


def test_moments_of_a_run_without_a_leg_hold_its_only_state():
    engine = Engine(system(initial_charge_c=0.5, store=bank(0.25), load=sender()))
    run = engine.march(0.0)
    found = at_moments(engine, run, np.array([0.0, 0.0]))
    assert found.store_v == pytest.approx([2.0, 2.0])


def test_light_that_ends_within_a_thinned_column_is_not_held_over_the_night():
    """The next column may lie hours later where the store hardly moves."""
    day = [(0.0, 0.0), (28_800.0, 2e-4), (64_800.0, 0.0)]
    week = levels([(d * DAY_S + t, a) for d in range(7) for t, a in day], 7 * DAY_S)
    given_ = system(
        light=week, panel=AMORPHOUS, charger=converter(), store=bank(1.0),
        load=load(connect_v=4.9, off_v=1.0, operations=(pulse(0.01, 0.1, 600.0),)),
    )
    engine = Engine(given_)
    run = engine.march(7 * DAY_S, Standing(charge_c=0.0, connected=False))
    trace = columns(engine, run, 100)
    step_s = 7 * DAY_S / 100
    assert len(trace.time_s) < len(run.legs)
    spans = np.diff(trace.time_s)
    assert spans.max() > 3 * step_s
    lit_s = spans[trace.illuminance_lx[:-1] > 0].sum()
    assert lit_s == pytest.approx(7 * 10 * 3600.0, abs=7 * step_s)

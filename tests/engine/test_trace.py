"""A run says what it was at any moment, and its columns add up."""

import numpy as np
import pytest

from explorer.engine.course import Standing
from explorer.engine.march import Engine
from explorer.engine.system import DAY_S, Operation, Phase
from explorer.engine.trace import Trace
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


def summed(rows, end_s):
    """Charge that came, was drawn and leaked, from the columns alone. [C]"""
    width_s = np.diff(np.append(rows.time_s, end_s))
    return np.array([a @ width_s for a in (rows.harvest_a, rows.load_a, rows.leakage_a)])


BALANCED = {
    "pulses on a converter": (
        system(
            light=levels([(0, 400e-6), (3000, 0.0), (5000, 200e-6)], 9000),
            panel=CRYSTALLINE,
            charger=converter(),
            store=bank(0.2, esr_ohm=2.0, leakage_a=5e-6),
            quiescent_a=1e-6,
            initial_charge_c=0.66,
            load=sender(bulk_f=0.01),
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
    "a full store that takes in what it gives": (
        system(
            light=steady(400e-6),
            panel=CRYSTALLINE,
            charger=converter(),
            store=bank(0.05, esr_ohm=1.0, leakage_a=2e-5),
            initial_charge_c=0.249,
            load=sender(operations=()),
        ),
        200_000.0,
    ),
    "a store that is emptied by its device and starts again": (
        system(
            light=steady(60e-6),
            panel=CRYSTALLINE,
            charger=converter(),
            store=bank(2e-3, esr_ohm=1.0, leakage_a=1e-6),
            load=sender(bulk_f=1e-4, operations=(pulse(0.02, 0.05, 4.0),)),
        ),
        50_000.0,
    ),
}


@pytest.mark.parametrize("compose", [True, False], ids=["composed", "walked"])
@pytest.mark.parametrize("name", BALANCED)
@pytest.mark.parametrize("step_s", [7.0, 1111.0])
def test_charge_that_came_went_somewhere(name, compose, step_s):
    given, span_s = BALANCED[name]
    engine = Engine(given, compose=compose)
    run = engine.march(span_s)
    trace = Trace(engine, run)
    for rows in (trace.steps(step_s), trace.eventful(500)):
        came, drawn, leaked = summed(rows, run.span_s)
        assert came > 0.0
        kept = run.end.charge_c - given.initial_charge_c
        assert came - drawn - leaked == pytest.approx(kept, abs=1e-6 * came)


@pytest.mark.parametrize("name", BALANCED)
def test_opened_cycles_and_turns_carry_what_a_walk_pulse_by_pulse_does(name):
    given, span_s = BALANCED[name]
    sums, shares = [], []
    for compose in (True, False):
        engine = Engine(given, compose=compose)
        trace = Trace(engine, engine.march(span_s))
        rows = trace.steps(span_s / 20.0)
        sums.append(summed(rows, span_s))
        shares.append(rows.harvest_a)
    assert sums[0] == pytest.approx(sums[1], rel=1e-4)
    largest = np.abs(shares[1]).max()
    assert shares[0] == pytest.approx(shares[1], abs=2e-3 * largest)


@pytest.mark.parametrize("name", BALANCED)
def test_a_row_is_where_a_march_that_ends_there_ends(name):
    given, span_s = BALANCED[name]
    engine = Engine(given)
    trace = Trace(engine, engine.march(span_s))
    # Uneven moments: within pulses, between them, within turns that repeat.
    moments = np.sort(np.random.default_rng(1).uniform(0.0, span_s, 60))
    found = trace.at(moments).store_v
    ended = [engine.march(t).end.charge_c for t in moments.tolist()]
    assert found == pytest.approx(engine.field.voltage_at(np.array(ended)), abs=1e-4)


def test_the_inrush_of_the_bulk_capacitance_is_drawn_in_the_step_that_holds_the_connect():
    given = system(
        light=steady(1e-3), store=bank(0.1), initial_charge_c=0.31,
        load=load(connect_v=3.2, off_v=1.0, bulk_f=0.01, sleep=Draw(current_a=1e-6)),
    )
    engine = Engine(given)
    trace = Trace(engine, engine.march(60.0))
    rows = trace.steps(7.0)
    # 1 mA takes 10 s from 3.1 to 3.2 V; 10 mF at 3.2 V is 32 mC.
    expected = np.where(rows.time_s < 10.0, 0.0, 1e-6)
    expected[1] = (0.01 * 3.2 + 4.0 * 1e-6) / 7.0
    assert rows.load_a == pytest.approx(expected, rel=1e-9, abs=1e-15)
    assert rows.connected.tolist() == (rows.time_s >= 10.0).tolist()


def test_a_row_at_the_very_moment_of_a_connect_is_before_its_inrush():
    given = system(
        store=bank(0.1), initial_charge_c=0.4,
        load=load(connect_v=3.2, off_v=1.0, bulk_f=0.01, sleep=Draw(current_a=1e-6)),
    )
    engine = Engine(given)
    rows = Trace(engine, engine.march(10.0)).steps(1.0)
    assert rows.store_v[0] == pytest.approx(4.0)
    assert rows.store_min_v[0] == pytest.approx(3.6, abs=1e-4)
    assert rows.load_a[0] == pytest.approx(0.04 + 1e-6)
    assert rows.store_v[1] == pytest.approx(3.6, abs=1e-4)


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
    lowest = []
    for compose in (True, False):
        engine = Engine(given, compose=compose)
        trace = Trace(engine, engine.march(100.0, Standing(charge_c=15.0, connected=True)))
        assert engine.averaged == (compose,)
        lowest.append(trace.extremes().lowest_terminal_v)
        rows = trace.steps(2.0)
        assert rows.load_a[:-1] == pytest.approx(3e-6 + 1e-4, rel=1e-9)
        assert rows.terminal_min_v[:-1] == pytest.approx(lowest[-1], abs=5e-3)
    assert lowest[0] == pytest.approx(lowest[1], abs=1e-3)
    assert lowest[0] == pytest.approx(3.0 - 0.4, abs=0.02)


@pytest.mark.parametrize("farad", [0.005, 0.05, 0.5])
def test_opened_cycles_have_the_extremes_of_the_walk(farad):
    given = system(
        light=levels([(0, 200e-6), (1000, 0.0)], 1600),
        panel=CRYSTALLINE,
        charger=converter(),
        store=bank(farad, esr_ohm=1.5, leakage_a=1e-6),
        load=sender(),
    )
    traces = []
    for compose in (True, False):
        engine = Engine(given, compose=compose)
        run = engine.march(1600.0, Standing(charge_c=farad * 3.5, connected=True))
        traces.append(Trace(engine, run))
    quick, slow = traces
    for name in quick.extremes().__slots__:
        values = [getattr(t.extremes(), name) for t in traces]
        assert values[0] == pytest.approx(values[1], abs=1e-4), name
    for step_s in (0.7, 13.0, 60.0):
        a, b = quick.steps(step_s), slow.steps(step_s)
        for name in ("store_v", "store_min_v", "terminal_v", "terminal_min_v"):
            assert getattr(a, name) == pytest.approx(getattr(b, name), abs=1e-4), (step_s, name)


def test_rows_never_go_back_in_time_and_keep_their_promises():
    given = system(
        light=levels([(0, 300e-6), (700, 0.0), (1300, 100e-6)], 2000),
        panel=AMORPHOUS,
        charger=SCHOTTKY,
        store=bank(4.7e-3, esr_ohm=2.0, leakage_a=1e-6),
        load=sender(operations=(when_ready(3.6, (Draw(power_w=0.05), 0.1)),)),
    )
    engine = Engine(given)
    trace = Trace(engine, engine.march(4000.0))
    for rows in (trace.eventful(20), trace.eventful(5000), trace.steps(3.0)):
        assert np.all(np.diff(rows.time_s) >= 0.0)
        assert rows.time_s[0] == 0.0
        assert rows.time_s[-1] <= 4000.0
        assert np.all(rows.store_min_v <= rows.store_v + 1e-12)
        assert np.all(rows.terminal_min_v <= rows.terminal_v + 1e-12)
        assert set(np.unique(rows.illuminance_lx)) <= {0.0, 500.0}
    fine = trace.steps(0.05)
    assert fine.store_min_v.min() == pytest.approx(trace.extremes().lowest_store_v, abs=1e-9)
    off = ~fine.connected[:-1] & ~fine.connected[1:]
    assert np.abs(fine.load_a[:-1][off]).max() < 1e-15


ONE_PHASE = pulse(0.02, 0.05, 20.0)
THREE_PHASES = Operation(
    name="measure, wait and send",
    schedule=ONE_PHASE.schedule,
    phases=(
        Phase(draw=Draw(current_a=2e-3), duration_s=1.5),
        Phase(draw=Draw(current_a=5e-5), duration_s=4.0),
        Phase(draw=Draw(power_w=0.03), duration_s=0.5),
    ),
)


@pytest.mark.parametrize("operation", [ONE_PHASE, THREE_PHASES], ids=["one phase", "three"])
@pytest.mark.parametrize("amps", [0.0, 20e-6, 400e-6])
def test_moments_within_composed_cycles_are_those_of_pulses_walked_one_by_one(amps, operation):
    given = system(
        light=steady(amps), panel=CRYSTALLINE, charger=converter(), store=bank(0.2, esr_ohm=2.0),
        quiescent_a=1e-6, initial_charge_c=0.66, load=sender(operations=(operation,)),
    )
    moments = np.arange(0.0, 3000.0, 0.495)
    start = Standing(charge_c=0.8, connected=True)
    found = {}
    for compose in (True, False):
        engine = Engine(given, compose=compose)
        run = engine.march(3000.0, start)
        assert any(leg.cycles is not None for leg in run.legs) == compose
        found[compose] = Trace(engine, run).at(moments)
    for name in ("store_v", "terminal_v", "load_a", "harvest_a"):
        quick, slow = (getattr(found[c], name) for c in (True, False))
        assert quick == pytest.approx(slow, abs=2e-5 * (1.0 + np.abs(slow).max())), name
    # Pulses and rests must both be among the moments, or the comparison says nothing.
    assert np.ptp(found[False].load_a) > 0.01


def test_a_moment_of_a_discharge_through_leakage_is_the_closed_form():
    given = system(light=steady(0.0), store=bank(0.1, leakage_a=1e-5, rated_v=5.0),
                   initial_charge_c=0.4, load=sender())
    engine = Engine(given)
    moments = np.array([0.0, 1234.5, 40_000.0])
    found = Trace(engine, engine.unloaded().march(50_000.0)).at(moments)
    leak_ohm = 5.0 / 1e-5
    assert found.store_v == pytest.approx(4.0 * np.exp(-moments / (leak_ohm * 0.1)), abs=1e-6)
    rows = Trace(engine, engine.unloaded().march(50_000.0)).steps(1000.0)
    # What leaks in a step is what the voltage falls by: C dV.
    assert rows.leakage_a[:-1] * 1000.0 == pytest.approx(-0.1 * np.diff(rows.store_v), rel=1e-6)


def test_moments_of_a_run_without_a_leg_hold_its_only_state():
    engine = Engine(system(initial_charge_c=0.5, store=bank(0.25), load=sender()))
    trace = Trace(engine, engine.march(0.0))
    assert trace.at(np.array([0.0, 0.0])).store_v == pytest.approx([2.0, 2.0])
    assert trace.extremes().highest_store_v == pytest.approx(2.0)


def test_light_is_told_in_the_stretches_in_which_it_is_constant():
    day = [(0.0, 0.0), (28_800.0, 2e-4), (64_800.0, 0.0)]
    week = levels([(d * DAY_S + t, a) for d in range(7) for t, a in day], 7 * DAY_S)
    given = system(
        light=week, panel=AMORPHOUS, charger=converter(), store=bank(1.0),
        load=load(connect_v=4.9, off_v=1.0, operations=(pulse(0.01, 0.1, 600.0),)),
    )
    engine = Engine(given)
    edges, lux = Trace(engine, engine.march(7 * DAY_S)).light()
    assert len(edges) == len(lux) + 1 == 16
    assert np.diff(edges)[lux > 0] == pytest.approx(36_000.0)

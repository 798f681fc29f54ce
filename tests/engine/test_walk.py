"""What must hold of any march, and the corners where a schedule or a threshold could slip."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from explorer.engine import levels as illumination
from explorer.engine.course import Standing, StopAt, until
from explorer.engine.march import Engine
from explorer.engine.system import WEEK_S, Phase
from explorer.physics.charger import DirectCharger
from explorer.physics.load import Draw
from explorer.physics.panel import array_of
from explorer.physics.store import Cell
from tests.depth import some
from tests.engine.systems import (
    AMORPHOUS,
    CRYSTALLINE,
    CURRENT_SOURCE,
    NO_DROP,
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

HOUR_S = 3600.0
START_UP = (Phase(draw=Draw(current_a=1e-4), duration_s=0.5),)


def volts(engine, run):
    return float(engine.field.voltage_at(run.end.charge_c))


def sender(**changes):
    given = {
        "connect_v": 3.2,
        "off_v": 2.4,
        "start_up": START_UP,
        "sleep": Draw(current_a=5e-6),
        "operations": (pulse(0.02, 0.05, 20.0),),
    }
    return load(**{**given, **changes})


# -- more of something ----------------------------------------------------------------------------

STORES = st.builds(
    bank,
    st.floats(1e-3, 2.0),
    esr_ohm=st.floats(0.0, 20.0),
    leakage_a=st.floats(0.0, 2e-5),
    slope=st.sampled_from([0.0, 0.3]),
    bend=st.sampled_from([0.0, 0.3]),
)
CHARGERS = st.sampled_from(
    [SCHOTTKY, converter(), converter(voc_fraction=0.75, cold_below_v=1.8, cold_efficiency=0.2)]
)
PANELS = st.sampled_from([AMORPHOUS, CRYSTALLINE])
SPANS = st.floats(60.0, 40_000.0)


@settings(max_examples=40)
@given(STORES, CHARGERS, PANELS, SPANS, st.floats(1e-6, 1e-3), st.floats(1.0, 5.0))
def test_more_light_never_lowers_the_store(store, charger, panel, span_s, amps, more):
    ends = []
    for light_a in (amps, amps * more):
        engine = Engine(system(light=steady(light_a), panel=panel, charger=charger, store=store))
        ends.append(volts(engine, engine.march(span_s)))
    # A full store rests anywhere within the hysteresis band.
    slack = 0.05 if ends[0] > 4.94 else 1e-9
    assert ends[1] >= ends[0] - slack


@settings(max_examples=40)
@given(STORES, CHARGERS, PANELS, SPANS, st.floats(1e-6, 1e-3), st.floats(0.0, 1e-4))
def test_more_leakage_never_raises_it(store, charger, panel, span_s, amps, more):
    ends = []
    for leak in (0.0, more):
        leaky = replace(store, leakage_a=store.leakage_a + leak)
        engine = Engine(system(light=steady(amps), panel=panel, charger=charger, store=leaky))
        ends.append(volts(engine, engine.march(span_s)))
    slack = 0.05 if ends[1] > 4.94 else 1e-9
    assert ends[1] <= ends[0] + slack


@settings(max_examples=30)
@given(STORES, CHARGERS, SPANS, st.floats(0.05, 0.95), st.floats(1e-6, 3e-4))
def test_splitting_a_march_changes_nothing(store, charger, span_s, share, amps):
    blocks = [(0.0, amps), (0.3 * span_s, 0.0), (0.6 * span_s, 2.0 * amps)]
    given_ = system(
        light=levels(blocks, span_s),
        panel=AMORPHOUS,
        charger=charger,
        store=store,
        full_v=4.5,
        full_hysteresis_v=0.2,
    )
    engine = Engine(given_)
    whole = engine.march(span_s)
    first = engine.march(share * span_s)
    second = engine.march(span_s - first.span_s, first.end, begin_s=first.span_s)
    assert volts(engine, second) == pytest.approx(volts(engine, whole), abs=1e-7)
    assert second.end.charging == whole.end.charging
    parts = first.tally.full_s + second.tally.full_s
    assert parts == pytest.approx(whole.tally.full_s, abs=1e-5 * span_s)


@pytest.mark.parametrize("cycles", [1, 17, 200])
def test_splitting_between_pulses_changes_nothing(cycles):
    given_ = system(
        light=steady(300e-6),
        panel=CRYSTALLINE,
        charger=converter(),
        store=bank(0.5, esr_ohm=1.0),
        load=sender(),
    )
    engine, start = Engine(given_), Standing(charge_c=1.8, connected=True)
    whole = engine.march(400 * 20.0, start)
    first = engine.march(cycles * 20.0, start)
    second = engine.march((400 - cycles) * 20.0, first.end, begin_s=cycles * 20.0)
    assert volts(engine, second) == pytest.approx(volts(engine, whole), abs=2e-6)
    assert first.tally.served[0] + second.tally.served[0] == whole.tally.served[0] == 400.0


def scaled(given_, k):
    """Everything that carries charge or current, k times as large."""

    def draw(d):
        return Draw(
            current_a=d.current_a * k, power_w=d.power_w * k, conductance_s=d.conductance_s * k
        )

    def phase(p):
        return replace(p, draw=draw(p.draw))

    device = given_.load
    charger = given_.charger
    if isinstance(charger, DirectCharger):
        charger = replace(charger, diode_saturation_a=charger.diode_saturation_a * k)
    else:
        charger = replace(
            charger,
            fixed_loss_w=charger.fixed_loss_w * k,
            loss_ohm=charger.loss_ohm / k,
            output_limit_a=charger.output_limit_a * k,
            minimum_panel_w=charger.minimum_panel_w * k,
            cold_panel_w=charger.cold_panel_w * k,
        )
    return replace(
        given_,
        light=replace(given_.light, photocurrent_a=given_.light.photocurrent_a * k),
        panel=array_of(given_.panel, in_series=1, in_parallel=k),
        charger=charger,
        quiescent_a=given_.quiescent_a * k,
        store=replace(
            given_.store,
            capacitance_f=given_.store.capacitance_f * k,
            esr_ohm=given_.store.esr_ohm / k,
            leakage_a=given_.store.leakage_a * k,
        ),
        initial_charge_c=given_.initial_charge_c * k,
        load=replace(
            device,
            bulk_f=device.bulk_f * k,
            sleep=draw(device.sleep),
            start_up=tuple(phase(p) for p in device.start_up),
            operations=tuple(
                replace(op, phases=tuple(phase(p) for p in op.phases)) for op in device.operations
            ),
        ),
    )


@settings(max_examples=25)
@given(STORES, CHARGERS, st.floats(0.02, 50.0), st.floats(1e-5, 5e-4))
def test_capacitance_and_all_currents_scaled_together_leave_the_voltage(store, charger, k, amps):
    given_ = system(
        light=levels([(0.0, amps), (2000.0, 0.0)], 5000.0),
        panel=CRYSTALLINE,
        charger=charger,
        store=store,
        quiescent_a=5e-7,
        load=sender(bulk_f=1e-5),
        initial_charge_c=store.capacitance_f * 3.1,
    )
    ends = []
    for one in (given_, scaled(given_, k)):
        engine = Engine(one)
        run = engine.march(5000.0)
        ends.append((volts(engine, run), run.tally.served[0], run.tally.cut_offs))
    (v, served, cuts), (v_k, served_k, cuts_k) = ends
    assert v_k == pytest.approx(v, abs=1e-5)
    assert served_k == pytest.approx(served, abs=1e-3)
    assert cuts_k == cuts


# -- schedules and thresholds ---------------------------------------------------------------------


def test_a_hiccup_ends_when_its_window_closes():
    # In the window each charge is eaten within seconds; outside, the device sleeps and fills up.
    given_ = system(
        light=steady(100e-6),
        store=bank(0.05),
        initial_charge_c=0.05 * 3.19,
        load=sender(operations=(pulse(0.02, 0.5, 5.0, ((0.0, 2000.0),)),)),
    )
    engine = Engine(given_)
    run = engine.march(20_000.0)
    assert run.tally.served == [20.0]
    assert run.tally.connects == 6.0
    assert run.end.connected
    assert volts(engine, run) > 4.9


def test_a_hiccup_comes_back_when_its_window_opens():
    given_ = system(
        light=steady(100e-6),
        store=bank(0.05),
        initial_charge_c=0.05 * 3.19,
        load=sender(operations=(pulse(0.02, 0.5, 5.0, ((8000.0, 9000.0),)),)),
    )
    run = Engine(given_).march(12_000.0)
    assert run.tally.connects > 1.0
    assert all(8000.0 <= e.time_s <= 9400.0 for e in run.events if e.kind == "brown_out")


def test_long_hiccups_are_skipped_and_count_as_walked_ones():
    given_ = system(
        light=steady(100e-6),
        store=bank(0.01),
        initial_charge_c=0.0319,
        load=sender(operations=(pulse(0.02, 0.5, 5.0),), retry_delay_s=7.0),
    )
    short, long = Engine(given_).march(10_000.0), Engine(given_).march(1_000_000.0)
    assert len(long.legs) < 200
    assert long.tally.connects / 1e6 == pytest.approx(short.tally.connects / 1e4, rel=0.02)
    assert long.tally.served[0] / 1e6 == pytest.approx(short.tally.served[0] / 1e4, rel=0.02)


def test_a_store_that_runs_down_while_ready_stops_serving_at_the_ready_voltage():
    # 60 mF from 4.5 V to 4.0 V is 30 mC; each run takes 0.1 mC in the dark: 301 runs to fall below
    given_ = system(
        store=bank(0.06),
        load=sender(sleep=Draw(), operations=(when_ready(4.0, (Draw(current_a=1e-3), 0.1)),)),
    )
    engine = Engine(given_)
    run = engine.march(HOUR_S, Standing(charge_c=0.06 * 4.5, connected=True))
    assert run.tally.served[0] == pytest.approx(300.0, abs=1.0)
    assert volts(engine, run) == pytest.approx(4.0, abs=2e-3)


def test_periodic_runs_start_at_the_opening_and_not_at_the_closing_of_a_window():
    window = (100.0, 100.0 + 9 * 20.0 + 10.0)  # room for starts at 0, 20, ... 180 s: ten
    given_ = system(store=bank(1.0), load=sender(operations=(pulse(0.01, 0.05, 20.0, (window,)),)))
    for compose in (True, False):
        run = Engine(given_, compose=compose).march(1000.0, Standing(charge_c=3.0, connected=True))
        assert run.tally.served == pytest.approx([10.0], abs=1e-6)


def test_windows_follow_the_weekday_on_which_a_course_begins():
    begins = 2 * 86_400.0 + 6 * HOUR_S  # Wednesday 06:00
    wednesday = ((2 * 86_400.0 + 8 * HOUR_S, 2 * 86_400.0 + 9 * HOUR_S),)
    given_ = system(
        light=levels([(0.0, 1e-4)], WEEK_S, begins_at_s=begins),
        store=bank(1.0),
        load=sender(operations=(pulse(0.01, 0.05, 60.0, wednesday),)),
    )
    engine, start = Engine(given_), Standing(charge_c=3.5, connected=True)
    assert engine.march(2 * HOUR_S, start).tally.served[0] == pytest.approx(0.0, abs=1e-6)
    assert engine.march(3.5 * HOUR_S, start).tally.served[0] == pytest.approx(60.0, abs=1e-6)


def test_averaged_operations_still_keep_their_window():
    window = ((1000.0, 1600.0),)
    given_ = system(store=bank(100.0), load=sender(operations=(pulse(0.01, 0.05, 10.0, window),)))
    engine = Engine(given_)
    assert engine.averaged == (True,)
    run = engine.march(3000.0, Standing(charge_c=330.0, connected=True))
    assert run.tally.served[0] == pytest.approx(60.0, abs=1e-6)
    taken = 330.0 - run.end.charge_c
    assert taken == pytest.approx(60 * 5e-4 + 3000.0 * 5e-6, rel=1e-6)


def test_a_pulse_that_the_store_cannot_bear_is_not_averaged_away():
    # Twenty milliamperes over 100 ohm: 2 V of drop, however large the store
    given_ = system(
        store=bank(100.0, esr_ohm=100.0), load=sender(operations=(pulse(0.02, 0.01, 10.0),))
    )
    engine = Engine(given_)
    assert engine.averaged == (True,)
    run = engine.march(100.0, Standing(charge_c=100.0 * 4.2, connected=True))
    assert run.tally.cut_offs > 0.0
    assert run.tally.served == pytest.approx([0.0], abs=0.1)


def test_a_flat_cell_curve_does_not_hide_a_pulse():
    # The curve is flat at the connect voltage and steep below; the pulse takes 1 % of the charge.
    cell = Cell(
        capacity_c=1.0,
        state_of_charge=np.array([0.0, 0.2, 1.0]),
        open_circuit_v=np.array([2.5, 3.3, 3.31]),
        resistance_ohm=1.0,
        self_discharge_a=0.0,
        charge_limit_a=1.0,
        may_charge=True,
    )
    given_ = system(
        store=cell, full_v=3.31, load=sender(operations=(pulse(0.1, 0.1, 10.0),), off_v=2.6)
    )
    assert Engine(given_).averaged == (False,)


# -- ends of the store ----------------------------------------------------------------------------


def cell(**changes):
    given_ = {
        "capacity_c": 10.0,
        "state_of_charge": np.array([0.0, 0.5, 1.0]),
        "open_circuit_v": np.array([3.0, 3.7, 4.2]),
        "resistance_ohm": 0.5,
        "self_discharge_a": 1e-5,
        "charge_limit_a": 1e-3,
        "may_charge": True,
    }
    return Cell(**{**given_, **changes})


def test_a_cell_runs_empty_at_its_full_current_and_stays_empty():
    engine = Engine(system(store=cell(), full_v=4.2, quiescent_a=9e-5))
    start = Standing(charge_c=1.0, connected=False)
    assert engine.march(5_000.0, start).end.charge_c == pytest.approx(0.5, rel=1e-9)
    assert engine.march(9_990.0, start).end.charge_c == pytest.approx(1e-3, rel=1e-6)
    assert engine.march(1e6, start).end.charge_c == 0.0


def test_an_empty_store_charges_from_nothing():
    for charger in (SCHOTTKY, converter(), converter(cold_below_v=1.8)):
        engine = Engine(
            system(light=steady(3e-4), panel=CRYSTALLINE, charger=charger, store=bank(1e-3))
        )
        assert volts(engine, engine.march(HOUR_S)) > 1.2


@pytest.mark.parametrize("full_v", [4.2, 4.5])
def test_a_cell_ends_its_charge_at_the_end_of_its_window(full_v):
    # Also where the charger is set higher than the cell may go.
    engine = Engine(system(light=steady(1e-3), store=cell(), full_v=full_v))
    run = engine.march(30_000.0, Standing(charge_c=5.0, connected=False))
    assert run.end.charge_c == pytest.approx(10.0, abs=0.03 * 10.0)
    assert run.end.charge_c <= 10.0
    assert volts(engine, run) <= 4.2


def test_a_cell_takes_no_more_than_its_charging_limit_and_nothing_in_the_cold():
    for limit, may, gained in ((1e-4, True, 1e-4 - 1e-5), (1e-3, False, -1e-5)):
        store = cell(charge_limit_a=limit, may_charge=may)
        engine = Engine(system(light=steady(1e-3), store=store, full_v=4.2))
        run = engine.march(1000.0, Standing(charge_c=5.0, connected=False))
        assert run.end.charge_c - 5.0 == pytest.approx(1000.0 * gained, rel=1e-9)


def test_without_light_load_and_leakage_nothing_moves():
    engine = Engine(system(store=bank(1.0)))
    run = engine.march(WEEK_S, Standing(charge_c=3.0, connected=False))
    assert run.end.charge_c == 3.0


def test_a_cold_start_that_normal_running_cannot_hold_stays_at_the_edge():
    # Below 1.8 V the pump gives current, above it nothing: the store rests on 1.8 V.
    charger = converter(
        cold_below_v=1.8, cold_efficiency=0.9, minimum_panel_w=1.0, cold_panel_w=0.0
    )
    given_ = system(
        light=steady(3e-4),
        panel=CRYSTALLINE,
        charger=charger,
        store=bank(1e-3),
        quiescent_a=1e-6,
    )
    engine = Engine(given_)
    for begin_v in (0.0, 1.7, 1.8, 2.5):
        run = engine.march(40_000.0, Standing(charge_c=1e-3 * begin_v, connected=False))
        assert volts(engine, run) == pytest.approx(1.8, abs=1e-6)


def test_a_load_that_connects_at_that_edge_is_connected():
    charger = converter(
        cold_below_v=1.8, cold_efficiency=0.9, minimum_panel_w=1.0, cold_panel_w=0.0
    )
    given_ = system(
        light=steady(3e-4),
        panel=CRYSTALLINE,
        charger=charger,
        store=bank(1e-3),
        quiescent_a=1e-6,
        load=load(connect_v=1.8, off_v=1.0),
    )
    run = Engine(given_).march(20_000.0)
    assert run.events[0].kind == "connect"


# -- a measured log -------------------------------------------------------------------------------


def log_of(minutes, top_a):
    rng = np.random.default_rng(3)
    lit = top_a * rng.uniform(0.02, 1.0, minutes) * (np.arange(minutes) % 90 < 70)
    return levels(list(zip(60.0 * np.arange(minutes), lit, strict=True)), 60.0 * minutes)


def blended_and_exact(given_, monkeypatch):
    blended = Engine(given_).unloaded()
    assert not all(level.exact for level in blended.levels)
    monkeypatch.setattr(illumination, "EXACT_LEVELS", 10_000)
    exact = Engine(given_).unloaded()
    assert all(level.exact for level in exact.levels)
    return blended, exact


@pytest.mark.parametrize(("farad", "charger"), some(product(
    (1.2, 4.0), (SCHOTTKY, converter(minimum_panel_w=0.0, fixed_loss_w=0.0))
), 3))
def test_a_log_on_the_ladder_of_levels_follows_its_exact_levels(charger, farad, monkeypatch):
    given_ = system(
        light=log_of(240, 300e-6),
        panel=AMORPHOUS,
        charger=charger,
        store=bank(farad, esr_ohm=0.5, leakage_a=1e-6),
        load=load(connect_v=3.0),
    )
    start = Standing(charge_c=farad * 2.0, connected=False)
    for minutes in (30, 90, 240):
        ends = [
            volts(e, e.march(60.0 * minutes, start)) for e in blended_and_exact(given_, monkeypatch)
        ]
        monkeypatch.undo()
        assert 2.0 < ends[1] < 4.95
        assert ends[0] == pytest.approx(ends[1], abs=5e-3)


def test_a_cell_that_is_full_below_its_chargers_threshold_counts_as_full():
    from explorer.scenario.build import build
    from explorer.scenario.model import Scenario
    from explorer.scenario.storage import CellStore

    scenario = Scenario.model_validate(
        {
            "light": {"illuminance_lx": 2000, "pattern": {"kind": "steady"}},
            "charger": {"kind": "converter", "full_V": 4.5},
            "store": CellStore(capacity_mAh=3.0, initial_charge=0.95).model_dump(),
        }
    )
    run = Engine(build(scenario)).march(7 * 86_400.0)
    assert run.tally.full_s > 0.5 * 86_400.0


def test_a_bank_that_begins_above_full_is_shown_where_it_is():
    from explorer.engine.trace import Trace
    from explorer.scenario.build import build
    from explorer.scenario.model import Scenario, with_value

    engine = Engine(build(with_value(Scenario(), "store.initial_V", 5.35)))
    trace = Trace(engine, engine.march(60.0)).eventful(100)
    assert trace.store_v[0] == pytest.approx(5.35, abs=2e-3)


def test_a_march_to_the_first_start_up_ends_where_the_start_up_ends():
    """What follows the start-up is no part of it: 1 mA for 2 s from 1 mF at 3 V."""
    device = load(
        connect_v=2.5, off_v=0.5, start_up=(Phase(draw=Draw(current_a=1e-3), duration_s=2.0),)
    )
    engine = Engine(system(
        light=steady(0.0), charger=NO_DROP, panel=CURRENT_SOURCE, store=bank(1e-3), load=device,
        initial_charge_c=3e-3, full_v=5.0,
    ))  # fmt: skip
    run = engine.march(100.0, stop_at=StopAt.FIRST_OPERATION)
    assert run.first_operation_s == run.span_s == pytest.approx(2.0)
    assert run.end.charge_c == pytest.approx(1e-3, abs=1e-6)


def test_a_run_of_a_nanosecond_that_takes_nothing_comes_again_and_time_goes_on():
    """It was over at the moment at which it began, and began again there for ever."""
    device = load(
        connect_v=2.5, off_v=0.5,
        operations=(when_ready(2.6, (Draw(current_a=0.0), 1e-9)),),
    )  # fmt: skip
    engine = Engine(system(
        light=steady(0.0), charger=NO_DROP, panel=CURRENT_SOURCE, store=bank(1e-3), load=device,
        initial_charge_c=3e-3, full_v=5.0,
    ))  # fmt: skip
    events = iter(range(10_000))
    with until(lambda: next(events, None) is None):
        run = engine.march(10.0, Standing(charge_c=3e-3, connected=True))
    assert run.span_s == pytest.approx(10.0)
    assert run.tally.served[0] > 1e9


@pytest.mark.parametrize("stop_at", [StopAt.FIRST_OPERATION, StopAt.CUT_OFF])
def test_what_waits_for_a_moment_passes_over_the_turns_at_full_before_it(stop_at):
    """Off for an hour after a start that fails, a small store turns at full 40 000 times.

    2 mA bring it from 4.95 V to 5 V in 25 ms and 1 mA of leakage takes it back in 50 ms. Each turn
    was walked, and a run of so many ended before what it waited for.
    """
    device = load(
        connect_v=2.5, off_v=0.5, retry_delay_s=3600.0,
        start_up=(Phase(draw=Draw(current_a=10.0), duration_s=0.02),),
    )  # fmt: skip
    engine = Engine(system(
        light=steady(3e-3), charger=NO_DROP, panel=CURRENT_SOURCE, load=device,
        store=bank(1e-3, leakage_a=1e-3, rated_v=5.0), full_v=5.0, full_hysteresis_v=0.05,
    ))  # fmt: skip
    begin = Standing(charge_c=5e-3, connected=stop_at is StopAt.CUT_OFF)
    run = engine.march(8000.0, begin, stop_at=stop_at, most_legs=2000)
    assert run.span_s == 8000.0
    assert len(run.legs) < 20
    assert run.tally.cut_offs == (3.0 if stop_at is StopAt.FIRST_OPERATION else 0.0)
    assert run.tally.full_s == pytest.approx(8000.0 * 2.0 / 3.0, rel=3e-3)


@pytest.mark.parametrize("seconds", [0.03, 250.0, 5000.0, 86_400.0])
def test_a_run_goes_on_where_another_ended(seconds):
    """Cut in two at any moment: within the start-up, within a pulse, between pulses, while full."""
    given_ = system(
        light=steady(3e-4), panel=AMORPHOUS, charger=SCHOTTKY, store=bank(5e-3), full_v=4.5,
        load=load(
            connect_v=2.9, off_v=1.5, start_up=(Phase(draw=Draw(current_a=1e-3), duration_s=0.2),),
            operations=(pulse(5e-3, 0.1, 250.0), pulse(1e-4, 20.0, 5000.0)),
        ),
    )
    engine, begin = Engine(given_), Standing(charge_c=0.015, connected=False)
    whole = engine.march(100_000.0, begin)
    first = engine.march(seconds, begin)
    second = engine.march(100_000.0 - seconds, first.end, begin_s=seconds)
    both = [a + b for a, b in zip(first.tally.served, second.tally.served, strict=True)]
    assert both == whole.tally.served
    assert first.tally.started + second.tally.started == whole.tally.started == 1.0
    assert second.end.charge_c == pytest.approx(whole.end.charge_c, rel=1e-6)


def test_a_wait_for_the_next_attempt_goes_on_in_the_next_run():
    given_ = system(
        light=steady(0.0), store=bank(1.0),
        load=load(connect_v=3.0, off_v=2.9, sleep=Draw(current_a=1e-2), retry_delay_s=500.0),
    )
    engine = Engine(given_)
    first = engine.march(11.0, Standing(charge_c=3.0, connected=True))
    assert first.tally.cut_offs == 1.0
    assert first.end.pending.retry_s == pytest.approx(499.0, abs=0.5)
    full = replace(first.end, charge_c=3.5)
    assert engine.march(490.0, full).tally.connects == 0.0
    assert engine.march(510.0, full).tally.connects == 1.0


@pytest.mark.parametrize("first", [True, False])
def test_a_run_goes_on_where_one_ended_that_averaged_its_pulses_or_did_not(first):
    """As of a year: what is small beside the ripple of one month's light is walked in the next."""
    given = system(
        light=steady(1e-4), panel=AMORPHOUS, charger=SCHOTTKY, store=bank(50.0),
        load=sender(operations=(pulse(1e-4, 0.01, 0.5),)), initial_charge_c=175.0,
    )
    one, other = Engine(given, compose=first), Engine(given, compose=not first)
    assert {one.averaged, other.averaged} == {(True,), (False,)}
    before = one.march(HOUR_S, Standing(charge_c=175.0, connected=True))
    after = other.march(HOUR_S, before.end)
    for run in (before, after):
        assert run.tally.served[0] == pytest.approx(7200.0, abs=2.0)

"""Skipped turns end where walked ones end, and spend what walked ones spend."""

from itertools import pairwise
from math import log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.engine import at_full, repeats
from explorer.engine.audit import ledger
from explorer.engine.course import Standing, StopAt
from explorer.engine.march import Engine
from explorer.engine.repeats import EvenTurns
from explorer.engine.system import DAY_S, WEEK_S, Phase
from explorer.engine.trace import Trace
from explorer.engine.walk import Run
from explorer.physics.load import Draw
from explorer.scenario.build import build
from explorer.scenario.model import with_values
from tests.advice.demos import NAMES, demo
from tests.engine.systems import (
    AMORPHOUS,
    CURRENT_SOURCE,
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


def skipped_and_walked(monkeypatch, given_, span_s, start):
    """The same march twice: with repeating turns taken at once, and one by one."""
    engine = Engine(given_)
    skipped = engine.march(span_s, start)
    with monkeypatch.context() as patch:
        patch.setattr(repeats, "turns", lambda *_: None)
        walked = engine.march(span_s, start)
    assert len(walked.legs) > 3 * len(skipped.legs)  # or nothing would be compared
    return (skipped, ledger(engine, skipped)), (walked, ledger(engine, walked))


def test_a_store_that_drifts_up_while_it_serves_whenever_ready(monkeypatch):
    """Near balance the drift of a turn fades with the charge, by the same share each time."""
    given_ = system(
        light=steady(2e-4),
        panel=AMORPHOUS,
        charger=converter(voc_fraction=0.75),
        store=bank(0.5),
        load=load(connect_v=3.0, off_v=1.5, operations=(
            when_ready(4.0, (Draw(current_a=1.3e-4), 0.05), (Draw(current_a=1.2e-4), 0.3)),
        )),
    )
    (one, of_one), (two, of_two) = skipped_and_walked(
        monkeypatch, given_, HOUR_S, Standing(charge_c=2.01, connected=True)
    )
    moved_c = two.end.charge_c - 2.01
    assert abs(moved_c) > 1e-3
    assert one.end.charge_c - 2.01 == pytest.approx(moved_c, rel=1e-3)
    assert one.tally.served[0] == pytest.approx(two.tally.served[0], rel=1e-3)
    assert abs(of_one.residual_j) < 1e-4 * of_one.turned_over_j
    assert of_one.operations_j[0] == pytest.approx(of_two.operations_j[0], rel=1e-3)


def test_a_start_that_fails_again_and_again_while_the_store_fills(monkeypatch):
    """Each try costs the filling of the bulk capacitance; the turns lengthen as the store fills."""
    given_ = system(
        light=steady(3e-4),
        panel=AMORPHOUS,
        charger=converter(voc_fraction=None),
        store=bank(1.0, esr_ohm=40.0),
        load=load(
            connect_v=3.0, off_v=2.6, bulk_f=3e-4, retry_delay_s=60.0,
            start_up=(Phase(draw=Draw(current_a=0.05), duration_s=1.0),),
        ),
    )
    (one, of_one), (two, of_two) = skipped_and_walked(
        monkeypatch, given_, 3 * HOUR_S, Standing(charge_c=3.3, connected=False)
    )
    assert two.tally.cut_offs > 20
    assert one.tally.cut_offs == pytest.approx(two.tally.cut_offs, abs=1)
    assert one.end.charge_c == pytest.approx(two.end.charge_c, rel=1e-5)
    assert abs(of_one.residual_j) < 1e-4 * of_one.turned_over_j
    assert of_one.inrush_j == pytest.approx(of_two.inrush_j, rel=2e-3)


@given(
    drift=st.floats(1e-6, 1e-2) | st.floats(-1e-2, -1e-6),
    ratio=st.floats(0.98, 1.02),
    longer=st.floats(-10.0, 10.0),
    count=st.integers(1, 400),
)
def test_the_sums_over_turns_are_those_of_taking_one_after_another(drift, ratio, longer, count):
    course = EvenTurns(10.0, drift, ratio, longer)
    seconds = charge = 0.0
    one = course
    for _ in range(count):
        s, c = one.after(1)
        seconds, charge = seconds + s, charge + c
        one = one.later(1, 0.0)
    assert course.after(count) == pytest.approx((seconds, charge), rel=1e-6)
    last = course.later(count, 0.0)
    assert last.drift_c == pytest.approx(one.drift_c, rel=1e-9)
    assert last.turn_s == pytest.approx(one.turn_s, rel=1e-6)


@given(
    drift=st.floats(1e-6, 1e-2) | st.floats(-1e-2, -1e-6),
    ratio=st.floats(0.98, 1.02),
    seconds=st.floats(0.0, 1e5),
    reach=st.floats(0.0, 1.0),
)
def test_no_more_turns_are_taken_than_time_and_reach_allow(drift, ratio, seconds, reach):
    course = EvenTurns(10.0, drift, ratio, 5.0)
    count = course.turns_within(seconds, reach)
    assert count >= 0
    if count:
        spent, moved = course.after(count)
        assert spent <= seconds - 10.0
        assert abs(moved) <= reach * (1.0 + 1e-9)
    # And hardly fewer: a fifth more would break one of the bounds, that of a piece included.
    more = count + 2 + count // 5
    spent, moved = course.after(more)
    change = max(abs(log(ratio)), 5.0 * abs(drift) / 10.0)
    assert (
        spent > seconds - 10.0 or abs(moved) > reach or more * change > 0.1
    )


@pytest.mark.parametrize("name", NAMES)
def test_a_year_of_copied_weeks_is_the_year_walked_through(name, monkeypatch):
    scenario, log = demo(name)
    engine = Engine(build(scenario, log))
    start = Standing(charge_c=0.0, connected=False)
    span_s = 26 * WEEK_S + 12_345.0
    copied = engine.march(span_s, start)
    monkeypatch.setattr(repeats, "periods", lambda *_: 0)
    walked = engine.march(span_s, start)
    full_c = min(engine.field.full_c, engine.field.charge_c[-1])
    assert copied.end.charge_c == pytest.approx(walked.end.charge_c, abs=1e-8 * full_c)
    assert copied.end.connected == walked.end.connected
    assert copied.tally.served == pytest.approx(walked.tally.served)
    assert copied.tally.connects == walked.tally.connects
    assert copied.tally.connected_s == pytest.approx(walked.tally.connected_s)
    assert [e.kind for e in copied.events] == [e.kind for e in walked.events]
    for leg, following in pairwise(copied.legs):
        assert following.begin_s == pytest.approx(leg.end_s, abs=1e-6)


def weekly(monkeypatch, given_, weeks):
    """How often whole weeks were copied, and the march."""
    copied = []
    real = repeats.periods

    def watch(run, before, now, most_legs):
        count = real(run, before, now, most_legs)
        copied.append(count * (now.leg - before.leg))
        return count

    monkeypatch.setattr(repeats, "periods", watch)
    engine = Engine(given_)
    run = engine.march(weeks * WEEK_S, Standing(charge_c=0.0, connected=False))
    return [n for n in copied if n], run


def lamp(**changes):
    """Full every day, and a pulse every ten minutes."""
    day = [(0.0, 0.0), (8 * HOUR_S, 3e-4), (18 * HOUR_S, 0.0)]
    given = {
        "light": levels([(d * DAY_S + t, a) for d in range(7) for t, a in day], WEEK_S),
        "panel": AMORPHOUS, "charger": converter(voc_fraction=0.75), "store": bank(0.5),
        "full_v": 4.5,
        "load": load(connect_v=3.0, off_v=1.5, operations=(pulse(0.01, 0.1, 600.0),)),
    }
    return system(**(given | changes))


def test_weeks_are_copied_once_a_week_leaves_everything_as_it_was(monkeypatch):
    copied, run = weekly(monkeypatch, lamp(), 20)
    assert len(copied) == 1
    assert copied[0] > 0.5 * len(run.legs)


def test_weeks_with_another_beat_than_the_pulses_are_not_copied(monkeypatch):
    """650 s do not divide a week, so that the pulses of each week come at other times."""
    beat = load(connect_v=3.0, off_v=1.5, operations=(pulse(0.01, 0.1, 650.0),))
    copied, _ = weekly(monkeypatch, lamp(load=beat), 6)
    assert copied == []


def test_a_run_that_looks_for_something_is_never_copied(monkeypatch):
    monkeypatch.setattr(repeats, "NO_DRIFT", 1.0)  # every week would count as the same
    engine = Engine(lamp(light=steady(0.0)))
    start = Standing(charge_c=2.0, connected=True)
    run = engine.march(20 * WEEK_S, start, stop_at=StopAt.CUT_OFF)
    assert run.tally.cut_offs == 1.0


def test_a_run_that_waits_for_a_charge_and_lasts_several_turns_at_full_is_counted_once(monkeypatch):
    """A turn between full and resume takes 2 s, a run 5 s: 200 s hold 39 whole runs."""
    given_ = system(
        light=steady(2e-4), panel=CURRENT_SOURCE, store=bank(2e-3), full_v=4.5,
        full_hysteresis_v=0.05,
        load=load(
            connect_v=3.0, off_v=1.5,
            operations=(when_ready(4.4, (Draw(current_a=1e-4), 5.0)),),
        ),
    )
    (one, of_one), (two, of_two) = skipped_and_walked(
        monkeypatch, given_, 1000.0, Standing(charge_c=8e-3, connected=True)
    )
    assert one.tally.served == two.tally.served
    assert one.tally.full_s == pytest.approx(two.tally.full_s, rel=1e-6)
    assert one.end.charge_c == pytest.approx(two.end.charge_c, rel=1e-9)
    assert of_one.operations_j == pytest.approx(of_two.operations_j, rel=1e-6)


@pytest.mark.parametrize("farads", [0.01, 0.05])
def test_pulses_of_two_clocks_repeat_with_their_beat_at_full(farads, monkeypatch):
    """60 s and 61 s come together after 3660 s; each pulse is walked in the first beats alone."""
    given_ = system(
        light=steady(4e-4), panel=CURRENT_SOURCE, store=bank(farads), quiescent_a=1e-5,
        load=load(operations=(pulse(0.005, 0.05, 60.0), pulse(0.02, 0.05, 61.0))),
    )
    engine = Engine(given_)
    start = Standing(charge_c=4.9 * farads, connected=True)
    one = engine.march(40_000.0, start)
    with monkeypatch.context() as patch:
        patch.setattr(at_full, "full_again", lambda *_: None)
        patch.setattr(at_full, "MOST_WALKED", 10**9)
        two = engine.march(40_000.0, start)
    assert len(two.legs) > 3 * len(one.legs)
    assert one.tally.served == two.tally.served == [667, 656]
    assert one.tally.full_s == pytest.approx(two.tally.full_s, rel=1e-6)
    moments = np.linspace(0.0, 40_000.0, 1001)
    seen, right = (Trace(engine, run).at(moments).store_v for run in (one, two))
    assert seen == pytest.approx(right, abs=1e-5)


def test_what_runs_while_turns_are_passed_over_goes_on_where_it_was():
    """A run of 118 s that the store's turns at full cut anywhere: wherever the march ends."""
    given_ = system(
        light=steady(4e-5), panel=CURRENT_SOURCE, store=bank(6e-3), full_v=4.3,
        full_hysteresis_v=0.3, quiescent_a=2e-6,
        load=load(
            connect_v=2.8, off_v=2.3,
            operations=(when_ready(3.3, (Draw(current_a=4e-4), 0.7), (Draw(current_a=1e-6), 118.0)),
        )),
    )
    engine = Engine(given_)
    start = Standing(charge_c=6e-3 * 3.0, connected=True)
    whole = engine.march(WEEK_S, start)
    assert any(leg.repeats is not None and leg.repeats.times > 50 for leg in whole.legs)
    moments = np.linspace(0.3, 0.9, 7) * WEEK_S
    seen = Trace(engine, whole).at(moments).store_v
    ends = [engine.march(moment, start).end.charge_c for moment in moments.tolist()]
    assert seen == pytest.approx(engine.field.voltage_at(np.array(ends)), abs=1e-4)


def test_a_device_that_fails_the_moment_it_connects_ends_its_run_and_not_the_patience():
    """Without a retry delay it would connect and fail at one moment for ever."""
    given_ = system(
        light=steady(2e-4), panel=CURRENT_SOURCE, store=bank(2e-3, esr_ohm=100.0),
        load=load(connect_v=3.0, off_v=2.5, sleep=Draw(current_a=0.02), retry_delay_s=0.0),
    )
    run = Engine(given_).march(WEEK_S, Standing(charge_c=2e-3, connected=False))
    assert 100 < run.tally.cut_offs < 2000
    assert run.span_s < WEEK_S


def test_turns_that_never_hold_are_tried_out_less_and_less_often(monkeypatch):
    """Of a bright panel on a small store, whose device hiccups every second or two."""
    values = {"light.illuminance_lx": 9675.0, "store.capacitance_F": 0.18}
    engine = Engine(build(with_values(demo("watering_valve")[0], values)))
    trials, tried = [], Run._tried
    monkeypatch.setattr(Run, "_tried", lambda *given: trials.append(1) or tried(*given))
    run = engine.march(engine.edges[-1], most_legs=6000)
    assert run.tally.connects > 1000
    assert 0 < len(trials) < 0.15 * run.tally.connects


def tries_at_full(farad=2e-3):
    """A start-up of 2 s that the second phase always ends, with a store that is soon full again."""
    return system(
        light=steady(4e-3), panel=CURRENT_SOURCE, store=bank(farad, esr_ohm=30.0), full_v=4.5,
        full_hysteresis_v=0.01,
        load=load(
            connect_v=4.2, off_v=2.6, retry_delay_s=5.0,
            start_up=(
                Phase(draw=Draw(current_a=1e-3), duration_s=2.0),
                Phase(draw=Draw(current_a=0.2), duration_s=0.1),
            ),
        ),
    )


@pytest.mark.parametrize("farad", [2e-3, 7e-3])
def test_turns_at_full_within_a_start_up_are_passed_over(farad, monkeypatch):
    engine, start = Engine(tries_at_full(farad)), Standing(charge_c=4.4 * farad, connected=False)
    one = engine.march(600.0, start)
    with monkeypatch.context() as patch:
        patch.setattr(at_full, "full_turns", lambda *_: None)
        patch.setattr(repeats, "turns", lambda *_: None)
        two = engine.march(600.0, start)
    assert len(two.legs) > 3 * len(one.legs)
    assert one.tally.cut_offs == two.tally.cut_offs > 50
    assert one.tally.full_s == pytest.approx(two.tally.full_s, rel=1e-6)
    assert one.tally.connected_s == pytest.approx(two.tally.connected_s, rel=1e-9)
    assert one.end.charge_c == pytest.approx(two.end.charge_c, rel=1e-6)
    (of_one, of_two) = (ledger(engine, run) for run in (one, two))
    assert abs(of_one.residual_j) < 1e-6 * of_one.turned_over_j
    assert of_one.turned_over_j == pytest.approx(of_two.turned_over_j, rel=1e-6)


def test_a_stride_of_tries_knows_by_what_the_drift_of_the_last_one_misses(monkeypatch):
    """A converter's current falls as the store fills, so that the drift of a try bends."""
    given_ = system(
        light=steady(3e-4), panel=AMORPHOUS, charger=converter(voc_fraction=None),
        store=bank(1.0, esr_ohm=40.0, leakage_a=1e-5),
        load=load(
            connect_v=2.0, off_v=1.9, bulk_f=1e-6, retry_delay_s=1.0,
            start_up=(Phase(draw=Draw(current_a=0.09), duration_s=1.0),),
        ),
    )
    engine, start = Engine(given_), Standing(charge_c=2.1, connected=False)
    near = engine.march(6 * HOUR_S, start)
    with monkeypatch.context() as patch:
        hold = repeats._turns_that_hold
        patch.setattr(repeats, "_turns_that_hold", lambda *given: (hold(*given)[0], 0.0))
        straight = engine.march(6 * HOUR_S, start)
    monkeypatch.setattr(repeats, "REPEAT_REACH", 0.0005)
    right = engine.march(6 * HOUR_S, start)
    assert len(near.legs) < 0.2 * len(right.legs)
    assert near.end.charge_c - 2.1 > 0.5
    assert near.tally.cut_offs == pytest.approx(right.tally.cut_offs, abs=1)
    errors_c = [abs(run.end.charge_c - right.end.charge_c) for run in (near, straight)]
    assert errors_c[0] < 0.5 * errors_c[1]

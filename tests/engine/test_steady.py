"""The steady cycle: one period, several, or none that was found."""

from dataclasses import replace

import numpy as np
import pytest

from explorer.engine import steady
from explorer.engine.course import Standing
from explorer.engine.march import Engine
from explorer.engine.steady import LONGEST_COURSE, repeating_course
from explorer.engine.system import DAY_S, WEEK_S
from tests.depth import some
from tests.engine.systems import (
    AMORPHOUS,
    SCHOTTKY,
    bank,
    levels,
    load,
    pulse,
    system,
)
from tests.engine.systems import steady as steady_light


def office(photocurrent_a):
    """A device that a week of office light just cannot carry."""
    days = [
        (d * DAY_S + h * 3600.0, photocurrent_a if h == 8 else 0.0)
        for d in range(5) for h in (8, 18)
    ]
    draw = replace(load().sleep, current_a=7.7e-6)
    return Engine(system(
        light=levels([(0.0, 0.0), *days], WEEK_S),
        panel=AMORPHOUS,
        charger=SCHOTTKY,
        store=bank(0.35, esr_ohm=5.0, leakage_a=5e-7),
        quiescent_a=2e-7,
        load=load(
            connect_v=3.6, off_v=2.4, minimum_v=2.2, sleep=draw,
            operations=(pulse(0.01636, 0.1129, 3600.0),),
        ),
    ))


def volts_of(engine, legs):
    charges = np.array([(leg.begin_c, leg.end_c) for leg in legs])
    return float(engine.field.voltage_at(charges.min())), float(
        engine.field.voltage_at(charges.max())
    )


def test_a_course_of_several_periods_is_one_march_through_them():
    """Its periods, found one by one, say what a single run says: legs, counts and end."""
    engine = office(2.6e-5)
    found = repeating_course(engine, engine.march(WEEK_S).end)
    assert found.periods > 1
    once = engine.march(found.periods * WEEK_S, found.start)
    assert found.run.span_s == pytest.approx(once.span_s, rel=1e-12)
    assert found.run.tally.served == once.tally.served
    assert found.run.tally.cut_offs == once.tally.cut_offs
    assert len(found.run.legs) == len(once.legs)
    for leg, other in zip(found.run.legs, once.legs, strict=True):
        assert leg.begin_s == pytest.approx(other.begin_s, rel=1e-9)
        assert leg.end_c == pytest.approx(other.end_c, rel=1e-9)
    times = [event.time_s for event in found.run.events]
    assert times == pytest.approx([event.time_s for event in once.events], rel=1e-9)
    assert found.run.end.charge_c == pytest.approx(once.end.charge_c, rel=1e-9)


AMPS = (2.4e-5, 2.6e-5, 2.8e-5, 3.0e-5, 3.2e-5, 3.4e-5, 3.6e-5, 3.8e-5)


@pytest.mark.parametrize("amps", some(AMPS, 2))
def test_a_course_of_several_weeks_is_what_years_come_to(amps):
    """One march of 120 weeks, without any search, has the same cut-offs and extremes."""
    engine = office(amps)
    found = repeating_course(engine, engine.march(WEEK_S).end)
    assert found.settled
    assert found.run.span_s == pytest.approx(found.periods * WEEK_S)
    years = engine.march(120 * WEEK_S)
    first = engine.march(40 * WEEK_S).tally
    a_week = (years.tally.cut_offs - first.cut_offs) / 80.0
    served = (years.tally.served[0] - first.served[0]) / 80.0
    assert found.run.tally.cut_offs / found.periods == pytest.approx(a_week, abs=0.02)
    assert found.run.tally.served[0] / found.periods == pytest.approx(served, abs=0.5)
    late = [leg for leg in years.legs if leg.begin_s > 40 * WEEK_S]
    assert volts_of(engine, found.run.legs) == pytest.approx(volts_of(engine, late), abs=0.02)


def test_courses_of_one_week_and_of_several_are_both_met():
    lengths = {
        repeating_course(engine, engine.march(WEEK_S).end).periods
        for engine in map(office, AMPS)
    }
    assert 1 in lengths
    assert max(lengths) > 2


def test_a_store_that_runs_down_for_years_is_said_not_to_repeat():
    draw = replace(load().sleep, current_a=1e-6)
    engine = Engine(system(
        light=steady_light(0.0), store=bank(20.0), load=load(connect_v=3.0, off_v=1.0, sleep=draw)
    ))
    full = Standing(charge_c=engine.field.full_c, connected=True, charging=False)
    found = repeating_course(engine, full)
    assert not found.settled
    assert found.periods == LONGEST_COURSE
    assert found.run.span_s == pytest.approx(LONGEST_COURSE * WEEK_S)
    assert found.drift_c == pytest.approx(-1e-6 * LONGEST_COURSE * WEEK_S, rel=1e-6)


def test_a_short_log_is_repeated_until_its_store_is_full():
    """3.6 mC more in each hour: 28 of them from 3 V to the 5 V of a twentieth of a farad."""
    draw = replace(load().sleep, current_a=4e-6)
    engine = Engine(system(
        light=levels([(0.0, 1e-5), (1800.0, 0.0)], 3600.0), store=bank(0.05),
        load=load(connect_v=3.0, off_v=1.0, sleep=draw),
    ))
    found = repeating_course(engine, Standing(charge_c=0.15, connected=True))
    assert found.settled
    assert volts_of(engine, found.run.legs)[1] == pytest.approx(5.0, abs=1e-6)


@pytest.mark.parametrize("most", range(1, 12))
def test_however_few_periods_are_looked_at_there_is_a_course(most, monkeypatch):
    """The last of them may end in a step along the drift, from which nothing was followed yet."""
    monkeypatch.setattr(steady, "MOST_PERIODS", most)
    monkeypatch.setattr(steady, "FEW_LEGS", 0)
    engine = office(2.6e-5)
    found = repeating_course(engine, engine.initial_state())
    assert found.run.span_s >= WEEK_S


def hasty(interval_s=600.0):
    """A store of half a millifarad that one pulse empties, under steady light."""
    return Engine(system(
        light=steady_light(4e-5), panel=AMORPHOUS, charger=SCHOTTKY,
        store=bank(4.7e-4, esr_ohm=0.1, leakage_a=1e-7),
        load=replace(
            load(
                connect_v=3.6, off_v=2.4, minimum_v=2.2,
                operations=(pulse(0.02, 0.1, interval_s),),
            ),
            retry_delay_s=60.0,
        ),
    ))


def test_thousands_of_cut_offs_a_week_are_counted_by_the_time_that_was_followed():
    engine = hasty()
    hour = engine.march(6 * 3600.0, Standing(charge_c=0.0, connected=False)).tally.cut_offs / 6.0
    assert hour > 30
    whole = repeating_course(engine, engine.initial_state())
    a_week = whole.run.tally.cut_offs / whole.run.span_s * WEEK_S
    assert a_week == pytest.approx(168.0 * hour, rel=0.02)


def test_a_period_that_is_too_long_to_follow_is_read_by_what_was_followed(monkeypatch):
    engine = office(2.6e-5)
    monkeypatch.setattr(steady, "STUDY_LEGS", 10)
    found = repeating_course(engine, engine.initial_state())
    assert found.run.span_s < WEEK_S
    assert found.periods == 1
    assert not found.settled

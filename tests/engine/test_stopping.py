"""A march that nobody waits for any more ends soon, and leaves nothing wrong behind."""

import pickle
from math import inf
from pathlib import Path

import numpy as np
import pytest

from explorer.advice.answers import answers
from explorer.advice.case import Case
from explorer.advice.fleet import fleet
from explorer.advice.judge import judge
from explorer.advice.readings.one import study
from explorer.advice.readings.starts import first_operation_time
from explorer.advice.year.answers import month_energies
from explorer.advice.year.readings import year_dark
from explorer.advice.year.study import year_study
from explorer.engine.audit import ledger
from explorer.engine.course import Interrupted, asked_to_stop, until
from explorer.engine.trace import Trace
from explorer.engine.walk import ASKED_EVERY, MOST_TRIES
from explorer.files.scenario_json import load_scenario
from explorer.scenario.demand import Every, Load, Operation, Phase
from explorer.scenario.light import Light, LitBlock, WeekPattern
from explorer.scenario.model import Scenario
from explorer.scenario.storage import CapacitorStore
from explorer.state.holds import Hold
from explorer.state.jobs import _Task
from explorer.state.worker import DONE, _answer
from tests.advice.years import plant_label
from tests.reference.yearly import numbered_year

CASES = Path(__file__).parents[1] / "cases"
A_YEAR = 13
AT_NOON_S = 7 * 3600.0
"""From five in the morning."""


class Patience:
    """Says to stop once it was asked so often."""

    def __init__(self, most):
        self.most, self.asked = most, 0

    def __call__(self):
        self.asked += 1
        return self.asked > self.most


def test_an_account_of_a_month_is_given_up_within_it():
    """A device that fails all year has hundreds of thousands of legs: that takes a minute."""
    tight = year_study(plant_label()).months[0]
    whole = Patience(10**9)
    with until(whole):
        ledger(tight.engine, tight.run)
    assert whole.asked > 3
    with pytest.raises(Interrupted), until(Patience(whole.asked // 2)):
        ledger(tight.engine, tight.run)


def test_a_year_is_given_up_within_it_and_goes_on_from_what_was_kept():
    whole = Patience(10**9)
    with until(whole):
        right = year_study(Case(numbered_year(A_YEAR)))
    legs = sum(len(part.run.legs) for part in right.opening.parts)
    assert whole.asked > 12  # a march of a month asks as it begins, and on its way
    case = Case(numbered_year(A_YEAR))
    for most in (0, whole.asked // 2):
        patience = Patience(most)
        with pytest.raises(Interrupted), until(patience):
            year_study(case)
        assert patience.asked == most + 1
    assert asked_to_stop() is None
    assert legs == sum(len(part.run.legs) for part in year_study(case).opening.parts)
    assert judge(case) == judge(Case(numbered_year(A_YEAR)))


def test_what_is_read_of_a_year_asks_for_each_month_where_nothing_is_marched():
    """Its hours and its dark stretches took seconds in which nothing was asked."""
    case = Case(numbered_year(A_YEAR))
    year_study(case)
    for read in (month_energies, year_dark):
        patience = Patience(5)
        with pytest.raises(Interrupted), until(patience):
            read(case)
        assert patience.asked == 6


def test_a_first_operation_is_waited_for_no_longer_than_a_first_start():
    """This device starts, and fails half a million times a week before its operation is done."""
    path = CASES / "never_done_with_its_first_operation.json"
    case = Case(load_scenario(path).scenario)
    found = study(case)
    events = Patience(10**9)
    with until(events):
        assert first_operation_time(found.engine, found.first, found.course.run) == inf
    assert events.asked * ASKED_EVERY < 2 * MOST_TRIES


def test_what_fails_a_whole_dim_morning_long_and_is_done_at_noon_is_waited_for():
    """In the morning light brings less than a run takes, and a small store fails in no time."""
    run = Operation(
        name="run", schedule=Every(interval_s=60.0),
        phases=(Phase(current_A=2e-3, duration_s=2.0),),
    )  # fmt: skip
    found = answers(Case(with_dim_mornings(start_up=(), operations=(run,))))
    assert found["cut_offs_per_week"] > 7 * MOST_TRIES
    assert found["first_operation_s"] == pytest.approx(AT_NOON_S + 2.0, abs=1.0)


@pytest.mark.parametrize("initial_v", [0.0, 1.0])
def test_a_start_up_that_fails_a_whole_dim_morning_long_is_waited_for_with_all_its_tries(initial_v):
    """The Starts check begins with an empty store, whatever the scenario itself begins with."""
    start_up = (Phase(current_A=2e-3, duration_s=2.0),)
    case = Case(with_dim_mornings(initial_v, start_up=start_up, operations=()))
    first = study(case).first
    assert first.seconds == pytest.approx(AT_NOON_S + 2.0, abs=1.0)
    every_day = answers(case)["cut_offs_per_week"] / 7.0
    assert every_day > MOST_TRIES
    assert first.connects == pytest.approx(every_day, abs=3.0)


def with_dim_mornings(initial_v=0.0, **device):
    """Light from 5 to 18 o'clock, until noon a fiftieth of it, on a store of 0.1 mF."""
    week = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
    hours = (LitBlock(days=week, from_h=5.0, to_h=12.0, relative_level=0.02),
             LitBlock(days=week, from_h=12.0, to_h=18.0))  # fmt: skip
    return Scenario(
        light=Light(illuminance_lx=2e4, source="daylight_open", pattern=WeekPattern(blocks=hours)),
        store=CapacitorStore(
            capacitance_F=1e-4, esr_ohm=0.0, leakage_A=0.0, rated_V=6.3, initial_V=initial_v
        ),
        load=Load(sleep_A=1e-6, bulk_capacitance_F=0.0, **device),
    )


def told_midway(hold):
    """A question whose asker goes away while a year is marched."""
    yield "first"
    hold.stop.set()
    yield judge(Case(plant_label().scenario))


def test_a_question_that_is_told_to_stop_ends_within_its_march_and_is_no_failure():
    sent = []
    _answer(7, pickle.dumps(told_midway), Hold(), sent.append)
    assert [message[0] for message in sent] == ["step", DONE]
    steps = []
    assert _Task(key="year", number=1, question=told_midway).run(steps.append) is None
    assert steps == ["first"]


def test_rows_of_a_trace_are_given_up_between_their_parts():
    """Of a device that fails a million times each part takes a second."""
    found = study(Case(load_scenario(CASES / "runs_with_84100_cut_offs.json").scenario))
    whole = Patience(10**9)
    with until(whole):
        right = found.repeating.eventful(50)
    assert whole.asked >= 4
    for most in range(whole.asked):
        trace = Trace(found.engine, found.course.run)
        with pytest.raises(Interrupted), until(Patience(most)):
            trace.eventful(50)
        again = trace.eventful(50)
        assert (again.store_v == right.store_v).all()
        assert (again.load_a == right.load_a).all()


def test_batches_in_a_row_are_given_up_between_them():
    """Of a design that is asked an amount, each number of designs takes a second batch."""
    case = Case(Scenario()).with_value("margins.operations_per_hour", 10.0)
    changes, asked = {"light.illuminance_lx": np.array([300.0, 400.0])}, []
    with until(lambda: asked.append(True) or len(asked) > 1), pytest.raises(Interrupted):
        fleet(case, changes)
    assert len(asked) == 2

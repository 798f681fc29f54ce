"""The whole model against a reference that steps its own equations (tests/reference).

Scenarios are drawn over every kind of store, charger, schedule, pattern and regulator, each from a
number, so that they are the same every day; `python -m tests.reference --examples 10000` takes
others and prints how far they lie apart.
"""

from math import isfinite
from random import Random

import pytest

from explorer.advice.case import Case
from explorer.advice.judge import judge
from explorer.scenario.model import Scenario
from tests.depth import some
from tests.reference import beside, columns, outside
from tests.reference.habit import TooLong
from tests.reference.strategy import numbered

COMPARED = (
    "first_connect_s", "first_charge_s", "first_operation_s", "full_charge_s", "longest_dark_s",
    "balance_ratio", "operations_per_charge", "dark_time_s", "margin of starts",
    "margin of balance", "margin of ratings",
    "lowest_store_V", "highest_store_V", "lowest_terminal_V", "served_share", "cut_offs_per_week",
    "margin of dark",
)  # fmt: skip
TENS = (*some(range(0, 140, 10), 3), 170)
ANSWERED = some(range(0, 100, 10), 2)
"""A course that settles takes three times as long as a run's rows, and the designs that showed a
fault of their own later on are all below; `tests.reference` takes as many as there is time for."""
HANGS = {171: "nudged"}
"""How a design had to be compared that hangs on microvolts; every other one as it is given."""


@pytest.mark.parametrize("first", TENS)
def test_every_column_of_a_run_is_true(first):
    """Rows of the opening run: state, lowest and means of every step, and what happened."""
    wrong, how = {}, {}
    for number in range(first, first + 10):
        found = columns.nearest(numbered(number), most=300)
        wrong |= {(number, name): off for name, off in found.wrong.items()}
        how[number] = found.how
    assert not wrong
    assert how == {number: HANGS.get(number, "as given") for number in how}


@pytest.mark.parametrize("first", ANSWERED)
def test_answers_and_margins_are_true(first):
    """First answers, one charge, energies, ratings and the settled course, and its two rules."""
    wrong = {}
    for number in range(first, first + 10):
        case = numbered(number)
        try:
            right, _, verdict, found = beside.judged(case, most=150)
        except TooLong:
            continue
        off = beside.compared(right, verdict, found)
        wrong |= {
            (number, name): off[name] for name in COMPARED
            if name in off and off[name].share > 1.0
        }  # fmt: skip
        if broken := beside.broken_rules(right, verdict):
            wrong[number, "rules"] = broken
    assert not wrong


WRONG_ONCE = (346, 641, 720, 761, 785, 804, 816, 898, 952, 1048, 1168, 1283, 1836, 1937, 1956,
              2234, 3254, 3301, 3392, 3833, 4090, 5675, 6047, 6127, 6428, 6475, 6671, 7393, 8189,
              10314)
COLUMNS_WRONG_ONCE = (895, 1242, 6404, 8558, 8659, 9495)
"""The same of their columns; their courses are too long for the reference, or were right."""
FOLLOWED_IN_VAIN = 804
"""Its course repeats for the product alone: the reference would march for 18 000 stretches."""


@pytest.mark.parametrize("number", WRONG_ONCE)
def test_what_was_wrong_of_a_design_once_is_true(number):
    """Designs of a longer run that each showed a fault of their own."""
    case, most = numbered(number), 300 if number == FOLLOWED_IN_VAIN else 600
    rows = columns.nearest(case, most)
    right, _, verdict, answers = beside.judged(case, most)
    found = beside.nearest(case, right, verdict, answers, most)
    assert not {**rows.wrong, **found.wrong}
    assert rows.how == found.how == "as given"


@pytest.mark.parametrize("number", COLUMNS_WRONG_ONCE)
def test_columns_that_were_wrong_of_a_design_once_are_true(number):
    found = columns.nearest(numbered(number), most=600)
    assert not found.wrong
    assert found.how == "as given"


def tabled(number):
    """A numbered case whose converter has a table of efficiencies; None where it has none."""
    scenario, log = numbered(number)
    if scenario.charger.kind != "converter":
        return None
    lots = Random(number)
    least_w = max(scenario.charger.minimum_panel_W, 1e-7)
    rows = []
    for volts in lots.choice(((None,), (1.5, 2.5, 4.0))):
        shares = sorted(lots.uniform(0.3, 0.95) for _ in range(4))
        powers = [least_w * 0.3 * 6.0**n for n in range(5)]
        rows += [
            {"input_W": watt, "efficiency": share, "store_V": volts}
            for watt, share in zip(powers, [*shares, 0.8 * shares[-1]], strict=True)
        ]
    data = scenario.model_dump()
    data["charger"] |= {"efficiency_table": rows, "table_scale": lots.choice((1.0, 0.9))}
    return Scenario.model_validate(data), log


def test_a_table_of_efficiencies_is_marched_exactly():
    """Rows by input power, and by store voltage too, beside a reference with another spline."""
    wrong, compared = {}, 0
    for number in some(range(40), 2):
        case = tabled(number)
        if case is not None:
            found = columns.nearest(case, most=150)
            compared += 1
            wrong |= {(number, name): off for name, off in found.wrong.items()}
    assert compared > 7
    assert not wrong


def test_a_scenario_ends_in_a_verdict_or_a_sentence():
    for number in some(range(1000, 1060), 3):
        sentence = ""
        try:
            verdict = judge(Case(*numbered(number)))
        except ValueError as fault:
            sentence = str(fault)
        if sentence:
            assert len(sentence.split()) > 3
            continue
        assert verdict.state in ("runs", "marginal", "falls_short")
        assert all(c.sentence and isfinite(c.margin) for c in verdict.checks)


def test_both_sides_of_an_edge_are_as_it_says():
    """By the exact verdict, and by the reference's own balance."""
    for number in some(range(2000, 2008), 2):
        wrong = [off for off in outside.edges(numbered(number)).values() if off.share > 1.0]
        assert not wrong, number

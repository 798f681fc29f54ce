"""The whole model against a reference that steps its own equations (tests/reference).

Scenarios are drawn over every kind of store, charger, schedule, pattern and regulator. What is
drawn in the ordinary run is the same every time; `python -m tests.reference --examples 10000`
draws others and prints how far they lie apart.
"""

from math import isfinite

import pytest
from hypothesis import HealthCheck, Phase, given, note, seed, settings

from explorer.advice.case import Case
from explorer.advice.judge import judge
from tests.reference import beside, columns
from tests.reference.habit import TooLong
from tests.reference.strategy import cases

DRAWN = settings(
    max_examples=60, database=None, print_blob=True, deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.generate,),  # a smaller example takes minutes; tests.reference saves them whole
)  # fmt: skip
PARTS = range(5)
BEFORE_THE_COURSE = (
    "first_connect_s", "first_charge_s", "first_operation_s", "full_charge_s", "longest_dark_s",
    "balance_ratio", "operations_per_charge", "dark_time_s", "margin of starts",
    "margin of balance", "margin of ratings",
)  # fmt: skip


@pytest.mark.parametrize("part", PARTS)
def test_every_column_of_a_run_is_true(part):
    """Rows of the opening run: state, lowest and means of every step, and what happened."""

    @seed(part)
    @settings(DRAWN)
    @given(cases())
    def one(case):
        off, _ = columns.compared(case, most=300)
        wrong = [o for o in off.values() if o.share > 1.0]
        note(wrong)
        assert not wrong

    one()


@pytest.mark.parametrize("part", PARTS)
def test_answers_and_margins_are_true(part):
    """First answers, one charge, energies and ratings; no verdict breaks the rules of a course."""

    @seed(100 + part)
    @settings(DRAWN)
    @given(cases())
    def one(case):
        try:
            right, _, verdict, found = beside.judged(case, most=150)
        except TooLong:
            return
        off = beside.compared(right, verdict, found)
        wrong = [off[n] for n in BEFORE_THE_COURSE if n in off and off[n].share > 1.0]
        note(wrong)
        assert not wrong
        assert not beside.broken_rules(right, verdict)

    one()


@seed(1000)
@settings(DRAWN)
@given(cases())
def test_a_scenario_ends_in_a_verdict_or_a_sentence(case):
    sentence = ""
    try:
        verdict = judge(Case(*case))
    except ValueError as fault:
        sentence = str(fault)
    if sentence:
        assert len(sentence.split()) > 3
        return
    assert verdict.state in ("runs", "marginal", "falls_short")
    assert all(c.sentence and isfinite(c.margin) for c in verdict.checks)

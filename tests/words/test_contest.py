"""What the contest of stores says of each of them."""

import math

import pytest

from explorer.advice.case import Case
from explorer.advice.contest import Entry, present_entry
from explorer.advice.contest import contest as every_kind
from explorer.scenario.model import Scenario, first_scenario
from explorer.words import contest as contest_text


def test_a_store_that_does_not_suit_ranks_last():
    entry = Entry(
        key="k", title="Thick film", scenario=None, size=0.0, unit="F", verdict=None, answers={},
        curve=None, volume_cm3=0.0, mass_g=0.0, cost_class=1, years_to_end=0.0, cautions=(),
        fits=False,
    )
    assert contest_text.contest_cell(entry, "verdict").text == "Does not suit"
    assert contest_text.contest_cell(entry, "first").rank == math.inf
    assert "does not suit" in contest_text.contest_line(entry)


def test_the_design_s_own_store_has_no_size_weight_or_price_but_all_the_rest():
    entry = present_entry(Case(Scenario()))
    texts = {key: contest_text.contest_cell(entry, key).text
             for key, _ in contest_text.CONTEST_COLUMNS}  # fmt: skip
    assert texts["store"] == "As it is now"
    assert texts["volume"] == texts["mass"] == texts["cost"] == "–"
    assert texts["size"] == "1 F"
    assert texts["verdict"] == entry.verdict.word
    assert all(math.isinf(contest_text.contest_cell(entry, k).rank) for k in ("volume", "mass"))


def rank(entry):
    return contest_text.contest_cell(entry, "verdict").rank


def test_of_equals_that_work_the_design_s_own_store_stands_below_what_could_replace_it():
    own = present_entry(Case(first_scenario()))
    assert own.verdict.state != "falls_short"
    equals = [
        entry for entry in every_kind(Case(first_scenario()))
        if entry.verdict is not None and entry.verdict.state == own.verdict.state
    ]
    assert equals
    assert all(rank(entry) > rank(own) for entry in equals)


LOCK = Scenario.model_validate({
    "light": {"illuminance_lx": 60.0},
    "store": {"kind": "supercapacitor", "capacitance_F": 5.0},
    "load": {
        "actuator": "door_lock", "connect_V": 4.2, "disconnect_V": 3.2, "minimum_V": 3.0,
        "operations": ({"name": "open", "schedule": {"kind": "every", "interval_s": 2400.0},
                        "phases": ({"current_A": 0.25, "duration_s": 0.6},)},),
    },
})  # fmt: skip
"""A bank that opens a door some ten times, in a light that does not pay for one in 40 min."""


@pytest.fixture(scope="module")
def of_lock():
    return present_entry(Case(LOCK)), list(every_kind(Case(LOCK)))


def test_where_nothing_suits_what_comes_nearest_is_told_and_why(of_lock):
    """A capacitor that cannot open the door once is never above a bank that can."""
    own, entries = of_lock
    assert not any(e.verdict is not None and e.verdict.state == "runs" for e in entries)
    small = next(e for e in entries if e.key == "electrolytic")
    assert rank(small) < rank(own)
    nearest = max(entries, key=lambda entry: entry.nearness)
    answer = contest_text.contest_answer([own, *entries], True)
    assert f"nearest comes {nearest.title}, " in answer
    assert answer.endswith(nearest.verdict.governing.sentence)
    assert rank(nearest) == max(map(rank, entries))


def test_the_design_s_own_store_is_no_kind_that_would_run(of_lock):
    entries = [of_lock[0], *of_lock[1]]
    kinds = contest_text.contest_answer(entries[1:], True)
    assert contest_text.contest_answer(entries, True) == kinds

"""What the contest of stores says of each of them."""

import math

from explorer.advice.case import Case
from explorer.advice.contest import Entry, present_entry
from explorer.advice.contest import contest as every_kind
from explorer.scenario.model import Scenario
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


def test_of_equals_the_design_s_own_store_stands_below_what_could_replace_it():
    own = present_entry(Case(Scenario()))
    for entry in every_kind(Case(Scenario())):
        if entry.verdict is not None and entry.verdict.state == own.verdict.state:
            ranks = [contest_text.contest_cell(e, "verdict").rank for e in (entry, own)]
            assert ranks[0] > ranks[1]


def test_the_design_s_own_store_is_no_kind_that_would_run():
    entries = [present_entry(Case(Scenario())), *every_kind(Case(Scenario()))]
    kinds = contest_text.contest_answer(entries[1:], True)
    assert contest_text.contest_answer(entries, True) == kinds

"""Answers as a person reads them: bounds say that they are bounds, and in which unit."""

import pytest

from explorer.advice.reach import Reach
from explorer.advice.sentences import percent
from explorer.words.answers import brief_of, value_of


@pytest.mark.parametrize(
    ("key", "value", "text"),
    [
        ("longest_closure_days", Reach(3.0), "3 d"),
        ("longest_closure_days", Reach(0.25), "6 h"),
        ("longest_closure_days", Reach(365.0, "more than"), "more than 365 d"),
        ("least_light_for_balance_lx", Reach(120.0), "120 lx"),
        ("least_light_for_balance_lx", Reach(1.0, "less than"), "less than 1 lx"),
        ("least_light_for_balance_lx", Reach(3000.0, "none"), "none up to 3000 lx"),
        ("most_operations_per_day", Reach(5000.0, "more than"), "more than 5000"),
        ("most_operations_per_day", Reach(1.0, "none"), "not even 1"),
    ],
)
def test_an_edge_says_what_the_search_knows(key, value, text):
    assert value_of(key, value) == text


@pytest.mark.parametrize(
    ("key", "value", "text"),
    [
        ("longest_closure_days", Reach(3.0), "3 d"),
        ("longest_closure_days", Reach(0.0, "none"), "none"),
        ("longest_closure_days", Reach(365.0, "more than"), "> 365 d"),
        ("least_light_for_balance_lx", Reach(1.0, "less than"), "< 1 lx"),
        ("least_light_for_balance_lx", Reach(3000.0, "none"), "> 3000 lx"),
        ("least_light_for_balance_lx", Reach(100_000.0, "none"), "> 10⁵ lx"),
        ("most_operations_per_day", Reach(5000.0, "more than"), "> 5000"),
        ("most_operations_per_day", Reach(0.01, "none"), "< 0.01"),
        ("longest_dark_s", float("inf"), "\N{INFINITY}"),
        ("served_share", 0.5, "50 %"),
    ],
)
def test_in_brief_a_bound_has_a_sign_in_the_place_of_words(key, value, text):
    assert brief_of(key, value).replace("\N{NO-BREAK SPACE}", " ") == text


def test_only_all_of_it_is_a_hundred_per_cent():
    assert percent(1.0) == "100"
    assert percent(0.999999) == "99.99"
    assert percent(0.5) == "50"

"""Prices of one currency add up; those of several stand side by side, everywhere."""

import math

from explorer.scenario.part import PanelPart
from explorer.scenario.price import RELATIVE, Price, cheapest_first, currencies_of, price_of
from explorer.words.price import cost_columns, cost_text


def test_one_currency_adds_up_and_several_do_not():
    alike = price_of(4.0, "EUR") * 3 + price_of(1.5, "EUR")
    assert (alike.single, alike.currency) == (13.5, "EUR")
    mixed = alike + price_of(2.0, "USD") + price_of(0.5, RELATIVE)
    assert math.isnan(mixed.single)
    assert mixed.currency == ""
    assert [mixed.amount(c) for c in ("EUR", "USD", RELATIVE, "CHF")] == [13.5, 2.0, 0.5, 0.0]
    assert cost_text(mixed) == "13.50 EUR, 2.00 USD and 0.50 (relative)"


def test_a_currency_without_a_name_is_one_of_its_own():
    mixed = price_of(4.0, "") + price_of(1.0, "EUR")
    assert math.isnan(mixed.single)
    assert cost_text(mixed) == "4.00 and 1.00 EUR"
    assert cost_text(price_of(4.0, "")) == "4.00"
    assert cost_columns([price_of(4.0, "")])["currency"] == ["unnamed"]


def test_a_currency_is_the_same_however_it_is_typed():
    both = price_of(4.0, "EUR") + price_of(1.0, "eur ")
    assert (both.single, both.currency) == (5.0, "EUR")
    own = [PanelPart(title=c, price=1.0, currency=c) for c in ("eur", "EUR ", "USD")]
    assert currencies_of(own) == ("EUR", "USD")
    assert [p.title for p in cheapest_first(own)] == ["eur", "EUR ", "USD"]


def test_one_part_without_a_price_leaves_the_whole_unknown():
    for whole in (price_of(4.0, "EUR") + price_of(None, "EUR"), price_of(None, "EUR") * 2):
        assert math.isnan(whole.single)
        assert math.isnan(whole.amount("EUR"))
        assert cost_text(whole) == "not known"


def test_nothing_costs_nothing():
    assert Price().single == 0.0
    assert cost_text(Price()) == "0.00"


def test_parts_are_in_order_within_a_currency_and_no_rate_is_guessed():
    def part(price, currency):
        return PanelPart(title=f"{price} {currency}", price=price, currency=currency)

    own = [part(3.0, "USD"), part(None, "EUR"), part(9.0, "EUR"), part(1.0, "USD"),
           part(4.0, "EUR"), part(2.0, "EUR")]  # fmt: skip
    assert currencies_of(own) == ("EUR", "USD")
    told = [one.title for one in cheapest_first(own)]
    assert told == ["2.0 EUR", "4.0 EUR", "9.0 EUR", "1.0 USD", "3.0 USD", "None EUR"]


def test_a_table_has_a_column_for_each_currency_only_where_there_are_several():
    one = cost_columns([price_of(2.0, "EUR"), price_of(None, "EUR")])
    assert list(one) == ["price", "currency"]
    assert one["currency"] == ["EUR", ""]
    two = cost_columns([price_of(2.0, "EUR") + price_of(1.0, RELATIVE), price_of(3.0, "EUR")])
    assert two["currency"] == ["EUR + relative", "EUR"]
    assert math.isnan(two["price"][0])
    assert two["price"][1] == 3.0
    assert (two["price_EUR"], two["price_relative"]) == ([2.0, 3.0], [1.0, 0.0])

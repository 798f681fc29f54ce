"""Prices as a person reads them, and as columns of a file; several currencies are never added."""

from __future__ import annotations

from collections.abc import Sequence

from explorer.scenario.price import RELATIVE, Price
from explorer.text import Text, figure, joined, listed, say


def price_text(price: float, currency: str) -> Text:
    """A price with its currency.

    Examples
    --------
    >>> price_text(4.2, "EUR")
    '4.20 EUR'
    """
    amount = figure(f"{price:.2f}")
    return joined(" ", (amount, currency)) if currency else amount


def cost_text(cost: Price) -> Text:
    """What parts cost, currency by currency; what is relative is said to be so.

    Examples
    --------
    >>> from explorer.scenario.price import price_of
    >>> both = price_of(12.4, "EUR") + price_of(2.5, RELATIVE)
    >>> cost_text(both), cost_text(both + price_of(None, "EUR"))
    ('12.40 EUR and 2.50 (relative)', 'not known')
    """
    if not cost.is_known:
        return say("not known")
    money = [price_text(amount, c) for c, amount in cost.amounts if c != RELATIVE]
    shares = [
        say("{price} (relative)", price=figure(f"{amount:.2f}"))
        for c, amount in cost.amounts if c == RELATIVE
    ]
    told = [*money, *shares] or [figure("0.00")]
    return listed(told)


def cost_columns(costs: Sequence[Price]) -> dict[str, list[float | str]]:
    """Prices as columns of a file, with one for each currency where they are in several.

    Examples
    --------
    >>> from explorer.scenario.price import price_of
    >>> cost_columns([price_of(2.0, "EUR"), price_of(2.0, "EUR") + price_of(1.0, "USD")])
    ... # doctest: +NORMALIZE_WHITESPACE
    {'price': [2.0, nan], 'currency': ['EUR', 'EUR + USD'],
     'price_EUR': [2.0, 2.0], 'price_USD': [0.0, 1.0]}
    """
    table: dict[str, list[float | str]] = {
        "price": [cost.single for cost in costs],
        "currency": [" + ".join(_named(c) for c, _ in cost.amounts) for cost in costs],
    }
    met = dict.fromkeys(c for cost in costs for c, _ in cost.amounts)
    if len(met) > 1:
        for currency in met:
            table[f"price_{_named(currency)}"] = [cost.amount(currency) for cost in costs]
    return table


def _named(currency: str) -> str:
    return currency or "unnamed"


__all__ = ["cost_columns", "cost_text", "price_text"]

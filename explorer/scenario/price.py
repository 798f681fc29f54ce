"""What parts cost together: amounts of one currency add up, those of several stand side by side.

No exchange rate is kept: it would be wrong tomorrow, and none turns the relative prices of generic
parts into money. What costs less in one currency and no more in any other is cheaper at every
rate; of all else nobody can tell here.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import inf, nan
from typing import TypeVar

from explorer.scenario.part import Part

P = TypeVar("P", bound=Part)
RELATIVE = "relative"
"""Stands for the currency of generic parts; see `generic`."""


@dataclass(frozen=True, slots=True)
class Price:
    """What one or several parts cost.

    Examples
    --------
    >>> both = price_of(4.0, "EUR") * 2 + price_of(1.5, "EUR")
    >>> both.single, both.currency
    (9.5, 'EUR')
    >>> mixed = both + price_of(3.0, "USD")
    >>> mixed.amounts, mixed.single
    ((('EUR', 9.5), ('USD', 3.0)), nan)
    """

    amounts: tuple[tuple[str, float], ...] = ()
    """Currency and what it comes to in it; no currency twice."""
    is_known: bool = True
    """Whether every part has a price."""

    @property
    def currency(self) -> str:
        """The one currency; empty where there are several or none, or where it has no name."""
        return self.amounts[0][0] if len(self.amounts) == 1 else ""

    @property
    def single(self) -> float:
        """The price as one number; not a number where there is none."""
        if not self.is_known or len(self.amounts) > 1:
            return nan
        return self.amounts[0][1] if self.amounts else 0.0

    def amount(self, currency: str) -> float:
        """What it comes to in one currency; not a number where a part has no price."""
        return dict(self.amounts).get(currency, 0.0) if self.is_known else nan

    def __add__(self, other: Price) -> Price:
        sums = dict(self.amounts)
        for currency, amount in other.amounts:
            sums[currency] = sums.get(currency, 0.0) + amount
        return Price(tuple(sums.items()), self.is_known and other.is_known)

    def __mul__(self, count: float) -> Price:
        return Price(tuple((c, amount * count) for c, amount in self.amounts), self.is_known)


def price_of(amount: float | None, currency: str) -> Price:
    """The price of one part; None where it is not known."""
    return Price(is_known=False) if amount is None else Price(((named(currency), amount),))


def named(currency: str) -> str:
    """A currency however it was typed: the codes of three letters know no small ones.

    Examples
    --------
    >>> named(" eur"), named("EUR"), named("€"), named("relative")
    ('EUR', 'EUR', '€', 'relative')
    """
    bare = currency.strip()
    return bare.upper() if len(bare) == 3 and bare.isalpha() else bare


def currencies_of(own: Iterable[Part]) -> tuple[str, ...]:
    """Currencies in which parts are priced, the one that most have first.

    Examples
    --------
    >>> from explorer.scenario.part import PanelPart
    >>> some = [PanelPart(title=c, price=1.0, currency=c) for c in ("USD", "EUR")]
    >>> currencies_of([*some, some[0], PanelPart(title="Pane")])
    ('USD', 'EUR')
    """
    found = [named(part.currency) for part in own if part.price is not None]
    return tuple(sorted(set(found), key=lambda currency: (-found.count(currency), currency)))


def cheapest_first(own: Sequence[P]) -> list[P]:
    """Parts by price within one currency, that of most of them first; last what has no price."""
    order = currencies_of(own)
    return sorted(own, key=lambda part: (
        (inf, inf) if part.price is None else (order.index(named(part.currency)), part.price)
    ))  # fmt: skip


__all__ = ["RELATIVE", "Price", "cheapest_first", "currencies_of", "named", "price_of"]

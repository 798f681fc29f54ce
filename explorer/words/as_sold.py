"""The build under the pointer of a map, in words: what it is, what it costs, what it does."""

from __future__ import annotations

from math import isnan, log

from explorer.advice.as_sold import AsSold, Cost, cost_at
from explorer.advice.territory import Territory
from explorer.advice.verdict import CHECK_LABELS, Check, Verdict
from explorer.scenario.model import Scenario, size_path
from explorer.text import Text, figure, joined, say
from explorer.words.figures import check_margin_text

Table = dict[str, list[float | str]]

SHOWN = 2
"""Checks that are told, those that lose most first."""
TOLD = 0.02
"""Relative change of a margin below which it is not told."""


def cost_text(cost: Cost) -> Text:
    """A price; that of generic parts is relative and said to be so.

    Examples
    --------
    >>> cost_text(Cost(own=12.4, generic=0.0, currency="EUR"))
    '12.40 EUR'
    >>> cost_text(Cost(own=12.4, generic=2.5, currency="EUR"))
    '12.40 EUR and 2.50 (relative)'
    """
    if isnan(cost.own):
        return say("not known")
    told = []
    if cost.own or cost.currency:
        told.append(figure(f"{cost.own:.2f} {cost.currency}".rstrip()))
    if cost.generic or not told:
        told.append(say("{price} (relative)", price=figure(f"{cost.generic:.2f}")))
    return joined(say(" and "), told)


def as_sold_line(found: AsSold) -> Text:
    """What the nearest build is, and its price beside that of the present design."""
    return say(
        "Nearest as sold: {panels}; {store}. Price {price}, now {now}.",
        panels=found.panels, store=found.store, price=cost_text(found.cost),
        now=cost_text(found.now),
    )  # fmt: skip


def checks_line(now: Verdict, then: Verdict | None) -> Text:
    """What a build does, and which margins it changes, those that lose most first."""
    if then is None:
        return say("This build cannot be judged.")
    pairs = [
        (before, after) for before, after in zip(now.checks, then.checks, strict=True)
        if abs(_change(before, after)) > TOLD
    ]
    if not pairs:
        return say("{word}; no check changes.", word=then.word)
    pairs.sort(key=lambda pair: _change(*pair))
    told = joined(", ", (
        say("{check} {before} → {after}", check=CHECK_LABELS[after.name],
            before=check_margin_text(before), after=check_margin_text(after))
        for before, after in pairs[:SHOWN]
    ))  # fmt: skip
    return say("{word}: {changes}.", word=then.word, changes=told)


def priced_table(found: Territory, scenario: Scenario) -> Table:
    """What panels and store cost at every point of a map, as columns beside it."""
    costs: dict[tuple[int | None, int | None], Cost | None] = {}
    rows = []
    paths = (size_path(scenario), "panels.count")
    for j, y in enumerate(found.y.values):
        for i, x in enumerate(found.x.values):
            place = {p: v for p, v in ((found.x.path, x), (found.y.path, y)) if p in paths}
            key = (i if found.x.path in place else None, j if found.y.path in place else None)
            if key not in costs:
                costs[key] = cost_at(scenario, place)
            rows.append(costs[key])
    none = float("nan")
    return {
        "price_of_own_parts": [none if c is None else c.own for c in rows],
        "currency": ["" if c is None else c.currency for c in rows],
        "relative_price_of_generic_parts": [none if c is None else c.generic for c in rows],
    }


def _change(before: Check, after: Check) -> float:
    """How a margin changes, in steps of e."""
    least, most = 1e-3, 99.0
    one, other = (min(max(c.margin, least), most) for c in (before, after))
    return log(other / one)


__all__ = ["as_sold_line", "checks_line", "cost_text", "priced_table"]

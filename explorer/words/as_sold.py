"""The build under the pointer of a map, in words: what it is, what it costs, what it does."""

from __future__ import annotations

from math import log

from explorer.advice.as_sold import AREA, AsSold, cost_at
from explorer.advice.territory import Territory
from explorer.advice.verdict import CHECK_LABELS, Check, Verdict
from explorer.scenario.model import Scenario, size_path
from explorer.scenario.price import Price
from explorer.text import Text, joined, say
from explorer.words.figures import check_margin_text
from explorer.words.price import cost_columns, cost_text

Table = dict[str, list[float | str]]

SHOWN = 2
"""Checks that are told, those that lose most first."""
TOLD = 0.02
"""Relative change of a margin below which it is not told."""


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
    costs: dict[tuple[int | None, int | None], Price] = {}
    rows = []
    paths = (size_path(scenario), "panels.count", AREA)
    for j, y in enumerate(found.y.values):
        for i, x in enumerate(found.x.values):
            place = {p: v for p, v in ((found.x.path, x), (found.y.path, y)) if p in paths}
            key = (i if found.x.path in place else None, j if found.y.path in place else None)
            if key not in costs:
                costs[key] = cost_at(scenario, place) or Price(is_known=False)
            rows.append(costs[key])
    return cost_columns(rows)


def _change(before: Check, after: Check) -> float:
    """How a margin changes, in steps of e."""
    least, most = 1e-3, 99.0
    one, other = (min(max(c.margin, least), most) for c in (before, after))
    return log(other / one)


__all__ = ["as_sold_line", "checks_line", "priced_table"]

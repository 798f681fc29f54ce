"""Edges in words: where along a quantity a design runs, in the same words everywhere."""

from __future__ import annotations

from typing import TYPE_CHECKING

from explorer.advice.stops import WHOLE
from explorer.quantity import show
from explorer.text import Text, listed, say

if TYPE_CHECKING:  # the search loads when first asked
    from explorer.advice.break_even import BreakEven
    from explorer.advice.edges import Edges

PENDING = say("looking for where the verdict changes…")


def break_even_text(found: BreakEven, unit: str) -> Text:
    """The sentence beside a knob: what its stops do."""
    works, runs = found.works, found.runs
    if works is None or runs is None:
        return PENDING
    if works.none:
        return say("no value of this alone makes it run")
    if runs.none:
        return say("marginal {span}, runs at no value", span=span_text(works, unit))
    text = say("runs {span}", span=span_text(runs, unit))
    if works.stretches == runs.stretches:
        return text
    if works.at_low and works.at_high and not works.edges:
        return say("{runs}, marginal elsewhere", runs=text)
    return say("{runs}, marginal {span}", runs=text, span=_beside(works, runs, unit))


def _beside(works: Edges, runs: Edges, unit: str) -> Text:
    """Where it is at least marginal; an end at which it runs, too, is told once."""
    if len(works.stretches) == len(runs.stretches) == 1:
        (low, high), (runs_low, runs_high) = works.stretches[0], runs.stretches[0]
        if low is not None and high == runs_high:
            return _stretch(works.path, unit, low, None)
        if high is not None and low == runs_low:
            return _stretch(works.path, unit, None, high)
    return span_text(works, unit)


def span_text(found: Edges, unit: str) -> Text:
    """The values that are as asked, in words."""
    return listed(_stretch(found.path, unit, low, high) for low, high in found.stretches)


def _stretch(path: str, unit: str, low: float | None, high: float | None) -> Text:
    if low is None and high is None:
        return say("at every value", "range")
    if high is None:
        assert low is not None
        return say("from {low}", "range", low=edge_value(path, unit, low))
    if low is None:
        return say("up to {high}", "range", high=edge_value(path, unit, high))
    if low == high:
        return say("at {value}", "range", value=edge_value(path, unit, low))
    return say(
        "between {low} and {high}", "range",
        low=edge_value(path, unit, low), high=edge_value(path, unit, high),
    )  # fmt: skip


def edge_value(path: str, unit: str, value: float) -> Text:
    """A value of a quantity as an edge shows it; it was rounded when it was found."""
    if path.rpartition(".")[2] in WHOLE or not unit:
        return show(value, "", 6)
    return show(value, unit)

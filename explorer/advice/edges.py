"""Break-even: the value of a knob at which the verdict changes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from explorer.advice.readings.many import STATES, Fleet, judge_many
from explorer.advice.verdict import State
from explorer.quantity import show
from explorer.scenario.fields import describe
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario, owner_class
from explorer.text import Text, figure, say

FloatArray = NDArray[np.float64]


WHOLE = ("count", "in_series", "units_in_series", "cells_in_series")
"""Keys of numbers that come in ones."""
BETWEEN = 10
"""Further values between two stops where the verdict changes."""
MOST_GAPS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class BreakEven:
    """Verdict at every stop of one knob, and the sentence that sums it up."""

    path: str
    stops: tuple[float, ...]
    states: tuple[State, ...]
    sentence: str
    best: float
    """The stop with the largest reserve; more than that may be worse."""


def break_evens(
    scenario: Scenario, log: LightLog | None, stops: Mapping[str, Sequence[float]]
) -> dict[str, BreakEven]:
    """Break-even values of several knobs, each moved alone.

    Parameters
    ----------
    scenario : Scenario
        The present design.
    log : LightLog, optional
        The measured light, where the scenario's pattern is a log.
    stops : mapping of str to sequence of float
        For each path the values that its knob can take, rising.
    """
    return {path: break_even(scenario, log, path, values) for path, values in stops.items()}


def break_even(
    scenario: Scenario, log: LightLog | None, path: str, stops: Sequence[float]
) -> BreakEven:
    """Break-even of one knob; see `break_evens`."""
    values = np.asarray(stops, float)
    fleet = judge_many(scenario, log, {path: values})
    states = tuple(STATES[code] for code in fleet.codes)
    ladder = _refined(scenario, log, path, values, fleet)
    return BreakEven(
        path=path,
        stops=tuple(values.tolist()),
        states=states,
        sentence=_sentence(scenario, path, ladder),
        best=float(values[int(np.argmax(fleet.reserve))]),
    )


@dataclass(frozen=True, slots=True)
class _Ladder:
    """Values of one knob with their verdicts; arrays of one length."""

    values: FloatArray
    codes: NDArray[np.intp]
    margin: FloatArray
    reserve: FloatArray


def _refined(
    scenario: Scenario, log: LightLog | None, path: str, stops: FloatArray, fleet: Fleet
) -> _Ladder:
    """The stops, with further values between those where the verdict changes.

    A margin may jump between two stops, so the gap is looked at again before it is interpolated.
    """
    found = _Ladder(stops, fleet.codes, fleet.margin, fleet.reserve)
    gaps = np.flatnonzero(np.diff(fleet.codes) != 0)
    if path.rpartition(".")[2] in WHOLE or not len(gaps) or len(gaps) > MOST_GAPS:
        return found
    inner = np.concatenate(
        [np.linspace(stops[i], stops[i + 1], BETWEEN + 2)[1:-1] for i in gaps]
    )
    more = judge_many(scenario, log, {path: inner})
    values = np.concatenate([stops, inner])
    order = np.argsort(values, kind="stable")
    return _Ladder(
        values[order],
        np.concatenate([fleet.codes, more.codes])[order],
        np.concatenate([fleet.margin, more.margin])[order],
        np.concatenate([fleet.reserve, more.reserve])[order],
    )


def _sentence(scenario: Scenario, path: str, fleet: _Ladder) -> Text:
    key = path.rpartition(".")[2]
    info = describe(owner_class(scenario, path), key)
    whole, stops = key in WHOLE, fleet.values
    runs = fleet.codes == 2
    works = fleet.codes >= 1
    if runs.all():
        return say("runs at every stop")
    if not works.any():
        return say("no value of this alone makes it run")
    if not runs.any():
        span = _span(stops, fleet.margin, works, info.unit, whole)
        return say("marginal {span}, runs at no value", span=span)
    text = say("runs {span}", span=_span(stops, fleet.reserve, runs, info.unit, whole))
    first_run, first_work = int(np.argmax(runs)), int(np.argmax(works))
    last_run = len(runs) - 1 - int(np.argmax(runs[::-1]))
    last_work = len(works) - 1 - int(np.argmax(works[::-1]))
    below = first_run > 0 and first_work < first_run
    above = last_run < len(runs) - 1 and last_work > last_run
    if below and above:
        low = _at(stops, fleet.margin, first_work, info.unit, whole)
        high = _at(stops, fleet.margin, last_work, info.unit, whole, -1)
        return say("{runs}, marginal between {low} and {high}", runs=text, low=low, high=high)
    if below:
        low = _at(stops, fleet.margin, first_work, info.unit, whole)
        return say("{runs}, marginal from {low}", runs=text, low=low)
    if above:
        high = _at(stops, fleet.margin, last_work, info.unit, whole, -1)
        return say("{runs}, marginal up to {high}", runs=text, high=high)
    return text


def _span(
    stops: FloatArray, measure: FloatArray, inside: NDArray[np.bool_], unit: str, whole: bool
) -> Text:
    """The range of the longest stretch of stops that are inside, in words."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], inside.astype(np.int8), [0]])))
    first, last = max(zip(edges[::2], edges[1::2] - 1, strict=True), key=lambda e: e[1] - e[0])
    low = _at(stops, measure, int(first), unit, whole)
    high = _at(stops, measure, int(last), unit, whole, -1)
    at_bottom, at_top = first == 0, last == len(stops) - 1
    if at_top and not at_bottom:
        return say("from {low}", "range", low=low)
    if at_bottom and not at_top:
        return say("up to {high}", "range", high=high)
    if first == last and whole:
        return say("at {value}", "range", value=low)
    return say("between {low} and {high}", "range", low=low, high=high)


def _at(
    stops: FloatArray, measure: FloatArray, i: int, unit: str, whole: bool, side: int = 1
) -> Text:
    """Where the measure crosses 1 beside stop i, by interpolation in its logarithm."""
    j = i - side
    value = stops[i]
    if not whole and 0 <= j < len(stops) and measure[j] > 0 and stops[j] > 0:
        a, b = np.log(measure[j]), np.log(measure[i])
        if b > a:
            share = float(np.clip(-a / (b - a), 0.0, 1.0))
            value = stops[j] * (stops[i] / stops[j]) ** share
    return show(float(value), unit, 2) if unit else figure(f"{value:g}")

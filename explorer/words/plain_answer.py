"""An answer in two sentences, and a design that fits the five answers of the guide."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import isfinite
from typing import get_args

import numpy as np
from numpy.typing import NDArray

from explorer.advice.assess import Assessment, assess
from explorer.advice.case import Case
from explorer.advice.edges import RUNS, Interrupted, find_edges
from explorer.advice.fleet import Fleet, fleet
from explorer.advice.stops import LIGHT_STOPS
from explorer.advice.verdict import Check, Verdict
from explorer.quantity import show
from explorer.scenario import parts
from explorer.scenario.guide import (
    MOST_PANELS,
    Answers,
    Design,
    MattersKey,
    OftenKey,
    assumptions,
    level_lx,
    panel_areas,
    question,
    scenario_from,
)
from explorer.scenario.model import Scenario, size_path, with_value
from explorer.scenario.parts import StoreFamily
from explorer.scenario.storage import CellStore
from explorer.text import Text, capitalised, figure, say

FAMILIES: dict[MattersKey, tuple[str, ...]] = {
    "smallest": ("electrolytic", "power_supercapacitor", "lithium_pouch"),
    "never_fails": ("standard_supercapacitor", "iron_phosphate", "titanate"),
    "cheapest": ("electrolytic", "memory_backup", "standard_supercapacitor", "lithium_pouch"),
    "soon": ("electrolytic", "power_supercapacitor", "lithium_pouch"),
}
"""Kinds of store that are tried, by what matters (own judgement)."""
COUNTS = (1, 2, 3, 4, 6, 8, 12, MOST_PANELS)
MOST_TRIES = 4
"""Designs that the exact model is asked about."""
TRACE_ROWS = 240
LIGHT = "light.illuminance_lx"
_MOST_LX = 5_000.0
"""Brightest light that is worth proposing for indoors. [lx]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlainAnswer:
    """What the guide answers."""

    answers: Answers
    design: Design
    assessment: Assessment
    sentences: tuple[str, str]
    advice: str
    """What would turn the verdict; empty where it runs."""
    assumptions: tuple[str, ...]

    @property
    def scenario(self) -> Scenario:
        """The scenario that was judged."""
        return self.assessment.scenario


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tried:
    design: Design
    reserve: float
    rank: tuple[float, ...]


def answer(answers: Answers, stopped: Callable[[], bool] = lambda: False) -> PlainAnswer:
    """The guide's answer: a design, its verdict and plain words.

    Parameters
    ----------
    answers : Answers
        One answer to each question.
    stopped : callable
        Asked between tries; True settles for what was found so far.
    """
    design, found = find_design(answers, stopped)
    runs = found.verdict.state == "runs"
    return PlainAnswer(
        answers=answers,
        design=design,
        assessment=found,
        sentences=two_sentences(found),
        advice="" if runs or stopped() else _advice(answers, found.case, stopped),
        assumptions=assumptions(answers, design),
    )


def find_design(
    answers: Answers, stopped: Callable[[], bool] = lambda: False, lux: float | None = None
) -> tuple[Design, Assessment]:
    """Panels and store that suit the answers best, and their exact verdict.

    Every count of panels is tried with every size of a few kinds of store, on the averaged model;
    larger panels only where no number of small ones runs. Of the designs that run the one with the
    least panel area wins, then by what matters: the smallest store, the cheapest kind, the most
    reserve or the shortest first charge. Where none runs, the one with the most reserve stands.
    The exact model has the last word. With `lux` the place is as bright as that.
    """
    best, found = None, None
    for design in _in_order(answers, stopped, lux):
        result = assess(_in_light(scenario_from(answers, design), lux), columns=TRACE_ROWS)
        if found is None or _standing(result) > _standing(found):
            best, found = design, result
        if result.verdict.state == "runs" or stopped():
            break
    assert best is not None
    assert found is not None
    return best, found


def _in_light(scenario: Scenario, lux: float | None) -> Scenario:
    return scenario if lux is None else with_value(scenario, LIGHT, lux)


def _standing(found: Assessment) -> tuple[int, float]:
    check = found.verdict.governing
    return ("falls_short", "marginal", "runs").index(check.state), check.reserve


def _in_order(
    answers: Answers, stopped: Callable[[], bool], lux: float | None
) -> list[Design]:
    """The designs most worth an exact look."""
    tried: list[_Tried] = []
    for area in panel_areas(answers.matters):
        for key in FAMILIES[answers.matters]:
            if not (tried and stopped()):
                tried += _tries(answers, area, _family(key), lux)
        running = sorted((t for t in tried if t.reserve >= 1.0), key=_rank)
        if running:
            return [t.design for t in running[:MOST_TRIES]]
    tried.sort(key=_reserve, reverse=True)
    if not tried:  # every part is too weak: show the first, its rating says why
        area, key = panel_areas(answers.matters)[-1], FAMILIES[answers.matters][-1]
        return [Design(panels=1, area_cm2=area, family=key, size=_family(key).sizes[-1])]
    return [t.design for t in tried[:1]]


def _rank(tried: _Tried) -> tuple[float, ...]:
    return tried.rank


def _reserve(tried: _Tried) -> float:
    return tried.reserve


def _family(key: str) -> StoreFamily:
    return next(f for f in parts.store_families() if f.key == key)


def _tries(
    answers: Answers, area_cm2: float, family: StoreFamily, lux: float | None
) -> Iterator[_Tried]:
    first = Design(panels=1, area_cm2=area_cm2, family=family.key, size=family.sizes[0])
    base = _in_light(scenario_from(answers, first), lux)
    counts, sizes = (a.ravel() for a in np.meshgrid(COUNTS, family.sizes, indexing="ij"))
    seen = fleet(Case(base), {size_path(base): sizes, "panels.count": counts})
    reserve = _ranked_reserve(seen)
    # A part that is too weak is the wrong part, whatever the light.
    strong = np.minimum(seen.margins["ratings"], seen.margins["pulse"]) >= 1.0
    for index, (count, size) in enumerate(zip(counts.tolist(), sizes.tolist(), strict=True)):
        if not strong[index]:
            continue
        last = {
            "smallest": (family.volume_cm3(size),),
            "never_fails": (-float(reserve[index]),),
            "cheapest": (float(family.cost_class), family.volume_cm3(size)),
            "soon": (float(seen.first_charge_s[index]),),
        }[answers.matters]
        yield _Tried(
            design=replace(first, panels=count, size=size),
            reserve=float(reserve[index]),
            rank=(count * area_cm2, *last),
        )


def _ranked_reserve(seen: Fleet) -> NDArray[np.float64]:
    """Reserve; below 1 the mean of all checks breaks ties, so that one dead end is nearer."""
    shares = [np.minimum(seen.margins[n] / seen.wanted[n], 1.0) for n in seen.margins]
    return seen.reserve + np.where(seen.reserve < 1.0, 1e-3 * np.mean(shares, axis=0), 0.0)


# --- words ---


def two_sentences(found: Assessment) -> tuple[str, str]:
    """The verdict, and the reason that governs it, without a word of the trade.

    Parameters
    ----------
    found : Assessment
        Of any scenario, not only of the guide's.
    """
    verdict = found.verdict
    return _lead(found), _reason(found, _root(verdict))


def _lead(found: Assessment) -> Text:
    governing = found.verdict.governing
    panels, store = _panels(found.scenario), _store(found.scenario)
    if governing.state == "runs":
        return say(
            "Yes: with {panels} and {store} it can live on this light.", panels=panels, store=store
        )
    if governing.state == "marginal":
        return say(
            "Perhaps: with {panels} and {store} it works, but with less to spare than it should "
            "have.",
            panels=panels,
            store=store,
        )
    if governing.name == "starts" and isfinite(governing.value):
        return say(
            "No: with {panels} and {store} it does not start soon enough.",
            panels=panels,
            store=store,
        )
    return say(
        "No: with {panels} and {store} it cannot live on this light.", panels=panels, store=store
    )


def _root(verdict: Verdict) -> Check:
    """The check to speak of: the one that governs, or a failed balance that explains it."""
    governing = verdict.governing
    if governing.name in ("dark", "service") and governing.state == "falls_short":
        balance = next((c for c in verdict.checks if c.name == "balance"), governing)
        return balance if balance.state == "falls_short" else governing
    return governing


def _panels(scenario: Scenario) -> Text:
    panels = scenario.panels
    count = panels.count * panels.in_series
    if count == 1:
        return say(
            "1 panel of {area} cm²", "after with", area=figure(f"{panels.active_area_cm2:g}")
        )
    return say(
        "{n} panels of {area} cm² ({total} cm² in all)",
        "after with",
        n=count,
        area=figure(f"{panels.active_area_cm2:g}"),
        total=figure(f"{count * panels.active_area_cm2:g}"),
    )


def _store(scenario: Scenario) -> Text:
    store = scenario.store
    if isinstance(store, CellStore):
        size = show(store.capacity_mAh, "mAh")
        return say("a rechargeable cell of {size}", "after with", size=size)
    size = show(store.capacitance_F, "F")
    if store.kind == "capacitor":
        return say("a capacitor of {size}", "after with", size=size)
    return say("a supercapacitor store of {size}", "after with", size=size)


def _reason(found: Assessment, check: Check) -> Text:
    text = {
        "starts": _starts, "balance": _balance, "dark": _dark, "pulse": _pulse,
        "ratings": _ratings, "service": _service,
    }[check.name](check)  # fmt: skip
    if check.state == "runs":
        first = found.answers["first_charge_s"]
        if check.name == "starts":
            return say("The tightest point: {reason}.", reason=text)
        if not isfinite(first):
            return say("The tightest point: {reason}; it starts at once.", reason=text)
        return say(
            "The tightest point: {reason}; it starts {time} after the first light.",
            reason=text,
            time=show(first, "s"),
        )
    text = capitalised(text)
    if check.state == "marginal":
        return say(
            "{reason}; {factor} times what is needed is asked for.",
            reason=text,
            factor=figure(f"{check.wanted:g}"),
        )
    return text + "."


# Each of these is a clause that can stand alone, begin a sentence or follow a colon.


def _starts(check: Check) -> Text:
    if not isfinite(check.value):
        return say("from empty it never gets going, however long it hangs there")
    return say(
        "from empty it needs {time} until it is ready, and {allowed} are allowed",
        time=show(check.value, "s"),
        allowed=show(check.limit, "s"),
    )


def _balance(check: Check) -> Text:
    if check.margin >= 10:
        return say("the light brings more than ten times the energy that it uses")
    if check.margin < 2:
        return say(
            "the light brings {share} % of the energy that it uses",
            share=f"{100 * check.margin:.0f}",
        )
    return say(
        "the light brings {factor} times the energy that it uses",
        factor=figure(f"{check.margin:.2g}"),
    )


def _dark(check: Check) -> Text:
    if not isfinite(check.value):
        return say("it is never dark for long enough to matter")
    lasts, needed = show(check.value, "s"), show(check.limit, "s")
    if check.value < 60.0:
        return say("it has nothing left for the dark and must last {time}", time=needed)
    if check.at_least:
        lasts = say("more than {time}", time=lasts)
    return say("it lasts {time} in the dark and must last {needed}", time=lasts, needed=needed)


def _pulse(check: Check) -> Text:
    if check.value <= 0:
        return say("its store cannot deliver what a pulse takes; the voltage collapses")
    return say(
        "when it works the voltage dips to {volts}, and the device needs {need}",
        volts=show(check.value, "V"),
        need=show(check.limit, "V"),
    )


def _ratings(check: Check) -> Text:
    if check.state == "runs":
        return say("its parts stay within what they are made for")
    return say(
        "a part would see {value} and is made for {limit}",
        value=show(check.value, check.unit),
        limit=show(check.limit, check.unit),
    )


def _service(check: Check) -> Text:
    return say("it gets {share} % of its work done", share=figure(f"{100 * check.value:.3g}"))


# --- what would turn it ---


def _advice(answers: Answers, case: Case, stopped: Callable[[], bool]) -> str:
    """What would make it run: more light on this design or on another, or rarer work."""
    try:
        own, rarer = _edge_lx(case, stopped), _rarer(answers, stopped)
        lux = _matched_lx(answers, stopped) if own is None else own
    except Interrupted:
        return ""
    light = "" if lux is None else show(lux, "lx")
    often = "" if rarer is None else _how_often(rarer)
    if own is not None and often:
        return say(
            "It would run from {light} at such a place; or with the same work {often}, and parts "
            "to match.",
            light=light,
            often=often,
        )
    if own is not None:
        return say("It would run from {light} at such a place.", light=light)
    if light and often:
        return say(
            "It would run with light of about {light} at such a place, or with the same work "
            "{often}, and parts to match.",
            light=light,
            often=often,
        )
    if light:
        return say(
            "It would run with light of about {light} at such a place, and parts to match.",
            light=light,
        )
    if often:
        return say("It would run with the same work {often}, and parts to match.", often=often)
    return say("Neither more light nor rarer work alone makes such a device run.")


def _how_often(key: OftenKey) -> str:
    return next(c.title for c in question("often").choices if c.key == key).lower()


def _edge_lx(case: Case, stopped: Callable[[], bool]) -> float | None:
    """The light from which this very design runs, as its knob names it. [lx]"""
    found = find_edges(case, LIGHT, RUNS, LIGHT_STOPS, stopped=stopped)
    now = case.scenario.light.illuminance_lx or 0.0
    above = [e.value for e in found.edges if e.holds_above and now < e.value <= _MOST_LX]
    return min(above, default=None)


def _matched_lx(answers: Answers, stopped: Callable[[], bool]) -> float | None:
    """The least of some brighter levels in which some design of the guide runs. [lx]"""
    lux = level_lx(answers.place)
    levels = [level for level in LIGHT_STOPS if lux < level <= _MOST_LX]
    if not levels or not _runs(answers, levels[-1], stopped):
        return None
    # More light never hurts, so the least level that runs is found by halving.
    low, high = 0, len(levels) - 1
    while low < high:
        middle = (low + high) // 2
        if _runs(answers, levels[middle], stopped):
            high = middle
        else:
            low = middle + 1
    return levels[low]


def _rarer(answers: Answers, stopped: Callable[[], bool]) -> OftenKey | None:
    """The most frequent of the rarer schedules that some design of the guide sustains."""
    keys: tuple[OftenKey, ...] = get_args(OftenKey)
    for key in keys[keys.index(answers.often) + 1 :]:
        if _runs(replace(answers, often=key), None, stopped):
            return key
    return None


def _runs(answers: Answers, lux: float | None, stopped: Callable[[], bool]) -> bool:
    """Whether the design that the guide would find runs, by the exact march."""
    if stopped():
        raise Interrupted
    return find_design(answers, stopped, lux)[1].verdict.state == "runs"

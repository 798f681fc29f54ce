"""An answer in two sentences, and a design that fits the five answers of the guide."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import isfinite
from typing import get_args

import numpy as np
from numpy.typing import NDArray

from explorer.advice.assess import Assessment, assess
from explorer.advice.fleet import Fleet, judge_many
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
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.parts import StoreFamily
from explorer.scenario.storage import CellStore

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
_BRIGHTER = (1.25, 1.6, 2.0, 2.5, 3.2, 4.0, 6.0, 10.0, 16.0)
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
    return PlainAnswer(
        answers=answers,
        design=design,
        assessment=found,
        sentences=two_sentences(found),
        advice="" if found.verdict.state == "runs" or stopped() else _advice(answers),
        assumptions=assumptions(answers, design),
    )


def find_design(
    answers: Answers, stopped: Callable[[], bool] = lambda: False
) -> tuple[Design, Assessment]:
    """Panels and store that suit the answers best, and their exact verdict.

    Every count of panels is tried with every size of a few kinds of store, on the averaged model;
    larger panels only where no number of small ones runs. Of the designs that run the one with the
    least panel area wins, then by what matters: the smallest store, the cheapest kind, the most
    reserve or the shortest first charge. Where none runs, the one with the most reserve stands.
    The exact model has the last word.
    """
    best, found = None, None
    for design in _in_order(answers, stopped):
        result = assess(scenario_from(answers, design), columns=TRACE_ROWS)
        if found is None or _standing(result) > _standing(found):
            best, found = design, result
        if result.verdict.state == "runs" or stopped():
            break
    assert best is not None
    assert found is not None
    return best, found


def _standing(found: Assessment) -> tuple[int, float]:
    check = found.verdict.governing
    return ("falls_short", "marginal", "runs").index(check.state), check.reserve


def _in_order(answers: Answers, stopped: Callable[[], bool]) -> list[Design]:
    """The designs most worth an exact look."""
    tried: list[_Tried] = []
    for area in panel_areas(answers.matters):
        for key in FAMILIES[answers.matters]:
            if not (tried and stopped()):
                tried += _tries(answers, area, _family(key))
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
    answers: Answers, area_cm2: float, family: StoreFamily, brighter: float = 1.0
) -> Iterator[_Tried]:
    first = Design(panels=1, area_cm2=area_cm2, family=family.key, size=family.sizes[0])
    base = scenario_from(answers, first)
    if brighter != 1.0:
        lux = brighter * level_lx(answers.place)
        base = with_value(base, "light.illuminance_lx", lux)
    path = "store.capacity_mAh" if isinstance(base.store, CellStore) else "store.capacitance_F"
    counts, sizes = (a.ravel() for a in np.meshgrid(COUNTS, family.sizes, indexing="ij"))
    fleet = judge_many(base, None, {"panels.count": counts, path: sizes})
    reserve = _ranked_reserve(fleet)
    # A part that is too weak is the wrong part, whatever the light.
    strong = np.minimum(fleet.margins["ratings"], fleet.margins["pulse"]) >= 1.0
    for index, (count, size) in enumerate(zip(counts.tolist(), sizes.tolist(), strict=True)):
        if not strong[index]:
            continue
        last = {
            "smallest": (family.volume_cm3(size),),
            "never_fails": (-float(reserve[index]),),
            "cheapest": (float(family.cost_class), family.volume_cm3(size)),
            "soon": (float(fleet.first_charge_s[index]),),
        }[answers.matters]
        yield _Tried(
            design=replace(first, panels=count, size=size),
            reserve=float(reserve[index]),
            rank=(count * area_cm2, *last),
        )


def _ranked_reserve(fleet: Fleet) -> NDArray[np.float64]:
    """Reserve; below 1 the mean of all checks breaks ties, so that one dead end is nearer."""
    shares = [np.minimum(fleet.margins[n] / fleet.wanted[n], 1.0) for n in fleet.margins]
    return fleet.reserve + np.where(fleet.reserve < 1.0, 1e-3 * np.mean(shares, axis=0), 0.0)


# --- words ---


def two_sentences(found: Assessment) -> tuple[str, str]:
    """The verdict, and the reason that governs it, without a word of the trade.

    Parameters
    ----------
    found : Assessment
        Of any scenario, not only of the guide's.
    """
    verdict = found.verdict
    with_what = f"with {_panels(found.scenario)} and {_store(found.scenario)}"
    late = verdict.governing.name == "starts" and isfinite(verdict.governing.value)
    lead = {
        "runs": f"Yes: {with_what} it can live on this light.",
        "marginal": f"Perhaps: {with_what} it works, but with less to spare than it should have.",
        "falls_short": f"No: {with_what} it "
        + ("does not start soon enough." if late else "cannot live on this light."),
    }[verdict.state]
    return lead, _reason(found, _root(verdict))


def _root(verdict: Verdict) -> Check:
    """The check to speak of: the one that governs, or a failed balance that explains it."""
    governing = verdict.governing
    if governing.name in ("dark", "service") and governing.state == "falls_short":
        balance = next((c for c in verdict.checks if c.name == "balance"), governing)
        return balance if balance.state == "falls_short" else governing
    return governing


def _panels(scenario: Scenario) -> str:
    panels = scenario.panels
    count = panels.count * panels.in_series
    if count == 1:
        return f"1 panel of {panels.active_area_cm2:g} cm²"
    total = count * panels.active_area_cm2
    return f"{count} panels of {panels.active_area_cm2:g} cm² ({total:g} cm² in all)"


def _store(scenario: Scenario) -> str:
    store = scenario.store
    if isinstance(store, CellStore):
        return f"a rechargeable cell of {show(store.capacity_mAh, 'mAh')}"
    kind = "capacitor" if store.kind == "capacitor" else "supercapacitor store"
    return f"a {kind} of {show(store.capacitance_F, 'F')}"


def _reason(found: Assessment, check: Check) -> str:
    fine = check.state == "runs"
    text = {
        "starts": _starts, "balance": _balance, "dark": _dark, "pulse": _pulse,
        "ratings": _ratings, "service": _service,
    }[check.name](check)  # fmt: skip
    if fine:
        first = found.answers["first_charge_s"]
        start = "" if check.name == "starts" else f"; it starts {_later(first)}"
        return f"The tightest point: {text}{start}."
    text = text[:1].upper() + text[1:]
    if check.state == "marginal":
        return f"{text}; {check.wanted:g} times what is needed is asked for."
    return f"{text}."


def _later(first_s: float) -> str:
    return f"{show(first_s, 's')} after the first light" if isfinite(first_s) else "at once"


def _starts(check: Check) -> str:
    if not isfinite(check.value):
        return "from empty it never gets going, however long it hangs there"
    return (
        f"from empty it needs {show(check.value, 's')} to its first result, and "
        f"{show(check.limit, 's')} are allowed"
    )


def _balance(check: Check) -> str:
    if check.margin >= 10:
        return "the light brings more than ten times the energy that it uses"
    if check.margin < 2:
        return f"the light brings {100 * check.margin:.0f} % of the energy that it uses"
    return f"the light brings {check.margin:.2g} times the energy that it uses"


def _dark(check: Check) -> str:
    if not isfinite(check.value):
        return "it is never dark for long enough to matter"
    if check.value < 60.0:
        return f"it has nothing left for the dark and must last {show(check.limit, 's')}"
    more = "more than " if check.margin >= 19.9 else ""
    return (
        f"it lasts {more}{show(check.value, 's')} in the dark and must last "
        f"{show(check.limit, 's')}"
    )


def _pulse(check: Check) -> str:
    if check.value <= 0:
        return "its store cannot deliver the power of a pulse; the voltage collapses"
    return (
        f"when it works the voltage dips to {show(check.value, 'V')}, and the device needs "
        f"{show(check.limit, 'V')}"
    )


def _ratings(check: Check) -> str:
    if check.state == "runs":
        return "its parts stay within what they are made for"
    return (
        f"a part would see {show(check.value, check.unit)} and is made for "
        f"{show(check.limit, check.unit)}"
    )


def _service(check: Check) -> str:
    return f"it gets {100 * check.value:.3g} % of its work done"


# --- what would turn it ---


def _advice(answers: Answers) -> str:
    """What would make some design of the guide run: more light, or the same work less often."""
    hints = []
    brighter = _brighter_lx(answers)
    if brighter is not None:
        hints.append(f"light of about {show(brighter, 'lx', 2)} at such a place")
    rarer = _rarer(answers)
    if rarer is not None:
        title = next(c.title for c in question("often").choices if c.key == rarer)
        hints.append(f"the same work {title.lower()}")
    if not hints:
        return "Neither more light nor rarer work alone makes such a device run."
    return "It would run with " + ", or with ".join(hints) + ", and parts to match."


def _brighter_lx(answers: Answers) -> float | None:
    """The least of some brighter levels at which some design of the guide runs. [lx]"""
    lux = level_lx(answers.place)
    factors = [factor for factor in _BRIGHTER if factor * lux <= _MOST_LX]
    if not factors or not _some_design_runs(answers, factors[-1]):
        return None
    # More light never hurts, so the least level that runs is found by halving.
    low, high = 0, len(factors) - 1
    while low < high:
        middle = (low + high) // 2
        if _some_design_runs(answers, factors[middle]):
            high = middle
        else:
            low = middle + 1
    return factors[low] * lux


def _rarer(answers: Answers) -> OftenKey | None:
    """The most frequent of the rarer schedules that some design of the guide sustains."""
    keys: tuple[OftenKey, ...] = get_args(OftenKey)
    for key in keys[keys.index(answers.often) + 1 :]:
        if _some_design_runs(replace(answers, often=key)):
            return key
    return None


def _some_design_runs(answers: Answers, brighter: float = 1.0) -> bool:
    return any(
        tried.reserve >= 1.0
        for area in reversed(panel_areas(answers.matters))
        for key in reversed(FAMILIES[answers.matters])
        for tried in _tries(answers, area, _family(key), brighter)
    )

"""A design that fits the answers of the guide, and what would make it run."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import get_args

import numpy as np
from numpy.typing import NDArray

from explorer.advice.assess import Assessment, assess
from explorer.advice.case import Case
from explorer.advice.criteria import RUNS
from explorer.advice.edges import find_edges
from explorer.advice.fleet import Fleet, fleet
from explorer.advice.judge import judge
from explorer.advice.stops import LIGHT_STOPS
from explorer.advice.verdict import Verdict
from explorer.advice.year.prospects import prospects_of_year
from explorer.engine.course import Interrupted
from explorer.scenario.generic import PANEL_AREAS, panels_price, store_price
from explorer.scenario.guide.answers import Answers, MattersKey, OftenKey
from explorer.scenario.guide.design import Design, family_of, technology_of
from explorer.scenario.guide.lit import lux_of, meets_frost
from explorer.scenario.guide.made import scenario_from
from explorer.scenario.guide.year import is_year, noon_lx
from explorer.scenario.model import Scenario, size_path, with_value
from explorer.scenario.parts import StoreFamily
from explorer.scenario.supply import ConverterCharger

FAMILIES: dict[MattersKey, tuple[str, ...]] = {
    "smallest": ("power_supercapacitor", "hybrid", "titanate", "lithium_pouch"),
    "never_fails": ("standard_supercapacitor", "iron_phosphate", "titanate"),
    "cheapest": ("electrolytic", "memory_backup", "standard_supercapacitor", "lithium_pouch"),
    "soon": ("electrolytic", "power_supercapacitor", "lithium_pouch"),
}
"""Kinds of store that are tried, by what matters (own judgement).

The smallest are those that keep most in their volume, or lose least of it and so need less panel.
Of 200 drawn answers none had an electrolytic capacitor as its smallest design that runs: a flat
supercapacitor keeps a hundred times as much in its volume. A lithium coin cell was the smallest in
one of thirty, by a little less store, which is not worth a fifth more time for all of them.
"""
OTHERS = ("standard_supercapacitor", "titanate")
"""Kinds that are tried where none of those runs, such as live in frost."""
COUNTS = (1, 2, 3, 4)
MOST_TRIES = 4
"""Designs that the exact model is asked about."""
LIGHT = "light.illuminance_lx"
_MOST_LX = 5_000.0
"""Brightest light that is worth proposing for indoors. [lx]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tried:
    design: Design
    reserve: float
    rank: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Judged:
    design: Design
    case: Case
    verdict: Verdict

    @property
    def runs(self) -> bool:
        return self.verdict.state == "runs"

    @property
    def standing(self) -> tuple[int, float]:
        check = self.verdict.governing
        return ("falls_short", "marginal", "runs").index(check.state), check.reserve


def find_design(
    answers: Answers, stopped: Callable[[], bool] = lambda: False, lux: float | None = None
) -> tuple[Design, Assessment]:
    """Panels and store that suit the answers best, and their exact verdict.

    Panels of every size and of a few counts are tried with every size of a few kinds of store, on
    the averaged model. Of the designs that run the one wins that costs least, or has the least
    panel area and then the smallest store, the most reserve or the shortest first charge, by what
    matters. Where none runs, other kinds are tried alike; where none of these runs either, the
    one with the most reserve stands. The exact model has the last word, in a year of daylight that
    of whole years, where those tried come from bounds.
    With `lux` the place is as bright as that; in a year it counts as a reading would.
    """
    best = _found(answers, stopped, lux)
    return best.design, assess(best.case)


def _found(answers: Answers, stopped: Callable[[], bool], lux: float | None) -> _Judged:
    """See `find_design`."""
    kinds = FAMILIES[answers.matters]
    best = _best_of(answers, _in_order(answers, kinds, stopped, lux), stopped, lux)
    others = [key for key in OTHERS if key not in kinds]
    if not best.runs and others and not stopped():
        running = [t for t in _in_order(answers, others, stopped, lux) if t.reserve >= 1.0]
        if running:
            other = _best_of(answers, running, stopped, lux)
            if other.runs:
                return other
    return best


def _best_of(
    answers: Answers, tried: Sequence[_Tried], stopped: Callable[[], bool], lux: float | None
) -> _Judged:
    """The first of some designs that runs, or else the best of them, by its exact verdict."""
    judged: list[_Judged] = []
    least: dict[str, float] = {}
    for one in tried:
        if one.reserve < least.get(one.design.family, 0.0):
            continue
        case = Case(_scenario(answers, one.design, lux))
        found = _Judged(design=one.design, case=case, verdict=judge(case))
        judged.append(found)
        if found.runs or stopped() or len(judged) == MOST_TRIES:
            break
        governing = found.verdict.governing
        if governing.name in ("balance", "dark") or not is_year(answers):
            # The batch was too hopeful here: on such a store those that it gives no more will fail.
            least[one.design.family] = one.reserve / max(governing.reserve, 0.1)
    return max(judged, key=lambda found: found.standing)


def _scenario(answers: Answers, design: Design, lux: float | None) -> Scenario:
    """The design in its place, or where that is as bright as a level. [lx]"""
    scenario = scenario_from(answers, design)
    if lux is None:
        return scenario
    if is_year(answers):
        lux *= Case(scenario).mean_lit_lx / noon_lx(answers)
    return with_value(scenario, LIGHT, lux)


def _in_order(
    answers: Answers, kinds: Sequence[str], stopped: Callable[[], bool], lux: float | None
) -> list[_Tried]:
    """The designs most worth an exact look, the best first."""
    tried: list[_Tried] = []
    families = [f for f in map(family_of, kinds) if _stands(answers, f)]
    for family in families:
        if not (tried and stopped()):
            tried += _tries(answers, family, lux)
    running = sorted((t for t in tried if t.reserve >= 1.0), key=_rank)
    if running:
        return running
    if not tried:  # every part is too weak: show the first, its rating says why
        area, last = PANEL_AREAS[technology_of(answers.matters)][-1], families[-1]
        weak = Design(panels=1, area_cm2=area, family=last.key, size=last.sizes[-1])
        return [_Tried(design=weak, reserve=0.0, rank=())]
    return [max(tried, key=_reserve)]


def _stands(answers: Answers, family: StoreFamily) -> bool:
    """Whether a kind of store can live there."""
    return not (meets_frost(answers) and family.chemistry in ("lithium_ion", "iron_phosphate"))


def _rank(tried: _Tried) -> tuple[float, ...]:
    return tried.rank


def _reserve(tried: _Tried) -> float:
    return tried.reserve


def _tries(answers: Answers, family: StoreFamily, lux: float | None) -> Iterator[_Tried]:
    technology = technology_of(answers.matters)
    areas = PANEL_AREAS[technology]
    one = Design(panels=1, area_cm2=areas[0], family=family.key, size=family.sizes[0])
    base = _scenario(answers, one, lux)
    counts, cm2, sizes = (
        grid.ravel() for grid in np.meshgrid(COUNTS, areas, family.sizes, indexing="ij")
    )
    limits = {s: _output_limit_a(answers, replace(one, size=s)) for s in family.sizes}
    changes = {
        size_path(base): sizes, "panels.count": counts, "panels.active_area_cm2": cm2,
        "charger.output_limit_A": np.array([limits[s] for s in sizes.tolist()]),
    }  # fmt: skip
    seen = fleet(Case(base), changes)
    reserve = seen.reserve
    if is_year(answers):
        # Its darkest weeks know the first charge; what a store carries through them is bounded.
        first = seen.margins["starts"] / seen.wanted["starts"]
        reserve = np.minimum(prospects_of_year(Case(base), changes), first)
    reserve = _ranked(reserve, seen)
    # A part that is too weak is the wrong part, whatever the light.
    strong = np.minimum(seen.margins["ratings"], seen.margins["pulse"]) >= 1.0
    for i in np.flatnonzero(strong).tolist():
        count, area, size = int(counts[i]), float(cm2[i]), float(sizes[i])
        price = panels_price(count, area, technology) + store_price(family, size)
        rank = {
            "smallest": (count * area, family.volume_cm3(size)),
            "never_fails": (count * area, -float(reserve[i])),
            "cheapest": (price, family.volume_cm3(size)),
            "soon": (count * area, float(seen.first_charge_s[i])),
        }[answers.matters]
        yield _Tried(
            design=replace(one, panels=count, area_cm2=area, size=size),
            reserve=float(reserve[i]),
            rank=(*rank, float(count)),
        )


def _output_limit_a(answers: Answers, design: Design) -> float:
    """What the charger may give this store. [A]"""
    charger = scenario_from(answers, design).charger
    assert isinstance(charger, ConverterCharger)
    return charger.output_limit_A


def _ranked(reserve: NDArray[np.float64], seen: Fleet) -> NDArray[np.float64]:
    """Reserve; below 1 the mean of all checks breaks ties, so that one dead end is nearer."""
    shares = [np.minimum(seen.margins[n] / seen.wanted[n], 1.0) for n in seen.margins]
    return reserve + np.where(reserve < 1.0, 1e-3 * np.mean(shares, axis=0), 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class WaysOut:
    """What would make a device run where the design that was found does not."""

    own_lx: float | None
    """Light from which the very design runs. [lx]"""
    matched_lx: float | None
    """Least light in which some design of the guide runs, where the very one does not. [lx]"""
    rarer: OftenKey | None
    """The most frequent of the rarer schedules that some design of the guide sustains."""


def ways_out(answers: Answers, case: Case, stopped: Callable[[], bool]) -> WaysOut | None:
    """More light on a design or on another, or less frequent work; None where it was stopped."""
    try:
        own, rarer = _edge_lx(answers, case, stopped), _rarer(answers, stopped)
        matched = _matched_lx(answers, stopped) if own is None else None
    except Interrupted:
        return None
    return WaysOut(own_lx=own, matched_lx=matched, rarer=rarer)


def _edge_lx(answers: Answers, case: Case, stopped: Callable[[], bool]) -> float | None:
    """The light from which this very design runs, as its knob names it. [lx]

    In a year of daylight what a meter would read at midday under a dull sky.
    """
    if is_year(answers):
        return _edge_of_year(answers, case, stopped)
    found = find_edges(case, LIGHT, RUNS, LIGHT_STOPS, stopped=stopped)
    now = case.scenario.light.illuminance_lx or 0.0
    above = [e.value for e in found.edges if e.holds_above and now < e.value <= _MOST_LX]
    return min(above, default=None)


def _edge_of_year(
    answers: Answers, case: Case, stopped: Callable[[], bool]
) -> float | None:
    """The least of some brighter readings with which this very design runs. [lx]

    A whole year takes a second, so that no more than a few levels are tried.
    """
    noon = noon_lx(answers)

    def runs(lux: float) -> bool:
        if stopped():
            raise Interrupted
        brighter = with_value(case.scenario, LIGHT, case.mean_lit_lx * lux / noon)
        return judge(case.with_scenario(brighter)).state == "runs"

    return _least([level for level in LIGHT_STOPS if noon < level <= _MOST_LX], runs)


def _least(levels: list[float], runs: Callable[[float], bool]) -> float | None:
    """The least level that runs, as more light never hurts; None where not even the last does."""
    if not levels or not runs(levels[-1]):
        return None
    low, high = 0, len(levels) - 1
    while low < high:
        middle = (low + high) // 2
        if runs(levels[middle]):
            high = middle
        else:
            low = middle + 1
    return levels[low]


def _matched_lx(answers: Answers, stopped: Callable[[], bool]) -> float | None:
    """The least of some brighter levels in which some design of the guide runs. [lx]"""
    lux = noon_lx(answers) if is_year(answers) else lux_of(answers)
    levels = [level for level in LIGHT_STOPS if lux < level <= _MOST_LX]
    return _least(levels, lambda level: _runs(answers, level, stopped))


def _rarer(answers: Answers, stopped: Callable[[], bool]) -> OftenKey | None:
    """The most frequent of the rarer schedules that some design of the guide sustains."""
    if answers.job == "other":  # its battery told all, and nothing of how often
        return None
    keys: tuple[OftenKey, ...] = get_args(OftenKey)
    for key in keys[keys.index(answers.often) + 1 :]:
        if _runs(replace(answers, often=key), None, stopped):
            return key
    return None


def _runs(answers: Answers, lux: float | None, stopped: Callable[[], bool]) -> bool:
    """Whether the design that the guide would find runs, by the exact march."""
    if stopped():
        raise Interrupted
    return _found(answers, stopped, lux).runs

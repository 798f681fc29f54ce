"""Remedies: the smallest changes that would make a design run, found by search on the model."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from explorer.advice.case import Case
from explorer.advice.contest import (
    best_of_year,
    fitted_title,
    own_store,
    replaced_store,
    sizes_of,
)
from explorer.advice.criteria import RUNS, Criterion
from explorer.advice.edges import find_edges
from explorer.advice.fleet import fleet
from explorer.advice.judge import judge
from explorer.advice.remedy_search import (
    Change,
    Lever,
    Remedy,
    Stopped,
    changed,
    effort_of,
    hopeful,
    hopeful_in_a_year,
    levers,
    nearest,
    runs,
    single,
)
from explorer.advice.verdict import CHECK_WORDS, Verdict
from explorer.advice.year.prospects import prospects_of_year
from explorer.engine.course import Interrupted
from explorer.physics.arrays import FloatArray
from explorer.quantity import show
from explorer.scenario import parts
from explorer.scenario.part import StorePart
from explorer.scenario.price import cheapest_first
from explorer.text import figure, joined, listed, say

SHOWN = 3
NEARLY = 1.2
"""By how much a search may end closer than the candidate that it began with."""
MOST_TRIES = 4
"""Pairs, and sizes of a store, that the exact march is asked about."""
MOST_TRIES_OF_A_YEAR = 24
"""Pairs that whole years are asked about; bounds rule most of them out."""
SURELY_NOT = 0.9
"""Reserve by the batch engine below which the exact one never finds that a design runs."""
PAIR_POINTS = 12
MOST_PAIRED = 6
"""Quantities, in the order of `levers`, that are tried in pairs."""
STORE_EFFORT = 1.2
"""Effort of another kind of store, in the measure of `Remedy.effort` (own judgement)."""
BALANCING_EFFORT = 0.5
"""Effort of a circuit that balances a bank's units (own judgement)."""
RATINGS = Criterion(checks=("ratings",))


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedies:
    """What was found so far."""

    singles: tuple[Remedy, ...] = ()
    """The best single changes, smallest effort first."""
    pair: Remedy | None = None
    """The best two changes together, or three where a rating asks for one of them."""
    sentence: str = ""
    done: bool = False


def find_remedies(
    case: Case, stopped: Stopped = lambda: False, own: Sequence[StorePart] = ()
) -> Iterator[Remedies]:
    """Search for the smallest changes that make a design run.

    The batch engine tells which quantities may help; how far each must be changed is an edge, and
    so the same value that its knob names.

    Parameters
    ----------
    case : Case
        The design.
    stopped : callable
        Asked between evaluations; True ends the search without another result.
    own : sequence of StorePart
        Stores of one's own, which are offered before generic ones.

    Yields
    ------
    Remedies
        Growing results; the last has ``done`` set.
    """
    try:
        yield from _search(case, stopped, own)
    except Interrupted:
        return


def _search(case: Case, stopped: Stopped, own: Sequence[StorePart]) -> Iterator[Remedies]:
    if case.year is None:
        found_hopeful, reserve = hopeful(case, levers(case))
    else:
        found_hopeful, reserve = hopeful_in_a_year(case, levers(case), stopped)
    _go_on(stopped)
    outlook = Remedies(sentence=_outlook(found_hopeful))
    if reserve < SURELY_NOT:
        yield outlook
    present = judge(case)
    if present.state == "runs":
        yield Remedies(sentence=say("Runs as it is."), done=True)
        return
    if reserve >= SURELY_NOT:
        yield outlook
    found: list[Remedy] = []
    balanced = _balanced(case, present)
    if balanced is not None:
        found.append(balanced)
        yield Remedies(singles=tuple(found))
    for lever, effort in found_hopeful:
        _go_on(stopped)
        if len(found) >= SHOWN and effort > found[SHOWN - 1].effort * NEARLY:
            break  # the rest takes larger changes still
        remedy = single(case, lever, stopped)
        if remedy is not None:
            found = sorted([*found, remedy], key=lambda r: r.effort)
            yield Remedies(singles=tuple(found[:SHOWN]))
    mine = _own_store(case, own, stopped)
    if mine is not None:
        found = sorted([*found[: SHOWN - 1], mine], key=lambda r: r.effort)
    if len(found) < SHOWN:
        other = _other_store(case, stopped)
        if other is not None:
            found.append(other)
            found.sort(key=lambda r: r.effort)
    _go_on(stopped)
    if found:
        yield Remedies(singles=tuple(found[:SHOWN]), done=True)
        return
    yield Remedies(sentence=say("No single change is enough; looking for a pair."))
    pair = _pair(case, stopped)
    if pair is not None:
        yield Remedies(pair=pair, sentence=say("No single change is enough."), done=True)
        return
    yield Remedies(sentence=say("No two changes are enough; looking for three."))
    three = _three(case, stopped)
    if three is not None:
        yield Remedies(pair=three, sentence=say("No two changes are enough."), done=True)
        return
    faults = _faults(present)
    yield Remedies(sentence=say("No change tried is enough: {faults}", faults=faults), done=True)


def _go_on(stopped: Stopped) -> None:
    if stopped():
        raise Interrupted


def _outlook(found: list[tuple[Lever, float]]) -> str:
    """What the batch engine says before the exact one has looked."""
    if not found:
        return say("No single value seems enough; trying other stores.")
    labels = joined(", ", (lever.label for lever, _ in found[:SHOWN]))
    return say("Promising, being checked: {labels}.", labels=labels)


def _balanced(case: Case, present: Verdict) -> Remedy | None:
    """A circuit that balances the units, where their ratings are what fails."""
    balancing = getattr(case.scenario.store, "balancing", "active")
    ratings = next(c for c in present.checks if c.name == "ratings")
    if balancing == "active" or ratings.margin >= 1.0:
        return None
    active = changed(case, "store.balancing", "active")
    if active is None or not runs(active):
        return None
    change = Change(
        path="store.balancing", label=say("Balancing"), unit="", old=balancing,
        new=say("active", "balancing"),
    )  # fmt: skip
    return Remedy(
        changes=(change,), effort=BALANCING_EFFORT, scenario=active.scenario,
        verdict=judge(active),
    )  # fmt: skip


def _faults(present: Verdict) -> str:
    """What stands in the way, the reason that governs first."""
    first = present.governing
    others = [c.name for c in present.checks if c.margin < 1.0 and c.name != first.name]
    if not others:
        return first.sentence
    names = listed(CHECK_WORDS[name] for name in others)
    return say("{reason} It also fails {names}.", reason=first.sentence, names=names)


def _own_store(case: Case, own: Sequence[StorePart], stopped: Stopped) -> Remedy | None:
    """The cheapest store of one's own that runs, in the currency of most; unpriced ones last."""
    now = case.scenario.store
    for part in cheapest_first(own):
        _go_on(stopped)
        tried = own_store(case.scenario, part)
        if tried is None or tried.store.part == now.part:
            continue
        other_case = case.with_scenario(tried)
        if not runs(other_case):
            continue
        cost = "" if part.price is None else figure(f"{part.price:.2f} {part.currency}".rstrip())
        change = Change(
            path="store", label=say("Store"), unit="", old=now.kind,
            new=say("own: {title}", title=part.title), cost=cost,
        )  # fmt: skip
        return Remedy(
            changes=(change,), effort=STORE_EFFORT, scenario=tried, verdict=judge(other_case)
        )
    return None


def _other_store(case: Case, stopped: Stopped) -> Remedy | None:
    """The cheapest other kind of store that runs in some size."""
    scenario = case.scenario
    for family in sorted(parts.store_families(), key=lambda f: f.cost_class):
        _go_on(stopped)
        other = replaced_store(scenario, family, family.sizes[0])
        if other is None or (
            family.kind == scenario.store.kind and family.chemistry is None
            and family.kind == "capacitor"
        ):
            continue
        if case.year is not None:
            chosen, seen = best_of_year(case, family)
            promising = [chosen] if seen.verdict.state == "runs" else []
        else:
            found = fleet(
                case.with_scenario(other), sizes_of(scenario, other, family), only_runs=True
            )
            promising = np.flatnonzero(found.reserve >= 1.0)[:MOST_TRIES].tolist()
        for i in promising:
            tried = replaced_store(scenario, family, family.sizes[int(i)])
            _go_on(stopped)
            if tried is not None and runs(other_case := case.with_scenario(tried)):
                unit = family.size_unit
                title = fitted_title(family, scenario.charger.full_V).lower()
                change = Change(
                    path="store", label=say("Store"), unit="", old=scenario.store.kind,
                    new=say(
                        "{title}, {size}", title=title, size=show(family.sizes[int(i)], unit)
                    ),
                )
                return Remedy(
                    changes=(change,), effort=STORE_EFFORT, scenario=tried,
                    verdict=judge(other_case),
                )  # fmt: skip
    return None


def _pair(case: Case, stopped: Stopped) -> Remedy | None:
    """The best two changes together."""
    usable = [q for q in levers(case) if not q.path.endswith("sleep_A")]
    # A store's size sets its resistance and leakage, so it is changed first.
    usable = sorted(usable[:MOST_PAIRED], key=lambda q: not q.path.startswith("store."))
    blocks: list[tuple[Lever, FloatArray, Lever, FloatArray]] = []
    for a, b in combinations(usable, 2):
        xa, xb = (m.ravel() for m in np.meshgrid(_some(a), _some(b)))
        blocks.append((a, xa, b, xb))
    _go_on(stopped)
    if not blocks:
        return None
    # All pairs in one batch, in which every variant changes two quantities.
    ends = np.cumsum([len(xa) for _, xa, _, _ in blocks])
    columns = {q.path: np.full(int(ends[-1]), float(q.now)) for q in usable}
    for (a, xa, b, xb), end in zip(blocks, ends.tolist(), strict=True):
        columns[a.path][end - len(xa) : end] = xa
        columns[b.path][end - len(xb) : end] = xb
    if case.year is None:
        runs_so = fleet(case, columns, only_runs=True).reserve >= 1.0
    else:
        runs_so = prospects_of_year(case, columns) >= 1.0
    options: list[tuple[float, Lever, float, Lever, float]] = []
    for (a, xa, b, xb), part in zip(blocks, np.split(runs_so, ends[:-1]), strict=True):
        good = np.flatnonzero(part)
        efforts = [effort_of(a.now, xa[i]) + effort_of(b.now, xb[i]) for i in good]
        order = np.argsort(efforts)
        # Bounds are hopeful: of a year larger changes are tried, too.
        some = order[:2] if case.year is None else order[: len(order) : max(len(order) // 4, 1)]
        for rank in some:
            i = good[rank]
            options.append((efforts[rank], a, float(xa[i]), b, float(xb[i])))
    most = 2 * MOST_TRIES if case.year is None else MOST_TRIES_OF_A_YEAR
    for _, a, x, b, y in sorted(options, key=lambda o: o[0])[:most]:
        _go_on(stopped)
        one = changed(case, a.path, x)
        both = None if one is None else changed(one, b.path, y)
        if both is not None and runs(both):
            return _tightened(case, (a, x), (b, y), stopped)
    return None


def _tightened(
    case: Case, first: tuple[Lever, float], second: tuple[Lever, float], stopped: Stopped
) -> Remedy | None:
    """Two changes that run, each made as small as it can be beside the other, larger one first."""
    pairs = [first, second]
    larger = max((0, 1), key=lambda i: effort_of(pairs[i][0].now, pairs[i][1]))
    # What one of them gives up may be more than the other needs: both are looked at again.
    for i in (larger, 1 - larger, larger):
        (lever, value), (other, fixed) = pairs[i], pairs[1 - i]
        base = changed(case, other.path, fixed)
        if base is None:
            return None
        _go_on(stopped)
        if case.year is None:
            found = find_edges(base, lever.path, RUNS, lever.stops, stopped=stopped)
            smaller = nearest(found, lever)
        else:
            smaller = _nearest_of_year(base, lever, value, stopped)
        pairs[i] = (lever, value if smaller is None else smaller)
    final: Case | None = case
    for lever, value in pairs:
        final = None if final is None else changed(final, lever.path, value)
    if final is None or not runs(final):
        return None
    return Remedy(
        changes=tuple(lever.change_to(v) for lever, v in pairs),
        effort=sum(effort_of(lever.now, v) for lever, v in pairs),
        scenario=final.scenario,
        verdict=judge(final),
    )


def _nearest_of_year(
    base: Case, lever: Lever, value: float, stopped: Stopped
) -> float:
    """The value nearest to the present one that runs, by halves: a whole year takes a while."""
    most = effort_of(lever.now, value)
    way = sorted(
        (v for v in lever.values.tolist()
         if effort_of(lever.now, v) <= most and (v - lever.now) * (value - lever.now) > 0.0),
        key=lambda v: effort_of(lever.now, v),
    )  # fmt: skip
    low, high = 0, len(way) - 1
    while low < high:
        _go_on(stopped)
        middle = (low + high) // 2
        one = changed(base, lever.path, way[middle])
        if one is not None and runs(one):
            high = middle
        else:
            low = middle + 1
    return way[high] if way else value


def _three(case: Case, stopped: Stopped) -> Remedy | None:
    """A lower full threshold, where a rating asks for it, and the best two changes beside it."""
    full = next((q for q in levers(case) if q.path == "charger.full_V"), None)
    if full is None or RATINGS.holds(judge(case)):
        return None
    volts = nearest(find_edges(case, full.path, RATINGS, full.stops, stopped=stopped), full)
    lowered = None if volts is None else changed(case, full.path, volts)
    pair = None if lowered is None else _pair(lowered, stopped)
    if pair is None or volts is None:
        return None
    return Remedy(
        changes=(full.change_to(volts), *pair.changes),
        effort=effort_of(full.now, volts) + pair.effort,
        scenario=pair.scenario,
        verdict=pair.verdict,
    )


def _some(lever: Lever) -> FloatArray:
    """A few of a quantity's candidates, nearest first."""
    picked = np.unique(np.linspace(0, len(lever.values) - 1, PAIR_POINTS).astype(int))
    return np.asarray(lever.values[picked])


__all__ = ["Change", "Remedies", "Remedy", "find_remedies", "levers"]

"""Remedies: the smallest changes that would make a design run, found by search on the model."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from math import nan

import numpy as np

from explorer.advice.contest import fitted_title, replaced_store
from explorer.advice.readings.many import judge_many
from explorer.advice.remedy_search import (
    CLOSE,
    MOST_TRIES,
    Change,
    FloatArray,
    Quantity,
    Remedy,
    Stopped,
    Tried,
    change_of,
    changed,
    effort_of,
    exact_verdict,
    first_good,
    quantities,
    rounded,
    runs,
    single,
    smallest,
)
from explorer.advice.verdict import CHECK_LABELS, Verdict
from explorer.quantity import show
from explorer.scenario import parts
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario
from explorer.text import joined, say

SHOWN = 3
NEARLY = 1.2
"""By how much a search may end closer than the candidate that it began with."""
BETWEEN = 30
"""Points between two candidates of the full threshold."""
PASSES = 3
"""How often two changes are made smaller in turn."""
SURELY_NOT = 0.9
"""Reserve by the batch engine below which the exact one never finds that a design runs."""
PAIR_POINTS = 12
MOST_PAIRED = 6
"""Quantities, in the order of `quantities`, that are tried in pairs."""
STORE_EFFORT = 1.2
"""Effort of another kind of store, in the measure of `Remedy.effort` (own judgement)."""


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
    scenario: Scenario, light_log: LightLog | None, stopped: Stopped = lambda: False
) -> Iterator[Remedies]:
    """Search for the smallest changes that make a design run.

    The batch engine finds where a quantity begins to help, the exact engine has the last word
    and closes in on the smallest change within `CLOSE`.

    Parameters
    ----------
    scenario : Scenario
        The design.
    light_log : LightLog, optional
        The measured light, where the scenario's pattern is a log.
    stopped : callable
        Asked between evaluations; True ends the search without another result.

    Yields
    ------
    Remedies
        Growing results; the last has ``done`` set.
    """
    hopeful, reserve = first_good(scenario, light_log, quantities(scenario, light_log))
    if stopped():
        return
    outlook = Remedies(sentence=_outlook(hopeful))
    if reserve < SURELY_NOT:
        yield outlook
    present = exact_verdict(scenario, light_log)
    if present.state == "runs":
        yield Remedies(sentence=say("Runs as it is."), done=True)
        return
    if reserve >= SURELY_NOT:
        yield outlook
    found: list[Remedy] = []
    for quantity, good in hopeful:
        if stopped():
            return
        if len(found) >= SHOWN and (
            effort_of(quantity.now, float(good[0])) > found[SHOWN - 1].effort * NEARLY
        ):
            break  # the rest takes larger changes still
        remedy = single(scenario, light_log, quantity, good, stopped)
        if stopped():
            return
        if remedy is not None:
            found = sorted([*found, remedy], key=lambda r: r.effort)
            yield Remedies(singles=tuple(found[:SHOWN]))
    if len(found) < SHOWN:
        other = _other_store(scenario, light_log, stopped)
        if stopped():
            return
        if other is not None:
            found.append(other)
            found.sort(key=lambda r: r.effort)
    if found:
        yield Remedies(singles=tuple(found[:SHOWN]), done=True)
        return
    yield Remedies(sentence=say("No single change is enough; looking for a pair."))
    pair = _pair(scenario, light_log, stopped)
    if stopped():
        return
    if pair is not None:
        yield Remedies(pair=pair, sentence=say("No single change is enough."), done=True)
        return
    yield Remedies(sentence=say("No two changes are enough; looking for three."))
    three = _three(scenario, light_log, stopped)
    if stopped():
        return
    if three is not None:
        yield Remedies(pair=three, sentence=say("No two changes are enough."), done=True)
        return
    faults = _faults(present)
    yield Remedies(sentence=say("Nothing helps within reach: {faults}", faults=faults), done=True)


def _outlook(hopeful: list[tuple[Quantity, FloatArray]]) -> str:
    """What the batch engine says before the exact one has looked."""
    if not hopeful:
        return say("No single value looks enough; looking at other stores.")
    labels = joined(", ", (quantity.label for quantity, _ in hopeful[:SHOWN]))
    return say("Looks hopeful, being checked: {labels}.", labels=labels)


def _faults(present: Verdict) -> str:
    """What stands in the way, the reason that governs first."""
    first = present.governing
    others = [c.name for c in present.checks if c.margin < 1.0 and c.name != first.name]
    if not others:
        return first.sentence
    names = joined(say(" and "), (CHECK_LABELS[name].lower() for name in others))
    return say("{reason} It also fails {names}.", reason=first.sentence, names=names)


def _other_store(
    scenario: Scenario, light_log: LightLog | None, stopped: Stopped
) -> Remedy | None:
    """The cheapest other kind of store that runs in some size."""
    for family in sorted(parts.store_families(), key=lambda f: f.cost_class):
        if stopped():
            return None
        other = replaced_store(scenario, family, family.sizes[0])
        if other is None or (
            family.kind == scenario.store.kind and family.chemistry is None
            and family.kind == "capacitor"
        ):
            continue
        size = "store.capacity_mAh" if family.kind == "cell" else "store.capacitance_F"
        fleet = judge_many(other, light_log, {size: np.array(family.sizes)}, only_runs=True)
        for i in np.flatnonzero(fleet.reserve >= 1.0)[:2]:
            tried = replaced_store(scenario, family, family.sizes[int(i)])
            if tried is not None and not stopped() and runs(tried, light_log):
                unit = "mAh" if family.kind == "cell" else "F"
                title = fitted_title(family, scenario.charger.full_V).lower()
                change = Change(
                    path="store", label=say("Store"), unit="", old=scenario.store.kind,
                    new=say(
                        "{title}, {size}", title=title, size=show(family.sizes[int(i)], unit)
                    ),
                )
                return Remedy(changes=(change,), effort=STORE_EFFORT, scenario=tried)
    return None


def _pair(scenario: Scenario, light_log: LightLog | None, stopped: Stopped) -> Remedy | None:
    """The best two changes together."""
    usable = [q for q in quantities(scenario, light_log) if not q.path.endswith("sleep_A")]
    # A store's size sets its resistance and leakage, so it is changed first.
    usable = sorted(usable[:MOST_PAIRED], key=lambda q: not q.path.startswith("store."))
    blocks: list[tuple[Quantity, FloatArray, Quantity, FloatArray]] = []
    for a, b in combinations(usable, 2):
        xa, xb = (m.ravel() for m in np.meshgrid(_some(a), _some(b)))
        blocks.append((a, xa, b, xb))
    if not blocks or stopped():
        return None
    # All pairs in one batch, in which every variant changes two quantities.
    ends = np.cumsum([len(xa) for _, xa, _, _ in blocks])
    columns = {q.path: np.full(int(ends[-1]), float(q.now)) for q in usable}
    for (a, xa, b, xb), end in zip(blocks, ends.tolist(), strict=True):
        columns[a.path][end - len(xa) : end] = xa
        columns[b.path][end - len(xb) : end] = xb
    runs_so = judge_many(scenario, light_log, columns, only_runs=True).reserve >= 1.0
    options: list[tuple[float, Quantity, float, Quantity, float]] = []
    for (a, xa, b, xb), part in zip(blocks, np.split(runs_so, ends[:-1]), strict=True):
        good = np.flatnonzero(part)
        efforts = [effort_of(a.now, xa[i]) + effort_of(b.now, xb[i]) for i in good]
        for rank in np.argsort(efforts)[:2]:
            i = good[rank]
            options.append((efforts[rank], a, float(xa[i]), b, float(xb[i])))
    for _, a, x, b, y in sorted(options, key=lambda o: o[0])[: 2 * MOST_TRIES]:
        if stopped():
            return None
        one = changed(scenario, a.path, x, whole=a.whole)
        both = None if one is None else changed(one, b.path, y, whole=b.whole)
        if one is not None and both is not None and runs(both, light_log):
            return _tightened(scenario, light_log, (a, x), (b, y), stopped)
    return None


def _tightened(
    scenario: Scenario, light_log: LightLog | None, first: tuple[Quantity, float],
    second: tuple[Quantity, float], stopped: Stopped,
) -> Remedy | None:
    """Two changes that run, each made as small as it can be, the larger one first."""
    pairs = [first, second]
    larger = max((0, 1), key=lambda i: effort_of(pairs[i][0].now, pairs[i][1]))
    # What one of them gives up may be more than the other needs: look again until neither moves.
    for i in (larger, 1 - larger) * PASSES:
        (quantity, value), (other, fixed) = pairs[i], pairs[1 - i]
        base = changed(scenario, other.path, fixed, whole=other.whole)
        if base is None or stopped():
            return None
        enough = Tried(value, nan)
        smaller = smallest(base, light_log, quantity, enough, stopped)
        settled = abs(smaller - value) <= CLOSE * abs(value - quantity.now)
        pairs[i] = (quantity, smaller)
        if settled and i == larger and value != (first, second)[i][1]:
            break
    final: Scenario | None = scenario
    for quantity, value in pairs:
        final = final and changed(final, quantity.path, value, whole=quantity.whole)
    if final is None or not runs(final, light_log):
        return None
    return Remedy(
        changes=tuple(change_of(q, v) for q, v in pairs),
        effort=sum(effort_of(q.now, v) for q, v in pairs),
        scenario=final,
    )


def _three(scenario: Scenario, light_log: LightLog | None, stopped: Stopped) -> Remedy | None:
    """A lower full threshold, where a rating asks for it, and the best two changes beside it."""
    full = next((q for q in quantities(scenario, light_log) if q.path == "charger.full_V"), None)
    if full is None:
        return None
    kept = judge_many(scenario, light_log, {full.path: full.values}).margins["ratings"] >= 1.0
    now = judge_many(scenario, light_log, {}).margins["ratings"][0]
    if now >= 1.0 or not kept.any():
        return None
    # The candidates are a few percent apart; ratings need no march, so look closer at once.
    first = int(np.argmax(kept))
    near = np.linspace(full.values[first - 1] if first else full.now, full.values[first], BETWEEN)
    margin = judge_many(scenario, light_log, {full.path: near}).margins["ratings"]
    volts = rounded(float(near[int(np.argmax(margin >= 1.0))]), full.now)
    lowered = changed(scenario, full.path, volts, whole=False)
    pair = None if lowered is None else _pair(lowered, light_log, stopped)
    if pair is None:
        return None
    return Remedy(
        changes=(change_of(full, volts), *pair.changes),
        effort=effort_of(full.now, volts) + pair.effort,
        scenario=pair.scenario,
    )


def _some(quantity: Quantity) -> FloatArray:
    """A few of a quantity's candidates, nearest first."""
    picked = np.unique(np.linspace(0, len(quantity.values) - 1, PAIR_POINTS).astype(int))
    return np.asarray(quantity.values[picked])


__all__ = ["Change", "Remedies", "Remedy", "find_remedies", "quantities"]

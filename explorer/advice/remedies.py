"""Remedies: the smallest changes that would make a design run, found by search on the model."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import combinations
from math import ceil, floor, log, log10

import numpy as np
from numpy.typing import NDArray
from pydantic import ValidationError

from explorer.advice.checks import checks
from explorer.advice.contest import replaced_store
from explorer.advice.fleet import judge_many
from explorer.advice.study import study
from explorer.advice.territory import largest_phase
from explorer.advice.verdict import Verdict
from explorer.quantity import show
from explorer.scenario import parts
from explorer.scenario.demand import Every
from explorer.scenario.fields import describe
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario, get_value, owner_class, with_value
from explorer.scenario.storage import CellStore

FloatArray = NDArray[np.float64]
Stopped = Callable[[], bool]

SHOWN = 3
CLOSE = 0.03
"""The search ends when the bracket is this share of the change."""
BETWEEN = 40
"""Points at which the batch looks between a value that does not run and one that does."""
MOST_TRIES = 4
"""Values that the exact engine may refuse before a quantity is given up."""
PAIR_POINTS = 12
MOST_PAIRED = 6
"""Quantities, in the order of `quantities`, that are tried in pairs."""
STORE_EFFORT = 1.2
"""Effort of another kind of store, in the measure of `Remedy.effort` (own judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One quantity changed."""

    path: str
    label: str
    unit: str
    old: float | str
    new: float | str

    @property
    def text(self) -> str:
        """The change in a few words."""
        if isinstance(self.old, str) or isinstance(self.new, str):
            return f"{self.label} → {self.new}"
        if self.unit:
            return f"{self.label} {show(self.old, self.unit)} → {show(self.new, self.unit)}"
        return f"{self.label} {self.old:g} → {self.new:g}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """Changes that together make the design run."""

    changes: tuple[Change, ...]
    effort: float
    """How much they change the design: doublings, added up."""
    scenario: Scenario

    @property
    def sentence(self) -> str:
        """All changes in a few words."""
        return " and ".join(c.text for c in self.changes)


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedies:
    """What was found so far."""

    singles: tuple[Remedy, ...] = ()
    """The best single changes, smallest effort first."""
    pair: Remedy | None = None
    sentence: str = ""
    done: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class _Quantity:
    path: str
    label: str
    unit: str
    now: float
    values: FloatArray
    """Candidates from the present value outwards, both ways mixed, nearest first."""
    whole: bool


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
    present = _judge(scenario, light_log)
    if present.state == "runs":
        yield Remedies(sentence="Runs as it is.", done=True)
        return
    found: list[Remedy] = []
    for quantity in quantities(scenario, light_log):
        if stopped():
            return
        fleet = judge_many(scenario, light_log, {quantity.path: quantity.values})
        good = quantity.values[fleet.reserve >= 1.0]
        hopeful = len(good) and (
            len(found) < SHOWN or _effort(quantity.now, good[0]) < found[SHOWN - 1].effort * 1.2
        )
        remedy = (
            _single(scenario, light_log, quantity, good, stopped) if hopeful else None
        )
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
    yield Remedies(sentence="No single change is enough; looking for a pair.")
    pair = _pair(scenario, light_log, stopped)
    if stopped():
        return
    if pair is not None:
        yield Remedies(pair=pair, sentence="No single change is enough.", done=True)
        return
    yield Remedies(
        sentence="Nothing helps within reach: " + present.governing.sentence, done=True
    )


def quantities(scenario: Scenario, light_log: LightLog | None) -> list[_Quantity]:
    """Quantities that a designer may change, with candidate values."""
    lux = scenario.light.illuminance_lx
    if lux is None:
        lux = light_log.mean_lit_lx if light_log is not None else 0.0
    rows: list[tuple[str, float, FloatArray, str]] = []
    if lux > 0:
        rows.append(("light.illuminance_lx", lux, lux * np.geomspace(1.02, 30.0, 32), ""))
    count = scenario.panels.count
    rows.append(("panels.count", count, np.arange(count + 1.0, 65.0), ""))
    cell = isinstance(scenario.store, CellStore)
    size = "store.capacity_mAh" if cell else "store.capacitance_F"
    now = float(get_value(scenario, size))
    rows.append((size, now, now * _both_ways(100.0, 48), ""))
    full = scenario.charger.full_V
    rows.append(("charger.full_V", full, full / np.geomspace(1.01, 2.0, 40), ""))
    for i, op in enumerate(scenario.load.operations):
        of = f" of “{op.name}”" if len(scenario.load.operations) > 1 else ""
        if isinstance(op.schedule, Every):
            interval = op.schedule.interval_s
            rows.append((f"load.operations.{i}.schedule.interval_s", interval,
                         interval * np.geomspace(1.02, 60.0, 48), of))
        k = largest_phase(scenario, i)
        key = op.phases[k].amount_key
        path = f"load.operations.{i}.phases.{k}.{key}"
        now = float(get_value(scenario, path))
        if now > 0:
            factor = np.geomspace(1.02, 30.0, 48)
            rows.append((path, now, now * factor if key == "resistance_ohm" else now / factor, of))
    if scenario.load.sleep_A > 0:
        sleep = scenario.load.sleep_A
        rows.append(("load.sleep_A", sleep, sleep / np.geomspace(1.02, 30.0, 30), ""))
    for path in ("load.connect_V", "load.disconnect_V"):
        volts = float(get_value(scenario, path))
        if volts > 0:
            rows.append((path, volts, volts * _both_ways(2.0, 40), ""))
    out = []
    for path, value, values, of in rows:
        info = describe(owner_class(scenario, path), path.rpartition(".")[2])
        inside = values[(values >= info.low) & (values <= info.high)]
        inside = inside[_allowed(scenario, path, inside)]
        if len(inside):
            out.append(_Quantity(
                path=path, label=info.label + of, unit=info.unit, now=value, values=inside,
                whole=path == "panels.count",
            ))
    return out


def _both_ways(reach: float, points: int) -> FloatArray:
    """Factors from 1 outwards, up and down in turn."""
    up = np.geomspace(1.02, reach, points // 2)
    return np.stack([up, 1.0 / up], axis=1).ravel()


def _allowed(scenario: Scenario, path: str, values: FloatArray) -> NDArray[np.bool_]:
    """Thresholds must stay in order."""
    load, full = scenario.load, scenario.charger.full_V
    if path == "load.connect_V":
        return np.asarray((values > load.disconnect_V * 1.02) & (values < full * 0.995))
    if path == "charger.full_V":
        return np.asarray(values > load.connect_V * 1.01)
    if path == "load.disconnect_V":
        return np.asarray((values < load.connect_V * 0.98) & (values >= load.minimum_V))
    return np.ones(len(values), bool)


def _effort(old: float, new: float) -> float:
    return abs(log(new / old)) / log(2.0) if old > 0 and new > 0 else 9.0


def _judge(scenario: Scenario, light_log: LightLog | None) -> Verdict:
    return Verdict(checks=checks(study(scenario, light_log)), hazards=())


def _runs(scenario: Scenario, light_log: LightLog | None) -> bool:
    return _judge(scenario, light_log).state == "runs"


def changed(scenario: Scenario, path: str, value: float, *, whole: bool) -> Scenario | None:
    """The scenario with one value changed, None where it is not allowed."""
    try:
        return with_value(scenario, path, int(value) if whole else float(value))
    except ValidationError:
        return None


def _single(
    scenario: Scenario,
    light_log: LightLog | None,
    quantity: _Quantity,
    values: FloatArray,
    stopped: Stopped,
) -> Remedy | None:
    """The smallest change of one quantity that runs by the exact engine."""
    for value in values[:MOST_TRIES]:
        if stopped():
            return None
        tried = changed(scenario, quantity.path, value, whole=quantity.whole)
        if tried is None or not _runs(tried, light_log):
            continue
        if quantity.whole:
            value = _fewest(scenario, light_log, quantity, int(value), stopped)
        else:
            value = _closest(scenario, light_log, quantity, float(value), stopped)
        final = changed(scenario, quantity.path, value, whole=quantity.whole)
        if final is None:
            return None
        change = Change(
            path=quantity.path, label=quantity.label, unit=quantity.unit, old=quantity.now,
            new=value,
        )
        return Remedy(changes=(change,), effort=_effort(quantity.now, value), scenario=final)
    return None


def _fewest(
    scenario: Scenario, light_log: LightLog | None, quantity: _Quantity, value: int,
    stopped: Stopped,
) -> int:
    while value - 1 > quantity.now and not stopped():
        fewer = changed(scenario, quantity.path, value - 1, whole=True)
        if fewer is None or not _runs(fewer, light_log):
            break
        value -= 1
    return value


def _closest(
    scenario: Scenario, light_log: LightLog | None, quantity: _Quantity, value: float,
    stopped: Stopped,
) -> float:
    """Close in from the present value, which does not run, to one that does."""
    low, high = quantity.now, value

    def runs(at: float) -> bool:
        tried = changed(scenario, quantity.path, at, whole=False)
        return tried is not None and _runs(tried, light_log)

    # The batch narrows the bracket; its word is checked at both ends.
    between = np.geomspace(low, high, BETWEEN) if low > 0 else np.linspace(low, high, BETWEEN)
    good = judge_many(scenario, light_log, {quantity.path: between}).reserve >= 1.0
    first = int(np.argmax(good)) if good.any() else BETWEEN - 1
    if first + 1 < BETWEEN and runs(float(between[first + 1])):
        high = float(between[first + 1])
    if first - 2 > 0 and not runs(float(between[first - 2])):
        low = float(between[first - 2])
    while abs(high - low) > CLOSE * abs(high - quantity.now) and not stopped():
        middle = (low * high) ** 0.5
        if runs(middle):
            high = middle
        else:
            low = middle
    tidy = _rounded(high, quantity.now)
    return tidy if runs(tidy) else high


def _rounded(value: float, old: float) -> float:
    """Rounded away from the old value, by at most a hundredth of the change."""
    step = 10.0 ** floor(log10(max(abs(value - old) * 0.01, 1e-15)))
    steps = value / step
    return float((ceil(steps - 1e-9) if value > old else floor(steps + 1e-9)) * step)


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
        fleet = judge_many(other, light_log, {size: np.array(family.sizes)})
        for i in np.flatnonzero(fleet.reserve >= 1.0)[:2]:
            tried = replaced_store(scenario, family, family.sizes[int(i)])
            if tried is not None and not stopped() and _runs(tried, light_log):
                unit = "mAh" if family.kind == "cell" else "F"
                change = Change(
                    path="store", label="Store", unit="", old=scenario.store.kind,
                    new=f"{family.title.lower()}, {show(family.sizes[int(i)], unit)}",
                )
                return Remedy(changes=(change,), effort=STORE_EFFORT, scenario=tried)
    return None


def _pair(scenario: Scenario, light_log: LightLog | None, stopped: Stopped) -> Remedy | None:
    """The best two changes together."""
    usable = [q for q in quantities(scenario, light_log) if not q.path.endswith("sleep_A")]
    usable = usable[:MOST_PAIRED]
    options: list[tuple[float, _Quantity, float, _Quantity, float]] = []
    for a, b in combinations(usable, 2):
        if stopped():
            return None
        va, vb = _some(a), _some(b)
        xa, xb = (m.ravel() for m in np.meshgrid(va, vb))
        first, second = (a, xa), (b, xb)
        if b.path.startswith("store.capa"):
            first, second = second, first
        fleet = judge_many(
            scenario, light_log, {first[0].path: first[1], second[0].path: second[1]}
        )
        good = np.flatnonzero(fleet.reserve >= 1.0)
        efforts = [_effort(a.now, xa[i]) + _effort(b.now, xb[i]) for i in good]
        for rank in np.argsort(efforts)[:2]:
            i = good[rank]
            options.append((efforts[rank], a, float(xa[i]), b, float(xb[i])))
    for effort, a, x, b, y in sorted(options, key=lambda o: o[0])[: 2 * MOST_TRIES]:
        if stopped():
            return None
        one = changed(scenario, a.path, x, whole=a.whole)
        both = None if one is None else changed(one, b.path, y, whole=b.whole)
        if both is not None and _runs(both, light_log):
            changes = tuple(
                Change(path=q.path, label=q.label, unit=q.unit, old=q.now, new=v)
                for q, v in ((a, x), (b, y))
            )
            return Remedy(changes=changes, effort=effort, scenario=both)
    return None


def _some(quantity: _Quantity) -> FloatArray:
    """A few of a quantity's candidates, nearest first."""
    picked = np.unique(np.linspace(0, len(quantity.values) - 1, PAIR_POINTS).astype(int))
    return np.asarray(quantity.values[picked])


__all__ = ["Change", "Remedies", "Remedy", "find_remedies", "quantities"]

"""The smallest change of one quantity that makes a design run: candidates and search."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import ceil, floor, log, log10, nan
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from pydantic import ValidationError

from explorer.advice.assess import judge
from explorer.advice.case import Case
from explorer.advice.readings.many import MET_OR_NOT, judge_many
from explorer.advice.territory import largest_phase
from explorer.advice.verdict import Verdict
from explorer.quantity import show
from explorer.scenario.demand import Every
from explorer.scenario.fields import describe
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario, get_value, owner_class, with_value
from explorer.scenario.storage import CellStore
from explorer.text import figure, joined, say

FloatArray = NDArray[np.float64]
Stopped = Callable[[], bool]

BRIGHTEST_LX = 1e5
"""Direct sun, the brightest light that is offered. [lx]"""
CLOSE = 0.03
"""The search ends when the bracket is this share of the change."""
MOST_STEPS = 30
"""Steps after which a bracket is left as it is."""
SECANTS = 5
"""Steps by the root of the reserve, after which the bracket is halved."""
MOST_TRIES = 4
"""Values that the exact engine may refuse before a quantity is given up."""


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
            return say("{label} → {new}", label=self.label, new=self.new)
        old, new = (
            show(v, self.unit) if self.unit else figure(f"{v:g}") for v in (self.old, self.new)
        )
        return say("{label} {old} → {new}", label=self.label, old=old, new=new)


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
        return joined(say(" and "), (c.text for c in self.changes))


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A quantity that a designer may change."""

    path: str
    label: str
    unit: str
    now: float
    values: FloatArray
    """Candidates from the present value outwards, both ways mixed, nearest first."""
    whole: bool


def quantities(scenario: Scenario, light_log: LightLog | None) -> list[Quantity]:
    """Quantities that a designer may change, with candidate values."""
    lux = scenario.light.illuminance_lx
    if lux is None:
        lux = light_log.mean_lit_lx if light_log is not None else 0.0
    rows: list[tuple[str, float, FloatArray, str]] = []
    if lux > 0:
        # As far as the knob goes, so that the two never contradict each other.
        reach = max(BRIGHTEST_LX / lux, 30.0)
        rows.append(("light.illuminance_lx", lux, lux * np.geomspace(1.02, reach, 30), ""))
    count = scenario.panels.count
    counts = np.unique(np.round(np.geomspace(count + 1.0, max(64.0, count + 1.0), 20)))
    rows.append(("panels.count", count, counts, ""))
    cell = isinstance(scenario.store, CellStore)
    size = "store.capacity_mAh" if cell else "store.capacitance_F"
    now = float(get_value(scenario, size))
    rows.append((size, now, now * _both_ways(100.0, 40), ""))
    full = scenario.charger.full_V
    rows.append(("charger.full_V", full, full / np.geomspace(1.01, 2.0, 24), ""))
    for i, op in enumerate(scenario.load.operations):
        of = op.name if len(scenario.load.operations) > 1 else ""
        if isinstance(op.schedule, Every):
            interval = op.schedule.interval_s
            rows.append((f"load.operations.{i}.schedule.interval_s", interval,
                         interval * np.geomspace(1.02, 60.0, 28), of))
        k = largest_phase(scenario, i)
        key = op.phases[k].amount_key
        path = f"load.operations.{i}.phases.{k}.{key}"
        now = float(get_value(scenario, path))
        if now > 0:
            factor = np.geomspace(1.02, 300.0, 30)
            rows.append((path, now, now * factor if key == "resistance_ohm" else now / factor, of))
    if scenario.load.sleep_A > 0:
        sleep = scenario.load.sleep_A
        rows.append(("load.sleep_A", sleep, sleep / np.geomspace(1.02, 30.0, 20), ""))
    for path in ("load.connect_V", "load.disconnect_V"):
        volts = float(get_value(scenario, path))
        if volts > 0:
            rows.append((path, volts, volts * _both_ways(2.0, 32), ""))
    out = []
    for path, value, values, of in rows:
        info = describe(owner_class(scenario, path), path.rpartition(".")[2])
        inside = values[(values >= info.low) & (values <= info.high)]
        inside = inside[_allowed(scenario, path, inside)]
        if len(inside):
            out.append(Quantity(
                path=path,
                label=say("{label} of “{name}”", label=info.label, name=of) if of else info.label,
                unit=info.unit, now=value, values=inside, whole=path == "panels.count",
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


def effort_of(old: float, new: float) -> float:
    """How far a change goes, in doublings."""
    return abs(log(new / old)) / log(2.0) if old > 0 and new > 0 else 9.0


def exact_verdict(scenario: Scenario, light_log: LightLog | None) -> Verdict:
    """The verdict by the exact engine."""
    return judge(Case(scenario, light_log))


def runs(scenario: Scenario, light_log: LightLog | None) -> bool:
    """Whether a design runs by the exact engine."""
    return exact_verdict(scenario, light_log).state == "runs"


def _standing(verdict: Verdict) -> float:
    """Smallest reserve, 1 or more where the design runs; counted as in `Fleet.reserve`."""
    return min(c.reserve for c in verdict.checks if c.name not in MET_OR_NOT or c.margin < 1.0)


def first_good(
    scenario: Scenario, light_log: LightLog | None, found: Sequence[Quantity]
) -> tuple[list[tuple[Quantity, FloatArray]], float]:
    """Quantities with those of their values that run by the batch engine, smallest effort first.

    All are judged in one batch, in which every variant changes one of them; the last row is the
    design as it is, whose reserve is the second of the two answers, or less where it does not run.
    """
    # A store's size sets its resistance and leakage, so it is changed first.
    order = sorted(found, key=lambda q: not q.path.startswith("store."))
    ends = np.cumsum([len(q.values) for q in order])
    columns = {q.path: np.full(int(ends[-1]) + 1, float(q.now)) for q in order}
    for quantity, end in zip(order, ends.tolist(), strict=True):
        columns[quantity.path][end - len(quantity.values) : end] = quantity.values
    reserve = judge_many(scenario, light_log, columns, only_runs=True).reserve
    parts = np.split(reserve[:-1] >= 1.0, ends[:-1])
    hopeful = [(q, q.values[g]) for q, g in zip(order, parts, strict=True) if g.any()]
    hopeful.sort(key=lambda h: effort_of(h[0].now, float(h[1][0])))
    return hopeful, float(reserve[-1])


def changed(scenario: Scenario, path: str, value: float, *, whole: bool) -> Scenario | None:
    """The scenario with one value changed, None where it is not allowed."""
    try:
        return with_value(scenario, path, int(value) if whole else float(value))
    except ValidationError:
        return None


def single(
    scenario: Scenario,
    light_log: LightLog | None,
    quantity: Quantity,
    values: FloatArray,
    stopped: Stopped,
) -> Remedy | None:
    """The smallest change of one quantity that runs by the exact engine."""
    refused: list[Tried] = []
    for value in values[:MOST_TRIES].tolist():
        if stopped():
            return None
        reserve = _reserve_at(scenario, light_log, quantity, value)
        if reserve < 1.0:
            refused.append(Tried(value, reserve))
            continue
        value = smallest(
            scenario, light_log, quantity, Tried(value, reserve), stopped, refused
        )
        final = changed(scenario, quantity.path, value, whole=quantity.whole)
        if final is None:
            return None
        change = change_of(quantity, value)
        return Remedy(changes=(change,), effort=effort_of(quantity.now, value), scenario=final)
    return None


class Tried(NamedTuple):
    """A value that the exact engine has judged."""

    value: float
    reserve: float
    """Smallest reserve, 1 or more where the design runs; nan where it is not known."""


def smallest(
    scenario: Scenario, light_log: LightLog | None, quantity: Quantity, high: Tried,
    stopped: Stopped, refused: Sequence[Tried] = (),
) -> float:
    """The value nearest to the present one, which does not run, that runs; `high` does.

    `refused` are values that do not run, as far as they are known.
    """
    def tried(at: float) -> Tried:
        return Tried(at, _reserve_at(scenario, light_log, quantity, at))

    low = Tried(quantity.now, nan)
    for known in refused:
        if min(low.value, high.value) < known.value < max(low.value, high.value):
            low = known
    # The candidate before it is mostly the other end: one look instead of several halvings.
    inside = (quantity.values > min(low.value, high.value)) & (
        quantity.values < max(low.value, high.value)
    )
    if inside.any() and not stopped():
        between = quantity.values[inside]
        before = tried(float(between[np.argmin(np.abs(between - high.value))]))
        low, high = (low, before) if before.reserve >= 1.0 else (before, high)
    search = _fewest if quantity.whole else _closest
    return search(tried, quantity.now, low, high, stopped)


def _reserve_at(
    scenario: Scenario, light_log: LightLog | None, quantity: Quantity, value: float
) -> float:
    tried = changed(scenario, quantity.path, value, whole=quantity.whole)
    return 0.0 if tried is None else _standing(exact_verdict(tried, light_log))


def _fewest(
    tried: Callable[[float], Tried], _: float, low: Tried, high: Tried, stopped: Stopped
) -> float:
    while high.value - low.value > 1 and not stopped():
        middle = tried(float(floor((low.value + high.value) / 2)))
        low, high = (low, middle) if middle.reserve >= 1.0 else (middle, high)
    return high.value


def _closest(
    tried: Callable[[float], Tried], now: float, low: Tried, high: Tried, stopped: Stopped
) -> float:
    """Close in from a value that does not run to one that does.

    Beside the root of the reserve, on either side of it in turn, as long as that gets on faster
    than halving.
    """
    steps, beyond = 0, True
    while (
        abs(high.value - low.value) > CLOSE * abs(high.value - now)
        and steps < MOST_STEPS
        and not stopped()
    ):
        share, width = 0.5, abs(high.value - low.value)
        if steps < SECANTS and low.reserve < 1.0 <= high.reserve:
            aside = 0.35 * CLOSE * abs(high.value - now) / width
            root = (1.0 - low.reserve) / (high.reserve - low.reserve)
            share = min(max(root + (aside if beyond else -aside), 0.02), 0.98)
        middle = tried(low.value * (high.value / low.value) ** share)
        beyond = middle.reserve < 1.0
        low, high = (middle, high) if beyond else (low, middle)
        steps += 1
    tidy = rounded(high.value, now)
    return tidy if tried(tidy).reserve >= 1.0 else high.value


def rounded(value: float, old: float) -> float:
    """Rounded away from the old value, by at most a hundredth of the change."""
    step = 10.0 ** floor(log10(max(abs(value - old) * 0.01, 1e-15)))
    steps = value / step
    return float((ceil(steps - 1e-9) if value > old else floor(steps + 1e-9)) * step)


def change_of(quantity: Quantity, value: float) -> Change:
    """The change of a quantity to a value."""
    return Change(
        path=quantity.path, label=quantity.label, unit=quantity.unit, old=quantity.now, new=value
    )

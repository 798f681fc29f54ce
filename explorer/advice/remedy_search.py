"""The smallest change of one quantity that makes a design run: candidates and search."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil, floor, log, log10

import numpy as np
from numpy.typing import NDArray
from pydantic import ValidationError

from explorer.advice.checks import checks
from explorer.advice.fleet import judge_many
from explorer.advice.study import study
from explorer.advice.territory import largest_phase
from explorer.advice.verdict import Verdict
from explorer.quantity import show
from explorer.scenario.demand import Every
from explorer.scenario.fields import describe
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario, get_value, owner_class, with_value
from explorer.scenario.storage import CellStore

FloatArray = NDArray[np.float64]
Stopped = Callable[[], bool]

CLOSE = 0.03
"""The search ends when the bracket is this share of the change."""
BETWEEN = 40
"""Points at which the batch looks between a value that does not run and one that does."""
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
            out.append(Quantity(
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


def effort_of(old: float, new: float) -> float:
    """How far a change goes, in doublings."""
    return abs(log(new / old)) / log(2.0) if old > 0 and new > 0 else 9.0


def exact_verdict(scenario: Scenario, light_log: LightLog | None) -> Verdict:
    """The verdict by the exact engine, without hazards."""
    return Verdict(checks=checks(study(scenario, light_log)), hazards=())


def runs(scenario: Scenario, light_log: LightLog | None) -> bool:
    """Whether a design runs by the exact engine."""
    return exact_verdict(scenario, light_log).state == "runs"


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
    for value in values[:MOST_TRIES]:
        if stopped():
            return None
        tried = changed(scenario, quantity.path, value, whole=quantity.whole)
        if tried is None or not runs(tried, light_log):
            continue
        value = smallest(scenario, light_log, quantity, float(value), stopped)
        final = changed(scenario, quantity.path, value, whole=quantity.whole)
        if final is None:
            return None
        change = change_of(quantity, value)
        return Remedy(changes=(change,), effort=effort_of(quantity.now, value), scenario=final)
    return None


def smallest(
    scenario: Scenario, light_log: LightLog | None, quantity: Quantity, value: float,
    stopped: Stopped,
) -> float:
    """The value nearest to the present one, which does not run, that runs; `value` does."""
    search = _fewest if quantity.whole else _closest
    return search(scenario, light_log, quantity, value, stopped)


def _fewest(
    scenario: Scenario, light_log: LightLog | None, quantity: Quantity, value: float,
    stopped: Stopped,
) -> float:
    while value - 1 > quantity.now and not stopped():
        fewer = changed(scenario, quantity.path, value - 1, whole=True)
        if fewer is None or not runs(fewer, light_log):
            break
        value -= 1
    return value


def _closest(
    scenario: Scenario, light_log: LightLog | None, quantity: Quantity, value: float,
    stopped: Stopped,
) -> float:
    """Close in from the present value, which does not run, to one that does."""
    low, high = quantity.now, value

    def enough(at: float) -> bool:
        tried = changed(scenario, quantity.path, at, whole=False)
        return tried is not None and runs(tried, light_log)

    # The batch narrows the bracket; its word is checked at both ends.
    between = np.geomspace(low, high, BETWEEN) if low > 0 else np.linspace(low, high, BETWEEN)
    good = judge_many(scenario, light_log, {quantity.path: between}).reserve >= 1.0
    first = int(np.argmax(good)) if good.any() else BETWEEN - 1
    if first + 1 < BETWEEN and enough(float(between[first + 1])):
        high = float(between[first + 1])
    if first - 2 > 0 and not enough(float(between[first - 2])):
        low = float(between[first - 2])
    while abs(high - low) > CLOSE * abs(high - quantity.now) and not stopped():
        middle = (low * high) ** 0.5
        if enough(middle):
            high = middle
        else:
            low = middle
    tidy = rounded(high, quantity.now)
    return tidy if enough(tidy) else high


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

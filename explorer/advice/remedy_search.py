"""What a designer may change of a design, and the smallest change of one thing that is enough."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import log

import numpy as np
from numpy.typing import NDArray
from pydantic import ValidationError

from explorer.advice.asked import judged_at
from explorer.advice.case import Case
from explorer.advice.criteria import RUNS
from explorer.advice.edges import Edges, find_edges
from explorer.advice.fleet import fleet
from explorer.advice.judge import judge
from explorer.advice.stops import WHOLE, knob_paths, largest_phase, series_of, stops_of
from explorer.advice.verdict import Verdict
from explorer.advice.year.bounds import ruled_out
from explorer.advice.year.prospects import prospects_of_year
from explorer.engine.course import Interrupted
from explorer.physics.arrays import FloatArray
from explorer.quantity import show
from explorer.scenario.demand import Every
from explorer.scenario.fields import describe
from explorer.scenario.model import Scenario, get_value, owner_class, size_path
from explorer.scenario.origin import PartOrigin
from explorer.scenario.part import is_changed
from explorer.text import figure, listed, say

Stopped = Callable[[], bool]

POINTS = 30
"""Candidates of a quantity that no knob moves, about."""
TRIED_IN_A_YEAR = (1.5, 1 / 1.5, 2.2, 1 / 2.2, 4.0, 1 / 4.0, 10.0, 30.0)
"""Times the present value at which a lever is tried by whole years, nearest first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One quantity changed."""

    path: str
    label: str
    unit: str
    old: float | str
    new: float | str
    cost: str = ""
    """What it costs more, or less, where the parts have a price."""

    @property
    def text(self) -> str:
        """The change in a few words."""
        if isinstance(self.old, str) or isinstance(self.new, str):
            return say("{label} → {new}", label=self.label, new=self.new)
        old, new = (
            show(v, self.unit, 3 if self.unit else 6) for v in (self.old, self.new)
        )
        return say("{label} {old} → {new}", label=self.label, old=old, new=new)


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """Changes that together make the design run."""

    changes: tuple[Change, ...]
    effort: float
    """How much they change the design: doublings, added up."""
    scenario: Scenario
    verdict: Verdict | None = None
    """Of the changed design."""

    @property
    def sentence(self) -> str:
        """All changes in a few words."""
        return listed(c.text for c in self.changes)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lever:
    """A quantity that a designer may change, and the values in which it is had."""

    path: str
    label: str
    unit: str
    now: float
    stops: tuple[float, ...]
    """Rising values between which the search for edges looks."""
    values: FloatArray
    """Those of the stops that a remedy may take, nearest to the present value first."""

    def allows(self, value: float) -> bool:
        """Whether a remedy may go to a value: the right way, and within the range."""
        return value != self.now and float(self.values.min()) <= value <= float(self.values.max())

    price: float | None = None
    """Of one more, where it is the number of a priced part of one's own."""
    currency: str = ""

    def change_to(self, value: float) -> Change:
        """The change of the quantity to a value."""
        cost = "" if self.price is None else more_text(
            (value - self.now) * self.price, self.currency
        )
        return Change(
            path=self.path, label=self.label, unit=self.unit, old=self.now, new=value, cost=cost
        )


def more_text(amount: float, currency: str) -> str:
    """A difference of prices.

    Examples
    --------
    >>> more_text(10.4, "EUR"), more_text(-2.0, "")
    ('+10.40 EUR', '-2.00')
    """
    return figure(f"{amount:+.2f} {currency}".rstrip())


def levers(case: Case) -> list[Lever]:
    """Quantities that a designer may change, with the values in which they are had."""
    scenario = case.scenario
    lux = scenario.light.illuminance_lx
    if lux is None:
        lux = case.mean_lit_lx
    rows: list[tuple[str, float, float, float, str]] = []
    """Path, present value, how far it may fall and rise as a factor, and whose it is."""
    if lux > 0:
        rows.append(("light.illuminance_lx", lux, 1.0, np.inf, ""))
    rows.append(("panels.count", float(scenario.panels.count), 1.0, np.inf, ""))
    size = size_path(scenario)
    rows.append((size, float(get_value(scenario, size)), 0.01, 100.0, ""))
    rows.append(("charger.full_V", scenario.charger.full_V, 0.5, 1.0, ""))
    for i, op in enumerate(scenario.load.operations):
        of = op.name if len(scenario.load.operations) > 1 else ""
        if isinstance(op.schedule, Every):
            path = f"load.operations.{i}.schedule.interval_s"
            rows.append((path, op.schedule.interval_s, 1.0, 60.0, of))
        k = largest_phase(scenario, i)
        path = f"load.operations.{i}.phases.{k}.{op.phases[k].amount_key}"
        more = path.endswith("resistance_ohm")  # a larger resistance draws less
        now = float(get_value(scenario, path))
        if now > 0:
            rows.append((path, now, 1.0 if more else 1 / 300.0, 300.0 if more else 1.0, of))
    if scenario.load.sleep_A > 0:
        rows.append(("load.sleep_A", scenario.load.sleep_A, 1 / 30.0, 1.0, ""))
    for path in ("load.connect_V", "load.disconnect_V"):
        volts = float(get_value(scenario, path))
        if volts > 0:
            rows.append((path, volts, 0.5, 2.0, ""))
    return [lever for row in rows if (lever := _lever(scenario, *row)) is not None]


def _lever(
    scenario: Scenario, path: str, now: float, fall: float, rise: float, of: str
) -> Lever | None:
    info = describe(owner_class(scenario, path), path.rpartition(".")[2])
    stops = _stops(scenario, path, now, fall, rise)
    stops = stops[(stops >= info.low) & (stops <= info.high)]
    near = (stops >= now * fall * (1 - 1e-9)) & (stops <= now * rise * (1 + 1e-9))
    values = stops[near & (stops != now)]
    values = values[_in_order(scenario, path, values)]
    if not len(values):
        return None
    part = scenario.panels.part if path == "panels.count" else None
    label = say("{label} of “{name}”", label=info.label, name=of) if of else info.label
    if part is not None and not is_changed(scenario.panels):
        label = say("{label}, “{part}”", label=label, part=part.title)
    else:
        part = None
    return Lever(
        path=path,
        label=label, price=_price(scenario.panels.in_series, part),
        currency="" if part is None else part.currency,
        unit=info.unit, now=now, stops=tuple(stops.tolist()),
        values=values[np.argsort(np.abs(np.log(values / now)), kind="stable")],
    )


def _price(in_series: int, part: PartOrigin | None) -> float | None:
    """Of one more string of panels."""
    return None if part is None or part.price is None else in_series * part.price


def _stops(scenario: Scenario, path: str, now: float, fall: float, rise: float) -> FloatArray:
    """The knob's stops, or the present value and some `POINTS` in which the quantity is had."""
    operations = range(max(len(scenario.load.operations), 1))
    if any(path in knob_paths(scenario, i) for i in operations):
        return np.array(stops_of(path))
    series = series_of(path).values
    inside = series[(series >= now * fall) & (series <= now * rise)]
    inside = inside[_in_order(scenario, path, inside)]
    if len(inside) <= POINTS:
        return np.union1d(inside, [now])
    # Close to the present value, where a small change may be enough, they stand closer.
    far = np.abs(np.log(inside / now))
    wanted = np.geomspace(0.02, max(float(far.max()), 0.03), POINTS // (1 if fall == 1.0 else 2))
    picked = [np.searchsorted(inside, now * np.exp(side * wanted)) for side in (-1.0, 1.0)]
    kept = np.unique(np.clip(np.concatenate(picked), 0, len(inside) - 1))
    return np.union1d(inside[kept], [now])


def _in_order(scenario: Scenario, path: str, values: FloatArray) -> NDArray[np.bool_]:
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


def changed(case: Case, path: str, value: float | str) -> Case | None:
    """The case with one value changed, None where it is not allowed."""
    whole = path.rpartition(".")[2] in WHOLE
    try:
        return case.with_value(path, int(value) if whole else value)
    except ValidationError:
        return None


def runs(case: Case) -> bool:
    """Whether a design runs by the exact march; one that cannot be judged does not."""
    try:
        if case.year is not None and ruled_out(case, cleanly=True) is not None:
            return False
        return judge(case).state == "runs"
    except (ValueError, ArithmeticError):
        return False


def hopeful(case: Case, found: Sequence[Lever]) -> tuple[list[tuple[Lever, float]], float]:
    """Levers that can make it run by the batch engine, with the least effort that may be enough.

    All are judged in one batch, in which every variant changes one of them; the last row is the
    design as it is, whose reserve is the second of the two answers, or less where it does not run.
    """
    # A store's size sets its resistance and leakage, so it is changed first.
    order = sorted(found, key=lambda lever: not lever.path.startswith("store."))
    ends = np.cumsum([len(lever.values) for lever in order])
    columns = {lever.path: np.full(int(ends[-1]) + 1, float(lever.now)) for lever in order}
    for lever, end in zip(order, ends.tolist(), strict=True):
        columns[lever.path][end - len(lever.values) : end] = lever.values
    reserve = fleet(case, columns, only_runs=True).reserve
    out = []
    for lever, part in zip(order, np.split(reserve[:-1], ends[:-1]), strict=True):
        good = lever.values[part >= 1.0]
        if len(good):
            out.append((lever, effort_of(lever.now, float(good[0]))))
    out.sort(key=lambda row: row[1])
    return out, float(reserve[-1])


def hopeful_in_a_year(
    case: Case, found: Sequence[Lever], stopped: Stopped
) -> tuple[list[tuple[Lever, float]], float]:
    """The same by whole years, at some values of each lever, nearest to the present one first.

    Raises
    ------
    Interrupted
        `stopped` said so.
    """
    reserve = RUNS.level(judge(case))
    if reserve >= 1.0:
        return [], reserve
    out = []
    for lever, values in _prospective(case, found):
        for value in values:
            if stopped():
                raise Interrupted
            if judged_at(case, lever.path, value, RUNS)[0]:
                out.append((lever, effort_of(lever.now, value)))
                break
    out.sort(key=lambda row: row[1])
    return out, reserve


def _prospective(case: Case, found: Sequence[Lever]) -> list[tuple[Lever, list[float]]]:
    """The values of each lever that are tried in a year and that no bound rules out."""
    tried = [
        (lever, float(lever.values[np.argmin(np.abs(np.log(lever.values / lever.now / factor)))]))
        for lever in found for factor in TRIED_IN_A_YEAR
    ]
    columns = {lever.path: np.full(len(tried), float(lever.now)) for lever in found}
    for k, (lever, value) in enumerate(tried):
        columns[lever.path][k] = value
    may = prospects_of_year(case, columns) >= 1.0 if tried else np.zeros(0, bool)
    rows: list[tuple[Lever, list[float]]] = [(lever, []) for lever in found]
    for k, good in enumerate(may.tolist()):
        if good:
            rows[k // len(TRIED_IN_A_YEAR)][1].append(tried[k][1])
    return rows


def single(case: Case, lever: Lever, stopped: Stopped) -> Remedy | None:
    """The smallest change of one quantity that runs by the exact march.

    Raises
    ------
    Interrupted
        `stopped` said so.
    """
    value = nearest(find_edges(case, lever.path, RUNS, lever.stops, stopped=stopped), lever)
    final = None if value is None else changed(case, lever.path, value)
    if value is None or final is None:
        return None
    return Remedy(
        changes=(lever.change_to(value),), effort=effort_of(lever.now, value),
        scenario=final.scenario, verdict=judge(final),
    )  # fmt: skip


def nearest(found: Edges, lever: Lever) -> float | None:
    """The edge nearest to the present value that a remedy may go to."""
    allowed = [e.value for e in found.edges if lever.allows(e.value)]
    return min(allowed, key=lambda v: effort_of(lever.now, v), default=None)

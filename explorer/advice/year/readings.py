"""Readings of a year: one row for each month, and what the verdict on the whole year reads."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from explorer.advice import checks as rules
from explorer.advice.case import Case, kept
from explorer.advice.checks import Judged, asked_of, judged
from explorer.advice.readings import (
    DarkReading,
    PulseReading,
    Readings,
)
from explorer.advice.readings.balance import Balance, lowest_held
from explorer.advice.readings.dark import nothing_in_the_dark, worst_dark
from explorer.advice.readings.one import balance, pulse
from explorer.advice.readings.pulse import spare
from explorer.advice.readings.required import required
from explorer.advice.readings.runs import served_in
from explorer.advice.year.study import MonthRun, first_charge, seasons_of, year_study
from explorer.engine.course import Standing, StopAt, give_way
from explorer.engine.march import Engine
from explorer.engine.system import DAY_S, as_judged
from explorer.physics.arrays import FloatArray
from explorer.scenario.ratings import Rating, ratings

DARK_FIELDS = tuple(DarkReading.__dataclass_fields__)
MONTH_TRIED_S = 31 * DAY_S
"""How long a first charge is followed that begins with a month. [s]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """Months in a row over which a year's balance is the tightest."""

    first: int
    count: int
    balance: Balance
    """Arrays of shape (1,); what a full store gives over the months is taken off."""
    gives_w: float
    """What the full store gives, spread over these months. [W]"""

    @property
    def ratio(self) -> float:
        """Brought over what is to be taken from it."""
        return float(self.balance.brought_w[0] / self.balance.taken_w[0])


@kept
def month_readings(case: Case) -> Readings:
    """What the checks read of every month by itself; arrays of shape (months,).

    A month's first charge is that of a device hung up empty on its first day.
    """
    ready_s = case.once_under_any_margins("month starts", lambda: _starts(case))
    return replace(_courses(case), ready_s=ready_s, dark=month_dark(case))


@kept
def _courses(case: Case) -> Readings:
    """The same without first charges and dark stretches, which take marches of their own."""
    found = year_study(case)
    runs = found.months
    parts = [_of_month(case, run) for run in runs]
    held = month_balances(case)
    pulses = [p.pulse for p in parts]
    return Readings(
        ready_s=np.full(len(runs), found.first.seconds),
        level_v=held.level_v, brought_w=held.brought_w, taken_w=held.taken_w,
        dark=_no_dark(len(runs)),
        pulse=None if pulses[0] is None else PulseReading(**{
            name: np.concatenate([getattr(p, name) for p in pulses])
            for name in PulseReading.__dataclass_fields__
        }),
        ratings=ratings_by_month(case),
        served=np.concatenate([p.served for p in parts]),
        wanted=np.concatenate([p.wanted for p in parts]),
        connected=np.concatenate([p.connected for p in parts]),
        cut_offs=np.concatenate([p.cut_offs for p in parts]),
        span_s=np.concatenate([p.span_s for p in parts]),
        repeats=np.full(len(runs), found.course.settled),
        sure=np.ones(len(runs), bool), falls=np.zeros(len(runs), bool),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _MonthPart:
    """What the course of one month says; arrays with a leading axis of 1."""

    pulse: PulseReading | None
    served: FloatArray
    wanted: FloatArray
    connected: FloatArray
    cut_offs: FloatArray
    span_s: FloatArray


def _of_month(case: Case, found: MonthRun) -> _MonthPart:
    run, system = found.run, found.engine.system
    did = served_in(system, run, starts=year_study(case).starts)
    return _MonthPart(
        pulse=pulse(found.engine, run), served=did.served, wanted=did.wanted,
        connected=did.connected, cut_offs=did.cut_offs,
        span_s=np.array([run.span_s]),
    )


def _no_dark(size: int) -> DarkReading:
    zero = np.zeros(size)
    return DarkReading(
        needed_s=zero, lasts_s=np.full(size, np.inf), begin_v=zero, closure=np.zeros(size, bool)
    )


@kept
def month_dark(case: Case) -> DarkReading:
    """The worst dark stretch that begins in each month; arrays of shape (months,)."""
    rows = [_dark_of(case, run) for run in year_study(case).months]
    return DarkReading(**{
        name: np.concatenate([getattr(row, name) for row in rows]) for name in DARK_FIELDS
    })


def _dark_of(case: Case, run: MonthRun, below: float = np.inf) -> DarkReading:
    if run.engine.system.load.until_empty is not None:
        return nothing_in_the_dark()
    give_way()
    closure_s = case.scenario.margins.closure_days * DAY_S
    return worst_dark(run.trace, list(run.gaps), closure_s, run.in_the_dark, below)


def month_balances(case: Case) -> Balance:
    """The balance of every month by itself, for which nothing is marched; shape (months,)."""
    def make() -> Balance:
        rows = [balance(engine) for engine in seasons_of(case)[1].engines]
        return Balance(*(np.concatenate(column) for column in zip(*rows, strict=True)))

    return case.once_under_any_margins("month balances", make)


def tightest(case: Case) -> Window:
    """The months in a row over which the balance of the year is the tightest.

    Over part of a year a store that is full at its beginning gives what it holds; over the whole
    year it gives nothing, as it must end as it began. Within these months nothing else is asked:
    a store that is too small for a week in them shows in Dark and Service.
    """
    return case.once_under_any_margins("tightest", lambda: _tightest(case))


def _tightest(case: Case) -> Window:
    seasons, held = seasons_of(case)[1], month_balances(case)
    count = len(seasons.engines)
    length = np.diff(seasons.edges_s)
    holds_j = np.array([usable_energy(engine) for engine in seasons.engines])
    best: Window | None = None
    for months in range(1, count + 1):
        for first in range(count if months < count else 1):
            some = (first + np.arange(months)) % count
            span = length[some].sum()
            gives = holds_j[first] / span if months < count else 0.0
            brought = held.brought_w[some] @ length[some] / span
            needed = held.taken_w[some] @ length[some] / span - gives
            if needed <= 0.0:
                continue
            if best is None or brought / needed < best.ratio:
                worst = int(some[np.argmin(held.brought_w[some] / held.taken_w[some])])
                best = Window(
                    first=first, count=months, gives_w=float(gives),
                    balance=Balance(
                        held.level_v[worst : worst + 1], np.array([brought]), np.array([needed])
                    ),
                )
    assert best is not None  # over the whole year the store gives nothing
    return best


def usable_energy(engine: Engine) -> float:
    """Energy between the lowest level at which everything can run and a full store. [J]"""
    field = engine.field
    low = min(float(np.asarray(lowest_held(as_judged(engine.system)))), float(field.open_v[-1]))
    low_c, full_c = field.charge_at(low), min(field.full_c, float(field.charge_c[-1]))
    if full_c <= low_c:
        return 0.0
    charge = np.linspace(low_c, full_c, 257)
    volts = field.voltage_at(charge)
    return float(np.sum((volts[1:] + volts[:-1]) * np.diff(charge)) / 2.0)


@kept
def year_readings(case: Case) -> Readings:
    """What the checks read of the whole year; arrays of length 1."""
    found, rows, window = year_study(case), _courses(case), tightest(case)
    by_pulse = None
    if rows.pulse is not None:
        at = int(np.argmin(spare(rows.pulse)))
        by_pulse = PulseReading(**{
            name: getattr(rows.pulse, name)[at : at + 1]
            for name in PulseReading.__dataclass_fields__
        })
    span = float(rows.span_s.sum())
    connected = float(rows.connected @ rows.span_s) / span
    return Readings(
        ready_s=np.array([found.first.seconds]),
        level_v=window.balance.level_v, brought_w=window.balance.brought_w,
        taken_w=window.balance.taken_w,
        dark=year_dark(case),
        pulse=by_pulse, ratings=year_ratings(case),
        served=rows.served.sum(axis=0, keepdims=True),
        wanted=rows.wanted.sum(axis=0, keepdims=True),
        connected=np.array([1.0 if np.all(rows.connected >= 1.0) else min(connected, 1.0 - 1e-9)]),
        cut_offs=np.array([float(rows.cut_offs.sum())]), span_s=np.array([span]),
        repeats=np.array([found.course.settled]), sure=np.array([True]), falls=np.array([False]),
        required=required(case),
    )


def month_checks(case: Case) -> dict[str, Judged]:
    """The six checks of every month by itself; arrays of shape (months,)."""
    return judged(month_readings(case), asked_of(case.scenario, 1))


def course_checks(case: Case) -> dict[str, Judged]:
    """The same but for Starts and Dark, which take marches of their own."""
    table = judged(_courses(case), asked_of(case.scenario, 1))
    return {name: one for name, one in table.items() if name not in ("starts", "dark")}


def worst_of_course(case: Case, name: str) -> int:
    """The month in which a check has the least to spare, from 0; Starts is none of them."""
    return _year_dark(case)[0] if name == "dark" else int(
        np.argmin(course_checks(case)[name].margin)
    )


def worst_months(case: Case) -> dict[str, int]:
    """The month in which each check has the least to spare, from 0."""
    return {name: int(np.argmin(one.margin)) for name, one in month_checks(case).items()}


def year_dark(case: Case) -> DarkReading:
    """The worst dark stretch of the year."""
    return _year_dark(case)[1]


@kept
def _year_dark(case: Case) -> tuple[int, DarkReading]:
    """The same, with the month in which it begins, from 0.

    Months that look the hardest come first, so that little of the others must be followed.
    """
    runs = year_study(case).months
    asked = asked_of(case.scenario, 1)
    best, at, least = _no_dark(1), 0, np.inf
    for k in sorted(range(len(runs)), key=lambda k: _ease(runs[k])):
        found = _dark_of(case, runs[k], least)
        margin = float(rules.dark(found, asked).margin[0])
        if found.needed_s[0] > 0.0 and margin < least * (1.0 - 1e-12):
            best, at, least = found, k, margin
    return at, best


def _ease(run: MonthRun) -> float:
    """About how long a month's dark stretches could last, for their length."""
    if not run.gaps:
        return np.inf
    charge_c, _ = run.trace.charge_at(np.array([g.begin_s for g in run.gaps]))
    return float((charge_c / np.array([g.length_s for g in run.gaps])).min())


def year_balance(case: Case) -> Balance:
    """The balance of the year, for which nothing is marched."""
    return tightest(case).balance


def _starts(case: Case) -> FloatArray:
    """From empty on the first day of each month to the end of the first start-up. [s]"""
    seasons = seasons_of(case)[1]
    empty = Standing(charge_c=0.0, connected=False)
    return np.array([
        first_charge(seasons, begin, seasons.march(
            MONTH_TRIED_S, empty, begin_s=begin, stop_at=StopAt.FIRST_OPERATION
        )).seconds
        for begin in seasons.edges_s[:-1]
    ])


def ratings_by_month(case: Case) -> tuple[Rating, ...]:
    """Every limit, with what it meets in each month; arrays of shape (months,)."""
    months, seasons = seasons_of(case)
    table = [
        ratings(month.scenario, engine.system)
        for month, engine in zip(months, seasons.engines, strict=True)
    ]
    # A month's mean hides its frosts and its noons.
    air = {
        "too_cold": np.array([month.coldest_c for month in months]),
        "too_hot": np.array([month.warmest_c for month in months]),
    }
    return tuple(
        replace(
            rows[0], seen=air.get(rows[0].key, np.array([float(r.seen) for r in rows])),
            rated=np.array([float(r.rated) for r in rows]),
        )
        for rows in zip(*table, strict=True)
    )


def year_ratings(case: Case) -> tuple[Rating, ...]:
    """Every limit in the month in which it is nearest; plain values. Nothing is marched."""
    found = []
    for row in ratings_by_month(case):
        at = nearest_limit(row)
        found.append(replace(row, seen=row.seen[at], rated=row.rated[at]))
    return tuple(found)


def nearest_limit(row: Rating) -> int:
    """The month in which a limit is the nearest, from 0."""
    # A temperature is kept or not: the one nearest to its limit, or farthest beyond it.
    near: FloatArray = row.margin
    if row.key in ("too_cold", "too_hot"):
        near = row.seen - row.rated if row.key == "too_cold" else row.rated - row.seen
    return int(np.argmin(near))


__all__ = [
    "Window", "course_checks", "month_checks", "month_readings", "nearest_limit",
    "ratings_by_month", "tightest",
    "usable_energy", "worst_months", "worst_of_course", "year_balance", "year_dark", "year_ratings",
    "year_readings",
]

"""Numbers that answer the questions about a year: by month, by date, and the usual ones."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from math import inf, isfinite

import numpy as np

from explorer.advice.case import Case, kept
from explorer.advice.checks import asked_of, more_than, shares
from explorer.advice.readings.indicator import indicated
from explorer.advice.readings.required import one_charge_of, reached
from explorer.advice.readings.runs import give_out_answers
from explorer.advice.readings.starts import recovery_time
from explorer.advice.verdict import NO_LIMIT
from explorer.advice.year.readings import (
    month_checks,
    month_readings,
    worst_months,
    year_readings,
)
from explorer.advice.year.study import MonthRun, filled_after, lived, year_study
from explorer.engine.course import give_way
from explorer.engine.give_outs import first_run_done
from explorer.engine.pulses import first_done
from explorer.engine.seasons_trace import SeasonsTrace
from explorer.engine.system import DAY_S, WEEK_S
from explorer.physics.arrays import BoolArray, FloatArray
from explorer.scenario.hours import HOUR_S
from explorer.scenario.year_course import moment_of

HOURS = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class YearCalendar:
    """Light and store of every hour of the settled year; arrays of shape (days, 24)."""

    start: datetime
    illuminance_lx: FloatArray
    """Mean of each hour. [lx]"""
    store_v: FloatArray
    """Open-circuit voltage at the middle of each hour. [V]"""
    connected: BoolArray
    """Whether the device is connected then."""
    lowest_v: FloatArray
    highest_v: FloatArray
    """Lowest and highest open-circuit voltage of each day, shape (days,). [V]"""
    works: BoolArray
    """Days without an hour, or a cut-off, in which the device is off, shape (days,)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthEnergy:
    """Energies of the months of the settled year; arrays of shape (months,). [J]"""

    taken_in_j: FloatArray
    """Into the store's terminals."""
    thrown_away_j: FloatArray
    """What the charger could have delivered while the store was full."""
    used_j: FloatArray
    """By device, regulator and charger."""
    leaked_j: FloatArray


@kept
def year_trace(case: Case) -> SeasonsTrace:
    """The settled year from its first day, to be asked at any moment."""
    found = year_study(case)
    return SeasonsTrace(
        found.seasons, [run.part for run in found.months], [run.trace for run in found.months]
    )


@kept
def opening_trace(case: Case) -> SeasonsTrace:
    """A year from the hanging-up, to be asked at any moment."""
    found = year_study(case)
    return SeasonsTrace(found.seasons, found.opening.parts)


@kept
def year_calendar(case: Case) -> YearCalendar:
    """Light and store of every hour of the settled year."""
    found, trace = year_study(case), year_trace(case)
    hours = round(trace.span_s / HOUR_S)
    begin = HOUR_S * np.arange(hours)
    # A year with a change of the clocks, or a short last day, has no whole number of days.
    days = hours // HOURS
    gone = lived(case)
    edges, lux = _light(found.months)
    total = np.concatenate([[0.0], np.cumsum(lux * np.diff(edges))])
    mean = np.diff(np.interp(np.append(begin, begin[-1] + HOUR_S), edges, total)) / HOUR_S
    picture = trace.picture(0.0, days * DAY_S, days)
    table = gone.connected[: days * HOURS].reshape(days, HOURS)
    works: BoolArray = np.array(table.all(axis=1))
    for run in found.months:
        for event in run.run.events:
            if event.kind in ("disconnect", "brown_out"):
                day = int((run.part.begin_s + event.time_s) // DAY_S)
                works[min(day, days - 1)] = False
    if not found.starts:
        works[:] = False
    return YearCalendar(
        start=found.year.start, illuminance_lx=mean[: days * HOURS].reshape(days, HOURS),
        store_v=gone.store_v[: days * HOURS].reshape(days, HOURS), connected=table,
        lowest_v=picture.low_v, highest_v=picture.high_v, works=works,
    )


def _light(runs: tuple[MonthRun, ...]) -> tuple[FloatArray, FloatArray]:
    """Edges and light of the year as it was given. [s, lx]"""
    edges = np.concatenate([run.month.course.edges_s[:-1] + run.month.begin_s for run in runs])
    last = runs[-1].month
    lux = np.concatenate([run.month.course.illuminance_lx for run in runs])
    return np.append(edges, last.begin_s + last.length_s), lux


@kept
def month_energies(case: Case) -> MonthEnergy:
    """Energies of the months, from the charges that were carried in each hour.

    A charge counts with the mean of the store's voltage at the two ends of its hour; what was
    thrown away is what the charger delivers into a full store, less what it delivered, where the
    store was full.
    """
    rows = [_energies(run) for run in year_study(case).months]
    return MonthEnergy(**{
        name: np.array([row[k] for row in rows])
        for k, name in enumerate(("taken_in_j", "thrown_away_j", "used_j", "leaked_j"))
    })


def _energies(run: MonthRun) -> tuple[float, float, float, float]:
    give_way()
    edges = np.linspace(0.0, run.run.span_s, max(round(run.run.span_s / HOUR_S), 1) + 1)
    width = np.diff(edges)
    rows = run.trace.rows(edges[:-1], edges[1:])
    volts = np.append(rows.store_v, run.trace.voltages(edges[-1:]).store_v)
    middle = 0.5 * (volts[1:] + volts[:-1])
    field = run.engine.field
    full_v = min(run.engine.system.full_v, float(field.open_v[-1]))
    course = run.month.course
    brought = field.charge_currents(course.photocurrent_a, full_v)
    total = np.concatenate([[0.0], np.cumsum(np.maximum(brought, 0.0) * np.diff(course.edges_s))])
    could = np.diff(np.interp(edges, course.edges_s, total))
    got = rows.harvest_a * width
    full = np.maximum(volts[1:], volts[:-1]) >= field.voltage_at(field.resume_c) - 1e-9
    lost = np.where(full, np.maximum(could - np.maximum(got, 0.0), 0.0), 0.0)
    return (
        float(got @ middle), float(lost.sum() * full_v), float((rows.load_a * width) @ middle),
        float((rows.leakage_a * width) @ middle),
    )


@kept
def year_answers(case: Case) -> dict[str, float]:
    """Answers of a year by their keys; see `explorer.advice.answers.answers`.

    First charges begin with the hanging-up; what begins full, or at the cut-off, is of the darkest
    month. ``worst_month_*`` is the number of the month, from 1, in which a check has the least to
    spare, ``longest_dark_begins_day`` the day of the year, from 1;
    ``works_from_day`` and ``works_to_day`` are the first and last day of the longest stretch of
    days on which the device is never off, 0 where there is none.
    """
    found, read, trace = year_study(case), year_readings(case), year_trace(case)
    rows = month_checks(case)
    extremes = trace.extremes()
    served = shares(read, asked_of(case.scenario, 1))[:, :-1]
    brought_w, taken_w = float(read.brought_w[0]), float(read.taken_w[0])
    dark_s, runs = one_charge_of(case)
    longest = max(found.gaps, key=lambda g: g.length_s, default=None)
    first, last = working_days(case)
    return {
        "first_connect_s": found.first.connect_s,
        "first_charge_s": found.first.seconds,
        "first_operation_s": _first_operation(case),
        "full_charge_s": filled_after(case),
        "dark_time_s": dark_s,
        "operations_per_charge": runs,
        "recovery_s": recovery_time(case.engine),
        "lowest_store_V": extremes.lowest_store_v,
        "highest_store_V": extremes.highest_store_v,
        "lowest_terminal_V": extremes.lowest_ever_v,
        "served_share": float(np.min(served, initial=1.0 if found.starts else 0.0)),
        "balance_ratio": brought_w / taken_w if taken_w > 0 else inf,
        "cut_offs_per_week": float(read.cut_offs[0] / read.span_s[0]) * WEEK_S,
        "longest_dark_s": 0.0 if longest is None else longest.length_s,
        "longest_dark_begins_day": 0.0 if longest is None else longest.begin_s // DAY_S + 1.0,
        **indicated(case),
        **reached(case),
        **give_out_answers(case.engine, [(month.run, month.trace) for month in found.months]),
        "days_off": float((~year_calendar(case).works).sum()),
        "works_from_day": float(first), "works_to_day": float(last),
        **{
            f"worst_month_{name}": float(found.months[at].month.begin.month)
            for name, at in worst_months(case).items()
            if np.ptp(rows[name].margin) > 0.0
        },
    }


def working_days(case: Case) -> tuple[int, int]:
    """First and last day, from 1, of the longest stretch without an hour off; it may pass New Year.

    (1, days) where the device is never off, (0, 0) where it is off on every day.
    """
    works = year_calendar(case).works
    days = len(works)
    if works.all():
        return 1, days
    if not works.any():
        return 0, 0
    off = np.flatnonzero(~works)
    begin = np.append(off, off[0] + days)
    length = np.diff(begin) - 1
    k = int(np.argmax(length))
    return int((off[k] + 1) % days) + 1, int((off[k] + length[k]) % days) + 1


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthAnswers:
    """What there is to say of one month."""

    begin: datetime
    temperature_c: float
    served_share: float
    connected_share: float
    ready_s: float
    """From empty on its first day to the end of the first start-up. [s]"""
    longest_dark_s: float
    lowest_v: float
    margins: dict[str, float]
    """Of the six checks."""
    dark_at_least: bool
    """Whether it lasts longer in the dark than it was followed."""
    taken_in_j: float
    thrown_away_j: float
    used_j: float
    leaked_j: float


@kept
def month_answers(case: Case) -> tuple[MonthAnswers, ...]:
    """The answers of every month."""
    found, rows, energy = year_study(case), month_checks(case), month_energies(case)
    read = month_readings(case)
    longer = more_than(read) & (rows["dark"].margin < NO_LIMIT)
    served = shares(read, asked_of(case.scenario, read.size))[:, :-1]
    return tuple(
        MonthAnswers(
            begin=run.month.begin, temperature_c=run.month.temperature_c,
            served_share=float(np.min(served[k], initial=1.0 if found.starts else 0.0)),
            connected_share=float(read.connected[k]), ready_s=float(read.ready_s[k]),
            longest_dark_s=max((g.length_s for g in run.gaps), default=0.0),
            lowest_v=run.trace.extremes().lowest_store_v,
            margins={name: float(one.counted[k]) for name, one in rows.items()},
            dark_at_least=bool(longer[k]),
            taken_in_j=float(energy.taken_in_j[k]), thrown_away_j=float(energy.thrown_away_j[k]),
            used_j=float(energy.used_j[k]), leaked_j=float(energy.leaked_j[k]),
        )
        for k, run in enumerate(found.months)
    )


def longest_dark(case: Case) -> tuple[datetime, datetime] | None:
    """Beginning and end of the longest dark stretch of the year; None where there is none."""
    found = year_study(case)
    longest = max(found.gaps, key=lambda g: g.length_s, default=None)
    if longest is None:
        return None
    return (
        moment_of(found.year, longest.begin_s),
        moment_of(
            found.year, longest.begin_s + min(longest.length_s, found.seasons.year_s)
        ),
    )


def _first_operation(case: Case) -> float:
    """From the first light after the hanging-up to the end of the first operation. [s]"""
    found = year_study(case)
    if not isfinite(found.first.seconds) or not case.scenario.load.operations:
        return found.first.seconds
    light_s = found.first.end_s - found.hung_s - found.first.seconds
    until = case.engine.system.load.until_empty
    for part in found.opening.parts:
        done = first_done(part.engine, part.run) if until is None else (
            first_run_done(part.run.legs, until.phases[-1].duration_s)
        )
        if isfinite(done):
            return max(part.begin_s + done - light_s, found.first.seconds)
    return inf


__all__ = [
    "MonthAnswers", "MonthEnergy", "YearCalendar", "longest_dark",
    "month_answers", "month_energies", "opening_trace", "working_days", "year_answers",
    "year_calendar", "year_trace",
]

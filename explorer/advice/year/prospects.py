"""What many designs may come to in a year at most, by energy alone: nothing is run for it."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import ArrayLike

from explorer.advice.case import Case
from explorer.advice.checks import asked_of, ratings_margin
from explorer.advice.readings.balance import lowest_held
from explorer.advice.readings.many import balance_of
from explorer.advice.readings.many_dark import dark_at_most
from explorer.advice.readings.pulse import flat
from explorer.engine.many import Supplied, supplied
from explorer.engine.system import DAY_S, as_judged
from explorer.physics.arrays import FloatArray
from explorer.scenario.light import LogPattern
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario
from explorer.scenario.ratings import ratings
from explorer.scenario.year_course import Month, months_of
from explorer.scenario.year_light import YearLight, year_scale

LEVELS = 6
"""Levels of light that stand for a month."""


def prospects_of_year(case: Case, changes: Mapping[str, ArrayLike]) -> FloatArray:
    """What the reserve is at most by Balance, the dark and the ratings, shape (variants,).

    Balance is taken over months in a row like that of the year, with what a full store gives
    meanwhile; months have a few levels of light, which leaves some per cent. A store is a new one.

    Parameters
    ----------
    case : Case
        The design that is varied; it lives in a year of daylight.
    changes : mapping of str to array_like
        Values at dotted paths; arrays of one length, the number of variants.
    """
    year = case.year
    assert year is not None
    size = max((np.size(v) for v in changes.values()), default=1)
    several = case.varied({"store.years_in_service": 0.0, **changes}).scenario
    asked, months = asked_of(several, size), months_of(case.scenario, year)
    nights = _nights(year, months)
    closure_s = flat(several.margins.closure_days, size) * DAY_S
    rows, lasts, rated = [], [], []
    for month in months:
        scenario, log = _in_month(several, year, month)
        system = as_judged(Case(scenario, log).system)
        at = supplied(system, size)
        held = balance_of(at)
        rows.append((held.brought_w, held.taken_w, _usable_j(at)))
        lasts.append(dark_at_most(scenario, at, 1.0) * np.maximum(closure_s, 1.0))
        rated.append(ratings_margin(ratings(scenario, system), size))
    found = _tightest(rows, np.array([month.length_s for month in months])) / asked.margin
    if system.load.until_empty is None:
        for k, night_s in enumerate(nights):
            # It may pass into the next month, in which the store may last longer.
            longest_s = np.maximum(lasts[k], lasts[(k + 1) % len(lasts)])
            needed_s = np.maximum(closure_s, night_s)
            with np.errstate(divide="ignore"):
                found = np.minimum(found, longest_s / needed_s / asked.margin)
    return np.where(np.min(rated, axis=0) < 1.0, 0.0, found)


def _in_month(scenario: Scenario, year: YearLight, month: Month) -> tuple[Scenario, LightLog]:
    """The scenario in a month whose light stands in a few levels, one after another."""
    first = round(month.begin_s / year.step_s)
    some = slice(first, first + round(month.length_s / year.step_s))
    lux = (year.daylight_lx + year.electric_lx)[some]
    lit = np.sort(lux[lux > 0.0])
    parts = [part for part in np.array_split(lit, LEVELS) if part.size]
    levels = np.array([0.0, *(part.mean() for part in parts)])
    count = np.array([lux.size - lit.size, *(part.size for part in parts)])
    some_time = count > 0
    log = LightLog(
        time_s=np.append(0.0, np.cumsum(count[some_time] * year.step_s)),
        illuminance_lx=levels[some_time], start=month.begin, step_s=year.step_s,
    )
    source, daylight_share = year.spectrum(some)
    light = scenario.light.model_copy(update={
        "pattern": LogPattern(), "source": source, "daylight_share": daylight_share,
        "illuminance_lx": year_scale(scenario.light.illuminance_lx, year) * log.mean_lit_lx,
        "ambient_C": month.temperature_c,
    })
    return scenario.model_copy(update={"light": light}), log


def _nights(year: YearLight, months: tuple[Month, ...]) -> list[float]:
    """Longest time in a row without any light that begins in each month. [s]"""
    lux = year.daylight_lx + year.electric_lx
    longest = [0.0] * len(months)
    if not (lux > 0.0).any():
        return longest
    begins = np.array([month.begin_s for month in months])
    turn = int(np.argmax(lux > 0.0))
    dark = np.concatenate([[False], np.roll(lux, -turn) <= 0.0, [False]])
    edges = np.flatnonzero(np.diff(dark.astype(np.int8))).reshape(-1, 2)
    for first, last in edges.tolist():
        at = (first + turn) % lux.size * year.step_s
        k = int(np.searchsorted(begins, at, side="right")) - 1
        longest[k] = max(longest[k], (last - first) * year.step_s)
    return longest


def _usable_j(at: Supplied) -> FloatArray:
    """At most what a full store gives down to the level at which everything can run. [J]"""
    low = np.minimum(flat(lowest_held(at.system), at.size), at.nodes_v[:, -1])[:, None]
    given = 0.5 * (at.nodes_v[:, 1:] + at.nodes_v[:, :-1]) * np.diff(at.nodes_c, axis=1)
    return np.asarray(np.where(at.nodes_v[:, 1:] > low, given, 0.0).sum(axis=1))


def _tightest(
    rows: list[tuple[FloatArray, FloatArray, FloatArray]], length_s: FloatArray
) -> FloatArray:
    """Least, over months in a row, of brought over taken less what a full store gives."""
    count = len(rows)
    brought_j = np.array([row[0] * s for row, s in zip(rows, length_s, strict=True)])
    taken_j = np.array([row[1] * s for row, s in zip(rows, length_s, strict=True)])
    least = np.full(brought_j.shape[1], np.inf)
    for months in range(1, count + 1):
        for first in range(count if months < count else 1):
            some = (first + np.arange(months)) % count
            needed = taken_j[some].sum(axis=0)
            if months < count:
                needed = needed - rows[first][2]
            with np.errstate(divide="ignore", invalid="ignore"):
                ratio = brought_j[some].sum(axis=0) / needed
            least = np.minimum(least, np.where(needed > 0.0, ratio, np.inf))
    return least


__all__ = ["prospects_of_year"]

"""The months of a year of light, each as a design in its own light at its own temperature."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

import numpy as np

from explorer.engine.system import DAY_S, LightCourse, System
from explorer.scenario.build import built
from explorer.scenario.calendar import dated
from explorer.scenario.course import year_course
from explorer.scenario.daylight import DaylightPattern
from explorer.scenario.model import Scenario
from explorer.scenario.year_light import YearLight

TEMPERATURE_STEP_C = 0.5
"""Mean temperatures of months are taken to so much: months that are as warm share tables. [K]"""
NOON_S = 0.5 * DAY_S
"""Time of the day at which a device is hung up. [s]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Month:
    """One month of a year of light."""

    begin: datetime
    begin_s: float
    """Since the year began. [s]"""
    length_s: float
    temperature_c: float
    coldest_c: float
    """Temperature of its coldest hours of light. [°C]"""
    warmest_c: float
    scenario: Scenario
    """The design at the month's mean temperature."""
    course: LightCourse


def months_of(scenario: Scenario, year: YearLight) -> tuple[Month, ...]:
    """The months of a year, each with its own light and mean temperature."""
    whole = year_course(scenario.light, scenario.panels, year)
    found: list[Month] = []
    begin, first, last = year.start, 0, len(year.daylight_lx)
    while first < last:
        days = monthrange(begin.year, begin.month)[1]
        end = begin + timedelta(days=days)
        after = min(first + round(days * DAY_S / year.step_s), last)
        some = slice(first, after)
        mean = float(np.mean(year.temperature_c[some]))
        warmth = round(mean / TEMPERATURE_STEP_C) * TEMPERATURE_STEP_C
        light = scenario.light.model_copy(update={"ambient_C": warmth})
        coldest, warmest = _extremes(scenario, year, some, begin.month, warmth)
        found.append(Month(
            begin=begin, begin_s=first * year.step_s, length_s=(after - first) * year.step_s,
            temperature_c=warmth, coldest_c=coldest, warmest_c=warmest,
            scenario=scenario.model_copy(update={"light": light}),
            course=_part(whole, some, year.step_s, begin),
        ))
        begin, first = end, after
    return tuple(found)


def _extremes(
    scenario: Scenario, year: YearLight, some: slice, number: int, mean_c: float
) -> tuple[float, float]:
    """Temperatures of a month's coldest and warmest hours of light. [°C]"""
    pattern = scenario.light.pattern
    swing_c = 0.0
    if isinstance(pattern, DaylightPattern) and not pattern.weather_file:
        swing_c = pattern.months[number - 1].swing_C
    lit = (year.daylight_lx[some] + year.electric_lx[some]) > 0.0
    seen = year.temperature_c[some][lit]
    least, most = (float(seen.min()), float(seen.max())) if seen.size else (mean_c, mean_c)
    return min(least, mean_c) - swing_c, max(most, mean_c) + swing_c


def in_days(month: Month) -> Month:
    """A month whose days have one light each while they are lit, its mean; darkness stays."""
    course = month.course
    days = np.arange(0.0, month.length_s + 1.0, DAY_S)
    edges = np.union1d(course.edges_s, days[days <= month.length_s])
    which = np.searchsorted(course.edges_s, edges[:-1], side="right") - 1
    amps, lux, span = course.photocurrent_a[which], course.illuminance_lx[which], np.diff(edges)
    lit, day = amps > 0.0, edges[:-1] // DAY_S
    first = np.flatnonzero(np.append(True, (np.diff(lit) != 0) | (np.diff(day) != 0)))
    lasts = np.add.reduceat(span, first)
    means = [np.add.reduceat(column * span, first) / lasts for column in (amps, lux)]
    return replace(month, course=replace(
        course, edges_s=np.append(edges[first], edges[-1]), photocurrent_a=means[0],
        illuminance_lx=means[1],
    ))


def darkest(months: Sequence[Month]) -> Month:
    """The month in which the panel gets the least."""

    def mean_a(month: Month) -> float:
        course = month.course
        return float(course.photocurrent_a @ np.diff(course.edges_s)) / month.length_s

    return min(months, key=mean_a)


def month_system(month: Month, wear: float | None = None) -> System:
    """What the engine is given for a month.

    Parameters
    ----------
    month : Month
        The month.
    wear : float, optional
        Wear of the store, of which 1 is its end of life; by its years at this month's temperature
        when left out.
    """
    return built(month.scenario, month.course, wear)


def hung_up_s(scenario: Scenario, year: YearLight) -> float:
    """Time of the year at which the device is hung up: at noon of its day. [s]"""
    pattern = scenario.light.pattern
    if not isinstance(pattern, DaylightPattern):
        return 0.0
    day = dated(year.start.year, pattern.hung_up).timetuple().tm_yday - 1
    return day * DAY_S + NOON_S


def moment_of(year: YearLight, time_s: float) -> datetime:
    """Date and time of a moment of the year, by a clock that is never changed."""
    return year.start + timedelta(seconds=time_s)


def week_s(moment: datetime) -> float:
    """Time from the Monday before, 00:00, to a moment. [s]"""
    midnight = moment.replace(hour=0, minute=0, second=0, microsecond=0)
    return moment.weekday() * DAY_S + (moment - midnight).total_seconds()


def _part(whole: LightCourse, some: slice, step_s: float, begin: datetime) -> LightCourse:
    """A part of a course of even steps; steps in a row that bring the same are one stretch."""
    amps, lux = whole.photocurrent_a[some], whole.illuminance_lx[some]
    first = np.concatenate([[True], (np.diff(amps) != 0.0) | (np.diff(lux) != 0.0)])
    return LightCourse(
        edges_s=np.append(np.flatnonzero(first), len(amps)) * step_s,
        photocurrent_a=amps[first], illuminance_lx=lux[first],
        begins_at_s=begin.weekday() * DAY_S,
    )

"""The light of a year of daylight, quarter hour by quarter hour."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from explorer.physics.arrays import FloatArray, IntArray
from explorer.physics.sky import (
    SKIES,
    Daylight,
    Plane,
    Sky,
    daylight,
    on_plane,
    sky_kind,
)
from explorer.physics.sun import SunPosition, sun_position
from explorer.quantity import show
from explorer.scenario.calendar import (
    DAY_S,
    STEP_S,
    YearClock,
    date_in_words,
    days_between,
    month_of_days,
    utc_of,
    year_clock,
)
from explorer.scenario.daylight import DaylightPattern, Indoors, LampHours, Outdoors, SkyReading
from explorer.scenario.hours import HOUR_S, seconds
from explorer.scenario.light import Light, Source
from explorer.scenario.light_log import DARK_BELOW_LX
from explorer.scenario.weather import HOURS, WeatherYear
from explorer.scenario.weekdays import WEEKDAYS
from explorer.text import Text, figure, say

_PARTS = 3
"""Moments of a step at which the sun is asked, so that sunrise falls within a step."""
_LIKELY_FACTOR = 10.0
"""By how much a reading may differ from the computed light before that is said to be odd."""
REAL_OVER_SHARES = (0.95, 1.45)
"""Months of three measured years, at 55, 36 and 26 degrees north, over what the shares of clear,
partly cloudy and overcast hours of these months give (tests/outside/test_sky.py)."""
REAL_OVER_OVERCAST = (2.0, 4.2)
"""The same over what an overcast sky throughout gives."""
REAL_OVER_SKY: dict[Sky, tuple[float, float, float]] = {
    "clear": (0.78, 0.89, 0.98),
    "partly_cloudy": (0.81, 1.06, 1.36),
    "overcast": (1.12, 2.1, 3.5),
}
"""Hours of one sky of these years over the light that the formulas give them: what 10 in 100 stay
below, the mean, and what 90 in 100 stay below (tests/outside/test_sky.py). A reading was taken
under a sky as it is, so that with one the mean counts in the place of the cautious formula."""
REAL_OVER_TYPICAL = (0.8, 1.2)
"""A month of one year over that of a typical year (own judgement, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class YearLight:
    """Light at the panel's place, each step's mean; steps are of elapsed time and repeat.

    Not yet in it: orientation, cover and soiling factor, and the level of the scenario, see
    `year_scale`.
    """

    clock: YearClock
    """Start, moment in UTC, date and clock of each step."""
    daylight_lx: FloatArray
    """From sky, sun and ground, shape (n,). [lx]"""
    electric_lx: FloatArray
    """From lamps, shape (n,). [lx]"""
    temperature_c: FloatArray
    """At panel and store, shape (n,). [°C]"""
    daylight_source: Source
    """Spectrum of the daylight, for the panel's current."""
    electric_source: Source
    """Spectrum of the lamps."""
    factor: float
    """By which one reading multiplied the computed daylight; 1 without a reading."""
    real_over_computed: tuple[float, float]
    """Between which multiples of the computed daylight the light of a real month lies."""
    notes: tuple[str, ...]
    """What was used, one sentence each."""

    @property
    def step_s(self) -> float:
        """Length of a step. [s]"""
        return STEP_S

    @property
    def start(self) -> datetime:
        """1 January 00:00 by the clock on the wall, without a zone."""
        return self.clock.start

    @property
    def mean_lit_lx(self) -> float:
        """Mean illuminance over the steps that are not dark; 0 where all are. [lx]"""
        total = self.daylight_lx + self.electric_lx
        lit = total >= DARK_BELOW_LX
        return float(total[lit].mean()) if lit.any() else 0.0

    @property
    def mean_lit_c(self) -> float:
        """Mean temperature over the same steps; over all where none is lit. [°C]"""
        lit = self.daylight_lx + self.electric_lx >= DARK_BELOW_LX
        return float(self.temperature_c[lit if lit.any() else slice(None)].mean())

    def spectrum(self, some: slice | IntArray = slice(None)) -> tuple[Source, float]:
        """One source, and a share of daylight behind glass beside it, for the light of steps."""
        day, lamps = float(self.daylight_lx[some].sum()), float(self.electric_lx[some].sum())
        if lamps <= 0.0:
            return self.daylight_source, 0.0
        return self.electric_source, day / (day + lamps)


def year_light(light: Light, weather: WeatherYear | None = None) -> YearLight:
    """The light of a year; what was computed before is not computed again.

    Parameters
    ----------
    light : Light
        Of a scenario; follows the pattern ``daylight``.
    weather : WeatherYear, optional
        Needed where the pattern names a weather file.

    Raises
    ------
    ValueError
        The pattern is another one, a weather file is named and none was given, or the reading was
        taken while the sun was down.
    """
    pattern = light.pattern
    if not isinstance(pattern, DaylightPattern):
        raise ValueError("the light follows no year of daylight")
    if pattern.weather_file and weather is None:
        raise ValueError(say("light.pattern names a weather file, but none was read"))
    return _year_light(pattern, light.source, weather if pattern.weather_file else None)


def real_over_computed(pattern: DaylightPattern) -> tuple[float, float]:
    """Between which multiples of the computed daylight the light of a real month lies."""
    if pattern.reading.illuminance_lx is not None:
        return _of_reading(pattern.reading)
    if pattern.weather_file:
        return REAL_OVER_TYPICAL
    sunny = any(month.clear_share or month.partly_share for month in pattern.months)
    return REAL_OVER_SHARES if sunny else REAL_OVER_OVERCAST


def year_scale(level_lx: float | None, year: YearLight) -> float:
    """By how much the whole year is multiplied, so that its mean while lit is as asked.

    None keeps the light as computed. The level may be an array of many.
    """
    if level_lx is None:
        return 1.0
    return level_lx / year.mean_lit_lx if year.mean_lit_lx > 0.0 else 0.0


@lru_cache(maxsize=8)
def _year_light(
    pattern: DaylightPattern, lamps: Source, weather: WeatherYear | None
) -> YearLight:
    clock = year_clock(pattern.year, pattern.time_zone)
    site = _site(pattern, weather)
    factor, read = _calibration(pattern, site)
    sky: tuple[str, ...]
    if weather is None:
        kinds = _kinds_of_days(pattern)
        light = _under_skies(pattern, clock, site, kinds)
        temperature_c = np.array([m.mean_C for m in pattern.months])[clock.month]
        sky = _said_of_skies(kinds, read=bool(read))
    else:
        light, temperature_c = _under_weather(pattern, clock, site, weather)
        sky = weather.notes
    closed = _closed_days(pattern, with_daylight=False)[clock.day]
    dark = _closed_days(pattern, with_daylight=True)[clock.day]
    light = np.where(dark, 0.0, light * factor)
    electric = np.where(closed, 0.0, _lamps(pattern.lamps, clock))
    for array in (light, electric, temperature_c):
        array.setflags(write=False)
    return YearLight(
        clock=clock,
        daylight_lx=light,
        electric_lx=electric,
        temperature_c=temperature_c,
        daylight_source=daylight_source(pattern),
        electric_source=lamps,
        factor=factor,
        real_over_computed=real_over_computed(pattern),
        notes=(*sky, *read, *_said_of_blinds(pattern), *_said_of_sun(pattern, site)),
    )


def daylight_source(pattern: DaylightPattern) -> Source:
    """Spectrum of the daylight at the panel."""
    place = pattern.place
    bare = isinstance(place, Outdoors) and place.glass == "no_glass"
    return "daylight_open" if bare else "daylight_glass"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Site:
    latitude_deg: float
    longitude_deg: float

    def sun(self, utc_s: FloatArray) -> SunPosition:
        return sun_position(utc_s, self.latitude_deg, self.longitude_deg)


def _site(pattern: DaylightPattern, weather: WeatherYear | None) -> _Site:
    """A weather file knows where it was measured, and the sun must stand as it did there."""
    place = pattern if weather is None else weather
    return _Site(latitude_deg=place.latitude_deg, longitude_deg=place.longitude_deg)


def _at_place(
    place: Outdoors | Indoors, sky: Sky, sun: SunPosition, light: Daylight
) -> FloatArray:
    """Light at the panel's place. [lx]"""
    if isinstance(place, Indoors):
        counted = light.level(sun) if place.sun == "sky_and_sun" else light.diffuse_lx
        return np.asarray(place.daylight_factor * counted)
    plane = Plane(
        tilt_deg=place.tilt_deg,
        azimuth_deg=place.azimuth_deg,
        horizon_deg=place.horizon_deg,
        overhang_deg=180.0 if place.overhang_deg is None else place.overhang_deg,
        ground_reflectance=place.ground_reflectance,
    )
    return np.asarray(place.shade_factor * on_plane(plane, sky, sun, light))


def _moments(utc_s: FloatArray) -> FloatArray:
    """The moments of each step at which the sun is asked, shape (n, parts). [s]"""
    return np.asarray(utc_s[:, None] + STEP_S * (np.arange(_PARTS) + 0.5) / _PARTS)


def _kinds_of_days(pattern: DaylightPattern) -> NDArray[np.int64]:
    """Sky of each day, as an index of `SKIES`; overcast days of a month come first."""
    months = month_of_days(pattern.year)
    kinds = np.empty(months.size, np.int64)
    for number, month in enumerate(pattern.months):
        days = np.flatnonzero(months == number)
        clear = round(month.clear_share * days.size)
        partly = min(round(month.partly_share * days.size), days.size - clear)
        kinds[days] = np.repeat((2, 1, 0), (days.size - clear - partly, partly, clear))
    return kinds


def _under_skies(
    pattern: DaylightPattern, clock: YearClock, site: _Site, kinds: NDArray[np.int64]
) -> FloatArray:
    light = np.zeros(clock.utc_s.size)
    for number, sky in enumerate(SKIES):
        steps = np.flatnonzero(kinds[clock.day] == number)
        if steps.size:
            sun = site.sun(_moments(clock.utc_s[steps]))
            under = _at_place(pattern.place, sky, sun, daylight(sky, sun)).mean(axis=1)
            light[steps] = under * _typical(pattern, sky)
    return light


def _under_weather(
    pattern: DaylightPattern, clock: YearClock, site: _Site, weather: WeatherYear
) -> tuple[FloatArray, FloatArray]:
    """Light at the place and temperature, from hourly weather.

    The light of the sky in an hour is spread as the sun rises in it, sunlight over the part of the
    hour in which the sun is up, so that each hour keeps its sum.
    """
    moments = _moments(clock.utc_s)
    sun = site.sun(moments)
    height = np.maximum(np.sin(np.radians(sun.elevation_deg)), 0.0)
    hour = _hours_of(clock, weather)
    sums = np.bincount(hour, weights=height.mean(axis=1), minlength=HOURS)
    up = np.bincount(hour, weights=(height > 0.0).mean(axis=1), minlength=HOURS)
    steps = np.maximum(np.bincount(hour, minlength=HOURS), 1)
    diffuse = weather.diffuse_lx[hour] * (steps / np.where(sums > 0.0, sums, np.inf))[hour]
    normal = weather.normal_lx[hour] * (steps / np.where(up > 0.0, up, np.inf))[hour]
    light = Daylight(
        diffuse_lx=diffuse[:, None] * height, normal_lx=normal[:, None] * (height > 0.0)
    )
    kinds = sky_kind(sun, light)
    under = np.stack([_at_place(pattern.place, sky, sun, light) for sky in SKIES])
    seen = np.take_along_axis(under, kinds[None], axis=0)[0]
    return np.asarray(seen.mean(axis=1)), weather.temperature_c[hour]


def _hours_of(clock: YearClock, weather: WeatherYear) -> NDArray[np.int64]:
    """Hour of the weather year for each step; 29 February repeats the day before it."""
    new_year = datetime(clock.start.year, 1, 1) - datetime(1970, 1, 1)
    local_s = clock.utc_s + weather.utc_offset_s - new_year.total_seconds()
    day = (local_s // DAY_S).astype(np.int64)
    if np.flatnonzero(month_of_days(clock.start.year) == 1).size == 29:
        day = np.where(day >= 59, day - 1, day)
    return (day * 24 + (local_s % DAY_S // HOUR_S).astype(np.int64)) % HOURS


def _closed_days(pattern: DaylightPattern, *, with_daylight: bool) -> NDArray[np.bool_]:
    closed = np.zeros(month_of_days(pattern.year).size, bool)
    for holidays in pattern.holidays:
        if not with_daylight or holidays.blinds == "blinds_closed":
            closed |= days_between(pattern.year, holidays.from_date, holidays.to_date)
    return closed


def _lamps(lamps: tuple[LampHours, ...], clock: YearClock) -> FloatArray:
    """Electric light by the clock on the wall, the mean of each step; lamps add. [lx]"""
    light = np.zeros(clock.utc_s.size)
    begin = clock.civil_s % DAY_S
    for hours in lamps:
        lit = np.minimum(begin + STEP_S, seconds(hours.to_h))
        lit = np.maximum(lit - np.maximum(begin, seconds(hours.from_h)), 0.0) / STEP_S
        on = np.isin(clock.weekday, [WEEKDAYS.index(day) for day in hours.days])
        light += np.where(on, lit * hours.illuminance_lx, 0.0)
    return light


def _calibration(
    pattern: DaylightPattern, site: _Site
) -> tuple[float, tuple[Text, ...]]:
    """By what a reading multiplies the computed daylight, and what is said of it."""
    reading = pattern.reading
    if reading.illuminance_lx is None:
        return 1.0, ()
    computed = _computed_at(pattern, reading, site)
    if computed < DARK_BELOW_LX * 1e-3:
        raise ValueError(
            say(
                "light.pattern.reading: on {date} at {time} no daylight reaches the panel, so a "
                "reading then says nothing about it; check date, time, place and time zone",
                date=date_in_words(reading.date), time=figure(reading.time),
            )
        )
    factor = reading.illuminance_lx / computed
    said = say(
        "The reading of {lux} on {date} at {time} sets the daylight: {factor} times the {computed} "
        "that were computed for that moment.",
        lux=show(reading.illuminance_lx, "lx"), date=date_in_words(reading.date),
        time=figure(reading.time), factor=show(factor, ""), computed=show(computed, "lx"),
    )
    low, high = _of_reading(reading)
    spread = say(
        "Such skies differ: another reading under one could have set {low} to {high} times as "
        "much.",
        low=figure(f"{low:g}"), high=figure(f"{high:g}"),
    )
    if 1.0 / _LIKELY_FACTOR <= factor <= _LIKELY_FACTOR:
        return factor, (said, spread)
    return factor, (
        said,
        spread,
        say("That is far from 1: check the reading, the moment, the sky and the place."),
    )


def _computed_at(pattern: DaylightPattern, reading: SkyReading, site: _Site) -> float:
    utc_s = np.array([utc_of(pattern.year, reading.date, reading.time, pattern.time_zone)])
    sun = site.sun(utc_s)
    light = _at_place(pattern.place, reading.sky, sun, daylight(reading.sky, sun))
    return float(light[0]) * _typical(pattern, reading.sky)


def _typical(pattern: DaylightPattern, sky: Sky) -> float:
    """By what the light of a sky is multiplied, so that it is the mean of such skies."""
    return 1.0 if pattern.reading.illuminance_lx is None else REAL_OVER_SKY[sky][1]


def _of_reading(reading: SkyReading) -> tuple[float, float]:
    """How far light may lie from what one reading sets: one sky is not like another."""
    low, mean, high = REAL_OVER_SKY[reading.sky]
    return round(mean / high, 2), round(mean / low, 2)


def _said_of_skies(kinds: NDArray[np.int64], *, read: bool) -> tuple[Text, ...]:
    """What is said of the skies of the days."""
    clear, partly, overcast = (int((kinds == n).sum()) for n in range(3))
    counted = say(
        "{clear} clear, {partly} partly cloudy and {overcast} overcast days; the overcast days of "
        "a month come first, in one row.",
        clear=clear, partly=partly, overcast=overcast,
    )
    real = REAL_OVER_SHARES if clear or partly else REAL_OVER_OVERCAST
    if read:
        return (counted,)
    said = {"low": figure(f"{real[0]:g}"), "high": figure(f"{real[1]:g}")}
    if clear or partly:
        compared = say(
            "In three measured years the light of a month was {low} to {high} times what its "
            "skies give.",
            **said,
        )
        return counted, compared
    compared = say(
        "Every day counts as overcast, which is cautious: in three measured years the light of a "
        "month was {low} to {high} times as much.",
        **said,
    )
    return (compared,)


def _said_of_blinds(pattern: DaylightPattern) -> tuple[Text, ...]:
    """What nobody expects of a panel in the open."""
    bare = isinstance(pattern.place, Outdoors) and pattern.place.glass == "no_glass"
    if not bare or all(days.blinds == "blinds_open" for days in pattern.holidays):
        return ()
    return (
        say("Out of doors, too, it is dark on holidays with closed blinds; say open where none "
            "hang before the panel."),
    )


def _said_of_sun(pattern: DaylightPattern, site: _Site) -> tuple[Text, ...]:
    """Where the sun stands at noon, for a person who knows the place."""
    return tuple(_noon(pattern, site, date) for date in ("06-21", "12-21"))


def _noon(pattern: DaylightPattern, site: _Site, date: str) -> Text:
    utc_s = utc_of(pattern.year, date, "00:00", pattern.time_zone)
    minutes = np.arange(24.0 * 60.0)
    elevation_deg = site.sun(utc_s + 60.0 * minutes).elevation_deg
    highest = int(np.argmax(elevation_deg))
    moment = datetime(2000, 1, 1) + timedelta(minutes=highest)
    return say(
        "On {date} the sun stands highest at {time}, {height} above level.",
        date=date_in_words(date), time=figure(f"{moment:%H:%M}"),
        height=figure(f"{elevation_deg[highest]:.1f}°"),
    )



"""The light of a scenario as a course of constant levels."""

from __future__ import annotations

import numpy as np

from explorer.engine.system import DAY_S, WEEK_S, LightCourse
from explorer.physics.arrays import FloatArray, Number
from explorer.scenario import parts
from explorer.scenario.data_sheet import current_scale
from explorer.scenario.hours import seconds
from explorer.scenario.light import Light, Source, WeekPattern
from explorer.scenario.light_log import LightLog
from explorer.scenario.supply import Panels
from explorer.scenario.weather import WeatherYear
from explorer.scenario.weekdays import WEEKDAYS
from explorer.scenario.year_light import YearLight, year_light, year_scale
from explorer.text import say


def panel_factor(light: Light) -> float:
    """Light on the panel over light at the place."""
    return light.orientation_factor * light.cover_factor * light.soiling_factor


def current_per_lux(
    light: Light, panels: Panels, daylight_share: float | None = None
) -> FloatArray:
    """Photocurrent of the whole array per lux at the place. [A/lx]

    The lux of lamps and of daylight behind glass are weighed by their shares; cells in series
    share a panel's area, so one cell's area carries the current. Where a data sheet is given its
    short-circuit currents set the scale and the technology only the ratio between sources.
    """
    share = light.daylight_share if daylight_share is None else daylight_share
    lamp = parts.photocurrent_per_lux(light.source, panels.technology)
    day = parts.photocurrent_per_lux("daylight_glass", panels.technology)
    return _of_array(light, panels, (1.0 - share) * lamp + share * day, light.ambient_C)


def current_per_lux_of(
    source: Source, light: Light, panels: Panels, ambient_c: Number
) -> FloatArray:
    """Photocurrent of the whole array per lux of one source at the place. [A/lx]

    The temperature may be an array, of many moments.
    """
    per_lux = parts.photocurrent_per_lux(source, panels.technology)
    return _of_array(light, panels, per_lux, ambient_c)


def _of_array(light: Light, panels: Panels, per_lux: float, ambient_c: Number) -> FloatArray:
    """Current per lux of the array, from the current density per lux of its cells. [A/lx]"""
    warmth = 1.0 + parts.cell(panels.technology).current_temperature_per_k * (ambient_c - 25.0)
    area = panels.active_area_cm2 * 1e-4 / panels.cells_in_series
    scaled = per_lux * current_scale(panels)
    return np.asarray(scaled * area * panels.count * panel_factor(light) * warmth)


def log_scale(light: Light, log: LightLog) -> float:
    """By how much every reading of a log is multiplied, so that its mean while lit is as asked."""
    if light.illuminance_lx is None:
        return 1.0
    return light.illuminance_lx / log.mean_lit_lx if log.mean_lit_lx > 0 else 0.0


def light_course(
    light: Light, panels: Panels, log: LightLog | None, weather: WeatherYear | None = None
) -> LightCourse:
    """Levels, edges and period of a scenario's light.

    Raises
    ------
    ValueError
        The pattern is a log, or names a weather file, and none was given.
    """
    pattern = light.pattern
    if pattern.kind == "steady":
        level = np.atleast_1d(np.asarray(light.illuminance_lx, float))
        return LightCourse(
            edges_s=np.array([0.0, WEEK_S]),
            photocurrent_a=level * current_per_lux(light, panels),
            illuminance_lx=level,
        )
    if pattern.kind == "log":
        if log is None:
            raise ValueError(say("light.pattern is a log, but no log was read"))
        scale = log_scale(light, log)
        # Equal readings in a row, such as a night, are one stretch.
        first = np.concatenate([[True], np.diff(log.illuminance_lx) != 0.0])
        level = log.illuminance_lx[first] * scale
        return LightCourse(
            edges_s=np.append(log.time_s[:-1][first], log.time_s[-1]),
            photocurrent_a=level * current_per_lux(light, panels),
            illuminance_lx=level,
            begins_at_s=log.start_of_week_s,
        )
    if pattern.kind == "daylight":
        return year_course(light, panels, year_light(light, weather))
    return _week_course(light, pattern, panels)


def year_course(light: Light, panels: Panels, year: YearLight) -> LightCourse:
    """Every step of the year, with the current that each source gives at its own temperature."""
    day, lamps = (
        lux * current_per_lux_of(source, light, panels, year.temperature_c)
        for lux, source in (
            (year.daylight_lx, year.daylight_source),
            (year.electric_lx, year.electric_source),
        )
    )
    scale = year_scale(light.illuminance_lx, year)
    return LightCourse(
        edges_s=year.step_s * np.arange(year.daylight_lx.size + 1.0),
        photocurrent_a=scale * (day + lamps),
        illuminance_lx=scale * (year.daylight_lx + year.electric_lx),
        begins_at_s=year.start.weekday() * DAY_S,
    )


def _week_course(light: Light, pattern: WeekPattern, panels: Panels) -> LightCourse:
    blocks: list[tuple[float, float, FloatArray, FloatArray]] = []
    for block in pattern.blocks:
        level = np.asarray(light.illuminance_lx, float) * block.relative_level
        amps = level * current_per_lux(light, panels, block.daylight_share)
        for day in block.days:
            if day not in pattern.dark_days:
                midnight = WEEKDAYS.index(day) * DAY_S
                begin, end = midnight + seconds(block.from_h), midnight + seconds(block.to_h)
                blocks.append((begin, end, level, amps))
    edges = np.array(sorted({0.0, WEEK_S, *(b[0] for b in blocks), *(b[1] for b in blocks)}))
    lux, current = np.zeros(len(edges) - 1), np.zeros(len(edges) - 1)
    for begin, end, level, amps in blocks:
        inside = (edges[:-1] >= begin) & (edges[:-1] < end)
        lux, current = lux + inside * level, current + inside * amps
    changes = np.diff(np.atleast_2d(current), axis=1) != 0.0
    keep = np.concatenate([[True], changes.any(axis=0)])
    return LightCourse(
        edges_s=np.append(edges[:-1][keep], WEEK_S),
        photocurrent_a=current[..., keep],
        illuminance_lx=lux[..., keep],
    )

"""How light it is where the guide's device will be, hour by hour."""

from __future__ import annotations

from typing import Literal

from explorer.scenario.guide.answers import Answers
from explorer.scenario.guide.facing import WEEK, has_sun, sky_levels
from explorer.scenario.guide.places import MILDER_DAY, SPOTS, level_lx
from explorer.scenario.guide.year import freezes, is_year, pattern_of
from explorer.scenario.light import Light, LitBlock, WeekPattern
from explorer.scenario.weekdays import WEEKDAYS, Weekday

Hours = tuple[tuple[float, float], ...]


def is_measured(answers: Answers) -> bool:
    """Whether a meter said how light it is."""
    return answers.measured_lux is not None


def lux_of(answers: Answers) -> float:
    """The level while it is lit, of March where there is daylight. [lx]"""
    lux = answers.measured_lux
    return level_lx(answers.place) if lux is None else lux


def lit_hours(answers: Answers) -> Hours:
    """The hours with light of a lit day. [h]"""
    spot = SPOTS[answers.place]
    if spot.daylight:
        return (MILDER_DAY,)
    return spot.hours if answers.hours is None else (answers.hours,)


def lit_days(answers: Answers) -> tuple[Weekday, ...]:
    """The days with light; daylight does not stop at the weekend."""
    spot = SPOTS[answers.place]
    if spot.daylight:
        return WEEKDAYS
    said = {"sat": answers.saturday, "sun": answers.sunday}
    return tuple(
        day for day in WEEKDAYS
        if (day in spot.days if said.get(day) is None else said[day])
    )  # fmt: skip


def _kinds_of_days(
    answers: Answers, days: tuple[Weekday, ...]
) -> tuple[tuple[tuple[Weekday, ...], float], ...]:
    """The days of a week by their sky, each with its light over an overcast day's."""
    if not has_sun(answers):
        return ((days, 1.0),)
    levels, found, first = sky_levels(answers.facing), [], 0
    for sky, count in WEEK:
        found.append((WEEKDAYS[first : first + count], levels[sky]))
        first += count
    return tuple(found)


def meets_frost(answers: Answers) -> bool:
    """Whether a store must live through frost, in which lithium cells take no charge."""
    return SPOTS[answers.place].outside and is_year(answers) and freezes(answers)


def light_of(answers: Answers) -> Light:
    """The light of a scenario for these answers."""
    spot, measured = SPOTS[answers.place], is_measured(answers)
    known_by: Literal["meter_at_panel", "guess"] = "meter_at_panel" if measured else "guess"
    if is_year(answers):
        return Light(
            pattern=pattern_of(answers), illuminance_lx=None, source="led_4000",
            soiling_factor=spot.soiling, known_by=known_by,
        )
    days = lit_days(answers)
    return Light(
        illuminance_lx=lux_of(answers),
        source=spot.source,
        daylight_share=1.0 if spot.source == "daylight_glass" else 0.0,
        pattern=WeekPattern(
            blocks=tuple(
                LitBlock(days=some, from_h=a, to_h=b, relative_level=level)
                for some, level in _kinds_of_days(answers, days)
                for a, b in lit_hours(answers)
            )
        ),
        orientation_factor=1.0 if measured else spot.facing,
        soiling_factor=spot.soiling,
        known_by=known_by,
        ambient_C=spot.ambient_c,
    )

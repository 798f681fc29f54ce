"""The year of daylight in which a window or a sky is judged."""

from __future__ import annotations

from functools import lru_cache
from math import cos, pi

import numpy as np

from explorer.physics.sky import Plane, daylight, on_plane
from explorer.physics.sun import sun_position
from explorer.quantity import show
from explorer.scenario.calendar import MONTH_NAMES
from explorer.scenario.daylight import (
    DaylightPattern,
    Indoors,
    Outdoors,
    Place,
    SkyMonth,
    SkyReading,
)
from explorer.scenario.guide.answers import Answers
from explorer.scenario.guide.facing import EQUINOX_S, HORIZON_DEG, WEEK, has_sun
from explorer.scenario.guide.places import MILDER_DAY, OVERCAST_LX, SPOTS, level_lx
from explorer.scenario.guide.region import USUAL_DEG, latitude_of
from explorer.text import Text, figure, say

GROUND = 0.1
OVERHANG_DEG = 40.0
"""What a roof above the wall leaves open ahead (own judgement). [deg]"""
SWING_C = 5.0
"""Warmest and coldest hours of light about a month's mean (own judgement). [°C]"""
DARK_MONTHS = {1: "12-01", -1: "06-01"}
"""When it is hung up north and south of the equator: as the darkest month begins."""
_SHARES = {sky: days / 7.0 for sky, days in WEEK}


def is_year(answers: Answers) -> bool:
    """Whether the device is judged over a year of daylight.

    Examples
    --------
    >>> is_year(Answers(place="window")), is_year(Answers(place="desk"))
    (True, False)
    """
    return SPOTS[answers.place].daylight and answers.season == "winter"


def pattern_of(answers: Answers) -> DaylightPattern:
    """The year of daylight at the panel; the clock goes by the sun."""
    latitude_deg = latitude_of(answers)
    months = tuple(_month(answers, number) for number in range(12))
    return DaylightPattern(
        latitude_deg=latitude_deg, longitude_deg=0.0, time_zone="Etc/UTC",
        place=_place(answers), months=months,
        reading=SkyReading(
            illuminance_lx=answers.measured_lux,
            date=f"{answers.measured_month:02d}-15", time="12:00", sky="overcast",
        ),
        hung_up=DARK_MONTHS[_side(latitude_deg)],
    )  # fmt: skip


def freezes(answers: Answers) -> bool:
    """Whether a month has hours of light below 0 °C.

    Examples
    --------
    >>> freezes(Answers(place="facade")), freezes(Answers(place="facade", region="tropics"))
    (True, False)
    """
    return any(month.mean_C - month.swing_C < 0.0 for month in pattern_of(answers).months)


def noon_lx(answers: Answers) -> float:
    """Light on the panel at midday under a dull sky in the month of a reading. [lx]

    What a meter would read where nothing was measured.
    """
    if answers.measured_lux is not None:
        return answers.measured_lux
    number = answers.measured_month
    midnight_s = np.datetime64(f"2020-{number:02d}-15", "s").astype(np.int64)
    sun = sun_position(np.array([midnight_s + 43_200.0]), latitude_of(answers), 0.0)
    outside_lx = float(daylight("overcast", sun).diffuse_lx[0])
    return outside_lx * _level(answers) / OVERCAST_LX


def _side(latitude_deg: float) -> int:
    return 1 if latitude_deg >= 0.0 else -1


def _level(answers: Answers) -> float:
    return level_lx(answers.place) * SPOTS[answers.place].facing


def _azimuth_deg(answers: Answers) -> float:
    """Which way an upright panel looks; away from the sun where no sunny day is counted."""
    noon = 180.0 if latitude_of(answers) >= 0.0 else 0.0
    if not has_sun(answers):
        return 180.0 - noon
    return noon if answers.facing == "south" else 90.0


def _place(answers: Answers) -> Place:
    spot = SPOTS[answers.place]
    if answers.place == "skylight":
        return Indoors(daylight_factor=_level(answers) / OVERCAST_LX)
    overhang = OVERHANG_DEG if answers.place == "eaves" else None
    return Outdoors(
        tilt_deg=90.0, azimuth_deg=_azimuth_deg(answers), horizon_deg=HORIZON_DEG,
        overhang_deg=overhang, ground_reflectance=GROUND,
        shade_factor=round(min(_level(answers) / open_lx(overhang), 1.0), 3),
        glass="no_glass" if spot.outside else "coated_glass",
    )  # fmt: skip


@lru_cache(maxsize=4)
def open_lx(overhang_deg: float | None) -> float:
    """Light on an upright plane where nothing but the horizon and an overhang hides the sky. [lx]

    The mean of the hours for which the level of a place stands, under an overcast sky.
    """
    sun = sun_position(EQUINOX_S + 3600.0 * np.arange(*MILDER_DAY, 0.25), USUAL_DEG, 0.0)
    plane = Plane(
        tilt_deg=90.0, horizon_deg=HORIZON_DEG, ground_reflectance=GROUND,
        overhang_deg=180.0 if overhang_deg is None else overhang_deg,
    )  # fmt: skip
    return float(np.mean(on_plane(plane, "overcast", sun, daylight("overcast", sun))))


def _month(answers: Answers, number: int) -> SkyMonth:
    """Sky and air of a month, 0 to 11; without the sun every day is overcast."""
    sunny = has_sun(answers)
    outside = SPOTS[answers.place].outside
    return SkyMonth(
        clear_share=round(_SHARES["clear"], 2) if sunny else 0.0,
        partly_share=round(_SHARES["partly_cloudy"], 2) if sunny else 0.0,
        mean_C=_air_c(latitude_of(answers), number) if outside else SPOTS[answers.place].ambient_c,
        swing_C=SWING_C if outside else 0.0,
    )


def _air_c(latitude_deg: float, number: int) -> float:
    """Mean temperature of a month near the sea, roughly (own judgement). [°C]"""
    mean, reach = 27.0 - 0.0065 * latitude_deg**2, 0.19 * latitude_deg
    return float(round(mean - reach * cos(2.0 * pi * number / 12.0)))


# --- what is said of it ---


def year_lines(answers: Answers) -> tuple[Text, ...]:
    """What was assumed of the year."""
    latitude_deg = latitude_of(answers)
    side = say("north") if latitude_deg >= 0.0 else say("south")
    where = say("{degrees}° {side}", degrees=figure(f"{abs(latitude_deg):g}"), side=side)
    lines = [
        say(
            "Year: judged from January to December at {where}, by the sun of each day; the clock "
            "goes by the sun. Hung up, empty, as the darkest month begins.",
            where=where,
        ) if answers.region != "unknown" else say(
            "Year: judged from January to December at {where}, as nobody said where, by the sun of "
            "each day; the clock goes by the sun. Hung up, empty, as the darkest month begins.",
            where=where,
        ),
        _skies(answers),
    ]  # fmt: skip
    if SPOTS[answers.place].outside:
        means = [month.mean_C for month in pattern_of(answers).months]
        lines.append(say(
            "Air: {cold} in the coldest month to {warm} in the warmest, and {swing} up and down in "
            "each (own judgement).",
            cold=show(min(means), "°C"), warm=show(max(means), "°C"), swing=show(SWING_C, "°C"),
        ))  # fmt: skip
    return tuple(lines)


def _skies(answers: Answers) -> Text:
    if not has_sun(answers):
        return say(
            "Sky: overcast on every day, by the sky model of the model note; real months bring two "
            "to four times as much."
        )
    return say(
        "Sky: of seven days {dull} are overcast, in a row, {partly} have sun and clouds and one is "
        "clear (own judgement; light by the sky model of the model note, upright, things around up "
        "to {horizon}°).",
        dull=figure(f"{WEEK[0][1]}"), partly=figure(f"{WEEK[1][1]}"),
        horizon=figure(f"{HORIZON_DEG:g}"),
    )  # fmt: skip


def level_text(answers: Answers, origin: str) -> Text:
    """How light it is, and how that is known."""
    if answers.measured_lux is not None:
        return say(
            "{level} at midday in {month} under a dull sky (measured by you)",
            level=show(answers.measured_lux, "lx"), month=MONTH_NAMES[answers.measured_month],
        )
    return say(
        "{level} on a dull day in March, on average ({origin})",
        level=show(level_lx(answers.place), "lx"), origin=origin,
    )


__all__ = ["freezes", "is_year", "level_text", "noon_lx", "open_lx", "pattern_of", "year_lines"]

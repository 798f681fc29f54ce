"""Which way an upright panel faces, and what the sun then brings it."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from explorer.physics.sky import SKIES, Plane, Sky, daylight, on_plane
from explorer.physics.sun import sun_position
from explorer.scenario.guide.answers import Answers, FacingKey
from explorer.scenario.guide.places import MILDER_DAY, SPOTS
from explorer.scenario.guide.region import USUAL_DEG
from explorer.text import Text, figure, say

HORIZON_DEG = 10.0
"""Up to which houses and trees hide the sky (a suburb; own judgement)."""
EQUINOX_S = 1_584_662_400.0
"""Midnight UTC of 20 March 2020. [s]"""
_AZIMUTHS: dict[FacingKey, tuple[float, ...]] = {"side": (90.0, 270.0), "south": (180.0,)}
WEEK: tuple[tuple[Sky, int], ...] = (("overcast", 4), ("partly_cloudy", 2), ("clear", 1))
"""Days of a week where the sun is counted: dull days come in rows, and one day in seven is clear
(own judgement)."""


def is_faced(answers: Answers) -> bool:
    """Whether the way that the panel faces counts: upright under the sky, and nothing measured."""
    return SPOTS[answers.place].faces and answers.light == "usual"


def has_sun(answers: Answers) -> bool:
    """Whether sunny days are counted.

    Examples
    --------
    >>> has_sun(Answers(place="facade", facing="south")), has_sun(Answers(place="desk"))
    (True, False)
    """
    return is_faced(answers) and answers.facing in _AZIMUTHS


@lru_cache(maxsize=8)
def sky_levels(facing: FacingKey) -> dict[Sky, float]:
    """Light of a day under each sky over that of an overcast one; the darker of two sides.

    By the sky model, for an upright plane at the equinox.

    Examples
    --------
    >>> levels = sky_levels("south")
    >>> levels["overcast"], levels["clear"] > levels["partly_cloudy"] > 1.0
    (1.0, True)
    """
    sun = sun_position(EQUINOX_S + 3600.0 * np.arange(*MILDER_DAY, 0.25), USUAL_DEG, 0.0)
    found = {}
    for sky in SKIES:
        light = daylight(sky, sun)
        sides = [
            float(np.mean(on_plane(_wall(azimuth), sky, sun, light)))
            for azimuth in _AZIMUTHS[facing]
        ]
        found[sky] = min(sides)
    return {sky: float(f"{level / found['overcast']:.2g}") for sky, level in found.items()}


def _wall(azimuth_deg: float) -> Plane:
    return Plane(tilt_deg=90.0, azimuth_deg=azimuth_deg, horizon_deg=HORIZON_DEG)


def facing_lines(answers: Answers) -> tuple[Text, ...]:
    """What was assumed of the way that the panel faces, from spring to autumn."""
    if not is_faced(answers):
        return ()
    if not has_sun(answers):
        return (say("Facing: no sunny day is counted; every day is overcast."),)
    levels = sky_levels(answers.facing)
    return (
        say(
            "Facing: a week of {dull} overcast days in a row, {partly} with sun and clouds at "
            "{partly_level} times their light, and one clear day at {clear_level} times (own "
            "judgement; light by the sky model of the model note, upright at {latitude}° north, "
            "things around up to {horizon}°).",
            dull=figure(f"{WEEK[0][1]}"),
            partly=figure(f"{WEEK[1][1]}"),
            partly_level=figure(f"{levels['partly_cloudy']:g}"),
            clear_level=figure(f"{levels['clear']:g}"),
            latitude=figure(f"{USUAL_DEG:g}"),
            horizon=figure(f"{HORIZON_DEG:g}"),
        ),
    )

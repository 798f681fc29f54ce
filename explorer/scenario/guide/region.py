"""How far north or south the guide's device will be: roughly, or by its latitude."""

from __future__ import annotations

from explorer.scenario.guide.answers import Answers, RegionKey
from explorer.text import texts

USUAL_DEG = 52.0
"""Latitude that counts where nobody says. [deg]"""
FARTHEST_DEG = 65.0
"""Latitude beyond which the guide judges nothing (own judgement): the days of December are shorter
than three hours there, and from 67° on there are none. [deg]"""
REGIONS: dict[RegionKey, tuple[str, str, float]] = texts({
    "far_north": ("Around 60° north", "Scandinavia, Scotland, Alaska: December has six hours of "
                                      "day", 60.0),
    "north": ("Around 52° north", "England to Poland, the prairies of Canada: eight hours", 52.0),
    "mild": ("Around 42° north", "Spain, Italy, the north of Japan: nine hours", 42.0),
    "warm": ("Around 30° north", "North Africa, Texas, the north of India: ten hours", 30.0),
    "tropics": ("Near the equator", "all months are much alike", 5.0),
    "south": ("Around 35° south", "South Africa, Chile: June is the dark month", -35.0),
    "unknown": ("I would rather not say", "then it is judged as at 52° north", USUAL_DEG),
    "latitude": ("I know the latitude", "in degrees; south of the equator it is negative",
                 USUAL_DEG),
})  # fmt: skip
"""The answer, what it stands for, and its latitude. [deg]"""


def latitude_of(answers: Answers) -> float:
    """Latitude at which the year of light is computed. [deg]

    Examples
    --------
    >>> latitude_of(Answers(region="mild")), latitude_of(Answers())
    (42.0, 52.0)
    """
    if answers.region == "latitude" and answers.latitude_deg is not None:
        return answers.latitude_deg
    return REGIONS[answers.region][2]

"""How large text and targets must be on a screen of stated size, seen from a stated distance."""

from __future__ import annotations

import math
from dataclasses import dataclass

from explorer.text import figure, say

MM_PER_INCH = 25.4
CAPITAL_SHARE = 0.7
"""Height of a capital over the font's pixel size; usual for interface faces (common practice)."""
LEAST_ARCMIN = 16.0
"""Smallest capital that reads with ease (ISO 9241-3 and NUREG-0700 as quoted). [arcmin]"""
GOOD_ARCMIN = 20.0
"""Lower end of the preferred range (ISO 9241-3 as quoted). [arcmin]"""
BEST_ARCMIN = 22.0
"""Upper end of the preferred range. [arcmin]"""
ATTRACT_ARCMIN = 25.0
"""Capital of the words that draw people near (own judgement, above what is preferred). [arcmin]"""
TARGET_MM = 10.0
"""Least width of what a finger must hit. [mm]"""
TARGET_PX = 44
"""Least width of what a finger must hit (WCAG 2.2, 2.5.5). [logical px]"""
ARM_M = 0.75
"""From where a person reads what the hand can reach (own judgement). [m]"""

Resolution = tuple[int, int]


def capital_height_mm(distance_m: float, arcmin: float) -> float:
    """Height of a capital that fills a visual angle. [mm]

    Parameters
    ----------
    distance_m : float
        From the eye to the screen. [m]
    arcmin : float
        Visual angle. [arcmin]

    Examples
    --------
    >>> round(capital_height_mm(3.0, 20), 1)
    17.5
    """
    return 2e3 * distance_m * math.tan(math.radians(arcmin / 60) / 2)


def pixels_per_mm(diagonal_in: float, resolution: Resolution) -> float:
    """Pixels in a millimetre of a screen with square pixels. [px/mm]

    Parameters
    ----------
    diagonal_in : float
        Diagonal of the picture. [in]
    resolution : tuple of int
        Width and height. [px]
    """
    if diagonal_in <= 0:
        raise ValueError(f"diagonal_in must be more than 0, found {diagonal_in:g}")
    return math.hypot(*resolution) / (diagonal_in * MM_PER_INCH)


def font_px(
    distance_m: float, diagonal_in: float, resolution: Resolution, arcmin: float = GOOD_ARCMIN
) -> float:
    """Pixel size of a font whose capitals fill a visual angle. [px]

    Parameters
    ----------
    distance_m : float
        From the eye to the screen. [m]
    diagonal_in : float
        Diagonal of the picture. [in]
    resolution : tuple of int
        Width and height; logical pixels in, logical pixels out. [px]
    arcmin : float
        Visual angle of a capital. [arcmin]

    Notes
    -----
    h = 2 d tan(θ/2); a capital takes `CAPITAL_SHARE` of the font's size.
    """
    height = capital_height_mm(distance_m, arcmin) * pixels_per_mm(diagonal_in, resolution)
    return height / CAPITAL_SHARE


def seen_arcmin(px: float, distance_m: float, diagonal_in: float, resolution: Resolution) -> float:
    """Visual angle of the capitals of a font: the reverse of `font_px`. [arcmin]"""
    height_mm = px * CAPITAL_SHARE / pixels_per_mm(diagonal_in, resolution)
    return math.degrees(2 * math.atan(height_mm / (2e3 * distance_m))) * 60


def farthest_m(px: float, diagonal_in: float, resolution: Resolution, arcmin: float) -> float:
    """From how far a font still fills a visual angle. [m]"""
    height_mm = px * CAPITAL_SHARE / pixels_per_mm(diagonal_in, resolution)
    return height_mm / (2e3 * math.tan(math.radians(arcmin / 60) / 2))


def target_px(diagonal_in: float, resolution: Resolution, mm: float = TARGET_MM) -> int:
    """Least size of a touch target: a stated length, and never less than `TARGET_PX`. [px]"""
    return max(TARGET_PX, math.ceil(mm * pixels_per_mm(diagonal_in, resolution)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """Every size of the stand's page. [logical px]"""

    word: float
    number: float
    caption: float
    """What the number counts, and the invitation."""
    axis: float
    """Names on the trace."""
    reason: float
    near: float
    """What is read at arm's length."""
    target: int
    gap: int
    margin: int


_WIDEST_WORD = 6.6
"""Width of the longest verdict word over its font size, in a bold face; measured in English."""
_PICTURE_SHARE = 0.54
"""Part of the page's height that the picture takes; the rest is for hands."""


def sizes_for(resolution: Resolution, diagonal_in: float, distance_m: float) -> Sizes:
    """Sizes that fill a screen: as large as the distance asks for, where the page has the room.

    Parameters
    ----------
    resolution : tuple of int
        Width and height of the page. [logical px]
    diagonal_in : float
        Diagonal of the picture. [in]
    distance_m : float
        From how far the verdict must be read. [m]
    """
    width, height = resolution
    short = min(width, height)
    upright = height > width

    def wanted(arcmin: float, share: float) -> float:
        return max(font_px(distance_m, diagonal_in, resolution, arcmin), share * short)

    # What the headline and the axis may take without starving the trace or leaving the page.
    head_room = _PICTURE_SHARE * height * (0.30 if upright else 0.37)
    word_room = width * (0.71 if upright else 0.44) / _WIDEST_WORD
    word = min(wanted(BEST_ARCMIN, 0.125), head_room * (0.42 if upright else 0.80), word_room)
    number = min(wanted(BEST_ARCMIN, 0.115), word, head_room * 0.54)
    caption = min(wanted(LEAST_ARCMIN, 0.058), head_room * 0.38, number * 0.75)
    near = max(font_px(ARM_M, diagonal_in, resolution, GOOD_ARCMIN), 0.0205 * short)
    # Where seven days do not fit side by side the trace names every other one.
    axis = min(wanted(LEAST_ARCMIN, 0.036), height * 0.068, width / 4 / 2.6)
    near = min(near, height * 0.034)
    return Sizes(
        word=word,
        number=number,
        caption=caption,
        axis=axis,
        reason=near * 1.2,
        near=near,
        target=max(target_px(diagonal_in, resolution, 1.2 * TARGET_MM), round(0.046 * short)),
        gap=max(8, round(0.011 * short)),
        margin=max(12, round(0.018 * short)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """Whether a screen carries the page at a distance."""

    fits: bool
    word_arcmin: float
    number_arcmin: float
    smallest_arcmin: float
    """Of the caption and the names on the trace."""
    reach_m: float
    """From how far word, number and names are large enough."""
    sentence: str


def fit_of(resolution: Resolution, diagonal_in: float, distance_m: float) -> Fit:
    """Say whether word, number and names on the trace are large enough.

    The word and the number must fill `GOOD_ARCMIN`, everything else in the picture
    `LEAST_ARCMIN`.
    """
    sizes = sizes_for(resolution, diagonal_in, distance_m)
    seen = [
        seen_arcmin(px, distance_m, diagonal_in, resolution)
        for px in (sizes.word, sizes.number, min(sizes.caption, sizes.axis))
    ]
    tolerance = 0.05
    fits = min(seen[0], seen[1]) >= GOOD_ARCMIN - tolerance and seen[2] >= LEAST_ARCMIN - tolerance
    reach = _reach(resolution, diagonal_in)
    mm = sizes.word * CAPITAL_SHARE / pixels_per_mm(diagonal_in, resolution)
    distance = figure(f"{distance_m:g}")
    facts = say(
        "Capitals of the word are {height} mm high, seen at {distance} m under {word} arcmin; the "
        "number {number}, the smallest names {names} arcmin",
        height=f"{mm:.0f}",
        distance=distance,
        word=f"{seen[0]:.0f}",
        number=f"{seen[1]:.0f}",
        names=f"{seen[2]:.0f}",
    )
    if fits:
        sentence = say("This page reads at {distance} m. {facts}.", distance=distance, facts=facts)
    else:
        sentence = say(
            "This screen is too small for {distance} m: {facts}; {good} and {least} are "
            "needed. It can be read from up to {reach} m; use a larger screen or let "
            "visitors come closer.",
            distance=distance,
            facts=facts,
            good=f"{GOOD_ARCMIN:g}",
            least=f"{LEAST_ARCMIN:g}",
            reach=figure(f"{reach:.1f}"),
        )
    return Fit(
        fits=fits,
        word_arcmin=seen[0],
        number_arcmin=seen[1],
        smallest_arcmin=seen[2],
        reach_m=reach,
        sentence=sentence,
    )


_ALMOST = 1 - 1e-9  # sizes made for a distance reach just that far


def _reach(resolution: Resolution, diagonal_in: float) -> float:
    """Largest distance at which the sizes made for it are large enough. [m]"""
    low, high = 0.0, 30.0
    for _ in range(40):
        middle = (low + high) / 2
        sizes = sizes_for(resolution, diagonal_in, middle)
        large = min(sizes.word, sizes.number)
        small = min(sizes.caption, sizes.axis)
        enough = min(
            farthest_m(large, diagonal_in, resolution, GOOD_ARCMIN),
            farthest_m(small, diagonal_in, resolution, LEAST_ARCMIN),
        )
        low, high = (middle, high) if enough >= middle * _ALMOST else (low, middle)
    return low

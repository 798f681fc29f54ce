"""Hours of a day as they are entered, and the seconds that they stand for."""

from __future__ import annotations

from explorer.text import Text, figure, say

HOUR_S = 3600.0
LEAST_WINDOW_S = 1.0
"""Shortest stretch of light or work that is taken; a shorter one is a slip (own judgement)."""


def seconds(hours: float) -> float:
    """Seconds since midnight, to the millisecond: hours that are meant to meet do meet. [s]"""
    return round(hours * HOUR_S, 3)


def too_short(from_h: float, to_h: float) -> Text | None:
    """What is wrong with hours that follow each other but within a second, else None."""
    if (to_h - from_h) * HOUR_S >= LEAST_WINDOW_S:
        return None
    return say(
        "from_h ({start}) to to_h ({end}) must last a second or more",
        start=figure(f"{from_h:g}"), end=figure(f"{to_h:g}"),
    )

"""Readings of light held over time: each until the next, and what is done where one is missing."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from explorer.physics.arrays import FloatArray
from explorer.quantity import show
from explorer.scenario.light_log import DARK_BELOW_LX, GapRule, LightLog
from explorer.text import Text, say

GAP_STEPS = 1.5
"""A reading that comes later than this many steps after the last one leaves a gap."""
HOLD_STEPS = 5.0
"""Up to so many missing steps hold the reading before (own judgement: a logger skips some)."""
JITTER_STEPS = 0.25
"""Times that wander by no more than this share of a step are set on even steps."""
_GAPS_NAMED = 5
_LONG_ENOUGH_S = 20 * 3600.0
"""A log of this length has seen a night."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LightReadings:
    """Readings as they stand in the file."""

    time_s: FloatArray
    illuminance_lx: FloatArray
    start: datetime | None
    notes: list[Text]
    name: str = ""
    """Of the file."""
    count: int = 0
    """Readings in the file, before any were joined."""


def hold(
    readings: LightReadings,
    gaps: GapRule,
    *,
    hold_steps: float = HOLD_STEPS,
    offset_lx: float = 0.0,
) -> LightLog:
    """A log in which each reading holds for the nominal step and what lies between is filled.

    Parameters
    ----------
    readings : LightReadings
        At least two; its notes are added to.
    gaps : {"dark", "hold"}
        What becomes of long gaps.
    hold_steps : float
        Missing steps up to which a gap is short and holds the reading before it.
    offset_lx : float
        Taken off every reading, down to 0. [lx]
    """
    time_s, lux, notes = readings.time_s, readings.illuminance_lx, readings.notes
    if offset_lx > 0.0:
        lux = np.maximum(lux - offset_lx, 0.0)
        notes.append(
            say("{offset} were taken off every reading.", offset=show(offset_lx, "lx"))
        )
    steps_s = np.diff(time_s)
    step_s = float(np.median(steps_s))
    first = np.concatenate(([0], np.flatnonzero(steps_s > GAP_STEPS * step_s) + 1))
    lengths = np.diff(np.concatenate((first, [time_s.size])))
    last = first + lengths - 1
    # Readings that follow one another without a gap lie on even steps from the first of them.
    even_s = np.repeat(time_s[first], lengths)
    even_s += step_s * (np.arange(time_s.size) - np.repeat(first, lengths))
    wander_s = float(np.abs(time_s - even_s).max())
    if wander_s <= JITTER_STEPS * step_s:
        if wander_s > 0.0:
            notes.append(
                say(
                    "Times jittering by up to {wander} were placed on even steps of {step}.",
                    wander=show(wander_s, "s"),
                    step=show(step_s, "s"),
                )
            )
        starts_s = even_s
    else:
        notes.append(
            say(
                "The step is uneven, about {step}; each reading holds until the next.",
                step=show(step_s, "s"),
            )
        )
        starts_s = time_s
    ends_s = starts_s[last] + step_s
    gap_from_s, gap_to_s = ends_s[:-1], starts_s[first[1:]]
    # Half a step more, as the last of the missing readings may have come late.
    short = gap_to_s - gap_from_s <= (hold_steps + 0.5) * step_s
    notes.extend(_short_notes(gap_to_s - gap_from_s, short, step_s))
    notes.extend(_gap_notes(readings, last[:-1][~short], gaps))
    fill = lux[last[:-1]] if gaps == "hold" else np.where(short, lux[last[:-1]], 0.0)
    floor_lx = float(lux.min()) if float(starts_s[-1]) >= _LONG_ENOUGH_S else 0.0
    if floor_lx >= DARK_BELOW_LX:
        notes.append(
            say(
                "The light never falls below {floor}: it is lit around the clock, or the meter "
                "reads so much in the dark.",
                floor=show(floor_lx, "lx"),
            )
        )
    edges = np.append(np.insert(starts_s, first[1:], gap_from_s), ends_s[-1])
    levels = np.insert(lux, first[1:], fill)
    for array in (edges, levels):
        array.setflags(write=False)  # the log is shared
    return LightLog(
        time_s=edges,
        illuminance_lx=levels,
        start=readings.start,
        step_s=step_s,
        gaps=tuple(zip(gap_from_s.tolist(), gap_to_s.tolist(), strict=True)),
        notes=tuple(notes),
        name=readings.name,
        readings=readings.count,
        floor_lx=floor_lx if floor_lx >= DARK_BELOW_LX else 0.0,
    )


def _short_notes(length_s: FloatArray, short: NDArray[np.bool_], step_s: float) -> list[Text]:
    if not short.any():
        return []
    return [
        say(
            "{n} short gaps of up to {most}, together {total}, hold the reading before them.",
            n=int(short.sum()),
            most=show(step_s * round(float(length_s[short].max()) / step_s), "s"),
            total=show(float(length_s[short].sum()), "s"),
        )
    ]


def _gap_notes(readings: LightReadings, last: NDArray[np.intp], gaps: GapRule) -> list[Text]:
    notes: list[Text] = []
    for place in last[:_GAPS_NAMED]:
        from_s, to_s = float(readings.time_s[place]), float(readings.time_s[place + 1])
        since = (
            show(from_s, "s")
            if readings.start is None
            else f"{readings.start + timedelta(seconds=from_s):%Y-%m-%d %H:%M}"
        )
        length = show(to_s - from_s, "s")
        if gaps == "dark":
            notes.append(
                say(
                    "No reading for {time} after {since}; these count as dark.",
                    time=length,
                    since=since,
                )
            )
        else:
            notes.append(
                say(
                    "No reading for {time} after {since}; these hold the last reading.",
                    time=length,
                    since=since,
                )
            )
    if (more := last.size - _GAPS_NAMED) > 0:
        total_s = math.fsum(np.diff(readings.time_s)[last])
        notes.append(
            say(
                "{n} more gaps; all together {time} without a reading.",
                n=more,
                time=show(total_s, "s"),
            )
        )
    return notes

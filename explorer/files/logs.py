"""Measured light logs: CSV with a time and a lux column, made ready to drive a scenario."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import lru_cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from explorer.files.table_reader.layout import Wanted
from explorer.files.table_reader.reader import read_readings
from explorer.files.table_reader.told import LogError, Told
from explorer.quantity import show
from explorer.resource_files import resource_path
from explorer.scenario.light import LogPattern
from explorer.scenario.light_log import GapRule, LightLog
from explorer.scenario.model import Scenario
from explorer.text import Text, say

BRIGHTEST_LX = 200_000.0
"""Brightest reading taken; full sun gives 100 000 to 130 000 lx (common practice, no source)."""
LIGHT = Wanted(quantity="light", lowest=0.0, highest=BRIGHTEST_LX)
GAP_STEPS = 1.5
"""A reading that comes later than this many steps after the last one leaves a gap."""
JITTER_STEPS = 0.25
"""Times that wander by no more than this share of a step are set on even steps."""
_GAPS_NAMED = 5

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class LightReadings:
    """Readings as they stand in the file."""

    time_s: FloatArray
    illuminance_lx: FloatArray
    start: datetime | None
    notes: list[Text]


def read_light_log(path: Path | str, gaps: GapRule = "dark", told: Told | None = None) -> LightLog:
    """Read a light log.

    The file is a table with a time and a column of light, as `read_readings` understands it. Each
    reading holds for the nominal step, which is the median time between readings.

    Parameters
    ----------
    path : path-like
        File to read.
    gaps : {"dark", "hold"}
        Whether hours without a reading count as dark or hold the last reading.
    told : Told, optional
        What a person said about a file that leaves something open.

    Returns
    -------
    LightLog
        Its notes say what was repaired and where readings are missing.

    Raises
    ------
    Undecided
        The file can be read in two ways.
    LogError
        The file cannot be read, lacks a column, or holds a time or level that is not allowed.
    """
    found = read_readings(Path(path), (LIGHT,), told, what=say("light log"))
    if found.time_s.size < 2:
        raise LogError(
            say(
                "{file} holds {n} readings; at least 2 are needed.",
                file=found.name,
                n=found.time_s.size,
            )
        )
    return hold(
        LightReadings(
            time_s=found.time_s,
            illuminance_lx=found.values["light"],
            start=found.start,
            notes=list(found.notes),
        ),
        gaps,
    )


def resolve_log(scenario: Scenario, scenario_path: Path | str | None) -> LightLog | None:
    """The light log that a scenario names; None where its light follows no log.

    Parameters
    ----------
    scenario : Scenario
        Its log is a path beside the scenario file, or else a name among the shipped logs.
    scenario_path : path-like or None
        The scenario's file; None for one that was never saved.

    Raises
    ------
    LogError
        There is no such log, or it cannot be used.
    """
    path = log_path(scenario, scenario_path)
    if path is None:
        return None
    found = path.stat()
    pattern = scenario.light.pattern
    assert isinstance(pattern, LogPattern)
    return _cached(path, pattern.gaps, found.st_mtime_ns, found.st_size)


def log_path(scenario: Scenario, scenario_path: Path | str | None) -> Path | None:
    """Where the light log of a scenario lies; None where its light follows no log.

    Raises
    ------
    LogError
        There is no such log.
    """
    pattern = scenario.light.pattern
    if not isinstance(pattern, LogPattern):
        return None
    if not pattern.file.strip() or "\0" in pattern.file:
        raise LogError(say("light.pattern.file names no log; give the name of a CSV file."))
    shipped = resource_path("logs")
    places = [shipped] if scenario_path is None else [Path(scenario_path).parent, shipped]
    for place in places:
        path = place / pattern.file
        try:
            path.stat()
        except OSError:
            continue
        return path
    names = ", ".join(sorted(p.name for p in shipped.glob("*.csv")))
    if scenario_path is None:
        raise LogError(
            say(
                "light.pattern.file is {file}, and there is no such log among the shipped ones "
                "({names}).",
                file=repr(pattern.file),
                names=names,
            )
        )
    raise LogError(
        say(
            "light.pattern.file is {file}, and there is no such log beside the scenario or among "
            "the shipped ones ({names}).",
            file=repr(pattern.file),
            names=names,
        )
    )


@lru_cache(maxsize=4)
def _cached(path: Path, gaps: GapRule, _changed_ns: int, _size: int) -> LightLog:
    """A log is read again only when its file changes, so a slider never waits for it."""
    return read_light_log(path, gaps)


def hold(readings: LightReadings, gaps: GapRule) -> LightLog:
    """A log in which each reading holds for the nominal step and what lies between is filled."""
    time_s, lux, notes = readings.time_s, readings.illuminance_lx, readings.notes
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
                    "Times that wander by up to {wander} were set on even steps of {step}.",
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
    notes.extend(_gap_notes(readings, last, gaps))
    fill = np.zeros(gap_from_s.size) if gaps == "dark" else lux[last[:-1]]
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
    )


def _gap_notes(readings: LightReadings, last: NDArray[np.intp], gaps: GapRule) -> list[Text]:
    notes: list[Text] = []
    for place in last[:-1][:_GAPS_NAMED]:
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
    if (more := last.size - 1 - _GAPS_NAMED) > 0:
        total_s = math.fsum(np.diff(readings.time_s)[last[:-1]])
        notes.append(
            say(
                "{n} more gaps; all together {time} without a reading.",
                n=more,
                time=show(total_s, "s"),
            )
        )
    return notes

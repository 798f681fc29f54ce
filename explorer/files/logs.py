"""Measured light logs: CSV with a time and a lux column, made ready to drive a scenario."""

from __future__ import annotations

import csv
import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import lru_cache
from pathlib import Path
from typing import NoReturn

import numpy as np
from numpy.typing import NDArray

from explorer.files.disk import MEGABYTE, FileError, read_text
from explorer.quantity import show
from explorer.resource_files import resource_path
from explorer.scenario.light import LogPattern
from explorer.scenario.light_log import GapRule, LightLog
from explorer.scenario.model import Scenario
from explorer.text import Text, joined, say

LIMIT_BYTES = 50 * MEGABYTE
"""Largest log that is read (own judgement: two years of one reading a minute)."""
TIME_NAMES = ("time", "time_s", "timestamp")
LUX_NAMES = ("lux", "illuminance_lx")
BRIGHTEST_LX = 200_000.0
"""Brightest reading taken; full sun gives 100 000 to 130 000 lx (common practice, no source)."""
LATEST_S = 1e11
"""Latest time taken, some three thousand years, so that dates given in seconds pass."""
GAP_STEPS = 1.5
"""A reading that comes later than this many steps after the last one leaves a gap."""
JITTER_STEPS = 0.25
"""Times that wander by no more than this share of a step are set on even steps."""
_GAPS_NAMED = 5
_TOO_LONG = say("field larger than field limit (131072)")
"""What Python's reader of CSV says of a cell that never ends, word for word."""

FloatArray = NDArray[np.float64]


class LogError(FileError):
    """A light log cannot be used; the text is a sentence that names the line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Readings:
    """Readings as they stand in the file."""

    time_s: FloatArray
    illuminance_lx: FloatArray
    start: datetime | None
    notes: list[str]


def read_light_log(path: Path | str, gaps: GapRule = "dark") -> LightLog:
    """Read a light log.

    The file has one line of column names, then one reading a line; lines that begin with ``#``
    are skipped. Times are ISO dates or seconds and must rise. Columns are parted by a comma, a
    semicolon or a tab; with the last two a decimal comma is taken too. Each reading holds for
    the nominal step, which is the median time between readings.

    Parameters
    ----------
    path : path-like
        File to read.
    gaps : {"dark", "hold"}
        Whether hours without a reading count as dark or hold the last reading.

    Returns
    -------
    LightLog
        Its notes say what was repaired and where readings are missing.

    Raises
    ------
    LogError
        The file cannot be read, lacks a column, or holds a time or level that is not allowed.
    """
    path = Path(path)
    try:
        text = read_text(path, limit_bytes=LIMIT_BYTES, what=say("light log"))
    except FileError as error:
        raise LogError(str(error)) from None
    return _hold(_read(text, path.name), gaps)


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
            found = path.stat()
        except OSError:
            continue
        return _cached(path, pattern.gaps, found.st_mtime_ns, found.st_size)
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


def _read(text: str, name: str) -> _Readings:
    numbered = [
        (number, line)
        for number, line in enumerate(text.splitlines(), start=1)
        if line.strip() and not line.startswith("#")
    ]
    if not numbered:
        raise LogError(say("{file} holds only remarks; a light log was expected.", file=name))
    delimiter, time_at, lux_at = _columns(numbered[0][1], name)
    numbers = [number for number, _ in numbered[1:]]
    try:
        rows = list(csv.reader((line for _, line in numbered[1:]), delimiter=delimiter))
    except csv.Error as error:
        why = say(str(error))
        raise LogError(say("{file} is not a table: {why}.", file=name, why=why)) from None
    if len(rows) != len(numbers):
        raise LogError(say("{file} has a quotation mark that is never closed.", file=name))
    wanted = max(time_at, lux_at) + 1
    for number, row in zip(numbers, rows, strict=True):
        if len(row) < wanted:
            raise LogError(
                say(
                    "{file}, line {line}: {n} columns found, at least {wanted} are needed.",
                    file=name,
                    line=number,
                    n=len(row),
                    wanted=wanted,
                )
            )
    notes: list[str] = []
    kept = [(n, row[time_at], row[lux_at]) for n, row in zip(numbers, rows, strict=True)]
    full = [item for item in kept if item[2].strip()]
    if len(full) < len(kept):
        notes.append(
            say("{n} lines have no reading and were left out.", n=len(kept) - len(full))
        )
    if len(full) < 2:
        raise LogError(
            say("{file} holds {n} readings; at least 2 are needed.", file=name, n=len(full))
        )
    lines = [item[0] for item in full]
    lux = _levels([item[2] for item in full], lines, name, comma=delimiter != ",")
    time_s, start = _times([item[1] for item in full], lines, name, comma=delimiter != ",")
    time_s, lux = _rising(time_s, lux, lines, name, notes)
    return _Readings(time_s=time_s, illuminance_lx=lux, start=start, notes=notes)


def _columns(header: str, name: str) -> tuple[str, int, int]:
    """Delimiter and places of the two columns."""
    delimiter = max(",;\t", key=header.count)
    names = [cell.strip().strip('"').lower() for cell in header.split(delimiter)]
    places = []
    for allowed in (TIME_NAMES, LUX_NAMES):
        place = next((names.index(a) for a in allowed if a in names), None)
        if place is None:
            raise LogError(
                say(
                    "{file} has no column named {allowed}; its columns are {names}.",
                    file=name,
                    allowed=joined(say(" or "), allowed),
                    names=", ".join(names)[:120],
                )
            )
        places.append(place)
    return delimiter, places[0], places[1]


def _levels(cells: Sequence[str], lines: Sequence[int], name: str, *, comma: bool) -> FloatArray:
    lux = _numbers(cells, comma=comma)
    if lux is None:
        place = next(i for i, cell in enumerate(cells) if _numbers([cell], comma=comma) is None)
    else:
        fits = (lux >= 0.0) & (lux <= BRIGHTEST_LX)  # NaN fits nowhere
        if fits.all():
            return lux
        place = int(np.argmin(fits))
    raise LogError(
        say(
            "{file}, line {line}: the light is {found}; allowed is a number from 0 to {most} lx.",
            file=name,
            line=lines[place],
            found=repr(cells[place].strip()),
            most=f"{BRIGHTEST_LX:.0f}",
        )
    )


def _numbers(cells: Sequence[str], *, comma: bool) -> FloatArray | None:
    try:
        return np.array([float(c.replace(",", ".") if comma else c) for c in cells])
    except ValueError:
        return None


def _times(
    cells: Sequence[str], lines: Sequence[int], name: str, *, comma: bool
) -> tuple[FloatArray, datetime | None]:
    """Seconds from the first reading, and its date where the log has dates."""
    if (seconds := _numbers(cells, comma=comma)) is not None:
        fits = np.abs(seconds) <= LATEST_S  # NaN fits nowhere
        if not fits.all():
            _refuse_time(cells, lines, name, int(np.argmin(fits)))
        return seconds - seconds[0], None
    moments: list[datetime] = []
    for place, cell in enumerate(cells):
        try:
            moments.append(datetime.fromisoformat(cell.strip()))
        except ValueError:
            _refuse_time(cells, lines, name, place)
    start = moments[0]
    try:
        return np.array([(moment - start).total_seconds() for moment in moments]), start
    except TypeError:
        raise LogError(
            say("{file} has times with and without a time zone; use one kind.", file=name)
        ) from None


def _refuse_time(cells: Sequence[str], lines: Sequence[int], name: str, place: int) -> NoReturn:
    raise LogError(
        say(
            "{file}, line {line}: the time is {found}; allowed is a date such as "
            "2015-02-02 14:19:00, or seconds in every line.",
            file=name,
            line=lines[place],
            found=repr(cells[place].strip()),
        )
    )


def _rising(
    time_s: FloatArray, lux: FloatArray, lines: Sequence[int], name: str, notes: list[str]
) -> tuple[FloatArray, FloatArray]:
    """Readings without exact repetitions; anything else that does not rise is refused."""
    steps_s = np.diff(time_s)
    repeated = (steps_s == 0.0) & (np.diff(lux) == 0.0)
    wrong = (steps_s <= 0.0) & ~repeated
    if wrong.any():
        place = int(np.argmax(wrong)) + 1
        raise LogError(_not_rising(name, lines[place], float(steps_s[place - 1])))
    if repeated.any():
        notes.append(
            say("{n} lines repeat the line before and were left out.", n=int(repeated.sum()))
        )
    keep = np.concatenate(([True], ~repeated))
    if keep.sum() < 2:
        raise LogError(
            say("{file} holds one reading again and again; at least 2 times are needed.", file=name)
        )
    return time_s[keep], lux[keep]


def _not_rising(name: str, line: int, step_s: float) -> Text:
    if step_s == 0.0:
        return say(
            "{file}, line {line}: its time repeats the time of the line before with another "
            "reading; times must rise. Sort the log, or split it where the logger began again.",
            file=name,
            line=line,
        )
    return say(
        "{file}, line {line}: its time lies {time} before the line above; times must rise. Sort "
        "the log, or split it where the logger began again.",
        file=name,
        line=line,
        time=show(-step_s, "s"),
    )


def _hold(readings: _Readings, gaps: GapRule) -> LightLog:
    """Hold each reading for the nominal step and fill what lies between."""
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


def _gap_notes(readings: _Readings, last: NDArray[np.intp], gaps: GapRule) -> list[str]:
    notes: list[str] = []
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

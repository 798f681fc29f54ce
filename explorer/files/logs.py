"""Measured light logs: CSV with a time and a lux column, made ready to drive a scenario."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass, field
from pathlib import Path

from explorer.files.held import HOLD_STEPS, LightReadings, hold
from explorer.files.progress import Progress, no_progress
from explorer.files.table_reader.joined import read_joined
from explorer.files.table_reader.layout import Wanted, layout_of
from explorer.files.table_reader.parts import LARGE_BYTES
from explorer.files.table_reader.reader import LIMIT_BYTES, read_readings
from explorer.files.table_reader.told import Clock, LogError, Told, Undecided, ways
from explorer.files.table_reader.understanding import understand
from explorer.files.trust import TRUST
from explorer.resource_files import resource_path
from explorer.scenario.light import LogPattern
from explorer.scenario.light_log import GapRule, LightLog
from explorer.scenario.model import Scenario
from explorer.text import joined, say

BRIGHTEST_LX = 200_000.0
"""Brightest reading taken; full sun gives 100 000 to 130 000 lx (common practice, no source)."""
MOST_LEVELS = 600_000
"""Means that a large file is joined to: a minute each in a year (own judgement)."""
CLOCKS: dict[str, Clock | None] = {"by_file": None, "hours": "h:mm", "minutes": "mm:ss"}
"""What a scenario calls the two meanings of 12:30."""
LIGHT = Wanted(quantity="light", lowest=0.0, highest=BRIGHTEST_LX)


@dataclass(frozen=True, slots=True, kw_only=True)
class LogRules:
    """How a light log is read and what is made of it."""

    told: Told = field(default_factory=Told)
    gaps: GapRule = "dark"
    hold_steps: float = HOLD_STEPS
    offset_lx: float = 0.0


def read_light_log(
    path: Path | str, rules: LogRules | None = None, progress: Progress = no_progress
) -> LightLog:
    """Read a light log.

    The file is a table with a time and a column of light, as `read_readings` understands it. Each
    reading holds for the nominal step, which is the median time between readings. A file of more
    than `LARGE_BYTES` is joined to means, about `MOST_LEVELS` of them.

    Parameters
    ----------
    path : path-like
        File to read.
    rules : LogRules, optional
        What a person said about the file, and what is made of gaps and of an offset.
    progress : callable
        Is told the share of the file that was read; what it raises ends the reading.

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
    rules = rules or LogRules()
    path, what = Path(path), say("light log")
    if not _is_large(path):
        found = read_readings(path, (LIGHT,), rules.told, what=what, progress=progress)
        readings = LightReadings(
            time_s=found.time_s,
            illuminance_lx=found.values["light"],
            start=found.start,
            notes=list(found.notes),
            name=found.name,
            count=found.time_s.size,
        )
    else:
        known = understand(
            path, (LIGHT,), rules.told, what=what, timed=True, limit_bytes=LIMIT_BYTES
        )
        long = read_joined(known, "light", MOST_LEVELS, progress)
        readings = LightReadings(
            time_s=long.time_s,
            illuminance_lx=long.means,
            start=long.start,
            notes=long.notes,
            name=known.layout.name,
            count=long.readings,
        )
    if readings.time_s.size < 2:
        raise LogError(
            say(
                "{file} holds {n} readings; at least 2 are needed.",
                file=readings.name,
                n=readings.count,
            )
        )
    return hold(readings, rules.gaps, hold_steps=rules.hold_steps, offset_lx=rules.offset_lx)


_MOST_KEPT = 4
_READ: OrderedDict[tuple[Path, LogRules, tuple[int, int]], LightLog] = OrderedDict()
"""Logs that were read, the latest last, by file, rules, and time and size of the file."""


def _is_large(path: Path) -> bool:
    try:
        return path.stat().st_size >= LARGE_BYTES
    except OSError:
        return False  # the reader says what is wrong


def is_light_log(path: Path) -> bool:
    """Whether a file looks like a light log: a table with times and light."""
    try:
        layout_of(path, (LIGHT,), Told(), timed=True, limit_bytes=LIMIT_BYTES, what="")
    except Undecided:
        return True
    except LogError:
        return False
    return True


def rules_of(pattern: LogPattern) -> LogRules:
    """What a scenario says about its light log."""
    told = Told(
        dates=None if pattern.dates == "by_file" else pattern.dates,
        decimal=None if pattern.decimal == "by_file" else pattern.decimal,
        clock=CLOCKS[pattern.clock],
        column=pattern.column or None,
    )
    return LogRules(
        told=told,
        gaps=pattern.gaps,
        hold_steps=pattern.hold_steps,
        offset_lx=pattern.offset_lx,
    )


def resolve_log(
    scenario: Scenario, scenario_path: Path | str | None, progress: Progress = no_progress
) -> LightLog | None:
    """The light log that a scenario names; None where its light follows no log.

    Parameters
    ----------
    scenario : Scenario
        Its log is a path beside the scenario file or below, or else a name among the shipped
        logs; any other must have been allowed.
    scenario_path : path-like or None
        The scenario's file; None for one that was never saved.
    progress : callable
        Is told the share of the file that was read; what it raises ends the reading.

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
    try:
        changed = (found.st_mtime_ns, found.st_size)
        return _cached(path, rules_of(pattern), changed, progress)
    except Undecided as error:
        what = ways(error.question, say("light.pattern.{key} = ", key=error.question.about))
        raise Undecided(joined(" ", (str(error), what)), error.question) from None


def log_path(scenario: Scenario, scenario_path: Path | str | None) -> Path | None:
    """Where the light log of a scenario lies; None where its light follows no log.

    Raises
    ------
    OutsideFile
        It lies outside the scenario's own folder, and `TRUST` does not know it.
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
        except (OSError, ValueError):  # ValueError: no name that a system could have
            continue
        TRUST.check("light.pattern.file", pattern.file, path, place)
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


def _cached(path: Path, rules: LogRules, stamp: tuple[int, int], progress: Progress) -> LightLog:
    """A log is read again only when its file changes, so a slider never waits for it."""
    key = (path, rules, stamp)
    if key in _READ:
        _READ.move_to_end(key)
        return _READ[key]
    log = _READ[key] = read_light_log(path, rules, progress)
    while len(_READ) > _MOST_KEPT:
        _READ.popitem(last=False)
    return log

"""Measured light logs: CSV with a time and a lux column, made ready to drive a scenario."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path

from explorer.files.held import HOLD_STEPS, LightReadings, hold
from explorer.files.table_reader.layout import Wanted, layout_of
from explorer.files.table_reader.reader import LIMIT_BYTES, read_readings
from explorer.files.table_reader.told import Clock, LogError, Told, Undecided, ways
from explorer.resource_files import resource_path
from explorer.scenario.light import LogPattern
from explorer.scenario.light_log import GapRule, LightLog
from explorer.scenario.model import Scenario
from explorer.text import joined, say

BRIGHTEST_LX = 200_000.0
"""Brightest reading taken; full sun gives 100 000 to 130 000 lx (common practice, no source)."""
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


def read_light_log(path: Path | str, rules: LogRules | None = None) -> LightLog:
    """Read a light log.

    The file is a table with a time and a column of light, as `read_readings` understands it. Each
    reading holds for the nominal step, which is the median time between readings.

    Parameters
    ----------
    path : path-like
        File to read.
    rules : LogRules, optional
        What a person said about the file, and what is made of gaps and of an offset.

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
    found = read_readings(Path(path), (LIGHT,), rules.told, what=say("light log"))
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
            name=found.name,
        ),
        rules.gaps,
        hold_steps=rules.hold_steps,
        offset_lx=rules.offset_lx,
    )


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
    try:
        return _cached(path, rules_of(pattern), found.st_mtime_ns, found.st_size)
    except Undecided as error:
        what = ways(error.question, say("light.pattern.{key} = ", key=error.question.about))
        raise Undecided(joined(" ", (str(error), what)), error.question) from None


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
def _cached(path: Path, rules: LogRules, _changed_ns: int, _size: int) -> LightLog:
    """A log is read again only when its file changes, so a slider never waits for it."""
    return read_light_log(path, rules)

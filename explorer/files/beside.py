"""What lies beside a scenario: a measured light log, or a year of weather."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from pathlib import Path

from explorer.advice.case import Case
from explorer.files.progress import Progress, no_progress
from explorer.scenario.light import LogPattern
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario
from explorer.scenario.weather import WeatherYear


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What was read; a scenario needs one of them at most."""

    log: LightLog | None = None
    weather: WeatherYear | None = None

    def case(self, scenario: Scenario) -> Case:
        """A design in this light."""
        return Case(scenario, self.log, self.weather)


NOTHING = Beside()


def read_beside(
    scenario: Scenario, scenario_path: Path | str | None, progress: Progress = no_progress
) -> Beside:
    """What a scenario names, read.

    Raises
    ------
    LogError, WeatherError
        There is no such file, or it cannot be used.
    """
    if beside_key(scenario) is None:
        return NOTHING
    from explorer.files.logs import resolve_log  # most designs need no reader of tables
    from explorer.files.weather import resolve_weather

    return Beside(
        log=resolve_log(scenario, scenario_path, progress),
        weather=resolve_weather(scenario, scenario_path),
    )


def resolve_case(
    scenario: Scenario, scenario_path: Path | str | None, progress: Progress = no_progress
) -> Case:
    """A scenario with what it names.

    Raises
    ------
    LogError, WeatherError
        As `read_beside`.
    """
    return read_beside(scenario, scenario_path, progress).case(scenario)


def beside_path(scenario: Scenario, scenario_path: Path | str | None) -> Path | None:
    """Where the file lies that a scenario names; None where it names none.

    Raises
    ------
    LogError
        There is no such log.
    """
    if beside_key(scenario) is None:
        return None
    from explorer.files.logs import log_path
    from explorer.files.weather import weather_path

    return log_path(scenario, scenario_path) or weather_path(scenario, scenario_path)


def beside_key(scenario: Scenario) -> Hashable:
    """What decides which file is read and how; None where none is."""
    pattern = scenario.light.pattern
    if isinstance(pattern, LogPattern):
        return pattern
    return pattern.weather_file or None if pattern.kind == "daylight" else None

"""Weather files: a year of hours at a place, as EPW or TMY3, made ready to light a scenario.

EPW: documentation of the EPW format, its data dictionary. TMY3: S. Wilcox and W. Marion, "Users
manual for TMY3 data sets", NREL/TP-581-43156 (2008). Both are open and put an hour's mean at its
end, in standard time.
"""

from __future__ import annotations

import os
from collections import OrderedDict
from pathlib import Path

from explorer.files.disk import MEGABYTE, FileError, read_text
from explorer.files.trust import TRUST
from explorer.files.weather_rows import WeatherError, read_epw, read_tmy3
from explorer.files.weather_year import made_year
from explorer.scenario.daylight import DaylightPattern
from explorer.scenario.model import Scenario
from explorer.scenario.weather import WeatherYear
from explorer.text import say

LIMIT_BYTES = 20 * MEGABYTE
"""Largest weather file that is read; real ones hold one to two (own judgement)."""
_MOST_KEPT = 4
_READ: OrderedDict[tuple[Path, int, int], WeatherYear] = OrderedDict()
"""Files that were read, the latest last, by file and its time and size."""


def read_weather(path: Path | str) -> WeatherYear:
    """Read a weather file.

    Raises
    ------
    WeatherError
        The file cannot be read, is neither EPW nor TMY3, does not hold one whole year, or holds a
        value that is not allowed; the text names the line.
    """
    path = Path(path)
    try:
        # Names of stations are in any code page.
        text = read_text(
            path, limit_bytes=LIMIT_BYTES, what=say("weather file"), fallback="latin-1"
        )
    except FileError as error:
        raise WeatherError(str(error)) from None
    lines = text.splitlines()
    if lines[0].upper().startswith("LOCATION,"):
        return made_year(read_epw(lines, path.name))
    if len(lines) > 1 and lines[1].startswith("Date (MM/DD/YYYY),"):
        return made_year(read_tmy3(lines, path.name))
    raise WeatherError(
        say(
            "{file} is no weather file that can be read: an EPW begins with LOCATION, and the "
            "second line of a TMY3 with Date (MM/DD/YYYY).",
            file=path.name,
        )
    )


def resolve_weather(scenario: Scenario, scenario_path: Path | str | None) -> WeatherYear | None:
    """The weather that a scenario names; None where its light needs none.

    Parameters
    ----------
    scenario : Scenario
        Its weather file is a path beside the scenario file.
    scenario_path : path-like or None
        The scenario's file; None for one that was never saved.

    Raises
    ------
    OutsideFile
        It lies outside the scenario's own folder, and `TRUST` does not know it.
    WeatherError
        There is no such file, or it cannot be used.
    """
    path = weather_path(scenario, scenario_path)
    if path is None:
        return None
    try:
        found = path.stat()
    except (OSError, ValueError):
        raise WeatherError(
            say(
                "light.pattern.weather_file names {file}, and there is no such file beside the "
                "scenario. Save the scenario first, and put the weather file beside it.",
                file=repr(path.name),
            )
        ) from None
    key = (path, found.st_mtime_ns, found.st_size)
    if key not in _READ:
        _READ[key] = read_weather(path)
        while len(_READ) > _MOST_KEPT:
            _READ.popitem(last=False)
    _READ.move_to_end(key)
    return _READ[key]


def weather_path(scenario: Scenario, scenario_path: Path | str | None) -> Path | None:
    """Where the weather file of a scenario should lie; None where its light needs none.

    Raises
    ------
    OutsideFile
        It lies outside the scenario's own folder, and `TRUST` does not know it.
    """
    pattern = scenario.light.pattern
    if not isinstance(pattern, DaylightPattern) or not pattern.weather_file:
        return None
    folder = None if scenario_path is None else Path(scenario_path).parent
    path = Path(pattern.weather_file) if folder is None else folder / pattern.weather_file
    if os.path.lexists(path):
        TRUST.check("light.pattern.weather_file", pattern.weather_file, path, folder)
    return path

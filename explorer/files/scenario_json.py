"""Scenario files: UTF-8 JSON, read with a clear sentence for everything that can be wrong."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from explorer.files.disk import MEGABYTE, FileError, read_text, write_text
from explorer.files.json_text import decoded, dumped, found_text, validated
from explorer.scenario.model import FORMAT, VERSION, Scenario
from explorer.text import say

LIMIT_BYTES = 5 * MEGABYTE
"""Largest scenario file that is read (own judgement: real ones hold a few kilobytes)."""


class ScenarioError(FileError):
    """A scenario cannot be read or written; the text is one or more sentences."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadedScenario:
    """A scenario and where it came from."""

    scenario: Scenario
    path: Path
    migrated_from: int | None
    """Version of the file where it is older than the program's; the file was not touched."""


def load_scenario(path: Path | str) -> LoadedScenario:
    """Read a scenario file.

    Raises
    ------
    ScenarioError
        The file is missing, is no scenario, or holds a key or value that is not allowed.
    """
    path = Path(path)
    try:
        text = read_text(path, limit_bytes=LIMIT_BYTES, what=say("scenario"))
    except FileError as error:
        raise ScenarioError(str(error)) from None
    scenario, version = _parse(text, path.name)
    return LoadedScenario(
        scenario=scenario, path=path, migrated_from=version if version < VERSION else None
    )


def parse_scenario(text: str, name: str) -> Scenario:
    """Read a scenario from a text, of this or an older version.

    Parameters
    ----------
    text : str
        JSON.
    name : str
        What messages call the text, such as its file name.

    Raises
    ------
    ScenarioError
        The text is no scenario, or holds a key or value that is not allowed.
    """
    return _parse(text, name)[0]


def save_scenario(path: Path | str, scenario: Scenario, *, replace_older: bool = False) -> None:
    """Write a scenario file in one step: a crash leaves the old file or the new one.

    Parameters
    ----------
    path : path-like
        File to write.
    scenario : Scenario
        What to write.
    replace_older : bool
        Whether a file of an older version may be overwritten; ask the person first.

    Raises
    ------
    ScenarioError
        The place cannot be written, or holds a file of an older version and `replace_older`
        is not set.
    """
    path = Path(path)
    if not replace_older and (version := _version_on_disk(path)) is not None and version < VERSION:
        raise ScenarioError(
            say(
                "{path} is a scenario of version {version}; saving would turn it into version "
                "{newest}. Save under another name, or agree to replace it.",
                path=path,
                version=version,
                newest=VERSION,
            )
        )
    try:
        write_text(path, dump_scenario(scenario))
    except FileError as error:
        raise ScenarioError(str(error)) from None


def dump_scenario(scenario: Scenario) -> str:
    """The text of a scenario file."""
    return dumped(scenario)


def schema() -> dict[str, Any]:
    """The JSON Schema of scenario files, with label, unit, range and help of every key."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **Scenario.model_json_schema(),
        "required": ["format", "version"],
    }


def _parse(text: str, name: str) -> tuple[Scenario, int]:
    data = _read_json(text, name)
    version = _check_head(data, name)
    for step in _MIGRATIONS[version:]:
        step(data)
    data["version"] = VERSION
    try:
        return validated(data, name, Scenario), version
    except FileError as error:
        raise ScenarioError(str(error)) from None


def _read_json(text: str, name: str) -> dict[str, Any]:
    try:
        data = decoded(text, name)
    except FileError as error:
        raise ScenarioError(str(error)) from None
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        found = data.get("format") if isinstance(data, dict) else data
        raise ScenarioError(
            say(
                '{file} is not a scenario: the key format must be "{format}", found {found}.',
                file=name,
                format=FORMAT,
                found=found_text(found),
            )
        )
    return data


def _check_head(data: dict[str, Any], name: str) -> int:
    version = data.get("version")
    if type(version) is not int or version < 0:
        raise ScenarioError(
            say(
                "{file}: version must be a whole number from 0 to {newest}, found {found}.",
                file=name,
                newest=VERSION,
                found=found_text(version),
            )
        )
    if version > VERSION:
        raise ScenarioError(
            say(
                "{file} has version {version}, and this program reads versions up to {newest}. "
                "A newer program wrote it; update this one to open it.",
                file=name,
                version=version,
                newest=VERSION,
            )
        )
    return version


def _version_on_disk(path: Path) -> int | None:
    """Version of the scenario file at a path; None where there is no such file."""
    try:
        return _check_head(
            _read_json(
                read_text(path, limit_bytes=LIMIT_BYTES, what=say("scenario")), path.name
            ),
            path.name,
        )
    except FileError:
        return None


def _rename(section: Any, old: str, new: str) -> None:
    if isinstance(section, dict) and old in section and new not in section:
        section[new] = section.pop(old)


def _from_version_0(data: dict[str, Any]) -> None:
    """Version 0 said ``level_lx`` and ``parallel``."""
    _rename(data.get("light"), "level_lx", "illuminance_lx")
    _rename(data.get("panels"), "parallel", "count")


_LINE_OF_VERSION_1 = {
    "illuminance_lx": 200.0, "source": "fluorescent_4000", "short_circuit_A": 2e-5,
    "open_circuit_V": 4.0, "max_power_A": 1.6e-5, "max_power_V": 3.0,
}  # fmt: skip


def _from_version_1(data: dict[str, Any]) -> None:
    """Version 1 had a value for whatever a line of a data sheet left out."""
    panels = data.get("panels")
    lines = panels.get("data_sheet") if isinstance(panels, dict) else None
    for line in lines if isinstance(lines, list) else ():
        if isinstance(line, dict):
            for key, value in _LINE_OF_VERSION_1.items():
                line.setdefault(key, value)


def _from_version_2(data: dict[str, Any]) -> None:
    """Version 2 knew no requirements as quantities; what it says means the same."""


_MIGRATIONS: tuple[Callable[[dict[str, Any]], None], ...] = (
    _from_version_0, _from_version_1, _from_version_2,
)
"""Step ``n`` turns a file of version ``n`` into one of version ``n + 1``."""

"""The bundled scenarios under the names that they have in a language."""

from __future__ import annotations

from pathlib import Path

from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.localised import in_language
from explorer.scenario.model import Scenario


def named_scenario(path: Path, language: str) -> Scenario:
    """A scenario of a file; a bundled one under the names that it has in a language.

    What a person saved keeps its names, also where it began as a bundled one.

    Parameters
    ----------
    path : pathlib.Path
        Scenario.
    language : str
        Code of the language.

    Raises
    ------
    FileError
        The file cannot be read or is no scenario.
    """
    scenario = load_scenario(path).scenario
    return in_language(scenario, language) if is_bundled(path) else scenario


def is_bundled(path: Path) -> bool:
    """Whether a file came with the program, by whatever path it is named."""
    return path.resolve().is_relative_to(scenario_folder().resolve())

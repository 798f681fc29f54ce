"""What the bundled scenarios are called, in the language on show."""

from __future__ import annotations

from pathlib import Path

from explorer.files.disk import FileError
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.localised import in_language
from explorer.scenario.model import Scenario
from explorer.state.language import language


def read_scenario(path: Path) -> Scenario:
    """A scenario of a file; a bundled one under the names that it has in the language on show."""
    scenario = load_scenario(path).scenario
    is_bundled = path.parent == scenario_folder()
    return in_language(scenario, language()) if is_bundled else scenario


def example_name(path: Path) -> str:
    """What a bundled scenario is called: its title, or its file where it cannot be read."""
    try:
        title = read_scenario(path).title
    except (FileError, OSError):
        title = ""
    return title or path.stem.replace("_", " ").capitalize()

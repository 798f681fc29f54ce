"""What the bundled scenarios are called, in the language on show."""

from __future__ import annotations

from pathlib import Path

from explorer.files.disk import FileError
from explorer.files.examples import named_scenario
from explorer.scenario.model import Scenario
from explorer.state.language import language


def read_scenario(path: Path) -> Scenario:
    """A scenario of a file; a bundled one under the names that it has in the language on show."""
    return named_scenario(path, language())


def example_name(path: Path) -> str:
    """What a bundled scenario is called: its title, or its file where it cannot be read."""
    try:
        title = read_scenario(path).title
    except (FileError, OSError):
        title = ""
    return title or path.stem.replace("_", " ").capitalize()

"""What the bundled scenarios are called."""

from __future__ import annotations

from pathlib import Path

from explorer.files.disk import FileError
from explorer.files.scenario_json import load_scenario


def example_name(path: Path) -> str:
    """What a bundled scenario is called: its title, or its file where it cannot be read."""
    try:
        title = load_scenario(path).scenario.title
    except (FileError, OSError):
        title = ""
    return title or path.stem.replace("_", " ").capitalize()

"""Words for scenarios and the values in them, as the window needs them."""

from __future__ import annotations

from pathlib import Path

from explorer.files.disk import FileError
from explorer.files.scenario_json import load_scenario
from explorer.scenario.words import OPTIONS, WEEKDAY_NAMES, WEEKDAYS, option, plain_number


def example_name(path: Path) -> str:
    """What a bundled scenario is called: its title, or its file where it cannot be read."""
    try:
        title = load_scenario(path).scenario.title
    except (FileError, OSError):
        title = ""
    return title or path.stem.replace("_", " ").capitalize()


__all__ = ["OPTIONS", "WEEKDAYS", "WEEKDAY_NAMES", "example_name", "option", "plain_number"]

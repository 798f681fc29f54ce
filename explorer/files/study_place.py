"""Where a study lies: the folder that a path belongs to, and the design within it."""

from __future__ import annotations

import os
from pathlib import Path

NAME, DESIGN = "study.json", "scenario.json"


def study_folder(path: Path) -> Path | None:
    """The folder of the study that a path belongs to, by its own name or its design's.

    Parameters
    ----------
    path : pathlib.Path
        The folder, its ``study.json`` or its ``scenario.json``.
    """
    folder = path.parent if path.name in (NAME, DESIGN) else path
    return folder if os.path.lexists(folder / NAME) else None


def scenario_file(path: Path) -> Path:
    """The scenario that a path means: of a study its design, else the path itself."""
    folder = study_folder(path)
    return path if folder is None else folder / DESIGN

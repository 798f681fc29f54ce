"""Files that are listed by name: told apart in few words, and found again in a moved folder."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

_DEEPEST = 3
"""Parts of a path, counted from its end, by which a file is looked for in another place."""


def names_apart(paths: Sequence[str]) -> tuple[str, ...]:
    """Names of files, each with as many of its folders as tell it from the others.

    Examples
    --------
    >>> names_apart(["/a/fern/lock.json", "/a/moss/lock.json", "/a/moss/bell.json"])
    ('fern/lock.json', 'moss/lock.json', 'bell.json')
    """
    parts = [Path(path).parts for path in paths]
    names = []
    for own in parts:
        others = [other for other in parts if other != own]
        count = 1
        while count < len(own) and any(other[-count:] == own[-count:] for other in others):
            count += 1
        names.append("/".join(own[-count:]))
    return tuple(names)


def found_again(path: Path, known: Sequence[Path]) -> Path:
    """The file, or where it lies now if the folder that holds it was moved with others in it.

    Parameters
    ----------
    path : pathlib.Path
        Where it was.
    known : sequence of pathlib.Path
        Folders in which files were opened or saved; they and what holds them are looked into.
    """
    if path.exists():
        return path
    for folder in known:
        for place in (folder, *folder.parents[:_DEEPEST]):
            for count in range(_DEEPEST, 0, -1):
                there = place.joinpath(*path.parts[-count:])
                if count < len(path.parts) and there.is_file():
                    return there
    return path

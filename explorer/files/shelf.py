"""The shelf: a folder of part files, one for each part of one's own."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from explorer.files.disk import FileError, drop
from explorer.files.part_json import is_part, load_part, save_part
from explorer.scenario.part import Part, StorePart
from explorer.text import say

_SUFFIX = ".json"
_LONGEST_NAME = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A part on the shelf, or a file there that is none."""

    path: Path
    part: Part | None
    fault: str = ""
    """Why the file is no part, as a `Text`; empty where it is one."""


class Shelf:
    """Keeps parts in a folder, which is made with the first of them.

    Parameters
    ----------
    folder : pathlib.Path
        Where the files lie.
    beside : pathlib.Path, optional
        Folder of the open scenario, whose parts are shown too; new ones go to the shelf's own.
    """

    def __init__(self, folder: Path, beside: Path | None = None) -> None:
        self.folder, self.beside = folder, beside

    def kept(self) -> tuple[Kept, ...]:
        """Everything on the shelf by file name; a damaged file is told of, not hidden.

        Behind it stand the parts beside the scenario; what else lies there is nobody's matter.
        """
        near = () if self.beside in (None, self.folder) else _paths(self.beside)
        return tuple(
            _look(path) for path in (*_paths(self.folder), *(p for p in near if is_part(p)))
        )

    def stores(self) -> tuple[StorePart, ...]:
        """The sound stores, by title."""
        found = [one.part for one in self.kept() if isinstance(one.part, StorePart)]
        return tuple(sorted(found, key=_by_title))

    def add(self, part: Part) -> Path:
        """Put a part on the shelf, in a file of its own.

        Raises
        ------
        FileError
            The folder cannot be written.
        """
        self._make()
        path = self._free_name(part.title)
        save_part(path, part)
        return path

    def replace(self, path: Path, part: Part) -> None:
        """Put a part in the place of an earlier state of it.

        Raises
        ------
        FileError
            The file cannot be written.
        """
        save_part(path, part)

    def duplicate(self, path: Path) -> Path:
        """A second part like one on the shelf, under another title.

        Raises
        ------
        FileError
            The file is no part, or the folder cannot be written.
        """
        part = load_part(path)
        title = f"{part.title} {self._next_number(part.title)}"
        return self.add(part.model_copy(update={"title": title}))

    def delete(self, path: Path) -> None:
        """Take a file off the shelf.

        Raises
        ------
        FileError
            The disk refuses.
        """
        drop(path)

    def take_in(self, path: Path) -> Path:
        """Put a copy of a part file from elsewhere on the shelf.

        Raises
        ------
        FileError
            The file is no part, or the folder cannot be written.
        """
        return self.add(load_part(path))

    def give_out(self, path: Path, target: Path) -> None:
        """Write a copy of a part to somewhere else.

        Raises
        ------
        FileError
            The file is no part, or the place cannot be written.
        """
        save_part(target, load_part(path))

    def _make(self) -> None:
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise FileError(
                say(
                    "The folder {folder} cannot be made: {why}.",
                    folder=self.folder, why=error.strerror or error,
                )
            ) from None  # fmt: skip

    def _free_name(self, title: str) -> Path:
        name = re.sub(r"[^\w-]+", "-", title.strip().lower()).strip("-")[:_LONGEST_NAME] or "part"
        path, n = self.folder / f"{name}{_SUFFIX}", 2
        while path.exists():
            path, n = self.folder / f"{name}-{n}{_SUFFIX}", n + 1
        return path

    def _next_number(self, title: str) -> int:
        titles = {one.part.title for one in self.kept() if one.part is not None}
        return next(n for n in range(2, len(titles) + 3) if f"{title} {n}" not in titles)


def _paths(folder: Path | None) -> tuple[Path, ...]:
    try:
        return () if folder is None else tuple(sorted(folder.glob(f"*{_SUFFIX}")))
    except OSError:
        return ()


def _look(path: Path) -> Kept:
    try:
        return Kept(path=path, part=load_part(path))
    except FileError as error:
        return Kept(path=path, part=None, fault=str(error))


def _by_title(part: Part) -> str:
    return part.title.casefold()

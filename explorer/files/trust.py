"""Which files a scenario may name: one from anywhere must not choose what is read."""

from __future__ import annotations

import os
from pathlib import Path

from explorer.files.disk import FileError
from explorer.text import say


class OutsideFile(FileError):
    """A scenario names a file that lies outside its own folder, and nobody has allowed it."""

    def __init__(self, key: str, named: str, path: Path) -> None:
        super().__init__(
            say(
                "{key} is {file}, which lies outside the folder of the scenario, so it is not "
                "read unasked. Put it beside the scenario, or allow it: on the command line with "
                "gloaming --any-log, in the window by choosing it there.",
                key=key,
                file=repr(named),
            )
        )
        self.path = path
        """The file itself, links followed."""


class FileTrust:
    """The files that a person has allowed in this run of the program."""

    def __init__(self) -> None:
        self._allowed: set[Path] = set()
        self.everything = False
        """Whether any may be read, as a command line may say."""

    def allow(self, path: Path) -> None:
        """A person chose this file, or agreed to it."""
        self._allowed.add(_real(path))

    def check(self, key: str, named: str, path: Path, folder: Path | None) -> None:
        """Refuse a file that is neither below a folder nor allowed; links count as what they are.

        Parameters
        ----------
        key : str
            Where the scenario names it.
        named : str
            How.
        path : pathlib.Path
            Where that is.
        folder : pathlib.Path or None
            The scenario's own; None where it has none yet.

        Raises
        ------
        OutsideFile
            It is not to be read unasked.
        """
        real = _real(path)
        inside = folder is not None and real.is_relative_to(_real(folder))
        if not (inside or self.everything or real in self._allowed):
            raise OutsideFile(key, named, real)


def _real(path: Path) -> Path:
    return Path(os.path.realpath(path))


TRUST = FileTrust()
"""That of the program."""

"""What went wrong, kept in a small file beside the user's data, for whoever asks for help."""

from __future__ import annotations

import logging
from logging.handlers import RotatingFileHandler
from pathlib import Path

from explorer.text import visible

NAME = "gloaming.log"
MOST_BYTES = 500_000
KEPT = 2
"""Older files beside the present one."""


class _Lines(logging.Formatter):
    """Nothing that a stranger wrote can steer the terminal on which the file is read."""

    def format(self, record: logging.LogRecord) -> str:
        return visible(super().format(record))


class _Quiet(RotatingFileHandler):
    def handleError(self, record: logging.LogRecord) -> None:
        """A full disk must not become a second fault."""


class LogFile:
    """Writes warnings and errors of the program to a file that is turned over at a size.

    Parameters
    ----------
    folder : pathlib.Path
        Where; made when needed. Where that cannot be, nothing is written and `path` is None.
    """

    def __init__(self, folder: Path) -> None:
        self.path: Path | None = folder / NAME
        self._handler: logging.Handler | None = None
        try:
            folder.mkdir(parents=True, exist_ok=True)
            self._handler = _Quiet(
                self.path, maxBytes=MOST_BYTES, backupCount=KEPT, encoding="utf-8"
            )
        except OSError:
            self.path = None
            return
        self._handler.setLevel(logging.WARNING)
        self._handler.setFormatter(_Lines("%(asctime)s %(levelname)s %(name)s: %(message)s"))
        logging.getLogger().addHandler(self._handler)

    def close(self) -> None:
        """Write no more."""
        if self._handler is not None:
            logging.getLogger().removeHandler(self._handler)
            self._handler.close()
            self._handler = None

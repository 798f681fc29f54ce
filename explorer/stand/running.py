"""Whether a stand runs, and whether the last one was cut off by a crash or a power cut."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QLockFile

FILE = "stand.lock"


class RunningMark:
    """A file that stands while a stand runs; whoever finds it alone knows that it was cut off.

    Parameters
    ----------
    folder : pathlib.Path
        Where the stand keeps its set-up.
    """

    def __init__(self, folder: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        self._lock = _lock(folder)

    def begin(self) -> bool:
        """Say that a stand runs from now on; False where another one does."""
        if self._lock.isLocked():
            return True
        self._lock.removeStaleLockFile()
        return self._lock.tryLock(0)

    def end(self) -> None:
        """Say that it was ended by its keeper."""
        self._lock.unlock()


def was_cut_off(folder: Path) -> bool:
    """Whether a stand ran here, and nobody ended it."""
    if not (folder / FILE).exists():
        return False
    # A lock of a program that lives is none that was left behind; one that is, is taken away.
    return _lock(folder).removeStaleLockFile()


def _lock(folder: Path) -> QLockFile:
    lock = QLockFile(str(folder / FILE))
    lock.setStaleLockTime(0)  # a stand runs for days; only the death of its program makes it stale
    return lock

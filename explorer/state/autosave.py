"""Unsaved changes kept on disk, so that a crash loses at most the last second."""

from __future__ import annotations

import json
import logging
import time
import uuid
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QLockFile, QObject, QRunnable, QThreadPool, Signal

from explorer.files.disk import MEGABYTE, FileError, read_text, write_text
from explorer.files.scenario_json import ScenarioError, parse_scenario
from explorer.scenario.model import Scenario
from explorer.state.collector import Holds
from explorer.state.document import Document
from explorer.state.pacer import FramePacer
from explorer.text import say

if TYPE_CHECKING:
    from explorer.files.study import Study

LOG = logging.getLogger(__name__)
FORMAT = "gloaming-unsaved"
VERSION = 1
INTERVAL_MS = 500
"""Least time from one writing to the next; the first change is written at once."""
LIMIT_BYTES = 6 * MEGABYTE
_FORGOTTEN_S = 86_400.0
"""Age at which a half-written file is nobody's any more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What is kept of one window."""

    scenario: Scenario
    path: Path | None
    """The file that it was opened from or saved to."""
    migrated_from: int | None
    """Version of that file where it is an older one."""
    kept_at: datetime
    study: Study | None = None
    """What belongs to it; None in records of before there were studies."""


class Leftover:
    """Unsaved work of a window whose program is gone; nobody else gets it while this one lives."""

    def __init__(self, file: Path, work: Work, lock: QLockFile) -> None:
        self.work = work
        self._file, self._lock = file, lock

    def discard(self) -> None:
        """Remove it from the disk."""
        self._file.unlink(missing_ok=True)
        self._lock.unlock()

    def release(self) -> None:
        """Leave it for another start."""
        self._lock.unlock()


def claim_leftovers(folder: Path) -> tuple[Leftover, ...]:
    """Unsaved work of programs that ended without closing, the newest first.

    A file whose program still runs is left alone, here and on another machine that shares the
    folder; one that cannot be read stays where it is, with a warning.
    """
    if not folder.is_dir():
        return ()
    _sweep(folder)
    found = []
    for place in sorted(folder.glob("*.json")):
        lock = _lock_of(place)
        if not lock.tryLock(0):
            continue
        try:
            found.append(Leftover(place, _read(place), lock))
        except FileError as error:
            LOG.warning("unsaved work cannot be read: %s", error)
            lock.unlock()
    return tuple(sorted(found, key=_age))


class Autosave(QObject):
    """Keeps the unsaved changes of one document in a file of its own.

    There is a file exactly while there are unsaved changes. It is written in a worker, at once
    and then at most every `interval_ms`, and always after the last change.

    Parameters
    ----------
    document : Document
        Whose changes are kept.
    folder : pathlib.Path
        Where; made when first needed.
    """

    failed = Signal(object)
    """Why changes are not kept, as a `Text`; told once."""

    def __init__(
        self,
        document: Document,
        folder: Path,
        *,
        interval_ms: int = INTERVAL_MS,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._document = document
        self.file = folder / f"{uuid.uuid4().hex}.json"
        self._lock: QLockFile | None = None
        self._told = False
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._relay = _Relay()
        self._relay.failed.connect(self._tell)
        self._relay.written.connect(self._on_written)
        self._writing = 0
        """Number of the write that runs, 0 where none does."""
        self._written = 0
        self._next: Work | None = None
        self._holds = Holds()
        self.destroyed.connect(self._holds.release_all)
        self._pacer = FramePacer(interval_ms, self)
        self._pacer.due.connect(self.keep)
        document.changed.connect(self._pacer.request)
        document.file_changed.connect(self._pacer.request)
        document.study_edited.connect(self._pacer.request)
        document.undo_stack.cleanChanged.connect(self._pacer.request)

    def keep(self) -> None:
        """Write what is unsaved, or remove the file where nothing is."""
        if self._document.is_clean:
            self.discard()
        elif self._take_lock():
            work = Work(
                scenario=self._document.scenario,
                path=self._document.path,
                migrated_from=self._document.migrated_from,
                kept_at=datetime.now().astimezone(),
                study=self._document.study,
            )
            if self._writing:
                self._next = work
            else:
                self._write(work)

    def _write(self, work: Work) -> None:
        self._writing = self._written + 1
        self._holds.take()
        self._pool.start(_Write(self._relay, self.file, work, self._writing))

    def _on_written(self, number: int) -> None:
        """A write has ended; the newest work that came meanwhile is next."""
        if number != self._writing:
            return  # it was waited for
        self._holds.release()
        self._writing, self._written = 0, number
        work, self._next = self._next, None
        if work is not None:
            self._write(work)

    def wait(self) -> None:
        """Wait until what was asked for is on the disk."""
        while self._writing:
            self._pool.waitForDone()
            self._on_written(self._writing)

    def discard(self) -> None:
        """Remove the file: the changes are saved or not wanted."""
        self._next = None
        self.wait()
        if self._lock is not None:
            self.file.unlink(missing_ok=True)
            self._lock.unlock()
            self._lock = None

    def stop(self) -> None:
        """Keep nothing any more and remove the file: the window closes."""
        self._document.changed.disconnect(self._pacer.request)
        self._document.file_changed.disconnect(self._pacer.request)
        self._document.study_edited.disconnect(self._pacer.request)
        self._document.undo_stack.cleanChanged.disconnect(self._pacer.request)
        self._pacer.due.disconnect(self.keep)
        self.discard()

    def _take_lock(self) -> bool:
        if self._lock is None:
            try:
                self.file.parent.mkdir(parents=True, exist_ok=True)
            except OSError as error:
                self._tell(
                    say(
                        "{place} cannot be made: {reason}.",
                        place=str(self.file.parent),
                        reason=error.strerror or str(error),
                    )
                )
                return False
            lock = _lock_of(self.file)
            if not lock.tryLock(0):
                self._tell(say("{place} cannot be written.", place=str(self.file.parent)))
                return False
            self._lock = lock
        return True

    def _tell(self, reason: str) -> None:
        LOG.warning("unsaved changes are not kept: %s", reason)
        if not self._told:
            self._told = True
            warning = say(
                "Unsaved changes would be lost in a crash; save often. {reason}", reason=reason
            )
            self.failed.emit(warning)


class _Relay(QObject):
    """Carries the ends of writes to the interface thread; outlives the writers that hold it."""

    failed = Signal(object)
    written = Signal(int)
    """Number of a write that has ended, well or not."""


class _Write(QRunnable):
    def __init__(self, relay: _Relay, place: Path, work: Work, number: int) -> None:
        super().__init__()
        self._relay, self._place, self._work, self._number = relay, place, work, number

    def run(self) -> None:
        try:
            write_text(self._place, _dump(self._work))
        except FileError as error:
            self._relay.failed.emit(str(error))
        finally:
            self._relay.written.emit(self._number)


def _lock_of(place: Path) -> QLockFile:
    """A lock that names machine and process; it falls when the process ends, however it does."""
    lock = QLockFile(str(place.with_suffix(".lock")))
    lock.setStaleLockTime(0)  # age says nothing: a window may stay open for weeks
    return lock


def _dump(work: Work) -> str:
    from explorer.files.study import study_record

    data = {
        "format": FORMAT,
        "version": VERSION,
        "kept_at": work.kept_at.isoformat(),
        "path": None if work.path is None else str(work.path.absolute()),
        "migrated_from": work.migrated_from,
        "scenario": work.scenario.model_dump(mode="json"),
        "study": None if work.study is None else study_record(work.study),
    }
    return json.dumps(data, ensure_ascii=False, allow_nan=False)


def _read(place: Path) -> Work:
    from explorer.files.study import recorded_study

    text = read_text(place, limit_bytes=LIMIT_BYTES, what="record of unsaved work")
    try:
        data = json.loads(text)
        if data["format"] != FORMAT or data["version"] != VERSION:
            raise ScenarioError(f"{place} was written by another version of the program.")
        return Work(
            scenario=parse_scenario(json.dumps(data["scenario"]), place.name),
            path=None if data["path"] is None else Path(data["path"]),
            migrated_from=data["migrated_from"],
            kept_at=datetime.fromisoformat(data["kept_at"]),
            study=recorded_study(data["study"], place.name) if data.get("study") else None,
        )
    except FileError:
        raise
    except (KeyError, TypeError, ValueError, RecursionError):
        raise ScenarioError(f"{place} is no record of unsaved work.") from None


def _sweep(folder: Path) -> None:
    """Remove what a crash in the middle of a writing left, and locks that guard nothing."""
    for part in folder.glob(".*.part"):
        with suppress(OSError):  # its writer may take it away at this moment
            if time.time() - part.stat().st_mtime > _FORGOTTEN_S:
                part.unlink(missing_ok=True)
    for place in folder.glob("*.lock"):
        if not place.with_suffix(".json").exists():
            lock = _lock_of(place)
            if lock.tryLock(0):
                lock.unlock()


def _age(leftover: Leftover) -> float:
    return -leftover.work.kept_at.timestamp()

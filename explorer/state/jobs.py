"""Work that takes longer than a frame: off the interface thread, and the newest wins."""

from __future__ import annotations

import logging
from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QObject, QRunnable, QThreadPool, Signal, Slot

from explorer.state.collector import Holds

LOG = logging.getLogger(__name__)
Work = Callable[[], object]


class _Relay(QObject):
    """Carries results to the interface thread; outlives the jobs that hold it."""

    finished = Signal(str, int, object, object)


class _Job(QRunnable):
    def __init__(self, relay: _Relay, key: str, number: int, work: Work) -> None:
        super().__init__()
        self._relay, self._key, self._number, self._work = relay, key, number, work

    def run(self) -> None:
        result: object = None
        error: object = None
        try:
            result = self._work()
        except Exception as problem:  # a job must never take the window down
            LOG.exception("job %s failed", self._key)
            error = problem
        self._relay.finished.emit(self._key, self._number, result, error)


class JobRunner(QObject):
    """Runs one job for each key at a time; a newer one replaces what has not been shown yet."""

    started = Signal(str)
    dropped = Signal()
    """Every job was forgotten: what runs may stop."""
    done = Signal(str, object)
    failed = Signal(str, object)
    """Key, and why as a sentence; an object, as Qt would make a plain string of a `Text`."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pool = QThreadPool(self)
        # Two at least, so that a long job, such as a map's, keeps no short one waiting.
        self._pool.setMaxThreadCount(max(2, QThreadPool.globalInstance().maxThreadCount() - 1))
        self._relay = _Relay()
        self._relay.finished.connect(self._on_finished)
        self._newest: dict[str, int] = {}
        self._running: set[str] = set()
        self._waiting: dict[str, Work] = {}
        self._retired = False
        holds = self._holds = Holds()
        # Not the bound method: where Python lets go of the runner first, it would be gone by then.
        self.destroyed.connect(lambda: holds.release_all())
        app = QCoreApplication.instance()
        if app is not None:
            app.aboutToQuit.connect(self.finish)

    def submit(self, key: str, work: Work) -> None:
        """Run `work` off the interface thread; whatever ran under `key` before is superseded.

        Parameters
        ----------
        key : str
            What the job answers, such as ``"break_evens"``.
        work : callable
            Takes nothing, touches no widget, returns the result.
        """
        if self._retired:
            return
        self._newest[key] = self._newest.get(key, 0) + 1
        if key in self._running:
            self._waiting[key] = work
        else:
            self._start(key, work)

    def cancel(self, key: str) -> None:
        """Forget the job under `key`: its result will not be shown."""
        self._newest[key] = self._newest.get(key, 0) + 1
        self._waiting.pop(key, None)

    def busy(self, key: str) -> bool:
        """Whether a job runs under `key`."""
        return key in self._running

    @property
    def is_idle(self) -> bool:
        """Whether nothing runs."""
        return not self._running

    def drop(self) -> None:
        """Forget every job: what waits will not run, what runs will not be shown."""
        self._waiting.clear()
        for key in self._newest:
            self._newest[key] += 1
        self.dropped.emit()

    def retire(self) -> None:
        """Forget every job and take no more: what asked is closing.

        A job begun now would make the deletion of this runner wait for it on the interface
        thread, while it waits for the interpreter that the deletion holds.
        """
        self._retired = True
        self.drop()

    @Slot()
    def finish(self) -> None:
        """Drop what waits and wait for what runs."""
        self.drop()
        self._pool.clear()
        self._pool.waitForDone()

    def _start(self, key: str, work: Work) -> None:
        self._running.add(key)
        self.started.emit(key)
        self._holds.take()
        self._pool.start(_Job(self._relay, key, self._newest[key], work))

    @Slot(str, int, object, object)
    def _on_finished(self, key: str, number: int, result: object, error: object) -> None:
        self._running.discard(key)
        waiting = self._waiting.pop(key, None)
        if waiting is not None:
            self._start(key, waiting)
        try:
            if number == self._newest[key]:
                if error is not None:
                    self.failed.emit(key, str(error))
                else:
                    self.done.emit(key, result)
        finally:
            # Last: the collector that wakes may take away the closed window whose job has ended,
            # and with it the very objects that are being told.
            self._holds.release()

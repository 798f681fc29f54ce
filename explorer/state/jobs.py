"""Work that takes longer than a frame: off the interface thread, and the newest wins."""

from __future__ import annotations

import logging
import pickle
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from functools import partial

from PySide6.QtCore import QCoreApplication, QEvent, QObject, QRunnable, QThreadPool, Signal, Slot

from explorer.engine.course import Interrupted, until
from explorer.state.collector import Holds as CollectorHolds
from explorer.state.holds import Hold
from explorer.state.worker import Question
from explorer.state.workers import Workers

LOG = logging.getLogger(__name__)
Work = Callable[[], object]


class _Relay(QObject):
    """Carries results to the interface thread; outlives the jobs that hold it."""

    step = Signal(str, int, object)
    finished = Signal(str, int, object, object)


@dataclass(eq=False, slots=True, kw_only=True)
class _Task:
    """What runs, or waits, under a key."""

    key: str
    number: int
    work: Work | None = None
    question: Question | None = None
    """One of the two."""
    to_the_end: bool = False
    hold: Hold = field(default_factory=Hold)
    ticket: int | None = None
    """Number that the worker processes gave it; None where a thread does it."""

    def run(self, step: Callable[[object], None]) -> object:
        """Do it in a thread; a march that nobody waits for any more is given up."""
        if self.work is not None and self.to_the_end:
            return self.work()
        with until(self.hold.stop.is_set), suppress(Interrupted):
            if self.work is not None:
                return self.work()
            assert self.question is not None
            for found in self.question(self.hold):
                if self.hold.stop.is_set():
                    break
                step(found)
        return None


class _Job(QRunnable):
    def __init__(self, relay: _Relay, task: _Task) -> None:
        super().__init__()
        self._relay, self._task = relay, task

    def run(self) -> None:
        result: object = None
        error: object = None
        key, number = self._task.key, self._task.number
        try:
            result = self._task.run(partial(self._relay.step.emit, key, number))
        except Exception as problem:  # a job must never take the window down
            LOG.exception("job %s failed", key)
            error = problem
        self._relay.finished.emit(key, number, result, error)


class JobRunner(QObject):
    """Runs one job for each key at a time; a newer one replaces what has not been shown yet.

    Questions, which are pure and grow their answers, go to worker processes where there are any:
    a thread shares the interpreter with a drag. All else, and all of it where no process can be
    started, runs in threads.

    Parameters
    ----------
    workers : Workers, optional
        The worker processes of the program.
    """

    started = Signal(str)
    arrived = Signal(str, object)
    """Key, and one step of the answer to a question."""
    done = Signal(str, object)
    failed = Signal(str, object)
    """Key, and why as a sentence; an object, as Qt would make a plain string of a `Text`."""

    def __init__(self, parent: QObject | None = None, *, workers: Workers | None = None) -> None:
        super().__init__(parent)
        self._pool = QThreadPool(self)
        # Two at least, so that a long job, such as a map's, keeps no short one waiting.
        self._pool.setMaxThreadCount(max(2, QThreadPool.globalInstance().maxThreadCount() - 1))
        self._relay = _Relay()
        self._relay.step.connect(self._on_step)
        self._relay.finished.connect(self._on_finished)
        self._newest: dict[str, int] = {}
        self._running: dict[str, _Task] = {}
        self._waiting: dict[str, _Task] = {}
        self._retired = False
        holds = self._holds = CollectorHolds()
        # Not the bound method: where Python lets go of the runner first, it would be gone by then.
        self.destroyed.connect(lambda: holds.release_all())
        self._workers = workers
        if workers is not None:
            workers.step.connect(self._on_worker_step)
            workers.ended.connect(self._on_worker_ended)
            workers.lost.connect(self._on_worker_lost)
        app = QCoreApplication.instance()
        if app is not None:
            app.aboutToQuit.connect(self.end)

    def submit(self, key: str, work: Work, *, to_the_end: bool = False) -> None:
        """Run `work` in a thread; whatever ran under `key` before is superseded.

        Parameters
        ----------
        key : str
            What the job answers, such as ``"sheet"``.
        work : callable
            Takes nothing, touches no widget, returns the result.
        to_the_end : bool
            Whether it is done even where the window closes meanwhile, such as a file that a person
            has asked for.
        """
        self._take(
            _Task(key=key, number=self._next(key), work=work, to_the_end=to_the_end)
        )

    def ask(self, key: str, question: Question) -> None:
        """Answer a question; whatever ran under `key` before is superseded, and told to stop.

        Parameters
        ----------
        key : str
            What is asked, such as ``"break_evens"``.
        question : callable
            Takes a hold, touches no widget, yields the steps of the answer; to run in another
            process it has to be one that can be pickled, and so have its steps.
        """
        self.cancel(key)
        self._take(_Task(key=key, number=self._next(key), question=question))

    def cancel(self, key: str) -> None:
        """Forget the job under `key`: it may stop, and its result will not be shown."""
        self._next(key)
        self._waiting.pop(key, None)
        task = self._running.get(key)
        if task is not None:
            task.hold.stop.set()
            if task.ticket is not None and self._workers is not None:
                self._workers.stop(task.ticket)
                del self._running[key]

    def rest(self, key: str, seconds: float) -> None:
        """Begin no part of what runs under `key` before so much time has passed. [s]"""
        task = self._running.get(key)
        if task is not None:
            task.hold.rest(seconds)
            if task.ticket is not None and self._workers is not None:
                self._workers.rest(task.ticket, seconds)

    def busy(self, key: str) -> bool:
        """Whether a job runs under `key`."""
        return key in self._running

    @property
    def is_idle(self) -> bool:
        """Whether nothing runs."""
        return not self._running

    def drop(self) -> None:
        """Forget every job: what waits will not run, what runs may stop and will not be shown."""
        for key in tuple(self._newest):
            self.cancel(key)

    def retire(self) -> None:
        """Forget every job and take no more: what asked is closing.

        A job begun now would make the deletion of this runner wait for it on the interface
        thread, while it waits for the interpreter that the deletion holds.
        """
        self._retired = True
        self.drop()

    @Slot()
    def end(self) -> None:
        """Finish, and take no more work: the program ends."""
        self.retire()
        self.finish()

    def finish(self) -> None:
        """Drop what waits, wait for what runs, and take in its end.

        The end lies in the queue of events, which may run no more: a runner that closes would
        hold the pause of the collector, and only the collector could take the runner away.
        """
        self.drop()
        self._pool.clear()
        self._pool.waitForDone()
        QCoreApplication.sendPostedEvents(self, QEvent.Type.MetaCall.value)

    def _next(self, key: str) -> int:
        self._newest[key] = self._newest.get(key, 0) + 1
        return self._newest[key]

    def _take(self, task: _Task) -> None:
        if self._retired:
            return
        if task.key in self._running:
            self._waiting[task.key] = task
        else:
            self._start(task)

    def _start(self, task: _Task) -> None:
        self._running[task.key] = task
        self.started.emit(task.key)
        if not self._hand_over(task):
            self._thread(task)

    def _hand_over(self, task: _Task) -> bool:
        """Give a question to a worker process, where one takes it."""
        if task.question is None or self._workers is None or not self._workers.serve:
            return False
        try:
            body = pickle.dumps(task.question, protocol=5)
        except (pickle.PicklingError, TypeError, AttributeError):
            LOG.warning("the question %s cannot leave this process", task.key, exc_info=True)
            return False
        task.ticket = self._workers.ask(body)
        return True

    def _thread(self, task: _Task) -> None:
        self._holds.take()
        self._pool.start(_Job(self._relay, task))

    def _on_step(self, key: str, number: int, step: object) -> None:
        if number == self._newest[key]:
            self.arrived.emit(key, step)

    @Slot(str, int, object, object)
    def _on_finished(self, key: str, number: int, result: object, error: object) -> None:
        self._running.pop(key, None)
        waiting = self._waiting.pop(key, None)
        if waiting is not None:
            self._start(waiting)
        try:
            self._tell(key, number, result, None if error is None else str(error))
        finally:
            # Last: the collector that wakes may take away the closed window whose job has ended,
            # and with it the very objects that are being told.
            self._holds.release()

    def _tell(self, key: str, number: int, result: object, why: str | None) -> None:
        if number == self._newest[key]:
            if why is not None:
                self.failed.emit(key, why)
            else:
                self.done.emit(key, result)

    def _handed_over(self, ticket: int) -> _Task | None:
        return next((t for t in self._running.values() if t.ticket == ticket), None)

    def _on_worker_step(self, ticket: int, step: object) -> None:
        task = self._handed_over(ticket)
        if task is not None:
            self.arrived.emit(task.key, step)

    def _on_worker_ended(self, ticket: int, why: str | None) -> None:
        task = self._handed_over(ticket)
        if task is not None:
            del self._running[task.key]
            self._tell(task.key, task.number, None, why)

    def _on_worker_lost(self, ticket: int) -> None:
        """The process ended by itself: the answer comes from a thread, anew."""
        task = self._handed_over(ticket)
        if task is not None:
            task.ticket = None
            self._thread(task)

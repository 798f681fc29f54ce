"""The worker processes of the program: started when first needed, and kept."""

from __future__ import annotations

import itertools
import logging
import sys
from collections import deque

from PySide6.QtCore import QCoreApplication, QObject, QProcess, QTimer, Signal

from explorer.state.own_program import start
from explorer.state.worker import ASK, DONE, FAILED, READY, REST, STEP, STOP, framed, messages

LOG = logging.getLogger(__name__)
MOST = 3
"""Two look for the turns of the knobs and for remedies, which takes minutes in a year of daylight:
what somebody opens must not wait for them."""
PATIENCE_MS = 60_000
"""A worker that says nothing for so long after its start will never come."""
GOODBYE_MS = 400
KILLED_MS = 10_000
"""A system that is busy takes its time to end a process; Qt warns of one that it has not."""
COMMAND = "worker"
"""The hidden command of the program that serves as one."""


class _Ender:
    """Ends the processes that run; outlives their owner, as a deleted object has no slots."""

    def __init__(self) -> None:
        self.processes: list[QProcess] = []

    def end(self, process: QProcess) -> None:
        """Let one end, and see that it does."""
        self.processes.remove(process)
        process.closeWriteChannel()
        running = process.state() != QProcess.ProcessState.NotRunning
        if running and not process.waitForFinished(GOODBYE_MS):
            process.kill()
            process.waitForFinished(KILLED_MS)

    def end_all(self) -> None:
        """Where the owner goes without having closed."""
        for process in tuple(self.processes):
            process.blockSignals(True)
            self.end(process)


class _Worker(QObject):
    """One process."""

    said = Signal(object, object)
    """This worker, and a message of its."""
    gone = Signal(object)
    """This worker, which ended by itself."""

    def __init__(self, program: str, ender: _Ender, parent: QObject) -> None:
        super().__init__(parent)
        self._ender = ender
        self.number: int | None = None
        """Of the question in hand."""
        self.is_ready = False
        self._buffer = bytearray()
        self._process = QProcess(self)
        ender.processes.append(self._process)
        self._process.setProcessChannelMode(QProcess.ProcessChannelMode.ForwardedErrorChannel)
        self._process.readyReadStandardOutput.connect(self._on_read)
        self._process.finished.connect(self._on_finished)
        self._process.errorOccurred.connect(self._on_error)
        start(self._process, program, [COMMAND], one_thread=True)
        QTimer.singleShot(PATIENCE_MS, self, self._on_late)

    @property
    def process_id(self) -> int:
        """As the system counts; 0 where it does not run."""
        return int(self._process.processId())

    def tell(self, kind: str, number: int, what: object = None) -> None:
        """Send a message."""
        self._process.write(framed((kind, number, what)))

    def end(self) -> None:
        """Let it end, and see that it does."""
        self._process.finished.disconnect(self._on_finished)
        self._process.errorOccurred.disconnect(self._on_error)
        self._ender.end(self._process)

    def _on_read(self) -> None:
        self._buffer += self._process.readAllStandardOutput().data()
        for message in messages(self._buffer):
            self.said.emit(self, message)

    def _on_finished(self) -> None:
        self._ender.processes.remove(self._process)
        self.gone.emit(self)

    def _on_error(self, error: QProcess.ProcessError) -> None:
        if error == QProcess.ProcessError.FailedToStart:  # `finished` does not follow
            self._on_finished()

    def _on_late(self) -> None:
        if not self.is_ready:
            self._process.kill()


class Workers(QObject):
    """Processes that answer questions away from the window's own interpreter.

    A thread would share the interpreter with a drag, a process does not. Where none can be
    started, or one ends by itself, `lost` hands its question back; after that happened twice
    `serve` is false and whoever has a question answers it in a thread.
    """

    step = Signal(object, object)
    """Number of a question, and one step of its answer."""
    ended = Signal(object, object)
    """Number of a question, and why it failed, or None."""
    lost = Signal(object)
    """Number of a question that no process will answer."""

    def __init__(
        self, parent: QObject | None = None, *, most: int = MOST, program: str = sys.executable
    ) -> None:
        super().__init__(parent)
        self._most, self._program = most, program
        self._workers: list[_Worker] = []
        self._waiting: deque[tuple[int, bytes]] = deque()
        self._numbers = itertools.count(1)
        self._losses = 0
        self._closed = False
        self._ender = _Ender()
        self.destroyed.connect(self._ender.end_all)
        app = QCoreApplication.instance()
        if app is not None:
            app.aboutToQuit.connect(self.close)

    @property
    def serve(self) -> bool:
        """Whether a question may be asked."""
        return not self._closed and self._losses < 2

    @property
    def process_ids(self) -> list[int]:
        """Of the processes that run."""
        return [worker.process_id for worker in self._workers]

    def ask(self, question: bytes) -> int:
        """Begin to answer a pickled question as soon as a worker is free; its number."""
        number = next(self._numbers)
        self._waiting.append((number, question))
        self._go_on()
        return number

    def stop(self, number: int) -> None:
        """Answer a question no further; nothing of it is told from now on."""
        self._waiting = deque(w for w in self._waiting if w[0] != number)
        for worker in self._workers:
            if worker.number == number:
                worker.tell(STOP, number)

    def rest(self, number: int, seconds: float) -> None:
        """Begin no part of an answer before so much time has passed. [s]"""
        for worker in self._workers:
            if worker.number == number:
                worker.tell(REST, number, seconds)

    def close(self) -> None:
        """End every process; nothing can be asked any more."""
        self._closed = True
        self.go_home()

    def go_home(self) -> None:
        """End every process; the next question starts one anew."""
        self._waiting.clear()
        while self._workers:
            worker = self._workers.pop()
            worker.end()
            worker.deleteLater()

    def _go_on(self) -> None:
        free = [w for w in self._workers if w.number is None]
        while self._waiting and free:
            self._give(free.pop(0))
        if self._waiting and len(self._workers) < self._most and self.serve:
            worker = _Worker(self._program, self._ender, self)
            worker.said.connect(self._on_said)
            worker.gone.connect(self._on_gone)
            self._workers.append(worker)
            self._give(worker)

    def _give(self, worker: _Worker) -> None:
        worker.number, question = self._waiting.popleft()
        worker.tell(ASK, worker.number, question)

    def _on_said(self, worker: _Worker, message: tuple[str, int, object]) -> None:
        kind, number, what = message
        if kind == READY:
            worker.is_ready = True
        elif kind == STEP:
            self.step.emit(number, what)
        elif kind in (DONE, FAILED):
            worker.number = None
            self.ended.emit(number, what)
            self._go_on()

    def _on_gone(self, worker: _Worker) -> None:
        if worker not in self._workers:
            return
        self._workers.remove(worker)
        worker.deleteLater()
        self._losses += 1
        LOG.warning("a worker process ended by itself")
        lost = [] if worker.number is None else [worker.number]
        if not self.serve:
            lost += [number for number, _ in self._waiting]
            self._waiting.clear()
        for number in lost:
            self.lost.emit(number)
        self._go_on()

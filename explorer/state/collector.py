"""Where and when Python's collector of cycles may run in a program with windows and workers."""

from __future__ import annotations

import gc
import threading

from PySide6.QtCore import QObject, QTimer, Slot

from explorer.loaded import MIDDLE, OLD

YOUNG = 50_000
"""Allocations between two rounds. A frame under a log makes ten thousand objects and lets as many
go, none of them in a circle: with fewer the collector would look through those that stay every few
frames, for as long as a frame may take."""
LOOK_MS = 500
"""How often it is asked whether there is enough to look through. [ms]"""


class CollectorPause:
    """Keeps Python's collector of cycles still while a worker runs.

    It runs in whatever thread allocates next. In a worker it would destroy what widgets left
    behind, and Qt crashes where a part of a window is destroyed outside the interface thread.
    There is one for the whole program, `COLLECTOR_PAUSE`. `CollectorRounds` heeds it too: a closed
    window that is taken away waits for its worker, which waits for the interpreter.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._holders = 0
        self._was_on = False

    @property
    def is_held(self) -> bool:
        """Whether a worker runs."""
        return self._holders > 0

    def wake(self) -> None:
        """The collector may run from here on: at once, or once everybody has released it."""
        with self._lock:
            self._was_on = True
            if self._holders == 0:
                gc.enable()

    def take(self) -> None:
        """Let the collector rest, until as many have released it as have taken it."""
        with self._lock:
            if self._holders == 0:
                self._was_on = gc.isenabled()
                gc.disable()
            self._holders += 1

    def release(self) -> None:
        """Let the collector go on, in the thread that calls, if nobody else holds it."""
        with self._lock:
            self._holders -= 1
            if self._holders == 0 and self._was_on:
                gc.enable()


COLLECTOR_PAUSE = CollectorPause()
"""The one pause of the program."""


class Holds:
    """The pauses of one owner of workers.

    Both `take` and `release` belong to the interface thread, around the whole life of a job: a
    worker that woke the collector itself would be the one that runs it.
    """

    def __init__(self, pause: CollectorPause = COLLECTOR_PAUSE) -> None:
        self._pause = pause
        self.count = 0

    def take(self) -> None:
        """Before a job is handed to a worker."""
        self._pause.take()
        self.count += 1

    def release(self) -> None:
        """Once the end of a job is known on the interface thread."""
        if self.count:
            self.count -= 1
            self._pause.release()

    def release_all(self) -> None:
        """Where the owner goes before the ends of its jobs arrive; its workers have ended."""
        while self.count:
            self.release()


class CollectorRounds(QObject):
    """Runs the collector between events, and nowhere else.

    By itself it runs in the middle of whatever allocates next. Where that is Qt undoing a
    connection, a window that the collector takes away waits for a lock that is held below it, and
    the program stands still for ever. So it is off from here on, until `end`, and asked for by the
    loop of events.

    Parameters
    ----------
    parent : QObject
        Whose loop of events it is.
    young : int
        Allocations between two rounds, as of `gc.set_threshold`.
    pause : CollectorPause
        What workers hold.
    """

    def __init__(
        self, parent: QObject | None = None, young: int = YOUNG,
        pause: CollectorPause = COLLECTOR_PAUSE,
    ) -> None:
        super().__init__(parent)
        self._young, self._pause = young, pause
        self._count = self._before = 0
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_MS)
        self._timer.timeout.connect(self.look)
        gc.disable()
        self._timer.start()

    @Slot()
    def look(self) -> None:
        """One round, where enough was allocated.

        Through all that there is it goes where nothing happens, since that takes as long as two
        frames, and at last where something always does.
        """
        count, before = gc.get_count()[0], self._before
        self._before = count
        if self._pause.is_held:
            return
        rests = count - before < self._young // 50
        if rests and self._count >= OLD:
            self._round(2)
        elif count >= self._young:
            self._count += 1
            last = self._count >= 2 * MIDDLE * OLD
            self._round(2 if last else 1 if self._count % MIDDLE == 0 else 0)

    def _round(self, generation: int) -> None:
        gc.collect(generation)
        self._before = gc.get_count()[0]
        if generation == 2:
            self._count = 0

    def end(self) -> None:
        """The collector runs by itself again, once no worker is at work."""
        self._timer.stop()
        self._pause.wake()

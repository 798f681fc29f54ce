"""Where Python's collector of cycles may run in a program with windows and workers."""

from __future__ import annotations

import gc
import threading


class CollectorPause:
    """Keeps Python's collector of cycles still while a worker runs.

    It runs in whatever thread allocates next. In a worker it would destroy what widgets left
    behind, and Qt crashes where a part of a window is destroyed outside the interface thread.
    There is one for the whole program, `COLLECTOR_PAUSE`.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._holders = 0
        self._was_on = False

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

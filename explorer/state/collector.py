"""Where Python's collector of cycles may run in a program with windows and workers."""

from __future__ import annotations

import gc
import threading


class CollectorPause:
    """Keeps Python's collector of cycles still while a worker runs.

    It runs in whatever thread allocates next. In a worker it would destroy what widgets left
    behind, and Qt crashes where a part of a window is destroyed outside the interface thread.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._holders = 0
        self._was_on = False

    def __enter__(self) -> None:
        with self._lock:
            if self._holders == 0:
                self._was_on = gc.isenabled()
                gc.disable()
            self._holders += 1

    def __exit__(self, *_: object) -> None:
        with self._lock:
            self._holders -= 1
            if self._holders == 0 and self._was_on:
                gc.enable()


COLLECTOR_PAUSE = CollectorPause()
"""The one pause of the program; every worker holds it while it runs."""

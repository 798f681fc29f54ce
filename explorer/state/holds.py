"""How work in hand is told to stop or to wait; Qt-free, for it is the same in every worker."""

from __future__ import annotations

import time
from threading import Event


class Hold:
    """Asked by the work before each of its parts: whether to stop, after a wait while it must.

    A drag over a map that holds for every place on it does not drop the work on it, but must not
    share the machine with it either.
    """

    def __init__(self) -> None:
        self.stop = Event()
        self._until_s = 0.0

    def rest(self, seconds: float) -> None:
        """Let no part begin before so much time has passed. [s]"""
        self._until_s = time.monotonic() + seconds

    def __call__(self) -> bool:
        """Whether to stop, after what there is to wait for."""
        while not self.stop.is_set() and (left := self._until_s - time.monotonic()) > 0.0:
            self.stop.wait(left)
        return self.stop.is_set()

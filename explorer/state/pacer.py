"""Collapse a burst of change signals into one recomputation a frame."""

from __future__ import annotations

from PySide6.QtCore import QElapsedTimer, QObject, QTimer, Signal

FRAME_MS = 16


class FramePacer(QObject):
    """First request fires on the next turn of the loop, later ones at most every `interval_ms`.

    Unlike a debouncer it keeps firing during a drag, and it always fires once after the last
    request. What takes long to serve is fired again as soon as it is served, with no rest between.
    """

    due = Signal()

    def __init__(self, interval_ms: int = FRAME_MS, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self.catch_up)
        self._interval_ms = interval_ms
        self._since = QElapsedTimer()
        self._dirty = False

    def request(self, *_: object) -> None:
        """Ask for one firing; safe to call any number of times."""
        self._dirty = True
        if not self._timer.isActive():
            self._timer.start(self._left_ms())

    def forget(self) -> None:
        """Take back what was asked for: it is done already."""
        self._dirty = False
        self._timer.stop()

    def catch_up(self) -> bool:
        """Fire at once if anything was asked for, and say so: a frame is about to be painted."""
        if not self._dirty:
            return False
        self._dirty = False
        self._timer.stop()
        self._since.start()
        self.due.emit()
        return True

    def _left_ms(self) -> int:
        """What is left of the interval since the last firing began. [ms]"""
        if not self._since.isValid():
            return 0
        return max(self._interval_ms - int(self._since.elapsed()), 0)

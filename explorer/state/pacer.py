"""Collapse a burst of change signals into one recomputation a frame."""

from __future__ import annotations

from PySide6.QtCore import QObject, QTimer, Signal

FRAME_MS = 16


class FramePacer(QObject):
    """First request fires on the next turn of the loop, later ones at most every `interval_ms`.

    Unlike a debouncer it keeps firing during a drag, and it always fires once after the last
    request.
    """

    due = Signal()

    def __init__(self, interval_ms: int = FRAME_MS, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._tick)
        self._interval_ms = interval_ms
        self._dirty = False

    def request(self, *_: object) -> None:
        """Ask for one firing; safe to call any number of times."""
        self._dirty = True
        if not self._timer.isActive():
            self._timer.start(0)

    def _tick(self) -> None:
        if self._dirty:
            self._dirty = False
            self.due.emit()
            self._timer.start(self._interval_ms)

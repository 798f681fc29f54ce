"""How an operator leaves the stand: hold Esc, both upper corners, or one for the staff code."""

from __future__ import annotations

from PySide6.QtCore import QElapsedTimer, QObject, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from explorer.state.theme import tokens_of
from explorer.text import say

HOLD_MS = 3000
REPEAT_MS = 150
"""A key that repeats itself while it is held may look let go for this long, on a busy machine."""
TOGETHER_MS = 8000
"""Both corners must have been held within this time; a screen with one touch point needs it."""
_TICK_MS = 33
ESC, LEFT, RIGHT = "esc", "left", "right"
LEAVE_TEXT = say(
    "To leave: hold Esc for 3 s, or hold both upper corners for 3 s, together or one after the "
    "other. With a staff code: hold one upper corner for 3 s, let go and type it. A ring shows the "
    "progress while you hold."
)


class LeaveGesture(QObject):
    """Watches what is held, and for how long."""

    progressed = Signal(str, float)
    """Which key or corner, and how far: 0 when let go, 1 when held long enough."""
    completed = Signal()
    corner_held = Signal()
    """One corner was held long enough, and let go."""

    def __init__(self, hold_ms: int = HOLD_MS, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._hold_ms = hold_ms
        self._held: dict[str, QElapsedTimer] = {}
        self._done: dict[str, QElapsedTimer] = {}
        self._timer = QTimer(self)
        self._timer.setInterval(_TICK_MS)
        self._timer.timeout.connect(self._tick)
        self._let_go = QTimer(self)
        self._let_go.setSingleShot(True)
        self._let_go.setInterval(REPEAT_MS)
        self._let_go.timeout.connect(self._on_let_go)

    def press(self, source: str) -> None:
        """Something is held from now on, or still."""
        if source == ESC:
            self._let_go.stop()
        if source not in self._held:
            self._held[source] = _started()
            self._timer.start()

    def release_key(self) -> None:
        """The key was let go, unless it comes down again at once: then it repeats itself.

        Until that is known nothing fills any further, and nothing begins to show.
        """
        if ESC in self._held:
            self._let_go.start()

    def _on_let_go(self) -> None:
        self.release(ESC)

    def release(self, source: str) -> None:
        """Something was let go."""
        if source == ESC:
            self._let_go.stop()
        if self._held.pop(source, None) is not None:
            self.progressed.emit(source, 0.0)
            if source in self._done and source != ESC:
                self.corner_held.emit()
        if not self._held:
            self._timer.stop()

    def _tick(self) -> None:
        for source, since in list(self._held.items()):
            if source == ESC and self._let_go.isActive():
                continue
            share = min(since.elapsed() / self._hold_ms, 1.0)
            self.progressed.emit(source, share)
            if share >= 1.0 and source not in self._done:
                self._done[source] = _started()
        recent = {s for s, since in self._done.items() if since.elapsed() <= TOGETHER_MS}
        for source in set(self._done) - recent - set(self._held):
            del self._done[source]
        if ESC in self._done or {LEFT, RIGHT} <= recent:
            self._timer.stop()
            self._let_go.stop()
            self._held.clear()
            self._done.clear()
            self.completed.emit()


def _started() -> QElapsedTimer:
    timer = QElapsedTimer()
    timer.start()
    return timer


class HoldRing(QWidget):
    """A ring that fills while something is held; invisible otherwise."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.share = 0.0
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def set_share(self, share: float) -> None:
        """Show how far it is."""
        self.share = share
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ring, if anything is held."""
        if self.share <= 0:
            return
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        side = min(self.width(), self.height()) * 0.72
        middle = QRectF(self.rect()).center()
        ring = QRectF(middle.x() - side / 2, middle.y() - side / 2, side, side)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(tokens.color("card"))
        painter.drawEllipse(ring.adjusted(-4, -4, 4, 4))
        pen = QPen(tokens.color("line"), side * 0.14)
        painter.setPen(pen)
        inner = ring.adjusted(side * 0.08, side * 0.08, -side * 0.08, -side * 0.08)
        painter.drawEllipse(inner)
        pen.setColor(tokens.color("accent"))
        painter.setPen(pen)
        painter.drawArc(inner, 90 * 16, round(-360 * 16 * self.share))
        painter.end()


class CornerPad(HoldRing):
    """An upper corner that can be held, by finger or mouse; nothing shows until it is."""

    def __init__(self, source: str, gesture: LeaveGesture, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._source, self._gesture = source, gesture
        gesture.progressed.connect(self._on_progressed)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Hold, by mouse or finger."""
        self._gesture.press(self._source)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go."""
        self._gesture.release(self._source)

    def _on_progressed(self, source: str, share: float) -> None:
        if source == self._source:
            self.set_share(share)

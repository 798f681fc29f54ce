"""How a value looks that is being worked out: neither the one before, nor nothing."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QLabel, QWidget

from explorer.state.language import tr
from explorer.state.theme import Tokens, tokens_of

_VEIL = 0.82
"""Share of the ground that a veil lays over what is below it."""
_LAST_LINE = 0.6


class PendingLabel(QLabel):
    """A text, or in its place, while it is worked out, bars as long as the text before."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.is_pending = False

    def show_text(self, text: str) -> None:
        """Show a text that holds."""
        if self.text() != text:
            self.setText(text)
        self._set(False)

    def set_pending(self) -> None:
        """What is on show holds no longer, and another text is on its way."""
        self._set(True)

    def _set(self, pending: bool) -> None:
        if pending != self.is_pending:
            self.is_pending = pending
            self.setAccessibleDescription(tr("Working it out…") if pending else "")
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the text, or its bars."""
        if not self.is_pending:
            super().paintEvent(event)
        elif self.text():
            painter = QPainter(self)
            metrics, room = self.fontMetrics(), QRectF(self.contentsRect())
            lines = max(round(room.height() / metrics.lineSpacing()), 1) if self.wordWrap() else 1
            width = min(float(metrics.horizontalAdvance(self.text())), room.width())
            each = room.height() / lines
            for line in range(lines):
                share = _LAST_LINE if line and line == lines - 1 else 1.0
                where = QRectF(room.left(), room.top() + line * each, share * width, each)
                if self.alignment() & Qt.AlignmentFlag.AlignRight:
                    where.moveRight(room.right())
                paint_bar(painter, where, tokens_of(self.palette()))
            painter.end()


def paint_bar(painter: QPainter, room: QRectF, tokens: Tokens) -> None:
    """A bar in the place of a line of text."""
    high = min(0.5 * room.height(), 9.0)
    bar = QRectF(room.left(), room.center().y() - high / 2, room.width(), high)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(tokens.color("line"))
    painter.drawRoundedRect(bar, high / 2, high / 2)


class Veil(QWidget):
    """Mutes a widget while what it shows belongs to an earlier design."""

    def __init__(self, over: QWidget) -> None:
        super().__init__(over)
        self._over = over
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        over.installEventFilter(self)
        self.hide()

    def set_drawn(self, drawn: bool) -> None:
        """Draw it over, or take it away."""
        if drawn == self.isHidden():
            self.setGeometry(self._over.rect())
            self.setVisible(drawn)
            self.raise_()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Stay as large as what it covers."""
        if event.type() == QEvent.Type.Resize and isinstance(watched, QWidget):
            self.setGeometry(watched.rect())
        return False

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ground, thin enough to see that something lies below."""
        painter = QPainter(self)
        painter.setOpacity(_VEIL)
        painter.fillRect(event.rect(), tokens_of(self.palette()).color("card"))
        painter.end()

"""One line at the edge of a window: why something did not happen, or that it did."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.widgets.buttons import PillButton


class NoticeBar(QWidget):
    """Hidden until there is something to say; Esc, its button or the next change hides it."""

    spoken_role = QAccessible.Role.AlertMessage

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._fault = True
        self.text = QLabel()
        self.text.setWordWrap(True)
        self.text.setTextFormat(Qt.TextFormat.PlainText)
        self._close = PillButton()
        self._close.setText(tr("Dismiss"))
        self._close.setMinimumHeight(26)
        self._close.clicked.connect(self.hide)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(20, 5, 8, 5)
        layout.addWidget(self.text, 1)
        layout.addWidget(self._close)
        self.hide()

    def say(self, sentence: str, *, fault: bool = True) -> None:
        """Show a sentence, which may be a `Text`, and speak it; with red in front for a fault."""
        self._fault = fault
        shown = tr(sentence)
        self.text.setText(shown)
        self.setAccessibleName(shown)
        self.show()
        self.update()
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, shown))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint ground, outline and a bar in front."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(tokens.color("edge"), 1.0))
        painter.setBrush(tokens.color("card"))
        frame = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        painter.drawRoundedRect(frame, 6, 6)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(tokens.color("falls_short" if self._fault else "accent"))
        painter.drawRoundedRect(QRectF(7, 7, 4, self.height() - 14), 2, 2)
        painter.end()

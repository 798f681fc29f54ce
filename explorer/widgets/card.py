"""The rounded panel that everything in the window sits on."""

from __future__ import annotations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QWidget

from explorer.state.theme import tokens_of

RADIUS = 10.0


class Card(QFrame):
    """A panel with a hairline and round corners."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.NoFrame)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint ground and outline."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(tokens.color("line"), 1.0))
        painter.setBrush(tokens.color("card"))
        rect = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        painter.drawRoundedRect(rect, RADIUS, RADIUS)
        painter.end()

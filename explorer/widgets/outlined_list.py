"""A list with a ring around it while it has the keyboard."""

from __future__ import annotations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractScrollArea, QListWidget

from explorer.state.theme import tokens_of
from explorer.widgets.paint import focus_pen


class OutlinedList(QListWidget):
    """The style's own shows the chosen row alike with the keyboard and without."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the rows, then the ring."""
        super().paintEvent(event)
        paint_ring(self)

    def scrollContentsBy(self, dx: int, dy: int) -> None:
        """Scroll the rows, and leave the ring where it is."""
        super().scrollContentsBy(dx, dy)
        self.viewport().update()


def paint_ring(view: QAbstractScrollArea) -> None:
    """A ring within what scrolls, while it has the keyboard."""
    if view.hasFocus():
        painter = QPainter(view.viewport())
        # A view may have a ground of its own: the theme is that of its window.
        painter.setPen(focus_pen(tokens_of(view.window().palette())))
        painter.drawRect(QRectF(view.viewport().rect()).adjusted(1.0, 1.0, -1.0, -1.0))
        painter.end()

"""How a veil over the page is painted: everything below dimmed, one card in the middle."""

from __future__ import annotations

from PySide6.QtCore import QRect, QRectF
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QWidget

from explorer.state.theme import tokens_of

_DIMMED = 0.82


def paint_veil(widget: QWidget, card: QRect) -> None:
    """Paint veil and card; to be called from the widget's own paint event."""
    tokens = tokens_of(widget.palette())
    painter = QPainter(widget)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    ground = tokens.color("paper")
    ground.setAlphaF(_DIMMED)
    painter.fillRect(widget.rect(), ground)
    painter.setPen(QPen(tokens.color("ink"), 2.0))
    painter.setBrush(tokens.color("card"))
    painter.drawRoundedRect(QRectF(card), 16, 16)
    painter.end()

"""Small signs that several widgets paint: the three fillings, the hazard triangle, event marks."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QMenu, QWidget

from explorer.advice.verdict import State
from explorer.state.theme import CONTRAST, Tokens, tokens_of


def paint_filling(painter: QPainter, rect: QRectF, state: State, tokens: Tokens) -> None:
    """The sign of an outcome: a full disc runs, a half disc is marginal, an open ring fails."""
    color = tokens.color(state)
    width = max(1.5, rect.width() / 9)
    inner = rect.adjusted(width / 2, width / 2, -width / 2, -width / 2)
    painter.setPen(QPen(color, width))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if state == "runs":
        painter.setBrush(color)
    painter.drawEllipse(inner)
    if state == "marginal":
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(color)
        painter.drawPie(inner, 90 * 16, 180 * 16)


def paint_unlit(painter: QPainter, rect: QRectF, tokens: Tokens) -> None:
    """A lamp of the sign that is not lit: a thin outline only."""
    painter.setPen(QPen(tokens.color("edge"), 1.25))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawEllipse(rect.adjusted(1, 1, -1, -1))


def paint_hazard(painter: QPainter, rect: QRectF, tokens: Tokens) -> None:
    """A warning triangle with its exclamation mark; never one of the three fillings."""
    top = QPointF(rect.center().x(), rect.top() + 1)
    left = QPointF(rect.left() + 1, rect.bottom() - 1)
    right = QPointF(rect.right() - 1, rect.bottom() - 1)
    outline = QPen(tokens.color("ink"), 1.5)
    outline.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.setPen(outline)
    painter.setBrush(tokens.color("hazard"))
    painter.drawPolygon(QPolygonF([top, left, right]))
    stroke = QPen(tokens.color("on_hazard"), max(1.8, rect.width() / 11))
    stroke.setCapStyle(Qt.PenCapStyle.RoundCap)
    painter.setPen(stroke)
    x, height = rect.center().x(), rect.height()
    painter.drawLine(QPointF(x, rect.top() + 0.40 * height), QPointF(x, rect.top() + 0.64 * height))
    painter.drawPoint(QPointF(x, rect.top() + 0.82 * height))


def paint_mark(painter: QPainter, at: QPointF, kind: str, tokens: Tokens) -> None:
    """What happened at a moment: up connects, down disconnects, a cross browns out."""
    ground = tokens.color("card")
    size = 5.0
    if kind == "brown_out":
        for color, width in ((ground, 5.0), (tokens.color("falls_short"), 2.25)):
            painter.setPen(QPen(color, width))
            painter.drawLine(at + QPointF(-size, -size), at + QPointF(size, size))
            painter.drawLine(at + QPointF(-size, size), at + QPointF(size, -size))
        return
    role = {"connect": "accent", "disconnect": "threshold"}.get(kind, "soft")
    painter.setPen(QPen(ground, 1.5))
    painter.setBrush(tokens.color(role))
    if kind == "connect":
        points = [QPointF(0, -size), QPointF(size, size - 1), QPointF(-size, size - 1)]
    elif kind == "disconnect":
        points = [QPointF(0, size), QPointF(size, 1 - size), QPointF(-size, 1 - size)]
    else:
        painter.drawEllipse(at, 3.0, 3.0)
        return
    painter.drawPolygon(QPolygonF([at + point for point in points]))


def focus_pen(tokens: Tokens) -> QPen:
    """The ring around what has the focus: two pixels, three to one against its ground."""
    return QPen(tokens.color("accent"), 2.0)


def mix(one: QColor, other: QColor, share: float) -> QColor:
    """Opaque colour between two others; `share` 1 gives `one`."""
    return QColor.fromRgbF(
        one.redF() * share + other.redF() * (1 - share),
        one.greenF() * share + other.greenF() * (1 - share),
        one.blueF() * share + other.blueF() * (1 - share),
    )


def frame_menus(root: QWidget) -> None:
    """Outline the menus below a widget in high contrast; the style's own is black there."""
    tokens = tokens_of(root.palette())
    sheet = f"QMenu {{ border: 1px solid {tokens.edge} }}" if tokens is CONTRAST else ""
    for menu in root.findChildren(QMenu):
        if menu.styleSheet() != sheet:
            menu.setStyleSheet(sheet)

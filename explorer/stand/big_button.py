"""Buttons for fingers: a sign, a word, or a scenario with its verdict."""

from __future__ import annotations

import math
from typing import Literal

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QColor,
    QFontMetrics,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from explorer.advice.verdict import State
from explorer.stand.fit_label import sized_font
from explorer.state.theme import Tokens, tokens_of
from explorer.widgets.buttons import pressed_by_enter
from explorer.widgets.paint import focus_pen, paint_filling

Sign = Literal["", "less", "more", "back", "pause", "go_on", "earlier", "later", "star", "code"]
_SMALLEST = 0.7
_PAD = 0.5
"""Space around the text, in sizes of its font."""


class BigButton(QAbstractButton):
    """Acts on release, repeats where asked to, and shows its focus.

    Parameters
    ----------
    text : str
        What it says; also its accessible name.
    sign : str
        Sign painted in place of, or before, the text.
    primary : bool
        Whether it is filled: the one thing to do.
    """

    def __init__(
        self,
        text: str = "",
        *,
        sign: Sign = "",
        primary: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._sign: Sign = sign
        self._primary, self._px, self._least = primary, 16.0, 44
        self._state: State | None = None
        self._won = False
        self.setText(text)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)

    def set_sizes(self, px: float, least: int) -> None:
        """Size of the text, and least width and height. [px]"""
        self._px, self._least = px, least
        self.setMinimumSize(least, least)
        self.updateGeometry()
        self.update()

    def set_sign(self, sign: Sign) -> None:
        """Show another sign."""
        self._sign = sign
        self.update()

    def set_state(self, state: State) -> None:
        """Show the filling of a verdict before the text."""
        self._state = state
        self.update()

    def set_won(self, won: bool) -> None:
        """Whether something was won with it: a star in its corner."""
        if won != self._won:
            self._won = won
            self.update()

    def sizeHint(self) -> QSize:
        """Text, sign and the space around them."""
        if not self.text():
            return QSize(self._least, self._least)
        high = max(round(2.2 * self._px), self._least)
        return QSize(self.width_of(self.text()), high)

    def width_of(self, text: str) -> int:
        """Width with a text, its sign and the space around them. [px]"""
        metrics = self._metrics_width(text)
        width = metrics + 2.4 * _PAD * self._px + (1.4 * self._px if self._has_mark() else 0)
        return max(round(width), self._least)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter presses it too."""
        if not pressed_by_enter(self, event):
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint ground, focus ring, sign and text."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        frame = QRectF(self.rect()).adjusted(2, 2, -2, -2)
        radius = min(frame.height() * 0.22, 0.9 * self._px)
        chosen = self.isChecked()
        painter.setPen(QPen(tokens.color("accent" if chosen else "edge"), 3.0 if chosen else 1.5))
        ground = "accent" if self._primary else "card"
        if self.isDown():
            ground = "ink" if self._primary else "line"
        painter.setBrush(tokens.color(ground))
        painter.drawRoundedRect(frame, radius, radius)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            pen = focus_pen(tokens)
            pen.setWidthF(3.0)
            if self._primary:
                pen.setColor(tokens.color("on_accent"))
            painter.setPen(pen)
            painter.drawRoundedRect(frame.adjusted(4, 4, -4, -4), radius - 3, radius - 3)
        self._paint_content(painter, tokens)
        if self._won:
            side = 1.1 * self._px
            corner = QRectF(frame.right() - side - 2, frame.top() + 2, side, side)
            paint_sign(painter, corner, "star", tokens, "ink")
        painter.end()

    def _paint_content(self, painter: QPainter, tokens: Tokens) -> None:
        role = "on_accent" if self._primary else "ink"
        if not self.isEnabled():
            role = "ghost"
        if not self.text():
            side = min(self.width(), self.height()) * 0.36
            middle = QRectF(self.rect()).center()
            area = QRectF(middle.x() - side / 2, middle.y() - side / 2, side, side)
            paint_sign(painter, area, self._sign, tokens, role)
            return
        pad = round(_PAD * self._px)
        inside = self.rect().adjusted(pad, 2, -pad, -2)
        mark = 0.95 * self._px
        shift = round(1.45 * self._px) if self._has_mark() else 0
        wraps = int(Qt.TextFlag.TextWordWrap.value)
        flags = int(Qt.AlignmentFlag.AlignLeft.value) | wraps
        text_box = inside.adjusted(shift, 0, 0, 0)
        painter.setFont(sized_font(self.fitting_px(), bold=self._primary))
        needed = painter.boundingRect(text_box, flags, self.text())
        left = inside.left() + max((inside.width() - shift - needed.width()) // 2, 0)
        if self._state is not None:
            left = inside.left()
        middle_y = self.rect().center().y()
        area = QRectF(left, middle_y - mark / 2 + 1, mark, mark)
        if self._state is not None:
            paint_filling(painter, area, self._state, tokens)
        elif self._sign:
            paint_sign(painter, area, self._sign, tokens, role)
        painter.setPen(tokens.color(role))
        text_box.moveLeft(left + shift)
        text_box.setRight(inside.right())
        painter.drawText(text_box, flags | int(Qt.AlignmentFlag.AlignVCenter.value), self.text())

    def fitting_px(self) -> float:
        """Largest text, up to the size asked for, at which every word is inside. [px]"""
        pad = round(_PAD * self._px)
        shift = round(1.45 * self._px) if self._has_mark() else 0
        room = self.rect().adjusted(pad + shift, 2, -pad, -2)
        flags = int((Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap).value)
        px = self._px
        while px > _SMALLEST * self._px:
            metrics = QFontMetrics(sized_font(px, bold=self._primary))
            needed = metrics.boundingRect(room, flags, self.text())
            if needed.height() <= room.height() and needed.width() <= room.width():
                break
            px *= 0.96
        return px

    def _has_mark(self) -> bool:
        return bool(self._sign) or self._state is not None

    def _metrics_width(self, text: str) -> int:
        return QFontMetrics(sized_font(self._px, bold=True)).horizontalAdvance(text)


def paint_sign(painter: QPainter, area: QRectF, sign: Sign, tokens: Tokens, role: str) -> None:
    """A simple sign in strokes: minus, plus, a turning arrow, pause, play, chevrons."""
    color = tokens.color(role)
    pen = QPen(color, max(2.0, area.width() * 0.14))
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    middle, half = area.center(), area.width() / 2
    if sign in ("less", "more"):
        painter.drawLine(middle - QPointF(half, 0), middle + QPointF(half, 0))
        if sign == "more":
            painter.drawLine(middle - QPointF(0, half), middle + QPointF(0, half))
    elif sign in ("earlier", "later"):
        out = half * (0.45 if sign == "earlier" else -0.45)
        tip = middle - QPointF(out, 0)
        for up in (-1, 1):
            painter.drawLine(tip, middle + QPointF(out, up * half * 0.85))
    elif sign == "pause":
        for side in (-0.4, 0.4):
            x = middle.x() + side * half
            painter.drawLine(
                QPointF(x, middle.y() - 0.7 * half), QPointF(x, middle.y() + 0.7 * half)
            )
    elif sign == "go_on":
        painter.setBrush(color)
        painter.drawPolygon(
            [
                middle + QPointF(-0.5 * half, -0.75 * half),
                middle + QPointF(0.75 * half, 0),
                middle + QPointF(-0.5 * half, 0.75 * half),
            ]
        )
    elif sign == "star":
        painter.setBrush(color)
        painter.setPen(QPen(color, 1.0))
        painter.drawPolygon(star(middle, half))
    elif sign == "code":
        _paint_code(painter, area, color)
    elif sign == "back":
        ring = area.adjusted(half * 0.12, half * 0.12, -half * 0.12, -half * 0.12)
        painter.drawArc(ring, 150 * 16, -300 * 16)
        tip = QPointF(middle.x() - 0.76 * half, middle.y() - 0.44 * half)
        painter.drawLine(tip, tip + QPointF(0.05 * half, -0.5 * half))
        painter.drawLine(tip, tip + QPointF(0.52 * half, 0.1 * half))


def star(middle: QPointF, radius: float, turn: float = 0.0) -> QPolygonF:
    """A star of five points, one of them up; `turn` is in radians."""
    corners = []
    for k in range(10):
        reach = radius if k % 2 == 0 else radius * 0.44
        angle = turn + math.pi * (k / 5 - 0.5)
        corners.append(middle + QPointF(reach * math.cos(angle), reach * math.sin(angle)))
    return QPolygonF(corners)


def _paint_code(painter: QPainter, area: QRectF, color: QColor) -> None:
    """Three finder squares and a dot, as a code has them."""
    side = area.width() * 0.4
    pen = QPen(color, max(1.5, area.width() * 0.1))
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    painter.setPen(pen)
    far = area.width() - side
    for x, y in ((0.0, 0.0), (far, 0.0), (0.0, far)):
        painter.drawRect(QRectF(area.left() + x, area.top() + y, side, side))
    painter.fillRect(QRectF(area.left() + far, area.top() + far, side * 0.55, side * 0.55), color)

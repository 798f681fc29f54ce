"""A captured current against time, its phases over it, and two handles around a cycle."""

from __future__ import annotations

import math

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from explorer.advice.capture.extremes import extremes
from explorer.advice.capture.record import Capture
from explorer.physics.arrays import FloatArray
from explorer.quantity import show
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import Tokens, tokens_of
from explorer.widgets.drawers.curve_plot import ticks
from explorer.words.moments import time_ticks

_LEFT, _RIGHT, _TOP, _BOTTOM = 62.0, 12.0, 20.0, 18.0
_TICK_PX, _GRIP_PX, _TAB_PX = 84.0, 9.0, 11.0
_DECADES = 6
"""Decades that a logarithmic axis shows at most."""
_ZOOM = 1.0015
"""Factor of one unit of the wheel."""


class CapturePlot(QWidget):
    """Paints the lowest and highest current of every column of pixels, however many readings.

    Parameters
    ----------
    name : str
        What a screen reader calls it, already translated.
    title : str
        What stands above the curve, already translated.
    """

    spoken_role = QAccessible.Role.Graphic

    handles_moved = Signal(float, float)
    """A handle was let go: from and to. [s]"""

    def __init__(self, name: str, title: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title = title
        self._capture: Capture | None = None
        self._from_s, self._to_s = 0.0, 1.0
        self._handles: tuple[float, float] | None = None
        self._held: int | None = None
        self._steps: tuple[FloatArray, FloatArray] | None = None
        self._log = False
        self._band: tuple[tuple[float, float, int], FloatArray, FloatArray] | None = None
        self.setAccessibleName(name)
        self.setMinimumSize(300, 120)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    @property
    def shown_s(self) -> tuple[float, float]:
        """Ends of what is seen. [s]"""
        return self._from_s, self._to_s

    def set_capture(self, capture: Capture | None) -> None:
        """Show a capture whole, without handles and phases."""
        self._capture, self._handles, self._steps, self._band = capture, None, None, None
        if capture is not None:
            self._from_s, self._to_s = 0.0, capture.span_s
        self.update()

    def set_span(self, from_s: float, to_s: float) -> None:
        """Show a part of it."""
        if self._capture is not None and to_s > from_s:
            length = min(to_s - from_s, self._capture.span_s)
            self._from_s = min(max(from_s, 0.0), self._capture.span_s - length)
            self._to_s = self._from_s + length
            self.update()

    def set_handles(self, from_s: float, to_s: float) -> None:
        """Show where a cycle begins and ends."""
        self._handles = (from_s, to_s)
        self.update()

    def set_steps(self, edges_s: FloatArray, current_a: FloatArray) -> None:
        """Show phases over the capture: edges of shape (n + 1,) and currents of shape (n,)."""
        self._steps = (edges_s, current_a)
        self.update()

    def set_log(self, on: bool) -> None:
        """Show the current in decades."""
        self._log = on
        self.update()

    def sizeHint(self) -> QSize:
        """Room for labels."""
        return QSize(620, 210)

    # --- the pointer ---

    @property
    def _area(self) -> QRectF:
        return QRectF(self.rect()).adjusted(_LEFT, _TOP, -_RIGHT, -_BOTTOM)

    def x_of(self, time_s: float) -> float:
        """Where a moment lies. [px]"""
        area = self._area
        return area.left() + (time_s - self._from_s) / (self._to_s - self._from_s) * area.width()

    def time_at(self, x: float) -> float:
        """Moment below a place. [s]"""
        area = self._area
        share = (x - area.left()) / max(area.width(), 1.0)
        return self._from_s + share * (self._to_s - self._from_s)

    def _handle_at(self, x: float) -> int | None:
        if self._handles is None:
            return None
        far = [abs(self.x_of(t) - x) for t in self._handles]
        nearest = int(np.argmin(far))
        return nearest if far[nearest] <= _GRIP_PX else None

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the handle under the pointer."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._held = self._handle_at(event.position().x())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag a handle, or show that one can be dragged."""
        x = event.position().x()
        if self._held is None:
            over = self._handle_at(x) is not None
            self.setCursor(Qt.CursorShape.SizeHorCursor if over else Qt.CursorShape.ArrowCursor)
            return
        assert self._handles is not None
        assert self._capture is not None
        least = 2.0 * (self._to_s - self._from_s) / max(self._area.width(), 1.0)
        begin, end = self._handles
        if self._held == 0:
            begin = min(max(self.time_at(x), 0.0), end - least)
        else:
            end = max(min(self.time_at(x), self._capture.span_s), begin + least)
        self.set_handles(max(begin, 0.0), min(end, self._capture.span_s))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Tell where the handle was let go."""
        if self._held is not None and self._handles is not None:
            self._held = None
            self.handles_moved.emit(*self._handles)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Show all of it."""
        if self._capture is not None and self._handle_at(event.position().x()) is None:
            self.set_span(0.0, self._capture.span_s)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom around the pointer; sideways moves along."""
        if self._capture is None:
            return
        turn, length = event.angleDelta(), self._to_s - self._from_s
        if abs(turn.x()) > abs(turn.y()):
            shift = -turn.x() / 1200.0 * length
            self.set_span(self._from_s + shift, self._to_s + shift)
        else:
            at = self.time_at(event.position().x())
            share = (at - self._from_s) / length
            length *= _ZOOM ** -turn.y()
            self.set_span(at - share * length, at + (1.0 - share) * length)
        event.accept()

    # --- painting ---

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint axes, band, phases and handles."""
        painter = QPainter(self)
        painter.setFont(theme.font("small"))
        tokens = tokens_of(self.palette())
        if self._capture is not None and self._area.width() > 8 and self._area.height() > 8:
            self._paint(painter, tokens)
        painter.end()

    def _paint(self, painter: QPainter, tokens: Tokens) -> None:
        area = self._area
        low, high = self._seen(max(int(area.width()), 2))
        scale = _Scale(area, low, high, log=self._log)
        self._paint_cycle(painter, tokens)
        scale.paint_axis(painter, tokens)
        self._paint_times(painter, tokens)
        painter.save()
        painter.setClipRect(area)
        columns = np.arange(len(low), dtype=float) + (area.left() + 0.5)
        top, bottom = scale.y(high), scale.y(low)
        thick = np.maximum(bottom - top, 1.0)
        painter.setPen(QPen(tokens.color("threshold"), 1.0))
        painter.drawLines([
            QLineF(x, y, x, y + d)
            for x, y, d in zip(columns.tolist(), top.tolist(), thick.tolist(), strict=True)
        ])  # fmt: skip
        # Neighbours whose bands do not touch are joined, as the current jumps between them.
        self._join(painter, columns, top, bottom)
        if self._steps is not None:
            self._paint_steps(painter, tokens, scale)
        painter.restore()
        self._paint_names(painter, tokens)
        self._paint_handles(painter, tokens)

    def _seen(self, columns: int) -> tuple[FloatArray, FloatArray]:
        """Extremes of what is seen, kept while the same is seen."""
        assert self._capture is not None
        key = (self._from_s, self._to_s, columns)
        if self._band is None or self._band[0] != key:
            self._band = (key, *extremes(self._capture, self._from_s, self._to_s, columns))
        return self._band[1], self._band[2]

    @staticmethod
    def _join(
        painter: QPainter, columns: FloatArray, top: FloatArray, bottom: FloatArray
    ) -> None:
        falls = np.flatnonzero(bottom[:-1] < top[1:])
        rises = np.flatnonzero(top[:-1] > bottom[1:])
        lines = [QLineF(columns[k], bottom[k], columns[k], top[k + 1]) for k in falls.tolist()]
        lines += [QLineF(columns[k], top[k], columns[k], bottom[k + 1]) for k in rises.tolist()]
        painter.drawLines(lines)

    def _paint_steps(self, painter: QPainter, tokens: Tokens, scale: _Scale) -> None:
        assert self._steps is not None
        edges, amps = self._steps
        xs = [self.x_of(t) for t in edges.tolist()]
        ys = scale.y(amps).tolist()
        corners: list[QPointF] = []
        for k, y in enumerate(ys):
            corners += [QPointF(xs[k], y), QPointF(xs[k + 1], y)]
        for role, width in (("card", 4.0), ("accent", 2.0)):
            pen = QPen(tokens.color(role), width)
            pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
            painter.setPen(pen)
            painter.drawPolyline(QPolygonF(corners))

    def _paint_cycle(self, painter: QPainter, tokens: Tokens) -> None:
        """The ground of the chosen cycle."""
        if self._handles is None:
            return
        area = self._area
        left, right = (min(max(self.x_of(t), area.left()), area.right()) for t in self._handles)
        painter.fillRect(QRectF(left, area.top(), right - left, area.height()),
                         tokens.color("lit"))  # fmt: skip

    def _paint_handles(self, painter: QPainter, tokens: Tokens) -> None:
        if self._handles is None:
            return
        area = self._area
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for time_s, side in zip(self._handles, (-1.0, 1.0), strict=True):
            x = self.x_of(time_s)
            if not area.left() - 1 <= x <= area.right() + 1:
                continue
            painter.setPen(QPen(tokens.color("ink"), 1.5))
            painter.drawLine(QPointF(x, area.top()), QPointF(x, area.bottom()))
            painter.setBrush(tokens.color("ink"))
            painter.drawPolygon(QPolygonF([
                QPointF(x, area.top()), QPointF(x + side * _TAB_PX, area.top()),
                QPointF(x, area.top() + _TAB_PX),
            ]))  # fmt: skip
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)

    def _paint_times(self, painter: QPainter, tokens: Tokens) -> None:
        area = self._area
        painter.setPen(QPen(tokens.color("line"), 1.0))
        painter.drawLine(area.bottomLeft(), area.bottomRight())
        painter.setPen(tokens.color("soft"))
        most = max(int(area.width() / _TICK_PX), 2)
        for tick in time_ticks(self._from_s, self._to_s, most, False, 0.0):
            x = self.x_of(tick.time_s)
            left = min(max(x - 40.0, 2.0), self.width() - 82.0)
            box = QRectF(left, area.bottom() + 3, 80, 14)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, tr(tick.label))

    def _paint_names(self, painter: QPainter, tokens: Tokens) -> None:
        x, y = self._area.left(), self._area.top() - 7
        names = [("ink", self._title)]
        if self._steps is not None:
            names += [("threshold", tr("captured ▮")), ("accent", tr("phases —"))]
        for role, text in names:
            painter.setPen(tokens.color(role))
            painter.drawText(QPointF(x, y), text)
            x += painter.fontMetrics().horizontalAdvance(text) + 14


class _Scale:
    """From currents to heights, even or in decades."""

    def __init__(self, area: QRectF, low: FloatArray, high: FloatArray, *, log: bool) -> None:
        self._area, self._log = area, log
        top = max(float(high.max()), 1e-12)
        if log:
            positive = low[low > 0]
            least = float(positive.min()) if len(positive) else top
            self._high = math.ceil(math.log10(top) * 20.0) / 20.0 + 0.05
            self._low = max(math.floor(math.log10(least)), self._high - _DECADES)
            self._low = min(self._low, self._high - 1.0)
        else:
            self._high = 1.08 * top
            self._low = min(1.08 * float(low.min()), 0.0)

    def y(self, amps: FloatArray) -> FloatArray:
        """Heights. [px]"""
        value = np.asarray(amps, float)
        if self._log:
            value = np.log10(np.maximum(value, 10.0 ** (self._low - 1.0)))
        share = (value - self._low) / (self._high - self._low)
        height: FloatArray = self._area.bottom() - share * self._area.height()
        return height

    def paint_axis(self, painter: QPainter, tokens: Tokens) -> None:
        """Currents beside the axis, with a hairline each."""
        area = self._area
        if self._log:
            values = [10.0**n for n in range(math.ceil(self._low), math.floor(self._high) + 1)]
        else:
            about = max(int(area.height() / 30.0), 2)
            values = ticks(self._high, about)
            if self._low < -0.05 * self._high:
                values += [-v for v in ticks(-self._low, about) if v > 0]
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        for value, y in zip(values, self.y(np.array(values)).tolist(), strict=True):
            painter.setPen(QPen(tokens.color("line"), 1.0))
            painter.drawLine(QPointF(area.left(), y), QPointF(area.right(), y))
            painter.setPen(tokens.color("soft"))
            painter.drawText(QRectF(0, y - 7, _LEFT - 6, 14), right, tr(show(value, "A")))

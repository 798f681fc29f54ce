"""A logged run over the forecast against time, and what is left between them in a strip below."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, QSize, QSizeF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from explorer.advice.bench.forecast import Agreement
from explorer.quantity import show
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import LIGHT, Tokens, tokens_of
from explorer.widgets.drawers.export import Picture
from explorer.words.fit import small_volts
from explorer.words.moments import time_ticks

FloatArray = NDArray[np.float64]
_LEFT, _RIGHT, _TOP, _BOTTOM, _GAP = 50.0, 10.0, 18.0, 18.0, 12.0
_STRIP_SHARE = 0.3
_TICK_PX = 64.0
PICTURE = QSize(960, 420)
"""Least size of an exported picture. [px]"""
_LEAST_V = 0.05
"""Least height of the voltage axis: a resting store is a straight line, not its noise. [V]"""


class BenchPlot(QWidget):
    """Paints one `Agreement`, and a second forecast after a fit."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._found: Agreement | None = None
        self._fitted: Agreement | None = None
        self.setAccessibleName(tr("Logged voltage and forecast in V against time"))
        self.setMinimumSize(250, 150)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def set_agreement(self, found: Agreement, description: str) -> None:
        """Show a run and its forecast."""
        self._found, self._fitted = found, None
        self.setAccessibleDescription(description)
        self.update()

    def set_fitted(self, fitted: Agreement | None) -> None:
        """Show the forecast with fitted values too, or none."""
        self._fitted = fitted
        self.update()

    def sizeHint(self) -> QSize:
        """Room for both plots."""
        return QSize(420, 170)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint axes, band, curves and strip."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.paint_on(painter, QRectF(self.rect()), tokens_of(self.palette()))
        painter.end()

    def picture(self, title: str, subtitle: str) -> Picture:
        """Both plots for a file."""
        size = self.size().expandedTo(PICTURE)
        return Picture(title=title, subtitle=subtitle, size=size, paint=self._paint_picture)

    def _paint_picture(self, painter: QPainter) -> None:
        size = self.size().expandedTo(PICTURE)
        self.paint_on(painter, QRectF(QPointF(), QSizeF(size)), LIGHT)

    def paint_on(self, painter: QPainter, rect: QRectF, tokens: Tokens) -> None:
        """Paint both plots somewhere else, such as into a file."""
        painter.setFont(theme.font("small"))
        if self._found is not None:
            _Picture(painter, rect, self._found, self._fitted, tokens).paint()


class _Picture:
    """One painting."""

    def __init__(
        self,
        painter: QPainter,
        rect: QRectF,
        found: Agreement,
        fitted: Agreement | None,
        tokens: Tokens,
    ) -> None:
        self._painter, self._found, self._fitted = painter, found, fitted
        self._tokens = tokens
        whole = rect.adjusted(_LEFT, _TOP, -_RIGHT, -_BOTTOM)
        strip = _STRIP_SHARE * whole.height()
        self._area = whole.adjusted(0, 0, 0, -strip - _GAP)
        self._strip = QRectF(whole.left(), whole.bottom() - strip, whole.width(), strip)
        low = min(float(found.run.low_v.min()), float(found.forecast_v.min()))
        high = max(float(found.run.high_v.max()), float(found.forecast_v.max()))
        spare = 0.5 * max(_LEAST_V - (high - low), 0.0) + 0.04 * (high - low)
        self._low, self._high = low - spare, high + spare
        reach = float(np.abs(found.residual_v).max())
        self._reach = max(1.1 * reach, 1e-3)

    def paint(self) -> None:
        """Everything, from the ground up."""
        found, t = self._found, self._found.run.time_s
        painter, tokens = self._painter, self._tokens
        painter.save()
        painter.setClipRect(self._area)
        edges = [*self._points(t, found.low_v), *reversed(self._points(t, found.high_v))]
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(tokens.color("envelope"))
        painter.drawPolygon(QPolygonF(edges))
        painter.setPen(QPen(tokens.color("accent"), 1.6))
        painter.drawPolyline(QPolygonF(self._points(t, found.forecast_v)))
        self._paint_readings()
        if self._fitted is not None:
            painter.setPen(QPen(tokens.color("ink"), 1.4, Qt.PenStyle.DashLine))
            after = self._fitted
            painter.drawPolyline(QPolygonF(self._points(after.run.time_s, after.forecast_v)))
        painter.restore()
        self._paint_strip()
        self._paint_axes()
        self._paint_names()

    def _x(self, time_s: FloatArray) -> FloatArray:
        area = self._area
        return area.left() + time_s / max(self._found.run.span_s, 1e-9) * area.width()

    def _points(self, time_s: FloatArray, volts: FloatArray) -> list[QPointF]:
        area = self._area
        y = area.bottom() - (volts - self._low) / (self._high - self._low) * area.height()
        return [QPointF(a, b) for a, b in zip(self._x(time_s).tolist(), y.tolist(), strict=True)]

    def _paint_readings(self) -> None:
        run, painter = self._found.run, self._painter
        painter.setPen(QPen(self._tokens.color("threshold"), 1.0))
        low, high = self._points(run.time_s, run.low_v), self._points(run.time_s, run.high_v)
        for top, bottom in zip(high, low, strict=True):
            if bottom.y() - top.y() > 2.0:
                painter.drawLine(top, bottom)
        pen = QPen(self._tokens.color("threshold"), 2.4)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(pen)
        painter.drawPoints(self._points(run.time_s, run.volts))

    def _paint_strip(self) -> None:
        """Reading less forecast, around its line of zero."""
        painter, tokens, strip = self._painter, self._tokens, self._strip
        middle = strip.center().y()
        painter.setPen(QPen(tokens.color("edge"), 1.0))
        painter.drawLine(QPointF(strip.left(), middle), QPointF(strip.right(), middle))
        y = middle - self._found.residual_v / self._reach * strip.height() / 2.0
        x = self._x(self._found.run.time_s)
        pen = QPen(tokens.color("threshold"), 2.0)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(pen)
        painter.drawPoints([QPointF(a, b) for a, b in zip(x.tolist(), y.tolist(), strict=True)])
        painter.setPen(tokens.color("soft"))
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        reach = self._reach
        for value, at in ((reach, strip.top()), (0.0, middle), (-reach, strip.bottom())):
            shown = min(max(at, strip.top() + 5), strip.bottom() - 5)
            box = QRectF(0, shown - 7, _LEFT - 5, 14)
            painter.drawText(box, right, tr(small_volts(value)))

    def _paint_axes(self) -> None:
        painter, tokens, area, strip = self._painter, self._tokens, self._area, self._strip
        painter.setPen(QPen(tokens.color("line"), 1.0))
        for box in (area, strip):
            painter.drawLine(box.topLeft(), box.bottomLeft())
            painter.drawLine(box.bottomLeft(), box.bottomRight())
        painter.setPen(tokens.color("soft"))
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        for volts in _round_between(self._low, self._high, max(int(area.height() / 26.0), 1)):
            y = area.bottom() - (volts - self._low) / (self._high - self._low) * area.height()
            painter.drawText(QRectF(0, y - 7, _LEFT - 5, 14), right, tr(show(volts, "V")))
        run = self._found.run
        most = max(int(area.width() / _TICK_PX), 2)
        dated = run.start is not None
        for tick in time_ticks(0.0, run.span_s, most, dated, run.start_of_week_s):
            x = float(self._x(np.array([tick.time_s]))[0])
            left = min(max(x - 32.0, area.left() - 12.0), area.right() - 52.0)
            box = QRectF(left, strip.bottom() + 3, 64, 14)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, tr(tick.label))

    def _paint_names(self) -> None:
        """Which curve is which, above the plot."""
        painter, tokens = self._painter, self._tokens
        names = [("threshold", tr("log ••")), ("accent", tr("forecast —"))]
        if self._fitted is not None:
            names.append(("ink", tr("fitted – –")))
        x = self._area.left()
        for role, text in names:
            painter.setPen(tokens.color(role))
            painter.drawText(QPointF(x, _TOP - 6), text)
            x += painter.fontMetrics().horizontalAdvance(text) + 14


def _round_between(low: float, high: float, most: int) -> list[float]:
    """Round values between two ends, at most so many."""
    raw = (high - low) / most
    power = 10.0 ** np.floor(np.log10(raw))
    step = next(m * power for m in (1.0, 2.0, 5.0, 10.0) if m * power >= raw * 0.999)
    first, last = int(np.ceil(low / step)), int(np.floor(high / step))
    return [float(i * step) for i in range(first, last + 1)]

"""How a number is spread over many built units: bars for new ones, a line for aged ones."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QAccessible, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from explorer.quantity import show
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.widgets.paint import mix
from explorer.words.drawers import percent

FloatArray = NDArray[np.float64]
_BINS = 40
_TOP, _BOTTOM, _SIDE = 20.0, 20.0, 4.0
_TIMES = (
    1.0, 2.0, 5.0, 10.0, 30.0, 60.0, 120.0, 300.0, 600.0, 1800.0, 3600.0, 7200.0, 18_000.0,
    36_000.0, 57_600.0, 86_400.0, 129_600.0, 172_800.0, 216_000.0, 259_200.0, 345_600.0,
    432_000.0, 604_800.0, 864_000.0, 1_209_600.0, 1_728_000.0, 2_592_000.0, 5_184_000.0,
)  # fmt: skip
_RATIOS = (
    0.05, 0.1, 0.2, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.5, 1.7, 2.0, 3.0, 5.0, 10.0,
    20.0,
)  # fmt: skip


class Histogram(QWidget):
    """Bars over a logarithmic axis.

    Parameters
    ----------
    title : str
        What is spread, in the language on show.
    unit : str
        ``"×"`` or ``"s"``.
    mark : float, optional
        A value with a line of its own.
    mark_text : str
        What stands at that line, in the language on show.
    """

    spoken_role = QAccessible.Role.Graphic

    def __init__(
        self,
        title: str,
        unit: str,
        mark: float | None = None,
        mark_text: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._title, self._unit, self._mark, self._mark_text = title, unit, mark, mark_text
        self._edges = np.array([0.0, 1.0])
        self._new = np.zeros(1)
        self._aged: FloatArray | None = None
        self._never = 0.0
        self.setMinimumSize(120, 70)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName(title)

    def sizeHint(self) -> QSize:
        """Wider than high."""
        return QSize(200, 90)

    def set_values(self, new: FloatArray, aged: FloatArray | None) -> None:
        """Show other builds; infinite values are told in words."""
        parts = [_logs(v) for v in (new, aged) if v is not None]
        known = np.concatenate(parts)
        self._never = float(np.mean(~np.isfinite(new))) if new.size else 0.0
        if known.size == 0:
            self._new, self._aged = np.zeros(1), None
        else:
            low, high = np.quantile(known, [0.002, 0.998]).tolist()
            if self._mark is not None and len(known):
                low, high = min(low, np.log(self._mark)), max(high, np.log(self._mark))
            room = max(0.06 * (high - low), 0.02)
            self._edges = np.linspace(low - room, high + room, _BINS + 1)
            self._new = _shares(parts[0], self._edges, new.size)
            if aged is not None:
                self._aged = _shares(parts[1], self._edges, aged.size)
            else:
                self._aged = None
        self.setAccessibleDescription(self._spoken(new))
        self.update()

    def _spoken(self, new: FloatArray) -> str:
        known = new[np.isfinite(new)]
        if known.size == 0:
            return tr("never")
        low, middle, high = np.quantile(known, [0.05, 0.5, 0.95]).tolist()
        return tr(
            "half of the devices lie below {middle}, nine in ten between {low} and {high}",
            middle=show(middle, self._unit),
            low=show(low, self._unit),
            high=show(high, self._unit),
        )

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint title, bars, line and axis."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(theme.font("small"))
        align = Qt.AlignmentFlag
        area = QRectF(self.rect()).adjusted(_SIDE, _TOP, -_SIDE, -_BOTTOM)
        painter.setPen(tokens.color("ink"))
        head = QRectF(_SIDE, 0, self.width() - 2 * _SIDE, _TOP - 2)
        painter.drawText(head, align.AlignLeft | align.AlignVCenter, self._title)
        if self._never > 0:
            painter.setPen(tokens.color("falls_short"))
            text = tr("{share} never", share=percent(self._never))
            painter.drawText(head, align.AlignRight | align.AlignVCenter, text)
        top = max(float(self._new.max()), float(self._aged.max()) if self._aged is not None else 0)
        if top > 0:
            self._paint_bars(painter, area, top)
        painter.setPen(QPen(tokens.color("edge"), 1.0))
        painter.drawLine(area.bottomLeft(), area.bottomRight())
        self._paint_axis(painter, area)
        painter.end()

    def _x(self, area: QRectF, value: float) -> float:
        low, high = self._edges[0], self._edges[-1]
        return float(area.left() + (np.log(value) - low) / (high - low) * area.width())

    def _paint_bars(self, painter: QPainter, area: QRectF, top: float) -> None:
        tokens = tokens_of(self.palette())
        step = area.width() / self._new.size
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(mix(tokens.color("accent"), tokens.color("card"), 0.65))
        for i, share in enumerate(self._new.tolist()):
            height = share / top * area.height()
            if height > 0:
                left = area.left() + i * step
                painter.drawRect(
                    QRectF(left, area.bottom() - max(height, 1.0), step - 0.7, max(height, 1.0))
                )
        if self._aged is not None:
            points = [area.bottomLeft()]
            for i, share in enumerate(self._aged.tolist()):
                y = area.bottom() - share / top * area.height()
                points += [
                    QPointF(area.left() + i * step, y), QPointF(area.left() + (i + 1) * step, y)
                ]
            points.append(area.bottomRight())
            painter.setPen(QPen(tokens.color("threshold"), 1.5))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawPolyline(QPolygonF(points))
        if self._mark is not None:
            x = self._x(area, self._mark)
            painter.setPen(QPen(tokens.color("ink"), 1.0, Qt.PenStyle.DashLine))
            painter.drawLine(QLineF(x, area.top() - 2, x, area.bottom()))
            width = painter.fontMetrics().horizontalAdvance(self._mark_text)
            left = x + 4 if x + 6 + width < area.right() else x - 4 - width
            painter.setPen(tokens.color("ink"))
            painter.drawText(QPointF(left, area.top() + 9), self._mark_text)

    def _paint_axis(self, painter: QPainter, area: QRectF) -> None:
        tokens = tokens_of(self.palette())
        painter.setPen(tokens.color("soft"))
        low, high = np.exp(self._edges[0]), np.exp(self._edges[-1])
        values = [v for v in (_TIMES if self._unit == "s" else _RATIOS) if low <= v <= high]
        if len(values) < 2:
            values = [float(f"{v:.2g}") for v in np.geomspace(low, high, 4)[1:-1]]
        # The one value that everything is read against comes first.
        values.sort(key=self._order)
        taken: list[tuple[float, float]] = []
        for value in values:
            x, text = self._x(area, value), tr(show(value, self._unit))
            half = painter.fontMetrics().horizontalAdvance(text) / 2 + 5
            free = all(x + half < a or x - half > b for a, b in taken)
            if free and area.left() - 2 <= x - half + 5 and x + half - 5 <= area.right() + 2:
                taken.append((x - half, x + half))
                painter.drawLine(QLineF(x, area.bottom(), x, area.bottom() + 3))
                box = QRectF(x - half, area.bottom() + 3, 2 * half, 15)
                painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)

    def _order(self, value: float) -> tuple[bool, float]:
        return value != self._mark, value


def _logs(values: FloatArray) -> FloatArray:
    known = values[np.isfinite(values)]
    return np.asarray(np.log(np.clip(known, 1e-3, 1e12)))


def _shares(logs: FloatArray, edges: FloatArray, total: int) -> FloatArray:
    counts, _ = np.histogram(np.clip(logs, edges[0], edges[-1]), edges)
    return counts / max(total, 1)

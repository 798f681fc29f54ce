"""Builds that run as points over two measures, the front among them, one of it chosen."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QAccessible, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from explorer.advice.build_front import Builds, measure_of
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import Tokens, tokens_of
from explorer.widgets.drawers.curve_plot import paint_frame
from explorer.widgets.paint import focus_pen, mix
from explorer.words.builds import MEASURE_UNITS, measure_label, measure_text

FloatArray = NDArray[np.float64]
_LEFT, _TOP, _RIGHT, _BOTTOM = 52.0, 18.0, 12.0, 30.0
_NEAR_PX = 14.0
_MOST_POINTS = 3000
_STEPS = (1.0, 2.0, 5.0)


class BuildsPlot(QWidget):
    """Both axes are logarithmic: parts differ a hundredfold in price and size."""

    spoken_role = QAccessible.Role.Graphic
    chosen = Signal(int)
    """Number of a build on the front."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._found: Builds | None = None
        self._at = -1
        self._x, self._y = "price", "panel_cm2"
        self.setMinimumSize(180, 130)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(tr("Builds that run, over two measures"))

    def sizeHint(self) -> QSize:
        """Room for some labels."""
        return QSize(420, 220)

    def set_builds(self, found: Builds) -> None:
        """Show what was found so far."""
        self._found = found
        self.update()

    def set_axes(self, x: str, y: str) -> None:
        """Put other measures on the axes."""
        self._x, self._y = x, y
        self.update()

    def set_chosen(self, number: int) -> None:
        """Mark one of the front; -1 marks none."""
        self._at = number
        self.update()

    def _front(self) -> tuple[FloatArray, FloatArray]:
        front = () if self._found is None else self._found.front
        return (
            np.array([measure_of(b, self._x) for b in front], dtype=np.float64),
            np.array([measure_of(b, self._y) for b in front], dtype=np.float64),
        )

    def _area(self) -> QRectF:
        return QRectF(self.rect()).adjusted(_LEFT, _TOP, -_RIGHT, -_BOTTOM)

    def _scale(self, name: str) -> tuple[float, float]:
        """Ends of an axis, as logarithms."""
        assert self._found is not None
        values = self._found.measures[name]
        known = np.log10(values[np.isfinite(values) & (values > 0)])
        if not known.size:
            return 0.0, 1.0
        low, high = float(known.min()), float(known.max())
        room = max(0.06 * (high - low), 0.05)
        return low - room, high + room

    def _places(self, x: FloatArray, y: FloatArray) -> FloatArray:
        """Points on the widget, shape (n, 2); what is not known lies nowhere, nothing at the edge.

        A build without a part of some currency costs nothing in it.
        """
        area = self._area()
        (x0, x1), (y0, y1) = self._scale(self._x), self._scale(self._y)
        with np.errstate(invalid="ignore", divide="ignore"):
            at_x, at_y = np.where(x == 0.0, x0, np.log10(x)), np.where(y == 0.0, y0, np.log10(y))
        across = area.left() + (at_x - x0) / (x1 - x0) * area.width()
        up = area.bottom() - (at_y - y0) / (y1 - y0) * area.height()
        return np.column_stack((across, up))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint axes, all points, the front and the chosen one."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(theme.font("small"))
        tokens = tokens_of(self.palette())
        if self._found is not None and len(self._found.measures[self._x]):
            self._paint_axes(painter, tokens)
            self._paint_points(painter, tokens)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(focus_pen(tokens))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))
        painter.end()

    def _paint_axes(self, painter: QPainter, tokens: Tokens) -> None:
        area = self._area()
        paint_frame(painter, area, tokens)
        painter.setPen(tokens.color("soft"))
        titles = [
            tr(measure_label(name)) + (f" [{unit}]" if (unit := MEASURE_UNITS.get(name)) else "")
            for name in (self._x, self._y)
        ]
        painter.drawText(QPointF(4.0, 12.0), titles[1])
        room = QRectF(area.left(), area.bottom() + 14.0, area.width(), 16.0)
        painter.drawText(room, Qt.AlignmentFlag.AlignRight, titles[0])
        low, high = self._scale(self._x)
        for value in _round_values(low, high):
            x = area.left() + (np.log10(value) - low) / (high - low) * area.width()
            where = QRectF(x - 30.0, area.bottom() + 2.0, 60.0, 14.0)
            painter.drawText(where, Qt.AlignmentFlag.AlignHCenter, tr(_number(value)))
        low, high = self._scale(self._y)
        for value in _round_values(low, high):
            y = area.bottom() - (np.log10(value) - low) / (high - low) * area.height()
            where = QRectF(0.0, y - 8.0, _LEFT - 6.0, 16.0)
            flags = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(where, flags, tr(_number(value)))

    def _paint_points(self, painter: QPainter, tokens: Tokens) -> None:
        assert self._found is not None
        table = self._found.measures
        places = self._places(table[self._x], table[self._y])
        step = max(len(places) // _MOST_POINTS, 1)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(mix(tokens.color("soft"), tokens.color("card"), 0.45))
        for x, y in places[::step].tolist():
            if np.isfinite(x) and np.isfinite(y):
                painter.drawEllipse(QPointF(x, y), 1.8, 1.8)
        for number, (x, y) in enumerate(self._places(*self._front()).tolist()):
            if not (np.isfinite(x) and np.isfinite(y)):
                continue
            painter.setPen(QPen(tokens.color("card"), 1.5))
            painter.setBrush(tokens.color("runs"))
            painter.drawEllipse(QPointF(x, y), 5.5, 5.5)
            if number == self._at:
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.setPen(QPen(tokens.color("ink"), 2.0))
                painter.drawEllipse(QPointF(x, y), 9.5, 9.5)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Choose the nearest of the front."""
        if self._found is None or not self._found.front:
            return
        places = self._places(*self._front())
        at = event.position()
        far = np.hypot(places[:, 0] - at.x(), places[:, 1] - at.y())
        far[np.isnan(far)] = np.inf
        if far.min() <= _NEAR_PX:
            self.chosen.emit(int(far.argmin()))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows walk the front."""
        steps = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        front = () if self._found is None else self._found.front
        if front and event.key() in steps:
            step = steps[Qt.Key(event.key())]
            self.chosen.emit(int(np.clip(self._at + step, 0, len(front) - 1)))
        else:
            super().keyPressEvent(event)


def _round_values(low: float, high: float) -> list[float]:
    """Round values between two logarithms; every decade alone where there are many."""
    steps = _STEPS if high - low < 2.0 else _STEPS[:1]
    powers = range(int(np.floor(low)) - 1, int(np.ceil(high)) + 1)
    values = [step * 10.0**power for power in powers for step in steps]
    return [value for value in values if low <= np.log10(value) <= high]


def _number(value: float) -> str:
    return measure_text("price", value) if value < 1.0 else f"{value:g}"

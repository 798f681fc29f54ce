"""A charger's curves: efficiency over input power, or charging current over the store's voltage."""

from __future__ import annotations

import math

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from explorer.advice.charger_curve import ChargerCurve
from explorer.physics.arrays import FloatArray
from explorer.quantity import show
from explorer.state.language import tr
from explorer.state.theme import Tokens
from explorer.text import figure
from explorer.widgets.drawers.curve_plot import HEADROOM, CurvePlot, paint_frame, ticks
from explorer.widgets.plots.overlay import paint_label
from explorer.words.panel import charger_spoken

_LEFT, _RIGHT, _TOP, _BOTTOM = 62.0, 14.0, 20.0, 30.0
_ASIDE, _BELOW = 7, 16
"""From the working point to its word, and down to the word's base line. [px]"""
_STYLES = (
    Qt.PenStyle.SolidLine, Qt.PenStyle.DashLine, Qt.PenStyle.DotLine, Qt.PenStyle.DashDotLine,
)  # fmt: skip


class ChargerPlot(CurvePlot[ChargerCurve]):
    """Paints one `ChargerCurve`: curves, rows of a table as rings, the working point as a disc."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(tr("What the charger passes on"), parent)

    def spoken(self, curve: ChargerCurve) -> str:
        """What the charger does in the present light."""
        return tr(charger_spoken(curve))

    def paint_curve(self, painter: QPainter, curve: ChargerCurve, tokens: Tokens) -> None:
        """Paint axes, curves, points."""
        _Picture(painter, QRectF(self.rect()), curve, tokens).paint()


class _Picture:
    """One painting."""

    def __init__(
        self, painter: QPainter, rect: QRectF, curve: ChargerCurve, tokens: Tokens
    ) -> None:
        self._painter, self._curve, self._tokens = painter, curve, tokens
        self._area = rect.adjusted(_LEFT, _TOP, -_RIGHT, -_BOTTOM)
        self._is_share = curve.kind == "efficiency"
        inputs = np.log10(curve.inputs) if self._is_share else curve.inputs
        self._from, self._to = float(inputs[0]), float(inputs[-1])
        most = max(float(values.max()) for _, values in curve.curves)
        self._top = 1.0 if self._is_share else HEADROOM * max(most, 1e-12)

    def paint(self) -> None:
        """Everything, from the ground up."""
        painter, tokens, curve = self._painter, self._tokens, self._curve
        self._paint_axes()
        for index, (_, values) in enumerate(curve.curves):
            pen = QPen(tokens.color("accent"), 2.0, _STYLES[index % len(_STYLES)])
            painter.setPen(pen)
            painter.drawPolyline(QPolygonF(self._points(curve.inputs, values)))
        painter.setBrush(tokens.color("card"))
        for _, power, share in curve.rows:
            painter.setPen(QPen(tokens.color("accent"), 1.5))
            painter.drawEllipse(
                self._points(np.array([power]), np.array([share]))[0], 3.5, 3.5
            )
        if curve.working is not None:
            at = self._points(*(np.array([value]) for value in curve.working))[0]
            painter.setPen(QPen(tokens.color("card"), 1.5))
            painter.setBrush(tokens.color("threshold"))
            painter.drawEllipse(at, 4.5, 4.5)
            text = tr("now") if self._is_share else tr("at connect")
            word = self.word_box(at, text)
            paint_label(painter, word.bottomLeft(), text, "threshold", tokens)
        self._paint_names()

    def word_box(self, at: QPointF, text: str) -> QRectF:
        """Where the word of the working point stands, above its base line: clear of the curve.

        Below it, at the side where the curve leaves it room: a share rises with its power, a
        current falls with the store's voltage.
        """
        metrics, area = self._painter.fontMetrics(), self._area
        width = metrics.horizontalAdvance(text)
        at_left, at_right = at.x() - _ASIDE - width, at.x() + _ASIDE
        fits = at_right + width <= area.right() if self._is_share else at_left < area.left()
        left = at_right if fits else at_left
        return QRectF(left, at.y() + _BELOW - metrics.ascent(), width, metrics.ascent())

    def _points(self, inputs: FloatArray, values: FloatArray) -> list[QPointF]:
        area = self._area
        along = np.log10(inputs) if self._is_share else inputs
        x = area.left() + (along - self._from) / (self._to - self._from) * area.width()
        y = area.bottom() - np.asarray(values) / self._top * area.height()
        return [QPointF(a, b) for a, b in zip(x.tolist(), y.tolist(), strict=True)]

    def _paint_axes(self) -> None:
        painter, tokens, area = self._painter, self._tokens, self._area
        paint_frame(painter, area, tokens)
        painter.setPen(tokens.color("soft"))
        if self._is_share:
            decades = range(math.ceil(self._from - 1e-9), math.floor(self._to + 1e-9) + 1)
            along, unit = [10.0**n for n in decades], "W"
        else:
            along, unit = ticks(self._to, 6), "V"
        for value, at in zip(
            along, self._points(np.array(along), np.zeros(len(along))), strict=True
        ):
            left = min(max(at.x() - 30, 2.0), area.right() - 44)
            box = QRectF(left, area.bottom() + 3, 60, 14)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, tr(show(value, unit)))
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        for value in ticks(self._top):
            y = area.bottom() - value / self._top * area.height()
            text = figure(f"{100 * value:.0f} %") if self._is_share else show(value, "A")
            painter.drawText(QRectF(0, y - 7, _LEFT - 6, 14), right, tr(text))

    def _paint_names(self) -> None:
        """Which curve is which, above the plot."""
        painter, x, y = self._painter, 2.0, self._area.top() - 7
        for index, (name, _) in enumerate(self._curve.curves):
            text = tr(name)
            width = painter.fontMetrics().horizontalAdvance(text)
            if x + 22 + width > self._area.right() + _RIGHT:
                break
            pen = QPen(self._tokens.color("accent"), 2.0, _STYLES[index % len(_STYLES)])
            painter.setPen(pen)
            painter.drawLine(QPointF(x, y - 4), QPointF(x + 18, y - 4))
            painter.drawText(QPointF(x + 22, y), text)
            x += 22 + width + 12

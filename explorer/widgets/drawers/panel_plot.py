"""Current and power of the panel against its voltage, with named working points."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from explorer.advice.panel_curve import PanelCurve, WorkingPoint
from explorer.quantity import show
from explorer.state.language import tr
from explorer.state.theme import Tokens
from explorer.widgets.drawers.curve_plot import HEADROOM, CurvePlot, paint_frame, ticks
from explorer.widgets.plots.overlay import paint_label
from explorer.words.panel import numbered

_LEFT, _RIGHT, _TOP, _BOTTOM = 62.0, 62.0, 20.0, 30.0


class PanelPlot(CurvePlot[PanelCurve]):
    """Paints one `PanelCurve`: current as a solid line, power dashed, points as discs."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(tr("Panel current in A and power in W against voltage in V"), parent)

    def spoken(self, curve: PanelCurve) -> str:
        """The working points, one after the other."""
        return "; ".join(
            f"{tr(p.label)} {tr(show(p.voltage_v, 'V'))}, {tr(show(p.current_a, 'A'))}, "
            f"{tr(show(p.power_w, 'W'))}"
            for p in curve.points
        )

    def paint_curve(self, painter: QPainter, curve: PanelCurve, tokens: Tokens) -> None:
        """Paint axes, curves, points."""
        _Picture(painter, QRectF(self.rect()), curve, tokens).paint()


class _Picture:
    """One painting of one curve."""

    def __init__(
        self, painter: QPainter, rect: QRectF, curve: PanelCurve, tokens: Tokens
    ) -> None:
        self._painter, self._curve, self._tokens = painter, curve, tokens
        self._area = rect.adjusted(_LEFT, _TOP, -_RIGHT, -_BOTTOM)
        self._top_v = float(curve.voltage_v.max()) * 1.04
        self._top_a = float(curve.current_a.max()) * HEADROOM
        self._top_w = float(curve.power_w.max()) * HEADROOM

    def paint(self) -> None:
        """Everything, from the ground up."""
        self._paint_axes()
        for values, top, role, style in (
            (self._curve.current_a, self._top_a, "accent", Qt.PenStyle.SolidLine),
            (self._curve.power_w, self._top_w, "threshold", Qt.PenStyle.DashLine),
        ):
            self._painter.setPen(QPen(self._tokens.color(role), 2.0, style))
            pairs = zip(self._curve.voltage_v.tolist(), values.tolist(), strict=True)
            self._painter.drawPolyline(
                QPolygonF([self._at(v, y / top) for v, y in pairs if v >= 0])
            )
        for number, point in numbered(self._curve):
            self._paint_point(number, point)

    def _at(self, volts: float, share: float) -> QPointF:
        area = self._area
        return QPointF(
            area.left() + volts / self._top_v * area.width(),
            area.bottom() - share * area.height(),
        )

    def _paint_axes(self) -> None:
        painter, tokens, area = self._painter, self._tokens, self._area
        paint_frame(painter, area, tokens)
        painter.drawLine(area.topRight(), area.bottomRight())
        middle = Qt.AlignmentFlag.AlignVCenter
        right, left = Qt.AlignmentFlag.AlignRight | middle, Qt.AlignmentFlag.AlignLeft | middle
        painter.setPen(tokens.color("soft"))
        for volts in ticks(self._top_v, 6):
            at = self._at(volts, 0.0)
            box = QRectF(at.x() - 30, area.bottom() + 3, 60, 14)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, tr(show(volts, "V")))
        for top, unit, x, side, role in (
            (self._top_a, "A", 0.0, right, "accent"),
            (self._top_w, "W", area.right() + 5, left, "threshold"),
        ):
            painter.setPen(tokens.color(role))
            for value in ticks(top):
                y = area.bottom() - value / top * area.height()
                text = tr(show(value, unit))
                painter.drawText(QRectF(x, y - 7, _LEFT - 5, 14), side, text)
        painter.setPen(tokens.color("accent"))
        painter.drawText(QPointF(2, area.top() - 7), tr("current, solid"))
        painter.setPen(tokens.color("threshold"))
        text = tr("power, dashed")
        width = painter.fontMetrics().horizontalAdvance(text)
        painter.drawText(QPointF(area.right() + _RIGHT - width - 4, area.top() - 7), text)

    def _paint_point(self, number: int, point: WorkingPoint) -> None:
        """A disc on either curve, and its number."""
        painter, tokens = self._painter, self._tokens
        for share, role in (
            (point.current_a / self._top_a, "accent"),
            (point.power_w / self._top_w, "threshold"),
        ):
            painter.setPen(QPen(tokens.color("card"), 1.5))
            painter.setBrush(tokens.color(role))
            painter.drawEllipse(self._at(point.voltage_v, share), 4.5, 4.5)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        at = self._at(point.voltage_v, point.power_w / self._top_w)
        # Neighbours keep apart: odd numbers stand left above, even ones right below.
        shift = QPointF(-7, -7) if number % 2 else QPointF(7, 15)
        paint_label(painter, at + shift, str(number), "ink", tokens, right=bool(number % 2))

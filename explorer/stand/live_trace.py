"""The readings of the real device over the forecast of its exhibit, with one plain sentence."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from explorer.stand.fit_label import sized_font
from explorer.stand.legibility import Sizes
from explorer.stand.live_meter import LiveView
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.widgets.card import Card
from explorer.widgets.paint import mix
from explorer.words.moments import time_ticks

_TICKS = 6


class LiveTrace(Card):
    """Covers the trace while the exhibit is as its keeper left it and a meter is read."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.view: LiveView | None = None
        self.said = ""
        self._sizes: Sizes | None = None
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAccessibleName(tr("Voltage of the real device and its forecast, V"))
        self.hide()

    def set_sizes(self, sizes: Sizes) -> None:
        """Draw to other sizes."""
        self._sizes = sizes
        self.update()

    def set_view(self, view: LiveView | None, fault: str) -> None:
        """Show another state of the run.

        Parameters
        ----------
        view : LiveView or None
            What came so far.
        fault : str
            What is wrong with the meter; else empty.
        """
        self.view = view
        self.said = tr(fault) if fault else "" if view is None else tr(view.said)
        self.setAccessibleDescription(self.said)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint sentence, band, forecast, readings and times."""
        super().paintEvent(event)
        view, sizes = self.view, self._sizes
        if view is None or sizes is None:
            return
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        pad, px = sizes.gap, max(sizes.reason, sizes.axis * 0.5)
        painter.setFont(sized_font(px, bold=True))
        painter.setPen(tokens.color("falls_short" if view.has_parted else "ink"))
        head = QRectF(self.rect()).adjusted(pad, pad * 0.5, -pad, 0)
        head.setHeight(px * 1.5)
        metrics = painter.fontMetrics()
        if metrics.horizontalAdvance(self.said) > head.width():
            painter.setFont(
                sized_font(px * head.width() / metrics.horizontalAdvance(self.said), bold=True)
            )
        painter.drawText(head, int(Qt.AlignmentFlag.AlignVCenter.value), self.said)
        area = QRectF(self.rect()).adjusted(
            pad, head.bottom() + pad * 0.5, -pad, -sizes.axis * 1.22
        )
        low = float(min(view.volts.min(), view.low_v.min()))
        high = float(max(view.volts.max(), view.high_v.max()))
        room = max(0.15 * (high - low), 0.02)
        low, high, span = max(low - room, 0.0), high + room, max(float(view.time_s[-1]), 1.0)

        def points(volts: np.ndarray) -> list[QPointF]:
            x = area.left() + view.time_s / span * area.width()
            y = area.bottom() - (volts - low) / (high - low) * area.height()
            return [QPointF(a, b) for a, b in zip(x.tolist(), y.tolist(), strict=True)]

        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(mix(tokens.color("envelope"), tokens.color("card"), 0.5))
        painter.drawPolygon(QPolygonF(points(view.low_v) + points(view.high_v)[::-1]))
        thick = max(3.0, sizes.axis * 0.08)
        painter.setPen(QPen(tokens.color("accent"), thick))
        forecast, measured = points(view.forecast_v), points(view.volts)
        painter.drawLines([QLineF(a, b) for a, b in pairwise(forecast)])
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(tokens.color("ink"))
        for point in measured[:: max(len(measured) // 200, 1)]:
            painter.drawEllipse(point, thick * 0.8, thick * 0.8)
        painter.drawEllipse(measured[-1], thick * 2, thick * 2)
        ends = (measured[-1], "ink", tr("meter")), (forecast[-1], "accent", tr("forecast"))
        self._paint_ends(painter, area, sizes, ends)
        painter.setFont(sized_font(sizes.axis * 0.8))
        painter.setPen(tokens.color("soft"))
        base = area.bottom() + sizes.axis * 0.98
        for tick in time_ticks(0.0, span, _TICKS, False, 0.0):
            if tick.label:
                text = tr(tick.label)
                wide = painter.fontMetrics().horizontalAdvance(text)
                x = area.left() + tick.time_s / span * area.width() - wide / 2
                left = min(max(x, area.left()), area.right() - wide)
                painter.drawText(QPointF(left, base), text)
        painter.end()

    def _paint_ends(
        self, painter: QPainter, area: QRectF, sizes: Sizes,
        ends: tuple[tuple[QPointF, str, str], ...],
    ) -> None:
        """Name both lines at their ends, the higher one above."""
        px = max(sizes.near, sizes.axis * 0.6)
        painter.setFont(sized_font(px, bold=True))
        metrics = painter.fontMetrics()
        rising = sorted(ends, key=lambda end: end[0].y())
        for rank, (point, role, text) in enumerate(rising):
            wide = metrics.horizontalAdvance(text)
            y = point.y() - px * 0.6 if rank == 0 else point.y() + px * 1.9
            y = min(max(y, area.top() + px), area.bottom() - px * 0.2)
            painter.setPen(tokens_of(self.palette()).color(role))
            painter.drawText(QPointF(area.right() - wide - px, y), text)

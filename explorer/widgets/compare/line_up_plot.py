"""The traces of up to six designs over each other, each numbered where it stands apart."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QAccessible, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from explorer.advice.assess import Assessment
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import Tokens, tokens_of
from explorer.text import figure
from explorer.widgets.drawers.curve_plot import HEADROOM, paint_frame, ticks
from explorer.words.moments import time_ticks
from explorer.words.readout import trace_summary

FloatArray = NDArray[np.float64]
STROKES: tuple[tuple[str, float, tuple[float, ...]], ...] = (
    ("accent", 2.0, ()),
    ("threshold", 1.8, (6.0, 2.5)),
    ("ink", 1.5, (1.5, 2.5)),
    ("ghost", 2.0, (4.0, 3.0)),
    ("runs", 1.8, (8.0, 2.5, 2.0, 2.5)),
    ("soft", 1.5, (3.0, 1.5, 1.0, 1.5)),
)
"""Colour role, width and dashes of each design: told apart by all three."""
_LEFT, _TOP, _RIGHT, _BOTTOM = 34.0, 18.0, 14.0, 22.0
_MOST_TICKS = 8
_BADGE = 15.0


def stroke_pen(index: int, tokens: Tokens) -> QPen:
    """How the trace of a design is drawn."""
    role, width, dashes = STROKES[index]
    pen = QPen(tokens.color(role), width)
    if dashes:
        pen.setDashPattern([length / width * 1.5 for length in dashes])
    return pen


def paint_number(painter: QPainter, at: QPointF, index: int, tokens: Tokens) -> None:
    """The number of a design on a disc of its colour."""
    disc = QRectF(at.x() - _BADGE / 2, at.y() - _BADGE / 2, _BADGE, _BADGE)
    painter.setPen(QPen(tokens.color(STROKES[index][0]), 1.5))
    painter.setBrush(tokens.color("card"))
    painter.drawEllipse(disc)
    painter.setFont(theme.font("small", bold=True))
    painter.setPen(tokens.color("ink"))
    painter.drawText(disc, Qt.AlignmentFlag.AlignCenter, str(index + 1))


class LineUpPlot(QWidget):
    """Paints what it was given last."""

    spoken_role = QAccessible.Role.Graphic

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._found: list[Assessment | None] = []
        self._weekdays, self._offset_s = True, 0.0
        self.setAccessibleName(tr("Store voltage of all designs, V"))
        self.setMinimumSize(300, 150)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        """As it reads well."""
        return QSize(700, 240)

    def show_designs(
        self, found: Sequence[Assessment | None], weekdays: bool, offset_s: float
    ) -> None:
        """Show what is known of each design."""
        self._found, self._weekdays, self._offset_s = list(found), weekdays, offset_s
        told = (
            f"{number}: {tr(trace_summary(one))}"
            for number, one in enumerate(found, 1) if one is not None
        )
        self.setAccessibleDescription(" ".join(told))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint axes, traces and numbers."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        drawn = [(i, one) for i, one in enumerate(self._found) if one is not None]
        if drawn:
            area = QRectF(self.rect()).adjusted(_LEFT, _TOP, -_RIGHT, -_BOTTOM)
            self._paint(painter, area, drawn, tokens)
        painter.end()

    def _paint(
        self, painter: QPainter, area: QRectF, drawn: list[tuple[int, Assessment]], tokens: Tokens
    ) -> None:
        span = max(one.trace.span_s for _, one in drawn)
        top = max(one.trace.extremes().highest_store_v for _, one in drawn) * HEADROOM
        top = max(top, 0.1)
        paint_frame(painter, area, tokens)
        painter.setFont(theme.font("small"))
        for volts in ticks(top):
            y = area.bottom() - volts / top * area.height()
            painter.setPen(QPen(tokens.color("line"), 1.0))
            painter.drawLine(QPointF(area.left(), y), QPointF(area.right(), y))
            painter.setPen(tokens.color("soft"))
            where = QRectF(0, y - 8, area.left() - 6, 16)
            label = tr(figure(f"{volts:g}"))
            side = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(where, side, label)
        for tick in time_ticks(0.0, span, _MOST_TICKS, self._weekdays, self._offset_s):
            x = area.left() + tick.time_s / span * area.width()
            where = QRectF(x - 40, area.bottom() + 4, 80, 16)
            painter.drawText(where, Qt.AlignmentFlag.AlignHCenter, tr(tick.label))
        lines = []
        columns = max(int(area.width()), 2)
        for index, one in reversed(drawn):  # the open design lies on top
            time_s, volts_v = one.trace.picture(0.0, one.trace.span_s, columns).line(
                top / max(area.height(), 1.0)
            )
            seen = np.isfinite(volts_v)
            across = area.left() + time_s[seen] / span * area.width()
            up = area.bottom() - np.clip(volts_v[seen] / top, 0.0, 1.0) * area.height()
            painter.setPen(stroke_pen(index, tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            points = zip(across.tolist(), up.tolist(), strict=True)
            painter.drawPolyline(QPolygonF([QPointF(a, b) for a, b in points]))
            lines.append((index, across, up))
        for index, at in _places(lines, area):
            paint_number(painter, at, index, tokens)


def _places(
    lines: list[tuple[int, FloatArray, FloatArray]], area: QRectF
) -> list[tuple[int, QPointF]]:
    """Where each trace is numbered: furthest from the others, among places of its own."""
    grid = np.linspace(area.left() + 20, area.right() - 12, 40)
    heights = {index: np.interp(grid, x, y) for index, x, y in lines if len(x)}
    found: list[tuple[int, QPointF]] = []
    free = np.ones(len(grid), bool)
    for index in sorted(heights):
        others = [h for i, h in heights.items() if i != index]
        apart = (
            np.min([np.abs(heights[index] - h) for h in others], axis=0)
            if others else np.zeros(len(grid))
        )
        place = int(np.argmax(np.where(free, apart, -1.0)))
        free[max(place - 1, 0) : place + 2] = False
        found.append((index, QPointF(float(grid[place]), float(heights[index][place]))))
    return found

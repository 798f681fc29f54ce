"""The deepest pulse, zoomed: its step across the series resistance and its ramp."""

from __future__ import annotations

from typing import TypeVar

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QPointF, QRectF, QSize, QSizeF, Qt
from PySide6.QtGui import QAccessible, QFontMetrics, QPainter, QPaintEvent, QPen, QShowEvent
from PySide6.QtWidgets import QWidget

from explorer.advice.assess import Assessment, PulseView
from explorer.physics.arrays import FloatArray
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import Tokens, tokens_of
from explorer.text import Text, figure
from explorer.widgets.plots.free_place import Line, free_place
from explorer.widgets.plots.overlay import paint_label
from explorer.words import readout
from explorer.words.moments import time_ticks

_T = TypeVar("_T", float, FloatArray)
_LEFT, _RIGHT, _TOP, _BOTTOM = 46.0, 14.0, 20.0, 20.0
_TICK_GAP, _MOST_TICKS = 6.0, 7
_SEARCH_PX = 12.0, 7.0
"""Steps across and down in which a place for a label is looked for."""


class PulseInset(QWidget):
    """Shows one pulse; the same picture serves as inset and as the whole trace."""

    spoken_role = QAccessible.Role.Graphic

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._pulse: PulseView | None = None
        self._awaited: Assessment | None = None
        self.setAccessibleName(tr("Deepest pulse, V"))

    def set_assessment(self, assessment: Assessment) -> None:
        """Show the deepest pulse of a result, which is looked at where it is seen."""
        self._awaited = assessment
        if self.isVisible():
            self._take()

    def showEvent(self, event: QShowEvent) -> None:
        """Look at what was not seen so far."""
        super().showEvent(event)
        self._take()

    def _take(self) -> None:
        if self._awaited is None:
            return
        try:
            pulse = self._awaited.pulse
        except ValueError:  # of numbers that lie too far apart to be drawn
            pulse = None
        self.set_pulse(pulse)

    def set_pulse(self, pulse: PulseView | None) -> None:
        """Show a pulse; None where the device draws none."""
        self._awaited, self._pulse = None, pulse
        if pulse is None:
            self.setAccessibleDescription(tr("No pulse."))
        else:
            lines = readout.pulse_lines(pulse)
            said = ", ".join(f"{tr(line.label)} {tr(line.value)}" for line in lines)
            self.setAccessibleDescription(f"{tr(pulse.title)}: {said}.")
        self.update()

    def sizeHint(self) -> QSize:
        """Wide enough for its labels."""
        return QSize(300, 132)

    def minimumSizeHint(self) -> QSize:
        """Never less than readable."""
        return QSize(200, 96)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the pulse."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(theme.font("small"))
        pulse = self._pulse
        if pulse is None or pulse.time_s.size < 2:
            painter.setPen(tokens.color("soft"))
            middle = Qt.AlignmentFlag.AlignCenter
            painter.drawText(self.rect(), middle, tr("The device draws no pulse."))
        else:
            _Picture(painter, QRectF(self.rect()), pulse, tokens).paint()
        painter.end()


class _Picture:
    """One painting of one pulse."""

    def __init__(
        self, painter: QPainter, rect: QRectF, pulse: PulseView, tokens: Tokens
    ) -> None:
        self._painter, self._pulse, self._tokens = painter, pulse, tokens
        self._area = rect.adjusted(_LEFT, _TOP, -_RIGHT, -_BOTTOM)
        self._named: list[QRectF] = []
        self._from, self._to = float(pulse.time_s[0]), float(pulse.time_s[-1])
        low = float(pulse.terminal_v.min())
        high = float(max(pulse.store_v.max(), pulse.terminal_v.max()))
        # Far below a small pulse the minimum would squeeze it flat: it is then only named.
        self._far = low - pulse.minimum_v > 2.0 * (high - low)
        low = low if self._far else min(low, pulse.minimum_v)
        spread = max(high - low, 1e-4)
        room_below = 0.35 if self._far else 0.12
        self._low, self._high = low - room_below * spread, high + 0.10 * spread
        most = min(max(2, int(self._area.height() / 18)), _MOST_TICKS)
        self._volts = _round_volts(self._low, self._high, most)
        metrics = painter.fontMetrics()
        widest = max((metrics.horizontalAdvance(text) for _, text in self._volts), default=0)
        self._area.setLeft(rect.left() + max(_LEFT, widest + _TICK_GAP + 2.0))

    def paint(self) -> None:
        """Axes, minimum, curves, then the two measures."""
        painter, tokens, area = self._painter, self._tokens, self._area
        painter.setPen(tokens.color("ink"))
        title = painter.fontMetrics().elidedText(
            tr(self._pulse.title), Qt.TextElideMode.ElideRight, int(area.width())
        )
        painter.drawText(QPointF(area.left(), area.top() - 7), title)
        self._paint_axes()
        self._paint_minimum()
        for values, role, style in (
            (self._pulse.store_v, "soft", Qt.PenStyle.DashLine),
            (self._pulse.terminal_v, "accent", Qt.PenStyle.SolidLine),
        ):
            painter.setPen(QPen(tokens.color(role), 2.0 if role == "accent" else 1.0, style))
            painter.drawPolyline(pg.functions.arrayToQPolygonF(*self._line(values)))
        self._paint_measures()

    def _x(self, time_s: _T) -> _T:
        share = (time_s - self._from) / max(self._to - self._from, 1e-12)
        return self._area.left() + share * self._area.width()

    def _y(self, volts: _T) -> _T:
        share = (volts - self._low) / (self._high - self._low)
        return self._area.bottom() - share * self._area.height()

    def _at(self, time_s: float, volts: float) -> QPointF:
        return QPointF(self._x(time_s), self._y(volts))

    def _paint_axes(self) -> None:
        painter, tokens, area = self._painter, self._tokens, self._area
        painter.setPen(QPen(tokens.color("line"), 1.0))
        painter.drawLine(area.bottomLeft(), area.bottomRight())
        painter.drawLine(area.topLeft(), area.bottomLeft())
        painter.setPen(tokens.color("soft"))
        metrics = painter.fontMetrics()
        for tick in time_ticks(self._from, self._to, max(2, int(area.width() / 70)), False):
            x = self._at(tick.time_s, self._low).x()
            text = tr(tick.label)
            width = metrics.horizontalAdvance(text)
            left = min(max(x - width / 2, area.left()), area.right() - width + _RIGHT)
            painter.drawText(QPointF(left, area.bottom() + 14), text)
        for volts, text in self._volts:
            at = self._at(self._from, volts)
            width = metrics.horizontalAdvance(text)
            painter.drawText(QPointF(area.left() - _TICK_GAP - width, at.y() + 4), text)

    def _paint_minimum(self) -> None:
        painter, tokens, area = self._painter, self._tokens, self._area
        if self._far:
            below = float(self._pulse.terminal_v.min()) - self._pulse.minimum_v
            text = tr(
                "minimum {volts}, {below} lower",
                volts=self._minimum(), below=readout.small_volts(below),
            )  # fmt: skip
            self._name(QPointF(area.left() + 6, area.bottom() - 5), text)
            return
        y = self._at(self._from, self._pulse.minimum_v).y()
        pen = QPen(tokens.color("threshold"), 1.0, Qt.PenStyle.CustomDashLine)
        pen.setDashPattern([5, 3])
        painter.setPen(pen)
        painter.drawLine(QPointF(area.left(), y), QPointF(area.right(), y))
        text = tr("minimum {volts}", volts=self._minimum())
        self._name(QPointF(area.left() + 6, y - 4), text)

    def _name(self, at: QPointF, text: str) -> None:
        metrics = self._painter.fontMetrics()
        size = QSizeF(metrics.horizontalAdvance(text), metrics.height())
        self._named.append(QRectF(at - QPointF(0.0, metrics.ascent()), size))
        paint_label(self._painter, at, text, "threshold", self._tokens)

    def _minimum(self) -> Text:
        return figure(f"{self._pulse.minimum_v:.3g} V")

    def _paint_measures(self) -> None:
        """Step and ramp as brackets at the deepest moment."""
        pulse, tokens, painter = self._pulse, self._tokens, self._painter
        row = int(np.argmin(pulse.terminal_v))
        deepest = self._at(float(pulse.time_s[row]), float(pulse.terminal_v[row]))
        top = self._at(self._from, float(pulse.store_v[0])).y()
        split = self._at(self._from, float(pulse.terminal_v[row]) + pulse.step_v).y()
        room_right = self._area.right() - deepest.x()
        side = 1.0 if room_right > 100 else -1.0
        x = deepest.x() + 10 * side
        metrics = painter.fontMetrics()
        lines = [self._line(pulse.store_v), self._line(pulse.terminal_v)]
        taken = list(self._named)
        for upper, lower, text in (
            (top, split, tr("ramp {volts}", volts=readout.small_volts(pulse.ramp_v))),
            (
                split,
                deepest.y(),
                tr("ESR step {volts}", volts=readout.small_volts(pulse.step_v)),
            ),
        ):
            painter.setPen(QPen(tokens.color("ink"), 1.0))
            painter.drawLine(QPointF(x, upper + 1), QPointF(x, lower - 1))
            for y in (upper + 1, lower - 1):
                painter.drawLine(QPointF(x - 3, y), QPointF(x + 3, y))
            places = self._places(x, side, 0.5 * (upper + lower), metrics, text)
            place = places[free_place(places, lines, taken)]
            taken.append(place)
            base = QPointF(place.left(), place.top() + metrics.ascent())
            paint_label(painter, base, text, "ink", tokens)

    def _line(self, volts: FloatArray) -> Line:
        return self._x(self._pulse.time_s), self._y(volts)

    def _places(
        self, x: float, side: float, middle: float, metrics: QFontMetrics, text: str
    ) -> list[QRectF]:
        """Where a measure can be named: beside its bracket, else the nearer the better."""
        width, height = metrics.horizontalAdvance(text), metrics.height()
        room = self._area.adjusted(3.0, -2.0, _RIGHT - width, 2.0 - height)
        beside = QPointF(x + 7.0 if side > 0 else x - 7.0 - width, middle - 0.5 * height)
        left, top = (
            each.ravel()
            for each in np.meshgrid(
                np.arange(room.left(), room.right(), _SEARCH_PX[0]),
                np.arange(room.top(), room.bottom(), _SEARCH_PX[1]),
                indexing="ij",
            )
        )
        away = np.abs(left - beside.x()) + np.abs(top - beside.y())
        nearest = np.argsort(away, kind="stable")
        corners = zip(left[nearest].tolist(), top[nearest].tolist(), strict=True)
        first = QRectF(beside, QSizeF(width, height))
        return [first, *(QRectF(x, y, width, height) for x, y in corners)]


def _round_volts(low: float, high: float, most: int) -> list[tuple[float, str]]:
    """Round voltages between two ends as shown, with as many decimals as tell them apart."""
    span = high - low
    step, decimals = next(
        (s * 10.0**e, max(0, -e))
        for e in range(-5, 4)
        for s in (1, 2, 5)
        if span / (s * 10.0**e) <= most
    )
    counts = range(int(np.ceil(low / step)), int(np.floor(high / step)) + 1)
    return [(n * step, tr(figure(f"{n * step:.{decimals}f} V"))) for n in counts]

"""The slider of a knob, for a finger: the same stops, a handle of ten millimetres and more."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from explorer.stand.arrangement import slider_height
from explorer.stand.fit_label import sized_font
from explorer.stand.legibility import Sizes
from explorer.state.knobs import Knob
from explorer.state.language import tr
from explorer.state.theme import Tokens, tokens_of
from explorer.widgets.knob_slider import KnobSlider
from explorer.widgets.paint import focus_pen


@dataclass(slots=True, kw_only=True)
class _Name:
    """A name below the track. [px]"""

    text: str
    width: int
    start: float
    end: float
    """What it names, from where to where."""
    x: float = 0.0

    def names_its_place(self, x: float) -> bool:
        """Whether a reader would take it for the name of its place if it began at `x`."""
        return x - 6 <= self.end and self.start <= x + self.width + 6


class BigSlider(KnobSlider):
    """A `KnobSlider` drawn to stated sizes; a touch anywhere on it jumps there."""

    def __init__(self, knob: Knob, parent: QWidget | None = None) -> None:
        self._target, self._near, self._high = 44.0, 16.0, 64
        self._way: float | None = None
        super().__init__(knob, parent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)

    def set_sizes(self, sizes: Sizes) -> None:
        """Draw to other sizes."""
        self._target, self._near = float(sizes.target), sizes.near
        self._high = slider_height(sizes)
        self.updateGeometry()
        self.update()

    def set_target(self, value: float | None) -> None:
        """Mark the stop to which the way forward leads."""
        self._way = value
        self.update()

    def sizeHint(self) -> QSize:
        """Track, handle and the names below."""
        return QSize(round(4 * self._target), self._high)

    def minimumSizeHint(self) -> QSize:
        """Room for the handle."""
        return QSize(round(2 * self._target), round(self._target))

    def _ends(self) -> tuple[float, float]:
        return self._target / 2, self.width() - self._target / 2

    @property
    def _line_y(self) -> float:
        return self._target / 2

    def _on_handle(self, at: QPointF) -> bool:
        return abs(at.x() - self.handle_x()) <= self._target / 2

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint groove, verdicts, names and handle."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_track(painter, tokens)
        self._paint_names(painter, tokens)
        self._paint_way(painter, tokens)
        self._paint_grip(painter, tokens)
        painter.end()

    def _paint_track(self, painter: QPainter, tokens: Tokens) -> None:
        left, right = self._ends()
        thick = max(6.0, self._target * 0.16)
        top = self._line_y - thick / 2
        painter.setPen(QPen(tokens.color("edge"), 1.5))
        painter.setBrush(tokens.color("line"))
        groove = QRectF(left - 3, top, right - left + 6, thick)
        painter.drawRoundedRect(groove, thick / 2, thick / 2)
        painter.setPen(Qt.PenStyle.NoPen)
        for state, start, end in self._stretches():
            painter.setBrush(tokens.color(state))
            if state == "runs":
                painter.drawRoundedRect(
                    QRectF(start, top - 1, end - start, thick + 2), thick / 2, thick / 2
                )
            elif state == "marginal":
                x, dash = start + 1, thick * 0.8
                while x < end - 1:  # dashes: half filled, like the half disc
                    painter.drawRect(QRectF(x, top - 1, min(dash, end - x), thick + 2))
                    x += 1.8 * dash

    def _paint_way(self, painter: QPainter, tokens: Tokens) -> None:
        """A ring at the stop to go to, and chevrons that lead there from the handle."""
        if self._way is None:
            return
        left, right = self._ends()
        goal, here = left + (right - left) * self._knob.fraction(self._way), self.handle_x()
        radius = self._target * 0.26
        painter.setPen(QPen(tokens.color("ink"), max(2.5, radius * 0.24)))
        painter.setBrush(tokens.color("card"))
        painter.drawEllipse(QPointF(goal, self._line_y), radius, radius)
        side = 1.0 if goal > here else -1.0
        start, end = here + side * self._target * 0.62, goal - side * radius * 1.7
        count = int(max((end - start) * side, 0.0) / (radius * 1.6)) + 1
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for step in range(count if (end - start) * side > 0 else 0):
            x, tip = start + side * step * radius * 1.6, radius * 0.5
            painter.drawLine(QPointF(x, self._line_y - tip), QPointF(x + side * tip, self._line_y))
            painter.drawLine(QPointF(x, self._line_y + tip), QPointF(x + side * tip, self._line_y))

    def _paint_names(self, painter: QPainter, tokens: Tokens) -> None:
        painter.setFont(sized_font(self._near * 0.78))
        metrics = painter.fontMetrics()
        base = self.height() - metrics.descent() - 1
        left, right = self._ends()
        gap = self._near * 0.38
        placed: list[_Name] = []
        painter.setPen(tokens.color("soft"))
        for mark in self._knob.landmarks:
            text = tr(mark.label)
            name = _Name(
                text=text,
                width=metrics.horizontalAdvance(text),
                start=left + (right - left) * self._knob.fraction(mark.low),
                end=left + (right - left) * self._knob.fraction(mark.high),
            )
            free_from = placed[-1].x + placed[-1].width + gap if placed else 0.0
            middle = (name.start + name.end - name.width) / 2
            name.x = min(max(middle, free_from, 0.0), self.width() - name.width)
            if name.x < free_from and placed:
                # At the right end: the name before gives way to the left, as far as it can.
                wanted = placed[-1].x - (free_from - name.x)
                least = placed[-2].x + placed[-2].width + gap if len(placed) > 1 else 0.0
                if wanted >= least and placed[-1].names_its_place(wanted):
                    placed[-1].x = wanted
                    free_from = name.x
            if name.x >= free_from and name.names_its_place(name.x):
                placed.append(name)
        for name in placed:
            painter.drawText(QPointF(name.x, base), name.text)

    def _paint_grip(self, painter: QPainter, tokens: Tokens) -> None:
        middle, radius = QPointF(self.handle_x(), self._line_y), self._target / 2 - 6
        if self.hasFocus():
            pen = focus_pen(tokens)
            pen.setWidthF(3.0)
            painter.setPen(pen)
            painter.setBrush(tokens.color("card"))
            painter.drawEllipse(middle, radius + 5, radius + 5)
        painter.setPen(QPen(tokens.color("accent"), max(4.0, radius * 0.28)))
        painter.setBrush(tokens.color("accent" if self.isSliderDown() else "card"))
        painter.drawEllipse(middle, radius, radius)

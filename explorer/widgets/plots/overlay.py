"""What is painted in pixels around the curves: lit hours, thresholds, marks, time cursor."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from operator import itemgetter
from typing import TypeVar

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from explorer.advice.assess import Mark, Threshold
from explorer.engine.picture import Picture
from explorer.engine.trace import Trace
from explorer.scenario.light_log import DARK_BELOW_LX
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import Tokens
from explorer.widgets.paint import mix, paint_mark
from explorer.widgets.plots.free_place import Line as FreeLine
from explorer.widgets.plots.free_place import free_place
from explorer.widgets.plots.plot_view import ABOVE_PX
from explorer.words.cut_off import volts_text
from explorer.words.readout import Line

Values = TypeVar("Values", float, np.ndarray)
_HALO = tuple(
    QPointF(x, y) for x in (-1.2, 0.0, 1.2) for y in (-1.2, 0.0, 1.2) if (x, y) != (0.0, 0.0)
)
Band = tuple[np.ndarray, np.ndarray, np.ndarray]
"""Times, lowest and highest voltage."""
DENSE = 0.45
"""Share of the curve's colour where it goes up and down too quickly for a line."""
BOX_GROUND = 0.12
"""Opacity of a box that is being drawn."""
LEVELS = 6
"""Steps of brightness in which lit hours are shaded."""
NAME_PLACES = (1.0, 0.0, 0.75, 0.5, 0.25)
"""Places for a threshold's name along its line, by preference: right, left, between."""
NOTE_PLACES = (0.0, 0.25, 0.5, 0.75, 1.0)
"""Places for a note along the bottom, by preference: left, between, right."""
MOST_BANDS = 400
"""More bands than this in view are narrower than a pixel or two and would only flicker."""
MOST_MARKS = 40
"""More marks than this in view would hide the curve; they become ticks on the time axis."""


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """From times and volts to pixels."""

    area: QRectF
    from_s: float
    to_s: float
    low_v: float
    high_v: float

    @property
    def pixel_v(self) -> float:
        """Height of a pixel. [V]"""
        return (self.high_v - self.low_v) / max(self.area.height(), 1.0)

    def x(self, time_s: Values) -> Values:
        """Pixels from the left, shape as given."""
        share = (time_s - self.from_s) / (self.to_s - self.from_s)
        return self.area.left() + share * self.area.width()

    def y(self, volts: Values) -> Values:
        """Pixels from the top, shape as given."""
        share = (volts - self.low_v) / (self.high_v - self.low_v)
        return self.area.bottom() - share * self.area.height()

    def edges(self) -> tuple[float, float, float, float]:
        """Left, right, top and bottom. [px]"""
        area = self.area
        return area.left(), area.right(), area.top(), area.bottom()


class LitBands:
    """Stretches of equal brightness, found once for each trace."""

    def __init__(self, trace: Trace) -> None:
        edges, lux = trace.light()
        level = brightness_level(lux)
        first = np.flatnonzero(np.diff(level, prepend=-1))
        ends = np.append(edges[first[1:]], edges[-1])
        self.bands = [
            (float(begin), float(end), int(level[i]))
            for i, begin, end in zip(first, edges[first], ends, strict=True)
            if level[i] > 0 and end > begin
        ]

    def paint(self, painter: QPainter, view: View, tokens: Tokens) -> None:
        """Shade the lit hours behind the curves."""
        seen = self.bands[
            bisect_right(self.bands, view.from_s, key=itemgetter(1)) :
            bisect_left(self.bands, view.to_s, key=itemgetter(0))
        ]
        if len(seen) > MOST_BANDS:
            return
        lit, card = tokens.color("lit"), tokens.color("card")
        painter.setPen(Qt.PenStyle.NoPen)
        boxes: dict[int, list[QRectF]] = {}
        low, high = view.area.left(), view.area.right()
        top, height = view.area.top(), view.area.height()
        for start, end, level in seen:
            left, right = max(view.x(start), low), min(view.x(end), high)
            if right > left:
                box = QRectF(left, top, right - left, height)
                boxes.setdefault(level, []).append(box)
        for level, some in boxes.items():
            painter.setBrush(mix(lit, card, 0.25 + 0.75 * level / LEVELS))
            painter.drawRects(some)


def brightness_level(lux: np.ndarray) -> np.ndarray:
    """Brightness in logarithmic steps, from 0 for dark to `LEVELS` for the brightest."""
    brightest = max(float(lux.max(initial=0.0)), DARK_BELOW_LX)
    with np.errstate(divide="ignore"):
        decades = np.log10(np.maximum(lux, 1e-9) / brightest)
    level = np.ceil(LEVELS * (1 + decades / 2))
    return np.where(lux < DARK_BELOW_LX, 0, np.clip(level, 1, LEVELS)).astype(int)


def paint_thresholds(
    painter: QPainter,
    view: View,
    thresholds: Sequence[Threshold],
    tokens: Tokens,
    lines: Sequence[FreeLine] = (),
) -> list[QRectF]:
    """Dashed lines with their names where no curve lies; says where the names stand."""
    painter.setFont(theme.font("small"))
    metrics = painter.fontMetrics()
    pen = QPen(tokens.color("threshold"), 1.0, Qt.PenStyle.CustomDashLine)
    pen.setDashPattern([5, 3])
    taken: list[QRectF] = []
    left, right, upper, lower = view.edges()
    height = metrics.height()
    for item in sorted(thresholds, key=_volts):
        y = round(view.y(item.volts)) + 0.5
        if not upper <= y <= lower:
            continue
        painter.setPen(pen)
        painter.drawLine(QPointF(left, y), QPointF(right, y))
        text = f"{tr(item.label)} {tr(volts_text(item.volts))}"
        width = metrics.horizontalAdvance(text)
        places = [
            QRectF(left + share * (right - left - width - 16) + 8, top, width, height)
            for share in NAME_PLACES
            for top in (y - height, y + 1)
            if upper - ABOVE_PX <= top and top + height <= lower
        ]
        if not places:
            continue
        place = places[free_place(places, lines, taken)]
        taken.append(place)
        base = QPointF(place.left(), place.top() + metrics.ascent())
        paint_label(painter, base, text, "threshold", tokens)
    return taken


def paint_envelope(painter: QPainter, picture: Picture, view: View, tokens: Tokens) -> None:
    """Fill between the store voltage and the lowest terminal voltage in the pulses."""
    _paint_bands(painter, picture.envelope(), view, tokens.color("envelope"))


def paint_dense(painter: QPainter, picture: Picture, view: View, tokens: Tokens) -> None:
    """Fill where the store goes up and down too quickly for a line."""
    ground = mix(tokens.color("accent"), tokens.color("card"), DENSE)
    _paint_bands(painter, picture.bands(view.pixel_v), view, ground)


def _paint_bands(
    painter: QPainter, bands: Sequence[Band], view: View, ground: QColor
) -> None:
    painter.save()
    painter.setClipRect(view.area)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ground)
    for time_s, low, high in bands:
        x = view.x(time_s)
        edges = np.concatenate((view.y(high), view.y(low)[::-1]))
        painter.drawPolygon(
            pg.functions.arrayToQPolygonF(np.concatenate((x, x[::-1])), edges)
        )
    painter.restore()


def _volts(item: Threshold) -> float:
    return item.volts


def paint_label(
    painter: QPainter, at: QPointF, text: str, role: str, tokens: Tokens, *, right: bool = False
) -> None:
    """A text on the plot with a halo of the ground, so that it reads across curves."""
    width = painter.fontMetrics().horizontalAdvance(text)
    start = at - QPointF(width if right else 0, 0)
    # Drawn eight times around: stroking its outline takes ten times as long.
    painter.setPen(tokens.color("card"))
    for shift in _HALO:
        painter.drawText(start + shift, text)
    painter.setPen(tokens.color(role))
    painter.drawText(start, text)


def paint_beside(
    painter: QPainter, area: QRectF, base: float, text: str, role: str, tokens: Tokens,
    others: tuple[Sequence[FreeLine], Sequence[QRectF]],
) -> None:
    """A text at one height, at the left or wherever curves and names leave room."""
    metrics = painter.fontMetrics()
    width = metrics.horizontalAdvance(text)
    places = [
        QRectF(
            area.left() + 8 + share * (area.width() - width - 16),
            base - metrics.ascent(), width, metrics.height(),
        )
        for share in NOTE_PLACES
    ]  # fmt: skip
    place = places[free_place(places, *others)]
    paint_label(painter, QPointF(place.left(), base), text, role, tokens)


def paint_marks(
    painter: QPainter,
    view: View,
    marks: Sequence[Mark],
    tokens: Tokens,
) -> None:
    """What happened, at its place on the curve; as ticks above the axis where it is too much."""
    left, right, _, lower = view.edges()
    seen = [m for m in marks if m.kind != "full" and left <= view.x(m.time_s) <= right]
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    if len(seen) > MOST_MARKS:
        roles = {"connect": "accent", "disconnect": "threshold", "brown_out": "falls_short"}
        columns = {(round(view.x(m.time_s)), m.kind) for m in seen}
        for x, kind in columns:
            painter.setPen(QPen(tokens.color(roles.get(kind, "soft")), 1.0))
            top = {"connect": 6.0, "disconnect": 11.0}.get(kind, 16.0)
            painter.drawLine(QPointF(x, lower - top), QPointF(x, lower - top + 5))
        return
    for mark in seen:
        paint_mark(painter, QPointF(view.x(mark.time_s), view.y(mark.volts)), mark.kind, tokens)


def paint_mark_line(painter: QPainter, area: QRectF, x: float, tokens: Tokens) -> None:
    """The moment that is held, from which the cursor measures."""
    painter.setPen(QPen(tokens.color("ink"), 1.0, Qt.PenStyle.DashLine))
    painter.drawLine(QPointF(x, area.top()), QPointF(x, area.bottom()))


def paint_box(painter: QPainter, box: QRectF, tokens: Tokens) -> None:
    """The box that a drag draws to zoom into."""
    ground = tokens.color("accent")
    ground.setAlphaF(BOX_GROUND)
    painter.setPen(QPen(tokens.color("accent"), 1.0))
    painter.setBrush(ground)
    painter.drawRect(box)


def paint_cursor(
    painter: QPainter, area: QRectF, x: float, dots: Sequence[tuple[float, str]],
    lines: Sequence[Line], tokens: Tokens,
) -> None:
    """One vertical line, a dot on each curve, and what they read in a small card beside it."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(tokens.color("ink"), 1.0))
    painter.drawLine(QPointF(x, area.top()), QPointF(x, area.bottom()))
    for y, role in dots:
        painter.setPen(QPen(tokens.color("card"), 1.5))
        painter.setBrush(tokens.color(role))
        painter.drawEllipse(QPointF(x, y), 4, 4)
    painter.setFont(theme.font("small"))
    metrics = painter.fontMetrics()
    row = metrics.height() + 2
    shown = [(tr(line.label), tr(line.value)) for line in lines]
    labels = max(metrics.horizontalAdvance(label) for label, _ in shown[1:])
    values = max(metrics.horizontalAdvance(value) for _, value in shown[1:])
    width = max(labels + values + 14, metrics.horizontalAdvance(shown[0][0])) + 20
    height = row * len(shown) + 14
    left = x + 12 if x + 12 + width < area.right() else x - 12 - width
    box = QRectF(max(left, area.left()), area.top() + 8, width, height)
    painter.setPen(QPen(tokens.color("edge"), 1.0))
    painter.setBrush(tokens.color("card"))
    painter.drawRoundedRect(box, 6, 6)
    base = box.top() + 7 + metrics.ascent()
    for index, (label, value) in enumerate(shown):
        painter.setPen(tokens.color("ink" if index == 0 else "soft"))
        painter.drawText(QPointF(box.left() + 10, base), label)
        painter.setPen(tokens.color("ink"))
        value_width = metrics.horizontalAdvance(value)
        painter.drawText(QPointF(box.right() - 10 - value_width, base), value)
        base += row

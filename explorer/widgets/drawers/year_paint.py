"""Headings, legends, scales and shades of the pictures of a year."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetrics, QImage, QPainter, QPen

from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import Tokens
from explorer.widgets.plots.free_place import Line, free_place
from explorer.words.figures import quantity_text

HEAD, LEGEND = 20, 16
"""Height of a heading, and of a legend that has a line of its own below it. [px]"""
_SWATCH, _SMALL_SWATCH = 14, 8
"""Widths of a colour in a legend, and of one where there is little room. [px]"""
NAME = 13
"""Height of a threshold's name. [px]"""
Legend = list[tuple[QBrush, str, str]]
"""What each colour means, and the same in short."""


def with_room_above(bottom: float, highest: float, height: float) -> float:
    """Upper end of an axis on which a name stands above the highest line. [V]"""
    return bottom + (highest - bottom) / (1.0 - (NAME + 2) / max(height, 4 * NAME))


def paint_lines(
    painter: QPainter, room: QRectF, tokens: Tokens, lines: Sequence[tuple[float, str]],
    curve: Line,
) -> None:
    """Dashed lines from the highest down, with their names in the middle or where no curve lies."""
    last, taken = -1e9, list[QRectF]()
    for y, text in lines:
        painter.setPen(QPen(tokens.color("threshold"), 1.0, Qt.PenStyle.DashLine))
        painter.drawLine(QLineF(room.left(), y, room.right(), y))
        if y - last < NAME - 1:
            continue
        last = y
        box = name_box(room, y, painter.fontMetrics().horizontalAdvance(text) + 6, curve, taken)
        taken.append(box)
        painter.fillRect(box, tokens.color("card"))
        painter.setPen(tokens.color("threshold"))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)


def name_box(
    room: QRectF, y: float, width: float, curve: Line, taken: Sequence[QRectF]
) -> QRectF:
    """Where a name stands below or above its line, in the middle or at an end."""
    lefts = room.center().x() - width / 2, room.left() + 3, room.right() - width - 3
    places = [QRectF(left, top, width, NAME) for left in lefts for top in (y + 1, y - NAME - 1)]
    inside = [place for place in places if room.contains(place)] or places[:1]
    return inside[free_place(inside, [curve], taken)]


def fits(title: str, legend: Legend, room: float) -> bool:
    """Whether what the colours mean has room beside a title."""
    used = QFontMetrics(theme.font("small", bold=True)).horizontalAdvance(title) + 12
    return used + _length(legend) <= room


def paint_heading(
    painter: QPainter, room: QRectF, tokens: Tokens, title: str, legend: Legend
) -> None:
    """A title above a picture and, beside or below it, what the colours mean."""
    beside = fits(title, legend, room.width())
    line = QRectF(
        room.left(), room.top() - HEAD - (0 if beside else LEGEND), room.width(), HEAD - 4
    )
    painter.setFont(theme.font("small", bold=True))
    painter.setPen(tokens.color("ink"))
    middle = Qt.AlignmentFlag.AlignVCenter
    painter.drawText(line, middle | Qt.AlignmentFlag.AlignLeft, title)
    painter.setFont(theme.font("small"))
    swatch, x = _SWATCH, line.right() - _length(legend) + 10
    if not beside:
        line.translate(0.0, LEGEND)
        x = line.left()
        if _length(legend) > line.width():
            swatch = _SMALL_SWATCH
    for brush, whole, short in legend:
        name = whole if swatch == _SWATCH else short
        box = QRectF(x, line.center().y() - 5, swatch, 10)
        painter.fillRect(box, brush)
        painter.setPen(QPen(tokens.color("edge"), 0.7))
        painter.drawRect(box)
        painter.setPen(tokens.color("soft"))
        width = painter.fontMetrics().horizontalAdvance(name) + 2
        painter.drawText(QRectF(x + swatch + 4, line.top(), width, line.height()), middle, name)
        x += _entry(name, swatch)


def _entry(name: str, swatch: int) -> int:
    """Length of one entry of a legend. [px]"""
    gap = 10 if swatch == _SWATCH else 5
    return swatch + 4 + QFontMetrics(theme.font("small")).horizontalAdvance(name) + gap


def _length(legend: Legend) -> int:
    """Length of a legend in one line. [px]"""
    return sum(_entry(name, _SWATCH) for _, name, _ in legend)


def image(steps: NDArray[np.intp], colors: list[QColor]) -> QImage:
    """A picture of steps of shape (days, hours), hour 0 at the bottom."""
    table = np.array([c.rgb() for c in colors], np.uint32)
    pixels = np.ascontiguousarray(table[steps].T[::-1])
    height, width = pixels.shape
    found = QImage(pixels.data, width, height, 4 * width, QImage.Format.Format_RGB32)
    return found.copy()  # the numbers go, the picture stays


def neat(value: float) -> float:
    """A value of one digit, or of two ending in five."""
    scale = 10.0 ** np.floor(np.log10(max(value, 1e-9)))
    return float(min((1.0, 1.5, 2.0, 3.0, 5.0, 8.0, 10.0), key=lambda d: abs(d - value / scale))
                 * scale)


def ticks(low: float, high: float) -> list[float]:
    """Three to six round values of a scale."""
    rough = (high - low) / 4.0
    scale = 10.0 ** np.floor(np.log10(max(rough, 1e-12)))
    step = float(min((1.0, 2.0, 5.0, 10.0), key=lambda d: abs(d * scale - rough)) * scale)
    first = int(np.ceil(low / step - 1e-9))
    return [k * step for k in range(first, int(high / step + 1e-9) + 1)]


def up_to(value: float) -> tuple[str, str]:
    """What a colour of a calendar means, and its highest value alone."""
    number = quantity_text(value, "")
    return tr("to {value}", value=number), tr(number)

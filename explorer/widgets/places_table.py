"""A small table of what the device does in the light of other places."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QAccessible, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.words.elsewhere import MEANING, SHORT, place_row, places_spoken

if TYPE_CHECKING:
    from explorer.advice.elsewhere import Charged

SHOWN = (0, 1, 3, 4)
"""Columns for which there is room."""
_GAP, _SPARE, _LINE = 1.2, 0.3, 1.25
"""Between columns, behind a name, and of a row, in heights of the letters."""


class PlacesTable(QWidget):
    """Place, light, time to full and operations an hour; the first column gives way."""

    spoken_role = QAccessible.Role.StaticText

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows: list[tuple[str, ...]] = []
        self._font = theme.font("small")
        self._most_px: float | None = None
        self._most_rows: int | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.hide()

    @property
    def rows(self) -> list[tuple[str, ...]]:
        """What is on show, the heads of the columns first; empty where there is nothing."""
        return list(self._rows)

    def set_places(self, found: tuple[Charged, ...]) -> None:
        """Show places; without any the table is hidden."""
        rows = [tuple(place_row(one)[k] for k in SHOWN) for one in found]
        self._rows = [tuple(map(tr, row)) for row in ([SHORT, *rows] if found else [])]
        self.setVisible(bool(found))
        self.setAccessibleName(tr(places_spoken(found)) if found else "")
        self.setToolTip(tr(MEANING))
        self.updateGeometry()
        self.update()

    def set_px(self, most: float, rows: int) -> None:
        """Write so many rows as large as there is room for, up to a size. [px]"""
        self._most_px, self._most_rows = most, rows
        self.update()

    def wanted_width(self) -> int:
        """Width at which the largest letters have room for every cell. [px]"""
        self._font.setPixelSize(round(self._most_px or self._font.pixelSize()))
        return ceil(sum(self._widths(QFontMetricsF(self._font)))) + 1

    @property
    def _shown(self) -> list[tuple[str, ...]]:
        return self._rows[: self._most_rows]

    def sizeHint(self) -> QSize:
        """All rows in the font of small texts."""
        high = QFontMetricsF(self._font).height()
        return QSize(240, round(len(self._rows) * high * 1.25) + 4)

    def _fitting(self) -> QFontMetricsF:
        """The font at the largest size at which all rows and columns fit."""
        if self._most_px is not None:
            for px in range(round(self._most_px), 7, -1):
                self._font.setPixelSize(px)
                fits = sum(self._widths(QFontMetricsF(self._font))) <= self.width()
                if fits and len(self._shown) * px * _LINE <= self.height():
                    break
        return QFontMetricsF(self._font)

    def _widths(self, metrics: QFontMetricsF) -> list[float]:
        gap = metrics.ascent() * _GAP
        return [
            max(metrics.horizontalAdvance(row[k]) for row in self._shown)
            + (gap if k else _SPARE * metrics.ascent())
            for k in range(len(SHOWN))
        ]

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the heads, a hairline and the rows."""
        if not self._rows:
            return
        tokens = tokens_of(self.palette())
        metrics = self._fitting()
        widths = self._widths(metrics)
        first = max(self.width() - sum(widths[1:]), 20.0)
        high = self.height() / len(self._shown)
        painter = QPainter(self)
        painter.setFont(self._font)
        for place, row in enumerate(self._shown):
            painter.setPen(tokens.color("soft" if place == 0 else "ink"))
            left = 0.0
            for k, cell in enumerate(row):
                width = first if k == 0 else widths[k]
                side = Qt.AlignmentFlag.AlignLeft if k == 0 else Qt.AlignmentFlag.AlignRight
                room = width - _SPARE * metrics.ascent() if k == 0 else width
                text = metrics.elidedText(cell, Qt.TextElideMode.ElideRight, room + 1.0)
                where = QRectF(left, place * high, width, high)
                painter.drawText(where, side | Qt.AlignmentFlag.AlignVCenter, text)
                left += width
        painter.setPen(QPen(tokens.color("line"), 1.0))
        painter.drawLine(0, round(high), self.width(), round(high))
        painter.end()

"""A label whose text is as large as asked for, or as large as its place allows."""

from __future__ import annotations

import math

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

from explorer.state import theme
from explorer.state.theme import tokens_of

_SHRINK = 0.94
_SMALLEST = 0.5
"""Below this share of the wanted size the text is cut instead."""
_LEFT_MIDDLE = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


def sized_font(px: float, *, bold: bool = False) -> QFont:
    """The interface face at a size of its own. [px]"""
    result = theme.font("body", bold=bold)
    result.setPixelSize(max(round(px), 6))
    return result


class FitLabel(QLabel):
    """Paints its text in one colour role, shrunk to fit; it never makes a window grow.

    Parameters
    ----------
    bold : bool
        Weight.
    role : str
        Colour role of the theme.
    align : Qt.AlignmentFlag
        Where the text sits.
    wraps : bool
        Whether it may take several lines.
    """

    def __init__(
        self,
        *,
        bold: bool = False,
        role: str = "ink",
        align: Qt.AlignmentFlag = _LEFT_MIDDLE,
        wraps: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._bold, self._role, self._px = bold, role, 16.0
        self._key: tuple[str, int, int, float] | None = None
        self._found = sized_font(16.0)
        self.setAlignment(align)
        self.setWordWrap(wraps)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Ignored)
        self.setTextFormat(Qt.TextFormat.PlainText)

    def set_px(self, px: float) -> None:
        """Ask for another size. [px]"""
        self._px = px
        self.updateGeometry()
        self.update()

    def set_role(self, role: str) -> None:
        """Paint in another colour role."""
        if role != self._role:
            self._role = role
            self.update()

    def show_text(self, text: str) -> None:
        """Show a text; the same one again costs nothing."""
        if text != self.text():
            self.setText(text)

    @property
    def shown_px(self) -> int:
        """Size of the text as it is painted. [px]"""
        return self._fitted().pixelSize()

    def sizeHint(self) -> QSize:
        """One line of the wanted size."""
        return QSize(0, math.ceil(self._px * 1.25))

    def minimumSizeHint(self) -> QSize:
        """Never in the way."""
        return QSize(0, 0)

    def _flags(self) -> int:
        flags = int(self.alignment().value)
        return flags | int(Qt.TextFlag.TextWordWrap.value) if self.wordWrap() else flags

    def _fitted(self) -> QFont:
        key = (self.text(), self.width(), self.height(), self._px)
        if key != self._key:
            self._key = key
            px = self._px
            while True:
                self._found = sized_font(px, bold=self._bold)
                if px * _SHRINK < self._px * _SMALLEST or self._fits(self._found):
                    break
                px *= _SHRINK
        return self._found

    def _fits(self, font: QFont) -> bool:
        metrics, rect = QFontMetrics(font), self.rect()
        if not self.wordWrap():
            return (
                metrics.horizontalAdvance(self.text()) <= rect.width()
                and metrics.ascent() <= rect.height()
            )
        free = QRect(0, 0, rect.width(), 100_000)
        needed = metrics.boundingRect(free, self._flags(), self.text())
        return needed.height() <= rect.height() and needed.width() <= rect.width()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the text."""
        painter = QPainter(self)
        painter.setFont(self._fitted())
        painter.setPen(tokens_of(self.palette()).color(self._role))
        text = self.text()
        if not self.wordWrap():
            text = painter.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, self.width())
        painter.drawText(self.rect(), self._flags(), text)
        painter.end()

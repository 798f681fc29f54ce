"""Pages behind tabs with outlines that show in every theme."""

from __future__ import annotations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QStyle, QStyleOptionTabWidgetFrame, QTabBar, QTabWidget, QWidget

from explorer.state.theme import tokens_of
from explorer.widgets.paint import focus_pen

_BAR = 3
"""Height of the line that marks the page on show. [px]"""


class OutlinedTabs(QTabWidget):
    """Its tabs and their page have an edge; the style's own is black on black in one theme."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setTabBar(_Tabs(self))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the page's frame, then its outline."""
        super().paintEvent(event)
        option = QStyleOptionTabWidgetFrame()
        self.initStyleOption(option)
        page = self.style().subElementRect(QStyle.SubElement.SE_TabWidgetTabPane, option, self)
        painter = QPainter(self)
        painter.setPen(QPen(tokens_of(self.palette()).color("edge"), 1.0))
        painter.drawRect(QRectF(page).adjusted(0.5, 0.5, -0.5, -0.5))
        painter.end()


class _Tabs(QTabBar):
    """The page on show has a line above its name, and a ring around it with the focus."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the tabs, then their outlines."""
        super().paintEvent(event)
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setPen(QPen(tokens.color("edge"), 1.0))
        for place in range(self.count()):
            painter.drawRect(self._edges(place))
        shown = self._edges(self.currentIndex())
        painter.fillRect(
            QRectF(shown.left(), shown.top(), shown.width(), _BAR), tokens.color("accent")
        )
        if self.hasFocus():
            painter.setPen(focus_pen(tokens))
            painter.drawRect(shown.adjusted(1.5, 1.5, -1.5, -1.5))
        painter.end()

    def _edges(self, place: int) -> QRectF:
        """Outline of a tab; it is open to the page below."""
        return QRectF(self.tabRect(place)).adjusted(0.5, 0.5, -0.5, 0.0)

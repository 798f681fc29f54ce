"""A scroll area with a slim bar that takes little from the width of a column."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QPoint, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QScrollArea,
    QScrollBar,
    QStyle,
    QStyleOptionSlider,
    QWidget,
)

from explorer.state.theme import tokens_of

WIDTH = 10
_AROUND = 8
"""Kept in sight above and below what has the keyboard or has appeared. [px]"""


def scroll_to(part: QWidget, most: int) -> None:
    """Bring the beginning of a part into sight in the column that scrolls it, where one does.

    Not during a press, which would miss what scrolls away.

    Parameters
    ----------
    part : QWidget
        What has appeared; its layout must be done.
    most : int
        Height of what counts as its beginning. [px]
    """
    if QApplication.mouseButtons() != Qt.MouseButton.NoButton:
        return
    area = part.parentWidget()
    while area is not None and not isinstance(area, QScrollArea):
        area = area.parentWidget()
    inner = None if area is None else area.widget()
    if area is None or inner is None or not inner.isAncestorOf(part):
        return
    top = part.mapTo(inner, QPoint()).y()
    for y in (top + min(part.height(), most), top):
        area.ensureVisible(0, y, 0, _AROUND)


class SlimBar(QScrollBar):
    """Paints its handle only."""

    def __init__(self, way: Qt.Orientation = Qt.Orientation.Vertical) -> None:
        super().__init__(way)
        upright = way is Qt.Orientation.Vertical
        (self.setFixedWidth if upright else self.setFixedHeight)(WIDTH)
        self._inset = (3, 1, -2, -1) if upright else (1, 3, -1, -2)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the handle."""
        tokens = tokens_of(self.palette())
        option = QStyleOptionSlider()
        self.initStyleOption(option)
        handle = self.style().subControlRect(
            QStyle.ComplexControl.CC_ScrollBar, option, QStyle.SubControl.SC_ScrollBarSlider, self
        )
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(tokens.color("soft" if self.underMouse() else "edge"))
        painter.drawRoundedRect(QRectF(handle).adjusted(*self._inset), 2.5, 2.5)
        painter.end()


class SlimScroll(QScrollArea):
    """Scrolls one column up and down; its ground is that of its parent."""

    def __init__(self, inner: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBar(SlimBar())
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidget(inner)
        # Both fill themselves with the window's colour unless told not to after setWidget.
        self.viewport().setAutoFillBackground(False)
        inner.setAutoFillBackground(False)
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        app.focusChanged.connect(self._on_focus_changed)

    def _on_focus_changed(self, before: object, now: object) -> None:
        """Scroll to what takes the keyboard, also where it comes from outside.

        Not for a window that is shown again, nor for a press, which would miss what scrolls away.
        """
        inner = self.widget()
        if (
            isinstance(before, QWidget) and isinstance(now, QWidget) and inner is not None
            and inner.isAncestorOf(now)
            and QApplication.mouseButtons() == Qt.MouseButton.NoButton
        ):
            self.ensureWidgetVisible(now, 0, _AROUND)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let a bar go that is there for its own width alone: without it all texts have room.

        Qt asks for the height at the width beside the bar, so that a bar that once came stays.
        """
        done = super().eventFilter(watched, event)
        if event.type() is QEvent.Type.LayoutRequest and self.verticalScrollBar().isVisible():
            inner, size = self.widget(), self.maximumViewportSize()
            if inner and 0 <= inner.heightForWidth(size.width()) <= size.height():
                self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
                self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        return done

"""The tour over the window: everything dimmed but one part, and a card that explains it."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, QRectF, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QColor,
    QKeyEvent,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
    QShowEvent,
)
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.state.tour import Tour
from explorer.widgets.buttons import PillButton
from explorer.widgets.card import Card

_CARD_WIDTH, _GAP, _DIM = 320, 14, 150
Spotlight = Callable[[str], list[QWidget]]
"""The parts of the window that a step is about."""


class TourOverlay(QWidget):
    """Covers its parent until the tour is finished or skipped.

    Parameters
    ----------
    tour : Tour
        The steps.
    spotlight : callable
        Takes the key of a step, returns the widgets to leave bright; an empty list dims nothing
        and puts the card in the middle.
    """

    finished = Signal()

    def __init__(self, tour: Tour, spotlight: Spotlight, parent: QWidget) -> None:
        super().__init__(parent)
        self.tour, self._spotlight, self._covered = tour, spotlight, parent
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(tr("Tour"))
        self.title = QLabel()
        self.title.setFont(theme.font("heading", bold=True))
        self.text = QLabel()
        self.text.setWordWrap(True)
        self.place = QLabel()
        self.place.setFont(theme.font("small"))
        self.place.setForegroundRole(self.place.palette().ColorRole.PlaceholderText)
        self.skip, self.back, self.next = (PillButton() for _ in range(3))
        self.card = Card(self)
        self._build()
        parent.installEventFilter(self)
        self._show_step()

    def _build(self) -> None:
        for button, text, handler in (
            (self.skip, tr("Skip the tour"), self.finish),
            (self.back, tr("Back"), self._on_back),
            (self.next, tr("Next"), self._on_next),
        ):
            button.setText(text)
            button.setMinimumHeight(30)
            button.clicked.connect(handler)
        self.next.setCheckable(True)
        self.next.setChecked(True)
        row = QHBoxLayout()
        row.addWidget(self.skip)
        row.addStretch(1)
        row.addWidget(self.back)
        row.addWidget(self.next)
        column = QVBoxLayout(self.card)
        column.setContentsMargins(16, 14, 16, 14)
        column.setSpacing(8)
        for part in (self.place, self.title, self.text):
            column.addWidget(part)
        column.addSpacing(4)
        column.addLayout(row)
        self.card.setFixedWidth(_CARD_WIDTH)

    def finish(self) -> None:
        """End the tour."""
        self._covered.removeEventFilter(self)
        self.hide()
        self.finished.emit()
        self.deleteLater()

    def spot(self) -> QRect:
        """The bright part, in the overlay's coordinates; empty where there is none."""
        found = QRect()
        for widget in self._spotlight(self.tour.step.key):
            if widget.isVisible() and widget.width() > 0:
                corner = widget.mapTo(self._covered, QPoint(0, 0))
                found = found.united(QRect(corner, widget.size()))
        if found.isEmpty():
            return QRect()
        return found.adjusted(-4, -4, 4, 4).intersected(self.rect().adjusted(4, 4, -4, -4))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Stay as large as the window."""
        if event.type() in (QEvent.Type.Resize, QEvent.Type.LayoutRequest):
            self._place()
        return False

    def showEvent(self, event: QShowEvent) -> None:
        """Take the focus."""
        super().showEvent(event)
        self._place()
        self.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Walk with the arrows and Enter, leave with Esc."""
        key = event.key()
        if key == Qt.Key.Key_Escape:
            self.finish()
        elif key in (Qt.Key.Key_Right, Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self._on_next()
        elif key == Qt.Key.Key_Left:
            self._on_back()
        else:
            super().keyPressEvent(event)

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Keep Tab within the card while the tour is on."""
        ring = [b for b in (self, self.skip, self.back, self.next) if b.isEnabled()]
        here = next((i for i, b in enumerate(ring) if b.hasFocus()), 0)
        ring[(here + (1 if forward else -1)) % len(ring)].setFocus(Qt.FocusReason.TabFocusReason)
        return True

    def paintEvent(self, event: QPaintEvent) -> None:
        """Dim all but the spot, and put a frame around it."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        whole, spot = QPainterPath(), self.spot()
        whole.addRect(QRectF(self.rect()))
        if not spot.isEmpty():
            hole = QPainterPath()
            hole.addRoundedRect(QRectF(spot), 12, 12)
            whole = whole.subtracted(hole)
        shade = QColor(Qt.GlobalColor.black)
        shade.setAlpha(_DIM)
        painter.fillPath(whole, shade)
        if not spot.isEmpty():
            painter.setPen(QPen(tokens.color("accent"), 3.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(spot).adjusted(1, 1, -1, -1), 12, 12)
        painter.end()

    def _show_step(self) -> None:
        step = self.tour.step
        title, text, place = tr(step.title), tr(step.text), tr(self.tour.place)
        self.title.setText(title)
        self.text.setText(text)
        self.place.setText(place)
        self.back.setEnabled(not self.tour.is_first)
        self.next.setText(tr("Done") if self.tour.is_last else tr("Next"))
        self.setAccessibleName(
            tr("Tour, {place}: {title}. {text}", place=place, title=title, text=text)
        )
        QAccessible.updateAccessibility(
            QAccessibleAnnouncementEvent(self, f"{place}. {title}. {text}")
        )
        self._place()
        self.update()

    def _place(self) -> None:
        self.setGeometry(self._covered.rect())
        self.raise_()
        self.card.adjustSize()
        self.card.resize(_CARD_WIDTH, self.card.heightForWidth(_CARD_WIDTH))
        self.card.move(_beside(self.spot(), self.card.size().width(), self.card.height(), self))

    def _on_next(self) -> None:
        self.next.setChecked(True)
        if self.tour.forward():
            self._show_step()
        else:
            self.finish()

    def _on_back(self) -> None:
        if self.tour.back():
            self._show_step()


def _beside(spot: QRect, width: int, height: int, within: QWidget) -> QPoint:
    """Where a card finds most room: right, left, above or below the spot, else in the middle."""
    room = within.rect().adjusted(_GAP, _GAP, -_GAP, -_GAP)
    middle = QPoint(room.center().x() - width // 2, room.center().y() - height // 2)
    if spot.isEmpty():
        return middle
    top = min(max(spot.top() + 24, room.top()), max(room.bottom() - height, room.top()))
    left = min(max(spot.center().x() - width // 2, room.left()), room.right() - width)
    if room.right() - spot.right() >= width + _GAP:
        return QPoint(spot.right() + _GAP, top)
    if spot.left() - room.left() >= width + _GAP:
        return QPoint(spot.left() - _GAP - width, top)
    if spot.top() - room.top() >= height + _GAP:
        return QPoint(left, spot.top() - _GAP - height)
    if room.bottom() - spot.bottom() >= height + _GAP:
        return QPoint(left, spot.bottom() + _GAP)
    return QPoint(middle.x(), room.bottom() - height)

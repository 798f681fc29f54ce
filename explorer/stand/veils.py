"""What lies over the page while nobody is there, and while the page asks whether somebody is."""

from __future__ import annotations

from PySide6.QtCore import QAbstractAnimation, QRect, Qt, QVariantAnimation, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPixmap,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from explorer.stand.big_button import BigButton
from explorer.stand.fit_label import FitLabel
from explorer.stand.legibility import Sizes
from explorer.stand.phrases import countdown_text
from explorer.stand.veil_paint import paint_veil
from explorer.state.language import tr

MOTION_MS = 150
_CENTRE = Qt.AlignmentFlag.AlignCenter
_REMIND_AT_S = 10


class WarningVeil(QWidget):
    """Over the whole page: asks whether somebody is there; one touch anywhere goes on."""

    extended = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._card = QRect()
        self.question = FitLabel(bold=True, align=_CENTRE, parent=self)
        self.question.show_text(tr("Are you still there?"))
        self.count = FitLabel(bold=True, align=_CENTRE, parent=self)
        self.text = FitLabel(role="soft", align=_CENTRE, wraps=True, parent=self)
        self.go_on = BigButton(tr("Touch anywhere to go on"), primary=True, parent=self)
        self.go_on.clicked.connect(self.extended)
        self._sizes: Sizes | None = None

    def set_sizes(self, sizes: Sizes) -> None:
        """Draw to other sizes."""
        self._sizes = sizes
        self.question.set_px(sizes.number * 0.72)
        self.count.set_px(sizes.word * 1.25)
        self.text.set_px(sizes.reason)
        self.go_on.set_sizes(sizes.reason * 1.3, sizes.target)
        self._place()

    def set_left(self, seconds: int, whole: int) -> None:
        """Show the seconds that are left, and say them now and then."""
        self.count.show_text(str(seconds))
        countdown = tr(countdown_text(seconds))
        self.text.show_text(countdown)
        if seconds in (whole, _REMIND_AT_S):
            spoken = f"{self.question.text()} {countdown} {tr('Touch or press any key.')}"
            self.setAccessibleName(spoken)
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, spoken))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Nothing below is touched by accident."""
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Go on."""
        self.extended.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep to the middle."""
        super().resizeEvent(event)
        self._place()

    def _place(self) -> None:
        sizes = self._sizes
        if sizes is None:
            return
        pad = 2 * sizes.gap
        rows = (
            (self.question, sizes.number * 0.95),
            (self.count, sizes.word * 1.45),
            (self.text, sizes.reason * 2.9),
            (self.go_on, max(sizes.target * 1.5, sizes.reason * 3)),
        )
        high = round(sum(row for _, row in rows)) + 2 * pad
        wide = min(self.width() - 2 * pad, round(sizes.number * 9))
        self._card = QRect((self.width() - wide) // 2, (self.height() - high) // 2, wide, high)
        y = self._card.top() + pad
        for part, row in rows:
            part.setGeometry(self._card.left() + pad, y, wide - 2 * pad, round(row))
            y += round(row)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the veil and the card."""
        paint_veil(self, self._card)


class Dissolve(QWidget):
    """The last picture, fading away over the next one within `MOTION_MS`."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._picture = QPixmap()
        self._fade = QVariantAnimation(self)
        self._fade.setDuration(MOTION_MS)
        self._fade.setStartValue(1.0)
        self._fade.setEndValue(0.0)
        self._fade.valueChanged.connect(self._on_value)
        self._fade.finished.connect(self._on_finished)
        self.hide()

    def hold(self, picture: QPixmap) -> None:
        """Show a picture until `go`."""
        self._fade.stop()
        self._picture = picture
        self.show()
        self.raise_()

    def go(self) -> None:
        """Fade it away."""
        if self.isVisible() and self._fade.state() != QAbstractAnimation.State.Running:
            self._fade.start()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the picture at the strength of the moment."""
        painter = QPainter(self)
        running = self._fade.state() == QAbstractAnimation.State.Running
        painter.setOpacity(float(self._fade.currentValue()) if running else 1.0)
        painter.drawPixmap(self.rect(), self._picture)
        painter.end()

    def _on_value(self, _: object) -> None:
        self.update()

    def _on_finished(self) -> None:
        self.hide()
        self._picture = QPixmap()

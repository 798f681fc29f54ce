"""Over everything: ten digits for the staff code; it goes away by itself."""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt, QTimer, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QMouseEvent, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from explorer.stand.big_button import BigButton
from explorer.stand.fit_label import FitLabel
from explorer.stand.legibility import Sizes
from explorer.stand.staff_code import LONGEST, SHORTEST, matches
from explorer.stand.veil_paint import paint_veil
from explorer.state.language import tr

SHOWN_MS = 20_000
LOCKED_MS = 60_000
MOST_TRIES = 5
_CENTRE = Qt.AlignmentFlag.AlignCenter


class Keypad(QWidget):
    """Takes the staff code; after five wrong ones it takes none for a minute."""

    accepted = Signal()

    def __init__(self, kept: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._kept, self._typed, self._wrong = kept, "", 0
        self._card = QRect()
        self._sizes: Sizes | None = None
        self._back_to: QWidget | None = None
        self.label = FitLabel(bold=True, align=_CENTRE, parent=self)
        self.keys = [BigButton(str(digit), parent=self) for digit in (*range(1, 10), 0)]
        self.rub = BigButton(sign="earlier", parent=self)
        self.rub.setAccessibleName(tr("Take the last digit away"))
        self.back = BigButton(tr("Close"), parent=self)
        self._order = [*self.keys[:9], self.rub, self.keys[9], self.back]
        for key in self.keys:
            key.clicked.connect(self._on_key)
        self.rub.clicked.connect(self._on_rub)
        self.back.clicked.connect(self.hide)
        self._away = QTimer(self)
        self._away.setSingleShot(True)
        self._away.setInterval(SHOWN_MS)
        self._away.timeout.connect(self.hide)
        self._locked = QTimer(self)
        self._locked.setSingleShot(True)
        self._locked.setInterval(LOCKED_MS)
        self.hide()

    def open(self) -> None:
        """Ask for the code, unless too many wrong ones came; what is typed comes here."""
        if not self._kept or self._locked.isActive():
            return
        self._typed = ""
        self.label.show_text(tr("Staff code"))
        self._away.start()
        if not self.isVisible():
            self._back_to = self.window().focusWidget() or self.window()
        self.show()
        self.raise_()
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def goes_back_to(self, part: QWidget) -> None:
        """Give the keyboard to another part when it is no longer wanted."""
        self._back_to = part

    def hideEvent(self, event: QHideEvent) -> None:
        """Give the keyboard back; Tab alone would not leave the keys, and they type unseen.

        Where the whole window goes out of sight the keypad still waits in it.
        """
        super().hideEvent(event)
        if self.isHidden() and self._back_to is not None:
            self._back_to.setFocus(Qt.FocusReason.OtherFocusReason)
            self._back_to = None

    def focusNextPrevChild(self, next: bool) -> bool:
        """Tab goes round the keys: what lies under them must not take the keyboard."""
        at = [key.hasFocus() for key in self._order]
        here = at.index(True) if any(at) else (-1 if next else 0)
        following = self._order[(here + (1 if next else -1)) % len(at)]
        reason = Qt.FocusReason.TabFocusReason if next else Qt.FocusReason.BacktabFocusReason
        following.setFocus(reason)
        return True

    def _on_key(self) -> None:
        key = self.sender()
        assert isinstance(key, BigButton)
        self.type(key.text())

    def type(self, digit: str) -> None:
        """One digit more."""
        self._away.start()
        self._typed += digit
        self.label.show_text("•" * len(self._typed))
        if len(self._typed) >= SHORTEST and matches(self._typed, self._kept):
            self._wrong = 0
            self.hide()
            self.accepted.emit()
        elif len(self._typed) >= LONGEST:
            self._refuse()

    def _refuse(self) -> None:
        self._typed = ""
        self._wrong += 1
        self.label.show_text(tr("That is not the code."))
        if self._wrong >= MOST_TRIES:
            self._wrong = 0
            self._locked.start()
            self.hide()

    def _on_rub(self) -> None:
        self._typed = self._typed[:-1]
        self.label.show_text("•" * len(self._typed) or tr("Staff code"))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """A keyboard counts too: digits, Backspace, and Enter after all that is typed."""
        if event.text().isdigit():
            self.type(event.text())
        elif event.key() == Qt.Key.Key_Backspace:
            self._on_rub()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self._typed:
            self._away.start()
            self._refuse()  # the right code needs no Enter
        event.accept()

    def set_sizes(self, sizes: Sizes) -> None:
        """Draw to other sizes."""
        self._sizes = sizes
        self.label.set_px(sizes.near * 1.5)
        for key in (*self.keys, self.rub, self.back):
            key.set_sizes(sizes.near * 1.4, sizes.target)
        self._place()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep to the middle."""
        super().resizeEvent(event)
        self._place()

    def _place(self) -> None:
        sizes = self._sizes
        if sizes is None:
            return
        gap = sizes.gap
        side = min(round(sizes.target * 1.6), (self.height() - 8 * gap) // 6)
        wide, line = round(side * 1.4), round(sizes.near * 2.4)
        inner = 3 * wide + 2 * gap
        high = line + 4 * side + 4 * gap
        left, top = (self.width() - inner) // 2, (self.height() - high) // 2
        self._card = QRect(left, top, inner, high).adjusted(-2 * gap, -2 * gap, 2 * gap, 2 * gap)
        self.label.setGeometry(left, top, inner, line)
        for place, key in enumerate(self._order):
            row, column = divmod(place, 3)
            key.setGeometry(
                left + column * (wide + gap), top + line + gap + row * (side + gap), wide, side
            )
        self.update()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Nothing below is touched by accident."""
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Go away when somebody touches beside the card."""
        if not self._card.contains(event.position().toPoint()):
            self.hide()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the veil and the card."""
        paint_veil(self, self._card)

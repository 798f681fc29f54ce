"""Why a value was not taken, said beside it."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QTimer
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QPalette
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.widgets.slim_scroll import scroll_to


class FaultLine(QLabel):
    """One sentence in the colour of a fault; takes no room while there is nothing to say."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWordWrap(True)
        self.setFont(theme.font("small"))
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        self.hide()

    def say(self, sentence: str) -> None:
        """Show a sentence, which may be a `Text`, and speak it; nothing for an empty one."""
        shown = tr(sentence) if sentence else ""
        if shown == self.text():
            return
        self._color()
        self.setText(shown)
        self.setVisible(bool(shown))
        if shown:
            QTimer.singleShot(0, self, self._come_into_sight)  # once the layout has room for it
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, shown))

    def changeEvent(self, event: QEvent) -> None:
        """Take the colour of a new theme."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._color()

    def _come_into_sight(self) -> None:
        if self.isVisible():
            scroll_to(self, self.height())

    def _color(self) -> None:
        wanted = tokens_of(self.palette()).color("falls_short")
        if self.palette().color(QPalette.ColorRole.WindowText) != wanted:
            palette = self.palette()
            palette.setColor(QPalette.ColorRole.WindowText, wanted)
            self.setPalette(palette)

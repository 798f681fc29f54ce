"""The head of the window: what is open, where it hangs, and the most used actions."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QSignalBlocker, QSize, Qt
from PySide6.QtGui import QAction, QFocusEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QWidget

from explorer.scenario.model import Scenario
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.widgets.buttons import PillButton
from explorer.widgets.fields import UndoingLine, paint_outline
from explorer.widgets.plain import plain_tip

_INSET = 2
"""Between the edge of a field and its text, as the style leaves it. [px]"""


class TitleField(UndoingLine):
    """A text of the scenario that looks like a heading until it is edited."""

    def __init__(self, document: Document, path: str, name: str, hint: str) -> None:
        super().__init__()
        self._document, self._path = document, path
        self.setObjectName(path)
        self.setFrame(False)
        self.setAccessibleName(name)
        self._hint = tr("{name}: click to change", name=name)
        self.setToolTip(self._hint)
        self.setPlaceholderText(hint)
        self.setMinimumHeight(30)
        palette = self.palette()
        palette.setColor(palette.ColorRole.Base, Qt.GlobalColor.transparent)
        self.setPalette(palette)
        self.textChanged.connect(self.updateGeometry)
        self.editingFinished.connect(self._on_finished)

    def show_text(self, text: str) -> None:
        """Show a text without editing; one that a person is typing stays."""
        if not (self.hasFocus() and self.isModified()) and text != self.text():
            with QSignalBlocker(self):
                self.setText(text)
            self.setCursorPosition(0)
            self.updateGeometry()
        self.setToolTip(plain_tip(f"{text}\n{self._hint}" if text else self._hint))

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Show the beginning again."""
        super().focusOutEvent(event)
        self.setCursorPosition(0)

    def paintEvent(self, event: QPaintEvent) -> None:
        """End in an ellipsis where the text has no room; editing shows all of it in an outline."""
        text, room = self.text(), self.rect().adjusted(_INSET, 0, -_INSET, 0)
        if self.hasFocus() or self.fontMetrics().horizontalAdvance(text) <= room.width():
            super().paintEvent(event)
            if self.hasFocus():
                paint_outline(self)
            return
        painter = QPainter(self)
        painter.setPen(self.palette().color(QPalette.ColorRole.Text))
        shown = self.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, shown)
        painter.end()

    def sizeHint(self) -> QSize:
        """As wide as its text."""
        text = self.text() or self.placeholderText()
        width = self.fontMetrics().horizontalAdvance(text) + 18
        return QSize(min(max(width, 60), 460), 30)

    def minimumSizeHint(self) -> QSize:
        """It gives way to the buttons."""
        return QSize(60, 30)

    def _on_finished(self) -> None:
        if self.isModified():
            self.setModified(False)
            self._document.begin_gesture()
            self._document.edit(self._path, self.text().strip())


class TitleBar(QWidget):
    """Shows title and place of the document; `add_action` puts a button at the right."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = TitleField(document, "title", tr("Title"), tr("Untitled"))
        self.title.setFont(theme.font("heading", bold=True))
        self.place = TitleField(document, "place", tr("Place"), tr("where it hangs"))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        # Where room is short the place gives way, not the title.
        for field, stretch in ((self.title, 0), (self.place, 1)):
            policy = QSizePolicy.Policy.Ignored if stretch else QSizePolicy.Policy.Preferred
            field.setSizePolicy(policy, QSizePolicy.Policy.Fixed)
            layout.addWidget(field, stretch)
        soft = self.place.palette()
        soft.setColor(soft.ColorRole.Text, theme.tokens_of(soft).color("soft"))
        self.place.setPalette(soft)
        self._layout = layout
        self._buttons: list[PillButton] = []
        document.changed.connect(self._on_changed)
        self._on_changed(document.scenario)

    def add_action(self, action: QAction, *, with_text: bool = True) -> PillButton:
        """A button for an action."""
        button = PillButton()
        button.setDefaultAction(action)
        style = Qt.ToolButtonStyle
        button.setToolButtonStyle(
            style.ToolButtonTextBesideIcon if with_text else style.ToolButtonIconOnly
        )
        button.setIconSize(QSize(16, 16))
        button.setMinimumHeight(30)  # a least width of its own would let its text be cut
        button.setAccessibleName(action.text().replace("&", "").rstrip("…"))
        button.setAccessibleDescription(action.toolTip())
        self._layout.addWidget(button)
        self._buttons.append(button)
        return button

    def button_of(self, action: QAction) -> PillButton:
        """The button of an action."""
        return next(b for b in self._buttons if b.defaultAction() is action)

    def changeEvent(self, event: QEvent) -> None:
        """Draw the place in the soft text of a new theme."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "place"):
            tokens = theme.tokens_of(self.palette())
            for field, role in ((self.title, "ink"), (self.place, "soft")):
                palette = field.palette()
                if palette.color(palette.ColorRole.Text) != tokens.color(role):
                    palette.setColor(palette.ColorRole.Text, tokens.color(role))
                    palette.setColor(palette.ColorRole.PlaceholderText, tokens.color("soft"))
                    field.setPalette(palette)

    def _on_changed(self, scenario: Scenario) -> None:
        self.title.show_text(scenario.title)
        self.place.show_text(scenario.place)

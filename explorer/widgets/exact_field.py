"""A field for one exact number that takes SI prefixes and either decimal mark."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QPalette
from PySide6.QtWidgets import QWidget

from explorer.quantity import parse, show
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.text import figure, say
from explorer.widgets.fields import Field

_HEIGHT = 26
_DIGITS = 6
"""What is typed with up to six digits is shown as typed."""


class ExactField(Field):
    """Shows one number with its unit; emits `entered` only for what a person typed."""

    entered = Signal(object)
    """Carries a float in the field's unit, or None for an emptied field."""
    stepped = Signal(int)
    """Arrow keys: +1 up, -1 down."""
    refused = Signal(object)
    """Why the typed text is no value, as a `Text`."""

    def __init__(
        self,
        unit: str,
        *,
        optional: bool = False,
        whole: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.unit = unit
        self._optional = optional
        self._whole = whole
        self._shown = ""
        self.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.returnPressed.connect(self._commit)
        self.textEdited.connect(self._on_text_edited)

    def sizeHint(self) -> QSize:
        """Room for a number of four digits with its unit."""
        return QSize(104, _HEIGHT)

    def minimumSizeHint(self) -> QSize:
        """At least a target of 24 px."""
        return QSize(64, _HEIGHT)

    def set_value(self, value: float | None) -> None:
        """Show a value without emitting; a text that a person is typing stays."""
        self._shown = self.text_of(value)
        if not (self.hasFocus() and self.isModified()):
            self._restore()

    def text_of(self, value: float | None) -> str:
        """What the field shows for a value, in the language on show."""
        if value is None:
            return ""
        if self._whole or not self.unit:
            return tr(figure(f"{value:.6g}"))
        return tr(show(value, self.unit, _DIGITS))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Step with the arrows, take the text back with Esc."""
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self._commit()
            self.stepped.emit(1 if event.key() == Qt.Key.Key_Up else -1)
        elif event.key() == Qt.Key.Key_Escape and self.isModified():
            self._restore()
        else:
            super().keyPressEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Commit what was typed; a text that is no number gives way to the value."""
        self._commit()
        if self.isModified():
            self._restore()
        super().focusOutEvent(event)

    def _commit(self) -> None:
        if not self.isModified():
            return
        text = self.text().strip()
        value: float | None
        if not text and self._optional:
            value = None
        else:
            try:
                value = parse(text, self.unit)
                if self._whole and value != round(value):
                    raise ValueError(say("{text} is not a whole number.", text=repr(text)))
            except ValueError as error:
                self._paint_as(valid=False)
                self.refused.emit(str(error))
                return
        self.setModified(False)
        self._paint_as(valid=True)
        self.entered.emit(value)
        self._restore()

    def _restore(self) -> None:
        with QSignalBlocker(self):
            self.setText(self._shown)
        self.setModified(False)
        self.setCursorPosition(0)
        self._paint_as(valid=True)

    def _on_text_edited(self, _: str) -> None:
        self._paint_as(valid=True)

    def _paint_as(self, *, valid: bool) -> None:
        if valid:
            self.setPalette(QPalette())
            return
        palette = QPalette(self.palette())
        palette.setColor(QPalette.ColorRole.Text, tokens_of(palette).color("falls_short"))
        self.setPalette(palette)

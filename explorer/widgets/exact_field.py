"""A field for one exact number that takes SI prefixes and either decimal mark."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from explorer.quantity import parse, show, unit_text
from explorer.state.language import decimal_mark, tr
from explorer.text import figure, say
from explorer.widgets.fields import Field

_HEIGHT = 26
_DIGITS = 6
"""What is typed with up to six digits is shown as typed."""
_FEWEST_DIGITS = 3
_EDGES_PX = 12
"""Taken by the frame and by the gaps inside it."""


class ExactField(Field):
    """Shows one number with its unit; emits `entered` only for what a person typed."""

    entered = Signal(object)
    """Carries a float in the field's unit, or None for an emptied field."""
    stepped = Signal(int)
    """Arrow keys: +1 up, -1 down."""
    fault_changed = Signal(object)
    """Why what was typed was not taken, as a `Text`; empty once that no longer stands there."""

    def __init__(
        self,
        unit: str,
        *,
        optional: bool = False,
        whole: bool = False,
        bare: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.unit = unit
        self._optional = optional
        self._whole = whole
        self._bare = bare
        """Prefix of the unit that a number typed without any unit has."""
        self._value: float | None = None
        self._shown = ""
        self._fault = ""
        self.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.returnPressed.connect(self.commit)
        self.textEdited.connect(self._on_text_edited)

    def sizeHint(self) -> QSize:
        """Room for a number of four digits with its unit."""
        return QSize(104, _HEIGHT)

    def minimumSizeHint(self) -> QSize:
        """At least a target of 24 px."""
        return QSize(64, _HEIGHT)

    def set_value(self, value: float | None) -> None:
        """Show a value without emitting; a text that a person is typing stays.

        So does one that was refused, until the value behind it changes.
        """
        if self.shows(value):
            return
        self._value = value
        before, self._shown = self._shown, self.text_of(value)
        if self.isModified() and (self.hasFocus() or (self._fault and before == self._shown)):
            return
        self.take_back()

    def shows(self, value: float | None) -> bool:
        """Whether a value stands here already, and nothing that somebody typed."""
        stands = bool(self._shown) and value == self._value
        return stands and not self.isModified() and not self._fault

    @property
    def shown(self) -> str:
        """The value as a text, with all its digits."""
        return self._shown

    @property
    def value(self) -> float | None:
        """What it shows; what was refused does not count."""
        return self._value

    @property
    def refusal(self) -> str:
        """Why what stands here was not taken; empty where nothing stands here that was not."""
        return self._fault

    def set_unit(self, unit: str) -> None:
        """Take numbers in another unit from now on."""
        if unit != self.unit:
            self.unit, self._shown = unit, ""

    def refuse(self, sentence: str) -> None:
        """Keep what was typed, marked, for somebody to go on from there."""
        self.setModified(True)
        self._mark(sentence)

    def text_of(self, value: float | None, digits: int = _DIGITS) -> str:
        """What the field shows for a value, in the language on show."""
        if value is None:
            return ""
        if self._whole or not self.unit:
            return tr(figure(f"{value:.{digits}g}"))
        return tr(show(value, self.unit, digits))

    def _fitting(self) -> str:
        """The value with as many digits as fit; all of them while it has the focus."""
        if self.hasFocus() or self._whole:
            return self._shown
        room, metrics = self.width() - _EDGES_PX, self.fontMetrics()
        texts = (self.text_of(self._value, n) for n in range(_DIGITS, _FEWEST_DIGITS, -1))
        fewest = self.text_of(self._value, _FEWEST_DIGITS)
        return next((t for t in texts if metrics.horizontalAdvance(t) <= room), fewest)

    def _fit(self) -> None:
        if not self.isModified() and self.text() != (text := self._fitting()):
            with QSignalBlocker(self):
                self.setText(text)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show every digit to whoever goes on from it."""
        super().focusInEvent(event)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """More or fewer digits fit."""
        super().resizeEvent(event)
        self._fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Step with the arrows, take the text back with Esc."""
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self.commit()
            if self._fault:
                self.take_back()
            self.stepped.emit(1 if event.key() == Qt.Key.Key_Up else -1)
        elif event.key() == Qt.Key.Key_Escape and self.isModified():
            self.take_back()
        else:
            super().keyPressEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Commit what was typed; what is refused stays, marked."""
        self.commit()
        super().focusOutEvent(event)
        self._fit()

    def commit(self) -> None:
        """Take over what was typed, or refuse it."""
        if not self.isModified() or self._fault:
            return
        text = self.text().strip()
        value: float | None
        if not text and self._optional:
            value = None
        else:
            try:
                value = parse(self._with_unit(text), self.unit, decimal_mark())
                if self._whole and value != round(value):
                    raise ValueError(say("{text} is not a whole number.", text=repr(text)))
            except ValueError as error:
                self.refuse(str(error))
                return
        self.setModified(False)
        self.entered.emit(value)
        # Whoever heard it may have refused it.
        if not self._fault:
            self.take_back()

    def _with_unit(self, text: str) -> str:
        """What was typed, with the unit that a bare number has in this field."""
        shown = tr(unit_text(self.unit))
        if shown != self.unit and text.endswith(shown):
            return text.removesuffix(shown) + self.unit
        is_bare = self._bare and text[-1:].isdigit() and "e" not in text.lower()
        return f"{text} {self._bare}{self.unit}" if is_bare else text

    def take_back(self) -> None:
        """Show the value again in the place of what was typed."""
        self.setModified(False)
        self._fit()
        self.setCursorPosition(0)
        self._mark("")

    def _on_text_edited(self, _: str) -> None:
        self._mark("")

    def _mark(self, sentence: str) -> None:
        if sentence == self._fault:
            return
        self._fault = sentence
        self.set_at_fault(bool(sentence))
        self.fault_changed.emit(sentence)

"""One row of a form for each kind of field; each reads and edits one path of the document."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QSignalBlocker, QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from explorer.scenario.demand import Phase
from explorer.scenario.fields import Quantity
from explorer.scenario.weekdays import WEEKDAYS
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.widgets.buttons import PillButton
from explorer.widgets.exact_field import ExactField
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.fields import CalmComboBox, Field
from explorer.words.options import WEEKDAYS as WEEKDAY_WORDS
from explorer.words.options import option

_FIELD_WIDTH = 104
AMOUNT_KEYS = ("current_A", "power_W", "resistance_ohm")


class Row(QWidget):
    """Base: a label and something that edits one path."""

    def __init__(
        self, document: Document, path: str, field: Quantity, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.document, self.path, self.field = document, path, field
        self.setObjectName(path)
        self.label = QLabel(tr(field.label))
        self.label.setWordWrap(True)
        self.label.setToolTip(tr(field.help))
        self.fault = FaultLine()
        self._line: QBoxLayout | None = None
        self._edited: QWidget | None = None

    def refresh(self) -> None:
        """Show what the document holds, without editing it."""
        self.show_value(self.document.get(self.path))

    def show_value(self, value: Any) -> None:
        """Show one value."""
        raise NotImplementedError

    def edit(self, value: Any) -> None:
        """Pass on what a person did; why it was not taken is said beside it."""
        self.document.begin_gesture()
        fault = self.document.attempt(self.path, value)
        if fault:
            self.refuse(fault)
        else:
            self.fault.say("")

    def refuse(self, sentence: str) -> None:
        """Show the value as before, and why."""
        self.refresh()
        self.fault.say(sentence)

    def _beside(self, widget: QWidget) -> None:
        """Label and widget in one line, or in two where a long word would be cut."""
        self._line = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._line.setSpacing(8)
        self._line.addWidget(self.label, 1)
        self._line.addWidget(widget)
        self.label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._stack(self._line)
        self._name(widget)
        self._edited = widget

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Whether the longest word of the label has its room beside the widget."""
        super().resizeEvent(event)
        if self._line is None or self._edited is None:
            return
        metrics = self.label.fontMetrics()
        longest = max(map(metrics.horizontalAdvance, self.label.text().split()), default=0)
        way = QBoxLayout.Direction
        fits = longest + 10 + self._edited.width() <= self.width()
        self._line.setDirection(way.LeftToRight if fits else way.TopToBottom)
        self._line.setSpacing(8 if fits else 2)
        side = Qt.AlignmentFlag.AlignRight
        self._line.setAlignment(self._edited, Qt.AlignmentFlag(0) if fits else side)

    def _below(self, widget: QWidget) -> None:
        line = QVBoxLayout()
        line.setSpacing(2)
        line.addWidget(self.label)
        line.addWidget(widget)
        self._stack(line)
        self._name(widget)

    def _stack(self, line: QBoxLayout) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(line)
        layout.addWidget(self.fault)

    def _name(self, widget: QWidget) -> None:
        unit = f", {tr(self.field.unit)}" if self.field.unit else ""
        widget.setAccessibleName(f"{tr(self.field.label)}{unit}")
        widget.setToolTip(tr(self.field.help))
        self.label.setBuddy(widget)


class NumberRow(Row):
    """A number with its unit."""

    def __init__(
        self,
        document: Document,
        path: str,
        field: Quantity,
        *,
        whole: bool = False,
        optional: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(document, path, field, parent)
        self._whole = whole
        self.entry = ExactField(field.unit, whole=whole, optional=optional)
        self.entry.setFixedWidth(_FIELD_WIDTH)
        if optional:
            self.entry.setPlaceholderText(tr("not set"))
        self._beside(self.entry)
        self.entry.entered.connect(self._on_entered)
        self.entry.fault_changed.connect(self._on_fault)
        self.refresh()

    def show_value(self, value: Any) -> None:
        """Show a number, or nothing."""
        self.entry.set_value(value)

    def refuse(self, sentence: str) -> None:
        """Keep what was typed, and say why it is not taken."""
        self.entry.refuse(sentence)

    def _on_fault(self, sentence: str) -> None:
        self.fault.say(sentence)

    def _on_entered(self, value: object) -> None:
        if self._whole and isinstance(value, float):
            value = int(value)
        self.edit(value)


class OptionRow(Row):
    """One of a list of words."""

    def __init__(
        self,
        document: Document,
        path: str,
        field: Quantity,
        options: tuple[str, ...],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(document, path, field, parent)
        self.box = CalmComboBox()
        for word in options:
            self.box.addItem(tr(option(word)), word)
        self._below(self.box)
        self.box.activated.connect(self._on_activated)
        self.refresh()

    def show_value(self, value: Any) -> None:
        """Show a choice."""
        self.fault.say("")
        with QSignalBlocker(self.box):
            self.box.setCurrentIndex(self.box.findData(value))
        self.box.setAccessibleDescription(self.box.currentText())

    def _on_activated(self, index: int) -> None:
        self.edit(self.box.itemData(index))


class TextRow(Row):
    """A short text."""

    def __init__(
        self, document: Document, path: str, field: Quantity, parent: QWidget | None = None
    ) -> None:
        super().__init__(document, path, field, parent)
        self.entry = Field()
        self.entry.setMinimumHeight(26)
        self._below(self.entry)
        self.entry.editingFinished.connect(self._on_finished)
        self.entry.textEdited.connect(self._on_typed)
        self._value = ""
        self.refresh()

    def show_value(self, value: Any) -> None:
        """Show a text; one that a person is typing stays, and one that was refused."""
        before, self._value = self._value, str(value)
        kept = self.entry.at_fault and before == self._value
        if not (kept or (self.entry.hasFocus() and self.entry.isModified())):
            with QSignalBlocker(self.entry):
                self.entry.setText(self._value)
            self.entry.setCursorPosition(0)
            self._on_typed("")

    def refuse(self, sentence: str) -> None:
        """Keep what was typed, and say why it is not taken."""
        self.entry.set_at_fault(True)
        self.fault.say(sentence)

    def _on_typed(self, _: str) -> None:
        self.entry.set_at_fault(False)
        self.fault.say("")

    def _on_finished(self) -> None:
        if self.entry.isModified():
            self.entry.setModified(False)
            self.edit(self.entry.text())


class WeekdaysRow(Row):
    """Any of the seven weekdays."""

    def __init__(
        self, document: Document, path: str, field: Quantity, parent: QWidget | None = None
    ) -> None:
        super().__init__(document, path, field, parent)
        days = QWidget()
        grid = QGridLayout(days)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(2)
        self.buttons: list[PillButton] = []
        for column, day in enumerate(WEEKDAYS):
            button = PillButton(pad=5)
            weekday = tr(WEEKDAY_WORDS[day])
            button.setText(weekday[:2])
            button.setCheckable(True)
            button.setMinimumSize(QSize(26, 26))
            button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            button.setAccessibleName(f"{tr(field.label)}: {weekday}")
            button.clicked.connect(self._on_clicked)
            grid.addWidget(button, 0, column)
            self.buttons.append(button)
        self._below(days)
        self.refresh()

    def show_value(self, value: Any) -> None:
        """Show the chosen days."""
        self.fault.say("")
        for day, button in zip(WEEKDAYS, self.buttons, strict=True):
            with QSignalBlocker(button):
                button.setChecked(day in value)

    def _on_clicked(self, _: bool) -> None:
        self.edit(tuple(d for d, b in zip(WEEKDAYS, self.buttons, strict=True) if b.isChecked()))


class AmountRow(QWidget):
    """How much a phase draws: a current, a power or a resistance, one of the three."""

    def __init__(self, document: Document, path: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._path, self._key = document, path, ""
        self.setObjectName(f"{path}.amount")
        self.box = CalmComboBox()
        for key in AMOUNT_KEYS:
            self.box.addItem(tr(option(key)), key)
        self.box.setAccessibleName(tr("What the phase draws"))
        self.entry = ExactField("")
        self.entry.setFixedWidth(_FIELD_WIDTH)
        self.fault = FaultLine()
        line = QHBoxLayout()
        line.setSpacing(8)
        line.addWidget(self.box, 1)
        line.addWidget(self.entry)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(line)
        layout.addWidget(self.fault)
        self.box.activated.connect(self._on_kind)
        self.entry.entered.connect(self._on_entered)
        self.entry.fault_changed.connect(self._on_fault)
        self.refresh()

    def refresh(self) -> None:
        """Show what the document holds."""
        phase = self._document.get(self._path)
        if phase.amount_key != self._key:
            self._key = phase.amount_key
            unit = self._key.rpartition("_")[2].replace("ohm", "Ω")
            self.entry.set_unit(unit)
            self.entry.setAccessibleName(f"{tr(option(self._key))}, {unit}")
        with QSignalBlocker(self.box):
            self.box.setCurrentIndex(AMOUNT_KEYS.index(self._key))
        self.entry.set_value(getattr(phase, self._key))

    def _on_entered(self, value: object) -> None:
        self._document.begin_gesture()
        if fault := self._document.attempt(f"{self._path}.{self._key}", value):
            self.entry.refuse(fault)

    def _on_fault(self, sentence: str) -> None:
        self.fault.say(sentence)

    def _on_kind(self, index: int) -> None:
        key = self.box.itemData(index)
        if key == self._key:
            return
        phase = self._document.get(self._path)
        volts = self._document.get("load.connect_V")
        self._document.begin_gesture()
        if fault := self._document.attempt(self._path, _converted(phase, key, volts)):
            self.refresh()
            self.fault.say(fault)


def _converted(phase: Phase, key: str, volts: float) -> Phase:
    """The same draw at a voltage, said in another way."""
    amount = getattr(phase, phase.amount_key)
    if phase.amount_key == "current_A":
        amps = amount
    elif phase.amount_key == "power_W":
        amps = amount / volts
    else:
        amps = volts / amount
    given = {
        "current_A": amps,
        "power_W": amps * volts,
        "resistance_ohm": volts / amps if amps > 0 else 1e6,
    }[key]
    return Phase(name=phase.name, duration_s=phase.duration_s, **{key: float(f"{given:.3g}")})

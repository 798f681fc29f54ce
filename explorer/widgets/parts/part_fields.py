"""What is known of a part beside its values: names, price, sizes, source."""

from __future__ import annotations

from typing import Any

from pydantic import ValidationError
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from explorer.scenario.fields import describe
from explorer.scenario.part import KINDS, Part
from explorer.state.language import tr
from explorer.text import capitalised
from explorer.widgets.exact_field import ExactField
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.fields import Field
from explorer.words.refusal import fault_text, range_sentence

_TEXTS = ("title", "source", "date", "currency")
_NUMBERS = ("price", "volume_cm3", "mass_g", "height_mm", "area_cm2")
_ORDER = (
    "title", "source", "date", "price", "currency", "volume_cm3", "mass_g", "height_mm", "area_cm2",
)


class PartFields(QWidget):
    """Shows one part and tells of a changed one; keeps what was refused where it was typed."""

    edited = Signal(object)
    """Carries the part with the change."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._part: Part | None = None
        self.entries: dict[str, Field] = {}
        self._faults: dict[str, str] = {}
        """By field, for as long as what was refused stands in it; the latest comes last."""
        self.fault = FaultLine()
        grid = QGridLayout()
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(6)
        grid.setColumnStretch(1, 1)
        for row, key in enumerate(_ORDER):
            told = describe(KINDS["store"], key)
            entry: Field
            if key in _NUMBERS:
                entry = ExactField(told.unit, optional=True)
                entry.entered.connect(self._on_entered)
                entry.fault_changed.connect(self._on_fault)
            else:
                entry = Field()
                entry.editingFinished.connect(self._on_finished)
            entry.setObjectName(key)
            entry.setToolTip(tr(told.help))
            entry.setAccessibleName(tr(told.label))
            label = QLabel(tr(told.label))
            label.setBuddy(entry)
            grid.addWidget(label, row, 0)
            grid.addWidget(entry, row, 1)
            self.entries[key] = entry
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(grid)
        layout.addWidget(self.fault)

    def set_part(self, part: Part | None) -> None:
        """Show a part, or that none is chosen."""
        self._part = part
        self.setEnabled(part is not None)
        for key, entry in self.entries.items():
            value = getattr(part, key) if part is not None else None
            if isinstance(entry, ExactField):
                entry.set_value(value)
                entry.take_back()  # what was refused for one part is nothing of the next
            else:
                self._show_text(entry, value or "")

    def _show_text(self, entry: Field, text: str) -> None:
        entry.setText(text)
        entry.setCursorPosition(0)
        entry.set_at_fault(False)
        self._tell(entry.objectName(), "")

    def _on_entered(self, value: object) -> None:
        entry = self.sender()
        assert isinstance(entry, ExactField)
        key = entry.objectName()
        if fault := self._change(key, value):
            entry.refuse(fault)
        else:
            entry.set_value(getattr(self._part, key, None))

    def _on_finished(self) -> None:
        entry = self.sender()
        assert isinstance(entry, Field)
        key, text = entry.objectName(), entry.text().strip()
        if self._part is None:
            return
        fault = "" if text == getattr(self._part, key) else self._change(key, text)
        if fault:
            entry.set_at_fault(True)
            self._tell(key, fault)
        else:
            self._show_text(entry, getattr(self._part, key))

    def _on_fault(self, sentence: str) -> None:
        entry = self.sender()
        assert isinstance(entry, ExactField)
        self._tell(entry.objectName(), sentence)

    def _tell(self, key: str, fault: str) -> None:
        """Say the latest of what is refused; a field that was put right leaves the others'."""
        self._faults.pop(key, None)
        if fault:
            self._faults[key] = fault
        self.fault.say(next(reversed(self._faults.values()), ""))

    def _change(self, key: str, value: Any) -> str:
        if self._part is None:
            return ""
        kind = KINDS[self._part.kind]
        try:
            self._part = kind.model_validate({**self._part.model_dump(), key: value})
        except ValidationError as error:
            fault = error.errors(include_url=False)[0]
            if fault["type"] == "value_error":
                return capitalised(fault_text(fault)) + "."
            return range_sentence(describe(kind, key))
        self.edited.emit(self._part)
        return ""

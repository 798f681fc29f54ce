"""The rows of an efficiency table as they are typed, in any order."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from explorer.scenario.efficiency_draft import NUMBERS, DraftRow
from explorer.scenario.fields import describe
from explorer.scenario.supply import MOST_ROWS, MOST_VOLTAGES, EfficiencyPoint
from explorer.state import theme
from explorer.state.language import tr
from explorer.text import texts
from explorer.widgets.buttons import PillButton
from explorer.widgets.exact_field import ExactField
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.icons import icon
from explorer.widgets.tab_order import splice_tabs
from explorer.words.refusal import range_sentence

_TITLES = texts(("Input power", "Efficiency", "At store voltage"))
_UNITS = {"input_W": "W", "efficiency": "%", "store_V": "V"}
_PER_CENT = 100.0
_WIDTH = 118
_MOST = MOST_ROWS * MOST_VOLTAGES


class EfficiencyTable(QWidget):
    """Rows of fields; tells what stands in them."""

    changed = Signal()
    """Something that can be judged has changed."""

    def __init__(self, rows: tuple[DraftRow, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: list[EfficiencyLine] = []
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(8)
        self._grid.setVerticalSpacing(6)
        self._grid.setColumnStretch(len(NUMBERS) + 1, 1)
        for column, title in enumerate(_TITLES):
            head = QLabel(tr(title))
            head.setFont(theme.font("small"))
            head.setForegroundRole(head.palette().ColorRole.PlaceholderText)
            self._grid.addWidget(head, 0, column, Qt.AlignmentFlag.AlignRight)
        self.add_button = PillButton()
        self.add_button.setText(tr("Add efficiency row"))
        self.add_button.setIcon(icon("add", self.palette()))
        self.add_button.setIconSize(QSize(12, 12))
        self.add_button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.add_button.clicked.connect(self._on_add)
        self._fault = FaultLine()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addLayout(self._grid)
        layout.addWidget(self._fault)
        layout.addWidget(self.add_button, 0, Qt.AlignmentFlag.AlignLeft)
        for row in rows or (DraftRow(), DraftRow(), DraftRow()):
            self._append(row)

    @property
    def drafts(self) -> tuple[DraftRow, ...]:
        """What stands in the rows."""
        return tuple(row.draft for row in self.rows)

    @property
    def is_typed_out(self) -> bool:
        """Whether no field holds a text that was not taken."""
        return not any(cell.at_fault for row in self.rows for cell in row.cells.values())

    def _append(self, draft: DraftRow) -> EfficiencyLine:
        row = EfficiencyLine(draft, self)
        row.changed.connect(self.changed)
        row.faulted.connect(self._on_faulted)
        row.remove.clicked.connect(self._on_remove)
        self.rows.append(row)
        self._place()
        splice_tabs(self)
        return row

    def _place(self) -> None:
        for at, row in enumerate(self.rows, start=1):
            for column, part in enumerate(row.parts):
                self._grid.addWidget(part, at, column)
                part.show()
            row.set_number(at)
        self.add_button.setEnabled(len(self.rows) < _MOST)

    def _on_add(self) -> None:
        before = self.rows[-1].draft.store_V if self.rows else None
        row = self._append(DraftRow(store_V=before))
        row.cells["input_W"].setFocus(Qt.FocusReason.TabFocusReason)

    def _on_remove(self) -> None:
        gone = next(row for row in self.rows if row.remove is self.sender())
        place = self.rows.index(gone)
        self.rows.remove(gone)
        for part in gone.parts:
            self._grid.removeWidget(part)
            part.hide()
            part.deleteLater()
        gone.deleteLater()
        self._place()
        after = self.rows[min(place, len(self.rows) - 1)].remove if self.rows else self.add_button
        after.setFocus()
        self.changed.emit()

    def _on_faulted(self, sentence: str) -> None:
        self._fault.say(sentence)


class EfficiencyLine(QWidget):
    """One row: the fields are laid out by the table, this widget only holds them together."""

    changed = Signal()
    faulted = Signal(object)
    """Why what was typed was not taken; empty once that no longer stands there."""

    def __init__(self, draft: DraftRow, parent: QWidget) -> None:
        super().__init__(parent)
        self.hide()
        self.draft = draft
        self.cells: dict[str, ExactField] = {}
        for key in NUMBERS:
            bare = "µ" if key == "input_W" else ""
            cell = ExactField(_UNITS[key], optional=True, bare=bare, parent=parent)
            cell.setFixedWidth(_WIDTH)
            cell.setObjectName(key)
            cell.set_value(_shown(draft, key))
            cell.entered.connect(self._on_entered)
            cell.fault_changed.connect(self.faulted)
            self.cells[key] = cell
        self.cells["store_V"].setPlaceholderText(tr("any"))
        self.remove = PillButton(outlined=False, parent=parent)
        self.remove.setIcon(icon("delete", self.palette()))
        self.remove.setFixedSize(26, 26)
        self.parts: tuple[QWidget, ...] = (*self.cells.values(), self.remove)

    def set_number(self, number: int) -> None:
        """Say which row this is."""
        for key, cell in self.cells.items():
            field = describe(EfficiencyPoint, key)
            cell.setAccessibleName(
                tr("Efficiency row {n}: {label}", n=number, label=field.label) + f", {_UNITS[key]}"
            )
            cell.setToolTip(tr(field.help))
        words = tr("Remove efficiency row {n}", n=number)
        self.remove.setAccessibleName(words)
        self.remove.setToolTip(words)

    def _on_entered(self, value: object) -> None:
        cell = self.sender()
        assert isinstance(cell, ExactField)
        key = cell.objectName()
        number = value if isinstance(value, float) else None
        if number is not None and key == "efficiency":
            number /= _PER_CENT
        field = describe(EfficiencyPoint, key)
        if number is not None and not field.low <= number <= field.high:
            cell.refuse(range_sentence(field))
            return
        self.draft = self.draft.having(key, number)
        cell.set_value(_shown(self.draft, key))
        self.changed.emit()


def _shown(draft: DraftRow, key: str) -> float | None:
    value: float | None = getattr(draft, key)
    return value * _PER_CENT if value is not None and key == "efficiency" else value

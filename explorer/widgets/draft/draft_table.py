"""A table of numbers as they are typed: rows in any order, added and removed one by one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic, Protocol, TypeVar

from pydantic import BaseModel
from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from explorer.scenario.fields import describe
from explorer.state.language import tr
from explorer.widgets.buttons import PillButton
from explorer.widgets.exact_field import ExactField
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.tab_order import splice_tabs
from explorer.words.refusal import range_sentence


class Draft(Protocol):
    """One row as far as it has been typed; its numbers are attributes."""

    def having(self: DraftT, key: str, value: float | None, /) -> DraftT:
        """The row with another number."""


DraftT = TypeVar("DraftT", bound=Draft)


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberColumn:
    """How the numbers of one column are typed and shown."""

    key: str
    unit: str
    width: int
    bare: str = ""
    """Prefix of the unit that a number typed without any unit has."""
    scale: float = 1.0
    """What is shown over what is kept."""


class NumberRow(QWidget, Generic[DraftT]):
    """One row: the fields are laid out by the table, this widget only holds them together.

    Parameters
    ----------
    draft : Draft
        What stands in it.
    section : type
        Section of the scenario that declares the keys of the columns.
    columns : sequence of NumberColumn
        In the order of the table.
    parent : QWidget
        The table.
    """

    changed = Signal()
    faulted = Signal(object)
    """Why what was typed was not taken; empty once that no longer stands there."""

    def __init__(
        self,
        draft: DraftT,
        section: type[BaseModel],
        columns: Sequence[NumberColumn],
        parent: QWidget,
    ) -> None:
        super().__init__(parent)
        self.hide()
        self.draft = draft
        self._section = section
        self._columns = {column.key: column for column in columns}
        self.cells: dict[str, ExactField] = {}
        for column in columns:
            cell = ExactField(column.unit, optional=True, bare=column.bare, parent=parent)
            cell.setFixedWidth(column.width)
            cell.setObjectName(column.key)
            cell.set_value(self._shown(column))
            cell.entered.connect(self._on_entered)
            cell.fault_changed.connect(self.faulted)
            self.cells[column.key] = cell
        self.remove = PillButton(outlined=False, parent=parent)
        self.remove.show_icon("delete")
        self.remove.setFixedSize(26, 26)
        self.parts: tuple[QWidget, ...] = (*self.cells.values(), self.remove)

    def cell_name(self, number: int, label: str) -> str:
        """What a screen reader calls a cell, without its unit."""
        raise NotImplementedError

    def removal(self, number: int) -> str:
        """What the button that takes the row away does."""
        raise NotImplementedError

    def set_number(self, number: int) -> None:
        """Say which row this is."""
        for key, cell in self.cells.items():
            field = describe(self._section, key)
            cell.setAccessibleName(f"{self.cell_name(number, field.label)}, {tr(cell.unit)}")
            cell.setToolTip(tr(field.help))
        words = self.removal(number)
        self.remove.setAccessibleName(words)
        self.remove.setToolTip(words)

    def _shown(self, column: NumberColumn) -> float | None:
        value: float | None = getattr(self.draft, column.key)
        return None if value is None else value * column.scale

    def _on_entered(self, value: object) -> None:
        cell = self.sender()
        assert isinstance(cell, ExactField)
        column = self._columns[cell.objectName()]
        number = value / column.scale if isinstance(value, float) else None
        field = describe(self._section, column.key)
        if number is not None and not field.low <= number <= field.high:
            cell.refuse(range_sentence(field))
            return
        self.draft = self.draft.having(column.key, number)
        cell.set_value(self._shown(column))
        self.changed.emit()


RowT = TypeVar("RowT", bound=NumberRow)  # type: ignore[type-arg]


class DraftTable(QWidget, Generic[DraftT, RowT]):
    """Rows of fields; tells what stands in them.

    Parameters
    ----------
    heads : sequence of QWidget
        What stands above the columns.
    add : str
        What the button that adds a row says, already translated.
    most : int
        Rows that a table may have.
    """

    changed = Signal()
    """Something that can be judged has changed."""

    def __init__(
        self, heads: Sequence[QWidget], add: str, most: int, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.rows: list[RowT] = []
        self._most = most
        self._grid = QGridLayout()
        self._grid.setVerticalSpacing(6)
        for column, head in enumerate(heads):
            self._grid.addWidget(head, 0, column)
        self.add_button = PillButton()
        self.add_button.setText(add)
        self.add_button.show_icon("add")
        self.add_button.setIconSize(QSize(12, 12))
        self.add_button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.add_button.clicked.connect(self._on_add)
        self.adding: list[PillButton] = [self.add_button]
        """What adds a row, as long as there may be one more."""
        self._fault = FaultLine()
        self._buttons = QHBoxLayout()
        self._buttons.setSpacing(6)
        self._buttons.addWidget(self.add_button)
        self._buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addLayout(self._grid)
        layout.addWidget(self._fault)
        layout.addLayout(self._buttons)

    def row_of(self, draft: DraftT) -> RowT:
        """A row for a draft."""
        raise NotImplementedError

    def next_draft(self) -> DraftT:
        """What stands in a row that is added."""
        raise NotImplementedError

    @property
    def drafts(self) -> tuple[DraftT, ...]:
        """What stands in the rows."""
        return tuple(row.draft for row in self.rows)

    @property
    def is_typed_out(self) -> bool:
        """Whether no field holds a text that was not taken."""
        return not any(cell.refusal for row in self.rows for cell in row.cells.values())

    def append(self, draft: DraftT) -> RowT:
        """Add a row below the others."""
        row = self.row_of(draft)
        row.changed.connect(self.changed)
        row.faulted.connect(self._on_faulted)
        row.remove.clicked.connect(self._on_remove)
        self.rows.append(row)
        self._place()
        splice_tabs(self)
        return row

    def drop(self, gone: RowT) -> None:
        """Take a row away."""
        self.rows.remove(gone)
        for part in gone.parts:
            self._grid.removeWidget(part)
            part.hide()
            part.deleteLater()
        gone.deleteLater()

    def _place(self) -> None:
        for at, row in enumerate(self.rows, start=1):
            for column, part in enumerate(row.parts):
                self._grid.addWidget(part, at, column)
                part.show()
            row.set_number(at)
        for button in self.adding:
            button.setEnabled(len(self.rows) < self._most)

    def _on_add(self) -> None:
        row = self.append(self.next_draft())
        next(iter(row.cells.values())).setFocus(Qt.FocusReason.TabFocusReason)

    def _on_remove(self) -> None:
        gone = next(row for row in self.rows if row.remove is self.sender())
        place = self.rows.index(gone)
        self.drop(gone)
        self._place()
        after = self.rows[min(place, len(self.rows) - 1)].remove if self.rows else self.add_button
        after.setFocus()
        self.changed.emit()

    def _on_faulted(self, sentence: str) -> None:
        self._fault.say(sentence)

"""The rows of an efficiency table as they are typed, in any order."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

from explorer.scenario.efficiency_draft import NUMBERS, DraftRow
from explorer.scenario.supply import MOST_ROWS, MOST_VOLTAGES, EfficiencyPoint
from explorer.state import theme
from explorer.state.language import tr
from explorer.text import texts
from explorer.widgets.draft.draft_table import DraftTable, NumberColumn, NumberRow

_TITLES = texts(("Input power", "Efficiency", "At store voltage"))
_WIDTH = 100
_COLUMNS = (
    NumberColumn(key="input_W", unit="W", width=_WIDTH, bare="µ"),
    NumberColumn(key="efficiency", unit="%", width=_WIDTH, scale=100.0),
    NumberColumn(key="store_V", unit="V", width=_WIDTH),
)


class EfficiencyLine(NumberRow[DraftRow]):
    """One row of the table."""

    def __init__(self, draft: DraftRow, parent: QWidget) -> None:
        super().__init__(draft, EfficiencyPoint, _COLUMNS, parent)
        self.cells["store_V"].setPlaceholderText(tr("any"))

    def cell_name(self, number: int, label: str) -> str:
        """What a screen reader calls a cell, without its unit."""
        return tr("Efficiency row {n}: {label}", n=number, label=label)

    def removal(self, number: int) -> str:
        """What the button that takes the row away does."""
        return tr("Remove efficiency row {n}", n=number)


class EfficiencyTable(DraftTable[DraftRow, EfficiencyLine]):
    """Begins with three empty rows where there are none."""

    def __init__(self, rows: tuple[DraftRow, ...], parent: QWidget | None = None) -> None:
        heads = [_head(title) for title in _TITLES]
        super().__init__(heads, tr("Add efficiency row"), MOST_ROWS * MOST_VOLTAGES, parent)
        for head in heads:
            self._grid.setAlignment(head, Qt.AlignmentFlag.AlignRight)
        self._grid.setHorizontalSpacing(8)
        self._grid.setColumnStretch(len(NUMBERS) + 1, 1)
        for row in rows or (DraftRow(), DraftRow(), DraftRow()):
            self.append(row)

    def row_of(self, draft: DraftRow) -> EfficiencyLine:
        """A row for a draft."""
        return EfficiencyLine(draft, self)

    def next_draft(self) -> DraftRow:
        """A row at the store voltage of the last one, as sheets go on."""
        return DraftRow(store_V=self.rows[-1].draft.store_V if self.rows else None)


def _head(title: str) -> QLabel:
    label = QLabel(tr(title))
    label.setFont(theme.font("small"))
    label.setForegroundRole(label.palette().ColorRole.PlaceholderText)
    return label

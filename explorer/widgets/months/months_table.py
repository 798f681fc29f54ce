"""The twelve months of a sky as they are typed: a row each, none added and none removed."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

from explorer.scenario.daylight import SkyMonth
from explorer.scenario.months_draft import NUMBERS, MonthDraft
from explorer.state import theme
from explorer.state.language import tr
from explorer.text import texts
from explorer.widgets.draft.draft_table import DraftTable, NumberColumn, NumberRow
from explorer.words.daylight import MONTHS

_TITLES = texts(("", "Clear days", "Sun and clouds", "Temperature", "± in light"))
_WIDTH = 104
_COLUMNS = (
    NumberColumn(key="clear_share", unit="%", width=_WIDTH, scale=100.0),
    NumberColumn(key="partly_share", unit="%", width=_WIDTH, scale=100.0),
    NumberColumn(key="mean_C", unit="°C", width=_WIDTH),
    NumberColumn(key="swing_C", unit="°C", width=_WIDTH),
)


class MonthLine(NumberRow[MonthDraft]):
    """One month."""

    def __init__(self, draft: MonthDraft, month: str, parent: QWidget) -> None:
        super().__init__(draft, SkyMonth, _COLUMNS, parent)
        self.month = month
        self.name = QLabel(tr(month), parent)
        self.remove.hide()
        self.parts = (self.name, *self.cells.values())

    def cell_name(self, number: int, label: str) -> str:
        """What a screen reader calls a cell, without its unit."""
        return tr("{month}: {label}", month=tr(self.month), label=tr(label))

    def removal(self, number: int) -> str:
        """A month is never removed."""
        return ""


class MonthsTable(DraftTable[MonthDraft, MonthLine]):
    """January to December."""

    def __init__(self, months: tuple[MonthDraft, ...], parent: QWidget | None = None) -> None:
        heads = [_head(title) for title in _TITLES]
        super().__init__(heads, "", len(MONTHS), parent)
        self.add_button.hide()
        for head in heads[1:]:
            self._grid.setAlignment(head, Qt.AlignmentFlag.AlignRight)
        self._grid.setHorizontalSpacing(8)
        self._grid.setColumnStretch(len(NUMBERS) + 1, 1)
        for month in months:
            self.append(month)

    def row_of(self, draft: MonthDraft) -> MonthLine:
        """A row for a draft."""
        return MonthLine(draft, MONTHS[len(self.rows)], self)

    def next_draft(self) -> MonthDraft:
        """No month is added; there are twelve."""
        raise NotImplementedError


def _head(title: str) -> QLabel:
    label = QLabel(tr(title) if title else "")
    label.setFont(theme.font("small"))
    label.setForegroundRole(label.palette().ColorRole.PlaceholderText)
    return label

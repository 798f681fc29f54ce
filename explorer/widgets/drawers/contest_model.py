"""The rows of the contest as a Qt model: one for each kind of store, updated in place."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QSortFilterProxyModel,
    Qt,
)

from explorer.advice.contest import Entry
from explorer.state.language import tr
from explorer.words.contest import CONTEST_COLUMNS, CONTEST_TIPS, contest_cell, contest_line

ENTRY_ROLE = int(Qt.ItemDataRole.UserRole)
STALE_ROLE = ENTRY_ROLE + 1
_RIGHT = frozenset({"size", "first", "dark", "operations", "volume", "mass", "years", "cost"})
Index = QModelIndex | QPersistentModelIndex
_ROOT = QModelIndex()


class ContestModel(QAbstractTableModel):
    """Entries of the contest in the order of arrival."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.entries: list[Entry] = []
        self._stale: set[str] = set()

    def put(self, entry: Entry) -> None:
        """Add a kind of store, or replace what was found for an earlier design."""
        self._stale.discard(entry.key)
        for row, old in enumerate(self.entries):
            if old.key == entry.key:
                self.entries[row] = entry
                self.dataChanged.emit(
                    self.index(row, 0), self.index(row, self.columnCount() - 1)
                )
                return
        row = len(self.entries)
        self.beginInsertRows(QModelIndex(), row, row)
        self.entries.append(entry)
        self.endInsertRows()

    def set_stale(self) -> None:
        """Mark all rows as belonging to an earlier design; the view has to paint itself anew."""
        self._stale = {e.key for e in self.entries}

    def drop_stale(self) -> None:
        """Take out what the present contest did not bring."""
        if self._stale:
            self.beginResetModel()
            self.entries = [e for e in self.entries if e.key not in self._stale]
            self._stale = set()
            self.endResetModel()

    def is_stale(self, key: str) -> bool:
        """Whether a row belongs to an earlier design."""
        return key in self._stale

    def fresh(self) -> list[Entry]:
        """Entries of the present design."""
        return [e for e in self.entries if e.key not in self._stale]

    def rowCount(self, parent: Index = _ROOT) -> int:
        """Kinds of store."""
        return 0 if parent.isValid() else len(self.entries)

    def columnCount(self, parent: Index = _ROOT) -> int:
        """What is said of each."""
        return 0 if parent.isValid() else len(CONTEST_COLUMNS)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Text, entry and what is spoken of one cell."""
        entry = self.entries[index.row()]
        key, title = CONTEST_COLUMNS[index.column()]
        if role == ENTRY_ROLE:
            return entry
        if role == STALE_ROLE:
            return entry.key in self._stale
        if role == Qt.ItemDataRole.DisplayRole:
            return tr(contest_cell(entry, key).text)
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if key in _RIGHT else Qt.AlignmentFlag.AlignLeft
            return int(side | Qt.AlignmentFlag.AlignVCenter)
        if role == Qt.ItemDataRole.ToolTipRole:
            return tr(contest_line(entry))
        if role == Qt.ItemDataRole.AccessibleTextRole:
            trace = key == "trace"
            text = tr("voltage over time") if trace else tr(contest_cell(entry, key).text)
            return f"{tr(title)}: {text}"
        return None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        """Titles of the columns."""
        if orientation != Qt.Orientation.Horizontal:
            return None
        key, title = CONTEST_COLUMNS[section]
        if role == Qt.ItemDataRole.DisplayRole:
            return tr(title)
        if role == Qt.ItemDataRole.ToolTipRole:
            return tr(CONTEST_TIPS[key])
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if key in _RIGHT else Qt.AlignmentFlag.AlignLeft
            return int(side | Qt.AlignmentFlag.AlignVCenter)
        return None


class SortedContest(QSortFilterProxyModel):
    """Sorts by what the numbers are, not by how they read; names by their letters."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.setDynamicSortFilter(True)

    def lessThan(self, left: Index, right: Index) -> bool:
        """Order of two cells of one column."""
        key = CONTEST_COLUMNS[left.column()][0]
        if key == "store":
            return bool(left.data() < right.data())
        one, other = (contest_cell(at.data(ENTRY_ROLE), key) for at in (left, right))
        return (one.group, one.rank) < (other.group, other.rank)

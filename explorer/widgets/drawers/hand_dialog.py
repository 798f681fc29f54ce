"""Readings written down by hand, with a button that writes the time."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import (
    QAbstractItemDelegate,
    QAbstractItemView,
    QDialog,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QStyledItemDelegate,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from explorer.files.disk import FileError
from explorer.files.hand_readings import (
    ENDING,
    HandRow,
    hand_run,
    latest_hand_run,
    read_hand_rows,
    save_hand_run,
)
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.text import say
from explorer.widgets.buttons import pill
from explorer.widgets.slim_scroll import SlimBar

COLUMNS = ("time", "volts", "lux")
_TITLES = (say("Time"), say("Voltage, V"), say("Light, lx"))
_LEAST_READINGS = 3
_ROW_PX = 26


class HandDialog(QDialog):
    """A table of readings; what is complete in it is on disk at every moment.

    Parameters
    ----------
    folder : pathlib.Path
        Where the run is kept; made when the first reading is there.
    """

    kept = Signal(object)
    """Carries the path of the run whenever it has changed and can be compared."""

    def __init__(self, folder: Path, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._folder = folder
        self._path: Path | None = None
        self._today = date.today()
        self._showing = False
        self._by_now = False
        """Whether the row at hand has its time from the button, not from a stop-watch."""
        self.setWindowTitle(tr("Readings by hand"))
        self.now_button = pill(
            tr("Now"), tr("Write the present time into a new row, then type what the meter shows")
        )
        self.remove_button = pill(tr("Remove row"), tr("Remove the chosen row"))
        self.resume_button = pill(
            tr("Go on with the last one"), tr("Take up the run that was written down last")
        )
        self.close_button = pill(tr("Close"), tr("The run stays in the drawer and on disk"))
        self.table = self._build_table()
        self.hint = QLabel(
            tr(
                "Press Now at the moment of a reading, type the voltage and press Enter. Light is "
                "optional. Times may also be typed: 14:05:30, or 90 s, 5 min since the beginning."
            )
        )
        self.said = QLabel()
        for label in (self.hint, self.said):
            label.setWordWrap(True)
            label.setFont(theme.font("small"))
        self.hint.setForegroundRole(self.hint.palette().ColorRole.PlaceholderText)
        self._lay_out()
        self.now_button.clicked.connect(self._on_now)
        self.remove_button.clicked.connect(self._on_remove)
        self.resume_button.clicked.connect(self._on_resume)
        self.close_button.clicked.connect(self.close)
        self.table.itemChanged.connect(self._on_changed)
        self.resume_button.setVisible(latest_hand_run(folder) is not None)
        self._add_row(HandRow())
        self.check()
        self.now_button.setFocus()

    def _build_table(self) -> QTableWidget:
        table = QTableWidget(0, len(COLUMNS))
        table.setHorizontalHeaderLabels([tr(title) for title in _TITLES])
        table.setAccessibleName(tr("Readings: time, voltage and light"))
        table.verticalHeader().setDefaultSectionSize(_ROW_PX)
        table.verticalHeader().setMinimumWidth(28)
        table.setVerticalScrollBar(SlimBar())
        table.setEditTriggers(QAbstractItemView.EditTrigger.AllEditTriggers)
        header = table.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.Fixed)
        longest = f" {datetime.max.isoformat(' ', 'milliseconds')} "
        header.resizeSection(0, table.fontMetrics().horizontalAdvance(longest))
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        header.setHighlightSections(False)
        self._cells = QStyledItemDelegate(table)
        table.setItemDelegate(self._cells)
        # After the table's own, which takes the keyboard.
        self._cells.closeEditor.connect(self._on_editor_closed)
        return table

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        buttons.setSpacing(6)
        for button in (self.now_button, self.remove_button, self.resume_button):
            buttons.addWidget(button)
        buttons.addStretch(1)
        buttons.addWidget(self.close_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 12, 14, 12)
        layout.setSpacing(8)
        layout.addWidget(self.hint)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.said)
        layout.addLayout(buttons)

    def sizeHint(self) -> QSize:
        """Room for a dozen readings."""
        return QSize(440, 470)

    # --- the rows ---

    @property
    def rows(self) -> list[HandRow]:
        """The table as typed."""
        return [
            HandRow(**{key: self._text(row, column) for column, key in enumerate(COLUMNS)})
            for row in range(self.table.rowCount())
        ]

    def _text(self, row: int, column: int) -> str:
        item = self.table.item(row, column)
        return item.text() if item is not None else ""

    def _add_row(self, cells: HandRow) -> int:
        """A row at the end, in the place of an empty last one."""
        rows = self.rows
        at = len(rows) - 1 if rows and rows[-1] == HandRow() else len(rows)
        self._showing = True
        self.table.setRowCount(at + 1)
        for column, key in enumerate(COLUMNS):
            self.table.setItem(at, column, QTableWidgetItem(getattr(cells, key)))
        self._showing = False
        return at

    def _on_now(self) -> None:
        now = datetime.now()
        at = self._add_row(HandRow(time=f"{now:%Y-%m-%d %H:%M:%S}.{now.microsecond // 100_000}"))
        self._by_now = True
        self._go_on_at(at, "volts")

    def _go_on_at(self, row: int, key: str) -> None:
        """What is typed next goes into this cell."""
        cell = self.table.item(row, COLUMNS.index(key))
        assert cell is not None
        self.table.scrollToItem(cell)
        self.table.setCurrentItem(cell)
        self.table.setFocus()
        self.table.editItem(cell)

    def _on_remove(self) -> None:
        self.table.removeRow(self.table.currentRow())
        if self.table.rowCount() == 0:
            self._add_row(HandRow())
        self.check()

    def _on_editor_closed(self, _: QWidget, hint: QAbstractItemDelegate.EndEditHint) -> None:
        """After Enter the next thing is the voltage to a time, then the next reading."""
        if hint != QAbstractItemDelegate.EndEditHint.SubmitModelCache:
            return
        row = self.table.currentRow()
        if COLUMNS[self.table.currentColumn()] == "time":
            self._by_now = False
            self._go_on_at(row, "volts")
        elif self._by_now or row + 1 == self.table.rowCount():
            self.now_button.setFocus()
        else:
            self._go_on_at(row + 1, "time")

    def _on_changed(self, _: QTableWidgetItem) -> None:
        if not self._showing:
            if self.rows[-1] != HandRow():
                self._add_row(HandRow())
            self.check()

    # --- the run ---

    def take_up(self, path: Path) -> None:
        """Go on with a run that was written down before."""
        try:
            rows = read_hand_rows(path)
        except FileError as error:
            self.said.setText(tr(str(error)))
            return
        self._path = path
        self._showing = True
        self.table.setRowCount(0)
        self._showing = False
        for row in (*rows, HandRow()):
            self._add_row(row)
        self.table.scrollToBottom()
        self.resume_button.hide()
        self.check()

    def _on_resume(self) -> None:
        path = latest_hand_run(self._folder)
        if path is not None:
            self.take_up(path)

    def check(self) -> None:
        """Mark what is wrong, keep what is complete."""
        run = hand_run(self.rows, self._today)
        self._mark(run.complaints)
        if run.complaints:
            (row, _), why = min(run.complaints.items(), key=lambda found: found[0][0])
            self.said.setText(
                tr(say("Row {n}: {why} It is kept once it is put right.", n=row + 1, why=why))
            )
        else:
            self.said.setText(self._standing(len(run.lines)))
        if not run.lines and self._path is None:
            return
        try:
            if self._path is None:
                self._folder.mkdir(parents=True, exist_ok=True)
                begun = f"{datetime.now():%Y-%m-%d %H.%M.%S}"
                self._path = self._folder / f"{begun} {ENDING}"
            save_hand_run(self._path, run)
        except (FileError, OSError) as error:
            self.said.setText(tr(str(error)))
            return
        self.resume_button.hide()
        if len(run.lines) >= _LEAST_READINGS:
            self.kept.emit(self._path)

    def _standing(self, count: int) -> str:
        if count == 0:
            return ""
        if count < _LEAST_READINGS:
            return tr(
                "{n} of the {least} readings that a comparison needs.",
                n=count,
                least=_LEAST_READINGS,
            )
        return tr("{n} readings, kept on disk and shown in the drawer.", n=count)

    def _mark(self, complaints: dict[tuple[int, str], str]) -> None:
        """Red ink and a tip where a cell cannot be used."""
        tokens = tokens_of(self.palette())
        self._showing = True
        for row in range(self.table.rowCount()):
            for column, key in enumerate(COLUMNS):
                item = self.table.item(row, column)
                if item is not None:
                    why = complaints.get((row, key))
                    ink: QColor = tokens.color("falls_short" if why else "ink")
                    item.setForeground(ink)
                    item.setToolTip(tr(why) if why else "")
        self._showing = False


"""Which store? The same device on every kind of store, each at its best fit."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QModelIndex, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from explorer.advice.contest import PRESENT, Entry
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.drawer_steps import contest_steps
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.buttons import PillButton
from explorer.widgets.drawers.contest_cells import ROW_HEIGHT, ContestCells
from explorer.widgets.drawers.contest_model import ENTRY_ROLE, ContestModel, SortedContest
from explorer.widgets.drawers.drawer import Drawer, folder_of
from explorer.widgets.drawers.export import Picture, WidgetPaint
from explorer.widgets.drawers.flat import FlatHeader
from explorer.widgets.plain import plain_tip
from explorer.widgets.slim_scroll import SlimBar
from explorer.words.contest import CONTEST_COLUMNS, contest_answer, contest_line, contest_table
from explorer.words.drawers import Table
from explorer.words.readout import bind_units

QUESTION = say("Which store?")
_LEAST_NAME, _SHORTEST_NAME, _MARK = 190, 120, 40
"""Least widths of a name before the verdict's word gives way and after, and of its filling. [px]"""
_LINE = 46
"""Height of the sentence about a row, of three lines. [px]"""
_COLUMNS = [key for key, _ in CONTEST_COLUMNS]
_NEEDED, _TRACE = _COLUMNS.index("margin") + 1, _COLUMNS.index("trace")
"""Columns that are in sight at every width, and the one that gives way to them."""
_VERDICT = [key for key, _ in CONTEST_COLUMNS].index("verdict")


class ContestTable(QTableView):
    """The contest; Enter takes the store of the row."""

    taken = Signal()
    touched = False
    """Whether a person chose a row; until then the best one is chosen."""

    def __init__(
        self, model: SortedContest, parent: QWidget | None = None, *, keep_curves: bool = True
    ) -> None:
        super().__init__(parent)
        self.setModel(model)
        self._cells = ContestCells(self, keep_curves=keep_curves)
        self._narrow = keep_curves
        self.setItemDelegate(self._cells)
        self.setFrameShape(QTableView.Shape.NoFrame)
        self.setShowGrid(False)
        header = FlatHeader(self)
        header.setSectionsClickable(True)
        header.setStretchLastSection(True)
        self.setHorizontalHeader(header)
        self.setSortingEnabled(True)
        self.sortByColumn(_VERDICT, Qt.SortOrder.DescendingOrder)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setVerticalScrollBar(SlimBar())
        self.setTabKeyNavigation(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setAccessibleName(tr("Kinds of store, one a row; Enter takes the chosen one"))
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(ROW_HEIGHT)
        self.setHorizontalScrollBar(SlimBar(Qt.Orientation.Horizontal))
        self.viewport().setAutoFillBackground(False)
        self.setCornerWidget(QWidget(self))
        self.doubleClicked.connect(self._on_double)

    def sizeHint(self) -> QSize:
        """No more height than its smallest, so that the drawer around it never scrolls too."""
        return self.minimumSizeHint()

    def fit_columns(self) -> None:
        """Make every column as wide as what it holds."""
        self.setColumnHidden(_TRACE, False)
        self.resizeColumnsToContents()
        if not self._narrow:
            return
        room, whole = self.viewport().width(), self.columnWidth(0)
        needed = sum(self.columnWidth(column) for column in range(1, _NEEDED))
        if room - needed < whole:
            needed -= self.columnWidth(_TRACE)
            self.setColumnHidden(_TRACE, True)
        if room - needed < min(whole, _LEAST_NAME):  # the filling alone says the verdict
            needed -= self.columnWidth(_VERDICT) - _MARK
            self.setColumnWidth(_VERDICT, _MARK)
        self.setColumnWidth(0, min(whole, max(room - needed, _SHORTEST_NAME)))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit names to the new room."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.fit_columns()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter takes; the rest is Qt's."""
        self.touched = True
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.taken.emit()
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Choose a row."""
        self.touched = True
        super().mousePressEvent(event)

    def _on_double(self, _: QModelIndex) -> None:
        self.taken.emit()


class ContestDrawer(Drawer):
    """Shows the contest and puts the chosen store in place."""

    def __init__(
        self,
        document: Document,
        jobs: JobRunner,
        parts_folder: Path,
        parent: QWidget | None = None,
    ) -> None:
        self._parts_folder, self._beside = parts_folder, folder_of(document)
        steps = partial(contest_steps, parts_folder, self._beside)
        feed = Feed("contest", document, jobs, steps)
        super().__init__(QUESTION, document, feed, parent=parent)
        document.file_changed.connect(self._on_file_changed)
        self.model = ContestModel(self)
        self.sorted = SortedContest(self)
        self.sorted.setSourceModel(self.model)
        self.view = ContestTable(self.sorted)
        self.line = QLabel()
        self.line.setWordWrap(True)
        self.line.setFont(theme.font("small"))
        self.line.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.line.setFixedHeight(_LINE)
        self.take = PillButton()
        self.take.setText(tr("Take this store"))
        self.take.setToolTip(
            tr("Put the chosen store into the design (Enter; undo takes it back)")
        )
        self.take.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.take.setEnabled(False)
        foot = QHBoxLayout()
        foot.setSpacing(10)
        foot.addWidget(self.line, 1)
        foot.addWidget(self.take)
        layout = QVBoxLayout(self.body)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.view, 1)
        layout.addLayout(foot)
        self.take.clicked.connect(self.take_chosen)
        self.view.taken.connect(self.take_chosen)
        self.view.selectionModel().currentRowChanged.connect(self._on_row)
        self._done = False

    def _on_file_changed(self) -> None:
        """The parts beside the open scenario take part too."""
        if (beside := folder_of(self.document)) != self._beside:
            self._beside = beside
            self.feed.set_steps(partial(contest_steps, self._parts_folder, beside))

    def show_step(self, step: object) -> None:
        """Add one kind of store, or bring it up to date."""
        assert isinstance(step, Entry)
        self.model.put(step)
        self.show_body()
        self.view.fit_columns()
        self.say_answer(contest_answer(self.model.fresh(), False))
        self._show_line()

    def show_done(self) -> None:
        """Say the answer."""
        self.model.drop_stale()
        if all(entry.key == PRESENT for entry in self.model.entries):
            self.say_nothing(
                tr("There is nothing to show because the library holds no store.")
            )
            return
        self.say_answer(contest_answer(self.model.entries, True))
        if self.chosen() is None or not self.view.touched:
            self.view.setCurrentIndex(self.sorted.index(0, 0))
        self._show_line()

    def show_outdated(self) -> None:
        """What is on show belongs to an earlier design, so nothing can be taken."""
        self.model.set_stale()
        self.view.viewport().update()
        self._show_line()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep room for the sentence of any row, so that rows stay where they are."""
        super().resizeEvent(event)
        self.line.setFixedHeight(_LINE)
        self._fit_line()

    def _fit_line(self) -> None:
        """The sentence of a row may take more room, and keeps it for the next one."""
        needed = self.line.heightForWidth(self.line.width())
        if needed > self.line.height():
            self.line.setFixedHeight(needed)

    def focus_body(self) -> None:
        """The table takes the keyboard."""
        self.view.setFocus()

    def chosen(self) -> Entry | None:
        """The entry of the chosen row."""
        index = self.view.currentIndex()
        return index.data(ENTRY_ROLE) if index.isValid() else None

    def take_chosen(self) -> None:
        """Put the chosen store in place as one undo step."""
        entry = self.chosen()
        if entry is None or entry.scenario is None:
            return
        if self.feed.is_current and not self.model.is_stale(entry.key):
            self.document.replace(entry.scenario, f"change to {entry.title}")

    def table(self, name: str) -> Table:
        """The entries in the order of the table."""
        rows = range(self.sorted.rowCount())
        return contest_table([self.sorted.index(r, 0).data(ENTRY_ROLE) for r in rows])

    def picture(self) -> Picture:
        """All rows and columns, whatever is scrolled into view."""
        table = ContestTable(self.sorted, self, keep_curves=False)
        table.hide()
        table.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        table.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        table.fit_columns()
        header = table.horizontalHeader()
        size = QSize(header.length(), header.sizeHint().height() + table.verticalHeader().length())
        table.resize(size)
        return Picture(
            title=tr(QUESTION), subtitle=self.subtitle(), size=size, paint=_OncePaint(table)
        )

    def _on_row(self, *_: QModelIndex) -> None:
        self._show_line()

    def _show_line(self) -> None:
        entry = self.chosen()
        usable = (
            entry is not None
            and entry.scenario is not None
            and not self.model.is_stale(entry.key)
            and entry.scenario != self.document.scenario
        )
        self.take.setEnabled(usable)
        text = tr(bind_units(contest_line(entry))) if entry is not None else ""
        if self.line.text() != text:
            self.line.setText(text)
            self.line.setToolTip(plain_tip(text))
            self._fit_line()


class _OncePaint:
    """Paints a table that was made for one picture, and lets it go."""

    def __init__(self, table: ContestTable) -> None:
        self._table = table

    def __call__(self, painter: QPainter) -> None:
        WidgetPaint(self._table)(painter)
        self._table.deleteLater()

"""Which build? Panels, charger and store that do it, and the best of them to choose from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QSignalBlocker, QSize, Qt
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
)

from explorer.advice.build_front import MEASURES, SIZES, Build, Builds, Wanted
from explorer.files.study_builds import BuildSearch, search_of
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.drawer_steps import builds_steps
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.text import say
from explorer.widgets.buttons import PillButton
from explorer.widgets.drawers.builds_plot import BuildsPlot
from explorer.widgets.drawers.drawer import Drawer, folder_of
from explorer.widgets.drawers.flat import FlatHeader
from explorer.widgets.drawers.limits_menu import LimitsMenu
from explorer.widgets.fields import CalmComboBox
from explorer.widgets.paint import focus_pen, mix
from explorer.widgets.side_by_side import SideBySide
from explorer.widgets.slim_scroll import SlimBar
from explorer.widgets.wrapped_line import WrappedLine
from explorer.words.builds import (
    BUILD_COLUMNS,
    build_cell,
    builds_line,
    builds_table,
    measure_label,
    price_note,
)
from explorer.words.drawers import Table
from explorer.words.readout import bind_units

QUESTION = say("Which build?")
Index = QModelIndex | QPersistentModelIndex
_ROW_HEIGHT = 26
_PAD = 8
_COLUMNS = [key for key, _ in BUILD_COLUMNS]


class _Cells(QStyledItemDelegate):
    """Plain text with the same edge as the heads of the columns; the chosen row is tinted."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """Room for the text."""
        size = super().sizeHint(option, index)
        return QSize(size.width() + 2 * _PAD, _ROW_HEIGHT)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one cell."""
        rect, tokens = option.rect, tokens_of(option.palette)
        painter.save()
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, mix(tokens.color("accent"), tokens.color("card"), 0.16))
        painter.setPen(QPen(tokens.color("line"), 1.0))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        painter.setPen(tokens.color("ink"))
        painter.setFont(option.font)
        inside = rect.adjusted(_PAD, 0, -_PAD, 0)
        text = painter.fontMetrics().elidedText(
            str(index.data()), Qt.TextElideMode.ElideRight, inside.width() + 1
        )
        align = Qt.AlignmentFlag(index.data(Qt.ItemDataRole.TextAlignmentRole))
        painter.drawText(inside, align, text)
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(focus_pen(tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(rect.adjusted(1, 1, -1, -2))
        painter.restore()


class BuildsDrawer(Drawer):
    """A plot of all builds that run, a table of the best, and filters.

    Parameters
    ----------
    parts_folder : Path
        Where parts of one's own lie.
    """

    def __init__(self, document: Document, jobs: JobRunner, parts_folder: Path) -> None:
        self._parts_folder = parts_folder
        self._found: Builds | None = None
        self._filling, self._touched = False, False
        self._beside = folder_of(document)
        self._kept = document.study.builds
        steps = partial(
            builds_steps, parts_folder, self._beside, self._kept.limits, self._kept
        )
        super().__init__(QUESTION, document, Feed("builds", document, jobs, steps))
        self.plot = BuildsPlot()
        self.across, self.up = CalmComboBox(), CalmComboBox()
        self.limits = LimitsMenu()
        self.limits.set_wanted(self._kept.limits)
        self.view = QTableWidget(0, len(BUILD_COLUMNS))
        self.line = WrappedLine()
        self.take = PillButton()
        self._build()
        document.file_changed.connect(self._on_file_changed)
        document.study_changed.connect(self._on_study)

    def _build(self) -> None:
        for box, name, start in (
            (self.across, tr("Measure across"), "price"),
            (self.up, tr("Measure up"), "panel_cm2"),
        ):
            self._offer(box, MEASURES, start)
            box.setAccessibleName(name)
            box.setMinimumWidth(104)
            box.activated.connect(self._on_axes)
        axes, bar = QHBoxLayout(), SideBySide()
        axes.setSpacing(10)
        bar.setSpacing(6)
        for text, name, box in (
            ("→", tr("Across", "axis"), self.across), ("↑", tr("Up", "axis"), self.up)
        ):  # fmt: skip
            label = QLabel(text)
            label.setToolTip(name)
            label.setBuddy(box)
            axes.addWidget(label)
            axes.addWidget(box)
        self.limits.changed.connect(self._on_limits)
        bar.addLayout(axes)
        bar.addWidget(self.limits, 0, Qt.AlignmentFlag.AlignLeft)
        bar.addStretch(1)
        self._shape_table()
        self.take.setText(tr("Take this build"))
        self.take.setMinimumHeight(30)
        self.take.clicked.connect(self.take_chosen)
        self.line.setFont(theme.font("small"))
        foot = QHBoxLayout()
        foot.setSpacing(10)
        foot.addWidget(self.line, 1)
        foot.addWidget(self.take)
        both = SideBySide()
        both.setSpacing(12)
        both.addWidget(self.plot, 4)
        both.addWidget(self.view, 6)
        layout = QVBoxLayout(self.body)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addLayout(bar)
        layout.addLayout(both, 1)
        layout.addLayout(foot)
        self.plot.chosen.connect(self.view.selectRow)

    def _shape_table(self) -> None:
        view = self.view
        header = FlatHeader(view)
        header.setStretchLastSection(True)
        view.setHorizontalHeader(header)
        for column, (key, label) in enumerate(BUILD_COLUMNS):
            head = QTableWidgetItem(tr(label))
            head.setTextAlignment(_side(key))
            view.setHorizontalHeaderItem(column, head)
        view.verticalHeader().hide()
        view.verticalHeader().setDefaultSectionSize(_ROW_HEIGHT)
        view.setItemDelegate(_Cells(view))
        view.setFrameShape(QTableWidget.Shape.NoFrame)
        view.setShowGrid(False)
        view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        view.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        view.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        view.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        view.setVerticalScrollBar(SlimBar())
        view.setHorizontalScrollBar(SlimBar(Qt.Orientation.Horizontal))
        view.viewport().setAutoFillBackground(False)
        view.setTabKeyNavigation(False)
        view.setMinimumSize(200, 130)
        view.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        view.setAccessibleName(tr("Builds that no other beats, by price"))
        view.currentCellChanged.connect(self._on_row)
        view.doubleClicked.connect(self.take_chosen)

    # --- what is searched for ---

    @property
    def wanted(self) -> Wanted:
        """What the filters allow."""
        return self.limits.wanted

    def _on_file_changed(self) -> None:
        """The parts beside the open scenario take part too."""
        if (beside := folder_of(self.document)) != self._beside:
            self._beside = beside
            self._ask()

    def _on_limits(self) -> None:
        """A study keeps them."""
        self._kept = BuildSearch(limits=self.wanted)
        self.document.edit_study(replace(self.document.study, builds=self._kept))
        self._ask()

    def _on_study(self) -> None:
        """Show the limits of the study that was opened, and first the front that it keeps."""
        kept = self.document.study.builds
        if kept != self._kept:
            self._kept = kept
            self.limits.set_wanted(kept.limits)
            self._ask()

    def _ask(self) -> None:
        steps = partial(
            builds_steps, self._parts_folder, self._beside, self.wanted, self._kept
        )
        self.feed.set_steps(steps, rest_ms=0)

    def _offer(self, box: CalmComboBox, names: Sequence[str], chosen: str) -> None:
        """Measures to choose from; where the chosen one is gone the first stands for it."""
        with QSignalBlocker(box):
            box.clear()
            for name in names:
                box.addItem(tr(measure_label(name)), name)
            box.setCurrentIndex(max(box.findData(chosen), 0))

    def _offer_measures(self, names: Sequence[str]) -> None:
        """Prices in several currencies are as many measures."""
        if [self.across.itemData(i) for i in range(self.across.count())] != list(names):
            for box in (self.across, self.up):
                self._offer(box, names, box.currentData())
            if self.across.currentData() == self.up.currentData():
                self._offer(self.up, names, SIZES[0])
            self.plot.set_axes(self.across.currentData(), self.up.currentData())

    def _on_axes(self, _: int) -> None:
        self.plot.set_axes(self.across.currentData(), self.up.currentData())

    # --- what was found ---

    def show_step(self, step: object) -> None:
        """Show what was found so far."""
        assert isinstance(step, Builds)
        chosen = self.chosen() if self._touched else None  # until then the first stands
        self._filling = True
        self._found = step
        self._offer_measures(tuple(step.measures))
        self.plot.set_builds(step)
        self._fill(step)
        self.show_body()  # also where none runs: the filters are there
        self.say_answer(builds_line(step))
        again = [i for i, b in enumerate(step.front) if chosen and b.scenario == chosen.scenario]
        if step.front:
            self.view.selectRow(again[0] if again else 0)
        self._filling = False
        self._show_line()

    def _fill(self, found: Builds) -> None:
        with QSignalBlocker(self.view):
            self.view.setRowCount(len(found.front))
            for row, build in enumerate(found.front):
                for column, (key, _) in enumerate(BUILD_COLUMNS):
                    text = tr(bind_units(build_cell(build, key, found.currencies)))
                    item = QTableWidgetItem(text)
                    item.setTextAlignment(_side(key))
                    item.setToolTip(item.text())
                    self.view.setItem(row, column, item)
        self.view.resizeColumnsToContents()
        chargers = {build.charger for build in found.front}
        self.view.setColumnHidden(_COLUMNS.index("charger"), len(chargers) < 2)

    def show_done(self) -> None:
        """Put down what was found, so that it is kept with the study."""
        if self._found is not None and self._found.is_done:
            self._kept = search_of(self._found, self.wanted, self.document.scenario)
            self.document.note_builds(self._kept)

    def show_outdated(self) -> None:
        """What is on show belongs to an earlier design, so nothing can be taken."""
        self._show_line()

    def chosen(self) -> Build | None:
        """The build of the chosen row."""
        row = self.view.currentRow()
        if self._found is None or not 0 <= row < len(self._found.front):
            return None
        return self._found.front[row]

    def take_chosen(self, *_: object) -> None:
        """Put the chosen build in place as one undo step."""
        build = self.chosen()
        if build is not None and self.feed.is_current:
            self.document.replace(build.scenario, "take a build")

    def focus_body(self) -> None:
        """The table takes the keyboard."""
        self.view.setFocus()

    def table(self, name: str) -> Table:
        """The front."""
        return builds_table(self._found) if self._found is not None else {}

    def _on_row(self, row: int, *_: int) -> None:
        self._touched = self._touched or not self._filling
        self.plot.set_chosen(row)
        self._show_line()

    def _show_line(self) -> None:
        build = self.chosen()
        usable = build is not None and build.scenario != self.document.scenario
        self.take.setEnabled(usable and self.feed.is_current)
        self.line.show_text(tr(price_note(self._found)) if self._found is not None else "")


def _side(key: str) -> Qt.AlignmentFlag:
    """Numbers stand at the right of their column."""
    numbers = (*MEASURES, "height_mm")
    side = Qt.AlignmentFlag.AlignRight if key in numbers else Qt.AlignmentFlag.AlignLeft
    return side | Qt.AlignmentFlag.AlignVCenter

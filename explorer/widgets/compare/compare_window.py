"""Two designs side by side: what differs, what each does, and both traces."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QMenu,
    QSizePolicy,
    QStackedWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from explorer.advice.case import Case
from explorer.files.beside import resolve_case
from explorer.files.disk import FileError
from explorer.files.trust import OutsideFile
from explorer.resource_files import scenario_folder
from explorer.state import theme
from explorer.state.comparison import Comparison
from explorer.state.document import Document
from explorer.state.examples import read_scenario
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.state.settings import SettingsStore
from explorer.state.solver import Solver
from explorer.text import say, texts
from explorer.widgets import messages
from explorer.widgets.buttons import PillButton
from explorer.widgets.card import Card
from explorer.widgets.compare.choice import FILE, PINNED, Choice
from explorer.widgets.compare.plate import Plate
from explorer.widgets.compare.table import CompareTable
from explorer.widgets.drawers.export import pick_file, save_csv, written
from explorer.widgets.help.sizes import fit_screen
from explorer.widgets.notice_bar import NoticeBar
from explorer.widgets.plots.trace_plot import TracePlot
from explorer.words.compare import (
    difference_rows,
    difference_table,
    result_rows,
    result_table,
    summary,
)

THIS, OTHER = texts(("This design", "The other"))
PINNED_NAME = say("the pinned design")
DIFFERENCES, RESULTS = "differences", "results"


class CompareWindow(QDialog):
    """Follows the open design; closing it keeps what was compared for the next time.

    Parameters
    ----------
    window : QWidget
        Over which it stands.
    document, solver, jobs, settings : Document, Solver, JobRunner and SettingsStore
        The open design, what judges it, what works aside, and where files were kept last.
    actions : sequence of QAction
        Those of the window that work here too.
    calendar : callable
        Whether the trace runs on a calendar week, and where in it it begins.
    """

    def __init__(
        self,
        window: QWidget,
        *,
        document: Document,
        solver: Solver,
        jobs: JobRunner,
        settings: SettingsStore,
        actions: Sequence[QAction],
        calendar: Callable[[], tuple[bool, float]],
    ) -> None:
        super().__init__(window)
        self._document, self._solver, self._settings = document, solver, settings
        self._calendar = calendar
        self._pinned: Case | None = None
        self.comparison = Comparison(document, solver, jobs, self)
        self.addActions(actions)
        self.setWindowTitle(tr("Compare – Gloaming"))
        self.setSizeGripEnabled(True)
        self.this_plate = Plate(dashed=False)
        self.other_plate = Plate(dashed=True)
        self.choice = Choice(_examples())
        self.notice = NoticeBar()
        self.summary = QLabel()
        self.summary.setFont(theme.font("body", bold=True))
        self.summary.setWordWrap(True)
        self.summary.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.differences = CompareTable(
            (say("What differs"), THIS, OTHER),
            tr("What differs, one value a row; Enter takes the other design's value over"),
            takes=True,
        )
        self.results = CompareTable(
            (say("What comes of it"), THIS, OTHER), tr("Checks and answers of both designs")
        )
        self.plot = TracePlot(ghost_name=say("the other"))
        self.take = self._button(
            tr("Take over"),
            tr(
                "Put the other design's value in place of this one's, for every chosen row "
                "(Enter; undo takes it back)"
            ),
        )
        self.with_button = self._button(tr("Compare with…"), tr("Choose the other design"))
        self.export = self._button(tr("Export table…"), tr("Save a table as CSV"))
        self.close_button = self._button(tr("Close"), tr("Close the comparison (Esc)"))
        self._build()
        self._connect()

    def begin(self, pinned: Case | None) -> None:
        """Show the comparison: with a newly pinned design, else with the last, else ask."""
        self.choice.set_pinned(pinned is not None)
        if pinned is not None and pinned is not self._pinned:
            self.compare_with(pinned, PINNED_NAME)
        self._pinned = pinned
        self._refresh()
        self.show()
        self.raise_()
        self.activateWindow()
        self._take_focus()

    def compare_with(self, case: Case, name: str) -> None:
        """Put another design beside the open one."""
        self.notice.hide()
        self.plot.set_ghost(None)
        self.comparison.set_other(case, name)
        self._refresh()
        self._take_focus()

    def open_other(self, path: Path) -> bool:
        """Compare with a file; say why where it cannot be read."""
        try:
            scenario = read_scenario(path)
            case = resolve_case(scenario, path)
        except OutsideFile as log:
            return messages.allows_file(self, path.name, log) and self.open_other(path)
        except FileError as error:
            messages.tell(self, say("The scenario was not opened"), str(error))
            return False
        self.compare_with(case, path.name)
        return True

    def take_over(self) -> None:
        """Take the chosen values over, as one undo step."""
        self.notice.hide()
        self.comparison.take_over(self.differences.chosen())

    def save_table(self, which: str, path: Path) -> bool:
        """Write one of the two tables as CSV; say why where that fails."""
        this, other = self.comparison.this, self.comparison.result
        try:
            if which == DIFFERENCES:
                save_csv(difference_table(self.comparison.found), path)
            elif this is not None and other is not None:
                save_csv(result_table(this, other), path)
        except FileError as error:
            messages.tell(self, say("Nothing was exported"), str(error))
            return False
        self.notice.say(written(path), fault=False)
        return True

    # --- how it is built ---

    @staticmethod
    def _button(text: str, tip: str) -> PillButton:
        button = PillButton()
        button.setText(text)
        button.setToolTip(tip)
        button.setMinimumHeight(30)
        button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        return button

    def _build(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(8)
        head.addWidget(self.this_plate, 1)
        head.addWidget(self.other_plate, 1)
        for button in (self.with_button, self.export, self.close_button):
            head.addWidget(button, 0, Qt.AlignmentFlag.AlignVCenter)
        left = Card()
        column = QVBoxLayout(left)
        column.setContentsMargins(8, 10, 4, 10)
        column.setSpacing(6)
        top = QHBoxLayout()
        top.setContentsMargins(8, 0, 6, 0)
        top.addWidget(self.summary, 1)
        top.addWidget(self.take)
        column.addLayout(top)
        column.addWidget(self.differences, 1)
        upper, lower = Card(), Card()
        for card, widget in ((upper, self.plot), (lower, self.results)):
            inside = QVBoxLayout(card)
            inside.setContentsMargins(8, 8, 4, 8)
            inside.setSpacing(2)
            if widget is self.plot:
                title = QLabel(tr("Store voltage of both, V"))
                title.setFont(theme.font("body", bold=True))
                title.setIndent(6)
                inside.addWidget(title)
            inside.addWidget(widget, 1)
        right = QVBoxLayout()
        right.setSpacing(12)
        right.addWidget(upper, 5)
        right.addWidget(lower, 6)
        body = QWidget()
        row = QHBoxLayout(body)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addWidget(left, 1)
        row.addLayout(right, 1)
        self.pages = QStackedWidget()
        self.pages.addWidget(self.choice)
        self.pages.addWidget(body)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 8, 14, 14)
        layout.setSpacing(8)
        layout.addLayout(head)
        layout.addWidget(self.notice)
        layout.addWidget(self.pages, 1)
        self.setMinimumSize(880, 460)
        fit_screen(self, QSize(1180, 680))

    def _connect(self) -> None:
        self.with_button.setMenu(self.choice.menu)
        self.with_button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        menu = QMenu(self)
        menu.addAction(tr("What &differs, CSV…")).setData(DIFFERENCES)
        menu.addAction(tr("Checks and &answers, CSV…")).setData(RESULTS)
        menu.triggered.connect(self._on_export)
        self.export.setMenu(menu)
        self.export.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.choice.picked.connect(self._on_picked)
        self.take.clicked.connect(self.take_over)
        self.differences.taken.connect(self.take_over)
        self.differences.selectionModel().selectionChanged.connect(self._on_selection)
        self.close_button.clicked.connect(self.close)
        self.comparison.changed.connect(self._on_news)
        self.comparison.assessed.connect(self._on_news)
        self.comparison.failed.connect(self.notice.say)

    # --- what it shows ---

    def _on_news(self) -> None:
        if self.isVisible():
            self._refresh()

    def _refresh(self) -> None:
        found, this = self.comparison.found, self.comparison.this
        other, result = self.comparison.other, self.comparison.result
        self.this_plate.show_design(tr(THIS), self._document.scenario.title, this)
        self.other_plate.setVisible(other is not None)
        self.export.setEnabled(other is not None and result is not None)
        self.pages.setCurrentIndex(0 if other is None else 1)
        if other is None:
            return
        whose = tr("The other: {name}", name=self.comparison.name)
        self.other_plate.show_design(whose, other.title, result)
        self.summary.setText(tr(summary(len(found), this, result)))
        self.differences.set_rows(difference_rows(found))
        self._on_selection()
        if this is not None:
            self.results.set_rows(result_rows(this, result))
            self.plot.set_calendar(*self._calendar())
            self.plot.set_assessment(this, self._solver.window())
            self.plot.set_ghost(result)

    def _take_focus(self) -> None:
        if self.comparison.other is None:
            first = next(b for b in self.choice.buttons if b.isEnabled())
            first.setFocus()
        else:
            self.differences.setFocus()

    def _on_selection(self, *_: object) -> None:
        count = len(self.differences.chosen())
        self.take.setEnabled(count > 0)
        self.take.setText(tr("Take over") if count < 2 else tr("Take {n} over", n=count))

    # --- what a person does ---

    def _on_picked(self, key: str) -> None:
        if key == PINNED:
            if self._pinned is not None:
                self.compare_with(self._pinned, PINNED_NAME)
        elif key == FILE:
            path = messages.pick_open(self, self._settings.settings.folder)
            if path is not None:
                self.open_other(path)
        else:
            self.open_other(Path(key))

    def _on_export(self, action: object) -> None:
        which = action.data()  # type: ignore[attr-defined]
        path = pick_file(self, f"compare-{which}.csv", "csv")
        if path is not None:
            self.save_table(which, path)


def _examples() -> list[Path]:
    try:
        return sorted(scenario_folder().glob("*.json"))
    except FileNotFoundError:
        return []

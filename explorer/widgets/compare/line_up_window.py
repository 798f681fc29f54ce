"""Up to six designs laid over each other: their traces, what differs, what comes of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QMenu, QToolButton, QVBoxLayout, QWidget

from explorer.advice.case import Case
from explorer.files.beside import resolve_case
from explorer.files.disk import FileError, write_bytes, write_text
from explorer.scenario.study import MOST_DESIGNS
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.examples import example_name, read_scenario
from explorer.state.jobs import JobRunner
from explorer.state.language import language, tr
from explorer.state.line_up import LineUp
from explorer.state.settings import SettingsStore
from explorer.state.solver import Solver
from explorer.text import say
from explorer.widgets import messages
from explorer.widgets.buttons import PillButton, pill
from explorer.widgets.card import Card
from explorer.widgets.compare.line_up_plot import LineUpPlot
from explorer.widgets.compare.line_up_table import LineUpTable
from explorer.widgets.drawers.export import pick_file, save_csv, written
from explorer.widgets.elided_label import ElidedLabel
from explorer.widgets.help.sizes import fit_screen
from explorer.widgets.menus import example_paths
from explorer.widgets.notice_bar import NoticeBar
from explorer.widgets.sheet_writer import pick_target
from explorer.words.line_up import LineUpRow, line_up_rows, line_up_table

_NOW, _PINNED, _FILE = "now", "pinned", "file"
_MENU = QToolButton.ToolButtonPopupMode.InstantPopup


class LineUpWindow(QDialog):
    """Follows the open design, which is the first of the line-up.

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
    pinned : callable
        The pinned design, where there is one.
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
        pinned: Callable[[], Case | None],
    ) -> None:
        super().__init__(window)
        self._document, self._settings = document, settings
        self._calendar, self._pinned = calendar, pinned
        self._versions = 0
        self.line_up = LineUp(document, solver, jobs, self)
        self.addActions(actions)
        self.setWindowTitle(tr("Several designs – Gloaming"))
        self.setSizeGripEnabled(True)
        self.notice = NoticeBar()
        self.plot, self.table = LineUpPlot(), LineUpTable()
        self.add_button = pill(tr("Add a design…"), tr("Lay another design beside the open one"))
        self.remove_button = pill(
            tr("Take it out"), tr("Take the design of the chosen column out of the comparison")
        )
        self.export = pill(tr("Export table…"), tr("Save the table as CSV"))
        self.sheet = pill(
            tr("Write a report…"), tr("Write the comparison to PDF or HTML for others to read")
        )
        self.close_button = pill(tr("Close"), tr("Close the comparison (Esc)"))
        self._build()
        self.add_button.setMenu(QMenu(self))
        self.add_button.setPopupMode(_MENU)
        self.add_button.menu().aboutToShow.connect(self.fill_menu)
        self.add_button.menu().triggered.connect(self._on_picked)
        self.remove_button.clicked.connect(self._on_remove)
        self.export.clicked.connect(self._on_export)
        self.sheet.clicked.connect(self._on_sheet)
        self.close_button.clicked.connect(self.close)
        self.table.selectionModel().currentChanged.connect(self._on_chosen)
        self.line_up.changed.connect(self._on_changed)
        self.line_up.failed.connect(self.notice.say)

    def _build(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(8)
        self.heading = ElidedLabel()
        self.heading.setFont(theme.font("heading", bold=True))
        head.addWidget(self.heading, 1)
        buttons: tuple[PillButton, ...] = (
            self.add_button, self.remove_button, self.export, self.sheet, self.close_button,
        )  # fmt: skip
        for button in buttons:
            button.setMinimumHeight(30)
            head.addWidget(button)
        upper, lower = Card(), Card()
        for card, widget in ((upper, self.plot), (lower, self.table)):
            inside = QVBoxLayout(card)
            inside.setContentsMargins(10, 10, 6, 8)
            inside.setSpacing(2)
            if widget is self.plot:
                title = QLabel(tr("Store voltage, V"))
                title.setFont(theme.font("body", bold=True))
                inside.addWidget(title)
            inside.addWidget(widget, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 8, 14, 14)
        layout.setSpacing(10)
        layout.addLayout(head)
        layout.addWidget(upper, 4)
        layout.addWidget(lower, 5)
        layout.addWidget(self.notice)
        self.setMinimumSize(880, 460)
        fit_screen(self, QSize(1180, 720))

    def begin(self) -> None:
        """Show it; a pinned design is taken in where nothing else is there yet."""
        pinned = self._pinned()
        if pinned is not None and not self.line_up.others:
            self.line_up.add(pinned, say("the pinned design"), self._document.path)
        self._refresh()
        self.show()
        self.raise_()
        self.activateWindow()
        self.add_button.setFocus()

    def open_other(self, path: Path) -> bool:
        """Take in a scenario file; say why where it cannot be read."""
        try:
            scenario = read_scenario(path)
            case = resolve_case(scenario, path)
        except FileError as error:
            messages.tell(self, say("The scenario was not opened"), str(error))
            return False
        return self.line_up.add(case, scenario.title or path.name, path)

    def fill_menu(self) -> None:
        """Offer the present design, the pinned one, files and examples."""
        menu = self.add_button.menu()
        menu.clear()
        menu.addAction(tr("The design as it is now")).setData(_NOW)
        pinned = menu.addAction(tr("The pinned design"))
        pinned.setData(_PINNED)
        pinned.setEnabled(self._pinned() is not None)
        menu.addAction(tr("A scenario file…")).setData(_FILE)
        menu.addSeparator()
        for path in example_paths():
            text = tr("Example: {name}", name=example_name(path))
            menu.addAction(text).setData(str(path))

    def save_table(self, path: Path) -> bool:
        """Write the table as CSV; say why where that fails."""
        try:
            save_csv(line_up_table(self.line_up.names, self._rows()), path)
        except FileError as error:
            messages.tell(self, say("Nothing was exported"), str(error))
            return False
        self.notice.say(written(path), fault=False)
        return True

    def save_sheet(self, path: Path) -> bool:
        """Write the sheet; say why where that fails."""
        from explorer.files.report_html import sheet_html
        from explorer.files.report_line_up import line_up_sheet
        from explorer.files.report_source import canonical_json, sha256_of

        found = [one for one in self.line_up.results if one is not None]
        made = line_up_sheet(
            self.line_up.names, found,
            [sha256_of(canonical_json(case.scenario)) for case in self.line_up.cases],
            weekdays=self._calendar()[0],
        )  # fmt: skip
        try:
            if path.suffix.lower() == ".pdf":
                from explorer.state.paper import usual_paper
                from explorer.state.report_pdf import sheet_pdf

                write_bytes(path, sheet_pdf(made, tr, usual_paper()))
            else:
                write_text(path, sheet_html(made, language(), tr))
        except FileError as error:
            messages.tell(self, say("The report was not written"), str(error))
            return False
        self.notice.say(say("The report was written: {path}", path=path), fault=False)
        return True

    # --- what it shows ---

    def _rows(self) -> tuple[LineUpRow, ...]:
        scenarios = [case.scenario for case in self.line_up.cases]
        return line_up_rows(scenarios, self.line_up.results)

    def _on_changed(self) -> None:
        if self.isVisible():
            self._refresh()

    def _refresh(self) -> None:
        count = len(self.line_up.others) + 1
        text = (
            tr("{n} of at most {most} designs", n=count, most=MOST_DESIGNS) if count > 1
            else tr("Add designs to compare with this one")
        )
        self.heading.setText(text)
        self.heading.setToolTip(text)
        self.plot.show_designs(self.line_up.results, *self._calendar())
        self.table.set_rows(self.line_up.names, self._rows())
        self.add_button.setEnabled(count < MOST_DESIGNS)
        done = all(one is not None for one in self.line_up.results)
        self.export.setEnabled(count > 1 and done)
        self.sheet.setEnabled(count > 1 and done)
        self._on_chosen()

    def _on_chosen(self, *_: object) -> None:
        self.remove_button.setEnabled(self.table.chosen() > 0)

    # --- what a person does ---

    def _on_picked(self, action: QAction) -> None:
        self.notice.hide()
        key = action.data()
        if key == _NOW:
            title = self._document.scenario.title or say("Untitled")
            name = say("{title}, version {n}", title=title, n=self._next_version())
            self.line_up.add(self._document.case, name, self._document.path)
        elif key == _PINNED:
            pinned = self._pinned()
            if pinned is not None:
                self.line_up.add(pinned, say("the pinned design"), self._document.path)
        elif key == _FILE:
            path = messages.pick_open(self, self._settings.settings.folder)
            if path is not None:
                self.open_other(path)
        else:
            self.open_other(Path(key))

    def _next_version(self) -> int:
        self._versions += 1
        return self._versions

    def _on_remove(self) -> None:
        place = self.table.chosen()
        if place > 0:
            self.line_up.remove(place - 1)
            self.add_button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _on_export(self) -> None:
        path = pick_file(self, "designs.csv", "csv")
        if path is not None:
            self.save_table(path)

    def _on_sheet(self) -> None:
        folder = Path(self._settings.settings.folder or Path.home())
        path = pick_target(self, str(folder / "designs.pdf"))
        if path is not None:
            self.save_sheet(path)

"""The window: knobs, trace, sign from left to right, with room for drawers below the trace."""

from __future__ import annotations

import itertools
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QEvent, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QCloseEvent, QGuiApplication, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QMainWindow, QVBoxLayout, QWidget

from explorer.advice.assess import Assessment
from explorer.files.disk import FileError
from explorer.files.trust import OutsideFile
from explorer.scenario.model import Scenario, first_scenario
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.frames import FramesOf
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.state.settings import SettingsStore
from explorer.state.solver import Solver
from explorer.state.theme import ThemeChoice
from explorer.text import say
from explorer.widgets import messages
from explorer.widgets.actions import build_actions, draw_icons
from explorer.widgets.centre import Centre, side_widths
from explorer.widgets.compare.comparisons import Comparisons
from explorer.widgets.drawers.drawers import Drawers
from explorer.widgets.drawers.questions import Questions
from explorer.widgets.help.assistance import Assistance
from explorer.widgets.knob_panel import KnobPanel
from explorer.widgets.menus import Menus
from explorer.widgets.notice_bar import NoticeBar
from explorer.widgets.paint import frame_menus
from explorer.widgets.panes import Panes
from explorer.widgets.remedy_list import RemedyList
from explorer.widgets.sheet_writer import SheetWriter
from explorer.widgets.sign import Sign
from explorer.widgets.study_keeper import StudyKeeper, listed_file
from explorer.widgets.title_bar import TitleBar

if TYPE_CHECKING:
    from explorer.widgets.trace_card import TraceCard

FRAME = QSize(4, 36)
"""What the desktop puts around a window: its title and edges. [px]"""


class MainWindow(QMainWindow):
    """Puts the parts together and carries out the actions.

    `commands` are its actions by key.
    """

    closed = Signal()
    """The window is closed and may be thrown away."""
    language_chosen = Signal(str)
    """A language to show from now on; this window keeps its words."""

    def __init__(
        self,
        document: Document,
        solver: Solver,
        jobs: JobRunner,
        settings: SettingsStore,
        version: str,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.document, self.solver, self.jobs, self.settings = document, solver, jobs, settings
        self.version = version
        self.commands = build_actions(self)
        self.title_bar = TitleBar(document)
        self.notice = NoticeBar()
        self.knobs = KnobPanel(document, solver)
        self._trace: TraceCard | None = None
        self._trace_wanted = False
        self._asked = False
        self.sign = Sign()
        self.drawers = Drawers(document, jobs, settings)
        self.centre = Centre(self.drawers)
        self.remedies = RemedyList(document, jobs, settings.parts_folder)
        self._build()
        self.menus = Menus(self.menuBar(), self.commands, settings)
        self.menus.example_chosen.connect(self._on_example)
        self.menus.recent_chosen.connect(self._on_recent)
        self.menus.theme_chosen.connect(self._on_theme)
        self.menus.language_chosen.connect(self._on_language)
        self.assistance = Assistance(
            self, document=document, jobs=jobs, settings=settings, version=version,
            commands=self.commands, menu=self.menus.help, body=self.body,
            knobs=self.knobs, sign=self.sign, tour_parts=self._tour_parts,
            open_scenario=self.open_scenario,
        )
        self.comparisons = Comparisons(
            self, document=document, solver=solver, jobs=jobs, settings=settings,
            commands=self.commands, calendar=self._calendar,
        )
        self.sheets = SheetWriter(
            self, document=document, jobs=jobs, settings=settings, version=version
        )
        self.studies = StudyKeeper(self, document=document, jobs=jobs, settings=settings)
        for said in (self.sheets.said, self.studies.said, self.drawers.reports):
            said.connect(self._on_said)
        for key, handler in (
            ("new", self.on_new),
            ("open", self.on_open),
            ("save", self.on_save),
            ("save_as", self.on_save_as),
            ("reload", self.on_reload),
            ("keep_study", self.on_keep_study),
            ("close", self.close),
            ("undo", document.undo_stack.undo),
            ("redo", document.undo_stack.redo),
            ("sheet", self.on_sheet),
            ("capture", self.on_capture),
        ):
            self.commands[key].triggered.connect(handler)
        stack = document.undo_stack
        stack.canUndoChanged.connect(self.commands["undo"].setEnabled)
        stack.canRedoChanged.connect(self.commands["redo"].setEnabled)
        stack.cleanChanged.connect(self._on_clean_changed)
        self.commands["undo"].setEnabled(stack.canUndo())
        self.commands["redo"].setEnabled(stack.canRedo())
        document.changed.connect(self._on_changed)
        self.questions = Questions(
            self, drawers=self.drawers, remedies=self.remedies, knobs=self.knobs,
            menu=self.menus.view, commands=self.commands, close_help=self.assistance.close_pane,
        )
        document.file_changed.connect(self._show_name)
        document.refused.connect(self.notice.say)
        solver.failed.connect(self.notice.say)
        solver.not_judged.connect(self.sign.set_refusal)
        solver.pending_changed.connect(self.sign.veil.set_drawn)
        FramesOf(self, solver)
        Panes(self, self.commands, self.knobs, self.centre, self.sign)
        solver.not_judged.connect(self.remedies.set_refusal)
        solver.result_ready.connect(self._on_result)
        solver.result_ready.connect(self.remedies.set_assessment)
        QGuiApplication.styleHints().colorSchemeChanged.connect(self._on_scheme_changed)
        self.apply_theme(settings.settings.theme)
        self.setMinimumSize(960, 520)
        self.resize(QSize(1280, 720).boundedTo(self.screen().availableSize() - FRAME))
        if settings.settings.geometry:
            self.restoreGeometry(QByteArray(settings.settings.geometry))
        self._show_name()

    def _build(self) -> None:
        for key in ("guide", "open", "save", "undo", "redo", "pin"):
            self.title_bar.add_action(self.commands[key], with_text=key not in ("undo", "redo"))
        self.sign.remedy_slot.addWidget(self.remedies)
        self.body = QHBoxLayout()
        self.body.setSpacing(12)
        self.body.addWidget(self.knobs)
        self.body.addWidget(self.centre, 1)
        aside = self.centre.aside
        aside.addWidget(self.sign, 1)
        self.body.addLayout(aside)
        central = QWidget()
        layout = QVBoxLayout(central)
        layout.setContentsMargins(14, 6, 14, 14)
        layout.setSpacing(8)
        layout.addWidget(self.title_bar)
        layout.addLayout(self.body, 1)
        # Below, so that nothing moves away from under the pointer while it is said.
        layout.addWidget(self.notice)
        self.setCentralWidget(central)

    @property
    def trace(self) -> TraceCard:
        """The trace; built after the first verdict is painted, or when it is first asked for.

        Loading the plots takes a third of the time of a start.
        """
        if self._trace is None:
            from explorer.widgets.trace_card import TraceCard

            self._trace = TraceCard(self.document, self.solver)
            self.centre.set_trace(self._trace, self._trace.pulse_card, self._trace.answers)
            self._trace.judged.connect(self.centre.set_judged)
            self._trace.menu.reports.connect(self._on_said)
            self._order_tabs(self._trace)
        return self._trace

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share the width out between the three columns."""
        super().resizeEvent(event)
        for part, width in zip((self.knobs, self.sign), side_widths(self.size()), strict=True):
            part.setFixedWidth(width)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Ask for the trace once the rest is on the screen."""
        super().paintEvent(event)
        if not self._trace_wanted:
            self._trace_wanted = True
            QTimer.singleShot(0, self, self._build_trace)

    def _build_trace(self) -> None:
        _ = self.trace, self.document.study  # which the first edit keeps

    def _order_tabs(self, trace: TraceCard) -> None:
        chain: list[QWidget] = [
            self.knobs.folds[-1].button,
            trace.fit,
            *trace.spans.buttons(),
            trace.plot,
            *trace.answers.rows,
            *self.drawers.buttons.values(),
            self.sign.rows[0],
        ]
        for before, after in itertools.pairwise(chain):
            self.setTabOrder(before, after)

    # --- theme ---

    def apply_theme(self, choice: ThemeChoice) -> None:
        """Colour the whole program."""
        palette = theme.palette_of(theme.resolve(choice))
        QApplication.setPalette(palette)
        draw_icons(self.commands, palette)

    def changeEvent(self, event: QEvent) -> None:
        """Draw the icons again in a new theme; look at the file when somebody comes back."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            self.look_at_file()
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "commands"):
            draw_icons(self.commands, self.palette())
            frame_menus(self)

    def _on_theme(self, choice: ThemeChoice) -> None:
        self.settings.update(theme=choice)
        self.apply_theme(choice)

    def _on_language(self, code: str) -> None:
        self.settings.update(language=code)
        self.language_chosen.emit(code)

    def _on_scheme_changed(self, _: object) -> None:
        if self.settings.settings.theme == "system":
            self.apply_theme("system")

    # --- files ---

    def begin(self) -> None:
        """Show the first verdict and give the keyboard to the first knob."""
        self.knobs.rows[0].slider.setFocus()
        self.solver.request()
        self.solver.catch_up()

    def open_path(self, path: Path, *, example: bool = False) -> bool:
        """Open a file and say why where that fails."""
        try:
            if example:
                self.document.open_example(path)
            else:
                self.document.open(path)
        except OutsideFile as log:
            return messages.allows_file(self, path.name, log) and self.open_path(path)
        except (FileError, OSError) as error:
            messages.tell(self, say("The scenario was not opened"), str(error))
            return False
        if not example:
            self.settings.remember_file(listed_file(path))
        return True

    def on_new(self) -> None:
        """Begin anew."""
        if self.may_leave():
            self.document.new(first_scenario())

    def open_scenario(self, scenario: Scenario) -> bool:
        """Begin with a scenario that has no file yet, unless unsaved changes are kept."""
        if not self.may_leave():
            return False
        self.document.restore(scenario)
        return True

    def on_open(self) -> None:
        """Ask for a file and open it."""
        if self.may_leave():
            path = messages.pick_open(self, self.settings.settings.folder)
            if path is not None:
                self.open_path(path)

    def on_save(self) -> bool:
        """Save; ask for a name where there is none."""
        self.finish_typing()
        if self.document.path is None:
            return self.on_save_as()
        return self._save(self.document.path)

    def on_save_as(self) -> bool:
        """Ask for a name and save under it."""
        self.finish_typing()
        folder = Path(self.settings.settings.folder or Path.home())
        start = self.document.path or folder / f"{self.document.scenario.title}.json"
        path = messages.pick_save(self, str(start))
        return path is not None and self._save(path)

    def on_keep_study(self) -> None:
        """Ask for a folder and keep the design with all that belongs to it."""
        self.finish_typing()
        self.studies.on_wanted()

    def on_reload(self) -> None:
        """Read the open file again, unless unsaved changes are kept."""
        if self.document.path is not None and self.may_leave():
            self.open_path(self.document.path)

    def look_at_file(self) -> None:
        """Say when the open file is no longer what was read; saving asks what becomes of it."""
        state = self.document.on_disk()
        if state == "changed":
            self.notice.say(
                say("The file was changed elsewhere. File, Read again shows what it holds now.")
            )
        elif state == "gone":
            self.notice.say(say("The file was deleted, moved or renamed. Saving writes it anew."))

    def _save(self, path: Path) -> bool:
        if path == self.document.path and (state := self.document.on_disk()) != "as known":
            answer = messages.ask_overwrite(self, path, gone=state == "gone")
            if answer == "save_as":
                return self.on_save_as()
            if answer != "write":
                return answer == "reload" and self.open_path(path)
        older = self.document.migrated_from
        replace = False
        if older is not None and path == self.document.path:
            if not messages.ask_replace_older(self, path, older):
                return False
            replace = True
        try:
            self.document.save(path, replace_older=replace)
        except (FileError, OSError) as error:
            messages.tell(self, say("The scenario was not saved"), str(error))
            return False
        self.settings.remember_file(listed_file(path))
        self.studies.renew()
        return True

    def may_leave(self) -> bool:
        """Whether what is open may go: it is saved, gets saved, or somebody said so."""
        self.finish_typing()
        if self.document.is_clean:
            return True
        answer = messages.ask_save(self, self.document.scenario.title)
        return answer == "discard" or (answer == "save" and self.on_save())

    def finish_typing(self) -> None:
        """Take over what is being typed, so that it is neither lost nor left out of a file."""
        field = self.focusWidget()
        if field is not None and field.hasFocus():
            field.clearFocus()
            field.setFocus()

    def _on_example(self, path: Path) -> None:
        if self.may_leave():
            self.open_path(path, example=True)

    def _on_recent(self, path: Path) -> None:
        if self.may_leave():
            self.open_path(path)

    # --- the rest ---

    def on_sheet(self) -> None:
        """Write a sheet of the open design."""
        self.finish_typing()
        self.sheets.on_wanted()

    def on_capture(self) -> None:
        """Ask for a captured load current."""
        from explorer.widgets.capture.capture_dialog import pick_capture

        path = pick_capture(self, self.settings.settings.folder)
        if path is not None:
            self.open_capture(path)

    def open_capture(self, path: Path) -> None:
        """Show a captured load current, for an operation to be made of it."""
        from explorer.widgets.capture.capture_dialog import CaptureDialog

        self.finish_typing()
        dialog = CaptureDialog(self.document, self.jobs, self)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open_file(path)
        dialog.open()

    def _on_said(self, text: str, fault: bool) -> None:
        self.notice.say(text, fault=fault)

    def _calendar(self) -> tuple[bool, float]:
        return self.trace.plot.calendar

    def _tour_parts(self, key: str) -> list[QWidget]:
        """What a step of the tour points at."""
        parts: dict[str, list[QWidget]] = {
            "guide": [self.title_bar.button_of(self.commands["guide"])],
            "knobs": [self.knobs],
            "break_even": [self.knobs.rows[0]],
            "sign": [self.sign],
            "trace": [self.trace],
            "drawers": [self.drawers],
        }
        return parts[key]

    def _on_changed(self, _: object) -> None:
        self.notice.hide()

    def _on_result(self, assessment: Assessment) -> None:
        self.sign.set_assessment(assessment)

    def _on_clean_changed(self, _: bool) -> None:
        self._show_name()

    def _show_name(self) -> None:
        self.setWindowTitle(tr("{file}[*] – Gloaming", file=self.document.name))
        self.setWindowModified(not self.document.is_clean)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask about unsaved changes, remember the place of the window, let go of the stack."""
        if not self._asked and not self.may_leave():
            event.ignore()
            return
        self.settings.update(geometry=bytes(self.saveGeometry().data()))
        stack = self.document.undo_stack
        stack.cleanChanged.disconnect(self._on_clean_changed)
        event.accept()
        self.closed.emit()

    def succeed(self, other: MainWindow) -> None:
        """Go on in place of another window, which lends its document, and look like it.

        Open folds and drawer, the operation in hand and the ghost stay; windows that were opened
        from it (comparison, guide, help) close with it.
        """
        self.restoreGeometry(other.saveGeometry())
        self.knobs.succeed(other.knobs)
        self.questions.reopen = other.questions.drawers.open_key
        self.comparisons.succeed(other.comparisons)

    def close_unasked(self) -> None:
        """Close a window that `may_leave`."""
        self._asked = True
        self.close()


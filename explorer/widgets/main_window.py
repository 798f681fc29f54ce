"""The window: knobs, trace, sign from left to right, with room for drawers below the trace."""

from __future__ import annotations

import itertools
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QEvent, QSignalBlocker, QSize, QTimer, Signal
from PySide6.QtGui import QAction, QActionGroup, QCloseEvent, QGuiApplication, QPaintEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QMainWindow, QMenu, QVBoxLayout, QWidget

from explorer.advice.assess import Assessment
from explorer.files.disk import FileError
from explorer.resource_files import scenario_folder
from explorer.scenario.model import Scenario
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.examples import example_name
from explorer.state.jobs import JobRunner
from explorer.state.language import LANGUAGE_CHOICES, NAMES, tr
from explorer.state.settings import SCALES, SettingsStore
from explorer.state.solver import Solver
from explorer.state.theme import THEME_CHOICES, ThemeChoice
from explorer.text import say, texts
from explorer.widgets import messages
from explorer.widgets.actions import build_actions, draw_icons
from explorer.widgets.card import Card
from explorer.widgets.drawers.questions import Questions
from explorer.widgets.help.assistance import Assistance
from explorer.widgets.knob_panel import KnobPanel
from explorer.widgets.notice_bar import NoticeBar
from explorer.widgets.paint import frame_menus
from explorer.widgets.sheet_writer import SheetWriter
from explorer.widgets.sign import Sign
from explorer.widgets.title_bar import TitleBar

if TYPE_CHECKING:
    from explorer.scenario.light_log import LightLog
    from explorer.widgets.compare.compare_window import CompareWindow
    from explorer.widgets.trace_card import TraceCard

_THEME_TEXTS = texts({
    "system": "As the &system",
    "light": "&Light",
    "dark": "&Dark",
    "contrast": "&High contrast",
})  # fmt: skip


class MainWindow(QMainWindow):
    """Puts the parts together and carries out the actions.

    `drawer_slot` takes what is shown below the trace, `actions` are the actions by key.
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
        self._middle = QVBoxLayout()
        self._trace_wanted = False
        self._asked = False
        self._pinned: tuple[Scenario, LightLog | None] | None = None
        self._compare: CompareWindow | None = None
        self.sign = Sign()
        self.drawer_slot = QVBoxLayout()
        self._build()
        self._build_menus()
        self.assistance = Assistance(self)
        self.sheets = SheetWriter(self)
        for key, handler in (
            ("new", self.on_new),
            ("open", self.on_open),
            ("save", self.on_save),
            ("save_as", self.on_save_as),
            ("close", self.close),
            ("undo", document.undo_stack.undo),
            ("redo", document.undo_stack.redo),
            ("pin", self.on_pin),
            ("compare", self.on_compare),
        ):
            self.commands[key].triggered.connect(handler)
        stack = document.undo_stack
        stack.canUndoChanged.connect(self.commands["undo"].setEnabled)
        stack.canRedoChanged.connect(self.commands["redo"].setEnabled)
        stack.cleanChanged.connect(self._on_clean_changed)
        self.commands["undo"].setEnabled(stack.canUndo())
        self.commands["redo"].setEnabled(stack.canRedo())
        document.changed.connect(self._on_changed)
        self.questions = Questions(self)
        document.file_changed.connect(self._show_name)
        document.refused.connect(self.notice.say)
        solver.failed.connect(self.notice.say)
        solver.result_ready.connect(self._on_result)
        QGuiApplication.styleHints().colorSchemeChanged.connect(self._on_scheme_changed)
        self.apply_theme(settings.settings.theme)
        self.setMinimumSize(960, 520)
        self.resize(QSize(1280, 720).boundedTo(self.screen().availableSize()))
        if settings.settings.geometry:
            self.restoreGeometry(QByteArray(settings.settings.geometry))
        self._show_name()

    def _build(self) -> None:
        for key in ("guide", "open", "save", "undo", "redo", "pin"):
            self.title_bar.add_action(self.commands[key], with_text=key not in ("undo", "redo"))
        self._middle.setSpacing(12)
        self._trace_place = Card()
        self._middle.addWidget(self._trace_place, 1)
        self._middle.addLayout(self.drawer_slot)
        self.body = QHBoxLayout()
        self.body.setSpacing(12)
        self.body.addWidget(self.knobs, 28)
        self.body.addLayout(self._middle, 52)
        self.body.addWidget(self.sign, 24)
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
            self._middle.replaceWidget(self._trace_place, self._trace)
            self._trace_place.deleteLater()
            self._trace.show()
            self._order_tabs(self._trace)
        return self._trace

    def paintEvent(self, event: QPaintEvent) -> None:
        """Ask for the trace once the rest is on the screen."""
        super().paintEvent(event)
        if not self._trace_wanted:
            self._trace_wanted = True
            QTimer.singleShot(0, self, self._build_trace)

    def _build_trace(self) -> None:
        _ = self.trace

    def _order_tabs(self, trace: TraceCard) -> None:
        chain: list[QWidget] = [
            self.knobs.folds[-1].button,
            trace.fit,
            *trace.spans.buttons(),
            trace.plot,
            self.sign.rows[0],
        ]
        for before, after in itertools.pairwise(chain):
            self.setTabOrder(before, after)

    def _build_menus(self) -> None:
        files = self.menuBar().addMenu(tr("&File"))
        files.addActions([self.commands[key] for key in ("new", "new_window", "open")])
        self._examples = QMenu(tr("Open &example"), files)
        self._recent = QMenu(tr("Open &recent"), files)
        files.addMenu(self._examples)
        files.addMenu(self._recent)
        self._examples.aboutToShow.connect(self._fill_examples)
        self._recent.aboutToShow.connect(self._fill_recent)
        self._examples.triggered.connect(self._on_example)
        self._recent.triggered.connect(self._on_recent)
        files.addSeparator()
        files.addActions([self.commands[key] for key in ("save", "save_as", "sheet")])
        files.addSeparator()
        files.addActions([self.commands["close"], self.commands["quit"]])
        edit = self.menuBar().addMenu(tr("&Edit"))
        edit.addActions([self.commands["undo"], self.commands["redo"]])
        edit.addSeparator()
        edit.addActions([self.commands["pin"], self.commands["compare"]])
        self.view_menu = self.menuBar().addMenu(tr("&View"))
        self._themes = QActionGroup(self)
        for choice in THEME_CHOICES:
            action = self._choice(self._themes, tr(_THEME_TEXTS[choice]), choice)
            action.setChecked(choice == self.settings.settings.theme)
        self.view_menu.addActions(self._themes.actions())
        self._themes.triggered.connect(self._on_theme)
        sizes = self.view_menu.addMenu(tr("Si&ze, from the next start"))
        self._sizes = QActionGroup(self)
        for percent in SCALES:
            action = self._choice(self._sizes, f"{percent} %", percent)
            action.setChecked(percent == self.settings.settings.scale_percent)
        sizes.addActions(self._sizes.actions())
        languages = self.view_menu.addMenu(tr("&Language"))
        self._languages = QActionGroup(self)
        for code in LANGUAGE_CHOICES:
            # By its own name, which is never translated.
            name = NAMES.get(code) or tr("As the &system")
            action = self._choice(self._languages, name, code)
            action.setChecked(code == self.settings.settings.language)
        languages.addActions(self._languages.actions())
        self._languages.triggered.connect(self._on_language)
        self.view_menu.aboutToShow.connect(self._show_choices)
        self._sizes.triggered.connect(self._on_size)

    @staticmethod
    def _choice(group: QActionGroup, text: str, data: object) -> QAction:
        action = QAction(text, group)
        action.setCheckable(True)
        action.setData(data)
        return action

    # --- theme ---

    def apply_theme(self, choice: ThemeChoice) -> None:
        """Colour the whole program."""
        palette = theme.palette_of(theme.resolve(choice))
        QApplication.setPalette(palette)
        draw_icons(self.commands, palette)

    def changeEvent(self, event: QEvent) -> None:
        """Draw the icons again in a new theme."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "commands"):
            draw_icons(self.commands, self.palette())
            frame_menus(self)

    def _on_theme(self, action: QAction) -> None:
        self.settings.update(theme=action.data())
        self.apply_theme(action.data())

    def _on_size(self, action: QAction) -> None:
        self.settings.update(scale_percent=action.data())

    def _on_language(self, action: QAction) -> None:
        self.settings.update(language=action.data())
        self.language_chosen.emit(action.data())

    def _show_choices(self) -> None:
        """Tick what holds now; another window may have chosen."""
        settings = self.settings.settings
        for group, held in (
            (self._themes, settings.theme),
            (self._sizes, settings.scale_percent),
            (self._languages, settings.language),
        ):
            for action in group.actions():
                action.setChecked(action.data() == held)

    def _on_scheme_changed(self, _: object) -> None:
        if self.settings.settings.theme == "system":
            self.apply_theme("system")

    # --- files ---

    def begin(self) -> None:
        """Show the first verdict and give the keyboard to the first knob."""
        self.knobs.rows[0].slider.setFocus()
        self.solver.request()
        self.solver.solve_now()

    def open_path(self, path: Path, *, example: bool = False) -> bool:
        """Open a file and say why where that fails."""
        try:
            if example:
                self.document.open_example(path)
            else:
                self.document.open(path)
        except (FileError, OSError) as error:
            messages.tell(self, say("The scenario was not opened"), str(error))
            return False
        if not example:
            self.settings.remember_file(path)
        return True

    def on_new(self) -> None:
        """Begin anew."""
        if self.may_leave():
            self.document.new()

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

    def _save(self, path: Path) -> bool:
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
        self.settings.remember_file(path)
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

    def _fill_examples(self) -> None:
        self._examples.clear()
        for path in example_paths():
            self._examples.addAction(example_name(path)).setData(str(path))

    def _fill_recent(self) -> None:
        self._recent.clear()
        for name in self.settings.settings.recent:
            self._recent.addAction(name).setData(name)
        if self._recent.isEmpty():
            self._recent.addAction(tr("No file yet")).setEnabled(False)

    def _on_example(self, action: QAction) -> None:
        if self.may_leave():
            self.open_path(Path(action.data()), example=True)

    def _on_recent(self, action: QAction) -> None:
        if self.may_leave():
            self.open_path(Path(action.data()))

    # --- the rest ---

    def on_pin(self, pinned: bool) -> None:
        """Keep the design on show as a ghost, or let it go."""
        self._pinned = (self.document.scenario, self.document.log) if pinned else None
        self.solver.pin(*(self._pinned or (None,)))

    def on_compare(self) -> None:
        """Open the comparison, with the pinned design where there is one."""
        if self._compare is None:
            from explorer.widgets.compare.compare_window import CompareWindow

            self._compare = CompareWindow(self)
        self._compare.begin(self._pinned)

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
        self._pinned = other._pinned
        with QSignalBlocker(self.commands["pin"]):
            self.commands["pin"].setChecked(self._pinned is not None)

    def close_unasked(self) -> None:
        """Close a window that `may_leave`."""
        self._asked = True
        self.close()


def example_paths() -> list[Path]:
    """The bundled scenarios, by name."""
    try:
        return sorted(scenario_folder().glob("*.json"))
    except FileNotFoundError:
        return []

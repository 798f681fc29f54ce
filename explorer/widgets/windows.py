"""Every open window of the program: opening more, closing all, and what a crash left."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from PySide6.QtCore import QObject, QPoint, Qt, QTimer, Signal
from PySide6.QtWidgets import QApplication

from explorer.files.disk import FileError
from explorer.files.scenario_json import load_scenario
from explorer.files.study_place import scenario_file
from explorer.files.trust import OutsideFile
from explorer.scenario.model import first_scenario
from explorer.state.autosave import Autosave, Leftover, claim_leftovers
from explorer.state.language import LanguageChoice, language, set_language, tr
from explorer.text import say
from explorer.widgets import messages
from explorer.widgets.file_drop import FileDrop
from explorer.widgets.main_window import MainWindow
from explorer.widgets.parts.desk import PartsDesk

_BESIDE = QPoint(28, 28)
"""How far a further window lies from the one before."""
_SWEEP_MS = 50
STOPPED = 128
"""What a shell adds to the number of the signal that ended a program (POSIX)."""


class Windows(QObject):
    """Owns the main windows; each has its document, solver and autosave, all share the settings.

    Parameters
    ----------
    build : callable
        Makes one window: anew for None, else around the document of the window given.
    unsaved : pathlib.Path
        Folder that keeps unsaved changes.
    """

    emptied = Signal()
    """The last window is closed."""

    def __init__(
        self,
        build: Callable[[MainWindow | None], MainWindow],
        unsaved: Path,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._build, self._unsaved = build, unsaved
        self.open: list[MainWindow] = []
        self._keepers: dict[MainWindow, Autosave] = {}
        self.leaving: list[MainWindow] = []
        """Closed windows whose last work still runs in the pool."""
        self._sweep = QTimer(self)
        self._sweep.setInterval(_SWEEP_MS)
        self._sweep.timeout.connect(self._let_go)

    def add(self, beside: MainWindow | None = None) -> MainWindow:
        """A further window, not shown yet."""
        window = self._build(None)
        self.open.append(window)
        self._keepers[window] = Autosave(window.document, self._unsaved, parent=window)
        self._connect(window)
        if beside is not None:
            window.resize(beside.size())
            window.move(beside.pos() + _BESIDE)
        return window

    def _connect(self, window: MainWindow) -> None:
        self._keepers[window].failed.connect(window.notice.say)
        window.commands["new_window"].triggered.connect(self._on_new_window)
        window.commands["quit"].triggered.connect(self.quit)
        window.closed.connect(self._on_closed)
        window.document.file_changed.connect(self._on_file_changed)
        window.language_chosen.connect(self._on_language)
        FileDrop(window).dropped.connect(self._on_dropped)

    def _on_file_changed(self) -> None:
        """Say when two windows hold one file: what is saved last would stay."""
        for window in self.open:
            path = window.document.path
            if window.document is self.sender() and path is not None and any(
                other.document.path is not None and other.document.path.resolve() == path.resolve()
                for other in self.open
                if other is not window
            ):
                window.notice.say(
                    say("This file is also open in another window; each asks before it overwrites.")
                )

    def _on_language(self, choice: LanguageChoice) -> None:
        """Build every window anew, around the same document with all its undo steps.

        Texts are written into the widgets when they are made; so nothing else has to know that
        the language can change.
        """
        before = language()
        if set_language(choice) == before:
            return
        for old in tuple(self.open):
            # One that a stand has put aside must not come out; it keeps its words.
            if old.isVisible():
                self._renew(old)

    def _renew(self, old: MainWindow) -> None:
        front, state = old.isActiveWindow(), old.windowState()
        old.finish_typing()
        old.jobs.drop()
        new = self._build(old)
        keeper = self._keepers.pop(old)
        keeper.setParent(new)
        keeper.failed.disconnect(old.notice.say)
        self.open[self.open.index(old)] = new
        self._keepers[new] = keeper
        self._connect(new)
        new.succeed(old)
        if front or not state & Qt.WindowState.WindowMinimized:
            self._show(new)
        else:
            new.begin()
            new.showMinimized()
        old.closed.disconnect(self._on_closed)
        old.close_unasked()
        old.deleteLater()

    def open_files(self, paths: Sequence[Path], beside: MainWindow) -> None:
        """Open each file in a window of its own; say why where that fails."""
        for path in paths:
            try:
                load_scenario(scenario_file(path))
            except FileError as error:
                messages.tell(beside, say("The scenario was not opened"), str(error))
                continue
            window = self.add(beside)
            if window.open_path(path):
                self._show(window)
                beside = window
            else:
                window.close()

    def quit(self) -> None:
        """Ask for each unsaved window, then close all; one cancel leaves all of them open."""
        for window in tuple(self.open):
            if not window.document.is_clean:
                window.raise_()
            if not window.may_leave():
                return
        for window in tuple(self.open):
            window.close_unasked()
        QApplication.quit()

    def front(self) -> MainWindow | None:
        """The window that a person looks at, or else the first that is open."""
        active = QApplication.activeWindow()
        return next((window for window in self.open if window is active), None) or next(
            iter(self.open), None
        )

    def end_at_once(self, signal_number: int) -> None:
        """End without asking; unsaved changes are kept, and offered at the next start."""
        for keeper in self._keepers.values():
            keeper.keep()
            keeper.wait()
        QApplication.exit(STOPPED + signal_number)

    def offer_leftovers(self) -> None:
        """Ask what becomes of work that an earlier run of the program could not save."""
        found = claim_leftovers(self._unsaved)
        if not found or not self.open:
            return
        answer = messages.ask_restore(self.open[0], [_line(one) for one in found])
        for leftover in found:
            if answer == "restore":
                self._restore(leftover)
            elif answer == "discard":
                leftover.discard()
            else:
                leftover.release()

    def _restore(self, leftover: Leftover) -> None:
        """Show the work again; it is dropped from the disk only when it is kept anew."""
        from explorer.files.logs import log_path

        first = self.open[0]
        taken = not first.document.is_clean or first.document.path is not None
        window = self.add(self.open[-1]) if taken else first
        work = leftover.work
        try:
            log_path(work.scenario, work.path)
        except OutsideFile as log:
            messages.allows_file(window, work.scenario.title, log)
        except FileError:
            pass  # the document says so
        window.document.restore(work.scenario, work.path, work.migrated_from, work.study)
        keeper = self._keepers[window]
        keeper.keep()
        keeper.wait()
        if keeper.file.exists():
            leftover.discard()
        else:
            leftover.release()
        if taken:
            self._show(window)

    def _show(self, window: MainWindow) -> None:
        window.begin()
        window.show()
        window.raise_()
        window.activateWindow()

    def _on_new_window(self) -> None:
        window = self.add(self._window_of(self.sender()))
        window.document.new(first_scenario())
        self._show(window)

    def _on_dropped(self, paths: list[Path]) -> None:
        from explorer.files.bench_log import is_bench_log
        from explorer.files.captures import is_capture
        from explorer.files.logs import is_light_log
        from explorer.files.part_json import is_part

        window = self._window_of(self.sender())
        if window is not None and len(paths) == 1 and is_bench_log(paths[0]):
            window.questions.drawers.open_log(paths[0])
        elif window is not None and len(paths) == 1 and is_light_log(paths[0]):
            window.knobs.logs.show_file(paths[0])
        elif window is not None and len(paths) == 1 and is_capture(paths[0]):
            window.open_capture(paths[0])
        elif window is not None and len(paths) == 1 and is_part(paths[0]):
            desk = window.findChild(PartsDesk)
            assert desk is not None
            desk.take_in(paths[0])
        elif window is not None and window.may_leave():
            window.open_path(paths[0])
            self.open_files(paths[1:], window)

    def _window_of(self, part: QObject | None) -> MainWindow | None:
        return next((window for window in self.open if part and part.parent() is window), None)

    def _on_closed(self) -> None:
        window = self.sender()
        assert isinstance(window, MainWindow)
        self._keepers.pop(window).stop()
        self.open.remove(window)
        window.jobs.retire()
        self.leaving.append(window)
        self._sweep.start()
        if not self.open:
            self.emptied.emit()

    def _let_go(self) -> None:
        """Throw away closed windows without making the open ones wait for a worker."""
        for window in tuple(self.leaving):
            if window.jobs.is_idle:
                self.leaving.remove(window)
                window.deleteLater()
        if not self.leaving:
            self._sweep.stop()


def _line(leftover: Leftover) -> str:
    """Title, file and time of one piece of work."""
    work = leftover.work
    title = work.scenario.title or tr("Untitled")
    kept = f"{work.kept_at.astimezone():%Y-%m-%d %H:%M}"
    if work.path is None:
        return tr("“{title}”, kept {time}", title=title, time=kept)
    return tr("“{title}”, {file}, kept {time}", title=title, file=work.path.name, time=kept)

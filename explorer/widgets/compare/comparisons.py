"""What a window compares its design with: the pinned one as a ghost, one other, or several."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSignalBlocker
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QWidget

from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.state.settings import SettingsStore
from explorer.state.solver import Solver

if TYPE_CHECKING:
    from explorer.advice.case import Case
    from explorer.widgets.compare.compare_window import CompareWindow
    from explorer.widgets.compare.line_up_window import LineUpWindow


class Comparisons(QObject):
    """Carries out the actions that compare; each window is made when it is first wanted.

    Parameters
    ----------
    window : QWidget
        Over which they stand.
    document, solver, jobs, settings : Document, Solver, JobRunner and SettingsStore
        The open design, what judges it, what works aside, and where files were kept last.
    commands : mapping of str to QAction
        What opens each.
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
        commands: Mapping[str, QAction],
        calendar: Callable[[], tuple[bool, float]],
    ) -> None:
        super().__init__(window)
        self._window, self._document, self._solver = window, document, solver
        self._jobs, self._settings = jobs, settings
        self._commands, self._calendar = commands, calendar
        self.pinned: Case | None = None
        self.one: CompareWindow | None = None
        self.several: LineUpWindow | None = None
        commands["pin"].triggered.connect(self.on_pin)
        commands["compare"].triggered.connect(self.on_compare)
        commands["line_up"].triggered.connect(self.on_line_up)

    def on_pin(self, pinned: bool) -> None:
        """Keep the design on show as a ghost, or let it go."""
        self.pinned = self._document.case if pinned else None
        self._solver.pin(self.pinned)

    def on_compare(self) -> None:
        """Open the comparison with one design, the pinned one where there is one."""
        if self.one is None:
            from explorer.widgets.compare.compare_window import CompareWindow

            self.one = CompareWindow(
                self._window, document=self._document, solver=self._solver, jobs=self._jobs,
                settings=self._settings, calendar=self._calendar, actions=self._shared(),
            )  # fmt: skip
        self.one.begin(self.pinned)

    def on_line_up(self) -> None:
        """Open the comparison of several designs."""
        if self.several is None:
            from explorer.widgets.compare.line_up_window import LineUpWindow

            self.several = LineUpWindow(
                self._window, document=self._document, solver=self._solver, jobs=self._jobs,
                settings=self._settings, calendar=self._calendar, pinned=self._pinned_case,
                actions=self._shared(),
            )  # fmt: skip
        self.several.begin()

    def succeed(self, other: Comparisons) -> None:
        """Keep the ghost of another window."""
        self.pinned = other.pinned
        with QSignalBlocker(self._commands["pin"]):
            self._commands["pin"].setChecked(self.pinned is not None)

    def _shared(self) -> list[QAction]:
        return [self._commands[key] for key in ("undo", "redo", "save")]

    def _pinned_case(self) -> Case | None:
        return self.pinned

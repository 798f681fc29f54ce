"""Puts drawers and remedies into the main window and ties them to its actions and keys."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QBoxLayout, QWidget

from explorer.widgets.drawers.drawers import QUESTIONS, Drawers
from explorer.widgets.drawers.jump import go_to
from explorer.widgets.remedy_list import RemedyList

if TYPE_CHECKING:
    from explorer.widgets.main_window import MainWindow

_FIRST = 100
"""Stretch of the drawers against the trace's 1: they grow to their largest height first."""


class Questions(QObject):
    """What the main window asks beyond its verdict."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._painted = False
        self.reopen: str | None = None
        """Key of the drawer to begin with; None for the one that was open last."""
        self.drawers = Drawers(window.document, window.jobs, window.settings)
        self.remedies = RemedyList(window.document, window.jobs)
        window.drawer_slot.addWidget(self.drawers)
        column = window.drawer_slot.parent()
        if isinstance(column, QBoxLayout):  # the drawer takes its share, the trace the rest
            column.setStretchFactor(window.drawer_slot, _FIRST)
        window.sign.remedy_slot.addWidget(self.remedies)
        window.view_menu.addSeparator()
        for key in QUESTIONS:
            action = window.commands[f"drawer_{key}"]
            action.setCheckable(True)
            action.triggered.connect(self._on_action)
            window.view_menu.addAction(action)
        self.drawers.opened.connect(self._on_opened)
        self.drawers.wants_field.connect(self._on_field)
        window.solver.result_ready.connect(self.remedies.set_assessment)
        window.installEventFilter(self)
        window.knobs.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Follow the room of the middle column; Esc from anywhere closes the open drawer."""
        window: MainWindow | None = getattr(self, "_window", None)
        if window is None:  # a window that is being deleted still sends events
            return False
        kind = event.type()
        if kind == QEvent.Type.Resize and watched is window.knobs:
            self.drawers.set_room(window.knobs.height())
        elif watched is window:
            if kind == QEvent.Type.Paint and not self._painted:
                self._painted = True
                QTimer.singleShot(50, self, self._after_first_paint)
            elif (
                kind == QEvent.Type.KeyPress
                and isinstance(event, QKeyEvent)
                and event.key() == Qt.Key.Key_Escape
                and (window.assistance.close_pane() or self.drawers.close_drawer())
            ):
                return True
        return super().eventFilter(watched, event)

    def _after_first_paint(self) -> None:
        """The window stands: what was open last comes back."""
        chain: list[QWidget] = [self._window.trace.plot, *self.drawers.buttons.values()]
        for before, after in itertools.pairwise(chain):
            QWidget.setTabOrder(before, after)
        if not self.drawers.open_key:
            if self.reopen is None:
                self.drawers.open_remembered()
            else:
                self.drawers.open(self.reopen)

    def _on_action(self) -> None:
        self.drawers.toggle(self.sender().objectName().removeprefix("drawer_"))

    def _on_opened(self, key: str) -> None:
        for other in QUESTIONS:
            self._window.commands[f"drawer_{other}"].setChecked(other == key)

    def _on_field(self, path: str) -> None:
        go_to(self._window.knobs, path)

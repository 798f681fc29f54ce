"""Puts drawers and remedies into the main window and ties them to its actions and keys."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Mapping

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import QMenu, QWidget

from explorer.widgets.drawers.drawers import QUESTIONS, Drawers
from explorer.widgets.knob_panel import KnobPanel
from explorer.widgets.remedy_list import RemedyList


class Questions(QObject):
    """What the main window asks beyond its verdict.

    Parameters
    ----------
    window : QWidget
        Whose first paint and Esc key count.
    drawers, remedies : QWidget
        What asks; they lie in the window already.
    knobs : KnobPanel
        Their height is the room of the drawers; a drawer may ask for one of their fields.
    menu, commands : QMenu and mapping of str to QAction
        Where a drawer can be opened from.
    close_help : callable
        Closes the help pane, and says whether it was open: Esc takes it first.
    """

    def __init__(
        self,
        window: QWidget,
        *,
        drawers: Drawers,
        remedies: RemedyList,
        knobs: KnobPanel,
        menu: QMenu,
        commands: Mapping[str, QAction],
        close_help: Callable[[], bool],
    ) -> None:
        super().__init__(window)
        self.drawers, self.remedies = drawers, remedies
        self._knobs, self._commands, self._close_help = knobs, commands, close_help
        self._painted = False
        self.reopen: str | None = None
        """Key of the drawer to begin with; None for the one that was open last."""
        menu.addSeparator()
        for key in QUESTIONS:
            action = commands[f"drawer_{key}"]
            action.setCheckable(True)
            action.triggered.connect(self._on_action)
            menu.addAction(action)
        drawers.opened.connect(self._on_opened)
        drawers.wants_field.connect(self._on_field)
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Esc from anywhere closes the open drawer."""
        knobs: KnobPanel | None = getattr(self, "_knobs", None)
        if knobs is None:  # a window that is being deleted still sends events
            return False
        kind = event.type()
        if kind == QEvent.Type.Paint and not self._painted:
            self._painted = True
            QTimer.singleShot(50, self, self._after_first_paint)
        elif (
            kind == QEvent.Type.KeyPress
            and isinstance(event, QKeyEvent)
            and event.key() == Qt.Key.Key_Escape
            and (self._close_help() or self.drawers.close_drawer())
        ):
            return True
        return super().eventFilter(watched, event)

    def _after_first_paint(self) -> None:
        """The window stands: what was open last comes back."""
        for before, after in itertools.pairwise(self.drawers.buttons.values()):
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
            self._commands[f"drawer_{other}"].setChecked(other == key)

    def _on_field(self, path: str) -> None:
        from explorer.widgets.drawers.jump import go_to

        go_to(self._knobs, path)

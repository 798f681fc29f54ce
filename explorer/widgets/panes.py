"""F6 takes the keyboard from the knobs to the middle, on to the verdict, and round again."""

from __future__ import annotations

from collections.abc import Mapping

import shiboken6
from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QWidget

from explorer.widgets.centre import Centre
from explorer.widgets.knob_panel import KnobPanel
from explorer.widgets.sign import Sign


class Panes(QObject):
    """Goes between the three parts of a window; who comes back finds the control that was left.

    Parameters
    ----------
    window : QWidget
        Whose keyboard it is.
    commands : mapping of str to QAction
        What goes on and back.
    knobs, centre, sign : KnobPanel, Centre and Sign
        The parts, in their order.
    """

    def __init__(
        self, window: QWidget, commands: Mapping[str, QAction],
        knobs: KnobPanel, centre: Centre, sign: Sign,
    ) -> None:
        super().__init__(window)
        self._window = window
        self._knobs, self._centre, self._sign = knobs, centre, sign
        self._left: dict[QWidget, QWidget] = {}
        """What had the keyboard last in each part."""
        commands["next_pane"].triggered.connect(self._on_next)
        commands["previous_pane"].triggered.connect(self._on_previous)
        centre.drawers.opened.connect(self._on_opened)

    def go(self, steps: int) -> None:
        """Go so many parts on, past those that have nothing for the keyboard."""
        panes: list[QWidget] = [self._knobs, self._centre, self._sign]
        focused = self._window.focusWidget()
        at = next((i for i, pane in enumerate(panes) if self._holds(pane, focused)), None)
        if at is None:  # before the first going on, after the last going back
            at = -1 if steps > 0 else len(panes)
        elif focused is not None and not self._centre.drawers.isAncestorOf(focused):
            self._left[panes[at]] = focused  # a question is not what its answer is left for
        for step in range(1, len(panes) + 1):
            if self._enter(panes[(at + step * steps) % len(panes)]):
                return

    def _enter(self, pane: QWidget) -> bool:
        left = self._left.get(pane)
        if left is not None and shiboken6.isValid(left) and left.isVisible() and left.isEnabled():
            left.setFocus(Qt.FocusReason.ShortcutFocusReason)
        elif pane is self._centre:
            self._centre.take_focus()
        else:
            first = self._knobs.rows[0].slider if pane is self._knobs else self._sign.rows[0]
            first.setFocus(Qt.FocusReason.ShortcutFocusReason)
        focused = self._window.focusWidget()
        return focused is not None and focused.isVisible() and self._holds(pane, focused)

    @staticmethod
    def _holds(pane: QWidget, part: QWidget | None) -> bool:
        return part is not None and pane.isAncestorOf(part)

    def _on_opened(self, _: str) -> None:
        """A drawer that was opened meanwhile is what somebody wants to go to."""
        self._left.pop(self._centre, None)

    def _on_next(self) -> None:
        self.go(1)

    def _on_previous(self) -> None:
        self.go(-1)

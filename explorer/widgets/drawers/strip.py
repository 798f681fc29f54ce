"""The questions in one row or several, in as many words as there is room for."""

from __future__ import annotations

import itertools

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from explorer.state.language import tr
from explorer.text import texts
from explorer.widgets.actions import ACTIONS
from explorer.widgets.buttons import PillButton
from explorer.widgets.card import Card

WORDINGS: dict[str, tuple[str, ...]] = texts({
    "budget": ("Where does the energy go?", "Where does the energy go?", "Energy?"),
    "contest": ("Which store?", "Which store?", "Which store?"),
    "territory": ("Where would it work?", "Where would it work?", "Where else?"),
    "spread": ("How sure?", "How sure?", "How sure?"),
    "panel": ("How does the panel work?", "The panel?", "The panel?"),
    "bench": ("Does it match a measurement?", "Match a measurement?", "Measurement?"),
    "year": ("What does the year bring?", "The year?", "The year?"),
    "builds": ("Which build?", "Which build?", "Which build?"),
})  # fmt: skip
"""Each question from its full wording to the shortest that is still a question."""
_WAYS = ((0, 1), (1, 1), (0, 2), (1, 2), (2, 2), (2, 3), (2, 4))
"""Wording and number of rows, the best first: two rows of questions say more than one of words."""
_EDGE, _GAP, _PAD, _ROW = 8, 2, 6, 30
_MOST_SPARE = 36
"""Pixels that a button may be wider than its question."""


class DrawerStrip(Card):
    """One checkable button for each question."""

    pressed = Signal(str)
    """Carries the key of the pressed question."""

    def __init__(self, keys: tuple[str, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.buttons: dict[str, PillButton] = {}
        for index, key in enumerate(keys):
            question = tr(WORDINGS[key][0])
            button = PillButton(outlined=False, parent=self)
            button.setObjectName(f"drawer_{key}")
            button.setCheckable(True)
            button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
            button.setAccessibleName(question)
            tip = tr("{question} (Ctrl+{n}, Esc closes)", question=question, n=index + 1)
            button.setToolTip(tip)
            what = tr(ACTIONS[f"drawer_{key}"].tip)
            button.setAccessibleDescription(
                tr("{what}. Ctrl+{n} opens it, Esc closes it.", what=what, n=index + 1)
            )
            button.clicked.connect(self._on_clicked)
            self.buttons[key] = button
        self._arrange()

    def minimumSizeHint(self) -> QSize:
        """As wide as the shortest wording in its rows."""
        return QSize(self._needed(*_WAYS[-1]), self.height())

    def sizeHint(self) -> QSize:
        """As wide as the full wording."""
        return QSize(self._needed(*_WAYS[0]), self.height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Take the longest wording that fits."""
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        fitting = (way for way in _WAYS if self._needed(*way) <= self.width())
        level, count = next(fitting, _WAYS[-1])
        self.setFixedHeight(count * _ROW + 12)
        widths = self._columns(level, count)
        spare = (self.width() - self._needed(level, count)) // len(widths)
        more = min(max(spare, 0), _MOST_SPARE)
        for number, keys in enumerate(self._rows(count)):
            x = _EDGE
            for key, width in zip(keys, widths, strict=False):
                button, wording = self.buttons[key], tr(WORDINGS[key][level])
                if button.text() != wording:
                    button.setText(wording)
                button.setGeometry(x, 6 + number * _ROW, width + more, _ROW)
                x += width + more + _GAP

    def _rows(self, count: int) -> list[list[str]]:
        keys = list(self.buttons)
        each = -(-len(keys) // count)
        return [keys[begin : begin + each] for begin in range(0, len(keys), each)]

    def _columns(self, level: int, count: int) -> list[int]:
        """Widths of the columns, so that the questions of all rows stand below each other."""
        below = itertools.zip_longest(*self._rows(count))
        return [max(self._width(key, level) for key in keys if key) for keys in below]

    def _needed(self, level: int, count: int) -> int:
        widths = self._columns(level, count)
        return 2 * _EDGE + _GAP * (len(widths) - 1) + sum(widths)

    def _width(self, key: str, level: int) -> int:
        metrics = self.buttons[key].fontMetrics()
        return metrics.horizontalAdvance(tr(WORDINGS[key][level])) + 2 * _PAD

    def _on_clicked(self) -> None:
        self.pressed.emit(self.sender().objectName().removeprefix("drawer_"))

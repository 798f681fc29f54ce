"""The questions in a row, in as many words as there is room for."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from explorer.state.language import tr
from explorer.text import texts
from explorer.widgets.buttons import PillButton
from explorer.widgets.card import Card

WORDINGS: dict[str, tuple[str, ...]] = texts({
    "budget": (
        "Where does the energy go?", "Where does energy go?", "Where does it go?", "Energy?",
        "Energy",
    ),
    "contest": ("Which store?", "Which store?", "Which store?", "Which store?", "Store"),
    "territory": (
        "Where would it work?", "Where would it work?", "Where would it work?", "Where else?",
        "Where",
    ),
    "spread": ("How sure?", "How sure?", "How sure?", "How sure?", "Sure"),
    "panel": ("How does the panel work?", "The panel?", "The panel?", "The panel?", "Panel"),
    "bench": ("Does it match a log?", "Match a log?", "A log?", "A log?", "Log"),
    "year": ("What does the year bring?", "The year?", "The year?", "The year?", "Year"),
    "builds": ("Which build?", "Which build?", "Which build?", "Which build?", "Build"),
})  # fmt: skip
"""Each question from its full wording to one word."""
HEIGHT = 42
_EDGE, _GAP = 8, 4


class DrawerStrip(Card):
    """One checkable button for each question."""

    pressed = Signal(str)
    """Carries the key of the pressed question."""

    def __init__(self, keys: tuple[str, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFixedHeight(HEIGHT)
        self.buttons: dict[str, PillButton] = {}
        self._lines = [QHBoxLayout(), QHBoxLayout()]
        column = QVBoxLayout(self)
        column.setContentsMargins(_EDGE, 4, _EDGE, 4)
        column.setSpacing(0)
        for line in self._lines:
            line.setSpacing(_GAP)
            column.addLayout(line)
        for index, key in enumerate(keys):
            question = tr(WORDINGS[key][0])
            button = PillButton(outlined=False)
            button.setObjectName(f"drawer_{key}")
            button.setText(question)
            button.setCheckable(True)
            button.setMinimumHeight(30)
            button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
            button.setAccessibleName(question)
            tip = tr("{question} (Ctrl+{n}, Esc closes)", question=question, n=index + 1)
            button.setToolTip(tip)
            button.clicked.connect(self._on_clicked)
            self.buttons[key] = button
        # The buttons' own least width must not hold the window open: the wording gives way.
        column.setSizeConstraint(QVBoxLayout.SizeConstraint.SetNoConstraint)
        self._in_lines = 0
        self._share_out(1)

    def minimumSizeHint(self) -> QSize:
        """As wide as the shortest wording."""
        return QSize(self._width(-1) // 2, self.height())

    def sizeHint(self) -> QSize:
        """As wide as the full wording."""
        return QSize(self._width(0), self.height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Take the longest wording that fits."""
        super().resizeEvent(event)
        levels = len(next(iter(WORDINGS.values())))
        level = next((n for n in range(levels) if self._width(n) <= self.width()), levels - 1)
        # Where not even single words fit in a row, they stand in two.
        self._share_out(1 if self._width(level) <= self.width() else 2)
        for key, button in self.buttons.items():
            if button.text() != tr(WORDINGS[key][level]):
                button.setText(tr(WORDINGS[key][level]))

    def _share_out(self, lines: int) -> None:
        if lines == self._in_lines:
            return
        self._in_lines = lines
        self.setFixedHeight(HEIGHT + (lines - 1) * 30)
        for line in self._lines:
            while line.count():
                line.takeAt(0)
        buttons = list(self.buttons.values())
        half = -(-len(buttons) // lines)
        for place, button in enumerate(buttons):
            self._lines[place // half].addWidget(button)
        for line in self._lines[:lines]:
            line.addStretch(1)

    def _width(self, level: int) -> int:
        total = 2 * _EDGE + _GAP * (len(self.buttons) - 1)
        for key, button in self.buttons.items():
            spare = button.sizeHint().width() - button.fontMetrics().horizontalAdvance(
                button.text()
            )
            total += spare + button.fontMetrics().horizontalAdvance(tr(WORDINGS[key][level]))
        return total

    def _on_clicked(self) -> None:
        self.pressed.emit(self.sender().objectName().removeprefix("drawer_"))

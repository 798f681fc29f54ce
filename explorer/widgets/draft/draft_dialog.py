"""A dialog around a table that is being typed: the table at the left, its curves at the right."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Generic, Protocol, TypeVar

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QLayout, QVBoxLayout, QWidget

from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.widgets.buttons import PillButton
from explorer.widgets.card import Card
from explorer.widgets.draft.draft_table import DraftTable
from explorer.widgets.help.sizes import fit_screen
from explorer.widgets.side_by_side import SideBySide
from explorer.widgets.slim_scroll import SlimScroll
from explorer.widgets.tab_order import splice_tabs

_LARGEST = 1.4
"""Largest size over the wanted one: beyond it a dialog would be half empty."""


class Judgement(Protocol):
    """What can be said of a table as far as it has been typed."""

    @property
    def is_ready(self) -> bool:
        """Whether it can be used as it stands."""


TableT = TypeVar("TableT", bound=DraftTable)  # type: ignore[type-arg]
FoundT = TypeVar("FoundT", bound=Judgement)

_LEAST_HEIGHT = 190
"""Of what is typed, where a plot stands below it: some rows are in sight. [px]"""


class DraftDialog(QDialog, Generic[TableT, FoundT]):
    """Keeps what is typed to itself until it is used, which is one step of undo.

    Parameters
    ----------
    document : Document
        Holds what is used in the end.
    table : DraftTable
        What is typed.
    title : str
        Title of the window, already translated.
    """

    def __init__(
        self, document: Document, table: TableT, title: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._document = document
        self.table = table
        self.found: FoundT | None = None
        self.setWindowTitle(title)
        self.setSizeGripEnabled(True)
        self.sentence, self.foot = QLabel(), QLabel()
        for label in (self.sentence, self.foot):
            label.setWordWrap(True)
        self.cancel, self.use = PillButton(), PillButton()
        for button, handler in ((self.cancel, self.reject), (self.use, self.on_use)):
            button.setMinimumHeight(34)
            button.clicked.connect(handler)
        self.cancel.setText(tr("Cancel"))
        self.use.setCheckable(True)
        self.table.changed.connect(self.judge)

    def lay_out(
        self, halves: Sequence[tuple[QWidget, int]], smallest: QSize, wanted: QSize
    ) -> None:
        """Put cards side by side, or below each other, and the buttons below them all."""
        beside = SideBySide()
        beside.setSpacing(12)
        for half, stretch in halves:
            beside.addWidget(half, stretch)
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addWidget(self.foot, 1)
        foot.addWidget(self.cancel)
        foot.addWidget(self.use)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 12, 16, 12)
        layout.setSpacing(10)
        layout.addLayout(beside, 1)
        layout.addLayout(foot)
        splice_tabs(self.table)  # its rows were there before what stands above them
        self.setMinimumSize(smallest)
        self.setMaximumSize(wanted * _LARGEST)
        fit_screen(self, wanted)

    def judge(self) -> None:
        """Judge what has been typed, and show it."""
        raise NotImplementedError

    def take(self, found: FoundT) -> str:
        """Put what was typed into the document; the sentence why that cannot be, or nothing."""
        raise NotImplementedError

    def show_fault(self, sentence: str) -> None:
        """Say why the document did not take it."""
        raise NotImplementedError

    def offer(self, text: str, *, is_ready: bool) -> None:
        """Say what using does, and let it be done or not."""
        self.use.setText(text)
        self.use.setEnabled(is_ready)
        self.use.setChecked(is_ready)

    def on_use(self) -> None:
        """Take what was typed into the document, if that can be."""
        focused = self.focusWidget()
        if focused is not None:
            focused.clearFocus()  # what is being typed counts
        if self.found is None or not self.found.is_ready or not self.table.is_typed_out:
            self.use.setChecked(self.use.isEnabled())
            return
        self._document.begin_gesture()
        if fault := self.take(self.found):
            self.show_fault(fault)
            return
        self.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter takes over what is typed; it never closes the dialog."""
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)


def heading(text: str) -> QLabel:
    """What a part of the dialog is about."""
    label = QLabel(text)
    label.setFont(theme.font("body", bold=True))
    label.setWordWrap(True)
    return label


def typed_card(parts: Sequence[QWidget | QLayout]) -> Card:
    """A card with parts below each other, which can be scrolled where the screen is low."""
    inner = QWidget()
    column = QVBoxLayout(inner)
    column.setContentsMargins(16, 14, 14, 14)
    column.setSpacing(10)
    for part in parts:
        if isinstance(part, QLayout):
            column.addLayout(part)
        else:
            column.addWidget(part)
    column.addStretch(1)
    card = Card()
    layout = QVBoxLayout(card)
    layout.setContentsMargins(1, 1, 1, 1)
    scroll = SlimScroll(inner)
    scroll.setMinimumSize(inner.minimumSizeHint().width() + 12, _LEAST_HEIGHT)
    layout.addWidget(scroll)
    return card

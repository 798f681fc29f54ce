"""One question of the guide with its answers as big cards."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QGridLayout, QLabel, QVBoxLayout, QWidget

from explorer.resource_files import resource_path
from explorer.scenario.guide.questions import Question
from explorer.state import theme
from explorer.state.language import tr
from explorer.widgets.exact_field import ExactField
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.guide.choice_card import ChoiceCard
from explorer.widgets.slim_scroll import SlimScroll

_TWO_COLUMNS_FROM, _TWO_COLUMNS_WIDTH = 6, 620


class QuestionPage(QWidget):
    """Shows a question; nothing is chosen at first."""

    changed = Signal()
    """Another answer is marked."""
    picked = Signal()
    """An answer is chosen for good."""

    def __init__(self, question: Question, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.question = question
        self.title = QLabel(tr(question.title))
        self.title.setFont(theme.font("display", bold=True))
        self.title.setWordWrap(True)
        self.hint = QLabel(tr(question.hint))
        self.hint.setWordWrap(True)
        self.hint.setForegroundRole(self.hint.palette().ColorRole.PlaceholderText)
        inner = QWidget()
        inner.setAccessibleName(self.title.text())
        self._grid = QGridLayout(inner)
        self._grid.setContentsMargins(2, 4, 10, 4)
        self._grid.setSpacing(10)
        self._columns = 0
        self.group = QButtonGroup(self)
        self.cards: list[ChoiceCard] = []
        self.fields: tuple[ExactField, ...] = ()
        self.fault = FaultLine(self)
        for choice in question.choices:
            card = ChoiceCard(choice, _icon_of(choice.key), inner)
            self.group.addButton(card)
            card.toggled.connect(self._on_toggled)
            card.picked.connect(self.picked)
            self.cards.append(card)
        self._grid.setRowStretch(len(self.cards), 1)
        self._arrange(2)
        self.area = SlimScroll(inner)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.title)
        layout.addWidget(self.hint)
        layout.addSpacing(8)
        layout.addWidget(self.area, 1)

    def add_below(self, parts: Sequence[QWidget], fields: tuple[ExactField, ...]) -> None:
        """Put something under the cards, inside what scrolls, and what is wrong with its fields."""
        parts, self.fields = (*parts, self.fault), fields
        for field in fields:
            field.fault_changed.connect(self._on_fault)
        first = len(self.cards)
        self._grid.setRowStretch(first, 0)
        for row, part in enumerate(parts, first):
            self._grid.addWidget(part, row, 0, 1, 2)
        self._grid.setRowStretch(first + len(parts), 1)

    @property
    def answer(self) -> str:
        """Key of the marked choice; empty where there is none, or where a number is wrong."""
        return "" if self.refused is not None else self.marked

    @property
    def marked(self) -> str:
        """Key of the marked choice, whatever else is missing; empty where there is none."""
        return next((card.choice.key for card in self.cards if card.isChecked()), "")

    @property
    def refused(self) -> ExactField | None:
        """The field whose number was not taken; nothing goes on while that stands there."""
        return next((f for f in self.fields if f.refusal and f.isVisibleTo(self)), None)

    def commit(self) -> None:
        """Take over what is being typed, as a press on a button leaves the focus where it is."""
        for field in self.fields:
            field.commit()

    def take_back(self) -> None:
        """Drop a number that cannot be taken: the page is left as it was."""
        self.commit()
        if (field := self.refused) is not None:
            field.take_back()

    @property
    def told(self) -> str:
        """The marked choice as it is named afterwards."""
        return next((card.choice.title for card in self.cards if card.isChecked()), "")

    def set_answer(self, key: str) -> None:
        """Mark a choice."""
        for card in self.cards:
            if card.choice.key == key:
                card.setChecked(True)

    def clear(self) -> None:
        """Mark nothing."""
        self.group.setExclusive(False)
        for card in self.cards:
            card.setChecked(False)
        self.group.setExclusive(True)

    def take_focus(self) -> None:
        """Give the focus to a wrong number, to the marked answer, or to the first on offer."""
        if (field := self.refused) is not None:
            self.focus_field(field)
            return
        offered = [card for card in self.cards if not card.isHidden()]
        marked = next((card for card in offered if card.isChecked()), offered[0])
        marked.setFocus(Qt.FocusReason.OtherFocusReason)
        self.area.ensureWidgetVisible(marked)

    def focus_field(self, field: ExactField) -> None:
        """Give the focus to a field that misses its number, in sight with what is said of it."""
        field.setFocus(Qt.FocusReason.OtherFocusReason)
        for part in (self.fault, field):
            if part.isVisibleTo(self):
                self.area.ensureWidgetVisible(part)

    def _on_fault(self, sentence: str) -> None:
        self.fault.say(sentence)
        self.changed.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """One column where two would cut the words."""
        super().resizeEvent(event)
        self._arrange(2 if self.width() >= _TWO_COLUMNS_WIDTH else 1)

    def _arrange(self, columns: int) -> None:
        columns = columns if len(self.cards) >= _TWO_COLUMNS_FROM else 1
        if columns == self._columns:
            return
        self._columns = columns
        rows = -(-len(self.cards) // columns)
        for index, card in enumerate(self.cards):
            self._grid.addWidget(card, index % rows, index // rows)

    def _on_toggled(self, checked: bool) -> None:
        if checked:
            card = self.sender()
            assert isinstance(card, ChoiceCard)
            self.area.ensureWidgetVisible(card)
            self.changed.emit()


def _icon_of(key: str) -> str:
    name = f"guide_{key}"
    return name if resource_path("icons").joinpath(f"{name}.svg").exists() else ""

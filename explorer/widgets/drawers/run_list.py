"""Which of several logged runs is on show, under which conditions, and the way to change them."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from explorer.advice.bench.forecast import Agreement
from explorer.files.story import Story
from explorer.state import theme
from explorer.state.language import tr
from explorer.widgets.buttons import pill
from explorer.widgets.fields import CalmComboBox
from explorer.words.conditions import conditions_text


class RunList(QWidget):
    """A choice of runs with a line that says what was otherwise than in the design."""

    shown = Signal(int)
    """Carries the place of the run that is to be shown."""
    conditions_wanted = Signal()
    remove_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.choice = CalmComboBox()
        self.choice.setAccessibleName(tr("Run on show"))
        self.said = QLabel()
        self.said.setWordWrap(True)
        self.said.setFont(theme.font("small"))
        self.said.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        self.add_button = pill(tr("Add…"), tr("Add another run of the same device; all are fitted "
                                              "together"))  # fmt: skip
        self.remove_button = pill(tr("Remove"), tr("Leave this run out; its file stays"))
        self.conditions_button = pill(
            tr("Conditions…"), tr("Light, load and beginning, where they were not as designed")
        )
        row = QHBoxLayout()
        row.setSpacing(6)
        for button in (self.conditions_button, self.add_button, self.remove_button):
            row.addWidget(button)
        row.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(2, 0, 6, 0)
        layout.setSpacing(4)
        layout.addWidget(self.choice)
        layout.addWidget(self.said)
        layout.addLayout(row)
        self.choice.currentIndexChanged.connect(self._on_chosen)
        self.conditions_button.clicked.connect(self.conditions_wanted)
        self.remove_button.clicked.connect(self.remove_wanted)
        self._lines: list[str] = []
        self._dated: list[bool] = []

    @property
    def is_dated(self) -> bool:
        """Whether the run on show says when it began."""
        return self._dated[self.place] if self._dated else False

    @property
    def place(self) -> int:
        """Place of the run on show."""
        return max(self.choice.currentIndex(), 0)

    def set_runs(self, story: Story, found: Sequence[Agreement], place: int) -> None:
        """Show the runs, one of them chosen."""
        self._lines = [tr(conditions_text(one.run)) for one in found]
        self._dated = [one.run.start is not None for one in found]
        with QSignalBlocker(self.choice):
            self.choice.clear()
            for number, run in enumerate(story.runs, 1):
                shown = {"n": number, "name": run.path.name}
                self.choice.addItem(
                    tr("{n}. {name}, later", **shown) if run.is_later
                    else tr("{n}. {name}", **shown)
                )  # fmt: skip
            self.choice.setCurrentIndex(min(place, len(story.runs) - 1))
        self.choice.setVisible(len(story.runs) > 1)
        self.remove_button.setVisible(len(story.runs) > 1)
        self._show_line()

    @property
    def controls(self) -> tuple[QWidget, ...]:
        """What takes the keyboard, in its order."""
        return (self.choice, self.conditions_button, self.add_button, self.remove_button)

    def _show_line(self) -> None:
        self.said.setText(self._lines[self.place] if self._lines else "")

    def _on_chosen(self, place: int) -> None:
        self._show_line()
        self.shown.emit(place)

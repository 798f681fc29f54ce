"""What does the year bring? The seasons of one design, its dark weeks and its store's life."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from explorer.advice.year.view import TOLD_YEARS, YearView
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.drawer_steps import year_steps
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.buttons import PillButton
from explorer.widgets.drawers.drawer import Drawer
from explorer.widgets.drawers.export import Picture, widget_picture
from explorer.widgets.drawers.year_picture import YearPicture
from explorer.words.drawers import Table
from explorer.words.readout import bind_units
from explorer.words.year import (
    NO_YEAR,
    age_button_text,
    dark_sentence,
    day_table,
    day_text,
    life_text,
    worst_sentence,
    year_answer,
    year_table,
)

QUESTION = say("What does the year bring?")
MONTHS, HOURS = say("months"), say("hours")
AGE = "store.years_in_service"


class YearDrawer(Drawer):
    """Shows one settled year, and what it does to the store."""

    def __init__(
        self, document: Document, jobs: JobRunner, parent: QWidget | None = None
    ) -> None:
        feed = Feed("year", document, jobs, year_steps)
        super().__init__(QUESTION, document, feed, (MONTHS, HOURS), parent)
        self._found: YearView | None = None
        self.picture_of_year = YearPicture()
        self.day_line, self.dark_line, self.life_line = (_line() for _ in range(3))
        self.age = PillButton()
        self.age.setText(tr(age_button_text(0.0)))
        self.age.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.age.clicked.connect(self._on_age)
        below = QHBoxLayout()
        below.setSpacing(10)
        below.addWidget(self.life_line, 1)
        below.addWidget(self.age, 0, Qt.AlignmentFlag.AlignTop)
        layout = QVBoxLayout(self.body)
        layout.setContentsMargins(0, 0, 4, 0)
        layout.setSpacing(4)
        layout.addWidget(self.picture_of_year, 1)
        layout.addWidget(self.day_line)
        layout.addWidget(self.dark_line)
        layout.addLayout(below)
        self.picture_of_year.day_changed.connect(self._on_day)

    def show_step(self, step: object) -> None:
        """Show a year, or say that there is none."""
        if step is None:
            self.say_answer("")
            self.say_nothing(tr(NO_YEAR))
            return
        assert isinstance(step, YearView)
        self._found = step
        self.say_answer(year_answer(step))
        self.picture_of_year.set_view(step)
        self.dark_line.setText(
            " ".join(tr(bind_units(text)) for text in (dark_sentence(step), worst_sentence(step)))
        )
        self.life_line.setText(tr(bind_units(life_text(step))))
        self.age.setText(tr(age_button_text(step.years_in_service)))
        self.show_body()

    def focus_body(self) -> None:
        """The line of the day takes the keyboard."""
        self.picture_of_year.setFocus(Qt.FocusReason.TabFocusReason)

    def table(self, name: str) -> Table:
        """The months, or the hours."""
        assert self._found is not None
        return year_table(self._found) if name == MONTHS else day_table(self._found)

    def picture(self) -> Picture:
        """The four pictures."""
        return widget_picture(tr(QUESTION), self.subtitle(), self.picture_of_year)

    def _on_day(self, day: int) -> None:
        assert self._found is not None
        self.day_line.setText(tr(bind_units(day_text(self._found, day))))

    def _on_age(self) -> None:
        """Judge with an aged store, or with a new one again."""
        assert self._found is not None
        years = 0.0 if self._found.years_in_service > 0.0 else TOLD_YEARS
        self.document.edit(AGE, years)


def _line() -> QLabel:
    label = QLabel()
    label.setWordWrap(True)
    label.setFont(theme.font("small"))
    label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
    return label

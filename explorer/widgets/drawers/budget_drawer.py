"""Where does the energy go? From light on the panel to useful work, every loss with its knob."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QSizePolicy, QVBoxLayout, QWidget

from explorer.advice.budget import Budget
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.drawer_steps import budget_steps
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.drawers.budget_bars import BudgetBars
from explorer.widgets.drawers.drawer import Drawer
from explorer.widgets.drawers.export import Picture, widget_picture
from explorer.widgets.slim_scroll import SlimScroll
from explorer.words.drawers import (
    Table,
    budget_answer,
    budget_close,
    budget_lines,
    budget_table,
)
from explorer.words.readout import bind_units

QUESTION = say("Where does the energy go?")
REST_MS = 60
"""A budget takes a few hundredths of a second, so it may follow soon."""


class BudgetDrawer(Drawer):
    """Shows the budget of one period of the light."""

    def __init__(
        self, document: Document, jobs: JobRunner, parent: QWidget | None = None
    ) -> None:
        feed = Feed("budget", document, jobs, budget_steps, rest_ms=REST_MS)
        super().__init__(QUESTION, document, feed, parent=parent)
        self._found: Budget | None = None
        self.bars = BudgetBars()
        self.close_line = QLabel()
        self.close_line.setWordWrap(True)
        self.close_line.setFont(theme.font("small"))
        self.close_line.setContentsMargins(8, 4, 8, 0)
        self.close_line.setForegroundRole(self.close_line.palette().ColorRole.PlaceholderText)
        self.close_line.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        inner = QWidget()
        column = QVBoxLayout(inner)
        column.setContentsMargins(0, 0, 4, 0)
        column.setSpacing(0)
        column.addWidget(self.bars)
        column.addStretch(1)
        layout = QVBoxLayout(self.body)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(SlimScroll(inner), 1)
        layout.addWidget(self.close_line)
        self.bars.chosen.connect(self.wants_field)

    def show_step(self, step: object) -> None:
        """Show a budget."""
        assert isinstance(step, Budget)
        self._found = step
        if step.panel_j + step.from_store_j <= 0:
            self.say_answer("")
            self.say_nothing(
                tr(
                    "Nothing to show because no light reaches the panel. Give it "
                    "more light or longer lit periods."
                )
            )
            return
        self.say_answer(budget_answer(step))
        self.close_line.setText(tr(bind_units(budget_close(step))))
        self.bars.set_lines(budget_lines(step))
        self.show_body()

    def focus_body(self) -> None:
        """The first row takes the keyboard."""
        if self.bars.rows:
            self.bars.rows[0].setFocus(Qt.FocusReason.TabFocusReason)

    def table(self, name: str) -> Table:
        """Every item."""
        assert self._found is not None
        return budget_table(self._found)

    def subtitle(self) -> str:
        """Which scenario, and its closing line."""
        title = self.document.scenario.title or tr("Untitled")
        return f"{title}: {self.close_line.text()}"

    def picture(self) -> Picture:
        """All rows, whatever is scrolled into view."""
        return widget_picture(tr(QUESTION), self.subtitle(), self.bars)

"""The pane at the side that explains what has the focus."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from explorer.advice.cautions import Caution
from explorer.state import theme
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.buttons import PillButton
from explorer.widgets.card import Card
from explorer.widgets.help.pages import cautions_html, entry_html, idea_html
from explorer.widgets.help.quantities import Entry
from explorer.widgets.help.text_view import TextView

WIDTH = 264
_IDLE = say(
    "Put the focus on a slider, a number or a choice: this pane says what it is, what is "
    "typical, and where a data sheet states it."
)


class HelpPane(Card):
    """Shows one quantity, one check, or cautions; closed with Esc or its button."""

    more_wanted = Signal()
    """The button that opens all of the help."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("help_pane")
        self.setAccessibleName(tr("Help"))
        self.setMinimumWidth(WIDTH)
        self.key = ""
        """What is explained; empty for cautions and at the beginning."""
        self.section = QLabel()
        self.section.setFont(theme.font("small"))
        self.section.setForegroundRole(self.section.palette().ColorRole.PlaceholderText)
        self.view = TextView(tr("Help"))
        self.more = PillButton()
        self.more.setText(tr("All of the help"))
        self.more.clicked.connect(self.more_wanted)
        self._close = PillButton(outlined=False)
        self._close.show_icon("delete")
        self._close.setIconSize(QSize(14, 14))
        self._close.setMinimumSize(28, 28)
        self._close.setAccessibleName(tr("Close the help"))
        self._close.setToolTip(tr("Close the help (Esc)"))
        self._close.clicked.connect(self.hide)
        head = QHBoxLayout()
        head.addWidget(self.section, 1)
        head.addWidget(self._close)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 8, 8, 12)
        column.setSpacing(4)
        column.addLayout(head)
        column.addWidget(self.view, 1)
        column.addWidget(self.more, 0, Qt.AlignmentFlag.AlignLeft)
        self.show_idle()
        self.hide()

    def show_entry(self, entry: Entry) -> None:
        """Explain one quantity."""
        self.key = entry.key
        self.section.setText(tr(entry.section))
        self.view.show_html(entry_html(entry))

    def show_idea(self, key: str) -> None:
        """Explain one check of the verdict."""
        self.key = f"idea.{key}"
        self.section.setText(tr("Verdict"))
        self.view.show_html(idea_html(key))

    def show_words(self, title: str, text: str) -> None:
        """Explain something else; title and text are in the language on show."""
        self.key = f"words.{title}"
        self.section.setText(tr("Help"))
        body = "".join(f"<p>{escape(part)}</p>" for part in text.split("\n") if part)
        self.view.show_html(f"<h3>{escape(title)}</h3>{body}")

    def show_cautions(self, found: Iterable[Caution]) -> None:
        """Show cautions in full."""
        self.key = ""
        self.section.setText(tr("Cautions"))
        self.view.show_html(cautions_html(found))

    def show_idle(self) -> None:
        """Say what the pane is for."""
        self.key = ""
        self.section.setText(tr("Help"))
        self.view.show_html(f"<p>{tr(_IDLE)}</p>")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Close with Esc."""
        if event.key() == Qt.Key.Key_Escape:
            self.hide()
        else:
            super().keyPressEvent(event)

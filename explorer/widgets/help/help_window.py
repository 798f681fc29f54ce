"""All of the help in one window: quantities, keyboard, model note, sources, about."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QSize
from PySide6.QtWidgets import (
    QDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from explorer.state import theme
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.buttons import PillButton
from explorer.widgets.card import Card
from explorer.widgets.fields import Field
from explorer.widgets.help.pages import (
    about_html,
    glossary_html,
    licences_html,
    model_note,
    sources,
    stand_page,
)
from explorer.widgets.help.sizes import fit_screen
from explorer.widgets.help.text_view import TextView
from explorer.widgets.outlined_list import OutlinedList

PAGES = (
    ("quantities", say("Every quantity")),
    ("keys", say("Keyboard")),
    ("cautions", say("Cautions")),
    ("model_note", say("Model note")),
    ("stand", say("Stand", "help page")),
    ("sources", say("Data and sources")),
    ("about", say("About")),
    ("licences", say("Licences")),
)


class HelpWindow(QDialog):
    """Pages at the left, text at the right, a field to find words in it.

    Parameters
    ----------
    version : str
        Of the program.
    keys, cautions : callable
        Return the page of the keyboard and of the present scenario's cautions.
    """

    def __init__(
        self,
        version: str,
        keys: Callable[[], str],
        cautions: Callable[[], str],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._version, self._keys, self._cautions = version, keys, cautions
        self.setWindowTitle(tr("Help – Gloaming"))
        self.setSizeGripEnabled(True)
        self.pages = OutlinedList()
        self.pages.setAccessibleName(tr("Pages of the help"))
        self.pages.setFrameShape(QFrame.Shape.NoFrame)
        self.pages.setSpacing(2)
        self.pages.setMinimumWidth(130)
        self.pages.setMaximumWidth(180)
        for _, title in PAGES:
            self.pages.addItem(tr(title))
            self.pages.item(self.pages.count() - 1).setSizeHint(QSize(120, 30))
        self.view = TextView(tr("Text of the help"))
        self.find_field = Field()
        self.find_field.setAccessibleName(tr("Find in this page"))
        self.find_field.setPlaceholderText(tr("Find in this page"))
        self.find_field.setMinimumHeight(28)
        self.found = QLabel()
        self.found.setFont(theme.font("small"))
        self.close_button = PillButton()
        self.close_button.setText(tr("Close"))
        self.close_button.setMinimumHeight(30)
        foot = QHBoxLayout()
        foot.addWidget(self.find_field, 1)
        foot.addWidget(self.found)
        foot.addWidget(self.close_button)
        right = QVBoxLayout()
        right.setSpacing(8)
        card = Card()
        inside = QVBoxLayout(card)
        inside.setContentsMargins(14, 10, 4, 10)
        inside.addWidget(self.view)
        right.addWidget(card, 1)
        right.addLayout(foot)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(14, 14, 14, 14)
        layout.setSpacing(12)
        layout.addWidget(self.pages)
        layout.addLayout(right, 1)
        self.setMinimumSize(420, 280)
        fit_screen(self, QSize(860, 600))
        self.pages.currentRowChanged.connect(self._on_page)
        self.find_field.returnPressed.connect(self.find_next)
        self.find_field.textEdited.connect(self._on_typed)
        self.close_button.clicked.connect(self.close)
        self.pages.setCurrentRow(0)

    def show_page(self, key: str) -> None:
        """Open at one page and come to the front."""
        row = [name for name, _ in PAGES].index(key)
        if self.pages.currentRow() == row:
            self._on_page(row)
        self.pages.setCurrentRow(row)
        self.show()
        self.raise_()
        self.activateWindow()
        self.pages.setFocus()

    def find_next(self) -> None:
        """Mark the next place where the words stand; begin again at the end."""
        words = self.find_field.text().strip()
        if not words:
            return
        if not self.view.find(words):
            cursor = self.view.textCursor()
            cursor.movePosition(cursor.MoveOperation.Start)
            self.view.setTextCursor(cursor)
            self.found.setText("" if self.view.find(words) else tr("not on this page"))

    def _on_typed(self, _: str) -> None:
        self.found.setText("")

    def _on_page(self, row: int) -> None:
        key, title = PAGES[row]
        self.found.setText("")
        self.view.setAccessibleName(tr(title))
        if key == "model_note":
            self.view.show_markdown(model_note())
        elif key == "stand":
            self.view.show_markdown(stand_page())
        elif key == "sources":
            self.view.show_markdown(sources())
        elif key == "about":
            self.view.show_html(about_html(self._version))
        else:
            page = {
                "keys": self._keys, "cautions": self._cautions, "quantities": glossary_html,
                "licences": licences_html,
            }  # fmt: skip
            self.view.show_html(page[key]())



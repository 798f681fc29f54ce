"""The months of a year of daylight within a form: what they say in one line, and a button."""

from __future__ import annotations

from PySide6.QtWidgets import QDialog, QWidget

from explorer.state.document import Document
from explorer.state.language import tr
from explorer.widgets.forms.dialog_row import DialogRow
from explorer.words.daylight import months_summary


class MonthsRow(DialogRow):
    """Says which skies and temperatures the year has."""

    def __init__(self, document: Document, path: str, parent: QWidget | None = None) -> None:
        text, tip = tr("Months…"), tr("Type skies and temperatures of the twelve months")
        super().__init__(document, path, text, tip, parent)
        self.refresh()

    def refresh(self) -> None:
        """Show what the document holds."""
        self.said.setText(tr(months_summary(self._document.get(self._path))))

    def made_dialog(self) -> QDialog:
        """The table in a dialog of its own."""
        from explorer.widgets.months.months_dialog import MonthsDialog

        return MonthsDialog(self._document, self._path, self.window())

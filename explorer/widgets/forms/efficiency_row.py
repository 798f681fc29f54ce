"""A converter's efficiency table within a form: what it says in one line, and a button."""

from __future__ import annotations

from PySide6.QtWidgets import QDialog, QWidget

from explorer.state.document import Document
from explorer.state.language import tr
from explorer.widgets.forms.dialog_row import DialogRow
from explorer.words.panel import table_summary


class EfficiencyRow(DialogRow):
    """Says how many rows there are and what they span."""

    def __init__(self, document: Document, path: str, parent: QWidget | None = None) -> None:
        text = tr("Efficiency table…")
        tip = tr("Type the efficiencies of the converter's data sheet")
        super().__init__(document, path, text, tip, parent)
        self.refresh()

    def refresh(self) -> None:
        """Show what the document holds."""
        self.said.setText(tr(table_summary(self._document.get(self._path))))

    def made_dialog(self) -> QDialog:
        """The table in a dialog of its own."""
        from explorer.widgets.efficiency.efficiency_dialog import EfficiencyDialog

        return EfficiencyDialog(self._document, self.window())

"""The data sheet of the panel within a form: what it says in one line, and a button to open it."""

from __future__ import annotations

from PySide6.QtWidgets import QDialog, QWidget

from explorer.scenario.sheet_draft import drafts_of, judged
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.widgets.forms.dialog_row import DialogRow
from explorer.words.sheet import summary


class SheetRow(DialogRow):
    """Says what the fit through the sheet comes to."""

    def __init__(self, document: Document, path: str, parent: QWidget | None = None) -> None:
        text = tr("Data sheet…")
        tip = tr("Type what the panel's data sheet says, and see its curves")
        super().__init__(document, path, text, tip, parent)
        self._shown: object = None
        self.refresh()

    def refresh(self) -> None:
        """Show what the document holds; a sheet is judged only where it has changed."""
        panels = self._document.scenario.panels
        key = (panels.data_sheet, panels.technology, panels.cells_in_series)
        if key != self._shown:
            self._shown = key
            found = judged(panels, drafts_of(panels)) if panels.data_sheet else None
            self.said.setText(tr(summary(panels, found)))

    def made_dialog(self) -> QDialog:
        """The sheet in a dialog of its own."""
        from explorer.widgets.sheet.sheet_dialog import SheetDialog

        return SheetDialog(self._document, self.window())

"""A file beside the scenario: its name as a text, and a button that looks for it."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QVBoxLayout, QWidget

from explorer.resource_files import resource_path
from explorer.scenario.fields import Quantity
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.state.table_look import log_name
from explorer.widgets.buttons import pill
from explorer.widgets.forms.rows import TextRow


class FileRow(TextRow):
    """What is chosen is named as short as leads to it from the scenario."""

    def __init__(
        self, document: Document, path: str, field: Quantity, parent: QWidget | None = None
    ) -> None:
        super().__init__(document, path, field, parent)
        self.look = pill(tr("Look for a file…"), tr(field.help))
        self.look.setObjectName(f"{path}.look")
        self.look.setMinimumHeight(26)
        self.look.clicked.connect(self._on_look)
        layout = self.layout()
        assert isinstance(layout, QVBoxLayout)
        layout.addWidget(self.look)

    def _on_look(self) -> None:
        own = self.document.path
        filters = tr("Weather (*.epw *.csv)")
        begin = "" if own is None else str(own.parent)
        name, _ = QFileDialog.getOpenFileName(self, tr("Open a weather file"), begin, filters)
        if name:
            self.edit(log_name(Path(name), own, resource_path("logs")))

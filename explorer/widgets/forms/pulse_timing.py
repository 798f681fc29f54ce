"""Duration and interval of the pulse that the load slider moves."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from explorer.scenario.fields import describe
from explorer.scenario.model import owner_class
from explorer.state.document import Document
from explorer.state.knobs import pulse_amount_path
from explorer.widgets.forms.rows import NumberRow
from explorer.widgets.tab_order import splice_tabs


class PulseTiming(QWidget):
    """The first two entries of the load's details; follows the document."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._operation, self._held = 0, ""
        self._rows: dict[str, NumberRow] = {}
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(6)
        document.changed.connect(self._on_changed)
        self.refresh()

    def set_operation(self, index: int, held: str = "") -> None:
        """Show the pulse of another operation, or one phase of it."""
        self._operation, self._held = index, held
        self.refresh()

    def refresh(self) -> None:
        """Show what the document holds."""
        paths = self._paths()
        for path in tuple(self._rows):
            if path not in paths:
                gone = self._rows.pop(path)
                self._layout.removeWidget(gone)
                gone.hide()
                gone.deleteLater()
        for place, path in enumerate(paths):
            if path not in self._rows:
                field = describe(
                    owner_class(self._document.scenario, path), path.rpartition(".")[2]
                )
                self._rows[path] = NumberRow(self._document, path, field)
                self._layout.insertWidget(place, self._rows[path])
                splice_tabs(self._rows[path])
        for row in self._rows.values():
            row.refresh()

    def _paths(self) -> tuple[str, ...]:
        scenario = self._document.scenario
        amount = pulse_amount_path(scenario, self._operation, self._held)
        if ".phases." not in amount:
            return ()
        operation = amount.split(".phases.")[0]
        schedule = self._document.get(f"{operation}.schedule")
        often = {"every": "interval_s", "when_ready": "ready_V"}.get(
            schedule.kind, "wanted_per_day"
        )
        return (f"{amount.rpartition('.')[0]}.duration_s", f"{operation}.schedule.{often}")

    def _on_changed(self, _: object) -> None:
        self.refresh()

"""Below the disconnect voltage: which other voltage counts, where one does."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.words.cut_off import cut_off_note
from explorer.words.readout import bind_units


class CutOffNote(QLabel):
    """One line; hidden where the disconnect voltage is the one that counts."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.setObjectName("cut_off_note")
        self.setWordWrap(True)
        self.setFont(theme.font("small"))
        self.setForegroundRole(self.palette().ColorRole.PlaceholderText)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        document.changed.connect(self._on_changed)
        self._on_changed(None)

    def _on_changed(self, _: object) -> None:
        note = cut_off_note(self._document.scenario)
        text = "" if note is None else tr(note)
        self.setText(bind_units(text))
        self.setAccessibleName(text)
        if self.parentWidget() is not None:  # else it would open a window of its own
            self.setVisible(bool(text))
        elif not text:
            self.hide()

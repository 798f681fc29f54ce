"""What the chosen light source makes of a lux reading, said where the source is chosen."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.words.panel import METER_NOTE, meaning_line, sold_sentence
from explorer.words.readout import bind_units

SHOWN_LX = 500.0
"""The level that is translated: an office desk by EN 12464-1."""


class SourceNote(QLabel):
    """One line in watts and microamperes; the reason for it as a tooltip."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.setObjectName("source_note")
        self.setWordWrap(True)
        self.setFont(theme.font("small"))
        self.setForegroundRole(self.palette().ColorRole.PlaceholderText)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        self.setToolTip(tr(METER_NOTE))
        document.changed.connect(self._on_changed)
        self._on_changed(None)

    def _on_changed(self, _: object) -> None:
        meaning = tr(meaning_line(self._document.scenario, SHOWN_LX))
        sold = tr(sold_sentence(self._document.case))
        text = f"{tr('A lux meter reads for the eye only.')} {meaning} {sold}".rstrip()
        self.setText(bind_units(text))
        self.setAccessibleName(text)

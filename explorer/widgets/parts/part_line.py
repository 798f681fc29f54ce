"""Which part of one's own a section was taken from, with what takes or keeps one."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QWidget

from explorer.scenario.part import SECTION_OF, PartKind
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.widgets.buttons import pill
from explorer.words.part import KIND_NAMES, origin_line


class PartLine(QWidget):
    """Stands above the fields of a section; follows the document."""

    wanted = Signal(str)
    """Carries the kind of part that somebody wants to see on the shelf."""

    def __init__(
        self, document: Document, kind: PartKind, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._document, self._kind = document, kind
        self.setObjectName(f"{SECTION_OF[kind]}.part")
        self.said = QLabel()
        self.said.setTextFormat(Qt.TextFormat.PlainText)
        self.said.setWordWrap(True)
        self.said.setFont(theme.font("small"))
        self.said.setForegroundRole(self.said.palette().ColorRole.PlaceholderText)
        self.said.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        self.button = pill(tr("Parts…"), tr("Take a part of your own, or keep this one as a part"))
        self.button.setAccessibleName(f"{tr(KIND_NAMES[kind])}: {tr('Parts…').rstrip('…')}")
        self.button.setMinimumHeight(26)
        self.button.clicked.connect(self._on_clicked)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(self.said, 1)
        layout.addWidget(self.button)
        document.changed.connect(self._on_changed)
        self._on_changed(None)

    def _on_changed(self, _: object) -> None:
        self.said.setText(tr(origin_line(self._document.section(SECTION_OF[self._kind]))))

    def _on_clicked(self) -> None:
        self.wanted.emit(self._kind)

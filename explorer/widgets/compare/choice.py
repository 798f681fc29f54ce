"""What a design can be compared with: the pinned one, a file, a bundled example."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QMenu, QVBoxLayout, QWidget

from explorer.state import theme
from explorer.state.examples import example_name
from explorer.state.language import tr
from explorer.widgets.buttons import PillButton

PINNED, FILE = "pinned", "file"


class Choice(QWidget):
    """A page that offers every other design; `menu` offers the same behind a button."""

    picked = Signal(str)
    """Carries `PINNED`, `FILE`, or the path of an example."""

    def __init__(self, examples: list[Path], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._examples = examples
        heading = QLabel(tr("Compare this design with"))
        heading.setFont(theme.font("heading", bold=True))
        self.buttons: list[PillButton] = []
        column = QVBoxLayout(self)
        column.setSpacing(8)
        column.addStretch(2)
        column.addWidget(heading, 0, Qt.AlignmentFlag.AlignHCenter)
        column.addSpacing(6)
        for key, text in self._offers():
            button = PillButton()
            button.setText(text)
            button.setObjectName(key)
            button.setMinimumSize(320, 32)
            button.clicked.connect(self._on_clicked)
            self.buttons.append(button)
            column.addWidget(button, 0, Qt.AlignmentFlag.AlignHCenter)
        column.addStretch(3)
        self.menu = QMenu(self)
        for key, text in self._offers():
            self.menu.addAction(text).setData(key)
        self.menu.triggered.connect(self._on_triggered)

    def set_pinned(self, there: bool) -> None:
        """Say whether a design is pinned."""
        tip = "" if there else tr("No design is pinned; Ctrl+P pins the open one")
        text = tr("The pinned design") if there else tr("The pinned design: none yet")
        self.buttons[0].setEnabled(there)
        self.buttons[0].setText(text)
        self.buttons[0].setToolTip(tip)
        self.menu.actions()[0].setEnabled(there)

    def _offers(self) -> list[tuple[str, str]]:
        named = [
            (str(path), tr("Example: {name}", name=example_name(path)))
            for path in self._examples
        ]
        return [(PINNED, tr("The pinned design")), (FILE, tr("A scenario file…")), *named]

    def _on_clicked(self) -> None:
        self.picked.emit(self.sender().objectName())

    def _on_triggered(self, action: object) -> None:
        self.picked.emit(action.data())  # type: ignore[attr-defined]

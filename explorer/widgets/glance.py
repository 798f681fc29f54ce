"""Below the heading of a closed fold: what it holds, in one line or as a small table."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from explorer.state import theme
from explorer.state.language import tr
from explorer.widgets.elided_label import ElidedLabel
from explorer.widgets.plain import plain_tip
from explorer.words.glance import MOST, glance_text
from explorer.words.readout import Line

_INDENT = 20


class Glance(QWidget):
    """Follows the scenario while its fold is closed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._lines: tuple[Line, ...] = ()
        self.line = ElidedLabel()
        self._table = QWidget()
        grid = QGridLayout(self._table)
        grid.setContentsMargins(0, 0, 6, 2)
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(3)
        grid.setColumnStretch(0, 3)
        grid.setColumnStretch(1, 4)
        self.cells = [(ElidedLabel(), ElidedLabel()) for _ in range(MOST)]
        for row, (label, value) in enumerate(self.cells):
            label.setForegroundRole(label.palette().ColorRole.PlaceholderText)
            value.setAlignment(Qt.AlignmentFlag.AlignRight)
            grid.addWidget(label, row, 0)
            grid.addWidget(value, row, 1)
        self.line.setForegroundRole(self.line.palette().ColorRole.PlaceholderText)
        for part in (self.line, *(cell for pair in self.cells for cell in pair)):
            part.setFont(theme.font("small"))
        column = QVBoxLayout(self)
        column.setContentsMargins(_INDENT, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.line)
        column.addWidget(self._table)
        self.set_wide(False)

    def set_lines(self, lines: tuple[Line, ...]) -> None:
        """Show what a fold holds."""
        if lines == self._lines:
            return
        self._lines = lines
        _write(self.line, tr(glance_text(lines)))
        for index, (label, value) in enumerate(self.cells):
            used = index < len(lines)
            _write(label, tr(lines[index].label) if used else "")
            _write(value, tr(lines[index].value) if used else "")
            label.setVisible(used)
            value.setVisible(used)
        self.set_wide(not self._table.isHidden())

    def set_wide(self, wide: bool) -> None:
        """One line, or a table where there is room."""
        self.line.setVisible(not wide)
        self._table.setVisible(wide)
        used = sum(not label.isHidden() for label, _ in self.cells)
        each = self.line.fontMetrics().height()
        self.setFixedHeight(used * (each + 3) + 2 if wide else each + 2)


def _write(label: QLabel, text: str) -> None:
    if label.text() != text:
        label.setText(text)
        label.setToolTip(plain_tip(text))

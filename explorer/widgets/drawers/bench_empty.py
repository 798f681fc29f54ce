"""What the bench drawer shows while no log is open: what it takes, and the ways to one."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.buttons import pill
from explorer.widgets.drawers.bench_sources import BenchSources

BEGIN = say(
    "Open a table with the columns time and store_V (or store_mV), and lux where the light was "
    "logged too, or drop the file on the window. Or write down by hand what a meter shows, or let "
    "a meter be followed as it measures."
)

_GAP = 6


class BenchEmpty(QWidget):
    """A hint, or why a log was refused, above three buttons."""

    def __init__(self, sources: BenchSources, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.hint = QLabel(tr(BEGIN))
        self.hint.setWordWrap(True)
        self.hint.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.open_button = pill(tr("Open log…"), tr("Open a logged run of the device"))
        self.hand_button = pill(tr("Write down…"), tr("Write down what a meter shows, by hand"))
        self.meter_button = pill(tr("Follow a meter…"), tr("Read a multimeter as it measures"))
        self.open_button.clicked.connect(sources.open_file)
        self.hand_button.clicked.connect(sources.write_down)
        self.meter_button.clicked.connect(sources.follow_meter)
        layout = QVBoxLayout(self)
        layout.addStretch(1)
        layout.addWidget(self.hint)
        layout.addSpacing(6)
        self._buttons = (self.open_button, self.hand_button, self.meter_button)
        self._ways = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._ways.setSpacing(_GAP)
        for button in self._buttons:
            self._ways.addWidget(button, 0, Qt.AlignmentFlag.AlignHCenter)
        row = QHBoxLayout()
        row.addStretch(1)
        row.addLayout(self._ways)
        row.addStretch(1)
        layout.addLayout(row)
        layout.addStretch(1)

    def minimumSizeHint(self) -> QSize:
        """As wide as the widest button, which may stand below each other."""
        widest = max(button.sizeHint().width() for button in self._buttons)
        return QSize(widest, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Buttons beside each other, or below where there is little width."""
        super().resizeEvent(event)
        needed = sum(button.sizeHint().width() + _GAP for button in self._buttons)
        ways = QBoxLayout.Direction
        narrow = needed + 4 * _GAP > self.width()
        self._ways.setDirection(ways.TopToBottom if narrow else ways.LeftToRight)

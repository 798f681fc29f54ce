"""What the bench drawer shows while no log is open: what it takes, and the ways to one."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.buttons import pill
from explorer.widgets.drawers.bench_sources import BenchSources
from explorer.widgets.side_by_side import SideBySide

BEGIN = say(
    "Open a table with the columns time and store_V (or store_mV), and lux where the light was "
    "logged too, or drop the file on the window. Or write down by hand what a meter shows, or let "
    "a meter be followed as it measures."
)


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
        ways = SideBySide()
        ways.setSpacing(6)
        for button in (self.open_button, self.hand_button, self.meter_button):
            ways.addWidget(button, 0, Qt.AlignmentFlag.AlignHCenter)
        row = QHBoxLayout()
        row.addStretch(1)
        row.addLayout(ways)
        row.addStretch(1)
        layout.addLayout(row)
        layout.addStretch(1)

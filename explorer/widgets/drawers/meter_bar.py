"""One line that says how the meter does, with a button that ends its run."""

from __future__ import annotations

from PySide6.QtCore import QEvent
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QWidget

from explorer.state import theme
from explorer.state.language import tr
from explorer.state.meter_run import MeterRun
from explorer.state.theme import tokens_of
from explorer.widgets.buttons import pill


class MeterBar(QWidget):
    """Shown while a meter is followed, and after a run until another log is opened."""

    def __init__(self, run: MeterRun, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._run = run
        self.said = QLabel()
        self.said.setWordWrap(True)
        self.said.setFont(theme.font("small"))
        self.said.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.stop_button = pill(tr("Stop meter"), tr("End the run; what was read is kept"))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(self.said, 1)
        layout.addWidget(self.stop_button)
        self.stop_button.clicked.connect(run.stop)
        run.changed.connect(self.refresh)
        self.refresh()

    def changeEvent(self, event: QEvent) -> None:
        """Its ink follows the theme."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.refresh()

    def refresh(self) -> None:
        """Say where the run stands."""
        run = self._run
        self.setVisible(bool(run.said))
        self.stop_button.setVisible(run.is_running)
        ink = tokens_of(self.palette()).color("falls_short" if run.is_lost else "ink")
        colours = self.said.palette()
        colours.setColor(QPalette.ColorRole.WindowText, ink)
        self.said.setPalette(colours)
        text = tr(run.said)
        if text != self.said.text():
            self.said.setText(text)
            self.said.setAccessibleName(text)

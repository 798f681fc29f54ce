"""Whether a log or a computed year counts as it is, and the scale in force where it does not."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from explorer.scenario.light import LEVELLED, LogPattern
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.knobs import LIGHT_PATH, measured_level
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.fields import OutlinedCheckBox
from explorer.words.light_log import scale_text

_LOG = say("The readings of the log as they are. Else they are scaled to the level above.")
_YEAR = say("The year as it was computed. Else all of it is scaled to the level above.")


class LogLevel(QWidget):
    """A tick and the scale, below the light knob; hidden where lamps alone set the light."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.box = OutlinedCheckBox(tr("As measured"))
        self.scale = QLabel()
        self.scale.setFont(theme.font("small"))
        self.scale.setToolTip(tr("The light is multiplied by this at every hour."))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.box)
        layout.addStretch(1)
        layout.addWidget(self.scale)
        self.box.clicked.connect(self._on_clicked)
        document.changed.connect(self._on_changed)
        self._on_changed(None)

    def _on_changed(self, _: object) -> None:
        light = self._document.scenario.light
        is_log = isinstance(light.pattern, LogPattern)
        self.setVisible(light.pattern.kind in LEVELLED)
        if light.pattern.kind not in LEVELLED:
            return
        self.box.setText(tr("As measured") if is_log else tr("As computed"))
        self.box.setToolTip(tr(_LOG if is_log else _YEAR))
        with QSignalBlocker(self.box):
            self.box.setChecked(light.illuminance_lx is None)
        text = scale_text(self._document.case)
        self.scale.setText("" if text is None else tr(text))

    def _on_clicked(self, checked: bool) -> None:
        self._document.begin_gesture()
        level = None if checked else measured_level(self._document.case)
        self._document.edit(LIGHT_PATH, level)

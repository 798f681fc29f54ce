"""What was found in the light log, and what can be done about it, below the light knob."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from explorer.files.disk import FileError
from explorer.files.logs import log_path
from explorer.quantity import show
from explorer.scenario.light import LogPattern
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.widgets.buttons import pill
from explorer.widgets.log_chooser import LogChooser
from explorer.words.light_log import log_sentences
from explorer.words.readout import bind_units

OFFSET_PATH = "light.pattern.offset_lx"


class LightLogNote(QWidget):
    """Sentences about the log, a file chooser, its first rows, and a click against an offset.

    Parameters
    ----------
    document : Document
        Whose log is told of.
    logs : LogChooser
        Opens another one.
    """

    def __init__(
        self, document: Document, logs: LogChooser, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._document = document
        self.setObjectName("light_log_note")
        self._logs = logs
        self.said = QLabel()
        self.said.setWordWrap(True)
        self.said.setFont(theme.font("small"))
        self.said.setForegroundRole(self.said.palette().ColorRole.PlaceholderText)
        self.said.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        self.open_button = pill(tr("Open a log…"), tr("Take a measured light log from a file"))
        self.rows_button = pill(tr("First rows…"), tr("Show how the file of the log is read"))
        self.offset_button = pill("", tr("Take what the meter reads in the dark off every reading"))
        buttons = QHBoxLayout()
        buttons.setSpacing(6)
        buttons.addWidget(self.open_button)
        buttons.addWidget(self.rows_button)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addLayout(buttons)
        layout.addWidget(self.said)
        layout.addWidget(self.offset_button)
        self.open_button.clicked.connect(self._logs.choose)
        self.rows_button.clicked.connect(self._on_rows)
        self.offset_button.clicked.connect(self._on_offset)
        document.changed.connect(self._on_changed)
        self._on_changed(None)

    def _on_changed(self, _: object) -> None:
        log = self._document.log
        follows = isinstance(self._document.scenario.light.pattern, LogPattern)
        text = "\n".join(bind_units(tr(s)) for s in log_sentences(self._document.case))
        self.said.setText(text)
        self.said.setAccessibleName(text)
        self.said.setVisible(bool(text))
        self.rows_button.setVisible(follows)
        floor_lx = 0.0 if log is None else log.floor_lx
        self.offset_button.setVisible(floor_lx > 0.0)
        self.offset_button.setText(tr("Take {offset} off", offset=tr(show(floor_lx, "lx"))))

    def _on_rows(self) -> None:
        try:
            path = log_path(self._document.scenario, self._document.path)
        except FileError as fault:
            self._document.refused.emit(str(fault))
            return
        if path is not None:
            self._logs.show_file(path)

    def _on_offset(self) -> None:
        log = self._document.log
        if log is None:
            return
        self._document.begin_gesture()
        taken = float(self._document.get(OFFSET_PATH)) + log.floor_lx
        self._document.edit(OFFSET_PATH, float(f"{taken:.6g}"))

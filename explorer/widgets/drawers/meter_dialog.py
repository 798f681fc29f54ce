"""Which meter is to be followed: its address, how it is read, and how often."""

from __future__ import annotations

from datetime import datetime
from importlib.util import find_spec
from pathlib import Path

from PySide6.QtCore import QSettings, QSize
from PySide6.QtWidgets import (
    QDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from explorer.files.run_keeper import ENDING, interrupted_run
from explorer.meters.meter import BAUD, LONGEST_S, QUERY, SHORTEST_S, Meter, resource_name
from explorer.quantity import parse, show
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.meter_run import MeterRun
from explorer.text import say
from explorer.widgets.buttons import pill
from explorer.widgets.fields import CalmComboBox, Field, OutlinedCheckBox
from explorer.words.meter import fault_sentence

_ASKED, _STREAM = 0, 1
_KEYS = ("address", "way", "every", "query", "baud")
_REMEMBERED = "meter.ini"


class MeterDialog(QDialog):
    """Asks for a meter and starts its run; what was typed is there the next time.

    Parameters
    ----------
    run : MeterRun
        Follows the meter.
    folder : pathlib.Path
        Where runs are kept.
    remembered : pathlib.Path
        Folder that keeps what was typed.
    """

    def __init__(
        self, run: MeterRun, folder: Path, parent: QWidget | None = None, *, remembered: Path
    ) -> None:
        super().__init__(parent)
        self._run, self._folder, self._remembered = run, folder, remembered
        self.setWindowTitle(tr("Follow a meter"))
        self.address, self.every = Field(), Field()
        self.query, self.baud = Field(), Field()
        self.way = CalmComboBox()
        self.way.addItems(
            [tr("A multimeter that is asked (SCPI)"), tr("A stream of numbers, one line each")]
        )
        self.go_on = OutlinedCheckBox(tr("Go on with the run that was interrupted"))
        self.interrupted = interrupted_run(folder)
        self.go_on.setVisible(self.interrupted is not None)
        self.go_on.setChecked(self.interrupted is not None)
        self.said = QLabel()
        self.said.setWordWrap(True)
        self.start_button = pill(tr("Start"), tr("Follow the meter; every reading is kept at once"))
        self.close_button = pill(tr("Cancel"), tr("Follow no meter"))
        self._lay_out()
        self._remember_from()
        self.way.currentIndexChanged.connect(self._on_way)
        self.address.textChanged.connect(self._on_way)
        self.start_button.clicked.connect(self.start)
        self.close_button.clicked.connect(self.reject)
        for field in (self.address, self.every, self.query, self.baud):
            field.returnPressed.connect(self.start)
        self._on_way()
        if find_spec("pyvisa") is None:
            self.said.setText(tr(fault_sentence("no_library", "", "")))
            self.start_button.setEnabled(False)

    def _lay_out(self) -> None:
        hint = QLabel(
            tr(
                "The meter's leads go to the terminals of the store. Address: a host such as "
                "192.0.2.7, a serial line such as COM3 or /dev/ttyUSB0, or a VISA resource name."
            )
        )
        hint.setWordWrap(True)
        hint.setFont(theme.font("small"))
        hint.setForegroundRole(hint.palette().ColorRole.PlaceholderText)
        self.form = QFormLayout()
        self.form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        self.form.setHorizontalSpacing(12)
        rows = (
            (tr("Address"), self.address),
            (tr("Meter"), self.way),
            (tr("A reading every"), self.every),
            (tr("Asked with"), self.query),
            (tr("Baud rate"), self.baud),
        )
        for label, field in rows:
            self.form.addRow(label, field)
            field.setAccessibleName(label)
        buttons = QHBoxLayout()
        buttons.setSpacing(6)
        buttons.addStretch(1)
        buttons.addWidget(self.close_button)
        buttons.addWidget(self.start_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 12, 14, 12)
        layout.setSpacing(8)
        layout.addWidget(hint)
        layout.addLayout(self.form)
        layout.addWidget(self.go_on)
        layout.addWidget(self.said)
        layout.addStretch(1)
        layout.addLayout(buttons)

    def sizeHint(self) -> QSize:
        """Room for an address of USB."""
        return QSize(440, 330)

    def _on_way(self) -> None:
        """Only what the chosen meter needs."""
        self.form.setRowVisible(self.query, self.way.currentIndex() == _ASKED)
        try:
            name = resource_name(self.address.text())
        except ValueError:
            name = ""
        self.form.setRowVisible(self.baud, name.startswith("ASRL"))

    def meter(self) -> Meter:
        """What was typed.

        Raises
        ------
        ValueError
            Something in it cannot be used; the sentence says what.
        """
        every_s = parse(self.every.text(), "s")
        if not SHORTEST_S <= every_s <= LONGEST_S:
            raise ValueError(
                say(
                    "A reading every {found} is out of range; allowed is {low} to {high}.",
                    found=show(every_s, "s"),
                    low=show(SHORTEST_S, "s"),
                    high=show(LONGEST_S, "s"),
                )
            )
        baud = self.baud.text().strip()
        if not baud.isdigit() or not 50 <= int(baud) <= 4_000_000:
            raise ValueError(
                say("The baud rate is “{found}”; a usual one is {usual}.", found=baud, usual=BAUD)
            )
        return Meter(
            address=resource_name(self.address.text()),
            every_s=every_s,
            is_stream=self.way.currentIndex() == _STREAM,
            query=self.query.text().strip() or QUERY,
            baud=int(baud),
        )

    def start(self) -> None:
        """Follow the meter, or say what is wrong."""
        try:
            meter = self.meter()
            for folder in (self._folder, self._remembered):
                folder.mkdir(parents=True, exist_ok=True)
        except (ValueError, OSError) as error:
            self.said.setText(tr(str(error)))
            return
        self._remember()
        goes_on = self.interrupted is not None and self.go_on.isChecked()
        new = self._folder / f"{datetime.now():%Y-%m-%d %H.%M.%S} {ENDING}"
        path = self.interrupted if goes_on and self.interrupted is not None else new
        self._run.start(meter, path, go_on=goes_on)
        self.accept()

    # --- what was typed the last time ---

    def _ini(self) -> QSettings:
        return QSettings(str(self._remembered / _REMEMBERED), QSettings.Format.IniFormat)

    def _remember(self) -> None:
        ini = self._ini()
        way = str(self.way.currentIndex())
        texts = (self.address.text(), way, *(f.text() for f in (self.every, self.query, self.baud)))
        for key, text in zip(_KEYS, texts, strict=True):
            ini.setValue(key, text)
        ini.sync()

    def _remember_from(self) -> None:
        ini = self._ini()
        usual = ("", str(_ASKED), "10 s", QUERY, str(BAUD))
        address, way, every, query, baud = (
            str(ini.value(key, text, type=str)) for key, text in zip(_KEYS, usual, strict=True)
        )
        self.way.setCurrentIndex(_STREAM if way == str(_STREAM) else _ASKED)
        for field, text in (
            (self.address, address), (self.every, every), (self.query, query), (self.baud, baud),
        ):  # fmt: skip
            field.setText(text)

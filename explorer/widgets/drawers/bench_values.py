"""The values that can be fitted: a tick, below it present and fitted value, and a remark."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from explorer.advice.bench.fit import Fit
from explorer.advice.bench.parameters import Parameter
from explorer.quantity import show
from explorer.state import theme
from explorer.state.language import tr
from explorer.widgets.fields import OutlinedCheckBox
from explorer.widgets.plain import plain_tip
from explorer.words.fit import remark, value_text

_INDENT = 24
"""Where the text of a check box begins. [px]"""


class BenchValues(QWidget):
    """One row for each value; the space bar ticks."""

    ticked = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(2, 0, 6, 0)
        self._column.setSpacing(1)
        self.offered: tuple[Parameter, ...] = ()
        self._chosen: set[str] | None = None
        self.boxes: list[OutlinedCheckBox] = []
        self._lines: list[QLabel] = []

    def set_offered(self, offered: Sequence[Parameter]) -> None:
        """Offer values; what a person ticked stays so."""
        self.offered = tuple(offered)
        chosen = self._chosen
        if chosen is None:
            lit = bool(offered) and offered[0].path.startswith("light.")
            chosen = {p.path for p in self.offered[: 2 if lit else 1]}
        while len(self.boxes) < len(self.offered):
            self._add_row()
        for row, (box, line) in enumerate(zip(self.boxes, self._lines, strict=True)):
            here = row < len(self.offered)
            box.setVisible(here)
            line.setVisible(here)
            if here:
                given = self.offered[row]
                box.blockSignals(True)
                box.setChecked(given.path in chosen)
                box.blockSignals(False)
                box.setText(tr(given.label))
        self.set_fit(None)

    def set_fit(self, found: Fit | None) -> None:
        """Show what a fit says, or nothing."""
        fits = () if found is None else found.values
        places = {v.parameter.path: i for i, v in enumerate(fits)}
        for box, line, given in zip(self.boxes, self._lines, self.offered, strict=False):
            at, now = places.get(given.path), show(given.value, given.unit)
            said = ""
            if found is None or at is None:
                line.setText(tr("now {value}", value=now))
            else:
                said = tr(remark(found, at))
                value = value_text(fits[at])
                shown = tr("now {value}, fitted {fitted}", value=now, fitted=value)
                line.setText(f"{shown}. {said}" if said else shown)
            box.setAccessibleName(f"{box.text()}, {line.text()}")
            box.setToolTip(plain_tip(said))

    @property
    def chosen(self) -> tuple[str, ...]:
        """Paths that are ticked, in their order."""
        return tuple(
            p.path for p, box in zip(self.offered, self.boxes, strict=False) if box.isChecked()
        )

    def _add_row(self) -> None:
        box = OutlinedCheckBox()
        box.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        box.setMinimumHeight(24)
        box.toggled.connect(self._on_toggled)
        line = QLabel()
        line.setFont(theme.font("small"))
        line.setWordWrap(True)
        line.setIndent(_INDENT)
        self._column.addWidget(box)
        self._column.addWidget(line)
        self.boxes.append(box)
        self._lines.append(line)

    def _on_toggled(self, _: bool) -> None:
        shown = {p.path for p in self.offered}
        self._chosen = ((self._chosen or set()) - shown) | set(self.chosen)
        self.ticked.emit()

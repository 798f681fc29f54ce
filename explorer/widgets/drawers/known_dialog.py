"""How well the values that are not fitted are known: by their usual tolerance, or better."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialog, QGridLayout, QLabel, QVBoxLayout, QWidget

from explorer.advice.spread import Tolerance
from explorer.quantity import show
from explorer.state import theme
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.buttons import dialog_foot, pill
from explorer.widgets.exact_field import ExactField
from explorer.widgets.fault_line import FaultLine
from explorer.widgets.slim_scroll import SlimScroll
from explorer.words.drawers import tolerance_text

MOST = 100.0
"""Widest ± that is taken. [%]"""
_HINT = say(
    "What the fit takes for granted may be wrong by its tolerance, and the ± says so. Where you "
    "have measured a value of this device, write how well; leave the others empty."
)


class KnownDialog(QDialog):
    """One row for each value that is taken for granted.

    Parameters
    ----------
    tolerances : sequence of Tolerance
        What is usual.
    known : mapping
        What somebody knows better, as shares under their paths.
    """

    taken = Signal(object)
    """Carries what is known, as shares under their paths."""

    def __init__(
        self,
        tolerances: Sequence[Tolerance],
        known: Mapping[str, float],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("How well the rest is known"))
        hint = QLabel(tr(_HINT))
        hint.setWordWrap(True)
        hint.setFont(theme.font("small"))
        inner = QWidget()
        grid = QGridLayout(inner)
        grid.setContentsMargins(0, 0, 8, 0)
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(0, 1)
        for column, text in enumerate((tr("Value"), tr("Usual ±"), tr("Known to ±"))):
            head = QLabel(text)
            head.setFont(theme.font("small"))
            head.setForegroundRole(head.palette().ColorRole.PlaceholderText)
            side = Qt.AlignmentFlag.AlignRight if column else Qt.AlignmentFlag.AlignLeft
            grid.addWidget(head, 0, column, side)
        self.fault = FaultLine()
        self.fields: dict[str, ExactField] = {}
        for row, one in enumerate(tolerances, 1):
            label, usual = QLabel(tr(one.label)), QLabel(tr(tolerance_text(one)))
            field = ExactField("%", optional=True)
            field.setFixedWidth(90)
            field.setAccessibleName(tr("{label}, known to per cent", label=one.label))
            field.set_value(100.0 * known[one.path] if one.path in known else None)
            field.entered.connect(self._on_entered)
            field.fault_changed.connect(self.fault.say)
            label.setBuddy(field)
            grid.addWidget(label, row, 0)
            grid.addWidget(usual, row, 1, Qt.AlignmentFlag.AlignRight)
            grid.addWidget(field, row, 2)
            self.fields[one.path] = field
        scroll = SlimScroll(inner)
        self.take_button = pill(tr("Use"), tr("Fit with what is known so well"))
        self.cancel_button = pill(tr("Cancel"), tr("Leave everything as it is"))
        self.take_button.clicked.connect(self._on_take)
        self.cancel_button.clicked.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 14, 16, 14)
        layout.setSpacing(10)
        layout.addWidget(hint)
        layout.addWidget(scroll, 1)
        layout.addLayout(dialog_foot(self.fault, self.cancel_button, self.take_button))
        self.setMinimumSize(480, 420)

    @property
    def known(self) -> dict[str, float]:
        """What is known, as shares."""
        return {
            path: 0.01 * field.value
            for path, field in self.fields.items()
            if field.value is not None
        }

    def _on_entered(self, value: object) -> None:
        field = self.sender()
        assert isinstance(field, ExactField)
        if isinstance(value, float) and not 0.0 <= value <= MOST:
            field.refuse(say("Allowed is 0 to {most}.", most=show(MOST, "%")))
            return
        field.set_value(value if isinstance(value, float) else None)

    def _on_take(self) -> None:
        if (typing := self.focusWidget()) is not None:
            typing.clearFocus()  # what is being typed counts
        if self.fault.text():
            return
        self.taken.emit(self.known)
        self.accept()

"""Go to the knob or the detail field that holds a value."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QWidget

from explorer.widgets.forms.pulse_timing import PulseTiming
from explorer.widgets.knob_panel import KnobPanel
from explorer.widgets.slim_scroll import SlimScroll

_FOLDS = {
    "place": 0, "light": 0, "panels": 1, "charger": 1, "store": 2, "load": 3, "margins": 4,
    "notes": 4,
}  # fmt: skip
"""Which fold of the knob panel holds the fields of a section."""


def go_to(panel: KnobPanel, path: str) -> bool:
    """Show a field and give it the keyboard; whether there is such a field.

    Parameters
    ----------
    panel : KnobPanel
        Where the knobs and their folds are.
    path : str
        Path of the value.
    """
    for row in panel.rows:
        if row.knob.path == path:
            _focus(panel, row.field)
            return True
    index = _FOLDS.get(path.split(".")[0])
    if index is None or index >= len(panel.folds):
        return False
    fold = panel.folds[index]
    fold.set_open(True)
    if fold.content is None:
        return False
    field = _field(fold.content, path)
    QApplication.sendPostedEvents()  # the layout of what was just opened
    _focus(panel, field if field is not None else fold.button)
    return field is not None


def _field(content: QWidget, path: str) -> QWidget | None:
    """The widget that edits a path, or a list or section around it."""
    amount = path.rpartition(".")[0] + ".amount"
    found = [
        row
        for name in (path, amount)
        for row in content.findChildren(QWidget, name)
        if not isinstance(row.parent(), PulseTiming) or path == name
    ]
    for row in found:
        if isinstance(row, QLineEdit | QComboBox):
            return row
        fields: list[QWidget] = list(row.findChildren(QLineEdit))
        fields += list(row.findChildren(QComboBox))
        if fields:
            return fields[0]
    return None


def _focus(panel: KnobPanel, field: QWidget) -> None:
    field.setFocus(Qt.FocusReason.OtherFocusReason)
    if isinstance(field, QLineEdit):
        field.selectAll()
    scroll = panel.findChild(SlimScroll)
    if isinstance(scroll, SlimScroll):
        scroll.ensureWidgetVisible(field, 0, 60)

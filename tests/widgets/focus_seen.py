"""How well one sees where the keyboard is: what changes around a widget that gets the focus."""

import numpy as np
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

CONTRAST = 3.0
"""Of a focus indicator against what was there before (WCAG 2.2, 2.4.13)."""


def ring(widget):
    """Pixels that change by three to one, over those of the shortest outline of the widget.

    A table shows the focus in a cell; one of 20 by 60 pixels counts as its outline then.
    """
    top = widget.window()
    area = widget.rect().translated(widget.mapTo(top, QPoint(0, 0))).intersected(top.rect())
    if top.focusWidget() is not None:
        top.focusWidget().clearFocus()
    before = _light(top, area)
    widget.setFocus(Qt.FocusReason.TabFocusReason)
    assert widget.hasFocus()
    after = _light(top, area)
    high, low = np.maximum(before, after), np.minimum(before, after)
    changed = np.count_nonzero((high + 0.05) / (low + 0.05) >= CONTRAST)
    return changed / min(2 * (area.width() + area.height()), 160)


def _light(top, area):
    """Relative luminance of a part of a window (WCAG 2.2)."""
    QApplication.processEvents()
    image = top.grab(area).toImage().convertToFormat(QImage.Format.Format_RGB888)
    rows = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), -1)
    parts = rows[:, : 3 * image.width()].reshape(image.height(), image.width(), 3) / 255.0
    linear = np.where(parts <= 0.03928, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)
    return linear @ np.array([0.2126, 0.7152, 0.0722])

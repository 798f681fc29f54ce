"""How large a dialog may be on the screen that it opens on."""

from __future__ import annotations

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QDialog

_FRAME = QSize(24, 56)
"""Room for a window frame and its title."""


def fit_screen(dialog: QDialog, wanted: QSize) -> None:
    """Give a dialog the wanted size, or what its screen has; at 200 % that is often less."""
    room = dialog.screen().availableSize() - _FRAME
    dialog.setMinimumSize(dialog.minimumSize().boundedTo(room))
    dialog.resize(wanted.boundedTo(room))

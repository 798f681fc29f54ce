"""How far the reading of a large log is, over a window that waits for it, with a way to stop it."""

from __future__ import annotations

import weakref

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QProgressDialog, QWidget

from explorer.files.table_reader.told import LogError
from explorer.state.language import tr
from explorer.text import say

PATIENCE_MS = 300
"""Shorter reading shows nothing."""
_STEPS = 1000


class LogProgress:
    """Told the share that was read; shows it after a moment, and ends the reading on Cancel.

    Parameters
    ----------
    over : QWidget
        The window that waits; it is not kept alive.
    """

    def __init__(self, over: QWidget) -> None:
        self._over = weakref.ref(over)
        self.dialog: QProgressDialog | None = None

    def __call__(self, share: float) -> None:
        """Show a share; 1 ends it.

        Raises
        ------
        LogError
            Somebody has pressed Cancel.
        """
        if share >= 1.0:
            self._close()
            return
        if self.dialog is None:
            over = self._over()
            top = None if over is None else over.window()
            text = tr("Reading the light log…")
            self.dialog = QProgressDialog(text, tr("Cancel"), 0, _STEPS, top)
            self.dialog.setWindowModality(Qt.WindowModality.WindowModal)
            self.dialog.setMinimumDuration(PATIENCE_MS)
        self.dialog.setValue(int(_STEPS * share))  # lets the button be pressed, as it is modal
        if self.dialog.wasCanceled():
            self._close()
            raise LogError(say("The reading of the light log was stopped."))

    def _close(self) -> None:
        if self.dialog is not None:
            self.dialog.close()
            self.dialog.deleteLater()
            self.dialog = None

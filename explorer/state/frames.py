"""What a window does before it paints a frame."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QEvent, QObject

from explorer.state.solver import Solver


class FramesOf(QObject):
    """Lets a window's solver catch up before each of its frames.

    A knob follows the hand at once. Painted before the model has followed, it would stand beside
    the verdict of the design before.

    Parameters
    ----------
    window : QObject
        A top-level widget; owns this.
    solver : Solver
        Computes what the window shows.
    """

    def __init__(self, window: QObject, solver: Solver) -> None:
        super().__init__(window)
        self._solver = solver
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Catch up before the window paints."""
        if event.type() == QEvent.Type.UpdateRequest and self._solver.catch_up():
            # Layouts and scenes take what changed by events of their own, which are due after the
            # paint: they would paint a second time.
            for kind in (QEvent.Type.LayoutRequest, QEvent.Type.MetaCall):
                QCoreApplication.sendPostedEvents(None, kind.value)
        return False

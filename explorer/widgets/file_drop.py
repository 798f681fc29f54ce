"""Files dropped anywhere on a window, whatever lies under the pointer."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QEvent, QMimeData, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QWidget

_DRAGS = frozenset({QEvent.Type.DragEnter, QEvent.Type.DragMove, QEvent.Type.Drop})


class FileDrop(QObject):
    """Takes file drags before fields and plots see them: a field would write down the path."""

    dropped = Signal(object)
    """Carries the list of paths, after the drag has ended: a question must not hold it up."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._paths: list[Path] = []
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Follow the native window, and take file drags on it."""
        kind = event.type()
        if watched is self._window:
            if kind in (QEvent.Type.Show, QEvent.Type.WinIdChange):
                self._watch()
        elif kind in _DRAGS and isinstance(event, QDropEvent):
            paths = local_files(event.mimeData())
            if paths:
                event.setDropAction(Qt.DropAction.CopyAction)
                event.accept()
                if kind == QEvent.Type.Drop:
                    self._paths += paths
                    QTimer.singleShot(0, self, self._tell)
                return True
        return super().eventFilter(watched, event)

    def _watch(self) -> None:
        handle = self._window.windowHandle()
        if handle is not None:
            handle.installEventFilter(self)  # a second time changes nothing

    def _tell(self) -> None:
        paths, self._paths = self._paths, []
        if paths:
            self.dropped.emit(paths)


def local_files(data: QMimeData) -> list[Path]:
    """Files of this machine in a drag."""
    return [Path(url.toLocalFile()) for url in data.urls() if url.isLocalFile()]

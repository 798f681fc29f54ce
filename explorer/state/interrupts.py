"""Ctrl-C in the terminal, and the system's request to end, reach a program that waits in Qt."""

from __future__ import annotations

import signal
import socket
from types import FrameType

from PySide6.QtCore import QObject, QSocketNotifier, Signal, Slot

SIGNALS = (signal.SIGINT, signal.SIGTERM)


class Interrupts(QObject):
    """Emits `met` on the interface thread when a signal comes.

    Python runs a handler only between two of its own steps, and in Qt's loop there may be none; so
    the arrival is written to a socket on which Qt waits.
    """

    met = Signal(int)
    """Number of the signal."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._read, self._write = socket.socketpair()
        for end in (self._read, self._write):
            end.setblocking(False)
        self._notifier = QSocketNotifier(
            self._read.fileno(), QSocketNotifier.Type.Read, self
        )
        self._notifier.activated.connect(self._on_arrival)
        self._before_fd = signal.set_wakeup_fd(self._write.fileno(), warn_on_full_buffer=False)
        self._before = {number: signal.signal(number, _noted) for number in SIGNALS}

    def close(self) -> None:
        """Let signals do again what they did before."""
        self._notifier.setEnabled(False)
        for number, handler in self._before.items():
            signal.signal(number, handler)
        signal.set_wakeup_fd(self._before_fd)
        self._read.close()
        self._write.close()

    @Slot()
    def _on_arrival(self) -> None:
        try:
            numbers = self._read.recv(64)
        except BlockingIOError:
            return
        for number in numbers:
            if number in SIGNALS:
                self.met.emit(int(number))


def _noted(_: int, __: FrameType | None) -> None:
    """The socket tells."""

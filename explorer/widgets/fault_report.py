"""What nobody foresaw: written down, told once, and never the end of the program."""

from __future__ import annotations

import logging
import platform
import sys
import threading
import traceback
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import Any

import PySide6
from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QWidget

from explorer.state.language import tr
from explorer.widgets import messages

LOG = logging.getLogger(__name__)


class FaultReport(QObject):
    """Takes every exception that no code of ours caught, on any thread.

    It logs each and tells about the first, later and on the interface thread: a fault may come in
    the middle of a paint event, where no dialog may be opened.

    Parameters
    ----------
    over : callable
        The window to tell it over, or None.
    version : str
        Of the program, for the details.
    log_file : pathlib.Path, optional
        Where the log is kept, for the dialog to name.
    """

    _met = Signal(str, str)

    def __init__(
        self,
        over: Callable[[], QWidget | None],
        version: str,
        log_file: Path | None = None,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._over, self._version, self._log_file = over, version, log_file
        self._shown = False
        self._met.connect(self._show, Qt.ConnectionType.QueuedConnection)
        self._before = (sys.excepthook, threading.excepthook, sys.unraisablehook)

    def install(self) -> None:
        """Take what Python would print."""
        sys.excepthook = self.report
        threading.excepthook = self._of_thread
        sys.unraisablehook = self._unraisable

    def remove(self) -> None:
        """Let Python print again."""
        sys.excepthook, threading.excepthook, sys.unraisablehook = self._before

    def report(
        self, kind: type[BaseException], error: BaseException, trace: TracebackType | None
    ) -> None:
        """Log a fault; tell about the first."""
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, error, trace)
            return
        details = "".join(traceback.format_exception(kind, error, trace))
        LOG.error("unforeseen fault\n%s", details)
        self._met.emit(f"{kind.__name__}: {error}", details)

    def _of_thread(self, args: threading.ExceptHookArgs) -> None:
        if not issubclass(args.exc_type, SystemExit):
            error = args.exc_value or args.exc_type()
            self.report(args.exc_type, error, args.exc_traceback)

    def _unraisable(self, args: Any) -> None:
        """What happens while something is taken away concerns nobody but the log."""
        LOG.error("fault in %r", args.object, exc_info=args.exc_value)

    def _show(self, line: str, details: str) -> None:
        if self._shown:
            return
        self._shown = True
        about = (
            f"Gloaming {self._version}, Python {platform.python_version()}, "
            f"PySide {PySide6.__version__}, {platform.platform()}"
        )
        messages.tell_fault(
            self._over(),
            tr(
                "{fault}\n\nThe scenario is still open. Save it under another name, "
                "and start the program again.",
                fault=line[:500],
            ),
            f"{about}\n\n{details}",
            self._log_file,
        )

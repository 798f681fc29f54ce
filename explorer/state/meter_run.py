"""A meter that is read in a process of its own, so that nothing it does can stop the window.

A driver may wait for ever, or crash: then its process ends, and what was read is on disk.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, QProcess, Signal, Slot

from explorer.meters.meter import Meter
from explorer.state.own_program import start
from explorer.text import say
from explorer.words.meter import (
    fault_sentence,
    garbled_sentence,
    odd_sentence,
    reading_sentence,
    retry_sentence,
)

STOP = b"stop\n"
FAREWELL_MS = 2000
"""Longest wait for the process to end by itself; it does within some milliseconds."""


class _Ender:
    """Ends the process of a run that is going; outlives it, as a deleted object has no slots."""

    def __init__(self, process: QProcess) -> None:
        self._process = process

    def end(self) -> None:
        if self._process.state() == QProcess.ProcessState.NotRunning:
            return
        self._process.write(STOP)
        self._process.closeWriteChannel()
        if not self._process.waitForFinished(FAREWELL_MS):
            self._process.kill()
            self._process.waitForFinished(FAREWELL_MS)


class MeterRun(QObject):
    """Follows one meter at a time, and says in sentences how it goes.

    Parameters
    ----------
    parent : QObject
        With its end the run ends; the file is complete then.
    """

    changed = Signal()
    """It began or ended, or there is something else to say."""
    grown = Signal()
    """A reading more is on disk."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.path: Path | None = None
        self.said: str = ""
        self.is_lost = False
        self.count = 0
        self._let_go = False
        self._process = QProcess(self)
        self._process.readyReadStandardOutput.connect(self._on_output)
        self._process.finished.connect(self._on_finished)
        self._ender = _Ender(self._process)
        self.destroyed.connect(self._ender.end)

    @property
    def is_running(self) -> bool:
        """Whether a meter is followed."""
        return self._process.state() != QProcess.ProcessState.NotRunning

    def start(self, meter: Meter, path: Path, *, go_on: bool = False) -> None:
        """Follow a meter into a file; one that is followed already is let go."""
        self.stop()
        self.path, self.count, self.is_lost, self._let_go = path, 0, False, False
        self.said = say("Looking for the meter {address}…", address=meter.address)
        options = ["--every", f"{meter.every_s:.6g} s", "--query", meter.query]
        options += ["--baud", str(meter.baud)]
        options += ["--stream"] * meter.is_stream + ["--go-on"] * go_on
        words = ["measure", "--events", *options, "--", meter.address, str(path)]
        start(self._process, sys.executable, words, one_thread=False)
        self.changed.emit()

    def stop(self) -> None:
        """End the run; its file is complete."""
        if self.is_running:
            self._let_go = True
            self._ender.end()

    @Slot()
    def _on_output(self) -> None:
        before = self.count
        while self._process.canReadLine():
            line = bytes(self._process.readLine().data())
            try:
                self._take(json.loads(line))
            except (ValueError, KeyError):
                continue  # a library's own remark
        if self.count != before:
            self.grown.emit()
        self.changed.emit()

    def _take(self, told: dict[str, Any]) -> None:
        address = str(told.get("address", ""))
        event = told["event"]
        if event == "found":
            name = told["identity"]
            self.said = (
                say("The meter answers: {name}.", name=name)
                if name
                else say("Numbers arrive from {address}.", address=address)
            )
        elif event == "reading":
            self.count = told["count"]
            clock = str(told["moment"])[11:19]
            self.said = reading_sentence(self.count, told["volts"], clock)
        elif event == "odd":
            self.said = odd_sentence(told["volts"])
        elif event == "garbled":
            self.said = garbled_sentence(told["detail"])
        elif event == "lost":
            self.said = retry_sentence(told["kind"], told["detail"], address, told["again_s"])
        elif told["kind"]:
            self.said = fault_sentence(told["kind"], told["detail"], address)
        else:
            self.said = say(told["detail"])
        self.is_lost = event in ("lost", "odd", "garbled", "refused")

    @Slot(int, QProcess.ExitStatus)
    def _on_finished(self, code: int, _: object) -> None:
        self._on_output()
        if code == 0 and (self._let_go or not self.is_lost):
            self.is_lost = False  # a meter that was let go is missed no more
            self.said = say("The run has ended; {n} readings are kept.", n=self.count)
        elif code not in (0, 3):
            self.said = say(
                "The program that reads the meter has ended unexpectedly; what was read is kept."
            )
            self.is_lost = True
        self.changed.emit()

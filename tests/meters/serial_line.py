"""A serial line whose other end is in the hands of a test: a pair of terminals of the system."""

import contextlib
import os
import select
import termios
import threading
import time
import tty


class SerialLine:
    """A device such as /dev/ttyUSB0, made by the system.

    Parameters
    ----------
    answers : callable, optional
        Takes a line that was written to the device, and returns what it says, or nothing.
    first : str
        What it says by itself once somebody has opened it.
    """

    def __init__(self, answers=None, first=""):
        self._here, there = os.openpty()
        tty.setraw(there)
        self.device = os.ttyname(there)
        self._there = there
        self.heard = []
        self._answers, self._first = answers, first
        self._as_made = termios.tcgetattr(there)[4]
        self._pulled = threading.Event()
        self._thread = threading.Thread(target=self._listen, daemon=True)
        self._thread.start()

    def say(self, text):
        os.write(self._here, text.encode("latin-1"))

    def _listen(self):
        """One thread reads, so that what is written never fills the line."""
        rest = b""
        while not self._pulled.is_set():
            if self._first and termios.tcgetattr(self._there)[4] != self._as_made:
                time.sleep(0.2)  # whoever has set its speed empties the line and then listens
                self.say(self._first)
                self._first = ""
            ready, _, _ = select.select([self._here], [], [], 0.02)
            if not ready:
                continue
            with contextlib.suppress(OSError):  # nobody has it open at the other end
                rest += os.read(self._here, 1000)
            *lines, rest = rest.split(b"\n")
            for line in lines:
                self.heard.append(line.decode("latin-1").strip())
                said = self._answers(self.heard[-1]) if self._answers else None
                if said is not None:
                    self.say(said)

    def unplug(self):
        if not self._pulled.is_set():
            self._pulled.set()
            self._thread.join(5.0)
            os.close(self._here)
            os.close(self._there)

"""A multimeter on a socket that answers as IEEE 488.2 and SCPI say, and a source of numbers."""

from __future__ import annotations

import contextlib
import socket
import threading
import time

IDENTITY = "FERNHOLLOW INSTRUMENTS,BENCH METER,0,1.0"
"""Four fields: maker, model, serial number, version (IEEE 488.2, 10.14)."""


class SocketMeter:
    """Answers `*IDN?`, `MEAS:VOLT:DC?` and `SYST:ERR?`; what it does not know it does not answer.

    Parameters
    ----------
    readings : iterable of str
        What it measures, one after the other; the last goes on.
    stream_s : float, optional
        Sends its readings unasked, so far apart.
    """

    def __init__(self, readings=("+3.30000E+00",), *, stream_s=0.0, port=0):
        self.readings, self.stream_s = list(readings), stream_s
        self.errors = []
        self.asked = []
        self._listener = socket.create_server(("127.0.0.1", port))
        self.port = self._listener.getsockname()[1]
        self._lines = []
        self._threads = [threading.Thread(target=self._accept, daemon=True)]
        self._threads[0].start()

    @property
    def address(self):
        return f"127.0.0.1:{self.port}"

    def close(self):
        """Pull the plug."""
        for sock in (self._listener, *self._lines):
            with contextlib.suppress(OSError):
                sock.shutdown(socket.SHUT_RDWR)
            sock.close()
        for thread in self._threads:
            thread.join(5.0)

    def _accept(self):
        while True:
            try:
                line, _ = self._listener.accept()
            except OSError:
                return
            self._lines.append(line)
            work = self._send if self.stream_s else self._answer
            thread = threading.Thread(target=work, args=(line,), daemon=True)
            self._threads.append(thread)
            thread.start()

    def _next(self):
        return self.readings.pop(0) if len(self.readings) > 1 else self.readings[0]

    def _answer(self, line):
        try:
            with line.makefile("rw", newline="\n") as file:
                for text in file:
                    query = text.strip().upper()
                    self.asked.append(query)
                    if query == "*IDN?":
                        said = IDENTITY
                    elif query == "MEAS:VOLT:DC?":
                        said = self._next()
                    elif query == "SYST:ERR?":
                        said = self.errors.pop(0) if self.errors else '0,"No error"'
                    else:
                        self.errors.append('-113,"Undefined header"')
                        continue
                    file.write(said + "\n")
                    file.flush()
        except (OSError, ValueError):
            return

    def _send(self, line):
        try:
            while True:
                line.sendall(f"{self._next()}\n".encode())
                time.sleep(self.stream_s)
        except OSError:
            return

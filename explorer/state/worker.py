"""A worker process: answers one question after the other for a window; Qt-free.

It reads messages from its standard input and writes to its standard output, each a length and a
pickle. It ends when its input does, so that none outlives the program that started it.
"""

from __future__ import annotations

import logging
import os
import pickle
import queue
import signal
import struct
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import suppress
from typing import BinaryIO

from explorer.engine.course import Interrupted, until
from explorer.loaded import settle_down
from explorer.state.holds import Hold

LOG = logging.getLogger(__name__)
LENGTH = struct.Struct("<Q")
READY, STEP, DONE, FAILED = "ready", "step", "done", "failed"
ASK, STOP, REST = "ask", "stop", "rest"
POLITE = 5
"""By how much a worker gives way to the window where both want the processor."""
Question = Callable[[Hold], Iterator[object]]
"""Yields a growing answer, or its parts, and ends early once the hold says so."""


def framed(message: object) -> bytes:
    """A message as it goes through a pipe."""
    body = pickle.dumps(message, protocol=5)
    return LENGTH.pack(len(body)) + body


def messages(buffer: bytearray) -> Iterator[object]:
    """The whole messages at the head of a buffer, which are taken off it."""
    while len(buffer) >= LENGTH.size:
        (length,) = LENGTH.unpack_from(buffer)
        end = LENGTH.size + length
        if len(buffer) < end:
            return
        body = bytes(buffer[LENGTH.size : end])
        del buffer[:end]
        yield pickle.loads(body)


class _Desk:
    """What is asked of this process, and what it was told about it."""

    def __init__(self) -> None:
        self.asked: queue.SimpleQueue[tuple[int, bytes]] = queue.SimpleQueue()
        self._holds: dict[int, Hold] = {}

    def hold(self, number: int) -> Hold:
        """The hold of one question."""
        return self._holds.setdefault(number, Hold())

    def take(self, message: tuple[str, int, object]) -> None:
        """Follow one message of the window."""
        kind, number, what = message
        if kind == ASK:
            assert isinstance(what, bytes)
            self.hold(number)
            self.asked.put((number, what))
        elif number in self._holds:
            if kind == STOP:
                self._holds[number].stop.set()
            elif kind == REST:
                assert isinstance(what, float)
                self._holds[number].rest(what)

    def forget(self, number: int) -> None:
        """A question is answered."""
        self._holds.pop(number, None)


def _listen(source: BinaryIO, desk: _Desk) -> None:
    """In a thread: a question must hear at once that it is to stop."""
    buffer = bytearray()
    while chunk := os.read(source.fileno(), 1 << 20):
        buffer += chunk
        for message in messages(buffer):
            desk.take(message)  # type: ignore[arg-type]
    os._exit(0)


def _answer(number: int, what: bytes, hold: Hold, send: Callable[[object], None]) -> None:
    try:
        question: Question = pickle.loads(what)
        with until(hold.stop.is_set), suppress(Interrupted):
            for step in question(hold):
                if hold.stop.is_set():
                    break
                send((STEP, number, step))
    except Exception as error:  # a question must never take the worker down
        LOG.exception("a question failed")
        send((FAILED, number, str(error)))
    else:
        send((DONE, number, None))


def main() -> None:
    """Serve until the input ends."""
    out = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())  # what anybody prints is no message
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is the window's matter; our input ends
    if hasattr(os, "nice"):
        os.nice(POLITE)
    settle_down()
    desk = _Desk()
    threading.Thread(target=_listen, args=(sys.stdin.buffer, desk), daemon=True).start()

    def send(message: object) -> None:
        out.write(framed(message))
        out.flush()

    send((READY, 0, None))
    while True:
        number, what = desk.asked.get()
        _answer(number, what, desk.hold(number), send)
        desk.forget(number)

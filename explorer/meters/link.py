"""The line to a meter, by PyVISA over whatever the address names."""

from __future__ import annotations

from types import TracebackType
from typing import TYPE_CHECKING, Self, cast

from explorer.meters.faults import MeterFault
from explorer.meters.meter import Meter

if TYPE_CHECKING:
    from pyvisa.resources import MessageBasedResource

TIMEOUT_S = 5.0
"""Longest wait for an answer; a slow reading of a bench meter takes some seconds."""
STREAM_TIMEOUTS = 3.0
"""A stream is lost after so many of its intervals without a line."""
OPEN_S = 3.0


class Link:
    """An open line; leaving the context closes it.

    Raises
    ------
    MeterFault
        There is no such meter, or nothing answers there.
    """

    def __init__(self, meter: Meter) -> None:
        self._meter = meter
        try:
            import pyvisa
        except ImportError:
            raise MeterFault("no_library") from None
        try:
            self._manager = pyvisa.ResourceManager()
        except (OSError, ValueError) as error:
            raise MeterFault("no_library", str(error)) from None
        try:
            self._line = self._open()
            self.identity = "" if meter.is_stream else self._greet()
            if meter.is_stream:
                self._read()  # it may have been joined in the middle of a line
        except MeterFault:
            self._manager.close()
            raise

    def _open(self) -> MessageBasedResource:
        meter = self._meter
        quiet_s = max(TIMEOUT_S, STREAM_TIMEOUTS * meter.every_s if meter.is_stream else 0.0)
        try:
            found = self._manager.open_resource(
                meter.address, open_timeout=int(1000 * OPEN_S), read_termination="\n",
                write_termination="\n",
            )  # fmt: skip
            line = cast("MessageBasedResource", found)
            line.timeout = 1000.0 * quiet_s
            if meter.is_serial:
                line.baud_rate = meter.baud  # type: ignore[attr-defined]
        except ValueError as error:  # PyVISA-py names the driver that is missing
            raise MeterFault("no_driver", str(error)) from None
        except Exception as error:  # its backends raise what they like, bare exceptions too
            raise MeterFault("unreachable", str(error)) from None
        return line

    def _greet(self) -> str:
        """What it calls itself (*IDN?, IEEE 488.2, 10.14)."""
        if self._meter.is_serial:
            self._write("SYST:REM")  # a serial line tells no meter that it is remote (SCPI-99)
        return self._ask("*IDN?")

    def read(self) -> str:
        """The next line that it sends, asked for or not."""
        return self._read() if self._meter.is_stream else self._ask(self._meter.query)

    def _ask(self, query: str) -> str:
        self._write(query)
        return self._read()

    def _write(self, text: str) -> None:
        try:
            self._line.write(text)
        except Exception as error:
            raise MeterFault("silent", str(error)) from None

    def _read(self) -> str:
        try:
            return self._line.read().strip()
        except UnicodeDecodeError as error:
            raise MeterFault("garbled", repr(error.object[:20])) from None
        except Exception as error:
            raise MeterFault("silent", str(error)) from None

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._manager.close()

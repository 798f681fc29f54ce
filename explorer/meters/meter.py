"""What a meter is: where it is reached, how it is read, and how often."""

from __future__ import annotations

import re
from dataclasses import dataclass

from explorer.text import say

QUERY = "MEAS:VOLT:DC?"
"""Measures a direct voltage once (SCPI-99, volume 2, MEASure subsystem)."""
RAW_PORT = 5025
"""Port at which instruments take SCPI over a plain socket (IANA: scpi-raw)."""
BAUD = 9600
"""Usual speed of a serial line (common practice, no source)."""
SHORTEST_S, LONGEST_S = 0.05, 86_400.0
_SERIAL = re.compile(r"(COM\d+|/dev/\S+)", re.IGNORECASE)
_HOST = re.compile(r"([A-Za-z0-9](?:[A-Za-z0-9.-]*[A-Za-z0-9])?)(?::(\d{1,5}))?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Meter:
    """A meter that answers a query, or one that sends numbers by itself."""

    address: str
    """VISA resource name."""
    every_s: float = 10.0
    """Time between two readings that are kept. [s]"""
    is_stream: bool = False
    """Whether it sends lines of numbers unasked."""
    query: str = QUERY
    baud: int = BAUD

    @property
    def is_serial(self) -> bool:
        """Whether it is at the end of a serial line."""
        return self.address.upper().startswith("ASRL")


def resource_name(typed: str) -> str:
    """The VISA resource name of what a person typed.

    Parameters
    ----------
    typed : str
        A VISA resource name, which stays as it is; a host with or without a port; or a serial
        line such as ``COM3`` or ``/dev/ttyUSB0``.

    Raises
    ------
    ValueError
        It is none of these; the sentence says what is allowed.

    Examples
    --------
    >>> resource_name("192.0.2.7"), resource_name("COM3")
    ('TCPIP0::192.0.2.7::5025::SOCKET', 'ASRLCOM3::INSTR')
    """
    text = typed.strip()
    if re.fullmatch(r"[A-Za-z]\S*::\S+", text):
        return text
    if _SERIAL.fullmatch(text):
        return f"ASRL{text}::INSTR"
    match = _HOST.fullmatch(text)
    if match is not None and 0 < int(match[2] or RAW_PORT) < 65_536:
        return f"TCPIP0::{match[1]}::{int(match[2] or RAW_PORT)}::SOCKET"
    raise ValueError(
        say(
            "“{found}” is no address of a meter; allowed is a host such as 192.0.2.7 or "
            "192.0.2.7:5025, a serial line such as COM3 or /dev/ttyUSB0, or a VISA resource name "
            "such as USB0::0x1234::0x5678::A1::INSTR.",
            found=text[:60],
        )
    )

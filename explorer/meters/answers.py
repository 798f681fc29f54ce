"""Numbers in what a meter sends."""

from __future__ import annotations

import math
import re

from explorer.meters.faults import MeterFault

OVERLOAD_V = 9e37
"""From here a number is no reading: SCPI writes 9.9E37 for infinity and 9.91E37 for none
(SCPI-99, volume 1, 7.2.1.4 and 7.2.1.5; from memory)."""
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")
_UNIT = re.compile(r"\s*(mV|V|mv|v|lx|lux|LX)?(?![A-Za-z])")


def numbers_of(line: str) -> tuple[float, float | None]:
    """Voltage [V] and, where there is a second number, light [lx].

    Parameters
    ----------
    line : str
        Such as ``+3.30125E+00``, ``3301 mV``, ``3.301;250`` or ``3.301 V, 250 lx``.

    Raises
    ------
    MeterFault
        There is no number, more than two, or a comma that may be a decimal mark.

    Examples
    --------
    >>> numbers_of("+3.30125E+00"), numbers_of("3301 mV; 250 lx")
    ((3.30125, None), (3.301, 250.0))
    """
    text = line.strip()
    if re.search(r"\d,\d", text) and "." not in text:
        raise MeterFault("comma", text)
    cells = [cell for cell in re.split(r"[;,\t]|(?<=[\dVvx])\s+(?=[+-.\d])", text) if cell.strip()]
    values = [_value(cell) for cell in cells]
    if not 1 <= len(values) <= 2 or None in values:
        raise MeterFault("garbled", text)
    volts, lux = values[0], values[1] if len(values) == 2 else None
    assert volts is not None
    return volts, lux


def _value(cell: str) -> float | None:
    text = cell.strip()
    number = _NUMBER.match(text)
    if number is None:
        return None
    unit = _UNIT.fullmatch(text, number.end())
    value = float(number[0])
    if unit is None or not math.isfinite(value):
        return None
    return value / (1000.0 if (unit[1] or "").lower() == "mv" else 1.0)

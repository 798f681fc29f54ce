"""Numbers in what a meter sends."""

from __future__ import annotations

import math
import re

from explorer.meters.faults import MeterFault

OVERLOAD_V = 9e37
"""From here a number is no reading: SCPI writes 9.9E37 for infinity and 9.91E37 for none
(SCPI-99, volume 1, 7.2.1.4 and 7.2.1.5; from memory)."""
_COMMA = re.compile(r"\d,\d")
_THOUSANDS = re.compile(r"(?<![\d.,])\d{1,3},\d{3}\.")
"""1,234.5 may be one number, or one and 234.5."""
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
        There is no number, more than two, units that are not volts and lux, or a comma that may be
        a decimal mark.

    Examples
    --------
    >>> numbers_of("+3.30125E+00"), numbers_of("3301 mV; 250 lx")
    ((3.30125, None), (3.301, 250.0))
    """
    text = line.strip()
    if (_COMMA.search(text) and "." not in text) or _THOUSANDS.search(text):
        raise MeterFault("comma", text)
    cells = [cell for cell in re.split(r"[;,\t]|(?<=[\dVvx])\s+(?=[+-.\d])", text) if cell.strip()]
    found = [_value(cell) for cell in cells]
    values = [one for one in found if one is not None]
    if not 1 <= len(values) == len(found) <= 2:
        raise MeterFault("garbled", text)
    units = [unit for _, unit in values]
    if units == ["lx", "V"]:
        values.reverse()
    elif units[0] == "lx" or units[1:] == ["V"]:
        raise MeterFault("garbled", text)
    return values[0][0], values[1][0] if len(values) == 2 else None


def _value(cell: str) -> tuple[float, str] | None:
    """A number in volts or lux, and which of them where it says so."""
    text = cell.strip()
    number = _NUMBER.match(text)
    if number is None:
        return None
    match = _UNIT.fullmatch(text, number.end())
    value = float(number[0])
    if match is None or not math.isfinite(value):
        return None
    unit = (match[1] or "").lower()
    if unit == "mv":
        return value / 1000.0, "V"
    return value, {"": "", "v": "V"}.get(unit, "lx")

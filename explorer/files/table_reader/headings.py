"""What the heading of a column says: which quantity, in which unit."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from explorer.text import texts

Quantity = Literal["time", "date", "light", "voltage", "current", "power", "temperature"]

FOOT_CANDLE_LX = 1.0 / 0.3048**2
"""One lumen per square foot; the foot is 0.3048 m exactly (international foot of 1959)."""
_PREFIXES = {"n": 1e-9, "µ": 1e-6, "u": 1e-6, "m": 1e-3, "": 1.0, "k": 1e3}
_UNITS: dict[str, tuple[Quantity, float]] = {
    "lx": ("light", 1.0), "lux": ("light", 1.0), "luxes": ("light", 1.0),
    "klx": ("light", 1e3), "klux": ("light", 1e3), "mlx": ("light", 1e-3),
    "fc": ("light", FOOT_CANDLE_LX),
    **{p + "V": ("voltage", f) for p, f in _PREFIXES.items()},
    **{p + "A": ("current", f) for p, f in _PREFIXES.items()},
    **{p + "W": ("power", f) for p, f in _PREFIXES.items()},
    "volt": ("voltage", 1.0), "volts": ("voltage", 1.0), "millivolts": ("voltage", 1e-3),
    "amp": ("current", 1.0), "amps": ("current", 1.0), "ampere": ("current", 1.0),
    "milliamps": ("current", 1e-3), "microamps": ("current", 1e-6),
    "watt": ("power", 1.0), "watts": ("power", 1.0),
    "°C": ("temperature", 1.0), "degC": ("temperature", 1.0), "C": ("temperature", 1.0),
    "ns": ("time", 1e-9), "µs": ("time", 1e-6), "us": ("time", 1e-6), "ms": ("time", 1e-3),
    "s": ("time", 1.0), "sec": ("time", 1.0), "secs": ("time", 1.0), "second": ("time", 1.0),
    "seconds": ("time", 1.0), "min": ("time", 60.0), "mins": ("time", 60.0),
    "minute": ("time", 60.0), "minutes": ("time", 60.0), "h": ("time", 3600.0),
    "hr": ("time", 3600.0), "hrs": ("time", 3600.0), "hour": ("time", 3600.0),
    "hours": ("time", 3600.0), "days": ("time", 86_400.0), "d": ("time", 86_400.0),
}  # fmt: skip
"""Spellings of units, each with its quantity and its size in SI units (kelvins apart)."""
_SMALL = {name.lower(): name for name in reversed(_UNITS)}
"""Spellings in small letters, as many a logger writes them."""
_WORDS: dict[str, Quantity] = {
    **dict.fromkeys(("time", "t", "timestamp", "datetime", "elapsed", "zeit", "uhrzeit",
                     "zeitstempel", "epoch", "unix"), "time"),
    **dict.fromkeys(("date", "datum"), "date"),
    **dict.fromkeys(("light", "illuminance", "illumination", "licht", "beleuchtungsstärke",
                     "helligkeit", "brightness"), "light"),
    **dict.fromkeys(("voltage", "spannung"), "voltage"),
    **dict.fromkeys(("current", "strom"), "current"),
    **dict.fromkeys(("power", "leistung"), "power"),
    **dict.fromkeys(("temperature", "temp", "temperatur"), "temperature"),
}  # fmt: skip
_BRACKETED = re.compile(r"[(\[{<]\s*([^()\[\]{}<>]+?)\s*[)\]}>]")
_LAST_WORD = re.compile(r"^(.*?[^\s_/,])(?:\s+in\s+|[\s_/,]+)([^\s_/,]+)$")
_PARTS = re.compile(r"[\s_/,()\[\]{}<>:;.\-]+")
QUANTITY_NAMES: dict[str, str] = texts({
    "light": "light",
    "voltage": "voltage",
    "current": "current",
    "power": "power",
    "temperature": "temperature",
    "time": "time",
    "date": "date",
})  # fmt: skip
SI_UNITS: dict[Quantity, str] = {
    "light": "lx", "voltage": "V", "current": "A", "power": "W", "temperature": "°C", "time": "s",
    "date": "",
}  # fmt: skip
EXAMPLES: dict[Quantity, str] = {
    "light": "illuminance (lx)",
    "voltage": "voltage (V)",
    "current": "current (mA)",
    "power": "power (mW)",
    "temperature": "temperature (°C)",
    "time": "time",
    "date": "date",
}
"""A heading that is understood."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of a table, by its heading."""

    place: int
    """From the left, the first is 0."""
    heading: str
    """As it stands in the file."""
    quantity: Quantity | None
    """None where the heading names none that is known."""
    unit: str | None
    """As a scenario writes it, such as ``mV``; None where the heading names none."""
    scale: float
    """Size of the unit in lx, V, A, W, °C or s; 1 without a unit."""
    hint: str = ""
    """What stands in brackets and is no unit, in small letters, such as ``mm:ss``."""

    @property
    def words(self) -> tuple[str, ...]:
        """Words of the heading in small letters."""
        return tuple(word for word in _PARTS.split(self.heading.lower()) if word)


def column_of(heading: str, place: int) -> Column:
    """The column that a heading describes.

    Examples
    --------
    >>> [column_of(h, 0).unit for h in ("lux [lx]", "store_mV", "I/µA", "Light (klx)", "mv")]
    ['lx', 'mV', 'µA', 'klx', 'mV']
    >>> column_of("lux_min", 0).quantity is None, column_of("temperature min", 0).unit is None
    (True, True)
    >>> column_of("Light (lx), mean", 0).unit, column_of("Light [desk] (klx)", 0).unit
    ('lx', 'klx')
    >>> column_of("Time (min)", 0).scale, column_of("Date/Time", 0).quantity
    (60.0, 'time')
    """
    heading = heading.strip().strip('"').strip().lstrip("\ufeff")
    name, written, hint = heading, "", ""
    if inside := _BRACKETED.findall(heading):
        name = _BRACKETED.sub(" ", heading).strip()
        written = next((text for text in inside if known_unit(text) is not None), "")
        hint = "" if written else inside[-1].lower()
    elif known_unit(heading) is not None:
        written = heading
    named = [_WORDS[word] for word in _PARTS.split(name.lower()) if word in _WORDS]
    if not written and (match := _LAST_WORD.match(name)) and (last := known_unit(match[2])):
        # "lux_min" is a lowest light and no time: without brackets name and unit must agree.
        fits = not named or _UNITS[last][0] in named
        written = match[2] if fits and known_unit(match[1]) is None else ""
    unit = known_unit(written) if written else None
    if unit is not None:
        quantity: Quantity | None = _UNITS[unit][0]
    elif "time" in named:
        quantity = "time"  # also where a date stands beside it: "Date/Time"
    else:
        quantity = named[0] if named else None
    return Column(
        place=place,
        heading=heading,
        quantity=quantity,
        unit=unit,
        scale=1.0 if unit is None else _UNITS[unit][1],
        hint=hint,
    )


def known_unit(written: str) -> str | None:
    """The unit that is written, in the spelling of the table of units; None for any other text.

    Examples
    --------
    >>> known_unit("MV"), known_unit("μA"), known_unit("seconds"), known_unit("room")
    ('mV', 'µA', 'seconds', None)
    """
    found = written.strip().strip("()[]{}<>").strip().replace("μ", "µ")
    return found if found in _UNITS else _SMALL.get(found.lower())


def scale_of(unit: str) -> tuple[Quantity, float]:
    """Quantity and size in SI units of a unit that `known_unit` gave."""
    return _UNITS[unit]

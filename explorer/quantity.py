"""Numbers with units as a person types and reads them.

Everything inside the program is SI; these two functions are the way in and the way out.
"""

from __future__ import annotations

import math
import re
from decimal import Decimal
from functools import lru_cache

from explorer.text import Text, figure, joined, say

PREFIXES = {
    "p": 1e-12,
    "n": 1e-9,
    "µ": 1e-6,
    "m": 1e-3,
    "": 1.0,
    "k": 1e3,
    "M": 1e6,
    "G": 1e9,
}
"""SI prefixes [BIPM, The International System of Units, 9th edition, table 7]."""
DURATIONS = {"s": 1.0, "min": 60.0, "h": 3600.0, "d": 86_400.0, "week": 604_800.0}
_DURATION_WORDS = {
    "s": "s", "sec": "s", "second": "s", "seconds": "s",
    "min": "min", "minute": "min", "minutes": "min",
    "h": "h", "hr": "h", "hour": "h", "hours": "h",
    "d": "d", "day": "d", "days": "d",
    "week": "week", "weeks": "week", "w": "week",
}  # fmt: skip
_SPELLINGS = {"ohm": "Ω", "ohms": "Ω", "lux": "lx", "degC": "°C", "C": "°C"}
_AREAS = {"mm²": 0.01, "cm²": 1.0, "dm²": 100.0, "m²": 10_000.0}
_SMALLER = {"week": "d", "d": "h", "h": "min", "min": "s"}
"""What a bare number after a longer unit counts: 1h30 is an hour and 30 minutes."""
_WITHOUT_PREFIX = frozenset(
    {"lx", "h", "d", "a", "mAh", "mm", "cm", "kg", "g", "month", "week", "years"}
)
"""Units that a person never reads with a prefix: nobody says millilux or kilo-hours."""
_WORDS = {"1/month": say("1/month")}
"""Units with a word in them, which each language has its own for."""
_LONGEST_IN_SECONDS, _LONGEST_IN_MINUTES, _LONGEST_IN_HOURS = 120.0, 2 * 3600.0, 48 * 3600.0
_NEVER = say("never")
_NUMBER = re.compile(r"([+-]?(?:\d[\d.,]*|[.,]\d+)(?:[eE][+-]?\d+)?)(.*)", re.DOTALL)
_GROUPED = re.compile(r"([+-]?)(\d{1,3})((?:[.,]\d{3})+)(?:([.,])(\d*))?((?:[eE].*)?)")
_TIME_PART = re.compile(r"(\d+(?:[.,]\d+)?) *([a-zA-Z]+|$) *")
_CLOCK = re.compile(r"(\d{1,3}):([0-5]\d)(?: *h)?")


def parse(text: str, unit: str, decimal: str = ".") -> float:
    """Value of a text in a unit without prefix.

    Parameters
    ----------
    text : str
        Number with an optional SI prefix and an optional unit: ``470u``, ``1,5 F``, ``90 min``,
        ``1h30``. Either decimal mark; groups of three digits in either style, with blanks or
        apostrophes.
    unit : str
        Unit of the answer, such as ``"F"``; ``"s"``, ``"min"``, ``"h"``, ``"d"`` and
        ``"week"`` take every duration, ``""`` is a plain number or a percentage.
    decimal : str
        Decimal mark of the language on show. It decides what ``1.300`` is; ``1,300`` is then
        refused, for it may be a thousand or a little more than one.

    Returns
    -------
    float
        Always finite. [unit]

    Raises
    ------
    ValueError
        Not a number, one that can be read in two ways, or a unit that does not fit; the text
        says what is allowed.

    Examples
    --------
    >>> parse("4,7 mF", "F")
    0.0047
    >>> parse("1h30", "s"), parse("2m2", "cm²"), parse("1.300,5 lx", "lx")
    (5400.0, 20000.0, 1300.5)
    """
    cleaned = _clean(text)
    if not cleaned:
        raise ValueError(say("Nothing was entered; {allowed}.", allowed=_allowed(unit)))
    if unit in DURATIONS and (length := _composed(cleaned, unit)) is not None:
        return length
    match = _NUMBER.fullmatch(cleaned)
    if match is None:
        raise ValueError(
            say(
                '"{text}" does not begin with a number; {allowed}.',
                text=_shortened(text),
                allowed=_allowed(unit),
            )
        )
    digits, tail = _one_mark(match.group(1), text, decimal), match.group(2).strip()
    factor = _factor(tail, unit)
    if factor is None:
        raise ValueError(
            say(
                '"{text}" has "{unit}" as its unit; {allowed}.',
                text=_shortened(text),
                unit=_shortened(tail),
                allowed=_allowed(unit),
            )
        )
    value = _product(digits, factor)
    if not math.isfinite(value):
        raise ValueError(say('"{text}" is too large a number.', text=_shortened(text)))
    return value


def show(
    value: float,
    unit: str,
    digits: int = 3,
    *,
    infinite: str = _NEVER,
) -> Text:
    """A value as a person reads it, with its unit.

    Parameters
    ----------
    value : float
        What to show. [unit]
    unit : str
        Unit without prefix; ``"s"`` is shown as s, min, h or d, ``"×"`` follows its number
        without a blank, ``""`` is a count or a share.
    digits : int
        Significant digits.
    infinite : str
        What an infinite value means here, such as ``"never"`` or ``"no limit"``.

    Returns
    -------
    Text
        Such as ``"4.7 mF"``, ``"0.22 F"``, ``"2.6 d"``, ``"1300 lx"`` or ``"1.12×"``; the window
        puts the decimal mark of its language.

    Examples
    --------
    >>> show(0.0047, "F"), show(0.22, "F"), show(224_640, "s"), show(1300, "lx")
    ('4.7 mF', '0.22 F', '2.6 d', '1300 lx')
    """
    if math.isnan(value):
        return say("unknown")
    if math.isinf(value):
        return say(infinite)
    number, shown_unit = _split(value, unit, digits)
    text = number.replace("-", "−")
    if not shown_unit:
        return figure(text)
    if shown_unit in _WORDS:
        return joined(" ", (figure(text), unit_text(shown_unit)))
    return figure(f"{text}{'' if shown_unit in ('×', '%') else ' '}{shown_unit}")


def unit_text(unit: str) -> str:
    """A unit as a person reads it; a `Text` where there is a word in it."""
    return _WORDS.get(unit, unit)


@lru_cache(maxsize=4096)
def _split(value: float, unit: str, digits: int) -> tuple[str, str]:
    """Number and unit as shown."""
    if unit == "" and value == round(value) and abs(value) < 1e9:
        return str(round(value)), unit  # a count keeps all its digits
    if unit == "s" and abs(value) >= _LONGEST_IN_SECONDS:
        longer = "min" if abs(value) < _LONGEST_IN_MINUTES else "h"
        longer = longer if abs(value) < _LONGEST_IN_HOURS else "d"
        return _plain(value / DURATIONS[longer], digits), longer
    if value == 0.0 or not _takes_prefix(unit):
        return _plain(value, digits), unit
    # Rounded before the prefix is chosen, so that 999.9 nA is shown as 1 µA.
    rounded = abs(float(f"{value:.{digits - 1}e}"))
    # From a tenth up the bare unit reads best: 0.22 F, not 220 mF.
    usable = [p for p, size in PREFIXES.items() if rounded >= (size if p else 0.1)]
    prefix = usable[-1] if usable else "p"
    return _plain(value / PREFIXES[prefix], digits), prefix + unit


def _takes_prefix(unit: str) -> bool:
    return unit.isalpha() and unit not in _WITHOUT_PREFIX


def _plain(value: float, digits: int) -> str:
    """Number to some significant digits, never in powers of ten where a person can count."""
    if value == 0.0:
        return "0"
    rounded = float(f"{value:.{digits - 1}e}")
    exponent = math.floor(math.log10(abs(rounded)))
    if not -5 <= exponent < 9:
        mantissa, _, power = f"{rounded:.{digits - 1}e}".partition("e")
        return f"{_trim(mantissa)}e{int(power)}"
    return _trim(f"{rounded:.{max(0, digits - 1 - exponent)}f}")


def _trim(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text


def _clean(text: str) -> str:
    """One spelling for signs and blanks; blanks between groups of three digits go."""
    cleaned = text.strip()
    for odd, plain in (("−", "-"), ("–", "-"), ("μ", "µ"), ("\u2126", "Ω")):
        cleaned = cleaned.replace(odd, plain)
    cleaned = re.sub(r"\s", " ", cleaned)
    cleaned = re.sub(r"(?<=\d)[ '’](?=\d{3}(?!\d))", "", cleaned)
    return re.sub(r"^([+-]) +", r"\1", cleaned)


def _one_mark(number: str, text: str, decimal: str) -> str:
    """The number with a point as its only mark."""
    marks = [c for c in number if c in ".,"]
    if len(marks) <= 1:
        match = _GROUPED.fullmatch(number)
        if match and match.group(2) != "0" and marks[0] != decimal:
            joined = "".join(match.group(1, 2)) + match.group(3)[1:]
            raise ValueError(
                say(
                    '"{text}" can be read in two ways; write {joined} or {split}.',
                    text=_shortened(text),
                    joined=joined,
                    split=figure(number.replace(",", ".")),
                )
            )
        return number.replace(",", ".")
    match = _GROUPED.fullmatch(number)
    groups = set(re.sub(r"\d", "", match.group(3))) if match else set()
    if match is None or len(groups) != 1 or match.group(4) in groups:
        raise ValueError(
            say(
                '"{text}" has its marks where no number has them; write it with one decimal '
                "mark, such as 1300.5.",
                text=_shortened(text),
            )
        )
    sign, first, rest, mark, fraction, power = match.groups()
    whole = sign + first + re.sub(r"[.,]", "", rest)
    return f"{whole}{'.' + fraction if mark else ''}{power}"


def _composed(cleaned: str, unit: str) -> float | None:
    """A duration of several parts, such as 1h30, or a time of day; None where it is neither."""
    if unit == "h" and (clock := _CLOCK.fullmatch(cleaned)):
        return int(clock.group(1)) + int(clock.group(2)) / 60.0
    if ":" in cleaned:
        raise ValueError(
            say(
                '"{text}" can be read in two ways; write it with units, such as 1h30 or 1min30.',
                text=_shortened(cleaned),
            )
        )
    parts, at = [], 0
    while at < len(cleaned) and (part := _TIME_PART.match(cleaned, at)):
        parts.append(part.groups())
        at = part.end()
    if at < len(cleaned) or len(parts) < 2:
        return None
    seconds, before = 0.0, ""
    for number, word in parts:
        known = _DURATION_WORDS.get(word.lower())
        if before == "h" and word == "m":
            known = "min"
        if not word and before in _SMALLER:
            known = _SMALLER[before]
        if known is None or (before and DURATIONS[known] >= DURATIONS[before]):
            return None
        seconds += float(number.replace(",", ".")) * DURATIONS[known]
        before = known
    return seconds / DURATIONS[unit]


def _factor(tail: str, unit: str) -> float | None:
    """What to multiply the number by; None where the tail does not fit the unit."""
    if unit == "mAh" and tail not in ("", "mAh"):
        size = _factor(tail, "Ah")
        return None if size is None else 1000.0 * size
    if tail in ("", unit) or _SPELLINGS.get(tail) == unit:
        return 1.0
    if unit in _AREAS and re.sub(r"\^?2$", "²", tail) in _AREAS:
        return _AREAS[re.sub(r"\^?2$", "²", tail)] / _AREAS[unit]
    if unit in DURATIONS and (word := _DURATION_WORDS.get(tail.lower())) is not None:
        return DURATIONS[word] / DURATIONS[unit]
    if (tail, unit) in (("x", "×"), ("X", "×")):
        return 1.0
    if (tail, unit) == ("%", ""):
        return 0.01
    prefix = "µ" if tail[0] == "u" else tail[0]
    if prefix not in PREFIXES or not (_takes_prefix(unit) or unit == "lx"):
        return None
    rest = tail[1:].strip()
    # A bare m after a duration could mean minutes as well as milliseconds: ask instead.
    bare = rest == "" and unit not in DURATIONS
    return PREFIXES[prefix] if bare or rest == unit or _SPELLINGS.get(rest) == unit else None


def _product(digits: str, factor: float) -> float:
    """Rounded once, so that 470 µ is the same number as 470e-6; infinite where too large."""
    try:
        return float(Decimal(digits) * Decimal(str(factor)))
    except ArithmeticError:
        return math.inf


def _allowed(unit: str) -> Text:
    """What may be typed, as the second half of a sentence."""
    if unit in DURATIONS:
        return say("allowed is a number with ms, s, min, h, d or week, such as 90 min")
    if unit == "":
        return say("allowed is a plain number, such as 3 or 0.5")
    if _takes_prefix(unit):
        return say(
            "allowed is a number in {unit}, also with p n µ m k M G, such as 4.7 m{unit}", unit=unit
        )
    return say("allowed is a number in {unit}, such as 12.5 {unit}", unit=unit_text(unit))


def _shortened(text: str) -> str:
    return text.strip()[:40]

"""Checks, margins and answers as figures that a person reads, wherever they are shown."""

from __future__ import annotations

import math
import re

from explorer.advice.checks import SHARE
from explorer.advice.verdict import Check, State
from explorer.quantity import show
from explorer.text import Text, altered, figure, say, texts

_NUMBER_AND_UNIT = re.compile(
    r"(?<=\d) (?=(?:[pnµmkMG]?[AVWFJΩ]|lx|s|ms|min|h|d|mAh|°C|%|1/\w+)(?!\w))"
)
STATE_WORDS: dict[State, str] = texts({
    "runs": "passes",
    "marginal": "passes, below required margin",
    "falls_short": "fails",
})  # fmt: skip
_SECONDS = {"s": 1.0, "min": 60.0, "h": 3600.0, "d": 86_400.0, "days": 86_400.0}


def margin_text(margin: float) -> str:
    """A margin as a multiple.

    Examples
    --------
    >>> margin_text(1.123), margin_text(12.3), margin_text(0.04), margin_text(float("inf"))
    ('1.12×', '12×', '0.04×', '> 99×')
    """
    if math.isnan(margin):
        return "–"
    if margin >= 99:  # what is known to be more is capped there
        return figure("> 99×")
    if margin >= 10:
        return figure(f"{margin:.0f}×")
    # Truncated, not rounded: 0.999 must not read as a pass.
    return figure(f"{math.floor(margin * 100 + 1e-9) / 100:.2f}×")


def value_text(check: Check) -> str:
    """What a check reached, in its own unit; words where there is no number."""
    if math.isinf(check.value):
        if check.name == "starts":
            return say("never")
        return say("no end") if check.value > 0 else say("none")
    text = check_quantity(check, check.value)
    return say("more than {value}", value=text) if check.at_least else text


def value_brief(check: Check) -> str:
    """The same where room is short: a sign in the place of the words."""
    if not check.at_least or math.isinf(check.value):
        return value_text(check)
    return more_than_text(check_quantity(check, check.value))


def check_quantity(check: Check, value: float) -> str:
    """A value or a limit of a check in its unit; Service without a unit is a share."""
    if check.name != "service":
        return quantity_text(value, check.unit)
    return amount_text(value, "share" if check.unit == SHARE else check.unit)


def amount_text(value: float, unit: str) -> str:
    """An amount that is asked or reached: runs of a charge, or of an hour, are said to be so.

    Examples
    --------
    >>> amount_text(9.0, "1"), amount_text(3.52, "1/h"), amount_text(0.99, "share")
    ('9 per charge', '3.52 per hour', '99 %')
    """
    if math.isinf(value):
        return quantity_text(value, unit)
    if unit == "1":
        return say("{n} per charge", n=show(value, ""))
    if unit == "1/h":
        return say("{n} per hour", n=show(value, ""))
    return quantity_text(value, unit)


def check_margin_text(check: Check) -> str:
    """The margin of a check; more than that where the search ended there."""
    text = margin_text(check.margin)
    return more_than_text(text) if check.at_least else text


def more_than_text(text: str) -> Text:
    """A value that is known to be passed, by a sign."""
    return altered(text, _more_than)


def _more_than(words: str) -> str:
    return f"> {words}"


def quantity_text(value: float, unit: str) -> str:
    """A number with its unit as a person says it: times as durations, shares in percent.

    Examples
    --------
    >>> quantity_text(7800.0, "s"), quantity_text(0.5, "share")
    ('2.17 h', '50 %')
    """
    if math.isinf(value):
        return say("never") if value > 0 else say("none")
    if unit in _SECONDS:
        return show(value * _SECONDS[unit], "s")
    if unit in ("share", "%"):
        percent = value * 100 if unit == "share" else value
        return figure(f"{math.floor(percent * 10 + 1e-9) / 10:g} %")
    if unit in ("", "1", "×"):
        return show(value, "")
    return show(value, unit)


def bind_units(sentence: str) -> str:
    r"""Keep each number on one line with its unit.

    Examples
    --------
    >>> bind_units("lasts 36 h in the dark") == "lasts 36\u00a0h in the dark"
    True
    >>> bind_units("80 % of 5 V (9 %).") == "80\u00a0% of 5\u00a0V (9\u00a0%)."
    True
    """
    return altered(sentence, _bound)


def _bound(words: str) -> str:
    return _NUMBER_AND_UNIT.sub("\u00a0", words)


def volts(value: float) -> str:
    """A voltage with two decimals, as everywhere on the trace.

    Examples
    --------
    >>> volts(3.0)
    '3.00 V'
    """
    return figure(f"{value:.2f} V")


def small_volts(value: float) -> str:
    """A voltage difference in mV below a tenth of a volt, in µV below a tenth of a millivolt.

    Examples
    --------
    >>> small_volts(0.012), small_volts(0.42), small_volts(2.83e-6)
    ('12 mV', '0.42 V', '2.83 µV')
    """
    if 0 < abs(value) < 1e-4:
        return figure(f"{value * 1e6:.3g} µV")
    return figure(f"{value * 1e3:.3g} mV" if abs(value) < 0.1 else f"{value:.2f} V")


def percent(share: float) -> str:
    """A share that never rounds up to all or down to none.

    Examples
    --------
    >>> percent(0.9996), percent(1.0), percent(0.2793), percent(0.0004), percent(0.004)
    ('> 99.9 %', '100 %', '28 %', '< 0.1 %', '0.4 %')
    """
    if share in (0.0, 1.0):
        return figure(f"{100 * share:.0f} %")
    value = 100 * share
    if not 0.1 <= value <= 99.9:
        return figure("< 0.1 %" if value < 0.1 else "> 99.9 %")
    if value < 1 or value > 99:
        return figure(f"{math.floor(value * 10 + 1e-9) / 10:g} %")
    return figure(f"{value:.0f} %")


def percent_range(low: float, high: float) -> str:
    """A share of which some is not decided, as a range where that shows.

    Examples
    --------
    >>> percent_range(0.62, 0.66), percent_range(0.621, 0.624), percent_range(0.769, 0.9995)
    ('62–66 %', '62 %', '76–100 %')
    """
    if percent(low) == percent(high):
        return percent(low)
    # Whole per cents, rounded so that the range holds what it stands for.
    first, last = math.floor(100.0 * low + 1e-9), math.ceil(100.0 * high - 1e-9)
    return figure(f"{first}–{last} %")


def lower_first(text: str) -> str:
    """A label inside a sentence; short forms in capitals stay, as do words of other languages.

    Examples
    --------
    >>> lower_first("Full voltage"), lower_first("ESR in the cold")
    ('full voltage', 'ESR in the cold')
    """
    small = text if text[:2].isupper() else text[:1].lower() + text[1:]
    return altered(text, lambda words: small if words == text else words)

"""What a person reads for each answer: its name, its value, and what it assumes."""

from __future__ import annotations

import math

from explorer.advice.reach import Reach
from explorer.quantity import show
from explorer.text import say, texts
from explorer.words.figures import margin_text, quantity_text

LABELS: dict[str, str] = texts({
    "first_charge_s": "Empty to first operation",
    "full_charge_s": "Empty to full",
    "dark_time_s": "From full in the dark",
    "operations_per_charge": "Operations per charge",
    "recovery_s": "Recovery from flat",
    "longest_dark_s": "Longest dark stretch",
    "lowest_store_V": "Lowest store voltage",
    "highest_store_V": "Highest store voltage",
    "lowest_terminal_V": "Lowest terminal voltage",
    "served_share": "Operations served",
    "balance_ratio": "Charge in over out",
    "cut_offs_per_week": "Cut-offs a week",
    "least_light_for_balance_lx": "Least light for the balance",
    "most_operations_per_day": "Most operations a day",
    "longest_closure_days": "Longest closure survived",
})  # fmt: skip
ASSUMED: dict[str, str] = texts({
    "first_charge_s": "An empty store; counted from the first light to the first operation.",
    "full_charge_s": "An empty store and no load; counted from the first light.",
    "dark_time_s": "A full store, no light; until the device is cut off.",
    "operations_per_charge": "All kinds together, from a full store without light.",
    "recovery_s": "From the cut-off to the next operation, counted from when the light comes on.",
    "longest_dark_s": "Light weaker than the mean draw, or the declared closure if longer.",
    "lowest_store_V": "Open-circuit voltage in the repeating course.",
    "highest_store_V": "Open-circuit voltage in the repeating course.",
    "lowest_terminal_V": "In a pulse, in the repeating course.",
    "served_share": "Of those wanted, the operation that fares worst, in the repeating course.",
    "balance_ratio": "Charge that the light brings over charge that all takes, at connect voltage.",
    "cut_offs_per_week": "In the repeating course.",
    "least_light_for_balance_lx": "While lit; Balance is just 1: energy alone, all else as it is.",
    "most_operations_per_day": (
        "Of the first operation at an interval; Service and Balance just pass."
    ),
    "longest_closure_days": "Dark just passes, all else as it is.",
})  # fmt: skip
"""What stands behind each number; times count from the first light."""


def value_of(key: str, value: float) -> str:
    """An answer in the unit that its key ends in, or a word where there is no number.

    Examples
    --------
    >>> value_of("dark_time_s", float("inf")), value_of("served_share", 0.5)
    ('no limit', '50 %')
    """
    if key == "served_share":
        return quantity_text(value, "share")
    if key == "balance_ratio":
        return say("no limit") if math.isinf(value) else margin_text(value)
    if key in ("operations_per_charge", "dark_time_s", "lowest_terminal_V"):
        unit = key.rpartition("_")[2] if key[-2] == "_" else ""
        return show(value, unit, infinite=say("no limit"))
    if key == "longest_dark_s" and value == 0.0:
        return say("none")
    if isinstance(value, Reach):
        return _reach_text(key, value)
    unit = key.rpartition("_")[2]
    return show(value, unit if unit in ("s", "V", "lx") else "")


def _reach_text(key: str, value: Reach) -> str:
    """An edge, or what the search knows where it ended at its bound."""
    if key == "longest_closure_days":
        text = show(value * 86_400.0, "s")
    else:
        text = show(value, "lx" if key.endswith("_lx") else "")
    if value.bound == "more than":
        return say("more than {value}", value=text)
    if value.bound == "less than":
        return say("less than {value}", value=text)
    if value.bound == "none" and key == "least_light_for_balance_lx":
        return say("none up to {value}", value=text)
    if value.bound == "none" and key == "most_operations_per_day":
        return say("not even {value}", value=text)
    return say("none") if value.bound == "none" else text

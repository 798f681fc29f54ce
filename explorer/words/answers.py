"""What a person reads for each answer: its name, its value, and what it assumes."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from explorer.quantity import show
from explorer.text import figure, joined, say, texts
from explorer.words.figures import margin_text, quantity_text

if TYPE_CHECKING:
    from explorer.advice.reach import Reach

LABELS: dict[str, str] = texts({
    "first_connect_s": "Empty to connected",
    "first_charge_s": "Empty to ready",
    "first_operation_s": "Empty to first operation done",
    "full_charge_s": "Empty to full, device off",
    "dark_time_s": "Autonomy from full",
    "operations_per_charge": "Operations per charge",
    "recovery_s": "Recovery after a cut-off",
    "longest_dark_s": "Longest dark stretch",
    "lowest_store_V": "Lowest store voltage",
    "highest_store_V": "Highest store voltage",
    "lowest_terminal_V": "Lowest terminal voltage",
    "served_share": "Operations completed",
    "balance_ratio": "Power in over power taken",
    "cut_offs_per_week": "Cut-offs per week",
    "least_light_for_balance_lx": "Least light for the balance",
    "most_operations_per_day": "Most operations per day",
    "longest_closure_days": "Longest closure survived",
    "filled_s": "Empty to filled in the light asked",
    "reached_per_hour": "Operations per hour in the light asked",
    "store_years": "Store worn out after",
    "indicated_s": "Empty to indicator, device off",
    "run_length_s": "Length of a run",
    "run_period_s": "From one run to the next",
    "runs_per_hour": "Runs per hour",
    "run_duty": "Time at work",
    "run_energy_J": "Energy of a run",
})  # fmt: skip
ASSUMED: dict[str, str] = texts({
    "first_connect_s": "An empty store; counted from the first light to the first connect.",
    "first_charge_s": "An empty store; counted from the first light to the end of the start-up.",
    "first_operation_s": "An empty store; from the first light to the end of one operation.",
    "full_charge_s": "An empty store, the device held off; counted from the first light.",
    "dark_time_s": "A full store, no light; until the cut-off, the reserve kept.",
    "operations_per_charge": "All kinds together, from a full store in the dark, the reserve kept.",
    "recovery_s": (
        "From the cut-off voltage to ready again, from when the light comes on; of a year in its "
        "darkest month."
    ),
    "longest_dark_s": "Light that brings nothing to the store; a declared closure does not count.",
    "lowest_store_V": "Open-circuit voltage in the steady cycle.",
    "highest_store_V": "Open-circuit voltage in the steady cycle.",
    "lowest_terminal_V": "In the steady cycle, on or off; the Pulse check is without light.",
    "served_share": "Of those wanted, the operation that fares worst, in the steady cycle.",
    "balance_ratio": "With the store held at the voltage that suits the balance best.",
    "cut_offs_per_week": "In the steady cycle, by the time that was followed.",
    "least_light_for_balance_lx": "While lit; Balance is just 1: energy alone, all else as it is.",
    "most_operations_per_day": (
        "Of the first operation at an interval; Service and Balance just pass."
    ),
    "longest_closure_days": "Dark just passes; it begins like the evening with the least charge.",
    "filled_s": "An empty store, the device held off, in steady light: what is asked of it.",
    "reached_per_hour": "All kinds together, while due, in steady light: what is asked of it.",
    "indicated_s": "An empty store, the device held off; until the indicator says it is charged.",
    "store_years": "From new, until it counts as worn out: what is asked of it.",
    "run_length_s": "From the end of the start-up to the cut-off, the run of middle length.",
    "run_period_s": "From one beginning to the next in the steady cycle, the middle one.",
    "runs_per_hour": "Of at least the length that counts, over the whole steady cycle.",
    "run_duty": "Share of the steady cycle in which the device is connected.",
    "run_energy_J": "What the load takes in the run of middle length.",
})  # fmt: skip
"""What stands behind each number; times count from the first light."""

SHORT: dict[str, str] = texts({
    "first_connect_s": "Connected",
    "first_charge_s": "Ready",
    "first_operation_s": "First operation",
    "full_charge_s": "Full, device off",
    "dark_time_s": "From full",
    "operations_per_charge": "Operations",
    "recovery_s": "After a cut-off",
    "longest_dark_s": "Dark stretch",
    "lowest_store_V": "Lowest store",
    "highest_store_V": "Highest store",
    "lowest_terminal_V": "Lowest terminals",
    "served_share": "Completed",
    "balance_ratio": "Balance",
    "cut_offs_per_week": "Cut-offs per week",
    "least_light_for_balance_lx": "Least light",
    "most_operations_per_day": "Most per day",
    "longest_closure_days": "Closure",
    "filled_s": "Full as asked",
    "reached_per_hour": "Per hour as asked",
    "store_years": "Store lasts",
    "indicated_s": "To the indicator",
    "run_length_s": "Run",
    "run_period_s": "Run to run",
    "runs_per_hour": "Runs per hour",
    "run_duty": "At work",
    "run_energy_J": "Energy of a run",
})  # fmt: skip
"""Below the heading of their group, where there is little room."""
GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (say("Starting from empty"), (
        "filled_s", "indicated_s", "first_operation_s", "full_charge_s", "recovery_s",
        "first_charge_s", "first_connect_s",
    )),
    (say("In the dark"), (
        "dark_time_s", "longest_dark_s", "operations_per_charge", "longest_closure_days",
    )),
    (say("Once settled"), (
        "run_period_s", "run_length_s", "run_energy_J", "runs_per_hour", "run_duty",
        "reached_per_hour", "store_years", "lowest_store_V", "most_operations_per_day",
        "least_light_for_balance_lx",
        "served_share", "balance_ratio",
    )),
)  # fmt: skip
"""The answers by what they are about; in each group those come first that decide most often."""
SHOWN = tuple(key for _, keys in GROUPS for key in keys)
"""All that have a place in a group."""
OF_CHECK: dict[str, str] = {
    "starts": "first_charge_s",
    "balance": "balance_ratio",
    "dark": "dark_time_s",
    "pulse": "lowest_terminal_V",
    "ratings": "highest_store_V",
    "service": "served_share",
}
"""The answer that stands behind each check."""
OF_AMOUNT: dict[str, str] = {
    "operations_per_charge": "operations_per_charge", "operations_per_hour": "reached_per_hour",
    "fill_within_h": "filled_s", "dark_days": "dark_time_s", "store_years": "store_years",
}  # fmt: skip
"""The answer that tells what is reached of each amount that is asked."""


_BELOW_NONE = {"least_light_for_balance_lx": False, "most_operations_per_day": True}
"""Where the search found no edge: whether it would lie below its last value."""


def value_of(key: str, value: float) -> str:
    """An answer in the unit that its key ends in, or a word where there is no number.

    Examples
    --------
    >>> value_of("dark_time_s", float("inf")), value_of("served_share", 0.5)
    ('no limit', '50 %')
    """
    from explorer.advice.reach import Reach

    if key == "served_share":
        return quantity_text(value, "share")
    if key == "balance_ratio":
        return say("no limit") if math.isinf(value) else margin_text(value)
    if key in ("operations_per_charge", "dark_time_s", "lowest_terminal_V"):
        unit = key.rpartition("_")[2] if key[-2] == "_" else ""
        return show(value, unit, infinite=say("no limit"))
    if key == "longest_dark_s":
        return show(value, "s", infinite=say("no end")) if value else say("none")
    if isinstance(value, Reach):
        return _reach_text(key, value)
    if key == "run_duty":
        return quantity_text(value, "share")
    if key == "run_energy_J":
        return show(value, "J", infinite=say("no end"))
    if key in ("run_length_s", "run_period_s"):
        return show(value, "s", infinite=say("no end")) if value else say("none")
    if key == "store_years":
        return show(value, "a")
    unit = key.rpartition("_")[2]
    return show(value, unit if unit in ("s", "V", "lx") else "")


def brief_of(key: str, value: float) -> str:
    """The same where room is short: a sign in the place of the words before a bound."""
    from explorer.advice.reach import Reach

    if key == "longest_dark_s" and math.isinf(value):
        return figure("\N{INFINITY}")
    if not isinstance(value, Reach) or not value.bound or (
        value.bound == "none" and key not in _BELOW_NONE
    ):
        return value_of(key, value)
    is_below = _BELOW_NONE[key] if value.bound == "none" else value.bound == "less than"
    sign = "<" if is_below else ">"
    # The unit stays the one that stands beside the whole text.
    bright = key.endswith("_lx") and value == 100_000.0
    short = "10\N{SUPERSCRIPT FIVE} lx" if bright else _edge_text(key, value)
    return joined("", (f"{sign}\N{NO-BREAK SPACE}", short))


def _edge_text(key: str, value: Reach) -> str:
    """The number of an edge."""
    if key == "longest_closure_days":
        return show(value * 86_400.0, "s")
    return show(value, "lx" if key.endswith("_lx") else "")


def _reach_text(key: str, value: Reach) -> str:
    """An edge, or what the search knows where it ended at its bound."""
    text = _edge_text(key, value)
    if value.bound == "more than":
        return say("more than {value}", value=text)
    if value.bound == "less than":
        return say("less than {value}", value=text)
    if value.bound == "none" and key == "least_light_for_balance_lx":
        return say("none up to {value}", value=text)
    if value.bound == "none" and key == "most_operations_per_day":
        return say("not even {value}", value=text)
    return say("none") if value.bound == "none" else text

"""Numbers that answer the usual questions, each with its unit in the key."""

from __future__ import annotations

from math import isfinite

from explorer.advice.case import Case, kept
from explorer.advice.checks import served_shares
from explorer.advice.readings.one import full_charge_time, one_charge, recovery_time, study


@kept
def answers(case: Case) -> dict[str, float]:
    """Answers of a case; infinite means never, or without end.

    Keys end in their unit. ``first_charge_s`` counts from the first light on an empty store to
    the first operation; ``full_charge_s`` to full without a load; ``dark_time_s`` from a full
    store without light to the cut-off; ``recovery_s`` from the cut-off to the next operation
    once the light comes on; store and terminal minima are of the repeating course.
    """
    found = study(case)
    dark = one_charge(found.engine)
    shares = served_shares(found)
    held = dark.tally.cut_offs > 0
    return {
        "first_charge_s": found.first.seconds,
        "full_charge_s": full_charge_time(found.engine),
        "dark_time_s": dark.span_s if held else float("inf"),
        "operations_per_charge": sum(dark.tally.served) if held else float("inf"),
        "recovery_s": recovery_time(found.engine),
        "lowest_store_V": found.extremes.lowest_store_v,
        "highest_store_V": found.extremes.highest_store_v,
        "lowest_terminal_V": found.extremes.lowest_terminal_v,
        "served_share": min(shares, default=1.0),
        "balance_ratio": found.available_c / found.needed_c if found.needed_c > 0 else float("inf"),
        "cut_offs_per_week": found.course.run.tally.cut_offs / found.course.run.span_s * 604_800.0,
        "longest_dark_s": max((d.needed_s for d in found.dark), default=0.0),
    }


def finite(value: float) -> float | None:
    """A number for files that know no infinity: None stands for never or without end."""
    return value if isfinite(value) else None

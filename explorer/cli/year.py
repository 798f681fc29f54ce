"""What `check --json` says of a year of daylight."""

from __future__ import annotations

from typing import Any

from explorer.advice.answers import finite
from explorer.advice.case import Case
from explorer.advice.verdict import CHECK_NAMES
from explorer.advice.year.view import TOLD_YEARS, YearView, year_view
from explorer.words.year import dark_sentence, year_answer


def year_section(case: Case) -> dict[str, Any] | None:
    """The months of a year and what they come to; None where the light is no year."""
    if case.year is None:
        return None
    view = year_view(case)
    dark = view.longest_dark
    return {
        "sentences": [year_answer(view), dark_sentence(view), *view.notes],
        "hung_up": view.hung_up.isoformat(timespec="minutes"),
        "settled": view.settled,
        "days_off": view.off_days,
        "works_from_day": view.working[0],
        "works_to_day": view.working[1],
        "longest_dark": None if dark is None else {
            "from": dark[0].isoformat(timespec="minutes"),
            "to": dark[1].isoformat(timespec="minutes"),
        },
        "worst_month": {name: view.months[view.worst[name]].begin.month for name in CHECK_NAMES},
        "months": [
            {
                "month": month.begin.month,
                "temperature_C": month.temperature_c,
                "served_share": month.served_share,
                "connected_share": month.connected_share,
                "ready_s": finite(month.ready_s),
                "longest_dark_s": finite(month.longest_dark_s),
                "lowest_store_V": month.lowest_v,
                "taken_in_J": month.taken_in_j,
                "thrown_away_J": month.thrown_away_j,
                "used_J": month.used_j,
                "leaked_J": month.leaked_j,
                "margins": {name: finite(value) for name, value in month.margins.items()},
            }
            for month in view.months
        ],
        "life": _life(view),
    }


def _life(view: YearView) -> dict[str, Any]:
    found, worn = view.life, view.worn
    return {
        "full_cycles_per_year": found.cycles_per_year,
        "mean_C": found.mean_c,
        "warmest_C": found.warmest_c,
        "near_full_share": found.near_full_share,
        "years_to_end_of_life": found.years_to_end,
        f"size_share_after_{TOLD_YEARS:g}_years": worn.size_share,
        f"resistance_ratio_after_{TOLD_YEARS:g}_years": worn.resistance_ratio,
    }


__all__ = ["year_section"]

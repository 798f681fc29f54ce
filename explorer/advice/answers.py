"""Numbers that answer the usual questions, each with its unit in the key."""

from __future__ import annotations

from math import inf, isfinite

import numpy as np

from explorer.advice.case import Case, kept
from explorer.advice.checks import asked_of, shares
from explorer.advice.readings.indicator import indicated
from explorer.advice.readings.one import readings, study
from explorer.advice.readings.required import one_charge_of, reached
from explorer.advice.readings.runs import give_out_answers
from explorer.advice.readings.starts import (
    first_operation_time,
    full_charge_time,
    recovery_time,
)
from explorer.advice.year.answers import year_answers
from explorer.advice.year.study import year_study
from explorer.engine.system import WEEK_S
from explorer.text import Text, say

FROM_FULL = say(
    "From empty the device never starts. What is said of its course holds for a beginning with a "
    "full store."
)
"""Stands beside answers where `begins_full` is true."""


@kept
def answers(case: Case) -> dict[str, float]:
    """Answers of a case; infinite means never, or without end.

    Keys end in their unit. ``first_connect_s``, ``first_charge_s`` and ``first_operation_s`` count
    from the first light on an empty store to the first connect, to the end of the first start-up
    and to the end of the first operation; ``full_charge_s`` to full with the device off;
    ``dark_time_s`` from a full store without light to the cut-off, the reserve kept;
    ``recovery_s`` from the cut-off voltage, once the light comes on, to the end of a start-up;
    store and terminal minima are of the repeating course. Of a year there are more, see
    `explorer.advice.year.answers`.
    """
    if case.year is not None:
        return year_answers(case)
    found, read = study(case), readings(case)
    served = shares(read, asked_of(case.scenario, 1))[:, :-1]
    brought_w, taken_w = float(read.brought_w[0]), float(read.taken_w[0])
    dark_s, runs = one_charge_of(case)
    return {
        "first_connect_s": found.first.connect_s,
        "first_charge_s": found.first.seconds,
        "first_operation_s": first_operation_time(
            found.engine, found.first, found.course.run
        ),
        "full_charge_s": full_charge_time(found.engine),
        "dark_time_s": dark_s,
        "operations_per_charge": runs,
        "recovery_s": recovery_time(found.engine),
        "lowest_store_V": found.extremes.lowest_store_v,
        "highest_store_V": found.extremes.highest_store_v,
        "lowest_terminal_V": found.extremes.lowest_ever_v,
        "served_share": float(np.min(served, initial=1.0 if found.starts else 0.0)),
        "balance_ratio": brought_w / taken_w if taken_w > 0 else inf,
        "cut_offs_per_week": float(read.cut_offs[0] / read.span_s[0]) * WEEK_S,
        "longest_dark_s": max((g.length_s for g in found.gaps), default=0.0),
        **indicated(case),
        **reached(case),
        **give_out_answers(found.engine, [(found.course.run, found.repeating)]),
    }


def begins_full(case: Case) -> bool:
    """Whether the answers about the course hold for a beginning with a full store."""
    return not (study(case) if case.year is None else year_study(case)).starts


def held_for(case: Case) -> Text | None:
    """What to say beside the answers about the course, if anything."""
    return FROM_FULL if begins_full(case) else None


def finite(value: float) -> float | None:
    """A number for files that know no infinity: None stands for never or without end."""
    return value if isfinite(value) else None

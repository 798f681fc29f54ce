"""Rows of a sweep: verdict, margins and answers of variants, by the batch engine or by the march.

The batch engine judges many variants at once. What it is not sure of, and what lies within its
tolerance of a limit, the exact march judges.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import product

import numpy as np
from pydantic import ValidationError

from explorer.advice.answers import answers
from explorer.advice.case import Case, judging
from explorer.advice.criteria import RUNS, WORKS
from explorer.advice.fleet import STATES, fleet
from explorer.advice.judge import judge
from explorer.advice.readings import Required
from explorer.advice.readings.required import COLUMN_OF, KEYS, asked_keys, required
from explorer.advice.verdict import CHECK_NAMES
from explorer.files.sweep_plan import Column, Sweep, Value
from explorer.physics.arrays import FloatArray
from explorer.scenario.model import Scenario, size_path, with_values
from explorer.words.refusal import fault_text

Row = list[str]
ANSWER_NAMES = (
    "first_charge_s", "full_charge_s", "dark_time_s", "operations_per_charge", "recovery_s",
    "lowest_store_V", "highest_store_V", "lowest_terminal_V", "served_share", "balance_ratio",
    "cut_offs_per_week", "longest_dark_s",
)
"""Answers that a sweep writes, in the order of its columns; infinite ones as ``inf``."""
HOURS = ("from_h", "to_h")
"""Keys whose values set when something happens: variants of one batch share them."""
FEWEST = 8
"""Variants for which a batch is worth its tables."""
TABLES = ("data_sheet", "efficiency_table", "measured")
"""Lists whose rules say more than that one number lies above another."""
MOST_CORNERED = 6
"""Most quantities whose ranges are looked at by their corners."""
BATCH, MARCH = "batch", "march"
"""What judged a row."""


def header(sweep: Sweep) -> Row:
    """Names of the columns: what is varied, the verdict, six margins, the answers, the rest."""
    margins = [f"{name}_margin" for name in CHECK_NAMES]
    numbers = ANSWER_NAMES if sweep.with_answers else ()
    return ["row", *(v.path for v in sweep.varied), "verdict", *margins, *numbers, *_asked(sweep),
            "judged_by", "fault"]  # fmt: skip


def exact_row(sweep: Sweep, base: Case, values: Sequence[Value]) -> Row:
    """One row by the exact march; a variant that cannot be judged says why."""
    paths = [v.path for v in sweep.varied]
    try:
        case = base.with_scenario(
            with_values(sweep.scenario, dict(zip(paths, values, strict=True)))
        )
        verdict = judge(case)
        numbers = answers(case) if sweep.with_answers else {}
        names = ANSWER_NAMES if sweep.with_answers else ()
        row = [
            verdict.state,
            *(repr(float(c.margin)) for c in verdict.checks),
            *(repr(float(numbers[n])) for n in names),
            *_amounts(sweep, case),
            MARCH, "",
        ]  # fmt: skip
        case.forget()
    except ValidationError as error:
        return _fault(sweep, _sentence(error))
    except Exception as error:  # whatever it is, it must not stop the rows after it
        return _fault(sweep, f"This variant cannot be computed: {error}")
    return row


def batch_rows(
    sweep: Sweep, base: Case, columns: Sequence[Column]
) -> list[Row | None]:
    """Rows that the batch engine may decide; None where the exact march must."""
    rows: list[Row | None] = [None] * len(columns[0])
    if sweep.exact or sweep.scenario.light.pattern.kind == "daylight":
        return rows
    paths = [v.path for v in sweep.varied]
    apart = [
        i for i, (path, column) in enumerate(zip(paths, columns, strict=True))
        if column.dtype == object or path.rpartition(".")[2] in HOURS
    ]
    groups: dict[tuple[Value, ...], list[int]] = {}
    keys = zip(*(columns[i].tolist() for i in apart), strict=True) if apart else ((),) * len(rows)
    for at, key in enumerate(keys):
        groups.setdefault(tuple(key), []).append(at)
    for key, found in groups.items():
        common = {paths[i]: v for i, v in zip(apart, key, strict=True)}
        several = {
            path: column[found]
            for i, (path, column) in enumerate(zip(paths, columns, strict=True)) if i not in apart
        }
        members = found
        if not _all_allowed(sweep.scenario, common, several):
            faults = _faults(sweep, common, several, len(found))
            for at, fault in zip(found, faults, strict=True):
                rows[at] = fault
            members = [at for at in found if rows[at] is None]
            several = {path: column[members] for path, column in zip(paths, columns, strict=True)
                       if path in several}
        if len(members) < FEWEST or not several:
            continue
        for at, row in zip(members, _decided(sweep, base, common, several), strict=True):
            rows[at] = row
    return rows


def _all_allowed(
    scenario: Scenario, common: Mapping[str, Value], several: Mapping[str, Column]
) -> bool:
    """Whether all variants are surely allowed, as those with the ends of every range are.

    What is refused beyond the range of a single number is that one lies above another: where that
    holds at no corner of a box, it holds nowhere within. Tables have rules of another kind.
    """
    if len(several) > MOST_CORNERED or any(f".{t}." in f".{p}" for t in TABLES for p in several):
        return False
    ends = [(column.min().item(), column.max().item()) for column in several.values()]
    try:
        for corner in set(product(*ends)):
            with_values(scenario, {**common, **dict(zip(several, corner, strict=True))})
    except Exception:
        return False
    return True


def _faults(
    sweep: Sweep, common: Mapping[str, Value], several: Mapping[str, Column], size: int
) -> Iterator[Row | None]:
    """Of each variant why it is not allowed; None where it is, or where the march says it."""
    each = zip(*(column.tolist() for column in several.values()), strict=True)
    for values in each if several else ((),) * size:
        try:
            with_values(sweep.scenario, {**common, **dict(zip(several, values, strict=True))})
        except ValidationError as error:
            yield _fault(sweep, _sentence(error))
        except Exception:
            yield None
        else:
            yield None


def judged_rows(sweep: Sweep, base: Case, begin: int, end: int) -> list[Row]:
    """Rows from one number up to another, by the batch, and by the march where that is unsure.

    They are the same whoever makes them, as long as they are asked for in the same chunks.
    """
    columns = sweep.columns(begin, end)
    rows = batch_rows(sweep, base, columns)
    each = list(zip(*(column.tolist() for column in columns), strict=True))
    return [exact_row(sweep, base, each[i]) if row is None else row for i, row in enumerate(rows)]


def _decided(
    sweep: Sweep, base: Case, common: Mapping[str, Value], several: Mapping[str, Column],
) -> list[Row | None]:
    """Rows of variants that differ in nothing but numbers."""
    size = len(next(iter(several.values()))) if several else 0
    nothing: list[Row | None] = [None] * size
    if not size:
        return nothing
    try:
        scenario: Scenario = with_values(sweep.scenario, common)
        first = size_path(scenario)  # it sets resistance and leakage, which may be varied beside it
        order = sorted(several, key=lambda path: path != first)
        with judging():
            found = fleet(
                base.with_scenario(scenario), {path: several[path] for path in order},
                with_answers=sweep.with_answers,
            )
    except Exception:  # what the batch cannot do is for the march to say
        return nothing
    sure = WORKS.seen(found)[2] & RUNS.seen(found)[2]
    numbers = [found.margins[n] for n in CHECK_NAMES]
    if sweep.with_answers:
        numbers += [found.answers[n] for n in ANSWER_NAMES]
        for one in found.readings.required:
            numbers += _numbers(one)
    sure &= ~np.isnan(numbers).any(axis=0)
    texts = [[f"{v:.4g}" for v in column.tolist()] for column in numbers]
    rows = zip(sure.tolist(), found.codes.tolist(), *texts, strict=True)
    return [[STATES[code], *row, BATCH, ""] if decided else None for decided, code, *row in rows]


def _asked(sweep: Sweep) -> Row:
    """Columns of the amounts that are asked: what is reached, and its margin."""
    varied = {v.path for v in sweep.varied}
    keys = asked_keys(sweep.scenario)
    keys = tuple(k for k in KEYS if k in keys or f"margins.{k}" in varied)
    if not sweep.with_answers:
        return []
    return [
        name for key in keys
        for name in (*([COLUMN_OF[key]] if key in COLUMN_OF else []), f"{key}_margin")
    ]


def _amounts(sweep: Sweep, case: Case) -> Row:
    if not sweep.with_answers:
        return []
    return [repr(float(n[0])) for one in required(case) for n in _numbers(one)]


def _numbers(one: Required) -> tuple[FloatArray, ...]:
    """What is reached, where no answer tells it, and its margin; shape (n,) each."""
    return (one.value, one.margin) if one.key in COLUMN_OF else (one.margin,)


def _sentence(error: ValidationError) -> str:
    fault = error.errors(include_url=False)[0]
    where = ".".join(str(part) for part in fault["loc"])
    return f"{where}: {fault_text(fault)}" if where else str(fault_text(fault))


def _fault(sweep: Sweep, sentence: str) -> Row:
    """A row that has no numbers, only a sentence."""
    numbers = len(CHECK_NAMES) + len(ANSWER_NAMES) * sweep.with_answers + len(_asked(sweep))
    return ["error", *([""] * numbers), "", " ".join(sentence.split())]


__all__ = ["ANSWER_NAMES", "Row", "batch_rows", "exact_row", "header", "judged_rows"]

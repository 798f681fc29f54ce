"""Designs from the corners of every range, through all that is made of a design.

    python -m tests.extremes --cases 100000 --seed 7

Each is judged and told as ``check --json`` tells it, and some are also written as a trace, as a
sheet, as rows of a sweep, asked for remedies and for the spread of many units: one in so many
(`EVERY`), as a search costs a hundred times what a verdict costs. A failure is any exception, any
warning of numpy, a number in an output that is none, and computing that does not ask for two
seconds whether it is still wanted. It is printed with the number that makes it again, and the
script ends with 1. Verdicts that take longer than that are counted: a window goes on beside them
(`state/solver`), and says that one is pending.
"""

from __future__ import annotations

import argparse
import json
import math
import re
import sys
import time
import traceback
import warnings
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np

from explorer.advice.assess import assess, run_for
from explorer.advice.case import Case
from explorer.advice.reach import reach
from explorer.advice.remedies import find_remedies
from explorer.advice.spread import confirmed, default_tolerances, spread
from explorer.cli.main import _report
from explorer.engine.course import Interrupted, until
from explorer.files.report import findings, sheet
from explorer.files.report_html import sheet_html
from explorer.files.report_limits import model_limits
from explorer.files.report_source import source_of
from explorer.files.scenario_json import dump_scenario, parse_scenario
from explorer.files.sweep_plan import Sweep, parse_vary
from explorer.files.sweep_rows import judged_rows
from explorer.files.tables import trace_table
from tests.corners import corner_scenario, corner_year

MOST_S = 2.0
"""Longest stretch of computing without an answer or a question. [s]"""
PATIENCE_S = 1.5
"""A search is told to stop after so much computing. [s]"""
LOST_S = 60.0
"""What has computed for so long is taken to go on for ever, and left. [s]"""
UNITS = 200
TELL_EVERY = 1000


def numbers_in(found: Any) -> Iterator[float]:
    """All numbers of a tree."""
    if isinstance(found, dict):
        found = found.values()
    if isinstance(found, float | np.floating):
        yield float(found)
    elif isinstance(found, np.ndarray):
        yield from (found.ravel().tolist() if found.dtype.kind == "f" else ())
    elif isinstance(found, Iterable) and not isinstance(found, str | bytes):
        for one in found:
            yield from numbers_in(one)


def demand_numbers(found: Any, what: str) -> None:
    """Fail where a number is none."""
    assert not any(math.isnan(x) for x in numbers_in(found)), f"no number in {what}"


class Patience:
    """Whether a search is still wanted; knows the longest time in which it did not ask."""

    def __init__(self, lasts_s: float = PATIENCE_S) -> None:
        self.lasts_s = lasts_s
        self.began = self.asked = time.process_time()
        self.longest_s = 0.0

    def __call__(self) -> bool:
        now = time.process_time()
        self.longest_s = max(self.longest_s, now - self.asked)
        self.asked = now
        return now - self.began > self.lasts_s


@contextmanager
def patience() -> Iterator[Patience]:
    """A search that gives way when it is told to, and asks in time."""
    wanted = Patience()
    with suppress(Interrupted):
        yield wanted
    wanted()
    assert wanted.longest_s < MOST_S, f"did not ask for {wanted.longest_s:.1f} s"


class Trials:
    """What is made of a design, each a function of its case."""

    def check(self, case: Case) -> None:
        """It is judged, told in numbers, and read as it was written."""
        found = assess(case)
        report = _report(Path("corner.json"), found)
        json.dumps(report, allow_nan=False)
        demand_numbers(report, "the report")
        assert parse_scenario(dump_scenario(case.scenario), "written.json") == case.scenario

    def answers(self, case: Case) -> None:
        """How far it could go, as long as it is wanted."""
        with patience() as wanted, until(wanted):
            demand_numbers(reach(case), "the answers")

    def trace(self, case: Case) -> None:
        """Its run is a table, by events and by steps."""
        run = run_for(case)
        demand_numbers(trace_table(run.eventful(200)), "the trace")
        demand_numbers(trace_table(run.steps(run.span_s / 100.0)), "the steps")

    def sweep(self, case: Case) -> None:
        """Rows of a sweep, by the batch and by the march."""
        scenario = case.scenario
        texts = ("panels.count=1,3", "light.illuminance_lx=20,2000")
        varied = tuple(parse_vary(scenario, text) for text in texts)
        plan = Sweep(scenario=scenario, varied=varied)
        for row in judged_rows(plan, case, 0, len(plan)):
            assert "cannot be computed" not in str(row[-1]), row[-1]
            assert "nan" not in map(str, row), f"no number in {row}"

    def sheet(self, case: Case) -> None:
        """A sheet without a number that is none."""
        source = source_of(case.scenario, None, "0", datetime(2026, 1, 1, tzinfo=UTC))
        page = sheet_html(sheet(findings(case), source, model_limits()))
        body = page.partition("<body")[2].lower()
        assert not re.search(r"\bnan\b", body), "no number on the sheet"

    def remedies(self, case: Case) -> None:
        """What would help, as long as it is wanted."""
        with patience() as wanted:
            for found in find_remedies(case, wanted):
                wanted()
                assert all(str(one.sentence) for one in found.singles)

    def spread(self, case: Case) -> None:
        """Many units within their tolerances."""
        with patience() as wanted:
            many = spread(case, default_tolerances(case.scenario), builds=UNITS)
            wanted()
            found = confirmed(many, wanted, most=4)
            demand_numbers((found.reserve, found.margin), "the spread")


EVERY = {
    "check": 1, "answers": 1, "trace": 2, "sweep": 5, "sheet": 20, "remedies": 50, "spread": 20,
}  # fmt: skip
"""One design in so many goes through this part."""
SEARCHES = ("answers", "remedies", "spread")
SLOW = "verdicts that took longer than two seconds"
YEARS = 200
"""One design in so many lives in a year of daylight."""


def run(
    cases: int, seed: int, tell: Callable[[str], None], seconds: float = math.inf
) -> tuple[Counter[str], list[str]]:
    """How many went through each part, and what failed; so many, or for so long."""
    counts: Counter[str] = Counter()
    faults: list[str] = []
    end = time.monotonic() + seconds
    for number in range(seed, seed + cases):
        if time.monotonic() > end:
            break
        year = number % YEARS == YEARS - 1
        scenario = corner_year(number) if year else corner_scenario(number)
        case = Case(scenario)
        for name, every in EVERY.items():
            if number % every:
                continue
            wanted = Patience(LOST_S)
            try:
                with warnings.catch_warnings(), until(wanted):
                    warnings.simplefilter("error")
                    getattr(Trials(), name)(case)
            except Exception:
                faults.append(f"{name} {number}: {traceback.format_exc()}")
                tell(faults[-1])
            wanted()
            if wanted.longest_s > MOST_S and name not in SEARCHES:
                faults.append(f"{name} {number}: did not ask for {wanted.longest_s:.1f} s")
                tell(faults[-1])
            if name == "check":
                counts[SLOW] += wanted.asked - wanted.began > MOST_S
            counts[name] += 1
        if (number - seed + 1) % TELL_EVERY == 0:
            tell(f"{number - seed + 1} designs, {len(faults)} failures")
    return counts, faults


def main() -> int:
    """Try so many, and print what came of it."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--cases", type=int, default=1000)
    options.add_argument("--seconds", type=float, default=math.inf)
    options.add_argument("--seed", type=int, default=0)
    given = options.parse_args()
    counts, faults = run(given.cases, given.seed, partial(print, flush=True), given.seconds)
    for name, count in counts.items():
        print(f"{count:8} {name}")
    print(f"{sum(counts.values()) - counts[SLOW]:8} in all, {len(faults)} failures")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())

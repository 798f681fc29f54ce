"""What is asked of a design, and what the two engines say of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from explorer.advice.case import Case
from explorer.advice.checks import Judged
from explorer.advice.fleet import Fleet
from explorer.advice.judge import balance_margin, dark_margin, ratings_margin, service_level
from explorer.advice.readings.required import asked_keys
from explorer.advice.verdict import CHECK_NAMES, MET_OR_NOT, Check, State, Verdict
from explorer.advice.year.bounds import falls_short_by
from explorer.physics.arrays import BoolArray, FloatArray

AT_ONCE = {"ratings": ratings_margin, "balance": balance_margin, "dark": dark_margin}
"""Checks that are had for less than a verdict."""


@dataclass(frozen=True, slots=True)
class Criterion:
    """What is asked of a design: that it works, that it runs, or that some checks pass."""

    least: State | None = None
    """Outcome that the verdict must reach, where the verdict is asked."""
    checks: tuple[str, ...] = ()
    """Checks whose margin must be 1 or more, where these are asked."""

    def holds(self, verdict: Verdict) -> bool:
        """Whether a design, judged exactly, is as asked."""
        if self.least is not None:
            return verdict.state == "runs" or verdict.state == self.least
        return all(c.margin >= 1.0 for c in self._asked(verdict))

    def at_once(self, case: Case) -> tuple[bool, float] | None:
        """Whether a design is as asked and how near it is, where few marches or none say so.

        Ratings and Balance need no march, Dark and Service only that of the course, which designs
        that differ in nothing but what is asked of them share. None where these leave it open.
        """
        asked = self.checks or CHECK_NAMES
        wanted = case.scenario.design_margin if self.least == "runs" else 1.0
        level = np.inf
        for name, margin in AT_ONCE.items():
            # A balance below 1 may still be marginal; one below what is wanted never runs.
            rescued = name == "balance" and self.least is not None and wanted <= 1.0
            if name not in asked or rescued or (name == "dark" and self != DARK):
                continue
            level = min(level, margin(case) / (1.0 if name == "ratings" else wanted))
            if level < 1.0:
                return False, level
        if self.least is not None and case.year is not None:
            short = falls_short_by(case, cleanly=self.least == "runs")
            if short is not None:
                return False, short
        if self == SERVICE_AND_BALANCE and case.year is None and not asked_keys(case.scenario):
            level = min(level, service_level(case))
            return level >= 1.0, level
        return (True, level) if self in (BALANCE, DARK) else None

    def level(self, verdict: Verdict) -> float:
        """How near it is: 1 at the edge, as far as margins tell."""
        if self.least == "runs":
            return min(c.reserve for c in _telling(verdict.checks))
        return min(c.margin for c in _telling(self._asked(verdict)))

    def _asked(self, verdict: Verdict) -> tuple[Check, ...]:
        return tuple(c for c in verdict.checks if not self.checks or c.name in self.checks)

    def seen(self, found: Fleet) -> tuple[BoolArray, FloatArray, BoolArray]:
        """Whether designs of the batch engine are as asked, how near, and whether that is sure."""
        names = self.checks or CHECK_NAMES
        rows = self._rows(found.judged, names)
        low = rows if found.low is None else self._rows(found.low, names)
        high = rows if found.high is None else self._rows(found.high, names)
        spare = 1.0 + np.array([found.readings.within[n] for n in names])
        # What is met or not is met in full, or it is not.
        met = np.array([n in MET_OR_NOT for n in names])[:, None] & (low >= 1.0)
        fails = (high * spare < 1.0).any(axis=0)
        passes = ((low >= spare) | met).all(axis=0)
        sure = (fails | passes) & found.readings.sure
        if self.least is not None:
            holds = np.asarray(found.codes >= (2 if self.least == "runs" else 1))
            level = found.reserve if self.least == "runs" else found.margin
            sure = sure | found.readings.falls
        else:
            holds, level = np.asarray((rows >= 1.0).all(axis=0)), rows.min(axis=0)
        return holds.copy(), level.copy(), np.asarray(sure)

    def _rows(self, judged: Mapping[str, Judged], names: Sequence[str]) -> FloatArray:
        """Margins over what is asked, shape (checks, designs)."""
        checks = [judged[n] for n in names]
        over = [c.wanted if self.least == "runs" else np.ones_like(c.wanted) for c in checks]
        counted = [c.margin if self.checks else c.counted for c in checks]
        return np.array([m / o for m, o in zip(counted, over, strict=True)])


def _telling(checks: Sequence[Check]) -> Sequence[Check]:
    """Checks that say how near; those that are met or not count only where they fail."""
    return [c for c in checks if c.name not in MET_OR_NOT or c.margin < c.wanted] or checks


WORKS = Criterion(least="marginal")
RUNS = Criterion(least="runs")
BALANCE = Criterion(checks=("balance",))
DARK = Criterion(checks=("dark",))
SERVICE_AND_BALANCE = Criterion(checks=("service", "balance"))

"""Judge many variants of a design at once: for edges, maps and spreads.

The checks are those of `explorer.advice.checks`, made from the readings of the batch engine, in
which pulses are averaged over their cycle. Where these are `sure` they agree with the exact ones
within `Readings.within`, one in twenty apart, and verdicts but within it of a limit; where
they are not, the exact march decides. A first charge that just misses an evening may come a night
later.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from explorer.advice.case import Case
from explorer.advice.checks import Judged, asked_of, balance, judged, ratings_margin
from explorer.advice.gathered import gathered, gathered_log, with_gathered_log
from explorer.advice.readings import Readings
from explorer.advice.readings.balance import Balance
from explorer.advice.readings.many import balance_of, followed, never_connects
from explorer.advice.readings.many_answers import answers
from explorer.advice.readings.many_dark import dark_at_most
from explorer.advice.readings.many_required import with_required
from explorer.advice.verdict import CHECK_NAMES, MET_OR_NOT, NO_LIMIT, State
from explorer.engine.many import supplied
from explorer.engine.system import as_judged
from explorer.physics.arrays import BoolArray, FloatArray
from explorer.scenario.ratings import Rating

STATES: tuple[State, ...] = ("falls_short", "marginal", "runs")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fleet:
    """Verdicts of many variants; arrays of shape (variants,)."""

    judged: dict[str, Judged]
    """Each of the six checks."""
    readings: Readings
    low: dict[str, Judged] | None = None
    """The checks with each store where it is least in its band; None where they are the same."""
    high: dict[str, Judged] | None = None
    """The same where it is most."""
    answers: dict[str, FloatArray] = field(default_factory=dict)
    """See `explorer.advice.readings.many_answers`; empty where they were not asked for."""

    @property
    def margins(self) -> dict[str, FloatArray]:
        """Available over needed for each of the six checks."""
        return {name: self.judged[name].margin for name in CHECK_NAMES}

    @property
    def wanted(self) -> dict[str, FloatArray]:
        """Margin that counts as a clean pass."""
        return {name: self.judged[name].wanted for name in CHECK_NAMES}

    @property
    def first_charge_s(self) -> FloatArray:
        """From an empty store to the end of the first start-up. [s]"""
        return self.readings.ready_s

    @property
    def sure(self) -> NDArray[np.bool_]:
        """Where the verdict may stand as it is; elsewhere the exact march decides."""
        return self.readings.sure | self.readings.falls

    @property
    def reserve(self) -> FloatArray:
        """Smallest margin over the margin wanted: 1 or more runs.

        Ratings and service count only where they fail: they are met or not, and would hide what
        the other checks have to spare, as in `Verdict.governing`.
        """
        return np.asarray(self._telling_margins(over_wanted=True).min(axis=0))

    @property
    def telling(self) -> FloatArray:
        """Smallest reserve of those energy and pulse checks that tell the variants apart."""
        rows = [self.margins[n] / self.wanted[n] for n in ("starts", "balance", "dark", "pulse")]
        apart = [r for r in rows if np.ptp(r) > 0]
        return np.min(apart, axis=0) if apart else self.reserve

    @property
    def promise(self) -> FloatArray:
        """How near a variant is: mean over the checks of the reserve, none counted above 1."""
        table = np.array([self.margins[n] / self.wanted[n] for n in CHECK_NAMES])
        return np.asarray(np.minimum(table, 1.0).mean(axis=0))

    @property
    def margin(self) -> FloatArray:
        """Smallest margin: below 1 the variant falls short. Counted as in `reserve`."""
        return np.asarray(self._telling_margins(over_wanted=False).min(axis=0))

    def _telling_margins(self, *, over_wanted: bool) -> FloatArray:
        """Shape (checks, variants); no limit where ratings or service are met."""
        rows = []
        for name in CHECK_NAMES:
            one = self.judged[name]
            row = one.counted
            met = np.asarray(name in MET_OR_NOT) & (row >= one.wanted)
            rows.append(np.where(met, NO_LIMIT, row / one.wanted if over_wanted else row))
        return np.array(rows)

    @property
    def codes(self) -> NDArray[np.intp]:
        """0 falls short, 1 marginal, 2 runs."""
        return (self.margin >= 1.0).astype(np.intp) + (
            (self.margin >= 1.0) & (self.reserve >= 1.0)
        ).astype(np.intp)

    @property
    def governing(self) -> NDArray[np.intp]:
        """Index into CHECK_NAMES of the check that decides.

        One that fails goes before one that is marginal; service, which the others lead to, only
        where it fails alone; of these the smallest reserve.
        """
        failing = self._telling_margins(over_wanted=False) < 1.0
        cause = failing & (np.array(CHECK_NAMES) != "service")[:, None]
        reserve = self._telling_margins(over_wanted=True)
        return np.asarray(np.argmin(reserve - NO_LIMIT * (failing * 1.0 + cause), axis=0))


def fleet(
    case: Case, changes: Mapping[str, ArrayLike], *, only_runs: bool = False,
    with_answers: bool = False,
) -> Fleet:
    """Verdicts of the variants that `changes` describes.

    Parameters
    ----------
    case : Case
        The design that is varied, in its light.
    changes : mapping of str to array_like
        Values at dotted paths; arrays of one length, the number of variants.
    only_runs : bool
        Ask only whether the reserve is 1 or more, which takes less time; of a variant that does
        not run no more is known than that.
    with_answers : bool
        Read the answers too.
    """
    size = max((np.size(v) for v in changes.values()), default=1)
    several = gathered(case.varied(changes), case)
    asked = asked_of(several.scenario, size)

    def worth(ready_s: FloatArray, held: Balance, rated: tuple[Rating, ...]) -> BoolArray:
        """Whether a variant may still run by what is known without following its course."""
        fast = ready_s * asked.margin <= asked.start_within_s
        enough = held.brought_w >= asked.margin * held.taken_w
        return fast & enough & (ratings_margin(rated, size) >= 1.0)

    system = as_judged(several.system)
    found = followed(several.scenario, system, size, worth=worth if only_runs else None)
    lit_lx = 0.0 if case.scenario.light.illuminance_lx is not None else case.mean_lit_lx
    read = with_required(found.readings, found, several.scenario, lit_lx)
    if system.load.until_empty is not None:
        # It takes the least run for the whole of it.
        read = replace(read, sure=np.zeros(size, bool))
    dim = ~(read.sure | read.falls | np.isfinite(read.ready_s))
    if case.year is None and not only_runs and dim.any():
        few = gathered(
            case.varied({p: np.broadcast_to(v, size)[dim] for p, v in changes.items()}), case
        )
        dim[dim] = never_connects(
            few.scenario, as_judged(few.system), int(dim.sum()), read.within["starts"][dim]
        )
        read = replace(read, falls=read.falls | dim)
    if case.year is not None:
        # Some weeks do not know what a year does: the march has the word.
        nowhere = np.zeros(size, bool)
        read = replace(read, sure=nowhere, falls=nowhere)
    return Fleet(
        judged=judged(read, asked), readings=read,
        low=None if read.low is None else judged(read.low, asked),
        high=None if read.high is None else judged(read.high, asked),
        answers=answers(found, asked) if with_answers else {},
    )


def balances(case: Case, changes: Mapping[str, ArrayLike]) -> FloatArray:
    """The margin of Balance alone of the variants that `changes` describes, shape (variants,)."""
    size = max((np.size(v) for v in changes.values()), default=1)
    several = gathered(case.varied(changes), case)
    held = balance_of(supplied(as_judged(several.system), size))
    return balance(held, asked_of(several.scenario, size)).margin


def prospects(case: Case, changes: Mapping[str, ArrayLike]) -> FloatArray:
    """What the reserve is at most by Balance and by the dark, shape (variants,).

    Nothing is run for it, which takes a tenth of the time: of thousands of designs most have too
    little light or too small a store.
    """
    size = max((np.size(v) for v in changes.values()), default=1)
    several = gathered(case.varied(changes), case)
    asked, at = asked_of(several.scenario, size), supplied(as_judged(several.system), size)
    found = balance(balance_of(at), asked).margin
    if several.system.load.until_empty is None:
        found = np.minimum(found, dark_at_most(several.scenario, at))
    return np.asarray(found / asked.margin)


__all__ = [
    "MET_OR_NOT", "STATES", "Fleet", "balances", "fleet", "gathered_log", "prospects",
    "with_gathered_log",
]

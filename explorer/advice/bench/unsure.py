"""What a fit takes for granted and does not know: values that are not fitted, meter and clock."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace
from datetime import timedelta

import numpy as np
from pydantic import ValidationError

from explorer.advice.bench.parameters import with_values
from explorer.advice.case import Case
from explorer.advice.spread import LIGHT_SPREAD, Tolerance, default_tolerances
from explorer.scenario.fields import describe
from explorer.scenario.logged_run import BenchRun
from explorer.scenario.model import get_value, owner_class
from explorer.text import say

METER_GAIN = 0.005
"""Half-width of a voltmeter's own error, as a share (hand-held multimeters state 0.5 % for direct
voltages; common practice, no source)."""
CLOCK_S = 900.0
"""Half-width of what a logger's clock and the hours of the light may be apart (own judgement). [s]
"""
LIGHT = "light.illuminance_lx"
Move = Callable[[Case, BenchRun, float], tuple[Case, BenchRun]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unsure:
    """Something that the forecast takes for granted, and how it is moved within its half-width."""

    label: str
    move: Move
    """Case and run with it moved by a share of its half-width, -1 to 1."""


def unsure(
    case: Case, run: BenchRun, chosen: Collection[str], known: Mapping[str, float]
) -> tuple[Unsure, ...]:
    """All that may be wrong although the fit does not vary it.

    Tolerances of values are those of the spread; that of light that was logged beside the voltage
    is that of a meter at the panel.

    Parameters
    ----------
    case : Case
        The device, under the light that counts for the run.
    run : BenchRun
        What was logged.
    chosen : collection of str
        Paths of the values that are fitted.
    known : mapping
        Half-widths of values that somebody has measured, as shares, under their paths.
    """
    rows = [
        Unsure(label=t.label, move=_ValueMove(_as_known(t, known)))
        for t in default_tolerances(case.scenario)
        if t.path not in chosen and t.path != LIGHT
    ]
    if LIGHT not in chosen:
        by = "meter_at_panel" if run.light is not None else case.scenario.light.known_by
        amount = known.get(LIGHT, LIGHT_SPREAD[by])
        rows.append(Unsure(label=say("Light level"), move=_LightMove(amount)))
    rows.append(Unsure(label=say("Voltmeter"), move=_gain_moved))
    if run.light is None and run.start is not None:
        rows.append(Unsure(label=say("Clock of the logger"), move=_clock_moved))
    return tuple(rows)


def _as_known(tolerance: Tolerance, known: Mapping[str, float]) -> Tolerance:
    if tolerance.path not in known:
        return tolerance
    return replace(tolerance, kind="relative", amount=known[tolerance.path])


@dataclass(frozen=True, slots=True)
class _ValueMove:
    """Moves one value of the scenario."""

    tolerance: Tolerance

    def __call__(self, case: Case, run: BenchRun, share: float) -> tuple[Case, BenchRun]:
        t = self.tolerance
        nominal = get_value(case.scenario, t.path)
        moved = nominal * (1.0 + share * t.amount) if t.kind == "relative" else (
            nominal + share * t.amount
        )
        info = describe(owner_class(case.scenario, t.path), t.path.rpartition(".")[2])
        inside = float(np.clip(moved, info.low, info.high))
        return case.with_scenario(with_values(case.scenario, {t.path: inside})), run


@dataclass(frozen=True, slots=True)
class _LightMove:
    """Scales the light, whichever counts for the run."""

    amount: float

    def __call__(self, case: Case, run: BenchRun, share: float) -> tuple[Case, BenchRun]:
        factor, level = 1.0 + share * self.amount, case.scenario.light.illuminance_lx
        if level is not None:
            return case.with_scenario(with_values(case.scenario, {LIGHT: level * factor})), run
        if case.log is None:
            return case, run
        log = replace(case.log, illuminance_lx=case.log.illuminance_lx * factor)
        return Case(case.scenario, log), run


def _gain_moved(case: Case, run: BenchRun, share: float) -> tuple[Case, BenchRun]:
    factor = 1.0 + share * METER_GAIN
    return case, replace(
        run, volts=run.volts * factor, low_v=run.low_v * factor, high_v=run.high_v * factor
    )


def _clock_moved(case: Case, run: BenchRun, share: float) -> tuple[Case, BenchRun]:
    assert run.start is not None
    return case, replace(run, start=run.start + timedelta(seconds=share * CLOCK_S))


def moved(
    one: Unsure, case: Case, run: BenchRun, share: float
) -> tuple[Case, BenchRun] | None:
    """Case and run with one thing moved; None where no scenario is that way."""
    try:
        return one.move(case, run, share)
    except (ValidationError, ValueError):
        return None


"""What a fit takes for granted and does not know: values that are not fitted, meter and clock."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace
from datetime import timedelta

import numpy as np
from pydantic import ValidationError

from explorer.advice.bench.parameters import with_values
from explorer.advice.case import Case
from explorer.advice.spread import LIGHT_SPREAD, NORMAL_95, Tolerance, default_tolerances
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
ON_PANEL = "light.orientation_factor"
METER, LIGHT_METER = "voltmeter", "light meter"
"""Names of what several runs share beside the values of the scenario."""
RECTANGLE = 3.0**-0.5
"""Standard deviation of what lies anywhere within a half-width, over the half-width (JCGM 100:2008,
4.3.7)."""
OF_MEASURED = 1.0 / NORMAL_95
"""The same where the half-width holds 95 % of a normal distribution."""
METERS = (METER, LIGHT_METER)
_AGEING = (
    "store.capacitance_F", "store.capacity_mAh", "store.esr_ohm", "store.resistance_ohm",
    "store.leakage_A", "store.balancing_A", "store.self_discharge_per_month",
)  # fmt: skip
"""What may be otherwise months later although it is the same part."""
Move = Callable[[Case, BenchRun, float], tuple[Case, BenchRun]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unsure:
    """Something that the forecast takes for granted, and how it is moved within its half-width."""

    label: str
    move: Move
    """Case and run with it moved by a share of its half-width, -1 to 1."""
    shared: str
    """Name under which it is one and the same thing in all runs of a device; empty where every run
    has its own."""
    lasts: bool = True
    """Whether it is still the same months later: a part, or a meter; not the room."""
    deviation: float = RECTANGLE
    """Standard deviation over the half-width."""


def unsure(
    case: Case, run: BenchRun, chosen: Collection[str], known: Mapping[str, float]
) -> tuple[Unsure, ...]:
    """All that may be wrong although the fit does not vary it.

    Tolerances of values are those of the spread; that of light that was logged beside the voltage
    is that of a meter at the panel.

    Parameters
    ----------
    case : Case
        The device, as designed.
    run : BenchRun
        What was logged.
    chosen : collection of str
        Paths of the values that are fitted.
    known : mapping
        Half-widths of values that somebody has measured, as shares, under their paths.
    """
    rows = [
        Unsure(
            label=t.label,
            move=_ValueMove(t),
            shared=t.path,
            lasts=not t.path.startswith("light.") and t.path not in _AGEING,
            deviation=OF_MEASURED if t.is_measured else RECTANGLE,
        )
        for t in (_as_known(t, known) for t in default_tolerances(case.scenario))
        if t.path not in chosen and t.path != LIGHT
    ]
    told = run.conditions
    if told.light_lx:
        amount = LIGHT_SPREAD["meter_at_panel"] if told.light_share is None else told.light_share
        rows.append(Unsure(label=say("Illuminance"), move=_LightMove(amount), shared=""))
    elif told.light_lx is None and (LIGHT not in chosen or run.light is not None):
        by = "meter_at_panel" if run.light is not None else case.scenario.light.known_by
        amount = known.get(LIGHT, LIGHT_SPREAD[by])
        name = LIGHT if run.light is None else LIGHT_METER
        rows.append(
            Unsure(
                label=say("Illuminance"), move=_LightMove(amount), shared=name,
                lasts=run.light is not None,
            )
        )  # fmt: skip
    if told.draw == "current":
        move = _CurrentMove(told.current_share)
        rows.append(Unsure(label=say("Current drawn"), move=move, shared=""))
    rows.append(Unsure(label=say("Voltmeter"), move=_gain_moved, shared=METER))
    if run.light is None and told.light_lx is None and run.start is not None:
        rows.append(Unsure(label=say("Clock of the logger"), move=_clock_moved, shared=""))
    return tuple(rows)


def _as_known(tolerance: Tolerance, known: Mapping[str, float]) -> Tolerance:
    if tolerance.path not in known:
        return tolerance
    return replace(tolerance, kind="relative", amount=known[tolerance.path], is_measured=False)


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
        told = run.conditions
        if told.light_lx is not None:
            there = replace(told, light_lx=told.light_lx * factor)
            return case, replace(run, conditions=there)
        if run.light is not None:
            lux = run.light.illuminance_lx * factor
            return case, replace(run, light=replace(run.light, illuminance_lx=lux))
        if level is not None:
            return case.with_scenario(with_values(case.scenario, {LIGHT: level * factor})), run
        if case.log is None:  # daylight as it is computed: scaled on its way to the panel
            share_of = case.scenario.light.orientation_factor * factor
            return case.with_scenario(with_values(case.scenario, {ON_PANEL: share_of})), run
        log = replace(case.log, illuminance_lx=case.log.illuminance_lx * factor)
        return Case(case.scenario, log), run


@dataclass(frozen=True, slots=True)
class _CurrentMove:
    """Scales the steady current that was drawn."""

    amount: float

    def __call__(self, case: Case, run: BenchRun, share: float) -> tuple[Case, BenchRun]:
        told = run.conditions
        current_a = told.current_A * (1.0 + share * self.amount)
        return case, replace(run, conditions=replace(told, current_A=current_a))


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


"""Which measurement to make next: how much each of several would narrow every fitted value.

Each measurement is computed with the fitted values, and weighed with the runs that are there as a
fit would weigh it: by its derivatives, the noise of its readings, and what it may be wrong by.
Nothing is searched, so the ± holds as far as the fitted values are about right.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from explorer.advice.bench.conditions import under_conditions
from explorer.advice.bench.fit import Fit
from explorer.advice.bench.forecast import Beginning, forecast
from explorer.advice.bench.parameters import parameter, sees_pulses, with_values
from explorer.advice.bench.problem import SCALE_V, Halt, Stopped
from explorer.advice.bench.sure import half_widths, said_by
from explorer.advice.bench.together import Together
from explorer.advice.bench.weighing import Said, Weighing
from explorer.advice.case import Case
from explorer.advice.stops import largest_phase
from explorer.engine.system import DAY_S
from explorer.physics.arrays import FloatArray
from explorer.quantity import show
from explorer.scenario.hours import HOUR_S
from explorer.scenario.logged_run import BenchRun, Conditions
from explorer.scenario.model import Scenario
from explorer.scenario.storage import CellStore
from explorer.text import joined, say

ROWS = 400
"""Readings that are computed of each measurement."""
HIGH, LOW = 0.9, 0.1
"""Where in the range between cut-off and full a discharge begins, and a charge."""
LAMP_LX, LAMP_SHARE = 500.0, 0.05
"""Light of a charge where the design has none, and how well it is known (own judgement: a lux meter
held at the panel, under a lamp of which the spectrum is known)."""
STEP_TIME_S, CELL_TIME_S = 1200.0, 5 * HOUR_S
"""In what time a load step empties capacitors, about, and a cell, which must not be hurried. [s]"""
WORTH = 0.9
"""Share of the ± that must not be left for a measurement to be worth making (own judgement)."""
KNOWN = 1.0
"""Half-width in e-folds from which a value counts as unknown in the comparison."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurement:
    """A measurement that could be made."""

    label: str
    """What to do, as a `Text`."""
    run: BenchRun
    """What it would log, without noise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prospect:
    """What a measurement would bring."""

    measurement: Measurement
    expected: tuple[float, ...]
    """The ± of each fitted value afterwards, in its unit."""
    gain: float
    """Sum over the values of the logarithm of the ± now over the ± then."""


def measurements(case: Case) -> tuple[Measurement, ...]:
    """What can be measured of a device, each as it would be logged.

    Parameters
    ----------
    case : Case
        The device with the values that it likely has.
    """
    load, charger = case.scenario.load, case.scenario.charger
    span_v = charger.full_V - load.disconnect_V
    high_v, low_v = load.disconnect_V + HIGH * span_v, load.disconnect_V + LOW * span_v
    lamp = case.scenario.light.illuminance_lx or LAMP_LX
    current_a, emptied_s = _load_step(case, low_v, high_v)
    plans: list[tuple[str, Conditions, FloatArray, float]] = [
        (
            say("A night in the dark, 12 h, from nearly full"),
            Conditions(light_lx=0.0, connected=True), _even(12 * HOUR_S), high_v,
        ),
        (
            say("Three days in the dark with the device taken off, from nearly full"),
            Conditions(light_lx=0.0, draw="off", connected=True), _even(3 * DAY_S), high_v,
        ),
        (
            say("Three days in the dark with the operations switched off, from nearly full"),
            Conditions(light_lx=0.0, draw="asleep", connected=True), _even(3 * DAY_S), high_v,
        ),
        (
            say(
                "A day of charge under a lamp of {lux}, known to {share}",
                lux=show(lamp, "lx"), share=_percent(LAMP_SHARE),
            ),
            Conditions(light_lx=lamp, light_share=LAMP_SHARE, connected=True), _even(DAY_S), low_v,
        ),
        (
            say(
                "A steady current of {current} from rest in the dark, about {time}, known to "
                "{share}, with many readings",
                current=show(current_a, "A"),
                time=show(emptied_s, "s", 2), share=_percent(Conditions().current_share),
            ),
            Conditions(light_lx=0.0, draw="current", current_A=current_a),
            _even(emptied_s, 3 * ROWS), high_v,
        ),
        (
            say("A week as it hangs"),
            Conditions(connected=True), _even(7 * DAY_S), 0.5 * (high_v + low_v),
        ),
    ]  # fmt: skip
    close = _pulse_step_s(case.scenario)
    if close is not None:
        plans.append(
            (
                say("Pulses in the dark, a reading every {time}", time=show(close, "s")),
                Conditions(light_lx=0.0, connected=True), _even(2 * ROWS * close, 2 * ROWS), high_v,
            )
        )  # fmt: skip
    found = (_as_logged(case, *plan) for plan in plans)
    return tuple(one for one in found if one is not None)


def _even(span_s: float, rows: int = ROWS) -> FloatArray:
    return np.linspace(0.0, span_s, rows)


def _percent(share: float) -> str:
    return joined(" ", (show(100 * share, "", 2), "%"))


def _load_step(case: Case, low_v: float, high_v: float) -> tuple[float, float]:
    """A round current that takes the store from high to low [A], and in what time [s]."""
    store = case.system.store
    charge_c = float(store.charge_at(np.float64(high_v)) - store.charge_at(np.float64(low_v)))
    time_s = CELL_TIME_S if isinstance(case.scenario.store, CellStore) else STEP_TIME_S
    about_a = max(charge_c / time_s, 1e-6)
    power = 10.0 ** np.floor(np.log10(about_a))
    current_a = float(max(m * power for m in (1.0, 2.0, 5.0) if m * power <= about_a * 1.001))
    return current_a, charge_c / current_a


def _pulse_step_s(scenario: Scenario) -> float | None:
    """Time between readings of which three lie in the largest phase; None where none is asked."""
    spans = [
        op.phases[largest_phase(scenario, i)].duration_s
        for i, op in enumerate(scenario.load.operations)
        if op.schedule.kind == "every"
    ]
    return max(spans) / 3.0 if spans else None


def _as_logged(
    case: Case, label: str, conditions: Conditions, time_s: FloatArray, first_v: float
) -> Measurement | None:
    """A measurement with the readings that the model foresees; None where it cannot follow."""
    blank = np.full(len(time_s), first_v)
    run = BenchRun(
        name="", time_s=time_s, volts=blank, low_v=blank, high_v=blank,
        step_s=float(time_s[1]), readings=len(time_s), conditions=conditions,
    )  # fmt: skip
    at_rest = conditions.draw == "current"
    begin = Beginning(first_v=first_v, connected=True, at_rest=at_rest)
    there = under_conditions(case, run)
    lowest = sees_pulses(there.scenario, run)
    try:
        found = forecast(there, run, (begin,), lowest=lowest)
    except ValueError:
        return None
    volts = found.terminal_v.copy()
    if at_rest:
        volts[0] = first_v
    low = np.minimum(volts, found.terminal_min_v) if lowest else volts
    return Measurement(label=label, run=replace(run, volts=volts, low_v=low, high_v=volts))


def outlook(
    case: Case,
    runs: Sequence[BenchRun],
    found: Fit,
    stopped: Stopped = lambda: False,
    known: Mapping[str, float] | None = None,
) -> tuple[Prospect, ...]:
    """What each measurement would bring beside the runs that are there, the best first.

    Parameters
    ----------
    case, runs, known
        As they were given to `fit`.
    found : Fit
        What it found; done.
    stopped : callable, optional
        Asked before every evaluation of the model; nothing is found once it says so.
    """
    fitted = case.with_scenario(with_values(case.scenario, found.found))
    begun = [
        replace(run, conditions=replace(run.conditions, connected=one.connected))
        for run, one in zip(runs, found.after, strict=True)
    ]
    chosen = [parameter(fitted.scenario, v.parameter.path) for v in found.values]
    present = Together(fitted, begun, chosen, stopped, known or {})
    try:
        said = said_by(present, _at(present, found))
        now = half_widths(Weighing(said), len(chosen))[1]
        prospects = []
        for one in measurements(fitted):
            more = Together(fitted, [one.run], chosen, stopped, known or {})
            own = said_by(more, np.zeros_like(more.low))
            weighing = Weighing(_beside(present, said, more, own))
            prospects.append(_prospect(one, found, now, half_widths(weighing, len(chosen))[1]))
    except Halt:
        return ()
    return tuple(sorted(prospects, key=lambda p: -p.gain))


def best_of(prospects: Sequence[Prospect]) -> Prospect | None:
    """The measurement to make next; None where none is worth it."""
    if not prospects or prospects[0].gain < -np.log(WORTH):
        return None
    return prospects[0]


def _at(present: Together, found: Fit) -> FloatArray:
    """The unknowns at the solution, counted from the fitted values."""
    at = np.zeros_like(present.low)
    for part, place, volts in zip(present.parts, present.places, found.begins_v, strict=True):
        own = place[len(present.chosen) :]
        if len(volts) == len(own):
            first = np.array([start.first_v for start in part.starts])
            at[own] = (np.array(volts) - first) / SCALE_V
    return np.asarray(np.clip(at, present.low, present.high))


def _beside(
    present: Together, said: Sequence[Said], more: Together, own: Sequence[Said]
) -> tuple[Said, ...]:
    """What the runs say, and what a measurement would, of the unknowns of both."""
    n, known = len(present.chosen), len(present.low)
    names = [one.name for one in present.unsure]
    places = [
        names.index(one.name) if one.name in names and one.name else len(names) + k
        for k, one in enumerate(more.unsure)
    ]
    things, unknowns = len(names) + len(more.unsure), known + len(more.low) - n
    noise = [one.variance / w**2 for one, w in zip(said, present.weights, strict=True)]
    spread_out = [
        replace(
            one,
            jacobian=_placed(one.jacobian, range(known), unknowns),
            columns=_placed(one.columns, range(len(names)), things),
            otherwise=_placed(one.otherwise, range(len(names)), things),
        )
        for one in said
    ]
    at = [*range(n), *range(known, unknowns)]
    return (
        *spread_out,
        *(
            replace(
                one,
                jacobian=_placed(one.jacobian, at, unknowns),
                columns=_placed(one.columns, places, things),
                otherwise=_placed(one.otherwise, places, things),
                variance=float(np.median(noise)),
            )
            for one in own
        ),
    )


def _placed(columns: FloatArray, at: Sequence[int], width: int) -> FloatArray:
    out = np.zeros((len(columns), width))
    out[:, list(at)] = columns
    return out


def _prospect(one: Measurement, found: Fit, now: FloatArray, then: FloatArray) -> Prospect:
    """The ± afterwards: what a fit states now, less by what the measurement takes away."""
    stated = np.array([np.log1p(v.plus_minus / v.value) for v in found.values])
    after = np.where(now < KNOWN, stated * np.minimum(then / now, 1.0), np.minimum(then, stated))
    gains = np.log(np.minimum(stated, KNOWN) / np.minimum(after, KNOWN))
    return Prospect(
        measurement=one,
        expected=tuple(
            v.value * float(np.expm1(min(a, 50.0)))
            for v, a in zip(found.values, after.tolist(), strict=True)
        ),
        gain=float(gains.sum()),
    )

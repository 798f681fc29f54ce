"""The six checks, each read from a study and put into a sentence."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, isfinite

import numpy as np

from explorer.advice import safety
from explorer.advice.readings.one import Study
from explorer.advice.verdict import NO_LIMIT, Check, Hazard
from explorer.engine.system import WhenReady
from explorer.physics import load as ld
from explorer.quantity import show
from explorer.scenario.ratings import ratings
from explorer.text import figure, say

PULSE_MARGIN = 1.1
"""Margin wanted for the droop of a pulse, which follows from part data (own judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DeepestPulse:
    """The phase that pulls the terminals lowest."""

    operation: str
    operation_index: int
    phase_index: int
    store_v: float
    terminal_v: float
    step_v: float
    ramp_v: float

    @property
    def droop_v(self) -> float:
        """Fall from the open-circuit voltage before the pulse. [V]"""
        return self.store_v - self.terminal_v


def checks(study: Study) -> tuple[Check, ...]:
    """All six checks in their fixed order."""
    return (
        _starts(study),
        _balance(study),
        _dark(study),
        _pulse(study),
        safety.ratings_check(study.scenario, ratings(study.scenario, study.system)),
        _service(study),
    )


def _starts(study: Study) -> Check:
    first, allowed = study.first, study.scenario.margins.start_within_h * 3600.0
    wanted = study.scenario.design_margin
    if isfinite(first.seconds):
        margin = allowed / max(first.seconds, 1e-9)
        if first.connects < 2:
            sentence = say(
                "From empty, the first operation comes {time} after the light; {allowed} is "
                "allowed.",
                time=show(first.seconds, "s"), allowed=show(allowed, "s"),
            )
        else:
            sentence = say(
                "From empty, the first operation comes {time} after the light after {n} connects; "
                "{allowed} is allowed.",
                time=show(first.seconds, "s"), n=f"{first.connects:.0f}",
                allowed=show(allowed, "s"),
            )
    elif first.connects >= 1:
        margin = 0.0
        sentence = say(
            "It never gets past its start-up: each try empties the store before the device is "
            "up ({n} tries seen).",
            n=f"{first.connects:.0f}",
        )
    else:
        margin = 0.0
        connect = study.scenario.load.connect_V
        sentence = say(
            "From empty, the store only reaches {volts} in {time}; it connects at {connect}.",
            volts=show(first.stuck_v, "V"), time=show(first.looked_s, "s"),
            connect=show(connect, "V"),
        )
    return Check(
        name="starts", value=first.seconds, limit=allowed, unit="s",
        margin=min(margin, NO_LIMIT), wanted=wanted, sentence=sentence,
    )


def _balance(study: Study) -> Check:
    margin = study.available_c / study.needed_c if study.needed_c > 0 else NO_LIMIT
    period = study.engine.edges[-1]
    volts = study.scenario.load.connect_V
    got, need = (x * volts / period for x in (study.available_c, study.needed_c))
    if margin >= 1:
        sentence = say(
            "The light brings {got} on average at the connect voltage, which covers the {need} "
            "that device, leakage and charger take.",
            got=show(got, "W"), need=show(need, "W"),
        )
    else:
        sentence = say(
            "The light brings {got} on average at the connect voltage, which does not cover the "
            "{need} that device, leakage and charger take.",
            got=show(got, "W"), need=show(need, "W"),
        )
    return Check(
        name="balance", value=got, limit=need, unit="W", margin=min(margin, NO_LIMIT),
        wanted=study.scenario.design_margin, sentence=sentence,
    )


def _dark(study: Study) -> Check:
    wanted = study.scenario.design_margin
    if not study.dark:
        return Check(
            name="dark", value=inf, limit=0.0, unit="s", margin=NO_LIMIT, wanted=wanted,
            sentence=say(
                "The light always gives more than the device takes; there is no dark stretch."
            ),
        )
    worst = min(study.dark, key=lambda d: d.available_s / d.needed_s)
    margin = worst.available_s / worst.needed_s
    lasts, needed = show(worst.available_s, "s"), show(worst.needed_s, "s")
    if margin >= 19.9:
        lasts = say("more than {time}", time=lasts)
    if worst.closure:
        asked = say("the closure lasts {time}", time=needed)
    else:
        asked = say("the dark stretch lasts {time}", time=needed)
    if study.system.load.reserve_j <= 0:
        sentence = say(
            "From {volts} the store lasts {time} in the dark; {asked}.",
            volts=show(worst.begin_v, "V"), time=lasts, asked=asked,
        )
    else:
        sentence = say(
            "From {volts} the store lasts {time} in the dark, keeping {energy} for the last safe "
            "action; {asked}.",
            volts=show(worst.begin_v, "V"), time=lasts,
            energy=show(study.system.load.reserve_j, "J"), asked=asked,
        )
    return Check(
        name="dark", value=worst.available_s, limit=worst.needed_s, unit="s",
        margin=min(margin, NO_LIMIT), wanted=wanted, sentence=sentence,
    )


def lowest_working_voltage(study: Study) -> float:
    """Store voltage at which the deepest pulse must be expected. [V]

    The lowest at which one begins in the repeating course; where the course runs flat or no
    pulse begins, the disconnect threshold, since the load switch lets none begin below it.
    """
    cut = study.scenario.load.disconnect_V
    if study.course.run.tally.cut_offs > 0 or not np.isfinite(study.lowest_between_v):
        return max(cut, 1e-3)
    return max(study.lowest_between_v, cut)


def deepest_pulse(study: Study, store_v: float) -> DeepestPulse | None:
    """The phase with the lowest terminal voltage, if there is any.

    Pulses begin at a store voltage; those that wait for a higher one begin there.
    """
    system, field = study.system, study.engine.field
    esr = field.curve.esr_ohm
    found: DeepestPulse | None = None
    for i, op in enumerate(system.load.operations):
        ready_v = op.schedule.ready_v if isinstance(op.schedule, WhenReady) else 0.0
        start_v = min(max(store_v, ready_v), float(field.open_v[-1]))
        q = field.charge_at(start_v)
        for k, phase in enumerate(op.phases):
            draw = system.load.sleep + phase.draw + ld.Draw(current_a=system.quiescent_a)
            first_v = float(field.voltage_at(q))
            begin_v = float(ld.terminal_voltage(first_v, 0.0, draw, esr))
            if begin_v > 0:
                amps = float(ld.drawn_current(draw, begin_v))
                q = max(q - amps * phase.duration_s, 0.0)
                last_v = float(field.voltage_at(q))
                end_v = float(ld.terminal_voltage(last_v, 0.0, draw, esr))
                lowest = min(begin_v, end_v) if end_v > 0 else 0.0
            else:
                last_v, lowest = first_v, 0.0
            if found is None or lowest < found.terminal_v:
                found = DeepestPulse(
                    operation=op.name, operation_index=i, phase_index=k, store_v=start_v,
                    terminal_v=lowest, step_v=max(last_v - lowest, 0.0),
                    ramp_v=start_v - last_v,
                )
    return found


def _pulse(study: Study) -> Check:
    low = lowest_working_voltage(study)
    pulse = deepest_pulse(study, low)
    minimum = study.system.load.minimum_v
    if pulse is None:
        return Check(
            name="pulse", value=low, limit=minimum, unit="V", margin=NO_LIMIT,
            wanted=PULSE_MARGIN, sentence=say("The device has no pulses."),
        )
    low = pulse.store_v
    room = low - minimum
    margin = room / pulse.droop_v if pulse.droop_v > 0 else NO_LIMIT
    if pulse.terminal_v <= 0:
        sentence = say(
            "“{operation}” asks for more power than the store's series resistance passes at "
            "{volts}; the voltage collapses.",
            operation=pulse.operation, volts=show(low, "V"),
        )
        margin = min(margin, 0.5)
    else:
        sentence = say(
            "“{operation}” pulls the terminals from {volts} to {lowest}; the device needs {need}.",
            operation=pulse.operation, volts=show(low, "V"), lowest=show(pulse.terminal_v, "V"),
            need=show(minimum, "V"),
        )
    return Check(
        name="pulse", value=pulse.terminal_v, limit=minimum, unit="V",
        margin=float(np.clip(margin, 0.0, NO_LIMIT)), wanted=PULSE_MARGIN, sentence=sentence,
    )


def served_shares(study: Study) -> list[float]:
    """Runs served over runs wanted for every operation, at most 1."""
    return [
        min(s / w, 1.0) if w > 0 else 1.0
        for s, w in zip(study.served, study.wanted, strict=True)
    ]


def _service(study: Study) -> Check:
    asked = study.scenario.margins.served_share
    shares = served_shares(study)
    if not shares:
        return Check(
            name="service", value=1.0, limit=asked, unit="", margin=NO_LIMIT, wanted=1.0,
            sentence=say("The device has no operations to serve."),
        )
    worst = int(np.argmin(shares))
    # Runs are whole and a period cuts one in two: half a run is no failure.
    slack = 0.5 / study.wanted[worst] if study.wanted[worst] > 0 else 0.0
    share = shares[worst]
    name = study.scenario.load.operations[worst].name
    if share + slack >= asked:
        share = max(share, asked)
    sentence = say(
        "“{operation}” completes {share} % of the runs that are wanted; {asked} % is asked for.",
        operation=name, share=figure(f"{100 * shares[worst]:.4g}"),
        asked=figure(f"{100 * asked:g}"),
    )
    return Check(
        name="service", value=shares[worst], limit=asked, unit="",
        margin=share / asked if asked > 0 else NO_LIMIT, wanted=1.0, sentence=sentence,
    )


def hazards(study: Study) -> tuple[Hazard, ...]:
    """Dangers to people or parts, apart from whether the design works."""
    return safety.hazards(study.scenario, ratings(study.scenario, study.system))


__all__ = ["NO_LIMIT", "Study", "checks", "deepest_pulse", "hazards"]

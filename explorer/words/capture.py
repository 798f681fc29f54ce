"""What a captured current and its reduction say in words."""

from __future__ import annotations

import numpy as np

from explorer.advice.capture.habit import Habit
from explorer.advice.capture.phases import MOST_ERROR, Reduced
from explorer.advice.capture.record import Capture
from explorer.quantity import show
from explorer.scenario.demand import Load
from explorer.text import figure, joined, say
from explorer.words.drawers import Table

EXACT = 1e-9
"""A share of the charge that is lost below this is rounding."""
LEAST_SAID = 1e-4
"""Errors below this are rounding, and nobody wants their digits."""


def readings_sentence(capture: Capture) -> str:
    """How many readings there are, over which time, and between which currents."""
    return say(
        "{n} readings over {span}, {step} apart; {low} to {high}.",
        n=len(capture.time_s),
        span=show(capture.span_s, "s", 4),
        step=show(float(np.median(np.diff(capture.time_s))), "s"),
        low=show(float(capture.current_a.min()), "A"),
        high=show(float(capture.current_a.max()), "A"),
    )


def habit_sentence(known: Habit) -> str:
    """Sleep current and period that were found, or that none was."""
    asleep = (
        say("No sleep is seen in it")
        if known.sleep_a is None
        else say("Asleep it draws {current} on average", current=show(known.sleep_a, "A"))
    )
    repeats = (
        say("nothing is seen to repeat.")
        if known.period_s is None
        else say("it repeats every {time}.", time=show(known.period_s, "s", 4))
    )
    return joined("; ", (asleep, repeats))


def cycle_sentence(found: Reduced, from_s: float) -> str:
    """Which cycle was taken, and what it takes out of a store."""
    return say(
        "The cycle from {start} lasts {length} and takes {charge}, on average {current}.",
        start=show(from_s, "s", 4),
        length=show(found.interval_s, "s", 4),
        charge=show(found.charge_c, "C", 4),
        current=show(found.charge_c / found.interval_s, "A"),
    )


def phases_sentence(found: Reduced) -> str:
    """How many phases it became, and what is drawn beside them."""
    if not found.rests:
        return say("{n} phases; this cycle has no rest at its end.", n=len(found.extra_a))
    return say(
        "{n} phases; at rest this cycle draws {current}.",
        n=len(found.extra_a),
        current=show(found.sleep_a, "A"),
    )


def charge_sentence(found: Reduced) -> str:
    """How well its charge is kept."""
    if found.charge_error < EXACT:
        return say("Charge: kept exactly.")
    return say("Charge: missed by {share} %.", share=_percent(found.charge_error))


def droop_sentence(found: Reduced) -> str:
    """How well the deepest droop is kept, whatever the store."""
    kept = say(
        "Deepest droop: within {share} % of the capture's in any store.",
        share=_percent(max(found.droop_error, LEAST_SAID)),
    )
    if found.droop_error <= MOST_ERROR:
        return kept
    return joined(
        " ",
        (
            kept,
            say(
                "That is more than {most} %. Choose a cycle that ends at rest, or average the "
                "noise away in the instrument.",
                most=_percent(MOST_ERROR),
            ),
        ),
    )


def side_note(load: Load) -> tuple[str, ...]:
    """Where the current must have been measured; nothing where it makes no difference."""
    if load.regulator.kind == "none":
        return ()
    return (
        say("The load has a regulator: its phases are currents behind it, on the device's side."),
    )


def found_sentences(capture: Capture, known: Habit) -> tuple[str, ...]:
    """What a capture holds: readings, sleep and period."""
    return (readings_sentence(capture), habit_sentence(known))


def kept_sentences(found: Reduced) -> tuple[str, ...]:
    """What the phases keep of a cycle."""
    return (phases_sentence(found), charge_sentence(found), droop_sentence(found))


def sentences(capture: Capture, known: Habit, found: Reduced, from_s: float) -> tuple[str, ...]:
    """All of it, one sentence after another."""
    return (
        *found_sentences(capture, known),
        *capture.notes,
        cycle_sentence(found, from_s),
        *kept_sentences(found),
    )


def phases_table(found: Reduced) -> Table:
    """Phases as columns for a file."""
    edges, amps = found.steps()
    return {
        "from_s": edges[:-2].tolist(),
        "duration_s": found.duration_s.tolist(),
        "current_A": amps[:-1].tolist(),
        "beside_sleep_A": found.extra_a.tolist(),
    }


def _percent(share: float) -> str:
    return figure(f"{100.0 * share:.2g}")

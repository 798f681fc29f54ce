"""All text that the window shows about an assessment; pure, so it is tested without a widget."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from explorer.advice.assess import Assessment, PulseView
from explorer.advice.verdict import CHECK_LABELS, CHECK_WORDS, State
from explorer.engine.columns import Columns
from explorer.engine.trace import Trace
from explorer.quantity import show
from explorer.text import joined, say
from explorer.words.figures import (
    STATE_WORDS,
    bind_units,
    check_margin_text,
    margin_text,
    quantity_text,
    small_volts,
    value_brief,
    value_text,
    volts,
)
from explorer.words.moments import clock

_PINNED = say("pinned")


@dataclass(frozen=True, slots=True, kw_only=True)
class SignText:
    """What the sign says."""

    state: State
    word: str
    reason: str
    number: str
    caption: str
    spoken: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckText:
    """One of the six check rows."""

    name: str
    label: str
    state: State
    value: str
    margin: str
    sentence: str
    spoken: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A label and a value beside it."""

    label: str
    value: str
    meaning: str = ""
    """What stands behind the value, where that is more than its label says."""


def sign(assessment: Assessment) -> SignText:
    """Word, reason and number of the verdict."""
    verdict = assessment.verdict
    check = verdict.governing
    number = margin_text(check.margin)
    label = CHECK_WORDS.get(check.name, check.name)
    caption = joined(": ", (label, value_text(check)))
    if check.wanted > 1:
        wanted = margin_text(check.wanted)
        caption = say("{reached}; {wanted} required", reached=caption, wanted=wanted)
    hazards = (say("Hazard: {title}.", title=hazard.title) for hazard in verdict.hazards)
    return SignText(
        state=verdict.state,
        word=verdict.word,
        reason=bind_units(check.sentence),
        number=number,
        caption=caption,
        spoken=joined(" ", (verdict.word + ".", check.sentence, *hazards)),
    )


def check_rows(assessment: Assessment) -> tuple[CheckText, ...]:
    """The six checks, in their fixed order."""
    rows = []
    for check in assessment.verdict.checks:
        label = CHECK_LABELS.get(check.name, check.name.capitalize())
        value, margin = value_text(check), check_margin_text(check)
        shown = value_brief(check)
        rows.append(
            CheckText(
                name=check.name,
                label=label,
                state=check.state,
                value=shown,
                margin=margin,
                sentence=bind_units(check.sentence),
                spoken=say(
                    "{check}: {state}, {value}, margin {margin}",
                    check=label,
                    state=STATE_WORDS[check.state],
                    value=value,
                    margin=margin,
                ),
            )
        )
    return tuple(rows)


def cursor_lines(
    trace: Trace,
    time_s: float,
    ghost: Trace | None,
    weekdays: bool,
    offset_s: float = 0.0,
    ghost_name: str = _PINNED,
    width_s: float = 0.0,
    scale: str | None = None,
) -> tuple[Line, ...]:
    """What every curve reads at one moment.

    Parameters
    ----------
    trace, ghost : Trace
        The design, and another one where there is one.
    time_s : float
        Moment on the trace. [s]
    weekdays : bool
        Whether the trace runs on a calendar week.
    offset_s : float
        Time from Monday 00:00 to the beginning of the trace. [s]
    ghost_name : str
        What the other design is called.
    width_s : float
        Time around the moment whose lowest terminal voltage and mean currents are told. [s]
    scale : str or None
        By which the light of a log is multiplied, where it is.
    """
    finest = width_s if width_s > 0.0 else 60.0
    lines = [Line(label=clock(time_s, weekdays, offset_s, finest), value="")]
    row = spot(trace, time_s, width_s)
    if row is None:
        lines.append(Line(label=say("not followed so far"), value=""))
    else:
        drawn = show(float(row.load_a[0]), "A") if row.connected[0] else say("off")
        lines += [
            Line(label=say("store"), value=volts(float(row.store_v[0]))),
            Line(label=say("in the pulse"), value=volts(float(row.terminal_min_v[0]))),
            Line(
                label=say("light") if scale is None else say("light ({scale})", scale=scale),
                value=show(float(row.illuminance_lx[0]), "lx"),
            ),
            Line(label=say("charging"), value=show(float(row.harvest_a[0]), "A")),
            Line(label=say("load"), value=drawn),
        ]
    other = None if ghost is None else spot(ghost, time_s, 0.0)
    if other is not None:
        lines.append(Line(label=ghost_name, value=volts(float(other.store_v[0]))))
    return tuple(lines)


def between_lines(trace: Trace, mark_s: float, cursor_s: float) -> tuple[Line, ...]:
    """What happens between a moment that is held and the cursor.

    Mean currents are exact, pulses, inrush and leakage included; charge is what the store gains.
    """
    first, last = (min(max(t, 0.0), trace.span_s) for t in sorted((mark_s, cursor_s)))
    if first == last:
        return ()
    row = trace.rows(np.array([first]), np.array([last]))
    charge_c, _ = trace.charge_at(np.array([first, last]))
    volt = trace.at(np.array([first, last])).store_v
    return (
        Line(label=say("Δ time from the mark"), value=show(last - first, "s", 4)),
        Line(label=say("Δ store"), value=_signed(float(volt[1] - volt[0]), "V")),
        Line(label=say("charge gained"), value=_signed(float(charge_c[1] - charge_c[0]), "C")),
        Line(label=say("mean charging"), value=show(float(row.harvest_a[0]), "A")),
        Line(label=say("mean load"), value=show(float(row.load_a[0]), "A")),
        Line(label=say("mean leakage"), value=show(float(row.leakage_a[0]), "A")),
    )


def _signed(value: float, unit: str) -> str:
    """A difference: one that falls bears a minus."""
    shown = show(abs(value), unit)
    return joined("", ("−" if value < 0.0 else "+", shown)) if value else shown


def spot(trace: Trace, time_s: float, width_s: float) -> Columns | None:
    """The row of one moment, with minima and means around it; None beyond what was followed."""
    if not 0.0 <= time_s <= trace.span_s * (1.0 + 1e-12):
        return None
    return trace.around(np.array([min(time_s, trace.span_s)]), width_s)


def pulse_lines(pulse: PulseView) -> tuple[Line, ...]:
    """The numbers beside the zoomed pulse."""
    lowest = float(np.min(pulse.terminal_v))
    return (
        Line(label=say("ESR step"), value=small_volts(pulse.step_v)),
        Line(label=say("ramp"), value=small_volts(pulse.ramp_v)),
        Line(label=say("lowest"), value=volts(lowest)),
        Line(label=say("minimum"), value=volts(pulse.minimum_v)),
    )


def trace_summary(assessment: Assessment) -> str:
    """The trace in one sentence, for those who do not see it."""
    trace = assessment.trace
    ends = trace.voltages(np.array([0.0, trace.span_s]))
    restarts = sum(mark.kind == "connect" for mark in assessment.marks)
    return say(
        "Store voltage over {time}: from {first} to {last}, highest {highest}, lowest in a pulse "
        "{lowest}, connects {n} times.",
        time=show(trace.span_s, "s"),
        first=volts(float(ends.store_v[0])),
        last=volts(float(ends.store_v[1])),
        highest=volts(trace.extremes().highest_store_v),
        lowest=volts(trace.extremes().lowest_ever_v),
        n=restarts,
    )


__all__ = [
    "STATE_WORDS",
    "CheckText",
    "Line",
    "SignText",
    "bind_units",
    "check_rows",
    "cursor_lines",
    "margin_text",
    "pulse_lines",
    "quantity_text",
    "sign",
    "small_volts",
    "spot",
    "trace_summary",
    "value_text",
    "volts",
]

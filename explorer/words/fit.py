"""What a comparison with a logged run, and a fit to it, say in words."""

from __future__ import annotations

from math import isfinite

from explorer.advice.bench.fit import Fit, Fitted
from explorer.advice.bench.forecast import BAND_SHARE, Agreement
from explorer.advice.bench.parameters import Kind
from explorer.quantity import show
from explorer.text import figure, joined, say, texts

CLOSE_SHARE = 0.05
"""Share of the readings that may lie outside of the band in a forecast that follows a run."""

_ALONE: dict[Kind, str] = texts({
    "light": "Log a stretch in the light in which the store is not full.",
    "drain": "Log a long dark stretch.",
    "size": "Log a run over a wider range of voltage.",
    "resistance": "Log with several readings within each pulse.",
    "pulse": "Log more pulses in the dark.",
    "other": "Measure it by itself.",
})  # fmt: skip
"""What would determine one value."""
_BOTH_SCALE = say(
    "Both only scale the charging current: measure the panel's short-circuit current, or fit one."
)
_DARK = say("Log a dark stretch: there the light does nothing.")
_RESISTOR = say("Log a discharge in the dark through a known resistor.")
_OFF = say("Log a dark stretch with the device taken off, and one with it.")
_APART: dict[frozenset[Kind], str] = {
    frozenset(("light",)): _BOTH_SCALE,
    frozenset(("light", "drain")): _DARK,
    frozenset(("light", "pulse")): _DARK,
    frozenset(("light", "size")): _RESISTOR,
    frozenset(("drain",)): _OFF,
    frozenset(("drain", "pulse")): say("Log a dark stretch with the operations switched off."),
    frozenset(("drain", "size")): _RESISTOR,
    frozenset(("pulse", "size")): _RESISTOR,
    frozenset(("resistance", "pulse")): say("Log a pulse through a known resistor."),
}
_BY_ITSELF = say("Measure one of them by itself.")

_NAMED = 1.3
"""By how much a ± must exceed that of the readings for what is not fitted to be named."""


def small_volts(volts: float) -> str:
    """A deviation, to a tenth of a millivolt and two digits.

    Examples
    --------
    >>> small_volts(0.01234), small_volts(0.0)
    ('12 mV', '0 V')
    """
    return show(0.0 if abs(volts) < 5e-5 else volts, "V", 2)


def percent(share: float) -> str:
    """A share to two digits.

    Examples
    --------
    >>> percent(0.137), percent(1.0)
    ('14 %', '100 %')
    """
    return show(100.0 * share, "", 2) + " %"


def agreement_sentences(found: Agreement) -> tuple[str, ...]:
    """How well the forecast follows a run: first the answer, then its numbers."""
    if found.outside_share == 0.0:
        answer = say("The forecast follows the log: every reading lies within its band.")
    elif found.outside_share <= CLOSE_SHARE:
        answer = say(
            "The forecast follows the log; {share} of the readings lie outside of its band.",
            share=percent(found.outside_share),
        )
    else:
        answer = say(
            "The forecast does not follow the log: {share} of the readings lie outside of its "
            "band, first after {time}.",
            share=percent(found.outside_share),
            time=show(found.stretches[0][0], "s"),
        )
    worst_v, worst_s = found.worst
    numbers = say(
        "RMS deviation {rms}, mean {bias}, largest {worst} after {time}.",
        rms=small_volts(found.rms_v),
        bias=small_volts(found.bias_v),
        worst=small_volts(worst_v),
        time=show(worst_s, "s"),
    )
    return (answer, numbers)


def band_sentence() -> str:
    """What the band is."""
    return say(
        "The band is the forecast's pulse envelope and {share} of the full voltage on both sides.",
        share=percent(BAND_SHARE),
    )


def fit_sentence(found: Fit) -> str:
    """Where a search stands, or how it ended."""
    if not found.done:
        return say(
            "Fitting: {n} forecasts so far, {rms} left.",
            n=found.evaluations,
            rms=small_volts(found.missed_v),
        )
    if not found.is_good:
        return say(
            "The fit did not converge, so its values are not offered. Fit fewer values, or begin "
            "nearer to the log."
        )
    if not found.is_followed:
        return say(
            "The fit leaves {after} of {before}, more than all tolerances together explain: "
            "something in this log is not in the design, so no value counts as determined.",
            after=small_volts(found.missed_v),
            before=small_volts(found.missed_before_v),
        )
    return say(
        "The fit reduces the RMS deviation from {before} to {after}.",
        after=small_volts(found.missed_v),
        before=small_volts(found.missed_before_v),
    )


def value_text(found: Fitted) -> str:
    """A fitted value with its ±.

    That is the upper side of an interval in the logarithm: beyond the value it has no lower one.
    """
    unit = found.parameter.unit
    value = show(found.value, unit, 4)
    if not isfinite(found.plus_minus) or found.plus_minus > 1e3 * abs(found.value):
        return joined(" ", (value, say("± unknown")))
    if found.plus_minus > abs(found.value):
        most = show(found.value + found.plus_minus, unit, 2)
        return joined(" ", (value, say("or up to {most}", most=most)))
    return joined(" ± ", (value, show(found.plus_minus, unit, 2)))


def remark(found: Fit, index: int) -> str:
    """What must be known of one fitted value; empty where nothing must."""
    if not found.done:
        return ""
    own = found.values[index]
    parts: list[str] = []
    others = sorted({j for group in found.inseparable if index in group for j in group} - {index})
    for other in others:
        kinds = frozenset((own.parameter.kind, found.values[other].parameter.kind))
        parts.append(
            say(
                "This run cannot tell it apart from {label} (correlation {r}).",
                label=found.values[other].parameter.label,
                r=figure(f"{found.correlation[index, other]:.3f}".replace("-", "−")),
            )
        )
        hint = _APART.get(kinds, _BY_ITSELF)
        if hint not in parts:
            parts.append(hint)
    if isfinite(own.plus_minus) and own.plus_minus > _NAMED * own.by_readings:
        alone = show(own.by_readings, own.parameter.unit, 2)
        parts.append(
            say(
                "The readings alone give ± {own}; the rest is what is not fitted, most of it: "
                "{label}.",
                own=alone,
                label=own.mostly,
            )
            if own.mostly
            else say("The readings alone give ± {own}; the rest is what is not fitted.", own=alone)
        )
    if own.at_limit:
        parts.append(say("The search ended at the limit of its range."))
    if not own.determined and not others and found.is_followed:
        parts.append(say("This run does not determine it."))
        if own.mostly and own.by_readings <= 0.5 * abs(own.value):
            # Another run like this would leave as much open.
            parts.append(
                say(
                    "Measure this by itself first, and state how well it is known: {label}.",
                    label=own.mostly,
                )
            )
        else:
            parts.append(_ALONE[own.parameter.kind])
    return joined(" ", parts)

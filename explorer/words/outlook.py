"""What a story of several runs tells beside its values: what to measure next, what has changed."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

from explorer.advice.bench.drift import Change, Drift
from explorer.advice.bench.fit import Fit
from explorer.advice.bench.outlook import Prospect, best_of
from explorer.quantity import show
from explorer.text import Text, figure, joined, say
from explorer.words.drawers import Table
from explorer.words.fit import percent

NARROWED = 0.95
"""Share of a ± from which on it counts as narrowed."""


def next_sentences(found: Fit, prospects: Sequence[Prospect]) -> tuple[Text, ...]:
    """Which measurement to make next and what it would bring; nothing where none was looked at."""
    if not prospects:
        return ()
    best = best_of(prospects)
    if best is None:
        return (
            say(
                "None of the measurements that were looked at would narrow the ± of these values "
                "by much."
            ),
        )
    return (
        say("Measure next: {what}.", what=best.measurement.label),
        joined(" ", (say("Expected:"), joined("; ", narrowed(found, best)) + ".")),
    )


def narrowed(found: Fit, one: Prospect) -> tuple[Text, ...]:
    """What a measurement would make of the ± of each value that it narrows."""
    return tuple(
        say(
            "{label} from {now} to {then}",
            label=value.parameter.label,
            now=_plus_minus(value.plus_minus, value.value),
            then=_plus_minus(then, value.value),
        )
        for value, then in zip(found.values, one.expected, strict=True)
        if then < NARROWED * value.plus_minus
    )


def _plus_minus(amount: float, value: float) -> Text:
    if not isfinite(amount) or amount > abs(value):
        return say("unknown")
    return joined(" ", ("±", percent(amount / abs(value))))


def outlook_table(found: Fit | None, prospects: Sequence[Prospect]) -> Table:
    """Every measurement that was looked at, with the ± of each value afterwards."""
    table: Table = {"measurement": [one.measurement.label for one in prospects]}
    for i, value in enumerate(found.values if found is not None else ()):
        table[f"{value.parameter.path} ± now"] = [value.plus_minus for _ in prospects]
        table[f"{value.parameter.path} ± then"] = [one.expected[i] for one in prospects]
    return table


def drift_sentences(found: Drift) -> tuple[Text, ...]:
    """What has changed between two sittings, value by value, and what was taken as the same."""
    lines = [_change_sentence(one, found.apart_s) for one in found.changes]
    if found.same:
        lines.append(
            say(
                "Taken as the same both times: {things}. Their errors move both values alike and "
                "hardly count in the change.",
                things=joined(", ", found.same),
            )
        )
    lines.append(
        say("It is assumed that the same meters were used both times.")
        if found.same_meter
        else say("Other meters were used the second time, so their errors count twice.")
    )
    lines.append(
        say("Light, temperature, the clock and a current that was drawn count anew each time.")
    )
    return tuple(lines)


def _change_sentence(one: Change, apart_s: float | None) -> Text:
    label = one.parameter.label
    if not one.is_told:
        return say("{label}: these runs do not tell whether it has changed.", label=label)
    unit = one.parameter.unit
    ends = {
        "label": label,
        "before": show(one.before, unit, 4),
        "after": show(one.after, unit, 4),
        "change": _signed_percent(one.ratio - 1.0),
        "low": _signed_percent(one.ratio_low - 1.0),
        "high": _signed_percent(one.ratio_high - 1.0),
    }
    if not one.is_seen:
        return say(
            "{label}: no change is seen; {before} then, {after} now, a change of {change} of "
            "which all from {low} to {high} is possible.",
            **ends,
        )
    if apart_s is None or apart_s <= 0.0:
        return say(
            "{label} has changed by {change} ({low} to {high}): {before} then, {after} now.", **ends
        )
    return say(
        "{label} has changed by {change} ({low} to {high}) in {time}: {before} then, {after} now.",
        time=show(apart_s, "s", 2), **ends,
    )  # fmt: skip


def _signed_percent(share: float) -> Text:
    """A change as a share, with its sign.

    Examples
    --------
    >>> _signed_percent(-0.1234), _signed_percent(0.02)
    ('−12 %', '+2 %')
    """
    digits = 2 if abs(share) < 1.0 else 3
    amount = float(f"{100 * share:.{digits}g}")
    return joined(" ", (figure(f"{amount:+g}".replace("-", "−")), "%"))


def drift_table(found: Drift | None) -> Table:
    """What has changed, a row for each value."""
    changes = found.changes if found is not None else ()
    return {
        "path": [one.parameter.path for one in changes],
        "quantity": [one.parameter.label for one in changes],
        "unit": [one.parameter.unit for one in changes],
        "before": [one.before for one in changes],
        "after": [one.after for one in changes],
        "ratio": [one.ratio for one in changes],
        "ratio_low": [one.ratio_low for one in changes],
        "ratio_high": [one.ratio_high for one in changes],
        "log_plus_minus": [one.plus_minus for one in changes],
        "log_plus_minus_each_for_itself": [one.each_for_itself for one in changes],
        "seen": [str(bool(one.is_seen)).lower() for one in changes],
        "told": [str(bool(one.is_told)).lower() for one in changes],
    }

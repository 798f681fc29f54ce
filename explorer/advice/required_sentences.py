"""What is said of the amounts that are asked of a design, each in a sentence."""

from __future__ import annotations

from math import floor, isinf

from explorer.advice.readings import Readings, Required
from explorer.quantity import show
from explorer.text import Text, figure, joined, say


def with_required(said: Text, found: Readings, *, serves: bool) -> Text:
    """The sentence about the course, with the amount that fares worst of those that are asked.

    Parameters
    ----------
    said : Text
        What is said of the course.
    found : Readings
        Of one design.
    serves : bool
        Whether the course serves everything; then a missed amount is told in its place.
    """
    if not found.required:
        return said
    missed = sum(float(one.margin[0]) < 1.0 for one in found.required)
    worst = min(found.required, key=lambda one: float(one.margin[0]))
    told = [required_sentence(worst)]
    if missed > 1:
        told.append(say("{n} of {m} amounts that are asked are missed.",
                        n=missed, m=len(found.required)))  # fmt: skip
    elif not missed and len(found.required) > 1:
        told = [say("All {n} amounts that are asked are reached.", n=len(found.required))]
    return joined(" ", told if serves and missed else (said, *told))


def required_sentence(one: Required) -> Text:
    """What a design reaches of an amount, and what is asked."""
    value, limit = float(one.value[0]), float(one.limit[0])
    light = "" if one.light_lx is None else show(float(one.light_lx[0]), "lx")
    if one.key == "operations_per_charge":
        if isinf(value):
            return say(
                "A full store serves its operations without end; {asked} are asked for.",
                asked=show(limit, ""),
            )
        if 1.0 <= value < 2.0:
            return say(
                "A full store serves 1 operation without light; {asked} are asked for.",
                asked=show(limit, ""),
            )
        return say(
            "A full store serves {n} operations without light; {asked} are asked for.",
            n=_count(value), asked=show(limit, ""),
        )
    if one.key == "operations_per_hour":
        if one.due < limit and value > 0.99 * one.due:
            return say(
                "In steady {light} it does all that is due, {n} an hour; {asked} are asked for, "
                "which takes a shorter interval.",
                light=light, n=show(value, ""), asked=show(limit, ""),
            )  # fmt: skip
        if show(value, "") == "1":
            return say(
                "In steady {light} it does 1 operation an hour; {asked} are asked for.",
                light=light, asked=show(limit, ""),
            )
        return say(
            "In steady {light} it does {n} operations an hour; {asked} are asked for.",
            light=light, n=show(value, ""), asked=show(limit, ""),
        )
    if one.key == "fill_within_h":
        if isinf(value):
            return say(
                "In steady {light} the empty store never gets filled; {asked} is allowed.",
                light=light, asked=show(limit, "s"),
            )
        return say(
            "In steady {light} the empty store is filled after {time}; {asked} is allowed.",
            light=light, time=show(value, "s"), asked=show(limit, "s"),
        )
    if one.key == "dark_days":
        return say(
            "A full store carries the device for {time} without light; {asked} is asked for.",
            time=say("any time") if isinf(value) else show(value, "s"), asked=show(limit, "s"),
        )
    return say(
        "The store counts as worn out after {n} years; {asked} are asked for.",
        n=show(value, ""), asked=show(limit, ""),
    )


def _count(value: float) -> str:
    """Whole runs as they are."""
    return figure(f"{floor(value)}") if value < 1e4 else show(value, "")


__all__ = ["required_sentence", "with_required"]

"""The device in the light of other places, as a small table."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from explorer.quantity import show
from explorer.text import Text, joined, say
from explorer.words.figures import margin_text

if TYPE_CHECKING:
    from explorer.advice.elsewhere import Charged

COLUMNS = (
    say("Place"), say("Light"), say("Empty to ready"), say("Empty to full"),
    say("Operations per hour"), say("Power in ÷ taken"),
)  # fmt: skip
SHORT = (say("Place"), say("Light"), say("Full after"), say("Runs per hour"))
"""Heads of a table that has little room; what they mean stands in the tip."""
MEANING = say(
    "In steady light, from empty; full with the device off. Operations per hour: what the light "
    "pays for."
)


def place_row(one: Charged) -> tuple[str, ...]:
    """The cells of one place."""
    return (
        joined("", (one.name,)), show(one.light_lx, "lx"), show(one.ready_s, "s"),
        show(one.full_s, "s"), show(float(f"{one.per_hour:.3g}"), ""), margin_text(one.balance),
    )


def place_sentence(one: Charged) -> Text:
    """One place in a line."""
    return say(
        "{place}, {light}: full after {time}; operations an hour: {n}.",
        place=joined("", (one.name,)), light=show(one.light_lx, "lx"), time=show(one.full_s, "s"),
        n=show(float(f"{one.per_hour:.3g}"), ""),
    )


def places_spoken(found: Sequence[Charged]) -> Text:
    """All places, one after the other."""
    return joined(" ", [place_sentence(one) for one in found])

"""What is said about a year of daylight."""

from __future__ import annotations

from collections.abc import Sequence

from explorer.quantity import show
from explorer.scenario.daylight import SkyMonth
from explorer.scenario.months_draft import JudgedMonths
from explorer.text import Text, figure, joined, say, texts

MONTHS = texts((
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
))  # fmt: skip


def months_summary(months: Sequence[SkyMonth]) -> Text:
    """Skies and temperatures of the months in one sentence."""
    sunny = [m.clear_share + m.partly_share for m in months]
    cold, warm = min(m.mean_C for m in months), max(m.mean_C for m in months)
    air = (
        say("all at {at}", at=show(cold, "°C"))
        if cold == warm
        else say("{cold} to {warm}", cold=show(cold, "°C"), warm=show(warm, "°C"))
    )
    if max(sunny) == 0.0:
        return say("Overcast throughout, the cautious choice; {air}.", air=air)
    return say(
        "{low} to {high} of the days with sun; {air}.",
        low=figure(f"{100 * min(sunny):.0f} %"), high=figure(f"{100 * max(sunny):.0f} %"), air=air,
    )


def months_fault(found: JudgedMonths) -> str:
    """What still keeps the months from being used; empty where nothing does."""
    if found.overfull:
        return say(
            "More than all days: {months}. Clear and partly cloudy may be 100 % together.",
            months=_named(found.overfull),
        )
    if found.unfinished:
        return say("A number is missing: {months}.", months=_named(found.unfinished))
    return ""


def _named(months: Sequence[int]) -> Text:
    return joined(", ", tuple(MONTHS[m] for m in months))

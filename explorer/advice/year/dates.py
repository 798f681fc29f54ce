"""Dates and months of a year as a person says them."""

from __future__ import annotations

from datetime import datetime

from explorer.text import Text, figure, say, texts

MONTH_NAMES: dict[int, str] = texts({
    1: "January", 2: "February", 3: "March", 4: "April", 5: "May", 6: "June", 7: "July",
    8: "August", 9: "September", 10: "October", 11: "November", 12: "December",
})  # fmt: skip


def month_name(moment: datetime) -> str:
    """The month of a moment."""
    return MONTH_NAMES[moment.month]


def date_text(moment: datetime) -> Text:
    """A date without its year."""
    return say("{day} {month}", day=figure(f"{moment.day}"), month=month_name(moment))


def months_text(first: datetime, last: datetime) -> Text:
    """In one month, or in several in a row, as a sentence begins."""
    if first.month == last.month:
        return say("In {month}", month=month_name(first))
    return say("From {first} to {last}", first=month_name(first), last=month_name(last))

"""Months of a year as a person says them."""

from __future__ import annotations

from datetime import datetime

from explorer.scenario.calendar import MONTH_NAMES
from explorer.text import Text, say


def month_name(moment: datetime) -> str:
    """The month of a moment."""
    return MONTH_NAMES[moment.month]


def months_text(first: datetime, last: datetime) -> Text:
    """In one month, or in several in a row, as a sentence begins."""
    if first.month == last.month:
        return say("In {month}", month=month_name(first))
    return say("From {first} to {last}", first=month_name(first), last=month_name(last))

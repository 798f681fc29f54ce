"""The amounts that are asked of a design, as they stand in tables."""

from __future__ import annotations

from dataclasses import dataclass

from explorer.advice.assess import Assessment
from explorer.advice.readings.required import required
from explorer.advice.required_sentences import required_sentence
from explorer.advice.verdict import State
from explorer.scenario.fields import describe
from explorer.scenario.model import Margins
from explorer.text import Text
from explorer.words.figures import amount_text, margin_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One amount in words."""

    label: str
    state: State
    value: str
    limit: str
    margin: str
    sentence: Text


def asked_rows(found: Assessment) -> tuple[Asked, ...]:
    """Every amount that is asked, with what the design reaches."""
    return tuple(
        Asked(
            label=describe(Margins, one.key).label,
            state="runs" if float(one.margin[0]) >= 1.0 else "falls_short",
            value=amount_text(float(one.value[0]), one.unit),
            limit=amount_text(float(one.limit[0]), one.unit),
            margin=margin_text(float(one.margin[0])),
            sentence=required_sentence(one),
        )
        for one in required(found.case)
    )

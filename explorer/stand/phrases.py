"""What the stand's page says: the one number, the line of cautions, the days on the axis."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise

from explorer.advice.assess import Assessment
from explorer.advice.cautions import Caution, cautions
from explorer.advice.checks import SHARE
from explorer.advice.verdict import Check
from explorer.engine.system import DAY_S
from explorer.quantity import show
from explorer.scenario.model import Scenario
from explorer.stand.challenges import Challenge
from explorer.state.knobs import Knob
from explorer.state.language import tr
from explorer.text import altered, figure, joined, say, texts
from explorer.words.readout import bind_units, margin_text, quantity_text

_TIME_WORDS = texts(
    {"d": ("{number} day", "{number} days"), "h": ("{number} hour", "{number} hours")}
)
_CLAUSE_END = re.compile(r"[.:;](?:\s|$)")
_MONTHS = texts(
    ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
)
LONGEST_LINE = 150
"""Characters that one line of cautions holds (own judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BigNumber:
    """The one number beside the word, and what it counts."""

    number: str
    caption: str

    @property
    def spoken(self) -> str:
        """Both as one phrase."""
        return joined(" ", (self.number, self.caption))


def duration_words(seconds: float) -> str:
    """A time as a visitor says it, to two digits.

    Examples
    --------
    >>> duration_words(239_400.0), duration_words(86_400.0), duration_words(0.02)
    ('2.8 days', '24 hours', '20 ms')
    """
    text = show(seconds, "s", 2)
    number, _, unit = text.partition(" ")
    if unit not in _TIME_WORDS:
        return text
    one, many = _TIME_WORDS[unit]
    return say(one if number == "1" else many, number=figure(number))


def task_text(challenge: Challenge, scenario: Scenario) -> str:
    """What a challenge asks for, with the time that wins it: its dark and the margin over it."""
    return say(
        "{invitation}: {time} without light",
        invitation=challenge.invitation,
        time=duration_words(challenge.closure_days * DAY_S * scenario.design_margin),
    )


def knob_label(knob: Knob) -> str:
    """What visitors read for what an engineer calls illuminance; other names stay."""
    return say("Light", "what visitors move") if knob.key == "light" else knob.label


def big_number(assessment: Assessment) -> BigNumber:
    """The number that the governing check turns on."""
    return number_of(assessment.verdict.governing)


def number_of(check: Check) -> BigNumber:
    """The number of one check, in words for a visitor."""
    if check.name == "starts":
        if math.isinf(check.value):
            return BigNumber(
                number=say("never", "before: starts"), caption=say("starts", "after: never")
            )
        return BigNumber(number=duration_words(check.value), caption=say("until it starts"))
    if check.name == "dark":
        if math.isinf(check.value):
            return BigNumber(number=say("no end"), caption=say("to its reserve"))
        return BigNumber(number=duration_words(check.value), caption=say("in the dark"))
    if check.name == "balance":
        if check.margin > 99:
            return BigNumber(number=say("plenty"), caption=say("of energy"))
        return BigNumber(number=margin_text(check.margin), caption=say("the energy it needs"))
    if check.name == "pulse":
        volts = quantity_text(max(check.value, 0.0), "V")
        return BigNumber(number=volts, caption=say("in the pulse"))
    if check.name == "service" and check.unit == SHARE:
        share = quantity_text(check.value, "share")
        return BigNumber(number=share, caption=say("of its work completed"))
    limit = say("of {limit}", limit=figure(f"{check.limit:.3g}"))
    return BigNumber(number=quantity_text(check.value, check.unit), caption=limit)


def picture_note(assessment: Assessment) -> str:
    """What is wrong with a design that falls short, where its curve does not show it.

    The curve is the store's voltage through the usual days: what happens to single units, in
    pulses, or in a closure that is only declared is not to be seen on it.
    """
    verdict = assessment.verdict
    if verdict.state != "falls_short":
        return ""
    check = verdict.governing
    pulse = next(c for c in verdict.checks if c.name == "pulse")
    if check.name in ("dark", "service") and pulse.margin < 1.0:
        check = pulse  # what it leads to is seen, the moment itself is not
    if check.name == "ratings":
        seen, rated = quantity_text(check.value, check.unit), quantity_text(check.limit, check.unit)
        return say("The curve is not the trouble: a part gets {seen} and bears {rated}.",
                   seen=seen, rated=rated)  # fmt: skip
    if check.name == "pulse":
        volts, need = (quantity_text(max(v, 0.0), "V") for v in (check.value, check.limit))
        return say(
            "The curve hides the pulse: for a moment it drops to {volts}, {need} are needed.",
            volts=volts, need=need,
        )  # fmt: skip
    if check.name == "starts":
        connect = quantity_text(assessment.scenario.load.connect_V, "V")
        if math.isinf(check.value):
            return say("It never gets up to {volts}, where it would start.", volts=connect)
        return say(
            "Too slow: it takes {time} to start, {allowed} are allowed.",
            time=duration_words(check.value), allowed=duration_words(check.limit),
        )  # fmt: skip
    if check.name == "dark" and math.isinf(check.limit):
        return say("The light never brings its store anything.")
    if check.name == "dark":
        return say(
            "Left in the dark it lasts {time}; {needed} are asked for.",
            time=duration_words(check.value), needed=duration_words(check.limit),
        )  # fmt: skip
    if check.name == "balance":
        return say("It spends more than the light brings, so a full store only puts it off.")
    return say("It does {share} of its tasks.", share=quantity_text(check.value, "share"))


def caution_line(scenario: Scenario) -> str:
    """The cautions that a scenario calls for, in one line; empty where there is none.

    What moves comes first, then the store; the others are named, as many as there is room for,
    and the line says so where there are more.
    """
    found = sorted(cautions(scenario), key=_urgency)
    if not found:
        return ""
    first, *others = found
    line = joined("", (first.title, ": ", altered(first.text, _first_clause), "."))
    names = list(dict.fromkeys(c.title.lower() for c in others if c.title != first.title))
    if not names:
        return bind_units(line)
    whole = say("{line} Also: {names}.", line=line, names=joined(", ", names))
    while len(tr(whole)) > LONGEST_LINE and len(names) > 1:
        names.pop()
        whole = say("{line} Also: {names} and more.", line=line, names=joined(", ", names))
    return bind_units(whole)


def spoken_cautions(scenario: Scenario) -> str:
    """All cautions in full, for a screen reader."""
    return joined(" ", [joined(": ", (c.title, c.text)) for c in cautions(scenario)])


def _urgency(caution: Caution) -> int:
    return {"load": 0, "charger": 1, "store": 2, "panel": 3}[caution.where]


def _first_clause(text: str) -> str:
    end = _CLAUSE_END.search(text)
    return text[: end.start()] if end else text


def countdown_text(seconds: int) -> str:
    """What the warning says below its question.

    Examples
    --------
    >>> countdown_text(1)
    'This page starts again in 1 second. What you made is kept.'
    """
    if seconds == 1:
        return say("This page starts again in 1 second. What you made is kept.")
    return say(
        "This page restarts in {seconds} seconds. Your settings are kept.", seconds=seconds
    )


def parked_text(title: str, word: str, saved_at: str) -> str:
    """One line of the list of parked scenarios.

    Examples
    --------
    >>> parked_text("Plant label", "Runs", "2025-05-04T10:05:00+02:00")
    '4 May 10:05 – Plant label – Runs'
    """
    try:
        moment = datetime.fromisoformat(saved_at)
    except ValueError:
        return joined(" – ", (saved_at, title, say(word)))
    month = _MONTHS[moment.month - 1]
    when = say("{day} {month} {clock}", day=moment.day, month=month, clock=f"{moment:%H:%M}")
    return joined(" – ", (when, title, say(word)))


def thinned(widths: Sequence[float], centres: Sequence[float], gap: float) -> list[int]:
    """Which of several texts in a row can be shown without touching: every one, or every n-th.

    Parameters
    ----------
    widths, centres : sequence of float
        Width and middle of each text. [px]
    gap : float
        Least space between two. [px]
    """
    for step in range(1, len(widths) + 1):
        chosen = list(range(0, len(widths), step))
        if all(
            centres[b] - centres[a] >= (widths[a] + widths[b]) / 2 + gap
            for a, b in pairwise(chosen)
        ):
            return chosen
    return []

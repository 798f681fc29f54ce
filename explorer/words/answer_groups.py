"""The answers as they stand in the window: grouped, with the number apart from its unit."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from explorer.advice.assess import Assessment
from explorer.advice.checks import SHARE
from explorer.advice.readings.required import required
from explorer.text import Text, joined, say
from explorer.words.answers import (
    ASSUMED,
    GROUPS,
    LABELS,
    OF_AMOUNT,
    OF_CHECK,
    SHORT,
    SHOWN,
    brief_of,
    value_of,
)
from explorer.words.figures import volts

APART_V = 0.02
"""Lowest voltages of the trace and of the settled course that differ by less are one. [V]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """One answer in words."""

    key: str
    label: str
    short: str
    value: str
    brief: str
    """The value where room is short."""
    meaning: str
    decides: bool
    """Whether it stands behind the check that settles the verdict."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerGroup:
    """Answers about one thing."""

    title: str
    answers: tuple[Answer, ...]


def answer_groups(assessment: Assessment) -> tuple[AnswerGroup, ...]:
    """The answers by what they are about; those behind the verdict come first in their group."""
    found = assessment.answers
    behind = _behind(assessment)
    groups = []
    for title, keys in GROUPS:
        extra = (behind,) if title == GROUPS[-1][0] and behind not in SHOWN else ()
        ordered = sorted((*extra, *keys), key=lambda key: key != behind)
        groups.append(
            AnswerGroup(
                title=title,
                answers=tuple(
                    Answer(
                        key=key, label=LABELS[key], short=SHORT[key],
                        value=value_of(key, found[key]), brief=brief_of(key, found[key]),
                        meaning=ASSUMED[key], decides=key == behind,
                    )
                    for key in ordered
                    if key in found
                ),
            )
        )
    return tuple(groups)


def _behind(assessment: Assessment) -> str:
    """Key of the answer that stands behind the verdict; of an amount that is asked its own."""
    governing = assessment.verdict.governing
    if governing.name == "service" and governing.unit != SHARE:
        worst = min(required(assessment.case), key=lambda one: float(one.margin[0]))
        return OF_AMOUNT[worst.key]
    return OF_CHECK.get(governing.name, "")


def course_note(assessment: Assessment) -> Text | None:
    """That the trace shows another lowest voltage than the answers tell, where it does.

    The trace runs from the scenario's own beginning; checks and answers judge the course that the
    store settles to. Compared is what comes after the device first connects.
    """
    settled = assessment.answers.get("lowest_store_V")
    trace = assessment.trace
    since = next((m.time_s for m in assessment.marks if m.kind == "connect"), None)
    if settled is None or since is None or since >= trace.span_s:
        return None
    first = float(trace.lowest_v(np.array([since]), np.array([trace.span_s]))[0])
    if abs(first - settled) <= APART_V:
        return None
    return say(
        "Lowest here {first} once connected; once settled, as checks and answers count, {settled}",
        first=volts(first), settled=volts(settled),
    )  # fmt: skip


def answer_lines(assessment: Assessment) -> tuple[Answer, ...]:
    """All answers that are shown, one after the other."""
    return tuple(answer for group in answer_groups(assessment) for answer in group.answers)


def spoken(answer: Answer) -> Text:
    """Label and value in one."""
    return joined(": ", (answer.label, answer.value))

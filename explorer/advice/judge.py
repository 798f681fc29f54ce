"""The six checks of one design in sentences, made from the numbers that they are judged by."""

from __future__ import annotations

from math import inf

import numpy as np

from explorer.advice import checks as rules
from explorer.advice import safety
from explorer.advice.case import CANNOT, Case, Unjudgeable, judging, kept
from explorer.advice.checks import asked_of, judged, more_than
from explorer.advice.readings.found import dark, held, readings
from explorer.advice.readings.one import served
from explorer.advice.required_sentences import with_required
from explorer.advice.sentences import all_of
from explorer.advice.verdict import CHECK_NAMES, NO_LIMIT, Check, Verdict
from explorer.advice.year.readings import year_ratings
from explorer.advice.year.sentences import rated_scenario, year_sentences
from explorer.scenario.ratings import ratings as ratings_of
from explorer.text import Text, joined, say


@kept
def balance_margin(case: Case) -> float:
    """The margin of Balance alone, for which nothing is marched."""
    with judging():
        return _one(rules.balance(held(case), asked_of(case.scenario, 1)))


@kept
def ratings_margin(case: Case) -> float:
    """The margin of Ratings alone, for which nothing is marched."""
    with judging():
        if case.year is not None:
            return float(rules.ratings_margin(year_ratings(case), 1)[0])
        rows = ratings_of(case.scenario, case.system)
        return float(rules.ratings_margin(rows, 1)[0])


@kept
def dark_margin(case: Case) -> float:
    """The margin of Dark alone, for which the course is marched and nothing else."""
    with judging():
        return _one(rules.dark(dark(case), asked_of(case.scenario, 1)))


@kept
def service_level(case: Case) -> float:
    """The margin of Service of a week's course, which alone is marched; infinite where it is met.

    Of a design of which no amounts are asked beside the course.
    """
    with judging():
        check = rules.course_service(served(case), asked_of(case.scenario, 1))
        margin = _one(check)
        return margin if margin < check.wanted[0] else inf


def _one(check: rules.Judged) -> float:
    margin = float(check.margin[0])
    if np.isnan(margin):
        raise Unjudgeable(CANNOT)
    return margin


@kept
def judge(case: Case) -> Verdict:
    """The verdict of a case: six checks and the dangers to people or parts."""
    found = readings(case)
    asked = asked_of(case.scenario, 1)
    table = judged(found, asked)
    if any(np.isnan(one.margin).any() for one in table.values()):
        raise Unjudgeable(CANNOT)
    at = case.scenario if case.year is None else rated_scenario(case)
    sentences: dict[str, Text] = {
        **(all_of(case, found) if case.year is None else year_sentences(case, found)),
        "ratings": safety.ratings_sentence(at, found.ratings),
    }
    sentences["service"] = with_required(
        sentences["service"], found,
        serves=bool(rules.serves_all(found, asked)[0]),
    )
    checks = []
    for name in CHECK_NAMES:
        one, sentence = table[name], sentences[name]
        holds = bool(one.holds[0])
        margin = float(one.margin[0])
        if holds and margin < 1.0:
            sentence = joined(" ", (sentence, say("In its course it works all the same.")))
        checks.append(Check(
            name=name, value=float(one.value[0]), limit=float(one.limit[0]), unit=one.unit,
            margin=margin, wanted=float(one.wanted[0]), sentence=sentence, holds=holds,
            at_least=name == "dark" and bool(more_than(found)[0]) and margin < NO_LIMIT,
        ))
    return Verdict(checks=tuple(checks), hazards=safety.hazards(at, found.ratings))

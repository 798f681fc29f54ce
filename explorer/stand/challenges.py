"""What visitors can win: to make a device run, and then to make it last in the dark."""

from __future__ import annotations

from dataclasses import dataclass

from explorer.advice.case import Case
from explorer.scenario.model import Scenario, with_value
from explorer.text import say

CLOSURE = "margins.closure_days"
HOUR_DAYS = 1 / 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Challenge:
    """A dark stretch that a design is asked to survive with its whole margin."""

    key: str
    invitation: str
    """On the button, and above the picture while it is on."""
    won: str
    closure_days: float


CHALLENGES = (
    Challenge(
        key="minutes", invitation=say("Make it last twenty minutes in the dark"),
        won=say("It lasts twenty minutes in the dark!"), closure_days=HOUR_DAYS / 3,
    ),
    Challenge(
        key="hour", invitation=say("Make it last an hour in the dark"),
        won=say("It lasts an hour in the dark!"), closure_days=HOUR_DAYS,
    ),
    Challenge(
        key="night", invitation=say("Make it last the night"),
        won=say("It lasts the night!"), closure_days=14 * HOUR_DAYS,
    ),
    Challenge(
        key="weekend", invitation=say("Make it last the weekend"),
        won=say("It lasts the weekend!"), closure_days=62 * HOUR_DAYS,
    ),
    Challenge(
        key="long_weekend", invitation=say("Make it last a long weekend"),
        won=say("It lasts a long weekend!"), closure_days=86 * HOUR_DAYS,
    ),
    Challenge(
        key="holidays", invitation=say("Make it last a week of holidays"),
        won=say("It lasts a week of holidays!"), closure_days=9.0,
    ),
    Challenge(
        key="month", invitation=say("Make it last a month in the dark"),
        won=say("It lasts a month in the dark!"), closure_days=30.0,
    ),
    Challenge(
        key="season", invitation=say("Make it last three months in the dark"),
        won=say("It lasts three months in the dark!"), closure_days=91.0,
    ),
)  # fmt: skip
"""Rising. A night from 18:00 to 8:00, a weekend from Friday 18:00 to Monday 8:00, a
long one to Tuesday 8:00."""
FIRST = 3
"""The weekend is tried first."""
RUN_WON = say("It lives on the light it gets!")


def set_challenge(case: Case, challenge: Challenge) -> Case:
    """The case with the challenge's dark stretch declared."""
    return case.with_scenario(challenged(case.scenario, challenge))


def challenged(scenario: Scenario, challenge: Challenge) -> Scenario:
    """The scenario with the challenge's dark stretch declared."""
    return with_value(scenario, CLOSURE, challenge.closure_days)

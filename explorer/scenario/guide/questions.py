"""What the guide asks, in which order, and which questions a person never sees."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from explorer.scenario.guide.answers import (
    DarkKey,
    FacingKey,
    LightKey,
    MattersKey,
    OftenKey,
    SeasonKey,
    WhenKey,
)
from explorer.scenario.guide.jobs import BATTERIES, JOBS, LASTS
from explorer.scenario.guide.places import SPOTS
from explorer.scenario.guide.region import REGIONS
from explorer.text import say, texts


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One answer that a person may give."""

    key: str
    title: str
    line: str
    """What it stands for, in a few words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One plain question."""

    key: str
    title: str
    hint: str
    choices: tuple[Choice, ...]


_SEASON: dict[SeasonKey, tuple[str, str]] = texts({
    "winter": ("The whole year", "December decides: short days and dull light"),
    "milder": ("Spring to autumn", "it may rest or be taken down in winter"),
})  # fmt: skip
_LIGHT: dict[LightKey, tuple[str, str]] = texts({
    "usual": ("As such places usually are", "the level that such places have by design or habit"),
    "measured": ("I measured it", "with a lux meter that faced as the panel will"),
    "unknown": ("I cannot measure there", "then nobody can tell"),
})  # fmt: skip
_FACING: dict[FacingKey, tuple[str, str]] = texts({
    "south": ("To the midday sun", "to the south in the north of the world: low winter sun reaches "
                                   "it"),
    "side": ("To the east or west", "sun in the morning or in the afternoon"),
    "north": ("Away from the midday sun", "or in the shade of houses and trees: never any sun"),
    "unknown": ("I do not know yet", "then no sunny day is counted"),
})  # fmt: skip
OFTEN: dict[OftenKey, tuple[str, str, str, float]] = texts({
    "minute": ("Every minute", "every minute", "1440 times a day", 60.0),
    "ten_minutes": ("Every ten minutes", "every ten minutes", "144 times a day", 600.0),
    "hour": ("Every hour", "every hour", "24 times a day", 3600.0),
    "six_hours": ("Every six hours", "every six hours", "4 times a day", 21_600.0),
    "day": ("Once a day", "once a day", "7 times a week", 86_400.0),
})  # fmt: skip
"""The answer, the same within a sentence, what it stands for, and its interval. [s]"""
WHEN: dict[WhenKey, tuple[str, str, str]] = texts({
    "always": ("Day and night", "day and night", "in the dark and in closures too"),
    "light": ("Only while it is light", "only while it is light", "it sleeps in the dark"),
    "people": (
        "Only while people are there", "only while people are there",
        "it sleeps when the place is shut",
    ),
})  # fmt: skip
"""The answer, the same within a sentence, and what it stands for."""
DARK: dict[DarkKey, tuple[str, str, float]] = texts({
    "usual": ("No longer than usual", "its nights, and its days without lamps", 0.0),
    "long_weekend": ("A long weekend", "once dark for four days", 4.0),
    "closure": ("Two weeks' closure", "once dark for 14 days", 14.0),
    "summer": ("A summer closure", "once dark for six weeks", 42.0),
})  # fmt: skip
"""The answer, what it stands for, and the closure. [d]"""
_MATTERS: dict[MattersKey, tuple[str, str]] = texts({
    "smallest": ("The smallest size", "least panel area, then the smallest store"),
    "never_fails": ("Reliability first", "more margin, at least four days dark, parts "
                                         "three years old"),
    "cheapest": ("The lowest price", "the lowest price of panels and store, roughly"),
    "soon": ("It runs soon after hanging up", "two hours of light from empty at most"),
})  # fmt: skip

QUESTIONS: tuple[Question, ...] = (
    Question(
        key="place", title=say("Where will it be?"),
        hint=say("Pick the nearest; the light can be measured on a later page."),
        choices=tuple(Choice(key=k, title=s.title, line=s.line) for k, s in SPOTS.items()),
    ),
    Question(
        key="season", title=say("In winter too?"),
        hint=say("Daylight in December is a fraction of that in June."),
        choices=tuple(Choice(key=k, title=t, line=n) for k, (t, n) in _SEASON.items()),
    ),
    Question(
        key="region", title=say("How far north or south?"),
        hint=say("It decides how short the days of winter are; a rough answer is enough."),
        choices=tuple(Choice(key=k, title=t, line=n) for k, (t, n, _) in REGIONS.items()),
    ),
    Question(
        key="light", title=say("How light is it there?"),
        hint=say(
            "Levels are lighting design values or common practice; nothing replaces a lux meter."
        ),
        choices=tuple(Choice(key=k, title=t, line=n) for k, (t, n) in _LIGHT.items()),
    ),
    Question(
        key="facing", title=say("Which way does it face?"),
        hint=say("Where the sun reaches it, an average month is brighter than an overcast one."),
        choices=tuple(Choice(key=k, title=t, line=n) for k, (t, n) in _FACING.items()),
    ),
    Question(
        key="job", title=say("What does it do?"), hint=say("Pick what it mostly does."),
        choices=tuple(Choice(key=k, title=j.title, line=j.line) for k, j in JOBS.items()),
    ),
    Question(
        key="battery", title=say("Which battery does it live on today?"),
        hint=say("What a device takes is told by the battery that it empties."),
        choices=tuple(Choice(key=k, title=t, line=n) for k, (t, n, _) in BATTERIES.items()),
    ),
    Question(
        key="lasts", title=say("How long does that last?"),
        hint=say("From fresh to empty, in ordinary use."),
        choices=tuple(Choice(key=k, title=t, line=n) for k, (t, n, _) in LASTS.items()),
    ),
    Question(
        key="often", title=say("How often?"), hint=say("On average; more rarely costs less."),
        choices=tuple(Choice(key=k, title=t, line=n) for k, (t, _, n, _) in OFTEN.items()),
    ),
    Question(
        key="when", title=say("When must it work?"),
        hint=say("Sleeping at night saves most of the energy of many devices."),
        choices=tuple(Choice(key=k, title=t, line=n) for k, (t, _, n) in WHEN.items()),
    ),
    Question(
        key="dark", title=say("Is it ever dark for longer?"),
        hint=say("The longest stretch without light that it must survive."),
        choices=tuple(Choice(key=k, title=t, line=n) for k, (t, n, _) in DARK.items()),
    ),
    Question(
        key="matters", title=say("What matters most?"),
        hint=say("Decides between designs that all work."),
        choices=tuple(Choice(key=k, title=t, line=n) for k, (t, n) in _MATTERS.items()),
    ),
)  # fmt: skip


def question(key: str) -> Question:
    """The question with this key."""
    return next(q for q in QUESTIONS if q.key == key)


def is_asked(key: str, given: Mapping[str, str]) -> bool:
    """Whether a question makes sense after the answers so far.

    Parameters
    ----------
    key : str
        Of the question.
    given : mapping
        Key of the answer by key of the question; missing or empty where there is none yet.
    """
    place = given.get("place", "")
    if key == "season":
        return any(place == name and spot.daylight for name, spot in SPOTS.items())
    if key == "region":
        return is_asked("season", given) and given.get("season") == "winter"
    if key == "facing":
        faces = any(place == name and spot.faces for name, spot in SPOTS.items())
        return faces and (given.get("light") or "usual") == "usual"
    other = given.get("job") == "other"
    if key == "battery":
        return other
    if key == "lasts":
        return other and given.get("battery") != "unknown"
    if key in ("often", "when"):
        return not other
    return True


def choices_of(key: str, given: Mapping[str, str]) -> tuple[str, ...]:
    """Keys of the answers that a question offers after the answers so far.

    Nobody knows how light an unnamed place usually is, and only there nothing else is left.
    """
    keys = tuple(choice.key for choice in question(key).choices)
    if key != "light":
        return keys
    left_out = "usual" if given.get("place") == "elsewhere" else "unknown"
    return tuple(k for k in keys if k != left_out)

"""A remedy in words: what it makes of the checks, and what it costs in others."""

from __future__ import annotations

from explorer.advice.verdict import CHECK_WORDS, Verdict
from explorer.text import Text, joined, say
from explorer.words.figures import check_margin_text

FALLS = 0.97
"""A margin that keeps less than this share of itself falls."""
MOST = 2
"""Falling margins that are told."""


def gain_text(before: Verdict, after: Verdict) -> Text:
    """What the check that decided becomes."""
    name = before.governing.name
    check = next(c for c in after.checks if c.name == name)
    return say(
        "{check} {margin}", check=CHECK_WORDS[name], margin=check_margin_text(check)
    )


def cost_text(before: Verdict, after: Verdict) -> Text:
    """The margins that fall by it, the one nearest to what is asked for first."""
    old = {check.name: check for check in before.checks}
    lost = [
        check for check in after.checks
        if check.name != before.governing.name
        and check.margin < FALLS * old[check.name].margin
    ]
    if not lost:
        return say("no other margin falls")
    lost.sort(key=lambda check: check.reserve)
    told = (
        say(
            "{check} falls to {margin}",
            check=CHECK_WORDS[check.name], margin=check_margin_text(check),
        )
        for check in lost[:MOST]
    )  # fmt: skip
    return joined(", ", told)

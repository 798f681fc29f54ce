"""Verdict: six checks, three outcomes, and the one reason that governs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from explorer.text import say, texts

State = Literal["runs", "marginal", "falls_short"]
NO_LIMIT = 99.0
"""Margin shown where a check cannot fail."""
MET_OR_NOT = ("ratings", "service")
"""Checks whose margin says little once they pass."""
CHECK_NAMES = ("starts", "balance", "dark", "pulse", "ratings", "service")
CHECK_LABELS = {
    "starts": say("Starts", "check"),
    "balance": say("Balance", "check"),
    "dark": say("Dark", "check"),
    "pulse": say("Pulse", "check"),
    "ratings": say("Ratings", "check"),
    "service": say("Service", "check"),
}
CHECK_WORDS = {
    "starts": say("starts", "check"),
    "balance": say("balance", "check"),
    "dark": say("dark", "check"),
    "pulse": say("pulse", "check"),
    "ratings": say("ratings", "check"),
    "service": say("service", "check"),
}
"""The same within a sentence; "dark" is an everyday word as well, with another translation."""
VERDICT_WORDS: dict[State, str] = texts({
    "runs": "Runs",
    "marginal": "Marginal",
    "falls_short": "Falls short",
})  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One of the six checks."""

    name: str
    value: float
    """What the design reaches, in `unit`; infinite where it never does or never ends."""
    limit: float
    """What it must reach or must not pass, in `unit`."""
    unit: str
    margin: float
    """Available over needed; below 1 the check fails."""
    wanted: float
    """The margin that counts as a clean pass."""
    sentence: str
    holds: bool = False
    """Whether the course shows that the device works all the same: then it does not fail."""
    at_least: bool = False
    """Whether `value` and `margin` are only known to be at least that: the search ended there."""

    @property
    def state(self) -> State:
        """Outcome of this check alone."""
        if self.margin < 1.0 and not self.holds:
            return "falls_short"
        return "runs" if self.margin >= self.wanted else "marginal"

    @property
    def reserve(self) -> float:
        """Margin over the margin wanted: 1 or more is a clean pass."""
        return self.margin / self.wanted


@dataclass(frozen=True, slots=True, kw_only=True)
class Hazard:
    """A danger to people or parts, told apart from the verdict."""

    key: str
    title: str
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """Outcome of the six checks."""

    checks: tuple[Check, ...]
    hazards: tuple[Hazard, ...]

    @property
    def governing(self) -> Check:
        """The check that decides: the worst state, and in it the smallest reserve.

        Service is what the others lead to: it decides only where it fails alone. Where all pass,
        ratings and service are left aside: they are met or not, and their margin says little.
        """
        order = {"falls_short": 0, "marginal": 1, "runs": 2}
        worst = min(
            self.checks, key=lambda c: (order[c.state], c.name == "service", c.reserve)
        )
        if worst.state != "runs":
            return worst
        telling = [c for c in self.checks if c.name not in MET_OR_NOT]
        return min(telling or self.checks, key=lambda c: c.reserve)

    @property
    def state(self) -> State:
        """Runs when all checks pass with their wanted margin, falls short when one fails."""
        return self.governing.state

    @property
    def word(self) -> str:
        """The verdict as the sign shows it."""
        return VERDICT_WORDS[self.state]

"""The twelve months of a sky while they are being typed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from explorer.scenario.daylight import SkyMonth

NUMBERS = ("clear_share", "partly_share", "mean_C", "swing_C")
"""Keys of the numbers of a month, in the order of the table."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthDraft:
    """One month as far as it has been typed."""

    clear_share: float | None = None
    partly_share: float | None = None
    mean_C: float | None = None
    swing_C: float | None = None

    def having(self, key: str, value: float | None) -> MonthDraft:
        """The month with another number."""
        changed: dict[str, float | None] = {key: value}
        return replace(self, **changed)


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedMonths:
    """What can be said of the months as far as they have been typed."""

    months: tuple[SkyMonth, ...]
    """All twelve; none where one is not whole."""
    unfinished: tuple[int, ...]
    """Months in which a number is missing, 0 is January."""
    overfull: tuple[int, ...]
    """Months whose clear and partly cloudy days are more than all days."""

    @property
    def is_ready(self) -> bool:
        """Whether they can be used as they stand."""
        return bool(self.months)


def month_drafts(months: Sequence[SkyMonth]) -> tuple[MonthDraft, ...]:
    """Months to be typed on."""
    return tuple(MonthDraft(**{key: getattr(m, key) for key in NUMBERS}) for m in months)


def judged_months(drafts: Sequence[MonthDraft]) -> JudgedMonths:
    """Judge what has been typed.

    Examples
    --------
    >>> month = MonthDraft(clear_share=0.7, partly_share=0.4, mean_C=5.0, swing_C=3.0)
    >>> found = judged_months([month])
    >>> found.overfull, found.is_ready
    ((0,), False)
    """
    unfinished = tuple(
        i for i, d in enumerate(drafts) if any(getattr(d, key) is None for key in NUMBERS)
    )
    overfull = tuple(
        i
        for i, d in enumerate(drafts)
        if (d.clear_share or 0.0) + (d.partly_share or 0.0) > 1.0 + 1e-9
    )
    whole = not unfinished and not overfull
    return JudgedMonths(
        months=tuple(
            SkyMonth(**{key: getattr(d, key) for key in NUMBERS}) for d in drafts
        )
        if whole
        else (),
        unfinished=unfinished,
        overfull=overfull,
    )

"""Fitted values as parts of one's own, each with its ±."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from explorer.advice.bench.fit import Fit, Fitted
from explorer.advice.bench.parameters import with_values
from explorer.scenario.measured import MeasuredValue, still_measured
from explorer.scenario.model import Scenario, get_value
from explorer.scenario.part import SECTION_OF, Part, PartKind, part_from
from explorer.text import joined, say

DIGITS = 5
"""Significant digits of a value that is kept."""


def rounded(found: Fit) -> dict[str, float]:
    """The fitted values as they are put into a design."""
    return {path: float(f"{value:.{DIGITS}g}") for path, value in found.found.items()}


def kinds_of(found: Fit) -> tuple[PartKind, ...]:
    """Kinds of parts of which a fit determines anything."""
    return tuple(kind for kind in SECTION_OF if _told(found, kind))


def measured_part(
    kind: PartKind, scenario: Scenario, found: Fit, title: str, day: date | None = None
) -> Part:
    """A part with what a fit determines of it, and with the design's values elsewhere.

    Parameters
    ----------
    kind : PartKind
        One of `kinds_of`.
    scenario : Scenario
        What was fitted.
    found : Fit
        Done; what it does not determine stays as the design has it.
    title : str
        Of the part.
    day : datetime.date, optional
        Of the measurement; that of the first run when left out, or none.

    Raises
    ------
    ValueError
        The fit determines nothing of this part.
    """
    told = _told(found, kind)
    if not told:
        raise ValueError(
            say(
                "These runs determine nothing of the {kind}; fit one of its values.", kind=kind
            )
        )
    key, values = SECTION_OF[kind], rounded(found)
    fitted = with_values(scenario, {v.parameter.path: values[v.parameter.path] for v in told})
    section = getattr(fitted, key)
    fresh = {v.parameter.path.removeprefix(f"{key}.") for v in told}
    measured = [
        MeasuredValue(
            key=v.parameter.path.removeprefix(f"{key}."),
            value=get_value(fitted, v.parameter.path),
            plus_minus=float(f"{v.plus_minus:.3g}"),
        )
        for v in told
    ]
    measured += [one for one in still_measured(section) if one.key not in fresh]
    first = day or _first_day(found)
    return part_from(
        kind, section, title=title, source=_source(found), date=str(first) if first else "",
        measured=tuple(measured),
    )  # fmt: skip


def _told(found: Fit, kind: PartKind) -> list[Fitted]:
    if not found.is_good:
        return []
    head = f"{SECTION_OF[kind]}."
    return [v for v in found.values if v.determined and v.parameter.path.startswith(head)]


def _first_day(found: Fit) -> date | None:
    days = [one.run.start.date() for one in found.after if one.run.start is not None]
    return min(days, default=None)


def _source(found: Fit) -> str:
    names: Sequence[str] = [one.run.name for one in found.after]
    return say("Fitted to {runs}", runs=joined(", ", names))

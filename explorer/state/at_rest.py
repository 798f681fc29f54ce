"""What is worked out once the knobs rest: break-evens, then the answers that are edges.

Qt-free, so that a worker process can do it; the search loads when first asked, which is there.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from explorer.state.knobs import knobs_for

if TYPE_CHECKING:
    from explorer.advice.break_even import BreakEven
    from explorer.advice.case import Case
    from explorer.advice.edges import Stopped


@dataclass(frozen=True, slots=True, kw_only=True)
class AtRest:
    """What is worked out once the knobs rest, as far as it is there."""

    break_evens: dict[str, BreakEven]
    reach: dict[str, float] = field(default_factory=dict)
    """Further answers, by key; see `explorer.advice.reach`."""


def at_rest_steps(operation: int, held: str, case: Case, stopped: Stopped) -> Iterator[AtRest]:
    """Verdicts at the stops by the batch engine, then knob by knob by the exact one."""
    from explorer.advice.break_even import break_even, draft
    from explorer.advice.reach import reach
    from explorer.engine.course import Interrupted

    stops = {knob.path: knob.stops for knob in knobs_for(case.scenario, operation, held)}
    found = {path: draft(case, path, values) for path, values in stops.items()}
    yield AtRest(break_evens=dict(found))
    try:
        for path, values in stops.items():
            found[path] = break_even(case, path, values, stopped)
            yield AtRest(break_evens=dict(found))
        yield AtRest(break_evens=found, reach=dict(reach(case, stopped)))
    except Interrupted:
        return


def no_steps(case: Case, stopped: Stopped) -> Iterator[object]:
    """Before it is known what to ask there is nothing to answer."""
    return iter(())

"""The cheapest build of parts of one's own for what the guide was asked."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from explorer.advice.assess import Assessment, assess
from explorer.advice.build_front import Build
from explorer.advice.builds import search
from explorer.advice.case import Case
from explorer.scenario.part import PanelPart, Part, StorePart
from explorer.scenario.price import currencies_of, named


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnBuild:
    """A build of parts of one's own that runs."""

    build: Build
    assessment: Assessment


def priced(own: Sequence[Part]) -> tuple[Part, ...]:
    """Panels and stores of one's own whose prices can be added up; none where a kind is missing.

    Prices in several currencies cannot be added: the one that most parts are priced in counts.
    """
    known = [p for p in own if isinstance(p, PanelPart | StorePart) and p.price is not None]
    alike = tuple(p for p in known if named(p.currency) == currencies_of(known)[0])
    kinds = {p.kind for p in alike}
    return alike if kinds == {"panel", "store"} else ()


def cheapest_own(
    case: Case, own: Sequence[Part], stopped: Callable[[], bool]
) -> OwnBuild | None:
    """The cheapest build of priced parts that runs in the place of a case; None without one."""
    parts = priced(own)
    steps = list(search(case, own=parts, stopped=stopped)) if parts else []
    if not steps or not steps[-1].is_done:
        return None
    found = steps[-1]
    running = [b for b in found.front if b.verdict.state == "runs"]
    if not running:
        return None
    best = min(running, key=_price)
    return OwnBuild(build=best, assessment=assess(case.with_scenario(best.scenario)))


def _price(build: Build) -> float:
    return build.price

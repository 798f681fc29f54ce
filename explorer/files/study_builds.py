"""What a study keeps of a search for a build: its limits, and the front that it found.

Every build of the front is a scenario of its own, ``build-1.json`` and so on; ``builds.csv`` is the
front as a table.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict, dataclass, field, fields, replace
from math import isnan, nan
from pathlib import Path
from typing import Any

import numpy as np

from explorer.advice.build_front import (
    SIZES,
    Build,
    Builds,
    Combination,
    Wanted,
    measure_of,
    measures_of,
)
from explorer.advice.case import Case
from explorer.advice.judge import judge
from explorer.files.disk import FileError, drop
from explorer.files.report_source import canonical_json, sha256_of
from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.files.tables import write_table
from explorer.scenario.fields import MOST_LETTERS
from explorer.scenario.model import Scenario
from explorer.scenario.price import RELATIVE, Price, price_of
from explorer.scenario.study import KeptBuild, KeptBuilds, KeptLimits, KeptPrice
from explorer.text import say
from explorer.words.builds import front_table

TABLE = "builds.csv"


@dataclass(frozen=True, slots=True, kw_only=True)
class FrontBuild(Combination):
    """One build of a front that was found."""

    governing: str
    """The check that governed, and its margin."""
    margin: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildSearch:
    """A search for a build: what was allowed, and what came of it."""

    limits: Wanted = field(default_factory=Wanted)
    design: str = ""
    """Hash of the inputs that it was made for; empty where no search has ended."""
    tried: int = 0
    running: int = 0
    currencies: tuple[str, ...] = (RELATIVE,)
    """Of the prices, the one that limits hold in first."""
    front: tuple[FrontBuild, ...] = ()

    def is_of(self, scenario: Scenario) -> bool:
        """Whether the front was found for a design, or the design was taken from it."""
        if any(one.scenario == scenario for one in self.front):
            return True
        return bool(self.design) and self.design == design_hash(scenario)

    def without_front(self) -> BuildSearch:
        """The limits alone."""
        return BuildSearch(limits=self.limits)


def design_hash(scenario: Scenario) -> str:
    """Hash of all inputs of a scenario."""
    return sha256_of(canonical_json(scenario))


def builds_again(search: BuildSearch, case: Case) -> Builds:
    """A kept front as a search gives it; what does not run any more by the exact march is left out.

    Parameters
    ----------
    search : BuildSearch
        What a study keeps.
    case : Case
        The design that it was made for.
    """
    front = []
    for one in search.front:
        own = case.with_scenario(one.scenario)
        try:
            verdict = judge(own)
        except (ValueError, ArithmeticError):  # somebody changed its file: not to be computed
            continue
        finally:
            own.forget()
        if verdict.state == "runs":
            front.append(Build(verdict=verdict, **_known_of(one)))
    names = measures_of(search.currencies)
    measures = {name: np.array([measure_of(one, name) for one in front]) for name in names}
    return Builds(
        tried=0, measures=measures, front=tuple(front), is_done=False,
        currencies=search.currencies,
    )  # fmt: skip


def search_of(found: Builds, limits: Wanted, scenario: Scenario) -> BuildSearch:
    """What is kept of a search that has ended."""
    return BuildSearch(
        limits=limits, design=design_hash(scenario), tried=found.tried,
        running=found.running, currencies=found.currencies,
        front=tuple(_entry(build) for build in found.front),
    )  # fmt: skip


def _known_of(one: Combination) -> dict[str, Any]:
    return {f.name: getattr(one, f.name) for f in fields(Combination)}


def _entry(build: Build) -> FrontBuild:
    governing = build.verdict.governing
    named = {part: _name_of(getattr(build, part)) for part in ("panels", "charger", "store")}
    return FrontBuild(
        **{**_known_of(build), **named}, governing=governing.name, margin=governing.margin
    )


def _name_of(part: str) -> str:
    """What a part is called, no longer than a file may say: titles may be as long already."""
    name = str.__str__(part)
    return name if len(name) <= MOST_LETTERS else name[: MOST_LETTERS - 1] + "…"


def kept_builds(search: BuildSearch) -> KeptBuilds | None:
    """What ``study.json`` says of a search; None of one without limits that found nothing."""
    if search == BuildSearch():
        return None
    return KeptBuilds(
        limits=KeptLimits(**asdict(search.limits)), design=search.design, tried=search.tried,
        running=search.running, currencies=search.currencies,
        front=tuple(
            KeptBuild(
                file=_name(number), panels=one.panels, charger=one.charger,
                store=one.store, part_count=one.part_count, governing=one.governing,
                margin=one.margin, prices=_prices(one.cost),
                **{n: _known(getattr(one, n)) for n in (*SIZES, "height_mm")},
            )
            for number, one in enumerate(search.front, 1)
        ),
    )  # fmt: skip


def read_builds(kept: KeptBuilds | None, place: Callable[[str, str], Path]) -> BuildSearch:
    """The search that a study keeps.

    Parameters
    ----------
    kept : KeptBuilds or None
        What ``study.json`` says.
    place : callable
        Takes a key and the file that it names to where that lies.

    Raises
    ------
    FileError
        A build cannot be read, or its file is not there.
    """
    if kept is None:
        return BuildSearch()
    front = tuple(
        FrontBuild(
            scenario=load_scenario(place(f"builds.front.{n}.file", one.file)).scenario,
            panels=one.panels, charger=one.charger, store=one.store, part_count=one.part_count,
            governing=one.governing, margin=one.margin, cost=_cost(one, kept.currency),
            **{m: _number(getattr(one, m)) for m in (*SIZES, "height_mm")},
        )
        for n, one in enumerate(kept.front)
    )  # fmt: skip
    return BuildSearch(
        limits=Wanted(**kept.limits.model_dump()), design=kept.design, tried=kept.tried,
        running=kept.running, currencies=_currencies(kept), front=front,
    )  # fmt: skip


def write_builds(folder: Path, search: BuildSearch, before: int) -> None:
    """Write the builds of a front and their table; those of an earlier front go.

    Parameters
    ----------
    folder : pathlib.Path
        The study's own.
    search : BuildSearch
        What is kept from now on.
    before : int
        Builds of the front that the study kept until now: what else has such a name stays.

    Raises
    ------
    FileError
        The disk refuses, or a file of one's own has such a name; nothing is written then.
    """
    new = [_name(number) for number in range(before + 1, len(search.front) + 1)]
    for name in [*new, *([TABLE] if search.front and not before else [])]:
        if (folder / name).exists():
            raise FileError(
                say(
                    "{file} would be written over, and the study did not make it: give it another "
                    "name first.",
                    file=folder / name,
                )
            )
    for number, one in enumerate(search.front, 1):
        save_scenario(folder / _name(number), one.scenario, replace_older=True)
    for number in range(len(search.front) + 1, before + 1):
        drop(folder / _name(number))
    if search.front:
        write_table(folder / TABLE, _table(search))
    elif before:
        drop(folder / TABLE)


def _name(number: int) -> str:
    """File of one build of a front; beside the design, so that it finds its light log."""
    return f"build-{number}.json"


def _table(search: BuildSearch) -> dict[str, list[float | str]]:
    """The front as the command writes it."""
    table = front_table(search.front)
    table["governing"] = [one.governing for one in search.front]
    table["margin"] = [one.margin for one in search.front]
    return table


def current(search: BuildSearch, scenario: Scenario) -> BuildSearch:
    """A search as it is kept beside a design: a front of another one is no result of it."""
    return search if search.is_of(scenario) else search.without_front()


def renamed(search: BuildSearch, before: Scenario, after: Scenario) -> BuildSearch:
    """The same search for a design of which no more changed than where its light lies."""
    if not search.is_of(before):
        return search
    front = tuple(
        replace(one, scenario=one.scenario.model_copy(update={"light": after.light}))
        for one in search.front
    )
    found_for = design_hash(after) if search.design == design_hash(before) else search.design
    return replace(search, design=found_for, front=front)


def _known(value: float) -> float | None:
    return None if isnan(value) else value


def _prices(cost: Price) -> tuple[KeptPrice, ...]:
    """What a file says of a price; nothing of one that is not known."""
    if not cost.is_known:
        return ()
    return tuple(KeptPrice(currency=c, amount=amount) for c, amount in cost.amounts)


def _cost(one: KeptBuild, currency: str) -> Price:
    """A price as a file says it; one number of older files is in the currency of the search."""
    if one.prices:
        return Price(tuple((price.currency, price.amount) for price in one.prices))
    return price_of(one.price, currency or RELATIVE)


def _currencies(kept: KeptBuilds) -> tuple[str, ...]:
    return kept.currencies or (kept.currency or RELATIVE,)


def _number(value: float | None) -> float:
    return nan if value is None else value


__all__ = [
    "BuildSearch", "FrontBuild", "builds_again", "current", "design_hash", "kept_builds",
    "read_builds", "renamed", "search_of", "write_builds",
]

"""The set of scenarios on a stand: read once, and what cannot be used is left out with a reason."""

from __future__ import annotations

import logging
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from explorer.advice.assess import assess
from explorer.advice.verdict import State
from explorer.files.beside import resolve_case
from explorer.files.disk import FileError
from explorer.files.scenario_json import load_scenario
from explorer.scenario.localised import in_language
from explorer.scenario.model import Scenario
from explorer.state.language import language
from explorer.state.stand_plan import BUNDLED, listed_name, scenario_path
from explorer.text import say

LOG = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Exhibit:
    """One scenario that visitors can choose."""

    name: str
    """As the plan names it."""
    path: Path
    scenario: Scenario
    state: State
    word: str

    @property
    def title(self) -> str:
        """What its card says."""
        return self.scenario.title


@dataclass(frozen=True, slots=True, kw_only=True)
class ExhibitSet:
    """What could be used, and why the rest could not."""

    exhibits: tuple[Exhibit, ...]
    problems: tuple[str, ...]


def name_in_list(name: str) -> str:
    """How a list names a scenario of a plan: one that comes with the program by its title."""
    if name.startswith(BUNDLED):
        try:
            scenario = load_scenario(scenario_path(name)).scenario
        except (FileError, OSError):
            return listed_name(name)
        return in_language(scenario, language()).title or listed_name(name)
    return listed_name(name)


def load_exhibits(names: Iterable[str]) -> ExhibitSet:
    """Read and judge the scenarios of a plan; whatever is wrong with one leaves the others.

    Parameters
    ----------
    names : iterable of str
        As in `StandPlan.scenarios`.
    """
    found, problems = [], []
    for name in names:
        try:
            path = scenario_path(name)
            scenario = in_language(load_scenario(path).scenario, language())
            verdict = assess(resolve_case(scenario, path)).verdict
        except (FileError, OSError, ValueError, ArithmeticError) as error:
            LOG.warning("%s is left out of the stand: %s", name, error)
            problems.append(say("Left out: {error}", error=str(error)))
            continue
        found.append(
            Exhibit(name=name, path=path, scenario=scenario, state=verdict.state, word=verdict.word)
        )
    return ExhibitSet(exhibits=tuple(found), problems=tuple(problems))

"""Whether the exhibits of a set-up can be won: a question, as each takes a moment."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from explorer.files.beside import resolve_case
from explorer.files.disk import FileError
from explorer.files.scenario_json import load_scenario
from explorer.stand.way_steps import is_winnable
from explorer.state.holds import Hold
from explorer.state.stand_plan import scenario_path
from explorer.text import say


def unfair(
    names: Iterable[str], movable: tuple[str, ...], hold: Hold
) -> Iterator[tuple[str, ...]]:
    """What is wrong with exhibits that no visitor could bring to Runs, a sentence for each.

    Parameters
    ----------
    names : iterable of str
        As in `StandPlan.scenarios`.
    movable : tuple of str
        Keys of the knobs that visitors may move.
    hold : Hold
        Asked between evaluations: whoever starts the stand at once waits for none.

    Yields
    ------
    tuple of str
        All of it, once.
    """
    found = []
    for name in names:
        try:
            path = scenario_path(name)
            scenario = load_scenario(path).scenario
            fair = is_winnable(movable, resolve_case(scenario, path), hold)
        except (FileError, OSError, ValueError, ArithmeticError) as error:
            found.append(str(error))
            continue
        if hold():
            return
        if not fair:
            found.append(
                say(
                    "“{title}” cannot be brought to Runs with what visitors may move.",
                    title=scenario.title,
                )
            )
    yield tuple(found)

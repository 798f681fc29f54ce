"""A scenario under the names that it has in another language."""

from __future__ import annotations

from explorer.scenario.model import Names, Scenario

OTHER_NAMES = ("names_de",)
"""Keys of a scenario that name it in another language: they are no values of a design."""


def in_language(scenario: Scenario, code: str) -> Scenario:
    """The scenario with title, place, operations and notes as they are in a language.

    Parameters
    ----------
    scenario : Scenario
        As it stands in its file.
    code : str
        Code of the language; one for which the file has no names changes nothing.
    """
    names = scenario.names_de if code == "de" else None
    return scenario if names is None else named(scenario, names)


def named_like(scenario: Scenario, other: Scenario) -> Scenario:
    """The scenario under the names of another one, such as the same in another language."""
    names = Names(
        title=other.title, place=other.place, notes=other.notes,
        operations=tuple(operation.name for operation in other.load.operations),
    )  # fmt: skip
    return named(scenario, names)


def named(scenario: Scenario, names: Names) -> Scenario:
    """The scenario under other names; an empty one leaves its own."""
    operations = tuple(
        operation.model_copy(update={"name": name or operation.name})
        for operation, name in zip(scenario.load.operations, names.operations, strict=False)
    )
    rest = scenario.load.operations[len(operations) :]
    return scenario.model_copy(
        update={
            "title": names.title or scenario.title,
            "place": names.place or scenario.place,
            "notes": names.notes or scenario.notes,
            "load": scenario.load.model_copy(update={"operations": (*operations, *rest)}),
        }
    )

"""What differs between two scenarios, value by value."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from explorer.scenario.demand import Operation, Phase
from explorer.scenario.fields import Section, describe
from explorer.scenario.localised import OTHER_NAMES
from explorer.scenario.model import Scenario
from explorer.scenario.origin import FromPart, PartOrigin
from explorer.text import capitalised, joined, say, texts

_ONE_OF: dict[str, str] = texts({
    "Data-sheet points": "data-sheet point",
    "Lit periods": "lit period",
    "Operations": "operation",
    "Phases": "phase",
    "Start-up": "start-up",
})  # fmt: skip
"""What one item is called, by the label of its list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One value that two scenarios do not share.

    Where the two hold another kind of part, or lists of another length, the difference is the
    whole part or list: its values have no counterpart.
    """

    path: str
    """Dotted path; it leads somewhere in both scenarios."""
    label: str
    """What it is, with the part of a list that it belongs to."""
    unit: str
    old: Any
    """Value in the first scenario. [unit]"""
    new: Any
    """Value in the second scenario. [unit]"""


def differences(a: Scenario, b: Scenario) -> tuple[Difference, ...]:
    """Every value that differs, in the order of the scenario file.

    Parameters
    ----------
    a, b : Scenario
        The scenario that values are taken over into, and the one that they come from.

    Examples
    --------
    >>> from explorer.scenario.model import with_value
    >>> found = differences(Scenario(), with_value(Scenario(), "light.illuminance_lx", 500.0))
    >>> [(d.path, d.old, d.new, d.unit) for d in found]
    [('light.illuminance_lx', 300.0, 500.0, 'lx')]
    """
    found = _sections(a, b, "", "")
    return tuple(d for d in found if d.path.partition(".")[0] not in OTHER_NAMES)


def taken_over(scenario: Scenario, chosen: Iterable[Difference]) -> Scenario:
    """The scenario with the second one's values for some differences, and nothing else changed.

    A store's size comes alone: resistance and leakage, which otherwise follow it along a maker's
    range, are differences of their own. Several values are checked together, since one may not
    go without the other.

    Raises
    ------
    pydantic.ValidationError
        The values do not go with the rest of the scenario.
    """
    data = scenario.model_dump()
    for difference in chosen:
        *head, last = difference.path.split(".")
        node: Any = data
        for part in head:
            step: Any = int(part) if part.isdigit() else part
            if isinstance(node[step], tuple):
                node[step] = list(node[step])
            node = node[step]
        node[int(last) if last.isdigit() else last] = difference.new
    return Scenario.model_validate(data)


def _sections(a: Section, b: Section, path: str, context: str) -> Iterator[Difference]:
    for key in type(a).model_fields:
        old, new = getattr(a, key), getattr(b, key)
        if old != new:
            field = describe(type(a), key)
            where = f"{path}.{key}" if path else key
            if isinstance(old, PartOrigin) or isinstance(new, PartOrigin):
                # Each of four sections may have one, and none of them tells whose it is.
                yield from _origin(old, new, where, describe(Scenario, path).label)
            else:
                yield from _values(old, new, where, context, field.label, field.unit)


def _origin(old: Any, new: Any, path: str, owner: str) -> Iterator[Difference]:
    if _same_shape(old, new):
        yield from _sections(old, new, path, owner)
    else:
        label = describe(FromPart, "part").label
        yield Difference(path=path, label=_full(owner, label), unit="", old=old, new=new)


def _values(
    old: Any, new: Any, path: str, context: str, label: str, unit: str
) -> Iterator[Difference]:
    if _same_shape(old, new):
        # The parts of the scenario are plain from what they hold; those within them are not.
        inner = _joined(context, label) if "." in path else context
        yield from _sections(old, new, path, inner)
    elif _lists_alike(old, new):
        for index, (one, other) in enumerate(zip(old, new, strict=True)):
            if one != other:
                name = _item_name(one, other, label, index, len(old))
                yield from _values(one, other, f"{path}.{index}", context, name, "")
    else:
        yield Difference(path=path, label=_full(context, label), unit=unit, old=old, new=new)


def _same_shape(old: Any, new: Any) -> bool:
    if isinstance(old, Phase) and isinstance(new, Phase):
        # A draw is given in one of three ways; across them no single value can be taken over.
        return old.amount_key == new.amount_key
    return isinstance(old, Section) and type(old) is type(new)


def _lists_alike(old: Any, new: Any) -> bool:
    return (
        isinstance(old, tuple)
        and isinstance(new, tuple)
        and len(old) == len(new)
        and all(isinstance(item, Section) for item in (*old, *new))
    )


def _item_name(one: Section, other: Section, label: str, index: int, count: int) -> str:
    if isinstance(one, Operation) and isinstance(other, Operation) and one.name == other.name:
        return one.name or say("operation {number}", number=index + 1)
    noun = _ONE_OF.get(label, label.lower())
    return noun if count == 1 else say("{noun} {number}", noun=noun, number=index + 1)


def _joined(context: str, label: str) -> str:
    return joined(", ", (context, label)) if context else label


def _full(context: str, label: str) -> str:
    return capitalised(joined(": ", (context, label)) if context else label)

"""Designs from changes: one design after another, or many at once."""

from __future__ import annotations

from collections.abc import Mapping
from types import FunctionType, MethodType
from typing import Any, TypeVar

import numpy as np
from numpy.typing import ArrayLike

from explorer.scenario.fields import Section
from explorer.scenario.model import Scenario, size_path

S = TypeVar("S", bound=Section)


class Varied:
    """A section as many designs have it: columns lie over some of its values.

    It is read like the section. What the section works out from its fields (properties and methods)
    is worked out from what is read here; all else is the section's own. The section itself, which
    holds one number in a field, is not touched.

    Parameters
    ----------
    section : Section
        What many designs have in common.
    over : mapping of str to object
        Columns of shape (variants, 1), or sections with such columns, by key.
    """

    __hash__ = None  # type: ignore[assignment]  # nothing is remembered under columns

    def __init__(self, section: Section, over: Mapping[str, Any]) -> None:
        # Values stand here as attributes, since they are read some hundred times for a batch.
        self.__dict__.update({**vars(section), **over, "_section": section, "_over": over})

    def __getattr__(self, key: str) -> Any:
        """What is no field: worked out from what is read here, or the section's own."""
        section = self.__dict__["_section"]
        declared = getattr(type(section), key, None)
        if isinstance(declared, property):
            assert declared.fget is not None
            return declared.fget(self)
        if isinstance(declared, FunctionType):
            return MethodType(declared, self)
        return getattr(section, key)

    def model_copy(self, *, update: Mapping[str, Any]) -> Varied:
        """The same with other values, as of a section."""
        return Varied(self.__dict__["_section"], {**self.__dict__["_over"], **update})


def varied(scenario: Scenario, changes: Mapping[str, ArrayLike]) -> Scenario:
    """Many designs, read like one scenario whose numbers at the given paths are columns.

    The columns have the shape (variants, 1). They lie over the scenario (`Varied`), so that no
    section of it holds one; what comes back is for building and judging, is not validated and
    cannot be saved. A change of the store's size stays within the family of parts, as in
    `with_value`.
    """
    out: Any = scenario
    for path, values in changes.items():
        # A copy: what is built from it must not reach back into the caller's numbers.
        column = np.array(values, float).reshape(-1, 1)
        if path == size_path(out):
            for key, grown in out.store.resized(column).items():
                out = _laid_over(out, ["store", key], grown)
        out = _laid_over(out, path.split("."), column)
    many: Scenario = out
    return many


def _laid_over(node: Any, path: list[str], column: Any) -> Any:
    head, rest = path[0], path[1:]
    if isinstance(node, tuple):
        i = int(head)
        new = _laid_over(node[i], rest, column) if rest else column
        return (*node[:i], new, *node[i + 1 :])
    if not hasattr(node, head):
        raise KeyError(f"there is no {head!r} here")
    return changed(node, {head: _laid_over(getattr(node, head), rest, column) if rest else column})


def changed(section: S, values: Mapping[str, Any]) -> S:
    """A section, or what is read like one, with other values; columns are laid over it."""
    node: Any = section
    columns = any(isinstance(value, np.ndarray | Varied) for value in values.values())
    if columns and not isinstance(node, Varied):
        node = Varied(node, {})
    made: S = node.model_copy(update=values)
    return made

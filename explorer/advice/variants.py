"""Designs from changes: one design after another, or many at once."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from explorer.scenario.fields import Section
from explorer.scenario.model import Scenario, size_path


def varied(scenario: Scenario, changes: Mapping[str, ArrayLike]) -> Scenario:
    """A scenario whose numbers at the given paths are columns of shape (variants, 1).

    The result is for building only: it is not validated and cannot be saved. A change of the
    store's size stays within the family of parts, as in `with_value`.
    """
    out = scenario
    for path, values in changes.items():
        # A copy: what is built from it must not reach back into the caller's numbers.
        column = np.array(values, float).reshape(-1, 1)
        if path == size_path(out):
            for key, grown in out.store.resized(column).items():
                out = _put(out, ["store", key], grown)
        out = _put(out, path.split("."), column)
    return out


def _put(node: Any, path: list[str], value: Any) -> Any:
    head, rest = path[0], path[1:]
    if isinstance(node, tuple):
        i = int(head)
        new = _put(node[i], rest, value) if rest else value
        return (*node[:i], new, *node[i + 1 :])
    assert isinstance(node, Section)
    if not hasattr(node, head):
        raise KeyError(f"there is no {head!r} here")
    child = _put(getattr(node, head), rest, value) if rest else value
    return node.model_copy(update={head: child})

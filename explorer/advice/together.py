"""Designs on different parts, looked at in one batch where nothing but numbers tells them apart."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from explorer.advice.variants import varied
from explorer.physics.arrays import FloatArray
from explorer.scenario.fields import Section
from explorer.scenario.model import Scenario, size_path

SECTIONS = ("store", "charger")
"""Sections whose numbers may differ from one design to the next."""

Design = tuple[Scenario, Mapping[str, NDArray[Any]]]
"""A scenario and what changes of it from one variant to the next, arrays of one length."""


@dataclass(frozen=True, slots=True, eq=False)
class Together:
    """Variants of several designs as variants of one."""

    scenario: Scenario
    changes: dict[str, NDArray[Any]]
    members: tuple[int, ...]
    """Numbers of the designs, whose variants follow one another."""


def together(designs: Sequence[Design]) -> list[Together]:
    """The fewest batches that hold all variants of some designs.

    Examples
    --------
    >>> from explorer.scenario.model import with_values
    >>> one = Scenario()
    >>> other = with_values(one, {"store.rated_V": 6.0, "store.esr_ohm": 2.0})
    >>> three = with_values(one, {"load.sleep_A": 1e-6})
    >>> size = {"store.capacitance_F": np.array([1.0, 2.0])}
    >>> [found.members for found in together([(one, size), (other, size), (three, size)])]
    [(0, 1), (2,)]
    """
    forms: dict[str, list[int]] = {}
    for i, (scenario, _) in enumerate(designs):
        forms.setdefault(_form(scenario), []).append(i)
    return [_joined(designs, members) for members in forms.values()]


def _form(scenario: Scenario) -> str:
    """All of a scenario but the numbers in `SECTIONS`."""
    whole: dict[str, Any] = scenario.model_dump()
    for name in SECTIONS:
        whole[name] = {k: None if _is_number(v) else v for k, v in whole[name].items()}
    return repr(whole)


def _is_number(value: object) -> bool:
    return isinstance(value, float | int) and not isinstance(value, bool)


def _joined(designs: Sequence[Design], members: Sequence[int]) -> Together:
    scenario, changes = designs[members[0]]
    if len(members) == 1:
        return Together(scenario, dict(changes), tuple(members))
    sizes = [max(np.size(v) for v in designs[i][1].values()) for i in members]
    each = [varied(*designs[i]) for i in members]
    columns: dict[str, FloatArray] = {}
    for name in SECTIONS:
        section: Section = getattr(scenario, name)
        for key in type(section).model_fields:
            if _is_number(getattr(section, key)):
                values = [getattr(getattr(one, name), key) for one in each]
                if any(isinstance(v, np.ndarray) or v != values[0] for v in values):
                    columns[f"{name}.{key}"] = _column(values, sizes)
    for path in changes:
        if path.partition(".")[0] not in SECTIONS:
            columns[path] = _column([designs[i][1][path] for i in members], sizes)
    # The size brings what follows from it with it, and is laid first: what a design has goes over.
    order = sorted(columns, key=lambda path: path != size_path(scenario))
    return Together(scenario, {path: columns[path] for path in order}, tuple(members))


def _column(values: Sequence[Any], sizes: Sequence[int]) -> FloatArray:
    """Values of some designs one below another, shape (variants of all,)."""
    return np.concatenate([
        np.broadcast_to(np.ravel(np.asarray(value, float)), size)
        for value, size in zip(values, sizes, strict=True)
    ])  # fmt: skip


__all__ = ["Together", "together"]

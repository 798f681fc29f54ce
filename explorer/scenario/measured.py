"""Values of a part that were measured of this very part, with how well they are known."""

from __future__ import annotations

from math import isclose
from typing import Any

from pydantic import model_validator

from explorer.scenario.fields import Name, Section, choice, quantity
from explorer.text import figure, say

SAME = 1e-9
"""Relative difference up to which a value is still the one that was measured."""


class MeasuredValue(Section):
    """One value, and its ± at 95 %, both in the unit of its key."""

    key: Name = choice("", "Value", "Key within the section, such as capacitance_F.")
    value: float = quantity(1.0, "Measured", "", 0, 1e12, "What was found.")
    plus_minus: float = quantity(
        0.0, "±", "", 0, 1e12, "The true value lies so far from it at most, in 95 of 100 cases."
    )

    @model_validator(mode="after")
    def _has_a_ratio(self) -> MeasuredValue:
        if self.value == 0.0:
            raise ValueError(say("value must not be 0, as its ± is taken as a share of it"))
        return self

    @property
    def share(self) -> float:
        """The ± over the value."""
        return self.plus_minus / self.value

    def holds_in(self, section: Section) -> bool:
        """Whether a section still has the value that was measured."""
        found = _value(section, self.key)
        return found is not None and isclose(found, self.value, rel_tol=SAME)


def still_measured(section: Any) -> tuple[MeasuredValue, ...]:
    """What is measured of a section as it is; a value that was changed since is not."""
    if section.part is None:
        return ()
    return tuple(one for one in section.part.measured if one.holds_in(section))


def check_measured(section: Section, measured: tuple[MeasuredValue, ...]) -> None:
    """Refuse values that the section does not have.

    Raises
    ------
    ValueError
        A key is none of the section, or its value is another one.
    """
    for number, one in enumerate(measured):
        found = _value(section, one.key)
        if found is None:
            raise ValueError(
                say(
                    "measured.{n}.key: “{key}” is no number of this part",
                    n=number, key=one.key,
                )
            )  # fmt: skip
        if not one.holds_in(section):
            raise ValueError(
                say(
                    "measured.{n}.value is {value}, but {key} of this part is {found}; they must "
                    "be the same",
                    n=number, value=figure(f"{one.value:g}"), key=one.key,
                    found=figure(f"{found:g}"),
                )
            )  # fmt: skip


def _value(section: Any, key: str) -> float | None:
    """The number at a key such as ``operations.0.phases.1.current_A``; None where there is none."""
    node = section
    for part in key.split("."):
        try:
            node = node[int(part)] if part.isdigit() else getattr(node, part)
        except (AttributeError, IndexError, TypeError):
            return None
    return node if isinstance(node, float) else None

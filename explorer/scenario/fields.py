"""How a scenario parameter is declared: one place for its range, label, unit and help text."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Self, get_args

import numpy as np
from pydantic import AfterValidator, BaseModel, ConfigDict, Field
from pydantic.fields import FieldInfo

from explorer.text import say, visible, visible_line

MOST_LETTERS, MOST_PROSE = 300, 20_000
"""Letters of a name, and of a text of several lines (own judgement)."""
MOST_IN_A_LIST = 100
"""Operations, or lit blocks (own judgement: more than anybody reads)."""
MOST_PHASES = 5_000
"""Of one operation; a captured current has 40 at most."""
Name = Annotated[str, Field(max_length=MOST_LETTERS), AfterValidator(visible_line)]
"""A text in one line. Files come from anywhere, so marks that are not seen become visible."""
Prose = Annotated[str, Field(max_length=MOST_PROSE), AfterValidator(visible)]
"""The same in several lines."""


class Section(BaseModel):
    """Base of every part of a scenario: immutable, and it refuses keys that it does not know."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)

    def model_copy(self, *, update: Mapping[str, Any] | None = None, deep: bool = False) -> Self:
        """The same with some values changed, without validation.

        Raises
        ------
        TypeError
            A value is an array: a section is of one design, `advice.variants.Varied` of many.
        """
        for key, value in (update or {}).items():
            if isinstance(value, np.ndarray):
                raise TypeError(f"{key} of {type(self).__name__} is one value, not an array")
        return super().model_copy(update=update, deep=deep)

    @classmethod
    def within_ranges(cls, values: Mapping[str, Any]) -> dict[str, Any]:
        """Numbers by key, each moved into the range of its field; arrays element by element."""
        ranges = {key: describe(cls, key) for key in values}
        return {key: np.clip(v, ranges[key].low, ranges[key].high) for key, v in values.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """What the rest of the program may know about one parameter."""

    key: str
    label: str
    unit: str
    low: float
    high: float
    help: str
    default: Any


def quantity(
    default: Any, label: str, unit: str, low: float, high: float, help_text: str
) -> Any:
    """Declare a number with its unit and its allowed range, both ends included.

    Label and help must be literals in the call: translators are given what stands there.
    """
    return Field(
        default=default,
        ge=low,
        le=high,
        title=say(label),
        description=say(help_text),
        json_schema_extra={"unit": unit},
    )


def choice(default: Any, label: str, help_text: str) -> Any:
    """Declare a value that is picked from a list, a switch or a text."""
    return Field(default=default, title=say(label), description=say(help_text))


def describe(field_owner: type[BaseModel], key: str) -> Quantity:
    """Label, unit, range and help of one field.

    Parameters
    ----------
    field_owner : type
        The section class that declares the field.
    key : str
        Field name.

    Returns
    -------
    Quantity
        ``low`` and ``high`` are infinite where the field is not a bounded number.

    Raises
    ------
    KeyError
        The section has no such field.
    """
    return _described(field_owner, key)


@cache
def _described(field_owner: Any, key: str) -> Quantity:
    info: FieldInfo = field_owner.model_fields[key]
    low, high = float("-inf"), float("inf")
    for rule in info.metadata:
        low = float(getattr(rule, "ge", low))
        high = float(getattr(rule, "le", high))
    extra = info.json_schema_extra if isinstance(info.json_schema_extra, dict) else {}
    default = info.get_default(call_default_factory=True) if not info.is_required() else None
    return Quantity(
        key=key,
        label=info.title or key,
        unit=str(extra.get("unit", "")),
        low=low,
        high=high,
        help=info.description or "",
        default=default,
    )


def sections_in(annotation: Any) -> Iterator[type[Section]]:
    """Section classes named anywhere inside a type."""
    if isinstance(annotation, type) and issubclass(annotation, Section):
        yield annotation
    for inner in get_args(annotation):
        yield from sections_in(inner)


def plain(value: Any) -> Any:
    """A float where there is one number, the array itself where there are many.

    Scenarios are built one at a time for the exact engine and with columns laid over their
    numbers for a batch (`explorer.advice.variants.Varied`); the same code serves both.
    """
    numbers = np.asarray(value, float)
    return float(numbers) if numbers.ndim == 0 else numbers

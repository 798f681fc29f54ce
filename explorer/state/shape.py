"""What a form must offer for each field of a section, read from the scenario model."""

from __future__ import annotations

import types
from dataclasses import dataclass
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel

from explorer.scenario.demand import Operation, Phase
from explorer.scenario.fields import Section
from explorer.scenario.weekdays import WEEKDAYS

Kind = Literal["number", "whole", "text", "option", "weekdays", "section", "union", "list"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """One field as a form sees it."""

    kind: Kind
    optional: bool = False
    """Whether it may be left empty."""
    options: tuple[str, ...] = ()
    """Allowed words of an option."""
    sections: tuple[type[Section], ...] = ()
    """The section, the kinds of a union, or the item of a list."""


def shape_of(owner: type[BaseModel], key: str) -> Shape:
    """Shape of one field.

    Examples
    --------
    >>> from explorer.scenario.supply import Panels
    >>> shape_of(Panels, "count").kind, shape_of(Panels, "technology").kind
    ('whole', 'option')
    """
    return _shape(owner.model_fields[key].annotation)


def kind_of(section: type[Section]) -> str:
    """The word in a section's ``kind`` field."""
    return str(section.model_fields["kind"].default)


def default_item(section: type[Section], others: int = 0) -> Section:
    """What the Add button of a list that holds `others` already puts in."""
    if section is Operation and others:
        return Operation(name=f"operation {others + 1}")
    if section is Phase:
        return Phase(name="new phase", current_A=0.005, duration_s=0.1)
    return section()


def is_written_by_hand(owner: type[BaseModel], key: str) -> bool:
    """Whether a field has more than one value, so that a form has something to offer.

    A section that may be missing is not: where a part was taken from is written by taking it.

    Examples
    --------
    >>> from explorer.scenario.demand import Every, Regulator
    >>> is_written_by_hand(Every, "kind"), is_written_by_hand(Regulator, "kind")
    (False, True)
    """
    shape = shape_of(owner, key)
    if shape.kind == "section":
        return not shape.optional
    return shape.kind != "option" or len(shape.options) > 1


def _shape(annotation: Any) -> Shape:
    if get_origin(annotation) is Annotated:
        return _shape(get_args(annotation)[0])
    origin, args = get_origin(annotation), get_args(annotation)
    if origin in (Union, types.UnionType):
        inner = [a for a in args if a is not type(None)]
        if len(inner) == 1:
            found = _shape(inner[0])
            return Shape(
                kind=found.kind, optional=True, options=found.options, sections=found.sections
            )
        return Shape(kind="union", sections=tuple(inner))
    if origin is Literal:
        return Shape(kind="option", options=tuple(str(a) for a in args))
    if origin is tuple:
        item = args[0]
        if get_origin(item) is Literal and get_args(item) == WEEKDAYS:
            return Shape(kind="weekdays")
        holds_sections = isinstance(item, type) and issubclass(item, BaseModel)
        return Shape(kind="list", sections=(item,) if holds_sections else ())
    if isinstance(annotation, type) and issubclass(annotation, Section):
        return Shape(kind="section", sections=(annotation,))
    if annotation is int:
        return Shape(kind="whole")
    return Shape(kind="number" if annotation is float else "text")

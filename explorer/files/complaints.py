"""What is wrong with a scenario's values, as sentences: key, what was found, what is allowed."""

from __future__ import annotations

import difflib
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, get_args

from pydantic import BaseModel, ValidationError

from explorer.scenario.fields import describe
from explorer.scenario.model import Scenario

MOST_SHOWN = 5
"""Complaints that a person can take in at once (own judgement)."""
_LONGEST_FOUND = 40
_EXPECTED = {
    "float_type": "a number",
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "string_type": "a text in quotes",
    "bool_type": "true or false",
    "tuple_type": "a list in brackets",
    "model_type": "a section in braces",
    "dict_type": "a section in braces",
}


def complaints(error: ValidationError, data: Any) -> list[str]:
    """Sentences for a failed validation.

    Parameters
    ----------
    error : pydantic.ValidationError
        Raised by `Scenario` for `data`.
    data : object
        What was validated, as parsed from JSON.

    Returns
    -------
    list of str
        One sentence for each fault.
    """
    return [_sentence(dict(fault), data) for fault in error.errors(include_url=False)]


def show_found(value: Any) -> str:
    """A value as it stands in the file, shortened."""
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) <= _LONGEST_FOUND else text[: _LONGEST_FOUND - 1] + "…"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    """Where in a file a fault lies."""

    key: str
    """Dotted key as in the file."""
    name: str
    """Last part of the key."""
    owner: type[BaseModel] | None
    """The section that declares the last part."""
    kinds: list[type[BaseModel]]
    """The sections that may stand here."""


def _sentence(fault: dict[str, Any], data: Any) -> str:
    kind, context, value = str(fault["type"]), fault.get("ctx", {}), fault["input"]
    place = _locate(data, fault["loc"])
    key = place.key
    if kind == "extra_forbidden":
        return f"{key} is not a known key here; {_known_keys(place)}"
    if kind == "value_error":
        return f"{key}: {context['error']}." if key else f"{context['error']}."
    if kind == "literal_error":
        allowed = [part.strip("' ") for part in context["expected"].replace(" or ", ",").split(",")]
        return _choice_sentence(key, value, allowed)
    if kind.startswith("union_tag"):
        allowed = [str(section.model_fields["kind"].default) for section in place.kinds]
        return _choice_sentence(f"{key}.kind", value.get("kind"), allowed)
    if kind == "json_invalid":
        return f"the text cannot be read: {context['error']}."
    range_ = _range(place)
    if kind in _EXPECTED:
        wanted = f"{_EXPECTED[kind]} {range_}".strip()
        return f"{key} must be {wanted}, found {show_found(value)}."
    return (
        f"{key} is {show_found(value)}; allowed is {range_.removeprefix('from ') or fault['msg']}."
    )


def _choice_sentence(key: str, found: Any, allowed: list[str]) -> str:
    nearest = difflib.get_close_matches(str(found), allowed, 1)
    hint = f' Did you mean "{nearest[0]}"?' if nearest else ""
    choices = " or ".join(f'"{name}"' for name in allowed)
    return (
        f"{key} is {'missing' if found is None else show_found(found)}; allowed is {choices}.{hint}"
    )


def _known_keys(place: _Place) -> str:
    names = list(place.owner.model_fields) if place.owner else []
    nearest = difflib.get_close_matches(place.name, names, 1)
    return f"did you mean {nearest[0]}?" if nearest else f"known are {', '.join(names)}."


def _range(place: _Place) -> str:
    """Allowed range with its unit, such as ``from 1 to 64``; empty where there is none."""
    if place.owner is None or place.name not in place.owner.model_fields:
        return ""
    field = describe(place.owner, place.name)
    if field.low == float("-inf") and field.high == float("inf"):
        return ""
    return f"from {field.low:.12g} to {field.high:.12g} {field.unit}".rstrip()


def _locate(data: Any, location: tuple[int | str, ...]) -> _Place:
    node: Any = data
    parts: list[str] = []
    owner: type[BaseModel] | None = None
    kinds: list[type[BaseModel]] = [Scenario]
    for part in location:
        if isinstance(node, Mapping) and part not in node and part == node.get("kind"):
            # The validator names the kind of a section in its locations; the file does not.
            kinds = [section for section in kinds if section.model_fields["kind"].default == part]
            continue
        parts.append(str(part))
        if isinstance(part, int):
            node = node[part]
            continue
        owner = next((k for k in kinds if part in k.model_fields), kinds[0] if kinds else None)
        known = owner is not None and part in owner.model_fields
        kinds = list(_sections(owner.model_fields[part].annotation)) if owner and known else []
        node = node.get(part) if isinstance(node, Mapping) else None
    return _Place(key=".".join(parts), name=parts[-1] if parts else "", owner=owner, kinds=kinds)


def _sections(annotation: Any) -> Iterator[type[BaseModel]]:
    """Section classes named anywhere inside a type."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _sections(inner)

"""What is wrong with a scenario's values, as sentences: key, what was found, what is allowed."""

from __future__ import annotations

import difflib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ValidationError

from explorer.scenario.fields import describe, sections_in
from explorer.text import Text, joined, listed, say, texts
from explorer.words.refusal import range_ends

MOST_SHOWN = 5
"""Complaints that a person can take in at once (own judgement)."""
_LONGEST_FOUND = 40
_EXPECTED: dict[str, str] = texts({
    "float_type": "a number",
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "string_type": "a text in quotes",
    "bool_type": "true or false",
    "tuple_type": "a list in brackets",
    "model_type": "a section in braces",
    "dict_type": "a section in braces",
})  # fmt: skip


def complaints(error: ValidationError, data: Any, root: type[BaseModel]) -> list[str]:
    """Sentences for a failed validation.

    Parameters
    ----------
    error : pydantic.ValidationError
        Raised by `root` for `data`.
    data : object
        What was validated, as parsed from JSON.
    root : type
        The section that the whole file is.

    Returns
    -------
    list of str
        One sentence for each of the first `MOST_SHOWN` faults.
    """
    faults = error.errors(include_url=False)[:MOST_SHOWN]
    return [_sentence(dict(fault), data, root) for fault in faults]


def show_found(value: Any) -> str:
    """A value as it stands in the file, shortened."""
    if isinstance(value, str):  # the rest of a text of megabytes is not looked at
        value = value[: 2 * _LONGEST_FOUND]
    return _short(json.dumps(value, ensure_ascii=False))


def _short(text: str) -> str:
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


def _sentence(fault: dict[str, Any], data: Any, root: type[BaseModel]) -> Text:
    kind, context, value = str(fault["type"]), fault.get("ctx", {}), fault["input"]
    place = _locate(data, fault["loc"], root)
    key = place.key
    if kind == "extra_forbidden":
        return _unknown_key(place)
    if kind == "value_error":
        why = str(context["error"])  # a `Text` stays one
        return joined("", (key, ": ", why, ".") if key else (why, "."))
    if kind == "literal_error":
        allowed = [part.strip("' ") for part in context["expected"].replace(" or ", ",").split(",")]
        return _choice_sentence(key, value, allowed)
    if kind.startswith("union_tag"):
        allowed = [str(section.model_fields["kind"].default) for section in place.kinds]
        return _choice_sentence(f"{key}.kind", value.get("kind"), allowed)
    if kind == "json_invalid":
        return say("the text cannot be read: {why}.", why=context["error"])
    return _value_sentence(place, kind, value, fault["msg"], context)


def _value_sentence(
    place: _Place, kind: str, value: Any, why: str, context: Mapping[str, Any]
) -> Text:
    key = place.key
    if kind in ("too_long", "string_too_long"):
        most = context["max_length"]
        if kind == "too_long":
            return say("{key} may hold at most {n}.", key=key, n=most)
        return say(
            "{key} has {found} letters; at most {n} are allowed.", key=key, found=len(value), n=most
        )
    found = show_found(value)
    limits, expected = _range(place), _EXPECTED.get(kind)
    if expected is not None:
        if limits is None:
            return say("{key} must be {kind}, found {found}.", key=key, kind=expected, found=found)
        return say(
            "{key} must be {kind} from {low} to {high}, found {found}.",
            key=key,
            kind=expected,
            low=limits[0],
            high=limits[1],
            found=found,
        )
    if limits is None:
        return say("{key} is {found}; allowed is {allowed}.", key=key, found=found, allowed=why)
    return say(
        "{key} is {found}; allowed is {low} to {high}.",
        key=key,
        found=found,
        low=limits[0],
        high=limits[1],
    )


def _choice_sentence(key: str, found: Any, allowed: list[str]) -> Text:
    choices = listed((f'"{name}"' for name in allowed), say(" or "))
    if found is None:
        sentence = say("{key} is missing; allowed is {allowed}.", key=key, allowed=choices)
    else:
        sentence = say(
            "{key} is {found}; allowed is {allowed}.",
            key=key,
            found=show_found(found),
            allowed=choices,
        )
    nearest = difflib.get_close_matches(str(found)[:_LONGEST_FOUND], allowed, 1)
    if not nearest:
        return sentence
    return joined(" ", (sentence, say('Did you mean "{word}"?', word=nearest[0])))


def _unknown_key(place: _Place) -> Text:
    names = list(place.owner.model_fields) if place.owner else []
    nearest = difflib.get_close_matches(place.name, names, 1)
    if nearest:
        return say(
            "{key} is not a known key here; did you mean {nearest}?",
            key=place.key,
            nearest=nearest[0],
        )
    return say(
        "{key} is not a known key here; known are {keys}.", key=place.key, keys=", ".join(names)
    )


def _range(place: _Place) -> tuple[str, str] | None:
    """Both ends of the allowed range, in figures that a file takes."""
    if place.owner is None or place.name not in place.owner.model_fields:
        return None
    field = describe(place.owner, place.name)
    if field.low == float("-inf") and field.high == float("inf"):
        return None
    return range_ends(field, lambda value: f"{value:.12g}")


def _locate(data: Any, location: tuple[int | str, ...], root: type[BaseModel]) -> _Place:
    node: Any = data
    parts: list[str] = []
    owner: type[BaseModel] | None = None
    kinds: list[type[BaseModel]] = [root]
    for part in location:
        if isinstance(node, Mapping) and part not in node and part == node.get("kind"):
            # The validator names the kind of a section in its locations; the file does not.
            kinds = [section for section in kinds if section.model_fields["kind"].default == part]
            continue
        parts.append(_short(str(part)))
        if isinstance(part, int):
            node = node[part]
            continue
        owner = next((k for k in kinds if part in k.model_fields), kinds[0] if kinds else None)
        known = owner is not None and part in owner.model_fields
        kinds = list(sections_in(owner.model_fields[part].annotation)) if owner and known else []
        node = node.get(part) if isinstance(node, Mapping) else None
    return _Place(key=".".join(parts), name=parts[-1] if parts else "", owner=owner, kinds=kinds)

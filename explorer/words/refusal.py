"""Why an edit was refused, as a sentence that a person can act on."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from explorer.quantity import show, unit_text
from explorer.scenario.fields import Quantity, Section, describe, sections_in
from explorer.scenario.model import Scenario, owner_class
from explorer.text import Text, capitalised, figure, joined, renamed, say, texts
from explorer.words.options import plain_number

_FAULTS = texts(
    {
        "greater_than_equal": "input should be greater than or equal to {ge}",
        "less_than_equal": "input should be less than or equal to {le}",
        "finite_number": "input should be a finite number",
        "float_type": "input should be a valid number",
        "float_parsing": "input should be a valid number, unable to parse string as a number",
        "int_type": "input should be a valid integer",
        "int_parsing": "input should be a valid integer, unable to parse string as an integer",
        "int_from_float": "input should be a valid integer, got a number with a fractional part",
        "bool_type": "input should be a valid boolean",
        "string_type": "input should be a valid string",
        "string_too_long": "string should have at most {max_length} characters",
        "tuple_type": "input should be a valid array",
        "literal_error": "input should be {expected}",
    }
)
"""What the validator says, by its name for the fault, so that it can be translated."""


_KEY = re.compile(r"\b(?:[a-z]\w*\.)+[a-z]\w*|\b[a-z]+_\w+")
"""A key of a file as sentences name it: with what it belongs to, or of several words."""


@cache
def _labels() -> dict[str, str]:
    """Label of every field of the model by its key; keys are used for one thing each."""
    found: dict[str, str] = {}
    todo: list[type[Section]] = [Scenario]
    for owner in todo:
        for key, info in owner.model_fields.items():
            found.setdefault(key, info.title or key)
            todo += [one for one in sections_in(info.annotation) if one not in todo]
    return found


def _label_of(key: str) -> str:
    label = _labels().get(key.rpartition(".")[2])
    return say("“{label}”", label=label) if label else key


def refusal(scenario: Scenario, path: str, error: Exception) -> str:
    """Say what is wrong with a value that the model did not take.

    Parameters
    ----------
    scenario : Scenario
        The scenario before the edit.
    path : str
        Where the value should have gone.
    error : Exception
        What the model raised.
    """
    if not isinstance(error, ValidationError):
        return say("There is nothing to change at {path}.", path=path)
    fault = error.errors(include_url=False)[0]
    if fault["type"] == "value_error":
        return capitalised(in_plain_words(fault_text(fault))) + "."
    key = path.rpartition(".")[2]
    try:
        field = describe(owner_class(scenario, path), key)
    except KeyError:
        return capitalised(fault_text(fault)) + "."
    last = fault["loc"][-1] if fault["loc"] else key
    if last != key:
        return joined(": ", (field.label, str(last), capitalised(fault_text(fault)))) + "."
    return range_sentence(field)


def in_plain_words(text: str) -> Text:
    """A sentence with the labels of fields in the place of their keys in a file.

    Examples
    --------
    >>> in_plain_words("load.connect_V (6 V) must be lower than charger.full_V (5 V)")
    '“Connect voltage” (6 V) must be lower than “Full voltage” (5 V)'
    """
    return renamed(text, _KEY, _label_of)


def fault_text(fault: ErrorDetails) -> str:
    """What the validator found, to stand after a colon.

    Examples
    --------
    >>> from explorer.scenario.supply import Panels
    >>> try:
    ...     Panels(count=0)
    ... except ValidationError as error:
    ...     fault_text(error.errors()[0])
    'input should be greater than or equal to 1'
    """
    context = fault.get("ctx", {})
    if fault["type"] == "value_error" and "error" in context:
        return str(context["error"])
    message = fault["msg"][:1].lower() + fault["msg"][1:]
    if fault["type"] not in _FAULTS:
        return message
    values = {name: figure(str(value)) for name, value in context.items()}
    if "expected" in context:
        values["expected"] = joined(say(" or "), str(context["expected"]).split(" or "))
    found = say(_FAULTS[fault["type"]], **values)
    return found if found == message else message


def range_sentence(field: Quantity) -> str:
    """What a field takes, with its unit.

    Examples
    --------
    >>> from explorer.scenario.supply import Panels
    >>> from explorer.scenario.fields import describe
    >>> range_sentence(describe(Panels, "count"))
    'Panels takes 1 to 64.'
    """
    if field.low == float("-inf"):
        return say("{label}: not allowed here.", label=field.label)
    low, high = range_ends(field)
    return say("{label} takes {low} to {high}.", label=field.label, low=low, high=high)


def range_ends(
    field: Quantity, plain: Callable[[float], str] = plain_number
) -> tuple[Text, Text]:
    """Both ends of what a field takes; the unit stands at the second, and at a tiny first.

    Parameters
    ----------
    field : Quantity
        A field with a range.
    plain : callable
        How a number is written whose unit has no prefix.
    """
    unit = joined("", (" ", unit_text(field.unit))) if field.unit else ""
    tiny = field.unit and 0.0 < field.low < 1e-3
    low = show(field.low, field.unit) if tiny else joined("", (plain(field.low),))
    return low, joined("", (plain(field.high), unit))

"""Why an edit was refused, as a sentence that a person can act on."""

from __future__ import annotations

from pydantic import ValidationError

from explorer.scenario.fields import Quantity, describe
from explorer.scenario.model import Scenario, owner_class
from explorer.state.words import plain_number


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
        return f"There is nothing to change at {path}."
    fault = error.errors(include_url=False)[0]
    if fault["type"] == "value_error":
        return _capital(str(fault.get("ctx", {}).get("error", fault["msg"]))) + "."
    key = path.rpartition(".")[2]
    try:
        field = describe(owner_class(scenario, path), key)
    except KeyError:
        return _capital(str(fault["msg"])) + "."
    last = fault["loc"][-1] if fault["loc"] else key
    if last != key:
        return f"{field.label}: {last}: {fault['msg']}."
    return range_sentence(field)


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
        return f"{field.label} does not take that."
    unit = f" {field.unit}" if field.unit else ""
    return f"{field.label} takes {plain_number(field.low)} to {plain_number(field.high)}{unit}."


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]

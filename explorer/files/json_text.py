"""JSON that a person may have written: read with a sentence for everything that can be wrong."""

from __future__ import annotations

import json
import math
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from explorer.files.complaints import MOST_SHOWN, complaints, show_found
from explorer.files.disk import FileError
from explorer.text import Text, joined, say, texts

Model = TypeVar("Model", bound=BaseModel)

_READER_FAULTS: tuple[str, ...] = texts((
    "Expecting value",
    "Expecting property name enclosed in double quotes",
    "Expecting ':' delimiter",
    "Expecting ',' delimiter",
    "Extra data",
    "Illegal trailing comma before end of object",
    "Illegal trailing comma before end of array",
    "Invalid control character at",
    "Invalid \\escape",
    "Invalid \\uXXXX escape",
))  # fmt: skip
"""What Python's reader of JSON finds wrong, word for word."""
_TWICE = say("{key} is given more than once; keep one.")
_NOT_FINITE = say("{key} is {found}; only finite numbers are allowed.")
_TOO_LONG = say("{key} holds {found} entries; at most {n} are allowed.")
MOST_ENTRIES = 10_000
"""Of any one list or section: more is refused before each of its entries is judged."""


class _Object(dict[str, Any]):
    """A JSON object that remembers which of its keys came more than once."""

    def __init__(self, pairs: list[tuple[str, Any]]) -> None:
        super().__init__(pairs)
        self.twice = [key for key, times in Counter(key for key, _ in pairs).items() if times > 1]


def decoded(text: str, name: str) -> Any:
    """What a text says; its objects remember keys that came more than once.

    Parameters
    ----------
    text : str
        JSON.
    name : str
        What messages call the text, such as its file name.

    Raises
    ------
    FileError
        The text is no JSON; the sentence names line and column.
    """
    try:
        return json.loads(text, object_pairs_hook=_Object)
    except json.JSONDecodeError as error:
        # A cut may fall inside a text, or inside a word or number such as "tru" or "0.".
        rest = text[error.pos :].strip()
        if error.msg.startswith("Unterminated") or (
            text.lstrip().startswith("{") and re.fullmatch(r"[\w.+-]*", rest)
        ):
            raise FileError(
                say(
                    "{file} ends too early, at line {line}, column {column}; part of the file is "
                    "missing.",
                    file=name,
                    line=error.lineno,
                    column=error.colno,
                )
            ) from None
        raise FileError(
            say(
                "{file} is not JSON: {why} at line {line}, column {column}.",
                file=name,
                why=say(error.msg),  # one of _READER_FAULTS
                line=error.lineno,
                column=error.colno,
            )
        ) from None
    except RecursionError:
        raise FileError(
            say("{file} is nested too deeply to be read.", file=name)
        ) from None
    except ValueError:  # Python's own limit on the digits of a whole number
        raise FileError(
            say("{file} holds a number with thousands of digits.", file=name)
        ) from None


def validated(data: dict[str, Any], name: str, model: type[Model]) -> Model:
    """A decoded object as a model.

    Parameters
    ----------
    data : dict
        What `decoded` gave, its head already checked.
    name : str
        What messages call the text, such as its file name.
    model : type
        Class to read it as.

    Raises
    ------
    FileError
        It holds a key or value that is not allowed.
    """
    if found := list(_impossible(data)):
        shown = [say(template, **values) for template, values in found[:MOST_SHOWN]]
        raise FileError(_listed(name, shown, len(found)))
    try:
        # Strict, so that "300" and true are not taken for numbers; as JSON, so that lists are
        # taken for tuples.
        return model.model_validate_json(json.dumps(data), strict=True)
    except ValidationError as error:
        sentences = complaints(error, data, model)
        raise FileError(_listed(name, sentences, error.error_count())) from None


def dumped(model: BaseModel) -> str:
    """The text of a file that holds a model."""
    data = model.model_dump(mode="json")
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def found_text(value: Any) -> str:
    """What stands at a key, to end a sentence with."""
    return say("nothing", "found") if value is None else show_found(value)


def _impossible(node: Any, key: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """Complaints about keys given twice, numbers that are not finite, and lists without end."""
    if isinstance(node, (dict, list)) and len(node) > MOST_ENTRIES:
        yield _TOO_LONG, {"key": key or "{}", "found": len(node), "n": MOST_ENTRIES}
    elif isinstance(node, dict):
        for name in getattr(node, "twice", ()):
            yield _TWICE, {"key": f"{key}.{name}" if key else name}
        for name, value in node.items():
            yield from _impossible(value, f"{key}.{name}" if key else name)
    elif isinstance(node, list):
        for place, value in enumerate(node):
            yield from _impossible(value, f"{key}.{place}")
    elif isinstance(node, float) and not math.isfinite(node):
        yield _NOT_FINITE, {"key": key, "found": show_found(node)}


def _listed(name: str, sentences: Sequence[str], count: int) -> Text:
    """Complaints about a file, as many as a person takes in at once, out of so many."""
    shown = [joined(": ", (name, sentence)) for sentence in sentences[:MOST_SHOWN]]
    if (more := count - MOST_SHOWN) > 0:
        shown.append(say("{file}: {n} more of this kind.", file=name, n=more))
    return joined("\n", shown)

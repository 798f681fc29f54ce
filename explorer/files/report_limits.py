"""What the model leaves out and how wrong it may be, as its note says it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from explorer.files.report_blocks import Render, plain
from explorer.resource_files import resource_path
from explorer.text import say

_LED = re.compile(r"\*\*([^*]+?):?\*\*:?\s*(.*?)(?=\*\*|\n\s*\n|\Z)", re.DOTALL)
"""A statement with its name in bold in front, up to the next one."""
LEFT_OUT, ERROR = say("left out", "model note"), say("expected error", "model note")
"""What the note calls the two, in small letters."""
OF_FORECAST = ("2", "3", "4", "5", "6", "7")
"""Sections of the note about the forecast itself, from the light to how it is solved."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """What one section of the note says."""

    section: str
    """Its number and title."""
    left_out: str
    error: str


def model_limits(code: str = "en", render: Render = plain) -> tuple[Limit, ...]:
    """What the model note in one language says of its limits.

    Parameters
    ----------
    code : str
        Language of the note; the English one where there is none in it.
    render : callable
        Puts texts into that language.
    """
    folder = resource_path("help")
    path = folder / f"model-note.{code}.md"
    path = path if path.is_file() else folder / "model-note.md"
    found = limits_in(path.read_text(encoding="utf-8"), render(LEFT_OUT), render(ERROR))
    return tuple(limit for limit in found if limit.section.partition(".")[0] in OF_FORECAST)


def limits_in(note: str, left_out: str, error: str) -> tuple[Limit, ...]:
    r"""The statements of a note, section by section.

    Parameters
    ----------
    note : str
        Markdown.
    left_out, error : str
        Words in the names of the statements that are looked for.

    Examples
    --------
    >>> limits_in("## 2. Light\n**Left out:** flicker.\n**Expected error:** 10 %.",
    ...           "left out", "expected error")
    (Limit(section='2. Light', left_out='flicker.', error='10 %.'),)
    """
    found = []
    for part in re.split(r"^## ", note, flags=re.MULTILINE)[1:]:
        title, _, body = part.partition("\n")
        said = {
            word: " ".join(_plain(text) for name, text in _LED.findall(body)
                           if word.lower() in name.lower())
            for word in (left_out, error)
        }  # fmt: skip
        if any(said.values()):
            found.append(Limit(section=title.strip(), left_out=said[left_out], error=said[error]))
    return tuple(found)


def _plain(text: str) -> str:
    """Without the marks of Markdown and the line breaks of its file."""
    return " ".join(text.replace("*", "").replace("`", "").split())

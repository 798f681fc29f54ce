"""What a file leaves open, as a value that can be asked, and what a person told about it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from explorer.files.disk import FileError
from explorer.text import Text, listed, say

DateOrder = Literal["dmy", "mdy", "ymd"]
DecimalMark = Literal["point", "comma"]
Clock = Literal["h:mm", "mm:ss"]
About = Literal["dates", "decimal", "clock", "column"]


class LogError(FileError):
    """A table cannot be used; the text is a sentence that names the line or the column."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What a person said about a file that can be read in two ways; None where nothing was said."""

    dates: DateOrder | None = None
    """Whether 03/04/05 is 3 April (day first), 4 March, or 5 April 2003 (year first)."""
    decimal: DecimalMark | None = None
    """Whether the comma or the point of 1,234 parts the decimals; the other groups thousands."""
    clock: Clock | None = None
    """Whether 12:30 is half past twelve, or twelve and a half minutes."""
    column: str | None = None
    """Heading, or number from 1, of the column to take where several hold what is wanted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What must be told before a file can be read."""

    about: About
    """Name of the field of `Told`."""
    choices: tuple[tuple[str, Text], ...]
    """What can be told, each with what it would mean in this file."""


class Undecided(LogError):
    """A file can be read in two ways and nothing in it says which; the text is a sentence."""

    def __init__(self, sentence: Text, question: Question) -> None:
        super().__init__(sentence)
        self.question = question


def ways(question: Question, prefix: str) -> Text:
    """What to do, in a sentence: ``Say --dates dmy (1 February) or --dates mdy (2 January).``

    Parameters
    ----------
    question : Question
        Of an `Undecided`.
    prefix : str
        What stands before each choice: an option of a command, or a key of a scenario.

    Examples
    --------
    >>> ways(Question(about="dates", choices=(("dmy", say("day first")),)), "--dates ")
    'Say --dates dmy (day first).'
    """
    said: Sequence[Text] = [
        say("{choice} ({meaning})", choice=prefix + value, meaning=meaning)
        for value, meaning in question.choices
    ]
    return say("Say {choices}.", choices=listed(said, say(" or ")))

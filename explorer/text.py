"""Text that a person reads, in English, which remembers how it was made.

The layers below the window know no language: they *say* English, and the value is a string like any
other. It keeps its template and its values beside it, so that the window can put the same sentence
into another language, decimal marks included. Files, the command line and tests see plain English.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import partial
from os import PathLike, fspath
from typing import Any, TypeVar, overload
from unicodedata import category

Translate = Callable[[str, str], str]
"""Template and meaning to the template in the language on show."""
T = TypeVar("T")


_KEPT = frozenset("\n\t\u200c\u200d")
"""Line breaks, and the joiners that scripts and pictures need."""


def visible(text: str) -> str:
    r"""A text in which whatever steers a terminal or turns the order of letters is seen.

    Control characters, bidirectional and other unseen marks, and halves of letters become what
    they are called; line breaks stay.

    Examples
    --------
    >>> visible("Fern\x1b[2J\u202egnp.exe")
    'Fern␛[2J⟨U+202E⟩gnp.exe'
    """
    if text.isprintable():
        return text
    return "".join(map(_seen, text))


def visible_line(text: str) -> str:
    """The same in one line: breaks become spaces."""
    return visible(" ".join(text.split()) if len(text.splitlines()) > 1 else text)


def _seen(letter: str) -> str:
    if letter.isprintable() or letter in _KEPT:
        return letter
    kind = category(letter)
    if kind == "Zs":  # spaces of other widths are spaces
        return letter
    code = ord(letter)
    if code < 0x20:
        return chr(0x2400 + code)
    return "␡" if code == 0x7F else f"⟨U+{code:04X}⟩"


class Text(str):
    """English text that can be rendered in another language.

    Adding, joining with `joined` and `lower` keep it so; an f-string does not.
    """

    _render: Callable[[Translate, str], str]

    def __str__(self) -> str:
        return self

    def __add__(self, other: str) -> Text:
        return joined("", (self, other))

    def __radd__(self, other: str) -> Text:
        return joined("", (other, self))

    def lower(self) -> Text:
        """Within a sentence: in another language its own entry in small letters, or as it is."""
        return _made(str.lower(self), partial(_render_small, self))

    def __copy__(self) -> Text:
        return self

    def __deepcopy__(self, _: object) -> Text:
        return self

    def __reduce__(self) -> tuple[Callable[..., Text], tuple[object, ...]]:
        """How it was made goes along to and from another process."""
        return _made, (str.__str__(self), self._render)


def say(template: str, meaning: str = "", /, **values: object) -> Text:
    """A text with its values filled in.

    Parameters
    ----------
    template : str
        Literal English text, with ``{name}`` where a value goes; the translations are keyed by it.
    meaning : str
        Tells two uses of one English word apart, for the translator.
    **values
        Strings, texts and numbers; a text among them is translated too, a string is not: it may
        be anybody's, and is made `visible`.

    Examples
    --------
    >>> say("lasts {time} in the dark", time=figure("1.5 h"))
    'lasts 1.5 h in the dark'
    >>> rendered(say("lasts {time}", time=figure("1.5 h")), lambda t, _: "hält {time}", ",")
    'hält 1,5 h'
    """
    if not values:
        return _made(template, partial(_render_said, template, meaning, values))
    values = {name: _shown(value) for name, value in values.items()}
    english = template.format(**values)
    return _made(english, partial(_render_said, template, meaning, values))


def figure(text: str) -> Text:
    """A number already written with a point, which becomes the mark of the language on show."""
    return _made(text, partial(_render_figure, text))


def joined(separator: str, parts: Iterable[str]) -> Text:
    """Like ``separator.join(parts)``; every part, and the separator, stays translatable."""
    kept = tuple(part if isinstance(part, Text) else visible(part) for part in parts)
    return _made(str.join(separator, kept), partial(_render_joined, separator, kept))


def listed(parts: Iterable[str], last: str | None = None) -> Text:
    """Parts as a sentence names them: commas between them, and a word before the last.

    Parameters
    ----------
    parts : iterable of str
        What is named.
    last : str, optional
        Stands before the last part; " and " when left out.

    Examples
    --------
    >>> listed(("balance", "pulse", "service")), listed(("balance", "pulse")), listed(("pulse",))
    ('balance, pulse and service', 'balance and pulse', 'pulse')
    """
    named = tuple(parts)
    word = say(" and ") if last is None else last
    return joined(word, (joined(", ", named[:-1]), named[-1]) if named[1:] else named)


def altered(text: str, change: Callable[[str], str]) -> Text:
    """What a change of letters makes of a text, in whatever language it is shown."""
    return _made(change(text), partial(_render_altered, text, change))


def capitalised(text: str) -> Text:
    """The text with a capital at its head."""
    return altered(text, _with_capital)


def _with_capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def renamed(text: str, pattern: re.Pattern[str], name: Callable[[str], str]) -> Text:
    """A text in which every match of a pattern gives way to a name, itself translatable."""

    def render(translate: Translate, mark: str) -> str:
        return pattern.sub(
            lambda found: rendered(name(found.group()), translate, mark),
            rendered(text, translate, mark),
        )

    return _made(pattern.sub(lambda found: name(found.group()), text), render)


@overload
def texts(table: dict[Any, T]) -> dict[Any, T]: ...
@overload
def texts(table: T) -> T: ...
def texts(table: Any) -> Any:
    """A literal table whose strings, keys of dictionaries apart, can be shown in any language."""
    if isinstance(table, str):
        return say(table)
    if isinstance(table, dict):
        return {key: texts(value) for key, value in table.items()}
    if isinstance(table, (tuple, list)):
        return type(table)(texts(value) for value in table)
    return table


def rendered(text: str, translate: Translate, mark: str) -> str:
    """A text in the language of `translate`; what is not a `Text` stays as it is."""
    return text._render(translate, mark) if isinstance(text, Text) else text


def _shown(value: object) -> object:
    if isinstance(value, Text):
        return value
    if isinstance(value, str):
        return visible(value)
    return visible(str(fspath(value))) if isinstance(value, PathLike) else value


def _value(value: object, translate: Translate, mark: str) -> object:
    return value._render(translate, mark) if isinstance(value, Text) else value


# Functions of the module, not closures: a text goes to and from worker processes.


def _render_small(text: Text, translate: Translate, mark: str) -> str:
    small = str.lower(text)
    found = translate(small, "")
    return found if found != small else rendered(text, translate, mark)


def _render_said(
    template: str, meaning: str, values: dict[str, object], translate: Translate, mark: str
) -> str:
    found = translate(template, meaning)
    if not values:
        return found
    return found.format(**{k: _value(v, translate, mark) for k, v in values.items()})


def _render_figure(text: str, _: Translate, mark: str) -> str:
    return text.replace(".", mark)


def _render_joined(
    separator: str, parts: tuple[str, ...], translate: Translate, mark: str
) -> str:
    return rendered(separator, translate, mark).join(
        rendered(part, translate, mark) for part in parts
    )


def _render_altered(
    text: str, change: Callable[[str], str], translate: Translate, mark: str
) -> str:
    return change(rendered(text, translate, mark))


def _made(english: str, render: Callable[[Translate, str], str]) -> Text:
    text = Text(english)
    text._render = render
    return text

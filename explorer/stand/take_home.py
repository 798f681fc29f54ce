"""What a visitor takes home of a design: a short text or a link, and the code that carries it."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote, urlencode

import segno

from explorer.advice.assess import Assessment
from explorer.quantity import show
from explorer.state.knobs import knob_value, knobs_for
from explorer.state.language import tr
from explorer.words import readout

MOST_BYTES = 600
"""Longest content of a code: beyond it the squares get too small for a phone (own judgement)."""
QUIET_MODULES = 4
"""White margin around a code (ISO/IEC 18004)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """A design that somebody made, in words of the language on show."""

    title: str
    place: str
    word: str
    reason: str
    values: tuple[tuple[str, str], ...]
    """Label and value of each of the four knobs."""
    moved: tuple[tuple[str, str], ...]
    """Key and plain value of each of the four knobs, for a link."""


def design_of(found: Assessment) -> Design:
    """A design in words.

    Parameters
    ----------
    found : Assessment
        What the model says of it.
    """
    sign, scenario = readout.sign(found), found.scenario
    values, moved = [], []
    for knob in knobs_for(scenario):
        value = knob_value(found.case, knob)
        shown = f"{value:g}" if knob.whole else tr(show(value, knob.unit))
        values.append((tr(knob.label), shown))
        moved.append((knob.key, f"{value:.6g}"))
    return Design(
        title=scenario.title, place=scenario.place, word=tr(sign.word),
        reason=tr(found.verdict.governing.sentence), values=tuple(values), moved=tuple(moved),
    )  # fmt: skip


def text_of(design: Design, contact: str = "") -> str:
    """A design as a few lines of plain text, no longer than a code should carry."""
    lines = [design.title, *(f"{label}: {value}" for label, value in design.values), design.word]
    lines += [line for line in (design.reason, contact) if line]
    while len("\n".join(lines).encode()) > MOST_BYTES and len(lines) > 2:
        lines.pop()
    return "\n".join(lines).encode()[:MOST_BYTES].decode(errors="ignore")


def link_of(link: str, exhibit: str, design: Design) -> str:
    """The keeper's own link with the design in it.

    Parameters
    ----------
    link : str
        Begins with ``https://`` or ``http://``; a query of its own stays.
    exhibit : str
        Name of the scenario that it began with.
    design : Design
        What was made of it.
    """
    query = urlencode(
        [("exhibit", exhibit), *design.moved, ("verdict", design.word)], quote_via=quote
    )
    head, mark, fragment = link.partition("#")
    return f"{head}{'&' if '?' in head else '?'}{query}{mark}{fragment}"


def content_of(design: Design, *, link: str, exhibit: str, contact: str) -> str:
    """What the code of a design holds: the link where the keeper has one, else the text."""
    if link:
        return link_of(link, exhibit, design)
    return text_of(design, contact)


def modules_of(content: str) -> tuple[tuple[bool, ...], ...]:
    """The squares of a QR code, row by row, dark ones True; without the white margin.

    Examples
    --------
    >>> rows = modules_of("Fernhollow")
    >>> len(rows) == len(rows[0]) and all(rows[0][:7])
    True
    """
    code = segno.make_qr(content, error="m", encoding="utf-8")
    return tuple(tuple(bool(square) for square in row) for row in code.matrix)

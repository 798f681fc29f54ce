"""An assessment as plain text for a terminal or a mail: aligned, wrapped, without colour."""

from __future__ import annotations

import math
import shutil
import sys
import textwrap
from collections.abc import Sequence
from typing import Literal

from explorer.advice.answers import held_for
from explorer.advice.assess import Assessment
from explorer.advice.elsewhere import elsewhere
from explorer.advice.verdict import NO_LIMIT, VERDICT_WORDS, State
from explorer.advice.year.view import year_view
from explorer.quantity import show
from explorer.text import visible
from explorer.words import readout
from explorer.words.answers import LABELS as ANSWERS
from explorer.words.answers import value_of
from explorer.words.elsewhere import COLUMNS, place_row
from explorer.words.light_log import log_sentences
from explorer.words.panel import sold_sentence
from explorer.words.required import asked_rows
from explorer.words.year import year_sentences

Outcome = State | Literal["error"]
NARROWEST, WIDEST, UNKNOWN_WIDTH = 60, 100, 88
MARKS: dict[Outcome, str] = {"runs": "●", "marginal": "◐", "falls_short": "○", "error": "–"}
"""The shapes of the window's sign: a full disc runs, a half disc is marginal, a ring fails."""
PLAIN_MARKS: dict[Outcome, str] = {"runs": "+", "marginal": "~", "falls_short": "-", "error": "?"}
"""For terminals that cannot show the shapes."""
_GAP = 3


def page(file: str, found: Assessment, width: int | None = None) -> str:
    """All that `check` says about one file.

    Parameters
    ----------
    file : str
        Its name as it was given.
    found : Assessment
        What the model says.
    width : int, optional
        Columns of the page; those of the terminal, from 60 to 100, when left out.
    """
    width = width or _width()
    scenario, verdict = found.scenario, found.verdict
    head = [one_line(text) for text in (scenario.title, scenario.place, file)]
    lines = [line for text in head if text for line in textwrap.wrap(text, width)]
    lines += ["", f"{_marks()[verdict.state]} {verdict.word}"]
    lines += _wrapped(verdict.governing.sentence, width, "  ")
    for hazard in verdict.hazards:
        lines += ["", *_wrapped(f"HAZARD, {hazard.title.lower()}: {hazard.sentence}", width, "! ")]
    lines += ["", *_checks(found, width), "", *_answers(found.answers, width)]
    places = elsewhere(found.case)
    if places:
        lines += ["", "  Other places", *_table([COLUMNS, *map(place_row, places)])]
    sold = sold_sentence(found.case)
    if sold:
        lines += ["", *_wrapped(sold, width, "  ")]
    if found.case.is_long:
        lines += ["", "  Light log" if found.case.log is not None else "  Light of the year"]
        for sentence in log_sentences(found.case):
            lines += _wrapped(sentence, width, "  ")
    if found.case.year is not None:
        lines += ["", "  Year"]
        for sentence in year_sentences(year_view(found.case)):
            lines += _wrapped(sentence, width, "  ")
    note = held_for(found.case)
    if note is not None:
        lines += ["", *_wrapped(note, width, "  ")]
    return "\n".join(lines)


def summary(outcomes: Sequence[tuple[Outcome, str]]) -> str:
    """One line for each file: its verdict and its title."""
    marks = _marks()
    lines = []
    for state, title in outcomes:
        word = "Not judged" if state == "error" else VERDICT_WORDS[state]
        lines.append(f"  {marks[state]} {word:11}  {title}")
    return "\n".join([f"{len(outcomes)} files", *lines])


def one_line(text: str) -> str:
    r"""A text from a file without what would move the cursor or break the line.

    Examples
    --------
    >>> one_line("Fern\nlabel")
    'Fern label'
    """
    return visible(" ".join(text.split()))


def _checks(found: Assessment, width: int) -> list[str]:
    lines = [f"  {'Check':9}{'Margin':>7}{'Wanted':>8}"]
    asked = [
        line for row in asked_rows(found)
        for line in _wrapped(
            row.sentence, width, f"  {'':9}{row.margin:>7}{'1×':>8}  {_marks()[row.state]} "
        )
    ]
    for row, check in zip(readout.check_rows(found), found.verdict.checks, strict=True):
        margin = "> 99×" if check.margin >= NO_LIMIT else row.margin
        wanted = show(check.wanted, "×") if check.wanted > 1.0 else "1×"
        head = f"  {row.label:9}{margin:>7}{wanted:>8}  {_marks()[check.state]} "
        sentence = check.sentence if asked and check.name == "service" else row.sentence
        lines += _wrapped(sentence, width, head)
    return lines + asked


def _answers(answers: dict[str, float], width: int) -> list[str]:
    rows = [(ANSWERS[k], value_of(k, value)) for k, value in answers.items() if k in ANSWERS]
    label = max((len(name) for name, _ in rows), default=0) + 1
    value = max((len(text) for _, text in rows), default=0)
    cells = [f"{name:{label}}{text:>{value}}" for name, text in rows]
    across = 2 if width >= 2 + 2 * (label + value) + _GAP else 1
    down = math.ceil(len(cells) / across)
    columns = [cells[i : i + down] for i in range(0, len(cells), down)]
    return [
        "  " + (" " * _GAP).join(column[i] for column in columns if i < len(column))
        for i in range(down)
    ]


def _table(rows: Sequence[Sequence[str]]) -> list[str]:
    """Rows with their first column to the left and the others to the right."""
    widths = [max(len(one_line(row[k])) for row in rows) for k in range(len(rows[0]))]
    return [
        "  " + "  ".join(
            f"{one_line(cell):{'<' if k == 0 else '>'}{width}}"
            for k, (cell, width) in enumerate(zip(row, widths, strict=True))
        )
        for row in rows
    ]


def _wrapped(text: str, width: int, head: str) -> list[str]:
    """Lines that begin with a head and go on below its end; a number keeps its unit beside it."""
    lines = textwrap.wrap(
        readout.bind_units(text), width, initial_indent=head, subsequent_indent=" " * len(head)
    )
    return [line.replace("\u00a0", " ") for line in lines]


def _marks() -> dict[Outcome, str]:
    try:
        "".join(MARKS.values()).encode(sys.stdout.encoding or "ascii")
    except UnicodeEncodeError:
        return PLAIN_MARKS
    return MARKS


def _width() -> int:
    columns = shutil.get_terminal_size((UNKNOWN_WIDTH, 24)).columns
    return min(max(columns, NARROWEST), WIDEST)

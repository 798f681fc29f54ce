"""Several designs side by side in words: inputs that differ, checks and answers, one a row."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from explorer.advice.assess import Assessment
from explorer.advice.compare import differences
from explorer.advice.verdict import CHECK_LABELS, CHECK_NAMES, State
from explorer.scenario.model import Scenario, get_value
from explorer.text import figure, joined, say
from explorer.words.answers import LABELS, SHOWN, value_of
from explorer.words.compare import words
from explorer.words.drawers import Table
from explorer.words.figures import check_margin_text, value_text

_NONE = figure("–")


@dataclass(frozen=True, slots=True, kw_only=True)
class LineUpRow:
    """One row: a heading where it has no values, else what each design has."""

    label: str
    values: tuple[str, ...] = ()
    states: tuple[State | None, ...] = ()

    @property
    def is_heading(self) -> bool:
        """Whether it names the rows below it."""
        return not self.values

    @property
    def differs(self) -> bool:
        """Whether the designs do not agree."""
        return len({value for value in self.values if value}) > 1


def line_up_rows(
    scenarios: Sequence[Scenario], found: Sequence[Assessment | None]
) -> tuple[LineUpRow, ...]:
    """What differs among designs, and what comes of each.

    Parameters
    ----------
    scenarios : sequence of Scenario
        The designs; the first is the one that the others are held against.
    found : sequence of Assessment or None
        What the model says of each; None where it has not said it yet.
    """
    inputs = _input_rows(scenarios)
    verdicts = tuple(_NONE if a is None else a.verdict.word for a in found)
    states = tuple(None if a is None else a.verdict.state for a in found)
    rows = [
        LineUpRow(label=say("What comes of it")),
        LineUpRow(label=say("Verdict"), values=verdicts, states=states),
    ]
    for name in CHECK_NAMES:
        checks = [
            None if a is None else next(c for c in a.verdict.checks if c.name == name)
            for a in found
        ]
        rows.append(
            LineUpRow(
                label=CHECK_LABELS[name],
                values=tuple(
                    _NONE if c is None else joined(", ", (value_text(c), check_margin_text(c)))
                    for c in checks
                ),
                states=tuple(None if c is None else c.state for c in checks),
            )
        )
    rows += [LineUpRow(label=say("Inputs that differ")), *inputs] if inputs else []
    rows.append(LineUpRow(label=say("Answers")))
    for key in SHOWN:
        answers = tuple(
            value_of(key, a.answers[key]) if a is not None and key in a.answers else _NONE
            for a in found
        )
        rows.append(LineUpRow(label=LABELS[key], values=answers))
    return tuple(rows)


def _input_rows(scenarios: Sequence[Scenario]) -> list[LineUpRow]:
    named: dict[str, tuple[str, str]] = {}
    for other in scenarios[1:]:
        for difference in differences(scenarios[0], other):
            named.setdefault(difference.path, (difference.label, difference.unit))
    shown = [path for path in named if not _is_told_above(path, named)]
    order = sorted(shown, key=lambda path: path in ("title", "place", "notes"))
    return [
        LineUpRow(
            label=named[path][0],
            values=tuple(_input(scenario, path, named[path][1]) for scenario in scenarios),
        )
        for path in order
    ]


def _is_told_above(path: str, named: Collection[str]) -> bool:
    """Whether it is a title of a part whose row already gives the titles.

    Where one design has no part, the row is of the part; between two that have one, of its values.
    """
    part, _, last = path.rpartition(".")
    return last == "title" and part in named


def _input(scenario: Scenario, path: str, unit: str) -> str:
    """A value in words; a dash where a design has a part of another kind there."""
    try:
        return words(get_value(scenario, path), unit)
    except (KeyError, IndexError, AttributeError):
        return _NONE


def line_up_table(names: Sequence[str], rows: Sequence[LineUpRow]) -> Table:
    """The rows as columns for a file, in English."""
    kept = [row for row in rows if not row.is_heading]
    table: Table = {"quantity": [str.__str__(row.label) for row in kept]}
    for index, name in enumerate(names):
        table[f"{index + 1} {name}"] = [str.__str__(row.values[index]) for row in kept]
    return table

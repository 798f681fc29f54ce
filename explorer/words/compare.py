"""What the comparison of two scenarios says, row by row; pure, tested without a widget."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from explorer.advice.assess import Assessment
from explorer.advice.compare import Difference
from explorer.advice.verdict import CHECK_LABELS, Check, State
from explorer.quantity import show
from explorer.scenario.demand import Operation, Phase
from explorer.scenario.fields import Section, describe
from explorer.scenario.light import LogPattern
from explorer.scenario.model import Scenario
from explorer.scenario.origin import PartOrigin
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore
from explorer.scenario.weekdays import Weekday
from explorer.text import joined, say
from explorer.words.answers import LABELS, SHOWN, value_of
from explorer.words.drawers import Table
from explorer.words.options import OPTIONS, WEEKDAYS, option
from explorer.words.readout import margin_text, value_text

_DIGITS = 6
_TEXTS = say("Title, place and notes")
"""Heading of the values that belong to no part; they come last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row: a heading where it has no values, else a label and what each design has."""

    label: str
    this: str = ""
    other: str = ""
    this_state: State | None = None
    other_state: State | None = None
    is_heading: bool = False
    differs: bool = True
    difference: Difference | None = None
    """What can be taken over, where the row is a value of the scenario."""
    tip: str = ""


def difference_rows(found: Sequence[Difference]) -> tuple[Row, ...]:
    """The values that differ, under the part of the scenario that they belong to."""
    rows: list[Row] = []
    part = ""
    for difference in sorted(found, key=_is_text):
        here = _part_of(difference.path)
        if here != part:
            rows.append(Row(label=here, is_heading=True))
            part = here
        this, other = (words(v, difference.unit) for v in (difference.old, difference.new))
        rows.append(
            Row(
                label=difference.label,
                this=this,
                other=other,
                difference=difference,
                tip=joined("\n", (difference.label, _of_this(this), _of_other(other))),
            )
        )
    return tuple(rows)


def result_rows(this: Assessment, other: Assessment | None) -> tuple[Row, ...]:
    """Checks with their margins and answers of both designs; blanks until both are there."""
    rows = [Row(label=say("Checks and margins"), is_heading=True)]
    others = {} if other is None else {check.name: check for check in other.verdict.checks}
    for check in this.verdict.checks:
        fellow = others.get(check.name)
        left, right = _check_words(check), "" if fellow is None else _check_words(fellow)
        sentences = [_of_this(check.sentence)]
        if fellow is not None:
            sentences.append(_of_other(fellow.sentence))
        rows.append(
            Row(
                label=CHECK_LABELS.get(check.name, check.name.capitalize()),
                this=left,
                other=right,
                this_state=check.state,
                other_state=None if fellow is None else fellow.state,
                differs=left != right,
                tip=joined("\n", sentences),
            )
        )
    rows.append(Row(label=say("Answers"), is_heading=True))
    for key in SHOWN:
        left = _answer_words(this, key)
        right = "" if other is None else _answer_words(other, key)
        if left or right:
            rows.append(Row(label=LABELS[key], this=left, other=right, differs=left != right))
    return tuple(rows)


def summary(count: int, this: Assessment | None, other: Assessment | None) -> str:
    """The comparison in one sentence or two.

    Examples
    --------
    >>> summary(0, None, None)
    'Nothing differs.'
    """
    if count == 0:
        return say("Nothing differs.")
    text = say("One value differs.") if count == 1 else say("{n} values differ.", n=count)
    if this is None or other is None:
        return text
    one, two = this.verdict, other.verdict
    if one.state == two.state:
        return joined(" ", (text, say("Both: {word}.", word=one.word.lower())))
    verdicts = say(
        "This design: {one}; the other: {two}.", one=one.word.lower(), two=two.word.lower()
    )
    return joined(" ", (text, verdicts))


def words(value: Any, unit: str) -> str:
    """A value of a scenario as a person reads it.

    Examples
    --------
    >>> words(0.47, "F"), words(None, "lx"), words("led_4000", ""), words(("mon", "wed"), "")
    ('0.47 F', 'not set', 'LED, neutral white 4000 K', 'Mon, Wed')
    """
    if value is None:
        return say("not set")
    if isinstance(value, Section):
        return _section_words(value)
    if isinstance(value, tuple):
        return _list_words(value)
    if isinstance(value, str):
        return option(value) if value in OPTIONS else value or say("empty")
    return show(value, unit, _DIGITS if unit else 6)


def difference_table(found: Sequence[Difference]) -> Table:
    """What differs, as columns for a file; numbers in the unit beside them."""
    return {
        "key": [d.path for d in found],
        "quantity": [d.label for d in found],
        "unit": [d.unit for d in found],
        "this_design": [_cell(d.old) for d in found],
        "other_design": [_cell(d.new) for d in found],
    }


def result_table(this: Assessment, other: Assessment) -> Table:
    """Checks and answers of both, as columns for a file; margins have no unit."""
    names: list[float | str] = []
    units: list[float | str] = []
    pairs: list[tuple[float, float]] = []
    for check, fellow in zip(this.verdict.checks, other.verdict.checks, strict=True):
        names += [check.name, f"{check.name} margin"]
        units += [check.unit, ""]
        pairs += [(check.value, fellow.value), (check.margin, fellow.margin)]
    for key in this.answers:
        if key in other.answers:
            stem, _, unit = key.rpartition("_")
            names.append(stem.replace("_", " "))
            units.append(unit)
            pairs.append((this.answers[key], other.answers[key]))
    return {
        "result": names,
        "unit": units,
        "this_design": [one for one, _ in pairs],
        "other_design": [two for _, two in pairs],
    }


def _part_of(path: str) -> str:
    head = path.partition(".")[0]
    if isinstance(getattr(Scenario(), head), Section):
        return describe(Scenario, head).label
    return _TEXTS


def _is_text(difference: Difference) -> bool:
    return _part_of(difference.path) == _TEXTS


def _of_this(text: str) -> str:
    return say("this design: {text}", text=text)


def _of_other(text: str) -> str:
    return say("the other: {text}", text=text)


def _check_words(check: Check) -> str:
    return joined(", ", (value_text(check), margin_text(check.margin)))


def _answer_words(assessment: Assessment, key: str) -> str:
    return value_of(key, assessment.answers[key]) if key in assessment.answers else ""


def _section_words(section: Section) -> str:
    if isinstance(section, Phase):
        field = describe(Phase, section.amount_key)
        amount = show(getattr(section, section.amount_key), field.unit, _DIGITS)
        duration = show(section.duration_s, "s", _DIGITS)
        return say("{amount} for {duration}", amount=amount, duration=duration)
    if isinstance(section, Operation):
        return section.name
    if isinstance(section, PartOrigin):
        return section.title or say("empty")
    kind = option(str(getattr(section, "kind", "")))
    if isinstance(section, CapacitorStore | SupercapacitorStore | CellStore):
        return joined(", ", (kind, show(section.size, section.size_unit, _DIGITS)))
    if isinstance(section, LogPattern):
        return joined(", ", (kind, section.file))
    return kind


def _list_words(items: tuple[Any, ...]) -> str:
    if not items:
        return say("none")
    if all(item in WEEKDAYS for item in items if isinstance(item, str)) and isinstance(
        items[0], str
    ):
        return day_words(items)
    if isinstance(items[0], Operation | Phase):
        return joined("; ", (_section_words(item) for item in items))
    return say("{n} entries", n=len(items)) if len(items) > 1 else say("1 entry")


def day_words(days: tuple[Weekday, ...]) -> str:
    """Weekdays, a run of three and more as from–to.

    Examples
    --------
    >>> day_words(("mon", "tue", "wed", "thu", "fri")), day_words(("sat", "sun"))
    ('Mon–Fri', 'Sat, Sun')
    """
    order = list(WEEKDAYS)
    places = sorted(order.index(day) for day in days)
    if len(places) == len(order):
        return say("every day")
    if len(places) > 2 and places[-1] - places[0] == len(places) - 1:
        return joined("–", (WEEKDAYS[order[places[0]]], WEEKDAYS[order[places[-1]]]))
    return joined(", ", (WEEKDAYS[order[place]] for place in places))


def _cell(value: Any) -> float | str:
    if isinstance(value, int | float):
        return float(value)
    return "" if value is None else value if isinstance(value, str) else words(value, "")

"""One thing has one value: knob, remedy, map, guide and sheet show what one search found."""

from datetime import datetime

import pytest

from explorer.advice.assess import assess
from explorer.advice.break_even import break_even
from explorer.advice.case import Case
from explorer.advice.criteria import RUNS
from explorer.advice.reach import reach
from explorer.advice.remedies import find_remedies
from explorer.advice.stops import knob_paths, stops_of
from explorer.advice.territory import axis_choices, row_of
from explorer.files.report import findings, sheet
from explorer.files.report_blocks import Table
from explorer.files.report_source import source_of
from explorer.quantity import show
from explorer.scenario.fields import describe
from explorer.scenario.model import owner_class
from explorer.text import capitalised
from explorer.words.answer_groups import answer_lines
from explorer.words.answers import LABELS, value_of
from explorer.words.drawers import territory_summary
from explorer.words.edges import break_even_text, span_text
from explorer.words.figures import bind_units
from tests.advice.demos import demo

LIGHT = "light.illuminance_lx"
DIM = {"light.illuminance_lx": 150.0, "store.capacitance_F": 2.2}


@pytest.fixture(scope="module")
def probe():
    """A probe that more light would save."""
    case = Case(*demo("soil_probe"))
    for path, value in DIM.items():
        case = case.with_value(path, value)
    return case


def again(case):
    """The same design, of which nothing is known yet."""
    return Case(case.scenario, case.log)


@pytest.fixture(scope="module")
def sentences(probe):
    """What each of the four knobs says."""
    said = {}
    for path in knob_paths(probe.scenario):
        unit = describe(owner_class(probe.scenario, path), path.rpartition(".")[2]).unit
        said[path] = break_even_text(break_even(again(probe), path, stops_of(path)), unit)
    return said


@pytest.fixture(scope="module")
def made(probe):
    """The sheet of the probe."""
    source = source_of(probe.scenario, None, "1.0", datetime(2026, 1, 5, 12))
    return sheet(findings(again(probe)), source, [])


def rows_of(made, *head):
    tables = [b for b in made.blocks if isinstance(b, Table)]
    found = next(t for t in tables if tuple(c.title for c in t.columns) == head)
    return {row.cells[0]: row.cells[1:] for row in found.rows}


def test_the_sheet_says_of_each_quantity_what_its_knob_says(made, sentences):
    rows = rows_of(made, "Quantity", "Now", "Verdict")
    assert [cells[1] for cells in rows.values()] == [
        bind_units(capitalised(text)) for text in sentences.values()
    ]


def test_the_headline_of_the_map_says_of_each_quantity_what_its_knob_says(probe, sentences):
    axes = {axis.path: axis for axis in axis_choices(probe)}
    for path, said in sentences.items():
        up = next(a for a in axes.values() if a.path != path and a.unit != "")
        works, runs = row_of(again(probe), axes[path])
        headline = territory_summary(axes[path], up, 1.0, works, runs)
        for found in (works, runs):
            if found.edges:
                assert span_text(found, axes[path].unit) in headline
                assert span_text(found, axes[path].unit) in said


def test_a_remedy_goes_to_the_value_that_its_knob_names(probe):
    *_, last = find_remedies(again(probe))
    named = 0
    for remedy in last.singles:
        (change,) = remedy.changes
        if change.path not in knob_paths(probe.scenario):
            continue
        found = break_even(again(probe), change.path, stops_of(change.path)).runs
        assert change.new in [edge.value for edge in found.edges]
        assert change.text.endswith(f" → {show(change.new, change.unit)}")
        named += 1
    assert named >= 2


def test_window_sheet_and_json_show_one_value_for_each_answer(probe, made):
    case = again(probe)
    found = reach(case)
    rows = rows_of(made, "Answer", "Value", "Assumes")
    assessment = assess(case)
    assessment.answers.update(found)
    beside = {line.label: line.value for line in answer_lines(assessment)}
    for key, value in found.items():
        label = LABELS[key]
        assert rows[label][0].replace("\u00a0", " ") == value_of(key, value)
        if label in beside:
            assert beside[label].replace("\u00a0", " ") == value_of(key, value)


def test_the_value_at_which_the_verdict_turns_is_named_apart_from_the_balance(probe):
    """Energy alone is enough long before the nights are: two things, two names, two values."""
    case = again(probe)
    balance = reach(case)["least_light_for_balance_lx"]
    (verdict, *_) = (e.value for e in break_even(case, LIGHT, stops_of(LIGHT)).works.edges)
    assert balance < verdict
    assert LABELS["least_light_for_balance_lx"] == "Least light for the balance"
    assert not RUNS.checks

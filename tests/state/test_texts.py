"""What the state says can be shown in another language, numbers included."""

import dataclasses
import math

import pytest
from pydantic import ValidationError

from explorer.advice.assess import assess
from explorer.advice.budget import budget
from explorer.advice.case import Case
from explorer.advice.compare import differences
from explorer.advice.contest import contest, present_entry
from explorer.advice.edges import Edge, Edges
from explorer.advice.panel_curve import panel_curve
from explorer.advice.territory import Axis
from explorer.files.disk import FileError
from explorer.scenario.model import Scenario, with_value
from explorer.state import knobs, stand_plan, tour
from explorer.state.document import Document
from explorer.text import Text, figure, rendered, say
from explorer.words import compare, drawers, moments, options, panel, readout
from explorer.words import contest as contest_words
from explorer.words.answer_groups import answer_groups, course_note
from explorer.words.refusal import refusal
from tests import pseudo

SCENARIO = with_value(Scenario(), "light.illuminance_lx", 450.0)
OPERATION = frozenset(SCENARIO.load.operations[0].name.split())
PANELS = Axis(path="panels.count", label=say("Panels"), unit="", values=(1.0, 2.0))


def foreign(text):
    """A text in the disguise, with a decimal comma."""
    return rendered(text, pseudo.disguise, ",")


def shown(found):
    """Every text of a dataclass, or of several, apart from keys."""
    if isinstance(found, str):
        yield found
    elif isinstance(found, tuple | list):
        for item in found:
            yield from shown(item)
    elif dataclasses.is_dataclass(found):
        for field in dataclasses.fields(found):
            keys = ("key", "name", "path", "unit", "source", "difference")
            if field.name not in keys and not field.name.endswith("state"):
                yield from shown(getattr(found, field.name))


def left_in_english(*found, own=frozenset()):
    return [text for text in shown(found) if pseudo.is_forgotten(foreign(text), OPERATION | own)]


@pytest.fixture(scope="module")
def assessment():
    return assess(Case(SCENARIO))


def test_what_an_assessment_says_can_be_shown_in_any_language(assessment):
    trace = assessment.trace
    assert not left_in_english(
        readout.sign(assessment),
        readout.check_rows(assessment),
        answer_groups(assessment),
        course_note(assessment) or "",
        readout.pulse_lines(assessment.pulse),
        readout.cursor_lines(trace, 5000.0, trace, True),
        readout.trace_summary(assessment),
    )


def test_a_number_keeps_to_its_unit_in_any_language():
    # A template that the program has, as the disguise leaves all others alone.
    found = readout.bind_units(say("more than {time}", time=figure("1.5 h")))
    assert foreign(found) == "жжжж жжжж 1,5\u00a0h"
    share = readout.bind_units(say("{asked} % is asked for.", asked=figure("99.5")))
    assert rendered(share, lambda *_: "verlangt: {asked} %.", ",") == "verlangt: 99,5\u00a0%."


def test_the_drawers_can_be_shown_in_any_language():
    ends = budget(Case(SCENARIO))
    entries = [present_entry(Case(SCENARIO)), *contest(Case(SCENARIO))]
    columns = [key for key, _ in contest_words.CONTEST_COLUMNS]
    assert not left_in_english(
        drawers.budget_lines(ends),
        drawers.budget_answer(ends),
        drawers.budget_close(ends),
        [contest_words.contest_line(entry) for entry in entries],
        [contest_words.contest_cell(entry, key).text for entry in entries for key in columns],
        [contest_words.contest_answer(entries, done) for done in (True, False)],
        [title for _, title in contest_words.CONTEST_COLUMNS],
        list(contest_words.CONTEST_TIPS.values()),
        [contest_words.years_text(years) for years in (math.inf, 1.0, 2.5)],
        [drawers.percent(share) for share in (0.0, 0.0001, 0.004, 0.3, 0.9999)],
        [drawers.percent_range(0.62, high) for high in (0.62, 0.66, 0.9999)],
    )


@pytest.mark.parametrize(("at_low", "at_high", "found"), [
    (False, False, ()), (True, True, ()), (False, True, ((3.0, 2.9),)),
    (False, False, ((3.0, 2.9), (4.0, 4.1))), (True, True, ((3.0, 3.1), (4.0, 3.9))),
])  # fmt: skip
def test_the_summary_of_a_map_can_be_shown_in_any_language(at_low, at_high, found):
    light = Axis(path="light.illuminance_lx", label=say("Light"), unit="lx", values=(2.5, 5.0))
    works = Edges(
        path=light.path, low=2.5, high=5.0, at_low=at_low, at_high=at_high,
        edges=tuple(Edge(value=value, beyond=beyond) for value, beyond in found),
    )
    nowhere = Edges(path=light.path, low=2.5, high=5.0, at_low=False, at_high=False, edges=())
    assert not left_in_english(
        drawers.territory_summary(light, PANELS, 1.0, works, works),
        drawers.territory_summary(light, PANELS, 1.0, works, nowhere),
        drawers.row_pending(light, 3.0),
    )


def test_small_letters_are_for_english_alone():
    found = drawers.lower_first(say("Illuminance"))
    assert found == "illuminance"
    assert rendered(found, lambda *_: "Beleuchtung", ",") == "Beleuchtung"


def test_the_panel_and_the_table_of_sources_can_be_shown_in_any_language():
    curve = panel_curve(Case(SCENARIO))
    for scenario in (SCENARIO, with_value(SCENARIO, "light.orientation_factor", 0.5)):
        for text in (panel.panel_answer, panel.panel_notes):
            assert not left_in_english(text(panel_curve(Case(scenario)), Case(scenario)))
    assert not left_in_english(
        panel.METER_NOTE,
        panel.point_lines(curve),
        panel.meaning_title(500.0, "organic"),
        panel.light_meanings(SCENARIO.panels.technology, 500.0, SCENARIO.light.source),
        panel.meaning_line(SCENARIO, 500.0),
        own=frozenset({"LED"}),
    )


def test_the_comparison_can_be_shown_in_any_language(assessment):
    other = SCENARIO
    for path, value in (("panels.count", 3), ("light.source", "daylight_glass"), ("title", "")):
        other = with_value(other, path, value)
    rows = compare.difference_rows(differences(SCENARIO, other))
    assert len(rows) > 3
    dark = assess(Case(with_value(SCENARIO, "light.illuminance_lx", 5.0)))
    assert not left_in_english(
        rows,
        compare.result_rows(assessment, dark),
        [compare.summary(n, assessment, dark) for n in (0, 1, 2)],
        compare.summary(2, assessment, assessment),
        [compare.words(value, "") for value in (None, "", (), 0.5, ("mon", "tue", "wed"))],
        own=frozenset(SCENARIO.title.split()) | {"LED"},
    )


def test_times_options_knobs_and_the_tour_can_be_shown_in_any_language():
    assert not left_in_english(
        [moments.clock(9.4 * 86_400, weekdays) for weekdays in (True, False)],
        [moments.time_ticks(-0.5, most, 8, False) for most in (1e-3, 1.0, 60.0, 9e4, 9e6)],
        moments.time_ticks(0.0, 604_800.0, 8, True),
        list(options.OPTIONS.values()),
        options.WEEKDAY_NAMES,
        options.plain_number(0.5),
        [dataclasses.replace(k, label="", help="") for k in knobs.knobs_for(SCENARIO)],
        tour.STEPS,
        tour.Tour().place,
    )


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("panels.count", 0),
        ("light.source", "torch"),
        ("load.disconnect_V", 50.0),
        ("margins.nothing", 3),
        ("load.operations", ({"phases": ({"current_A": -1.5, "duration_s": 1.0},)},)),
    ],
)
def test_a_refusal_can_be_shown_in_any_language(path, value):
    with pytest.raises((ValidationError, KeyError)) as caught:
        with_value(SCENARIO, path, value)
    found = refusal(SCENARIO, path, caught.value)
    assert isinstance(found, Text)
    assert "ж" in foreign(found)


@pytest.mark.parametrize(
    ("content", "english"),
    [
        ('{"idle_s": 1}', "idle_s: input should be greater than or equal to 10."),
        ('{"idle_s": 30.5}', "idle_s: input should be a valid integer."),
        ('{"theme": "pink"}', "theme: input should be 'system', 'light', 'dark' or 'contrast'."),
        ('{"movable": []}', "movable: must name at least one of the four knobs."),
        ('{"title": 3}', "title: input should be a valid string."),
        ('{"scenarios": 3}', "scenarios: input should be a valid array."),
        ('{"reduced_motion": 2}', "reduced_motion: input should be a valid boolean."),
        ('{"diagonal_in": "a"}', "diagonal_in: input should be a valid number."),
    ],
)  # fmt: skip
def test_a_fault_in_the_set_up_of_a_stand_can_be_shown_in_any_language(tmp_path, content, english):
    place = tmp_path / "stand.json"
    place.write_text(content)
    with pytest.raises(FileError) as caught:
        stand_plan.load_plan(place)
    assert str(caught.value) == f"stand.json: {english}"
    keys = frozenset(english.partition(":")[0].split("_")) | {"system", "light", "dark", "contrast"}
    found = foreign(str(caught.value)).removeprefix("stand.json")
    assert not pseudo.is_forgotten(found, keys)


def test_the_title_of_a_plan_is_translated_as_long_as_nobody_changed_it(tmp_path):
    assert isinstance(stand_plan.default_plan().title, Text)
    place = tmp_path / "stand.json"
    stand_plan.save_plan(place, stand_plan.default_plan())
    assert stand_plan.load_plan(place) == stand_plan.default_plan()
    assert isinstance(stand_plan.load_plan(place).title, Text)
    own = stand_plan.default_plan().model_copy(update={"title": "Our bench"})
    stand_plan.save_plan(place, own)
    assert not isinstance(stand_plan.load_plan(place).title, Text)


def test_a_refused_edit_arrives_as_it_was_said(qtbot):
    document, heard = Document(SCENARIO), []
    document.refused.connect(heard.append)
    document.edit("panels.count", 0)
    assert heard == ["Panels takes 1 to 64."]
    assert not left_in_english(heard)

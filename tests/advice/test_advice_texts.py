"""Every sentence of advice can be shown in another language, numbers included."""

from itertools import product

import pytest

from explorer.advice.assess import assess, judge
from explorer.advice.break_even import break_even
from explorer.advice.budget import budget
from explorer.advice.case import Case
from explorer.advice.cautions import cautions
from explorer.advice.compare import differences
from explorer.advice.contest import fitted_title
from explorer.advice.panel_curve import panel_curve
from explorer.advice.reach import reach
from explorer.advice.territory import axis_choices
from explorer.scenario import parts
from explorer.scenario.model import with_value
from explorer.text import Text, rendered
from explorer.words.answers import value_of
from explorer.words.edges import break_even_text
from explorer.words.two_sentences import two_sentences
from tests import pseudo
from tests.advice.demos import NAMES, demo
from tests.depth import some

CHANGES = (
    {},
    {"light.illuminance_lx": 20.0},
    {"light.illuminance_lx": 5000.0, "load.reserve_J": 0.5},
    {"light.ambient_C": -10.5},
    {"light.ambient_C": 70.0, "load.actuator": "door_lock"},
    {"margins.closure_days": 20.0, "load.actuator": "other_motor"},
    {"charger.full_V": 5.9, "panels.count": 60},
)


def left_in_english(texts, scenario):
    """What is no `Text`, or keeps a word apart from the names that the scenario gives."""
    own = frozenset(word for op in scenario.load.operations for word in op.name.split())
    standards = {"IEC", "NFPA", "CFR"}
    return [
        text
        for text in texts
        if not isinstance(text, Text)
        or pseudo.is_forgotten(rendered(text, pseudo.disguise, ","), own | standards)
    ]


def changed(name, change):
    scenario, log = demo(name)
    for path, value in change.items():
        scenario = with_value(scenario, path, value)
    return scenario, log


def called(case):
    """How a test is called after a demonstration or a change."""
    return case if isinstance(case, str) else "-".join(case) or "as it is"


# Every change in one of the two at least.
@pytest.mark.parametrize(
    ("name", "change"), some(product(("seminar_room_co2", "door_counter"), CHANGES), 2), ids=called
)
def test_checks_hazards_and_cautions_can_be_shown_in_any_language(name, change):
    scenario, log = changed(name, change)
    verdict = judge(Case(scenario, log))
    said = [check.sentence for check in verdict.checks]
    said += [text for hazard in verdict.hazards for text in (hazard.title, hazard.sentence)]
    said += [text for caution in cautions(scenario) for text in (caution.title, caution.text)]
    items = budget(Case(scenario, log)).items
    said += [item.label for item in items if not item.key.startswith("operation_")]
    curve = panel_curve(Case(scenario, log))
    said += [curve.note, *(point.label for point in curve.points)]
    assert left_in_english(said, scenario) == []


@pytest.mark.parametrize("change", CHANGES[:2], ids=["as it is", "in the dark"])
@pytest.mark.parametrize("name", NAMES)
def test_an_answer_in_plain_words_can_be_shown_in_any_language(name, change):
    scenario, log = changed(name, change)
    found = assess(Case(scenario, log))
    said = [*two_sentences(found), found.verdict.word, found.pulse.title]
    said += [threshold.label for threshold in found.thresholds]
    assert left_in_english(said, scenario) == []


@pytest.mark.parametrize("name", some(["door_counter", "plant_label", "vent_flap"], 2))
def test_a_break_even_can_be_shown_in_any_language(name):
    scenario, log = demo(name)
    stops = {"light.illuminance_lx": [30.0, 100.0, 300.0, 1000.0], "panels.count": [1, 2, 4, 16]}
    case = Case(scenario, log)
    said = [
        break_even_text(break_even(case, path, values), "lx" if "lx" in path else "")
        for path, values in stops.items()
    ]
    said += [value_of(key, value) for key, value in reach(case).items()]
    said += [axis.label for axis in axis_choices(Case(scenario, log))]
    assert left_in_english(said, scenario) == []


def test_what_differs_between_two_scenarios_can_be_shown_in_any_language():
    a, b = demo("plant_label")[0], demo("vent_flap")[0]
    assert left_in_english([found.label for found in differences(a, b)], a) == []
    unnamed = with_value(a, "load.operations.0.name", "")
    longer = with_value(unnamed, "load.operations.0.phases.0.duration_s", 0.7)
    said = [found.label for found in differences(unnamed, longer)]
    assert said
    assert left_in_english(said, unnamed) == []


@pytest.mark.parametrize("full_v", [3.0, 9.0])
def test_titles_of_long_strings_can_be_shown_in_any_language(full_v):
    said = [fitted_title(family, full_v) for family in parts.store_families()]
    assert left_in_english(said, demo("plant_label")[0]) == []

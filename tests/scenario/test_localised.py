import pytest

from explorer.advice.compare import differences
from explorer.files.report_inputs import input_rows
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.localised import in_language, named_like

PATHS = sorted(scenario_folder().rglob("*.json"))


@pytest.mark.parametrize("path", PATHS, ids=lambda p: f"{p.parent.name}-{p.stem}")
def test_every_bundled_scenario_has_all_its_names_in_german(path):
    english = load_scenario(path).scenario
    german = in_language(english, "de")
    assert german.title != english.title
    assert german.place != english.place
    assert german.notes != english.notes
    for one, other in zip(german.load.operations, english.load.operations, strict=True):
        assert one.name != other.name
    assert named_like(german, english) == english


def test_names_in_another_language_are_no_values_of_a_design():
    one, other = (load_scenario(path).scenario for path in PATHS[:2])
    assert not [d for d in differences(one, other) if d.path.startswith("names_")]
    assert not [row for row in input_rows(one) if row.path.startswith("names_")]


def test_a_language_without_names_changes_nothing():
    english = load_scenario(PATHS[0]).scenario
    assert in_language(english, "en") is english
    bare = english.model_copy(update={"names_de": None})
    assert in_language(bare, "de") is bare

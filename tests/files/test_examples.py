"""A bundled scenario has the names of a language, a copy of it those of its file."""

import shutil

import pytest

from explorer.files.examples import named_scenario
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.state import examples, language

LABEL = scenario_folder() / "plant_label.json"
EXHIBIT = scenario_folder() / "stand" / "door_counter.json"


@pytest.mark.parametrize("path", [LABEL, EXHIBIT])
def test_a_bundled_scenario_has_its_german_names_by_every_path(path, tmp_path, monkeypatch):
    german = load_scenario(path).scenario.names_de.title
    (tmp_path / "link").symlink_to(path.parent)
    monkeypatch.chdir(path.parent)
    for way in (path, path.relative_to(path.parent), tmp_path / "link" / path.name):
        assert named_scenario(way, "de").title == german
        assert named_scenario(way, "en") == load_scenario(path).scenario


def test_a_copy_keeps_the_names_that_its_owner_gave(tmp_path):
    copy = tmp_path / LABEL.name
    shutil.copy(LABEL, copy)
    assert named_scenario(copy, "de") == load_scenario(LABEL).scenario


def test_the_window_follows_the_same_rule(qapp):
    try:
        language.begin("de")
        assert examples.read_scenario(EXHIBIT) == named_scenario(EXHIBIT, "de")
    finally:
        language.set_language("en")

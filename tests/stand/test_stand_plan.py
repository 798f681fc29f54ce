import json

import pytest
from pydantic import ValidationError

from explorer.files.disk import FileError
from explorer.state.stand_plan import (
    StandPlan,
    bundled_names,
    default_plan,
    load_plan,
    save_plan,
    scenario_path,
)


def test_a_plan_survives_its_file(tmp_path):
    plan = StandPlan(
        scenarios=("bundled:plant_label", "/media/stick/Fenster.json"), movable=("pulse", "light"),
        title="Grüne Woche", diagonal_in=43.0, theme="dark", warning_s=30,
    )  # fmt: skip
    save_plan(tmp_path / "new folder" / "stand.json", plan)
    assert load_plan(tmp_path / "new folder" / "stand.json") == plan


def test_knobs_keep_their_order_and_scenarios_come_once():
    plan = StandPlan(scenarios=("a.json", "b.json", "a.json"), movable=("pulse", "light", "pulse"))
    assert plan.scenarios == ("a.json", "b.json")
    assert plan.movable == ("light", "pulse")


@pytest.mark.parametrize(
    "bad",
    [
        {"warning_s": 19},
        {"idle_s": 0},
        {"movable": ()},
        {"movable": ("door",)},
        {"diagonal_in": float("nan")},
        {"distance_m": -3.0},
        {"theme": "pink"},
        {"title": "x" * 500},
    ],
)
def test_a_plan_refuses_what_would_harm_visitors(bad):
    with pytest.raises(ValidationError):
        StandPlan(**bad)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "is empty"),
        ("{", "not JSON"),
        ('{"format": "gloaming-stand", "version": 1, "warning_s": 5}', "warning_s"),
        ('{"format": "gloaming-stand", "version": 1, "colour": 5}', "colour is not a known key"),
        ('{"format": "other"}', "format"),
        ("[]", "stand.json"),
    ],
)
def test_a_wrong_file_is_a_sentence(tmp_path, text, says):
    path = tmp_path / "stand.json"
    path.write_text(text)
    with pytest.raises(FileError, match=r"stand\.json") as error:
        load_plan(path)
    assert says in str(error.value)
    assert str(error.value).endswith(".")


def test_the_default_shows_every_bundled_scenario():
    assert default_plan().scenarios == bundled_names()
    # Its verdict turns with one knob, so that a first touch is answered.
    assert bundled_names()[0] == "bundled:soil_probe"
    assert all(scenario_path(name).is_file() for name in bundled_names())


def test_a_bundled_name_cannot_lead_out_of_its_folder():
    assert scenario_path("bundled:../../etc/passwd").parent == scenario_path("bundled:x").parent


def test_the_file_says_what_it_is(tmp_path):
    save_plan(tmp_path / "stand.json", StandPlan())
    data = json.loads((tmp_path / "stand.json").read_text(encoding="utf-8"))
    assert (data["format"], data["version"]) == ("gloaming-stand", 1)


def test_a_set_up_that_is_moved_with_its_scenarios_finds_them(tmp_path):
    here, there = tmp_path / "here", tmp_path / "there"
    here.mkdir()
    (here / "bell.json").touch()
    names = ("bundled:plant_label", str(here / "bell.json"), str(tmp_path / "far.json"))
    save_plan(here / "stand.json", StandPlan(scenarios=names))
    here.rename(there)
    moved = load_plan(there / "stand.json").scenarios
    assert moved == ("bundled:plant_label", str(there / "bell.json"), str(tmp_path / "far.json"))

import gc
import json

import pytest

from explorer.files.scenario_json import ScenarioError, save_scenario
from explorer.scenario.daylight import DaylightPattern
from explorer.scenario.light import Light, LogPattern
from explorer.scenario.model import VERSION, Scenario
from explorer.scenario.storage import CellStore
from explorer.state.document import MOST_STEPS, Document, _Replace
from tests.weather_files import epw, rows


@pytest.fixture
def document(qapp):
    return Document(Scenario())


def test_an_edit_changes_the_scenario_and_says_so(qtbot, document):
    with qtbot.waitSignal(document.changed) as heard:
        assert document.edit("light.illuminance_lx", 450.0)
    assert heard.args[0].light.illuminance_lx == 450.0
    assert document.scenario is heard.args[0]


def test_edits_of_one_value_in_one_gesture_are_one_undo_step(document):
    before = document.scenario
    document.begin_gesture()
    for level in (310.0, 320.0, 330.0):
        document.edit("light.illuminance_lx", level)
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert document.scenario == before
    document.undo_stack.redo()
    assert document.scenario.light.illuminance_lx == 330.0


def test_a_new_gesture_and_another_value_are_steps_of_their_own(document):
    document.begin_gesture()
    document.edit("light.illuminance_lx", 310.0)
    document.edit("panels.count", 3)
    document.begin_gesture()
    document.edit("panels.count", 4)
    assert document.undo_stack.count() == 3


def test_a_drag_back_to_its_start_leaves_nothing_to_undo(document):
    document.begin_gesture()
    document.edit("panels.count", 3)
    document.edit("panels.count", 1)
    assert not document.undo_stack.canUndo()
    assert document.is_clean


def test_an_equal_value_is_no_edit(qtbot, document):
    with qtbot.assertNotEmitted(document.changed):
        assert document.edit("panels.count", 1)
    assert document.undo_stack.count() == 0


@pytest.mark.parametrize(
    ("path", "value", "words"),
    [
        ("panels.count", 65, "Panels takes 1 to 64."),
        ("light.illuminance_lx", 0.3, "Illuminance takes 1 to 200 000 lx."),
        ("light.ambient_C", -50.0, "Ambient temperature takes −40 to 85 °C."),
        ("load.connect_V", 1.0, "must be higher than “Disconnect voltage”"),
        ("charger.full_V", 3.0, "the device never connects"),
        ("load.nothing", 1.0, "There is nothing to change at load.nothing."),
    ],
)
def test_a_value_that_is_not_allowed_changes_nothing_and_is_explained(
    qtbot, document, path, value, words
):
    before = document.scenario
    with qtbot.waitSignal(document.refused) as heard, qtbot.assertNotEmitted(document.changed):
        assert not document.edit(path, value)
    assert words in heard.args[0]
    assert document.scenario is before
    assert document.undo_stack.count() == 0


def test_a_log_that_cannot_be_read_is_refused(qtbot, document):
    before = document.scenario
    with qtbot.waitSignal(document.refused):
        assert not document.edit("light.pattern", LogPattern(file="no_such_log.csv"))
    assert document.scenario is before


def test_a_weather_file_comes_with_its_name_and_a_missing_one_is_refused(document, tmp_path):
    (tmp_path / "fernhollow.epw").write_text(epw(rows()), encoding="utf-8")
    sky = DaylightPattern()
    bare = Scenario(light=Light(pattern=sky, illuminance_lx=None))
    save_scenario(tmp_path / "design.json", bare)
    document.open(tmp_path / "design.json")
    assert document.case.weather is None
    assert "no such file" in document.attempt("light.pattern.weather_file", "other.epw")
    assert document.edit("light.pattern.weather_file", "fernhollow.epw")
    assert document.case.weather.site == "Fernhollow"
    assert document.case.year.temperature_c.min() == 1.0
    document.undo_stack.undo()
    assert document.case.weather is None


def test_a_bundled_log_comes_with_the_pattern_and_goes_with_undo(document):
    assert document.log is None
    assert document.edit("light.pattern", LogPattern())
    assert document.log is not None
    document.undo_stack.undo()
    assert document.log is None


def test_replacing_the_scenario_is_one_step(document):
    before = document.scenario
    document.replace(before.model_copy(update={"store": CellStore()}), "another store")
    assert document.undo_stack.undoText() == "another store"
    document.undo_stack.undo()
    assert document.scenario == before


def test_saved_and_opened_again_is_the_same(qtbot, document, tmp_path):
    document.edit("title", "Fern bench")
    assert not document.is_clean
    with qtbot.waitSignal(document.file_changed):
        document.save(tmp_path / "fern.json")
    assert document.is_clean
    assert document.name == "fern.json"
    other = Document()
    other.open(tmp_path / "fern.json")
    assert other.scenario == document.scenario
    assert other.path == tmp_path / "fern.json"
    assert not other.undo_stack.canUndo()


def test_a_file_that_cannot_be_read_leaves_what_is_open(document, tmp_path):
    document.edit("panels.count", 3)
    (tmp_path / "broken.json").write_text('{"format": "gloaming-scenario"', encoding="utf-8")
    with pytest.raises(ScenarioError):
        document.open(tmp_path / "broken.json")
    assert document.scenario.panels.count == 3
    assert document.undo_stack.canUndo()
    assert document.path is None


def test_an_example_is_opened_without_its_file_name(document, tmp_path):
    save_scenario(tmp_path / "example.json", Scenario(title="An example"))
    document.open_example(tmp_path / "example.json")
    assert document.scenario.title == "An example"
    assert document.path is None


def test_an_older_file_is_not_overwritten_unasked(document, tmp_path):
    place = tmp_path / "old.json"
    place.write_text(json.dumps({"format": "gloaming-scenario", "version": 0}), encoding="utf-8")
    document.open(place)
    assert document.migrated_from == 0
    with pytest.raises(ScenarioError):
        document.save()
    document.save(replace_older=True)
    assert json.loads(place.read_text(encoding="utf-8"))["version"] == VERSION
    # From here on it is a file of today: nobody is asked a second time.
    assert document.migrated_from is None
    document.edit("panels.count", 4)
    document.save()
    assert json.loads(place.read_text(encoding="utf-8"))["panels"]["count"] == 4


def test_restored_work_of_an_older_file_is_still_not_saved_over_it_unasked(document, tmp_path):
    place = tmp_path / "old.json"
    place.write_text(json.dumps({"format": "gloaming-scenario", "version": 0}), encoding="utf-8")
    document.restore(Scenario(), place, 0)
    assert document.migrated_from == 0
    with pytest.raises(ScenarioError, match="version 0"):
        document.save()


def test_reset_knows_the_value_at_the_start(document):
    document.edit("panels.count", 5)
    assert document.start.panels.count == 1
    document.new(document.scenario)
    assert document.start.panels.count == 5


def replacements():
    gc.collect()
    return sum(isinstance(o, _Replace) for o in gc.get_objects())


def test_a_long_drag_is_one_command_and_leaves_no_other():
    before = replacements()
    document = Document(Scenario())
    document.begin_gesture()
    for i in range(200):
        document.edit("light.illuminance_lx", 100.0 + i)
    assert document.undo_stack.count() == 1
    assert replacements() == before + 1
    document.undo_stack.clear()
    assert replacements() == before


def test_a_drag_that_comes_back_to_where_it_began_leaves_no_step(document):
    start = document.scenario
    document.begin_gesture()
    for lux in (150.0, 250.0, start.light.illuminance_lx):
        document.edit("light.illuminance_lx", lux)
    assert document.scenario == start
    assert document.undo_stack.count() == 0
    assert document.is_clean


def test_a_gesture_that_goes_on_after_a_save_or_an_undo_is_a_step_of_its_own(document, tmp_path):
    document.begin_gesture()
    document.edit("light.illuminance_lx", 150.0)
    document.save(tmp_path / "fern.json")
    document.edit("light.illuminance_lx", 160.0)
    assert not document.is_clean
    document.undo_stack.undo()
    assert document.get("light.illuminance_lx") == 150.0
    assert document.is_clean
    document.edit("light.illuminance_lx", 170.0)
    assert document.undo_stack.count() == 2


def test_only_so_many_steps_are_kept_and_they_share_what_they_did_not_change(document):
    for i in range(MOST_STEPS + 20):
        document.begin_gesture()
        document.edit("light.illuminance_lx", 100.0 + i)
    stack = document.undo_stack
    assert stack.count() == MOST_STEPS
    before = document.scenario
    stack.undo()
    assert document.get("light.illuminance_lx") == 100.0 + MOST_STEPS + 18
    assert document.scenario.load is before.load
    assert document.scenario.store is before.store
    for _ in range(MOST_STEPS):
        stack.undo()
    assert document.get("light.illuminance_lx") == 119.0


def test_a_refusal_names_a_tiny_limit_with_its_prefix(document):
    heard = []
    document.refused.connect(heard.append)
    assert not document.edit("store.capacitance_F", 0.0)
    assert heard == ["Capacitance takes 10 µF to 1000 F."]


def test_what_became_of_a_file_meanwhile_is_seen(document, tmp_path):
    path = tmp_path / "label.json"
    document.save(path)
    assert document.on_disk() == "as known"
    path.write_text(path.read_text(encoding="utf-8") + " ", encoding="utf-8")
    assert document.on_disk() == "changed"
    path.unlink()
    assert document.on_disk() == "gone"

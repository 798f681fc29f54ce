import pytest
from PySide6.QtCore import QEvent

from explorer import app
from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.scenario.model import Scenario
from explorer.widgets import messages
from tests.sharing import cases_are_shared  # noqa: F401


@pytest.fixture
def place(document, window, tmp_path):
    """A file that is open in the window."""
    path = tmp_path / "fern.json"
    save_scenario(path, Scenario(title="Fern"))
    assert window.open_path(path)
    return path


@pytest.fixture
def answers(monkeypatch):
    """What is answered when asked about the file on the disk, and whether it was gone."""
    given, asked = ["cancel"], []

    def ask(parent, path, *, gone):
        asked.append((path.name, gone))
        return given[0]

    monkeypatch.setattr(messages, "ask_overwrite", ask)
    return given, asked


def write_elsewhere(path):
    save_scenario(path, Scenario(title="From elsewhere"))


def test_a_file_as_it_was_read_is_saved_without_a_word(window, document, place, answers):
    document.edit("panels.count", 3)
    assert window.on_save()
    document.edit("panels.count", 4)
    assert window.on_save()
    assert answers[1] == []
    assert load_scenario(place).scenario.panels.count == 4


def test_a_file_changed_elsewhere_is_not_overwritten_unasked(window, document, place, answers):
    document.edit("panels.count", 3)
    write_elsewhere(place)
    assert not window.on_save()
    assert answers[1] == [("fern.json", False)]
    assert load_scenario(place).scenario.title == "From elsewhere"
    assert document.scenario.panels.count == 3


def test_mine_can_be_kept(window, document, place, answers):
    answers[0][0] = "write"
    document.edit("panels.count", 3)
    write_elsewhere(place)
    assert window.on_save()
    assert load_scenario(place).scenario.panels.count == 3
    document.edit("panels.count", 4)
    assert window.on_save()
    assert len(answers[1]) == 1


def test_what_the_disk_holds_can_be_read_again(window, document, place, answers):
    answers[0][0] = "reload"
    document.edit("panels.count", 3)
    write_elsewhere(place)
    assert window.on_save()
    assert document.scenario.title == "From elsewhere"
    assert document.is_clean


def test_a_file_that_is_gone_is_asked_about_and_can_be_saved_anew(
    window, document, place, answers
):
    place.unlink()
    document.edit("panels.count", 3)
    assert not window.on_save()
    assert answers[1] == [("fern.json", True)]
    answers[0][0] = "write"
    assert window.on_save()
    assert load_scenario(place).scenario.panels.count == 3


def test_a_file_only_touched_is_the_same_file(window, document, place, answers):
    place.write_bytes(place.read_bytes())
    document.edit("panels.count", 3)
    assert window.on_save()
    assert answers[1] == []


def test_who_comes_back_is_told_what_became_of_the_file(window, place):
    window.look_at_file()
    assert window.notice.isHidden()
    write_elsewhere(place)
    window.look_at_file()
    assert "changed elsewhere" in window.notice.text.text()
    place.unlink()
    window.look_at_file()
    assert "deleted, moved or renamed" in window.notice.text.text()


def test_reading_again_asks_about_unsaved_changes(window, document, place, monkeypatch):
    document.edit("panels.count", 3)
    write_elsewhere(place)
    monkeypatch.setattr(messages, "ask_save", lambda *_: "cancel")
    window.commands["reload"].trigger()
    assert document.scenario.panels.count == 3
    monkeypatch.setattr(messages, "ask_save", lambda *_: "discard")
    window.commands["reload"].trigger()
    assert document.scenario.title == "From elsewhere"


def test_two_windows_on_one_file_know_of_each_other(qtbot, qapp, place, tmp_path, said):
    windows = app.build_windows(qapp, tmp_path / "settings.ini")
    first = windows.add()
    second = windows.add(first)
    first.open_path(place)
    assert first.notice.isHidden()
    second.open_path(place)
    assert "another window" in second.notice.text.text()
    assert first.notice.isHidden()
    for one in (first, second):
        one.close_unasked()
    qtbot.waitUntil(lambda: not windows.leaving, timeout=30_000)
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)

"""The language can be changed while windows are open, and what a person did to a design stays."""

import pytest
from PySide6.QtCore import QEvent, QLocale
from PySide6.QtWidgets import QLabel

from explorer import app
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.state.jobs import JobRunner
from explorer.state.language import set_language
from explorer.state.settings import SettingsStore
from tests.sharing import cases_are_shared  # noqa: F401


@pytest.fixture
def windows(qtbot, qapp, tmp_path, said, monkeypatch):
    """The windows of the real program, one of them open on an unsaved change.

    Questions are not put: processes would begin for each test, to answer what none looks at.
    """
    monkeypatch.setattr(JobRunner, "ask", lambda *_: None)
    found = app.build_windows(qapp, tmp_path / "settings.ini")
    first = found.add()
    app.open_first(first, None)
    first.resize(1280, 720)
    first.show()
    first.document.edit("panels.count", 4)
    yield found
    for window in tuple(found.open):
        window.close_unasked()
    set_language("en")
    qtbot.waitUntil(lambda: not found.leaving, timeout=30_000)
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


def choose(window, code):
    """As from the View menu."""
    next(a for a in window.menus.languages.actions() if a.data() == code).trigger()


def menu_titles(window):
    return [action.text().replace("&", "") for action in window.menuBar().actions()]


def test_every_window_speaks_german_and_keeps_its_design_and_its_undo(windows, qapp):
    old = windows.open[0]
    second = windows.add(old)
    second.begin()
    second.show()
    choose(old, "de")
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    assert len(windows.open) == 2
    first = windows.open[0]
    assert first is not old
    assert menu_titles(first)[0] == menu_titles(windows.open[1])[0] == "Datei"
    assert first.isVisible()
    assert first.document.scenario.panels.count == 4
    assert not first.document.is_clean
    first.commands["undo"].trigger()
    assert first.document.scenario.panels.count != 4
    assert first.sign.word.text() in ("Läuft", "Knapp", "Reicht nicht")


def test_the_way_back_is_the_same(windows):
    choose(windows.open[0], "de")
    choose(windows.open[0], "en")
    assert menu_titles(windows.open[0])[0] == "File"
    assert windows.open[0].document.scenario.panels.count == 4


def test_the_choice_is_kept_for_the_next_start(windows, tmp_path, qapp):
    choose(windows.open[0], "de")
    assert SettingsStore(tmp_path / "settings.ini").settings.language == "de"
    set_language("en")
    set_language(SettingsStore(tmp_path / "settings.ini").settings.language)
    again = windows.add()
    assert menu_titles(again)[0] == "Datei"


def test_choosing_what_is_shown_already_changes_nothing(windows):
    window = windows.open[0]
    choose(window, "en")
    assert windows.open == [window]


def test_the_pinned_design_stays_as_a_ghost(windows):
    old = windows.open[0]
    old.commands["pin"].trigger()
    pinned = old.comparisons.pinned
    choose(old, "de")
    new = windows.open[0]
    assert new.comparisons.pinned == pinned
    assert new.commands["pin"].isChecked()
    new.commands["pin"].trigger()
    assert new.comparisons.pinned is None


def test_unsaved_work_is_still_kept_on_the_disk_under_the_same_name(windows):
    old = windows.open[0]
    keeper = windows._keepers[old]
    choose(old, "de")
    new = windows.open[0]
    assert windows._keepers == {new: keeper}
    keeper.keep()
    keeper.wait()
    assert keeper.file.exists()


def test_a_file_saved_in_german_is_the_file_saved_in_english(windows, tmp_path, said):
    window = windows.open[0]
    assert window._save(tmp_path / "english.json")
    choose(window, "de")
    assert windows.open[0]._save(tmp_path / "deutsch.json")
    english, german = ((tmp_path / n).read_bytes() for n in ("english.json", "deutsch.json"))
    assert english == german
    assert load_scenario(tmp_path / "deutsch.json").scenario.panels.count == 4


def test_the_sign_has_a_decimal_comma_and_every_label_is_german(windows, qapp):
    choose(windows.open[0], "de")
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    window = windows.open[0]
    assert "," in window.sign.number.text()
    shown = " ".join(label.text() for label in window.findChildren(QLabel))
    assert "Be&leuchtung" in shown
    assert "Capacitance" not in shown.replace("&", "")


def test_a_desktop_in_german_is_greeted_in_german(monkeypatch, tmp_path, qapp):
    class Place:
        def uiLanguages(self):
            return ["de-DE"]

    monkeypatch.setattr(QLocale, "system", staticmethod(Place))
    try:
        set_language(SettingsStore(tmp_path / "settings.ini").settings.language)
        window = app.build_window(qapp, tmp_path / "settings.ini")
        assert menu_titles(window)[0] == "Datei"
        window.close_unasked()
        window.jobs.finish()
        window.deleteLater()
        qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    finally:
        set_language("en")


def test_open_folds_the_drawer_and_the_operation_in_hand_stay_each_in_its_window(windows, qtbot):
    one, two = windows.open[0], windows.add(windows.open[0])
    two.begin()
    two.show()
    one.open_path(scenario_folder() / "plant_label.json", example=True)
    one.knobs._on_operation(1)
    one.knobs.folds[2].set_open(True)
    one.questions.drawers.open("budget")
    path = one.knobs.rows[3].knob.path
    assert ".operations.1." in path
    one.document.undo_stack.setClean()
    choose(one, "de")
    one, two = windows.open
    assert one.knobs.rows[3].knob.path == path
    assert [fold.button.isChecked() for fold in one.knobs.folds] == [
        False, False, True, False, False
    ]
    qtbot.waitUntil(lambda: one.questions.drawers.open_key == "budget", timeout=20_000)
    qtbot.wait(200)
    assert two.questions.drawers.open_key == ""


def test_a_window_that_is_put_aside_stays_where_it_is(windows):
    one, two = windows.open[0], windows.add(windows.open[0])
    two.begin()
    two.show()
    two.hide()
    choose(one, "de")
    assert windows.open[1] is two
    assert not two.isVisible()

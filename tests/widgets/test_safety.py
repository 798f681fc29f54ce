"""Nothing that a person did gets lost unasked, in one window or in several."""

import pytest
from PySide6.QtCore import QEvent, QMimeData, QPoint, QPointF, Qt, QTimer, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QFileDialog,
    QLineEdit,
    QMessageBox,
)

from explorer import app
from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.scenario.model import Scenario
from explorer.state.jobs import JobRunner
from explorer.widgets import messages
from tests.sharing import cases_are_shared  # noqa: F401


@pytest.fixture
def windows(qtbot, qapp, tmp_path, said, monkeypatch):
    """The windows of the real program, one of them open.

    Questions are not put: two processes would begin for each test, to answer what none looks at
    (`state/test_workers` and `test_app` do).
    """
    quits = []
    monkeypatch.setattr(JobRunner, "ask", lambda *_: None)
    # A button that asks for a file must not wait for one.
    monkeypatch.setattr(QFileDialog, "getOpenFileName", staticmethod(lambda *_: ("", "")))
    monkeypatch.setattr(QApplication, "quit", lambda: quits.append(True))
    found = app.build_windows(qapp, tmp_path / "settings.ini")
    found.quits = quits
    first = found.add()
    first.begin()
    first.show()
    yield found
    for window in tuple(found.open):
        window.close_unasked()
    qtbot.waitUntil(lambda: not found.leaving, timeout=30_000)
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


@pytest.fixture
def answers(monkeypatch):
    """What is answered when unsaved changes are asked about, and about which scenarios."""
    asked, given = [], []

    def ask(_, title):
        asked.append(title)
        return given.pop(0)

    monkeypatch.setattr(messages, "ask_save", ask)
    ask.asked, ask.given = asked, given
    return ask


def further(windows):
    windows.open[0].commands["new_window"].trigger()
    return windows.open[-1]


def drop(window, *paths):
    """Drag files over the window and let them go, as a file manager does."""
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    handle = window.windowHandle()
    copy, left, none = (
        Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    )  # fmt: skip
    enter = QDragEnterEvent(QPoint(600, 300), copy, data, left, none)
    QApplication.sendEvent(handle, enter)
    release = QDropEvent(QPointF(600, 300), copy, data, left, none)
    if enter.isAccepted():
        QApplication.sendEvent(handle, release)
    QApplication.processEvents()
    return enter.isAccepted()


# --- several windows ---


def test_a_further_window_has_a_scenario_undo_and_solver_of_its_own(windows):
    first, second = windows.open[0], further(windows)
    assert second.isVisible()
    assert second.sign.word.text()
    second.document.edit("panels.count", 4)
    assert first.document.scenario.panels.count == 1
    assert not first.commands["undo"].isEnabled()
    assert second.commands["undo"].isEnabled()
    assert first.settings is second.settings


def test_closing_one_window_keeps_the_others(qtbot, windows, qapp):
    first, second = windows.open[0], further(windows)
    second.commands["close"].trigger()
    qtbot.waitUntil(lambda: not windows.leaving, timeout=30_000)
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    assert windows.open == [first]
    assert first.isVisible()
    assert first.document.edit("panels.count", 2)
    assert not windows.quits


def test_a_theme_chosen_in_one_window_is_ticked_in_the_other(windows):
    second = further(windows)
    dark = next(a for a in windows.open[0].menus.themes.actions() if a.data() == "dark")
    dark.trigger()
    second.menus.view.aboutToShow.emit()
    assert [a.data() for a in second.menus.themes.actions() if a.isChecked()] == ["dark"]
    windows.open[0].apply_theme("light")


def test_each_window_keeps_its_own_unsaved_work(qtbot, windows, tmp_path):
    second = further(windows)
    for window, count in ((windows.open[0], 3), (second, 4)):
        window.document.edit("panels.count", count)
    folder = tmp_path / "unsaved"
    qtbot.waitUntil(lambda: len(list(folder.glob("*.json"))) == 2)
    second.close_unasked()
    assert len(list(folder.glob("*.json"))) == 1


def test_quit_asks_for_each_unsaved_window_and_saves_or_drops(windows, answers, tmp_path):
    save_scenario(tmp_path / "fern.json", Scenario(title="Fern bench"))
    windows.open[0].open_path(tmp_path / "fern.json")
    windows.open[0].document.edit("panels.count", 3)
    further(windows).document.edit("title", "Moss wall")
    further(windows)
    answers.given += ["save", "discard"]
    windows.open[0].commands["quit"].trigger()
    assert answers.asked == ["Fern bench", "Moss wall"]
    assert windows.open == []
    assert windows.quits
    assert load_scenario(tmp_path / "fern.json").scenario.panels.count == 3
    assert not list((tmp_path / "unsaved").glob("*"))


def test_one_cancel_leaves_every_window_open_with_its_changes(windows, answers):
    windows.open[0].document.edit("panels.count", 3)
    second = further(windows)
    second.document.edit("panels.count", 4)
    answers.given += ["discard", "cancel"]
    windows.open[0].commands["quit"].trigger()
    assert len(windows.open) == 2
    assert windows.open[0].document.scenario.panels.count == 3
    assert not windows.open[0].document.is_clean
    assert not windows.quits


# --- dropped files ---


def test_a_dropped_file_opens_here(windows, tmp_path):
    save_scenario(tmp_path / "fern.json", Scenario(title="Fern bench"))
    assert drop(windows.open[0], tmp_path / "fern.json")
    assert len(windows.open) == 1
    assert windows.open[0].document.path == tmp_path / "fern.json"


@pytest.mark.parametrize(("answer", "title"), [("discard", "Fern bench"), ("cancel", "Mine")])
def test_a_drop_asks_about_unsaved_changes_first(windows, answers, tmp_path, answer, title):
    save_scenario(tmp_path / "fern.json", Scenario(title="Fern bench"))
    windows.open[0].document.edit("title", "Mine")
    answers.given.append(answer)
    drop(windows.open[0], tmp_path / "fern.json")
    assert answers.asked == ["Mine"]
    assert windows.open[0].document.scenario.title == title


def test_of_several_dropped_files_the_rest_get_windows_of_their_own(windows, said, tmp_path):
    paths = [tmp_path / f"{name}.json" for name in ("fern", "moss", "reed")]
    for path in paths:
        save_scenario(path, Scenario(title=path.stem))
    (tmp_path / "odd.json").write_text("{", encoding="utf-8")
    drop(windows.open[0], *paths[:2], tmp_path / "odd.json", paths[2])
    assert [w.document.scenario.title for w in windows.open] == ["fern", "moss", "reed"]
    assert all(w.isVisible() for w in windows.open)
    assert len(said) == 1
    assert "odd.json" in said[0][1]


def test_a_dropped_light_log_is_shown_before_it_is_taken(windows, tmp_path):
    rows = "".join(f"{hour},{200 if hour > 8 else 0}\n" for hour in range(24))
    (tmp_path / "desk.csv").write_text("time (h),lux\n" + rows, encoding="utf-8")
    window = windows.open[0]
    drop(window, tmp_path / "desk.csv")
    dialog = window.knobs.logs.dialog
    assert dialog.table.item(1, 2).text() == "0 lx"
    assert window.document.log is None
    dialog.use_button.click()
    assert window.document.log.readings == 24
    assert len(windows.open) == 1


def test_a_dropped_file_that_is_no_scenario_is_explained(windows, said, tmp_path):
    (tmp_path / "picture.png").write_bytes(b"\x89PNG\0")
    before = windows.open[0].document.scenario
    drop(windows.open[0], tmp_path / "picture.png")
    assert "picture.png" in said[0][1]
    assert windows.open[0].document.scenario is before


def test_a_scenario_whose_log_is_missing_is_explained(windows, said, tmp_path):
    text = '{"format": "gloaming-scenario", "version": 1, "light": {"pattern": {"kind": "log", '
    (tmp_path / "away.json").write_text(text + '"file": "gone.csv"}}}', encoding="utf-8")
    assert not windows.open[0].open_path(tmp_path / "away.json")
    assert "gone.csv" in said[0][1]


def test_a_dragged_text_is_no_file(windows):
    data = QMimeData()
    data.setText("fern.json")
    enter = QDragEnterEvent(
        QPoint(600, 300),
        Qt.DropAction.CopyAction,
        data,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    enter.ignore()
    QApplication.sendEvent(windows.open[0].windowHandle(), enter)
    assert not enter.isAccepted()


# --- unsaved changes ---


@pytest.mark.parametrize("key", ["new", "open", "example", "recent", "close"])
def test_every_way_out_asks_and_cancel_stays(windows, answers, tmp_path, monkeypatch, key):
    window = windows.open[0]
    monkeypatch.setattr(messages, "pick_open", lambda *_: pytest.fail("asked for a file"))
    window.settings.remember_file(tmp_path / "fern.json")
    window.document.edit("panels.count", 3)
    answers.given.append("cancel")
    if key in ("new", "open", "close"):
        window.commands[key].trigger()
    else:
        menu = {"example": window.menus.examples, "recent": window.menus.recent}[key]
        menu.aboutToShow.emit()
        menu.actions()[0].trigger()
    assert len(answers.asked) == 1
    assert window.document.scenario.panels.count == 3
    assert window.isVisible()


def test_save_in_the_question_that_is_then_not_named_cancels(windows, answers, monkeypatch):
    window = windows.open[0]
    monkeypatch.setattr(messages, "pick_save", lambda *_: None)
    window.document.edit("panels.count", 3)
    answers.given.append("save")
    window.commands["new"].trigger()
    assert window.document.scenario.panels.count == 3


def test_what_the_guide_made_is_asked_about_before_it_goes(windows, answers):
    window = windows.open[0]
    window.open_scenario(Scenario(title="From the guide"))
    assert window.isWindowModified()
    answers.given.append("cancel")
    window.commands["new"].trigger()
    assert answers.asked == ["From the guide"]
    assert window.document.scenario.title == "From the guide"


def press_in_the_dialog(qtbot, what):
    """Do something in the dialog that comes up next."""
    heard = []

    def act():
        box = QApplication.activeModalWidget()
        if not isinstance(box, QMessageBox):
            QTimer.singleShot(10, act)
            return
        heard.extend(button.text().replace("&", "") for button in box.buttons())
        what(box)

    QTimer.singleShot(0, act)
    return heard


def test_the_question_offers_three_words_and_escape_cancels(qtbot, windows):
    texts = press_in_the_dialog(qtbot, lambda box: qtbot.keyClick(box, Qt.Key.Key_Escape))
    assert messages.ask_save(windows.open[0], "Fern bench") == "cancel"
    assert {"Save", "Discard", "Cancel"} == set(texts)


def test_found_work_is_left_for_later_by_escape(qtbot, windows):
    texts = press_in_the_dialog(qtbot, lambda box: qtbot.keyClick(box, Qt.Key.Key_Escape))
    assert messages.ask_restore(windows.open[0], ["“Fern bench”"]) == "later"
    assert set(texts) == {"Restore", "Discard", "Later"}


def test_what_is_still_being_typed_is_saved_too(qtbot, windows, tmp_path):
    window = windows.open[0]
    save_scenario(tmp_path / "fern.json", Scenario(title="Fern bench"))
    window.open_path(tmp_path / "fern.json")
    window.activateWindow()
    field = window.title_bar.title
    qtbot.waitUntil(lambda: field.setFocus() or field.hasFocus())
    field.selectAll()
    qtbot.keyClicks(field, "Moss wall")
    window.commands["save"].trigger()
    assert load_scenario(tmp_path / "fern.json").scenario.title == "Moss wall"
    assert field.hasFocus()


def test_a_number_still_being_typed_counts_as_a_change_at_close(qtbot, windows, answers):
    window = windows.open[0]
    window.activateWindow()
    field = window.knobs.rows[1].field
    qtbot.waitUntil(lambda: field.setFocus() or field.hasFocus())
    field.selectAll()
    qtbot.keyClicks(field, "7")
    answers.given.append("cancel")
    assert not window.close()
    assert window.document.scenario.panels.count == 7


# --- undo takes back whatever a control does ---


def flush(qapp):
    """Let forms that were built anew show themselves, and old ones go."""
    qapp.processEvents()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


def controls(fold):
    """Every control of an open fold that can change the scenario, in a fixed order."""
    kinds = (QLineEdit, QComboBox, QAbstractButton)
    found = [w for kind in kinds for w in fold.content.findChildren(kind)]
    return [w for w in found if w.isVisibleTo(fold) and not w.objectName().startswith("qt_")]


def nearby(text):
    """Texts that a field may take in the place of its own."""
    number, _, unit = text.partition(" ")
    try:
        value = float(number)
    except ValueError:
        return ["1", f"{text} more"]
    return [f"{v:.6g} {unit}" for v in (value + 1, value - 1, value * 0.9, value * 1.1, 0.5)]


def attempts(qtbot, control):
    """Use a control in every way that might change something; yields after each."""
    if isinstance(control, QLineEdit):
        for text in nearby(control.text()):
            control.selectAll()
            control.insert(text)  # simulated keys know neither µ nor Ω
            qtbot.keyClick(control, Qt.Key.Key_Return)
            yield
    elif isinstance(control, QComboBox):
        for index in range(control.count()):
            if index != control.currentIndex():
                control.setCurrentIndex(index)
                control.activated.emit(index)
                yield
    else:
        qtbot.mouseClick(control, Qt.MouseButton.LeftButton)
        yield


@pytest.mark.parametrize("which", range(5))
def test_every_control_of_every_form_is_one_undo_step(qtbot, qapp, windows, which):
    window = windows.open[0]
    document, stack = window.document, window.document.undo_stack
    if which >= len(window.knobs.folds):
        pytest.skip("there is no such fold")
    fold = window.knobs.folds[which]
    fold.set_open(True)
    start, used, idle = document.scenario, 0, []
    for place in range(len(controls(fold))):
        control = controls(fold)[place]
        name = control.accessibleName() or control.objectName() or control.metaObject().className()
        for _ in attempts(qtbot, control):
            if document.scenario != start:
                break
        if document.scenario == start:
            idle.append((name, isinstance(control, QAbstractButton)))
            continue
        used += 1
        changed = document.scenario
        assert stack.index() == 1, name
        stack.undo()
        assert document.scenario == start, name
        stack.redo()
        assert document.scenario == changed, name
        stack.undo()
        assert document.is_clean, name
        flush(qapp)
    assert used >= 3
    # Only buttons that explain or open something may leave the scenario as it is.
    assert [name for name, is_button in idle if not is_button] == []


def test_sliders_steps_resets_title_and_place_are_one_undo_step_each(qtbot, windows):
    window = windows.open[0]
    document, stack = window.document, window.document.undo_stack
    start = document.scenario
    for row in window.knobs.rows:
        for act in (
            lambda row=row: qtbot.keyClick(row.slider, Qt.Key.Key_Right),
            lambda row=row: qtbot.mouseClick(row.up, Qt.MouseButton.LeftButton),
        ):
            act()
            assert stack.index() == 1, row.knob.key
            assert document.scenario != start
            stack.undo()
            assert document.scenario == start
    for field in (window.title_bar.title, window.title_bar.place):
        field.selectAll()
        qtbot.keyClicks(field, "Moss wall")
        qtbot.keyClick(field, Qt.Key.Key_Return)
        assert stack.index() == 1
        stack.undo()
        assert document.scenario == start

import pytest
from PySide6.QtCore import Qt

from explorer.state.settings import SettingsStore
from explorer.widgets.drawers.drawers import QUESTIONS, Drawers
from explorer.widgets.drawers.jump import go_to
from tests.sharing import cases_are_shared  # noqa: F401

PATIENT = 60_000


@pytest.fixture
def drawers(qtbot, document, jobs, tmp_path):
    result = Drawers(document, jobs, SettingsStore(tmp_path / "s.ini"))
    qtbot.addWidget(result)
    result.resize(1200, 42)
    result.show()
    return result


def test_one_drawer_is_open_at_a_time_and_only_that_one_computes(qtbot, drawers):
    qtbot.mouseClick(drawers.buttons["budget"], Qt.MouseButton.LeftButton)
    qtbot.mouseClick(drawers.buttons["contest"], Qt.MouseButton.LeftButton)
    assert drawers.open_key == "contest"
    assert drawers.drawer("contest").feed.is_open
    assert not drawers.drawer("budget").feed.is_open
    assert [k for k, b in drawers.buttons.items() if b.isChecked()] == ["contest"]


def test_the_same_button_closes(qtbot, drawers):
    qtbot.mouseClick(drawers.buttons["budget"], Qt.MouseButton.LeftButton)
    qtbot.mouseClick(drawers.buttons["budget"], Qt.MouseButton.LeftButton)
    assert drawers.open_key == ""
    assert not drawers.drawer("budget").isVisible()
    assert not drawers.card.isVisible()


def test_arrows_walk_the_strip(qtbot, drawers):
    drawers.buttons["budget"].setFocus()
    qtbot.keyClick(drawers.buttons["budget"], Qt.Key.Key_Right)
    assert drawers.buttons["contest"].hasFocus()
    qtbot.keyClick(drawers.buttons["contest"], Qt.Key.Key_Left)
    assert drawers.buttons["budget"].hasFocus()


def test_the_open_drawer_comes_back_at_the_next_start(qtbot, drawers, document, jobs, tmp_path):
    drawers.open("budget")
    again = Drawers(document, jobs, SettingsStore(tmp_path / "s.ini"))
    qtbot.addWidget(again)
    again.open_remembered()
    assert again.open_key == "budget"


def test_an_unknown_drawer_in_the_settings_opens_none(drawers):
    drawers.open("no such drawer")
    assert drawers.open_key == ""


def test_the_wording_gives_way_where_there_is_little_room(drawers, qapp):
    assert drawers.buttons["budget"].text() == "Where does the energy go?"
    drawers.resize(720, 72)
    qapp.processEvents()
    assert drawers.buttons["panel"].text() == "How does the panel work?"
    assert drawers.buttons["panel"].y() > drawers.buttons["budget"].y()
    drawers.resize(330, 102)
    qapp.processEvents()
    assert drawers.buttons["budget"].text() == "Energy?"
    assert drawers.buttons["budget"].accessibleName() == "Where does the energy go?"
    for button in drawers.buttons.values():
        assert button.width() >= button.sizeHint().width()


def test_esc_closes_from_anywhere_in_the_window(qtbot, window):
    window.questions.drawers.open("budget")
    slider = window.knobs.rows[0].slider
    qtbot.keyClick(slider, Qt.Key.Key_Escape)
    assert window.questions.drawers.open_key == ""


def test_an_action_opens_each_drawer_and_shows_which_is_open(window):
    for key in QUESTIONS:
        window.commands[f"drawer_{key}"].trigger()
        assert window.questions.drawers.open_key == key
        checked = [k for k in QUESTIONS if window.commands[f"drawer_{k}"].isChecked()]
        assert checked == [key]


def test_the_trace_stays_in_sight_with_a_drawer_open(window, qapp):
    window.questions.drawers.open("budget")
    _ = window.trace
    qapp.processEvents()
    qapp.processEvents()
    assert window.trace.isVisible()
    assert window.trace.plot.height() >= 140


def test_a_path_leads_to_its_field(window):
    for path, fold in (
        ("light.illuminance_lx", None),
        ("store.leakage_A", 2),
        ("charger.efficiency", 1),
        ("panels.technology", 1),
        ("load.sleep_A", 3),
        ("load.operations.0.schedule.interval_s", 3),
    ):
        for one in window.knobs.folds:
            one.set_open(False)
        assert go_to(window.knobs, path)
        focused = window.focusWidget()
        assert focused is not None
        opened = [i for i, f in enumerate(window.knobs.folds) if f.button.isChecked()]
        assert opened == ([] if fold is None else [fold]), path
        if fold is not None:
            assert window.knobs.folds[fold].content.isAncestorOf(focused), path
            names = {focused.objectName(), focused.parentWidget().objectName()}
            assert path in names


def test_a_path_without_a_field_is_refused(window):
    assert not go_to(window.knobs, "nothing.there")


def test_the_open_drawer_follows_its_button_in_the_tab_order(window, qtbot):
    drawers = window.questions.drawers
    drawers.open("territory")
    drawer = drawers.drawer("territory")
    at, seen = list(drawers.buttons.values())[-1], []
    for _ in range(400):
        at = at.nextInFocusChain()
        seen.append(at)
        if at is drawer.export:
            break
    assert drawer.map in seen
    assert seen.index(drawer.map) < seen.index(drawer.export)

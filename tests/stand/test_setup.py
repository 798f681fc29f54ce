from collections import Counter

import pytest
from PySide6.QtCore import QSize, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from explorer.files.scenario_json import dump_scenario
from explorer.scenario.model import Scenario
from explorer.stand import desk as desk_module
from explorer.stand import fairness
from explorer.stand.desk import StandDesk
from explorer.stand.door import StandDoor
from explorer.stand.setup_dialog import SetupDialog
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.holds import Hold
from explorer.state.stand_plan import StandPlan, bundled_names, load_plan, save_plan
from explorer.widgets import messages
from explorer.widgets.actions import build_actions
from tests.sharing import cases_are_shared  # noqa: F401
from tests.widgets.focus_seen import ring


@pytest.fixture
def dialog(qtbot, plan, parked):
    parked.park(Scenario(title="Left behind"), "Marginal")
    result = SetupDialog(plan, parked, QSize(1920, 1080))
    qtbot.addWidget(result)
    return result


@pytest.fixture
def explorer(qtbot):
    window = QWidget()
    qtbot.addWidget(window)
    window.show()
    return window


@pytest.fixture
def desk(explorer, tmp_path):
    result = StandDesk(tmp_path, explorer, explorer)
    yield result
    if result.window is not None:
        result.window.leave()
    if result.dialog is not None:
        result.dialog.reject()


# --- the page of the operator ---


def test_a_search_that_nobody_waits_for_ends_within_the_first_exhibit(plan, monkeypatch):
    looked_at, resolve = [], fairness.resolve_case

    def look(scenario, path):
        looked_at.append(path)
        return resolve(scenario, path)

    monkeypatch.setattr(fairness, "resolve_case", look)
    hold = Hold()
    (found,) = fairness.unfair(plan.scenarios, plan.movable, hold)
    assert found == ()
    assert len(looked_at) == len(plan.scenarios)
    hold.stop.set()
    assert list(fairness.unfair(plan.scenarios, plan.movable, hold)) == []
    assert len(looked_at) == len(plan.scenarios) + 1


def test_it_gives_back_the_plan_it_was_given(dialog, plan):
    assert dialog.plan() == plan


def test_unticked_scenarios_are_offered_but_not_shown(dialog, plan):
    assert dialog.scenarios.items.count() == len(bundled_names())
    assert dialog.scenarios.names() == plan.scenarios


def test_the_order_can_be_changed(dialog, plan):
    dialog.scenarios.items.setCurrentRow(1)
    dialog.scenarios.up.click()
    assert dialog.scenarios.names() == plan.scenarios[::-1]
    dialog.scenarios.down.click()
    assert dialog.scenarios.names() == plan.scenarios


def test_a_file_can_be_added_and_removed_a_bundled_one_only_unticked(dialog, tmp_path, monkeypatch):
    path = tmp_path / "own.json"
    monkeypatch.setattr(messages, "pick_open", lambda *_: path)
    dialog.scenarios.add.click()
    dialog.scenarios.add.click()
    assert dialog.scenarios.names()[-1] == str(path)
    assert dialog.scenarios.items.count() == len(bundled_names()) + 1
    dialog.scenarios.remove.click()
    assert str(path) not in dialog.scenarios.names()
    dialog.scenarios.items.setCurrentRow(0)
    assert not dialog.scenarios.remove.isEnabled()


def test_the_warning_cannot_be_shorter_than_twenty_seconds(dialog):
    dialog.warning.setValue(5)
    assert dialog.warning.value() == 20
    assert dialog.plan().warning_s == 20


def test_it_says_whether_the_screen_carries_the_page(dialog):
    assert "reads at 3 m" in dialog.fit_text.text()
    dialog.diagonal.setValue(14.0)
    assert "is too small for 3 m" in dialog.fit_text.text()
    dialog.distance.setValue(1.0)
    assert "reads at 1 m" in dialog.fit_text.text()
    assert "px" in dialog.fit_text.text()


def test_it_says_how_to_leave(dialog):
    texts = " ".join(label.text() for label in dialog.findChildren(type(dialog.fit_text)))
    assert "hold Esc for 3 s" in texts
    assert "both upper corners" in texts
    assert "hold one upper corner for 3 s, let go and type it" in texts


def test_a_stand_without_scenario_or_knob_cannot_start(dialog):
    for row in range(dialog.scenarios.items.count()):
        dialog.scenarios.items.item(row).setCheckState(Qt.CheckState.Unchecked)
    assert not dialog.start.isEnabled()
    dialog.scenarios.items.item(0).setCheckState(Qt.CheckState.Checked)
    assert dialog.start.isEnabled()
    for box in dialog.movable.values():
        box.setChecked(False)
    assert not dialog.start.isEnabled()
    assert "at least one" in dialog.start.toolTip()


def test_parked_scenarios_are_listed_and_open_in_the_explorer(dialog, qtbot):
    assert dialog.parked_list.item(0).text() == "4 May 12:00 – Left behind – Marginal"
    with qtbot.waitSignal(dialog.open_wanted) as wanted:
        dialog.open_parked.click()
    assert wanted.args[0].title == "Left behind"
    dialog.forget.click()
    assert dialog.parked_list.count() == 0
    assert not dialog.open_parked.isEnabled()


def test_every_field_has_a_name(dialog):
    for field in (dialog.idle, dialog.warning, dialog.cycle, dialog.diagonal, dialog.distance,
                  dialog.title, dialog.contact, dialog.theme_choice, dialog.parked_list,
                  dialog.scenarios.items):  # fmt: skip
        assert field.accessibleName()
    assert "seconds" in dialog.idle.accessibleName()


# --- there and back ---


def test_tabs_page_and_what_has_the_focus_show_in_every_theme(dialog, qtbot):
    dialog.show()
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    tabs, bar = dialog.tabs, dialog.tabs.tabBar()
    for tokens in theme.ALL_TOKENS:
        tabs.setPalette(theme.palette_of(tokens))
        dialog.start.setFocus()
        shown, hidden = bar.tabRect(0), bar.tabRect(1)
        calm = painted(bar, hidden), painted(bar, shown)
        assert tokens.edge.upper() in calm[0].keys() & calm[1].keys()
        assert tokens.accent.upper() in calm[1].keys() - calm[0].keys()
        bar.setFocus()
        focused = painted(bar, shown)
        ring = 2 * (shown.width() + shown.height())
        assert focused[tokens.accent.upper()] > calm[1][tokens.accent.upper()] + ring
        left = painted(tabs, tabs.rect().adjusted(0, bar.height() + 10, 2 - tabs.width(), -10))
        assert tokens.edge.upper() in left


@pytest.mark.parametrize("tokens", theme.ALL_TOKENS, ids=lambda tokens: tokens.name)
def test_whatever_has_the_focus_shows_it_in_every_theme(dialog, qapp, qtbot, tokens):
    qapp.setPalette(theme.palette_of(tokens))
    dialog.show()
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    seen = {}
    for page in range(dialog.tabs.count()):
        dialog.tabs.setCurrentIndex(page)
        for part in dialog.findChildren(QWidget):
            if part.focusPolicy() & Qt.FocusPolicy.TabFocus and part.isVisible() and (
                part.isEnabled() and part.focusProxy() is None
            ):
                seen[part] = ring(part)
    assert len(seen) > 25
    dim = {part.accessibleName() or getattr(part, "text", part.objectName)(): round(share, 2)
           for part, share in seen.items() if share < 0.6}  # fmt: skip
    assert dim == {}


def painted(widget, where):
    """How many pixels of each colour a part of a widget has."""
    image = widget.grab(where).toImage()
    return Counter(
        image.pixelColor(x, y).name().upper()
        for x in range(image.width()) for y in range(image.height())
    )


def test_starting_saves_the_plan_hides_the_explorer_and_fills_the_screen(desk, explorer, tmp_path):
    desk.open_setup()
    desk.dialog.title.setText("Open day")
    desk.dialog.start.click()
    assert desk.dialog is None
    assert desk.window.isFullScreen()
    assert desk.window.page.title.text() == "Open day"
    assert not explorer.isVisible()
    assert load_plan(tmp_path / "stand.json").title == "Open day"


def test_leaving_brings_explorer_and_set_up_back_with_what_visitors_left(desk, explorer):
    desk.open_setup()
    desk.dialog.start.click()
    window = desk.window
    window.session.touched()
    window.document.edit("panels.count", 7)
    window.leave()
    assert desk.window is None
    assert explorer.isVisible()
    assert desk.dialog.parked_list.count() == 1


def test_wrong_files_are_left_out_and_the_operator_is_told(desk, tmp_path):
    (tmp_path / "wrong.json").write_text("{}")
    plan = StandPlan(scenarios=(str(tmp_path / "wrong.json"), "bundled:plant_label"))
    desk.open_setup()
    desk.run(plan)
    assert [e.title for e in desk.window.session.exhibits] == ["Plant label in the fern house"]
    desk.window.leave()
    assert "wrong.json" in desk.dialog.problem_text.text()


def test_a_stand_of_wrong_files_only_does_not_begin(desk, tmp_path):
    desk.open_setup()
    desk.run(StandPlan(scenarios=(str(tmp_path / "gone.json"),)))
    assert desk.window is None
    assert "gone.json" in desk.dialog.problem_text.text()
    assert "tick another one" in desk.dialog.problem_text.text()


def test_a_broken_set_up_file_falls_back_and_says_so(desk, tmp_path):
    (tmp_path / "stand.json").write_text("{")
    desk.open_setup()
    assert "could not be used" in desk.dialog.problem_text.text()
    assert desk.dialog.scenarios.names() == bundled_names()


def test_the_last_set_up_is_remembered(desk, tmp_path, plan):
    save_plan(tmp_path / "stand.json", plan)
    desk.open_setup()
    assert desk.dialog.plan() == plan


def test_the_action_opens_the_set_up_and_a_parked_scenario_is_one_undo_step(
    explorer, tmp_path, parked
):
    document = Document()
    document.setParent(explorer)
    before = document.scenario
    action = build_actions(explorer)["stand"]
    door = StandDoor(action, tmp_path, explorer, document)
    desk_module.ParkedScenarios(tmp_path / desk_module.PARKED_FILE).park(
        Scenario(title="Left behind"), "Runs"
    )
    action.trigger()
    dialog = explorer.findChild(SetupDialog)
    dialog.open_parked.click()
    assert document.scenario.title == "Left behind"
    document.undo_stack.undo()
    assert document.scenario == before
    assert door.parent() is explorer


def test_own_scenarios_can_be_shown(desk, tmp_path):
    own = tmp_path / "sill.json"
    own.write_text(dump_scenario(Scenario(title="Window sill")), encoding="utf-8")
    desk.run(StandPlan(scenarios=(str(own),)))
    assert desk.window.session.exhibit.title == "Window sill"


# --- by keyboard ---


def parts_where_return_starts(dialog):
    yield from (dialog.title, dialog.theme_choice, dialog.reduced, dialog.diagonal)
    yield from (dialog.home.link, dialog.idle, dialog.keeping.code, dialog.scenarios.items)
    yield from (dialog.movable["light"], dialog.tabs.tabBar(), dialog.start)


def focus_on(dialog, part):
    for at in range(dialog.tabs.count()):
        if dialog.tabs.widget(at).isAncestorOf(part):
            dialog.tabs.setCurrentIndex(at)
    part.setFocus()


def test_return_starts_the_stand_from_every_field(dialog, plan):
    dialog.show()
    started = []
    dialog.started.connect(started.append)
    for count, part in enumerate(parts_where_return_starts(dialog), start=1):
        focus_on(dialog, part)
        QTest.keyClick(part, Qt.Key.Key_Return)
        assert started == [plan] * count, part


def test_return_on_another_button_or_on_what_visitors_left_does_that(dialog):
    dialog.show()
    started, wanted = [], []
    dialog.started.connect(started.append)
    dialog.open_wanted.connect(wanted.append)
    dialog.parked_list.setFocus()
    QTest.keyClick(dialog.parked_list, Qt.Key.Key_Enter)
    assert [scenario.title for scenario in wanted] == ["Left behind"]
    dialog.close_button.setFocus()
    QTest.keyClick(dialog.close_button, Qt.Key.Key_Return)
    assert not dialog.isVisible()
    assert started == []


def test_the_esc_that_ended_the_stand_does_not_close_its_set_up(dialog, qtbot, monkeypatch):
    dialog.show()
    dialog.mind_held_esc()
    for _ in range(3):
        QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert dialog.isVisible()
    monkeypatch.setattr("explorer.stand.setup_dialog.STILL_HELD_MS", 0)
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()

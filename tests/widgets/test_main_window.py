import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QFontMetrics, QKeySequence
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QLabel,
    QLineEdit,
    QMessageBox,
    QSlider,
)

from explorer.files.scenario_json import save_scenario
from explorer.scenario.demand import Operation, Phase
from explorer.scenario.model import Scenario
from explorer.scenario.storage import CellStore
from explorer.state import theme
from explorer.state.language import tr
from explorer.widgets import messages
from explorer.widgets.buttons import PillButton
from explorer.widgets.drawers.export import written
from explorer.widgets.forms.rows import NumberRow
from explorer.widgets.message_box import MessageBox
from explorer.widgets.slim_scroll import SlimScroll
from tests.sharing import cases_are_shared  # noqa: F401
from tests.waiting import confirmed


def knob(window, key):
    return next(row for row in window.knobs.rows if row.knob.key == key)


def test_a_key_on_a_knob_reaches_document_trace_and_sign(qtbot, window, document, solver):
    before = solver.result
    with qtbot.waitSignal(solver.result_ready):
        qtbot.keyClick(knob(window, "panels").slider, Qt.Key.Key_Right)
    assert document.scenario.panels.count == 2
    assert solver.result is not before
    assert window.sign.word.text() == solver.result.verdict.word


def test_showing_a_scenario_edits_nothing(qtbot, window, document):
    document.new(Scenario(title="Moss wall"))
    assert document.undo_stack.count() == 0
    assert window.title_bar.title.text() == "Moss wall"


def test_undo_and_redo_act_and_know_when_they_can(qtbot, window, document):
    assert not window.commands["undo"].isEnabled()
    qtbot.keyClick(knob(window, "panels").slider, Qt.Key.Key_Right)
    assert window.commands["undo"].isEnabled()
    window.commands["undo"].trigger()
    assert document.scenario.panels.count == 1
    assert knob(window, "panels").field.text() == "1"
    window.commands["redo"].trigger()
    assert document.scenario.panels.count == 2


def test_a_refused_value_is_explained_beside_its_field(qtbot, window, document):
    row = knob(window, "panels")
    field = row.field
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "65")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert row.fault.text() == "Panels takes 1 to 64."
    assert field.text() == "65"
    assert document.scenario.panels.count == 1
    row.slider.setFocus()
    qtbot.keyClick(row.slider, Qt.Key.Key_Right)
    assert not row.fault.isVisible()
    assert field.text() == "2"


def test_a_design_that_cannot_be_judged_shows_nothing_of_the_one_before(
    qtbot, window, document, solver, monkeypatch
):
    from explorer.state import solver as module

    trace, real = window.trace, module.assess

    def fail(*_, **__):
        raise ArithmeticError("the store has no bottom")

    monkeypatch.setattr(module, "assess", fail)
    document.edit("panels.count", 9)  # of no other test: this verdict is remembered
    solver.solve_now()
    assert window.sign.word.text() == "Not judged"
    assert "the store has no bottom" in window.sign.reason.text()
    assert window.sign.number.text() == ""
    assert window.sign.caption.text() == ""
    assert {row.accessibleName() for row in window.sign.rows} == {"Not judged"}
    assert not any(badge.isVisible() for badge in window.sign.hazards)
    assert trace.refusal.isVisible()
    assert not trace.plot.isVisible()
    assert not trace.answers.isVisible()
    assert not window.remedies.isVisible()
    assert solver.result is None
    monkeypatch.setattr(module, "assess", real)
    document.edit("panels.count", 3)
    solver.solve_now()
    assert window.sign.word.text() == solver.result.verdict.word
    assert trace.plot.isVisible()
    assert not trace.refusal.isVisible()
    assert window.remedies.isVisible()


def test_a_drag_keeps_hold_of_the_phase_it_began_with(qtbot, window, document):
    talks, listens = Phase(current_A=0.03), Phase(current_A=0.011)
    document.new(Scenario(load={"operations": [Operation(phases=(talks, listens))]}))
    slider = knob(window, "pulse").slider
    start, y = slider.handle_x(), slider.height() // 4
    qtbot.mousePress(slider, Qt.MouseButton.LeftButton, pos=QPoint(int(start), y))
    for x in (start - 40, start - 80, start - 90):
        qtbot.mouseMove(slider, QPoint(int(x), y))
    low, other = (p.current_A for p in document.scenario.load.operations[0].phases)
    assert low < other == 0.011
    assert slider.handle_x() < start - 60
    qtbot.mouseRelease(slider, Qt.MouseButton.LeftButton, pos=QPoint(int(start - 90), y))
    # And afterwards: what somebody set stays in the hand.
    assert knob(window, "pulse").knob.path.endswith("phases.0.current_A")
    document.undo_stack.undo()
    assert document.scenario.load.operations[0].phases == (talks, listens)


def test_a_sentence_of_refusal_moves_no_control(qtbot, window, document):
    slider = knob(window, "light").slider
    before = slider.mapTo(window, slider.rect().center())
    document.refused.emit("Panels takes 1 to 64.")
    qtbot.waitUntil(lambda: window.notice.height() > 20 and window.notice.y() > 0)
    assert slider.mapTo(window, slider.rect().center()) == before


@pytest.mark.parametrize("where", ["knob", "title"])
def test_undo_takes_back_what_was_just_entered_in_a_field(qtbot, window, document, where):
    field = knob(window, "panels").field if where == "knob" else window.title_bar.title
    before = document.scenario
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "3")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert document.scenario != before
    qtbot.keyClick(field, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert document.scenario == before


def test_undo_while_typing_takes_back_the_typing(qtbot, window, document):
    qtbot.keyClick(knob(window, "panels").slider, Qt.Key.Key_Right)
    field = window.title_bar.title
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    field.setFocus()
    qtbot.keyClicks(field, "Moss")
    qtbot.keyClick(field, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert document.scenario.panels.count == 2
    assert "Moss" not in field.text()


def test_no_answer_is_cut(window):
    for label in window.trace.answers.findChildren(QLabel):
        assert label.height() >= label.fontMetrics().height()


def test_title_and_place_are_edited_in_the_head(qtbot, window, document):
    field = window.title_bar.title
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "Fern bench")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert document.scenario.title == "Fern bench"
    assert document.undo_stack.count() == 1


def test_a_title_takes_the_room_that_it_needs_while_it_is_typed(qtbot, window, qapp):
    field = window.title_bar.title
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "Office tag, paper sheet")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    qapp.processEvents()
    assert field.width() >= field.sizeHint().width()
    assert field.toolTip().startswith("Office tag, paper sheet")


@pytest.mark.parametrize("where", ["trace", "drawer"])
def test_the_window_says_where_an_export_is(window, tmp_path, where):
    path = tmp_path / "numbers.csv"
    if where == "trace":
        assert window.trace.menu.save("csv", path)
    else:
        window.drawers.drawer("budget").reports.emit(written(path), False)
    assert window.notice.isVisible()
    assert str(path) in window.notice.text.text()


@pytest.mark.parametrize("lines", [1, 15, 20, 60])
@pytest.mark.parametrize("title", ["Nothing was exported", "The scenario was not opened"])
def test_a_message_has_room_for_its_title_beside_the_buttons_of_a_desktop(qtbot, title, lines):
    close = QMessageBox.StandardButton.Close
    text = " ".join(["Nothing"] * lines)
    box = MessageBox(QMessageBox.Icon.Warning, title, text, close)
    qtbot.addWidget(box)
    box.show()
    label = box.findChild(QLabel, "qt_msgbox_label")
    assert label.height() >= label.heightForWidth(label.width())
    assert label.wordWrap() or label.width() >= label.fontMetrics().horizontalAdvance(text)
    shown = QFontMetrics(theme.font("body", bold=True)).horizontalAdvance(f"{title} — Gloaming")
    assert box.width() >= shown + 120


def in_sight(panel, part):
    """Rows of pixels of a part that the column shows."""
    area = panel.findChild(SlimScroll)
    top = part.mapTo(area.viewport(), QPoint()).y()
    return min(top + part.height(), area.viewport().height()) - max(top, 0)


def scrolled_to_lower_edge(qapp, panel, part):
    """Scroll so far that a part ends just above the lower edge of the column."""
    qapp.processEvents()
    area = panel.findChild(SlimScroll)
    lower = part.mapTo(area.widget(), QPoint(0, part.height())).y()
    area.verticalScrollBar().setValue(lower + 2 - area.viewport().height())


def test_a_fold_that_is_opened_at_the_lower_edge_begins_to_show(qtbot, window, qapp):
    panel = window.knobs
    fold = panel.folds[4]
    scrolled_to_lower_edge(qapp, panel, fold.button)
    qtbot.mouseClick(fold.button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: in_sight(panel, fold.content) > 180)
    assert in_sight(panel, fold.button) == fold.button.height()


def test_why_a_number_was_not_taken_is_in_sight_at_the_lower_edge(qtbot, window, qapp):
    panel = window.knobs
    panel.folds[0].set_open(True)
    rows = panel.folds[0].content.findChildren(NumberRow)
    row = next(row for row in rows if row.path == "light.cover_factor")
    row.entry.setFocus()
    scrolled_to_lower_edge(qapp, panel, row.entry)
    row.entry.selectAll()
    qtbot.keyClicks(row.entry, "-7")
    qtbot.keyClick(row.entry, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: in_sight(panel, row.fault) == row.fault.height() > 10)
    assert in_sight(panel, row.entry) == row.entry.height()


@pytest.mark.usefixtures("asked_at_rest")
def test_break_evens_reach_every_knob(qtbot, window, document, solver):
    with qtbot.waitSignal(solver.break_evens_ready, timeout=20_000, check_params_cb=confirmed):
        document.edit("light.illuminance_lx", 320.0)
    assert all(row.sentence.text() for row in window.knobs.rows)


def test_details_are_built_only_when_they_are_opened(qtbot, window):
    fold = window.knobs.folds[0]
    assert fold.content is None
    qtbot.mouseClick(fold.button, Qt.MouseButton.LeftButton)
    assert fold.content is not None
    assert fold.content.isVisible()
    qtbot.mouseClick(fold.button, Qt.MouseButton.LeftButton)
    assert not fold.content.isVisible()


def test_details_never_need_sideways_scrolling(window, qapp):
    for fold in window.knobs.folds:
        fold.set_open(True)
    qapp.processEvents()
    scroll = window.knobs._scroll
    assert scroll.widget().width() <= scroll.viewport().width()
    assert scroll.widget().minimumSizeHint().width() <= scroll.viewport().width()


def test_a_cell_gives_the_store_knob_its_capacity(window, document):
    document.edit("store", CellStore())
    row = knob(window, "store")
    assert row.knob.path == "store.capacity_mAh"
    assert row.field.text() == "40 mAh"
    assert row.slider.accessibleName() == "Cell capacity, mAh"


def test_with_two_operations_a_choice_says_which_the_load_slider_moves(qtbot, window, document):
    assert not window.knobs._operations.isVisible()
    valve = Operation(name="open the valve", phases=(Phase(current_A=0.3, duration_s=0.02),))
    document.edit("load.operations", (*document.scenario.load.operations, valve))
    box = window.knobs._operations
    assert box.isVisible()
    box.setCurrentIndex(1)
    box.activated.emit(1)
    assert knob(window, "pulse").knob.path == "load.operations.1.phases.0.current_A"
    assert knob(window, "pulse").field.text() == "0.3 A"


def test_span_buttons_choose_what_is_shown(qtbot, window, solver):
    day = window.trace.spans.button(2)
    qtbot.mouseClick(day, Qt.MouseButton.LeftButton)
    assert solver.span == "day"
    assert window.trace.plot.shown.length_s == 86_400.0
    qtbot.mouseClick(window.trace.spans.button(0), Qt.MouseButton.LeftButton)
    assert window.trace.pulse.isVisible()
    assert not window.trace.plot.isVisible()


def test_the_fit_button_is_there_only_when_zoomed(qtbot, window):
    assert not window.trace.fit.isVisible()
    window.trace.plot.zoom(3.0, 1e5)
    assert window.trace.fit.isVisible()
    qtbot.mouseClick(window.trace.fit, Qt.MouseButton.LeftButton)
    assert not window.trace.fit.isVisible()


def test_pin_keeps_a_ghost_until_it_is_pressed_again(qtbot, window, solver):
    with qtbot.waitSignal(solver.ghost_ready):
        window.commands["pin"].trigger()
    assert window.trace.plot._ghost is not None
    window.commands["pin"].trigger()
    assert window.trace.plot._ghost is None


def test_save_asks_for_a_name_and_then_does_not(window, document, tmp_path, monkeypatch):
    asked = []

    def pick(_, suggestion):
        asked.append(suggestion)
        return tmp_path / "fern.json"

    monkeypatch.setattr(messages, "pick_save", pick)
    document.edit("title", "Fern bench")
    assert window.isWindowModified()
    window.commands["save"].trigger()
    document.edit("panels.count", 2)
    window.commands["save"].trigger()
    assert len(asked) == 1
    assert (tmp_path / "fern.json").exists()
    assert not window.isWindowModified()
    assert window.windowTitle().startswith("fern.json")
    assert window.settings.settings.recent == (str(tmp_path / "fern.json"),)


def test_a_broken_file_is_explained_and_what_is_open_stays(window, document, said, tmp_path):
    place = tmp_path / "broken.json"
    place.write_text("{", encoding="utf-8")
    before = document.scenario
    assert not window.open_path(place)
    assert "broken.json" in said[0][1]
    assert document.scenario is before


@pytest.mark.parametrize(("answer", "opened"), [("discard", True), ("cancel", False)])
def test_unsaved_changes_are_asked_about(
    window, document, tmp_path, monkeypatch, answer, opened
):
    save_scenario(tmp_path / "other.json", Scenario(title="Other"))
    monkeypatch.setattr(messages, "ask_save", lambda *_: answer)
    monkeypatch.setattr(messages, "pick_open", lambda *_: tmp_path / "other.json")
    document.edit("panels.count", 3)
    window.commands["open"].trigger()
    assert (document.scenario.title == "Other") is opened


def test_closing_with_unsaved_changes_can_be_cancelled(window, document, monkeypatch):
    monkeypatch.setattr(messages, "ask_save", lambda *_: "cancel")
    document.edit("panels.count", 3)
    assert not window.close()
    document.undo_stack.undo()
    assert window.close()


def test_examples_are_listed_and_open_without_a_name(window, document):
    window.menus.examples.aboutToShow.emit()
    actions = window.menus.examples.actions()
    assert "Carbon-dioxide sensor in the seminar room" in [a.text() for a in actions]
    if not actions:
        pytest.skip("no bundled scenarios in this checkout")
    actions[0].trigger()
    assert document.path is None
    assert document.scenario.title != "New scenario"


def test_each_theme_reaches_every_part(window, qapp):
    for choice in ("light", "dark", "contrast"):
        window.apply_theme(choice)
        qapp.processEvents()
        tokens = theme.resolve(choice)
        for part in (window, window.knobs, window.trace, window.sign, window.trace.plot):
            assert theme.tokens_of(part.palette()) is tokens, part


def test_a_chosen_theme_is_remembered(window):
    dark = next(a for a in window.menus.themes.actions() if a.data() == "dark")
    dark.trigger()
    assert window.settings.settings.theme == "dark"


def test_every_control_on_screen_is_named_and_large_enough(window, qapp):
    for fold in window.knobs.folds:
        fold.set_open(True)
    qapp.processEvents()
    for kind in (QAbstractButton, QLineEdit, QSlider, QComboBox):
        for control in window.findChildren(kind):
            if not control.isVisible() or control.objectName().startswith("qt_"):
                continue
            if control.metaObject().className() in ("QToolButton",):
                continue  # the arrows of the menu bar
            name = control.accessibleName() or getattr(control, "text", str)()
            assert name, control
            assert min(control.width(), control.height()) >= 24, (name, control.size())


def test_the_tab_key_walks_through_a_knob_in_reading_order(qtbot, window):
    first = knob(window, "light")
    first.field.setFocus()
    for following in (first.slider, window.knobs.folds[0].button, window.knobs.rows[1].field):
        qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Tab)
        assert window.focusWidget() is following


def test_the_verdict_is_painted_before_the_plots_are_loaded(qtbot, window):
    # The fixture shows the window without giving the loop a turn.
    assert window._trace is None
    assert window.sign.word.text()
    qtbot.waitUntil(lambda: window._trace is not None)
    assert window.trace.plot.accessibleDescription()
    assert window.trace.isVisible()


def test_the_tab_key_goes_from_the_knobs_over_the_trace_to_the_sign(window):
    trace = window.trace
    at = window.knobs.folds[-1].button
    seen = []
    while at is not window.sign.rows[0]:
        at = at.nextInFocusChain()
        seen.append(at)
        assert len(seen) < 200
    assert trace.plot in seen
    assert window.knobs.rows[0].slider not in seen


def test_no_button_text_is_cut_in_the_smallest_window(window, qapp):
    window.resize(window.minimumSize())
    _ = window.trace
    qapp.processEvents()
    for part in (window.title_bar, window.knobs, window.trace, window.sign):
        for button in part.findChildren(PillButton):
            if button.isVisible() and button.text():
                assert button.width() >= button.sizeHint().width(), button.text()


def test_in_high_contrast_a_menu_has_an_outline_that_shows(window, qapp):
    """The style's own is drawn darker than the ground, which is black there."""
    corners = {}
    for choice in ("light", "contrast"):
        window.apply_theme(choice)
        window.menus.view.popup(window.mapToGlobal(window.rect().topLeft()))
        qapp.processEvents()
        corners[choice] = window.menus.view.grab().toImage().pixelColor(0, 12).name().upper()
        window.menus.view.hide()
    assert corners["contrast"] == theme.CONTRAST.edge
    assert corners["light"] != theme.CONTRAST.edge
    window.apply_theme("light")


def test_every_letter_that_the_desktop_has_for_redo_redoes(window):
    keys = [key.toString() for key in QKeySequence.keyBindings(QKeySequence.StandardKey.Redo)]
    ours = [key.toString() for key in window.commands["redo"].shortcuts()]
    assert ours == [key for key in keys if key[-2:] in ("+Y", "+Z")]
    assert ours


def test_answers_of_a_device_that_never_starts_say_for_what_they_hold(window, document, solver):
    note = window.trace.answers.note
    document.edit("light.illuminance_lx", 1.0)
    solver.solve_now()
    assert note.isVisible()
    assert "never starts" in note.text()
    document.edit("light.illuminance_lx", 800.0)
    solver.solve_now()
    assert not note.isVisible()


def test_an_answer_says_what_it_assumes(window):
    row = window.trace.answers.rows[0]
    assert row.toolTip().startswith(tr(row.answer.label))
    assert tr(row.answer.meaning) in row.toolTip()
    assert row.accessibleDescription() == tr(row.answer.meaning)


def test_numbers_and_units_of_a_group_stand_in_columns_of_their_own(window, qapp):
    answers = window.trace.answers
    qapp.processEvents()
    for group in answers.groups:
        rows = [row for row in group.rows if row.isVisible()]
        assert len({row.number.geometry().right() for row in rows}) == 1
        assert len({row.unit.x() for row in rows}) == 1


def test_arrow_keys_walk_the_answers_and_tab_leaves_them(qtbot, window, qapp):
    rows = [row for row in window.trace.answers.rows if row.isVisible()]
    window.activateWindow()
    rows[0].setFocus()
    qtbot.keyClick(rows[0], Qt.Key.Key_Down)
    assert rows[1].hasFocus()
    stops = [row for row in rows if row.focusPolicy() & Qt.FocusPolicy.TabFocus]
    assert stops == [rows[1]]


def test_an_open_drawer_takes_the_place_of_the_answers_or_stands_beside_the_trace(window, qapp):
    window.drawers.open("budget")
    answers, card = window.trace.answers, window.drawers.card
    for width, beside in ((1280, False), (1920, True)):
        window.resize(width, 900)
        qapp.processEvents()
        assert card.isVisible()
        assert answers.isVisible() is beside
        assert (card.x() > window.trace.geometry().right()) is beside
    window.drawers.close_drawer()
    window.resize(1280, 720)
    qapp.processEvents()
    assert answers.isVisible()


def test_recent_files_are_told_apart_and_found_in_a_moved_folder(window, tmp_path):
    folder = tmp_path / "fern"
    for name in ("fern", "moss"):
        (tmp_path / name).mkdir()
        window.document.save(tmp_path / name / "lock.json")
        window.settings.remember_file(tmp_path / name / "lock.json")
    window.menus.recent.aboutToShow.emit()
    listed = window.menus.recent.actions()
    assert [action.text() for action in listed] == ["moss/lock.json", "fern/lock.json"]
    assert listed[1].toolTip().endswith(str(folder / "lock.json"))
    folder.rename(tmp_path / "moss" / "fern")
    heard = []
    window.menus.recent_chosen.disconnect()
    window.menus.recent_chosen.connect(heard.append)
    listed[1].trigger()
    assert heard == [tmp_path / "moss" / "fern" / "lock.json"]

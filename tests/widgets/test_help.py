"""Every quantity explains itself, where it is and in one list."""

import json

import pytest
from PySide6.QtCore import QPoint, QRect, Qt, QTimer
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QAbstractButton, QApplication, QLineEdit

from explorer.advice.cautions import cautions
from explorer.advice.verdict import CHECK_NAMES
from explorer.files.licences import libraries
from explorer.resource_files import resource_path
from explorer.scenario import storage, supply
from explorer.scenario.fields import Section, sections_in
from explorer.scenario.model import Names, Scenario, with_value
from explorer.scenario.storage import CellStore
from explorer.state import theme
from explorer.state.tour import STEPS
from explorer.widgets.help import pages
from explorer.widgets.help.caution_line import CautionLine
from explorer.widgets.help.help_window import PAGES, HelpWindow
from explorer.widgets.help.quantities import SECTIONS, entries, field_keys, help_key
from tests.sharing import cases_are_shared  # noqa: F401
from tests.widgets.focus_seen import ring

BASES = ("Source:", "Common practice, no source", "From memory", "Own judgement", "By definition")


def sections():
    """Every section that a scenario may have."""
    found: list[type[Section]] = [Scenario]
    for owner in found:
        for info in owner.model_fields.values():
            found += [one for one in sections_in(info.annotation) if one not in found]
    return found


def refuse_missing_help():
    """Say what lacks help before a window is asked about it, which would fail by its key alone."""
    missing = sorted(set(field_keys()) - set(entries()))
    assert not missing, f"resources/help/quantities.json says nothing of {missing}"


def test_every_section_of_the_model_is_covered():
    # Read from the classes themselves, so that a new section cannot be forgotten. Names in another
    # language are no quantities.
    assert set(sections()) == {*SECTIONS, Names}


def test_no_quantity_lacks_help_and_no_help_is_superfluous():
    told = json.loads(resource_path("help", "quantities.json").read_text(encoding="utf-8"))
    there, wanted = set(told["quantities"]), set(field_keys())
    assert there == wanted, (
        f"resources/help/quantities.json: missing are {sorted(wanted - there)}, and of no field "
        f"{sorted(there - wanted)}"
    )
    assert set(told["ideas"]) >= set(CHECK_NAMES)


@pytest.mark.parametrize("key", field_keys())
def test_help_says_what_is_typical_where_to_read_it_and_how_it_is_known(key):
    assert key in entries(), f"resources/help/quantities.json says nothing of {key}"
    entry = entries()[key]
    assert entry.label
    for text in (entry.what, entry.typical, entry.read, entry.basis):
        assert len(text) > 1
        assert text.endswith((".", "?", "”.", "!"))
    assert entry.basis.startswith(BASES)


@pytest.mark.parametrize(
    ("path", "key"),
    [
        ("light.illuminance_lx", "light.illuminance_lx"),
        ("light.pattern.kind", "pattern.kind"),
        ("light.pattern.blocks.0.from_h", "block.from_h"),
        ("load.start_up.0.duration_s", "phase.duration_s"),
        ("load.operations.0.phases.0.amount", "phase.current_A"),
        ("load.operations.0.schedule.interval_s", "schedule.interval_s"),
        ("load.regulator.kind", "regulator.kind"),
        ("store.kind", "store.kind"),
        ("title", "scenario.title"),
        ("light", None),
        ("load.operations.0.remove", None),
        ("no.such.thing", None),
    ],
)
def test_a_path_of_the_scenario_finds_its_help(path, key):
    assert help_key(Scenario(), path) == key


def test_ranges_and_choices_in_the_help_are_those_of_the_model():
    assert "1 lx to 200000 lx" in pages.entry_html(entries()["light.illuminance_lx"])
    assert "Rechargeable lithium cell" in pages.entry_html(entries()["store.kind"])
    assert "1 to 64" in pages.entry_html(entries()["panels.count"])


def defaults(section: type[Section]):
    return {k: f.get_default() for k, f in section.model_fields.items() if not f.is_required()}


def test_typical_values_of_a_few_quantities_hold_the_model_s_own_defaults():
    # Help that contradicts the default would mislead: spot checks against the model.
    converter, cell = defaults(supply.ConverterCharger), defaults(storage.CellStore)
    bank = defaults(storage.SupercapacitorStore)
    assert f"{bank['capacitance_slope']:g} fits" in entries()["store.capacitance_slope"].typical
    assert f"{bank['capacitance_bend']:g} fits" in entries()["store.capacitance_bend"].typical
    life = entries()["store.life_per_tenth_volt"].typical
    assert f"{bank['life_per_tenth_volt']:g} for super" in life
    assert f"{cell['charge_above_C']:g} °C" in entries()["store.charge_above_C"].typical
    assert f"{cell['charge_below_C']:g} °C" in entries()["store.charge_below_C"].typical
    cold = entries()["charger.cold_start_efficiency"].typical
    assert f"{converter['cold_start_efficiency']:g} to" in cold


# --- pane ---


@pytest.fixture
def assistance(window):
    return window.assistance


def test_f1_explains_what_has_the_focus_and_a_second_press_closes(qtbot, window, assistance):
    window.knobs.rows[2].slider.setFocus()
    window.commands["help"].trigger()
    assert assistance.pane.isVisible()
    assert assistance.pane.key == "store.capacitance_F"
    assert "Capacitance" in assistance.pane.view.toPlainText()
    window.knobs.rows[0].field.setFocus()
    assert assistance.pane.key == "light.illuminance_lx"
    window.commands["help"].trigger()
    assert not assistance.pane.isVisible()


def test_the_keys_for_help_are_f1_and_a_question_mark(window):
    keys = [key.toString() for key in window.commands["help"].shortcuts()]
    assert keys == ["F1", "?"]


def test_every_row_of_every_fold_has_help(window, assistance):
    refuse_missing_help()
    for fold in window.knobs.folds:
        fold.set_open(True)
    assistance._show_pane()
    explained = set()
    for control in window.knobs.findChildren(QLineEdit):
        if control.isVisible():
            assert assistance._explain(control), control.accessibleName()
            explained.add(assistance.pane.key)
    assert {"store.esr_ohm", "charger.efficiency", "load.sleep_A", "block.from_h"} <= explained


def test_a_check_of_the_sign_is_explained(window, assistance):
    window.sign.rows[2].setFocus()
    window.commands["help"].trigger()
    assert assistance.pane.key == "idea.dark"
    assert "closure" in assistance.pane.view.toPlainText()


def test_without_anything_to_explain_the_pane_says_what_it_is_for(window, assistance):
    window.setFocus()
    window.commands["help"].trigger()
    assert "Put the focus on" in assistance.pane.view.toPlainText()


def test_of_a_question_f1_says_what_it_shows_and_its_keys(window, assistance):
    for number, button in enumerate(window.drawers.buttons.values(), 1):
        assert assistance._explain(button)
        told = assistance.pane.view.toPlainText()
        assert told.count(button.accessibleName()) == 1  # as its title alone
        assert f"Ctrl+{number} opens it" in told
        assert len(told) > len(button.accessibleName()) + 40


def test_esc_closes_the_pane(qtbot, window, assistance):
    window.commands["help"].trigger()
    qtbot.keyClick(assistance.pane.view, Qt.Key.Key_Escape)
    assert not assistance.pane.isVisible()


def test_the_pane_leaves_knobs_sign_and_the_trace_of_a_small_window_to_be_seen(
    window, assistance, qapp
):
    for width in (960, 1280, 1920):
        window.resize(width, 720)
        assistance._show_pane()
        for _ in range(3):
            qapp.processEvents()
        pane = assistance.pane.geometry()
        assert pane.isValid()
        assert not pane.intersects(window.sign.geometry())
        assert not pane.intersects(window.knobs.geometry())
        assert window.width() == width
        if width == 960:
            assert pane.top() > window.sign.y() + 200


# --- cautions ---


def caution_line(window, where):
    fold = {"store": 2, "load": 3, "charger": 1}[where]
    window.knobs.folds[fold].set_open(True)
    return window.knobs.findChild(QAbstractButton, f"cautions_{where}")


def test_the_store_s_cautions_stand_in_its_fold(qtbot, window, document, assistance):
    line = caution_line(window, "store")
    assert line.isVisible()
    assert "supercapacitor" in line.text().lower()
    qtbot.mouseClick(line, Qt.MouseButton.LeftButton)
    shown = assistance.pane.view.toPlainText()
    for caution in cautions(document.scenario):
        if caution.where == "store":
            assert caution.text in shown


def test_cautions_follow_the_choice(window, document):
    line = caution_line(window, "store")
    document.edit("charger.full_V", 4.15)
    document.edit("store", CellStore())
    assert "lithium" in line.text().lower()


def test_what_moves_brings_up_a_caution_in_the_load_s_fold(window, document):
    line = caution_line(window, "load")
    assert not line.isVisible()
    document.edit("load.actuator", "door_lock")
    assert line.isVisible()
    assert "escape" in line.text().lower()
    document.undo_stack.undo()
    assert not line.isVisible()


def test_a_line_without_a_parent_opens_no_window(qapp, document):
    line = CautionLine(document, "store")
    assert line.found
    assert not line.isVisible()
    line.deleteLater()


# --- all of the help ---


def test_every_page_says_something(window, assistance):
    for key, _ in PAGES:
        assistance.open_page(key)
        assert len(assistance._help.view.toPlainText()) > 200, key


def test_the_keyboard_page_lists_every_shortcut_that_the_window_has(window, assistance):
    assistance.open_keys()
    shown = assistance._help.view.toPlainText()
    found = 0
    for action in window.findChildren(QAction):
        for key in action.shortcuts():
            assert key.toString(QKeySequence.SequenceFormat.NativeText) in shown
            found += 1
    assert found >= 8


def test_keys_of_widgets_on_the_keyboard_page_do_what_it_says(qtbot, window, document):
    slider = window.knobs.rows[1].slider
    for key, count in (
        (Qt.Key.Key_Right, 2), (Qt.Key.Key_Left, 1), (Qt.Key.Key_End, 16), (Qt.Key.Key_Home, 1),
    ):  # fmt: skip
        qtbot.keyClick(slider, key)
        assert document.scenario.panels.count == count
    qtbot.keyClick(slider, Qt.Key.Key_PageUp)
    assert document.scenario.panels.count > 2
    qtbot.keyClick(slider, Qt.Key.Key_Delete)
    assert document.scenario.panels.count == document.start.panels.count
    plot = window.trace.plot
    qtbot.keyClick(plot, Qt.Key.Key_Right)
    qtbot.keyClick(plot, Qt.Key.Key_Plus)
    assert window.trace.fit.isVisible()
    qtbot.keyClick(plot, Qt.Key.Key_Home)
    assert not window.trace.fit.isVisible()


def test_about_names_version_licences_and_who_decides(window, assistance):
    assistance.open_about()
    text = assistance._help.view.toPlainText()
    assert "Gloaming 0" in text
    assert pages.PLANNING in text
    assert "Accessibility" in text
    found = libraries()
    assert {"numpy", "scipy", "click", "PySide6_Essentials"} <= {one.name for one in found}
    for one in found:
        assert one.name in text
        assert one.version in text
        assert one.licence in text


def test_every_library_comes_with_its_whole_licence(window, assistance):
    assistance.open_page("licences")
    text = assistance._help.view.toPlainText()
    assert text.startswith("Gloaming")
    for one in libraries():
        assert one.licence, one.name
        assert len(one.text) > 500, one.name
        assert one.text.split()[:6] == text[text.index(f"{one.name} {one.version}") :].split(
            ": ", 1
        )[1].removeprefix(one.licence).split()[:6]


def test_sources_are_those_that_the_resources_state(window, assistance):
    assistance.open_page("sources")
    text = assistance._help.view.toPlainText()
    assert "Candanedo" in text
    assert "BSD-3-Clause" in text


def test_cautions_page_follows_the_scenario(window, document, assistance):
    document.new(with_value(Scenario(), "load.actuator", "latching_valve"))
    assistance.open_page("cautions")
    assert "latching valve" in assistance._help.view.toPlainText()


@pytest.mark.parametrize("tokens", theme.ALL_TOKENS, ids=lambda tokens: tokens.name)
def test_pages_and_text_of_the_help_show_that_they_have_the_focus(qtbot, qapp, tokens):
    qapp.setPalette(theme.palette_of(tokens))
    window = HelpWindow("0", str, str)
    qtbot.addWidget(window)
    window.show_page("quantities")
    window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    for part in (window.pages, window.view):
        assert ring(part) >= 1.0
        at = part.viewport().rect().adjusted(0, 40, 3 - part.viewport().width(), -40)
        before = part.viewport().grab(at).toImage()
        part.verticalScrollBar().setValue(part.verticalScrollBar().maximum() // 2)
        QApplication.processEvents()
        assert part.viewport().grab(at).toImage() == before  # the ring stays where it is


def test_find_marks_the_words_and_says_where_there_are_none(qtbot):
    window = HelpWindow("0", str, str)
    qtbot.addWidget(window)
    window.show_page("quantities")
    qtbot.keyClicks(window.find_field, "leakage")
    qtbot.keyClick(window.find_field, Qt.Key.Key_Return)
    assert window.view.textCursor().selectedText().lower() == "leakage"
    first = window.view.textCursor().position()
    qtbot.keyClick(window.find_field, Qt.Key.Key_Return)
    assert window.view.textCursor().position() != first
    window.find_field.setText("zeppelin")
    window.find_next()
    assert window.found.text() == "not on this page"


def test_f1_explains_every_stop_of_the_window(window, assistance, qapp):
    """Sliders, fields, plots, answers, buttons: whatever Tab comes to."""
    refuse_missing_help()
    window.document.edit("load.actuator", "door_lock")
    window.solver.solve_now()
    for fold in window.knobs.folds:
        fold.set_open(True)
    _ = window.trace
    qapp.processEvents()
    at, seen, silent = window.knobs.rows[0].field, set(), []
    while at not in seen and len(seen) < 600:
        seen.add(at)
        if at.isVisible() and at.focusPolicy() & Qt.FocusPolicy.TabFocus and at.window() is window:
            assistance.pane.show_idle()
            if not assistance._explain(at) or not assistance.pane.key:
                silent.append((type(at).__name__, at.accessibleName(), at.objectName()))
        at = at.nextInFocusChain()
    assert len(seen) > 60
    assert not silent, silent[:3] if len(silent) < 4 else [s[1:] for s in silent]


def test_f1_on_an_answer_gives_its_meaning_and_on_the_trace_what_is_drawn(window, assistance):
    row = window.trace.answers.rows[0]
    assistance._explain(row)
    assert row.accessibleDescription() in assistance.pane.view.toPlainText()
    assistance._explain(window.trace.plot)
    assert "dashed lines" in assistance.pane.view.toPlainText()


def test_the_pane_never_covers_all_of_what_has_the_focus(window, assistance, qtbot, qapp):
    window.resize(1280, 720)
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    window.begin()
    _ = window.trace
    qapp.processEvents()
    assistance.on_help()
    pane, places, covered = assistance.pane, set(), []
    for _ in range(80):
        at = window.focusWidget()
        place = QRect(at.mapTo(pane.parentWidget(), QPoint(0, 0)), at.size())
        places.add(pane.x())
        if pane.geometry().contains(place) and not pane.isAncestorOf(at):
            covered.append(at.accessibleName() or at.text())
        qtbot.keyClick(at, Qt.Key.Key_Tab)
    assert covered == []
    assert len(places) == 2  # it did make way
    assert not any(
        QRect(x, pane.y(), pane.width(), pane.height()).intersects(part.geometry())
        for x in places for part in (window.knobs, window.sign)
    )


def test_the_pane_leaves_the_trace_its_room_on_a_wide_screen(window, assistance, qapp):
    window.resize(1920, 1080)
    assistance.on_help()
    for _ in range(4):
        qapp.processEvents()
    assert window.trace.width() > 600
    assert assistance.pane.width() == 320


# --- tour ---


def test_the_tour_walks_six_steps_over_parts_that_are_there(qtbot, window, assistance):
    assistance.start_tour()
    overlay = assistance.overlay
    assert len(STEPS) == 6
    for step in STEPS:
        assert overlay.title.text() == step.title
        if step.key != "drawers":  # the drawers may not be in this window yet
            assert not overlay.spot().isEmpty()
            assert not overlay.spot().intersects(overlay.card.geometry())
        assert overlay.rect().contains(overlay.card.geometry())
        qtbot.keyClick(overlay, Qt.Key.Key_Right)
    assert assistance.overlay is None
    assert window.settings.settings.tour_seen


def test_the_tour_goes_back_and_is_skipped_with_esc(qtbot, window, assistance):
    assistance.start_tour()
    overlay = assistance.overlay
    qtbot.mouseClick(overlay.next, Qt.MouseButton.LeftButton)
    assert overlay.place.text() == "2 of 6"
    qtbot.mouseClick(overlay.back, Qt.MouseButton.LeftButton)
    assert overlay.place.text() == "1 of 6"
    qtbot.keyClick(overlay, Qt.Key.Key_Escape)
    assert assistance.overlay is None
    assert window.settings.settings.tour_seen


def test_tab_stays_within_the_tour(qtbot, window, assistance):
    assistance.start_tour()
    overlay = assistance.overlay
    for _ in range(5):
        qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Tab)
        assert window.focusWidget() in (overlay, overlay.skip, overlay.back, overlay.next)
    overlay.finish()


def test_the_tour_starts_by_itself_only_once(qtbot, window, assistance, monkeypatch):
    assistance.start_tour_once()
    qtbot.waitUntil(lambda: assistance.overlay is not None)
    qtbot.mouseClick(assistance.overlay.skip, Qt.MouseButton.LeftButton)
    monkeypatch.setattr(QTimer, "singleShot", lambda *_: pytest.fail("the tour starts again"))
    assistance.start_tour_once()
    assert assistance.overlay is None
    window.commands["tour"].trigger()
    assert assistance.overlay is not None
    assistance.overlay.finish()


def test_escape_closes_the_pane_wherever_the_focus_is(window, qtbot):
    window.knobs.rows[0].field.setFocus()
    window.assistance.on_help()
    assert window.assistance.pane.isVisible()
    qtbot.keyClick(window, Qt.Key.Key_Escape)
    assert not window.assistance.pane.isVisible()

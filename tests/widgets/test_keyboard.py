"""A whole job without a mouse, counted in keys; and Tab goes where the eye goes."""

import itertools

import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QMenu, QWidget

from explorer.scenario.light import WeekPattern
from explorer.state import theme
from explorer.state.language import set_language
from explorer.state.spans import SPAN_KEYS
from explorer.widgets.drawers.budget_bars import BudgetRow
from explorer.widgets.efficiency.efficiency_dialog import EfficiencyDialog
from explorer.widgets.months.months_dialog import MonthsDialog
from explorer.widgets.remedy_list import RemedyButton
from explorer.widgets.sheet.sheet_dialog import SheetDialog
from explorer.widgets.sign import CheckRow
from tests.sharing import cases_are_shared  # noqa: F401
from tests.widgets.focus_seen import ring

Key, Alt, Control, Shift = Qt.Key, *(
    getattr(Qt.KeyboardModifier, f"{name}Modifier") for name in ("Alt", "Control", "Shift")
)
MOST = 170
"""Keys that the job may take; it took 152 when this was written, 93 of them Tab."""


class Hand:
    """Presses keys on whatever has the keyboard, and counts them."""

    def __init__(self, window):
        self.window, self.keys, self.tabs = window, 0, 0

    @property
    def at(self):
        return QApplication.focusWidget() or self.window.focusWidget()

    def press(self, key, modifier=Qt.KeyboardModifier.NoModifier):
        self.keys += 1
        QTest.keyClick(self.at, key, modifier)
        if key in (Key.Key_Space, Key.Key_Return):
            QApplication.processEvents()

    def type(self, text):
        """Replace what stands in a field, and enter it."""
        self.press(Key.Key_A, Control)
        for letter in text:
            self.keys += 1
            QTest.keyClick(self.at, letter)
        self.press(Key.Key_Return)

    def tab_to(self, name):
        """Tab until something of that name has the keyboard."""
        for _ in range(120):
            widget = self.at
            above = widget.parentWidget()
            names = widget.objectName(), above.objectName() if above is not None else ""
            called = widget.accessibleName() or getattr(widget, "text", str)()
            if called.startswith(name) or any(n.endswith(name) for n in names):
                return widget
            self.tabs += 1
            self.press(Key.Key_Tab)
        raise AssertionError(f"Tab never comes to {name}")

    def choose(self, value):
        """Walk a choice to a value."""
        box = self.at
        assert isinstance(box, QComboBox)
        while box.currentData() != value:
            up = box.findData(value) < box.currentIndex()
            self.press(Key.Key_Up if up else Key.Key_Down)


@pytest.fixture
def hand(qtbot, window, qapp):
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    window.begin()
    _ = window.trace
    qapp.processEvents()
    return Hand(window)


def test_an_always_on_radio_is_set_up_without_a_mouse(window, document, hand):
    """200 lx through the night, 1300 lx by day, a data sheet at both, a radio that never sleeps."""
    hand.press(Key.Key_L, Alt)
    hand.press(Key.Key_Tab, Shift)
    hand.type("200 lx")
    hand.tab_to("Light and place")
    hand.press(Key.Key_Space)
    hand.tab_to("light.pattern.blocks.0.from_h")
    hand.type("0")
    hand.tab_to("light.pattern.blocks.0.to_h")
    hand.type("24")
    hand.tab_to("light.pattern.blocks.add")
    hand.press(Key.Key_Space)
    hand.tab_to("light.pattern.blocks.1.relative_level")
    hand.type("5.5")
    hand.press(Key.Key_P, Alt)
    hand.tab_to("Panels and charger")
    hand.press(Key.Key_Space)
    hand.tab_to("panels.data_sheet")
    hand.press(Key.Key_Space)
    type_data_sheet(hand, ((200, 18), (1300, 130)))
    hand.press(Key.Key_D, Alt)
    hand.tab_to("Load and operations")
    hand.press(Key.Key_Space)
    hand.tab_to("load.operations.0.remove")
    hand.press(Key.Key_Space)
    hand.tab_to("load.sleep_A")
    hand.type("40 uA")
    scenario = document.scenario
    assert isinstance(scenario.light.pattern, WeekPattern)
    levels = [block.relative_level for block in scenario.light.pattern.blocks]
    assert scenario.light.illuminance_lx == 200.0
    assert levels == [1.0, 5.5]
    assert [p.illuminance_lx for p in scenario.panels.data_sheet] == [200.0, 1300.0]
    assert scenario.load.operations == ()
    assert scenario.load.sleep_A == pytest.approx(40e-6)
    assert hand.keys <= MOST, f"{hand.keys} keys, {hand.tabs} of them Tab"


def type_data_sheet(hand, lines):
    """Light and short-circuit current of each line."""
    dialog = QApplication.activeModalWidget() or QApplication.activeWindow()
    assert dialog is not hand.window
    for number, (lux, micro) in enumerate(lines, 1):
        if number > 1:
            hand.tab_to("Add point")
            hand.press(Key.Key_Space)
        hand.tab_to(f"Point {number}: Light")
        hand.type(str(lux))
        hand.tab_to(f"Point {number}: Short-circuit")
        hand.type(str(micro))
    hand.tab_to("Use this panel")
    hand.press(Key.Key_Space)


def places(window, part):
    """Where Tab comes by inside a part, from its first stop on."""
    at = next(w for w in part.findChildren(QWidget) if is_stop(w))
    for _ in range(400):
        if is_stop(at) and part.isAncestorOf(at):
            yield at, at.mapTo(window, QPoint(0, at.height() // 2))
        at = at.nextInFocusChain()
        if at.window() is window and is_stop(at) and not part.isAncestorOf(at):
            return


def is_stop(widget):
    return widget.isVisible() and bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus) and (
        widget.isEnabled()
    )


def test_with_all_folds_open_tab_never_goes_up_in_the_column_of_knobs(window, document, hand):
    for fold in reversed(window.knobs.folds):  # built out of order, on purpose
        fold.set_open(True)
    document.edit("load.regulator.kind", "linear")
    document.edit("light.pattern", {"kind": "steady"})
    document.edit("light.pattern", {"kind": "week"})
    QApplication.processEvents()
    inner = window.knobs._scroll.widget()
    seen = [(w, w.mapTo(inner, QPoint(0, w.height() // 2)).y()) for w, _ in places(window, inner)]
    assert len(seen) > 40
    ups = [
        (a.accessibleName(), b.accessibleName())
        for (a, y), (b, z) in itertools.pairwise(seen) if z < y - 12
    ]
    assert ups == []


def sheet(document):
    return SheetDialog(document)


def efficiency(document):
    return EfficiencyDialog(document)


def months(document):
    document.edit("light.pattern", {"kind": "daylight"})
    return MonthsDialog(document, "light.pattern.months")


@pytest.mark.parametrize("make", [sheet, efficiency, months])
def test_tab_never_goes_up_through_what_is_typed_in_a_table(qtbot, document, make):
    dialog = make(document)
    qtbot.addWidget(dialog)
    dialog.show()
    QApplication.processEvents()
    seen, at = [], dialog.nextInFocusChain()
    while at is not dialog:
        if is_stop(at) and dialog.table.isAncestorOf(at):
            seen.append((at, at.mapTo(dialog, QPoint(0, at.height() // 2)).y()))
        at = at.nextInFocusChain()
    assert set(dialog.table.rows[-1].cells.values()) <= {widget for widget, _ in seen}
    ups = [
        (a.accessibleName(), b.accessibleName())
        for (a, y), (b, z) in itertools.pairwise(seen) if z < y - 12
    ]
    assert ups == []


def test_tab_goes_from_knobs_over_trace_answers_and_questions_to_sign_and_remedies(window, hand):
    order = [
        window.knobs, window.trace, window.trace.answers, window.drawers, window.sign,
    ]
    at, seen = window.knobs.rows[0].field, []
    for _ in range(400):
        part = next((p for p in order if p.isAncestorOf(at)), None)
        if is_stop(at) and part is not None and part not in seen:
            seen.append(part)
        at = at.nextInFocusChain()
    assert seen == order


def test_an_empty_title_and_an_empty_place_show_that_they_have_the_focus(window, document, hand):
    fields = window.title_bar.title, window.title_bar.place
    for tokens, field in itertools.product(theme.ALL_TOKENS, fields):
        window.setPalette(theme.palette_of(tokens))
        document.edit(field.objectName(), "x" if field.objectName() == "title" else "")
        assert ring(field) >= 1.0, tokens.name


def test_f6_goes_round_knobs_middle_and_verdict_and_back(qtbot, window, hand):
    def part():
        parts = {"knobs": window.knobs, "middle": window.centre, "verdict": window.sign}
        return next(name for name, one in parts.items() if one.isAncestorOf(hand.at))

    window.knobs.rows[1].field.setFocus()
    seen = []
    for key in (None, "next", "next", "next", "previous", "previous"):
        if key:
            window.commands[f"{key}_pane"].trigger()
        seen.append(part())
    assert seen == ["knobs", "middle", "verdict", "knobs", "verdict", "middle"]
    assert window.trace.plot.hasFocus()
    window.commands["previous_pane"].trigger()
    assert window.knobs.rows[1].field.hasFocus()


def test_f6_finds_the_drawer_that_was_opened_from_a_knob(qtbot, window, hand):
    window.trace.plot.setFocus()
    window.commands["next_pane"].trigger()
    slider = window.knobs.rows[2].slider
    slider.setFocus()
    drawer = window.drawers.drawer("budget")
    with qtbot.waitSignal(drawer.feed.finished, timeout=60_000):
        window.commands["drawer_budget"].trigger()
    assert slider.hasFocus()
    window.commands["next_pane"].trigger()
    assert drawer.isAncestorOf(hand.at)
    for _ in range(40):
        if drawer.export.hasFocus():
            break
        hand.press(Key.Key_Tab)
    assert drawer.export.hasFocus()
    window.drawers.buttons["budget"].setFocus()
    for key in ("next_pane", "previous_pane"):
        window.commands[key].trigger()
    assert drawer.isAncestorOf(hand.at)


def test_f6_from_the_title_goes_to_the_knobs_and_back_to_the_verdict(window, hand):
    for key, part in (("next_pane", window.knobs), ("previous_pane", window.sign)):
        window.title_bar.title.setFocus()
        window.commands[key].trigger()
        assert part.isAncestorOf(hand.at)


def test_enter_presses_a_button_as_the_space_bar_does(qtbot, window):
    hour = window.trace.spans.button(SPAN_KEYS.index("hour"))
    assert not hour.isChecked()
    qtbot.keyClick(hour, Key.Key_Return)
    assert hour.isChecked()


@pytest.mark.parametrize("make", [RemedyButton, CheckRow, BudgetRow])
def test_enter_presses_what_paints_itself_once_however_long_it_is_held(qtbot, make):
    button, pressed = make(), []
    qtbot.addWidget(button)
    button.clicked.connect(lambda: pressed.append(1))
    for held in (False, True):
        event = QKeyEvent(
            QEvent.Type.KeyPress, Key.Key_Return, Qt.KeyboardModifier.NoModifier, "\r", held
        )
        QApplication.sendEvent(button, event)
    assert len(pressed) == 1


@pytest.mark.parametrize("code", ["en", "de"])
def test_a_letter_in_a_menu_means_one_entry(qapp, code, request):
    set_language(code)
    try:
        window = request.getfixturevalue("window")
        window.menus.view.addAction(window.commands["stand"])
        for menu in window.menuBar().findChildren(QMenu):
            texts = [action.text().replace("&&", "") for action in menu.actions()]
            letters = [text[text.index("&") + 1].lower() for text in texts if "&" in text]
            assert len(letters) == len(set(letters)), texts
    finally:
        set_language("en")

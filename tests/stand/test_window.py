import threading

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QCloseEvent, QContextMenuEvent, QInputDevice, QPointingDevice
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QMenu

from explorer.files.scenario_json import load_scenario
from explorer.stand.big_button import BigButton
from explorer.stand.exhibits import load_exhibits
from explorer.stand.leave import HOLD_MS
from explorer.stand.window import WORKING, StandWindow
from explorer.state import theme
from explorer.state.stand_plan import bundled_names
from tests.stand.pictures import colours
from tests.waiting import confirmed

LEFT = Qt.MouseButton.LeftButton


def visit(stand, index=0):
    stand.session.choose(index)
    stand.solver.solve_now()


def ticks(stand, seconds):
    for _ in range(seconds):
        stand.session.tick()


# --- what it shows ---


def test_the_page_shows_word_number_and_reason_of_the_model(stand):
    visit(stand, 1)
    page = stand.page
    assert page.headline.word.text() == "Falls short"
    assert (page.headline.number.text(), page.headline.caption.text()) == ("never", "starts")
    assert page.notes.reason.text().replace("\u00a0", " ") == (
        stand.solver.result.verdict.governing.sentence
    )
    assert "Supercapacitors" in page.notes.cautions.text()


def test_hazards_are_named_apart_from_the_verdict(stand):
    visit(stand, 0)
    assert not stand.page.notes.hazards.isVisibleTo(stand)
    stand.document.edit("charger.full_V", 5.6)
    stand.solver.solve_now()
    assert stand.page.notes.hazards.isVisibleTo(stand)
    assert stand.page.notes.hazards.text.text() == "Over-voltage"
    visit(stand, 0)
    assert not stand.page.notes.hazards.isVisibleTo(stand)


def test_word_and_number_are_painted_at_the_size_that_three_metres_ask_for(stand):
    sizes, _ = stand.page.divide()
    visit(stand, 1)  # the longest word
    assert stand.page.headline.word.shown_px >= 0.97 * sizes.word
    assert stand.page.headline.number.shown_px >= 0.97 * sizes.number


def test_every_target_has_its_size_and_lies_below_the_picture(stand):
    visit(stand)
    sizes, bands = stand.page.divide()
    buttons = [b for b in stand.page.findChildren(BigButton) if b.isVisibleTo(stand)]
    assert len(buttons) == 8 + 2 + len(stand.page.cards.extras)
    assert stand.page.cards.home in buttons
    for button in buttons:
        assert min(button.width(), button.height()) >= sizes.target >= 44
        assert button.mapTo(stand.page, QPoint(0, 0)).y() >= bands.trace.bottom
    for knob in stand.page.knobs:
        assert knob.slider.height() >= sizes.target
        assert not knob.slider.geometry().intersects(knob.down.geometry())
        assert not knob.slider.geometry().intersects(knob.up.geometry())


@pytest.mark.parametrize("size", [(1280, 800), (1080, 1920), (1024, 768)])
def test_all_parts_stay_on_smaller_and_upright_pages(stand, size):
    visit(stand)
    stand.resize(*size)
    for part in stand.page.findChildren(BigButton):
        if part.isVisibleTo(stand.page):
            corner = part.mapTo(stand.page, QPoint(part.width(), part.height()))
            assert corner.x() <= size[0]
            assert corner.y() <= size[1]


def test_only_what_visitors_may_move_has_a_knob(qtbot, plan, exhibits, parked):
    window = StandWindow(plan.model_copy(update={"movable": ("light",)}), exhibits, parked)
    qtbot.addWidget(window)
    assert [knob.knob.key for knob in window.page.knobs] == ["light"]


def test_the_stand_has_its_own_theme(qtbot, plan, exhibits, parked):
    window = StandWindow(plan.model_copy(update={"theme": "dark"}), exhibits, parked)
    qtbot.addWidget(window)
    assert theme.tokens_of(window.page.trace.palette()) is theme.DARK
    assert theme.tokens_of(QApplication.palette()) is theme.LIGHT


@pytest.mark.parametrize("name", ["light", "dark", "contrast"])
def test_it_paints_in_every_theme(qtbot, plan, exhibits, parked, name):
    window = StandWindow(plan.model_copy(update={"theme": name}), exhibits, parked)
    qtbot.addWidget(window)
    window.resize(1280, 800)
    window.show()
    window.start()
    assert theme.resolve(name).color("accent").name() in colours(window.page.trace)
    window.leave()


def test_every_bundled_scenario_can_be_shown(qtbot, plan, parked):
    found = load_exhibits(bundled_names())
    assert found.problems == ()
    window = StandWindow(plan, found.exhibits, parked)
    qtbot.addWidget(window)
    window.start()
    for index, exhibit in enumerate(found.exhibits):
        window.session.choose(index)
        window.solver.solve_now()
        assert window.page.headline.word.text() == exhibit.word
        assert window.page.headline.number.text()
    window.leave()


# --- what visitors do ---


def test_minus_and_plus_walk_the_stops_and_the_answer_follows(stand, qtbot):
    visit(stand)
    light = stand.page.knobs[0]
    before = stand.document.scenario.light.illuminance_lx
    with qtbot.waitSignal(stand.solver.result_ready):
        QTest.mouseClick(light.up, LEFT)
    assert stand.document.scenario.light.illuminance_lx == light.knob.step(before, 1)
    QTest.mouseClick(light.down, LEFT)
    assert stand.document.scenario.light.illuminance_lx == before


def test_a_touch_in_the_groove_jumps_there(stand):
    visit(stand)
    slider = stand.page.knobs[0].slider
    QTest.mouseClick(slider, LEFT, pos=QPoint(slider.width() - 2, 10))
    assert stand.document.scenario.light.illuminance_lx == 100_000.0
    QTest.mouseClick(slider, LEFT, pos=QPoint(2, 10))
    assert stand.document.scenario.light.illuminance_lx == 10.0


def test_a_button_at_the_end_of_the_stops_says_so(stand):
    visit(stand)
    slider, up = stand.page.knobs[0].slider, stand.page.knobs[0].up
    QTest.mouseClick(slider, LEFT, pos=QPoint(slider.width() - 2, 10))
    assert not up.isEnabled()


def test_showing_a_scenario_moves_no_knob_by_itself(stand, qtbot):
    with qtbot.assertNotEmitted(stand.page.knobs[0].edited):
        visit(stand, 1)
    assert not stand.session.is_changed


def test_a_card_chooses_and_start_again_returns(stand):
    visit(stand)
    QTest.mouseClick(stand.page.cards.cards[1], LEFT)
    assert stand.session.index == 1
    assert stand.page.cards.cards[1].isChecked()
    stand.document.edit("light.illuminance_lx", 5000.0)
    QTest.mouseClick(stand.page.cards.again, LEFT)
    start = load_scenario(stand.session.exhibit.path).scenario
    assert stand.document.scenario == start
    assert stand.session.parked.items[0].scenario.light.illuminance_lx == 5000.0


def test_where_the_design_runs_is_shown_on_the_track(searched, stand, qtbot):
    with qtbot.waitSignal(
        stand.solver.break_evens_ready, timeout=20_000, check_params_cb=confirmed
    ):
        visit(stand)
    light = stand.page.knobs[0]
    assert "runs" in light.slider._states
    assert light.sentence.text()
    visit(stand, 1)
    assert light.slider._states == ()


def test_many_scenarios_turn_pages(qtbot, plan, exhibits, parked):
    window = StandWindow(plan, exhibits * 9, parked)
    qtbot.addWidget(window)
    window.resize(1280, 800)
    window.show()
    cards = window.page.cards
    shown = [c for c in cards.cards if c.isVisibleTo(window)]
    assert 0 < len(shown) < 18
    cards.later.click()
    assert next(c for c in cards.cards if c.isVisibleTo(window)) not in shown
    cards.set_current(17)
    assert cards.cards[17].isVisibleTo(window)
    assert not cards.later.isEnabled()


# --- attract, warning, reset ---


def test_a_touch_anywhere_begins_and_moves_nothing(stand):
    assert stand.session.stage == "attract"
    before = stand.document.scenario
    QTest.mouseClick(stand.attract, LEFT, pos=QPoint(900, 400))
    assert stand.session.stage == "visit"
    assert stand.document.scenario == before
    assert not stand.attract.isVisible()


def test_the_button_begins_and_pause_does_not(stand):
    QTest.mouseClick(stand.attract.pause, LEFT)
    assert stand.session.stage == "attract"
    assert stand.session.paused
    assert stand.attract.pause.text() == "Go on"
    QTest.mouseClick(stand.attract.begin, LEFT)
    assert stand.session.stage == "visit"


def test_a_press_alone_does_not_begin(stand):
    QTest.mousePress(stand.attract, LEFT, pos=QPoint(900, 400))
    assert stand.session.stage == "attract"
    QTest.mouseRelease(stand.attract, LEFT, pos=QPoint(-50, -50))
    assert stand.session.stage == "attract"


def test_one_touch_on_the_warning_goes_on_and_moves_nothing(stand, plan):
    visit(stand)
    stand.document.edit("light.illuminance_lx", 500.0)
    before = stand.document.scenario
    ticks(stand, plan.idle_s)
    assert stand.warning.isVisible()
    assert stand.warning.count.text() == "20"
    slider = stand.page.knobs[0].slider
    at = slider.mapTo(stand, slider.rect().center())
    assert stand.childAt(at) is stand.warning
    QTest.mouseClick(stand.warning, LEFT, pos=at)
    assert stand.session.stage == "visit"
    assert stand.document.scenario == before


def test_any_key_takes_the_warning_back_without_acting(stand, plan):
    visit(stand)
    before = stand.document.scenario
    ticks(stand, plan.idle_s)
    QTest.keyClick(stand.page.knobs[0].slider, Qt.Key.Key_Right)
    assert stand.session.stage == "visit"
    assert stand.document.scenario == before


def test_after_the_countdown_the_first_scenario_is_back(stand, plan):
    visit(stand, 1)
    ticks(stand, plan.idle_s + plan.warning_s)
    assert stand.attract.isVisible()
    assert not stand.warning.isVisible()
    assert stand.session.index == 0


def test_moving_a_knob_counts_as_being_there(stand, plan):
    visit(stand)
    for _ in range(3):
        ticks(stand, plan.idle_s - 1)
        QTest.mouseClick(stand.page.knobs[1].up, LEFT)
    assert stand.session.stage == "visit"


@pytest.mark.parametrize("reduced", [False, True])
def test_the_fade_is_short_and_left_out_where_motion_is_unwanted(
    qtbot, plan, exhibits, parked, reduced
):
    window = StandWindow(plan.model_copy(update={"reduced_motion": reduced}), exhibits, parked)
    qtbot.addWidget(window)
    window.show()
    window.start()
    assert window.dissolve._fade.duration() <= 150
    ticks(window, plan.cycle_s)
    assert window.dissolve.isVisible() is not (reduced or window.motion_is_reduced())
    window.solver.solve_now()
    qtbot.waitUntil(window.dissolve.isHidden)
    window.leave()


# --- keyboard and screen reader ---


def test_tab_reaches_everything_in_reading_order(stand):
    visit(stand)
    knob = stand.page.knobs[0]
    order, part = [], knob.down
    for _ in range(60):
        if part.focusPolicy() & Qt.FocusPolicy.TabFocus and part.isVisibleTo(stand):
            order.append(part)
        part = part.nextInFocusChain()
        if part is knob.down:
            break
    page = [p for p in order if stand.page.isAncestorOf(p)]
    wanted = [w for k in stand.page.knobs for w in (k.down, k.slider, k.up)]
    assert page[: len(wanted)] == wanted
    assert page[len(wanted) :] == [*stand.page.cards.cards, *stand.page.cards.extras]


def test_arrow_keys_move_the_knob_that_has_the_focus(stand):
    visit(stand)
    slider = stand.page.knobs[1].slider
    QTest.keyClick(slider, Qt.Key.Key_Right)
    assert stand.document.scenario.panels.count == 2


def test_return_and_space_press_buttons(stand):
    QTest.keyClick(stand.attract.begin, Qt.Key.Key_Space)
    assert stand.session.stage == "visit"


def test_everything_that_can_be_reached_has_a_name(stand):
    visit(stand)
    for part in stand._reachable():
        name = part.accessibleName() or part.text()
        assert name, part
    assert stand.page.knobs[0].slider.accessibleName() == "Light, lx"
    assert stand.page.knobs[0].slider.accessibleDescription() == "800 lx"
    assert stand.page.trace.accessibleDescription()
    assert stand.page.headline.accessibleName().startswith("Runs, ")


def test_what_lies_under_a_veil_takes_no_keyboard(stand):
    for part in stand._reachable():
        assert part.focusPolicy() == Qt.FocusPolicy.NoFocus


def test_the_verdict_is_spoken_once_it_rests(stand, qtbot, monkeypatch):
    from explorer.stand import headline

    spoken = []
    monkeypatch.setattr(
        headline.QAccessible, "updateAccessibility", lambda event: spoken.append(event.message())
    )
    visit(stand)
    for lux in (700.0, 600.0, 500.0, 400.0):
        stand.document.edit("light.illuminance_lx", lux)
        stand.solver.solve_now()
    assert spoken == []
    qtbot.waitUntil(lambda: len(spoken) == 1, timeout=5000)
    assert spoken[0].startswith("Runs. ")


# --- leaving ---


def test_visitors_get_no_menu_no_shortcut_and_no_text_to_select(stand):
    assert stand.findChildren(QMenu) == []
    assert stand.actions() == []
    assert stand.contextMenuPolicy() == Qt.ContextMenuPolicy.PreventContextMenu
    event = QContextMenuEvent(QContextMenuEvent.Reason.Mouse, QPoint(5, 5), QPoint(5, 5))
    QApplication.sendEvent(stand.page.headline.word, event)
    assert QApplication.activePopupWidget() is None
    for label in stand.findChildren(QLabel):
        assert label.textInteractionFlags() in (
            Qt.TextInteractionFlag.NoTextInteraction,
            Qt.TextInteractionFlag.LinksAccessibleByMouse,
        )


def test_closing_from_outside_is_refused_until_the_gesture(stand, monkeypatch):
    event = QCloseEvent()
    monkeypatch.setattr(event, "spontaneous", lambda: True)
    stand.closeEvent(event)
    assert not event.isAccepted()
    assert stand.isVisible()


def test_holding_escape_leaves_and_a_tap_does_not(stand, qtbot):
    stand.gesture._hold_ms = 1500
    with qtbot.waitSignal(
        stand.gesture.progressed, check_params_cb=lambda _, share: share == 0.0
    ):
        QTest.keyClick(stand, Qt.Key.Key_Escape)
    assert stand.isVisible()
    assert not stand.ring.isVisible()
    QTest.keyPress(stand, Qt.Key.Key_Escape)
    qtbot.waitUntil(stand.ring.isVisible)
    with qtbot.waitSignal(stand.left, timeout=5000):
        pass
    assert not stand.isVisible()


def test_leaving_takes_three_seconds():
    assert HOLD_MS == 3000


def test_letting_go_too_early_keeps_the_stand_and_hides_the_ring(stand, qtbot):
    QTest.keyPress(stand, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: stand.ring.share > 0)
    QTest.keyRelease(stand, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: not stand.ring.isVisible())
    assert stand.isVisible()


def test_a_key_that_repeats_itself_stays_held(stand, qtbot):
    """Some displays send a release and a press for every repeat."""
    QTest.keyPress(stand, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: stand.ring.share > 0)
    for _ in range(3):
        before = stand.ring.share
        QTest.keyRelease(stand, Qt.Key.Key_Escape)
        QTest.keyPress(stand, Qt.Key.Key_Escape)
        qtbot.waitUntil(lambda before=before: stand.ring.share > before)
    QTest.keyRelease(stand, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: not stand.ring.isVisible())


def test_a_key_that_was_let_go_fills_no_further(stand, qtbot):
    QTest.keyPress(stand, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: stand.ring.share > 0)
    shares = []
    stand.gesture.progressed.connect(lambda _, share: shares.append(share))
    with qtbot.waitSignal(stand.gesture.progressed, timeout=5000):
        QTest.keyRelease(stand, Qt.Key.Key_Escape)
    assert shares == [0.0]
    assert stand.isVisible()


def test_one_corner_is_not_enough_and_both_are(stand, qtbot):
    stand.gesture._hold_ms = 120
    one, other = stand.corners
    left = []
    stand.left.connect(lambda: left.append(True))
    QTest.mousePress(one, LEFT)
    qtbot.waitUntil(lambda: one.share >= 1.0)
    QTest.mouseRelease(one, LEFT)
    assert one.share == 0.0
    assert left == []
    QTest.mousePress(other, LEFT)
    qtbot.waitUntil(lambda: left == [True], timeout=5000)
    QTest.mouseRelease(other, LEFT)


def test_two_fingers_on_the_corners_leave(stand, qtbot):
    stand.gesture._hold_ms = 120
    stand.show()
    device = QTest.createTouchDevice()
    one, other = stand.corners
    with qtbot.waitSignal(stand.left, timeout=5000):
        touch = QTest.touchEvent(stand, device, False)
        touch.press(0, QPoint(5, 5), one)
        touch.press(1, QPoint(5, 5), other)
        touch.commit()
    assert not stand.isVisible()


def test_corners_stay_on_top_of_every_veil(stand, plan):
    for stage in ("attract", "visit", "warning"):
        stand.session._enter(stage)
        assert stand.childAt(QPoint(4, 4)) is stand.corners[0]
        assert stand.childAt(QPoint(stand.width() - 4, 4)) is stand.corners[1]


def test_the_cursor_hides_after_a_touch_and_returns_with_the_mouse(stand):
    visit(stand)
    device = QPointingDevice(
        "screen", 7, QInputDevice.DeviceType.TouchScreen, QPointingDevice.PointerType.Finger,
        QInputDevice.Capability.Position, 5, 0,
    )  # fmt: skip
    from PySide6.QtCore import QEvent
    from PySide6.QtGui import QMouseEvent

    def press(source):
        return QMouseEvent(
            QEvent.Type.MouseButtonPress, QPointF(9, 9), QPointF(9, 9), LEFT, LEFT,
            Qt.KeyboardModifier.NoModifier, source,
        )  # fmt: skip

    QApplication.sendEvent(stand.page, press(device))
    assert stand.cursor().shape() == Qt.CursorShape.BlankCursor
    QApplication.sendEvent(stand.page, press(QPointingDevice.primaryPointingDevice()))
    assert stand.cursor().shape() != Qt.CursorShape.BlankCursor


def test_a_slow_answer_is_announced_and_then_shown(stand, qtbot, monkeypatch):
    from explorer.state import solver

    visit(stand)
    quick, go = solver.assess, threading.Event()

    def slow(*args, **more):
        assert go.wait(20)
        return quick(*args, **more)

    monkeypatch.setattr(solver, "assess", slow)
    monkeypatch.setattr(solver, "SLOW_S", 0.0)
    stand.document.edit("panels.count", 3)
    qtbot.waitUntil(lambda: stand.page.notes.reason.text() == WORKING)
    go.set()
    qtbot.waitUntil(lambda: stand.solver.result.scenario == stand.document.scenario)
    assert stand.page.notes.reason.text() != WORKING


def test_leaving_keeps_what_was_on_show(stand, parked):
    visit(stand)
    stand.document.edit("panels.count", 5)
    stand.leave()
    assert parked.items[0].scenario.panels.count == 5


def test_a_scenario_that_cannot_be_computed_says_so(stand, monkeypatch):
    from explorer.state import solver

    visit(stand)

    def fail(*_, **__):
        raise ArithmeticError("no flow")

    monkeypatch.setattr(solver, "assess", fail)
    stand.document.edit("panels.count", 3)
    stand.solver.solve_now()
    assert "cannot be computed" in stand.page.notes.reason.text()
    assert "Start again" in stand.page.notes.reason.text()
    assert stand.page.headline.word.text() == "Not judged"
    assert stand.page.headline.number.text() == ""
    assert stand.page.trace._assessment is None

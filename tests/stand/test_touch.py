"""Fingers on every control: taps, long presses, drags, two at once, and a palm that rests."""

import pytest
from PySide6.QtCore import QPoint, QPointF, QSizeF, Qt
from PySide6.QtGui import QEventPoint, QInputDevice, QPointingDevice, QTouchEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from explorer.stand.challenges import CHALLENGES
from tests.sharing import cases_are_shared  # noqa: F401


@pytest.fixture(scope="module")
def screen(qapp):
    return QTest.createTouchDevice()


def middle(stand, part):
    return part.mapTo(stand, part.rect().center())


def tap(stand, screen, part, at=None):
    at = at or middle(stand, part)
    QTest.touchEvent(stand, screen).press(0, at).commit()
    QTest.touchEvent(stand, screen).release(0, at).commit()


@pytest.fixture
def visited(stand):
    stand.session.choose(0)
    stand.solver.solve_now()
    stand.session.offer(next(c for c in CHALLENGES if c.key == "weekend"))
    return stand


def test_a_tap_presses_every_button_of_the_page(visited, screen):
    stand = visited
    for part in (b for knob in stand.page.knobs for b in (knob.down, knob.up)):
        heard = []
        part.clicked.connect(lambda *_, heard=heard: heard.append(1))
        if part.isEnabled():
            tap(stand, screen, part)
            assert len(heard) == 1, part.accessibleName()
    for part in (*stand.page.cards.extras, stand.page.cards.cards[1]):
        heard = []
        part.clicked.connect(lambda *_, heard=heard: heard.append(1))
        tap(stand, screen, part)
        assert len(heard) == 1, part.text()
        stand.home.veil.closed.emit()


def test_a_finger_that_slides_off_a_button_does_not_press_it(visited, screen):
    up = visited.page.knobs[0].up
    before = visited.document.scenario
    QTest.touchEvent(visited, screen).press(0, middle(visited, up)).commit()
    away = middle(visited, up) + QPoint(0, 300)
    QTest.touchEvent(visited, screen).move(0, away).commit()
    QTest.touchEvent(visited, screen).release(0, away).commit()
    assert visited.document.scenario == before


def test_a_long_press_repeats_a_step_and_ends_with_the_finger(visited, screen, qtbot):
    up = visited.page.knobs[0].up
    up.setAutoRepeatDelay(10)
    up.setAutoRepeatInterval(10)
    heard = []
    up.clicked.connect(lambda *_, heard=heard: heard.append(1))
    at = middle(visited, up)
    QTest.touchEvent(visited, screen).press(0, at).commit()
    qtbot.waitUntil(lambda: len(heard) > 3)
    QTest.touchEvent(visited, screen).release(0, at).commit()
    assert not up.isDown()


def test_a_drag_carries_every_slider_with_it(visited, screen):
    stand = visited
    for knob in stand.page.knobs:
        slider = knob.slider
        at = slider.mapTo(stand, QPoint(round(slider.handle_x()), round(slider._line_y)))
        values = []
        slider.picked.connect(values.append)
        QTest.touchEvent(stand, screen).press(0, at).commit()
        side = 1 if slider.handle_x() < slider.width() / 2 else -1
        for step in (1, 3, 5):
            QTest.touchEvent(stand, screen).move(0, at + QPoint(side * 25 * step, 40)).commit()
        end = at + QPoint(side * 125, 40)
        QTest.touchEvent(stand, screen).release(0, end).commit()
        assert len(values) >= 2, knob.knob.key
        assert values == sorted(values, reverse=side < 0)
        assert not slider.isSliderDown()


def test_two_fingers_move_two_sliders_at_once(visited, screen):
    one, other = visited.page.knobs[0].slider, visited.page.knobs[2].slider
    a, b = middle(visited, one), middle(visited, other)
    QTest.touchEvent(visited, screen).press(0, a).press(1, b).commit()
    assert one.isSliderDown()
    assert other.isSliderDown()
    before = one._exact, other._exact
    both = QTest.touchEvent(visited, screen).move(0, a + QPoint(60, 0))
    both.move(1, b + QPoint(-60, 0)).commit()
    assert one._exact > before[0]
    assert other._exact < before[1]
    QTest.touchEvent(visited, screen).release(0, a).release(1, b).commit()
    assert not one.isSliderDown()
    assert not other.isSliderDown()


def test_a_second_finger_on_one_slider_does_not_tear_it_away(visited, screen):
    slider = visited.page.knobs[0].slider
    at = middle(visited, slider)
    QTest.touchEvent(visited, screen).press(0, at).commit()
    held = slider._exact
    QTest.touchEvent(visited, screen).stationary(0).press(1, at + QPoint(90, 0)).commit()
    assert slider._exact == held
    QTest.touchEvent(visited, screen).release(0, at).release(1, at).commit()


def test_a_palm_that_rests_on_the_page_keeps_no_finger_away(visited, screen):
    trace, up = visited.page.trace, visited.page.knobs[0].up
    before = visited.document.scenario.light.illuminance_lx
    rest = middle(visited, trace)
    QTest.touchEvent(visited, screen).press(0, rest).commit()
    QTest.touchEvent(visited, screen).stationary(0).press(1, middle(visited, up)).commit()
    QTest.touchEvent(visited, screen).stationary(0).release(1, middle(visited, up)).commit()
    assert visited.document.scenario.light.illuminance_lx > before
    QTest.touchEvent(visited, screen).release(0, rest).commit()


def test_a_palm_on_a_control_moves_nothing(visited):
    """A contact of 40 mm, as a heel of a hand makes it; QTest knows points alone."""
    device = QPointingDevice(
        "palm", 99, QInputDevice.DeviceType.TouchScreen, QPointingDevice.PointerType.Finger,
        QInputDevice.Capability.Position | QInputDevice.Capability.Area, 10, 0,
    )  # fmt: skip
    slider = visited.page.knobs[0].slider
    before = visited.document.scenario
    at = QPointF(middle(visited, slider) + QPoint(80, 0))
    point = QEventPoint(7, QEventPoint.State.Pressed, at, visited.mapToGlobal(at))
    assert point.ellipseDiameters() == QSizeF(0, 0)
    visited.touch._palm_px = -1.0  # so that this contact counts as one that is too wide
    keys = Qt.KeyboardModifier.NoModifier
    event = QTouchEvent(QTouchEvent.Type.TouchBegin, device, keys, [point])
    QApplication.sendEvent(visited.windowHandle(), event)
    assert visited.document.scenario == before
    assert not slider.isSliderDown()


def test_a_touch_begins_a_visit_and_one_takes_the_warning_back(stand, screen, plan):
    tap(stand, screen, stand.attract, QPoint(700, 500))
    assert stand.session.stage == "visit"
    for _ in range(plan.idle_s):
        stand.session.tick()
    assert stand.session.stage == "warning"
    tap(stand, screen, stand.warning, QPoint(300, 900))
    assert stand.session.stage == "visit"
    assert not stand.session.is_changed


def test_fingers_hide_the_cursor_and_count_as_somebody(visited, screen):
    visited.session._quiet_s = 5
    tap(visited, screen, visited.page.trace)
    assert visited.session._quiet_s == 0
    assert visited.cursor().shape() == Qt.CursorShape.BlankCursor


def test_a_touch_that_the_system_takes_away_presses_nothing(visited, screen):
    up = visited.page.knobs[0].up
    before = visited.document.scenario
    QTest.touchEvent(visited, screen).press(0, middle(visited, up)).commit()
    cancel = QTouchEvent(QTouchEvent.Type.TouchCancel, screen)
    QApplication.sendEvent(visited.windowHandle(), cancel)
    assert visited.document.scenario == before
    assert not up.isDown()
    QTest.touchEvent(visited, screen).release(0, middle(visited, up)).commit()

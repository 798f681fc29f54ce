from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent

from explorer.advice.break_even import BreakEven
from explorer.advice.edges import Edge, Edges
from explorer.scenario.demand import Operation, Phase
from explorer.scenario.model import Scenario
from explorer.state.knobs import knobs_for
from explorer.widgets.knob_row import KnobRow
from explorer.words.edges import PENDING

LIGHT = knobs_for(Scenario())[0]
FROM_500 = Edges(
    path=LIGHT.path, low=10.0, high=1e5, edges=(Edge(value=500.0, beyond=490.0),), at_low=False,
    at_high=True,
)  # fmt: skip


@pytest.fixture
def row(qtbot, document):
    result = KnobRow(LIGHT, "l")
    qtbot.addWidget(result)
    result.resize(300, 110)

    def edit(value):
        document.edit(LIGHT.path, value)

    def reset():
        document.begin_gesture()
        document.edit(LIGHT.path, document.start.light.illuminance_lx)

    def follow(scenario):
        result.set_value(scenario.light.illuminance_lx)

    result.edited.connect(edit)
    result.gesture_started.connect(document.begin_gesture)
    result.reset_wanted.connect(reset)
    document.changed.connect(follow)
    follow(document.scenario)
    result.show()
    return result


def at_stop(slider, value):
    left, right = slider._ends()
    return QPoint(round(left + (right - left) * LIGHT.fraction(value)), 13)


def level(document):
    return document.scenario.light.illuminance_lx


def wheel(slider, steps):
    middle = QPointF(slider.rect().center())
    event = QWheelEvent(
        middle, slider.mapToGlobal(middle), QPoint(), QPoint(0, 120 * steps),
        Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    slider.wheelEvent(event)
    return event.isAccepted()


def test_showing_does_not_edit(qtbot, row, document):
    with qtbot.assertNotEmitted(document.changed), qtbot.assertNotEmitted(row.edited):
        row.set_value(617.0)
    assert document.undo_stack.count() == 0
    assert row.field.text() == "617 lx"


def test_a_click_in_the_groove_jumps_there(qtbot, row, document):
    qtbot.mouseClick(row.slider, Qt.MouseButton.LeftButton, pos=at_stop(row.slider, 5000.0))
    assert level(document) == 5000.0


def test_a_drag_is_one_undo_step(qtbot, row, document):
    slider = row.slider
    qtbot.mousePress(slider, Qt.MouseButton.LeftButton, pos=at_stop(slider, 300.0))
    for value in (400.0, 500.0, 800.0, 1500.0):
        qtbot.mouseMove(slider, at_stop(slider, value))
    qtbot.mouseRelease(slider, Qt.MouseButton.LeftButton, pos=at_stop(slider, 1500.0))
    assert level(document) == 1500.0
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert level(document) == 300.0
    assert row.field.text() == "300 lx"


def test_taking_hold_of_the_handle_between_two_stops_does_not_move_it(qtbot, row, document):
    document.edit(LIGHT.path, 437.0)
    qtbot.mouseClick(row.slider, Qt.MouseButton.LeftButton, pos=at_stop(row.slider, 437.0))
    assert level(document) == 437.0


def test_one_arrow_key_is_one_stop(qtbot, row, document):
    qtbot.keyClick(row.slider, Qt.Key.Key_Right)
    assert level(document) == 400.0
    qtbot.keyClick(row.slider, Qt.Key.Key_Left)
    qtbot.keyClick(row.slider, Qt.Key.Key_Left)
    assert level(document) == 250.0
    qtbot.keyClick(row.slider, Qt.Key.Key_End)
    assert level(document) == 100_000.0


def test_a_number_typed_over_the_handle_goes_into_the_field(qtbot, row, document):
    """So that a mnemonic and a number are enough."""
    row.slider.setFocus()
    qtbot.keyClick(row.slider, "4")
    assert row.field.text() == "4"
    for key in "50":
        qtbot.keyClick(row.field, key)
    qtbot.keyClick(row.field, Qt.Key.Key_Return)
    assert document.scenario.light.illuminance_lx == 450.0


def test_arrow_keys_in_the_field_walk_the_stops_too(qtbot, row, document):
    qtbot.keyClick(row.field, Qt.Key.Key_Up)
    assert level(document) == 400.0
    qtbot.keyClick(row.field, Qt.Key.Key_Down)
    assert level(document) == 300.0


def test_the_step_buttons_walk_the_stops(qtbot, row, document):
    qtbot.mouseClick(row.up, Qt.MouseButton.LeftButton)
    assert level(document) == 400.0
    qtbot.mouseClick(row.down, Qt.MouseButton.LeftButton)
    assert level(document) == 300.0


def test_the_wheel_acts_only_with_the_focus(qtbot, row, document):
    row.slider.clearFocus()
    assert not wheel(row.slider, 1)
    assert level(document) == 300.0
    row.slider.setFocus()
    assert row.slider.hasFocus()
    assert wheel(row.slider, 1)
    assert level(document) == 400.0


def test_a_double_click_on_the_handle_returns_to_the_start(qtbot, row, document):
    document.edit(LIGHT.path, 2000.0)
    place = at_stop(row.slider, 2000.0)
    qtbot.mouseClick(row.slider, Qt.MouseButton.LeftButton, pos=place)
    qtbot.mouseDClick(row.slider, Qt.MouseButton.LeftButton, pos=place)
    qtbot.mouseRelease(row.slider, Qt.MouseButton.LeftButton, pos=place)
    assert level(document) == 300.0


def test_two_clicks_in_the_groove_do_not_reset(qtbot, row, document):
    place = at_stop(row.slider, 20_000.0)
    qtbot.mouseClick(row.slider, Qt.MouseButton.LeftButton, pos=place)
    qtbot.mouseDClick(row.slider, Qt.MouseButton.LeftButton, pos=place)
    qtbot.mouseRelease(row.slider, Qt.MouseButton.LeftButton, pos=place)
    assert level(document) == 20_000.0


def test_delete_returns_to_the_start(qtbot, row, document):
    document.edit(LIGHT.path, 2000.0)
    qtbot.keyClick(row.slider, Qt.Key.Key_Delete)
    assert level(document) == 300.0


def test_an_exact_value_may_lie_between_and_below_the_stops(qtbot, row, document):
    row.field.setFocus()
    row.field.selectAll()
    qtbot.keyClicks(row.field, "1")
    qtbot.keyClick(row.field, Qt.Key.Key_Return)
    assert level(document) == 1.0
    assert row.slider.value() == 0


def test_assistive_technology_can_move_the_slider(row, document):
    row.slider.setValue(LIGHT.stops.index(1000.0))
    assert level(document) == 1000.0


def test_name_with_unit_and_physical_value_are_announced(row):
    row.set_value(437.0)
    assert row.slider.accessibleName() == "Illuminance, lx"
    assert row.slider.accessibleDescription() == "437 lx"
    assert row.field.accessibleName() == "Illuminance, lx"
    assert row.up.accessibleName() == "Illuminance: one step up"
    assert row.label.buddy() is row.slider
    assert row.label.text() == "I&lluminance"


def test_every_target_is_at_least_24_pixels(row):
    for part in (row.slider, row.field, row.up, row.down):
        assert part.width() >= 24, part
        assert part.height() >= 24, part


def test_the_track_shows_where_it_runs_until_something_else_changes(row):
    states = tuple("runs" if s >= 500 else "falls_short" for s in LIGHT.stops)
    found = BreakEven(
        path=LIGHT.path, stops=LIGHT.stops, states=states, best=3000.0, works=FROM_500,
        runs=FROM_500,
    )
    plain = row.slider.grab().toImage()
    row.set_break_even(found)
    fresh = row.slider.grab().toImage()
    assert fresh != plain
    assert row.sentence.text() == "runs from 500\u00a0lx"
    row.set_pending()
    assert row.slider.grab().toImage() != fresh
    row.set_break_even(found)
    assert row.slider.grab().toImage() == fresh


def test_a_draft_leaves_a_sentence_that_still_holds(row):
    """The knob in the hand moves none of its own edges; only what has changed is looked for."""
    falls, runs = (("falls_short",) * len(LIGHT.stops), ("runs",) * len(LIGHT.stops))
    drafted = BreakEven(path=LIGHT.path, stops=LIGHT.stops, states=falls, best=10.0)
    row.set_break_even(drafted)
    assert row.sentence.text() == PENDING
    row.set_break_even(replace(drafted, states=runs, works=FROM_500, runs=FROM_500))
    row.set_break_even(drafted)
    assert row.sentence.text() == "runs from 500\u00a0lx"
    row.set_pending()
    row.set_break_even(drafted)
    assert row.sentence.text() == PENDING


def test_the_best_stop_is_marked_where_more_would_be_worse(row):
    def picture(states, best):
        row.set_break_even(
            BreakEven(
                path=LIGHT.path, stops=LIGHT.stops, states=states, best=best, works=FROM_500,
                runs=FROM_500,
            )
        )
        return row.slider.grab().toImage()

    better = tuple("runs" if s >= 500 else "falls_short" for s in LIGHT.stops)
    assert picture(better, 3000.0) == picture(better, 5000.0)
    worse = tuple("runs" if 500 <= s <= 8000 else "falls_short" for s in LIGHT.stops)
    assert picture(worse, 3000.0) != picture(worse, 5000.0)


def test_a_name_is_never_cut_and_the_steps_give_way_to_it(window, qapp):
    window.resize(960, 540)
    qapp.processEvents()
    rows = window.knobs.rows
    rows[0].label.setText("A quantity with quite a long name")
    rows[0]._make_room()
    qapp.processEvents()
    assert rows[0].down.isHidden()
    for row in rows[1:]:
        assert row.label.width() >= row.label.sizeHint().width(), row.label.text()
    rows[0].set_knob(rows[0].knob)
    window.resize(1280, 720)
    for _ in range(3):
        qapp.processEvents()
    assert not any(row.down.isHidden() for row in rows)


def test_the_name_takes_the_room_of_the_steps_in_the_very_resize_that_hides_them(qtbot):
    """Beside a scroll bar that came later the last letter of a long name was cut for good."""
    row = KnobRow(LIGHT, "l")
    qtbot.addWidget(row)
    row.show()
    row.label.setText("Name of a quantity that has letters")
    steps = row.field.width() + row.down.width() + row.up.width() + 3
    enough = row.label.sizeHint().width() + steps
    row.resize(enough + 1, 110)
    assert row.down.isVisible()
    row.resize(enough - 8, 110)
    assert not row.down.isVisible()
    assert row.label.sizeHint().width() <= row.label.width()
    row.resize(enough + 1, 110)
    assert row.down.isVisible()
    assert row.label.sizeHint().width() <= row.label.width()


def test_the_load_knob_keeps_the_phase_that_somebody_set(window):
    """Even where another phase of the operation draws more now."""
    document = window.document
    phases = (Phase(current_A=0.03, duration_s=0.1), Phase(current_A=0.011, duration_s=0.2))
    operation = Operation(name="two phases", phases=phases)
    load = document.scenario.load.model_copy(update={"operations": (operation,)})
    document.replace(document.scenario.model_copy(update={"load": load}), "two phases")
    row = window.knobs.rows[3]
    assert row.knob.path.endswith("phases.0.current_A")
    row.edited.emit(0.0033)
    assert document.scenario.load.operations[0].phases[0].current_A == 0.0033
    assert row.knob.path.endswith("phases.0.current_A")
    assert row.field.text() == "3.3 mA"
    window.knobs._on_file_changed()
    assert row.knob.path.endswith("phases.1.current_A")

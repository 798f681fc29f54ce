"""What a screen reader is told, asked the way that it asks: through QAccessible."""

import gc

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QComboBox,
    QHeaderView,
    QLineEdit,
    QPlainTextEdit,
    QSlider,
    QWidget,
)

from explorer.files.shelf import Shelf
from explorer.scenario.model import Scenario, with_value
from explorer.state.language import tr
from explorer.widgets import spoken
from explorer.widgets.capture.capture_dialog import CaptureDialog
from explorer.widgets.drawers.drawers import QUESTIONS
from explorer.widgets.drawers.hand_dialog import HandDialog
from explorer.widgets.drawers.histogram import Histogram
from explorer.widgets.efficiency.efficiency_dialog import EfficiencyDialog
from explorer.widgets.parts.parts_dialog import PartsDialog
from explorer.widgets.sheet.sheet_dialog import SheetDialog
from tests.sharing import cases_are_shared  # noqa: F401

KINDS = (
    QAbstractButton, QLineEdit, QSlider, QComboBox, QAbstractSpinBox, QAbstractItemView,
    QPlainTextEdit,
)  # fmt: skip
Text, Role = QAccessible.Text, QAccessible.Role


@pytest.fixture(autouse=True, scope="module")
def described(qapp):
    spoken.install()


def asked(widget, kind):
    return QAccessible.queryAccessibleInterface(widget).text(kind)


def controls(window):
    """Everything in a window that takes the keyboard or the mouse."""
    for kind in KINDS:
        for control in window.findChildren(kind):
            if control.objectName().startswith("qt_") or control.window() is not window:
                continue
            inside = isinstance(control.parent(), QAbstractSpinBox | QComboBox)
            if inside or isinstance(control, QHeaderView):
                continue  # the line of a box and the head of a table speak through these
            yield control


def faults(window):
    """Controls that are nameless, or whose name is no name."""
    for control in controls(window):
        name = asked(control, Text.Name)
        if not control.isHidden() and not name.strip():
            yield control.metaObject().className(), control.objectName(), "nameless"
        if isinstance(control, QComboBox) and name == control.currentText():
            yield name, control.objectName(), "a value for a name"
        if name.rstrip(".").endswith(":") or ": ." in name:
            yield name, control.objectName(), "half a sentence"


@pytest.fixture
def opened(qtbot, window, document, jobs, tmp_path):
    """Every window of the desk, all its parts built."""
    scenario = with_value(Scenario(), "load.actuator", "door_lock")
    document.new(with_value(scenario, "load.regulator.kind", "switching"))
    window.solver.solve_now()
    for fold in window.knobs.folds:
        fold.set_open(True)
    for key in QUESTIONS:
        window.drawers.drawer(key)
    _ = window.trace
    window.commands["compare"].trigger()
    window.assistance.open_keys()
    window.assistance.start_tour()
    window.assistance.pane.show_idle()
    window.commands["line_up"].trigger()
    compared = window.comparisons.one, window.comparisons.several
    found = [window, *compared, window.assistance._help, window.assistance.guide]
    others = (
        SheetDialog(document, window), EfficiencyDialog(document, window),
        CaptureDialog(document, jobs, window), HandDialog(tmp_path, window),
        PartsDialog(document, Shelf(tmp_path / "parts"), window),
    )  # fmt: skip
    return [*found, *others]


def test_every_control_of_every_window_has_a_name_that_is_one(opened):
    assert len(opened) >= 10
    counted = [sum(1 for _ in controls(window)) for window in opened]
    assert all(counted), counted
    found = [fault for window in opened for fault in faults(window)]
    assert not found, found


def test_a_slider_says_its_quantity_its_value_with_unit_and_which_stop_that_is(qtbot, window):
    row = window.knobs.rows[0]
    window.document.edit("light.illuminance_lx", 300.0)
    assert asked(row.slider, Text.Name) == "Illuminance, lx" or "lx" in asked(row.slider, Text.Name)
    value, count = asked(row.slider, Text.Value), len(row.knob.stops)
    assert value == f"300 lx, stop {row.knob.position(300.0) + 1} of {count}"
    qtbot.keyClick(row.slider, Qt.Key.Key_Right)
    assert asked(row.slider, Text.Value).endswith(f"stop {row.knob.position(300.0) + 2} of {count}")
    assert asked(row.slider, Text.Value) in asked(row.slider, Text.Description)


def test_a_reader_moves_a_slider_by_its_actions(window):
    row = window.knobs.rows[1]
    before = window.document.scenario.panels.count
    actions = QAccessible.queryAccessibleInterface(row.slider).actionInterface()
    actions.doAction(actions.actionNames()[0])
    assert window.document.scenario.panels.count == before + 1
    window.document.undo_stack.undo()
    assert window.document.scenario.panels.count == before


def test_a_choice_is_called_by_its_label_and_its_value_is_what_is_chosen(window):
    fold = window.knobs.folds[0]
    fold.set_open(True)
    box = fold.content.findChild(QWidget, "light.source").box
    assert asked(box, Text.Name) == "Light source"
    assert asked(box, Text.Value) == box.currentText()
    box.setCurrentIndex(box.currentIndex() + 1)
    assert asked(box, Text.Value) == box.currentText()
    assert QAccessible.queryAccessibleInterface(box).role() == Role.ComboBox


def test_buttons_of_the_head_are_called_by_the_word_they_show(window):
    for button in window.title_bar._buttons:
        assert asked(button, Text.Name) in button.defaultAction().text().replace("&", "")
        assert asked(button, Text.Description) == button.defaultAction().toolTip()


def test_an_answer_is_spoken_with_its_value_and_its_meaning(window):
    _ = window.trace
    row = window.trace.answers.rows[0]
    assert asked(row, Text.Name) == f"{tr(row.answer.label)}: {tr(row.answer.value)}"
    assert asked(row, Text.Description) == tr(row.answer.meaning)
    assert QAccessible.queryAccessibleInterface(row).role() == Role.StaticText


def test_pictures_play_the_role_of_a_picture_and_have_a_text(window):
    for picture in (window.trace.inset, window.sign.lamps):
        assert QAccessible.queryAccessibleInterface(picture).role() == Role.Graphic
        assert asked(picture, Text.Name)
    assert asked(window.trace.plot, Text.Name)
    assert "highest" in asked(window.trace.plot, Text.Description)


def test_a_line_without_cautions_says_nothing(window):
    from explorer.widgets.help.caution_line import CautionLine

    line = CautionLine(window.document, "charger")
    assert not line.found
    assert asked(line, Text.Name) == ""
    line.deleteLater()


def test_a_widget_that_the_collector_takes_leaves_no_interface_to_delete_twice(qapp):
    """Qt deletes an interface with its widget; Python must not be there first."""
    spoken.install()
    for _ in range(2):
        made = [Histogram("spread", "×") for _ in range(10)]
        for one in made:
            one.itself = one  # so that only the collector takes it
            assert QAccessible.queryAccessibleInterface(one) is not None
        del made, one
        gc.collect()
    qapp.processEvents()


def test_interfaces_that_qt_has_deleted_are_let_go(qapp):
    spoken.install()
    for _ in range(1000):
        one = Histogram("spread", "×")
        assert QAccessible.queryAccessibleInterface(one) is not None
        one.deleteLater()
        qapp.sendPostedEvents(one, QEvent.Type.DeferredDelete.value)
    assert len(spoken.KEPT) < 800

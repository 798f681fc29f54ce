"""No text overlaps another or leaves its box, measured from the widgets, in every size."""

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtWidgets import QLabel, QWidget

from explorer.advice import territory as territory_module
from explorer.resource_files import scenario_folder
from explorer.state.language import set_language, tr
from explorer.widgets.efficiency.efficiency_dialog import EfficiencyDialog
from explorer.widgets.sheet.sheet_dialog import SheetDialog
from tests.sharing import cases_are_shared  # noqa: F401
from tests.widgets.layout import cut, faults, overlaps, painted_faults
from tests.widgets.shared_answers import answers_are_shared  # noqa: F401

pytestmark = pytest.mark.usefixtures("answers_are_shared")

SIZES = ((960, 540), (1280, 720), (1920, 1080))
in_german = pytest.mark.parametrize("speaking", ["de"], indirect=True)
"""For what does not turn on words, in the longer ones alone."""


@pytest.fixture(params=["en", "de"])
def speaking(request, qapp):
    set_language(request.param)
    yield request.param
    set_language("en")


@pytest.fixture
def desk(speaking, window, qapp):
    """A window with a design that has much to say."""
    window.document.open_example(scenario_folder() / "door_counter.json")
    window.solver.solve_now()
    _ = window.trace
    return window


TURNS = 12
"""Of the event loop in which what is still arriving finds its place."""


def settle(window, qapp, width, height):
    window.resize(width, height)
    for _ in range(4):  # folds and answers fit themselves one turn later
        qapp.processEvents()


def lasting(qapp, *parts):
    """What is wrong and stays so: a text that has just arrived is laid out a turn later."""
    found = []
    for _ in range(TURNS):
        found = [fault for part in parts for fault in faults(part)]
        if not found:
            break
        qapp.processEvents()
    return found


def test_texts_have_their_room_in_every_size_and_language(desk, qapp):
    found = {}
    for size in SIZES:
        settle(desk, qapp, *size)
        found[size] = lasting(qapp, desk) + painted_faults(desk)
    assert not any(found.values()), found


@pytest.mark.usefixtures("few_units")
def test_with_folds_a_drawer_and_the_help_open_too(desk, qapp):
    desk.drawers.open("spread")
    for fold in desk.knobs.folds:
        fold.set_open(True)
    desk.knobs.rows[0].slider.setFocus()
    desk.assistance.on_help()
    found = {}
    for size in SIZES[:2]:
        settle(desk, qapp, *size)
        found[size] = lasting(qapp, desk.knobs, desk.sign, desk.title_bar)
        found[size] += painted_faults(desk.knobs)
    for kind in (SheetDialog, EfficiencyDialog):
        dialog = kind(desk.document, desk)
        dialog.show()
        for size in (dialog.minimumSize(), dialog.maximumSize()):
            dialog.resize(size)
            qapp.processEvents()
            found[kind.__name__, size.width()] = lasting(qapp, dialog) + painted_faults(dialog)
        dialog.close()
    assert not any(found.values()), found


@in_german
def test_closed_folds_are_as_high_as_what_they_tell_also_after_another_size(desk, qapp):
    for size in ((1920, 1080), (960, 540), (1920, 1080)):
        settle(desk, qapp, *size)
        for fold in desk.knobs.folds:
            assert fold.height() <= fold.sizeHint().height() + 2, size
            assert fold.height() >= fold.minimumSizeHint().height(), size


@pytest.mark.parametrize("name", ["soil_probe", "vent_flap"])
def test_names_of_answers_are_whole_beside_a_number(desk, qapp, name):
    """The short one where the whole one has no room; beside a bound in words none may have."""
    desk.document.open_example(scenario_folder() / f"{name}.json")
    desk.solver.solve_now()
    settle(desk, qapp, 1280, 720)
    rows = [r for r in desk.trace.answers.rows if r.isVisible() and " " not in r.number.text()]
    assert len(rows) > 8
    for row in rows:
        need = row.label.fontMetrics().horizontalAdvance(row.label.text())
        assert need <= row.label.width(), row.label.text()


@pytest.mark.usefixtures("asked_at_rest")
def test_beside_a_bound_too_a_name_is_whole_in_a_small_window(desk, qapp, qtbot):
    """Of a device with an hour of little light a day: not even one operation in a hundred days."""
    desk.document.edit("light.pattern.blocks.0.to_h", 18.0)
    desk.document.edit("light.pattern.blocks.0.from_h", 17.0)
    desk.document.edit("light.illuminance_lx", 50.0)
    desk.solver.solve_now()
    settle(desk, qapp, 1280, 720)

    def shown():
        rows = [row for row in desk.trace.answers.rows if row.isVisible() and row.answer]
        return {row.answer.key: row for row in rows if not row.number.is_pending}

    qtbot.waitUntil(lambda: "most_operations_per_day" in shown(), timeout=20_000)
    rows = shown()
    row = rows["most_operations_per_day"]
    assert row.number.text() == tr(row.answer.brief) != tr(row.answer.value)
    assert tr(row.answer.value) in row.accessibleName()
    assert all(is_whole(row.label) for row in rows.values())
    settle(desk, qapp, 1920, 1080)
    assert all(is_whole(row.label) for row in shown().values())
    row = shown()["most_operations_per_day"]
    row.setFixedWidth(600)
    qapp.processEvents()
    assert row.number.text() == tr(row.answer.value)


@pytest.mark.usefixtures("asked_at_rest")
def test_a_bound_told_briefly_is_the_same_beside_its_unit(desk, qapp, qtbot):
    """No light is enough for a sleep current of 1 A."""
    desk.document.edit("load.sleep_A", 1.0)
    desk.solver.solve_now()
    settle(desk, qapp, 1280, 720)

    def shown():
        rows = desk.trace.answers.rows
        return [
            (row.number.text(), row.unit.text()) for row in rows
            if row.isVisible() and row.answer and not row.number.is_pending
            and row.answer.key == "least_light_for_balance_lx"
        ]

    qtbot.waitUntil(lambda: bool(shown()), timeout=20_000)
    row = next(
        row for row in desk.trace.answers.rows
        if row.answer and row.answer.key == "least_light_for_balance_lx"
    )
    row.setFixedWidth(190)
    qapp.processEvents()
    assert shown() == [(">\N{NO-BREAK SPACE}10\N{SUPERSCRIPT FIVE}", "lx")]
    row.setFixedWidth(600)
    qapp.processEvents()
    assert shown() == [(tr(row.answer.value).removesuffix(" lx"), "lx")]
    assert "100000" in row.number.text()


def is_whole(label):
    return label.fontMetrics().horizontalAdvance(label.text()) <= label.width()


def test_the_window_never_asks_for_more_than_the_smallest_screen(desk, qapp):
    assert desk.minimumSize().width() <= 960
    assert desk.minimumSize().height() <= 540
    settle(desk, qapp, 960, 540)
    assert (desk.width(), desk.height()) == (960, 540)


def test_pulse_and_answers_can_be_reached_in_the_smallest_window(desk, qapp, qtbot):
    desk.activateWindow()
    qtbot.waitUntil(desk.isActiveWindow)
    desk.begin()
    settle(desk, qapp, 960, 540)
    last = [row for row in desk.trace.answers.rows if row.isVisible()][-1]
    last.setFocus()
    qapp.processEvents()
    assert is_in_sight(desk.centre._scroll, last)
    desk.trace.spans.button(0).click()
    assert desk.trace.pulse.isVisible()


def test_tab_from_the_knobs_scrolls_the_middle_to_what_it_reaches(desk, qapp, qtbot):
    """With a drawer open in a low window the trace is a scroll away."""
    desk.activateWindow()
    qtbot.waitUntil(desk.isActiveWindow)
    settle(desk, qapp, 1280, 600)
    desk.drawers.open("bench")
    desk.knobs.folds[-1].button.setFocus()
    for _ in range(3):
        qapp.processEvents()
    scroll = desk.centre._scroll
    scroll.verticalScrollBar().setValue(scroll.verticalScrollBar().maximum())
    assert not any(is_in_sight(scroll, button) for button in desk.trace.spans.buttons())
    qtbot.keyClick(desk.focusWidget(), Qt.Key.Key_Tab)
    qapp.processEvents()
    assert desk.focusWidget() in desk.trace.spans.buttons()
    assert is_in_sight(scroll, desk.focusWidget())


def is_in_sight(scroll, part):
    at = QRect(part.mapTo(scroll.viewport(), QPoint(0, 0)), part.size())
    return scroll.viewport().rect().contains(at)


def test_what_is_measured_is_found(qtbot):
    """The measure itself: a label that is cut, and two that lie on each other."""
    box = QWidget()
    qtbot.addWidget(box)
    one, other = QLabel("Fernhollow Glasshouse", box), QLabel("potting shed", box)
    one.setGeometry(0, 0, 60, 20)
    other.setGeometry(30, 5, 200, 20)
    box.resize(300, 60)
    box.show()
    assert cut(one)
    assert not cut(other)
    assert list(overlaps(box)) == [(one.text(), other.text())]


@in_german
def test_on_a_large_screen_answers_tell_their_meaning_and_drawers_stand_beside(
    speaking, window, qapp, monkeypatch
):
    monkeypatch.setattr(territory_module, "refined", lambda *_: iter(()))
    settle(window, qapp, 3840, 2160)
    _ = window.trace
    settle(window, qapp, 3838, 2160)
    answers, centre = window.trace.answers, window.centre
    assert centre.arrangement == "large"
    shown = [row for row in answers.rows if row.isVisible()]
    assert shown
    assert all(row.meaning.text() for row in shown)
    assert answers.mapTo(window, answers.rect().topLeft()).x() > window.trace.geometry().right()
    assert [card.isVisible() for card in window.drawers.companions] == [True, True, True]
    assert lasting(qapp, window) + painted_faults(window) == []
    window.drawers.open("budget")
    qapp.processEvents()
    beside = [card.question.text() for card in window.drawers.companions if card.isVisible()]
    assert len(beside) == 2
    assert tr("Where does the energy go?") not in beside
    assert all(fold.button.isChecked() for fold in window.knobs.folds)
    settle(window, qapp, 1280, 720)
    assert not any(card.isVisible() for card in window.drawers.companions)
    assert not any(fold.button.isChecked() for fold in window.knobs.folds)

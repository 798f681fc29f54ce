"""A stand is left alone for days: it comes back by itself, and only its keeper ends it."""

import subprocess
import sys
from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from explorer.cli.stand_keeper import MOST_CRASHES, keep
from explorer.stand import staff_code
from explorer.stand.counts import WHAT, Counts
from explorer.stand.desk import StandDesk, screen_of
from explorer.stand.keypad import MOST_TRIES
from explorer.stand.running import FILE, RunningMark, was_cut_off
from explorer.stand.session import PAUSE_S
from explorer.stand.staff_code import hashed
from explorer.stand.window import StandWindow
from explorer.state.language import language, set_language
from explorer.state.stand_plan import StandPlan, save_plan
from tests.sharing import cases_are_shared  # noqa: F401

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def explorer(qtbot):
    window = QWidget()
    qtbot.addWidget(window)
    return window


@pytest.fixture
def desk(explorer, tmp_path):
    result = StandDesk(tmp_path, explorer, explorer)
    yield result
    if result.window is not None:
        result.window.leave()
    if result.dialog is not None:
        result.dialog.reject()
    set_language("en")


# --- it goes on by itself ---


def test_a_pause_ends_by_itself(stand):
    stand.session.set_paused(True)
    for _ in range(PAUSE_S):
        assert stand.session.paused
        stand.session.tick()
    assert not stand.session.paused


def test_it_begins_without_a_dialog_as_it_was_set_up_last(desk, explorer, tmp_path, plan):
    save_plan(tmp_path / "stand.json", plan)
    desk.run_unasked()
    assert desk.dialog is None
    assert desk.window.isFullScreen()
    assert not explorer.isVisible()
    assert desk.window.session.plan == plan


def test_where_all_its_files_are_gone_the_bundled_ones_show(desk, tmp_path, plan):
    gone = plan.model_copy(update={"scenarios": (str(tmp_path / "gone.json"),)})
    save_plan(tmp_path / "stand.json", gone)
    desk.run_unasked()
    assert len(desk.window.session.exhibits) == 6


def test_a_stand_that_nobody_ended_is_known_at_the_next_start(tmp_path):
    assert not was_cut_off(tmp_path)
    mark = RunningMark(tmp_path)
    assert mark.begin()
    assert not was_cut_off(tmp_path)  # it lives
    mark.end()
    assert not was_cut_off(tmp_path)
    dies = (
        "import os, pathlib, sys; from explorer.stand.running import RunningMark; "
        "mark = RunningMark(pathlib.Path(sys.argv[1])); assert mark.begin(); os._exit(9)"
    )
    assert subprocess.run([sys.executable, "-c", dies, tmp_path], check=False).returncode == 9
    assert was_cut_off(tmp_path)
    assert not was_cut_off(tmp_path)  # once


def test_leaving_takes_the_mark_away(desk, tmp_path, plan):
    desk.run(plan)
    assert (tmp_path / FILE).exists()
    desk.window.leave()
    assert not (tmp_path / FILE).exists()


@pytest.mark.parametrize("ends", [[0], [3], [1, -9, 0]])
def test_a_crash_starts_it_anew_and_its_keeper_ends_it(ends):
    left, waited, told = list(ends), [], []
    status = keep(lambda: left.pop(0), told.append, clock=lambda: 0.0, wait=waited.append)
    assert (status, left) == (ends[-1], [])
    assert len(waited) == len(told) == len(ends) - 1


def test_what_crashes_again_and_again_is_given_up():
    told = []
    assert keep(lambda: 1, told.append, clock=lambda: 0.0, wait=lambda _: None) == 1
    assert len(told) == MOST_CRASHES
    assert "not started again" in told[-1]


def test_crashes_far_apart_are_no_reason_to_give_up():
    now, left = [0.0], [1] * 20 + [0]

    def wait(_):
        now[0] += 3600.0

    assert keep(lambda: left.pop(0), lambda _: None, clock=lambda: now[0], wait=wait) == 0


# --- whose screen, whose language, whose pictures ---


def test_it_shows_on_the_screen_that_was_chosen(monkeypatch):
    class Second:
        def name(self):
            return "HDMI-2"

    screens = [*QGuiApplication.screens(), Second()]
    monkeypatch.setattr(QGuiApplication, "screens", lambda: screens)
    assert screen_of(StandPlan(screen="HDMI-2")) is screens[-1]
    assert screen_of(StandPlan(screen="gone")) is None
    assert screen_of(StandPlan()) is None


def test_a_visitor_switches_the_language_and_keeps_the_design(desk, plan):
    desk.run(plan.model_copy(update={"languages": ("en", "de")}))
    first = desk.window
    first.session.choose(0)
    first.document.edit("panels.count", 2)
    assert first.page.cards.language.text() == "Deutsch"
    QTest.mouseClick(first.page.cards.language, LEFT)
    second = desk.window
    assert second is not first
    assert language() == "de"
    assert second.document.scenario.panels.count == 2
    assert second.document.scenario.title == "Pflanzenschild im Farnhaus"
    assert second.session.stage == "visit"
    assert desk.parked.items == ()  # nobody left anything yet
    second.leave()
    assert language() == "en"


def test_a_logo_and_a_picture_of_ones_own_are_shown(qtbot, plan, exhibits, parked, tmp_path):
    from PySide6.QtGui import QColor, QPixmap

    dot = QPixmap(8, 8)
    dot.fill(QColor(255, 0, 255))
    dot.save(str(tmp_path / "dot.png"))
    own = plan.model_copy(update={"picture": str(tmp_path / "dot.png"), "logo": "gone.png"})
    window = StandWindow(own, exhibits, parked)
    qtbot.addWidget(window)
    window.resize(1280, 800)
    window.show()
    window.start()
    room = window.attract._place.room.center()
    assert window.attract.grab().toImage().pixelColor(room.toPoint()) == QColor(255, 0, 255)
    window.leave()


# --- only staff leaves ---


@pytest.fixture
def coded(qtbot, plan, exhibits, parked, monkeypatch):
    monkeypatch.setattr(staff_code, "ROUNDS", 100)  # nobody guesses here
    window = StandWindow(plan.model_copy(update={"code_hash": hashed("2468")}), exhibits, parked)
    qtbot.addWidget(window)
    window.resize(1280, 800)
    window.show()
    window.start()
    yield window
    window.leave()


def typed(window, digits):
    for digit in digits:
        key = next(k for k in window.keypad.keys if k.text() == digit)
        QTest.mouseClick(key, LEFT)


def test_holding_one_corner_asks_for_the_code_which_ends_the_stand(coded, qtbot):
    coded.gesture._hold_ms = 80
    QTest.mousePress(coded.corners[0], LEFT)
    qtbot.waitUntil(lambda: coded.corners[0].share >= 1.0)
    QTest.mouseRelease(coded.corners[0], LEFT)
    assert coded.keypad.isVisible()
    with qtbot.waitSignal(coded.left):
        typed(coded, "2468")


def test_a_code_typed_on_a_keyboard_ends_the_stand(coded, qtbot):
    coded.keypad.open()
    for text in "24":
        qtbot.keyClick(coded.focusWidget(), text)
    qtbot.keyClick(coded.focusWidget(), Qt.Key.Key_9)
    qtbot.keyClick(coded.focusWidget(), Qt.Key.Key_Backspace)
    with qtbot.waitSignal(coded.left):
        for text in "68":
            qtbot.keyClick(coded.focusWidget(), text)


def test_enter_after_a_wrong_code_says_so_and_begins_anew(coded, qtbot):
    coded.keypad.open()
    for wrong in ("1357", "12"):
        qtbot.keyClicks(coded.focusWidget(), wrong)
        qtbot.keyClick(coded.focusWidget(), Qt.Key.Key_Return)
        assert coded.keypad.label.text() == "That is not the code."
    qtbot.keyClick(coded.focusWidget(), Qt.Key.Key_Enter)  # nothing was typed since
    with qtbot.waitSignal(coded.left):
        qtbot.keyClicks(coded.focusWidget(), "2468")


def test_keys_stay_on_the_keypad_and_go_back_when_it_closes(coded, qtbot):
    begin = coded.focusWidget()
    coded.keypad.open()
    for _ in range(30):
        qtbot.keyClick(coded.focusWidget(), Qt.Key.Key_Tab)
        assert coded.keypad.isAncestorOf(coded.focusWidget())
    qtbot.keyClick(coded.keypad.back, Qt.Key.Key_Return)
    assert not coded.keypad.isVisible()
    assert coded.focusWidget() is begin
    assert coded.session.stage == "attract"


def test_a_window_out_of_sight_comes_back_with_the_keys_on_the_keypad(coded, qtbot):
    begin = coded.focusWidget()
    coded.keypad.open()
    coded.hide()
    coded.show()
    assert coded.keypad.isVisible()
    qtbot.keyClick(coded.focusWidget(), "2")
    assert coded.keypad.label.text() == "•"
    coded.keypad.hide()
    assert coded.focusWidget() is begin


def test_a_keypad_that_is_gone_types_nothing_also_where_nothing_had_the_keys(coded, qtbot):
    coded.focusWidget().clearFocus()
    coded.keypad.open()
    coded.keypad.hide()
    with qtbot.assertNotEmitted(coded.left):
        for digit in "2468":
            qtbot.keyClick(coded.focusWidget() or coded, digit)
    assert not coded.keypad._typed


def test_a_visit_that_ends_under_the_keypad_does_not_take_the_keys_away(coded, qtbot):
    coded.session.touched()
    coded.keypad.open()
    for _ in range(coded.session.plan.idle_s + coded.session.plan.warning_s):
        coded.session.tick()
    assert coded.session.stage == "attract"
    qtbot.keyClick(coded.focusWidget(), "2")
    assert coded.keypad.label.text() == "•"
    coded.keypad.hide()
    assert coded.focusWidget() is coded.attract.begin


def test_a_wrong_code_ends_nothing_and_many_lock_it(coded):
    coded.keypad.open()
    typed(coded, "13571357" * MOST_TRIES)
    assert coded.isVisible()
    assert not coded.keypad.isVisible()
    coded.keypad.open()
    assert not coded.keypad.isVisible()


def test_without_a_code_a_corner_asks_for_nothing(stand):
    stand.keypad.open()
    assert not stand.keypad.isVisible()


def test_the_code_itself_is_not_kept():
    assert "2468" not in StandPlan(code_hash=hashed("2468")).model_dump_json()


# --- what visitors made, and how many they were ---


def test_only_what_was_made_is_kept_and_once(stand, parked):
    stand.session.choose(0)
    stand.session.start_again()
    assert parked.items == ()
    for _ in range(3):
        stand.document.edit("panels.count", 2)
        stand.session.start_again()
    assert len(parked.items) == 1
    assert parked.items[0].word == "Runs"


def test_counts_tell_what_was_tried_by_day_and_nothing_of_persons(stand, tmp_path):
    stand.session.counts = Counts(tmp_path / "counts.json", lambda: date(2025, 5, 4))
    stand.session.touched()
    QTest.mouseClick(stand.page.knobs[0].up, LEFT)
    QTest.mouseClick(stand.page.cards.home, LEFT)
    stand.session.counts.save()
    head, row = Counts(tmp_path / "counts.json").csv().splitlines()
    assert head == "day,exhibit," + ",".join(WHAT)
    told = dict(zip(head.split(","), row.split(","), strict=True))
    assert (told["day"], told["exhibit"]) == ("2025-05-04", "plant_label")
    assert (told["visits"], told["light"], told["taken_home"], told["won"]) == ("1", "1", "1", "0")


def test_one_of_each_is_told_without_a_plural(tmp_path):
    counts = Counts(tmp_path / "counts.json")
    for what in WHAT:
        counts.add("sill", what)
    told = counts.sentence.split(", ")
    assert [part.split(": ")[1] for part in told] == ["1"] * 4


def test_counts_that_cannot_be_read_are_set_aside(tmp_path):
    (tmp_path / "counts.json").write_text("precious")
    counts = Counts(tmp_path / "counts.json")
    counts.add("bundled:soil_probe", "visits")
    counts.save()
    assert (tmp_path / "counts.unreadable.json").read_text() == "precious"
    assert "soil_probe,1" in Counts(tmp_path / "counts.json").csv()

"""A captured load current is read, cut to a cycle, compared with its phases and taken."""

from pathlib import Path
from threading import Event

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt

from explorer.advice.capture.extremes import extremes
from explorer.advice.capture.record import captured
from explorer.widgets.buttons import PillButton
from explorer.widgets.capture.capture_dialog import CaptureDialog
from tests.sharing import cases_are_shared  # noqa: F401

PERIOD_S = 0.2


@pytest.fixture
def radio_csv(tmp_path):
    """Five cycles of 200 ms: 3 ms of 1 mA and 1 ms of 30 mA, 2 µA asleep."""
    time = np.arange(10_000) * 1e-4
    current = np.full(time.size, 2e-6)
    for begin in np.arange(5) * PERIOD_S + 0.05:
        current[(time >= begin - 1e-9) & (time < begin + 3e-3 - 1e-9)] = 1e-3
        current[(time >= begin + 3e-3 - 1e-9) & (time < begin + 4e-3 - 1e-9)] = 30e-3
    path = tmp_path / "radio.csv"
    np.savetxt(path, np.c_[time * 1e3, current * 1e3], delimiter=",", fmt="%.9g",
               header="Time [ms],Current [mA]", comments="")  # fmt: skip
    return path


@pytest.fixture
def dialog(qtbot, document, jobs):
    made = CaptureDialog(document, jobs)
    qtbot.addWidget(made)
    made.show()
    return made


@pytest.fixture
def opened(qtbot, dialog, radio_csv):
    with qtbot.waitSignal(dialog.session.cycle_ready, timeout=20_000):
        dialog.open_file(radio_csv)
    return dialog


def test_it_shows_sleep_period_cycle_phases_and_both_errors(opened):
    assert "2\u00a0µA" in opened.facts.text()
    assert "every 0.2\u00a0s" in opened.facts.text()
    assert opened.begin.text() == "50 ms"
    assert opened.end.text() == "0.25 s"
    assert opened.kept.text().splitlines()[0].startswith("2 phases")
    assert "Charge: kept exactly" in opened.kept.text()
    assert "Deepest droop: within" in opened.kept.text()
    assert opened.take_button.isEnabled()


def test_taking_it_is_one_step_that_can_be_undone(opened, document):
    before = document.scenario
    opened.name.setText("send")
    opened.take()
    (made,) = document.scenario.load.operations
    assert made.name == "send"
    assert made.schedule.interval_s == pytest.approx(PERIOD_S)
    assert [p.current_A for p in made.phases] == pytest.approx([998e-6, 29.998e-3])
    assert document.scenario.load.sleep_A == pytest.approx(2e-6)
    assert not opened.isVisible()
    document.undo_stack.undo()
    assert document.scenario == before


def test_enter_in_the_name_takes_what_can_be_taken(qtbot, opened, document):
    opened.name.selectAll()
    qtbot.keyClicks(opened.name, "send")
    qtbot.keyClick(opened.name, Qt.Key.Key_Return)
    assert not opened.isVisible()
    assert document.scenario.load.operations[0].name == "send"


def test_a_wrong_number_is_not_passed_over_by_taking(qtbot, opened, document):
    before = document.scenario
    opened.begin.setFocus()
    opened.begin.selectAll()
    qtbot.keyClicks(opened.begin, "soon")
    opened.name.setFocus()
    qtbot.keyClick(opened.name, Qt.Key.Key_Return)
    assert document.scenario == before
    assert opened.begin.hasFocus()
    assert opened.take_button.isChecked()


def test_enter_takes_nothing_while_there_is_nothing(qtbot, dialog, document):
    before = document.scenario
    qtbot.keyClick(dialog.name, Qt.Key.Key_Return)
    assert dialog.isVisible()
    assert document.scenario == before


def test_it_may_stand_beside_what_is_there(opened, document):
    opened.place.setCurrentIndex(opened.place.count() - 1)
    opened.take()
    assert [op.name for op in document.scenario.load.operations] == [
        "measure and send", "captured",
    ]


def test_a_handle_that_is_dragged_chooses_another_cycle(qtbot, opened):
    plot = opened.whole
    y = plot.height() // 2
    at, to = (QPoint(round(plot.x_of(t)), y) for t in (0.25, 0.63))
    with qtbot.waitSignal(opened.session.cycle_ready, timeout=20_000) as heard:
        qtbot.mousePress(plot, Qt.MouseButton.LeftButton, pos=at)
        qtbot.mouseMove(plot, to)
        qtbot.mouseRelease(plot, Qt.MouseButton.LeftButton, pos=to)
    (cycle,) = heard.args
    pixel_s = np.diff(plot.shown_s)[0] / plot.width()
    assert cycle.from_s == pytest.approx(0.05)
    assert cycle.to_s == pytest.approx(0.63, abs=2 * pixel_s)
    assert opened.kept.text().splitlines()[0].startswith("8 phases")


def test_a_typed_end_beyond_the_capture_is_refused_in_a_sentence(qtbot, opened):
    opened.end.setFocus()
    opened.end.selectAll()
    with qtbot.waitSignal(opened.session.refused, timeout=20_000):
        qtbot.keyClicks(opened.end, "9 s")
        qtbot.keyClick(opened.end, Qt.Key.Key_Return)
    assert "does not lie within the capture" in opened.fault.text()
    assert not opened.take_button.isEnabled()


def test_a_file_that_is_no_capture_is_refused_in_a_sentence(qtbot, dialog, tmp_path):
    path = tmp_path / "light.csv"
    path.write_text("time,lux\n0,1\n60,2\n")
    with qtbot.waitSignal(dialog.session.refused, timeout=20_000):
        dialog.open_file(path)
    assert "light.csv" in dialog.fault.text()
    assert not dialog.take_button.isEnabled()


def test_a_file_that_can_be_read_in_two_ways_is_asked_about(qtbot, dialog, tmp_path):
    path = tmp_path / "two.csv"
    rows = "".join(f"{n};1,{n:03}\n" for n in range(100, 140))
    path.write_text("time [s];current [mA]\n" + rows)
    with qtbot.waitSignal(dialog.session.asked, timeout=20_000) as heard:
        dialog.open_file(path)
    question = heard.args[1]
    buttons = [b for b in dialog.findChildren(PillButton) if b.property("told")]
    assert len(buttons) == len(question.choices) == 2
    with qtbot.waitSignal(dialog.session.opened, timeout=20_000):
        next(b for b in buttons if b.property("told")[1] == "comma").click()
    assert dialog.session.found.capture.current_a[0] == pytest.approx(1.1e-3)


@pytest.mark.parametrize("way", ["menu", "form"])
def test_menu_and_form_open_it_over_the_window(qtbot, window, radio_csv, monkeypatch, way):
    monkeypatch.setattr(
        "explorer.widgets.capture.capture_dialog.pick_capture", lambda *_: radio_csv
    )
    if way == "menu":
        window.commands["capture"].trigger()
    else:
        for fold in window.knobs.folds:
            fold.set_open(True)
        button = window.knobs.findChild(PillButton, "load.operations.capture")
        qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    dialog = window.findChild(CaptureDialog)
    qtbot.waitUntil(lambda: dialog.session.cycle is not None, timeout=20_000)
    dialog.take()
    assert window.document.scenario.load.operations[0].name == "captured"


def test_reading_says_how_far_it_is_and_ends_when_the_dialog_closes(qtbot, dialog, monkeypatch):
    went_on = Event()

    def slow(path, told, progress):
        progress(0.25)
        went_on.wait(10.0)
        progress(0.5)  # refused by now
        raise AssertionError("it went on after it was stopped")

    monkeypatch.setattr("explorer.state.capture_session.read_capture", slow)
    dialog.open_file(Path("long.csv"))
    qtbot.waitUntil(lambda: "25 %" in dialog.facts.text(), timeout=10_000)
    dialog.reject()
    went_on.set()
    qtbot.waitUntil(lambda: dialog.session._jobs.is_idle, timeout=10_000)
    assert dialog.session.found is None


def test_no_pulse_is_missed_however_many_readings_a_pixel_has():
    """One reading of 5 A among a million of 1 mA, in a picture 600 pixels wide."""
    amps = np.full(1_000_000, 1e-3)
    amps[654_321] = 5.0
    low, high = extremes(captured("long.csv", np.arange(amps.size) * 1e-6, amps), 0.0, 1.0, 600)
    assert high.argmax() == int(0.654321 * 600)
    assert np.sum(high > 1.0) == 1
    assert low.min() == low.max() == 1e-3


def test_every_column_holds_what_is_seen_at_any_zoom():
    rng = np.random.default_rng(3)
    time = np.cumsum(rng.uniform(0.1, 1.9, 500))
    whole = captured("rough.csv", time, rng.normal(size=500))
    for from_s, to_s in ((0.0, whole.span_s), (10.0, 12.0), (100.3, 100.4)):
        low, high = extremes(whole, from_s, to_s, 40)
        edges = np.linspace(from_s, to_s, 41)
        for k in range(40):
            place = np.searchsorted(whole.time_s, edges[k : k + 2], side="right") - 1
            seen = whole.current_a[place[0] : place[1] + 1]
            assert (low[k], high[k]) == (seen.min(), seen.max())

"""A meter is followed in the drawer: readings over the forecast, its loss told, no trace left."""

import os
import signal
import sys

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import QApplication

from explorer.files.bench_log import read_bench_log
from explorer.files.run_keeper import interrupted_run
from explorer.scenario.model import Scenario
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.state.meter_run import MeterRun
from explorer.widgets.drawers.bench_drawer import BenchDrawer
from tests.meters.bench_meter import SocketMeter

PATIENT = 30_000


@pytest.fixture
def source():
    made = SocketMeter(["+3.30E+00", "+3.29E+00", "+3.28E+00", "+3.27E+00"])
    yield made
    made.close()


@pytest.fixture
def drawer(qtbot, tmp_path):
    jobs, document = JobRunner(), Document(Scenario())
    made = BenchDrawer(document, jobs, tmp_path / "runs", tmp_path / "parts")
    qtbot.addWidget(made)
    made.resize(640, 280)
    made.show()
    made.feed.set_open(True)
    yield made
    made.sources.run.stop()
    made.feed.set_open(False)
    jobs.finish()


def followed(qtbot, drawer, address, every="0.2 s", *, by_enter=False):
    qtbot.keyClick(drawer.empty.meter_button, Qt.Key.Key_Space)
    dialog = drawer.sources.meter
    dialog.address.setText(address)
    dialog.every.setText(every)
    if by_enter:
        qtbot.keyClick(dialog.every, Qt.Key.Key_Return)
    else:
        qtbot.keyClick(dialog.start_button, Qt.Key.Key_Space)
    return drawer.sources.run


def is_alive(pid):
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    return True


def test_readings_appear_over_the_forecast_and_stop_ends_the_run(qtbot, drawer, source):
    run = followed(qtbot, drawer, source.address)
    qtbot.waitUntil(lambda: drawer.sheets.currentIndex() == 1, timeout=PATIENT)
    seen = drawer._view.agreements[0].run.readings
    qtbot.waitUntil(lambda: drawer._view.agreements[0].run.readings > seen, timeout=PATIENT)
    assert "readings kept" in drawer.meter_bar.said.text()
    assert drawer.meter_bar.stop_button.isVisible()
    qtbot.keyClick(drawer.meter_bar.stop_button, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: "has ended" in drawer.meter_bar.said.text(), timeout=PATIENT)
    assert not run.is_running
    assert not drawer.meter_bar.stop_button.isVisible()
    assert read_bench_log(run.path).readings == run.count
    assert interrupted_run(run.path.parent) is None


def test_a_meter_that_is_not_there_is_a_sentence_and_its_coming_a_run(qtbot, drawer, source):
    source.close()
    run = followed(qtbot, drawer, source.address)
    qtbot.waitUntil(lambda: run.is_lost, timeout=PATIENT)
    assert "Trying again in" in drawer.meter_bar.said.text()
    drawer.meter_bar.stop_button.click()
    assert "has ended" in drawer.meter_bar.said.text()  # nobody seeks it any more
    assert not run.is_lost
    run = followed(qtbot, drawer, source.address, by_enter=True)
    there = SocketMeter(["+3.2E+00"], port=source.port)
    try:
        qtbot.waitUntil(lambda: run.count > 0, timeout=PATIENT)
        assert not run.is_lost
    finally:
        run.stop()
        there.close()


@pytest.mark.skipif(sys.platform == "win32", reason="sends a signal")
def test_a_run_that_crashed_is_told_and_taken_up(qtbot, drawer, source):
    run = followed(qtbot, drawer, source.address)
    qtbot.waitUntil(lambda: run.count >= 2, timeout=PATIENT)
    os.kill(run._process.processId(), signal.SIGKILL)
    qtbot.waitUntil(lambda: not run.is_running, timeout=PATIENT)
    assert "unexpectedly" in drawer.meter_bar.said.text()
    kept, path = run.count, run.path
    qtbot.keyClick(drawer.empty.meter_button, Qt.Key.Key_Space)
    dialog = drawer.sources.meter
    assert dialog.address.text() == source.address  # as it was typed
    assert dialog.go_on.isChecked()
    qtbot.keyClick(dialog.start_button, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: run.count > kept, timeout=PATIENT)
    assert run.path == path


def test_nothing_of_a_meter_is_left_when_its_window_goes(qtbot, tmp_path, source):
    document = Document(Scenario())
    run = MeterRun(document)
    from explorer.meters.meter import Meter, resource_name

    run.start(Meter(address=resource_name(source.address), every_s=0.1), tmp_path / "a meter.csv")
    qtbot.waitUntil(lambda: run.count >= 3, timeout=PATIENT)
    pid = run._process.processId()
    assert is_alive(pid)
    document.deleteLater()
    QApplication.sendPostedEvents(document, QEvent.Type.DeferredDelete.value)
    assert not is_alive(pid)
    assert read_bench_log(tmp_path / "a meter.csv").readings >= 3


def test_what_cannot_be_used_is_said_before_anything_starts(qtbot, drawer):
    run = followed(qtbot, drawer, "not here")
    dialog = drawer.sources.meter
    assert "no address of a meter" in dialog.said.text()
    dialog.address.setText("192.0.2.7")
    dialog.every.setText("2 d")
    qtbot.keyClick(dialog.start_button, Qt.Key.Key_Space)
    assert "out of range" in dialog.said.text()
    assert not run.is_running
    assert not dialog.form.isRowVisible(dialog.baud)
    dialog.address.setText("COM3")
    assert dialog.form.isRowVisible(dialog.baud)
    dialog.reject()

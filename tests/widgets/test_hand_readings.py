"""Readings typed into a table appear over the forecast, and are on disk as they are typed."""

import re

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit

from explorer.files.bench_log import read_bench_log
from explorer.scenario.model import Scenario
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.widgets.drawers.bench_drawer import BenchDrawer
from explorer.widgets.drawers.hand_dialog import HandDialog


@pytest.fixture
def dialog(qtbot, tmp_path):
    made = HandDialog(tmp_path / "runs")
    qtbot.addWidget(made)
    made.show()
    return made


def typed(qtbot, dialog, row, *cells):
    for column, cell in enumerate(cells):
        dialog.table.item(row, column).setText(cell)


def read_now(qtbot, dialog, volts):
    qtbot.keyClick(dialog.now_button, Qt.Key.Key_Space)
    editor = dialog.table.focusWidget()
    qtbot.keyClicks(editor, volts)
    qtbot.keyClick(editor, Qt.Key.Key_Return)


def runs(tmp_path):
    return sorted((tmp_path / "runs").glob("*.csv"))


def test_now_writes_the_time_and_enter_leads_back_to_now(qtbot, dialog, tmp_path):
    for volts in ("3.301", "3,30", "3299m"):
        read_now(qtbot, dialog, volts)
        qtbot.waitUntil(lambda: dialog.focusWidget() is dialog.now_button)
        qtbot.wait(200)  # times are written to a tenth of a second
    assert [row.volts for row in dialog.rows if row.time] == ["3.301", "3,30", "3299m"]
    time = dialog.rows[0].time
    assert re.fullmatch(r"\d{4}-\d\d-\d\d \d\d:\d\d:\d\d\.\d", time)
    assert dialog.table.columnWidth(0) > dialog.table.fontMetrics().horizontalAdvance(time) + 8
    (path,) = runs(tmp_path)
    run = read_bench_log(path)
    assert run.volts.tolist() == [3.301, 3.3, 3.299]
    assert run.start is not None


def test_enter_leads_from_a_typed_time_to_its_volts_and_on_to_the_next_time(
    qtbot, dialog, tmp_path
):
    table = dialog.table
    table.setCurrentCell(0, 0)
    readings = [("0 s", "5.0"), ("30 s", "4.9"), ("1 min", "4.8")]
    for row, reading in enumerate(readings):
        for column, text in enumerate(reading):
            qtbot.waitUntil(lambda: isinstance(table.focusWidget(), QLineEdit))
            assert (table.currentRow(), table.currentColumn()) == (row, column)
            qtbot.keyClicks(table.focusWidget(), text)
            qtbot.keyClick(table.focusWidget(), Qt.Key.Key_Return)
            here = row, column
            qtbot.waitUntil(lambda at=here: at != (table.currentRow(), table.currentColumn()))
    assert [(row.time, row.volts) for row in dialog.rows] == [*readings, ("", "")]
    run = read_bench_log(runs(tmp_path)[0])
    assert (run.time_s.tolist(), run.volts.tolist()) == ([0.0, 30.0, 60.0], [5.0, 4.9, 4.8])


def test_a_wrong_cell_is_named_and_the_rest_is_on_disk(qtbot, dialog, tmp_path):
    with qtbot.waitSignal(dialog.kept):
        typed(qtbot, dialog, 0, "9:00", "3.3", "210")
        typed(qtbot, dialog, 1, "9:05", "3.2")
        typed(qtbot, dialog, 2, "9:10", "3.1")
    typed(qtbot, dialog, 3, "9:15", "none")
    assert "Row 4" in dialog.said.text()
    assert dialog.table.item(3, 1).toolTip()
    run = read_bench_log(runs(tmp_path)[0])
    assert (run.readings, run.light.illuminance_lx[0]) == (3, 210.0)
    typed(qtbot, dialog, 3, "9:15", "3.0")
    assert "4 readings" in dialog.said.text()
    assert read_bench_log(runs(tmp_path)[0]).readings == 4


def test_a_run_is_taken_up_after_the_program_was_gone(qtbot, dialog, tmp_path):
    assert not dialog.resume_button.isVisible()
    typed(qtbot, dialog, 0, "0", "3.3")
    typed(qtbot, dialog, 1, "60", "3.2")
    later = HandDialog(tmp_path / "runs")
    qtbot.addWidget(later)
    later.show()
    qtbot.keyClick(later.resume_button, Qt.Key.Key_Space)
    assert [row.volts for row in later.rows] == ["3.3", "3.2", ""]
    typed(qtbot, later, 2, "2 min", "3.1")
    assert len(runs(tmp_path)) == 1
    assert read_bench_log(runs(tmp_path)[0]).time_s.tolist() == [0.0, 60.0, 120.0]


def test_rows_can_be_removed(qtbot, dialog, tmp_path):
    typed(qtbot, dialog, 0, "0", "3.3")
    typed(qtbot, dialog, 1, "60", "9")
    dialog.table.setCurrentCell(1, 1)
    qtbot.keyClick(dialog.remove_button, Qt.Key.Key_Space)
    assert "1 of the 3" in dialog.said.text()
    assert len(runs(tmp_path)[0].read_text(encoding="utf-8").splitlines()) == 3


def test_the_drawer_follows_the_table(qtbot, tmp_path):
    jobs = JobRunner()
    drawer = BenchDrawer(Document(Scenario()), jobs, tmp_path / "runs", tmp_path / "parts")
    qtbot.addWidget(drawer)
    drawer.show()
    drawer.feed.set_open(True)
    qtbot.keyClick(drawer.empty.hand_button, Qt.Key.Key_Space)
    dialog = drawer.sources.hand
    for row, volts in enumerate(("3.30", "3.29", "3.28")):
        typed(qtbot, dialog, row, f"{row} h", volts)
    qtbot.waitUntil(lambda: drawer.sheets.currentIndex() == 1, timeout=20_000)
    typed(qtbot, dialog, 3, "3 h", "3.27")
    qtbot.waitUntil(lambda: drawer._view.agreements[0].run.readings == 4, timeout=20_000)
    dialog.close()
    assert drawer.sources.hand is None
    drawer.feed.set_open(False)
    jobs.finish()

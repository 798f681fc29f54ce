"""The drawer of logged runs: follows the design, fits off the thread, one undo step, exports."""

import csv

import pytest
from PySide6.QtCore import Qt

from explorer.files.scenario_json import load_scenario
from explorer.resource_files import resource_path, scenario_folder
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.widgets.drawers import bench_sources
from explorer.widgets.drawers.bench_drawer import READINGS, VALUES, BenchDrawer
from tests.make_bench_log import NAME, TRUTH
from tests.sharing import cases_are_shared  # noqa: F401
from tests.widgets.samples import ROWS_OF_A_DAY, first_day

PATIENT = 60_000
LOG = resource_path("logs", NAME)


@pytest.fixture
def drawer(qtbot, tmp_path):
    document = Document(load_scenario(scenario_folder() / "soil_probe.json").scenario)
    jobs = JobRunner()
    made = BenchDrawer(document, jobs, tmp_path / "runs", tmp_path / "parts")
    qtbot.addWidget(made)
    made.resize(640, 280)
    made.show()
    made.feed.set_open(True)
    yield made
    made.search.set_open(False)
    made.feed.set_open(False)
    jobs.finish()


def opened(qtbot, drawer, path=LOG):
    with qtbot.waitSignal(drawer.feed.finished, timeout=PATIENT):
        drawer.open_log(path)


def fitted(qtbot, drawer):
    with qtbot.waitSignal(drawer.search.finished, timeout=PATIENT):
        qtbot.keyClick(drawer.fit_button, Qt.Key.Key_Space)


def read(path):
    return list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))


def test_without_a_log_it_says_what_to_open_and_exports_nothing(drawer):
    assert "store_V" in drawer.hint.text()
    assert drawer.open_button.isVisible()
    assert not drawer.export.isEnabled()


def test_the_button_opens_a_log_and_the_answer_says_how_it_agrees(qtbot, drawer, monkeypatch):
    monkeypatch.setattr(bench_sources, "pick_log", lambda _: LOG)
    with qtbot.waitSignal(drawer.feed.finished, timeout=PATIENT):
        qtbot.keyClick(drawer.open_button, Qt.Key.Key_Space)
    assert "does not follow" in drawer.answer.text()
    assert "RMS deviation" in drawer.said.text()
    assert "\u00a0V after" in drawer.said.text()  # no number at the end of a line without its unit
    assert drawer.export.isEnabled()
    assert drawer.plot.accessibleDescription()
    assert not drawer.take_button.isEnabled()
    assert drawer.values.chosen == tuple(TRUTH)
    assert all(box.accessibleName() for box in drawer.values.boxes)


def test_the_keyboard_goes_on_with_the_values_when_the_button_that_had_it_is_gone(
    qtbot, drawer, monkeypatch
):
    monkeypatch.setattr(bench_sources, "pick_log", lambda _: LOG)
    drawer.open_button.setFocus()
    with qtbot.waitSignal(drawer.feed.finished, timeout=PATIENT):
        qtbot.keyClick(drawer.open_button, Qt.Key.Key_Space)
    assert drawer.window().focusWidget() is drawer.values.boxes[0]


def test_a_log_that_can_be_read_in_two_ways_asks_first(qtbot, drawer, tmp_path):
    path = tmp_path / "open.csv"
    rows = "".join(f"02/03/2026 0{h}:00,3.{9 - h}\n" for h in range(8))
    path.write_text("time,V\n" + rows, encoding="utf-8")
    opened(qtbot, drawer, path)
    assert not drawer.export.isEnabled()
    dialog = drawer.sources.rows
    dialog.choices[0][2].click()
    with qtbot.waitSignal(drawer.feed.finished, timeout=PATIENT):
        dialog.use_button.click()
    assert drawer.export.isEnabled()
    assert drawer.sources.rows is None
    # 2 March 2026, day first, is a Monday; 3 February would be a Tuesday.
    assert drawer._view.agreements[0].run.start_of_week_s == 0.0


def test_a_bad_log_is_told_in_its_place_and_another_one_may_follow(qtbot, drawer, tmp_path):
    bad = tmp_path / "bad.csv"
    bad.write_text("time,V\n0,3\n1,x\n2,3\n", encoding="utf-8")
    opened(qtbot, drawer, bad)
    assert "bad.csv, line 3" in drawer.hint.text()
    assert drawer.open_button.isVisible()
    opened(qtbot, drawer)
    assert drawer.sheets.currentIndex() == 1


def test_a_fit_can_be_stopped_and_brings_nothing_then(qtbot, drawer):
    opened(qtbot, drawer)
    drawer.fit_button.click()
    assert drawer.fit_button.text() == "Stop"
    drawer.fit_button.click()
    assert not drawer.is_searching
    assert drawer.fit_button.text() == "Fit"
    assert "stopped" in drawer.said.text()
    qtbot.wait(300)
    assert not drawer.take_button.isEnabled()


def test_a_drawer_that_is_hidden_stops_its_search(qtbot, drawer):
    opened(qtbot, drawer)
    drawer.fit_button.click()
    drawer.hide()
    assert not drawer.is_searching


def test_nothing_ticked_is_nothing_to_fit(qtbot, drawer):
    opened(qtbot, drawer)
    for box in drawer.values.boxes:
        if box.isChecked():
            qtbot.keyClick(box, Qt.Key.Key_Space)
    assert not drawer.fit_button.isEnabled()


def test_a_fit_is_exported_and_taken_over_as_one_step_that_undo_takes_back(
    qtbot, drawer, tmp_path
):
    opened(qtbot, drawer, first_day(tmp_path))
    fitted(qtbot, drawer)
    assert drawer.save("csv", READINGS, tmp_path / "r.csv")
    rows = read(tmp_path / "r.csv")
    assert len(rows) == ROWS_OF_A_DAY
    first = rows[0]
    assert float(first["residual_V"]) == pytest.approx(
        float(first["log_V"]) - float(first["forecast_V"]), abs=1e-7
    )
    assert drawer.save("csv", VALUES, tmp_path / "v.csv")
    values = {row["path"]: row for row in read(tmp_path / "v.csv")}
    for path, truth in TRUTH.items():
        assert abs(float(values[path]["fitted"]) - truth) < float(values[path]["plus_minus"])
    assert values["load.sleep_A"]["fitted"] == ""
    for kind in ("png", "svg"):
        assert drawer.save(kind, "", tmp_path / f"p.{kind}")
        assert (tmp_path / f"p.{kind}").stat().st_size > 5000

    assert drawer.take_button.isEnabled()
    assert "±" in drawer.values.boxes[0].accessibleName()
    before, store = drawer.document.scenario, drawer.document.scenario.store
    with qtbot.waitSignal(drawer.feed.finished, timeout=PATIENT):
        qtbot.keyClick(drawer.take_button, Qt.Key.Key_Space)
    now = drawer.document.scenario
    assert now.store.capacitance_F == pytest.approx(1.31, rel=0.01)
    assert now.light.illuminance_lx == pytest.approx(310.0, rel=0.01)
    assert (now.store.leakage_A, now.store.esr_ohm) == (store.leakage_A, store.esr_ohm)
    # A reading or two beside a pulse may lie outside of the band.
    assert "follows the log" in drawer.answer.text()
    # What was found belongs to the design of before.
    assert not drawer.take_button.isEnabled()
    assert "±" not in drawer.values.boxes[0].accessibleName()
    assert drawer.document.undo_stack.count() == 1
    drawer.document.undo_stack.undo()
    assert drawer.document.scenario == before


def test_the_log_stays_when_the_window_is_built_anew(qtbot, drawer, tmp_path):
    opened(qtbot, drawer)
    jobs = JobRunner()
    again = BenchDrawer(drawer.document, jobs, tmp_path, tmp_path)
    qtbot.addWidget(again)
    with qtbot.waitSignal(again.feed.finished, timeout=PATIENT):
        again.feed.set_open(True)
    assert again.sheets.currentIndex() == 1
    again.feed.set_open(False)
    jobs.finish()


def test_a_log_is_shown_in_its_drawer_of_the_window(qtbot, window):
    drawers = window.questions.drawers
    drawer = drawers.drawer("bench")
    with qtbot.waitSignal(drawer.feed.finished, timeout=PATIENT):
        drawers.open_log(LOG)
    assert drawers.open_key == "bench"
    assert drawer.sheets.currentIndex() == 1


def test_every_value_is_reached_with_tab(qtbot, drawer):
    opened(qtbot, drawer)
    drawer.fit_button.setFocus()
    reached = []
    for _ in range(len(drawer.values.boxes) + 4):
        qtbot.keyClick(drawer.focusWidget(), Qt.Key.Key_Tab)
        reached.append(drawer.focusWidget())
    at = [reached.index(box) for box in drawer.values.boxes]
    assert at == sorted(at)
    qtbot.keyClick(drawer.values.boxes[2], Qt.Key.Key_Space)
    assert drawer.values.boxes[2].isChecked()

"""Several runs in the drawer: conditions are told in a dialog, fitted together, kept as a part."""

import pytest
from PySide6.QtCore import Qt

from explorer.advice.bench import outlook
from explorer.advice.bench.outlook import measurements
from explorer.advice.bench.parameters import with_values
from explorer.advice.spread import default_tolerances
from explorer.engine.system import DAY_S
from explorer.files.scenario_json import load_scenario
from explorer.files.shelf import Shelf
from explorer.resource_files import scenario_folder
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.widgets.drawers import bench_sources
from explorer.widgets.drawers.bench_drawer import CHANGES, NEXT, BenchDrawer
from tests.bench_runs import START, dark_run, step_run, written
from tests.depth import thorough

PATIENT = 120_000
PROBE = load_scenario(scenario_folder() / "soil_probe.json").scenario
SIZE = "store.capacitance_F"
TRUTH = 1.31


@pytest.fixture
def drawer(qtbot, tmp_path):
    document = Document(PROBE)
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
    document.undo_stack.clear()


@pytest.fixture
def no_long_measurements(monkeypatch):
    """What to measure next is looked for among what takes less than four days."""

    def short(case):
        return tuple(m for m in measurements(case) if m.run.time_s[-1] < 4 * DAY_S)

    monkeypatch.setattr(outlook, "measurements", short)


@pytest.fixture
def logs(tmp_path):
    truth = with_values(PROBE, {SIZE: TRUTH})
    aged = with_values(PROBE, {SIZE: 0.85 * TRUTH})
    runs = [
        dark_run(truth), step_run(truth, seed=2),
        step_run(aged, seed=3, start=START.replace(month=10)),
    ]  # fmt: skip
    return written(runs, tmp_path)


def renewed(qtbot, drawer):
    return qtbot.waitSignal(drawer.feed.finished, timeout=PATIENT)


def told(qtbot, drawer, *, light="Dark", current="", later=False):
    """Tell the conditions of the run on show in their dialog."""
    drawer.runs.conditions_button.click()
    dialog = drawer.story.dialog
    dialog.light.setCurrentText(light)
    if current:
        dialog.draw.setCurrentText("A steady current")
        dialog.current.setFocus()
        dialog.current.selectAll()
        qtbot.keyClicks(dialog.current, current)
        qtbot.keyClick(dialog.current, Qt.Key.Key_Return)
    dialog.later.setChecked(later)
    with renewed(qtbot, drawer):
        dialog.take_button.click()


def added(qtbot, drawer, monkeypatch, path):
    monkeypatch.setattr(bench_sources, "pick_log", lambda _: path)
    with renewed(qtbot, drawer):
        drawer.runs.add_button.menu().actions()[0].trigger()


def tick(drawer, *paths):
    for box, one in zip(drawer.values.boxes, drawer.values.offered, strict=False):
        box.setChecked(one.path in paths)


@thorough
def test_runs_of_one_device_are_fitted_together_and_what_has_aged_is_told(
    qtbot, drawer, logs, monkeypatch, tmp_path, no_long_measurements
):
    with renewed(qtbot, drawer):
        drawer.open_log(logs[0])
    told(qtbot, drawer)
    added(qtbot, drawer, monkeypatch, logs[1])
    assert drawer.runs.choice.currentText() == "2. run2.csv"
    told(qtbot, drawer, current="2 mA")
    assert "a steady current of 2 mA" in drawer.runs.said.text()
    added(qtbot, drawer, monkeypatch, logs[2])
    told(qtbot, drawer, current="2 mA", later=True)
    assert drawer.runs.choice.currentText() == "3. run3.csv, later"

    tick(drawer, SIZE)
    with qtbot.waitSignal(drawer.search.finished, timeout=PATIENT):
        drawer.fit_button.click()
    assert "Capacitance has changed by −15\u00a0%" in drawer.more.text()
    value = drawer._fit.fit.values[0]
    assert abs(value.value - TRUTH) < value.plus_minus < 0.05
    assert drawer.table(CHANGES)["seen"] == ["true"]
    with qtbot.waitSignal(drawer.search.finished, timeout=PATIENT):
        drawer.next_button.click()
    assert len(drawer.table(NEXT)["measurement"]) > 3
    assert "easure" in drawer.more.text()

    with renewed(qtbot, drawer):
        drawer.story.keep_button.click()
    part = Shelf(tmp_path / "parts").stores()[0]
    assert part.measured[0].key == "capacitance_F"
    scenario = drawer.document.scenario
    assert scenario.store.capacitance_F == pytest.approx(0.85 * TRUTH, rel=0.05)  # as it is now
    known = {t.path: t for t in default_tolerances(scenario)}[SIZE]
    assert known.is_measured
    assert known.amount < 0.05
    assert "How sure?" in drawer.more.text()
    drawer.document.undo_stack.undo()
    assert drawer.document.scenario == PROBE


def test_a_bad_log_that_is_added_is_told_and_the_others_stay(
    qtbot, drawer, logs, monkeypatch, tmp_path
):
    bad = tmp_path / "bad.csv"
    bad.write_text("time,V\n0,3\n1,x\n2,3\n", encoding="utf-8")
    with renewed(qtbot, drawer):
        drawer.open_log(logs[0])
    monkeypatch.setattr(bench_sources, "pick_log", lambda _: bad)
    drawer.runs.add_button.menu().actions()[0].trigger()
    qtbot.waitUntil(lambda: "bad.csv, line 3" in drawer.fault.text(), timeout=PATIENT)
    qtbot.waitUntil(lambda: len(drawer._view.agreements) == 1, timeout=PATIENT)
    added(qtbot, drawer, monkeypatch, logs[1])
    assert not drawer.fault.isVisible()
    with renewed(qtbot, drawer):
        drawer.runs.remove_button.click()
    assert [run.path for run in drawer._story.runs] == [logs[0]]
    assert not drawer.runs.choice.isVisible()


def test_what_is_known_better_is_told_in_a_dialog(qtbot, drawer, logs):
    with renewed(qtbot, drawer):
        drawer.open_log(logs[0])
    drawer.story.known_button.click()
    dialog = drawer.story.known_dialog
    field = dialog.fields["load.sleep_A"]
    field.setFocus()
    qtbot.keyClicks(field, "300")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert "0" in dialog.fault.text()
    dialog.take_button.click()
    assert dialog.isVisible()  # what was refused is not taken
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "0.5")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    with renewed(qtbot, drawer):
        dialog.take_button.click()
    assert drawer._story.known == (("load.sleep_A", 0.005),)

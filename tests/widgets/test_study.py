"""A study in the window: kept by the menu, opened again, and shown as it was."""

import json

import pytest

from explorer.advice.case import Case
from explorer.files import study_results
from explorer.files.scenario_json import load_scenario
from explorer.files.story import RunFile, Story
from explorer.files.study import Study, keep_study, load_study
from explorer.files.study_place import DESIGN, NAME
from explorer.resource_files import scenario_folder
from explorer.scenario.model import with_value
from explorer.state.settings import SettingsStore
from explorer.widgets import messages
from explorer.widgets.main_window import MainWindow
from tests.bench_runs import dark_run, step_run, written
from tests.sharing import cases_are_shared  # noqa: F401
from tests.widgets.test_bench_story import added, told

PATIENT = 120_000
PROBE = load_scenario(scenario_folder() / "soil_probe.json").scenario


def bench_of(qtbot, window):
    """The bench drawer, open and with its answer."""
    window.drawers.open("bench")
    drawer = window.drawers.drawer("bench")
    if drawer._story.runs and drawer._view is None:
        qtbot.waitUntil(lambda: drawer._view is not None, timeout=PATIENT)
    return drawer


@pytest.fixture
def logs(tmp_path):
    return written([dark_run(PROBE), step_run(PROBE, seed=2)], tmp_path)


@pytest.fixture
def kept(window, logs, tmp_path, monkeypatch):
    """A study with two runs, open in the window; its results are not asked for."""
    folder = tmp_path / "Trough"
    runs = tuple(RunFile(path=log) for log in logs)
    keep_study(folder, PROBE, None, Study(story=Story(runs=runs)))
    monkeypatch.setattr(window.studies, "renew", lambda: None)
    assert window.open_path(folder)
    return folder


def test_what_was_kept_is_on_the_screen_again(
    qtbot, window, logs, jobs, solver, tmp_path, monkeypatch, said
):
    window.document.new(PROBE)
    drawer = bench_of(qtbot, window)
    with qtbot.waitSignal(drawer.feed.finished, timeout=PATIENT):
        drawer.open_log(logs[0])
    told(qtbot, drawer)
    added(qtbot, drawer, monkeypatch, logs[1])
    told(qtbot, drawer, current="2 mA")
    window.commands["line_up"].trigger()
    window.comparisons.several.line_up.add(Case(with_value(PROBE, "panels.count", 5)), "Five")
    folder = tmp_path / "Trough"
    monkeypatch.setattr(study_results, "reach", lambda _: {})  # the longest searches
    monkeypatch.setattr(messages, "pick_study", lambda *_: folder)
    window.commands["keep_study"].trigger()
    qtbot.waitUntil((folder / "results.json").exists, timeout=PATIENT)
    for log in logs:
        log.unlink()
    assert window.windowTitle().startswith("Trough")
    assert window.document.is_clean
    assert window.settings.settings.recent[0] == str(folder / NAME)
    window.document.new(PROBE)  # the runs belong to the study and go with it
    assert drawer.sheets.currentIndex() == 0
    assert not window.comparisons.several.line_up.others

    other = MainWindow(window.document, solver, jobs, SettingsStore(tmp_path / "2.ini"), "0")
    qtbot.addWidget(other, before_close_func=lambda w: w.document.undo_stack.setClean())
    other.show()
    assert other.open_path(folder), said
    drawer = bench_of(qtbot, other)
    assert drawer.runs.choice.count() == 2
    drawer.runs.choice.setCurrentIndex(1)
    assert drawer.runs.choice.currentText() == "2. run2.csv"
    assert "a steady current of 2 mA" in drawer.runs.said.text()
    other.commands["line_up"].trigger()
    assert [d.name for d in other.comparisons.several.line_up.others] == ["Five"]
    assert other.document.scenario == PROBE


def test_a_change_of_the_runs_is_unsaved_until_save_keeps_it(qtbot, window, kept):
    drawer = bench_of(qtbot, window)
    with qtbot.waitSignal(drawer.feed.finished, timeout=PATIENT):
        drawer.runs.remove_button.click()
    assert window.isWindowModified()
    assert len(load_study(kept).story.runs) == 2
    assert window.on_save()
    assert not window.isWindowModified()
    assert len(load_study(kept).story.runs) == 1
    assert (kept / "runs" / "run2.csv").exists()  # a file with data is never deleted
    window.document.edit("panels.count", 4)
    assert window.on_save()
    assert load_scenario(kept / DESIGN).scenario.panels.count == 4


def test_a_bad_study_is_told_and_what_is_open_stays(window, kept, said):
    data = json.loads((kept / NAME).read_text(encoding="utf-8"))
    data["runs"][1]["file"] = "runs/lost.csv"
    (kept / NAME).write_text(json.dumps(data), encoding="utf-8")
    assert not window.open_path(kept / NAME)
    assert "runs/lost.csv" in said[-1][1]
    assert len(window.document.study.story.runs) == 2
    window.look_at_file()
    assert "changed elsewhere" in window.notice.text.text()

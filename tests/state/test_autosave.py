import json
import os
import shutil
import subprocess
import sys
import time
from dataclasses import replace

import pytest

from explorer.files.scenario_json import save_scenario
from explorer.files.story import RunFile, Story
from explorer.files.study import Laid, load_study
from explorer.scenario.logged_run import Conditions
from explorer.scenario.model import Scenario
from explorer.state.autosave import Autosave, claim_leftovers
from explorer.state.document import Document

DIE_WITH_UNSAVED_WORK = """
import os, signal, sys
from pathlib import Path
from PySide6.QtCore import QCoreApplication
from explorer.scenario.model import Scenario
from explorer.state.autosave import Autosave
from explorer.state.document import Document

app = QCoreApplication([])
document = Document(Scenario(title=sys.argv[2]))
autosave = Autosave(document, Path(sys.argv[1]))
document.edit("panels.count", 5)
autosave.keep()
autosave.wait()
os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "unsaved"


@pytest.fixture
def document(qapp):
    return Document(Scenario(title="Fern bench"))


@pytest.fixture
def autosave(document, folder):
    keeper = Autosave(document, folder, interval_ms=20)
    yield keeper
    keeper.discard()


def kept(autosave):
    """The number of panels on the disk; None where there is no file."""
    if not autosave.file.exists():
        return None
    return json.loads(autosave.file.read_text(encoding="utf-8"))["scenario"]["panels"]["count"]


@pytest.fixture(scope="module")
def of_the_dead(tmp_path_factory):
    """What a killed program left behind."""
    folder = tmp_path_factory.mktemp("dead") / "unsaved"
    command = [sys.executable, "-c", DIE_WITH_UNSAVED_WORK, str(folder), "Moss wall"]
    done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    assert done.returncode == -9, done.stderr
    return folder


@pytest.fixture
def left_behind(of_the_dead, folder):
    """A folder with unsaved work of a killed program."""
    shutil.copytree(of_the_dead, folder)
    return folder


def test_an_edit_reaches_the_disk_by_itself(qtbot, document, autosave):
    assert kept(autosave) is None
    document.edit("panels.count", 3)
    qtbot.waitUntil(lambda: kept(autosave) == 3)


def test_the_last_of_many_edits_is_what_stays(qtbot, document, autosave):
    for count in range(2, 60):
        document.edit("panels.count", count)
        qtbot.wait(1)
    qtbot.waitUntil(lambda: kept(autosave) == 59)


def test_nothing_is_kept_of_what_is_saved(qtbot, document, autosave, tmp_path):
    document.edit("panels.count", 3)
    qtbot.waitUntil(autosave.file.exists)
    document.save(tmp_path / "fern.json")
    qtbot.waitUntil(lambda: not autosave.file.exists())
    assert not list(autosave.file.parent.iterdir())


def test_nothing_is_kept_of_what_undo_took_back(qtbot, document, autosave):
    document.edit("panels.count", 3)
    qtbot.waitUntil(autosave.file.exists)
    document.undo_stack.undo()
    qtbot.waitUntil(lambda: not autosave.file.exists())


def test_after_stop_edits_leave_nothing(qtbot, document, autosave):
    document.edit("panels.count", 3)
    qtbot.waitUntil(autosave.file.exists)
    autosave.stop()
    document.edit("panels.count", 4)
    qtbot.wait(60)
    assert not list(autosave.file.parent.iterdir())


def test_the_work_of_a_killed_program_is_found_with_its_file(qapp, left_behind):
    (leftover,) = claim_leftovers(left_behind)
    assert leftover.work.scenario == Scenario(title="Moss wall").model_copy(
        update={"panels": Scenario().panels.model_copy(update={"count": 5})}
    )
    assert leftover.work.path is None
    leftover.discard()
    assert not list(left_behind.iterdir())


def test_the_original_path_and_version_come_back(qtbot, document, autosave, folder, tmp_path):
    document.save(tmp_path / "fern.json")
    document.migrated_from = 0
    document.edit("panels.count", 3)
    autosave.keep()
    autosave.wait()
    copy = folder / "copy.json"
    copy.write_bytes(autosave.file.read_bytes())
    (leftover,) = claim_leftovers(folder)
    assert leftover.work.path == tmp_path / "fern.json"
    assert leftover.work.migrated_from == 0
    leftover.discard()
    assert autosave.file.exists()


def test_what_a_living_window_keeps_is_left_alone(qtbot, document, autosave, folder):
    document.edit("panels.count", 3)
    qtbot.waitUntil(autosave.file.exists)
    assert claim_leftovers(folder) == ()
    assert kept(autosave) == 3


def test_only_one_claims_it_and_what_is_released_is_offered_again(qapp, left_behind):
    first = claim_leftovers(left_behind)
    assert len(first) == 1
    assert claim_leftovers(left_behind) == ()
    first[0].release()
    (again,) = claim_leftovers(left_behind)
    again.discard()


@pytest.mark.parametrize("text", ["", "{", "[]", '{"format": "other"}', '{"format": 1}'])
def test_a_file_that_cannot_be_read_is_passed_over_and_stays(qapp, left_behind, caplog, text):
    (left_behind / "odd.json").write_text(text, encoding="utf-8")
    (good,) = claim_leftovers(left_behind)
    assert (left_behind / "odd.json").exists()
    assert "odd.json" in caplog.text
    good.discard()


def test_old_half_written_files_and_idle_locks_are_swept(qapp, folder):
    folder.mkdir()
    old, new = folder / ".aa.part", folder / ".bb.part"
    for part in (old, new):
        part.write_text("{", encoding="utf-8")
    (folder / "cc.lock").write_text("999999999\nnobody\nnowhere\n", encoding="utf-8")
    yesterday = time.time() - 100_000
    os.utime(old, (yesterday, yesterday))
    assert claim_leftovers(folder) == ()
    assert not old.exists()
    assert new.exists()


def test_a_folder_that_cannot_be_made_is_told_once(qtbot, document, tmp_path):
    (tmp_path / "file").write_text("", encoding="utf-8")
    autosave = Autosave(document, tmp_path / "file" / "unsaved", interval_ms=5)
    heard = []
    autosave.failed.connect(heard.append)
    document.edit("panels.count", 3)
    qtbot.waitUntil(lambda: len(heard) == 1)
    document.edit("panels.count", 4)
    qtbot.wait(30)
    assert len(heard) == 1
    assert "save often" in heard[0]


def test_restored_work_counts_as_changed_until_it_is_saved(document, tmp_path):
    document.restore(Scenario(title="Moss wall"), tmp_path / "moss.json")
    assert not document.is_clean
    assert document.path == tmp_path / "moss.json"
    assert not document.undo_stack.canUndo()
    document.edit("panels.count", 2)
    document.undo_stack.undo()
    assert not document.is_clean
    document.save()
    assert document.is_clean


@pytest.mark.parametrize("edited", [False, True])
def test_another_file_after_restored_work_counts_as_saved(document, tmp_path, edited):
    other = tmp_path / "tag.json"
    save_scenario(other, Scenario(title="Tag"))
    document.restore(Scenario(title="Moss wall"))
    if edited:
        document.edit("panels.count", 2)
    document.open(other)
    assert document.is_clean
    document.restore(Scenario(title="Moss wall"))
    document.new()
    assert document.is_clean


def test_runs_and_designs_that_a_study_does_not_hold_yet_come_back(
    qtbot, document, autosave, folder, tmp_path
):
    run = RunFile(path=tmp_path / "run\u202e.csv", conditions=Conditions(light_lx=0.0))
    laid = Laid(name="x" * 400, scenario=Scenario(title="Other"), path=tmp_path / "o.json")
    run.path.write_text("time,store_V\n0,3\n1,2.9\n2,2.8\n", encoding="utf-8")
    document.keep(tmp_path / "study")
    study = replace(document.study, story=Story(runs=(run,)))
    document.edit_study(study)
    autosave.keep()
    autosave.wait()
    document.edit_study(replace(study, designs=(laid,)))  # seen without any edit of the design
    qtbot.waitUntil(lambda: "Other" in autosave.file.read_text(encoding="utf-8"))
    (folder / "copy.json").write_bytes(autosave.file.read_bytes())
    (leftover,) = claim_leftovers(folder)
    work = leftover.work
    again = Document()
    again.restore(work.scenario, work.path, work.migrated_from, work.study)
    assert again.folder == tmp_path / "study"
    assert again.study == replace(study, designs=(replace(laid, name="x" * 300),))
    again.save()
    assert load_study(tmp_path / "study").story.runs[0].conditions == run.conditions
    assert again.is_clean
    leftover.discard()

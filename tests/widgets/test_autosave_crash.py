"""The real program is killed in the middle of an edit, and started again."""

import json
import shutil
import signal
import subprocess
import sys

import pytest

from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.scenario.model import Scenario
from explorer.state.autosave import claim_leftovers

pytestmark = pytest.mark.skipif(
    not hasattr(signal, "SIGKILL"), reason="this system cannot kill a process outright"
)

START = """
import json, sys
from pathlib import Path
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMessageBox
from explorer.app import run
from explorer.state.jobs import JobRunner
from explorer.widgets.main_window import MainWindow

JobRunner.ask = lambda *_: None  # what is worked out beside the verdict, in three processes
settings, files = Path(sys.argv[1]), sys.argv[2:]
app = QApplication([])

def windows():
    return [w for w in app.topLevelWidgets() if isinstance(w, MainWindow)]

def say(**what):
    print(json.dumps(what), flush=True)

"""
EDIT_FOR_EVER = START + """
def work():
    document = windows()[0].document
    row = next(r for r in windows()[0].knobs.rows if r.knob.key == "panels")
    for _ in range(4):
        QTest.keyClick(row.slider, Qt.Key.Key_Right)
    QTest.qWait(700)
    say(settled=document.scenario.panels.count)
    for step in range(100_000):
        document.begin_gesture()
        document.edit("light.illuminance_lx", 310.0 + step)
        say(lux=document.scenario.light.illuminance_lx)
        QTest.qWait(5)

QTimer.singleShot(400, work)
sys.exit(run(files, settings))
"""
ANSWER = START + """
answer, files = files[0], files[1:]

def reply():
    box = app.activeModalWidget()
    if not isinstance(box, QMessageBox):
        QTimer.singleShot(300, report) if tries.pop() == 0 else QTimer.singleShot(50, reply)
        return
    say(asked=box.informativeText())
    next(b for b in box.buttons() if b.text() == answer).click()
    QTimer.singleShot(500, report)

def report():
    for window in windows():
        scenario, document = window.document.scenario, window.document
        say(title=scenario.title, panels=scenario.panels.count,
            lux=scenario.light.illuminance_lx, clean=document.is_clean,
            path=str(document.path), marked=window.isWindowModified())
        document.undo_stack.setClean()
    windows()[0].commands["quit"].trigger()

tries = list(range(20))
QTimer.singleShot(50, reply)
sys.exit(run(files, settings))
"""


def start(script, *arguments):
    return subprocess.Popen(
        [sys.executable, "-c", script, *map(str, arguments)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def kill_in_the_middle_of_an_edit(settings, *files):
    """What the program had said when it was killed."""
    process = start(EDIT_FOR_EVER, settings, *files)
    said = []
    for line in process.stdout:
        said.append(json.loads(line))
        if len(said) == 20:
            break
    process.send_signal(signal.SIGKILL)
    process.communicate(timeout=60)
    assert process.returncode == -signal.SIGKILL
    return said


def start_again(settings, answer, *files):
    process = start(ANSWER, settings, answer, *files)
    out, err = process.communicate(timeout=120)
    assert process.returncode == 0, err
    assert "Traceback" not in err
    said = [json.loads(line) for line in out.splitlines()]
    asked = [line for line in said if "asked" in line]
    return asked, [line for line in said if "asked" not in line]


@pytest.fixture(scope="module")
def of_the_killed(tmp_path_factory):
    """All that a killed program had written: it had a file open, in the same folder."""
    folder = tmp_path_factory.mktemp("killed")
    settings, place = folder / "settings.ini", folder / "fern.json"
    settings.write_text("[General]\ntour_seen=true\n", encoding="utf-8")
    save_scenario(place, Scenario(title="Fern bench"))
    said = kill_in_the_middle_of_an_edit(settings, place)
    assert said[0] == {"settled": 5}
    return folder


@pytest.fixture
def settings(of_the_killed, tmp_path):
    """The settings of a killed program, beside its unsaved work."""
    shutil.copytree(of_the_killed, tmp_path, dirs_exist_ok=True)
    return tmp_path / "settings.ini"


def test_a_killed_program_finds_its_work_again_and_asks_only_once(
    settings, of_the_killed, tmp_path
):
    asked, shown = start_again(settings, "Later")
    assert len(asked) == 1
    assert "“Fern bench”, fern.json" in asked[0]["asked"]
    assert "Fern bench" not in [window["title"] for window in shown]

    asked, shown = start_again(settings, "Restore")
    assert len(asked) == 1
    (window,) = shown
    assert window["title"] == "Fern bench"
    assert window["panels"] == 5  # what was a second old at the latest
    place = of_the_killed / "fern.json"
    assert window["path"] == str(place)
    assert window["marked"]
    assert not window["clean"]
    assert load_scenario(place).scenario.panels.count == 1

    # Closed without saving, as was wanted: nothing is left to offer.
    assert claim_leftovers(tmp_path / "unsaved") == ()
    # A kill in the middle of a write leaves a part, which is swept up a day later.
    assert not [p for p in (tmp_path / "unsaved").iterdir() if p.suffix != ".part"]


def test_work_of_a_killed_program_can_be_thrown_away(settings, tmp_path):
    asked, _ = start_again(settings, "Discard")
    assert len(asked) == 1
    # A kill in the middle of a write leaves a part, which is swept up a day later.
    assert not [p for p in (tmp_path / "unsaved").iterdir() if p.suffix != ".part"]


def test_beside_an_opened_file_the_work_gets_a_window_of_its_own(settings, tmp_path):
    place = tmp_path / "moss.json"
    save_scenario(place, Scenario(title="Moss wall"))
    _, shown = start_again(settings, "Restore", place)
    titles = [window["title"] for window in shown]
    assert len(titles) == 2
    assert "Moss wall" in titles

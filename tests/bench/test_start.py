"""Time from the command to its answer, each in a process of its own."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

import explorer
from explorer.resource_files import scenario_folder

ROOT = Path(explorer.__file__).parent.parent
FIRST_VERDICT = """
import tempfile
from pathlib import Path
from PySide6.QtWidgets import QApplication
from explorer.app import build_window, open_first
app = QApplication([])
with tempfile.TemporaryDirectory() as folder:
    window = build_window(app, Path(folder) / "settings.ini")
    open_first(window, None)
    window.show()
    app.processEvents()
    assert window.sign.word.text() in ("Runs", "Marginal", "Falls short")
    window.jobs.finish()
"""
"""As `gloaming` starts, up to the first painted verdict."""
COMMANDS = {
    "an interpreter that does nothing": ["-c", "pass"],
    "import numpy": ["-c", "import numpy"],
    "gloaming --version": ["-m", "explorer", "--version"],
    "gloaming check, one scenario": ["-m", "explorer", "check", "soil_probe.json"],
    "gloaming check, all six": ["-m", "explorer", "check", "all"],
    "window to first painted verdict": ["-c", FIRST_VERDICT],
}


@pytest.mark.parametrize("what", COMMANDS)
def test_start(benchmark, spread, what):
    command = []
    for part in COMMANDS[what]:
        files = sorted(scenario_folder().glob("*.json")) if part == "all" else []
        single = [scenario_folder() / part] if part.endswith(".json") else []
        command += [str(p) for p in files or single or [part]]

    def run():
        return subprocess.run(
            [sys.executable, *command],
            cwd=ROOT,
            env={**os.environ, "QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": str(ROOT)},
            capture_output=True,
            text=True,
            check=False,
        )

    done = benchmark.pedantic(run, rounds=5, iterations=1, warmup_rounds=1)
    assert done.returncode in (0, 1, 2), done.stderr
    spread(what, "1 s" if "verdict" in what else "")

"""What the command line and the first verdict must not load."""

import re
import subprocess
import sys
from pathlib import Path

import explorer
from explorer.cli.later import ELSEWHERE


def _loaded(statement: str) -> set[str]:
    code = f"{statement}; import sys; print('\\n'.join(sys.modules))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


def test_an_assessment_loads_neither_qt_nor_scipy():
    loaded = _loaded("import explorer.advice.assess, explorer.advice.edges")
    assert not [m for m in loaded if m.split(".")[0] in {"PySide6", "pyqtgraph", "scipy"}]


def test_the_command_line_loads_no_qt():
    loaded = _loaded("import explorer.cli.main")
    assert not [m for m in loaded if m.split(".")[0] in {"PySide6", "pyqtgraph", "scipy"}]


def test_a_window_begins_without_what_the_first_verdict_does_not_need():
    loaded = _loaded("import explorer.widgets.main_window, explorer.stand.door")
    for spared in (
        "pyqtgraph", "scipy", "explorer.files.study", "explorer.files.logs",
        "explorer.advice.builds", "explorer.scenario.part",
    ):
        assert spared not in loaded


def test_a_command_loads_no_other_command():
    loaded = _loaded("import explorer.cli.main")
    assert not loaded & {module for module, _ in ELSEWHERE.values()}


def test_no_part_loads_the_statistics_of_scipy():
    """It takes a second of processing, where `scipy.special` has what is used of it."""
    package = Path(explorer.__file__).parent
    loads = re.compile(r"from scipy import .*\bstats\b|scipy\.stats")
    assert not [p for p in package.rglob("*.py") if loads.search(p.read_text(encoding="utf-8"))]

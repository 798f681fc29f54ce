"""A few rounds of the trials that go on for hours by command; a process of its own forks best."""

import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="kills and forks processes")


def tried(*words):
    return subprocess.run(
        [sys.executable, "-m", "tests.hard_times", *words], cwd=Path(__file__).parent.parent,
        capture_output=True, text=True, check=False,
    )  # fmt: skip


def test_what_is_written_outlives_kills_full_disks_and_company():
    kinds = ("save", "meter", "study", "shelf", "autosave", "full_disk", "forbidden", "together")
    done = tried("--each", "--rounds", "2", "--kinds", *kinds)
    assert done.returncode == 0, done.stdout + done.stderr
    assert f"{2 * len(kinds)} in all, 0 failures" in done.stdout


BROKEN = """
from pathlib import Path
from explorer.files import part_json
part_json.write_text = lambda path, text: Path(path).write_text(text)
from tests import hard_times
found = []
for seed in range(300):  # until a kill falls into the middle of a write
    found += hard_times.run(1, seed, print, {"shelf": 1.0})[1]
    if any("torn part" in fault for fault in found):
        break
else:
    raise SystemExit(f"nothing noticed: {found}")
"""


def test_a_file_that_is_torn_is_noticed():
    root = Path(__file__).parent.parent
    done = subprocess.run(
        [sys.executable, "-c", BROKEN], cwd=root, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr

"""The stand from the command line: without dialogs, and a wrong set-up is a sentence."""

import os
import subprocess
import sys
import time

import pytest


def gloaming(tmp_path, *words, **more):
    around = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "HOME": str(tmp_path),
              "XDG_CONFIG_HOME": str(tmp_path / "config")}  # fmt: skip
    return subprocess.Popen(
        [sys.executable, "-m", "explorer", *words], env=around, stdout=subprocess.PIPE,
        stderr=subprocess.PIPE, text=True, **more,
    )  # fmt: skip


def test_a_wrong_set_up_is_a_sentence_and_no_crash(tmp_path):
    (tmp_path / "set-up.json").write_text('{"format": "gloaming-stand", "knobs": 3}')
    run = gloaming(tmp_path, "stand", str(tmp_path / "set-up.json"))
    _, said = run.communicate(timeout=120)
    assert run.returncode == 3
    assert "knobs is not a known key" in said
    assert "Traceback" not in said


@pytest.mark.skipif(sys.platform == "win32", reason="a process is killed by a signal")
def test_a_plain_start_after_a_crash_comes_back_as_a_stand(tmp_path):
    lock = tmp_path / "config" / "gloaming" / "stand.lock"
    for words in (("stand", "--once"), ()):
        run = gloaming(tmp_path, *words)
        try:
            patience = time.monotonic() + 120
            while time.monotonic() < patience:
                if lock.exists() and lock.read_text().startswith(f"{run.pid}\n"):
                    break
                assert run.poll() is None
                time.sleep(0.1)
            assert lock.read_text().startswith(f"{run.pid}\n")
        finally:
            run.kill()  # as a power cut would
            run.communicate()

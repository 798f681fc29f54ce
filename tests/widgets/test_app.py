import os
import subprocess
import sys

from explorer import app
from explorer.state.settings import SettingsStore


def test_without_a_display_linux_is_told_what_to_type():
    text = app.display_problem("linux", {})
    assert text is not None
    assert "gloaming check FILE" in text
    assert app.display_problem("linux", {"DISPLAY": ":0"}) is None
    assert app.display_problem("linux", {"WAYLAND_DISPLAY": "wayland-0"}) is None
    assert app.display_problem("linux", {"QT_QPA_PLATFORM": "offscreen"}) is None
    assert app.display_problem("win32", {}) is None
    assert app.display_problem("darwin", {}) is None


def test_a_missing_system_library_is_named_with_its_package():
    error = ImportError("libEGL.so.1: cannot open shared object file: No such file or directory")
    text = app.library_problem(error)
    assert "libEGL.so.1" in text
    assert "sudo apt install libegl1" in text
    assert "no_such_part" in app.library_problem(ImportError("No module named 'no_such_part'"))


def test_no_display_ends_the_program_with_a_sentence_and_without_a_traceback():
    code = "import sys; from explorer.app import run; sys.exit(run())"
    done = subprocess.run(
        [sys.executable, "-c", code],
        env={"PATH": "/usr/bin", "HOME": "/nonexistent"} if sys.platform == "linux" else None,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    if sys.platform != "linux":
        return
    assert done.returncode == 3
    assert "no display" in done.stderr
    assert "Traceback" not in done.stderr


def test_the_window_opens_the_file_that_was_asked_for(qtbot, qapp, tmp_path):
    from explorer.files.scenario_json import save_scenario
    from explorer.scenario.model import Scenario

    save_scenario(tmp_path / "fern.json", Scenario(title="Fern bench"))
    window = app.build_window(qapp, tmp_path / "settings.ini")
    # Held until it is closed: the collector would take it away from under its own timers.
    qtbot.addWidget(window, before_close_func=lambda _, held=window: None)
    app.open_first(window, tmp_path / "fern.json")
    assert window.document.scenario.title == "Fern bench"
    assert window.sign.word.text()
    assert SettingsStore(tmp_path / "settings.ini").settings.recent
    window.jobs.finish()


def started(home, *, then):
    """The real program with a home folder of its own; `then` is Python that runs with its loop."""
    code = (
        "import os, signal, sys\n"
        "from explorer import app\n"
        "from explorer.widgets.windows import Windows\n"
        "begun = Windows.offer_leftovers\n"
        "def then(self):\n"
        "    begun(self)\n"
        f"    {then}\n"
        "Windows.offer_leftovers = then\n"
        "sys.exit(app.run())\n"
    )
    return subprocess.run(
        [sys.executable, "-c", code],
        env={"PATH": "/usr/bin", "HOME": str(home), "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True, text=True, timeout=120, check=False,
    )


def test_ctrl_c_ends_the_window_and_keeps_what_is_unsaved(tmp_path):
    """It bears font and icon, and Python's collector of cycles runs between its events alone."""
    done = started(
        tmp_path,
        then="self.open[0].document.edit('panels.count', 7); import gc; print(gc.isenabled()); "
        "from PySide6.QtWidgets import QApplication as Q; from explorer.state import theme; "
        "print(Q.font() == theme.font('body'), Q.windowIcon().isNull()); "
        "os.kill(os.getpid(), signal.SIGINT)",
    )
    assert done.returncode == 130
    assert done.stdout == "False\nTrue False\n"
    assert "Traceback" not in done.stderr
    (kept,) = tmp_path.rglob("unsaved/*.json")
    assert '"count": 7' in kept.read_text(encoding="utf-8")


def test_no_home_and_no_right_to_write_prevent_no_start(tmp_path):
    """A file stands where the home folder should be, which stops root too."""
    home = tmp_path / "home"
    home.write_text("", encoding="utf-8")
    done = started(home, then="self.open[0].settings.update(tour_seen=True); "
                   "print(self.open[0].notice.text.text()); os.kill(os.getpid(), signal.SIGINT)")
    assert done.returncode == 130, done.stderr
    assert "The settings cannot be kept" in done.stdout
    assert "Traceback" not in done.stderr


def test_a_display_that_does_not_answer_ends_in_a_sentence():
    env = {k: v for k, v in os.environ.items() if k not in ("QT_QPA_PLATFORM", "WAYLAND_DISPLAY")}
    done = subprocess.run(
        [sys.executable, "-m", "explorer"],
        env={**env, "DISPLAY": ":77"}, capture_output=True, text=True, timeout=60, check=False,
    )
    assert done.returncode == 3
    assert "cannot reach the display :77" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_missing_cursor_library_is_named_with_its_package():
    from explorer.app import fatal_problem

    text = "From 6.5.0, xcb-cursor0 or libxcb-cursor0 is needed to load the Qt xcb platform plugin."
    assert "libxcb-cursor0" in fatal_problem(text, "")

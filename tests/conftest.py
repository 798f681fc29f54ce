"""What every test gets: a screenless Qt, patient property tests, and no window left behind.

Modules are compiled once and kept, and looked through for examples only where they have some: with
two workers and the processes that tests start, reading all of the code costs more than most tests.
A test that counts what the process holds gets a process of its own.
"""

import gc
import os
import subprocess
import sys
from collections import Counter
from contextlib import suppress
from pathlib import Path

import pytest
from _pytest.doctest import DoctestModule
from hypothesis import settings

from tests.depth import THOROUGH

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("PYQTGRAPH_QT_LIB", "PySide6")

sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

# A busy machine is no fault of the code, so no example has a deadline. The same examples come every
# time, so that a pass means one thing; GLOAMING_EXAMPLES_PROFILE=search draws others.
settings.register_profile(
    "gloaming", deadline=None, derandomize=True, max_examples=100 if THOROUGH else 30
)
settings.register_profile("search", deadline=None)
settings.load_profile(os.environ.get("GLOAMING_EXAMPLES_PROFILE", "gloaming"))
with suppress(ImportError, AttributeError):
    # Later versions also draw the constants of whatever modules happen to be loaded by then.
    from hypothesis.internal.conjecture import providers

    NO_CONSTANTS = providers.Constants()
    providers._get_local_constants = lambda: NO_CONSTANTS


DEAR = (
    "tests/test_architecture.py", "tests/test_packaging.py", "tests/test_corners.py",
    "tests/advice/test_bench_story.py", "tests/advice/test_bench_fit.py",
    "tests/advice/test_year_life.py", "tests/advice/test_year_edges.py",
    "tests/advice/test_builds.py", "tests/engine/test_seasons.py",
    "tests/engine/test_trace_generated.py", "tests/files/test_sweep_cluster.py",
    "tests/outside/test_bench_fit.py", "tests/stand/test_fairness.py", "tests/stand/test_soak.py",
    "tests/test_cli_stand.py", "tests/test_hard_times.py", "tests/widgets/test_app.py",
    "tests/widgets/test_autosave_crash.py", "tests/widgets/test_bench_story.py",
    "tests/widgets/test_every_field.py", "tests/widgets/test_frames.py",
    "tests/words/test_one_value.py", "tests/words/test_plain_answer.py",
)  # fmt: skip
"""Files of few tests that take long: begun last, one of them would run while all else has ended."""


BETWEEN_ROUNDS = 20_000
"""Allocations between two rounds of the collector."""
FULL_ROUND = 10
"""Every so many rounds it looks through all that there is."""


class DearFirst:
    """Deals out the dear files first, then those of many tests."""

    def pytest_configure(self, config):
        """Keep xdist from an order by the number of tests alone."""
        if hasattr(config.option, "loadscopereorder"):
            config.option.loadscopereorder = False

    def pytest_collection_modifyitems(self, items):
        """Whole files, in their new order."""
        files = [item.nodeid.partition("::")[0] for item in items]
        times = Counter(files)
        rank = {file: (file not in DEAR, -n, file) for file, n in times.items()}
        items.sort(key=lambda item: rank[item.nodeid.partition("::")[0]])


class OnlyWhereExamplesAre:
    """Gathers doctests from modules that have some, in all folders."""

    @pytest.hookimpl(wrapper=True)
    def pytest_collect_file(self, file_path):
        """Leave out a module whose docstrings show nothing."""
        found = yield
        if file_path.suffix == ".py" and b">>>" not in file_path.read_bytes():
            return [one for one in found if not isinstance(one, DoctestModule)]
        return found


class Collected:
    """Lets the collector of cycles run between tests alone, as the program does between events.

    Within a test it would take away windows of earlier ones while Qt undoes a connection, and the
    lock of the one would wait for that of the other, for ever. What is loaded by the time that the
    tests are gathered is there to stay: half a million objects were looked through again and again.
    """

    def __init__(self):
        self._count = 0

    @pytest.hookimpl(wrapper=True, tryfirst=True)
    def pytest_collection(self):
        """Gather without looking for garbage."""
        gc.disable()
        found = yield
        gc.freeze()
        return found

    @pytest.hookimpl(wrapper=True, tryfirst=True)
    def pytest_runtest_teardown(self):
        """Look for it once all of a test is gone, where there may be some."""
        gc.disable()  # a test may have had it on
        done = yield
        collector = sys.modules.get("explorer.state.collector")
        at_work = collector is not None and collector.COLLECTOR_PAUSE.is_held
        if gc.get_count()[0] > BETWEEN_ROUNDS and not at_work:
            self._count += 1
            gc.collect(2 if self._count % FULL_ROUND == 0 else 1)
        return done


class NothingForNobody:
    """Begins no work once the body of a test has ended.

    A window at rest asks for all that it shows beside the verdict, a stand for its next challenge.
    The events of a test's end would begin that, and the window would wait for it before it goes.
    """

    def __init__(self):
        self._ended = False
        self._taken = None

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtest_setup(self):
        """Work is taken again."""
        self._ended = False
        jobs = sys.modules.get("explorer.state.jobs")
        if jobs is None or jobs.JobRunner._take is self._taken:
            return
        take = jobs.JobRunner._take

        def taken(runner, task):
            if not self._ended:
                take(runner, task)

        self._taken = jobs.JobRunner._take = taken

    @pytest.hookimpl(wrapper=True)
    def pytest_pyfunc_call(self):
        """Take no more after the body."""
        try:
            return (yield)
        finally:
            self._ended = True


def pytest_configure(config):
    """Hooks of this file see the files below it alone, a plugin sees the others, too."""
    config.pluginmanager.register(OnlyWhereExamplesAre())
    config.pluginmanager.register(Collected())
    config.pluginmanager.register(NothingForNobody())
    config.pluginmanager.register(DearFirst())


@pytest.fixture(autouse=True)
def no_window_left_behind():
    """Fail a test that leaves a top-level widget behind; a slot that holds `self` keeps one."""
    yield
    widgets = sys.modules.get("PySide6.QtWidgets")
    app = widgets and widgets.QApplication.instance()
    if not app:
        return
    from PySide6.QtCore import QEvent

    delete = QEvent.Type.DeferredDelete.value
    app.sendPostedEvents(None, delete)
    left = widgets.QApplication.topLevelWidgets()
    names = [f"{type(widget).__name__} {widget.objectName()!r}" for widget in left]
    for widget in left:  # so that one test's leftovers do not fail the next
        widget.deleteLater()
    app.sendPostedEvents(None, delete)
    assert not names, f"windows left behind, perhaps by a lambda that holds one: {names}"


@pytest.fixture(autouse=True)
def no_button_held_down():
    """Fail a test that presses a mouse button and never lets go: all later ones would hold it."""
    yield
    gui = sys.modules.get("PySide6.QtWidgets")
    if gui and gui.QApplication.instance():
        held = gui.QApplication.mouseButtons()
        assert not held.value, f"still held down after the test: {held.name}"


_ALONE = "GLOAMING_TEST_ALONE"


@pytest.hookimpl(tryfirst=True)
def pytest_pyfunc_call(pyfuncitem):
    """Run a test marked `alone` in a fresh interpreter.

    It counts objects, references or collections of the whole process; what tests before it left
    behind, and when the collector comes to that, must not be counted with it.
    """
    if os.environ.get(_ALONE) or pyfuncitem.get_closest_marker("alone") is None:
        return None
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", pyfuncitem.nodeid]
    ran = subprocess.run(
        command, cwd=Path(__file__).parent.parent, capture_output=True, text=True, check=False,
        env={**os.environ, _ALONE: "yes"},
    )
    if ran.returncode:
        pytest.fail(ran.stdout + ran.stderr, pytrace=False)
    return True

"""Time from a key on a slider to the painted window, on an offscreen screen."""

from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QEventLoop, QObject, Qt, QTimer, Signal
from PySide6.QtTest import QSignalSpy, QTest

from explorer import app
from explorer.resource_files import scenario_folder
from tests.bench.conftest import opened

ROUNDS = 100
REST_MS = 25
"""Longer than a frame, so that no round waits for the pacer; shorter than the rest after which
break-evens begin."""
PATIENCE_MS = 30_000
"""Under exec the loop lets go of the interpreter, so that workers run on as in use."""


class Painted(QObject):
    """Tells of every paint of a widget."""

    happened = Signal()

    def eventFilter(self, _, event):
        if event.type() == QEvent.Type.Paint:
            self.happened.emit()
        return False


@pytest.fixture
def window(qtbot, qapp, tmp_path):
    result = app.build_window(qapp, tmp_path / "settings.ini")
    qtbot.addWidget(result)
    app.open_first(result, None)
    result.resize(1280, 720)
    result.show()
    QTest.qWait(400)
    yield result
    result.jobs.finish()


@pytest.mark.parametrize(
    ("name", "key", "rounds"),
    [
        ("soil_probe", "light", ROUNDS),
        ("soil_probe", "store", ROUNDS),
        ("watering_valve", "light", ROUNDS),
        ("seminar_room_co2", "light", 15),
    ],
)
def test_slider_to_painted_frame(benchmark, qapp, window, spread, name, key, rounds):
    """A key moves the knob; the clock stops when the plot with the new trace was painted."""
    scenario, _ = opened(name)
    window.document.open_example(scenario_folder() / f"{name}.json")
    # Until the break-evens are there, so that no worker shares the processor with the first moves.
    spy = QSignalSpy(window.solver.break_evens_ready)
    spy.wait(10_000)
    row = next(row for row in window.knobs.rows if row.knob.key == key)
    row.slider.setFocus()
    painted = Painted(window)
    window.trace.plot.viewport().installEventFilter(painted)
    turn = iter(range(10**9))

    def rest():
        QTest.qWait(REST_MS)

    def move():
        before, loop = window.solver.result, QEventLoop()
        patience = QTimer(singleShot=True)
        patience.timeout.connect(lambda: loop.exit(1))

        def look():
            # The design before is painted too, where a repaint was due.
            if window.solver.result is not before:
                loop.exit(0)

        watching = painted.happened.connect(look)
        patience.start(PATIENCE_MS)
        # Back and forth around the design, as a hand does.
        forward = next(turn) % 8 < 4
        QTest.keyClick(row.slider, Qt.Key.Key_Right if forward else Qt.Key.Key_Left)
        ended = loop.exec()
        painted.disconnect(watching)
        assert ended == 0, "nothing was painted"

    benchmark.pedantic(move, setup=rest, rounds=rounds, iterations=1)
    spread(f"{key} slider to painted week, {name}", "16.7 ms at 95 %")
    assert window.solver.result.scenario.title == scenario.title


def test_memory_of_a_long_drag(benchmark, qapp, window, tell):
    """Resident memory before and after some hundreds of painted moves."""
    row = window.knobs.rows[0]
    status = Path("/proc/self/statm")
    if not status.exists():
        pytest.skip("resident memory is read from /proc")

    def drag():
        for turn in range(200):
            key = Qt.Key.Key_Right if turn % 8 < 4 else Qt.Key.Key_Left
            QTest.keyClick(row.slider, key)
            QTest.qWait(17)

    drag()  # fills the caches that stay
    before = resident_mb(status)
    benchmark.pedantic(drag, rounds=1, iterations=1)
    tell(
        f"memory: window {resident_mb(status):.0f} MB resident, "
        f"{resident_mb(status) - before:+.1f} MB in 200 painted moves"
    )


def resident_mb(status):
    return int(status.read_text().split()[1]) * 4096 / 1e6

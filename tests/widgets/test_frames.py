"""Never two designs on one screen: what every painted frame of a drag shows."""

import itertools

import pytest
from PySide6.QtCore import QEvent, QEventLoop, QObject, Qt, QTimer

from explorer.resource_files import scenario_folder
from explorer.state import solver as solver_module
from explorer.state.language import tr
from explorer.words import readout
from explorer.words.answer_groups import answer_lines
from tests.depth import THOROUGH
from tests.waiting import confirmed

EDITS = 120 if THOROUGH else 60
pytestmark = pytest.mark.usefixtures("asked_at_rest")
HAND_MS = 3
"""Between two edits: most frames follow one, some follow several."""


class Frames(QObject):
    """Looks at every part of a window whenever any of them is painted."""

    def __init__(self, window):
        super().__init__(window)
        self.window, self.document, self.solver = window, window.document, window.solver
        self.looked, self.faults, self.answers_of = 0, [], None
        self.break_evens = {}
        self.on_break_evens(window.knobs._found)
        self.solver.break_evens_ready.connect(self.on_break_evens)
        parts = [window.sign.word, window.trace.plot.viewport(), window.trace.answers]
        for part in (*parts, *(row.slider for row in window.knobs.rows)):
            part.installEventFilter(self)

    def on_break_evens(self, found):
        self.break_evens.update({path: (self.document.scenario, e) for path, e in found.items()})

    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Paint:
            self.looked += 1
            for fault in self.look():
                self.faults.append((self.looked, fault))
        return False

    def look(self):
        """Names of the parts that show another design than the document holds."""
        window, scenario = self.window, self.document.scenario
        for row in window.knobs.rows:
            if row.slider._exact != pytest.approx(self.document.get(row.knob.path)):
                yield row.knob.key
            told = self.break_evens.get(row.knob.path)
            if told is not None and not row.sentence.is_pending:
                others = {k: v for k, v in flat(told[0]).items() if k != row.knob.path}
                if {k: v for k, v in flat(scenario).items() if k != row.knob.path} != others:
                    yield f"break-even of {row.knob.key}"
        found = self.solver.result
        if window.sign.veil.isHidden():
            if window.sign.caption.text() != tr(readout.sign(found).caption):
                yield "sign"
            if found.scenario != scenario or found is not window.trace.plot._assessment:
                yield "trace"
        told = {tr(a.key): tr(a.value) for a in answer_lines(found)}
        rows = [row for row in window.trace.answers.rows if row.isVisible()]
        if any(
            tr(row.answer.value) != told.get(row.answer.key)
            for row in rows if not row.number.is_pending
        ):
            yield "answers"
        drawer = window.drawers._built.get(window.drawers.open_key)
        if drawer is not None and drawer.veil.isHidden() and not drawer.feed.is_current:
            yield "drawer"
        if not window.remedies.feed.is_current and any(
            button.isVisible() for button in window.remedies.buttons
        ):
            yield "remedies"


def flat(scenario, at=""):
    """Values of a scenario by path."""
    found = {}

    def walk(value, path):
        if isinstance(value, dict):
            for key, inner in value.items():
                walk(inner, f"{path}.{key}" if path else str(key))
        elif isinstance(value, (list, tuple)):
            walk(dict(enumerate(value)), path)
        else:
            found[path] = value

    walk(scenario.model_dump(), at)
    return found


def drag(window, edits):
    """Move one knob after the other to and fro, as a hand does, under a running loop."""
    loop, timer = QEventLoop(), QTimer()
    rows = itertools.cycle(window.knobs.rows)
    state = {"row": next(rows), "left": edits, "way": 1}

    def step():
        row = state["row"]
        if state["left"] % 30 == 0:
            state["row"] = row = next(rows)
            row.slider.gesture_started.emit()
        if state["left"] % 7 == 0:
            state["way"] = -state["way"]
        row.slider.picked.emit(row.knob.step(row._value, state["way"]))
        state["left"] -= 1
        if state["left"] <= 0:
            timer.stop()
            loop.quit()

    timer.setTimerType(Qt.TimerType.PreciseTimer)
    timer.timeout.connect(step)
    timer.start(HAND_MS)
    loop.exec()


def pending_answers(window):
    """Rows on show whose value is still to come; a drawer beside them leaves fewer."""
    rows = window.trace.answers.rows
    return [row for row in rows if not row.isHidden() and row.number.is_pending]


@pytest.fixture
def at_rest(qtbot, window):
    """A window of which every part has its answer."""
    with qtbot.waitSignal(
        window.solver.break_evens_ready, timeout=60_000, check_params_cb=confirmed
    ):
        window.document.open_example(scenario_folder() / "door_counter.json")
    window.drawers.open("budget")
    qtbot.waitUntil(lambda: window.drawers.drawer("budget").has_body)
    qtbot.waitUntil(lambda: not pending_answers(window), timeout=60_000)
    return window


def test_no_painted_frame_holds_two_designs(qtbot, at_rest):
    frames = Frames(at_rest)
    drag(at_rest, EDITS)
    assert frames.faults == []
    assert frames.looked > EDITS / 4
    qtbot.waitUntil(lambda: not pending_answers(at_rest), timeout=60_000)
    assert frames.faults == []


def test_a_design_that_takes_long_is_pending_until_it_is_there(qtbot, at_rest, monkeypatch):
    """Trace and sign then follow later than the knob, muted meanwhile."""
    monkeypatch.setattr(solver_module, "SLOW_S", 0.0)
    frames = Frames(at_rest)
    seen = []
    at_rest.solver.pending_changed.connect(seen.append)
    drag(at_rest, 20)
    qtbot.waitUntil(lambda: at_rest.solver.result.scenario == at_rest.document.scenario)
    assert True in seen
    assert at_rest.sign.veil.isHidden()
    assert frames.faults == []

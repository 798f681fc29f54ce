import threading
import time

import pytest

from explorer.scenario.model import Scenario, with_value
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.jobs import JobRunner
from explorer.state.settings import SettingsStore


@pytest.fixture
def document(qapp):
    return Document(Scenario())


@pytest.fixture
def jobs(qapp):
    runner = JobRunner()
    yield runner
    runner.finish()


class Heard:
    """Everything that a feed says, in order."""

    def __init__(self, feed):
        self.steps, self.finished, self.outdated, self.failed = [], 0, 0, []
        feed.arrived.connect(self.on_step)
        feed.finished.connect(self.on_finished)
        feed.outdated.connect(self.on_outdated)
        feed.failed.connect(self.failed.append)

    def on_step(self, step):
        self.steps.append(step)

    def on_finished(self):
        self.finished += 1

    def on_outdated(self):
        self.outdated += 1


def two_steps(case, stopped):
    yield case.scenario.panels.count
    yield case.scenario.panels.count * 10


def test_a_closed_feed_computes_nothing(qtbot, document, jobs):
    asked = []

    def steps(case, stopped):
        asked.append(case.scenario)
        yield 1

    feed = Feed("question", document, jobs, steps, rest_ms=1)
    document.edit("panels.count", 3)
    qtbot.wait(40)
    assert asked == []
    assert not feed.is_current


def test_steps_arrive_one_after_the_other(qtbot, document, jobs):
    feed = Feed("question", document, jobs, two_steps, rest_ms=1)
    heard = Heard(feed)
    with qtbot.waitSignal(feed.finished, timeout=5000):
        feed.set_open(True)
    assert heard.steps == [1, 10]
    assert feed.is_current


def test_opening_again_without_a_change_asks_nothing(qtbot, document, jobs):
    feed = Feed("question", document, jobs, two_steps, rest_ms=1)
    heard = Heard(feed)
    with qtbot.waitSignal(feed.finished, timeout=5000):
        feed.set_open(True)
    feed.set_open(False)
    feed.set_open(True)
    qtbot.wait(40)
    assert heard.steps == [1, 10]


def test_a_change_while_closed_is_answered_on_opening(qtbot, document, jobs):
    feed = Feed("question", document, jobs, two_steps, rest_ms=1)
    heard = Heard(feed)
    with qtbot.waitSignal(feed.finished, timeout=5000):
        feed.set_open(True)
    feed.set_open(False)
    document.edit("panels.count", 4)
    with qtbot.waitSignal(feed.finished, timeout=5000):
        feed.set_open(True)
    assert heard.steps == [1, 10, 4, 40]
    assert heard.outdated >= 1


def test_what_was_found_for_an_earlier_scenario_never_arrives(qtbot, document, jobs):
    entered, go = threading.Event(), threading.Event()

    def slow(case, stopped):
        entered.set()
        go.wait(5)
        yield case.scenario.panels.count
        yield "more" if not stopped() else "too much"

    feed = Feed("question", document, jobs, slow, rest_ms=1)
    heard = Heard(feed)
    feed.set_open(True)
    qtbot.waitUntil(entered.is_set, timeout=5000)
    document.edit("panels.count", 7)
    go.set()
    qtbot.waitUntil(lambda: heard.finished == 1, timeout=5000)
    assert heard.steps == [7, "more"]


def test_a_change_tells_the_work_to_stop(qtbot, document, jobs):
    entered, seen = threading.Event(), []

    def endless(case, stopped):
        entered.set()
        while not stopped():
            threading.Event().wait(0.001)
        seen.append(case.scenario.panels.count)
        return
        yield

    feed = Feed("question", document, jobs, endless, rest_ms=1)
    feed.set_open(True)
    qtbot.waitUntil(entered.is_set, timeout=5000)
    document.edit("panels.count", 2)
    qtbot.waitUntil(lambda: 1 in seen, timeout=5000)
    feed.set_open(False)
    qtbot.waitUntil(lambda: not jobs.busy("question"), timeout=5000)


def test_during_a_drag_nothing_is_asked(qtbot, document, jobs):
    asked = []

    def steps(case, stopped):
        asked.append(case.scenario.panels.count)
        yield 1

    feed = Feed("question", document, jobs, steps, rest_ms=150)
    with qtbot.waitSignal(feed.finished, timeout=5000):
        feed.set_open(True)
    for count in range(2, 12):
        document.edit("panels.count", count)
        qtbot.wait(5)
    assert asked == [1]
    with qtbot.waitSignal(feed.finished, timeout=5000):
        pass
    assert asked == [1, 11]


def test_an_answer_that_still_holds_is_kept(qtbot, document, jobs):
    def same(one, other):
        return with_value(one, "panels.count", other.panels.count) == other

    feed = Feed("question", document, jobs, two_steps, same=same, rest_ms=1)
    heard = Heard(feed)
    with qtbot.waitSignal(feed.finished, timeout=5000):
        feed.set_open(True)
    document.edit("panels.count", 5)
    qtbot.wait(40)
    assert heard.steps == [1, 10]
    assert feed.is_current
    with qtbot.waitSignal(feed.finished, timeout=5000):
        document.edit("load.sleep_A", 5e-6)
    assert heard.steps == [1, 10, 5, 50]


def test_another_question_replaces_the_one_that_runs(qtbot, document, jobs):
    feed = Feed("question", document, jobs, two_steps, rest_ms=1)
    heard = Heard(feed)
    feed.set_open(True)
    feed.set_steps(lambda case, stopped: iter(["other"]))
    qtbot.waitUntil(lambda: heard.finished == 1, timeout=5000)
    assert heard.steps == ["other"]


def test_a_fault_becomes_a_sentence(qtbot, document, jobs, caplog):
    def broken(case, stopped):
        raise ValueError("the light is negative")
        yield

    feed = Feed("question", document, jobs, broken, rest_ms=1)
    heard = Heard(feed)
    with qtbot.waitSignal(feed.failed, timeout=5000):
        feed.set_open(True)
    assert heard.failed == ["This could not be computed: the light is negative"]
    assert heard.finished == 0


def test_two_values_move_together_as_one_undo_step(document):
    document.begin_gesture()
    for lux, count in ((310.0, 2), (330.0, 3), (350.0, 4)):
        values = {"light.illuminance_lx": lux, "panels.count": count}
        assert document.edit_together(values, "move on the map")
    assert document.undo_stack.count() == 1
    assert document.scenario.panels.count == 4
    document.undo_stack.undo()
    assert document.scenario == Scenario()


def test_values_that_do_not_go_together_change_nothing(document):
    heard = []
    document.refused.connect(heard.append)
    assert not document.edit_together({"panels.count": 2, "light.illuminance_lx": -5.0}, "move")
    assert document.scenario == Scenario()
    assert len(heard) == 1


def test_the_open_drawer_is_remembered(tmp_path):
    SettingsStore(tmp_path / "s.ini").update(drawer="spread")
    assert SettingsStore(tmp_path / "s.ini").settings.drawer == "spread"


def test_a_feed_may_wait_for_the_knobs_to_rest_before_it_begins(qtbot, document, jobs):
    """A drag that crosses an edge opens and closes it many times over."""
    asked = []

    def steps(case, stopped):
        asked.append(case.scenario.panels.count)
        return two_steps(case, stopped)

    feed = Feed("question", document, jobs, steps, rest_ms=60)
    for count in range(2, 8):
        feed.set_open(True, at_once=False)
        document.edit("panels.count", count)
        feed.set_open(False)
    assert asked == []
    with qtbot.waitSignal(feed.finished, timeout=5000):
        feed.set_open(True, at_once=False)
    assert asked == [7]


def test_work_on_an_answer_that_still_holds_waits_while_the_document_moves(
    qtbot, document, jobs
):
    """A drag over the map keeps the map, and has the interpreter for itself."""
    may_begin, parts = threading.Event(), []

    def steps(case, stopped):
        may_begin.wait(5.0)
        for part in range(3):
            if stopped():
                return
            parts.append((part, time.monotonic()))
            yield part

    feed = Feed("question", document, jobs, steps, rest_ms=150, same=lambda *_: True)
    feed.set_open(True)
    qtbot.waitUntil(lambda: jobs.busy("question"))
    document.edit("panels.count", 3)
    moved = time.monotonic()
    may_begin.set()
    qtbot.waitUntil(lambda: len(parts) == 3, timeout=5000)
    assert parts[0][1] - moved >= 0.1

"""Python's collector of cycles never runs in a worker, where it would destroy parts of windows."""

import gc
import threading

import pytest
from PySide6.QtCore import QEvent

from explorer.loaded import MIDDLE, OLD
from explorer.state.collector import CollectorPause, CollectorRounds, Holds
from explorer.state.jobs import JobRunner


@pytest.fixture(autouse=True)
def a_pause_of_its_own(monkeypatch):
    """Runners of earlier tests may still hold the program's pause; those of these tests do not."""
    was_on = gc.isenabled()
    gc.enable()
    monkeypatch.setattr(Holds.__init__, "__defaults__", (CollectorPause(),))
    yield
    if not was_on:
        gc.disable()


def test_the_collector_rests_while_a_job_runs_and_goes_on_afterwards(qtbot, qapp):
    jobs = JobRunner()
    with qtbot.waitSignal(jobs.done) as finished:
        jobs.submit("look", gc.isenabled)
    assert finished.args == ["look", False]
    jobs.finish()
    assert gc.isenabled()


def test_a_cycle_made_in_a_worker_is_not_collected_there(qtbot, qapp):
    """However much the worker allocates."""
    collected_in = []

    class Part:
        def __del__(self):
            collected_in.append(threading.get_ident())

    def work():
        part = Part()
        part.itself = part
        del part
        return len([[] for _ in range(100_000)])

    jobs = JobRunner()
    with qtbot.waitSignal(jobs.done):
        jobs.submit("litter", work)
    litter = [[] for _ in range(100_000)]
    assert litter
    assert collected_in in ([], [threading.get_ident()])


def test_jobs_that_follow_each_other_leave_no_gap_in_which_a_worker_collects(qtbot, qapp):
    """Several keys wait for one thread, and what they return is kept, as windows do."""
    ran_in = set()

    def note(phase, _):
        if phase == "start":
            ran_in.add(threading.get_ident())

    jobs, kept = JobRunner(), []

    def keep(_, result):
        kept.append(result)
        cycle = []
        cycle.append(cycle)

    jobs.done.connect(keep)
    gc.callbacks.append(note)
    try:
        for number in range(40):
            for key in ("light", "panels", "store", "pulse"):
                jobs.submit(key, lambda: [[] for _ in range(1500)])
            qtbot.waitUntil(lambda wanted=4 * (number + 1): len(kept) == wanted, timeout=20_000)
    finally:
        gc.callbacks.remove(note)
    jobs.finish()
    assert ran_in == {threading.get_ident()}


def test_a_runner_that_goes_before_its_results_leaves_the_collector_on(qapp):
    jobs = JobRunner()
    jobs.submit("sum", lambda: 1)
    assert not gc.isenabled()
    jobs.deleteLater()
    qapp.sendPostedEvents(jobs, QEvent.Type.DeferredDelete.value)
    assert gc.isenabled()


def test_a_runner_that_has_finished_holds_nothing_though_no_event_ran(qapp):
    jobs = JobRunner()
    jobs.submit("sum", lambda: 1)
    jobs.finish()
    assert gc.isenabled()
    assert jobs.is_idle


def test_the_collector_wakes_only_after_the_last_of_several_workers():
    pause = CollectorPause()
    pause.take()
    pause.take()
    pause.release()
    assert not gc.isenabled()
    pause.release()
    assert gc.isenabled()


def test_a_collector_that_was_off_stays_off():
    pause = CollectorPause()
    gc.disable()
    try:
        pause.take()
        pause.release()
        assert not gc.isenabled()
    finally:
        gc.enable()


def test_between_events_what_is_left_behind_goes_and_nowhere_else(qtbot, qapp):
    """However much is allocated in an event, the collector does not run within it."""
    gone = []

    class Part:
        def __del__(self):
            gone.append(True)

    rounds = CollectorRounds(young=10_000, pause=CollectorPause())
    try:
        part = Part()
        part.itself = part
        del part
        litter = [[] for _ in range(100_000)]
        assert litter
        assert not gone
        qtbot.waitUntil(lambda: bool(gone))
    finally:
        rounds.end()
    assert gc.isenabled()


def rounds_made(rounds, times, littering):
    """Which generations so many looks went through."""
    made, kept = [], []

    def note(phase, about):
        if phase == "stop":
            made.append(about["generation"])

    gc.callbacks.append(note)
    try:
        for _ in range(times):
            kept.append([[] for _ in range(littering)])
            rounds.look()
    finally:
        gc.callbacks.remove(note)
    return made


def test_where_little_was_allocated_or_a_worker_runs_no_round_is_made(qapp):
    """For a worker a window that is taken away would wait."""
    pause = CollectorPause()
    rounds = CollectorRounds(young=10_000, pause=pause)
    try:
        gc.collect()
        assert rounds_made(rounds, 5, 10) == []
        pause.take()
        assert rounds_made(rounds, 1, 20_000) == []
        pause.release()
        assert rounds_made(rounds, 1, 0) == []  # what was allocated is gone again
    finally:
        rounds.end()


def test_all_is_looked_through_where_nothing_happens_and_at_last_where_something_does(qapp):
    rounds = CollectorRounds(young=10_000, pause=CollectorPause())
    try:
        gc.collect()
        assert rounds_made(rounds, OLD, 20_000) == [0] * (OLD - 1) + [1]
        assert rounds_made(rounds, 1, 10) == [2]
        assert rounds_made(rounds, 1, 10) == []
        busy = rounds_made(rounds, 2 * MIDDLE * OLD, 20_000)
        assert busy.count(2) == 1
        assert busy[-1] == 2
    finally:
        rounds.end()

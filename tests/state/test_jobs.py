import threading

import pytest
from PySide6.QtCore import QThread

from explorer.engine.course import Interrupted, asked_to_stop
from explorer.state.jobs import JobRunner


@pytest.fixture
def jobs(qapp):
    runner = JobRunner()
    yield runner
    runner.finish()


def test_a_result_comes_back_on_the_interface_thread(qtbot, jobs, qapp):
    seen = {}
    jobs.done.connect(lambda key, result: seen.update({key: (result, QThread.currentThread())}))
    with qtbot.waitSignal(jobs.done):
        jobs.submit("sum", lambda: (2 + 2, threading.get_ident()))
    (total, worker), shown_on = seen["sum"]
    assert total == 4
    assert worker != threading.get_ident()
    assert shown_on is qapp.thread()


def test_the_newest_wins_and_the_ones_between_never_run(qtbot, jobs):
    gate, ran, shown = threading.Event(), [], []
    jobs.done.connect(lambda _, result: shown.append(result))

    def first():
        gate.wait(10)
        ran.append(1)
        return 1

    def later(number):
        def work():
            ran.append(number)
            return number

        return work

    jobs.submit("map", first)
    for number in (2, 3, 4):
        jobs.submit("map", later(number))
    assert jobs.busy("map")
    gate.set()
    qtbot.waitUntil(lambda: shown == [4])
    assert ran == [1, 4]


def test_jobs_of_different_keys_do_not_replace_each_other(qtbot, jobs):
    shown = {}
    jobs.done.connect(lambda key, result: shown.update({key: result}))
    jobs.submit("a", lambda: 1)
    jobs.submit("b", lambda: 2)
    qtbot.waitUntil(lambda: shown == {"a": 1, "b": 2})


def test_a_cancelled_job_is_not_shown(qtbot, jobs):
    gate, shown = threading.Event(), []
    jobs.done.connect(lambda key, _: shown.append(key))
    jobs.submit("map", lambda: gate.wait(10))
    jobs.cancel("map")
    gate.set()
    with qtbot.waitSignal(jobs.done):
        jobs.submit("other", lambda: None)
    qtbot.waitUntil(lambda: not jobs.busy("map"))
    assert shown == ["other"]


def test_a_fault_in_a_job_is_told_and_not_raised(qtbot, jobs):
    def work():
        raise ValueError("the store has no room")

    with qtbot.waitSignal(jobs.failed) as heard:
        jobs.submit("map", work)
    assert heard.args == ["map", "the store has no room"]


def test_finish_waits_for_what_runs(qapp):
    runner, ended = JobRunner(), []
    gate = threading.Event()

    def work():
        gate.wait(10)
        ended.append(1)

    runner.submit("map", work)
    gate.set()
    runner.finish()
    assert ended == [1]


def test_a_retired_runner_takes_no_more_work(qtbot):
    runner = JobRunner()
    started = []
    runner.started.connect(started.append)
    runner.retire()
    runner.submit("late", lambda: 1)
    runner.finish()
    assert started == []
    assert runner.is_idle


@pytest.mark.parametrize("to_the_end", [False, True])
def test_a_march_is_given_up_where_its_window_closes_and_a_file_is_written(
    qapp, caplog, to_the_end
):
    begun, may_go_on, ended = threading.Event(), threading.Event(), []

    def march():
        stopped = asked_to_stop()
        begun.set()
        may_go_on.wait(20)
        if stopped is not None and stopped():
            ended.append("given up")
            raise Interrupted
        ended.append("done")

    runner = JobRunner()
    runner.submit("trace", march, to_the_end=to_the_end)
    assert begun.wait(20)
    runner.drop()
    may_go_on.set()
    runner.finish()
    assert ended == ["done" if to_the_end else "given up"]
    assert not caplog.records

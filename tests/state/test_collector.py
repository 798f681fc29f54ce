"""Python's collector of cycles never runs in a worker, where it would destroy parts of windows."""

import gc
import threading

from explorer.state.collector import CollectorPause
from explorer.state.jobs import JobRunner


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
    jobs.finish()
    litter = [[] for _ in range(100_000)]
    assert litter
    assert collected_in in ([], [threading.get_ident()])


def test_the_collector_wakes_only_after_the_last_of_several_workers():
    pause = CollectorPause()
    with pause:
        with pause:
            assert not gc.isenabled()
        assert not gc.isenabled()
    assert gc.isenabled()


def test_a_collector_that_was_off_stays_off():
    gc.disable()
    try:
        with CollectorPause():
            pass
        assert not gc.isenabled()
    finally:
        gc.enable()

"""Worker processes on real questions: the same answers as threads, and none is left behind."""

import os
import pickle
import subprocess
import sys
from functools import partial

import pytest
from PySide6.QtCore import QEvent, QEventLoop, QTimer

from explorer.advice.case import Case
from explorer.advice.spread import default_tolerances
from explorer.advice.territory import axis_choices
from explorer.scenario.model import Scenario
from explorer.state.at_rest import at_rest_steps
from explorer.state.document import Document
from explorer.state.drawer_steps import (
    budget_steps,
    contest_steps,
    panel_steps,
    remedy_steps,
    row_steps,
    spread_steps,
    territory_steps,
)
from explorer.state.jobs import JobRunner
from explorer.state.solver import Solver
from explorer.state.workers import Workers
from explorer.text import rendered
from tests.state.light_questions import ends_its_process, sentence, until_stopped, where
from tests.waiting import confirmed

PATIENT_MS = 60_000


@pytest.fixture(scope="module")
def workers(qapp):
    """One process for all tests that leave it alive."""
    made = Workers(most=1)
    yield made
    made.close()


@pytest.fixture
def mortal(qapp):
    """Workers of which one will end before its time, and who asks them."""
    made = Workers(most=1)
    runner = JobRunner(workers=made)
    yield made, runner
    runner.finish()
    made.close()


@pytest.fixture
def jobs(workers):
    runner = JobRunner(workers=workers)
    yield runner
    runner.finish()


def runs(process_id):
    """Whether a process lives; one that ended and was waited for does not."""
    try:
        os.kill(process_id, 0)
    except ProcessLookupError:
        return False
    return True


def answered(qtbot, jobs, key, question):
    """All steps of an answer."""
    steps = []
    heard = jobs.arrived.connect(lambda told, step: steps.append(step) if told == key else None)
    with qtbot.waitSignal(
        jobs.done, timeout=PATIENT_MS, check_params_cb=lambda told, _: told == key
    ):
        jobs.ask(key, question)
    jobs.arrived.disconnect(heard)
    return steps


def test_a_question_is_answered_in_a_process_that_is_kept(qtbot, jobs, workers):
    first, second = (answered(qtbot, jobs, "where", where) for _ in range(2))
    assert first == second == workers.process_ids
    assert first != [os.getpid()]


def test_break_evens_are_the_same_from_a_process_as_from_a_thread(qtbot, jobs, qapp):
    question = partial(at_rest_steps, 0, "", Case(Scenario()))
    threads = JobRunner()
    here = answered(qtbot, threads, "break_evens", question)
    there = answered(qtbot, jobs, "break_evens", question)
    threads.finish()
    assert here[-1].break_evens
    assert there == here


def test_every_question_of_the_window_can_leave_its_process(tmp_path):
    case = Case(Scenario())
    axes = axis_choices(case)
    tolerances = default_tolerances(case.scenario)
    for steps in (
        partial(at_rest_steps, 0, ""), partial(remedy_steps, tmp_path, None), budget_steps,
        panel_steps,
        partial(contest_steps, tmp_path, None),
        partial(territory_steps, axes[0], axes[2]), partial(row_steps, axes[0]),
        partial(spread_steps, tolerances, 10.0),
    ):
        question = pickle.loads(pickle.dumps(partial(steps, case)))
        first = next(question(lambda: False))
        assert type(pickle.loads(pickle.dumps(first))) is type(first)


def test_a_text_from_a_process_can_still_be_translated(qtbot, jobs):
    (found,) = answered(qtbot, jobs, "text", sentence)
    words = {"lasts {time}": "hält {time}", "3 d": "3 Tage"}
    assert found == "lasts 3 d"
    assert rendered(found, lambda text, _: words[text], ",") == "hält 3 Tage"


def test_the_newest_question_stops_the_one_before_it(qtbot, jobs):
    shown = []
    jobs.arrived.connect(lambda _, step: shown.append(step))
    jobs.ask("map", until_stopped)
    qtbot.waitUntil(lambda: shown == ["begun"], timeout=PATIENT_MS)
    with qtbot.waitSignal(jobs.done, timeout=PATIENT_MS):
        jobs.ask("map", where)
    assert shown[0] == "begun"
    assert "went on" not in shown
    assert len(shown) == 2


def test_after_a_crash_the_answer_comes_all_the_same(qtbot, mortal):
    workers, jobs = mortal
    before = answered(qtbot, jobs, "where", where)
    crash = partial(ends_its_process, os.getpid())
    assert answered(qtbot, jobs, "crash", crash) == [os.getpid()]
    after = answered(qtbot, jobs, "where", where)
    assert after not in (before, [os.getpid()])
    assert after == workers.process_ids


def test_a_machine_that_starts_no_process_answers_in_threads(qtbot, qapp, tmp_path):
    workers = Workers(program=str(tmp_path / "no such program"))
    jobs = JobRunner(workers=workers)
    assert answered(qtbot, jobs, "where", where) == [os.getpid()]
    assert answered(qtbot, jobs, "again", where) == [os.getpid()]
    jobs.finish()
    workers.close()


def test_what_cannot_leave_the_process_is_answered_in_a_thread(qtbot, jobs):
    assert answered(qtbot, jobs, "here", lambda hold: iter([os.getpid()])) == [os.getpid()]


def test_a_closed_window_leaves_no_process(qtbot, mortal):
    workers, jobs = mortal
    jobs.ask("long", until_stopped)
    with qtbot.waitSignal(jobs.arrived, timeout=PATIENT_MS):
        pass
    (process_id,) = workers.process_ids
    assert process_id != os.getpid()
    assert runs(process_id)
    workers.close()
    assert not runs(process_id)


def test_workers_that_went_home_come_back_for_the_next_question(qtbot, mortal):
    workers, jobs = mortal
    (first,) = answered(qtbot, jobs, "where", where)
    workers.go_home()
    assert not runs(first)
    (second,) = answered(qtbot, jobs, "where", where)
    assert second not in (first, os.getpid())


def test_workers_that_are_thrown_away_leave_no_process(qtbot, qapp):
    """Nor a warning of Qt about one that still runs, which would fail this test."""
    workers = Workers(most=1)
    jobs = JobRunner(workers=workers)
    (process_id,) = answered(qtbot, jobs, "where", where)
    jobs.finish()
    workers.deleteLater()
    qapp.sendPostedEvents(workers, QEvent.Type.DeferredDelete.value)
    assert not runs(process_id)


def test_a_killed_program_leaves_no_process():
    """The worker's input ends with the program, and so does the worker."""
    worker = subprocess.Popen(
        [sys.executable, "-m", "explorer", "worker"],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE,
    )
    assert worker.stdout.read(8)  # it is ready
    worker.stdin.close()
    assert worker.wait(30) == 0
    worker.stdout.close()


def test_a_search_is_stopped_while_a_hand_moves_and_asked_anew_when_it_rests(qtbot, jobs, workers):
    """The worker has nothing to do during a drag."""
    document = Document(Scenario())
    solver = Solver(document, jobs)
    document.edit("panels.count", 2)
    qtbot.waitUntil(lambda: jobs.busy("break_evens"), timeout=PATIENT_MS)
    loop, timer, left = QEventLoop(), QTimer(), [12]

    def hand():
        document.edit("panels.count", 3 + left[0] % 2)
        assert not jobs.busy("break_evens")
        left[0] -= 1
        if not left[0]:
            loop.quit()

    timer.timeout.connect(hand)
    timer.start(16)
    loop.exec()
    timer.stop()
    with qtbot.waitSignal(
        solver.break_evens_ready, timeout=PATIENT_MS, check_params_cb=confirmed
    ):
        pass
    assert document.scenario.panels.count == 4

"""One answer for equal questions, for files of tests that look at the same few again and again."""

from contextlib import contextmanager
from functools import partial
from pathlib import Path

import pytest

from explorer.advice.case import Case
from explorer.state import drawer_steps
from explorer.state.jobs import JobRunner


@contextmanager
def answered_once():
    """A stretch in which a question that was answered to its end is not worked out again.

    Its steps come as they came before, from a job as ever. Questions are the same where function,
    design and all else that they are asked with are; of a folder, what lies in it. Nothing for
    tests that replace what computes in one test and not in another.
    """
    kept: dict[object, list[object]] = {}
    ask = JobRunner.ask

    def asked(jobs, key, question):
        ask(jobs, key, partial(answered, question))

    def answered(question, hold):
        try:
            name = question.func, drawer_steps.MANY, *(_named(part) for part in question.args)
            known = kept.get(name)
        except (AttributeError, TypeError):
            yield from question(hold)
            return
        if known is not None:
            yield from known
            return
        steps = []
        for step in question(hold):
            steps.append(step)
            yield step
        if not hold.stop.is_set():
            kept[name] = steps

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(JobRunner, "ask", asked)
        yield


def _named(part):
    """What stands for a part of a question: equal ones mean the same."""
    if isinstance(part, Case):
        return part.scenario, part.log, part.weather
    if isinstance(part, Path):
        return tuple(sorted((p.name, p.read_bytes()) for p in part.glob("*")))
    return part


@pytest.fixture(scope="module")
def answers_are_shared(qapp):
    """For every test of the file that wants it."""
    with answered_once():
        yield

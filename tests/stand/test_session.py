import gc
from collections import Counter

import pytest
from PySide6.QtGui import QUndoCommand

from explorer.stand.session import StandSession
from explorer.stand.stand_document import StandDocument
from explorer.state.jobs import JobRunner
from explorer.state.solver import Solver


@pytest.fixture
def session(qapp, plan, exhibits, parked):
    document, jobs = StandDocument(), JobRunner()
    solver = Solver(document, jobs)
    result = StandSession(plan, exhibits, document, solver, parked)
    result.keep = (document, solver, jobs)
    result.start()
    result._timer.stop()
    yield result
    jobs.finish()


def ticks(session, seconds):
    for _ in range(seconds):
        session.tick()


def change(session, lux=77.0):
    session.keep[0].edit("light.illuminance_lx", lux)


def test_the_loop_shows_one_scenario_after_the_other(session, plan):
    shown = [session.index]
    session.exhibit_changed.connect(shown.append)
    ticks(session, 3 * plan.cycle_s)
    assert shown == [0, 1, 0, 1]
    assert session.stage == "attract"


def test_nothing_times_out_while_nobody_is_there(session, plan):
    stages = []
    session.stage_changed.connect(stages.append)
    ticks(session, 20 * (plan.idle_s + plan.warning_s))
    assert stages == []


def test_a_paused_loop_stays_until_it_is_let_go(session, plan):
    session.set_paused(True)
    ticks(session, 10 * plan.cycle_s)
    assert session.index == 0
    session.set_paused(False)
    ticks(session, plan.cycle_s)
    assert session.index == 1


def test_a_touch_begins_with_the_scenario_on_show(session, plan):
    ticks(session, plan.cycle_s)
    session.touched()
    assert (session.stage, session.index) == ("visit", 1)


def test_idle_warns_first_and_for_twenty_whole_seconds(session, plan):
    session.touched()
    left = []
    session.countdown_changed.connect(left.append)
    ticks(session, plan.idle_s - 1)
    assert session.stage == "visit"
    session.tick()
    assert session.stage == "warning"
    ticks(session, 19)
    assert session.stage == "warning"
    assert left == list(range(20, 0, -1))
    session.tick()
    assert session.stage == "attract"


def test_one_touch_takes_the_warning_back_as_often_as_one_likes(session, plan):
    session.touched()
    change(session)
    for _ in range(15):
        ticks(session, plan.idle_s + plan.warning_s - 1)
        assert session.stage == "warning"
        session.touched()
        assert session.stage == "visit"
    assert session.keep[0].scenario.light.illuminance_lx == 77.0


def test_touches_keep_the_warning_away(session, plan):
    session.touched()
    for _ in range(5):
        ticks(session, plan.idle_s - 1)
        session.touched()
    assert session.stage == "visit"


def test_a_reset_parks_what_was_made_and_brings_the_chosen_scenario_back(session, plan, parked):
    session.touched()
    session.choose(1)
    change(session)
    made = session.keep[0].scenario
    ticks(session, plan.idle_s + plan.warning_s)
    assert session.index == 0
    assert session.keep[0].scenario == session.exhibits[0].scenario
    assert [item.scenario for item in parked.items] == [made]
    ticks(session, plan.cycle_s)
    assert session.index == 1


def test_a_visit_that_changed_nothing_parks_nothing(session, plan, parked):
    session.touched()
    session.choose(1)
    ticks(session, plan.idle_s + plan.warning_s)
    assert parked.items == ()


@pytest.mark.parametrize("leave", ["start_again", "choose", "stop"])
def test_what_was_made_is_never_lost(session, parked, leave):
    session.touched()
    change(session)
    {"start_again": session.start_again, "choose": lambda: session.choose(1), "stop": session.stop}[
        leave
    ]()
    assert parked.items[0].scenario.light.illuminance_lx == 77.0


def test_start_again_stays_with_the_scenario(session):
    session.choose(1)
    change(session)
    session.start_again()
    assert session.index == 1
    assert session.keep[0].scenario == session.exhibits[1].scenario


def test_a_file_that_vanishes_during_the_day_is_still_shown(session, tmp_path, monkeypatch):
    gone = tmp_path / "gone.json"
    monkeypatch.setattr(type(session.exhibits[0]), "path", gone, raising=False)
    session.choose(0)
    assert session.keep[0].scenario == session.exhibits[0].scenario


@pytest.mark.alone
def test_a_day_of_moves_does_not_pile_up_undo_steps(session):
    session.touched()
    document = session.keep[0]
    before = _undo_commands()
    for n in range(60):
        document.begin_gesture()
        document.edit("light.illuminance_lx", 100.0 + n)
    assert document.undo_stack.count() == 0
    assert document.scenario.light.illuminance_lx == 159.0
    assert _undo_commands() == before


def _undo_commands() -> int:
    kinds = Counter(map(type, gc.get_objects()))
    return sum(n for kind, n in kinds.items() if issubclass(kind, QUndoCommand))


def test_a_stand_without_scenarios_is_refused(plan, parked):
    with pytest.raises(ValueError, match="at least one scenario"):
        StandSession(plan, (), StandDocument(), None, parked)

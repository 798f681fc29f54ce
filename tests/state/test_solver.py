import threading

import pytest

from explorer.advice import break_even as break_even_module
from explorer.advice import reach as reach_module
from explorer.advice.assess import assess
from explorer.advice.break_even import BreakEven
from explorer.advice.case import Case
from explorer.advice.edges import Edges
from explorer.scenario.model import Scenario
from explorer.state import solver as solver_module
from explorer.state.at_rest import at_rest_steps
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.state.solver import SLOW_S, Solver
from explorer.state.spans import HOUR_S
from tests.waiting import confirmed

NOWHERE = Edges(path="", low=1.0, high=2.0, edges=(), at_low=False, at_high=False)


@pytest.fixture
def bench(qapp):
    document, jobs = Document(Scenario()), JobRunner()
    yield document, Solver(document, jobs), jobs
    jobs.finish()


def test_a_change_is_assessed_within_the_next_frames(qtbot, bench):
    document, solver, _ = bench
    with qtbot.waitSignal(solver.result_ready) as heard:
        document.edit("light.illuminance_lx", 700.0)
    assert heard.args[0].scenario == document.scenario
    assert solver.result is heard.args[0]


def test_a_drag_ends_with_its_last_value_and_skips_most_between(qtbot, bench):
    document, solver, _ = bench
    seen = []
    solver.result_ready.connect(lambda a: seen.append(a.scenario.light.illuminance_lx))
    for level in range(300, 400):
        document.edit("light.illuminance_lx", float(level))
    qtbot.waitUntil(lambda: bool(seen) and seen[-1] == 399.0)
    assert len(seen) < 10


def test_the_way_back_costs_a_look_up(qtbot, bench):
    document, solver, _ = bench
    found = []
    for level in (450.0, 500.0, 450.0):
        document.edit("light.illuminance_lx", level)
        solver.catch_up()
        found.append(solver.result)
    assert found[2] is found[0] is not found[1]
    assert found[2].trace.picture(0.0, 1e5, 50) is found[0].trace.picture(0.0, 1e5, 50)


def test_a_design_that_is_known_is_shown_at_once_where_others_are_left_to_a_worker(
    qtbot, bench, monkeypatch
):
    document, solver, jobs = bench
    solver.solve_now()
    document.edit("light.illuminance_lx", 450.0)
    solver.catch_up()
    known = solver.result
    document.edit("light.illuminance_lx", 500.0)
    solver._took_s = 2.0 * SLOW_S
    start, held = jobs._thread, []
    monkeypatch.setattr(jobs, "_thread", held.append)  # it tells how long it took, when it ends
    solver.catch_up()
    assert solver.is_pending
    assert jobs.busy("frame")
    document.edit("light.illuminance_lx", 450.0)
    solver.catch_up()
    assert solver.result is known
    assert not solver.is_pending
    assert solver._took_s == 2.0 * SLOW_S  # a look-up says nothing of the next design
    monkeypatch.undo()
    start(*held)
    qtbot.waitUntil(lambda: not jobs.busy("frame"), timeout=20_000)
    assert solver.result is known
    assert not solver.is_pending


def test_break_evens_come_for_all_four_knobs_when_they_rest(qtbot, bench):
    document, solver, _ = bench
    with qtbot.waitSignal(
        solver.break_evens_ready, timeout=20_000, check_params_cb=confirmed
    ) as heard:
        document.edit("light.illuminance_lx", 700.0)
    assert set(heard.args[0]) == {
        "light.illuminance_lx",
        "panels.count",
        "store.capacitance_F",
        "load.operations.0.phases.0.current_A",
    }
    for found in heard.args[0].values():
        assert len(found.states) == len(found.stops)
        assert found.path == found.works.path == found.runs.path


def test_late_break_evens_of_another_design_are_dropped(qtbot, bench, monkeypatch):
    """The worker still counts with two panels when the third is put on."""
    document, solver, _ = bench
    seen, may_go_on, asked = [], threading.Event(), []

    def slow(case, path, stops, stopped):
        asked.append(case.scenario.panels.count)
        if case.scenario.panels.count == 2:
            may_go_on.wait(20.0)
        return BreakEven(
            path=str(case.scenario.panels.count), stops=tuple(stops), states=(), best=1.0,
            works=NOWHERE, runs=NOWHERE,
        )

    monkeypatch.setattr(break_even_module, "draft", lambda *given: slow(*given, None))
    monkeypatch.setattr(break_even_module, "break_even", slow)
    solver.break_evens_ready.connect(lambda found: seen.extend(f.path for f in found.values()))
    document.edit("panels.count", 2)
    qtbot.waitUntil(lambda: asked == [2], timeout=20_000)
    document.edit("panels.count", 3)
    may_go_on.set()
    qtbot.waitUntil(lambda: len(seen) > 8, timeout=40_000)
    assert set(seen) == {"3"}


def test_limits_that_come_before_the_frame_of_their_design_wait_for_it(
    qtbot, bench, monkeypatch
):
    """Meanwhile the design before stays as it is on show, and is not told anew."""
    document, solver, _ = bench
    may_go_on, told, came = threading.Event(), [], []
    least = "least_light_for_balance_lx"

    def edgeless(case, path, stops, stopped=None):
        return BreakEven(
            path=path, stops=tuple(stops), states=(), best=1.0, works=NOWHERE, runs=NOWHERE
        )

    def waiting(case, **asked):
        if case.scenario.panels.count == 2:
            may_go_on.wait(20.0)
        return assess(case, **asked)

    monkeypatch.setattr(break_even_module, "draft", edgeless)
    monkeypatch.setattr(break_even_module, "break_even", edgeless)
    monkeypatch.setattr(
        reach_module, "reach", lambda case, _: came.append(1) or {least: 7.0 * len(came)}
    )
    monkeypatch.setattr(solver_module, "assess", waiting)
    solver.solve_now()
    solver._took_s = 2.0 * SLOW_S
    rested = []
    solver.break_evens_ready.connect(rested.append)
    solver.result_ready.connect(lambda a: told.append(a.scenario.panels.count))
    document.edit("panels.count", 2)
    qtbot.waitUntil(lambda: bool(came) and len(rested) >= 6, timeout=20_000)
    assert told == []
    may_go_on.set()
    qtbot.waitUntil(lambda: least in solver.result.answers, timeout=20_000)
    assert set(told) == {2}
    assert solver.result.scenario == document.scenario
    assert solver.result.answers[least] == 7.0 * len(came)


def test_the_search_for_edges_ends_at_the_next_march_when_the_design_changes(qtbot, bench):
    """So that a drag never shares the interpreter with it for longer than one march."""
    scenario = bench[0].scenario
    asked = []

    def stopped():
        asked.append(1)
        return len(asked) > 1

    steps = list(at_rest_steps(0, "", Case(scenario), stopped))
    assert len(asked) == 2
    assert not steps[-1].reach


def test_the_span_decides_how_much_is_computed(qtbot, bench):
    _, solver, _ = bench
    solver.solve_now()
    with qtbot.waitSignal(solver.result_ready) as heard:
        solver.set_span("day", 30 * HOUR_S)
    assert (solver.window().from_s, solver.window().to_s) == (24 * HOUR_S, 48 * HOUR_S)
    assert heard.args[0].trace.span_s == pytest.approx(48 * HOUR_S)


def test_limits_stay_in_another_span_and_go_with_another_design(qtbot, bench):
    document, solver, _ = bench
    with qtbot.waitSignal(solver.break_evens_ready, timeout=20_000, check_params_cb=confirmed):
        document.edit("panels.count", 2)
    qtbot.waitUntil(lambda: "least_light_for_balance_lx" in solver.result.answers)
    least = solver.result.answers["least_light_for_balance_lx"]
    solver.set_span("day", 30 * HOUR_S)
    assert solver.result.answers["least_light_for_balance_lx"] == least
    document.edit("panels.count", 3)
    qtbot.waitUntil(lambda: solver.result.scenario == document.scenario)
    assert solver.result.answers.get("least_light_for_balance_lx") != least


def test_a_pinned_design_stays_while_the_scenario_moves(qtbot, bench):
    document, solver, _ = bench
    with qtbot.waitSignal(solver.ghost_ready) as heard:
        solver.pin(document.case)
    pinned = heard.args[0].scenario
    document.edit("panels.count", 6)
    with qtbot.waitSignal(solver.ghost_ready) as again:
        solver.set_span("month")
    assert again.args[0].scenario == pinned
    with qtbot.waitSignal(solver.ghost_ready) as gone:
        solver.pin(None)
    assert gone.args == [None]


def test_the_answers_come_too_where_only_the_last_frame_was_slow(qtbot, bench, monkeypatch):
    """The frame before was quick, so the answers were left for the rest."""
    document, solver, _ = bench
    timed = solver._timed

    def slow(*given):
        found = timed(*given)
        solver._took_s = 1.0
        return found

    monkeypatch.setattr(solver, "_timed", slow)
    document.edit("light.illuminance_lx", 700.0)
    qtbot.waitUntil(lambda: solver.result is not None and bool(solver.result.answers))
    assert solver.result.scenario == document.scenario


def test_a_design_that_takes_long_is_given_up_at_once_and_left_to_a_worker(
    qtbot, bench, monkeypatch
):
    """What it knew of how long the last one took tells nothing of the next."""
    document, solver, _ = bench
    monkeypatch.setattr(solver_module, "MOST_EVENTS", 3)
    threads = []
    assessed = solver_module.assess

    def watched(*args, **more):
        found = assessed(*args, **more)
        threads.append(threading.current_thread() is threading.main_thread())
        return found

    monkeypatch.setattr(solver_module, "assess", watched)
    with qtbot.waitSignal(solver.result_ready, timeout=20_000) as heard:
        document.edit("light.illuminance_lx", 700.0)
    assert heard.args[0].scenario == document.scenario
    assert threads[:1] == [False]

"""A short day on the stand, with a made-up model; `tests.soak` makes it as long as one likes."""

import gc

import pytest

from explorer.advice import case
from explorer.engine.library import Library
from explorer.scenario.model import Scenario, with_value
from explorer.stand.parked import MOST_KEPT
from explorer.state import solver
from explorer.state.collector import CollectorRounds
from tests.depth import thorough
from tests.stand.visitors import Visitors, reading
from tests.widgets.samples import made_up, run_of

WARM_UP, MOVES = 300, 1200


@pytest.fixture
def quick_model(monkeypatch):
    always = run_of(Scenario(), 604_800.0)  # one run for all: its tables are no part of the count

    def assess(design, **_):
        return made_up(design.scenario, design.log, trace=always)

    monkeypatch.setattr(solver, "assess", assess)
    monkeypatch.setattr(solver, "SLOW_S", 10.0)  # a busy machine must not change the course
    # A full library of tables grows no more, and one of its own does not shrink either.
    monkeypatch.setattr(case, "TABLES", Library(1_000_000))


@thorough
@pytest.mark.alone
def test_memory_and_references_stay_steady_over_twelve_hundred_moves(quick_model, stand):
    stand.resize(640, 360)
    visitors, rounds = Visitors(stand, drag=10, per_frame=2), CollectorRounds(young=10_000)
    for n in range(MOST_KEPT):  # a full list of parked ones grows no more
        other = with_value(stand.document.scenario, "light.illuminance_lx", 100.0 + n)
        stand.session.parked.park(other, "Runs")
    while visitors.moves < WARM_UP:
        visitors.act()
        rounds.look()
    gc.collect()
    before = reading(visitors.moves)
    while visitors.moves < before.moves + MOVES:
        visitors.act()
        rounds.look()
    gc.collect()
    after = reading(visitors.moves)
    # An object that is kept at each move would show as thousands; a reference may be neither kept
    # nor lost.
    assert abs(after.none_references - before.none_references) < MOVES
    assert after.objects - before.objects < MOVES
    assert len(stand.session.parked.items) == MOST_KEPT
    assert stand.document.undo_stack.count() == 0

"""Something can be won, it is told without colour, and it holds nobody up."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from explorer.stand.challenges import CHALLENGES

WEEKEND = next(c for c in CHALLENGES if c.key == "weekend")


def settled(stand):
    stand.solver.solve_now()
    if stand.session._settle.isActive():
        stand.session._settle.stop()
        stand.session._on_settled()


@pytest.fixture
def challenged(stand):
    """The plant label, asked to last the weekend."""
    stand.session.choose(0)
    stand.solver.solve_now()
    stand.session.offer(WEEKEND)
    QTest.mouseClick(stand.page.cards.challenge, Qt.MouseButton.LeftButton)
    settled(stand)
    return stand


def test_the_challenge_asks_for_62_hours_and_leaves_the_design_alone(challenged):
    assert challenged.document.scenario.margins.closure_days * 24 == pytest.approx(62.0)
    assert challenged.page.headline.word.text() == "Marginal"
    assert challenged.page.title.text() == "Make it last the weekend: 3.4 days without light"
    assert not challenged.session.is_changed


def test_winning_is_said_in_words_and_marked_by_a_star(challenged):
    challenged.document.edit("store.capacitance_F", 1.0)
    settled(challenged)
    assert challenged.celebration.isVisible()
    assert challenged.celebration.text == "It lasts the weekend!"
    assert challenged.page.cards.cards[0]._won
    assert challenged.session.wins == {(0, "weekend")}


def test_it_is_won_once_and_only_by_a_change(challenged):
    won = []
    challenged.session.won.connect(won.append)
    for farads in (1.0, 0.47, 1.0):
        challenged.document.edit("store.capacitance_F", farads)
        settled(challenged)
    assert len(won) == 1


def test_a_design_that_a_drag_passes_over_is_not_won(challenged):
    challenged.document.edit("store.capacitance_F", 1.0)
    challenged.solver.solve_now()
    assert challenged.session._settle.isActive()
    challenged.document.edit("store.capacitance_F", 0.47)
    challenged.solver.solve_now()
    assert not challenged.session._settle.isActive()


@pytest.mark.parametrize("reduced", [True, False])
def test_the_burst_is_left_out_where_motion_is_not_wanted(challenged, monkeypatch, reduced):
    monkeypatch.setattr(challenged, "motion_is_reduced", lambda: reduced)
    challenged.session.won.emit(WEEKEND.won)
    assert challenged.celebration.isVisible()
    assert challenged.celebration.moves is not reduced


def test_a_hand_reaches_through_the_celebration(challenged):
    challenged.session.won.emit(WEEKEND.won)
    at = challenged.celebration.geometry().center()
    assert challenged.childAt(at) is not challenged.celebration


def test_giving_up_the_challenge_keeps_what_was_made(challenged):
    challenged.document.edit("panels.count", 2)
    QTest.mouseClick(challenged.page.cards.challenge, Qt.MouseButton.LeftButton)
    assert challenged.document.scenario.panels.count == 2
    assert challenged.document.scenario.margins.closure_days == 0.0
    assert challenged.page.title.text() == challenged.session.plan.title

"""Something can be won, it is told without colour, and it holds nobody up."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from explorer.stand.cards import CardRow
from explorer.stand.challenges import CHALLENGES
from explorer.stand.legibility import sizes_for

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


@pytest.fixture
def cards(qtbot, exhibits):
    """A lower row with more scenarios than it has room for."""
    made = CardRow(exhibits * 4)
    qtbot.addWidget(made)
    made.resize(1240, 110)
    made.show()
    made.set_sizes(sizes_for((1280, 800), 24.0, 2.0))
    return made


def places(cards):
    """Where everything is that can be touched, but for the challenge."""
    buttons = (*cards.cards, *cards.extras, cards.earlier, cards.later)
    shown = [one for one in buttons if one.isVisible() and one is not cards.challenge]
    return [one.geometry() for one in shown]


def test_nothing_moves_under_a_finger_when_the_challenge_comes(cards):
    cards.set_challenge("", is_on=False)
    before = places(cards)
    for challenge in CHALLENGES:
        cards.set_challenge(challenge.invitation, is_on=False)
        assert cards.challenge.isVisible()
        assert places(cards) == before


def test_where_nothing_can_be_won_no_place_is_kept(cards):
    cards.set_challenge("", is_on=False)
    shown = len(places(cards))
    cards.set_challenge("", is_on=False, has_place=False)
    assert len(places(cards)) > shown


def test_a_place_is_kept_until_it_is_known_that_nothing_can_be_won(stand):
    session = stand.session
    for index in range(len(session.exhibits)):
        assert session.may_challenge
        session.choose(index)
        session.offer(None)
    assert not session.may_challenge
    session.offer(WEEKEND)
    assert session.may_challenge


def test_what_can_be_won_is_still_known_after_starting_again(challenged):
    challenged.document.edit("panels.count", 2)
    challenged.session.start_again()
    assert challenged.session.challenge is WEEKEND
    assert challenged.page.cards.challenge.isVisible()
    assert not challenged.session.is_challenged


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

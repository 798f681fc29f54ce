"""The row of scenarios to choose from, with “Start again” at its end."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from explorer.stand.arrangement import card_height
from explorer.stand.big_button import BigButton
from explorer.stand.challenges import CHALLENGES
from explorer.stand.exhibits import Exhibit
from explorer.stand.legibility import Sizes
from explorer.state.language import tr

_NARROWEST = 7.2
"""Least width of a card, in sizes of its text."""


class CardRow(QWidget):
    """Shows as many cards as fit; two arrows turn the page where there are more."""

    chosen = Signal(int)
    start_again = Signal()
    challenged = Signal(bool)
    """Whether the challenge is taken up."""
    home_wanted = Signal()
    language_wanted = Signal()

    def __init__(self, exhibits: tuple[Exhibit, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.cards: list[BigButton] = []
        for exhibit in exhibits:
            card = BigButton(exhibit.title, parent=self)
            card.setCheckable(True)
            card.setAccessibleName(f"{exhibit.title}: {tr(exhibit.word)}")
            card.set_state(exhibit.state)
            card.clicked.connect(self._on_card)
            self.cards.append(card)
        self.earlier = BigButton(sign="earlier", parent=self)
        self.earlier.setAccessibleName(tr("Earlier scenarios"))
        self.later = BigButton(sign="later", parent=self)
        self.later.setAccessibleName(tr("More scenarios"))
        self.earlier.clicked.connect(self._on_earlier)
        self.later.clicked.connect(self._on_later)
        self.challenge = BigButton(sign="star", parent=self)
        self.challenge.setCheckable(True)
        self.challenge.setAccessibleName(tr("Challenge"))
        self.challenge.hide()
        self.home = BigButton(tr("Take it home"), sign="code", parent=self)
        self.again = BigButton(tr("Start again"), sign="back", parent=self)
        self.language = BigButton(parent=self)
        self.language.setAccessibleName(tr("Language"))
        self.language.hide()
        self.language.clicked.connect(self.language_wanted)
        self.again.clicked.connect(self.start_again)
        self.challenge.clicked.connect(self.challenged)
        self.home.clicked.connect(self.home_wanted)
        self._sizes: Sizes | None = None
        self._first, self._per_page = 0, len(self.cards)
        self._challenge_has_place = True

    def set_current(self, index: int) -> None:
        """Mark the scenario on show, and turn to its page."""
        for place, card in enumerate(self.cards):
            card.setChecked(place == index)
        if not self._first <= index < self._first + self._per_page:
            self._first = index - index % max(self._per_page, 1)
        self._place()

    def set_challenge(self, invitation: str, is_on: bool, *, has_place: bool = True) -> None:
        """Offer what can be won; an empty text offers nothing.

        Its place is kept until then: nothing may move under a finger when it comes.
        """
        self._challenge_has_place = has_place
        self.challenge.setText(tr(invitation) if invitation else "")
        self.challenge.setAccessibleName(tr(invitation) if invitation else tr("Challenge"))
        self.challenge.setChecked(is_on)
        if self.challenge.isVisibleTo(self) != bool(invitation):
            self.challenge.setVisible(bool(invitation))
        self._place()

    def set_language(self, name: str) -> None:
        """Offer another language by its own name; an empty one offers none."""
        self.language.setText(name)
        self.language.setAccessibleName(name or tr("Language"))
        self.language.setVisible(bool(name))
        self._place()

    def set_won(self, places: set[int]) -> None:
        """Mark the scenarios with which something was won."""
        for place, card in enumerate(self.cards):
            card.set_won(place in places)

    @property
    def extras(self) -> list[BigButton]:
        """What stands beside the cards, as far as it is there."""
        some = (self.challenge, self.home, self.again, self.language)
        return [button for button in some if button.isVisibleTo(self)]

    @property
    def _placed(self) -> list[BigButton]:
        """What has a place beside the cards."""
        return [self.challenge] * self._challenge_has_place + [
            button for button in self.extras if button is not self.challenge
        ]

    def set_sizes(self, sizes: Sizes) -> None:
        """Draw to other sizes."""
        self._sizes = sizes
        for button in (*self.cards, self.earlier, self.later, *self.extras):
            button.set_sizes(sizes.near, sizes.target)
        self._place()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the cards in their places."""
        super().resizeEvent(event)
        self._place()

    def _place(self) -> None:
        sizes = self._sizes
        if sizes is None or self.width() <= 0:
            return
        gap, high = sizes.gap, card_height(sizes)
        rows = max((self.height() + gap) // (high + gap), 1)
        if rows == 1:
            high = self.height()
        placed = self._placed
        for button in placed:
            button.set_sizes(sizes.near, sizes.target)
        most = {self.challenge: 0.19, self.home: 0.125, self.again: 0.125, self.language: 0.1}
        widths = [
            max(min(self._wanted(b) + gap, round(self.width() * most[b])), sizes.target)
            for b in placed
        ]
        room = self.width() - sum(widths) - gap * len(widths)
        arrows = 0
        fit = max((room + gap) // (round(_NARROWEST * sizes.near) + gap), 1)
        if fit * rows < len(self.cards):
            arrows = 2 * (sizes.target + gap)
            fit = max((room - arrows + gap) // (round(_NARROWEST * sizes.near) + gap), 1)
        fit = min(fit, -(-len(self.cards) // rows))
        self._per_page = fit * rows
        self._first = min(self._first, max(len(self.cards) - 1, 0))
        self._first -= self._first % self._per_page
        for arrow in (self.earlier, self.later):
            arrow.setVisible(arrows > 0)
        self.earlier.setEnabled(self._first > 0)
        self.later.setEnabled(self._first + self._per_page < len(self.cards))
        left = arrows // 2
        wide = (room - arrows - gap * (fit - 1)) // fit
        wide = min(wide, round(sizes.near * 15))
        for place, card in enumerate(self.cards):
            row, column = divmod(max(place - self._first, 0), fit)
            card.setGeometry(left + column * (wide + gap), row * (high + gap), wide, high)
            card.setVisible(0 <= place - self._first < self._per_page)
        # One size of text for all cards: the one at which the longest title fits.
        for card in self.cards:
            card.set_sizes(sizes.near, sizes.target)
        px = min(card.fitting_px() for card in self.cards)
        for card in self.cards:
            card.set_sizes(px, sizes.target)
        whole = self.height()
        self.earlier.setGeometry(0, 0, sizes.target, whole)
        self.later.setGeometry(room - sizes.target, 0, sizes.target, whole)
        left = room + gap
        for button, extra in zip(placed, widths, strict=True):
            button.setGeometry(left, 0, extra, whole)
            left += extra + gap

    def _wanted(self, button: BigButton) -> int:
        """Width of its text; of the longest that may come, where a challenge is offered. [px]"""
        if button is not self.challenge:
            return button.sizeHint().width()
        return max(button.width_of(tr(one.invitation)) for one in CHALLENGES)

    def _on_card(self) -> None:
        card = self.sender()
        assert isinstance(card, BigButton)
        self.chosen.emit(self.cards.index(card))

    def _on_earlier(self) -> None:
        self._turn(-1)

    def _on_later(self) -> None:
        self._turn(1)

    def _turn(self, pages: int) -> None:
        self._first = max(self._first + pages * self._per_page, 0)
        self._place()

"""The stand's page: headline, trace, notes, and below them the knobs and the scenarios."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from explorer.advice.assess import Assessment
from explorer.advice.break_even import BreakEven
from explorer.scenario.model import Scenario, get_value
from explorer.stand.arrangement import Arrangement, Box, arrange, places_height
from explorer.stand.cards import CardRow
from explorer.stand.fit_label import FitLabel
from explorer.stand.headline import Headline
from explorer.stand.legibility import Sizes, sizes_for
from explorer.stand.live_meter import LiveMeter
from explorer.stand.live_trace import LiveTrace
from explorer.stand.notes import Notes
from explorer.stand.phrases import picture_note, task_text
from explorer.stand.session import StandSession
from explorer.stand.stand_knob import StandKnob
from explorer.stand.stand_trace import StandTrace
from explorer.stand.way_steps import Way, challenge_steps, way_steps
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.drawer_steps import elsewhere_steps
from explorer.state.knobs import Knob, knob_value, knobs_for
from explorer.state.language import tr
from explorer.state.solver import Solver
from explorer.state.spans import calendar_of
from explorer.text import say
from explorer.widgets.places_table import PlacesTable
from explorer.words.readout import bind_units

WAY_REST_MS = 350
"""Quiet time before a way forward is looked for; after the break-evens, which share the workers."""
CHALLENGE_REST_MS = 700


class StandPage(QWidget):
    """Shows the document and passes on what a visitor does with it."""

    def __init__(
        self,
        session: StandSession,
        document: Document,
        solver: Solver,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.session, self._document, self._solver = session, document, solver
        self._editing: StandKnob | None = None
        self._cautioned: Scenario | None = None
        """Scenario whose cautions are on show."""
        plan = session.plan
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        self.title = FitLabel(bold=True, parent=self)
        self.title.show_text(plan.title)
        self.contact = FitLabel(role="soft", align=right, parent=self)
        self.contact.show_text(plan.contact)
        self.headline = Headline(self)
        self.trace = StandTrace(self)
        self.live = LiveTrace(self)
        self.meter: LiveMeter | None = None
        self.notes = Notes(self)
        self.places = PlacesTable(self)
        self.knobs: list[StandKnob] = []
        for knob in self._movable():
            part = StandKnob(knob, self)
            part.edited.connect(self._on_edited)
            part.gesture_started.connect(self._on_gesture)
            part.reset_wanted.connect(self._on_reset)
            self.knobs.append(part)
        self.cards = CardRow(session.exhibits, self)
        self.cards.chosen.connect(session.choose)
        self.cards.start_again.connect(session.start_again)
        self.cards.challenged.connect(session.set_challenged)
        session.challenge_changed.connect(self._on_challenge)
        session.won.connect(self._on_won)
        jobs = solver.jobs
        self.way = Feed(
            "way", document, jobs, partial(way_steps, plan.movable), rest_ms=WAY_REST_MS,
            parent=self,
        )  # fmt: skip
        self.way.outdated.connect(self._on_way_outdated)
        self.way.arrived.connect(self._on_way)
        self.challenges = Feed(
            "challenge", document, jobs, partial(challenge_steps, plan.movable),
            same=_always, rest_ms=CHALLENGE_REST_MS, parent=self,
        )  # fmt: skip
        self.challenges.arrived.connect(session.offer)
        self.elsewhere = Feed(
            "elsewhere", document, jobs, elsewhere_steps, rest_ms=WAY_REST_MS, parent=self
        )
        self.elsewhere.arrived.connect(self._on_elsewhere)
        document.changed.connect(self._on_changed)
        document.refused.connect(self.notes.say)
        session.exhibit_changed.connect(self._on_exhibit)
        solver.result_ready.connect(self._on_result)
        solver.break_evens_ready.connect(self._on_break_evens)
        solver.not_judged.connect(self._on_not_judged)
        solver.pending_changed.connect(self.set_pending)

    def _movable(self) -> list[Knob]:
        keys = self.session.plan.movable
        return [knob for knob in knobs_for(self._document.scenario) if knob.key in keys]

    def rest(self) -> None:
        """Ask nothing any more."""
        for feed in (self.way, self.challenges, self.elsewhere):
            feed.set_open(False)

    def judged(self) -> Assessment | None:
        """The design on show with its verdict; None while that is being worked out."""
        self._solver.catch_up()
        found = self._solver.result
        return found if found and found.scenario == self._document.scenario else None

    def picture_rect(self) -> QRect:
        """Where headline and trace are. [px]"""
        return self.headline.geometry().united(self.trace.geometry())

    def refresh(self) -> None:
        """Show what the document holds."""
        for part, knob in zip(self.knobs, self._movable(), strict=True):
            if knob != part.knob:
                part.set_knob(knob)
            part.set_value(knob_value(self._document.case, knob))

    # --- where everything is ---

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Divide the page anew."""
        super().resizeEvent(event)
        self.divide()

    def divide(self) -> tuple[Sizes, Arrangement]:
        """Give every part its place on the page as large as it is now."""
        plan = self.session.plan
        size = (max(self.width(), 1), max(self.height(), 1))
        sizes = sizes_for(size, plan.diagonal_in, plan.distance_m)
        bands = arrange(*size, sizes, len(self.knobs), len(self.places.rows))
        for label in (self.title, self.contact):
            label.set_px(sizes.near)
        self._place_header(bands.header, sizes)
        for part, box in (
            (self.headline, bands.headline),
            (self.trace, bands.trace),
            (self.live, bands.trace),
            (self.notes, bands.strip),
            (self.cards, bands.cards),
        ):
            part.setGeometry(*_rect(box))
        self._place_places(bands, sizes)
        self._place_knobs(bands, sizes)
        self.headline.set_sizes(sizes, bands.upright)
        self.trace.set_sizes(sizes)
        self.live.set_sizes(sizes)
        self.notes.set_sizes(sizes, bands.upright)
        self.cards.set_sizes(sizes)
        return sizes, bands

    def _place_header(self, box: Box, sizes: Sizes) -> None:
        # The outer corners stay free: that is where the operator's fingers go.
        inset = sizes.target // 2
        half = box.width // 2
        self.title.setGeometry(box.x, box.y, half, box.height)
        self.contact.setGeometry(box.x + half, box.y, half - inset, box.height)

    def _place_places(self, bands: Arrangement, sizes: Sizes) -> None:
        """Other places, where there are any, beside the notes or below them."""
        box, rows = bands.strip, bands.places
        if not rows:
            return
        high = places_height(sizes, rows)
        self.places.set_px(sizes.reason, rows)
        if bands.upright:
            self.notes.setGeometry(box.x, box.y, box.width, box.height - high - sizes.gap)
            self.places.setGeometry(box.x, box.bottom - high, box.width, high)
        else:
            wide = min(max(self.places.wanted_width(), box.width // 3), box.width * 3 // 5)
            self.notes.setGeometry(box.x, box.y, box.width - wide - 3 * sizes.gap, box.height)
            self.places.setGeometry(box.x + box.width - wide, box.y, wide, high)

    def _on_elsewhere(self, found: object) -> None:
        assert isinstance(found, tuple)
        self.places.set_places(found)
        self.divide()

    def _place_knobs(self, bands: Arrangement, sizes: Sizes) -> None:
        columns, gap, box = bands.knob_columns, sizes.gap, bands.knobs
        rows = -(-len(self.knobs) // columns)
        wide = (box.width - gap * (columns - 1)) // columns
        high = (box.height - gap * (rows - 1)) // rows
        for place, part in enumerate(self.knobs):
            row, column = divmod(place, columns)
            part.setGeometry(box.x + column * (wide + gap), box.y + row * (high + gap), wide, high)
            part.set_sizes(sizes)

    # --- what a visitor did ---

    def _on_gesture(self) -> None:
        part = self.sender()
        assert isinstance(part, StandKnob)
        self._document.begin_gesture()
        self.session.moved(part.knob.key)

    def _on_edited(self, value: float) -> None:
        part = self.sender()
        assert isinstance(part, StandKnob)
        self._editing = part
        if not self._document.edit(part.knob.path, int(value) if part.knob.whole else value):
            self.refresh()
        self._editing = None

    def _on_reset(self) -> None:
        part = self.sender()
        assert isinstance(part, StandKnob)
        self._document.begin_gesture()
        self._document.edit(part.knob.path, get_value(self._document.start, part.knob.path))

    # --- what the program did ---

    def follow(self, meter: LiveMeter) -> None:
        """Show what a meter reads of the real device, where its exhibit is as it was."""
        self.meter = meter
        meter.changed.connect(self._on_live)

    def _on_live(self) -> None:
        session, meter = self.session, self.meter
        if meter is None:
            return
        name = session.plan.meter_scenario or session.exhibits[0].name
        own = session.exhibit.name == name and not session.is_changed
        self.live.set_view(meter.view, meter.said)
        self.live.setVisible(own and not session.is_challenged and meter.view is not None)

    def _on_way_outdated(self) -> None:
        self.notes.set_stuck(False)
        for part in self.knobs:
            if part is not self._editing:
                part.set_hint(None)

    def _on_way(self, found: object) -> None:
        assert isinstance(found, Way)
        for part in self.knobs:
            part.set_hint(found.targets.get(part.knob.path))
        self.notes.set_stuck(not found.runs and not found.targets)

    def _on_challenge(self) -> None:
        session = self.session
        challenge, is_on = session.challenge, session.is_challenged
        invitation = "" if challenge is None else challenge.invitation
        self.cards.set_challenge(invitation, is_on, has_place=session.may_challenge)
        task = session.plan.title
        if challenge is not None and is_on:
            task = task_text(challenge, self._document.scenario)
        self.title.show_text(tr(task))

    def _on_won(self, _: object) -> None:
        self.cards.set_won({place for place, _ in self.session.wins})

    def _on_changed(self, _: Scenario) -> None:
        for part in self.knobs:
            # A knob's own value does not move its break-even, a change of anything else does.
            if part is not self._editing:
                part.slider.set_pending()
        self.refresh()

    def _on_exhibit(self, index: int) -> None:
        # What can be won is a matter of the scenario, not of what a visitor makes of it.
        self.challenges.set_steps(partial(challenge_steps, self.session.plan.movable))
        for feed in (self.way, self.challenges, self.elsewhere):
            feed.set_open(True, at_once=False)
        self.cards.set_current(index)
        for part in self.knobs:
            part.say("")
            part.set_hint(None)
            part.slider.set_states(())

    def set_pending(self, pending: bool) -> None:
        """Grey verdict, number and trace together: they are of an earlier design."""
        self.headline.set_pending(pending)
        self.trace.set_pending(pending)

    def _on_result(self, assessment: Assessment) -> None:
        self._on_live()
        scenario = assessment.scenario
        if self._cautioned is not self._document.start:
            self._cautioned = self._document.start
            self.notes.set_scenario(scenario)
        self.headline.set_assessment(assessment)
        self.notes.set_assessment(assessment)
        self.show_trace_on(self.trace, assessment)

    def show_trace_on(self, trace: StandTrace, assessment: Assessment) -> None:
        """Show the course of a design on the page's trace, or on another one."""
        scenario = assessment.scenario
        # Name, curve and verdict come together: none of them runs ahead of the others.
        trace.set_title(" – ".join(t for t in (scenario.title, scenario.place) if t))
        trace.set_note(tr(bind_units(picture_note(assessment))))
        weekdays, offset_s, _ = calendar_of(assessment.case)
        trace.set_calendar(weekdays, offset_s)
        trace.set_assessment(assessment, self._solver.window())

    def _on_break_evens(self, found: dict[str, BreakEven]) -> None:
        for part in self.knobs:
            if part.knob.path in found:
                part.set_break_even(found[part.knob.path])

    def _on_not_judged(self, sentence: str) -> None:
        text = say("{sentence} Touch “Start again”.", sentence=sentence)
        self.headline.set_refusal(text)
        self.notes.set_refusal(text)
        self.trace.set_note("")
        self.trace.set_assessment(None, self._solver.window())


def _always(_: Scenario, __: Scenario) -> bool:
    """Of two designs of one scenario: what can be won is the same."""
    return True


def _rect(box: Box) -> tuple[int, int, int, int]:
    return box.x, box.y, box.width, box.height

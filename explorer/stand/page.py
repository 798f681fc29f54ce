"""The stand's page: headline, trace, notes, and below them the knobs and the scenarios."""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QPixmap, QResizeEvent
from PySide6.QtWidgets import QWidget

from explorer.advice.assess import Assessment
from explorer.advice.edges import BreakEven
from explorer.scenario.model import Scenario, get_value
from explorer.stand.arrangement import Arrangement, Box, arrange
from explorer.stand.cards import CardRow
from explorer.stand.fit_label import FitLabel
from explorer.stand.headline import Headline
from explorer.stand.legibility import Sizes, sizes_for
from explorer.stand.notes import Notes
from explorer.stand.session import StandSession
from explorer.stand.stand_knob import StandKnob
from explorer.stand.stand_trace import StandTrace
from explorer.state.document import Document
from explorer.state.knobs import Knob, knob_value, knobs_for
from explorer.state.solver import Solver
from explorer.text import say


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
        self._session, self._document, self._solver = session, document, solver
        self._editing: StandKnob | None = None
        plan = session.plan
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        self.title = FitLabel(bold=True, parent=self)
        self.title.show_text(plan.title)
        self.contact = FitLabel(role="soft", align=right, parent=self)
        self.contact.show_text(plan.contact)
        self.headline = Headline(self)
        self.trace = StandTrace(self)
        self.notes = Notes(self)
        self.knobs: list[StandKnob] = []
        for knob in self._movable():
            part = StandKnob(knob, self)
            part.edited.connect(self._on_edited)
            part.gesture_started.connect(document.begin_gesture)
            part.reset_wanted.connect(self._on_reset)
            self.knobs.append(part)
        self.cards = CardRow(session.exhibits, self)
        self.cards.chosen.connect(session.choose)
        self.cards.start_again.connect(session.start_again)
        document.changed.connect(self._on_changed)
        document.refused.connect(self.notes.say)
        session.exhibit_changed.connect(self._on_exhibit)
        solver.result_ready.connect(self._on_result)
        solver.break_evens_ready.connect(self._on_break_evens)
        solver.not_judged.connect(self._on_not_judged)

    def _movable(self) -> list[Knob]:
        keys = self._session.plan.movable
        return [knob for knob in knobs_for(self._document.scenario) if knob.key in keys]

    def picture(self) -> QPixmap:
        """What headline and trace look like now, with the space between."""
        return self.grab(self.picture_rect())

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
        plan = self._session.plan
        size = (max(self.width(), 1), max(self.height(), 1))
        sizes = sizes_for(size, plan.diagonal_in, plan.distance_m)
        bands = arrange(*size, sizes, len(self.knobs))
        for label in (self.title, self.contact):
            label.set_px(sizes.near)
        self._place_header(bands.header, sizes)
        for part, box in (
            (self.headline, bands.headline),
            (self.trace, bands.trace),
            (self.notes, bands.strip),
            (self.cards, bands.cards),
        ):
            part.setGeometry(*_rect(box))
        self._place_knobs(bands, sizes)
        self.headline.set_sizes(sizes, bands.upright)
        self.trace.set_sizes(sizes)
        self.notes.set_sizes(sizes, bands.upright)
        self.cards.set_sizes(sizes)
        return sizes, bands

    def _place_header(self, box: Box, sizes: Sizes) -> None:
        # The outer corners stay free: that is where the operator's fingers go.
        inset = sizes.target // 2
        half = box.width // 2
        self.title.setGeometry(box.x, box.y, half, box.height)
        self.contact.setGeometry(box.x + half, box.y, half - inset, box.height)

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

    def _on_changed(self, _: Scenario) -> None:
        for part in self.knobs:
            # A knob's own value does not move its break-even, a change of anything else does.
            if part is not self._editing:
                part.slider.set_pending()
        self.refresh()

    def _on_exhibit(self, index: int) -> None:
        scenario = self._document.scenario
        self.cards.set_current(index)
        self.trace.set_title(" – ".join(t for t in (scenario.title, scenario.place) if t))
        self.notes.set_scenario(scenario)
        for part in self.knobs:
            part.sentence.show_text("")
            part.slider.set_states(())

    def _on_result(self, assessment: Assessment) -> None:
        self.headline.set_assessment(assessment)
        self.notes.set_assessment(assessment)
        pattern, log = assessment.scenario.light.pattern.kind, self._document.log
        dated = pattern == "log" and log is not None and log.start is not None
        offset_s = log.start_of_week_s if dated and log is not None else 0.0
        self.trace.set_calendar(pattern == "week" or dated, offset_s)
        self.trace.set_assessment(assessment, self._solver.window())

    def _on_break_evens(self, found: dict[str, BreakEven]) -> None:
        for part in self.knobs:
            if part.knob.path in found:
                part.set_break_even(found[part.knob.path])

    def _on_not_judged(self, sentence: str) -> None:
        text = say("{sentence} Touch “Start again”.", sentence=sentence)
        self.headline.set_refusal(text)
        self.notes.set_refusal(text)
        self.trace.set_assessment(None, self._solver.window())


def _rect(box: Box) -> tuple[int, int, int, int]:
    return box.x, box.y, box.width, box.height

"""The question about the light: as usual there, or as measured, with its hours and days."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from explorer.quantity import show
from explorer.scenario.calendar import MONTH_NAMES
from explorer.scenario.fields import describe
from explorer.scenario.guide.answers import Answers, PlaceKey
from explorer.scenario.guide.lit import lit_days, lit_hours
from explorer.scenario.guide.places import SPOTS
from explorer.scenario.guide.questions import Question, choices_of
from explorer.scenario.light import Light
from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.exact_field import ExactField
from explorer.widgets.fields import CalmComboBox, OutlinedCheckBox
from explorer.widgets.guide.question_page import QuestionPage
from explorer.words.refusal import range_sentence

Hours = tuple[float, float]


class LightPage(QuestionPage):
    """Beside the choices: what the meter read, from when to when, and whether on weekends."""

    def __init__(self, question: Question, parent: QWidget | None = None) -> None:
        super().__init__(question, parent)
        self._place: PlaceKey | None = None
        self._lux: float | None = None
        self._hours: Hours | None = None
        self.lux = ExactField("lx", optional=True)
        self.start, self.end = ExactField("h"), ExactField("h")
        self.saturday = OutlinedCheckBox(tr("Saturdays too"))
        self.sunday = OutlinedCheckBox(tr("Sundays too"))
        self.month = CalmComboBox()
        self._measured, self._when, self._lamps = QWidget(), QWidget(), QWidget()
        self._build()
        self.lux.entered.connect(self._on_lux)
        for field in (self.start, self.end):
            field.entered.connect(self._on_hours)
        self.set_place("desk")

    def _build(self) -> None:
        self.lux.setMinimumWidth(150)
        self._row(self._measured, ((tr("What the meter read"), self.lux),))
        self._row(self._when, ((tr("at midday, under a dull sky, in"), self.month),))
        for number, name in MONTH_NAMES.items():
            self.month.addItem(tr(name), number)
        self.month.setCurrentIndex(self.month.findData(Answers().measured_month))
        self._row(
            self._lamps,
            ((tr("Lit from"), self.start), (tr("until"), self.end)),
            (self.saturday, self.sunday),
        )
        self.start.setAccessibleName(tr("Lit from"))
        self.end.setAccessibleName(tr("Lit until"))
        self.add_below(
            (self._measured, self._when, self._lamps), (self.lux, self.start, self.end)
        )

    @staticmethod
    def _row(
        into: QWidget, fields: tuple[tuple[str, QWidget], ...],
        boxes: tuple[OutlinedCheckBox, ...] = (),
    ) -> None:
        row = QHBoxLayout(into)
        row.setContentsMargins(4, 2, 4, 2)
        row.setSpacing(8)
        for text, field in fields:
            label = QLabel(text)
            label.setBuddy(field)
            field.setAccessibleName(text)
            row.addWidget(label)
            row.addWidget(field)
        for box in boxes:
            box.setMinimumHeight(24)
            row.addSpacing(8)
            row.addWidget(box)
        row.addStretch(1)

    @property
    def answer(self) -> str:
        """Key of the marked choice; empty where there is none, or where its figure is missing."""
        return "" if self._is_open else super().answer

    @property
    def _is_open(self) -> bool:
        """Whether a figure is all that is missing."""
        return self.marked == "measured" and self._lux is None

    @property
    def told(self) -> str:
        """What the meter read, where that is the answer."""
        if self.marked == "measured" and self._lux is not None:
            return show(self._lux, "lx")
        return super().told

    @property
    def figures(self) -> dict[str, object]:
        """What was typed, by key of `Answers`."""
        return {
            "lux": self._lux if self.marked == "measured" else None,
            "hours": self._hours,
            "saturday": self.saturday.isChecked(),
            "sunday": self.sunday.isChecked(),
            "measured_month": self.month.currentData(),
        }

    def set_year(self, is_year: bool) -> None:
        """Ask for the month of a reading where a whole year follows from it."""
        self._when.setVisible(is_year)

    def set_place(self, place: PlaceKey) -> None:
        """Offer what makes sense at a place; a figure of another place does not count here."""
        if place == self._place:
            return
        self._place, self._lux, self._hours = place, None, None
        offered = choices_of(self.question.key, {"place": place})
        for card in self.cards:
            card.setVisible(card.choice.key in offered)
            if card.choice.key == "usual":
                card.set_line(tr(SPOTS[place].line))
        self.clear()
        here = Answers(place=place)
        hours, days = lit_hours(here), lit_days(here)
        self.lux.set_value(None)
        self.start.set_value(hours[0][0])
        self.end.set_value(hours[-1][1])
        self.saturday.setChecked("sat" in days)
        self.sunday.setChecked("sun" in days)
        self._lamps.setVisible(not SPOTS[place].daylight)

    def set_lux(self, lux: float) -> None:
        """Answer with a figure."""
        self._lux = lux
        self.lux.set_value(lux)
        self.set_answer("measured")

    def take_focus(self) -> None:
        """The field, where a figure is all that is missing."""
        if self._is_open:
            self.focus_field(self.lux)
        else:
            super().take_focus()

    def _on_lux(self, lux: float | None) -> None:
        told = describe(Light, "illuminance_lx")
        if lux is not None and not told.low <= lux <= told.high:
            self.lux.refuse(range_sentence(told))
            return
        self._lux = lux
        self.lux.set_value(lux)
        if lux is not None:
            self.set_answer("measured")
        self.changed.emit()

    def _on_hours(self, typed: float) -> None:
        field = self.sender()
        assert isinstance(field, ExactField)
        here = lit_hours(Answers(place=self._place or "desk"))
        start, end = self._hours or (here[0][0], here[-1][1])
        start, end = (typed, end) if field is self.start else (start, typed)
        if not 0.0 <= start < end <= 24.0:
            field.refuse(say("The light must go off later than it comes on, between 0 and 24 h."))
            return
        self._hours = (start, end)
        field.set_value(typed)

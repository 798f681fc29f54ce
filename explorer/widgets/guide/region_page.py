"""The question how far north or south: roughly, or by its latitude."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from explorer.quantity import show
from explorer.scenario.guide.questions import Question
from explorer.scenario.guide.region import FARTHEST_DEG
from explorer.state.language import tr
from explorer.text import figure, say
from explorer.widgets.exact_field import ExactField
from explorer.widgets.guide.question_page import QuestionPage


class RegionPage(QuestionPage):
    """Beside the choices a field for the latitude."""

    def __init__(self, question: Question, parent: QWidget | None = None) -> None:
        super().__init__(question, parent)
        self._latitude_deg: float | None = None
        self.latitude = ExactField("°", optional=True)
        self.latitude.setMinimumWidth(110)
        self.latitude.setAccessibleName(tr("Latitude"))
        row = QWidget()
        line = QHBoxLayout(row)
        line.setContentsMargins(4, 2, 4, 2)
        line.setSpacing(8)
        label = QLabel(tr("Latitude"))
        label.setBuddy(self.latitude)
        line.addWidget(label)
        line.addWidget(self.latitude)
        line.addStretch(1)
        self.add_below((row,), (self.latitude,))
        self.latitude.entered.connect(self._on_latitude)

    @property
    def answer(self) -> str:
        """Key of the marked choice; empty where there is none, or where its figure is missing."""
        return "" if self._is_open else super().answer

    @property
    def _is_open(self) -> bool:
        """Whether a figure is all that is missing."""
        return self.marked == "latitude" and self._latitude_deg is None

    @property
    def figures(self) -> dict[str, object]:
        """What was typed, by key of `Answers`."""
        return {"latitude_deg": self._latitude_deg if self.marked == "latitude" else None}

    @property
    def told(self) -> str:
        """The latitude itself, where it was typed."""
        if self.marked == "latitude" and self._latitude_deg is not None:
            return show(self._latitude_deg, "°")
        return super().told

    def take_focus(self) -> None:
        """The field, where a figure is all that is missing."""
        if self._is_open:
            self.focus_field(self.latitude)
        else:
            super().take_focus()

    def _on_latitude(self, typed: float | None) -> None:
        if typed is not None and not -FARTHEST_DEG <= typed <= FARTHEST_DEG:
            self.latitude.refuse(say(
                "Between −{most}° and {most}°: nearer to a pole the guide does not judge.",
                most=figure(f"{FARTHEST_DEG:g}"),
            ))  # fmt: skip
            return
        self._latitude_deg = typed
        self.latitude.set_value(typed)
        if typed is not None:
            self.set_answer("latitude")
        self.changed.emit()

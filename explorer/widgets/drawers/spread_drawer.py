"""How sure? What tolerances and age do to many built units, and which tolerance matters."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from PySide6.QtCore import QRectF, QSignalBlocker, QSize, Qt
from PySide6.QtGui import QAccessible, QPainter, QPaintEvent, QWheelEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QSpinBox, QVBoxLayout, QWidget

from explorer.advice.spread import Share as BuiltShare
from explorer.advice.spread import Tolerance, default_tolerances
from explorer.advice.verdict import State
from explorer.state import theme
from explorer.state.at_rest import no_steps
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.drawer_steps import NewAndAged, spread_steps
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.text import say
from explorer.widgets.buttons import PillButton
from explorer.widgets.drawers.drawer import Drawer
from explorer.widgets.drawers.histogram import Histogram
from explorer.widgets.drawers.tolerance_table import ToleranceModel, ToleranceTable
from explorer.widgets.fields import HEIGHT, paint_outline
from explorer.widgets.paint import mix, paint_filling
from explorer.widgets.side_by_side import SideBySide
from explorer.words.drawers import (
    Table,
    influence_table,
    percent_range,
    spread_answer,
    spread_builds_table,
    spread_note,
)

QUESTION = say("How sure?")
YEARS = 10
_LEAST_TABLE = 130
"""Least height of the table, which the drawer around it scrolls to. [px]"""
MOST_YEARS = 40
BUILDS, INFLUENCES = say("built devices"), say("tolerances")


class SpreadDrawer(Drawer):
    """Shows the share of built units that run, new and aged, and lets tolerances be edited."""

    def __init__(
        self, document: Document, jobs: JobRunner, parent: QWidget | None = None
    ) -> None:
        feed = Feed("spread", document, jobs, no_steps)
        super().__init__(QUESTION, document, feed, (BUILDS, INFLUENCES), parent)
        self._own: dict[str, float] = {}
        self._found: NewAndAged | None = None
        self._asked: tuple[tuple[Tolerance, ...], int] | None = None
        self.model = ToleranceModel(self)
        self.view = ToleranceTable(self.model)
        self.years = YearsBox()
        self.shares = [Share("runs"), Share("marginal"), Share("runs"), Share("marginal")]
        self.reserve = Histogram(
            tr("Tightest margin divided by the required one"), "×", 1.0, tr("asked for")
        )
        self.first = Histogram(tr("Time to ready"), "s")
        self.usual = PillButton()
        self.usual.setText(tr("Usual tolerances"))
        self.usual.setToolTip(
            tr("Go back to the tolerances that are usual for such parts")
        )
        self.usual.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.usual.clicked.connect(self._on_usual)
        left = QVBoxLayout()
        left.setSpacing(6)
        left.addLayout(self._build_numbers())
        left.addWidget(self.reserve, 1)
        left.addWidget(self.first, 1)
        right = QVBoxLayout()
        right.setSpacing(4)
        right.addWidget(self.view, 1)
        right.addWidget(self.usual, 0, Qt.AlignmentFlag.AlignRight)
        layout = SideBySide(self.body)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(14)
        layout.addLayout(left, 1)
        layout.addLayout(right, 1)
        self.view.setMinimumSize(260, _LEAST_TABLE)
        self.model.edited.connect(self._on_tolerance)
        self.model.refused.connect(document.refused)
        self.years.valueChanged.connect(self._on_years)
        feed.outdated.connect(self._renew)
        self._renew()

    def _build_numbers(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(2)
        for column, text in enumerate((tr("run"), tr("at least marginal")), 2):
            label = QLabel(text)
            label.setFont(theme.font("small"))
            label.setForegroundRole(label.palette().ColorRole.PlaceholderText)
            grid.addWidget(label, 0, column)
        for row, is_bar in ((1, True), (2, False)):
            grid.addWidget(Swatch(is_bar), row, 0)
        grid.addWidget(QLabel(tr("New", "units")), 1, 1)
        grid.addWidget(self.years, 2, 1)
        for index, share in enumerate(self.shares):
            grid.addWidget(share, 1 + index // 2, 2 + index % 2)
        grid.setColumnStretch(2, 1)
        grid.setColumnStretch(3, 1)
        return grid

    # --- the question ---

    def _tolerances(self) -> tuple[Tolerance, ...]:
        usual = default_tolerances(self.document.scenario)
        return tuple(replace(t, amount=self._own.get(t.path, t.amount)) for t in usual)

    def _renew(self) -> None:
        """Ask with the tolerances of the present design."""
        tolerances = self._tolerances()
        self.model.set_tolerances(tolerances, set(self._own))
        self.usual.setEnabled(bool(self._own))
        asked = (tolerances, self.years.value())
        if asked != self._asked:
            self._asked = asked
            self.feed.set_steps(partial(spread_steps, tolerances, float(self.years.value())))

    def _on_tolerance(self, path: str, amount: float) -> None:
        self._own[path] = amount
        self._renew()

    def _on_usual(self) -> None:
        self._own = {}
        self._renew()
        self.view.setFocus()

    def _on_years(self, _: int) -> None:
        self._renew()

    # --- the answer ---

    def show_step(self, step: object) -> None:
        """Show few builds, then many, then the aged ones too."""
        assert isinstance(step, NewAndAged)
        self._found = step
        self.say_answer(spread_answer(step.new))
        self.answer.setToolTip(tr(spread_note(step.new)))
        new, aged = step.new, step.aged
        for offset, found, years in ((0, new, 0), (2, aged, self.years.value())):
            for index, share in enumerate((found.runs, found.works) if found else (None, None)):
                self.shares[offset + index].set_share(share, years)
        self.reserve.set_values(new.reserve, aged.reserve if aged else None)
        self.first.set_values(new.first_charge_s, aged.first_charge_s if aged else None)
        self.model.set_influences(new.influences)
        self.show_body()

    def focus_body(self) -> None:
        """The table takes the keyboard."""
        self.view.setFocus()
        if not self.view.currentIndex().isValid():
            self.view.setCurrentIndex(self.model.index(0, 1))

    def table(self, name: str) -> Table:
        """Every built unit, or every tolerance."""
        assert self._found is not None
        if name == INFLUENCES:
            return influence_table(self._found.new, self.model.rows)
        return spread_builds_table(self._found.new, self._found.aged)


class Share(QWidget):
    """A lamp and a large number."""

    spoken_role = QAccessible.Role.StaticText

    def __init__(self, state: State, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state: State = state
        self._text = "–"
        self.setMinimumSize(84, 28)

    def sizeHint(self) -> QSize:
        """Room for a lamp and a percentage."""
        return QSize(84, 28)

    def set_share(self, share: BuiltShare | None, years: int) -> None:
        """Show a share of the units of an age, or a dash while it is not known."""
        self._text = "–" if share is None else tr(percent_range(*share))
        self.setAccessibleName(self._spoken(years))
        self.setToolTip(self.accessibleName())
        self.update()

    def _spoken(self, years: int) -> str:
        share, runs = self._text, self._state == "runs"
        if years == 0:
            if runs:
                return tr("{share} of new devices run", share=share)
            return tr("{share} of new devices are at least marginal", share=share)
        age = say("1 year") if years == 1 else say("{n} years", n=years)
        if runs:
            return tr("{share} of devices aged {age} run", share=share, age=age)
        return tr("{share} of devices aged {age} are at least marginal", share=share, age=age)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint lamp and number."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        middle = self.height() / 2
        paint_filling(painter, QRectF(1, middle - 8, 16, 16), self._state, tokens)
        room = self.width() - 24
        for size in ("heading", "body", "small"):
            painter.setFont(theme.font(size, bold=True))
            if painter.fontMetrics().horizontalAdvance(self._text) <= room:
                break
        painter.setPen(tokens.color("ink"))
        align = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
        painter.drawText(self.rect().adjusted(24, 0, 0, 0), align, self._text)
        painter.end()


class Swatch(QWidget):
    """How new or aged units are drawn in the histograms."""

    def __init__(self, is_bar: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._is_bar = is_bar
        self.setFixedSize(16, 16)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint a bar or a line."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        if self._is_bar:
            color = mix(tokens.color("accent"), tokens.color("card"), 0.65)
            painter.fillRect(QRectF(2, 2, 12, 12), color)
        else:
            painter.fillRect(QRectF(1, 7, 14, 2), tokens.color("threshold"))
        painter.end()


class YearsBox(QSpinBox):
    """The age to compare with; the wheel counts only with the focus."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setRange(1, MOST_YEARS)
        with QSignalBlocker(self):
            self.setValue(YEARS)
        self.setPrefix(tr("After "))
        self._name_unit(YEARS)
        self.valueChanged.connect(self._name_unit)
        self.setKeyboardTracking(False)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setFrame(False)
        self.setMinimumHeight(HEIGHT)
        palette = self.lineEdit().palette()  # so that the outline below it shows
        palette.setColor(palette.ColorRole.Base, Qt.GlobalColor.transparent)
        self.lineEdit().setPalette(palette)
        self.setAccessibleName(tr("Age to compare with, years"))

    def _name_unit(self, years: int) -> None:
        self.setSuffix(tr(" year") if years == 1 else tr(" years"))

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Scroll past unless focused."""
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the value, then the outline over its edge."""
        super().paintEvent(event)
        paint_outline(self)

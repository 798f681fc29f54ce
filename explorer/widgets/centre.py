"""The middle of the window in three arrangements.

Narrow, an open drawer takes the place of the answers below the trace, and in a low window that of
the trace too, which is then a scroll away. Wide, it stands beside the
trace. On a large screen the answers stand beside the trace with what each means, the pulse below
the sign, and several drawers below.
"""

from __future__ import annotations

from typing import Literal

from PySide6.QtCore import QEvent, QObject, QSize, Qt, QTimer
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from explorer.widgets.answer_card import FEW, MANY, AnswerCard
from explorer.widgets.card import Card
from explorer.widgets.drawers.drawers import Drawers
from explorer.widgets.slim_scroll import SlimScroll

WIDE = 900
"""Width from which a drawer finds its place beside the trace. [px]"""
LARGE = QSize(1500, 1120)
"""Size from which answers and drawers surround the trace. [px]"""
GAP = 12
KNOBS, SIGN = (320, 480), (276, 420)
"""Least and largest widths of the columns beside the middle. [px]"""
KNOBS_APART = 860
"""Width of the knobs in two columns, on a screen that is both wide and high. [px]"""
_APART = QSize(3000, 1600)
_SMALL, _SMALLEST = 1240, 960
"""Widths of a window below which the columns beside the middle give way to it, and how far. [px]"""
_GIVES_WAY = 56, 34
"""How much narrower knobs and sign are in the smallest window. [px]"""
_TRACE, _DRAWER = 230, 270
"""Least heights; below their sum the middle scrolls, never a card inside it. [px]"""
_LOW = 430
"""A middle that is lower than this shows either the trace or the open drawer. [px]"""
_DRAWER_SHARE, _LEAST_DRAWER, _MOST_DRAWER = 0.42, 560, 860
_PULSE_WIDTH, _PULSE_HEIGHT, _ANSWERS_WIDTH = 380, 300, 470
_LARGE_SHARES = 3, 2
"""How trace and drawers share the height of a large screen."""
Arrangement = Literal["narrow", "wide", "large"]


def side_widths(size: QSize) -> tuple[int, int]:
    """Widths of the knobs at the left and of the sign at the right of a window. [px]

    Examples
    --------
    >>> side_widths(QSize(960, 540)), side_widths(QSize(1280, 720)), side_widths(QSize(1920, 1080))
    ((264, 242), (320, 276), (384, 326))
    """
    width = size.width()
    sign = min(max(width * 17 // 100, SIGN[0]), SIGN[1])
    if width >= _APART.width() and size.height() >= _APART.height():
        return KNOBS_APART, sign
    knobs = min(max(width // 5, KNOBS[0]), KNOBS[1])
    short = min(max((_SMALL - width) / (_SMALL - _SMALLEST), 0.0), 1.0)
    return knobs - round(short * _GIVES_WAY[0]), sign - round(short * _GIVES_WAY[1])


class Centre(QWidget):
    """Trace, pulse, answers, the open drawer, and the questions below them all.

    `aside` is the column beside it, which the window places and puts the sign into.

    Parameters
    ----------
    drawers : Drawers
        The questions; their cards are placed here too.
    """

    def __init__(self, drawers: Drawers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.drawers = drawers
        self.trace: QWidget = Card()
        self.answers: AnswerCard | None = None
        self.pulse: QWidget | None = None
        self._judged = True
        self._placed: tuple[Arrangement, bool] | None = None
        self._inner = QWidget()
        self._upper, self._lower, self._row = QHBoxLayout(), QHBoxLayout(), QHBoxLayout()
        self._side, self.aside = QVBoxLayout(), QVBoxLayout()
        self._column = QVBoxLayout(self._inner)
        self._column.setContentsMargins(0, 0, 0, 0)
        for layout in (
            self._upper, self._lower, self._row, self._side, self.aside, self._column
        ):  # fmt: skip
            layout.setSpacing(GAP)
        self._upper.addWidget(self.trace, 1)
        self._upper.addLayout(self._side)
        self._column.addLayout(self._upper, _LARGE_SHARES[0])
        self._column.addLayout(self._lower)
        self._column.addLayout(self._row)
        self._scroll = SlimScroll(self._inner)
        # Its own rule would ask for all that the parts would like; they scroll below their least.
        self._scroll.setWidgetResizable(False)
        self._scroll.viewport().installEventFilter(self)
        self._bar = self._scroll.verticalScrollBar()
        self._at_drawer = -1
        """Where the middle is scrolled to since it showed a drawer; elsewhere a person did it."""
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GAP)
        column.addWidget(self._scroll, 1)
        column.addWidget(drawers)
        drawers.card.setParent(self._inner)
        drawers.opened.connect(self._on_opened)
        drawers.needs_changed.connect(self._fit)
        self._arrange()

    @property
    def arrangement(self) -> Arrangement:
        """How the parts stand in the present size."""
        if self.width() >= LARGE.width() and self.height() >= LARGE.height():
            return "large"
        return "wide" if self.width() >= WIDE else "narrow"

    def set_trace(self, trace: QWidget, pulse: QWidget, answers: AnswerCard) -> None:
        """Put the trace in the place that was kept for it, and what belongs to it around it."""
        old, self.trace, self.pulse, self.answers = self.trace, trace, pulse, answers
        self._upper.replaceWidget(old, trace)
        old.deleteLater()
        answers.changed.connect(self._fit)
        trace.show()
        self._placed = None
        self._arrange()

    def set_judged(self, judged: bool) -> None:
        """Whether there is a pulse and answers to show."""
        self._judged = judged
        self._arrange()

    def take_focus(self) -> None:
        """Give the keyboard to the open drawer once it has an answer, else to the trace."""
        key = self.drawers.open_key
        if key and self.drawers.drawer(key).has_body:
            self.drawers.drawer(key).focus_body()
        else:
            self.trace.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Fill what is in sight, or be as high as the parts need."""
        if event.type() == QEvent.Type.Resize:
            self._fit()
        return False

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Take the arrangement that fits."""
        super().resizeEvent(event)
        self._arrange()

    def _on_opened(self, key: str) -> None:
        self._arrange()
        self._at_drawer = self._bar.value() if key else -1
        QTimer.singleShot(0, self, self._show_drawer)

    def _arrange(self) -> None:
        now, card = self.arrangement, self.drawers.card
        is_open = bool(self.drawers.open_key)
        beside = 0
        if now == "large":
            beside = min(max(self.width() // _LEAST_DRAWER, 2), 3) - is_open
        self.drawers.set_companions(beside)
        self._place(now)
        card.setMaximumWidth(16_777_215)
        card.setMinimumWidth(0)
        if now == "wide":
            share = round(_DRAWER_SHARE * self.width())
            card.setFixedWidth(min(max(share, _LEAST_DRAWER), _MOST_DRAWER, self.width() - 420))
        card.setVisible(is_open)
        if self.answers is not None and self.pulse is not None:
            self.answers.set_count(FEW if now == "narrow" else MANY)
            self.answers.set_told(now == "large")
            self.answers.setVisible(self._judged and (now != "narrow" or not is_open))
            self.pulse.setVisible(self._judged and now != "narrow")
        self._fit()

    def _place(self, now: Arrangement) -> None:
        """Put every part into the layout that it belongs to in an arrangement."""
        card, trace_came = self.drawers.card, self.answers is not None
        if (now, trace_came) != self._placed:
            self._placed = now, trace_came
            for layout in (self._upper, self._column, self._row):
                layout.removeWidget(card)
            if now == "wide":
                self._upper.addWidget(card)
            elif now == "narrow":
                self._column.insertWidget(1, card, _LARGE_SHARES[0])
            else:
                self._row.insertWidget(0, card, 1)
            self._column.setStretchFactor(self._row, _LARGE_SHARES[1] if now == "large" else 0)
            if self.answers is not None and self.pulse is not None:
                for part in (self.answers, self.pulse):
                    for layout in (self._lower, self._side, self.aside):
                        layout.removeWidget(part)
                large = now == "large"
                if large:
                    self._side.addWidget(self.answers, 0, Qt.AlignmentFlag.AlignTop)
                    self.aside.addWidget(self.pulse)
                else:
                    self._lower.addWidget(self.pulse)
                    self._lower.addWidget(self.answers, 1)
                self.pulse.setMinimumWidth(0 if large else _PULSE_WIDTH)
                self.pulse.setMaximumWidth(16_777_215 if large else _PULSE_WIDTH)
                self.pulse.setMinimumHeight(_PULSE_HEIGHT if large else 0)
                self.pulse.setMaximumHeight(_PULSE_HEIGHT if large else 16_777_215)
                self.answers.setMinimumWidth(_ANSWERS_WIDTH if now == "large" else 0)
                self.answers.setMaximumWidth(_ANSWERS_WIDTH if now == "large" else 16_777_215)
        for companion in self.drawers.companions:
            if self._row.indexOf(companion) < 0:
                self._row.addWidget(companion, 1)

    def _fit(self) -> None:
        view, now = self._scroll.viewport().size(), self.arrangement
        is_open = bool(self.drawers.open_key)
        trace, drawer = _TRACE, _DRAWER
        if is_open and now == "narrow":
            low = view.height() < _LOW
            drawer = max(self.drawers.least_height(view.width()), view.height() if low else _DRAWER)
        below = 0
        if now == "large":
            if self.answers is not None:
                self.answers.setFixedHeight(self.answers.height_at(_ANSWERS_WIDTH))
                trace = max(trace, self.answers.minimumHeight())
            if is_open:  # as high as its answer needs, where trace and answers leave as much
                beside = 1 + sum(not one.isHidden() for one in self.drawers.companions)
                needed = self.drawers.least_height((view.width() + GAP) // beside - GAP)
                drawer = max(drawer, min(needed, view.height() - trace - GAP))
        elif is_open and now == "narrow":
            below = drawer + GAP
        elif self.answers is not None and self.answers.isVisibleTo(self._inner):
            beside = _PULSE_WIDTH + GAP if now == "wide" else 0
            below = self.answers.height_at(view.width() - beside)
            self.answers.setFixedHeight(below)
            below += GAP
        self.trace.setMinimumHeight(_TRACE)
        self.drawers.card.setMinimumHeight(drawer)
        height = max(view.height(), trace + below)
        if height != self._inner.height() and self._bar.value() == self._at_drawer:
            QTimer.singleShot(0, self, self._show_drawer)
        self._inner.resize(view.width(), height)

    def _show_drawer(self) -> None:
        """Bring an open drawer into sight, its heading first where it is higher than the view."""
        card = self.drawers.card
        if self.drawers.open_key and self.arrangement == "narrow":
            self._bar.setValue(min(card.y(), card.geometry().bottom() + 1 - self._scroll.height()))
            self._at_drawer = self._bar.value()

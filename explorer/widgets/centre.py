"""The middle of the window in two arrangements.

Wide, an open drawer stands beside the trace; narrow, it takes the place of the answers below it.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from explorer.widgets.answer_card import FEW, MANY, AnswerCard
from explorer.widgets.card import Card
from explorer.widgets.drawers.drawers import Drawers
from explorer.widgets.slim_scroll import SlimScroll

WIDE = 900
"""Width from which a drawer finds its place beside the trace. [px]"""
GAP = 12
KNOBS, SIGN = (320, 480), (276, 420)
"""Least and largest widths of the columns beside the middle. [px]"""
_TRACE, _DRAWER = 230, 270
"""Least heights; below their sum the middle scrolls, never a card inside it. [px]"""
_DRAWER_SHARE, _LEAST_DRAWER, _MOST_DRAWER = 0.42, 560, 860
_PULSE_WIDTH = 380


def side_widths(width: int) -> tuple[int, int]:
    """Widths of the knobs at the left and of the sign at the right of a window. [px]

    Examples
    --------
    >>> side_widths(960), side_widths(1280), side_widths(1920)
    ((320, 276), (320, 276), (384, 326))
    """
    return min(max(width // 5, KNOBS[0]), KNOBS[1]), min(max(width * 17 // 100, SIGN[0]), SIGN[1])


class Centre(QWidget):
    """Trace, pulse, answers, the open drawer, and the questions below them all.

    Parameters
    ----------
    drawers : Drawers
        The questions; their card is placed here too.
    """

    def __init__(self, drawers: Drawers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.drawers = drawers
        self.trace: QWidget = Card()
        self.trace.setMinimumHeight(_TRACE)
        self.answers: AnswerCard | None = None
        self.pulse: QWidget | None = None
        self._judged = True
        self._wide: bool | None = None
        self._inner = QWidget()
        self._upper, self._lower = QHBoxLayout(), QHBoxLayout()
        self._column = QVBoxLayout(self._inner)
        self._column.setContentsMargins(0, 0, 0, 0)
        for layout in (self._upper, self._lower, self._column):
            layout.setSpacing(GAP)
        self._upper.addWidget(self.trace, 1)
        self._column.addLayout(self._upper, 1)
        self._column.addLayout(self._lower)
        self._scroll = SlimScroll(self._inner)
        # Its own rule would ask for all that the parts would like; they scroll below their least.
        self._scroll.setWidgetResizable(False)
        self._scroll.viewport().installEventFilter(self)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GAP)
        column.addWidget(self._scroll, 1)
        column.addWidget(drawers)
        drawers.card.setParent(self._inner)
        drawers.card.setMinimumHeight(_DRAWER)
        drawers.opened.connect(self._on_opened)
        self._arrange()

    @property
    def is_wide(self) -> bool:
        """Whether a drawer stands beside the trace."""
        return self.width() >= WIDE

    def set_trace(self, trace: QWidget, pulse: QWidget, answers: AnswerCard) -> None:
        """Put the trace in the place that was kept for it, and what belongs to it below."""
        old, self.trace, self.pulse, self.answers = self.trace, trace, pulse, answers
        trace.setMinimumHeight(_TRACE)
        self._upper.replaceWidget(old, trace)
        old.deleteLater()
        self._lower.addWidget(pulse)
        self._lower.addWidget(answers, 1)
        pulse.setFixedWidth(_PULSE_WIDTH)
        answers.changed.connect(self._fit)
        trace.show()
        self._wide = None
        self._arrange()

    def set_judged(self, judged: bool) -> None:
        """Whether there is a pulse and answers to show."""
        self._judged = judged
        self._arrange()

    def keep_in_sight(self, part: QWidget) -> None:
        """Scroll to what has the keyboard, where the middle is too low for all of it."""
        if self._inner.isAncestorOf(part):
            self._scroll.ensureWidgetVisible(part, 0, 8)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Fill what is in sight, or be as high as the parts need."""
        if event.type() == QEvent.Type.Resize:
            self._fit()
        return False

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Take the arrangement that fits."""
        super().resizeEvent(event)
        self._arrange()

    def _on_opened(self, _: str) -> None:
        self._arrange()

    def _arrange(self) -> None:
        wide, card = self.is_wide, self.drawers.card
        is_open = bool(self.drawers.open_key)
        if wide != self._wide:
            self._wide = wide
            for layout in (self._upper, self._column):
                layout.removeWidget(card)
            if wide:
                self._upper.addWidget(card)
            else:
                self._column.insertWidget(1, card, 1)
        if wide:
            share = round(_DRAWER_SHARE * self.width())
            card.setFixedWidth(min(max(share, _LEAST_DRAWER), _MOST_DRAWER, self.width() - 420))
        else:
            card.setMinimumWidth(0)
            card.setMaximumWidth(16_777_215)
        card.setVisible(is_open)
        if self.answers is not None and self.pulse is not None:
            self.answers.set_count(MANY if wide else FEW)
            self.answers.setVisible(self._judged and (wide or not is_open))
            self.pulse.setVisible(self._judged and wide)
        self._fit()

    def _fit(self) -> None:
        view = self._scroll.viewport().size()
        below = 0
        if self.drawers.open_key and not self.is_wide:
            below = _DRAWER + GAP
        elif self.answers is not None and self.answers.isVisibleTo(self._inner):
            beside = _PULSE_WIDTH + GAP if self.is_wide else 0
            below = self.answers.height_at(view.width() - beside)
            self.answers.setFixedHeight(below)
            below += GAP
        self._inner.resize(view.width(), max(view.height(), _TRACE + below))

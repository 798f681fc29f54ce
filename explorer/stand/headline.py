"""The head of the stand's page: three lamps, the word, and one number."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QRectF, Qt, QTimer
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from explorer.advice.assess import Assessment
from explorer.advice.verdict import State
from explorer.stand.fit_label import FitLabel
from explorer.stand.legibility import Sizes
from explorer.stand.phrases import big_number
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.widgets.card import Card
from explorer.widgets.paint import paint_filling, paint_unlit
from explorer.widgets.sign import ANNOUNCE_MS, LAMPS
from explorer.words import readout

_LIT, _UNLIT, _AIR = 0.62, 0.11, 0.04
"""Parts of the housing's height: the lit lamp, an unlit one, the space between."""


class BigLamps(QWidget):
    """Three lamps in one housing; the lit one is large, and its place tells as well."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state: State | None = None
        self._is_pending = False

    def set_pending(self, pending: bool) -> None:
        """Whether the lit lamp is of an earlier design: it is grey then."""
        if pending != self._is_pending:
            self._is_pending = pending
            self.update()

    def set_state(self, state: State | None) -> None:
        """Light one lamp, or none."""
        if state != self._state:
            self._state = state
            self.update()

    def width_at(self, height: int) -> int:
        """Width of the housing at a height. [px]"""
        return round(height * (_LIT + 2 * _AIR))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint housing and lamps."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(tokens.color("line"), 1.5))
        painter.setBrush(tokens.color("paper"))
        high = float(self.height())
        housing = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        painter.drawRoundedRect(housing, housing.width() * 0.3, housing.width() * 0.3)
        y = _AIR * high
        for state in LAMPS:
            size = (_LIT if state == self._state else _UNLIT) * high
            rect = QRectF((self.width() - size) / 2, y, size, size)
            if state == self._state:
                grey = replace(tokens, **{state: tokens.ghost}) if self._is_pending else tokens
                paint_filling(painter, rect, state, grey)
            else:
                paint_unlit(painter, rect.adjusted(2, 2, -2, -2), tokens)
            y += size + _AIR * high
        painter.end()


class Headline(Card):
    """Shows the verdict, and announces it once it rests."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        self._right, self._left = right, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        self.lamps = BigLamps(self)
        self.word = FitLabel(bold=True, parent=self)
        self.number = FitLabel(bold=True, align=right, parent=self)
        self.caption = FitLabel(role="soft", align=right, parent=self)
        self._sizes: Sizes | None = None
        self._upright = False
        self._spoken = ""
        self._announce = QTimer(self)
        self._announce.setSingleShot(True)
        self._announce.setInterval(ANNOUNCE_MS)
        self._announce.timeout.connect(self._say)
        self.speaks = True

    def set_assessment(self, assessment: Assessment) -> None:
        """Show a verdict."""
        text, number = readout.sign(assessment), big_number(assessment)
        self.lamps.set_state(text.state)
        self.lamps.setAccessibleName(tr("Verdict: {word}", word=text.word))
        self.word.show_text(tr(text.word))
        self.number.show_text(tr(number.number))
        self.caption.show_text(tr(number.caption))
        spoken = f"{tr(text.spoken)} {tr(number.spoken)}."
        if spoken != self._spoken:
            self._spoken = spoken
            self.setAccessibleName(f"{tr(text.word)}, {tr(number.spoken)}")
            self.setAccessibleDescription(tr(text.reason))
            if self.speaks:
                self._announce.start()

    def set_pending(self, pending: bool) -> None:
        """Grey word, number and lamp together: they are of an earlier design."""
        self.lamps.set_pending(pending)
        self.word.set_role("ghost" if pending else "ink")
        self.number.set_role("ghost" if pending else "ink")
        self.caption.set_role("ghost" if pending else "soft")

    def set_refusal(self, sentence: str) -> None:
        """Say that the design cannot be judged."""
        word = tr("Not judged")
        self.lamps.set_state(None)
        self.lamps.setAccessibleName(tr("Verdict: {word}", word=word))
        self.word.show_text(word)
        self.number.show_text("")
        self.caption.show_text("")
        self._spoken = f"{word}. {tr(sentence)}"
        self.setAccessibleName(word)
        self.setAccessibleDescription(tr(sentence))
        if self.speaks:
            self._announce.start()

    def set_sizes(self, sizes: Sizes, upright: bool) -> None:
        """Draw to other sizes."""
        self._sizes, self._upright = sizes, upright
        self.word.set_px(sizes.word)
        self.number.set_px(sizes.number)
        self.caption.set_px(sizes.caption)
        self._place()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the parts in their places."""
        super().resizeEvent(event)
        self._place()

    def _place(self) -> None:
        sizes = self._sizes
        if sizes is None:
            return
        width, height, pad = self.width(), self.height(), sizes.gap
        rows = (sizes.word * 1.22, sizes.number * 1.1, sizes.caption * 1.3)
        first, second = (round(height * sum(rows[:n]) / sum(rows)) for n in (1, 2))
        # Upright, lamps as high as the whole would leave too little width for the word.
        high = (second if self._upright else height) - 2 * pad
        lamps = self.lamps.width_at(high)
        self.lamps.setGeometry(pad, (height - high) // 2, lamps, high)
        left = pad + lamps + round(sizes.word * 0.22)
        inner = width - left - 2 * pad
        self.number.setAlignment(self._left if self._upright else self._right)
        self.caption.setAlignment(self._left if self._upright else self._right)
        if self._upright:
            lift, beyond = pad // 2, round(sizes.number * 0.06)
            self.word.setGeometry(left, lift, inner, first - lift)
            # Into the rows around it, where they are empty: descenders need the room.
            top = first - lift - beyond
            self.number.setGeometry(left, top, inner, second - first + 2 * beyond)
            self.caption.setGeometry(left, second - lift, inner, height - second)
        else:
            part = round(inner * 0.52)
            self.word.setGeometry(left, 0, part, height)
            upper, lower = 1.02 * sizes.number, 1.1 * sizes.caption
            split = round(height * upper / (upper + lower))
            x, rest = left + part + pad, inner - part - pad
            # The number's box reaches beyond the card, where its line is empty, and into the
            # caption's: descenders need the room.
            beyond = round(sizes.number * 0.12)
            top = round(pad * 0.2) - beyond
            self.number.setGeometry(x, top, rest, split + 2 * beyond)
            self.caption.setGeometry(x, split, rest, height - split)

    def _say(self) -> None:
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, self._spoken))

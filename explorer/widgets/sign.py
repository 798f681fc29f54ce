"""The sign: three lamps, the word, the reason, the six checks and, apart, the hazards."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt, QTimer
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QFontMetrics,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import (
    QAbstractButton,
    QFrame,
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from explorer.advice.assess import Assessment
from explorer.advice.verdict import Hazard, State
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.widgets.buttons import pressed_by_enter
from explorer.widgets.card import Card
from explorer.widgets.paint import focus_pen, paint_filling, paint_hazard, paint_unlit
from explorer.widgets.pending import Veil
from explorer.widgets.plain import plain_tip
from explorer.widgets.slim_scroll import WIDTH as SLIM_WIDTH
from explorer.widgets.slim_scroll import SlimScroll
from explorer.words import readout
from explorer.words.readout import CheckText

WIDTH, WIDEST = 276, 360
ANNOUNCE_MS = 700
_LAMP, _GAP, _PAD = 38.0, 10.0, 11.0
_BESIDE, _MARGIN = 8, 48
"""Room between the lamps and the word, and width of the column of margins. [px]"""
_LEFT = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
_RIGHT = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight
_ROOMY = 300, 860
"""Width and height from which all checks are told in full. [px]"""
LAMPS: tuple[State, ...] = ("runs", "marginal", "falls_short")


class Lamps(QWidget):
    """Three lamps in one housing, like a lantern burning down; one is lit."""

    spoken_role = QAccessible.Role.Graphic

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state: State | None = None
        self.setFixedSize(
            int(_LAMP + 2 * _PAD), int(3 * _LAMP + 2 * _GAP + 2 * _PAD)
        )

    def set_state(self, state: State | None) -> None:
        """Light one lamp, or none."""
        if state != self._state:
            self._state = state
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint housing and lamps."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(tokens.color("line"), 1.0))
        painter.setBrush(tokens.color("paper"))
        housing = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        painter.drawRoundedRect(housing, housing.width() / 2, housing.width() / 2)
        for index, state in enumerate(LAMPS):
            rect = QRectF(_PAD, _PAD + index * (_LAMP + _GAP), _LAMP, _LAMP)
            if state == self._state:
                paint_filling(painter, rect, state, tokens)
            else:
                paint_unlit(painter, rect.adjusted(7, 7, -7, -7), tokens)
        painter.end()


class CheckRow(QAbstractButton):
    """One check: filling, name, value and margin; a press shows its sentence."""

    _HEIGHT = 26

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._text: CheckText | None = None
        self._roomy = False
        self._fonts = theme.font("small"), theme.font("body"), theme.font("body", bold=True)
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)

    def set_text(self, text: CheckText | None) -> None:
        """Show a check, or nothing."""
        if text is None:
            self._text = None
            self.setAccessibleName(tr("Not judged"))
            self.setAccessibleDescription("")
            self.setToolTip("")
            self.update()
        elif text != self._text:
            self._text = text
            self.setAccessibleName(tr(text.spoken))
            self.setAccessibleDescription(tr(text.sentence))
            self.setToolTip(plain_tip(tr(text.sentence)))
            self.fit()
            self.update()

    def set_roomy(self, roomy: bool) -> None:
        """Whether the sentence stands below the line without being asked for."""
        self._roomy = roomy
        self.fit()

    def fit(self) -> None:
        """Take the height of the line, and of the sentence where that is shown."""
        self.setFixedHeight(self._HEIGHT + self._sentence_height())

    def _sentence_height(self) -> int:
        if not self._roomy or self._text is None:
            return 0
        metrics = QFontMetrics(theme.font("small"))
        room = QRect(0, 0, max(self.width() - 36, 100), 1000)
        wrap = Qt.TextFlag.TextWordWrap
        return int(metrics.boundingRect(room, wrap, tr(self._text.sentence)).height()) + 4

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter presses it too."""
        if not pressed_by_enter(self, event):
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """A sentence in another width has other lines."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.fit()

    def sizeHint(self) -> QSize:
        """One line."""
        return QSize(240, self._HEIGHT)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the row."""
        text = self._text
        if text is None:
            return
        tokens, (small, body, bold) = tokens_of(self.palette()), self._fonts
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        frame = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        if self.underMouse() or self.isChecked():
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(tokens.color("paper"))
            painter.drawRoundedRect(frame, 5, 5)
        if self.hasFocus():
            painter.setPen(focus_pen(tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(frame, 5, 5)
        middle = self._HEIGHT / 2
        paint_filling(painter, QRectF(7, middle - 6.5, 13, 13), text.state, tokens)
        inside = self.rect().adjusted(28, 0, -8, 0)
        if self._roomy:
            painter.setFont(small)
            painter.setPen(tokens.color("soft"))
            below = inside.adjusted(0, self._HEIGHT - 2, 0, 0)
            painter.drawText(below, Qt.TextFlag.TextWordWrap, tr(text.sentence))
        inside.setHeight(self._HEIGHT)
        label = tr(text.label)
        painter.setPen(tokens.color("ink"))
        painter.setFont(body)
        painter.drawText(inside, _LEFT, label)
        painter.setFont(body if text.state == "runs" else bold)
        painter.drawText(inside, _RIGHT, tr(text.margin))
        painter.setFont(body)
        painter.setPen(tokens.color("soft"))
        metrics = painter.fontMetrics()
        room = inside.width() - metrics.horizontalAdvance(label) - _MARGIN - 6
        value = metrics.elidedText(tr(text.value), Qt.TextElideMode.ElideRight, room)
        inside.setRight(inside.right() - _MARGIN)
        painter.drawText(inside, _RIGHT, value)
        painter.end()


class HazardBadge(QFrame):
    """A danger to people or parts: triangle and words, never one of the lamps."""

    spoken_role = QAccessible.Role.AlertMessage

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = QLabel()
        self.title.setFont(theme.font("body", bold=True))
        self.sentence = QLabel()
        self.sentence.setFont(theme.font("small"))
        for label in (self.title, self.sentence):
            label.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(46, 8, 10, 8)
        layout.setSpacing(2)
        layout.addWidget(self.title)
        layout.addWidget(self.sentence)

    def set_hazard(self, hazard: Hazard) -> None:
        """Show one hazard."""
        title, sentence = tr(hazard.title), tr(hazard.sentence)
        self.title.setText(title)
        self.sentence.setText(sentence)
        self.setAccessibleName(tr("Hazard: {title}. {text}", title=title, text=sentence))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint frame and triangle."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(tokens.color("ink"), 1.25))
        painter.setBrush(tokens.color("paper"))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 6, 6)
        paint_hazard(painter, QRectF(11, 10, 26, 24), tokens)
        painter.end()


class Sign(Card):
    """Shows the verdict; `remedy_slot` takes what would make the design run."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._spoken = ""
        self._fitted: tuple[str, int] | None = None
        """For which word, and for how much room, the size of the verdict was chosen."""
        self._announce = QTimer(self)
        self._announce.setSingleShot(True)
        self._announce.setInterval(ANNOUNCE_MS)
        self._announce.timeout.connect(self._say)
        self.lamps = Lamps()
        self.word = QLabel()
        self.word.setFont(theme.font("display", bold=True))
        self.word.setWordWrap(True)  # a verdict of two long words must not widen the column
        self.reason = QLabel()
        self.reason.setWordWrap(True)
        self.reason.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self.number = QLabel()
        self.number.setFont(theme.font("heading", bold=True))
        self.caption = QLabel()
        self.caption.setFont(theme.font("small"))
        self.caption.setWordWrap(True)
        self.caption.setForegroundRole(self.caption.palette().ColorRole.PlaceholderText)
        self.rows = [CheckRow() for _ in range(6)]
        self.detail = QLabel(self)
        self.detail.setWordWrap(True)
        self.detail.setFont(theme.font("small"))
        self.detail.setContentsMargins(28, 0, 8, 4)
        self.detail.hide()
        self._open: int | None = None
        self._roomy = False
        self.hazards: list[HazardBadge] = []
        self._hazard_slot = QVBoxLayout()
        self._hazard_slot.setSpacing(6)
        self.remedy_slot = QVBoxLayout()
        self.remedy_slot.setSpacing(6)
        self._build()

    def _build(self) -> None:
        words = QVBoxLayout()
        words.setSpacing(2)
        words.addStretch(1)
        for part in (self.word, self.number, self.caption):
            words.addWidget(part)
        words.addStretch(1)
        top = QHBoxLayout()
        top.setSpacing(_BESIDE)
        top.addWidget(self.lamps, 0, Qt.AlignmentFlag.AlignTop)
        top.addLayout(words, 1)
        self._checks = QVBoxLayout()
        self._checks.setSpacing(0)
        for row in self.rows:
            self._checks.addWidget(row)
            row.clicked.connect(self._on_row)
        inner = QWidget()
        column = self._column = QVBoxLayout(inner)
        column.setSpacing(10)
        column.addLayout(top)
        column.addWidget(self.reason)
        column.addLayout(self._checks)
        column.addLayout(self.remedy_slot)
        column.addStretch(1)
        column.addLayout(self._hazard_slot)  # at the foot, always in one place
        layout = QVBoxLayout(self)
        layout.setContentsMargins(1, 1, 1, 1)
        scroll = SlimScroll(inner)
        layout.addWidget(scroll)
        self.veil = Veil(scroll)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where there is room every check says its sentence."""
        super().resizeEvent(event)
        side = 16 if self.width() >= WIDTH else 10
        self._column.setContentsMargins(side, 16, side, 16)
        self._fit_word()
        roomy = self.width() >= _ROOMY[0] and self.height() >= _ROOMY[1]
        if roomy != self._roomy:
            self._roomy = roomy
            for row in self.rows:
                row.set_roomy(roomy)
            self._show_detail()

    def _fit_word(self) -> None:
        """The verdict in one line, as large as it can be."""
        margins = self._column.contentsMargins()
        around = margins.left() + margins.right() + 2 + SLIM_WIDTH
        room = self.width() - around - self.lamps.width() - _BESIDE
        fitted = self.word.text(), room
        if fitted == self._fitted:
            return
        self._fitted = fitted
        font = theme.font("display", bold=True)
        for size in range(theme.TEXT_SIZES["display"], theme.TEXT_SIZES["heading"], -2):
            font.setPixelSize(size)
            if QFontMetrics(font).horizontalAdvance(self.word.text()) <= room:
                break
        self.word.setFont(font)

    def _show_detail(self) -> None:
        self.detail.setVisible(self._open is not None and not self._roomy)

    def set_assessment(self, assessment: Assessment) -> None:
        """Show a verdict, and announce it once it rests."""
        text = readout.sign(assessment)
        self.lamps.set_state(text.state)
        word = tr(text.word)
        self.lamps.setAccessibleName(tr("Verdict: {word}", word=word))
        _write(self.word, word)
        self._fit_word()
        _write(self.reason, tr(text.reason))
        _write(self.number, tr(text.number))
        _write(self.caption, tr(text.caption))
        for row, check in zip(self.rows, readout.check_rows(assessment), strict=False):
            row.set_text(check)
        if self._open is not None:
            _write(self.detail, self.rows[self._open].accessibleDescription())
        self._show_hazards(assessment.verdict.hazards)
        spoken = tr(text.spoken)
        if spoken != self._spoken:
            self._spoken = spoken
            self._announce.start()

    def set_refusal(self, sentence: str) -> None:
        """Say that the design cannot be judged; nothing of an earlier one stays."""
        self.lamps.set_state(None)
        word = tr("Not judged")
        self.lamps.setAccessibleName(tr("Verdict: {word}", word=word))
        _write(self.word, word)
        self._fit_word()
        _write(self.reason, tr(sentence))
        for label in (self.number, self.caption, self.detail):
            _write(label, "")
        for row in self.rows:
            row.set_text(None)
        self._show_hazards(())
        self._spoken = f"{word}. {tr(sentence)}"
        self._announce.start()

    def _show_hazards(self, found: tuple[Hazard, ...]) -> None:
        while len(self.hazards) < len(found):
            badge = HazardBadge()
            self._hazard_slot.addWidget(badge)
            self.hazards.append(badge)
        for index, badge in enumerate(self.hazards):
            if index < len(found):
                badge.set_hazard(found[index])
            badge.setVisible(index < len(found))

    def _on_row(self) -> None:
        row = self.sender()
        assert isinstance(row, CheckRow)
        index = self.rows.index(row)
        self._checks.removeWidget(self.detail)
        self._open = None if self._open == index else index
        for other, button in enumerate(self.rows):
            button.setChecked(other == self._open)
        if self._open is not None:
            self._checks.insertWidget(index + 1, self.detail)
            self.detail.setText(row.accessibleDescription())
        self._show_detail()

    def _say(self) -> None:
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, self._spoken))

    def changeEvent(self, event: QEvent) -> None:
        """Repaint everything in a new theme."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.update()


def _write(label: QLabel, text: str) -> None:
    if label.text() != text:
        label.setText(text)

"""What would make the design run: the best changes as buttons, one press applies one."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QLabel, QSizePolicy, QVBoxLayout, QWidget

from explorer.advice.assess import Assessment
from explorer.quantity import show
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.drawer_steps import remedy_steps
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.text import joined
from explorer.widgets.buttons import pressed_by_enter
from explorer.widgets.paint import focus_pen, paint_filling
from explorer.widgets.plain import plain_tip
from explorer.words.readout import bind_units
from explorer.words.remedies import cost_text, gain_text

if TYPE_CHECKING:
    from explorer.advice.remedies import Change, Remedies, Remedy
    from explorer.advice.verdict import Verdict

JOB = "remedies"
SHOWN = 3
_PAD, _ROW, _GAP = 10, 20, 10
_SMALL, _SIGN = 16, 9
"""Height of a line of what comes of a remedy, and of its sign. [px]"""


class RemedyButton(QAbstractButton):
    """One remedy: every change on a line of its own, or on more where it is long."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.remedy: Remedy | None = None
        self._outcome = ""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def set_remedy(self, remedy: Remedy, before: Verdict | None = None) -> None:
        """Show a remedy, and beside it what it makes of the checks of the design before."""
        self.remedy, self._outcome = remedy, ""
        what = remedy.sentence
        if before is not None and remedy.verdict is not None:
            parts = (gain_text(before, remedy.verdict), cost_text(before, remedy.verdict))
            costs = [change.cost for change in remedy.changes if change.cost]
            self._outcome = tr(joined("; ", (*costs, *parts)))
        self.setAccessibleName(tr("Apply: {change}", change=what))
        self.setAccessibleDescription(self._outcome)
        tip = tr("{change}: apply (undo reverts it)", change=what)
        self.setToolTip(plain_tip("\n".join(part for part in (tip, self._outcome) if part)))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """One line for each change."""
        return QSize(200, self.heightForWidth(200))

    def minimumSizeHint(self) -> QSize:
        """Long labels are cut, not the numbers."""
        return QSize(120, self.heightForWidth(self.width()))

    def hasHeightForWidth(self) -> bool:
        """Long changes take two lines or more."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Height of all lines. [px]"""
        if self.remedy is None:
            return 30
        changes = sum(_height(c, width) for c in self.remedy.changes)
        return max(30, changes + self._outcome_height(width) + 10)

    def _outcome_height(self, width: int) -> int:
        if not self._outcome:
            return 0
        room = QRect(0, 0, width - 2 * _PAD - _SIGN - 5, 1000)
        metrics = QFontMetrics(theme.font("small"))
        wrapped = metrics.boundingRect(room, Qt.TextFlag.TextWordWrap, self._outcome)
        return max(_SMALL, int(wrapped.height()) + 2)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter presses it too."""
        if not pressed_by_enter(self, event):
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint ground, outline, focus ring and lines."""
        if self.remedy is None:
            return
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        frame = QRectF(self.rect()).adjusted(1.5, 1.5, -1.5, -1.5)
        ground = "line" if self.isDown() else "paper"
        painter.setPen(QPen(tokens.color("accent" if self.underMouse() else "edge"), 1.0))
        painter.setBrush(tokens.color(ground))
        painter.drawRoundedRect(frame, 6, 6)
        if self.hasFocus():
            painter.setPen(focus_pen(tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(frame.adjusted(-0.5, -0.5, 0.5, 0.5), 6, 6)
        y = (self.height() - self.heightForWidth(self.width()) + 10) // 2
        for change in self.remedy.changes:
            y = self._paint_change(painter, change, y)
        if self._outcome and self.remedy.verdict is not None:
            state = self.remedy.verdict.state
            paint_filling(painter, QRectF(_PAD, y + 4, _SIGN, _SIGN), state, tokens)
            painter.setFont(theme.font("small"))
            painter.setPen(tokens.color("soft"))
            left = _PAD + _SIGN + 5
            where = QRect(left, y, self.width() - left - _PAD, self._outcome_height(self.width()))
            flags = Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap
            painter.drawText(where, flags, self._outcome)
        painter.end()

    def _paint_change(self, painter: QPainter, change: Change, y: int) -> int:
        tokens = tokens_of(self.palette())
        metrics = QFontMetrics(theme.font("body"))
        align, inside = Qt.AlignmentFlag, self.width() - 2 * _PAD
        value = value_text(change)
        one_line = _fits(change, self.width())
        bold = theme.font("body", bold=True)
        painter.setFont(theme.font("body"))
        painter.setPen(tokens.color("ink"))
        taken = QFontMetrics(bold).horizontalAdvance(value) + _GAP
        room = inside - (taken if one_line else 0)
        label = metrics.elidedText(tr(change.label), Qt.TextElideMode.ElideRight, room)
        where = QRect(_PAD, y, inside, _ROW)
        painter.drawText(where, align.AlignVCenter | align.AlignLeft, label)
        if not one_line:
            where = QRect(_PAD, y + _ROW, inside, _height(change, self.width()) - _ROW)
        painter.setFont(bold)
        wrap = Qt.TextFlag.TextWordWrap
        painter.drawText(where, align.AlignVCenter | align.AlignRight | wrap, value)
        return where.bottom() + 1


def value_text(change: Change) -> str:
    """The old and the new value, the shared unit once."""
    if isinstance(change.old, str) or isinstance(change.new, str):
        return tr(str(change.new))
    old, new = (tr(show(v, change.unit)) for v in (change.old, change.new))
    number, _, unit = old.partition(" ")
    if unit and new.endswith(f" {unit}"):
        old = number
    return f"{old} → {new}"


def _fits(change: Change, width: int) -> bool:
    label = QFontMetrics(theme.font("body")).horizontalAdvance(tr(change.label))
    value = QFontMetrics(theme.font("body", bold=True)).horizontalAdvance(value_text(change))
    return bool(label + value + _GAP <= width - 2 * _PAD)


def _height(change: Change, width: int) -> int:
    """One row where both fit; else the label's row, and the value below it, wrapped. [px]"""
    if _fits(change, width):
        return _ROW
    room = QRect(0, 0, width - 2 * _PAD, 1000)
    metrics = QFontMetrics(theme.font("body", bold=True))
    wrapped = metrics.boundingRect(room, Qt.TextFlag.TextWordWrap, value_text(change)).height()
    return _ROW + max(_ROW, int(wrapped))


class RemedyList(QWidget):
    """Follows the verdict; looks for remedies when it is not the best one.

    Parameters
    ----------
    document : Document
        What a remedy changes.
    jobs : JobRunner
        Where the search runs.
    parts_folder : Path
        Where parts of one's own lie.
    """

    def __init__(
        self, document: Document, jobs: JobRunner, parts_folder: Path,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._document, self._parts_folder = document, parts_folder
        self._beside = None if document.path is None else document.path.parent
        steps = partial(remedy_steps, parts_folder, self._beside)
        self.feed = Feed(JOB, document, jobs, steps, parent=self)
        document.file_changed.connect(self._on_file_changed)
        self.heading = QLabel(tr("What would make it run"))
        self.heading.setFont(theme.font("body", bold=True))
        self.text = QLabel()
        self.text.setWordWrap(True)
        self.text.setForegroundRole(self.text.palette().ColorRole.PlaceholderText)
        self._before: Verdict | None = None
        self.buttons = [RemedyButton(self) for _ in range(SHOWN)]
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addWidget(self.heading)
        layout.addWidget(self.text)
        for button in self.buttons:
            button.hide()
            button.clicked.connect(self._on_clicked)
            layout.addWidget(button)
        self.feed.outdated.connect(self._look)
        self.feed.arrived.connect(self._on_arrived)
        self.feed.failed.connect(self._on_failed)
        document.changed.connect(self._on_changed)
        self.hide()

    def set_assessment(self, assessment: Assessment) -> None:
        """Say that it runs, or look for what would make it."""
        self._before = assessment.verdict
        runs = assessment.verdict.state == "runs"
        self.show()
        # A drag may cross the edge many times; the search waits until it rests.
        self.feed.set_open(not runs, at_once=False)
        if runs:
            self._show_remedies((), "")
            self.heading.setText(tr("Runs as it is"))
        elif not self.feed.is_current:
            self._look()

    def _on_file_changed(self) -> None:
        """The parts beside the open scenario take part too."""
        path = self._document.path
        beside = None if path is None else path.parent
        if beside != self._beside:
            self._beside = beside
            self.feed.set_steps(partial(remedy_steps, self._parts_folder, beside))

    def set_refusal(self, _: object) -> None:
        """A design that cannot be judged has no remedies."""
        self.feed.set_open(False)
        self.hide()

    def _on_changed(self, _: object) -> None:
        # What was found is no remedy for another design, not even for a moment.
        if self.feed.is_open and not self.feed.is_current:
            self._look()

    def _look(self) -> None:
        if self.feed.is_open:
            self.heading.setText(tr("What would make it run"))
            self._show_remedies((), tr("Looking…"))

    def _on_arrived(self, found: object) -> None:
        found = cast("Remedies", found)
        if found.pair is not None:
            text = tr("{sentence} These changes together are enough:", sentence=found.sentence)
            self._show_remedies((found.pair,), text)
        elif found.singles:
            self._show_remedies(found.singles, "" if found.done else tr("Looking for more…"))
        else:
            text = tr(bind_units(found.sentence)) if found.sentence else tr("Looking…")
            self._show_remedies((), text)

    def _on_failed(self, sentence: str) -> None:
        self._show_remedies((), tr(sentence))

    def _show_remedies(self, remedies: tuple[Remedy, ...], text: str) -> None:
        if self.text.text() != text:
            self.text.setText(text)
        self.text.setVisible(bool(text))
        for index, button in enumerate(self.buttons):
            if index < len(remedies):
                button.set_remedy(remedies[index], self._before)
            elif button.hasFocus():
                self.heading.setFocus()
            button.setVisible(index < len(remedies))

    def _on_clicked(self) -> None:
        button = self.sender()
        assert isinstance(button, RemedyButton)
        if button.remedy is not None and self.feed.is_current:
            self._document.replace(button.remedy.scenario, button.remedy.sentence)

    def changeEvent(self, event: QEvent) -> None:
        """Repaint in a new theme."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.update()

"""Below the picture: why the verdict is what it is, what is dangerous, what calls for care."""

from __future__ import annotations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QWidget

from explorer.advice.assess import Assessment
from explorer.advice.verdict import Hazard
from explorer.scenario.model import Scenario
from explorer.stand.fit_label import FitLabel, sized_font
from explorer.stand.legibility import Sizes
from explorer.stand.phrases import caution_line, spoken_cautions
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.widgets.paint import paint_hazard
from explorer.words import readout


class HazardChip(QWidget):
    """Triangle and words, apart from the verdict; hidden where nothing is dangerous."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.text = FitLabel(bold=True, parent=self)
        self._near = 16.0
        self.hide()

    def set_hazards(self, hazards: tuple[Hazard, ...]) -> None:
        """Show the names of the hazards."""
        self.text.show_text(", ".join(tr(h.title) for h in hazards))
        spoken = [
            tr("Hazard: {title}. {sentence}", title=h.title, sentence=h.sentence) for h in hazards
        ]
        self.setAccessibleName(" ".join(spoken))
        self.setVisible(bool(hazards))

    def set_near(self, near: float) -> None:
        """Draw to another size."""
        self._near = near
        self.text.set_px(near)
        self.update()

    def wanted_width(self) -> int:
        """Triangle, words and the space around them. [px]"""
        text = self.text.text()
        measured = QFontMetrics(sized_font(self._near, bold=True)).horizontalAdvance(text)
        return round(self._near * 2.6 + max(self._near * 0.68 * len(text), measured))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Words after the triangle."""
        super().resizeEvent(event)
        left = round(self._near * 2.0)
        self.text.setGeometry(left, 0, self.width() - left - round(self._near * 0.4), self.height())

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint frame and triangle."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(tokens.color("ink"), 1.5))
        painter.setBrush(tokens.color("card"))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 6, 6)
        side = self._near * 1.15
        top = (self.height() - side * 0.92) / 2
        paint_hazard(painter, QRectF(self._near * 0.5, top, side, side * 0.92), tokens)
        painter.end()


class Notes(QWidget):
    """The reason, the hazards, and the line of cautions."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.reason = FitLabel(wraps=True, parent=self)
        self.hazards = HazardChip(self)
        self.cautions = FitLabel(role="soft", wraps=True, parent=self)
        self._sizes: Sizes | None = None
        self._upright = False
        self._reason = self._stuck = ""

    def set_scenario(self, scenario: Scenario) -> None:
        """Show the cautions that a scenario calls for."""
        line = caution_line(scenario)
        self.cautions.show_text(tr("Take care. {line}", line=line) if line else "")
        self.cautions.setAccessibleDescription(tr(spoken_cautions(scenario)))

    def set_stuck(self, stuck: bool) -> None:
        """Say that nothing which can be moved here is enough, or no longer."""
        told = tr("Nothing that can be moved here is enough.") if stuck else ""
        if told != self._stuck:
            self._stuck = told
            self._show_reason()

    def _show_reason(self) -> None:
        self.reason.show_text(" ".join(part for part in (self._reason, self._stuck) if part))

    def set_assessment(self, assessment: Assessment) -> None:
        """Show reason and hazards."""
        self._reason = tr(readout.sign(assessment).reason)
        self._show_reason()
        shown = self.hazards.text.text()
        self.hazards.set_hazards(assessment.verdict.hazards)
        if self.hazards.text.text() != shown:
            self._place()

    def say(self, sentence: str) -> None:
        """Show a sentence in place of the reason."""
        self.reason.show_text(tr(sentence))

    def set_refusal(self, sentence: str) -> None:
        """Show why there is no verdict; no hazard of an earlier design stays."""
        self.say(sentence)
        self.hazards.set_hazards(())
        self._place()

    def set_sizes(self, sizes: Sizes, upright: bool) -> None:
        """Draw to other sizes."""
        self._sizes, self._upright = sizes, upright
        self.reason.set_px(sizes.reason)
        self.cautions.set_px(sizes.near * 0.92)
        self.hazards.set_near(sizes.near)
        self._place()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the parts in their places."""
        super().resizeEvent(event)
        self._place()

    def _place(self) -> None:
        sizes = self._sizes
        if sizes is None:
            return
        split = round(self.height() * (0.5 if self._upright else 0.47))
        self.reason.setGeometry(0, 0, self.width(), split)
        left, high = 0, self.height() - split
        if self.hazards.text.text():
            left = min(self.hazards.wanted_width(), self.width() // 2)
            chip = min(round(sizes.near * 1.6), high)
            self.hazards.setGeometry(0, split + (high - chip) // 2, left, chip)
            left += sizes.gap
        self.cautions.setGeometry(left, split, self.width() - left, high)

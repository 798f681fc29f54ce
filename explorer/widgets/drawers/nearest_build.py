"""A few lines below a map: the build that is nearest to a place, its price, and what it does."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from explorer.advice.as_sold import AsSold, nearest_as_sold
from explorer.files.shelf import Shelf
from explorer.scenario.part import Part
from explorer.state import theme
from explorer.state.at_rest import no_steps
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.drawer_steps import BothVerdicts, both_steps
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.text import Text, joined, say
from explorer.widgets.drawers.drawer import folder_of
from explorer.widgets.elided_label import ElidedLabel
from explorer.widgets.plain import plain_tip
from explorer.words.as_sold import as_sold_line, checks_line
from explorer.words.readout import bind_units

_LATER_MS = 40
"""Rest of the pointer before a place is looked at: a drag paints at every frame."""
_REST_MS = 60
_LINES, _WIDE = 3, 560
"""Lines of text, and the width from which one fewer is enough. [px]"""


class _Lines(ElidedLabel):
    """Text in lines, in a height that is given: one that follows the width makes a body scroll."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the lines that there is room for."""
        painter = QPainter(self)
        painter.setPen(self.palette().color(self.foregroundRole()))
        flags = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignTop
        painter.drawText(self.contentsRect(), flags, self.text())
        painter.end()


class NearestBuild(QWidget):
    """Says what is sold nearest to a place of the map, and takes it.

    Parameters
    ----------
    parts_folder : Path, optional
        Where parts of one's own lie; those beside the scenario are known in any case.
    """

    def __init__(
        self, document: Document, jobs: JobRunner, parts_folder: Path | None
    ) -> None:
        super().__init__()
        self._document, self._parts_folder = document, parts_folder
        self.own: tuple[Part, ...] = ()
        """Parts of one's own, as they were when it was opened."""
        self._place: dict[str, float] = {}
        self._shown: AsSold | None = None
        self.feed = Feed("nearest build", document, jobs, no_steps, rest_ms=_REST_MS)
        self.feed.setParent(self)
        self.feed.arrived.connect(self._on_arrived)
        self.said = _Lines()
        self.said.setFont(theme.font("small"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.said)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(_LATER_MS)
        self._later.timeout.connect(self._look)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Always as high for a width, so that the map stays where it is."""
        super().resizeEvent(event)
        lines = _LINES if event.size().width() < _WIDE else _LINES - 1
        self.said.setFixedHeight(lines * self.said.fontMetrics().lineSpacing())

    def set_open(self, is_open: bool) -> None:
        """Begin to look, with the parts that there are now, or stop."""
        if is_open:
            self.own = self._parts()
        self.feed.set_open(is_open)

    def show_place(self, place: Mapping[str, float]) -> None:
        """Show what is nearest to some values of the axes, once the pointer rests."""
        self._place = dict(place)
        if self.feed.is_open:
            self._later.start()

    def take(self, place: Mapping[str, float]) -> None:
        """Put what is nearest to some values in place as one undo step."""
        found = nearest_as_sold(self._document.scenario, place, self.own)
        if found is not None:
            self._document.replace(found.scenario, "take a build")

    def _parts(self) -> tuple[Part, ...]:
        beside = folder_of(self._document)
        folder = self._parts_folder or beside
        kept = () if folder is None else Shelf(folder, beside).kept()
        return tuple(one.part for one in kept if one.part is not None)

    def _look(self) -> None:
        found = nearest_as_sold(self._document.scenario, self._place, self.own)
        if found == self._shown and self.feed.is_current:
            return
        self._shown = found
        if found is None:
            self._say(say("Nothing that is sold suits this place."))
            return
        self._say(as_sold_line(found))
        self.feed.set_steps(partial(both_steps, found.scenario))

    def _on_arrived(self, step: object) -> None:
        assert isinstance(step, BothVerdicts)
        if self._shown is None:
            return
        told = [as_sold_line(self._shown), checks_line(step.now, step.then)]
        if self._shown.scenario != self._document.scenario:
            told.append(say("A click takes it."))
        self._say(joined(" ", told))

    def _say(self, text: Text) -> None:
        self.said.setText(tr(bind_units(text)))
        self.said.setToolTip(plain_tip(self.said.text()))


__all__ = ["NearestBuild"]

"""Where would it work? The verdict over two quantities, with the present design on the map."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QRectF, QSignalBlocker, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from explorer.advice.territory import Axis, Territory, axis_choices
from explorer.advice.verdict import VERDICT_WORDS
from explorer.scenario.model import Scenario, get_value
from explorer.state import theme
from explorer.state.at_rest import no_steps
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.drawer_steps import (
    RowEdges,
    elsewhere_steps,
    row_steps,
    same_but_for,
    territory_steps,
)
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.state.theme import tokens_of
from explorer.text import say
from explorer.widgets.drawers.drawer import Drawer
from explorer.widgets.drawers.nearest_build import NearestBuild
from explorer.widgets.drawers.scales import Scale
from explorer.widgets.drawers.territory_map import TerritoryMap
from explorer.widgets.drawers.territory_paint import paint_swatch
from explorer.widgets.fields import CalmComboBox
from explorer.widgets.places_table import PlacesTable
from explorer.words.as_sold import priced_table
from explorer.words.drawers import (
    Table,
    is_count,
    row_pending,
    territory_summary,
    territory_table,
)
from explorer.words.readout import margin_text

QUESTION = say("Where would it work?")
_SIDE, _NARROW = 168, 440
"""Width of the lists and the legend, and of a drawer that has them below its map. [px]"""


class TerritoryDrawer(Drawer):
    """Lets a person choose two quantities and move the design over the map of verdicts."""

    def __init__(
        self, document: Document, jobs: JobRunner, parts_folder: Path | None = None,
        parent: QWidget | None = None,
    ) -> None:
        feed = Feed("territory", document, jobs, no_steps, same=self._same_map)
        self._choices: tuple[Axis, ...] = ()
        self._axes: tuple[Axis, Axis] | None = None
        self._found: Territory | None = None
        super().__init__(QUESTION, document, feed, parent=parent)
        self.row = Feed("territory_row", document, jobs, no_steps, same=self._same_row)
        self.row.setParent(self)
        self.row.arrived.connect(self._on_row)
        self.row.outdated.connect(self._on_row_outdated)
        self._edges: RowEdges | None = None
        self.map = TerritoryMap()
        self.across, self.up = CalmComboBox(), CalmComboBox()
        self.legend = Legend()
        lists = QVBoxLayout()
        lists.setSpacing(4)
        for text, box, name in (
            (tr("Across", "axis"), self.across, tr("Quantity across the map")),
            (tr("Up", "axis"), self.up, tr("Quantity up the map")),
        ):
            label = QLabel(text)
            label.setFont(theme.font("small"))
            label.setForegroundRole(label.palette().ColorRole.PlaceholderText)
            label.setBuddy(box)
            box.setAccessibleName(name)
            box.activated.connect(self._on_axis)
            lists.addWidget(label)
            lists.addWidget(box)
        lists.addStretch(1)
        self._side = QWidget()
        self._told = QBoxLayout(QBoxLayout.Direction.TopToBottom, self._side)
        self._told.setSpacing(10)
        self._told.setContentsMargins(0, 0, 0, 0)
        self._told.addLayout(lists)
        self._told.addWidget(self.legend, 0, Qt.AlignmentFlag.AlignTop)
        self._told.addStretch(1)
        self.elsewhere = Feed("elsewhere", document, jobs, elsewhere_steps)
        self.elsewhere.setParent(self)
        self.elsewhere.arrived.connect(self._on_elsewhere)
        self.places = PlacesTable()
        self.near = NearestBuild(document, jobs, parts_folder)
        self._parts = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._parts.setSpacing(12)
        self._parts.addWidget(self.map, 1)
        self._parts.addWidget(self._side)
        column = QVBoxLayout(self.body)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.places)
        column.addLayout(self._parts, 1)
        column.addWidget(self.near)
        self.map.gesture_started.connect(document.begin_gesture)
        self.map.moved.connect(self._on_moved)
        self.map.pointed.connect(self._on_pointed)
        self.map.unpointed.connect(self._look_here)
        self.map.taken.connect(self._on_taken)
        document.changed.connect(self._on_changed)
        feed.outdated.connect(self._renew_axes)
        self._renew_axes()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lists and legend beside the map, or below it where there is little width."""
        super().resizeEvent(event)
        narrow = self.width() < _NARROW
        ways = QBoxLayout.Direction
        self._parts.setDirection(ways.TopToBottom if narrow else ways.LeftToRight)
        self._told.setDirection(ways.LeftToRight if narrow else ways.TopToBottom)
        self._side.setMinimumWidth(0 if narrow else _SIDE)
        self._side.setMaximumWidth(16_777_215 if narrow else _SIDE)

    # --- which map ---

    def _renew_axes(self) -> None:
        """Keep the chosen quantities where the design still has them, and the map around it."""
        self._choices = axis_choices(self.document.case, self.near.own)
        paths = [axis.path for axis in self._choices]
        with QSignalBlocker(self.across), QSignalBlocker(self.up):
            for box in (self.across, self.up):
                box.clear()
                for axis in self._choices:
                    box.addItem(tr(axis.label), axis.path)
        wanted = [a.path for a in self._axes] if self._axes else [paths[0], paths[2]]
        for index, path in enumerate(wanted):
            if path not in paths:
                wanted[index] = next(p for p in (*paths[2:], *paths) if p not in wanted)
        self._set_axes(wanted[0], wanted[1])

    def _set_axes(self, x_path: str, y_path: str) -> None:
        by_path = {axis.path: axis for axis in self._choices}
        old = {axis.path: axis for axis in self._axes or ()}
        chosen = []
        for path in (x_path, y_path):
            kept = old.get(path)
            # An axis stays while the design is on it, so that the map does not creep.
            holds = kept is not None and Scale(kept).holds(self._value(path))
            chosen.append(kept if holds and kept is not None else by_path[path])
        axes = (chosen[0], chosen[1])
        with QSignalBlocker(self.across), QSignalBlocker(self.up):
            self.across.setCurrentIndex(self.across.findData(x_path))
            self.up.setCurrentIndex(self.up.findData(y_path))
        if axes != self._axes:
            self._axes = axes
            self._found = None
            self.map.set_axes(Scale(axes[0]), Scale(axes[1]))
            self.feed.set_steps(partial(territory_steps, *axes), rest_ms=0)
            self.row.set_steps(partial(row_steps, axes[0]), rest_ms=0)
        self._show_point()

    def _value(self, path: str) -> float:
        value = get_value(self.document.scenario, path)
        if value is None:
            return self.document.case.mean_lit_lx
        return float(value)

    def _same_map(self, one: Scenario, other: Scenario) -> bool:
        """Moving over a map does not change it."""
        if self._axes is None or not same_but_for(
            (self._axes[0].path, self._axes[1].path), one, other
        ):
            return False
        return all(Scale(a).holds(float(get_value(other, a.path) or 0.0)) for a in self._axes)

    def _same_row(self, one: Scenario, other: Scenario) -> bool:
        """Moving along a row does not change where its edges are."""
        return self._axes is not None and same_but_for((self._axes[0].path,), one, other)

    def _on_axis(self, _: int) -> None:
        x, y = self.across.currentData(), self.up.currentData()
        if x == y and self._axes is not None:  # the other one gives way
            before = (self._axes[0].path, self._axes[1].path)
            if self.sender() is self.across:
                y = before[0]
            else:
                x = before[1]
        self._set_axes(x, y)

    # --- the feed and the document ---

    def set_open(self, is_open: bool) -> None:
        """Begin to draw the map and to look along the present row, or stop."""
        self.near.set_open(is_open)
        if is_open:
            self._renew_axes()  # parts of one's own may be others by now
        super().set_open(is_open)
        self.row.set_open(is_open)
        self.elsewhere.set_open(is_open)
        if is_open:
            self._look_here()

    def _on_elsewhere(self, found: object) -> None:
        assert isinstance(found, tuple)
        self.places.set_places(found)

    def _on_row(self, found: object) -> None:
        assert isinstance(found, RowEdges)
        self._edges = found
        self._show_point()

    def _on_row_outdated(self) -> None:
        self._edges = None

    def show_step(self, step: object) -> None:
        """Show the coarse or the fine map."""
        assert isinstance(step, Territory)
        self._found = step
        self.map.set_territory(step)
        self.legend.set_margin(self.document.scenario.design_margin)
        self.show_body()
        self._show_point()

    def focus_body(self) -> None:
        """The map takes the keyboard."""
        self.map.setFocus()

    def table(self, name: str) -> Table:
        """The map, one line for each point."""
        assert self._found is not None
        return territory_table(self._found) | priced_table(self._found, self.document.scenario)

    def _on_changed(self, _: Scenario) -> None:
        if self.feed.is_open:
            if not self._on_axes():
                self._renew_axes()
            self._show_point()

    def _on_axes(self) -> bool:
        """Whether the design has both quantities, and within the map."""
        try:
            return all(Scale(a).holds(self._value(a.path)) for a in self._axes or ())
        except KeyError:
            return False

    def _show_point(self) -> None:
        if self._axes is None:
            return
        try:
            x, y = (self._value(axis.path) for axis in self._axes)
        except KeyError:  # the store or the load is of another kind; new axes are on their way
            return
        self.map.set_point(x, y)
        self._look_here()
        if self._found is None or not self.feed.is_current:
            return
        across, up = self._axes
        found = self._edges
        if found is not None and found.axis == across and self.row.is_current:
            self.say_answer(territory_summary(across, up, y, found.works, found.runs))
        else:
            self.say_answer(row_pending(up, y))

    def _on_moved(self, x: float, y: float) -> None:
        assert self._axes is not None
        values = {
            axis.path: int(value) if is_count(axis) else value
            for axis, value in zip(self._axes, (x, y), strict=True)
            if value != self._value(axis.path)
        }
        self.document.edit_together(values, "move on the map")


    # --- the nearest build ---

    def _look_here(self) -> None:
        """Name the build nearest to the pointer, or else to the present design."""
        self.near.show_place(dict(zip(self._paths, self.map.shown_values, strict=True)))

    def _on_pointed(self, x: float, y: float) -> None:
        self.near.show_place(dict(zip(self._paths, (x, y), strict=True)))

    def _on_taken(self, x: float, y: float) -> None:
        self.near.take(dict(zip(self._paths, (x, y), strict=True)))

    @property
    def _paths(self) -> tuple[str, str]:
        assert self._axes is not None
        return self._axes[0].path, self._axes[1].path


class Legend(QWidget):
    """What the colours, patterns and lines of the map mean."""

    _ROW = 22

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._margin = 1.3
        self.setFixedHeight(5 * self._ROW)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.set_margin(self._margin)

    def sizeHint(self) -> QSize:
        """Five rows."""
        return QSize(_SIDE, 5 * self._ROW)

    def set_margin(self, margin: float) -> None:
        """Say which design margin is asked for."""
        self._margin = margin
        self.setAccessibleName(
            tr("Legend: plain green runs, amber stripes marginal, red dots falls short")
        )
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint swatches and lines with their words."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setFont(theme.font("small"))
        align = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
        y = 0
        for state, word in VERDICT_WORDS.items():
            paint_swatch(painter, QRectF(0, y + 3, 26, 16), state, tokens)
            painter.setPen(tokens.color("ink"))
            painter.drawText(QRectF(34, y, self.width() - 34, self._ROW), align, tr(word))
            y += self._ROW
        for role, text in (
            ("falls_short", tr("margin 1")),
            ("runs", tr("required margin {margin}", margin=margin_text(self._margin))),
        ):
            painter.setPen(QPen(tokens.color(role), 2.0))
            painter.drawLine(0, y + self._ROW // 2, 26, y + self._ROW // 2)
            painter.setPen(tokens.color("ink"))
            painter.drawText(QRectF(34, y, self.width() - 34, self._ROW), align, text)
            y += self._ROW
        painter.end()

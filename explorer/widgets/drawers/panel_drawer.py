"""How does the panel work? Its curves at the present light, and what that light is worth."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import (
    QButtonGroup,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QStackedWidget,
    QStyle,
    QVBoxLayout,
    QWidget,
)

from explorer.advice.panel_curve import PanelCurve
from explorer.state import theme
from explorer.state.document import Document
from explorer.state.drawer_feeds import Feed
from explorer.state.drawer_steps import panel_steps
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.text import say, texts
from explorer.widgets.buttons import PillButton
from explorer.widgets.drawers.charger_plot import ChargerPlot
from explorer.widgets.drawers.drawer import Drawer
from explorer.widgets.drawers.panel_plot import PanelPlot
from explorer.widgets.side_by_side import SideBySide
from explorer.widgets.slim_scroll import SlimScroll
from explorer.words.drawers import Table
from explorer.words.panel import (
    METER_NOTE,
    charger_table,
    chosen_source,
    light_meanings,
    meaning_table,
    meaning_title,
    panel_answer,
    panel_notes,
    panel_table,
    point_lines,
)
from explorer.words.readout import bind_units

QUESTION = say("How does the panel work?")
REST_MS = 40
LIST_WIDTH = 268
HEAD = texts(("   under", "W/m²", "µA/cm²"))
CURVE, CHARGER, SOURCES = say("curve"), say("charger"), say("sources")
_VIEWS = texts(("Panel", "Charger"))


class MeaningList(QWidget):
    """One lux reading under every source, the chosen one in bold with a mark before it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = QLabel()
        self.title.setFont(theme.font("body", bold=True))
        self.title.setWordWrap(True)
        self.note = QLabel(tr(METER_NOTE))
        self.note.setWordWrap(True)
        self.note.setFont(theme.font("small"))
        self.note.setForegroundRole(self.note.palette().ColorRole.PlaceholderText)
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(8)
        self._grid.setVerticalSpacing(3)
        self._cells: list[tuple[QLabel, QLabel, QLabel]] = []
        self._add_row(HEAD)
        self.notes = QLabel()
        self.notes.setWordWrap(True)
        self.notes.setFont(theme.font("small"))
        self._points = QGridLayout()
        self._points.setVerticalSpacing(3)
        self._point_cells: list[tuple[QLabel, QLabel]] = []
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 6, 0)
        layout.setSpacing(6)
        layout.addLayout(self._points)
        layout.addWidget(self.notes)
        layout.addWidget(self.title)
        layout.addLayout(self._grid)
        layout.addWidget(self.note)
        layout.addStretch(1)

    def set_curve(self, curve: PanelCurve, document: Document) -> None:
        """Show the present level under every source."""
        scenario = document.scenario
        title = meaning_title(curve.illuminance_lx, scenario.panels.technology)
        self.title.setText(tr(title))
        rows = light_meanings(
            scenario.panels.technology, curve.illuminance_lx, chosen_source(scenario.light)
        )
        while len(self._cells) <= len(rows):
            self._add_row()
        for row, cells in zip(rows, self._cells[1:], strict=True):
            name = ("▸ " if row.chosen else "   ") + tr(row.name)
            shown = (name, tr(row.irradiance), tr(row.current))
            for text, label in zip(shown, cells, strict=True):
                label.setText(text)
                label.setFont(theme.font("small", bold=row.chosen))

        self._set_points(point_lines(curve))

    def set_notes(self, text: str) -> None:
        """What holds for the answer beside it."""
        self.notes.setText(tr(bind_units(text)) if text else "")
        self.notes.setVisible(bool(text))

    def _set_points(self, lines: tuple[tuple[str, str], ...]) -> None:
        while len(self._point_cells) < len(lines):
            pair = (QLabel(), QLabel())
            for column, label in enumerate(pair):
                label.setFont(theme.font("small"))
                side = Qt.AlignmentFlag.AlignRight if column else Qt.AlignmentFlag.AlignLeft
                self._points.addWidget(label, len(self._point_cells), column, side)
            self._point_cells.append(pair)
        for i, pair in enumerate(self._point_cells):
            line = lines[i] if i < len(lines) else ("", "")
            for text, label in zip(line, pair, strict=True):
                label.setText(tr(text))
                label.setVisible(bool(text))

    def _add_row(self, cells: tuple[str, str, str] = ("", "", "")) -> None:
        labels = (QLabel(tr(cells[0])), QLabel(tr(cells[1])), QLabel(tr(cells[2])))
        for column, label in enumerate(labels):
            label.setFont(theme.font("small"))
            side = Qt.AlignmentFlag.AlignRight if column else Qt.AlignmentFlag.AlignLeft
            self._grid.addWidget(label, len(self._cells), column, side)
        self._cells.append(labels)


class WholeColumn(SlimScroll):
    """As wide as its figures, so that none is cut: the curve beside it gives way."""

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Follow what the inner widget wants, once all of its labels are shown."""
        done = super().eventFilter(watched, event)
        inner = self.widget()
        if event.type() == QEvent.Type.LayoutRequest and inner is not None and watched is inner:
            gap = self.style().pixelMetric(QStyle.PixelMetric.PM_ScrollView_ScrollBarSpacing)
            bar = self.verticalScrollBar().sizeHint().width()
            wanted = inner.minimumSizeHint().width() + bar + max(gap, 0)
            self.setMinimumWidth(max(LIST_WIDTH, wanted))
            above = self.parentWidget()
            beside = None if above is None else above.layout()
            below = isinstance(beside, SideBySide) and beside.is_column
            # Below the curve it is whole: what is around it scrolls, never both.
            self.setMinimumHeight(inner.sizeHint().height() if below else 0)
        return done


class PanelDrawer(Drawer):
    """Shows the panel's I-V and P-V curves with the point at which it works."""

    def __init__(
        self, document: Document, jobs: JobRunner, parent: QWidget | None = None
    ) -> None:
        feed = Feed("panel", document, jobs, panel_steps, rest_ms=REST_MS)
        super().__init__(QUESTION, document, feed, (CURVE, CHARGER, SOURCES), parent=parent)
        self._found: PanelCurve | None = None
        self.plot, self.charger = PanelPlot(), ChargerPlot()
        self.views = QButtonGroup(self)
        views = QHBoxLayout()
        views.setSpacing(2)
        for number, text in enumerate(_VIEWS):
            button = PillButton(outlined=False)
            button.setText(tr(text))
            button.setCheckable(True)
            button.setChecked(number == 0)
            self.views.addButton(button, number)
            views.addWidget(button)
        views.addStretch(1)
        self.plots = QStackedWidget()
        for plot in (self.plot, self.charger):
            self.plots.addWidget(plot)
        self.views.idClicked.connect(self.plots.setCurrentIndex)
        left = QVBoxLayout()
        left.setSpacing(2)
        left.addLayout(views)
        left.addWidget(self.plots, 1)
        self.meanings = MeaningList()
        layout = SideBySide(self.body)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(16)
        layout.addLayout(left, 1)
        self.column = WholeColumn(self.meanings)
        self.column.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Expanding)
        layout.addWidget(self.column)

    def show_step(self, step: object) -> None:
        """Show curves."""
        assert isinstance(step, PanelCurve)
        self._found = step
        self.say_answer(panel_answer(step, self.document.case))
        self.meanings.set_notes(panel_notes(step, self.document.case))
        if step.points[0].power_w <= 0:
            self.say_nothing(tr("Nothing to show because no light reaches the panel."))
            return
        self.plot.set_curve(step)
        self.charger.set_curve(step.charger)
        self.meanings.set_curve(step, self.document)
        self.show_body()

    def table(self, name: str) -> Table:
        """The curve, what the charger makes of it, or the sources."""
        assert self._found is not None
        if name == CHARGER:
            return charger_table(self._found.charger)
        if name == SOURCES:
            return meaning_table(self.document.scenario, self._found.illuminance_lx)
        return panel_table(self._found)

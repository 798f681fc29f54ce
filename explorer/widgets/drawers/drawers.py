"""The strip of questions below the trace, and the one drawer that is open above it."""

from __future__ import annotations

import itertools
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QLabel, QStackedWidget, QVBoxLayout, QWidget

from explorer.state import theme
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.state.settings import SettingsStore
from explorer.state.theme import tokens_of
from explorer.widgets.card import RADIUS, Card
from explorer.widgets.drawers.strip import WORDINGS, DrawerStrip

if TYPE_CHECKING:
    from explorer.widgets.drawers.drawer import Drawer

QUESTIONS = tuple(WORDINGS)
"""Keys of the drawers, in the order of the strip."""
COMPANIONS = ("budget", "territory", "panel", "contest")
"""Drawers that stand open by themselves where there is room for more than one."""


class DrawerCard(Card):
    """The ground of the open drawer; a bar of the chosen button's colour ties the two."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint ground, outline and bar."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(tokens.color("accent"), 1.0))
        painter.setBrush(tokens.color("card"))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), RADIUS, RADIUS)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(tokens.color("accent"))
        painter.drawRect(QRectF(RADIUS, 0, self.width() - 2 * RADIUS, 3))
        painter.end()


class CompanionCard(Card):
    """The ground of a drawer that nobody opened, with its question above it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.question = QLabel()
        self.question.setFont(theme.font("small"))
        self.question.setForegroundRole(self.question.palette().ColorRole.PlaceholderText)
        self.question.setContentsMargins(14, 10, 14, 0)
        self.pages = QStackedWidget()
        column = QVBoxLayout(self)
        column.setContentsMargins(1, 1, 1, 1)
        column.setSpacing(0)
        column.addWidget(self.question)
        column.addWidget(self.pages, 1)
        self.hide()

    def hold(self, drawer: Drawer) -> None:
        """Show a drawer, wherever it was."""
        self.question.setText(tr(drawer.question))
        if self.pages.indexOf(drawer) < 0:
            self.pages.addWidget(drawer)
        self.pages.setCurrentWidget(drawer)


class Drawers(QWidget):
    """Buttons that open and close drawers; a drawer is built when it is first opened.

    `card` holds the open drawer; the window places it.
    """

    opened = Signal(str)
    """Carries the key of the open drawer, empty when none is."""
    wants_field = Signal(str)
    """Carries the path of a field that a person wants to change."""
    needs_changed = Signal()
    """The open drawer needs another height."""
    reports = Signal(object, bool)
    """Carries a `Text` for the window to show, and whether it tells of a fault."""

    def __init__(
        self,
        document: Document,
        jobs: JobRunner,
        settings: SettingsStore,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._document, self._jobs, self._settings = document, jobs, settings
        self._built: dict[str, Drawer] = {}
        self.open_key = ""
        self.companions: list[CompanionCard] = []
        """Cards of drawers that stand open beside; the window places them too."""
        self._count = 0
        self._pages = QStackedWidget()
        self.card = DrawerCard(self)
        inside = QVBoxLayout(self.card)
        inside.setContentsMargins(1, 1, 1, 1)
        inside.addWidget(self._pages)
        self.card.hide()
        self._strip = DrawerStrip(QUESTIONS)
        self._strip.pressed.connect(self.toggle)
        self.buttons = self._strip.buttons
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._strip)

    def open(self, key: str) -> None:
        """Open one drawer in the place of another; an empty key closes."""
        if key not in QUESTIONS:
            key = ""
        if key == self.open_key:
            return
        focused = self.window().focusWidget()
        had_focus = focused is not None and (
            self.isAncestorOf(focused) or self.card.isAncestorOf(focused)
        )
        before, self.open_key = self.open_key, key
        if key:
            drawer = self.drawer(key)
            if self._pages.indexOf(drawer) < 0:
                self._pages.addWidget(drawer)
            self._pages.setCurrentWidget(drawer)
        elif had_focus and before:
            self.buttons[before].setFocus()
        self._accompany()
        self.card.setVisible(bool(key))
        for other, button in self.buttons.items():
            button.setChecked(other == key)
        self._settings.update(drawer=key)
        self.opened.emit(key)

    def set_companions(self, count: int) -> None:
        """Show so many drawers that nobody opened."""
        if count != self._count:
            self._count = count
            while len(self.companions) < count:
                self.companions.append(CompanionCard(self.card.parentWidget()))
            self._accompany()

    def _accompany(self) -> None:
        """Those beside are others than the open one; what is in no card rests."""
        keys = [key for key in COMPANIONS if key != self.open_key][: self._count]
        for card, key in itertools.zip_longest(self.companions, keys):
            card.setVisible(key is not None)
            if key is not None:
                card.hold(self.drawer(key))
        for key, drawer in self._built.items():
            drawer.set_open(key in (self.open_key, *keys))

    def least_height(self, width: int) -> int:
        """Height of the open drawer's card at which nothing in it scrolls; 0 with none. [px]"""
        frame = self.card.contentsMargins()
        width -= frame.left() + frame.right() + 2
        return self.drawer(self.open_key).least_height(width) + 2 if self.open_key else 0

    def open_log(self, path: Path) -> None:
        """Open a logged run in its drawer."""
        from explorer.widgets.drawers.bench_drawer import BenchDrawer

        drawer = self.drawer("bench")
        assert isinstance(drawer, BenchDrawer)
        drawer.open_log(path)
        self.open("bench")

    def toggle(self, key: str) -> None:
        """Open a drawer, or close it where it is open."""
        self.open("" if key == self.open_key else key)

    def close_drawer(self) -> bool:
        """Close what is open; whether there was anything."""
        was_open = bool(self.open_key)
        self.open("")
        return was_open

    def open_remembered(self) -> None:
        """Open what was open when the program was last used."""
        self.open(self._settings.settings.drawer)

    def drawer(self, key: str) -> Drawer:
        """One drawer, built when first asked for."""
        if key not in self._built:
            drawer = _build(key, self._document, self._jobs, self._settings)
            drawer.wants_field.connect(self.wants_field)
            drawer.needs_changed.connect(self.needs_changed)
            drawer.reports.connect(self.reports)
            self._built[key] = drawer
            self._pages.addWidget(drawer)
            self._order_tabs(drawer)
        return self._built[key]

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left and right walk the strip, Esc closes."""
        keys = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        focused = [k for k, b in self.buttons.items() if b.hasFocus()]
        if focused and event.key() in keys:
            order = list(self.buttons)
            index = (order.index(focused[0]) + keys[Qt.Key(event.key())]) % len(order)
            self.buttons[order[index]].setFocus()
        elif event.key() == Qt.Key.Key_Down and focused and self.open_key:
            self.drawer(self.open_key).focus_body()
        elif event.key() != Qt.Key.Key_Escape or not self.close_drawer():
            super().keyPressEvent(event)

    def _order_tabs(self, drawer: Drawer) -> None:
        """The open drawer comes after its buttons, its body before its export menu."""
        stops = [
            w for w in drawer.findChildren(QWidget)
            if w.focusPolicy() & Qt.FocusPolicy.TabFocus
            and w is not drawer.export
            and w.window() is self.window()  # lists of choices are windows of their own
        ]
        chain = [list(self.buttons.values())[-1], *stops, drawer.export]
        for before, after in itertools.pairwise(chain):
            QWidget.setTabOrder(before, after)


def _build(key: str, document: Document, jobs: JobRunner, settings: SettingsStore) -> Drawer:
    """Load and build one drawer."""
    if key == "budget":
        from explorer.widgets.drawers.budget_drawer import BudgetDrawer

        return BudgetDrawer(document, jobs)
    if key == "contest":
        from explorer.widgets.drawers.contest_drawer import ContestDrawer

        return ContestDrawer(document, jobs, settings.parts_folder)
    if key == "builds":
        from explorer.widgets.drawers.builds_drawer import BuildsDrawer

        return BuildsDrawer(document, jobs, settings.parts_folder)
    if key == "territory":
        from explorer.widgets.drawers.territory_drawer import TerritoryDrawer

        return TerritoryDrawer(document, jobs, settings.parts_folder)
    if key == "panel":
        from explorer.widgets.drawers.panel_drawer import PanelDrawer

        return PanelDrawer(document, jobs)
    if key == "bench":
        from explorer.widgets.drawers.bench_drawer import BenchDrawer

        return BenchDrawer(document, jobs, settings.runs_folder, settings.parts_folder)
    if key == "year":
        from explorer.widgets.drawers.year_drawer import YearDrawer

        return YearDrawer(document, jobs)
    from explorer.widgets.drawers.spread_drawer import SpreadDrawer

    return SpreadDrawer(document, jobs)

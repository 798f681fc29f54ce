"""Guide, help and tour, put into a main window: their actions, menu, pane and dialogs.

Each part is imported and made when it is first wanted, so that a start does not wait for it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, QTimer
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QApplication, QBoxLayout, QMenu, QWidget

from explorer.advice.cautions import cautions
from explorer.advice.verdict import CHECK_NAMES
from explorer.scenario.model import Scenario
from explorer.state.document import Document
from explorer.state.jobs import JobRunner
from explorer.state.language import tr
from explorer.state.settings import SettingsStore
from explorer.state.tour import Tour
from explorer.widgets.knob_panel import KnobPanel
from explorer.widgets.knob_row import KnobRow
from explorer.widgets.sign import Sign

if TYPE_CHECKING:
    from explorer.widgets.guide.guide_dialog import GuideDialog
    from explorer.widgets.help.help_window import HelpWindow
    from explorer.widgets.help.pages import KeyLine
    from explorer.widgets.help.pane import HelpPane
    from explorer.widgets.help.tour_overlay import TourOverlay

_TOUR_DELAY_MS = 600
"""The window is on the screen and its trace is drawn by then."""
_HELP_KEYS = ("F1", "?")
_WIDE, _PANE = 1560, 320
"""Width from which the pane fits beside the sign, and its own. [px]"""
_LEAST_BESIDE, _SEEN = 270, 236
"""Half of the width from which the trace is seen beside the pane, and the height above it. [px]"""


class Assistance(QObject):
    """Fills the Help menu and opens what it offers; each part is made when first wanted.

    Parameters
    ----------
    window : QWidget
        Over which help, guide and tour stand.
    document, jobs, settings : Document, JobRunner and SettingsStore
        What is explained, what works aside, and whether the tour was seen.
    version : str
        Of the program.
    commands, menu : mapping of str to QAction, and QMenu
        What opens each part.
    body, knobs, sign : QBoxLayout, KnobPanel and Sign
        Between or over which the pane finds its place, and what it explains.
    tour_parts : callable
        The widgets that a step of the tour points at.
    open_scenario : callable
        Begins with a scenario of the guide; False where what is open is kept.
    """

    def __init__(
        self,
        window: QWidget,
        *,
        document: Document,
        jobs: JobRunner,
        settings: SettingsStore,
        version: str,
        commands: Mapping[str, QAction],
        menu: QMenu,
        body: QBoxLayout,
        knobs: KnobPanel,
        sign: Sign,
        tour_parts: Callable[[str], list[QWidget]],
        open_scenario: Callable[[Scenario], bool],
    ) -> None:
        super().__init__(window)
        self._window, self._document, self._jobs = window, document, jobs
        self._settings, self._version = settings, version
        self._body, self._knobs, self._sign = body, knobs, sign
        self._ground = body.parentWidget()
        self._tour_parts, self._open_scenario = tour_parts, open_scenario
        self._pane: HelpPane | None = None
        self._at_left = False
        """Whether the pane lies over the left of the middle, to make way for what has the focus."""
        self._help: HelpWindow | None = None
        self._guide: GuideDialog | None = None
        self.overlay: TourOverlay | None = None
        for key, handler in (
            ("guide", self.open_guide),
            ("help", self.on_help),
            ("glossary", self.open_glossary),
            ("keys", self.open_keys),
            ("model_note", self.open_model_note),
            ("tour", self.start_tour),
            ("about", self.open_about),
        ):
            commands[key].triggered.connect(handler)
        commands["help"].setShortcuts([QKeySequence(key) for key in _HELP_KEYS])
        menu.addActions([commands[key] for key in ("guide", "tour")])
        menu.addSeparator()
        menu.addActions([commands[key] for key in ("help", "glossary", "keys", "model_note")])
        menu.addSeparator()
        menu.addAction(commands["about"])
        knobs.cautions_wanted.connect(self.show_cautions)
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        app.focusChanged.connect(self._on_focus_changed)

    # --- guide ---

    def open_guide(self) -> None:
        """Ask the questions, or show the answer that they led to."""
        self.guide.begin()

    @property
    def guide(self) -> GuideDialog:
        """The guide, which keeps its answers while the window is open."""
        if self._guide is None:
            from explorer.widgets.guide.guide_dialog import GuideDialog

            self._guide = GuideDialog(self._jobs, self._settings.parts_folder, self._window)
            self._guide.chosen.connect(self._on_chosen)
        return self._guide

    def _on_chosen(self, scenario: Scenario) -> None:
        if self._open_scenario(scenario):
            self.guide.hide()

    # --- the pane ---

    @property
    def pane(self) -> HelpPane:
        """The pane at the right that explains what has the focus."""
        if self._pane is None:
            from explorer.widgets.help.pane import HelpPane

            self._pane = HelpPane(self._ground)
            self._pane.more_wanted.connect(self.open_glossary)
            self._ground.installEventFilter(self)
        return self._pane

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Find the pane its place in a window of another size."""
        if event.type() == QEvent.Type.Resize:
            self._place_pane()
            QTimer.singleShot(0, self, self._place_pane)  # its neighbours follow a turn later
        return False

    def _place_pane(self) -> None:
        """Beside the sign where there is width for it, else over the trace."""
        pane, body = self.pane, self._body
        if not pane.isVisibleTo(self._window):
            return
        if self._ground.width() >= _WIDE:
            if body.indexOf(pane) < 0:
                pane.setFixedWidth(_PANE)
                body.addWidget(pane)
            return
        body.removeWidget(pane)
        knobs, sign = self._knobs.geometry(), self._sign.geometry()
        left, right = knobs.right() + body.spacing(), sign.left() - body.spacing()
        is_small = right - left < 2 * _LEAST_BESIDE
        # Over the right of the middle: the beginning of the trace stays in sight.
        if not is_small:
            left, right = (left, left + _PANE) if self._at_left else (right - _PANE, right)
        # In a small window below the trace, which would be covered else.
        top = sign.top() + (_SEEN if is_small else 0)
        pane.setFixedWidth(right - left)
        pane.setGeometry(QRect(left, top, right - left, sign.bottom() + 1 - top))
        pane.raise_()

    def _show_pane(self) -> None:
        if not self.pane.isVisible():
            self._at_left = False
        self.pane.show()
        self._place_pane()
        self._make_way(self._window.focusWidget())

    def _make_way(self, focused: QWidget | None) -> None:
        """Lay the pane over the other side where it covers all of what has the focus."""
        if focused is None or not self._ground.isAncestorOf(focused) or (
            self.pane.isAncestorOf(focused) or self._body.indexOf(self.pane) >= 0
        ):
            return
        place = QRect(focused.mapTo(self._ground, QPoint(0, 0)), focused.size())
        if self.pane.geometry().contains(place):
            self._at_left = not self._at_left
            self._place_pane()

    def on_help(self) -> None:
        """Explain what has the focus; a second press closes the pane."""
        before = self.pane.key if self.pane.isVisible() else None
        shown = self._explain(self._window.focusWidget())
        if not shown and before is None:
            self.pane.show_idle()
        if before is not None and (not shown or before == self.pane.key):
            self.pane.hide()
        else:
            self._show_pane()

    def close_pane(self) -> bool:
        """Close the pane; whether it was open."""
        was_open = self._pane is not None and self._pane.isVisible()
        if was_open:
            self.pane.hide()
        return was_open

    def show_cautions(self, found: object) -> None:
        """Show cautions in full in the pane."""
        assert isinstance(found, tuple)
        self.pane.show_cautions(found)
        self._show_pane()

    def _on_focus_changed(self, _: object, new: object) -> None:
        if self._pane is not None and self._pane.isVisible() and isinstance(new, QWidget):
            self._explain(new)
            self._make_way(new)

    def _explain(self, widget: QWidget | None) -> bool:
        """Put the quantity of a widget, or of what it lies in, into the pane."""
        from explorer.widgets.help.parts import PICTURES
        from explorer.widgets.help.quantities import entries, help_key

        scenario, asked = self._document.scenario, widget
        while widget is not None and widget is not self._window:
            if widget in self._sign.rows:
                row = [r is widget for r in self._sign.rows].index(True)
                self.pane.show_idea(CHECK_NAMES[row])
                return True
            if picture := PICTURES.get(type(widget).__name__):
                self.pane.show_words(*(tr(part) for part in picture))
                return True
            path = widget.knob.path if isinstance(widget, KnobRow) else widget.objectName()
            key = help_key(scenario, path) if path else None
            if key is not None:
                self.pane.show_entry(entries()[key])
                return True
            widget = widget.parentWidget()
        return asked is not None and self._explain_control(asked)

    def _explain_control(self, widget: QWidget) -> bool:
        """What a control says of itself: its name, and what stands in its tip."""
        name = widget.accessibleName() or str(getattr(widget, "text", str)()).replace("&", "")
        told = widget.accessibleDescription() or widget.toolTip()
        if not name or not told:
            return False
        self.pane.show_words(name, told)
        return True

    # --- all of the help ---

    def open_page(self, key: str) -> None:
        """Open the help at one of its pages."""
        if self._help is None:
            from explorer.widgets.help.help_window import HelpWindow

            self._help = HelpWindow(
                self._version, self._keys_page, self._cautions_page, self._window
            )
        self._help.show_page(key)

    def open_glossary(self) -> None:
        """Open the page of every quantity."""
        self.open_page("quantities")

    def open_keys(self) -> None:
        """Open the keyboard map."""
        self.open_page("keys")

    def open_model_note(self) -> None:
        """Open the model note."""
        self.open_page("model_note")

    def open_about(self) -> None:
        """Say what the program is."""
        self.open_page("about")

    def _keys_page(self) -> str:
        from explorer.widgets.help.pages import keys_html

        return keys_html(key_lines(self._window))

    def _cautions_page(self) -> str:
        from explorer.widgets.help.pages import cautions_html

        title = tr("Cautions for this scenario")
        return f"<h2>{title}</h2>" + cautions_html(cautions(self._document.scenario))

    # --- tour ---

    def start_tour_once(self) -> None:
        """Start the tour at the first run, shortly after the window is there."""
        if not self._settings.settings.tour_seen:
            QTimer.singleShot(_TOUR_DELAY_MS, self, self.start_tour)

    def start_tour(self) -> None:
        """Start the tour from its first step."""
        if self.overlay is None:
            from explorer.widgets.help.tour_overlay import TourOverlay

            self.overlay = TourOverlay(Tour(), self._tour_parts, self._window)
            self.overlay.finished.connect(self._on_tour_finished)
            self.overlay.show()

    def _on_tour_finished(self) -> None:
        self.overlay = None
        self._settings.update(tour_seen=True)
        self._knobs.rows[0].slider.setFocus()


def key_lines(window: QWidget) -> list[KeyLine]:
    """Every shortcut of a window's actions with what it does."""
    from explorer.widgets.help.pages import KeyLine

    native = QKeySequence.SequenceFormat.NativeText
    return [
        KeyLine(
            keys=", ".join(key.toString(native) for key in action.shortcuts()),
            what=action.toolTip().partition(" (")[0].replace("&", ""),
        )
        for action in window.findChildren(QAction)
        if action.shortcuts() and action.isVisible()
    ]

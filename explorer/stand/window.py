"""The full-screen window of the stand: page, veils, corners, and who is there."""

from __future__ import annotations

import logging
from pathlib import Path

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import (
    QCloseEvent,
    QGuiApplication,
    QHideEvent,
    QInputDevice,
    QKeyEvent,
    QMouseEvent,
    QPixmap,
    QResizeEvent,
    QShowEvent,
)
from PySide6.QtWidgets import QApplication, QStyle, QWidget

from explorer.advice.assess import Assessment
from explorer.files.beside import resolve_case
from explorer.scenario.model import Scenario
from explorer.stand.attract import AttractVeil
from explorer.stand.celebration import Celebration
from explorer.stand.counts import Counts
from explorer.stand.day import DAY_S
from explorer.stand.exhibits import Exhibit
from explorer.stand.keypad import Keypad
from explorer.stand.leave import ESC, LEFT, RIGHT, CornerPad, HoldRing, LeaveGesture
from explorer.stand.live_meter import LiveMeter
from explorer.stand.page import StandPage
from explorer.stand.parked import ParkedScenarios
from explorer.stand.session import StandSession
from explorer.stand.stand_document import StandDocument
from explorer.stand.taking_home import TakeHome
from explorer.stand.touch import TouchRouter
from explorer.stand.veils import Dissolve, WarningVeil
from explorer.state import theme
from explorer.state.frames import FramesOf
from explorer.state.jobs import JobRunner
from explorer.state.language import NAMES, Code, language
from explorer.state.solver import FRAME_JOB, Solver
from explorer.state.stand_plan import StandPlan
from explorer.state.workers import Workers
from explorer.text import say

LOG = logging.getLogger(__name__)
PATIENCE_MS = 300
"""After this long without an answer the page says that it works on one."""
WORKING = say("Working it out…")
_ACTIVE = (
    QEvent.Type.MouseButtonPress,
    QEvent.Type.MouseButtonRelease,
    QEvent.Type.TouchBegin,
    QEvent.Type.TouchEnd,
    QEvent.Type.Wheel,
    QEvent.Type.KeyPress,
)
_PASSIVE_KEYS = (
    Qt.Key.Key_Tab,
    Qt.Key.Key_Backtab,
    Qt.Key.Key_Escape,
    Qt.Key.Key_Shift,
    Qt.Key.Key_Control,
    Qt.Key.Key_Alt,
    Qt.Key.Key_Meta,
)
"""Keys that move about or belong to the operator: they do not begin a visit."""


class StandWindow(QWidget):
    """Owns everything of one run of the stand; `left` says that the operator ended it."""

    left = Signal()
    language_wanted = Signal(str)
    """A visitor wants the page in another language, by its code."""

    def __init__(
        self,
        plan: StandPlan,
        exhibits: tuple[Exhibit, ...],
        parked: ParkedScenarios,
        parent: QWidget | None = None,
        *,
        counts: Counts | None = None,
        workers: Workers | None = None,
        runs: Path | None = None,
    ) -> None:
        super().__init__(parent, Qt.WindowType.Window | Qt.WindowType.FramelessWindowHint)
        self.setObjectName("stand")
        self.setWindowTitle(plan.title)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.PreventContextMenu)
        self.setPalette(theme.palette_of(theme.resolve(plan.theme)))
        self.setAutoFillBackground(True)
        self._leaving = False
        self._runs = runs
        self.meter: LiveMeter | None = None
        self._day_of: Scenario | None = None
        self.document = StandDocument(parent=self)
        self.jobs = JobRunner(self, workers=workers)
        self.solver = Solver(self.document, self.jobs, self)
        self.session = StandSession(
            plan, exhibits, self.document, self.solver, parked, counts, parent=self
        )
        FramesOf(self, self.solver)
        self.page = StandPage(self.session, self.document, self.solver, self)
        self.dissolve = Dissolve(self)
        self.attract = AttractVeil(self)
        self.attract.set_contact(plan.contact)
        self.attract.set_loop(plan.cycle_s)
        self.warning = WarningVeil(self)
        self.celebration = Celebration(self)
        self.home = TakeHome(self.page, self)
        self.gesture = LeaveGesture(parent=self)
        self.corners = (CornerPad(LEFT, self.gesture, self), CornerPad(RIGHT, self.gesture, self))
        self.keypad = Keypad(plan.code_hash, self)
        self.touch = TouchRouter(self)
        self.ring = HoldRing(self)
        self.ring.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.ring.hide()
        self.attract.begun.connect(self.session.touched)
        self.attract.paused.connect(self.session.set_paused)
        self.warning.extended.connect(self.session.touched)
        self.session.stage_changed.connect(self._on_stage)
        self.session.countdown_changed.connect(self._on_countdown)
        self.session.exhibit_changed.connect(self._on_exhibit)
        self.session.paused_changed.connect(self.attract.set_paused)
        self.session.won.connect(self._on_won)
        self.page.cards.home_wanted.connect(self._on_home)
        self.home.veil.closed.connect(self._on_home_closed)
        self.solver.result_ready.connect(self._on_result)
        self._waiting = QTimer(self)
        self._waiting.setSingleShot(True)
        self._waiting.setInterval(PATIENCE_MS)
        self._waiting.timeout.connect(self._on_waiting)
        self.jobs.started.connect(self._on_job)
        self.gesture.progressed.connect(self._on_held)
        self.gesture.completed.connect(self.leave)
        self.gesture.corner_held.connect(self.keypad.open)
        self.keypad.accepted.connect(self.leave)
        other = self.other_language()
        self.attract.set_other_language(NAMES[other] if other else "")
        self.page.cards.set_language(NAMES[other] if other else "")
        self.attract.language_wanted.connect(self._on_language)
        self.page.cards.language_wanted.connect(self._on_language)
        self.attract.set_pictures(_picture(plan.logo), _picture(plan.picture))

    def start(self) -> None:
        """Show the first scenario and wait for visitors."""
        application = QApplication.instance()
        assert application is not None
        application.installEventFilter(self)
        self.session.start()
        self.solver.solve_now()
        self._follow_meter()

    def other_language(self) -> Code | None:
        """To which language a visitor may switch; None where there is none."""
        others = [code for code in self.session.plan.languages if code != language()]
        return others[0] if len(self.session.plan.languages) > 1 and others else None

    def _on_language(self) -> None:
        other = self.other_language()
        if other is not None:
            self.language_wanted.emit(other)

    def leave(self, *, keep: bool = True) -> None:
        """End the stand: keep what is on show, stop the clock, close.

        Parameters
        ----------
        keep : bool
            False where another window goes on with the visit.
        """
        if self._leaving:
            return
        self._leaving = True
        application = QApplication.instance()
        if application is not None:
            application.removeEventFilter(self)
        self.session.stop(keep=keep)
        if self.meter is not None:
            self.meter.stop()
        self.page.rest()
        self.jobs.retire()
        self.jobs.finish()
        self.close()
        self.left.emit()

    def _follow_meter(self) -> None:
        """Begin to read the meter that the keeper named."""
        plan, runs = self.session.plan, self._runs
        if not plan.meter or runs is None:
            return
        exhibits = self.session.exhibits
        named = [e for e in exhibits if e.name == plan.meter_scenario]
        scenario = (named or list(exhibits))[0]
        case = resolve_case(scenario.scenario, scenario.path)
        self.meter = LiveMeter(case, runs, self.jobs, self)
        self.page.follow(self.meter)
        self.meter.start(plan.meter)

    # --- who is there ---

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """See every touch and key before the part that it is for."""
        kind = event.type()
        if kind == QEvent.Type.MouseMove or kind == QEvent.Type.MouseButtonPress:
            self._mind_cursor(event)
        if kind == QEvent.Type.KeyRelease and isinstance(event, QKeyEvent):
            if event.key() == Qt.Key.Key_Escape and not event.isAutoRepeat():
                self.gesture.release_key()
            return False
        if kind == QEvent.Type.TouchBegin:
            self.setCursor(Qt.CursorShape.BlankCursor)
        if kind not in _ACTIVE or not isinstance(watched, QWidget) or watched.window() is not self:
            return False
        if isinstance(event, QKeyEvent):
            return self._on_key(event)
        if self.session.stage == "visit":
            self.session.touched()
        return False

    def _on_key(self, event: QKeyEvent) -> bool:
        """Whether the key ends here."""
        if event.key() == Qt.Key.Key_Escape:
            if not event.isAutoRepeat():
                self.gesture.press(ESC)
            if self.session.stage == "warning":
                self.session.touched()
            return True
        if self.session.stage == "visit":
            self.session.touched()
        elif self.session.stage == "warning":
            self.session.touched()
            return True
        return False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """A key that no part wanted begins a visit."""
        if self.session.stage == "attract" and event.key() not in _PASSIVE_KEYS:
            self.session.touched()
        event.accept()

    def _mind_cursor(self, event: QEvent) -> None:
        if isinstance(event, QMouseEvent):
            touch = event.pointingDevice().type() == QInputDevice.DeviceType.TouchScreen
            blank = self.cursor().shape() == Qt.CursorShape.BlankCursor
            if touch and not blank:
                self.setCursor(Qt.CursorShape.BlankCursor)
            elif blank and not touch:
                self.unsetCursor()

    # --- what the session says ---

    def _on_stage(self, stage: str) -> None:
        self.attract.setVisible(stage == "attract")
        self.warning.setVisible(stage == "warning")
        self.page.headline.speaks = stage == "visit"
        if stage != "visit":
            self.celebration.end()
        if stage == "attract":
            self.home.close()
        # What lies under a veil must not take the keyboard.
        self.page.setEnabled(True)
        for part in self._reachable():
            wanted = Qt.FocusPolicy.StrongFocus if stage == "visit" else Qt.FocusPolicy.NoFocus
            part.setFocusPolicy(wanted)
        focus: QWidget = self.attract.begin
        if stage == "warning":
            focus = self.warning.go_on
        elif stage == "visit":
            focus = self.page.knobs[0].slider
        if self.keypad.isVisible():
            self.keypad.goes_back_to(focus)
        else:
            focus.setFocus(Qt.FocusReason.OtherFocusReason)
        self._stack()

    def _reachable(self) -> list[QWidget]:
        found: list[QWidget] = [*self.page.cards.cards, self.page.cards.earlier]
        found += [self.page.cards.later, self.page.cards.challenge, self.page.cards.home]
        found += [self.page.cards.again, self.page.cards.language]
        for knob in self.page.knobs:
            found += [knob.down, knob.slider, knob.up]
        return found

    def _on_countdown(self, seconds: int) -> None:
        self.warning.set_left(seconds, self.session.plan.warning_s)

    def _on_exhibit(self, index: int) -> None:
        self.attract.set_position(index, len(self.session.exhibits))
        seen = self.session.stage == "attract" and self.attract.scene is not None
        if seen and self.isVisible() and not self.motion_is_reduced():
            self.dissolve.setGeometry(self.rect())
            self.dissolve.hold(self.attract.grab())
            self._stack()

    def _on_won(self, text: str) -> None:
        self.celebration.setGeometry(self.page.picture_rect())
        self.celebration.begin(text, with_motion=not self.motion_is_reduced())
        self._stack()

    def _on_home(self) -> None:
        if self.home.open():
            self.session.taken_home()
            self.page.setEnabled(False)
            self._stack()

    def _on_home_closed(self) -> None:
        self.session.touched()
        self.home.close()
        self.page.setEnabled(True)
        self.page.cards.home.setFocus(Qt.FocusReason.OtherFocusReason)

    def _on_job(self, key: str) -> None:
        if key == FRAME_JOB:
            self._waiting.start()

    def _on_waiting(self) -> None:
        self.page.notes.say(WORKING)

    def _on_result(self, found: Assessment) -> None:
        self._waiting.stop()
        self._show_day(found)
        self.dissolve.go()

    def _show_day(self, found: Assessment) -> None:
        """The day of the scenario on show, as it was before anybody moved a knob."""
        if found.scenario != self.document.start:
            return
        if self._day_of is found.scenario and self.session.stage != "attract":
            return
        self._day_of = found.scenario
        log = self.document.log
        offset_s = log.start_of_week_s % DAY_S if log is not None and log.start else 0.0
        self.attract.with_motion = not self.motion_is_reduced()
        self.attract.set_exhibit(self.session.plan.title, found, offset_s)

    def _on_held(self, source: str, share: float) -> None:
        if source == ESC:
            self.ring.setVisible(share > 0)
            self.ring.set_share(share)
            self.ring.raise_()

    def motion_is_reduced(self) -> bool:
        """Whether the set-up or the system asks for no motion."""
        if self.session.plan.reduced_motion:
            return True
        hints = getattr(QGuiApplication.styleHints(), "accessibility", None)  # Qt 6.10
        motion = getattr(hints(), "motionPreference", None) if hints is not None else None
        if motion is not None:  # Qt 6.12
            return bool(motion() == Qt.MotionPreference.ReducedMotion)  # type: ignore[attr-defined]
        animates = QStyle.StyleHint.SH_Widget_Animation_Duration
        return self.style().styleHint(animates, None, self) == 0

    # --- the window itself ---

    def showEvent(self, event: QShowEvent) -> None:
        """From now on there is a handle that fingers arrive at."""
        super().showEvent(event)
        self.touch.watch()

    def hideEvent(self, event: QHideEvent) -> None:
        """Nobody touches what is not seen."""
        super().hideEvent(event)
        self.touch.rest()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Page and veils fill the window."""
        super().resizeEvent(event)
        for part in (self.page, self.attract, self.home.veil, self.warning, self.keypad):
            part.setGeometry(self.rect())
        sizes, _ = self.page.divide()
        plan = self.session.plan
        self.attract.set_place(sizes, plan.diagonal_in, plan.distance_m)
        self.warning.set_sizes(sizes)
        self.celebration.set_sizes(sizes)
        self.home.veil.set_sizes(sizes)
        self.keypad.set_sizes(sizes)
        self.celebration.setGeometry(self.page.picture_rect())
        self.touch.set_target(sizes.target)
        pad = round(sizes.target * 1.5)
        self.corners[0].setGeometry(0, 0, pad, pad)
        self.corners[1].setGeometry(self.width() - pad, 0, pad, pad)
        ring = 2 * sizes.target
        self.ring.setGeometry((self.width() - ring) // 2, sizes.gap, ring, ring)
        self._stack()

    def _stack(self) -> None:
        veils = (self.home.veil, self.attract, self.warning, self.dissolve)
        for part in (*veils, self.keypad, *self.corners, self.ring):
            part.raise_()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Only the gesture, or the end of the session, closes the stand."""
        application = QGuiApplication.instance()
        ending = isinstance(application, QGuiApplication) and application.isSavingSession()
        if self._leaving or ending or not event.spontaneous():
            event.accept()
            if not self._leaving:
                self.leave()
        else:
            event.ignore()


def _picture(file: str) -> QPixmap:
    """A picture of the keeper's; none where the file has gone or is no picture."""
    picture = QPixmap(file) if file else QPixmap()
    if file and picture.isNull():
        LOG.warning("the picture %s cannot be shown", file)
    return picture

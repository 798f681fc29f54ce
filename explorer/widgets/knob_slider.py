"""The slider of one knob: walks a list of stops and shows on its track where the design runs."""

from __future__ import annotations

from PySide6.QtCore import QElapsedTimer, QPointF, QRectF, QSignalBlocker, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QFontMetrics,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QSlider, QWidget

from explorer.advice.verdict import State
from explorer.state import theme
from explorer.state.knobs import Knob
from explorer.state.language import tr
from explorer.state.theme import Tokens, tokens_of
from explorer.widgets.paint import focus_pen
from explorer.widgets.spoken import stop_of

_TRACK_Y = 13.0
_HANDLE_RADIUS = 9.0
_MARGIN = 12.0
_HEIGHT = 44
_GRAB_PX = 3.0
_PAUSE_MS = 700
"""Keys or wheel turns further apart than this are two gestures."""
_PAGE = 5
_Laid = tuple[float, float, float, str]
"""Where a landmark begins and ends, where its name begins, and the name. [px]"""
_RANK: dict[State, int] = {"falls_short": 0, "marginal": 1, "runs": 2}


class KnobSlider(QSlider):
    """Emits `picked` only for what a person did; a click in the groove jumps there."""

    picked = Signal(float)
    gesture_started = Signal()
    reset_wanted = Signal()
    typed = Signal(str)
    """A digit, with which somebody begins a value."""

    def __init__(self, knob: Knob, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._knob = knob
        self._exact = knob.stops[0]
        self._shown = ""
        self._small = theme.font("small")
        self._laid: tuple[int, tuple[_Laid, ...]] | None = None
        """Landmarks as they are laid out, and for which width."""
        self._states: tuple[State, ...] = ()
        self._joined: tuple[int, list[tuple[State, float, float]]] | None = None
        """Stretches of the states, and for which width."""
        self._best: float | None = None
        self._is_pending = False
        self._grabbed_at: float | None = None
        self._press_was_on_handle = False
        self._since_key = QElapsedTimer()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.set_knob(knob)
        self.valueChanged.connect(self._on_value_changed)

    def set_knob(self, knob: Knob) -> None:
        """Walk other stops, such as those of a cell in place of a capacitor."""
        self._knob = knob
        self._states, self._best, self._shown = (), None, ""
        self._laid = self._joined = None
        with QSignalBlocker(self):
            self.setRange(0, len(knob.stops) - 1)
        self.update()

    def shows(self, value: float) -> bool:
        """Whether the handle stands at a value that was set."""
        return bool(self._shown) and value == self._exact

    def set_exact(self, value: float, text: str) -> None:
        """Show a value, also one between two stops, without emitting."""
        moved, self._exact = value != self._exact, value
        with QSignalBlocker(self):
            self.setValue(self._knob.position(value))
        self.setAccessibleDescription(tr(text))
        if text != self._shown:
            self._shown = text
            if self.hasFocus() and QAccessible.isActive():
                # Qt's own event would carry the index of the stop.
                said = QAccessibleAnnouncementEvent(self, self.spoken_value())
                QAccessible.updateAccessibility(said)
        if moved:
            self.update()

    def spoken_value(self) -> str:
        """The value with its unit, and which of its stops that is."""
        return stop_of(self.value(), len(self._knob.stops), tr(self._shown))

    def step(self, steps: int) -> None:
        """Go some stops up or down, as the arrow keys do."""
        self._begin_unless_running()
        self._pick(self._knob.step(self._exact, steps))

    def set_states(self, states: tuple[State, ...], best: float | None = None) -> None:
        """Show the verdict at every stop on the track, and mark the best stop."""
        self._states = states if len(states) == len(self._knob.stops) else ()
        self._joined = None
        self._best = best
        self._is_pending = False
        self.update()

    def set_pending(self) -> None:
        """The verdicts on the track hold no longer: it shows none until others come."""
        if not self._is_pending:
            self._is_pending = True
            self.update()

    def sizeHint(self) -> QSize:
        """Track, handle and landmarks."""
        return QSize(220, _HEIGHT)

    def minimumSizeHint(self) -> QSize:
        """As high as the hint."""
        return QSize(120, _HEIGHT)

    # --- what a person does ---

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Grab the handle, or jump to the place that was clicked."""
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        x = event.position().x()
        self._press_was_on_handle = self._on_handle(event.position())
        self._grabbed_at = x
        self.gesture_started.emit()
        self.setSliderDown(True)
        if not self._press_was_on_handle:
            self._grabbed_at = None
            self._pick_at(x)
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag."""
        if not self.isSliderDown():
            event.ignore()
            return
        x = event.position().x()
        if self._grabbed_at is not None and abs(x - self._grabbed_at) < _GRAB_PX:
            return
        self._grabbed_at = None
        self._pick_at(x)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go."""
        if self.isSliderDown():
            self.setSliderDown(False)
            self.update()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Return to the starting value when both clicks were on the handle."""
        if self._press_was_on_handle and self._on_handle(event.position()):
            self.gesture_started.emit()
            self.reset_wanted.emit()
        else:
            self.mousePressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Step, but only where the focus is: a panel scrolls past unfocused sliders."""
        steps = event.angleDelta().y()
        if not self.hasFocus() or not self.rect().contains(event.position().toPoint()) or not steps:
            event.ignore()
            return
        self.step(1 if steps > 0 else -1)
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Walk the stops; Delete returns to the starting value, a digit begins another."""
        key = event.key()
        step = {
            Qt.Key.Key_Left: -1,
            Qt.Key.Key_Down: -1,
            Qt.Key.Key_Right: 1,
            Qt.Key.Key_Up: 1,
            Qt.Key.Key_PageDown: -_PAGE,
            Qt.Key.Key_PageUp: _PAGE,
            Qt.Key.Key_Home: -len(self._knob.stops),
            Qt.Key.Key_End: len(self._knob.stops),
        }.get(Qt.Key(key))
        if step is not None:
            self.step(step)
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.gesture_started.emit()
            self.reset_wanted.emit()
        elif event.text().isdigit():
            self.typed.emit(event.text())
        else:
            super().keyPressEvent(event)

    def _begin_unless_running(self) -> None:
        if not self._since_key.isValid() or self._since_key.elapsed() > _PAUSE_MS:
            self.gesture_started.emit()
        self._since_key.start()

    def _pick_at(self, x: float) -> None:
        left, right = self._ends()
        share = (x - left) / max(right - left, 1.0)
        last = len(self._knob.stops) - 1
        self._pick(self._knob.value(round(min(max(share, 0.0), 1.0) * last)))

    def _pick(self, value: float) -> None:
        if value != self._exact:
            self._exact = value
            with QSignalBlocker(self):
                self.setValue(self._knob.position(value))
            self.update()
            self.picked.emit(value)

    def _on_value_changed(self, position: int) -> None:
        # Only assistive technology gets here: all other ways in set the value blocked.
        self._begin_unless_running()
        self._exact = self._knob.value(position)
        self.update()
        self.picked.emit(self._exact)

    # --- what it looks like ---

    def _ends(self) -> tuple[float, float]:
        return _MARGIN, self.width() - _MARGIN

    def handle_x(self) -> float:
        """Where the middle of the handle is. [px]"""
        left, right = self._ends()
        return left + (right - left) * self._knob.fraction(self._exact)

    def _on_handle(self, at: QPointF) -> bool:
        return (
            abs(at.x() - self.handle_x()) <= _MARGIN and abs(at.y() - _TRACK_Y) <= _TRACK_Y
        )

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint groove, verdicts, landmarks and handle."""
        tokens = tokens_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_groove(painter, tokens)
        self._paint_landmarks(painter, tokens)
        self._paint_handle(painter, tokens)
        painter.end()

    def _paint_groove(self, painter: QPainter, tokens: Tokens) -> None:
        left, right = self._ends()
        painter.setPen(QPen(tokens.color("edge"), 1.0))
        painter.setBrush(tokens.color("line"))
        painter.drawRoundedRect(QRectF(left - 2, _TRACK_Y - 2, right - left + 4, 4), 2, 2)
        painter.setPen(Qt.PenStyle.NoPen)
        if self._is_pending and self._states:
            painter.setBrush(tokens.color("edge"))
            painter.drawRoundedRect(QRectF(left, _TRACK_Y - 1, right - left, 2), 1, 1)
        for state, start, end in self._stretches():
            painter.setBrush(tokens.color(state))
            if state == "runs":
                painter.drawRoundedRect(QRectF(start, _TRACK_Y - 3, end - start, 6), 2, 2)
            elif state == "marginal":
                x = start + 1
                while x < end - 1:  # dashes: half filled, like the half disc
                    painter.drawRect(QRectF(x, _TRACK_Y - 3, min(4.0, end - x), 6))
                    x += 7
        self._paint_best(painter, tokens)

    def _paint_best(self, painter: QPainter, tokens: Tokens) -> None:
        """A notch above the best stop, where more of it would in the end be worse."""
        if self._best is None or self._is_pending or not self._states:
            return
        best = self._states[self._knob.position(self._best)]
        if _RANK[self._states[-1]] >= _RANK[best] or self._best == self._knob.stops[0]:
            return
        left, right = self._ends()
        x = left + (right - left) * self._knob.fraction(self._best)
        painter.setBrush(tokens.color("ink"))
        notch = [QPointF(x - 4, 1), QPointF(x + 4, 1), QPointF(x, 7)]
        painter.drawPolygon(QPolygonF(notch))

    def _stretches(self) -> list[tuple[State, float, float]]:
        """Neighbouring stops of one verdict, as pixels from the middle before to the one after."""
        if self._is_pending or not self._states:
            return []
        if self._joined is not None and self._joined[0] == self.width():
            return self._joined[1]
        left, right = self._ends()
        step = (right - left) / max(len(self._states) - 1, 1)
        found: list[tuple[State, float, float]] = []
        for index, state in enumerate(self._states):
            start = max(left - 2, left + (index - 0.5) * step)
            end = min(right + 2, left + (index + 0.5) * step)
            if found and found[-1][0] == state:
                start = found.pop()[1]
            found.append((state, start, end))
        self._joined = self.width(), found
        return found

    def _landmarks(self) -> tuple[_Laid, ...]:
        """Where each landmark begins and ends, and its name; those that find room. [px]"""
        if self._laid is not None and self._laid[0] == self.width():
            return self._laid[1]
        metrics = QFontMetrics(self._small)
        left, right = self._ends()
        free_from, laid = 0.0, []
        for mark in self._knob.landmarks:
            start = left + (right - left) * self._knob.fraction(mark.low)
            end = left + (right - left) * self._knob.fraction(mark.high)
            text = tr(mark.label)
            width = metrics.horizontalAdvance(text)
            x = min(max((start + end - width) / 2, free_from, 0.0), self.width() - width)
            if x < free_from or (start == end and not x - 6 <= start <= x + width + 6):
                continue
            laid.append((start, end, x, text))
            free_from = x + width + 5
        self._laid = self.width(), tuple(laid)
        return self._laid[1]

    def _paint_landmarks(self, painter: QPainter, tokens: Tokens) -> None:
        painter.setFont(self._small)
        edge, soft = QPen(tokens.color("edge"), 1.0), tokens.color("soft")
        for start, end, x, text in self._landmarks():
            painter.setPen(edge)
            if start == end:
                painter.drawLine(QPointF(start, _TRACK_Y + 11), QPointF(start, _TRACK_Y + 15))
            else:
                y = _TRACK_Y + 13
                painter.drawLine(QPointF(start + 2, y), QPointF(end - 2, y))
                for at in (start + 2, end - 2):
                    painter.drawLine(QPointF(at, y - 2), QPointF(at, y + 2))
            painter.setPen(soft)
            painter.drawText(QPointF(x, _HEIGHT - 4.0), text)

    def _paint_handle(self, painter: QPainter, tokens: Tokens) -> None:
        middle = QPointF(self.handle_x(), _TRACK_Y)
        if self.hasFocus():
            painter.setPen(focus_pen(tokens))
            painter.setBrush(tokens.color("card"))
            painter.drawEllipse(middle, _HANDLE_RADIUS + 3, _HANDLE_RADIUS + 3)
        painter.setPen(QPen(tokens.color("accent"), 3.0))
        filled = self.isSliderDown() or self.underMouse()
        painter.setBrush(tokens.color("accent" if filled else "card"))
        painter.drawEllipse(middle, _HANDLE_RADIUS - 1, _HANDLE_RADIUS - 1)

"""Fingers to controls: each finger its own control, and a palm that rests on the screen none.

Qt turns the first point of a touch into a mouse and gives further ones to the widget of their
nearest neighbour: while a palm rests on the page, no finger would reach a control.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, QPointF, Qt
from PySide6.QtGui import QEventPoint, QMouseEvent, QTouchEvent
from PySide6.QtWidgets import QApplication, QWidget

PALM_TARGETS = 2.2
"""A contact wider than so many least targets is no fingertip (own judgement)."""
_TOUCHES = (
    QEvent.Type.TouchBegin,
    QEvent.Type.TouchUpdate,
    QEvent.Type.TouchEnd,
    QEvent.Type.TouchCancel,
)
_STATE = QEventPoint.State
_LEFT, _NONE = Qt.MouseButton.LeftButton, Qt.MouseButton.NoButton


@dataclass(slots=True, kw_only=True)
class _Finger:
    """A point that is on the screen."""

    target: QWidget | None
    """What it holds; None for a palm, and for a second finger on one control."""
    at: QPointF
    """Where it was last, in the window. [px]"""


class TouchRouter(QObject):
    """Hands every finger on a window to the part under it, as presses, moves and releases.

    Parameters
    ----------
    window : QWidget
        The window; its handle is watched from `watch` on.
    """

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._fingers: dict[int, _Finger] = {}
        self._palm_px = 130.0

    def watch(self) -> None:
        """Begin; the window must have a handle."""
        handle = self._window.windowHandle()
        if handle is not None:
            handle.removeEventFilter(self)
            handle.installEventFilter(self)

    def rest(self) -> None:
        """Watch no more: a handle that is being destroyed must meet no filter."""
        handle = self._window.windowHandle()
        if handle is not None:
            handle.removeEventFilter(self)
        self._fingers.clear()

    def set_target(self, pixels: float) -> None:
        """Least width of a control, from which follows what a palm is. [px]"""
        self._palm_px = PALM_TARGETS * pixels

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take every touch of the window."""
        if event.type() not in _TOUCHES or not isinstance(event, QTouchEvent):
            return False
        if event.type() == QEvent.Type.TouchCancel:
            self._let_go(event)
        else:
            for point in event.points():
                self._follow(point, event)
        event.accept()
        return True

    def _follow(self, point: QEventPoint, event: QTouchEvent) -> None:
        if point.state() == _STATE.Pressed:
            self._press(point, event)
            return
        finger = self._fingers.get(point.id())
        if finger is None:
            return
        if point.state() == _STATE.Released:
            finger.at = point.scenePosition()
            del self._fingers[point.id()]
            self._send(finger, QEvent.Type.MouseButtonRelease, event)
        elif point.state() == _STATE.Updated:
            finger.at = point.scenePosition()
            self._send(finger, QEvent.Type.MouseMove, event)

    def _press(self, point: QEventPoint, event: QTouchEvent) -> None:
        at = point.scenePosition()
        target = self._window.childAt(at.toPoint()) or self._window
        while target is not self._window and not target.isEnabled():
            parent = target.parentWidget()
            target = self._window if parent is None else parent
        size = point.ellipseDiameters()
        held = any(f.target is target for f in self._fingers.values())
        is_palm = max(size.width(), size.height()) > self._palm_px
        finger = _Finger(target=None if held or is_palm else target, at=at)
        self._fingers[point.id()] = finger
        self._send(finger, QEvent.Type.MouseButtonPress, event)

    def _let_go(self, event: QTouchEvent) -> None:
        """The system takes the touch away: nothing was meant by it."""
        for finger in self._fingers.values():
            finger.at = QPointF(-1e4, -1e4)  # beside everything, so that no button clicks
            self._send(finger, QEvent.Type.MouseButtonRelease, event)
        self._fingers.clear()

    def _send(self, finger: _Finger, kind: QEvent.Type, event: QTouchEvent) -> None:
        if finger.target is None:
            return
        local = QPointF(finger.target.mapFrom(self._window, finger.at))
        across = self._window.mapToGlobal(finger.at)
        moves = kind == QEvent.Type.MouseMove
        mouse = QMouseEvent(
            kind, local, finger.at, across, _NONE if moves else _LEFT,
            _NONE if kind == QEvent.Type.MouseButtonRelease else _LEFT,
            Qt.KeyboardModifier.NoModifier, event.pointingDevice(),
        )  # fmt: skip
        QApplication.sendEvent(finger.target, mouse)

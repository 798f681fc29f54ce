"""The map itself: verdicts over two quantities, axes, and the present design as a point to drag."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QEvent, QLineF, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QFocusEvent,
    QFontMetrics,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QTransform,
)
from PySide6.QtSvg import QSvgGenerator
from PySide6.QtWidgets import QApplication, QSizePolicy, QWidget

from explorer.advice.territory import Territory
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.theme import Tokens, tokens_of
from explorer.widgets.drawers.scales import Scale
from explorer.widgets.drawers.territory_paint import MapPicture, map_picture
from explorer.widgets.paint import focus_pen
from explorer.words.drawers import axis_value

_LEFT, _TOP, _RIGHT, _BOTTOM = 58.0, 27.0, 12.0, 38.0
_TICK, _TALL = 26.0, 800.0
"""Room for a value beside the map, and a height at which all that may stand there do. [px]"""
_POINT = 7.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Key:
    width: int
    height: int
    ratio: float
    theme: str


class TerritoryMap(QWidget):
    """Shows a territory; mouse and arrow keys move the present point."""

    spoken_role = QAccessible.Role.Graphic

    gesture_started = Signal()
    moved = Signal(float, float)
    """Carries the values that a person moved the point to."""
    pointed = Signal(float, float)
    """Carries the values under the pointer, as far as they are had."""
    unpointed = Signal()
    taken = Signal(float, float)
    """Carries the values of a place that a person chose by a click or Enter."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._found: Territory | None = None
        self._x: Scale | None = None
        self._y: Scale | None = None
        self._point = (0.0, 0.0)
        self._pressed: QPointF | None = None
        """Where a press began that may still be a click."""
        self._dragging = False
        self._under: tuple[float, float] | None = None
        """Values under the pointer."""
        self._left = _LEFT
        self._picture: MapPicture | None = None
        self._flat = QImage()
        """The picture with its lines."""
        self._key: _Key | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(188, 150)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMouseTracking(True)
        self.setAccessibleName(
            tr("Map of verdicts; arrow keys move the present design, Enter takes the nearest build")
        )

    def sizeHint(self) -> QSize:
        """As much as there is."""
        return QSize(420, 260)

    def set_axes(self, x: Scale, y: Scale) -> None:
        """Show other quantities; the map follows when it is found."""
        self._x, self._y, self._found, self._picture = x, y, None, None
        self._under = None
        metrics = QFontMetrics(theme.font("small"))
        names = [tr(tick.text) for tick in y.ticks(_TALL, _TICK)]
        self._left = max(0.0, _LEFT, *(metrics.horizontalAdvance(name) + 10.0 for name in names))
        self.update()

    def set_territory(self, found: Territory) -> None:
        """Show a map over the axes that were set."""
        self._found, self._picture = found, None
        self.update()

    def set_point(self, x: float, y: float) -> None:
        """Show where the present design is, without emitting."""
        if (x, y) != self._point:
            self._point = (x, y)
            self.update()
            if self._x is not None and self._y is not None:
                self.setAccessibleDescription(
                    f"{tr(self._x.axis.label)} {tr(axis_value(self._x.axis, x))}, "
                    f"{tr(self._y.axis.label)} {tr(axis_value(self._y.axis, y))}"
                )

    @property
    def shown_values(self) -> tuple[float, float]:
        """Values under the pointer, or those of the present design."""
        return self._point if self._under is None else self._under

    def area(self) -> QRectF:
        """Where the map lies. [px]"""
        return QRectF(self.rect()).adjusted(self._left, _TOP, -_RIGHT, -_BOTTOM)

    def place(self, x: float, y: float) -> QPointF:
        """Pixel of two values."""
        assert self._x is not None
        assert self._y is not None
        area = self.area()
        return QPointF(
            area.left() + self._x.share(x) * area.width(),
            area.bottom() - self._y.share(y) * area.height(),
        )

    # --- what a person does ---

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Begin to drag the point, or to choose a place."""
        if event.button() == Qt.MouseButton.LeftButton and self._holds(event.position()):
            self._pressed, self._dragging = event.position(), True

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag the point, or look at the place under the pointer."""
        at = event.position()
        if self._pressed is not None:
            if (at - self._pressed).manhattanLength() < QApplication.startDragDistance():
                return
            self._pressed = None
            self.gesture_started.emit()
        if self._dragging:
            self._move_to(at)
        self._look_at(at if self._holds(at) and not self._dragging else None)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let the point go; a click beside it takes what is there."""
        at, self._pressed, self._dragging = self._pressed, None, False
        if at is not None and (at - self.place(*self._point)).manhattanLength() > 2 * _POINT:
            self.taken.emit(*self._values(at))

    def leaveEvent(self, event: QEvent) -> None:
        """Look at the present design again."""
        super().leaveEvent(event)
        self._look_at(None)

    def _holds(self, at: QPointF) -> bool:
        inside = self.area().adjusted(-8, -8, 8, 8).contains(at)
        return inside and self._x is not None and self._y is not None

    def _look_at(self, at: QPointF | None) -> None:
        under = None if at is None else self._values(at)
        if under != self._under:
            self._under = under
            self.update()
            if under is None:
                self.unpointed.emit()
            else:
                self.pointed.emit(*under)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows move the point by one stop, Enter takes the build that is nearest to it."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self._x is not None:
            self.taken.emit(*self._point)
            return
        steps = {
            Qt.Key.Key_Left: (-1, 0),
            Qt.Key.Key_Right: (1, 0),
            Qt.Key.Key_Up: (0, 1),
            Qt.Key.Key_Down: (0, -1),
        }.get(Qt.Key(event.key()))
        if steps is None or self._x is None or self._y is None:
            super().keyPressEvent(event)
            return
        self.gesture_started.emit()
        x, y = self._point
        x = self._x.stop(x, steps[0]) if steps[0] else x
        y = self._y.stop(y, steps[1]) if steps[1] else y
        if (x, y) != self._point:
            self.moved.emit(x, y)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show the focus ring."""
        super().focusInEvent(event)
        self.update()

    def _values(self, at: QPointF) -> tuple[float, float]:
        """Values at a pixel, of parts the nearest that is had."""
        assert self._x is not None
        assert self._y is not None
        area = self.area()
        return (
            self._x.value((at.x() - area.left()) / area.width()),
            self._y.value((area.bottom() - at.y()) / area.height()),
        )

    def _move_to(self, at: QPointF) -> None:
        values = self._values(at)
        if values != self._point:
            self.moved.emit(*values)

    # --- painting ---

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint map, axes and point."""
        painter = QPainter(self)
        self._paint(painter, tokens_of(self.palette()))
        painter.end()

    def _paint(self, painter: QPainter, tokens: Tokens) -> None:
        area = self.area()
        if self._x is None or self._y is None or area.width() < 20 or area.height() < 20:
            return
        device = painter.device()
        picture = self._drawn(device.devicePixelRatioF(), tokens)
        if picture is not None and isinstance(device, QSvgGenerator):
            painter.drawImage(area, picture.image)
            _paint_contours(painter, area, picture, tokens)
        elif picture is not None:
            painter.drawImage(area, self._flat)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.setPen(QPen(tokens.color("edge"), 1.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(area)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_axes(painter, area, tokens)
        if self._under is not None:
            painter.setPen(QPen(tokens.color("ink"), 1.5))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawEllipse(self.place(*self._under), 4.0, 4.0)
        self._paint_point(painter, area, tokens)
        if self.hasFocus():
            painter.setPen(focus_pen(tokens))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(area.adjusted(-2, -2, 2, 2), 3, 3)

    def _drawn(self, ratio: float, tokens: Tokens) -> MapPicture | None:
        if self._found is None:
            return None
        assert self._x is not None
        assert self._y is not None
        area = self.area()
        key = _Key(
            width=int(area.width()), height=int(area.height()), ratio=ratio, theme=tokens.name
        )
        if self._picture is None or key != self._key:
            self._picture = map_picture(
                self._found, self._x, self._y, key.width, key.height, ratio, tokens
            )
            self._key = key
            # A drag paints at every frame, and a thousand short lines take longer than that.
            self._flat = self._picture.image.copy()
            painter = QPainter(self._flat)
            _paint_contours(
                painter, QRectF(0, 0, key.width, key.height), self._picture, tokens
            )
            painter.end()
        return self._picture

    def _paint_axes(self, painter: QPainter, area: QRectF, tokens: Tokens) -> None:
        assert self._x is not None
        assert self._y is not None
        painter.setFont(theme.font("small"))
        metrics = painter.fontMetrics()
        align = Qt.AlignmentFlag
        painter.setPen(tokens.color("soft"))
        for tick in self._x.ticks(area.width(), 62.0):
            x = area.left() + tick.share * area.width()
            painter.drawLine(QLineF(x, area.bottom(), x, area.bottom() + 4))
            text = tr(tick.text)
            width = metrics.horizontalAdvance(text) + 2.0
            left = min(max(x - width / 2, 0.0), self.width() - width)
            box = QRectF(left, area.bottom() + 5, width, metrics.height())
            painter.drawText(box, align.AlignHCenter | align.AlignTop, text)
        for tick in self._y.ticks(area.height(), _TICK):
            y = area.bottom() - tick.share * area.height()
            painter.drawLine(QLineF(area.left() - 4, y, area.left(), y))
            box = QRectF(0, y - 8, area.left() - 7, 16)
            painter.drawText(box, align.AlignRight | align.AlignVCenter, tr(tick.text))
        painter.setPen(tokens.color("ink"))
        below = QRectF(2, self.height() - metrics.height() - 1, area.right() - 2, 18)
        painter.drawText(below, align.AlignRight | align.AlignTop, f"{_title(self._x)} →")
        above = QRectF(2, 1, self.width() - 4, 18)
        painter.drawText(above, align.AlignLeft | align.AlignVCenter, f"↑ {_title(self._y)}")

    def _paint_point(self, painter: QPainter, area: QRectF, tokens: Tokens) -> None:
        at = self.place(*self._point)
        inside = area.adjusted(-1, -1, 1, 1).contains(at)
        at.setX(min(max(at.x(), area.left()), area.right()))
        at.setY(min(max(at.y(), area.top()), area.bottom()))
        painter.setPen(QPen(tokens.color("ink"), 1.0, Qt.PenStyle.DotLine))
        painter.drawLine(QLineF(at.x(), at.y(), at.x(), area.bottom()))
        painter.drawLine(QLineF(area.left(), at.y(), at.x(), at.y()))
        painter.setPen(QPen(tokens.color("card"), 5.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawEllipse(at, _POINT, _POINT)
        painter.setPen(QPen(tokens.color("ink"), 2.5))
        painter.setBrush(tokens.color("card") if inside else Qt.BrushStyle.NoBrush)
        painter.drawEllipse(at, _POINT, _POINT)


def _paint_contours(
    painter: QPainter, area: QRectF, picture: MapPicture, tokens: Tokens
) -> None:
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    to_area = QTransform.fromTranslate(area.left(), area.top())
    to_area.scale(area.width(), area.height())
    for lines, role, width in (
        (picture.margin_wanted, "runs", 1.75),
        (picture.margin_one, "falls_short", 1.75),
    ):
        painter.setPen(QPen(tokens.color(role), width))
        painter.drawLines([to_area.map(line) for line in lines])


def _title(scale: Scale) -> str:
    label = scale.axis.label
    return tr("{label}, logarithmic", label=label) if scale.is_log else tr(label)

"""The page while nobody is there: a question, the thing, its verdict, and its day passing by."""

from __future__ import annotations

from PySide6.QtCore import QElapsedTimer, QRect, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import QHideEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QPixmap, QShowEvent
from PySide6.QtWidgets import QWidget

from explorer.advice.assess import Assessment
from explorer.advice.verdict import State
from explorer.stand.big_button import BigButton
from explorer.stand.day import day_of
from explorer.stand.fit_label import FitLabel, sized_font
from explorer.stand.legibility import ATTRACT_ARCMIN, GOOD_ARCMIN, Sizes, font_px
from explorer.stand.scene import Scene
from explorer.stand.scenery import Place
from explorer.state.language import tr
from explorer.state.theme import CONTRAST, Tokens, tokens_of
from explorer.widgets.paint import paint_filling
from explorer.words import readout

FRAME_MS = 40
"""Time between two pictures: 25 a second."""
STILLS_H = (6.7, 13.0, 22.0)
"""Hours that are shown in turn where no motion is wanted. [h]"""
MOST_LINES = 3
_CENTRE = Qt.AlignmentFlag.AlignCenter
_SHARES = (0.36, 0.68)
"""Parts of the loop up to which the question and the thing are named; then comes the verdict."""


class AttractVeil(QWidget):
    """Over the whole page: a touch anywhere begins; its lower part says so."""

    begun = Signal()
    paused = Signal(bool)
    language_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.begin = BigButton(tr("Touch to begin"), primary=True, parent=self)
        self.contact = FitLabel(role="ink", align=_CENTRE, parent=self)
        self.pause = BigButton(tr("Pause"), sign="pause", parent=self)
        self.pause.setAccessibleDescription(tr("Holds the change from one scenario to the next"))
        self.language = BigButton(parent=self)
        self.language.hide()
        self.begin.clicked.connect(self.begun)
        self.pause.clicked.connect(self._on_pause)
        self.language.clicked.connect(self.language_wanted)
        self.with_motion = True
        self.scene: Scene | None = None
        self._question, self._thing, self._word = "", "", ""
        self._state: State | None = None
        self._count, self._index = 1, 0
        self._pressed = self._is_paused = False
        self._loop_s = 24.0
        self._since = QElapsedTimer()
        self._before_s = 0.0
        self._place = Place(
            window=QRectF(), bench=QRectF(), room=QRectF(), ribbon=QRectF(), px=16.0
        )
        self._words = QRectF()
        self._px, self._clock = 100.0, QRectF()
        self._logo = QPixmap()
        self._picture = QPixmap()
        self._timer = QTimer(self)
        self._timer.setInterval(FRAME_MS)
        self._timer.timeout.connect(self._on_frame)

    # --- what it shows ---

    def set_exhibit(self, question: str, found: Assessment, offset_s: float) -> None:
        """Show another scenario, from the beginning of its day.

        Parameters
        ----------
        question : str
            What stands first.
        found : Assessment
            What the model says of the scenario.
        offset_s : float
            Time of day at which its trace begins. [s]
        """
        contrast = tokens_of(self.palette()) is CONTRAST
        day = day_of(found, offset_s)
        self.scene = Scene(found.scenario, day, high_contrast=contrast)
        self._question, self._thing = tr(question), found.scenario.title
        sign = readout.sign(found)
        self._word, self._state = tr(sign.word), sign.state
        self._before_s = 0.0
        self._since.start()
        said = f"{self._question} {self._thing}: {self._word}."
        self.setAccessibleName(said)
        self.update()

    def set_loop(self, seconds: float) -> None:
        """How long one day lasts here. [s]"""
        self._loop_s = max(seconds, 5.0)

    def set_pictures(self, logo: QPixmap, picture: QPixmap) -> None:
        """The keeper's own logo, and a picture of the thing in place of the drawn one."""
        self._logo, self._picture = logo, picture
        self.update()

    def set_contact(self, text: str) -> None:
        """The operator's own line."""
        self.contact.show_text(text)

    def set_position(self, index: int, count: int) -> None:
        """Which scenario of how many."""
        self._index, self._count = index, count
        self.update()

    def set_other_language(self, name: str) -> None:
        """Offer another language by its own name; an empty one offers none."""
        self.language.setText(name)
        self.language.setVisible(bool(name))

    def set_paused(self, paused: bool) -> None:
        """Show whether the loop is held, without emitting."""
        if paused and not self._is_paused:
            self._before_s = self._passed_s()
        elif not paused:
            self._since.start()
        self._is_paused = paused
        self.pause.setText(tr("Go on") if paused else tr("Pause"))
        self.pause.set_sign("go_on" if paused else "pause")
        self._mind_clock()

    def set_place(self, sizes: Sizes, diagonal_in: float, distance_m: float) -> None:
        """Divide the page anew.

        Parameters
        ----------
        sizes : Sizes
            Of the page.
        diagonal_in, distance_m : float
            Of the screen, and from where it is read: both as in `font_px`. [in, m]
        """
        width, height = self.width(), self.height()
        if width < 40 or height < 40:
            return
        upright = height > width
        margin = max(sizes.margin, round(0.02 * min(width, height)))
        resolution = (width, height)
        wanted = font_px(distance_m, diagonal_in, resolution, ATTRACT_ARCMIN)
        inner = width - 2 * margin
        self._px = min(max(wanted, 0.1 * min(width, height)), inner / 8.2, height * 0.105)
        bar = max(round(0.13 * height), sizes.target)
        line = round(sizes.reason * 1.7) if self.contact.text() else 0
        bar_top = height - margin - bar
        side = max(round(bar * 1.05), sizes.target, round(sizes.near * 6))
        more = side + margin if self.language.isVisibleTo(self) else 0
        self.begin.set_sizes(
            min(font_px(distance_m, diagonal_in, resolution, GOOD_ARCMIN), bar * 0.5,
                (inner - side - more) / 9),
            sizes.target,
        )  # fmt: skip
        self.begin.setGeometry(margin, bar_top, inner - side - margin - more, bar)
        self.pause.set_sizes(sizes.near, sizes.target)
        self.pause.setGeometry(width - margin - side, bar_top, side, bar)
        self.language.set_sizes(sizes.near, sizes.target)
        self.language.setGeometry(width - 2 * margin - 2 * side, bar_top, side, bar)
        self.contact.set_px(sizes.reason)
        self.contact.setGeometry(margin, bar_top - line, inner, line)
        front = round(0.12 * height)
        bench = QRectF(0, bar_top - line - front - 0.3 * margin, width, front)
        glass = inner * (0.34 if upright else 0.19)
        lines = MOST_LINES if upright else 2
        words_high = self._px * 1.22 * lines
        top = margin * 1.2
        pane_high = min(glass * 1.15, bench.top() - top - margin * 2)
        pane_top = top + words_high + margin if upright else top + margin * 0.6
        window = QRectF(width - margin * 1.6 - glass, pane_top, glass, pane_high)
        words_wide = inner if upright else inner - glass - 2.2 * margin
        self._words = QRectF(margin * 1.4, top, words_wide, words_high)
        # A room higher than it is wide would stretch what stands in it.
        room_top = max(top + words_high + margin * 0.8, bench.top() - 0.62 * inner)
        room = QRectF(margin, room_top, inner - (glass * 0.7 if upright else glass * 0.75),
                      max(bench.top() - room_top, 10.0))  # fmt: skip
        clock = min(self._px * 0.8, front * 0.62)
        clock_wide = clock * 3.1
        self._clock = QRectF(width - margin - clock_wide, bench.top() + front * 0.1, clock_wide,
                             front * 0.9)  # fmt: skip
        ribbon = QRectF(margin, bench.top() + front * 0.22, inner - clock_wide - margin,
                        front * 0.68)  # fmt: skip
        self._place = Place(window=window, bench=bench, room=room, ribbon=ribbon, px=sizes.near)
        self.update()

    # --- time ---

    def hour(self) -> float:
        """Time of the day on show. [h]"""
        share = self.share()
        if not self.with_motion:
            return STILLS_H[min(int(share * len(STILLS_H)), len(STILLS_H) - 1)]
        return 24.0 * share

    def share(self) -> float:
        """Part of the loop that has passed, 0 to 1."""
        return (self._passed_s() / self._loop_s) % 1.0

    def part(self) -> str:
        """What the words tell now: the question, the thing or the verdict."""
        share = self.share()
        return "question" if share < _SHARES[0] else "thing" if share < _SHARES[1] else "verdict"

    @property
    def words(self) -> str:
        """What is written now."""
        told = {"question": self._question, "thing": self._thing, "verdict": self._word}
        return told[self.part()]

    @property
    def words_px(self) -> float:
        """Size of these words. [px]"""
        return self._px

    def _passed_s(self) -> float:
        if self._is_paused or not self._since.isValid():
            return self._before_s
        return self._before_s + self._since.elapsed() / 1000.0

    def _mind_clock(self) -> None:
        """Run only while it is seen and wanted."""
        if self.isVisible() and not self._is_paused:
            self._timer.start(FRAME_MS if self.with_motion else 500)
        else:
            self._timer.stop()

    def _on_frame(self) -> None:
        self.update()

    def showEvent(self, event: QShowEvent) -> None:
        """Begin to move."""
        super().showEvent(event)
        self._before_s = 0.0
        self._since.start()
        self._mind_clock()

    def hideEvent(self, event: QHideEvent) -> None:
        """Rest while it is not seen."""
        super().hideEvent(event)
        self._timer.stop()

    # --- what a person does ---

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A press alone does nothing yet."""
        self._pressed = True

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Begin when the finger lifts on the page."""
        if self._pressed and self.rect().contains(event.position().toPoint()):
            self.begun.emit()
        self._pressed = False

    def _on_pause(self) -> None:
        self.paused.emit(not self._is_paused)

    # --- what it looks like ---

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the scene and the words over it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        whole = QRectF(self.rect())
        scene, hour = self.scene, self.hour()
        if scene is None:
            painter.fillRect(whole, tokens_of(self.palette()).color("paper"))
            painter.end()
            return
        scene.paint(painter, whole, self._place, hour)
        tokens = scene.tokens(hour)
        bottom = self._place.bench.bottom()
        painter.fillRect(
            QRectF(0, bottom, whole.width(), whole.height() - bottom),
            tokens_of(self.palette()).color("paper"),
        )
        self._paint_pictures(painter)
        self._paint_words(painter, tokens)
        painter.setPen(tokens.color("ink"))
        size = min(self._clock.height() * 0.62, self._clock.width() / 3.1)
        painter.setFont(sized_font(size, bold=True))
        clock = f"{int(hour) % 24:02}:{int(hour * 6) % 6 * 10:02}"
        painter.drawText(self._clock, int(_CENTRE.value), clock)
        self._paint_dots(painter, tokens)
        painter.end()

    def _paint_words(self, painter: QPainter, tokens: Tokens) -> None:
        box, part = QRectF(self._words), self.part()
        if part == "verdict" and self._state is not None:
            side = self._px * 1.3
            lamp = QRectF(box.left(), box.top() + self._px * 0.06, side, side)
            painter.setPen(QPen(tokens.color("edge"), 2.0))
            painter.setBrush(tokens.color("card"))
            painter.drawEllipse(lamp)
            inset = side * 0.14
            paint_filling(
                painter, lamp.adjusted(inset, inset, -inset, -inset), self._state, tokens
            )
            box.setLeft(box.left() + side * 1.25)
        painter.setPen(tokens.color("ink"))
        flags = int((Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop).value)
        flags |= int(Qt.TextFlag.TextWordWrap.value)
        px, text = self._px, self.words
        while px > 12:
            painter.setFont(sized_font(px, bold=True))
            free = QRect(0, 0, int(box.width()), 100_000)
            needed = painter.fontMetrics().boundingRect(free, flags, text)
            if needed.height() <= box.height() + 2 and needed.width() <= box.width():
                break
            px *= 0.96
        painter.drawText(box, flags, text)

    def _paint_pictures(self, painter: QPainter) -> None:
        """The keeper's picture in the room, and the logo in the window."""
        if not self._picture.isNull():
            _paint_fitted(painter, self._picture, self._place.room)
        if not self._logo.isNull():
            pane = self._place.window
            box = QRectF(pane.left(), pane.bottom() + 8, pane.width(),
                         max(self._place.bench.top() - pane.bottom() - 16, 0.0))  # fmt: skip
            _paint_fitted(painter, self._logo, box)

    def _paint_dots(self, painter: QPainter, tokens: Tokens) -> None:
        """Which scenario of how many, on the edge of the bench."""
        if self._count < 2:
            return
        bench = self._place.bench
        radius = max(bench.height() * 0.045, 3.0)
        x = bench.left() + self._words.left()
        for index in range(self._count):
            painter.setPen(QPen(tokens.color("edge"), 1.5))
            painter.setBrush(tokens.color("accent" if index == self._index else "card"))
            size = radius * (1.4 if index == self._index else 1.0)
            at = QRectF(x - size, bench.top() + bench.height() * 0.14 - size, 2 * size, 2 * size)
            painter.drawEllipse(at)
            x += radius * 4.5


def _paint_fitted(painter: QPainter, picture: QPixmap, box: QRectF) -> None:
    """A picture as large as its box allows, in its own proportions."""
    if box.width() < 8 or box.height() < 8:
        return
    scale = min(box.width() / picture.width(), box.height() / picture.height())
    wide, high = picture.width() * scale, picture.height() * scale
    centre = box.center()
    target = QRectF(centre.x() - wide / 2, centre.y() - high / 2, wide, high)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.drawPixmap(target, picture, QRectF(picture.rect()))

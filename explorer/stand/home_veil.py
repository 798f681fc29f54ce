"""Over the page: the design that was made, as a code for a phone, a print, or a file on a stick."""

from __future__ import annotations

from PySide6.QtCore import QRect, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from explorer.stand.big_button import BigButton
from explorer.stand.fit_label import FitLabel
from explorer.stand.legibility import Sizes
from explorer.stand.take_home import QUIET_MODULES, Design, modules_of
from explorer.stand.veil_paint import paint_veil
from explorer.state.language import tr

_TOP_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop


class CodeView(QWidget):
    """Paints a code, black on white in every theme, with its quiet margin."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows: tuple[tuple[bool, ...], ...] = ()

    def set_content(self, content: str) -> None:
        """Show another content; an empty one shows none."""
        self._rows = modules_of(content) if content else ()
        self.setAccessibleName(tr("Code that holds: {content}", content=content))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the squares on whole pixels, so that they stay sharp."""
        painter = QPainter(self)
        paint_code(painter, QRectF(self.rect()), self._rows)
        painter.end()


def paint_code(painter: QPainter, area: QRectF, rows: tuple[tuple[bool, ...], ...]) -> None:
    """A code in the middle of an area, as large as whole pixels allow."""
    if not rows:
        return
    count = len(rows) + 2 * QUIET_MODULES
    side = max(int(min(area.width(), area.height()) / count), 1)
    left = round(area.center().x() - side * count / 2)
    top = round(area.center().y() - side * count / 2)
    painter.fillRect(QRect(left, top, side * count, side * count), QColor(Qt.GlobalColor.white))
    black = QColor(Qt.GlobalColor.black)
    for y, row in enumerate(rows):
        for x, dark in enumerate(row):
            if dark:
                painter.fillRect(
                    QRect(left + (x + QUIET_MODULES) * side, top + (y + QUIET_MODULES) * side,
                          side, side),
                    black,
                )  # fmt: skip


class HomeVeil(QWidget):
    """Shows what can be taken home; a touch beside the card goes back."""

    closed = Signal()
    print_wanted = Signal()
    stick_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._card = QRect()
        self._sizes: Sizes | None = None
        self.heading = FitLabel(bold=True, parent=self)
        self.heading.show_text(tr("Take it home"))
        self.code = CodeView(self)
        self.text = FitLabel(align=_TOP_LEFT, wraps=True, parent=self)
        self.hint = FitLabel(role="soft", wraps=True, align=_TOP_LEFT, parent=self)
        self.message = FitLabel(bold=True, wraps=True, parent=self)
        self.print = BigButton(tr("Print a sheet"), parent=self)
        self.stick = BigButton(tr("Save on a USB stick"), parent=self)
        self.back = BigButton(tr("Go on"), primary=True, parent=self)
        self.print.clicked.connect(self.print_wanted)
        self.stick.clicked.connect(self.stick_wanted)
        self.back.clicked.connect(self.closed)
        self.hide()

    def show_design(
        self, design: Design, content: str, *, is_link: bool, prints: bool, saves: bool
    ) -> None:
        """Show a design.

        Parameters
        ----------
        design : Design
            In words.
        content : str
            What the code holds.
        is_link : bool
            Whether that is a link.
        prints, saves : bool
            Whether the keeper lets visitors print, and save on a stick.
        """
        values = "\n".join(f"{label}: {value}" for label, value in design.values)
        self.text.show_text(f"{design.title}\n{values}\n{design.word}. {design.reason}")
        self.hint.show_text(
            tr("Point the camera of a phone at the code: it opens a page with this design.")
            if is_link
            else tr(
                "Point the camera of a phone at the code: it shows this text, without a network."
            )
        )
        self.code.set_content(content)
        self.message.show_text("")
        self.print.setVisible(prints)
        self.stick.setVisible(saves)
        self._place()

    def say(self, sentence: str) -> None:
        """What became of a print or a file."""
        self.message.show_text(tr(sentence))

    def set_sizes(self, sizes: Sizes) -> None:
        """Draw to other sizes."""
        self._sizes = sizes
        self.heading.set_px(sizes.near * 1.9)
        self.text.set_px(sizes.near * 1.1)
        self.hint.set_px(sizes.near)
        self.message.set_px(sizes.near)
        for button in (self.print, self.stick, self.back):
            button.set_sizes(sizes.near * 1.1, sizes.target)
        self._place()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep to the middle."""
        super().resizeEvent(event)
        self._place()

    def _place(self) -> None:
        sizes = self._sizes
        if sizes is None or self.width() < 40:
            return
        pad, near = 2 * sizes.gap, sizes.near
        wide = min(self.width() - 2 * sizes.margin, round(self.height() * 1.5), round(near * 52))
        upright = self.height() > self.width()
        buttons = [b for b in (self.print, self.stick, self.back) if not b.isHidden()]
        row = max(round(sizes.target * 1.25), round(near * 2.6))
        rows = len(buttons) if upright else 1
        head, foot = round(near * 2.6), rows * row + (rows - 1) * sizes.gap
        side = wide - 2 * pad if upright else round(wide * 0.44)
        side = min(side, self.height() - 2 * sizes.margin - head - foot - 4 * pad
                   - (round(near * 13) if upright else 0))  # fmt: skip
        body = side + (round(near * 13) if upright else 0)
        high = head + body + foot + 4 * pad
        card = QRect((self.width() - wide) // 2, (self.height() - high) // 2, wide, high)
        self._card = card
        x, y, inner = card.left() + pad, card.top() + pad, wide - 2 * pad
        self.heading.setGeometry(x, y, inner, head)
        y += head + pad // 2
        if upright:
            self.code.setGeometry(x + (inner - side) // 2, y, side, side)
            text = QRect(x, y + side, inner, body - side)
        else:
            self.code.setGeometry(x, y, side, side)
            text = QRect(x + side + pad, y, inner - side - pad, side)
        split = round(text.height() * 0.62)
        self.text.setGeometry(text.left(), text.top(), text.width(), split)
        self.hint.setGeometry(
            text.left(), text.top() + split, text.width(), round(text.height() * 0.22)
        )
        under = text.top() + split + round(text.height() * 0.22)
        self.message.setGeometry(text.left(), under, text.width(), text.bottom() - under)
        y += body + pad
        each = inner if upright else (inner - sizes.gap * (len(buttons) - 1)) // len(buttons)
        for button in buttons:
            button.setGeometry(x, y, each, row)
            if upright:
                y += row + sizes.gap
            else:
                x += each + sizes.gap
        self.update()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Nothing below is touched by accident."""
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Go back when somebody touches beside the card."""
        if not self._card.contains(event.position().toPoint()):
            self.closed.emit()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the veil and the card."""
        paint_veil(self, self._card)

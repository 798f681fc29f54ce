"""A message box that looks like the window that it stands over."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPen, QPixmap, QShowEvent
from PySide6.QtWidgets import (
    QApplication,
    QGridLayout,
    QLabel,
    QMessageBox,
    QSpacerItem,
    QWidget,
)

from explorer.state import theme
from explorer.state.theme import Tokens, tokens_of
from explorer.widgets.paint import paint_hazard

_SIGN = 36
_BESIDE_TITLE, _MOST = 130, 480
"""Taken by a desktop's buttons beside a title, and the most width that a title asks for. [px]"""
_BUTTON = (
    "QPushButton {{ border: 1px solid {edge}; border-radius: 6px; background: {card}; "
    "color: {ink}; min-height: 28px; padding: 0 14px; }}"
    "QPushButton:hover {{ background: {paper}; }}"
    "QPushButton:pressed {{ background: {line}; }}"
    "QPushButton:default {{ background: {accent}; color: {on_accent}; border-color: {accent}; }}"
    "QPushButton:focus {{ border: 2px solid {ink}; }}"
)


class MessageBox(QMessageBox):
    """The usual buttons and keys in the colours, type and shapes of the program."""

    def __init__(
        self,
        kind: QMessageBox.Icon,
        title: str,
        text: str,
        buttons: QMessageBox.StandardButton,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(kind, title, "", buttons, parent)
        # Names are shown as they are, whatever marks they hold.
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setText(text)
        tokens = tokens_of(QApplication.palette())
        self.setFont(theme.font("body"))
        self.setStyleSheet(_BUTTON.format(**{role: getattr(tokens, role) for role in _ROLES}))
        self.setIconPixmap(_sign(kind, tokens, self.devicePixelRatioF()))

    def showEvent(self, event: QShowEvent) -> None:
        """Be as wide as the desktop needs for the title with its own buttons beside it."""
        grid = self.layout()  # which every further text makes anew
        assert isinstance(grid, QGridLayout)
        shown = f"{self.windowTitle()} — {QApplication.applicationDisplayName()}"
        width = QFontMetrics(theme.font("body", bold=True)).horizontalAdvance(shown)
        room = QSpacerItem(min(width + _BESIDE_TITLE, _MOST), 0)
        grid.addItem(room, grid.rowCount(), 0, 1, grid.columnCount())
        super().showEvent(event)

    def setInformativeText(self, text: str) -> None:
        """Add a second text, shown as it is too."""
        super().setInformativeText(text)
        label = self.findChild(QLabel, "qt_msgbox_informativelabel")
        assert isinstance(label, QLabel)
        label.setTextFormat(Qt.TextFormat.PlainText)


_ROLES = ("edge", "card", "ink", "paper", "line", "accent", "on_accent")


def _sign(kind: QMessageBox.Icon, tokens: Tokens, ratio: float) -> QPixmap:
    """The triangle where something went wrong, a question mark where something is asked."""
    picture = QPixmap(round(_SIGN * ratio), round(_SIGN * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    if kind == QMessageBox.Icon.Warning:
        paint_hazard(painter, QRectF(2, 3, _SIGN - 4, _SIGN - 6), tokens)
    else:
        disc = QRectF(2, 2, _SIGN - 4, _SIGN - 4)
        painter.setPen(QPen(tokens.color("accent"), 2.0))
        painter.drawEllipse(disc)
        painter.setFont(theme.font("heading", bold=True))
        painter.setPen(tokens.color("ink"))
        painter.drawText(disc, Qt.AlignmentFlag.AlignCenter, "?")
    painter.end()
    return picture

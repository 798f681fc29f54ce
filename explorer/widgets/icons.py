"""Icons: simple strokes from resources/icons, drawn in the colour of the theme."""

from __future__ import annotations

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPalette, QPixmap
from PySide6.QtSvg import QSvgRenderer

from explorer.resource_files import resource_path
from explorer.state.theme import tokens_of

SIZE = 18
_SCALES = (1, 2, 3)
_MODES = (
    ("ink", QIcon.Mode.Normal),
    ("ghost", QIcon.Mode.Disabled),
    ("on_accent", QIcon.Mode.Selected),
)


def icon(name: str, palette: QPalette) -> QIcon:
    """Icon for a palette, crisp on screens of any density.

    Parameters
    ----------
    name : str
        File name in resources/icons without its ending.
    palette : QPalette
        Of the widget that shows it.
    """
    tokens = tokens_of(palette)
    source = resource_path("icons", f"{name}.svg").read_text(encoding="utf-8")
    result = QIcon()
    for role, mode in _MODES:
        text = source.replace("currentColor", getattr(tokens, role))
        renderer = QSvgRenderer(QByteArray(text.encode()))
        for scale in _SCALES:
            pixmap = QPixmap(SIZE * scale, SIZE * scale)
            pixmap.fill(Qt.GlobalColor.transparent)
            painter = QPainter(pixmap)
            renderer.render(painter, QRectF(0, 0, SIZE * scale, SIZE * scale))
            painter.end()
            result.addPixmap(pixmap, mode)
    return result

"""Icons: simple strokes from resources/icons, drawn in the colour of the theme."""

from __future__ import annotations

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPalette, QPixmap, QPixmapCache
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
    result = QIcon()
    for role, mode in _MODES:
        for pixmap in _drawn(name, getattr(tokens, role)):
            result.addPixmap(pixmap, mode)
    return result


def _drawn(name: str, colour: str) -> list[QPixmap]:
    """An icon at every scale, drawn once for a colour: a window shows one some twenty times."""
    wanted = {scale: f"{name} {colour} {scale}" for scale in _SCALES}
    drawn = {scale: QPixmap() for scale in _SCALES}
    if all(QPixmapCache.find(key, drawn[scale]) for scale, key in wanted.items()):
        return list(drawn.values())
    source = resource_path("icons", f"{name}.svg").read_text(encoding="utf-8")
    renderer = QSvgRenderer(QByteArray(source.replace("currentColor", colour).encode()))
    for scale, key in wanted.items():
        pixmap = drawn[scale] = QPixmap(SIZE * scale, SIZE * scale)
        pixmap.fill(Qt.GlobalColor.transparent)
        painter = QPainter(pixmap)
        renderer.render(painter, QRectF(0, 0, SIZE * scale, SIZE * scale))
        painter.end()
        QPixmapCache.insert(key, pixmap)
    return list(drawn.values())

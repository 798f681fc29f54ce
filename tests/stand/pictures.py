"""What is seen of a part of the stand."""

import numpy as np
from PySide6.QtGui import QImage


def colours(widget):
    """The colours of every second pixel of every second line, as `#rrggbb`."""
    picture = widget.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    lines = np.frombuffer(picture.constBits(), np.uint32).reshape(picture.height(), -1)
    found = np.unique(lines[::2, : picture.width() : 2] & 0xFFFFFF)
    return {f"#{colour:06x}" for colour in found.tolist()}

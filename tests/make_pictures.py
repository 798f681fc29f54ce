"""Draw the pictures of README.md from the demonstration set: python -m tests.make_pictures

They are painted by the program itself, without a screen, and lie in resources/pictures; the moving
one needs the extra `pictures`. Run it after a change of the window, so that they never go stale.
"""

from __future__ import annotations

import io
import itertools
import os
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.Image import Image
    from PySide6.QtGui import QImage

    from explorer.widgets.main_window import MainWindow

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

FOLDER = Path(__file__).resolve().parents[1] / "resources" / "pictures"
PICTURES = {
    "territory": ("soil_probe", "light", "territory"),
    "stores": ("soil_probe", "light", "contest"),
}
"""Name of each picture, the scenario and theme that it shows, and which drawer is open."""
SIZE = (1280, 720)
REST_MS, DRAWER_MS = 2500, 9000
DRAG = ("drag", "soil_probe", "store.capacitance_F", (1.0, 0.5, 1.8, 1.0), 14)
"""Name of the moving picture, its scenario and knob, where the knob goes, and frames between."""
FRAME_MS, HOLD_MS = 100, 1400


def main() -> None:
    """Draw all pictures."""
    from PySide6.QtCore import QEventLoop, Qt, QTimer
    from PySide6.QtGui import QImage
    from PySide6.QtWidgets import QApplication

    from explorer.app import build_window, open_first
    from explorer.resource_files import scenario_folder
    from explorer.scenario.model import get_value
    from explorer.state.settings import SettingsStore
    from explorer.widgets.drawers.questions import Questions

    app = QApplication([])
    FOLDER.mkdir(parents=True, exist_ok=True)

    def settle(ms: int) -> None:
        loop = QEventLoop()
        QTimer.singleShot(ms, loop.quit)
        loop.exec()

    def opened(place: str, scenario: str, theme: str) -> MainWindow:
        store = Path(place) / "settings.ini"
        window = build_window(app, store, SettingsStore(store))
        open_first(window, scenario_folder() / f"{scenario}.json")
        window.apply_theme(theme)
        window.resize(*SIZE)
        window.show()
        settle(REST_MS)
        return window

    def closed(window: MainWindow) -> None:
        window.jobs.finish()
        window.close()
        settle(100)

    for name, (scenario, theme, drawer) in PICTURES.items():
        with tempfile.TemporaryDirectory() as place:
            window = opened(place, scenario, theme)
            if drawer:
                window.findChild(Questions).drawers.open(drawer)
                settle(DRAWER_MS)
            image = window.grab().toImage().convertToFormat(QImage.Format.Format_RGB888)
            image.save(str(FOLDER / f"{name}.png"), "PNG", 0)
            closed(window)

    with tempfile.TemporaryDirectory() as place:
        name, scenario, path, stations, between = DRAG
        window = opened(place, scenario, "light")
        begin = float(get_value(window.document.scenario, path))
        frames, times = [], []
        for here, there in itertools.pairwise(stations):
            for i in range(between + 1):
                window.document.edit(path, begin * here * (there / here) ** (i / between))
                settle(HOLD_MS if i == between else 40)
                image = window.grab().toImage().convertToFormat(QImage.Format.Format_RGB888)
                smooth = Qt.TransformationMode.SmoothTransformation
                frames.append(_picture(image.scaledToWidth(960, smooth)))
                times.append(HOLD_MS if i == between else FRAME_MS)
        moving = {"save_all": True, "append_images": frames[1:], "duration": times, "loop": 0}
        frames[0].save(FOLDER / f"{name}.webp", quality=70, method=6, **moving)
        window.document.new()  # an edited design would be asked about
        closed(window)


def _picture(image: QImage) -> Image:
    """The same picture for the writer of moving ones."""
    from PIL import Image as Pillow
    from PySide6.QtCore import QBuffer

    held = QBuffer()
    held.open(QBuffer.OpenModeFlag.WriteOnly)
    image.save(held, "PNG")
    return Pillow.open(io.BytesIO(bytes(held.data().data())))


if __name__ == "__main__":
    main()

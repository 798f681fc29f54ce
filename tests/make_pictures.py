"""Draw the pictures of README.md from the demonstration set: python -m tests.make_pictures

They are painted by the program itself, without a screen, and lie in resources/pictures. Run it
after a change of the window, so that the pictures never go stale.
"""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

FOLDER = Path(__file__).resolve().parents[1] / "resources" / "pictures"
PICTURES = {
    "window-light": ("soil_probe", "light", ""),
    "window-dark": ("watering_valve", "dark", ""),
    "territory": ("soil_probe", "light", "territory"),
    "stores": ("soil_probe", "light", "contest"),
}
"""Name of each picture, the scenario and theme that it shows, and which drawer is open."""
SIZE = (1280, 720)
REST_MS, DRAWER_MS = 2500, 9000


def main() -> None:
    """Draw all pictures."""
    from PySide6.QtCore import QEventLoop, QTimer
    from PySide6.QtGui import QImage
    from PySide6.QtWidgets import QApplication

    from explorer.app import build_window, open_first
    from explorer.resource_files import scenario_folder
    from explorer.state.settings import SettingsStore
    from explorer.widgets.drawers.questions import Questions

    app = QApplication([])
    FOLDER.mkdir(parents=True, exist_ok=True)

    def settle(ms: int) -> None:
        loop = QEventLoop()
        QTimer.singleShot(ms, loop.quit)
        loop.exec()

    for name, (scenario, theme, drawer) in PICTURES.items():
        with tempfile.TemporaryDirectory() as place:
            store = Path(place) / "settings.ini"
            window = build_window(app, store, SettingsStore(store))
            open_first(window, scenario_folder() / f"{scenario}.json")
            window.apply_theme(theme)
            window.resize(*SIZE)
            window.show()
            settle(REST_MS)
            if drawer:
                window.findChild(Questions).drawers.open(drawer)
                settle(DRAWER_MS)
            image = window.grab().toImage().convertToFormat(QImage.Format.Format_RGB888)
            image.save(str(FOLDER / f"{name}.png"), "PNG", 0)
            window.jobs.finish()
            window.close()
            settle(100)


if __name__ == "__main__":
    main()

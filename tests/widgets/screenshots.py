"""Draws the window in every theme and size: python -m tests.widgets.screenshots FOLDER [de]."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")


def main(folder: Path, language: str = "en") -> None:
    from PySide6.QtCore import QEventLoop, QTimer
    from PySide6.QtWidgets import QApplication

    from explorer.app import build_window, open_first
    from explorer.state.language import set_language

    app = QApplication([])
    set_language(language)
    folder.mkdir(parents=True, exist_ok=True)

    def settle(ms: int) -> None:
        loop = QEventLoop()
        QTimer.singleShot(ms, loop.quit)
        loop.exec()

    with tempfile.TemporaryDirectory() as place:
        window = build_window(app, Path(place) / "settings.ini")
        open_first(window, None)
        window.show()
        settle(900)
        for theme in ("light", "dark", "contrast"):
            window.apply_theme(theme)
            for width, height in ((960, 540), (1280, 720), (1920, 1080)):
                window.resize(width, height)
                settle(120)
                window.grab().save(str(folder / f"{theme}-{width}.png"))
        window.apply_theme("light")
        window.resize(1280, 720)
        window.commands["pin"].trigger()
        window.document.edit("light.illuminance_lx", 200.0)
        window.trace.plot.setFocus()
        window.trace.plot.set_cursor(2.6 * 86_400)
        settle(900)
        window.grab().save(str(folder / "pinned-cursor.png"))
        window.document.edit("panels.count", 6)
        for fold in window.knobs.folds:
            fold.set_open(True)
            settle(150)
            window.grab().save(str(folder / f"fold-{fold.button.text().split()[0].lower()}.png"))
            fold.set_open(False)
        for span in window.trace.spans.buttons():
            span.click()
            settle(150)
            window.grab().save(str(folder / f"{span.objectName()}.png"))
        window.document.refused.emit("Panels takes 1 to 64.")
        window.sign.rows[2].click()
        settle(150)
        window.grab().save(str(folder / "notice.png"))
        window.document.undo_stack.setClean()
        window.close()
        window.deleteLater()


if __name__ == "__main__":
    main(Path(sys.argv[1]), *sys.argv[2:3])

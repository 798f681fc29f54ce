"""Every view in every theme, language and size, laid out for the eye.

    python -m tests.contact_sheets FOLDER [--view NAME]... [--language CODE]... [--size WxH]...

One picture for each view and language: a row for each theme, a column for each size. They are
painted without a screen. Nothing is judged here; `tests/widgets/test_layout.py` measures.
"""

from __future__ import annotations

import argparse
import os
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

THEMES = ("light", "dark", "contrast")
LANGUAGES = ("en", "de")
SIZES = ("960x540", "1280x720", "1920x1080", "3840x2160")
THUMB = 640
"""Width of one picture on a sheet. [px]"""
DRAWERS = ("budget", "contest", "territory", "spread", "panel", "bench", "builds")
SETTLE_MS, ANSWER_MS = 400, 6000


def main() -> None:
    """Draw what was asked for."""
    ask = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    ask.add_argument("folder", type=Path)
    ask.add_argument("--view", action="append", choices=sorted(VIEWS))
    ask.add_argument("--language", action="append", choices=LANGUAGES)
    ask.add_argument("--size", action="append")
    told = ask.parse_args()
    from PySide6.QtWidgets import QApplication

    app = QApplication([])
    told.folder.mkdir(parents=True, exist_ok=True)
    for language in told.language or LANGUAGES:
        for view in told.view or VIEWS:
            sheet(app, told.folder / f"{view}-{language}.png", view, language,
                  told.size or SIZES)  # fmt: skip


def sheet(app: Any, target: Path, view: str, language: str, sizes: Sequence[str]) -> None:
    """One contact sheet."""
    from PySide6.QtCore import QRect, Qt
    from PySide6.QtGui import QColor, QImage, QPainter

    from explorer.state.language import set_language

    set_language(language)
    shots = {}
    with tempfile.TemporaryDirectory() as place:
        window = opened(app, Path(place))
        shown = VIEWS[view](window)
        for theme in THEMES:
            window.apply_theme(theme)
            for size in sizes:
                width, height = (int(n) for n in size.split("x"))
                shown.resize(width, height)
                settle(SETTLE_MS)
                shots[theme, size] = shown.grab().toImage()
        window.document.undo_stack.setClean()
        window.jobs.finish()
        if shown is not window:
            leave = getattr(shown, "leave", shown.close)  # a stand does not just close
            leave()
        window.close()
        settle(50)
    rows = [max(round(shots[t, s].height() * THUMB / shots[t, s].width()) for s in sizes)
            for t in THEMES]  # fmt: skip
    wide, high = len(sizes) * (THUMB + 12) + 12, sum(rows) + 12 * (len(rows) + 1)
    picture = QImage(wide, high, QImage.Format.Format_RGB888)
    picture.fill(QColor("gray"))
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    y = 12
    for theme, high in zip(THEMES, rows, strict=True):
        for column, size in enumerate(sizes):
            shot = shots[theme, size].scaledToWidth(
                THUMB, Qt.TransformationMode.SmoothTransformation
            )
            painter.drawImage(QRect(12 + column * (THUMB + 12), y, THUMB, shot.height()), shot)
        y += high + 12
    painter.end()
    picture.save(str(target))
    print(target)


def opened(app: Any, place: Path) -> Any:
    """A window with the first example, at rest."""
    from explorer.app import build_window, open_first
    from explorer.state.settings import SettingsStore

    store = SettingsStore(place / "settings.ini")
    store.update(tour_seen=True, drawer="")
    window = build_window(app, place / "settings.ini", store)
    open_first(window, None)
    window.show()
    settle(1500)
    return window


def settle(ms: int) -> None:
    """Let the program run for a while."""
    from PySide6.QtCore import QEventLoop, QTimer

    loop = QEventLoop()
    QTimer.singleShot(ms, loop.quit)
    loop.exec()


def _plain(window: Any) -> Any:
    return window


def _folds(window: Any) -> Any:
    for fold in window.knobs.folds:
        fold.set_open(True)
    return window


def _drawer(key: str) -> Callable[[Any], Any]:
    def view(window: Any) -> Any:
        window.drawers.open(key)
        settle(ANSWER_MS)
        return window

    return view


def _help(window: Any) -> Any:
    window.knobs.rows[0].slider.setFocus()
    window.assistance.on_help()
    return window


def _tour(window: Any) -> Any:
    window.assistance.start_tour()
    return window


def _falls_short(window: Any) -> Any:
    window.document.edit("light.illuminance_lx", 30.0)
    window.document.edit("charger.full_V", 5.8)
    settle(ANSWER_MS)
    return window


def _compare(window: Any) -> Any:
    window.commands["compare"].trigger()
    found = window.comparisons.one
    found.compare_with(window.document.case.with_value("panels.count", 6), "six panels")
    settle(ANSWER_MS)
    return found


def _line_up(window: Any) -> Any:
    window.commands["line_up"].trigger()
    found = window.comparisons.several
    for count in (1, 2, 5, 8, 12):
        found.line_up.add(window.document.case.with_value("panels.count", count), f"{count}")
    settle(ANSWER_MS)
    return found


def _guide(window: Any) -> Any:
    window.assistance.open_guide()
    return window.assistance.guide


def _help_window(window: Any) -> Any:
    window.assistance.open_glossary()
    return window.assistance._help


def _data_sheet(window: Any) -> Any:
    from explorer.widgets.sheet.sheet_dialog import SheetDialog

    dialog = SheetDialog(window.document, window)
    dialog.show()
    return dialog


def _efficiency(window: Any) -> Any:
    from explorer.widgets.efficiency.efficiency_dialog import EfficiencyDialog

    dialog = EfficiencyDialog(window.document, window)
    dialog.show()
    return dialog


def _year(window: Any) -> Any:
    from explorer.resource_files import scenario_folder

    window.document.open_example(scenario_folder() / "window_air_sensor.json")
    return _drawer("year")(window)


def _capture(window: Any) -> Any:
    import numpy as np

    from explorer.widgets.capture.capture_dialog import CaptureDialog

    time_s = np.arange(10_000) * 1e-4
    phase_s = time_s % 0.2
    current_a = np.where(phase_s < 3e-3, 1e-3, np.where(phase_s < 4e-3, 30e-3, 2e-6))
    path = window.settings.parts_folder.parent / "radio.csv"
    np.savetxt(path, np.c_[time_s * 1e3, current_a * 1e3], delimiter=",", fmt="%.9g",
               header="Time [ms],Current [mA]", comments="")  # fmt: skip
    dialog = CaptureDialog(window.document, window.jobs, window)
    dialog.open_file(path)
    dialog.show()
    settle(ANSWER_MS)
    return dialog


def _parts(window: Any) -> Any:
    from explorer.files.shelf import Shelf
    from explorer.scenario.part import part_from
    from explorer.widgets.parts.parts_dialog import PartsDialog

    shelf, store = Shelf(window.settings.parts_folder), window.document.scenario.store
    for title, price in (("Ember 30", 2.5), ("Hearth pair", 3.1)):
        shelf.add(part_from("store", store, title=title, price=price, currency="EUR",
                            source="Data sheet, 2026-03-01"))  # fmt: skip
    dialog = PartsDialog(window.document, shelf, window)
    dialog.begin("store")
    return dialog


def _hand(window: Any) -> Any:
    from explorer.widgets.drawers.hand_dialog import HandDialog

    dialog = HandDialog(window.settings.runs_folder, window)
    dialog.show()
    for row, volts in enumerate(("3.301", "3.296", "3.290")):
        dialog._on_now()
        dialog.table.item(row, 1).setText(volts)
        settle(150)
    return dialog


def _stand_window(playing: bool) -> Callable[[Any], Any]:
    def view(window: Any) -> Any:
        from explorer.stand.exhibits import load_exhibits
        from explorer.stand.parked import ParkedScenarios
        from explorer.stand.window import StandWindow
        from explorer.state.stand_plan import StandPlan

        plan = StandPlan(
            scenarios=("bundled:plant_label",), title="Fernhollow Glasshouse",
            contact="Ask at the bench",
        )  # fmt: skip
        kept = ParkedScenarios(window.settings.parts_folder.parent / "visitors.json")
        stand = StandWindow(plan, load_exhibits(plan.scenarios).exhibits, kept)
        stand.show()
        stand.start()
        if playing:
            stand.session.touched()
        settle(ANSWER_MS)
        return stand

    return view


def _stand_setup(window: Any) -> Any:
    from explorer.stand.parked import ParkedScenarios
    from explorer.stand.setup_dialog import SetupDialog
    from explorer.state.stand_plan import StandPlan

    kept = ParkedScenarios(window.settings.parts_folder.parent / "visitors.json")
    dialog = SetupDialog(StandPlan(scenarios=("bundled:plant_label",)), kept, None, window)
    dialog.show()
    settle(ANSWER_MS)
    return dialog


VIEWS: dict[str, Callable[[Any], Any]] = {
    "window": _plain,
    "folds": _folds,
    "falls-short": _falls_short,
    **{key: _drawer(key) for key in DRAWERS},
    "help": _help,
    "tour": _tour,
    "compare": _compare,
    "line-up": _line_up,
    "guide": _guide,
    "help-window": _help_window,
    "data-sheet": _data_sheet,
    "efficiency": _efficiency,
    "year": _year,
    "capture": _capture,
    "parts": _parts,
    "hand-readings": _hand,
    "stand-attract": _stand_window(False),
    "stand-play": _stand_window(True),
    "stand-setup": _stand_setup,
}


if __name__ == "__main__":
    main()

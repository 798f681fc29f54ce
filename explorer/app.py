"""Opens the window, or says in a sentence why it cannot."""

from __future__ import annotations

import logging
import os
import sys
from collections.abc import Sequence
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from explorer.state.log_file import LogFile
    from explorer.state.settings import SettingsStore
    from explorer.state.workers import Workers
    from explorer.widgets.main_window import MainWindow
    from explorer.widgets.windows import Windows

LOG = logging.getLogger(__name__)
SWITCH_S = 0.0005
"""Longest time that a worker keeps Python from the interface thread; 0.005 is usual. [s]"""
NAME = "Gloaming"
STYLE = "fusion"
FIRST_EXAMPLE = "soil_probe"
"""Stem of the bundled scenario that a first start shows, where it is there."""
_LIBRARIES = {
    "libEGL.so.1": "libegl1",
    "libGL.so.1": "libgl1",
    "libOpenGL.so.0": "libopengl0",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libfontconfig.so.1": "libfontconfig1",
    "libdbus-1.so.3": "libdbus-1-3",
    "libglib-2.0.so.0": "libglib2.0-0",
}
"""Debian package of each system library that Qt loads."""


def display_problem(platform: str, environment: dict[str, str]) -> str | None:
    """Why no window can open, as a sentence; None where one can.

    Parameters
    ----------
    platform : str
        As `sys.platform` names it.
    environment : dict
        Environment variables.
    """
    if not platform.startswith("linux") or environment.get("QT_QPA_PLATFORM"):
        return None
    if environment.get("DISPLAY") or environment.get("WAYLAND_DISPLAY"):
        return None
    return (
        "There is no display to open a window on. Start the program from a desktop session, "
        "log in with `ssh -X`, or use it without a window: `gloaming check FILE`."
    )


def library_problem(error: ImportError) -> str:
    """Which system library is missing, as a sentence."""
    text = str(error)
    for library, package in _LIBRARIES.items():
        if library in text:
            return (
                f"The window needs the system library {library}. "
                f"On Debian or Ubuntu type: sudo apt install {package}"
            )
    return f"The window needs a part that is not installed: {text}"


def fatal_problem(text: str, display: str) -> str:
    """Why Qt gave up, as a sentence."""
    if "xcb-cursor" in text:
        return library_problem(ImportError("libxcb-cursor.so.0"))
    if "platform plugin" in text or "display" in text:
        where = f" {display}" if display else ""
        return (
            f"The window cannot reach the display{where}. Start it from a desktop session, or "
            "type: xvfb-run gloaming. If there is a display, a library of the system is missing: "
            "“Open it” in the README says which."
        )
    return f"The window had to close: {text}"


def _on_message(kind: object, _: object, text: str) -> None:
    """Qt's own messages; a fatal one would abort with a dump, so it becomes a sentence."""
    from PySide6.QtCore import QtMsgType

    if kind == QtMsgType.QtFatalMsg:
        print(fatal_problem(text, os.environ.get("DISPLAY", "")), file=sys.stderr, flush=True)
        os._exit(3)
    if kind != QtMsgType.QtDebugMsg and "xcb-cursor" not in text:
        print(text, file=sys.stderr)


def settings_path() -> Path:
    """Ini file in the user's configuration folder."""
    from PySide6.QtCore import QStandardPaths

    folder = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.AppConfigLocation)
    return Path(folder) / "settings.ini"


def data_path() -> Path:
    """The user's data folder, which keeps parts of one's own."""
    from PySide6.QtCore import QStandardPaths

    folder = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.AppDataLocation)
    return Path(folder)


def run(
    paths: Sequence[str | Path] = (),
    settings_file: Path | None = None,
    *,
    stand: bool = False,
    stand_file: Path | None = None,
) -> int:
    """Open the window and stay until it is closed.

    Parameters
    ----------
    paths : sequence of path-like
        Scenarios to open, each in a window of its own.
    settings_file : pathlib.Path, optional
        Where to keep settings, and beside them unsaved changes and parts; by default in the
        user's folders for configuration and data.
    stand : bool
        Begin as a stand, without any dialog. So does a start without files after a crash or a
        power cut ended a stand.
    stand_file : pathlib.Path, optional
        Its set-up; the last one where it is left out.

    Returns
    -------
    int
        Exit status: 0, or 3 where no window could open.
    """
    problem = display_problem(sys.platform, dict(os.environ))
    if problem is not None:
        print(problem, file=sys.stderr)
        return 3
    try:
        from PySide6.QtCore import QTimer, qInstallMessageHandler
        from PySide6.QtWidgets import QApplication

        from explorer.loaded import settle_down
        from explorer.state import scaling
        from explorer.state.collector import CollectorRounds
        from explorer.state.interrupts import Interrupts
        from explorer.state.language import set_language
        from explorer.widgets.fault_report import FaultReport
    except ImportError as error:
        print(library_problem(error), file=sys.stderr)
        return 3
    # A worker hands over ten times as often: a drag stays smooth while a drawer works.
    sys.setswitchinterval(SWITCH_S)
    qInstallMessageHandler(_on_message)
    QApplication.setApplicationName("gloaming")
    QApplication.setApplicationDisplayName(NAME)
    QApplication.setOrganizationName("")
    store_path = settings_file or settings_path()
    data = data_path() if settings_file is None else store_path.parent
    settings, log = _remembered(store_path, data)
    ours = scaling.set_scale(settings)
    app = QApplication.instance() or QApplication([NAME])
    assert isinstance(app, QApplication)
    rounds = CollectorRounds(app)
    screen = app.primaryScreen()
    if ours and screen is not None and scaling.look_at_screen(
        settings, screen.size(), screen.devicePixelRatio()
    ):
        scaling.start_again()
    try:
        set_language(settings.settings.language)
        windows = build_windows(app, store_path, data, settings)
        window = windows.add()
        report = FaultReport(windows.front, _version(), log.path, windows)
    except ImportError as error:
        print(library_problem(error), file=sys.stderr)
        return 3
    report.install()
    interrupts = Interrupts(windows)
    interrupts.met.connect(windows.end_at_once)
    try:
        path = Path(paths[0]) if paths else None
        open_first(window, path)
        if stand or (not paths and _stand_was_cut_off(store_path)):
            fault = _begin_stand(window, stand_file)
            if fault:
                print(fault, file=sys.stderr)
                return 3
        else:
            window.show()
            settings.listen(window.notice.say)
            windows.open_files([Path(further) for further in paths[1:]], window)
            window.assistance.start_tour_once()
            QTimer.singleShot(0, windows, windows.offer_leftovers)
        settle_down()
    except Exception as error:  # a fault before the first event is a fault like any other
        report.report(type(error), error, error.__traceback__)
    try:
        return app.exec()
    finally:
        interrupts.close()
        report.remove()
        windows.deleteLater()
        log.close()
        rounds.end()


def _remembered(store_path: Path, data: Path) -> tuple[SettingsStore, LogFile]:
    from explorer.state.log_file import LogFile
    from explorer.state.settings import SettingsStore

    log = LogFile(data)  # first, so that it hears what is wrong with the settings
    return SettingsStore(store_path, data), log


def build_windows(
    app: object,
    store_path: Path,
    data: Path | None = None,
    settings: SettingsStore | None = None,
) -> Windows:
    """All windows of the program, none open yet; they share the settings and the parts."""
    from explorer.state.settings import SettingsStore
    from explorer.state.workers import Workers
    from explorer.widgets import spoken
    from explorer.widgets.windows import Windows

    spoken.install()
    settings, workers = settings or SettingsStore(store_path, data), Workers()

    def build(instead_of: MainWindow | None) -> MainWindow:
        return build_window(app, store_path, settings, instead_of, workers)

    windows = Windows(build, store_path.parent / "unsaved")
    workers.setParent(windows)
    windows.emptied.connect(workers.go_home)
    return windows


def build_window(
    app: object,
    store_path: Path,
    settings: SettingsStore | None = None,
    instead_of: MainWindow | None = None,
    workers: Workers | None = None,
) -> MainWindow:
    """Everything that one window consists of.

    Parameters
    ----------
    app : QApplication
        The running application.
    store_path : pathlib.Path
        Where settings are kept.
    settings : SettingsStore, optional
        Those that the windows share; read from `store_path` when left out.
    instead_of : MainWindow, optional
        A window whose document, solver and jobs the new one takes over.
    workers : Workers, optional
        Processes that answer its questions; threads do, where left out.
    """
    from PySide6.QtGui import QIcon
    from PySide6.QtWidgets import QApplication

    from explorer.resource_files import resource_path
    from explorer.stand.door import StandDoor
    from explorer.state import theme
    from explorer.state.document import Document
    from explorer.state.jobs import JobRunner
    from explorer.state.settings import SettingsStore
    from explorer.state.solver import Solver
    from explorer.widgets.main_window import MainWindow
    from explorer.widgets.parts.desk import PartsDesk

    assert isinstance(app, QApplication)
    if app.style().name() != STYLE:  # a new one would dress every open window anew
        app.setStyle(STYLE)
    if app.font() != theme.font("body"):
        app.setFont(theme.font("body"))
    if app.windowIcon().isNull():
        app.setWindowIcon(QIcon(str(resource_path("icons", "gloaming.svg"))))
    settings = settings or SettingsStore(store_path)
    # Before anything is made, or all of it would change its colours once more.
    app.setPalette(theme.palette_of(theme.resolve(settings.settings.theme)))
    if instead_of is None:
        document, jobs = Document(), JobRunner(workers=workers)
        solver = Solver(document, jobs)
    else:
        document, jobs, solver = instead_of.document, instead_of.jobs, instead_of.solver
    window = MainWindow(document, solver, jobs, settings, _version())
    for part in (document, jobs, solver):
        part.setParent(window)
    window.menus.view.addSeparator()
    window.menus.view.addAction(window.commands["stand"])
    StandDoor(window.commands["stand"], store_path.parent, window, document, workers)
    PartsDesk(
        window, document=document, folder=window.settings.parts_folder, knobs=window.knobs,
        action=window.commands["parts"],
    )  # fmt: skip
    return window


def open_first(window: MainWindow, path: Path | None) -> None:
    """Open what was asked for, else a bundled scenario, else an empty one."""
    from explorer.widgets.menus import example_paths

    if path is not None:
        window.open_path(path)
    else:
        examples = example_paths()
        named = [p for p in examples if p.stem == FIRST_EXAMPLE]
        for example in (named or examples)[:1]:
            window.open_path(example, example=True)
    window.begin()


def _stand_was_cut_off(store_path: Path) -> bool:
    from explorer.stand.running import was_cut_off

    return was_cut_off(store_path.parent)


def _begin_stand(window: MainWindow, file: Path | None) -> str:
    """Go straight to the stand; why not, as a sentence, where its file is wrong."""
    from explorer.files.disk import FileError
    from explorer.stand.door import StandDoor

    door = window.findChild(StandDoor)
    assert isinstance(door, StandDoor)
    try:
        door.run_unasked(file)
    except FileError as error:
        return str(error)
    return ""


def _version() -> str:
    try:
        return version("gloaming")
    except PackageNotFoundError:
        from explorer.state.language import tr

        return tr("(not installed)")

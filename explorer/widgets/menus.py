"""The menu bar: what it offers, and which choices hold now."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu, QMenuBar

from explorer.files.whereabouts import found_again, names_apart
from explorer.resource_files import scenario_folder
from explorer.state.examples import example_name
from explorer.state.language import LANGUAGE_CHOICES, NAMES, tr
from explorer.state.settings import AUTOMATIC, SCALES, SettingsStore
from explorer.state.theme import THEME_CHOICES
from explorer.text import texts
from explorer.widgets.plain import plain_tip

_THEME_TEXTS = texts({
    "system": "As the &system",
    "light": "&Light",
    "dark": "&Dark",
    "contrast": "&High contrast",
})  # fmt: skip


class Menus(QObject):
    """Fills a window's menu bar and tells what was chosen.

    Parameters
    ----------
    bar : QMenuBar
        Of the window.
    commands : mapping of str to QAction
        The window's actions by key.
    settings : SettingsStore
        Which choices hold; another window may have made them.
    """

    example_chosen = Signal(object)
    """Path of a bundled scenario."""
    recent_chosen = Signal(object)
    """Path of a file."""
    theme_chosen = Signal(str)
    language_chosen = Signal(str)

    def __init__(
        self, bar: QMenuBar, commands: Mapping[str, QAction], settings: SettingsStore
    ) -> None:
        super().__init__(bar)
        self._settings = settings
        self._fill_files(bar.addMenu(tr("&File")), commands)
        edit = bar.addMenu(tr("&Edit"))
        edit.addActions([commands["undo"], commands["redo"]])
        edit.addSeparator()
        edit.addActions([commands["pin"], commands["compare"], commands["line_up"]])
        edit.addSeparator()
        edit.addAction(commands["parts"])
        self.view = bar.addMenu(tr("&View"))
        self._fill_view()
        self.help = bar.addMenu(tr("&Help"))

    def _fill_files(self, files: QMenu, commands: Mapping[str, QAction]) -> None:
        files.addActions([commands[key] for key in ("new", "new_window", "open")])
        self.examples = QMenu(tr("Open &example"), files)
        self.recent = QMenu(tr("Open &recent"), files)
        files.addMenu(self.examples)
        files.addMenu(self.recent)
        self.examples.aboutToShow.connect(self._list_examples)
        self.recent.aboutToShow.connect(self._list_recent)
        self.examples.triggered.connect(self._on_example)
        self.recent.triggered.connect(self._on_recent)
        files.addSeparator()
        files.addActions([commands[key] for key in ("save", "save_as", "keep_study", "reload")])
        files.addSeparator()
        files.addActions([commands["sheet"], commands["capture"]])
        files.addSeparator()
        files.addActions([commands["close"], commands["quit"]])

    def _fill_view(self) -> None:
        self.themes = QActionGroup(self)
        for choice in THEME_CHOICES:
            _choice(self.themes, tr(_THEME_TEXTS[choice]), choice)
        self.view.addActions(self.themes.actions())
        sizes = self.view.addMenu(tr("Si&ze, from the next start"))
        self.sizes = QActionGroup(self)
        for percent in SCALES:
            text = tr("As the scree&n asks") if percent == AUTOMATIC else f"{percent} %"
            _choice(self.sizes, text, percent)
        sizes.addActions(self.sizes.actions())
        languages = self.view.addMenu(tr("Lan&guage"))
        self.languages = QActionGroup(self)
        for code in LANGUAGE_CHOICES:
            # By its own name, which is never translated.
            _choice(self.languages, NAMES.get(code) or tr("As the &system"), code)
        languages.addActions(self.languages.actions())
        self.themes.triggered.connect(self._on_theme)
        self.sizes.triggered.connect(self._on_size)
        self.languages.triggered.connect(self._on_language)
        self.view.aboutToShow.connect(self._show_choices)
        self._show_choices()

    def _show_choices(self) -> None:
        """Tick what holds now."""
        settings = self._settings.settings
        for group, held in (
            (self.themes, settings.theme),
            (self.sizes, settings.scale_percent),
            (self.languages, settings.language),
        ):
            for action in group.actions():
                action.setChecked(action.data() == held)

    def _list_examples(self) -> None:
        self.examples.clear()
        for path in example_paths():
            self.examples.addAction(example_name(path)).setData(str(path))

    def _list_recent(self) -> None:
        self.recent.clear()
        self.recent.setToolTipsVisible(True)
        paths = self._settings.settings.recent
        for path, name in zip(paths, names_apart(paths), strict=True):
            action = self.recent.addAction(name.replace("&", "&&"))
            action.setData(path)
            action.setToolTip(plain_tip(path))
        if self.recent.isEmpty():
            self.recent.addAction(tr("No file yet")).setEnabled(False)

    def _on_example(self, action: QAction) -> None:
        self.example_chosen.emit(Path(action.data()))

    def _on_recent(self, action: QAction) -> None:
        if action.data() is not None:
            settings = self._settings.settings
            folders = [Path(path).parent for path in settings.recent]
            known = [Path(settings.folder), *folders] if settings.folder else folders
            self.recent_chosen.emit(found_again(Path(action.data()), known))

    def _on_theme(self, action: QAction) -> None:
        self.theme_chosen.emit(action.data())

    def _on_size(self, action: QAction) -> None:
        self._settings.update(scale_percent=action.data())

    def _on_language(self, action: QAction) -> None:
        self.language_chosen.emit(action.data())


def _choice(group: QActionGroup, text: str, data: object) -> None:
    action = QAction(text, group)
    action.setCheckable(True)
    action.setData(data)


def example_paths() -> list[Path]:
    """The bundled scenarios, by name."""
    try:
        return sorted(scenario_folder().glob("*.json"))
    except FileNotFoundError:
        return []

"""What the program remembers between two starts: one dataclass, one ini file."""

from __future__ import annotations

import logging
from dataclasses import dataclass, replace
from pathlib import Path
from typing import cast

from PySide6.QtCore import QByteArray, QSettings

from explorer.state.language import LANGUAGE_CHOICES, LanguageChoice
from explorer.state.theme import THEME_CHOICES, ThemeChoice

LOG = logging.getLogger(__name__)
SCHEMA = 1
RECENT_KEPT = 8
SCALES = (100, 125, 150, 175, 200)


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """Values that survive a restart."""

    theme: ThemeChoice = "system"
    language: LanguageChoice = "system"
    scale_percent: int = 100
    """Size of everything, applied at the next start. [%]"""
    folder: str = ""
    """Folder of the last file dialog."""
    recent: tuple[str, ...] = ()
    """Files opened or saved, newest first."""
    geometry: bytes = b""
    """Place and size of the window."""
    tour_seen: bool = False
    """Whether the first-run tour was finished or skipped."""
    drawer: str = ""
    """Key of the drawer that was open last; empty where none was."""


def with_recent(settings: Settings, path: Path) -> Settings:
    """Settings that name `path` as the newest file."""
    name = str(path)
    others = tuple(p for p in settings.recent if p != name)
    return replace(
        settings, recent=(name, *others)[:RECENT_KEPT], folder=str(path.resolve().parent)
    )


class SettingsStore:
    """Reads and writes `Settings` at one path; a bad value falls back and warns.

    Parameters
    ----------
    path : pathlib.Path
        Ini file.
    data : pathlib.Path, optional
        Folder for what a person collects, such as parts; beside the file when left out.
    """

    def __init__(self, path: Path, data: Path | None = None) -> None:
        self._path, self._data = path, data or path.parent
        self.settings = self._load()

    def update(self, **changes: object) -> None:
        """Change some values and write them."""
        self.settings = replace(self.settings, **changes)  # type: ignore[arg-type]
        self._save()

    @property
    def runs_folder(self) -> Path:
        """Where runs that are being logged are kept."""
        return self._path.parent / "runs"

    @property
    def parts_folder(self) -> Path:
        """Where parts of one's own are kept."""
        return self._data / "parts"

    def remember_file(self, path: Path) -> None:
        """Put a file at the head of the recent ones."""
        self.settings = with_recent(self.settings, path)
        self._save()

    def _load(self) -> Settings:
        ini = QSettings(str(self._path), QSettings.Format.IniFormat)
        if cast(int, ini.value("schema", SCHEMA, type=int)) > SCHEMA:
            LOG.warning("%s was written by a newer version; its values are ignored", self._path)
            return Settings()
        found = Settings()
        theme = cast(str, ini.value("theme", found.theme, type=str))
        if theme in THEME_CHOICES:
            found = replace(found, theme=theme)
        else:
            LOG.warning("settings: theme %r is unknown, using %r", theme, found.theme)
        language = cast(str, ini.value("language", found.language, type=str))
        if language in LANGUAGE_CHOICES:
            found = replace(found, language=language)
        else:
            LOG.warning("settings: language %r is unknown, using %r", language, found.language)
        scale = cast(str, ini.value("scale_percent", str(found.scale_percent), type=str))
        if scale.isdigit() and int(scale) in SCALES:
            found = replace(found, scale_percent=int(scale))
        else:
            LOG.warning("settings: scale_percent %r is not one of %s", scale, SCALES)
        count = ini.beginReadArray("recent")
        recent = []
        for index in range(min(count, RECENT_KEPT)):
            ini.setArrayIndex(index)
            recent.append(cast(str, ini.value("path", "", type=str)))
        ini.endArray()
        geometry = cast(QByteArray, ini.value("geometry", QByteArray(), type=QByteArray))
        return replace(
            found,
            folder=cast(str, ini.value("folder", "", type=str)),
            recent=tuple(path for path in recent if path),
            geometry=bytes(geometry.data()),
            tour_seen=cast(bool, ini.value("tour_seen", found.tour_seen, type=bool)),
            drawer=cast(str, ini.value("drawer", "", type=str)),
        )

    def _save(self) -> None:
        self._path.parent.mkdir(parents=True, exist_ok=True)
        ini = QSettings(str(self._path), QSettings.Format.IniFormat)
        ini.setValue("schema", SCHEMA)
        ini.setValue("theme", self.settings.theme)
        ini.setValue("language", self.settings.language)
        ini.setValue("scale_percent", self.settings.scale_percent)
        ini.setValue("folder", self.settings.folder)
        ini.setValue("geometry", QByteArray(self.settings.geometry))
        ini.setValue("drawer", self.settings.drawer)
        ini.setValue("tour_seen", self.settings.tour_seen)
        ini.remove("recent")
        ini.beginWriteArray("recent")
        for index, path in enumerate(self.settings.recent):
            ini.setArrayIndex(index)
            ini.setValue("path", path)
        ini.endArray()
        ini.sync()
        if ini.status() != QSettings.Status.NoError:
            LOG.warning("the settings could not be written to %s", self._path)

"""What the program remembers between two starts: one dataclass, one ini file."""

from __future__ import annotations

import logging
import os
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from PySide6.QtCore import QByteArray, QSettings

from explorer.files.disk import FileError, check_file
from explorer.state.language import LANGUAGE_CHOICES, LanguageChoice
from explorer.state.theme import THEME_CHOICES, ThemeChoice
from explorer.text import Text, say

LOG = logging.getLogger(__name__)
SCHEMA = 1
RECENT_KEPT = 8
LIMIT_BYTES = 1_000_000
_OBJECT = re.compile(rb'[=,][ \t]*"?@(?!@|ByteArray\(|Invalid\(\))')
"""A value of which Qt would make an object; we write bytes and texts alone."""
_QUOTED = re.compile(rb'\\.|"(@@|@ByteArray\(|@Invalid\(\)|[^"\\]?)(?:[^"\\]|\\.)*"')
_HIDDEN = re.compile(rb"(?<!\\)(?:\\\\)*\\(?:x0*40|0*100)|\0", re.IGNORECASE)
"""The sign that begins one, written as an escape."""
AUTOMATIC = 0
SCALES = (AUTOMATIC, 100, 125, 150, 175, 200)


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """Values that survive a restart."""

    theme: ThemeChoice = "system"
    language: LanguageChoice = "system"
    scale_percent: int = AUTOMATIC
    """Size of everything, applied at the next start; 0 as the screen asks. [%]"""
    screen_percent: int = 100
    """What the screen asked for when it was last seen. [%]"""
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
    """Settings that name `path` as the newest file, so that it is found from any folder."""
    name = str(path.absolute())
    others = tuple(p for p in settings.recent if p != name)
    return replace(
        settings, recent=(name, *others)[:RECENT_KEPT], folder=str(path.resolve().parent)
    )


class SettingsStore:
    """Reads and writes `Settings` at one path; nothing that lies there can prevent a start.

    A bad value falls back and warns. A file that is none of ours is put aside unread, as Qt would
    make objects of what stands in it; one that cannot be read or written is done without.

    Parameters
    ----------
    path : pathlib.Path
        Ini file.
    data : pathlib.Path, optional
        Folder for what a person collects, such as parts; beside the file when left out.
    """

    def __init__(self, path: Path, data: Path | None = None) -> None:
        self._path, self._data = path, data or path.parent
        self._faults: list[Text] = []
        self._told: Callable[[str], None] | None = None
        self._writes = True
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

    @property
    def faults(self) -> tuple[Text, ...]:
        """What went wrong with the settings so far, as sentences."""
        return tuple(self._faults)

    def listen(self, told: Callable[[str], None]) -> None:
        """Hear of what goes wrong with the settings, beginning with what already has."""
        self._told = told
        for fault in self._faults:
            told(fault)

    def _fault(self, sentence: Text) -> None:
        LOG.warning("%s", sentence)
        if sentence not in self._faults:
            self._faults.append(sentence)
            if self._told is not None:
                self._told(sentence)

    def _load(self) -> Settings:
        try:
            if not os.path.lexists(self._path):
                return Settings()
            check_file(self._path, limit_bytes=LIMIT_BYTES, what=say("settings file"))
            raw = self._path.read_bytes()
        except (FileError, OSError) as error:
            self._writes = False
            self._fault(
                say(
                    "The settings cannot be read, so the usual ones are used. {why}",
                    why=_of(error),
                )
            )
            return Settings()
        if _OBJECT.search(_QUOTED.sub(_head, raw)) or _HIDDEN.search(raw):
            self._put_aside()
            return Settings()
        return self._understood(QSettings(str(self._path), QSettings.Format.IniFormat))

    def _put_aside(self) -> None:
        """Keep a file that is none of ours under another name, so that the next one is ours."""
        aside = self._path.with_suffix(".damaged")
        try:
            self._path.replace(aside)
        except OSError:
            self._writes = False
        self._fault(
            say(
                "The settings in {file} are damaged, so the usual ones are used.",
                file=self._path,
            )
        )

    def _understood(self, ini: QSettings) -> Settings:
        if _number(ini, "schema", SCHEMA) > SCHEMA:
            self._writes = False
            self._fault(
                say(
                    "The settings were written by a newer version of the program, so the usual "
                    "ones are used."
                )
            )
            return Settings()
        found = Settings()
        theme = _text(ini, "theme", found.theme)
        if theme in THEME_CHOICES:
            found = replace(found, theme=theme)
        else:
            LOG.warning("settings: theme %r is unknown, using %r", theme, found.theme)
        language = _text(ini, "language", found.language)
        if language in LANGUAGE_CHOICES:
            found = replace(found, language=language)
        else:
            LOG.warning("settings: language %r is unknown, using %r", language, found.language)
        scale = _number(ini, "scale_percent", found.scale_percent)
        if scale in SCALES:
            found = replace(found, scale_percent=scale)
        else:
            LOG.warning("settings: scale_percent %r is not one of %s",
                        ini.value("scale_percent"), SCALES)
        screen = _number(ini, "screen_percent", found.screen_percent)
        if screen in SCALES[1:]:
            found = replace(found, screen_percent=screen)
        recent = []
        for index in range(min(ini.beginReadArray("recent"), RECENT_KEPT)):
            ini.setArrayIndex(index)
            recent.append(_text(ini, "path", ""))
        ini.endArray()
        geometry = ini.value("geometry")
        return replace(
            found,
            folder=_text(ini, "folder", ""),
            recent=tuple(path for path in recent if path),
            geometry=bytes(geometry.data()) if isinstance(geometry, QByteArray) else b"",
            tour_seen=_text(ini, "tour_seen", "false") == "true",
            drawer=_text(ini, "drawer", ""),
        )

    def _save(self) -> None:
        if not self._writes:
            return
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            self._not_written(_of(error))
            return
        ini = QSettings(str(self._path), QSettings.Format.IniFormat)
        ini.setValue("schema", SCHEMA)
        ini.setValue("theme", self.settings.theme)
        ini.setValue("language", self.settings.language)
        ini.setValue("scale_percent", self.settings.scale_percent)
        ini.setValue("screen_percent", self.settings.screen_percent)
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
            self._not_written(say("{file} refuses.", file=self._path))

    def _not_written(self, why: str) -> None:
        """Once: the program works, and forgets when it ends."""
        self._writes = False
        self._fault(
            say("The settings cannot be kept, so they are forgotten at the end. {why}", why=why)
        )


def _head(found: re.Match[bytes]) -> bytes:
    """Of an escape nothing, of a text in quotes how it begins."""
    return b"" if found.group(1) is None else b'"' + found.group(1) + b'"'


def _of(error: OSError | ValueError) -> str:
    """What a system or a reader says, as a sentence."""
    if isinstance(error, OSError):
        return say("{place}: {why}.", place=error.filename or "", why=error.strerror or "")
    return str(error)


def _text(ini: QSettings, key: str, default: str) -> str:
    found = ini.value(key, default)
    if isinstance(found, bool):  # as long as this process wrote it
        return "true" if found else "false"
    return str(found) if isinstance(found, (str, int)) else default


def _number(ini: QSettings, key: str, default: int) -> int:
    text = _text(ini, key, str(default))
    return int(text) if text.isascii() and text.isdigit() and len(text) < 10 else -1

"""The program among the others of a desktop: menu entry, icon, and its kind of file.

The files follow the open specifications of freedesktop.org: desktop entries, icon themes and
shared MIME information. All lie in the user's own data folder.
"""

from __future__ import annotations

import shlex
import shutil
import subprocess
from collections.abc import Mapping, Sequence
from pathlib import Path

from explorer.files.disk import FileError, write_bytes
from explorer.resource_files import resource_path
from explorer.scenario.model import FORMAT
from explorer.text import say

NAME = "gloaming"
MIME_TYPE = "application/x-gloaming-scenario+json"
_ENTRY = """[Desktop Entry]
Type=Application
Name=Gloaming
GenericName=What-if explorer for indoor light
GenericName[de]=Was-wäre-wenn mit Innenraumlicht
Comment=Can a small electronic device live on the light where it hangs?
Comment[de]=Kann ein kleines Gerät von dem Licht leben, in dem es hängt?
Exec={command} open %f
Icon={name}
Terminal=false
Categories=Science;Electronics;
MimeType={mime};
StartupWMClass={name}
"""
_MIME = """<?xml version="1.0" encoding="UTF-8"?>
<mime-info xmlns="http://www.freedesktop.org/standards/shared-mime-info">
  <mime-type type="{mime}">
    <comment>Gloaming scenario</comment>
    <comment xml:lang="de">Gloaming-Szenario</comment>
    <sub-class-of type="application/json"/>
    <icon name="{name}"/>
    <magic priority="60">
      <match type="string" offset="0:200" value="&quot;{format}&quot;"/>
    </magic>
  </mime-type>
</mime-info>
"""


def data_home(environment: Mapping[str, str], home: Path) -> Path:
    """The user's data folder, as the base directory specification says."""
    named = environment.get("XDG_DATA_HOME", "")
    return Path(named) if named.startswith("/") else home / ".local" / "share"


def desktop_files(command: Sequence[str]) -> dict[str, bytes]:
    """What is put into the data folder, by path below it.

    Parameters
    ----------
    command : sequence of str
        Starts the program; a file to open follows.
    """
    started = " ".join(_quoted(word) for word in command)
    entry = _ENTRY.format(command=started, name=NAME, mime=MIME_TYPE)
    mime = _MIME.format(mime=MIME_TYPE, name=NAME, format=FORMAT)
    icon = resource_path("icons", "gloaming.svg").read_bytes()
    return {
        f"applications/{NAME}.desktop": entry.encode(),
        f"icons/hicolor/scalable/apps/{NAME}.svg": icon,
        f"icons/hicolor/scalable/mimetypes/{MIME_TYPE.replace('/', '-')}.svg": icon,
        f"mime/packages/{NAME}.xml": mime.encode(),
    }


def install(folder: Path, command: Sequence[str]) -> list[Path]:
    """Put the program on the desktop; the files that were written.

    Raises
    ------
    FileError
        A file cannot be written; what was written before it stays.
    """
    written = []
    for name, content in desktop_files(command).items():
        place = folder / name
        try:
            place.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise FileError(
                say("{place} cannot be made: {why}.", place=place.parent, why=str(error.strerror))
            ) from None
        write_bytes(place, content)
        written.append(place)
    _tell_desktop(folder)
    return written


def remove(folder: Path) -> list[Path]:
    """Take the program off the desktop again; the files that are gone.

    Raises
    ------
    FileError
        A file cannot be removed.
    """
    gone = []
    for name in desktop_files(()):
        place = folder / name
        try:
            place.unlink()
        except FileNotFoundError:
            continue
        except OSError as error:
            raise FileError(
                say("{place} cannot be removed: {why}.", place=place, why=str(error.strerror))
            ) from None
        gone.append(place)
    _tell_desktop(folder)
    return gone


def _quoted(word: str) -> str:
    """A word of a command as desktop entries write it."""
    plain = word.replace("%", "%%")
    if shlex.quote(word) == word:
        return plain
    for mark in ("\\", '"', "`", "$"):
        plain = plain.replace(mark, "\\" + mark)
    return f'"{plain}"'.replace("\\", "\\\\")


def _tell_desktop(folder: Path) -> None:
    """Let the desktop look again; one without these programs looks by itself."""
    for program, place in (
        ("update-desktop-database", folder / "applications"),
        ("update-mime-database", folder / "mime"),
    ):
        found = shutil.which(program)
        if found is not None and place.is_dir():
            subprocess.run(
                [found, str(place)], check=False,
                stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
            )  # fmt: skip

"""Reading and writing whole text files: what can go wrong, said in sentences."""

from __future__ import annotations

import os
import secrets
import shutil
import stat
from pathlib import Path

MEGABYTE = 1_000_000


class FileError(ValueError):
    """A file cannot be used; the text is one or more sentences that a person can act on."""


def read_text(path: Path, *, limit_bytes: int, what: str) -> str:
    """Text of a file, never more than a limit.

    Parameters
    ----------
    path : pathlib.Path
        File in UTF-8, with or without a byte-order mark.
    limit_bytes : int
        Largest size that is read; a larger file is refused unread.
    what : str
        What the file should be, such as ``"scenario"``, for the messages.

    Returns
    -------
    str
        The text; it holds more than blanks.

    Raises
    ------
    FileError
        Missing, a folder, not a regular file, not readable, too large, not text, or empty.
    """
    _check_name(path)
    try:
        found = path.stat()
        if stat.S_ISDIR(found.st_mode):
            raise FileError(f"{path} is a folder; a {what} is a file.")
        if not stat.S_ISREG(found.st_mode):
            raise FileError(f"{path} is not an ordinary file; a {what} is.")
        if found.st_size > limit_bytes:
            raise FileError(
                f"{path} holds {found.st_size / MEGABYTE:.1f} MB; a {what} may hold at most "
                f"{limit_bytes / MEGABYTE:g} MB."
            )
        with path.open("rb") as file:
            raw = file.read(limit_bytes + 1)
    except FileNotFoundError:
        raise FileError(f"There is no file {path}.") from None
    except OSError as error:
        raise FileError(f"{path} cannot be read: {error.strerror or error}.") from None
    if len(raw) > limit_bytes:
        raise FileError(f"{path} grew past {limit_bytes / MEGABYTE:g} MB while it was read.")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = "\0"
    if "\0" in text:
        raise FileError(f"{path} is not a text file in UTF-8, so it cannot be a {what}.")
    if not text.strip():
        raise FileError(f"{path} is empty; a {what} was expected.")
    return text


def write_text(path: Path, text: str) -> None:
    """Write a file so that it holds either all of the new text or all of the old.

    The text goes into a new file in the same folder, is flushed to the disk, and takes the
    name in one step. A link keeps pointing where it pointed; the file's permissions stay.

    Raises
    ------
    FileError
        The folder is missing, the name is a folder, or the disk refuses.
    """
    _check_name(path)
    target = Path(os.path.realpath(path))
    if target.is_dir():
        raise FileError(f"{path} is a folder; give the name of a file.")
    if not target.parent.is_dir():
        raise FileError(f"{path} cannot be written: there is no folder {target.parent}.")
    aside = target.with_name(f".{secrets.token_hex(8)}.part")
    try:
        with aside.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            shutil.copymode(target, aside)
        os.replace(aside, target)
        _flush_folder(target.parent)
    except OSError as error:
        raise FileError(f"{path} cannot be written: {error.strerror or error}.") from None
    finally:
        aside.unlink(missing_ok=True)


def _check_name(path: Path) -> None:
    if "\0" in str(path):
        raise FileError(f"{str(path)!r} cannot be the name of a file.")


def _flush_folder(folder: Path) -> None:
    """Make a rename last through a power cut, where the system has a way to ask for it."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)

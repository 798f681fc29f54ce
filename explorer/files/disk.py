"""Reading and writing whole files: what can go wrong, said in sentences."""

from __future__ import annotations

import errno
import hashlib
import os
import secrets
import shutil
import stat
from pathlib import Path

from explorer.text import figure, say, texts

MEGABYTE = 1_000_000
_REFUSALS: tuple[str, ...] = texts((
    "Permission denied",
    "Operation not permitted",
    "No such file or directory",
    "Not a directory",
    "File name too long",
    "No space left on device",
    "Disk quota exceeded",
    "Read-only file system",
    "Input/output error",
    "Too many levels of symbolic links",
))  # fmt: skip
"""What systems say when they refuse a file, in English; many say it in a person's language."""


class FileError(ValueError):
    """A file cannot be used; the text is one or more sentences that a person can act on."""


def read_text(path: Path, *, limit_bytes: int, what: str, fallback: str = "utf-8-sig") -> str:
    """Text of a file, never more than a limit.

    Parameters
    ----------
    path : pathlib.Path
        File in UTF-8, with or without a byte-order mark.
    limit_bytes : int
        Largest size that is read; a larger file is refused unread.
    what : str
        What the file should be, such as ``say("scenario")``, for the messages.
    fallback : str
        Encoding of files that are not UTF-8, where their format leaves it open.

    Returns
    -------
    str
        The text; it holds more than blanks.

    Raises
    ------
    FileError
        Missing, a folder, not a regular file, not readable, too large, not text, or empty.
    """
    check_file(path, limit_bytes=limit_bytes, what=what)
    try:
        with path.open("rb") as file:
            raw = file.read(limit_bytes + 1)
    except OSError as error:
        raise refusal(path, error) from None
    if len(raw) > limit_bytes:
        raise FileError(
            say(
                "{path} grew past {limit} MB while it was read.",
                path=path,
                limit=figure(f"{limit_bytes / MEGABYTE:g}"),
            )
        )
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = raw.decode(fallback, errors="replace") if fallback != "utf-8-sig" else "\0"
    if "\0" in text:
        raise FileError(
            say(
                "{path} is not a text file in UTF-8, so it cannot be a {what}.",
                path=path,
                what=what,
            )
        )
    if not text.strip():
        raise FileError(say("{path} is empty; a {what} was expected.", path=path, what=what))
    return text


def check_file(path: Path, *, limit_bytes: int, what: str) -> int:
    """Size of a file that may be read, in bytes.

    Parameters
    ----------
    path, limit_bytes, what
        As of `read_text`.

    Raises
    ------
    FileError
        Missing, a folder, not a regular file, or too large.
    """
    _check_name(path)
    try:
        found = path.stat()
    except OSError as error:
        raise refusal(path, error) from None
    if stat.S_ISDIR(found.st_mode):
        raise FileError(say("{path} is a folder; a {what} is a file.", path=path, what=what))
    if not stat.S_ISREG(found.st_mode):
        raise FileError(say("{path} is not an ordinary file; a {what} is.", path=path, what=what))
    if found.st_size > limit_bytes:
        raise FileError(
            say(
                "{path} holds {size} MB; a {what} may hold at most {limit} MB.",
                path=path,
                size=figure(f"{found.st_size / MEGABYTE:.1f}"),
                what=what,
                limit=figure(f"{limit_bytes / MEGABYTE:g}"),
            )
        )
    return found.st_size


def digest_of(path: Path) -> str | None:
    """What tells the content of a file from any other; None where no file can be read there."""
    try:
        if not path.is_file():  # a pipe or a device would never end
            return None
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError:
        return None


def refusal(path: Path, error: OSError) -> FileError:
    """What the system says of a file that it does not let read, as an error."""
    if isinstance(error, FileNotFoundError):
        return FileError(say("There is no file {path}.", path=path))
    return FileError(say("{path} cannot be read: {why}.", path=path, why=_why(error)))


def write_text(path: Path, text: str) -> None:
    """Write a file in UTF-8 so that it holds either all of the new text or all of the old.

    Raises
    ------
    FileError
        The folder is missing, the name is a folder, or the disk refuses.
    """
    write_bytes(path, text.encode("utf-8"))


def write_bytes(path: Path, content: bytes) -> None:
    """Write a file so that it holds either all of the new content or all of the old.

    The content goes into a new file in the same folder, is flushed to the disk, and takes the
    name in one step. A link keeps pointing where it pointed; the file's permissions stay.

    Raises
    ------
    FileError
        The folder is missing, the name is a folder, or the disk refuses.
    """
    _check_name(path)
    target = Path(os.path.realpath(path))
    if target.is_dir():
        raise FileError(say("{path} is a folder; give the name of a file.", path=path))
    if not target.parent.is_dir():
        raise FileError(
            say(
                "{path} cannot be written: there is no folder {folder}.",
                path=path,
                folder=target.parent,
            )
        )
    aside = target.with_name(f".{secrets.token_hex(8)}.part")
    try:
        with aside.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            shutil.copymode(target, aside)
        os.replace(aside, target)
        _flush_folder(target.parent)
    except OSError as error:
        raise FileError(
            say("{path} cannot be written: {why}.", path=path, why=_why(error))
        ) from None
    finally:
        aside.unlink(missing_ok=True)


def drop(path: Path) -> None:
    """Take a file away, if it is there.

    Raises
    ------
    FileError
        The disk refuses.
    """
    try:
        path.unlink(missing_ok=True)
    except OSError as error:
        raise FileError(
            say("{path} cannot be deleted: {why}.", path=path, why=_why(error))
        ) from None


def is_free(handle: int) -> bool:
    """Whether no other program claims an open file; from now on we do, until it is closed.

    The claim falls with the process, however that ends. Windows has no such lock.
    """
    try:
        import fcntl
    except ImportError:
        return True
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        return error.errno not in (errno.EACCES, errno.EAGAIN)
    return True


def _why(error: OSError) -> str:
    """The system's own words; what `_REFUSALS` lists can be shown in any language."""
    return say(error.strerror) if error.strerror else str(error)


def _check_name(path: Path) -> None:
    if "\0" in str(path):
        raise FileError(say("{name} cannot be the name of a file.", name=repr(str(path))))


def _flush_folder(folder: Path) -> None:
    """Make a rename last through a power cut, where the system has a way to ask for it."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)

"""The lines of a table file, block by block, in whatever encoding it was written."""

from __future__ import annotations

import codecs
import csv
import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from explorer.files.disk import FileError, check_file, refusal
from explorer.files.table_reader.told import LogError
from explorer.text import say

BLOCK = 1 << 22
"""Characters read at once; a smaller file is one block."""
HEAD = 1 << 16
_CONTROLS = frozenset(range(32)) - {0x09, 0x0A, 0x0B, 0x0C, 0x0D, 0x1A, 0x1B}
_NOT_IN_CP1252 = (b"\x81", b"\x8d", b"\x8f", b"\x90", b"\x9d")
_TOO_LONG = say("field larger than field limit (131072)")
"""What Python's reader of CSV says of a cell that never ends, word for word."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Whole lines of a file."""

    first_line: int
    """Number of the first line in the file, from 1."""
    text: str
    is_last: bool
    share: float
    """Of the file that was read so far."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TextFile:
    """A text file with its encoding."""

    path: Path
    encoding: str
    size: int
    """In bytes."""
    has_quotes: bool
    """Whether any cell may stand in quotation marks."""

    @property
    def characters(self) -> int:
        """About how many the file holds."""
        return self.size // 2 if self.encoding.startswith("utf-16") else self.size

    def blocks(self, characters: int = BLOCK) -> Iterator[Block]:
        """The file from its beginning, in blocks of whole lines.

        Raises
        ------
        LogError
            It is no text after all, or the disk refuses.
        """
        line = 1
        try:
            with self.path.open(encoding=self.encoding, errors="replace", newline=None) as file:
                text = file.read(characters)
                while text:
                    text += file.readline() if text[-1] != "\n" else ""
                    position = os.lseek(file.fileno(), 0, os.SEEK_CUR)
                    following = file.read(characters)
                    if "\0" in text:
                        raise _no_text(self.path)
                    yield Block(
                        first_line=line,
                        text=text,
                        is_last=not following,
                        share=min(position / self.size, 1.0),
                    )
                    line += text.count("\n")
                    text = following
        except OSError as error:
            raise LogError(str(refusal(self.path, error))) from None


def opened(path: Path, *, limit_bytes: int, what: str) -> TextFile:
    """A file with the encoding in which all of it can be read.

    Understood are UTF-8 and UTF-16, with or without a mark at the head, and Latin-1, in which
    loggers write their µ and °.

    Parameters
    ----------
    path : pathlib.Path
        Of the file.
    limit_bytes : int
        Largest size that is read.
    what : str
        What the file should be, for the messages.

    Raises
    ------
    LogError
        Missing, a folder, not readable, too large, not text, or empty.
    """
    try:
        size = check_file(path, limit_bytes=limit_bytes, what=what)
        with path.open("rb") as file:
            head = file.read(HEAD)
            file.seek(0)
            seen = _seen(file)
    except FileError as error:
        raise LogError(str(error)) from None
    except OSError as error:
        raise LogError(str(refusal(path, error))) from None
    encoding = _encoding(head)
    if _CONTROLS & set(map(ord, head.decode(encoding, errors="ignore"))):
        raise _no_text(path)
    if not encoding.startswith("utf-16"):
        encoding = "utf-8-sig" if seen.is_utf8 else "cp1252" if seen.is_cp1252 else "latin-1"
    if not head.removeprefix(b"\xef\xbb\xbf").strip(b"\0\xff\xfe \t\r\n"):
        raise LogError(say("{path} is empty; a {what} was expected.", path=path, what=what))
    size = max(size, len(head))  # it may have grown since
    return TextFile(path=path, encoding=encoding, size=size, has_quotes=seen.has_quotes)


def below(block: Block, line: int) -> tuple[str, int]:
    """The text of a block from some line on, and the number of its first line."""
    if block.first_line >= line:
        return block.text, block.first_line
    return "\n".join(block.text.split("\n")[line - block.first_line :]), line


def cells_of(
    text: str, first_line: int, delimiter: str, name: str
) -> tuple[list[int], list[list[str]]]:
    """Line numbers and cells of some lines; remarks and lines of blank cells are left out.

    Raises
    ------
    LogError
        A quotation mark is never closed, or a cell never ends.
    """
    numbered = [
        (number, line)
        for number, line in enumerate(text.split("\n"), start=first_line)
        if line and not line.startswith("#") and line.strip(delimiter + " \t\r\"")
    ]
    numbers = [number for number, _ in numbered]
    if '"' not in text:
        return numbers, [line.split(delimiter) for _, line in numbered]
    try:
        rows = list(csv.reader((line for _, line in numbered), delimiter=delimiter))
    except csv.Error as error:
        why = say(str(error))
        raise LogError(say("{file} is not a table: {why}.", file=name, why=why)) from None
    if len(rows) != len(numbers):
        raise LogError(say("{file} has a quotation mark that is never closed.", file=name))
    return numbers, rows


def _encoding(head: bytes) -> str:
    if head.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "utf-16"
    # Letters and digits in UTF-16 have every other byte empty.
    even, odd = head[0::2].count(0), head[1::2].count(0)
    if odd > 0.3 * len(head[1::2]) and even == 0:
        return "utf-16-le"
    if even > 0.3 * len(head[0::2]) and odd == 0:
        return "utf-16-be"
    return "utf-8-sig"


@dataclass(slots=True, kw_only=True)
class _Seen:
    is_utf8: bool = True
    is_cp1252: bool = True
    has_quotes: bool = False


def _seen(file: BinaryIO) -> _Seen:
    """What the bytes of a whole file tell."""
    seen = _Seen()
    decoder = codecs.getincrementaldecoder("utf-8")()
    while raw := file.read(2 * BLOCK):
        seen.has_quotes = seen.has_quotes or b'"' in raw
        seen.is_cp1252 = seen.is_cp1252 and not any(code in raw for code in _NOT_IN_CP1252)
        try:
            if seen.is_utf8:
                decoder.decode(raw)
        except UnicodeDecodeError:
            seen.is_utf8 = False
    try:
        decoder.decode(b"", final=True)
    except UnicodeDecodeError:
        seen.is_utf8 = False
    return seen


def _no_text(path: Path) -> LogError:
    return LogError(
        say(
            "{path} holds no text, so it cannot be read as a table; save it as CSV from the "
            "program that made it.",
            path=path,
        )
    )

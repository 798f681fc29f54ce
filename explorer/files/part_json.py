"""Files of parts of one's own: one part in each, UTF-8 JSON."""

from __future__ import annotations

from pathlib import Path
from typing import Any, get_args

from explorer.files.disk import MEGABYTE, FileError, read_text, write_text
from explorer.files.json_text import decoded, dumped, found_text, validated
from explorer.scenario.part import FORMAT, KINDS, PART, VERSION, Part, PartKind
from explorer.text import listed, say

LIMIT_BYTES = MEGABYTE
"""Largest part file that is read (own judgement: real ones hold a few kilobytes)."""


def load_part(path: Path | str) -> Part:
    """Read a part.

    Raises
    ------
    FileError
        The file is missing, is no part, or holds a key or value that is not allowed.
    """
    path = Path(path)
    return parse_part(read_text(path, limit_bytes=LIMIT_BYTES, what=say("part")), path.name)


def parse_part(text: str, name: str) -> Part:
    """Read a part from a text.

    Parameters
    ----------
    text : str
        JSON.
    name : str
        What messages call the text, such as its file name.

    Raises
    ------
    FileError
        The text is no part, or holds a key or value that is not allowed.
    """
    data = decoded(text, name)
    kind = _check_head(data, name)
    data["version"] = VERSION  # version 1 knew no height, and means the same
    return validated(data, name, KINDS[kind])


def save_part(path: Path | str, part: Part) -> None:
    """Write a part in one step: a crash leaves the old file or the new one.

    Raises
    ------
    FileError
        The place cannot be written.
    """
    write_text(Path(path), dump_part(part))


def dump_part(part: Part) -> str:
    """The text of a part file."""
    return dumped(part)


def part_schema() -> dict[str, Any]:
    """The JSON Schema of part files, with label, unit, range and help of every key."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **PART.json_schema(),
        "required": ["format", "version", "kind", "title"],
    }


def is_part(path: Path) -> bool:
    """Whether a file says that it is a part; never fails."""
    try:
        data = decoded(read_text(path, limit_bytes=LIMIT_BYTES, what=say("part")), path.name)
    except FileError:
        return False
    return isinstance(data, dict) and data.get("format") == FORMAT


def _check_head(data: Any, name: str) -> PartKind:
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        found = data.get("format") if isinstance(data, dict) else data
        raise FileError(
            say(
                '{file} is not a part: the key format must be "{format}", found {found}.',
                file=name, format=FORMAT, found=found_text(found),
            )
        )  # fmt: skip
    version = data.get("version")
    if type(version) is not int or version < 1:
        raise FileError(
            say(
                "{file}: version must be a whole number from 1 to {newest}, found {found}.",
                file=name, newest=VERSION, found=found_text(version),
            )
        )  # fmt: skip
    if version > VERSION:
        raise FileError(
            say(
                "{file} is a part of version {version}, and this program reads versions up to "
                "{newest}. A newer program wrote it; update this one to open it.",
                file=name, version=version, newest=VERSION,
            )
        )  # fmt: skip
    kind = data.get("kind")
    if not isinstance(kind, str) or kind not in KINDS:
        allowed = listed((f'"{one}"' for one in get_args(PartKind)), say(" or "))
        raise FileError(
            say(
                "{file}: kind is {found}; allowed is {allowed}.",
                file=name, found=found_text(kind), allowed=allowed,
            )
        )  # fmt: skip
    chosen: PartKind = kind
    return chosen

"""The libraries that the program stands on, with their licences, as they are installed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from importlib.metadata import Distribution, PackageNotFoundError, distribution

from explorer.resource_files import resource_path
from explorer.text import say

PROGRAM = "gloaming"
_REQUIRED = re.compile(r"[A-Za-z0-9._-]+")
_LICENCE_FILE = re.compile(r"licen[cs]e|copying|notice", re.IGNORECASE)
_QT = ("PySide6", "PySide6_Essentials", "PySide6-Essentials", "shiboken6")
"""Qt for Python, which is taken under the LGPL; its packages carry no text of it."""
_QT_LICENCE = say("LGPL-3.0-only, with Qt under the same licence")
_QT_TEXTS = ("LGPL-3.0.txt", "GPL-3.0.txt")
_LONGEST_NAME = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Library:
    """One library."""

    name: str
    version: str
    licence: str
    """By its short name; empty where the library gives none."""
    text: str
    """All of its licence files."""


def libraries() -> tuple[Library, ...]:
    """Every library that is needed and installed, and what these need, by name."""
    found: dict[str, Distribution] = {}
    _gather(PROGRAM, found)
    found.pop(PROGRAM, None)
    return tuple(_library(found[key]) for key in sorted(found))


def _gather(name: str, found: dict[str, Distribution]) -> None:
    key = re.sub(r"[-_.]+", "-", name).lower()
    if key in found:
        return
    try:
        found[key] = distribution(name)
    except PackageNotFoundError:  # of another system, or an option that is not installed
        return
    for line in found[key].requires or ():
        required = _REQUIRED.match(line)
        if required is not None and "extra ==" not in line:
            _gather(required.group(), found)


def _library(found: Distribution) -> Library:
    name = found.metadata["Name"]
    if name in _QT:
        texts = [resource_path("licences", file).read_text("utf-8") for file in _QT_TEXTS]
        return Library(
            name=name, version=found.version, licence=_QT_LICENCE, text="\n\n".join(texts)
        )
    texts = [
        file.read_text("utf-8")
        for file in sorted(found.files or ())
        if ".dist-info" in str(file) and _LICENCE_FILE.search(file.name)
        and file.locate().is_file()  # type: ignore[attr-defined]
    ]  # fmt: skip
    return Library(
        name=name, version=found.version, licence=_short_name(found), text="\n\n".join(texts)
    )


def _short_name(found: Distribution) -> str:
    said = found.metadata.json
    expression = str(said.get("license_expression", ""))
    if expression:
        return expression
    kinds = [
        str(kind).rpartition(" :: ")[2]
        for kind in said.get("classifier", ())
        if str(kind).startswith("License ::")
    ]
    if kinds:
        return ", ".join(kinds)
    line = str(said.get("license", "")).strip().partition("\n")[0]
    return line if len(line) <= _LONGEST_NAME else ""

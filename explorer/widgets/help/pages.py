"""The pages of the help as rich text; built from the model, the resources and the real actions."""

from __future__ import annotations

import json
import math
from collections.abc import Iterable
from dataclasses import dataclass
from html import escape
from importlib.metadata import PackageNotFoundError, metadata, version

from explorer.advice.cautions import Caution
from explorer.quantity import show
from explorer.resource_files import resource_path
from explorer.scenario.fields import describe
from explorer.scenario.model import FORMAT, VERSION
from explorer.state.words import option, plain_number
from explorer.widgets.help.quantities import SECTIONS, Entry, entries, kinds_of

PLANNING = (
    "Estimates are planning aids: local codes, the part's data sheet and a qualified person decide."
)
LIBRARIES = ("PySide6-Essentials", "pyqtgraph", "numpy", "scipy", "pydantic", "click")
"""Libraries that the program stands on, by the name under which they are installed."""
_LICENCES = {
    "PySide6-Essentials": "LGPL-3.0-only, with Qt under the same licence",
    "pyqtgraph": "MIT",
    "numpy": "BSD-3-Clause",
    "scipy": "BSD-3-Clause",
    "pydantic": "MIT",
    "click": "BSD-3-Clause",
}
"""Used where a library's own metadata names no licence in one line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyLine:
    """One key and what it does."""

    keys: str
    what: str


WIDGET_KEYS: dict[str, tuple[KeyLine, ...]] = {
    "On a slider": (
        KeyLine(keys="← → ↑ ↓", what="one stop down or up"),
        KeyLine(keys="Page Up, Page Down", what="several stops"),
        KeyLine(keys="Home, End", what="first and last stop"),
        KeyLine(keys="Delete", what="back to the starting value"),
    ),
    "In a number": (
        KeyLine(keys="↑ ↓", what="one stop up or down"),
        KeyLine(keys="Enter", what="take the number; 470u, 1,5 F and 90 min are understood"),
        KeyLine(keys="Esc", what="take back what was typed"),
    ),
    "On the trace": (
        KeyLine(keys="← →", what="move the time cursor"),
        KeyLine(keys="+ −", what="zoom in and out"),
        KeyLine(keys="Home", what="show the whole span"),
        KeyLine(keys="Esc", what="hide the time cursor"),
    ),
    "In the guide": (
        KeyLine(keys="↑ ↓", what="choose an answer"),
        KeyLine(keys="Enter", what="next question"),
        KeyLine(keys="Alt+←", what="previous question"),
        KeyLine(keys="Esc", what="close the guide"),
    ),
}
"""Keys that widgets handle themselves; those of the menus come from the actions."""


def entry_html(entry: Entry, *, heading: str = "h3") -> str:
    """Help of one quantity."""
    unit = f" [{entry.unit}]" if entry.unit else ""
    parts = [
        f"<{heading}>{escape(entry.label)}{escape(unit)}</{heading}>",
        f"<p>{escape(entry.what)}</p>",
        _labelled("Typical", entry.typical),
        _labelled("Where to read it", entry.read),
        _labelled("How this is known", entry.basis),
    ]
    takes = _takes(entry.key)
    if takes:
        parts.append(_labelled("It takes", takes))
    return "".join(parts)


def _labelled(label: str, text: str) -> str:
    return f"<p><b>{escape(label)}</b><br>{escape(text)}</p>"


def _takes(key: str) -> str:
    words = kinds_of(key)
    if words:
        return "; ".join(option(word) for word in words)
    name, _, last = key.partition(".")
    owners = [s for s, n in SECTIONS.items() if n == name and last in s.model_fields]
    field = describe(owners[0], last)
    if not math.isfinite(field.low):
        return ""
    if not field.unit:
        return f"{plain_number(field.low)} to {plain_number(field.high)}"
    return f"{show(field.low, field.unit)} to {show(field.high, field.unit)}"


def ideas() -> dict[str, tuple[str, str]]:
    """Title and text of the checks and ideas behind the verdict, by key."""
    data = json.loads(resource_path("help", "quantities.json").read_text(encoding="utf-8"))
    return {key: (idea["title"], idea["text"]) for key, idea in data["ideas"].items()}


def idea_html(key: str) -> str:
    """Help of one check or idea."""
    title, text = ideas()[key]
    return f"<h3>{escape(title)}</h3><p>{escape(text)}</p>"


def glossary_html() -> str:
    """Every quantity and every idea, in the order of the model."""
    parts = ["<h2>What the verdict rests on</h2>", *(idea_html(key) for key in ideas())]
    section = ""
    for entry in entries().values():
        if entry.section != section:
            section = entry.section
            parts.append(f"<h2>{escape(section)}</h2>")
        parts.append(entry_html(entry))
    return "".join(parts)


def cautions_html(found: Iterable[Caution]) -> str:
    """Cautions in full."""
    parts = [f"<h3>{escape(c.title)}</h3><p>{escape(c.text)}</p>" for c in found]
    return "".join(parts) or "<p>Nothing here calls for a caution.</p>"


def keys_html(menu: Iterable[KeyLine]) -> str:
    """The keyboard map: keys of the menus first, then those of single parts.

    Parameters
    ----------
    menu : iterable of KeyLine
        From the window's actions.
    """
    parts = ["<h2>Keyboard</h2>", "<h3>Anywhere</h3>", _key_table(menu)]
    for title, lines in WIDGET_KEYS.items():
        parts += [f"<h3>{escape(title)}</h3>", _key_table(lines)]
    return "".join(parts)


def _key_table(lines: Iterable[KeyLine]) -> str:
    rows = "".join(
        f"<tr><td style='padding-right:24px'><b>{escape(line.keys)}</b></td>"
        f"<td>{escape(line.what)}</td></tr>"
        for line in lines
    )
    return f"<table cellpadding='3'>{rows}</table>"


def model_note() -> str:
    """The model note, in Markdown."""
    return resource_path("help", "model-note.md").read_text(encoding="utf-8")


def sources() -> str:
    """What data is shipped, whence and under which licence, in Markdown."""
    return resource_path("README.md").read_text(encoding="utf-8")


def library_lines() -> tuple[tuple[str, str, str], ...]:
    """Name, installed version and licence of every library."""
    return tuple((name, _version(name), _licence(name)) for name in LIBRARIES)


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return "not installed"


def _licence(name: str) -> str:
    try:
        found = metadata(name)
    except PackageNotFoundError:
        return _LICENCES[name]
    said = str(found.json.get("license_expression", ""))
    return said if said and name != "PySide6-Essentials" else _LICENCES[name]


def about_html(program_version: str) -> str:
    """What the program is, what it stands on and what its answers are not."""
    rows = "".join(
        f"<tr><td style='padding-right:24px'>{escape(name)}</td>"
        f"<td style='padding-right:24px'>{escape(number)}</td><td>{escape(licence)}</td></tr>"
        for name, number, licence in library_lines()
    )
    return (
        f"<h2>Gloaming {escape(program_version)}</h2>"
        "<p>Says whether a small electronic device can live on indoor light, and with which "
        "panels, store and duty cycle.</p>"
        f"<p><b>{escape(PLANNING)}</b></p>"
        "<p>MIT licence. The data that comes with it keeps its own licences; see Data and "
        "sources.</p>"
        f"<p>Scenario files: {escape(FORMAT)}, version {VERSION}. The model is described, with "
        "its sources and its limits, in the model note.</p>"
        f"<h3>Libraries</h3><table cellpadding='2'>{rows}</table>"
    )

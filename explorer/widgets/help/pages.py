"""The pages of the help as rich text; built from the model, the resources and the real actions."""

from __future__ import annotations

import json
import math
from collections.abc import Iterable
from dataclasses import dataclass
from html import escape

from explorer.advice.cautions import Caution
from explorer.files.licences import libraries
from explorer.quantity import show
from explorer.resource_files import resource_path
from explorer.scenario.fields import describe
from explorer.scenario.model import FORMAT, VERSION
from explorer.state.language import language, tr
from explorer.text import say
from explorer.widgets.help.quantities import SECTIONS, Entry, entries, kinds_of
from explorer.words.options import option, plain_number

PLANNING = say(
    "Estimates are planning aids: local codes, the part's data sheet and a qualified person decide."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyLine:
    """One key and what it does."""

    keys: str
    what: str


WIDGET_KEYS: tuple[tuple[str, tuple[KeyLine, ...]], ...] = (
    (
        say("On a slider"),
        (
            KeyLine(keys="← → ↑ ↓", what=say("one stop down or up")),
            KeyLine(keys=say("Page Up, Page Down"), what=say("several stops")),
            KeyLine(keys=say("Home, End"), what=say("first and last stop")),
            KeyLine(keys=say("Delete", "key"), what=say("back to the starting value")),
        ),
    ),
    (
        say("In a number"),
        (
            KeyLine(keys="↑ ↓", what=say("one stop up or down")),
            KeyLine(
                keys=say("Enter", "key"),
                what=say("take the number; 470u, 1,5 F and 90 min are understood"),
            ),
            KeyLine(keys=say("Esc", "key"), what=say("take back what was typed")),
        ),
    ),
    (
        say("On the trace"),
        (
            KeyLine(keys="← →", what=say("move the time cursor")),
            KeyLine(keys="M", what=say("hold a mark at the cursor to measure from it")),
            KeyLine(keys="+ −", what=say("zoom in and out; with Ctrl in volts")),
            KeyLine(keys=say("↑ ↓, Page Up, Page Down"), what=say("move what is zoomed")),
            KeyLine(keys=say("Home", "key"), what=say("show everything")),
            KeyLine(keys=say("Esc", "key"), what=say("hide cursor and mark")),
            KeyLine(keys=say("Shift and drag"), what=say("draw a box to zoom into")),
            KeyLine(keys=say("Menu, or the right button"), what=say("measure, zoom, export")),
        ),
    ),
    (
        say("In the guide"),
        (
            KeyLine(keys="↑ ↓", what=say("choose an answer")),
            KeyLine(keys=say("Enter", "key"), what=say("next question")),
            KeyLine(keys=say("Alt+←"), what=say("previous question")),
            KeyLine(keys=say("Esc", "key"), what=say("close the guide")),
        ),
    ),
)
"""Keys that widgets handle themselves; those of the menus come from the actions."""


def entry_html(entry: Entry, *, heading: str = "h3") -> str:
    """Help of one quantity."""
    unit = f" [{tr(entry.unit)}]" if entry.unit else ""
    parts = [
        f"<{heading}>{escape(tr(entry.label))}{escape(unit)}</{heading}>",
        f"<p>{escape(tr(entry.what))}</p>",
        _labelled(tr("Typical"), tr(entry.typical)),
        _labelled(tr("Where to read it"), tr(entry.read)),
        _labelled(tr("How this is known"), tr(entry.basis)),
    ]
    takes = _takes(entry.key)
    if takes:
        parts.append(_labelled(tr("It takes"), takes))
    return "".join(parts)


def _labelled(label: str, text: str) -> str:
    return f"<p><b>{escape(label)}</b><br>{escape(text)}</p>"


def _takes(key: str) -> str:
    words = kinds_of(key)
    if words:
        return "; ".join(tr(option(word)) for word in words)
    name, _, last = key.partition(".")
    owners = [s for s, n in SECTIONS.items() if n == name and last in s.model_fields]
    field = describe(owners[0], last)
    if not math.isfinite(field.low):
        return ""
    if not field.unit:
        low, high = plain_number(field.low), plain_number(field.high)
    else:
        low, high = show(field.low, field.unit), show(field.high, field.unit)
    return tr("{low} to {high}", low=low, high=high)


def ideas() -> dict[str, tuple[str, str]]:
    """Title and text of the checks and ideas behind the verdict, by key."""
    data = json.loads(resource_path("help", "quantities.json").read_text(encoding="utf-8"))
    return {key: (say(idea["title"]), say(idea["text"])) for key, idea in data["ideas"].items()}


def idea_html(key: str) -> str:
    """Help of one check or idea."""
    title, text = ideas()[key]
    return f"<h3>{escape(tr(title))}</h3><p>{escape(tr(text))}</p>"


def glossary_html() -> str:
    """Every quantity and every idea, in the order of the model."""
    title = tr("What the verdict rests on")
    parts = [f"<h2>{escape(title)}</h2>", *(idea_html(key) for key in ideas())]
    section = ""
    for entry in entries().values():
        if entry.section != section:
            section = entry.section
            parts.append(f"<h2>{escape(tr(section))}</h2>")
        parts.append(entry_html(entry))
    return "".join(parts)


def cautions_html(found: Iterable[Caution]) -> str:
    """Cautions in full."""
    parts = [f"<h3>{escape(tr(c.title))}</h3><p>{escape(tr(c.text))}</p>" for c in found]
    return "".join(parts) or f"<p>{tr('Nothing here calls for a caution.')}</p>"


def keys_html(menu: Iterable[KeyLine]) -> str:
    """The keyboard map: keys of the menus first, then those of single parts.

    Parameters
    ----------
    menu : iterable of KeyLine
        From the window's actions.
    """
    parts = [f"<h2>{tr('Keyboard')}</h2>", f"<h3>{tr('Anywhere')}</h3>", _key_table(menu)]
    for title, lines in WIDGET_KEYS:
        parts += [f"<h3>{escape(tr(title))}</h3>", _key_table(lines)]
    return "".join(parts)


def _key_table(lines: Iterable[KeyLine]) -> str:
    rows = "".join(
        f"<tr><td style='padding-right:24px'><b>{escape(tr(line.keys))}</b></td>"
        f"<td>{escape(tr(line.what))}</td></tr>"
        for line in lines
    )
    return f"<table cellpadding='3'>{rows}</table>"


def model_note() -> str:
    """The model note, in Markdown."""
    return _in_language("help", "model-note")


def stand_page() -> str:
    """What the stand is, how it is set up, and how to leave it, in Markdown."""
    return _in_language("help", "stand")


def sources() -> str:
    """What data is shipped, whence and under which licence, in Markdown."""
    return _in_language("", "README")


def _in_language(folder: str, name: str) -> str:
    """A Markdown file of the resources; in English where it is not translated."""
    around = resource_path(folder)
    translated = around / f"{name}.{language()}.md"
    path = translated if translated.is_file() else around / f"{name}.md"
    return path.read_text(encoding="utf-8")


def licences_html() -> str:
    """The licence of the program and of every library, in full."""
    own = resource_path("LICENSE.txt").read_text(encoding="utf-8")
    parts = [("Gloaming", own)]
    parts += [(f"{one.name} {one.version}: {tr(one.licence)}", one.text) for one in libraries()]
    return "".join(
        f"<h3>{escape(name)}</h3><pre style='white-space: pre-wrap'>{escape(text)}</pre>"
        for name, text in parts
    )


def about_html(program_version: str) -> str:
    """What the program is, what it stands on and what its answers are not."""
    rows = "".join(
        f"<tr><td style='padding-right:24px'>{escape(one.name)}</td>"
        f"<td style='padding-right:24px'>{escape(one.version)}</td>"
        f"<td>{escape(tr(one.licence))}</td></tr>"
        for one in libraries()
    )
    purpose = tr(
        "Shows whether a small electronic device can run on indoor light, and with which "
        "panels, store and duty cycle."
    )
    licences = tr(
        "MIT licence. The data that comes with it keeps its own licences; see Data and sources."
    )
    files = tr(
        "Scenario files: {format}, version {version}. The model is described, with its sources "
        "and its limits, in the model note.",
        format=FORMAT,
        version=VERSION,
    )
    access = tr(
        "The window is made to be used with the keyboard alone; the page Keyboard lists how. "
        "Controls, figures and pictures have names for screen readers. There are light, dark and "
        "high contrast themes, sizes up to 200 %, and no meaning by colour alone. A sheet as a web "
        "page can be read aloud with its headings and tables; a sheet as PDF has no tags for "
        "that yet."
    )
    return (
        f"<h2>Gloaming {escape(program_version)}</h2>"
        f"<p>{escape(purpose)}</p>"
        f"<p><b>{escape(tr(PLANNING))}</b></p>"
        f"<p>{escape(licences)}</p>"
        f"<p>{escape(files)}</p>"
        f"<h3>{tr('Accessibility')}</h3><p>{escape(access)}</p>"
        f"<h3>{tr('Libraries')}</h3><table cellpadding='2'>{rows}</table>"
    )

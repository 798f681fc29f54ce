"""Every action of the main window: text, icon, shortcut, in one table."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtGui import QAction, QKeySequence, QPalette
from PySide6.QtWidgets import QWidget

from explorer.state.language import tr
from explorer.text import say
from explorer.widgets.icons import icon


@dataclass(frozen=True, slots=True, kw_only=True)
class ActionInfo:
    """How one action presents itself."""

    text: str
    tip: str
    keys: str | QKeySequence.StandardKey = ""
    icon: str = ""


ACTIONS = {
    "new": ActionInfo(
        text=say("&New"), tip=say("New scenario"), keys=QKeySequence.StandardKey.New, icon="new"
    ),
    "new_window": ActionInfo(
        text=say("New &window"), tip=say("Open a further window"), keys="Ctrl+Shift+N"
    ),
    "close": ActionInfo(text=say("&Close window"), tip=say("Close this window"), keys="Ctrl+W"),
    "open": ActionInfo(
        text=say("&Open…"),
        tip=say("Open a scenario"),
        keys=QKeySequence.StandardKey.Open,
        icon="open",
    ),
    "reload": ActionInfo(
        text=say("Read a&gain"), tip=say("Read the file again as it is on the disk")
    ),
    "save": ActionInfo(
        text=say("&Save"),
        tip=say("Save the scenario"),
        keys=QKeySequence.StandardKey.Save,
        icon="save",
    ),
    "save_as": ActionInfo(
        text=say("Save &as…"), tip=say("Save under another name"), keys="Ctrl+Shift+S"
    ),
    "keep_study": ActionInfo(
        text=say("&Keep as a study…"),
        tip=say(
            "Keep the design with its logged runs, the designs beside it and the results in one "
            "folder"
        ),
    ),
    "sheet": ActionInfo(
        text=say("Write a re&port…"),
        tip=say("Write all of it to PDF or HTML, for another engineer to check"),
        keys="Ctrl+Shift+P",
    ),
    "capture": ActionInfo(
        text=say("Read a load cap&ture…"),
        tip=say("Make an operation of a current that an analyser or an oscilloscope captured"),
    ),
    "quit": ActionInfo(
        text=say("&Quit"), tip=say("Close every window"), keys=QKeySequence.StandardKey.Quit
    ),
    "undo": ActionInfo(
        text=say("&Undo"), tip=say("Undo"), keys=QKeySequence.StandardKey.Undo, icon="undo"
    ),
    "redo": ActionInfo(
        text=say("&Redo"), tip=say("Redo"), keys=QKeySequence.StandardKey.Redo, icon="redo"
    ),
    "pin": ActionInfo(
        text=say("&Pin"),
        tip=say("Keep this design as a dashed curve to compare with"),
        keys="Ctrl+P",
        icon="pin",
    ),
    "parts": ActionInfo(
        text=say("Parts of your o&wn…"),
        tip=say("Panels, chargers, stores and loads of your own: take, keep, edit and share them"),
    ),
    "compare": ActionInfo(
        text=say("&Compare…"), tip=say("Compare this design with another one"), keys="Ctrl+D"
    ),
    "line_up": ActionInfo(
        text=say("Compare se&veral…"),
        tip=say("Lay up to six designs over each other"),
        keys="Ctrl+Shift+D",
    ),
    "stand": ActionInfo(
        text=say("Exhibition s&tand…"), tip=say("Set up the page for visitors of a stand")
    ),
    "guide": ActionInfo(
        text=say("&Guide…"),
        tip=say("Some plain questions and an answer"),
        keys="Ctrl+G",
        icon="guide",
    ),
    "next_pane": ActionInfo(
        text=say("Next part"), tip=say("Go on to the knobs, the middle or the verdict"), keys="F6"
    ),
    "previous_pane": ActionInfo(
        text=say("Part before"),
        tip=say("Go back to the verdict, the middle or the knobs"),
        keys="Shift+F6",
    ),
    "help": ActionInfo(
        text=say("&Explain what has the focus"), tip=say("Explain what has the focus")
    ),
    "glossary": ActionInfo(text=say("Every &quantity"), tip=say("Explain every quantity")),
    "keys": ActionInfo(text=say("&Keyboard"), tip=say("Show every key")),
    "model_note": ActionInfo(text=say("&Model note"), tip=say("How it is computed, and how well")),
    "tour": ActionInfo(
        text=say("&Tour of the window"), tip=say("Show the tour of the window again")
    ),
    "drawer_budget": ActionInfo(
        text=say("Where does the &energy go?"), tip=say("Show where the energy goes"), keys="Ctrl+1"
    ),
    "drawer_contest": ActionInfo(
        text=say("&Which store?"), tip=say("Compare every kind of store"), keys="Ctrl+2"
    ),
    "drawer_territory": ActionInfo(
        text=say("Where would it wor&k?"),
        tip=say("Map the verdict over two quantities"),
        keys="Ctrl+3",
    ),
    "drawer_spread": ActionInfo(
        text=say("H&ow sure?"), tip=say("See what tolerances and age do"), keys="Ctrl+4"
    ),
    "drawer_panel": ActionInfo(
        text=say("How does the &panel work?"), tip=say("Show the panel's curves"), keys="Ctrl+5"
    ),
    "drawer_bench": ActionInfo(
        text=say("Does it &match a measurement?"),
        tip=say("Compare the forecast with a measurement"),
        keys="Ctrl+6",
    ),
    "drawer_year": ActionInfo(
        text=say("What does the &year bring?"),
        tip=say("See the seasons, the dark weeks and what is left of the store after years"),
        keys="Ctrl+7",
    ),
    "drawer_builds": ActionInfo(
        text=say("Which &build?"),
        tip=say("Search panels, charger and store that do it"),
        keys="Ctrl+8",
    ),
    "about": ActionInfo(text=say("&About Gloaming"), tip=say("About this program")),
}


def _keys(keys: str | QKeySequence.StandardKey) -> list[QKeySequence]:
    """What the desktop has for a standard command, as two for redo, or the one that is named.

    Only letters count: keys named as the command itself are on few keyboards, and nobody looks for
    the oldest ones.
    """
    if isinstance(keys, QKeySequence.StandardKey):
        known = QKeySequence.keyBindings(keys)
        return [key for key in known if len(key.toString().rpartition("+")[2]) == 1]
    return [QKeySequence(keys)]


def build_actions(owner: QWidget) -> dict[str, QAction]:
    """All actions, owned by a window so that their shortcuts work in it."""
    found = {}
    for key, info in ACTIONS.items():
        action = QAction(tr(info.text), owner)
        action.setObjectName(key)
        if info.keys:
            action.setShortcuts(_keys(info.keys))
        shortcut = action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)
        tip = tr(info.tip)
        action.setToolTip(f"{tip} ({shortcut})" if shortcut else tip)
        action.setIconText(tr(info.text).replace("&", "").rstrip("…"))
        owner.addAction(action)
        found[key] = action
    found["pin"].setCheckable(True)
    return found


def draw_icons(actions: dict[str, QAction], palette: QPalette) -> None:
    """Give every action its icon in the colours of a palette."""
    for key, info in ACTIONS.items():
        if info.icon:
            actions[key].setIcon(icon(info.icon, palette))

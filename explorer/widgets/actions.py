"""Every action of the main window: text, icon, shortcut, in one table."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtGui import QAction, QKeySequence, QPalette
from PySide6.QtWidgets import QWidget

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
        text="&New", tip="New scenario", keys=QKeySequence.StandardKey.New, icon="new"
    ),
    "new_window": ActionInfo(
        text="New &window", tip="Open a further window", keys="Ctrl+Shift+N"
    ),
    "close": ActionInfo(text="&Close window", tip="Close this window", keys="Ctrl+W"),
    "open": ActionInfo(
        text="&Open…", tip="Open a scenario", keys=QKeySequence.StandardKey.Open, icon="open"
    ),
    "save": ActionInfo(
        text="&Save", tip="Save the scenario", keys=QKeySequence.StandardKey.Save, icon="save"
    ),
    "save_as": ActionInfo(text="Save &as…", tip="Save under another name", keys="Ctrl+Shift+S"),
    "quit": ActionInfo(text="&Quit", tip="Close every window", keys=QKeySequence.StandardKey.Quit),
    "undo": ActionInfo(text="&Undo", tip="Undo", keys=QKeySequence.StandardKey.Undo, icon="undo"),
    "redo": ActionInfo(text="&Redo", tip="Redo", keys=QKeySequence.StandardKey.Redo, icon="redo"),
    "pin": ActionInfo(
        text="&Pin",
        tip="Keep this design as a dashed curve to compare with",
        keys="Ctrl+P",
        icon="pin",
    ),
    "compare": ActionInfo(
        text="&Compare…", tip="Compare this design with another one", keys="Ctrl+D"
    ),
    "stand": ActionInfo(text="S&tand…", tip="Set up the page for visitors of a stand"),
    "guide": ActionInfo(
        text="&Guide…", tip="Five plain questions and an answer", keys="Ctrl+G", icon="guide"
    ),
    "help": ActionInfo(text="&Explain what has the focus", tip="Explain what has the focus"),
    "glossary": ActionInfo(text="Every &quantity", tip="Explain every quantity"),
    "keys": ActionInfo(text="&Keyboard", tip="Show every key"),
    "model_note": ActionInfo(text="&Model note", tip="How it is computed, and how well"),
    "tour": ActionInfo(text="&Tour of the window", tip="Show the tour of the window again"),
    "drawer_budget": ActionInfo(
        text="Where does the &energy go?", tip="Show where the energy goes", keys="Ctrl+1"
    ),
    "drawer_contest": ActionInfo(
        text="&Which store?", tip="Compare every kind of store", keys="Ctrl+2"
    ),
    "drawer_territory": ActionInfo(
        text="Where would it wor&k?", tip="Map the verdict over two quantities", keys="Ctrl+3"
    ),
    "drawer_spread": ActionInfo(
        text="H&ow sure?", tip="See what tolerances and age do", keys="Ctrl+4"
    ),
    "drawer_panel": ActionInfo(
        text="How does the &panel work?", tip="Show the panel's curves", keys="Ctrl+5"
    ),
    "about": ActionInfo(text="&About Gloaming", tip="About this program"),
}


def build_actions(owner: QWidget) -> dict[str, QAction]:
    """All actions, owned by a window so that their shortcuts work in it."""
    found = {}
    for key, info in ACTIONS.items():
        action = QAction(info.text, owner)
        action.setObjectName(key)
        if info.keys:
            action.setShortcut(QKeySequence(info.keys))
        shortcut = action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)
        action.setToolTip(f"{info.tip} ({shortcut})" if shortcut else info.tip)
        action.setIconText(info.text.replace("&", "").rstrip("…"))
        owner.addAction(action)
        found[key] = action
    found["pin"].setCheckable(True)
    return found


def draw_icons(actions: dict[str, QAction], palette: QPalette) -> None:
    """Give every action its icon in the colours of a palette."""
    for key, info in ACTIONS.items():
        if info.icon:
            actions[key].setIcon(icon(info.icon, palette))

"""How large everything is drawn: as somebody chose, or as a very large screen asks."""

from __future__ import annotations

import logging
import os
import sys

from PySide6.QtCore import QSize

from explorer.state.settings import AUTOMATIC, SettingsStore

LOG = logging.getLogger(__name__)
VARIABLE = "QT_SCALE_FACTOR"
_AGAIN = "GLOAMING_SCALED"
"""Set for a start that follows a first look at the screen, so that there is no third one."""
_LARGE = ((QSize(5000, 2700), 200), (QSize(3200, 1700), 150))
"""Screens on which letters of the usual size are small, as their desktop enlarges nothing, and
what is drawn there in percent (own judgement)."""


def asked_percent(screen: QSize, ratio: float) -> int:
    """What a screen asks for where nobody chose a size. [%]

    Parameters
    ----------
    screen : QSize
        Its size, without any factor of ours.
    ratio : float
        By how much the desktop enlarges everything already.

    Examples
    --------
    >>> asked_percent(QSize(3840, 2160), 1.0), asked_percent(QSize(1920, 1080), 2.0)
    (150, 100)
    """
    if ratio > 1.0:
        return 100
    for size, percent in _LARGE:
        if screen.width() >= size.width() and screen.height() >= size.height():
            return percent
    return 100


def in_force(settings: SettingsStore) -> int:
    """The size to draw in: the chosen one, or what the screen asked for when last seen. [%]"""
    chosen = settings.settings.scale_percent
    return settings.settings.screen_percent if chosen == AUTOMATIC else chosen


def set_scale(settings: SettingsStore) -> bool:
    """Tell Qt before the first widget, which is when it reads it; whether the factor is ours."""
    if VARIABLE in os.environ and _AGAIN not in os.environ:
        return False
    os.environ.pop(VARIABLE, None)
    if (percent := in_force(settings)) != 100:
        os.environ[VARIABLE] = str(percent / 100)
    return True


def look_at_screen(settings: SettingsStore, screen: QSize, ratio: float) -> bool:
    """Remember what the screen asks for; whether a start in another size should follow.

    Parameters
    ----------
    settings : SettingsStore
        Where it is remembered.
    screen : QSize
        Size of the screen as Qt says it now.
    ratio : float
        Its device pixels over these.
    """
    if settings.settings.scale_percent != AUTOMATIC:
        return False
    factor = in_force(settings) / 100
    asked = asked_percent(screen * factor, ratio / factor)
    if asked == settings.settings.screen_percent:
        return False
    settings.update(screen_percent=asked)
    return _AGAIN not in os.environ


def start_again() -> None:
    """Begin the program anew in the same process; on systems without this the next start has it."""
    if os.name != "posix":
        return
    os.environ[_AGAIN] = "1"
    try:
        os.execv(sys.executable, sys.orig_argv)
    except OSError as error:  # the size is right from the next start on
        LOG.warning("the program could not begin anew: %s", error)


__all__ = ["asked_percent", "in_force", "look_at_screen", "set_scale", "start_again"]

"""The language on show: Qt's translators, and the one function that shown texts go through."""

from __future__ import annotations

import logging
from collections.abc import Callable
from typing import Literal, cast, get_args

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QLocale, QTranslator
from PySide6.QtGui import QGuiApplication

from explorer.resource_files import resource_path
from explorer.text import Text, rendered, say

LOG = logging.getLogger(__name__)
Code = Literal["en", "de"]
LanguageChoice = Literal["system", "en", "de"]
LANGUAGE_CHOICES: tuple[LanguageChoice, ...] = get_args(LanguageChoice)
CONTEXT = "gloaming"
"""The one context under which all texts are kept."""
NAMES: dict[LanguageChoice, str] = {"en": "English", "de": "Deutsch"}
"""Each language by its own name, so that whoever needs it can read it."""
_MARKS: dict[Code, str] = {"en": ".", "de": ","}


class _Shown:
    """What is installed now."""

    code: Code = "en"
    translators: tuple[QTranslator, ...] = ()
    app: QCoreApplication | None = None
    """The application of a command that opens no window, which must outlive what it prints."""


def tr(text: str, meaning: str = "", /, **values: object) -> str:
    """A text in the language on show, as a plain string.

    Parameters
    ----------
    text : str
        A `Text` from a layer below, or a literal with ``{name}`` where a value goes.
    meaning : str
        Tells two uses of one English word apart.
    **values
        What goes into the literal; a `Text` among them is translated too.
    """
    said = say(text, meaning, **values) if values or not isinstance(text, Text) else text
    if _Shown.code == "en":
        return str.__str__(said)
    return rendered(said, _translate, _MARKS[_Shown.code])


def decimal_mark() -> str:
    """Decimal mark of the language on show."""
    return _MARKS[_Shown.code]


def language() -> Code:
    """Code of the language on show."""
    return _Shown.code


def of_system() -> Code:
    """The first language of the desktop that there is a translation for; else English."""
    for name in QLocale.system().uiLanguages():
        code = name.replace("_", "-").partition("-")[0]
        if code in get_args(Code):
            return cast(Code, code)
    return "en"


def set_language(choice: LanguageChoice) -> Code:
    """Show a language from now on; windows that are open already keep their words.

    Returns
    -------
    str
        The code of the language on show; English where a translation cannot be loaded.
    """
    code: Code = of_system() if choice == "system" else choice
    app = QCoreApplication.instance()
    assert app is not None
    for old in _Shown.translators:
        app.removeTranslator(old)
    loaded = _translators(code) if code != "en" else ()
    for new in loaded:
        app.installTranslator(new)
    _Shown.code, _Shown.translators = code if loaded else "en", loaded
    return _Shown.code


def begin(choice: LanguageChoice) -> Callable[[str], str]:
    """Get Qt ready where no window has, and show a language; returns what renders a text."""
    if QCoreApplication.instance() is None:
        _Shown.app = QGuiApplication([])
    set_language(choice)
    return tr


def _translators(code: Code) -> tuple[QTranslator, ...]:
    """Our own texts, and those of Qt's dialogs where the installation has them."""
    own, qt = QTranslator(), QTranslator()
    try:
        loaded = own.load(str(resource_path("languages", f"gloaming_{code}.qm")))
    except FileNotFoundError:
        loaded = False
    if not loaded:  # English is better than no program
        LOG.warning("the translation gloaming_%s.qm is missing or damaged", code)
        return ()
    folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
    return (own, qt) if qt.load(f"qtbase_{code}", folder) else (own,)


def _translate(template: str, meaning: str) -> str:
    return QCoreApplication.translate(CONTEXT, template, meaning or None)

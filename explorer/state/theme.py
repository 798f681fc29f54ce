"""Colours and type sizes of every theme; the only place that holds colour literals."""

from __future__ import annotations

from dataclasses import dataclass, fields
from functools import cache
from typing import Literal

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QFontDatabase, QGuiApplication, QPalette

ThemeChoice = Literal["system", "light", "dark", "contrast"]
THEME_CHOICES: tuple[ThemeChoice, ...] = ("system", "light", "dark", "contrast")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tokens:
    """The named colours of one theme, as ``#RRGGBB``."""

    name: str
    paper: str
    """Window ground, and the ground of fields on a card."""
    card: str
    """Panels and plots."""
    ink: str
    """Text."""
    soft: str
    """Secondary text and ticks."""
    line: str
    """Hairlines; decor, nothing is told by them alone."""
    edge: str
    """Outlines of things that can be operated."""
    accent: str
    """Store voltage, focus, the chosen one of several buttons."""
    on_accent: str
    """Text on `accent`."""
    envelope: str
    """Fill between store voltage and lowest pulse voltage; decor."""
    lit: str
    """Hours with the brightest light; decor."""
    ghost: str
    """Pinned earlier design."""
    threshold: str
    """Voltages that the trace is read against."""
    runs: str
    marginal: str
    falls_short: str
    hazard: str
    """Fill of the hazard triangle."""
    on_hazard: str
    """Sign inside the hazard triangle."""

    def color(self, role: str) -> QColor:
        """Colour of one role."""
        return QColor(getattr(self, role))


@dataclass(frozen=True, slots=True, kw_only=True)
class SceneColors:
    """Colours of the picture that moves on the stand; decor, nothing is told by them alone."""

    wall_night: str
    wall_dusk: str
    wall_day: str
    bench: str
    front: str
    metal: str
    pale: str
    cell: str
    cell_line: str
    glow: str
    leaf: str
    pot: str
    sky_night: tuple[str, str]
    """Top and foot of the sky."""
    sky_dusk: tuple[str, str]
    sky_day: tuple[str, str]
    hill: str
    sun: str
    moon: str


SCENE = SceneColors(
    wall_night="#181B25",
    wall_dusk="#2C3040",
    wall_day="#F6F3EC",
    bench="#B9A27C",
    front="#8C7B60",
    metal="#7C808C",
    pale="#E4E2DC",
    cell="#17355A",
    cell_line="#6F8DB4",
    glow="#FFD96B",
    leaf="#3E8A55",
    pot="#B5674A",
    sky_night=("#0C1230", "#1E2A58"),
    sky_dusk=("#3C4A73", "#E0A282"),
    sky_day=("#8CBFEA", "#DCECF6"),
    hill="#6E8A78",
    sun="#FFC94D",
    moon="#EDEBE6",
)


LIGHT = Tokens(
    name="light",
    paper="#F6F3EC",
    card="#FFFFFF",
    ink="#22242B",
    soft="#5A5F6B",
    line="#DAD5C9",
    edge="#8A8577",
    accent="#0B6CB0",
    on_accent="#FFFFFF",
    envelope="#BBD7EC",
    lit="#FFEFB8",
    ghost="#737682",
    threshold="#A9480F",
    runs="#1B7F3B",
    marginal="#B27200",
    falls_short="#B3261E",
    hazard="#FFC72E",
    on_hazard="#22242B",
)
DARK = Tokens(
    name="dark",
    paper="#15171F",
    card="#1D202B",
    ink="#EDEBE6",
    soft="#A9ABB5",
    line="#343846",
    edge="#737889",
    accent="#6CB6F0",
    on_accent="#10131B",
    envelope="#2F5B7F",
    lit="#3D3720",
    ghost="#9194A1",
    threshold="#E08A5B",
    runs="#3FB56A",
    marginal="#F0B23A",
    falls_short="#F0705F",
    hazard="#FFC72E",
    on_hazard="#10131B",
)
CONTRAST = Tokens(
    name="contrast",
    paper="#000000",
    card="#000000",
    ink="#FFFFFF",
    soft="#E4E4E4",
    line="#8C8C8C",
    edge="#FFFFFF",
    accent="#7CCBFF",
    on_accent="#000000",
    envelope="#22577F",
    lit="#4A4210",
    ghost="#C4C4C4",
    threshold="#FFB27A",
    runs="#5CE68A",
    marginal="#FFD24A",
    falls_short="#FF9B8C",
    hazard="#FFD24A",
    on_hazard="#000000",
)
ALL_TOKENS = (LIGHT, DARK, CONTRAST)
LIGHT_STEPS = ("#565C72", "#7A7680", "#A28F76", "#CDAE60", "#F3CF5C", "#FFF3CC")
"""From dark to the brightest light of a calendar; each step is lighter than the one before."""

TEXT_SIZES = {"small": 11, "body": 13, "heading": 18, "display": 28}
"""Type scale in logical pixels at 100 %."""


def contrast_ratio(one: str, other: str) -> float:
    """Contrast of two colours, 1 to 21 (WCAG 2.2, relative luminance).

    Examples
    --------
    >>> round(contrast_ratio("#000000", "#FFFFFF"), 1)
    21.0
    """
    bright, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (bright + 0.05) / (dark + 0.05)


def _luminance(color: str) -> float:
    parts = []
    for start in (1, 3, 5):
        share = int(color[start : start + 2], 16) / 255
        parts.append(share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4)
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def tokens_of(palette: QPalette) -> Tokens:
    """The theme that a widget's palette belongs to; by lightness where it is a foreign one."""
    window = palette.color(QPalette.ColorRole.Window)
    name = window.name().upper()
    for tokens in ALL_TOKENS:
        if tokens.paper == name:
            return tokens
    return DARK if window.lightness() < 128 else LIGHT


def resolve(choice: ThemeChoice) -> Tokens:
    """The tokens that a choice stands for, asking the system where it says so."""
    if choice == "system":
        hints = QGuiApplication.styleHints()
        accessibility = getattr(hints, "accessibility", None)  # Qt 6.10
        if accessibility is not None:
            wanted = accessibility().contrastPreference()
            if wanted == Qt.ContrastPreference.HighContrast:
                return CONTRAST
        dark = hints.colorScheme() == Qt.ColorScheme.Dark
        return DARK if dark else LIGHT
    return {"light": LIGHT, "dark": DARK, "contrast": CONTRAST}[choice]


@cache
def palette_of(tokens: Tokens) -> QPalette:
    """The Qt palette of a theme, for the Fusion style.

    One and the same each time: Qt keeps icons in the sizes that were painted by their palette, and
    of an equal one it would keep them again.
    """
    role = QPalette.ColorRole
    palette = QPalette(tokens.color("card"), tokens.color("paper"))
    for where, what in (
        (role.Window, "paper"),
        (role.WindowText, "ink"),
        (role.Base, "paper"),
        (role.AlternateBase, "card"),
        (role.Text, "ink"),
        (role.PlaceholderText, "soft"),
        (role.Button, "card"),
        (role.ButtonText, "ink"),
        (role.BrightText, "on_accent"),
        (role.ToolTipBase, "card"),
        (role.ToolTipText, "ink"),
        (role.Highlight, "accent"),
        (role.HighlightedText, "on_accent"),
        (role.Accent, "accent"),
        (role.Link, "accent"),
        (role.LinkVisited, "accent"),
        (role.Light, "card"),
        (role.Midlight, "line"),
        (role.Mid, "line"),
        (role.Dark, "edge"),
        (role.Shadow, "line"),
    ):
        palette.setColor(where, tokens.color(what))
    for where in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, where, tokens.color("ghost"))
    return palette


def font(size: str = "body", *, bold: bool = False) -> QFont:
    """A font of the type scale, in the system's interface face with tabular figures."""
    result = QFont(QFontDatabase.systemFont(QFontDatabase.SystemFont.GeneralFont))
    result.setPixelSize(TEXT_SIZES[size])
    result.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
    if hasattr(QFont, "Tag"):  # OpenType features arrived in Qt 6.7
        result.setFeature(QFont.Tag("tnum"), 1)
    return result


def color_roles() -> tuple[str, ...]:
    """Names of all colours of a theme."""
    return tuple(f.name for f in fields(Tokens) if f.name != "name")

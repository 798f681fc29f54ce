import pytest
from PySide6.QtGui import QColor, QPalette

from explorer.state.theme import (
    ALL_TOKENS,
    CONTRAST,
    DARK,
    LIGHT,
    TEXT_SIZES,
    color_roles,
    contrast_ratio,
    font,
    palette_of,
    resolve,
    tokens_of,
)

GROUNDS = ("card", "paper")
TEXT = ("ink", "soft", "threshold")
SHAPES = ("edge", "accent", "ghost", "runs", "marginal", "falls_short")
NAMES = [t.name for t in ALL_TOKENS]


@pytest.mark.parametrize("tokens", ALL_TOKENS, ids=NAMES)
@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("role", TEXT)
def test_text_has_four_and_a_half_to_one(tokens, role, ground):
    # WCAG 2.2, 1.4.3
    assert contrast_ratio(getattr(tokens, role), getattr(tokens, ground)) >= 4.5


@pytest.mark.parametrize("tokens", ALL_TOKENS, ids=NAMES)
@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("role", SHAPES)
def test_shapes_that_carry_meaning_have_three_to_one(tokens, role, ground):
    # WCAG 2.2, 1.4.11
    assert contrast_ratio(getattr(tokens, role), getattr(tokens, ground)) >= 3.0


@pytest.mark.parametrize("tokens", ALL_TOKENS, ids=NAMES)
def test_text_and_curves_also_read_over_lit_hours(tokens):
    for role, least in (("threshold", 4.5), ("accent", 3.0), ("ghost", 3.0)):
        assert contrast_ratio(getattr(tokens, role), tokens.lit) >= least, role


@pytest.mark.parametrize("tokens", ALL_TOKENS, ids=NAMES)
def test_text_on_filled_buttons_and_in_the_hazard_triangle_reads(tokens):
    assert contrast_ratio(tokens.on_accent, tokens.accent) >= 4.5
    assert contrast_ratio(tokens.on_hazard, tokens.hazard) >= 4.5


def test_high_contrast_text_has_seven_to_one():
    for role in (*TEXT, *SHAPES):
        assert contrast_ratio(getattr(CONTRAST, role), CONTRAST.card) >= 7.0, role


def test_contrast_formula_against_published_pairs():
    # WCAG 2.2: black on white 21:1; #777777 on white is the well-known 4.48 that just fails.
    assert contrast_ratio("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert contrast_ratio("#777777", "#FFFFFF") == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize("tokens", ALL_TOKENS, ids=NAMES)
def test_a_palette_knows_its_theme(tokens):
    assert tokens_of(palette_of(tokens)) is tokens


def test_a_foreign_palette_is_judged_by_lightness():
    assert tokens_of(QPalette(QColor("#202020"))) is DARK
    assert tokens_of(QPalette(QColor("#EEEEEE"))) is LIGHT


def test_every_colour_is_a_full_hex_triplet():
    for tokens in ALL_TOKENS:
        for role in color_roles():
            value = getattr(tokens, role)
            assert value == value.upper()
            assert QColor(value).name().upper() == value


def test_choices_resolve_to_themes(qapp):
    assert resolve("dark") is DARK
    assert resolve("contrast") is CONTRAST
    assert resolve("system") in ALL_TOKENS


def test_fonts_follow_the_type_scale(qapp):
    assert [font(size).pixelSize() for size in TEXT_SIZES] == [11, 13, 18, 28]
    assert font("body", bold=True).weight() > font("body").weight()

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.stand.legibility import (
    GOOD_ARCMIN,
    LEAST_ARCMIN,
    capital_height_mm,
    farthest_m,
    fit_of,
    font_px,
    seen_arcmin,
    sizes_for,
    target_px,
)

FHD, QHD, UHD = (1920, 1080), (2560, 1440), (3840, 2160)

# h = 2 d tan(θ/2); ISO 9241-3 and NUREG-0700 rev. 2 §1.3.1-4 name the angles. Worked by hand.
HEIGHTS_MM = [
    (0.6, 16, 2.8), (0.6, 20, 3.5), (0.6, 22, 3.8),
    (1.5, 16, 7.0), (1.5, 20, 8.7), (1.5, 22, 9.6),
    (3.0, 16, 14.0), (3.0, 20, 17.5), (3.0, 22, 19.2),
    (5.0, 16, 23.3), (5.0, 20, 29.1), (5.0, 22, 32.0),
]  # fmt: skip
# At 3 m: font size whose capitals, 0.7 of it, fill the angle; hand-worked from the diagonal.
FONTS_PX = [
    (14, FHD, (124, 154, 170)),
    (24, FHD, (72, 90, 99)),
    (27, QHD, (85, 107, 117)),
    (32, UHD, (108, 135, 149)),
    (43, UHD, (80, 101, 111)),
    (55, UHD, (63, 79, 86)),
]


@pytest.mark.parametrize(("distance_m", "arcmin", "mm"), HEIGHTS_MM)
def test_capitals_have_the_height_that_the_angle_asks_for(distance_m, arcmin, mm):
    assert capital_height_mm(distance_m, arcmin) == pytest.approx(mm, abs=0.06)


@pytest.mark.parametrize(("diagonal_in", "resolution", "sizes"), FONTS_PX)
def test_font_sizes_at_three_metres(diagonal_in, resolution, sizes):
    found = [font_px(3.0, diagonal_in, resolution, arcmin) for arcmin in (16, 20, 22)]
    assert found == pytest.approx(sizes, abs=1.0)


@given(st.floats(8, 400), st.floats(0.5, 10), st.floats(7, 100))
def test_angle_and_size_are_each_other_s_reverse(px, distance_m, diagonal_in):
    arcmin = seen_arcmin(px, distance_m, diagonal_in, FHD)
    assert font_px(distance_m, diagonal_in, FHD, arcmin) == pytest.approx(px)
    assert farthest_m(px, diagonal_in, FHD, arcmin) == pytest.approx(distance_m)


@pytest.mark.parametrize(
    ("diagonal_in", "resolution"), [(24, FHD), (24, UHD), (43, UHD), (27, QHD), (24, (1080, 1920))]
)
def test_usual_stand_screens_carry_the_page_at_three_metres(diagonal_in, resolution):
    fit = fit_of(resolution, diagonal_in, 3.0)
    assert fit.fits, fit.sentence
    assert fit.word_arcmin >= GOOD_ARCMIN
    assert fit.number_arcmin >= GOOD_ARCMIN
    assert fit.smallest_arcmin >= LEAST_ARCMIN - 0.05
    assert fit.reach_m >= 3.0


def test_a_small_laptop_says_that_it_cannot_and_how_far_it_can():
    fit = fit_of(FHD, 14, 3.0)
    assert not fit.fits
    assert "is too small for 3 m" in fit.sentence
    assert 1.0 < fit.reach_m < 3.0
    assert f"up to {fit.reach_m:.1f} m" in fit.sentence
    assert fit_of(FHD, 14, fit.reach_m - 0.05).fits
    assert not fit_of(FHD, 14, fit.reach_m + 0.05).fits


@given(st.floats(10, 100), st.sampled_from([FHD, QHD, UHD, (1280, 800), (1080, 1920)]))
def test_targets_are_ten_millimetres_and_44_pixels_at_least(diagonal_in, resolution):
    width, height = resolution
    side = target_px(diagonal_in, resolution)
    millimetres = side * diagonal_in * 25.4 / (width**2 + height**2) ** 0.5
    assert side >= 44
    assert millimetres >= 10.0
    assert sizes_for(resolution, diagonal_in, 3.0).target >= side


def test_a_screen_without_size_is_refused():
    with pytest.raises(ValueError, match="diagonal_in"):
        font_px(3.0, 0, FHD)

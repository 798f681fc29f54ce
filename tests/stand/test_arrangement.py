from itertools import pairwise

import pytest

from explorer.advice.elsewhere import Charged
from explorer.stand.arrangement import LOWEST_TRACE, arrange, places_height
from explorer.stand.legibility import ARM_M, GOOD_ARCMIN, seen_arcmin, sizes_for
from explorer.widgets.places_table import PlacesTable

PAGES = [
    (1920, 1080, 24, 3.0),
    (3840, 2160, 43, 3.0),
    (3840, 2160, 24, 3.0),
    (1280, 800, 14, 1.0),
    (1920, 1080, 14, 3.0),
    (1080, 1920, 24, 3.0),
    (1024, 768, 15, 1.5),
]


@pytest.mark.parametrize(("width", "height", "diagonal_in", "distance_m"), PAGES)
@pytest.mark.parametrize(("knobs", "places"), [(1, 0), (2, 3), (3, 0), (4, 0), (4, 4), (4, 7)])
def test_controls_lie_below_the_picture_and_all_is_on_the_page(
    width, height, diagonal_in, distance_m, knobs, places
):
    sizes = sizes_for((width, height), diagonal_in, distance_m)
    bands = arrange(width, height, sizes, knobs, places)
    order = [bands.header, bands.headline, bands.trace, bands.strip, bands.knobs, bands.cards]
    for above, below in pairwise(order):
        assert above.bottom <= below.y
    assert bands.cards.bottom <= height
    assert bands.trace.height >= LOWEST_TRACE * height - 1
    assert bands.cards.height >= sizes.target
    assert all(box.x >= 0 and box.x + box.width <= width for box in order)


def test_an_upright_page_has_two_columns_of_knobs():
    sizes = sizes_for((1080, 1920), 24, 3.0)
    assert arrange(1080, 1920, sizes, 4).knob_columns == 2
    assert arrange(1920, 1080, sizes_for((1920, 1080), 24, 3.0), 4).knob_columns == 4


@pytest.mark.parametrize(("width", "height", "diagonal_in", "distance_m"), PAGES)
def test_other_places_are_read_as_well_as_the_knobs(
    qtbot, width, height, diagonal_in, distance_m
):
    """From where a hand reaches, in letters of the preferred size, with all of every cell."""
    sizes = sizes_for((width, height), diagonal_in, distance_m)
    table = PlacesTable()
    qtbot.addWidget(table)
    names = ("On the window sill", "Potting bench", "Corridor")
    table.set_places(tuple(
        Charged(name=name, light_lx=1300.0, ready_s=7e3, full_s=1.36e4, per_hour=85.7, balance=3.0)
        for name in names
    ))
    bands = arrange(width, height, sizes, 4, len(table.rows))
    assert bands.places == 4
    table.set_px(sizes.reason, bands.places)
    most = bands.strip.width if bands.upright else bands.strip.width * 3 // 5
    table.resize(min(table.wanted_width(), most), places_height(sizes, bands.places))
    metrics = table._fitting()
    px = table._font.pixelSize()
    assert px >= min(0.95 * sizes.near, sizes.reason - 1.0)
    assert seen_arcmin(px, ARM_M, diagonal_in, (width, height)) >= 0.9 * min(
        GOOD_ARCMIN, seen_arcmin(sizes.near, ARM_M, diagonal_in, (width, height))
    )
    assert sum(table._widths(metrics)) <= table.width()
    assert table.height() <= bands.strip.height

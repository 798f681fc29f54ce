from itertools import pairwise

import pytest

from explorer.stand.arrangement import LOWEST_TRACE, arrange
from explorer.stand.legibility import sizes_for

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
@pytest.mark.parametrize("knobs", [1, 2, 3, 4])
def test_controls_lie_below_the_picture_and_all_is_on_the_page(
    width, height, diagonal_in, distance_m, knobs
):
    sizes = sizes_for((width, height), diagonal_in, distance_m)
    bands = arrange(width, height, sizes, knobs)
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

"""From a file to the number on the screen: what a check means holds through all layers.

Drawn designs are written to files, opened in a real window and read off its sign; what is right
comes from the reference that steps its own equations (tests/reference).
"""

from math import isfinite

import pytest

from explorer.quantity import parse
from tests.reference.answers import Right
from tests.reference.files import save
from tests.reference.strategy import numbered

NUMBERS = (3, 6, 9, 46, 53, 56, 63)
"""Banks and cells, diodes and converters, weeks and logs; most are cut off, some serve all."""


@pytest.fixture(scope="module")
def right():
    """The reference of each design."""
    return {number: Right(numbered(number), most=150) for number in NUMBERS}


def opened(window, number, folder):
    """What the sign says of a design that was written and opened again: value and margin."""
    path = folder / f"design_{number}.json"
    save(numbered(number), path)
    window.document.open(path)
    window.solver.solve_now()
    said = {}
    for row in window.sign.rows:
        name, rest = row.accessibleName().split(": ", 1)
        value, margin = rest.rsplit(", ", 2)[1:]
        said[name.lower()] = value, margin.removeprefix("margin ").removesuffix("×")
    return said


def test_the_screen_shows_what_the_checks_mean(window, tmp_path, right):
    """Starts, Balance, Dark, Ratings and Service, and that nothing runs which is cut off."""
    compared = set()
    for number, found in right.items():
        said = opened(window, number, tmp_path)
        for name, margin in found.margins.items():
            if 0.01 < margin < 10.0:
                shown = float(said[name][1].removeprefix("> "))
                assert shown == pytest.approx(margin, rel=0.01, abs=0.011), (number, name)
                compared.add(name)
        if isfinite(found.first.started_s):
            seconds = parse(said["starts"][0], "s")
            assert seconds == pytest.approx(found.first.started_s, rel=0.01), number
        if found.course is not None and "served_share" in found.answers:
            share = parse(said["service"][0].removesuffix(" %"), "") / 100.0
            assert share <= found.answers["served_share"] + 0.01, number
            word = window.sign.word.text()
            assert word != "Runs" or found.course.totals.cut_offs == 0
            compared.add("service")
    assert compared == {"starts", "balance", "dark", "ratings", "service"}

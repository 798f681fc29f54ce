"""A year of daylight, from file to answers, against a reference that steps its own equations.

Drawn years and devices, each from a number; `python -m tests.reference --parts years` takes others.
Years of lamps alone have few levels of light, so that they are stepped in a second; for the others
the product's own light is taken, which is held to another sun, sky and calendar here.
"""


import numpy as np
import pytest

from explorer.advice.case import Case
from explorer.files.scenario_json import load_scenario
from tests.depth import some, thorough
from tests.reference.files import save
from tests.reference.sky import light_of
from tests.reference.yearly import numbered_year
from tests.reference.years import judged_year

OF_LAMPS = some((4, 25), 2)
OF_DAYLIGHT = 6
OUT_OF_DOORS, IN_A_ROOM = (7,), (3, 11, 22)


def wrong(number, scenario):
    off, right = judged_year(scenario)
    return right, {(number, name): one for name, one in off.items() if one.share > 1.0}


def test_a_year_of_lamps_is_true_from_its_file_to_its_answers(tmp_path):
    followed = 0
    for number in OF_LAMPS:
        path = tmp_path / f"{number}.json"
        save((numbered_year(number), None), path)
        right, off = wrong(number, load_scenario(path).scenario)
        assert not off
        followed += right.course is not None
    assert followed == len(OF_LAMPS)


@thorough
def test_a_year_of_daylight_is_true():
    right, off = wrong(OF_DAYLIGHT, numbered_year(OF_DAYLIGHT))
    assert not off
    assert right.course is not None


@pytest.mark.parametrize("number", [*OUT_OF_DOORS, *some(IN_A_ROOM, 3)])
def test_the_light_of_a_year_is_that_of_another_sun_sky_and_calendar(number):
    pattern = numbered_year(number).light.pattern
    seen, right = Case(numbered_year(number)).year, light_of(pattern)
    near = 0.01 * right.day_lx.max()
    away = np.abs(seen.daylight_lx - right.day_lx)
    assert away.sum() < 3e-3 * right.day_lx.sum()
    assert np.mean(away > near) < 2e-3  # sunrise, and the edge of a roof
    assert np.array_equal(seen.electric_lx, right.lamps_lx)
    assert np.array_equal(seen.temperature_c, right.celsius)

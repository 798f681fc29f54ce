"""Light of a scenario as a course of levels: blocks of a week, and a measured log."""

import numpy as np
import pytest

from explorer.scenario.course import current_per_lux, light_course
from explorer.scenario.light import Light, LogPattern, SteadyPattern
from explorer.scenario.light_log import LightLog
from explorer.scenario.supply import Panels

LOG = LightLog(
    time_s=np.array([0.0, 600.0, 1200.0, 1800.0]),
    illuminance_lx=np.array([100.0, 0.0, 300.0]),
    start=None,
    step_s=600.0,
)
"""200 lx on average while it is lit."""


def course_of(level):
    light = Light(illuminance_lx=level, pattern=LogPattern())
    return light_course(light, Panels(), LOG), current_per_lux(light, Panels())


def test_a_log_is_taken_as_measured_where_no_level_is_set():
    course, per_lux = course_of(None)
    assert course.illuminance_lx.tolist() == [100.0, 0.0, 300.0]
    assert course.photocurrent_a == pytest.approx(course.illuminance_lx * per_lux)


def test_a_level_that_is_set_is_the_mean_of_the_log_while_it_is_lit():
    """500 lx for a mean of 200 lx: every reading counts two and a half times."""
    course, per_lux = course_of(500.0)
    assert course.illuminance_lx == pytest.approx([250.0, 0.0, 750.0])
    assert course.photocurrent_a == pytest.approx(course.illuminance_lx * per_lux)


@pytest.mark.parametrize("factor", ["orientation_factor", "cover_factor", "soiling_factor"])
def test_what_lies_between_light_and_panel_takes_its_share_of_the_current(factor):
    light, panels = Light(illuminance_lx=300.0, pattern=SteadyPattern(kind="steady")), Panels()
    less = light.model_copy(update={factor: 0.5 * getattr(light, factor)})
    before, now = (light_course(one, panels, None).photocurrent_a for one in (light, less))
    assert now == pytest.approx(0.5 * before, rel=1e-12)

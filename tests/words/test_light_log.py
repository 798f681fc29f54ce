"""Sentences about a light log: its scale, and what a short one lacks."""

import numpy as np
import pytest

from explorer.advice.case import Case
from explorer.scenario.light import LogPattern
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario, with_value
from explorer.words.light_log import log_sentences, scale_text


def case(hours, level=None):
    log = LightLog(
        time_s=np.arange(hours + 1) * 3600.0, illuminance_lx=np.full(hours, 200.0), start=None,
        step_s=3600.0, name="desk.csv", readings=hours,
    )  # fmt: skip
    scenario = with_value(Scenario(), "light.pattern", LogPattern())
    return Case(with_value(scenario, "light.illuminance_lx", level), log)


@pytest.mark.parametrize(("level", "scale"), [(None, None), (200.0, "× 1"), (220.0, "× 1.1")])
def test_a_scale_is_named_where_a_level_was_set(level, scale):
    assert scale_text(case(48, level)) == scale
    sentence = log_sentences(case(48, level))[1]
    assert ("as measured" in sentence) == (scale is None)


@pytest.mark.parametrize("hours", [5, 24])
def test_a_log_without_a_night_says_what_it_lacks(hours):
    assert any("shorter than a day" in text for text in log_sentences(case(hours))) == (hours < 24)


def test_a_design_without_a_log_says_nothing_of_one():
    assert log_sentences(Case(Scenario())) == ()

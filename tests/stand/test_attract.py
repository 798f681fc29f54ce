"""What moves while nobody is there is the scenario's own day."""

import numpy as np
import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QFontMetrics

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.files.scenario_json import load_scenario
from explorer.stand.day import STEPS, day_of
from explorer.stand.fit_label import sized_font
from explorer.stand.legibility import ATTRACT_ARCMIN, seen_arcmin
from explorer.state.stand_plan import scenario_path


def found(name):
    return assess(Case(load_scenario(scenario_path(f"bundled:{name}")).scenario))


def at(stand, share):
    stand.attract.set_paused(True)
    stand.attract._before_s = share * stand.attract._loop_s
    return stand.attract


def test_the_store_fills_in_the_light_and_empties_in_the_dark():
    day = day_of(found("soil_probe"))
    lit = day.light > 0.99
    assert 0.3 < lit.mean() < 0.5  # the shed's lamps are on from 8 to 18 h
    assert day.rate_at(10.0) > 0 > day.rate_at(22.0)
    assert day.level.min() < day.level[int(STEPS * 17.9 / 24)] <= 1.0
    assert day.connected.all()


def test_the_level_is_the_share_of_a_full_stores_charge():
    some = found("soil_probe")
    day, trace = day_of(some), some.repeating
    charge, _ = trace.charge_at(np.arange(0.0, trace.span_s, 300.0))
    full = float(trace.engine.field.charge_at(some.scenario.charger.full_V))
    assert np.abs(charge[:, None] / full - day.level).min(axis=0).max() < 1e-9


def test_a_device_that_never_starts_shows_a_store_nobody_filled():
    day = day_of(found("door_counter"))
    assert not day.connected.any()
    assert day.level.max() < 0.3


def test_first_a_question_then_the_thing_then_the_verdict(stand):
    told = [at(stand, share).words for share in (0.1, 0.5, 0.9)]
    assert told[0] == "Fernhollow Glasshouse"
    assert told[1:] == ["Plant label in the fern house", "Runs"]


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_its_words_fill_25_arc_minutes_at_the_stated_distance(stand, share):
    attract, plan = at(stand, share), stand.session.plan
    seen = seen_arcmin(attract.words_px, plan.distance_m, plan.diagonal_in, (1920, 1080))
    assert seen >= ATTRACT_ARCMIN - 0.05
    metrics = QFontMetrics(sized_font(attract.words_px, bold=True))
    box = QRectF(attract._words)
    needed = metrics.boundingRect(0, 0, int(box.width()), 9999, 0x1000, attract.words)
    assert needed.height() <= box.height() + 2


def test_it_moves_and_holds_still_where_that_is_wanted(stand):
    pictures = [at(stand, share).grab().toImage() for share in (0.40, 0.45)]
    assert pictures[0] != pictures[1]
    stand.attract.with_motion = False
    pictures = [at(stand, share).grab().toImage() for share in (0.40, 0.45)]
    assert pictures[0] == pictures[1]


def test_it_costs_nothing_while_nobody_sees_it(stand):
    assert stand.attract._timer.isActive()
    stand.session.touched()
    assert not stand.attract._timer.isActive()

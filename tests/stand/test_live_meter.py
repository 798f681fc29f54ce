"""A meter on the real device: its trace over the forecast, and a word when they part."""

import numpy as np
import pytest

from explorer.advice.case import Case
from explorer.files.scenario_json import load_scenario
from explorer.stand.live_meter import live_view
from explorer.stand.window import StandWindow
from explorer.state.stand_plan import scenario_path
from tests.meters.bench_meter import SocketMeter

PATIENT = 60_000


@pytest.fixture
def source():
    made = SocketMeter(["+4.30E+00", "+4.29E+00"])
    yield made
    made.close()


def written(path, volts):
    rows = [f"2025-05-05T10:{n:02}:00,{v:.4f}," for n, v in enumerate(volts)]
    path.write_text("# Readings of a meter\ntime,store_V,lux\n" + "\n".join(rows) + "\n")
    return path


def label():
    return Case(load_scenario(scenario_path("bundled:plant_label")).scenario)


def test_readings_that_follow_the_forecast_agree_and_others_have_left_it(tmp_path):
    flat = live_view(label(), written(tmp_path / "a meter.csv", np.full(6, 4.0)))
    follows = live_view(label(), written(tmp_path / "b meter.csv", flat.forecast_v))
    assert not follows.has_parted
    assert "agrees" in follows.said
    away = np.append(flat.forecast_v[:3], flat.forecast_v[3:] - 0.4)
    parted = live_view(label(), written(tmp_path / "c meter.csv", away))
    assert parted.has_parted
    assert "has left its forecast" in parted.said


def test_one_odd_reading_is_no_parting(tmp_path):
    flat = live_view(label(), written(tmp_path / "a meter.csv", np.full(6, 4.0)))
    odd = np.append(flat.forecast_v[:5], flat.forecast_v[5] - 0.4)
    assert not live_view(label(), written(tmp_path / "b meter.csv", odd)).has_parted


def test_the_keepers_meter_runs_over_the_exhibit_until_somebody_changes_it(
    qtbot, plan, exhibits, parked, tmp_path, source, monkeypatch
):
    from explorer.stand import live_meter

    monkeypatch.setattr(live_meter.LiveMeter.start, "__defaults__", (0.1,))
    own = plan.model_copy(update={"meter": source.address, "meter_scenario": "bundled:plant_label"})
    window = StandWindow(own, exhibits, parked, runs=tmp_path / "runs")
    qtbot.addWidget(window)
    window.resize(1280, 800)
    window.show()
    window.start()
    window.session._timer.stop()
    window.session.choose(0)
    live = window.page.live
    qtbot.waitUntil(lambda: live.isVisibleTo(window.page), timeout=PATIENT)
    assert "The real device" in live.said
    window.document.edit("panels.count", 2)
    window.solver.solve_now()
    assert not live.isVisibleTo(window.page)
    window.session.choose(1)
    window.solver.solve_now()
    assert not live.isVisibleTo(window.page)
    window.leave()
    assert not window.meter.run.is_running
    (kept,) = (tmp_path / "runs").iterdir()
    assert kept.read_text().splitlines()[-1].startswith("# ended")

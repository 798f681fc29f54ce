"""A logged run is read in volts or millivolts, with or without light, and bad lines are named."""

import numpy as np
import pytest

from explorer.files import bench_log
from explorer.files.bench_log import LogError, cached_bench_log, is_bench_log, read_bench_log
from explorer.resource_files import resource_path


def written(tmp_path, text):
    path = tmp_path / "run.csv"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    "text",
    [
        "time,store_V\n0,3.3\n10,3.25\n20,3.2\n",
        "time,store_mV\n0,3300\n10,3250\n20,3200\n",
        "# from the bench\ntime_s\tVoltage [mV]\n0\t3300,0\n10\t3250,0\n20\t3200,0\n",
        "timestamp;V\n2026-03-02 09:00:00;3,3\n2026-03-02 09:00:10;3,25\n2026-03-02 09:00:20;3,2\n",
        "time,store_V,terminal_V\n0,9,3.3\n10,9,3.25\n20,9,3.2\n",
    ],
    ids=["volts", "millivolts", "brackets and comma", "dates", "terminals first"],
)
def test_every_way_to_write_a_run_gives_the_same(tmp_path, text):
    run = read_bench_log(written(tmp_path, text))
    assert run.time_s.tolist() == [0.0, 10.0, 20.0]
    assert run.volts == pytest.approx([3.3, 3.25, 3.2])
    assert run.step_s == 10.0
    assert run.light is None


def test_a_date_places_the_run_in_the_week(tmp_path):
    text = "time,V\n2026-03-03T06:00:00,3\n2026-03-03T06:00:10,3\n2026-03-03T06:00:20,3\n"
    run = read_bench_log(written(tmp_path, text))
    assert run.start_of_week_s == 86_400.0 + 6 * 3600.0  # a Tuesday


def test_light_beside_the_voltage_covers_the_run_and_holds_over_empty_cells(tmp_path):
    text = "time,V,lux\n0,3,\n10,3,200\n20,3,\n30,3,400\n40,3,\n"
    light = read_bench_log(written(tmp_path, text)).light
    at = np.searchsorted(light.time_s, [0.0, 25.0, 35.0, 40.0], side="right") - 1
    assert light.illuminance_lx[at].tolist() == [200.0, 200.0, 400.0, 400.0]
    assert light.duration_s > 40.0


def test_a_pause_is_told_and_not_filled(tmp_path):
    lines = [f"{t},3" for t in (*range(0, 100, 10), *range(4000, 4100, 10))]
    run = read_bench_log(written(tmp_path, "time,V\n" + "\n".join(lines)))
    assert len(run.time_s) == 20
    assert "has a gap" in run.notes[1]
    assert "90 s" in run.notes[1]


def test_a_long_log_keeps_its_means_and_extremes(tmp_path, monkeypatch):
    monkeypatch.setattr(bench_log, "MOST_ROWS", 100)
    volts = np.random.default_rng(1).uniform(2.0, 4.0, 5000)
    lines = [f"{t},{v:.6f}" for t, v in enumerate(volts)]
    run = read_bench_log(written(tmp_path, "time,V\n" + "\n".join(lines)))
    assert len(run.time_s) == 100
    assert run.readings == 5000
    assert run.step_s == 1.0
    assert run.low_v.min() == pytest.approx(volts.min(), abs=1e-6)
    assert run.high_v.max() == pytest.approx(volts.max(), abs=1e-6)
    assert np.mean(run.volts[1:]) == pytest.approx(volts.mean(), abs=0.01)
    assert "joined" in run.notes[1]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("time,lux\n0,3\n1,3\n2,3\n", "no column of voltage; its columns are time, lux"),
        ("when,V\n0,3\n1,3\n2,3\n", "no column of time"),
        ("time,V\n0,3\n1,x\n2,3\n", "line 3, column 'V': the voltage is 'x'; .* from -0.5 to"),
        ("time,V\n0,3\n1,3300\n2,3\n", "line 3, column 'V': the voltage is '3300'; .* to 200 V"),
        ("time,mV\n0,3\n1,3e9\n2,3\n", "line 3, .*200000 mV"),
        ("time,V\n0,3\n1,nan\n2,3\n", "holds 2 readings"),
        ("time,V\n0,3\n5,3\n2,3\n", "line 4: its time is 3 s before"),
        ("time,V\n0,3\n0,3.1\n2,3\n", "line 3: its time repeats"),
        ("time,V\nnoon,3\n1,3\n2,3\n", "line 2: the time is 'noon'"),
        ("time,V,lux\n0,3,5\n1,3,-5\n2,3,5\n", "line 3, column 'lux': the light is '-5'"),
        ("time,V\n0,3\n1\n2,3\n", "line 3: 1 columns found"),
        ("time,V\n0,3\n1,3\n", "holds 2 readings; at least 3"),
        ("time,V\n0,3\n1,\n2,\n3,3\n", "holds 2 readings"),
        ("# nothing\n", "only remarks"),
        ("", "empty"),
    ],
)
def test_what_is_wrong_is_said_with_its_line(tmp_path, text, said):
    with pytest.raises(LogError, match=said):
        read_bench_log(written(tmp_path, text))


def test_a_missing_file_is_said(tmp_path):
    with pytest.raises(LogError, match="There is no file"):
        cached_bench_log(tmp_path / "none.csv")


def test_a_log_is_read_again_only_when_it_changes(tmp_path):
    path = written(tmp_path, "time,V\n0,3\n1,3\n2,3\n")
    first = cached_bench_log(path)
    assert cached_bench_log(path) is first
    path.write_text("time,V\n0,3\n1,3\n2,3\n3,3\n", encoding="utf-8")
    assert len(cached_bench_log(path).time_s) == 4


def test_a_run_is_known_by_its_columns(tmp_path):
    assert is_bench_log(written(tmp_path, "time,store_V\n0,3\n1,3\n"))
    assert not is_bench_log(written(tmp_path, "time,lux\n0,3\n1,3\n"))
    assert not is_bench_log(written(tmp_path, '{"format": "gloaming-scenario"}\n'))
    assert not is_bench_log(tmp_path / "none.csv")
    assert is_bench_log(resource_path("logs", "fernhollow_bench_run.csv"))
    assert not is_bench_log(resource_path("logs", "office_lux_1min.csv"))

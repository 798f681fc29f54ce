"""A trace leaves the program as a table that any other program reads."""

import csv
import dataclasses
import math

import numpy as np
import pandas as pd
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from explorer.engine.columns import Columns
from explorer.files.tables import MOST_ROWS, TableError, every, row_count, write_table, write_trace

TRACE = Columns(
    time_s=np.array([0.0, 60.0, 60.0, 604_800.123456]),
    store_v=np.array([3.3, 3.4, 3.4, 4.123456789]),
    store_min_v=np.array([3.2, 3.3, 3.3, 4.1]),
    terminal_v=np.array([3.31, 3.41, 3.41, 4.12]),
    terminal_min_v=np.array([3.0, 3.1, 3.1, 4.0]),
    harvest_a=np.array([1.5e-5, 0.0, 2e-12, 1.0]),
    load_a=np.array([2e-6, 2e-6, 0.0, 0.02]),
    connected=np.array([False, True, True, True]),
    illuminance_lx=np.array([300.0, 0.0, 0.0, 300.0]),
)


def test_a_trace_has_the_published_columns_and_comes_back(tmp_path):
    path = tmp_path / "out.csv"
    write_trace(path, TRACE)
    assert path.read_text().splitlines()[0] == (
        "time_s,store_V,terminal_V,terminal_min_V,harvest_A,load_A,connected"
    )
    table = pd.read_csv(path)
    for name, column in (
        ("time_s", "time_s"),
        ("store_V", "store_v"),
        ("terminal_V", "terminal_v"),
        ("terminal_min_V", "terminal_min_v"),
        ("harvest_A", "harvest_a"),
        ("load_A", "load_a"),
    ):
        assert table[name].to_numpy() == pytest.approx(getattr(TRACE, column), rel=1e-8)
    assert table["connected"].tolist() == [0, 1, 1, 1]


def test_the_connected_column_is_written_as_one_and_nought(tmp_path):
    path = tmp_path / "out.csv"
    write_trace(path, dataclasses.replace(TRACE, connected=np.array([True, False, True, False])))
    with path.open(newline="") as file:
        assert [row["connected"] for row in csv.DictReader(file)] == ["1", "0", "1", "0"]


def test_a_table_keeps_words_and_infinities(tmp_path):
    path = tmp_path / "sweep.csv"
    write_table(path, {"verdict": ['falls "short", badly', "runs"], "dark_h": [3.5, math.inf]})
    with path.open(newline="") as file:
        rows = list(csv.reader(file))
    assert rows == [["verdict", "dark_h"], ['falls "short", badly', "3.5"], ["runs", "inf"]]


def test_columns_of_different_length_are_refused_before_anything_is_written(tmp_path):
    path = tmp_path / "sweep.csv"
    with pytest.raises(ValueError, match="shorter"):
        write_table(path, {"a": [1.0, 2.0], "b": [1.0]})
    assert not path.exists()


def test_a_folder_is_not_overwritten(tmp_path):
    with pytest.raises(TableError, match="is a folder; give the name of a file"):
        write_trace(tmp_path, TRACE)
    with pytest.raises(TableError, match="there is no folder"):
        write_trace(tmp_path / "none" / "out.csv", TRACE)


JUMPY = Columns(
    time_s=np.array([0.0, 10.0, 10.0, 25.0, 40.0]),
    store_v=np.array([1.0, 2.0, 2.0, 3.5, 3.5]),
    store_min_v=np.array([0.9, 1.9, 1.9, 3.4, 3.4]),
    terminal_v=np.array([1.0, 2.0, 1.8, 3.3, 3.3]),
    terminal_min_v=np.array([1.0, 2.0, 1.5, 0.5, 3.0]),
    harvest_a=np.array([4.0, 2.0, 6.0, 6.0, 0.0]),
    load_a=np.array([0.0, 0.0, 1.0, 1.0, 3.0]),
    connected=np.array([False, False, True, True, True]),
    illuminance_lx=np.array([100.0, 100.0, 300.0, 300.0, 300.0]),
)
"""Ten seconds alone, then a device is connected; each number can be followed by hand."""


def test_an_even_step_shows_each_moment_as_after_its_jump():
    rows = every(JUMPY, 5.0)
    assert rows.time_s == pytest.approx(np.arange(0.0, 41.0, 5.0))
    assert rows.store_v == pytest.approx([1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 3.5, 3.5, 3.5])
    assert rows.terminal_v == pytest.approx([1.0, 1.5, 1.8, 2.3, 2.8, 3.3, 3.3, 3.3, 3.3])
    assert rows.connected.tolist() == [False] * 2 + [True] * 7
    assert rows.illuminance_lx == pytest.approx([100.0] * 2 + [300.0] * 7)


def test_a_minimum_is_the_lowest_of_the_step_that_begins_at_its_row():
    rows = every(JUMPY, 20.0)
    # 0-20 s: from 1.5 V after the jump down to 1.5 - 10/15; 20-40 s: the dip at 25 s.
    assert rows.terminal_min_v == pytest.approx([1.5 - 10 / 15, 0.5, 3.0])
    # A jump at the end of a step belongs to the next one.
    assert every(JUMPY, 10.0).terminal_min_v[0] == pytest.approx(1.0)


def test_a_current_is_the_mean_over_the_step_that_begins_at_its_row():
    rows = every(JUMPY, 20.0)
    # 0-10 s: mean 3 A; 10-20 s: 6 A; 20-25 s: 6 A; 25-40 s: mean 3 A.
    assert rows.harvest_a == pytest.approx([(30.0 + 60.0) / 20.0, (30.0 + 45.0) / 20.0, 0.0])
    assert rows.load_a == pytest.approx([10.0 / 20.0, (5.0 + 30.0) / 20.0, 3.0])


def test_the_last_step_ends_with_the_trace():
    rows = every(JUMPY, 30.0)
    assert rows.time_s.tolist() == [0.0, 30.0]
    assert rows.harvest_a[-1] == pytest.approx(2.0)  # 4 A falling to nought
    assert rows.terminal_min_v[-1] == pytest.approx(0.5 + 2.5 * 5 / 15)


def test_a_step_longer_than_the_trace_gives_one_row():
    rows = every(JUMPY, 1e9)
    assert rows.time_s.tolist() == [0.0]
    assert rows.terminal_min_v.tolist() == [0.5]
    assert rows.harvest_a == pytest.approx([(30.0 + 90.0 + 45.0) / 40.0])


def test_a_trace_of_one_moment_is_that_moment():
    one = Columns(**{k: getattr(JUMPY, k)[:1] for k in JUMPY.__slots__})
    rows = every(one, 60.0)
    assert rows.time_s.tolist() == [0.0]
    assert rows.harvest_a.tolist() == [4.0]
    assert rows.terminal_min_v.tolist() == [1.0]


@given(
    st.lists(
        st.tuples(st.floats(0, 50), st.floats(0, 5), st.floats(0, 9)), min_size=2, max_size=30
    ),
    st.floats(0.05, 80),
)
@example([(0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (1.0, 1.0, 0.0)], 2.0)
def test_charge_and_minimum_survive_any_step(points, step_s):
    """Means times lengths give the whole charge, and the lowest row is the lowest value."""
    rises, volts, amps = (np.array(column) for column in zip(*points, strict=True))
    t = np.cumsum(rises) - rises[0]
    trace = Columns(
        time_s=t,
        store_v=volts,
        store_min_v=volts,
        terminal_v=volts,
        terminal_min_v=volts,
        harvest_a=amps,
        load_a=amps,
        connected=volts > 2.0,
        illuminance_lx=amps,
    )
    rows = every(trace, step_s)
    charge = float(np.sum(0.5 * (amps[1:] + amps[:-1]) * np.diff(t)))
    lengths = np.diff(np.append(rows.time_s, t[-1]))
    assert float(rows.harvest_a @ lengths) == pytest.approx(charge, rel=1e-9, abs=1e-9)
    # What jumps away at the very first or last moment lasts no time and has no step of its own.
    begun = np.searchsorted(t, t[0], side="right") - 1
    inner = volts[begun:][t[begun:] < t[-1]] if t[-1] > 0 else volts[-1:]
    assert rows.terminal_min_v.min() <= inner.min(initial=np.inf) + 1e-9
    assert rows.terminal_min_v.min() >= volts.min() - 1e-9
    assert np.all(np.diff(rows.time_s) > 0)


def test_a_step_that_makes_too_many_rows_is_refused_with_one_that_does_not():
    with pytest.raises(TableError, match=r"3\.15e\+08 rows of 365 d; .* a step of 32 s or more"):
        row_count(365 * 86_400.0, 0.1)
    assert row_count(365 * 86_400.0, 32.0) <= MOST_ROWS
    for step_s in (0.0, -1.0, math.nan):
        with pytest.raises(TableError, match="allowed is a time above 0 s"):
            row_count(10.0, step_s)

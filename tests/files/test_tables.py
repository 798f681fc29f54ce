"""A trace leaves the program as a table that any other program reads."""

import csv
import dataclasses
import math

import numpy as np
import pandas as pd
import pytest

from explorer.engine.columns import Columns
from explorer.files.tables import MOST_ROWS, TableError, row_count, write_table, write_trace

TRACE = Columns(
    time_s=np.array([0.0, 60.0, 60.0, 604_800.123456]),
    store_v=np.array([3.3, 3.4, 3.4, 4.123456789]),
    store_min_v=np.array([3.2, 3.3, 3.3, 4.1]),
    terminal_v=np.array([3.31, 3.41, 3.41, 4.12]),
    terminal_min_v=np.array([3.0, 3.1, 3.1, 4.0]),
    harvest_a=np.array([1.5e-5, 0.0, 2e-12, 1.0]),
    load_a=np.array([2e-6, 2e-6, 0.0, 0.02]),
    leakage_a=np.array([1e-6, 1e-6, 1e-6, 2e-6]),
    connected=np.array([False, True, True, True]),
    illuminance_lx=np.array([300.0, 0.0, 0.0, 300.0]),
)


def test_a_trace_has_the_published_columns_and_comes_back(tmp_path):
    path = tmp_path / "out.csv"
    write_trace(path, TRACE)
    assert path.read_text().splitlines()[0] == (
        "time_s,store_V,terminal_V,terminal_min_V,harvest_A,load_A,leakage_A,connected"
    )
    table = pd.read_csv(path)
    for name, column in (
        ("time_s", "time_s"),
        ("store_V", "store_v"),
        ("terminal_V", "terminal_v"),
        ("terminal_min_V", "terminal_min_v"),
        ("harvest_A", "harvest_a"),
        ("load_A", "load_a"),
        ("leakage_A", "leakage_a"),
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


@pytest.mark.parametrize("text", ["=1+1", "+cmd", "-2+3", "@sum", "\t=1", "=HYPERLINK(1)"])
def test_no_cell_is_a_formula(tmp_path, text):
    path = tmp_path / "designs.csv"
    write_table(path, {text: [text, "-3.5", "soil - wet", -2.0]})
    with path.open(newline="") as file:
        cells = [row[0] for row in csv.reader(file)]
    assert cells == [f"'{text}", f"'{text}", "-3.5", "soil - wet", "-2"]


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


def test_a_step_that_makes_too_many_rows_is_refused_with_one_that_does_not():
    with pytest.raises(TableError, match=r"3\.15e\+08 rows of 365 d; .* a step of 32 s or more"):
        row_count(365 * 86_400.0, 0.1)
    assert row_count(365 * 86_400.0, 32.0) <= MOST_ROWS
    for step_s in (0.0, -1.0, math.nan):
        with pytest.raises(TableError, match="allowed is a time above 0 s"):
            row_count(10.0, step_s)

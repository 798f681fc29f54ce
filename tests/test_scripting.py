"""What other people's programs may rely on: arrays in and out, the same numbers as the commands."""

import csv
import json
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

import explorer
from explorer import scripting
from explorer.files.disk import FileError
from explorer.files.part_json import save_part
from explorer.resource_files import resource_path, scenario_folder
from explorer.scenario.part import part_from
from explorer.scenario.supply import Panels
from explorer.scripting import design, read

LABEL = scenario_folder() / "plant_label.json"


def gloaming(*arguments):
    done = subprocess.run(
        [sys.executable, "-m", "explorer", *map(str, arguments)],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    return done.stdout


def test_it_judges_as_the_command_does():
    (told,) = json.loads(gloaming("check", LABEL, "--json"))
    found = read(LABEL).assess()
    assert found.verdict == told["verdict"]
    assert found.governing == told["governing"]
    assert [c["margin"] for c in told["checks"]] == pytest.approx(
        [c.margin for c in found.checks.values()]
    )
    known = {name: value for name, value in told["answers"].items() if value is not None}
    assert known == pytest.approx({name: found.answers[name] for name in known})
    assert set(told["answers"]) == set(found.answers)


def test_its_columns_are_those_of_the_trace(tmp_path):
    gloaming("trace", LABEL, "--days", 1, "--step", 1800, "-o", tmp_path / "trace.csv")
    with (tmp_path / "trace.csv").open(encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    moments = np.array([float(row["time_s"]) for row in rows])
    run = read(LABEL).columns(moments)
    assert list(run) == list(rows[0])
    for name, column in run.items():
        assert column == pytest.approx([float(row[name]) for row in rows], rel=1e-8, abs=1e-12)


def test_its_search_for_a_build_is_the_table_of_the_command(tmp_path):
    part = part_from("panel", Panels(active_area_cm2=20.0), title="Pane", price=3.0, currency="EUR")
    save_part(tmp_path / "pane.json", part)
    where = tmp_path / "front.csv"
    limits = ("--no-lithium", "--most-parts", "3", "--most-height", "12")
    gloaming("builds", LABEL, "--parts", tmp_path, *limits, "-o", where)
    with where.open(encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    front = read(LABEL).builds(tmp_path, lithium=False, most_parts=3, height_mm=12.0)
    assert rows
    assert list(front.table) == list(rows[0])
    assert front.table["store"].tolist() == [row["store"] for row in rows]
    for name in ("price_EUR", "price_relative", "volume_cm3", "margin"):
        assert front.table[name].tolist() == pytest.approx([float(row[name]) for row in rows])
    assert len(front.designs) == len(rows)
    for found, margin in zip(front.designs, front.table["margin"].tolist(), strict=True):
        told = found.assess()
        assert told.verdict == "runs"
        assert told.checks[told.governing].margin == pytest.approx(margin)
    with pytest.raises(FileError, match="most_parts is 2"):
        read(LABEL).builds(most_parts=2)


def test_its_sweep_is_the_table_of_the_command(tmp_path):
    where = tmp_path / "table.csv"
    gloaming("sweep", LABEL, "--vary", "panels.count=1:12", "-o", where)
    with where.open(encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    table = read(LABEL).sweep({"panels.count": range(1, 13)})
    assert set(rows[0]) - {"row"} == set(table)
    assert table["verdict"].tolist() == [row["verdict"] for row in rows]
    assert table["balance_margin"] == pytest.approx([float(r["balance_margin"]) for r in rows])


def test_a_row_that_is_not_allowed_says_so_and_stops_no_other():
    table = read(LABEL).sweep({"load.connect_V": [0.1, 3.6]})
    assert table["verdict"][0] == "error"
    assert "higher than disconnect_V" in table["fault"][0]
    assert np.isnan(table["balance_margin"][0])
    assert table["verdict"][1] != "error"


def test_an_edge_holds_on_one_side_and_not_on_the_other():
    label = read(LABEL)
    (edge,) = label.edges("light.illuminance_lx", [10, 100, 1000])
    sides = [
        label.changed({"light.illuminance_lx": lx}).assess().verdict
        for lx in (edge.value, edge.beyond)
    ]
    assert sides[0] == "runs"
    assert sides[1] != "runs"


def test_a_change_leaves_the_design_before_as_it_is():
    label = read(LABEL)
    other = label.changed({"panels.count": 9, "store.capacitance_F": 2.2})
    assert (label.value("panels.count"), other.value("panels.count")) != (9, 1)
    assert label.scenario != other.scenario
    # Resistance goes along a maker's range.
    ratio = label.value("store.esr_ohm") / other.value("store.esr_ohm")
    assert ratio == pytest.approx(2.2 / label.value("store.capacitance_F"))


def test_a_design_begins_with_defaults_or_with_a_mapping():
    assert design().value("panels.count") == 1
    assert design({"panels": {"count": 4}}).value("panels.count") == 4


@pytest.mark.parametrize(
    ("act", "fault", "words"),
    [
        (lambda: read("bundled:nothing"), FileError, "nothing"),
        (lambda: design().value("panels.colour"), KeyError, "colour"),
        (lambda: design().changed({"panels.count": -1}), ValueError, "greater than"),
        (lambda: design().columns([]), ValueError, "at least one"),
        (lambda: design().columns([0.0, 5.0, 3.0]), ValueError, "rise"),
        (lambda: design().columns([-1.0]), ValueError, "begin at 0"),
        (lambda: design().edges("panels.count", [1, 2], verdict="glows"), ValueError, "glows"),
        (lambda: design().sweep({"panels.colour": [1]}), KeyError, "colour"),
    ],
)
def test_what_cannot_be_done_is_said(act, fault, words):
    with pytest.raises(fault, match=words):
        act()


def test_a_design_comes_back_from_its_file(tmp_path):
    made = design({"title": "Mine"}).changed({"panels.count": 5})
    made.save(tmp_path / "mine.json")
    assert read(tmp_path / "mine.json").scenario == made.scenario


def test_no_window_is_loaded():
    code = "import sys, explorer.scripting; print([m for m in sys.modules if 'PySide' in m])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_the_worked_example_runs():
    done = subprocess.run(
        [sys.executable, str(resource_path("help", "which_store.py"))],
        capture_output=True, text=True, check=False,
        env={**os.environ, "PYTHONPATH": str(Path(explorer.__file__).parent.parent)},
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "It runs from" in done.stdout
    assert "2.2 F runs from" in done.stdout


def test_what_is_named_stable_is_all_there():
    assert set(scripting.__all__) == {
        "Design", "Edge", "FileError", "Front", "Result", "design", "read",
    }  # fmt: skip


def test_parts_are_looked_for_in_a_folder_that_is_there(tmp_path):
    with pytest.raises(FileError, match="is no folder"):
        read("bundled:plant_label").builds(tmp_path / "mistyped")

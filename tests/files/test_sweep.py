"""Sweeps: every row says what a check of that variant says, whatever interrupts the table."""

import csv
import importlib.util
import json

import pytest

from explorer.advice.answers import answers
from explorer.advice.case import Case
from explorer.advice.judge import judge
from explorer.advice.verdict import CHECK_NAMES
from explorer.files import sweep as sweep_module
from explorer.files.logs import resolve_log
from explorer.files.scenario_json import load_scenario
from explorer.files.sweep import (
    ANSWER_NAMES,
    Sweep,
    SweepError,
    Varied,
    header,
    parse_vary,
    run_sweep,
)
from explorer.resource_files import scenario_folder
from explorer.scenario.model import with_value

LUX, COUNT = "light.illuminance_lx", "panels.count"
PATH = scenario_folder() / "soil_probe.json"


@pytest.fixture(scope="module")
def probe():
    return load_scenario(PATH).scenario


def small_sweep(scenario):
    return Sweep(scenario=scenario, varied=(
        parse_vary(scenario, f"{LUX}=200:800:3"), parse_vary(scenario, f"{COUNT}=1:2"),
    ))


def table(path):
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def finished(sweep, output, workers=1):
    return list(run_sweep(sweep, PATH, output, workers=workers))


# ---- what to vary ---------------------------------------------------------------------------


@pytest.mark.parametrize(("text", "values"), [
    (f"{LUX}=100:300:3", (100.0, 200.0, 300.0)),
    (f"{LUX}=100:10000:3:ratio", (100.0, 1000.0, 10000.0)),
    (f"{LUX}=50,70.5", (50.0, 70.5)),
    (f"{COUNT}=1:4", (1, 2, 3, 4)),
    (f"{COUNT}=2,5", (2, 5)),
    (f"{COUNT}=1:8:3", (1, 4, 8)),
    ("light.source=led_2700, daylight_glass", ("led_2700", "daylight_glass")),
    (" store.capacitance_F = 1.5 ", (1.5,)),
])
def test_a_range_a_list_or_words_are_read(probe, text, values):
    found = parse_vary(probe, text)
    assert found.path == text.partition("=")[0].strip()
    assert found.values == pytest.approx(values) if values[0] != "led_2700" else (
        found.values == values)
    assert [type(v) for v in found.values] == [type(v) for v in values]


@pytest.mark.parametrize(("text", "says"), [
    ("light.illuminance_lx", "path=low:high:count"),
    ("=1:2:3", "path=low:high:count"),
    ("light.brightness=1:2:3", "no 'brightness' here"),
    ("light=1:2:3", "not a single value|not low:high:count|is not allowed"),
    (f"{LUX}=one:two:3", "is not low:high:count"),
    (f"{LUX}=1:2", "is not low:high:count"),
    (f"{LUX}=1:2:0", "is not low:high:count"),
    (f"{LUX}=1:2:3:linear", "is not low:high:count"),
    (f"{LUX}=0.1:300:3", "allowed is 1 to 200000 lx"),
    (f"{COUNT}=0:3", "allowed is"),
    ("light.source=moonlight", "'moonlight' is not one of led_2700"),
    ("load.operations.7.name=a", "no '7' here"),
])
def test_what_cannot_be_varied_is_refused_with_a_sentence(probe, text, says):
    with pytest.raises(SweepError, match=says):
        parse_vary(probe, text)


# ---- rows -----------------------------------------------------------------------------------


def test_all_combinations_in_order_and_every_row_as_a_check_says(probe, tmp_path):
    sweep, output = small_sweep(probe), tmp_path / "out.csv"
    steps = finished(sweep, output)
    assert steps == list(range(7))
    rows = table(output)
    assert list(rows[0]) == header(sweep)
    assert [(float(r[LUX]), int(r[COUNT])) for r in rows] == [
        (lux, n) for lux in (200.0, 500.0, 800.0) for n in (1, 2)
    ]
    assert [int(r["row"]) for r in rows] == list(range(6))
    for row in rows:
        tried = with_value(with_value(probe, LUX, float(row[LUX])), COUNT, int(row[COUNT]))
        found = Case(tried)
        verdict, numbers = judge(found), answers(found)
        assert row["verdict"] == verdict.state
        assert row["fault"] == ""
        for check in verdict.checks:
            assert float(row[f"{check.name}_margin"]) == check.margin
        for name in ANSWER_NAMES:
            assert float(row[name]) == numbers[name]
    assert {r["verdict"] for r in rows} > {"falls_short"}
    assert not list(tmp_path.glob("*.partial*"))


def test_a_log_beside_the_scenario_drives_every_row(tmp_path):
    path = scenario_folder() / "seminar_room_co2.json"
    scenario = load_scenario(path).scenario
    sweep = Sweep(scenario=scenario, varied=(parse_vary(scenario, f"{COUNT}=6"),))
    list(run_sweep(sweep, path, tmp_path / "out.csv", workers=1))
    (row,) = table(tmp_path / "out.csv")
    verdict = judge(Case(scenario, resolve_log(scenario, path)))
    assert [float(row[f"{n}_margin"]) for n in CHECK_NAMES] == [c.margin for c in verdict.checks]


def test_a_variant_that_is_not_allowed_says_why_and_the_rest_goes_on(probe, tmp_path):
    sweep = Sweep(scenario=probe, varied=(
        Varied(path="load.connect_V", values=(3.6, 2.0, 4.0)),
    ))
    finished(sweep, tmp_path / "out.csv")
    rows = table(tmp_path / "out.csv")
    assert [r["verdict"] == "error" for r in rows] == [False, True, False]
    assert "must be higher than disconnect_V" in rows[1]["fault"]
    assert rows[1]["starts_margin"] == ""


def test_one_bad_variant_never_stops_a_sweep(probe, tmp_path, monkeypatch):
    """Whatever goes wrong with a variant, its row carries the sentence and the others go on."""
    def judge_all_but_one(case):
        if case.scenario.light.illuminance_lx == 500.0:
            raise ZeroDivisionError("float division by zero")
        return judge(case)

    monkeypatch.setattr(sweep_module, "judge", judge_all_but_one)
    finished(small_sweep(probe), tmp_path / "out.csv")
    rows = table(tmp_path / "out.csv")
    assert [r["verdict"] == "error" for r in rows] == [float(r[LUX]) == 500.0 for r in rows]
    bad = [r for r in rows if r["verdict"] == "error"]
    assert bad
    for row in bad:
        assert row["fault"] == "This variant cannot be computed: float division by zero"
        assert row["dark_margin"] == row["served_share"] == ""


def test_values_that_are_allowed_only_together_are_judged_together(probe, tmp_path):
    """Full at 3 V lies below the 3.6 V at which the probe connects, until that is lower too."""
    sweep = Sweep(scenario=probe, varied=(
        Varied(path="charger.full_V", values=(3.0, 5.0)),
        Varied(path="load.connect_V", values=(2.8, 3.6)),
    ))
    finished(sweep, tmp_path / "out.csv")
    rows = table(tmp_path / "out.csv")
    faults = {(float(r["charger.full_V"]), float(r["load.connect_V"])): r["fault"] for r in rows}
    assert [pair for pair, fault in faults.items() if fault] == [(3.0, 3.6)]
    assert "load.connect_V" in faults[(3.0, 3.6)]


def test_a_value_that_only_the_present_design_refuses_may_be_varied(probe):
    """The sweep's other values may suit it; each row says whether they do."""
    assert parse_vary(probe, "load.connect_V=1,3").values == (1.0, 3.0)


def test_several_processes_write_the_same_table(probe, tmp_path):
    sweep = small_sweep(probe)
    finished(sweep, tmp_path / "one.csv", workers=1)
    finished(sweep, tmp_path / "two.csv", workers=2)
    assert (tmp_path / "two.csv").read_bytes() == (tmp_path / "one.csv").read_bytes()


def test_a_random_design_is_the_same_every_time_and_within_its_ranges(probe):
    varied = (parse_vary(probe, f"{LUX}=100:1000:2"), parse_vary(probe, f"{COUNT}=1:4"))
    sweep = Sweep(scenario=probe, varied=varied, random_rows=200, seed=5)
    rows = list(sweep.rows())
    assert len(sweep) == len(rows) == 200
    assert rows == list(sweep.rows())
    assert rows != list(Sweep(scenario=probe, varied=varied, random_rows=200, seed=6).rows())
    assert all(100.0 <= lux <= 1000.0 for lux, _ in rows)
    assert {n for _, n in rows} == {1, 2, 3, 4}
    middle = sorted(lux for lux, _ in rows)[100]
    # Even in ratio: half lie below the geometric mean of the ends.
    assert middle == pytest.approx((100.0 * 1000.0) ** 0.5, rel=0.25)


# ---- interruptions --------------------------------------------------------------------------


def interrupted(sweep, output, rows):
    steps = run_sweep(sweep, PATH, output, workers=1)
    for done in steps:
        if done == rows:
            break
    steps.close()


def test_an_interrupted_sweep_goes_on_where_it_stopped(probe, tmp_path, monkeypatch):
    sweep = small_sweep(probe)
    finished(sweep, tmp_path / "whole.csv")
    output = tmp_path / "out.csv"
    interrupted(sweep, output, 3)
    assert not output.exists()
    assert len(table(tmp_path / "out.csv.partial")) == 3
    counted = []
    monkeypatch.setattr(
        "explorer.files.sweep.judge", lambda *given: counted.append(1) or judge(*given)
    )
    assert finished(sweep, output) == [3, 4, 5, 6]
    assert len(counted) == 3
    assert output.read_bytes() == (tmp_path / "whole.csv").read_bytes()


@pytest.mark.parametrize("torn", [b"3,500.0,2,mar", b"3,500.0,2,marginal,1.0", b"\x00", b"\xc3"])
def test_a_torn_last_line_is_made_again(probe, tmp_path, torn):
    sweep = small_sweep(probe)
    finished(sweep, tmp_path / "whole.csv")
    output = tmp_path / "out.csv"
    interrupted(sweep, output, 3)
    with (tmp_path / "out.csv.partial").open("ab") as stream:
        stream.write(torn)
    assert finished(sweep, output)[0] == 3
    assert output.read_bytes() == (tmp_path / "whole.csv").read_bytes()


def test_another_sweep_does_not_go_on_with_the_rows_of_the_first(probe, tmp_path):
    output = tmp_path / "out.csv"
    interrupted(small_sweep(probe), output, 3)
    other = small_sweep(with_value(probe, "load.sleep_A", 5e-6))
    assert other.fingerprint != small_sweep(probe).fingerprint
    assert finished(other, output)[0] == 0
    assert len(table(output)) == 6


@pytest.mark.parametrize("spoil", ["note", "partial", "header"])
def test_a_lost_or_spoilt_beginning_starts_anew(probe, tmp_path, spoil):
    sweep, output = small_sweep(probe), tmp_path / "out.csv"
    interrupted(sweep, output, 2)
    partial, note = tmp_path / "out.csv.partial", tmp_path / "out.csv.partial.json"
    assert json.loads(note.read_text(encoding="utf-8")) == {"sweep": sweep.fingerprint}
    if spoil == "note":
        note.write_text("[", encoding="utf-8")
    elif spoil == "partial":
        partial.unlink()
    else:
        partial.write_text("row,light", encoding="utf-8")
    assert finished(sweep, output)[0] == 0
    rows = table(output)
    assert list(rows[0]) == header(sweep)
    assert [int(r["row"]) for r in rows] == list(range(6))


# ---- places and formats ---------------------------------------------------------------------


def test_a_folder_is_no_place_for_a_table(probe, tmp_path):
    with pytest.raises(SweepError, match="is a folder; name a file"):
        finished(small_sweep(probe), tmp_path)


def test_a_place_that_does_not_exist_is_named(probe, tmp_path):
    output = tmp_path / "nowhere" / "out.csv"
    with pytest.raises(SweepError, match=r"out\.csv cannot be written"):
        finished(small_sweep(probe), output)


def test_parquet_asks_for_its_library_before_any_row_is_made(probe, tmp_path, monkeypatch):
    def missing(name):
        raise ImportError(name)

    monkeypatch.setattr("explorer.files.sweep.import_module", missing)
    steps = run_sweep(small_sweep(probe), PATH, tmp_path / "out.parquet", workers=1)
    with pytest.raises(SweepError, match=r"pip install pyarrow, or write a \.csv file"):
        next(steps)
    assert not list(tmp_path.iterdir())


@pytest.mark.skipif(importlib.util.find_spec("pyarrow") is None, reason="pyarrow is optional")
def test_parquet_holds_the_rows_of_the_table(probe, tmp_path):
    from pyarrow import parquet

    finished(small_sweep(probe), tmp_path / "out.csv")
    finished(small_sweep(probe), tmp_path / "out.parquet")
    read = parquet.read_table(tmp_path / "out.parquet")
    assert read.num_rows == 6
    assert read.column("verdict").to_pylist() == [r["verdict"] for r in table(tmp_path / "out.csv")]

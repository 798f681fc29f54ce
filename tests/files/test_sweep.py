"""Sweeps: every verdict is the one that a check gives, whatever interrupts the table."""

import csv
import importlib.util
import json
import os
import signal
import subprocess
import sys
import time
from collections import Counter
from contextlib import nullcontext
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from pydantic import ValidationError

from explorer.advice.answers import answers
from explorer.advice.case import Case
from explorer.advice.fleet import fleet
from explorer.advice.judge import judge
from explorer.advice.readings.many_sure import TOLERANCE
from explorer.advice.verdict import CHECK_NAMES
from explorer.files import sweep as sweep_module
from explorer.files import sweep_rows
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
from explorer.scenario.model import get_value, with_value, with_values

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
    (f"{LUX}=1:2:0", "0 values of one quantity"),
    (f"{LUX}=1:2:3:linear", "is not low:high:count"),
    (f"{LUX}=100:inf:3", "inf is not allowed; allowed is 1 to 200000 lx"),
    (f"{LUX}=nan,200", "nan is not allowed"),
    (f"{LUX}=300:100:3", "ends below its beginning"),
    (f"{COUNT}=5:1", "ends below its beginning"),
    (f"{COUNT}=1.5,2", "1.5 is not a whole number"),
    ("store.capacitance_F=1e-9:1:3:ratio", "1e-09 is not allowed; allowed is 10 µF to 1000 F"),
    (f"{COUNT}=1:1000000000", "1000000000 is not allowed; allowed is 1 to 64"),
    (f"{LUX}=100:300:1000000000", "1000000000 values of one quantity"),
    ("margins.closure_days=0:10:3:ratio", "begin above 0"),
    ("load.operations.-1.name=a", "numbers of a list begin with 0"),
    ("load.operations.0=1,2", "not a single value"),
    ("load.operations=1", "not a single value"),
    ("title=a\x1bb", "cannot be printed"),
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
    assert finished(sweep, output) == [0, 6]
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

    monkeypatch.setattr(sweep_rows, "judge", judge_all_but_one)
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


def test_several_processes_write_the_same_table(probe, tmp_path, by_one, monkeypatch):
    sweep = small_sweep(probe)
    finished(sweep, tmp_path / "one.csv", workers=1)
    begun = []

    class Counted(sweep_module.ProcessPoolExecutor):
        def submit(self, *args, **named):
            begun.append(args)
            return super().submit(*args, **named)

    monkeypatch.setattr(sweep_module, "ProcessPoolExecutor", Counted)
    finished(sweep, tmp_path / "two.csv", workers=2)
    assert 0 < len(begun) < 2 * len(sweep)  # by the batch, then by the march: some of it here
    assert (tmp_path / "two.csv").read_bytes() == (tmp_path / "one.csv").read_bytes()


def test_a_few_rows_need_no_other_process(probe, tmp_path, monkeypatch):
    sweep = small_sweep(probe)
    finished(sweep, tmp_path / "one.csv", workers=1)
    monkeypatch.setattr(sweep_module, "ProcessPoolExecutor", lambda *a, **n: nullcontext(Nobody()))
    finished(sweep, tmp_path / "two.csv", workers=4)
    assert (tmp_path / "two.csv").read_bytes() == (tmp_path / "one.csv").read_bytes()


class Nobody:
    """Other processes that take no work."""

    def shutdown(self, **_):
        """Nothing to end."""


def test_a_random_design_is_the_same_every_time_and_within_its_ranges(probe):
    varied = (parse_vary(probe, f"{LUX}=100:1000:2"), parse_vary(probe, f"{COUNT}=1:4"))
    sweep = Sweep(scenario=probe, varied=varied, random_rows=200, seed=5)
    rows = list(zip(*sweep.columns(0, 200), strict=True))
    assert len(sweep) == len(rows) == 200
    # A part of the rows is what it is in the whole.
    parts = [sweep.columns(k, k + 50) for k in (0, 50, 100, 150)]
    assert rows == [row for part in parts for row in zip(*part, strict=True)]
    other = Sweep(scenario=probe, varied=varied, random_rows=200, seed=6)
    assert rows != list(zip(*other.columns(0, 200), strict=True))
    assert all(100.0 <= lux <= 1000.0 for lux, _ in rows)
    assert {n for _, n in rows} == {1, 2, 3, 4}
    middle = sorted(lux for lux, _ in rows)[100]
    # Even in ratio: half lie below the geometric mean of the ends.
    assert middle == pytest.approx((100.0 * 1000.0) ** 0.5, rel=0.25)


# ---- many at once ---------------------------------------------------------------------------


@pytest.fixture(scope="module")
def ample(probe):
    """A probe with store to spare, of which much is settled at once."""
    return with_value(probe, "store.capacitance_F", 3.0)


def many(scenario, **options):
    varied = (parse_vary(scenario, f"{LUX}=100:3000:2"), parse_vary(scenario, f"{COUNT}=1:8"))
    return Sweep(scenario=scenario, varied=varied, random_rows=45, **options)


def test_what_the_batch_decides_the_march_decides_alike(ample, tmp_path):
    """Every verdict is that of a march; margins and answers of the batch are near it."""
    finished(many(ample), tmp_path / "fast.csv")
    finished(many(ample, exact=True), tmp_path / "exact.csv")
    fast, exact = table(tmp_path / "fast.csv"), table(tmp_path / "exact.csv")
    assert {r["judged_by"] for r in exact} == {"march"}
    assert {r["judged_by"] for r in fast} == {"march", "batch"}
    assert [r["verdict"] for r in fast] == [r["verdict"] for r in exact]
    near = 0
    for one, other in zip(fast, exact, strict=True):
        if one["judged_by"] == "march":
            assert one == other
        elif one["verdict"] == "runs":
            near += 1
            for name in ("first_charge_s", "full_charge_s", "dark_time_s", "recovery_s",
                         "operations_per_charge", "lowest_store_V", "highest_store_V",
                         "lowest_terminal_V", "balance_ratio", "longest_dark_s"):
                assert float(one[name]) == pytest.approx(float(other[name]), rel=0.05), name
            for name in CHECK_NAMES:
                ours, theirs = float(one[f"{name}_margin"]), float(other[f"{name}_margin"])
                assert min(ours, 3.0) == pytest.approx(min(theirs, 3.0), rel=TOLERANCE[name])
    assert near > 10


def test_without_answers_a_row_is_its_verdict_and_margins(ample, tmp_path):
    sweep = many(ample, with_answers=False)
    finished(sweep, tmp_path / "out.csv")
    rows = table(tmp_path / "out.csv")
    assert list(rows[0]) == [
        "row", LUX, COUNT, "verdict", *(f"{n}_margin" for n in CHECK_NAMES), "judged_by", "fault",
    ]


def test_words_and_hours_are_swept_as_well(ample, tmp_path):
    """What is no number, and what sets when something happens, parts the variants of a chunk."""
    sweep = Sweep(scenario=ample, with_answers=False, varied=(
        parse_vary(ample, "light.source=led_2700,daylight_glass"),
        parse_vary(ample, "light.pattern.blocks.0.to_h=15,18"),
        parse_vary(ample, f"{LUX}=500:3000:10"),
    ))
    finished(sweep, tmp_path / "out.csv")
    rows = [r for r in table(tmp_path / "out.csv") if r["judged_by"] == "batch"]
    assert len({(r["light.source"], r["light.pattern.blocks.0.to_h"]) for r in rows}) == 4
    for row in rows[::6]:
        case = Case(with_values(ample, {
            "light.source": row["light.source"], LUX: float(row[LUX]),
            "light.pattern.blocks.0.to_h": float(row["light.pattern.blocks.0.to_h"]),
        }))
        assert row["verdict"] == judge(case).state


@pytest.mark.parametrize("name", ["soil_probe", "plant_label", "vent_flap"])
def test_what_is_allowed_at_the_corners_of_a_box_is_allowed_within(name):
    """So a sweep looks at corners alone. Two or three numbers at a time, between far-off values."""
    scenario = load_scenario(scenario_folder() / f"{name}.json").scenario
    paths = [p for p, _ in numbers(scenario.model_dump()) if p != "version"]
    draws, seen = np.random.default_rng(4), Counter()
    for _ in range(150):
        some = {}
        for path in draws.choice(paths, 3, replace=False):
            now = get_value(scenario, path)
            low, high = sorted(now * draws.choice([0.5, 0.8, 1.0, 1.2, 2.0], 2))
            some[str(path)] = np.array(sorted({type(now)(low), type(now)(high)}))
        allowed = sweep_rows._all_allowed(scenario, {}, some)
        seen[allowed] += 1
        for _ in range(4 * allowed):
            inside = {p: draws.uniform(ends[0], ends[-1]) for p, ends in some.items()}
            with_values(scenario, {
                p: round(v) if isinstance(get_value(scenario, p), int) else v
                for p, v in inside.items()
            })
    assert min(seen[False], seen[True]) > 10


def numbers(node, path=""):
    """Paths and values of all numbers of a scenario."""
    if isinstance(node, dict | tuple | list):
        for key, value in node.items() if isinstance(node, dict) else enumerate(node):
            yield from numbers(value, f"{path}.{key}" if path else f"{key}")
    elif isinstance(node, int | float):
        yield path, node


@pytest.mark.parametrize(("name", "head"), [
    ("vent_flap", ""), ("soil_probe", "load.operations"), ("soil_probe", "light.pattern"),
])
def test_every_number_may_be_swept_with_others(name, head):
    """Among others a variant is what it is alone; hours are left out, which part the variants."""
    scenario = load_scenario(scenario_folder() / f"{name}.json").scenario
    by_itself = cache(lambda one: fleet(Case(one), {}))  # one of two is the scenario as it is
    tried = 0
    for path, value in numbers(scenario.model_dump()):
        if path == "version" or path.rpartition(".")[2] in sweep_rows.HOURS:
            continue
        if not path.startswith(head):
            continue
        two = [value, value + 1] if isinstance(value, int) else [value * 0.9 or 0.5, value]
        alone = []
        for v in two:
            try:
                alone.append(by_itself(with_value(scenario, path, v)))
            except ValidationError:
                break
        else:
            tried += 1
            both = fleet(Case(scenario), {path: two})
            for i, one in enumerate(alone):
                assert both.sure[i] == one.sure[0], path
                for name in CHECK_NAMES:
                    assert both.margins[name][i] == pytest.approx(one.margins[name][0]), path
    assert tried > (0 if head else 40)


# ---- interruptions --------------------------------------------------------------------------


@pytest.fixture
def by_one(monkeypatch):
    """Rows come one by one, as chunks of many rows do."""
    monkeypatch.setattr(sweep_module, "CHUNK", 1)


def interrupted(sweep, output, rows):
    steps = run_sweep(sweep, PATH, output, workers=1)
    for done in steps:
        if done == rows:
            break
    steps.close()


def test_an_interrupted_sweep_goes_on_where_it_stopped(probe, tmp_path, monkeypatch, by_one):
    sweep = small_sweep(probe)
    finished(sweep, tmp_path / "whole.csv")
    output = tmp_path / "out.csv"
    interrupted(sweep, output, 3)
    assert not output.exists()
    assert len(table(tmp_path / "out.csv.partial")) == 3
    counted = []
    monkeypatch.setattr(sweep_rows, "judge", lambda *g: counted.append(1) or judge(*g))
    assert finished(sweep, output) == [3, 4, 5, 6]
    assert len(counted) == 3
    assert output.read_bytes() == (tmp_path / "whole.csv").read_bytes()


@pytest.mark.parametrize("torn", [b"3,500.0,2,mar", b"3,500.0,2,marginal,1.0", b"\x00", b"\xc3"])
def test_a_torn_last_line_is_made_again(probe, tmp_path, torn, by_one):
    sweep = small_sweep(probe)
    finished(sweep, tmp_path / "whole.csv")
    output = tmp_path / "out.csv"
    interrupted(sweep, output, 3)
    with (tmp_path / "out.csv.partial").open("ab") as stream:
        stream.write(torn)
    assert finished(sweep, output)[0] == 3
    assert output.read_bytes() == (tmp_path / "whole.csv").read_bytes()


def test_another_sweep_does_not_go_on_with_the_rows_of_the_first(probe, tmp_path, by_one):
    output = tmp_path / "out.csv"
    interrupted(small_sweep(probe), output, 3)
    other = small_sweep(with_value(probe, "load.sleep_A", 5e-6))
    assert other.fingerprint(Case(probe)) != small_sweep(probe).fingerprint(Case(probe))
    assert finished(other, output)[0] == 0
    assert len(table(output)) == 6


def test_a_second_sweep_waits_for_the_end_of_the_first(probe, tmp_path, by_one):
    sweep, output = small_sweep(probe), tmp_path / "out.csv"
    first = run_sweep(sweep, PATH, output, workers=1)
    assert [next(first), next(first)] == [0, 1]
    with pytest.raises(SweepError, match="is being written by another sweep"):
        finished(sweep, output)
    assert list(first) == [2, 3, 4, 5, 6]
    assert len(table(output)) == 6


def test_a_kill_before_the_first_row_is_no_hindrance(probe, tmp_path):
    (tmp_path / "out.csv.partial.json").touch()
    assert finished(small_sweep(probe), tmp_path / "out.csv") == [0, 6]


KILLED = """
import multiprocessing, os, signal
from concurrent.futures import ProcessPoolExecutor
from explorer.advice.case import Case
from explorer.files.sweep import Sweep, _begin_process
from explorer.scenario.model import Scenario

if __name__ == "__main__":
    pool = ProcessPoolExecutor(
        1, multiprocessing.get_context("spawn"), _begin_process,
        (Sweep(scenario=Scenario(), varied=()), Case(Scenario())),
    )
    print(pool.submit(os.getpid).result(), flush=True)
    os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="kills a process outright")
def test_no_worker_outlives_a_sweep_that_was_killed(tmp_path):
    program = tmp_path / "killed.py"
    program.write_text(KILLED, encoding="utf-8")
    with (tmp_path / "said").open("w") as said:  # a pipe would end with the worker alone
        done = subprocess.run(
            [sys.executable, program], stdout=said, stderr=said, check=False,
            env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])},
        )  # fmt: skip
    assert done.returncode == -signal.SIGKILL
    worker = int((tmp_path / "said").read_text().splitlines()[0])
    end = time.monotonic() + 30.0
    while is_alive(worker) and time.monotonic() < end:
        time.sleep(0.05)
    assert not is_alive(worker)


def is_alive(process_id):
    try:
        os.kill(process_id, 0)
    except ProcessLookupError:
        return False
    return True


def test_a_word_that_a_spreadsheet_would_run_is_marked_as_a_text(probe, tmp_path):
    words = parse_vary(probe, "title==1+1,soil,-3 V")
    finished(Sweep(scenario=probe, varied=(words,)), tmp_path / "out.csv")
    assert [r["title"] for r in table(tmp_path / "out.csv")] == ["'=1+1", "soil", "'-3 V"]


@pytest.mark.parametrize("spoil", ["note", "partial", "header"])
def test_a_lost_or_spoilt_beginning_starts_anew(probe, tmp_path, spoil, by_one):
    sweep, output = small_sweep(probe), tmp_path / "out.csv"
    interrupted(sweep, output, 2)
    partial, note = tmp_path / "out.csv.partial", tmp_path / "out.csv.partial.json"
    known = sweep.fingerprint(Case(sweep.scenario))
    assert json.loads(note.read_text(encoding="utf-8")) == {"sweep": known}
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


@pytest.fixture
def logged(tmp_path):
    """A scenario under a log of its own, both in a folder that may be written."""
    source = scenario_folder() / "seminar_room_co2.json"
    scenario = load_scenario(source).scenario
    text = json.loads(source.read_text(encoding="utf-8"))
    text["light"]["pattern"]["file"] = "light.csv"
    path, log = tmp_path / "room.json", tmp_path / "light.csv"
    path.write_text(json.dumps(text), encoding="utf-8")
    lines = ["time_s,lux", *(f"{3600 * h},{400 if 8 <= h % 24 < 18 else 0}" for h in range(168))]
    log.write_text("\n".join(lines), encoding="utf-8")
    assert scenario.light.pattern.kind == "log"
    return path, log


def test_under_another_log_a_sweep_starts_anew(logged, tmp_path, by_one):
    path, log = logged
    scenario = load_scenario(path).scenario
    sweep = Sweep(scenario=scenario, varied=(parse_vary(scenario, f"{COUNT}=4:7"),))
    steps = run_sweep(sweep, path, tmp_path / "out.csv", workers=1)
    for done in steps:
        if done == 2:
            break
    steps.close()
    log.write_text(log.read_text(encoding="utf-8").replace(",400", ",500"), encoding="utf-8")
    assert next(run_sweep(sweep, path, tmp_path / "out.csv", workers=1)) == 0


# ---- places and formats ---------------------------------------------------------------------


def test_a_folder_is_no_place_for_a_table(probe, tmp_path):
    with pytest.raises(SweepError, match="is a folder; name a file"):
        finished(small_sweep(probe), tmp_path)


def test_nothing_is_written_over_what_a_sweep_is_made_from(logged):
    path, log = logged
    scenario = load_scenario(path).scenario
    sweep = Sweep(scenario=scenario, varied=(parse_vary(scenario, f"{COUNT}=4"),))
    for source in (path, log):
        before = source.read_bytes()
        with pytest.raises(SweepError, match="is what the sweep is made from"):
            list(run_sweep(sweep, path, source, workers=1))
        assert source.read_bytes() == before


@pytest.mark.parametrize("suffix", ["", ".partial", ".partial.json"])
def test_no_file_of_somebody_else_is_written_over(probe, tmp_path, suffix):
    other = tmp_path / f"out.csv{suffix}"
    other.write_text("name,price\nlamp,3\n", encoding="utf-8")
    with pytest.raises(SweepError, match=r"is no (table|note) of a sweep; name another"):
        finished(small_sweep(probe), tmp_path / "out.csv")
    assert other.read_text(encoding="utf-8") == "name,price\nlamp,3\n"


def test_an_earlier_table_of_its_own_is_replaced(probe, tmp_path):
    finished(small_sweep(probe), tmp_path / "out.csv")
    assert finished(small_sweep(probe), tmp_path / "out.csv") == [0, 6]


def test_a_device_is_no_place_for_a_table(probe):
    with pytest.raises(SweepError, match="is not an ordinary file"):
        finished(small_sweep(probe), Path("/dev/null"))


def test_one_quantity_is_varied_once(probe):
    varied = parse_vary(probe, f"{COUNT}=1:2")
    with pytest.raises(SweepError, match="is given twice"):
        Sweep(scenario=probe, varied=(varied, varied))


def test_too_many_variants_are_refused_before_any_is_made(probe):
    many = [parse_vary(probe, f"{p}:1000000") for p in (f"{LUX}=1:9", "load.sleep_A=1e-6:2e-6")]
    with pytest.raises(SweepError, match="1000000000000 variants; at most"):
        Sweep(scenario=probe, varied=tuple(many))


def test_a_place_that_does_not_exist_is_named(probe, tmp_path):
    output = tmp_path / "nowhere" / "out.csv"
    with pytest.raises(SweepError, match=r"out\.csv cannot be written"):
        finished(small_sweep(probe), output)


def test_parquet_asks_for_its_library_before_any_row_is_made(probe, tmp_path, monkeypatch):
    def missing(name):
        raise ImportError(name)

    monkeypatch.setattr("explorer.files.sweep_table.import_module", missing)
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
    rows = table(tmp_path / "out.csv")
    assert read.column("verdict").to_pylist() == [r["verdict"] for r in rows]
    assert read.column(LUX).to_pylist() == [float(r[LUX]) for r in rows]
    assert read.column(COUNT).to_pylist() == [int(r[COUNT]) for r in rows]
    assert read.column("recovery_s").to_pylist() == [float(r["recovery_s"]) for r in rows]
    # It may be made again where it lies.
    finished(small_sweep(probe), tmp_path / "out.parquet")

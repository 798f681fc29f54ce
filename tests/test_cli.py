"""The command line answers with a verdict, a table or one sentence, and never with a traceback."""

import csv
import json
import math
import os
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.advice.reach import reach
from explorer.advice.verdict import CHECK_NAMES
from explorer.cli import main as cli
from explorer.files.report_source import canonical_json, sha256_of
from explorer.files.scenario_json import LIMIT_BYTES, load_scenario, save_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario.model import Scenario, with_value
from explorer.words.console import NARROWEST, one_line, page
from tests.depth import some
from tests.sharing import cases_are_shared  # noqa: F401

SCENARIOS = [
    path for path in sorted(scenario_folder().glob("*.json"))
    if '"daylight"' not in path.read_text(encoding="utf-8")
]
"""Of a week; the year's have tests of their own, and one stands for them here."""
YEAR = scenario_folder() / "window_air_sensor.json"
RUNS, MARGINAL, FALLS_SHORT = (
    str(scenario_folder() / f"{name}.json")
    for name in ("plant_label", "soil_probe", "door_counter")
)
SOON = str(scenario_folder() / "vent_flap.json")
"""Runs too, and is asked least; for processes of their own, which share nothing."""
COLUMNS = "time_s,store_V,terminal_V,terminal_min_V,harvest_A,load_A,leakage_A,connected"


def gloaming(*arguments, **options):
    """Run the command in this process; only the group itself, as `main` ends the process."""
    return CliRunner().invoke(cli.commands, [str(a) for a in arguments], **options)


def started(*arguments, **environment):
    """Run the command as a person does, in a process of its own."""
    kept = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "WAYLAND_DISPLAY")}
    kept.pop("QT_QPA_PLATFORM", None)
    return subprocess.run(
        [sys.executable, "-m", "explorer", *map(str, arguments)],
        env={**kept, "PYTHONPATH": str(Path(cli.__file__).parent.parent.parent), **environment},
        capture_output=True,
        text=True,
        encoding="utf-8",
        errors="replace",
        timeout=120,
        check=False,
    )


def refused(result):
    """The sentences of a call that failed as it should."""
    assert result.exit_code == 3, result.output
    assert "Traceback" not in result.output
    return result.stderr


@pytest.fixture
def scenario_file(tmp_path):
    """Write the default scenario with some keys set to anything."""

    def write(name="mine.json", **changes):
        data = json.loads(Scenario().model_dump_json())
        for path, value in changes.items():
            node = data
            *head, last = path.split("__")
            for part in head:
                node = node[int(part)] if part.isdigit() else node[part]
            node[last] = value
        path = tmp_path / name
        path.write_text(json.dumps(data), encoding="utf-8")
        return path

    return write


# --- check --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("files", "code"),
    [
        ([RUNS], 0),
        ([MARGINAL], 1),
        ([FALLS_SHORT], 2),
        ([FALLS_SHORT, RUNS], 2),
        ([RUNS, MARGINAL, RUNS], 1),
        (["none.json", RUNS], 3),
        ([RUNS, FALLS_SHORT, "none.json"], 3),
    ],
)
def test_the_exit_status_tells_the_worst_verdict(files, code):
    assert gloaming("check", *files).exit_code == code
    assert gloaming("check", "--json", *files).exit_code == code


def test_json_is_one_array_with_an_object_for_every_file():
    files = [*some(SCENARIOS, 2), YEAR]
    result = gloaming("check", "--json", *files, "none.json")
    reports = json.loads(result.stdout)
    assert [r["file"] for r in reports] == [*map(str, files), "none.json"]
    for report in reports[:-1]:
        assert report["verdict"] in {"runs", "marginal", "falls_short"}
        assert [c["name"] for c in report["checks"]] == list(CHECK_NAMES)
        for found in report["checks"]:
            assert {"value", "limit", "unit", "margin", "state", "sentence"} <= set(found)
            assert found["state"] in {"runs", "marginal", "falls_short"}
            assert found["sentence"].endswith(".")
            # The state follows from the margin alone.
            passed = found["margin"] >= 1
            assert passed == (found["state"] != "falls_short")
            assert (found["margin"] >= found["wanted_margin"]) == (found["state"] == "runs")
        worst = max((c["state"] for c in report["checks"]), key=list(cli.EXIT_CODES).index)
        assert report["verdict"] == worst
        assert {"first_charge_s", "dark_time_s", "operations_per_charge", "lowest_store_V"} <= set(
            report["answers"]
        )
    assert reports[-1]["verdict"] == "error"
    assert reports[-1]["error"] == "There is no file none.json."
    assert result.stderr == "There is no file none.json.\n"


def test_what_was_found_in_a_light_log_is_told_with_its_scale(tmp_path):
    # Four lux in the dark, one reading missing, 204 lx by day in place of the 306 lx asked for.
    lux = [4 if h % 24 < 12 else 204 for h in range(72)]
    rows = [f"{h},{level}" for h, level in enumerate(lux) if h != 30]
    (tmp_path / "desk.csv").write_text("time (h),lux\n" + "\n".join(rows), encoding="utf-8")
    scenario = json.loads(Path(MARGINAL).read_text(encoding="utf-8"))
    scenario["light"]["illuminance_lx"] = 306.0
    scenario["light"]["pattern"] = {"kind": "log", "file": "desk.csv", "offset_lx": 4.0}
    path = tmp_path / "logged.json"
    path.write_text(json.dumps(scenario), encoding="utf-8")
    (report,) = json.loads(gloaming("check", "--json", path).stdout)
    log = report["light_log"]
    assert (log["readings"], log["step_s"], log["gaps"]) == (71, 3600.0, 1)
    assert log["scale"] == pytest.approx(306 / 200)
    said = " ".join(gloaming("check", path).stdout.split())
    for sentence in log["sentences"]:
        assert sentence in said
    for part in ("71 readings over 3 d", "(× 1.53)", "4 lx were taken off", "short gaps"):
        assert part in said
    del scenario["light"]["pattern"]["offset_lx"]
    path.write_text(json.dumps(scenario), encoding="utf-8")
    assert "never falls below 4 lx" in " ".join(gloaming("check", path).stdout.split())


def test_a_panel_without_a_data_sheet_is_named_beside_the_answers(tmp_path):
    (report,) = json.loads(gloaming("check", "--json", MARGINAL).stdout)
    span = report["panel_span"]
    # 3.0 and 6.2 over 4.8 µW/cm² at 200 lx, 16 and 35 over 27 at 1000 lx
    assert 16 / 27 <= span["low"] <= 3.0 / 4.8
    assert 6.2 / 4.8 <= span["high"] <= 35 / 27
    assert span["sentence"] in " ".join(gloaming("check", MARGINAL).stdout.split())
    measured = json.loads(Path(MARGINAL).read_text(encoding="utf-8"))
    measured["panels"]["data_sheet"] = [{}]
    path = tmp_path / "measured.json"
    path.write_text(json.dumps(measured), encoding="utf-8")
    assert json.loads(gloaming("check", "--json", path).stdout)[0]["panel_span"] is None
    assert "no data sheet" not in gloaming("check", path).stdout


def test_json_says_null_where_something_never_happens():
    (report,) = json.loads(gloaming("check", "--json", FALLS_SHORT).stdout)
    starts = report["checks"][0]
    assert starts["name"] == "starts"
    assert starts["value"] is None
    assert starts["margin"] == 0
    assert report["answers"]["first_charge_s"] is None
    # A device that draws nothing lasts without end.
    assert "NaN" not in json.dumps(report)
    assert "Infinity" not in json.dumps(report)


def test_json_gives_the_numbers_of_the_model():
    (report,) = json.loads(gloaming("check", "--json", MARGINAL).stdout)
    found = assess(Case(load_scenario(MARGINAL).scenario))
    assert report["answers"]["first_charge_s"] == found.answers["first_charge_s"]
    assert report["answers"]["operations_per_charge"] == found.answers["operations_per_charge"]
    assert [c["margin"] for c in report["checks"]] == [c.margin for c in found.verdict.checks]
    assert report["governing"] == "dark"
    assert report["design_margin"] == 1.3


@pytest.mark.parametrize("width", [60, 72, 80, 100])
def test_a_page_fits_its_width_and_keeps_units_beside_numbers(width):
    for path in SCENARIOS:
        case = cli._read(path)
        text = page(path.name, assess(case), width)
        lines = text.splitlines()
        assert max(map(len, lines)) <= width
        assert not [line for line in lines if line != line.rstrip()]
        assert not [line for line in lines if line.split()[:1] in (["V"], ["s"], ["h"], ["µW"])]
        assert case.scenario.title in text.replace("\n", " ")


def test_a_page_reads_as_a_person_speaks():
    text = gloaming("check", RUNS).stdout
    assert "● Runs" in text
    assert re.search(r"Operations completed +100 %", text)
    assert "Cut-offs per week" in text
    keys = list(json.loads(gloaming("check", "--json", RUNS).stdout)[0]["answers"])
    assert not [key for key in keys if key in text]
    assert "inf" not in text
    assert "nan" not in text


def test_each_answer_is_told(monkeypatch):
    """A new answer of the model must get its words here too."""
    monkeypatch.setenv("COLUMNS", "100")
    from explorer.advice.readings.required import COLUMN_OF
    from explorer.words.answers import LABELS as ANSWERS

    for path in SCENARIOS:
        case = cli._read(path)
        found = {**assess(case).answers, **reach(case)}
        told = set(ANSWERS)
        if not any(op.schedule.kind == "every" for op in case.scenario.load.operations):
            told.discard("most_operations_per_day")
        of_some = {key for key in told if key.startswith("run")} | {"indicated_s"}
        assert not told - of_some - set(COLUMN_OF.values()) - set(found)


def test_several_files_end_with_a_line_for_each():
    text = gloaming("check", RUNS, FALLS_SHORT, "none.json").stdout
    closing = text[text.index("3 files") :].splitlines()
    assert closing[1].split(maxsplit=2)[:2] == ["●", "Runs"]
    assert "Falls short" in closing[2]
    assert "Not judged" in closing[3]
    assert "none.json" in closing[3]
    assert "3 files" not in gloaming("check", RUNS).stdout


def test_a_hazard_is_told_apart_from_the_verdict():
    text = gloaming("check", FALLS_SHORT).stdout
    assert "! HAZARD, over-voltage:" in text
    assert "HAZARD" not in gloaming("check", RUNS).stdout


def test_verdicts_go_to_the_output_and_complaints_beside_it():
    result = gloaming("check", RUNS, "none.json")
    assert "Plant label" in result.stdout
    assert "There is no file" not in result.stdout
    assert result.stderr == "There is no file none.json.\n"


def test_a_title_cannot_move_the_cursor(scenario_file):
    path = scenario_file(title="Fern\x1b[2J\nlabel\x07")
    text = gloaming("check", path).stdout
    assert "\x1b" not in text
    assert "Fern␛[2J label␇" in text
    assert one_line("a\r\n b\t\x00c") == "a b ␀c"


def test_the_narrowest_terminal_gets_one_column_of_answers(monkeypatch):
    monkeypatch.setenv("COLUMNS", "20")
    lines = gloaming("check", RUNS).stdout.splitlines()
    assert max(map(len, lines)) <= NARROWEST


# --- bad input ----------------------------------------------------------------------------

BAD_SCENARIOS = [
    ({"store__capacitance_F": -1.0}, ["store.capacitance_F", "-1.0", "10 µF to 1000 F"]),
    ({"store__capacitance_F": math.nan}, ["store.capacitance_F", "only finite numbers"]),
    ({"light__illuminance_lx": math.inf}, ["light.illuminance_lx", "only finite numbers"]),
    ({"light__illuminance_lx": "300"}, ["light.illuminance_lx", "a number from 1 to 200000 lx"]),
    ({"light__brightness": 3}, ["light.brightness", "is not a known key"]),
    ({"stores": {}}, ["stores", "did you mean store?"]),
    ({"load__connect_V": 2.0}, ["connect_V (2 V) must be higher than disconnect_V (2.4 V)"]),
    ({"load__connect_V": 9.0}, ["load.connect_V (9 V) must be lower than charger.full_V"]),
    ({"version": 99}, ["version 99", "reads versions up to 3"]),
    ({"version": -1}, ["version must be a whole number from 0 to 3"]),
    ({"format": "orchid"}, ['format must be "gloaming-scenario", found "orchid"']),
    ({"panels__count": 1.5}, ["panels.count", "1 to 64"]),
    ({"panels__count": True}, ["panels.count", "true"]),
    ({"store__kind": "flywheel"}, ["store.kind", '"flywheel"', '"supercapacitor"']),
    ({"load__operations__0__phases": []}, ["phases must hold at least one phase"]),
    ({"light__pattern": {"kind": "log", "file": "none.csv"}}, ["light.pattern.file", "none.csv"]),
]


@pytest.mark.parametrize(("changes", "said"), BAD_SCENARIOS)
def test_a_bad_value_is_one_sentence_that_names_key_and_range(scenario_file, changes, said):
    path = scenario_file(**changes)
    sentence = refused(gloaming("check", path))
    assert all(part in sentence for part in said), sentence
    assert len(sentence.strip().splitlines()) == 1
    assert sentence.rstrip().endswith((".", "?"))
    output = path.with_name("out.csv")
    assert refused(gloaming("trace", path, "-o", output)) == sentence
    assert not output.exists()


def bad_file(folder, kind):
    """A path of some kind that holds no scenario."""
    path = folder / f"{kind}.json"
    match kind:
        case "folder":
            path.mkdir()
        case "empty":
            path.write_bytes(b"")
        case "blank":
            path.write_text(" \n\n")
        case "binary":
            path.write_bytes(bytes(range(256)))
        case "picture":
            path.write_bytes(b"\x89PNG\r\n\x1a\n" + b"\0" * 64)
        case "cut":
            path.write_text(Path(RUNS).read_text(encoding="utf-8")[:700])
        case "list":
            path.write_text("[1, 2, 3]")
        case "deep":
            path.write_text("[" * 100_000)
        case "huge":
            with path.open("wb") as file:
                file.truncate(200 * LIMIT_BYTES // 5)
        case "twice":
            head = '{"format": "gloaming-scenario", "version": 1, '
            path.write_text(head + '"title": "a", "title": "b"}')
    return path


@pytest.mark.parametrize(
    ("kind", "said"),
    [
        ("missing", "There is no file"),
        ("folder", "is a folder"),
        ("empty", "is empty"),
        ("blank", "is empty"),
        ("binary", "not a text file"),
        ("picture", "not a text file"),
        ("cut", "ends too early"),
        ("list", "is not a scenario"),
        ("deep", "nested too deeply"),
        ("huge", "200.0 MB"),
        ("twice", "given more than once"),
    ],
)
def test_a_file_that_is_no_scenario_is_one_sentence(tmp_path, kind, said):
    path = bad_file(tmp_path, kind)
    before = sorted(tmp_path.rglob("*"))
    for arguments in (["check", path], ["trace", path, "-o", tmp_path / "out.csv"]):
        sentence = refused(gloaming(*arguments))
        assert said in sentence
        assert len(sentence.strip().splitlines()) == 1
    assert sorted(tmp_path.rglob("*")) == before


def test_a_file_that_may_not_be_read_is_one_sentence(scenario_file, monkeypatch):
    """Root may read anything, so the refusal of the disk is acted."""
    path = scenario_file()

    def refuse(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    assert refused(gloaming("check", path)) == f"{path} cannot be read: Permission denied.\n"


HOURS = "time,lux\n2024-03-04 08:00:00,300\n2024-03-04 09:00:00,300\n2024-03-04 10:00:00,200\n"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("time,brightness\n0,1\n60,2\n", "“illuminance (lx)”"),
        ("lux\n1\n2\n", "time"),
        (HOURS.replace("10:00", "08:30"), "desk.csv, line 4"),
        (HOURS.replace("10:00", "09:00"), "repeats the time of the line before"),
        (HOURS.replace(",200", ",bright"), "line 4"),
        (HOURS.replace(",200", ",-5"), "line 4"),
        (HOURS.replace("2024-03-04 10:00:00", "noon"), "line 4"),
        ("time,lux\n0,100\n", "at least 2 are needed"),
        ("", "is empty"),
        ("\0\1\2", "holds no text"),
    ],
)
def test_a_bad_log_is_one_sentence_that_names_the_line(scenario_file, text, said):
    path = scenario_file(light__pattern={"kind": "log", "file": "desk.csv"})
    path.with_name("desk.csv").write_text(text)
    sentence = refused(gloaming("check", path))
    assert said in sentence
    assert len(sentence.strip().splitlines()) == 1
    assert not path.with_name("out.csv").exists()


def test_a_log_with_a_gap_is_judged(scenario_file):
    path = scenario_file(light__pattern={"kind": "log", "file": "desk.csv"})
    path.with_name("desk.csv").write_text(HOURS + "2024-03-04 20:00:00,300\n")
    assert gloaming("check", path).exit_code in (0, 1, 2)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["check"], "Missing argument"),
        (["weigh", RUNS], "No such command"),
        (["mine.json"], "gloaming open mine.json shows it, gloaming check mine.json judges it."),
        (["check", RUNS, "--loud"], "No such option"),
        (["trace", RUNS], "Missing option"),
        (["trace", RUNS, "--days", "0", "-o", "out.csv"], "more than 0 and at most 36500 d"),
        (["trace", RUNS, "--days", "nan", "-o", "out.csv"], '"nan" does not begin with a number'),
        (["trace", RUNS, "--days", "1e9", "-o", "out.csv"], "at most 36500 d"),
        (["trace", RUNS, "--step", "-5", "-o", "out.csv"], "-5 s is out of range"),
        (["trace", RUNS, "--step", "5 V", "-o", "out.csv"], 'has "V" as its unit'),
    ],
)
def test_a_wrong_call_ends_with_3_and_says_what_is_allowed(arguments, said, monkeypatch, capsys):
    """Click's own status would be 2, which stands for Falls short here."""
    monkeypatch.setattr(sys, "argv", ["gloaming", *arguments])
    with pytest.raises(SystemExit) as ended:
        cli.main()
    assert ended.value.code == 3
    told = capsys.readouterr()
    assert said in told.err
    assert told.out == ""


def test_the_process_ends_with_the_status_of_the_verdict():
    assert started("check", FALLS_SHORT).returncode == 2
    assert started("check", "none.json").returncode == 3
    assert started("weigh").returncode == 3


def test_a_person_may_stop_it(monkeypatch):
    def stopped(*_, **__):
        raise KeyboardInterrupt

    monkeypatch.setattr(cli, "assess", stopped)
    monkeypatch.setattr(sys, "argv", ["gloaming", "check", RUNS])
    with pytest.raises(SystemExit) as ended:
        cli.main()
    assert ended.value.code == 130


# --- trace --------------------------------------------------------------------------------


def table(path):
    with path.open(newline="", encoding="utf-8") as file:
        assert file.readline().rstrip("\n") == COLUMNS
        file.seek(0)
        rows = list(csv.DictReader(file))
    return {name: np.array([float(row[name]) for row in rows]) for name in rows[0]}


def test_a_trace_at_an_even_step_has_the_published_columns(tmp_path):
    output = tmp_path / "out.csv"
    result = gloaming("trace", RUNS, "--days", 2, "--step", 600, "-o", output)
    assert result.exit_code == 0, result.output
    assert f"{output}: 289 rows, 2 d." in result.stdout
    rows = table(output)
    assert rows["time_s"] == pytest.approx(np.arange(289) * 600.0)
    assert set(rows["connected"]) == {0.0, 1.0}
    assert np.all(rows["terminal_min_V"] <= rows["terminal_V"] + 1e-3)
    # Nothing comes in at night; the store leaks, and the diode leaks a little back.
    night = (rows["time_s"] % 86_400.0) < 7.5 * 3600.0
    assert rows["harvest_A"][night].max() <= 0.0
    assert rows["harvest_A"].max() > 1e-5


def test_times_may_be_given_with_a_unit(tmp_path):
    first, second = tmp_path / "a.csv", tmp_path / "b.csv"
    gloaming("trace", RUNS, "--days", "2", "--step", "1800", "-o", first)
    gloaming("trace", RUNS, "--days", "48 h", "--step", "30min", "-o", second)
    assert first.read_text() == second.read_text()


def test_without_a_step_rows_stand_where_something_happens(tmp_path):
    output = tmp_path / "out.csv"
    assert gloaming("trace", RUNS, "-o", output).exit_code == 0
    times = table(output)["time_s"]
    assert times[-1] == pytest.approx(7 * 86_400.0)
    assert np.all(np.diff(times) >= 0.0)
    # The light comes on at eight: a row stands there.
    assert np.isclose(times, 8 * 3600.0).any()


def test_steps_do_not_change_what_is_charged_and_drawn(tmp_path):
    """Current times step adds up to the same charge at any step, also under a measured log."""
    for path, days in ((MARGINAL, 7), (scenario_folder() / "seminar_room_co2.json", 3)):
        sums = []
        for step in (60, 3600):
            gloaming("trace", path, "--days", days, "--step", step, "-o", tmp_path / "out.csv")
            rows = table(tmp_path / "out.csv")
            sums.append([float(rows[n][:-1].sum()) * step for n in ("harvest_A", "load_A")])
            lowest = rows["terminal_min_V"].min()
        assert sums[0] == pytest.approx(sums[1], rel=1e-6)
        assert lowest == table(tmp_path / "out.csv")["terminal_min_V"].min()


def test_a_log_is_followed_for_as_long_as_is_asked(tmp_path):
    output = tmp_path / "out.csv"
    path = scenario_folder() / "seminar_room_co2.json"
    assert gloaming("trace", path, "--days", 30, "--step", "1 h", "-o", output).exit_code == 0
    rows = table(output)
    assert rows["time_s"][-1] == pytest.approx(30 * 86_400.0)
    # The log is some sixteen days long and then begins anew: there is light in the last week.
    assert rows["harvest_A"][-7 * 24 :].max() > 1e-5


@pytest.mark.parametrize("make", [Path.mkdir, None], ids=["a folder", "in no folder"])
def test_a_place_that_cannot_be_written_is_one_sentence(tmp_path, make):
    output = tmp_path / "out.csv" if make else tmp_path / "none" / "out.csv"
    if make:
        make(output)
    sentence = refused(gloaming("trace", RUNS, "--days", 1, "-o", output))
    assert "is a folder" in sentence if make else "there is no folder" in sentence
    assert not [p for p in tmp_path.rglob("*") if p.is_file()]


def test_a_place_without_a_right_to_write_is_one_sentence(tmp_path, monkeypatch):
    """Root may write anywhere, so the refusal of the disk is acted."""
    from explorer.files import disk

    def refuse(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(disk.os, "replace", refuse)
    sentence = refused(gloaming("trace", RUNS, "--days", 1, "-o", tmp_path / "out.csv"))
    assert sentence == f"{tmp_path / 'out.csv'} cannot be written: Permission denied.\n"
    assert not list(tmp_path.iterdir())


def test_a_table_is_not_written_over_what_it_is_made_from(tmp_path):
    path = tmp_path / "mine.json"
    save_scenario(path, load_scenario(RUNS).scenario)
    before = path.read_bytes()
    assert "give another name" in refused(gloaming("trace", path, "-o", path))
    assert path.read_bytes() == before
    logged = with_value(Scenario(), "light.pattern", {"kind": "log", "file": "desk.csv"})
    save_scenario(path, logged)
    log = tmp_path / "desk.csv"
    log.write_text(HOURS)
    assert "give another name" in refused(gloaming("trace", path, "-o", log))
    assert log.read_text() == HOURS


def test_too_many_rows_are_refused_before_anything_is_written(tmp_path):
    output = tmp_path / "out.csv"
    sentence = refused(gloaming("trace", RUNS, "--days", 365, "--step", "1 s", "-o", output))
    assert "at most 1000000 are written" in sentence
    assert not output.exists()


# --- the rest -----------------------------------------------------------------------------


def test_the_schema_of_parts_is_json_and_knows_the_kinds():
    kinds = json.loads(gloaming("schema", "part").stdout)["discriminator"]["mapping"]
    assert set(kinds) == {"panel", "charger", "store", "load"}


def test_the_schema_is_json_and_knows_the_sections():
    schema = json.loads(gloaming("schema").stdout)
    assert {"light", "panels", "charger", "store", "load", "margins"} <= set(schema["properties"])


def test_help_and_version_are_told_without_a_display():
    assert "check" in gloaming("--help").stdout
    assert gloaming("--version").stdout.startswith("gloaming ")


def test_without_a_display_the_window_is_refused_with_a_sentence():
    for arguments in ([], ["open", RUNS]):
        done = started(*arguments)
        if sys.platform.startswith("linux"):
            assert done.returncode == 3
            assert "There is no display" in done.stderr
            assert "gloaming check FILE" in done.stderr
            assert len(done.stderr.strip().splitlines()) == 1


@pytest.mark.parametrize(
    ("library", "package"),
    some(
        [("libGL.so.1", "libgl1"), ("libEGL.so.1", "libegl1"),
         ("libxkbcommon.so.0", "libxkbcommon0")], 3
    ),
)
def test_a_missing_system_library_is_named_with_its_package(tmp_path, library, package):
    """A stand-in for PySide6 fails as the real one does where the library is not there."""
    stub = tmp_path / "PySide6"
    stub.mkdir()
    (stub / "__init__.py").write_text("")
    fault = f"{library}: cannot open shared object file: No such file or directory"
    for module in ("QtCore", "QtGui", "QtWidgets"):
        (stub / f"{module}.py").write_text(f"raise ImportError({fault!r})\n")
    both = os.pathsep.join([str(tmp_path), str(Path(cli.__file__).parent.parent.parent)])
    done = started(PYTHONPATH=both, QT_QPA_PLATFORM="offscreen")
    assert done.returncode == 3
    assert library in done.stderr
    assert f"apt install {package}" in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    if library == "libGL.so.1":  # the same machine still judges
        assert started("check", SOON, PYTHONPATH=both).returncode == 0


@pytest.mark.skipif(os.name != "posix", reason="pipes end otherwise elsewhere")
@pytest.mark.parametrize("command", [["check", *SCENARIOS], ["schema"]])
def test_a_reader_that_has_seen_enough_is_no_fault(command):
    with subprocess.Popen(
        [sys.executable, "-m", "explorer", *map(str, command)],
        env={**os.environ, "PYTHONPATH": str(Path(cli.__file__).parent.parent.parent)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as writer:
        writer.stdout.close()
        complaints = writer.stderr.read()
        status = writer.wait(timeout=60)
    assert complaints == b""
    assert status == cli.NO_READER


def test_a_terminal_without_shapes_and_greek_letters_gets_other_marks():
    done = started("check", SOON, PYTHONIOENCODING="latin-1:strict")
    assert done.returncode == 0, done.stderr
    assert "+ Runs" in started("check", SOON, PYTHONIOENCODING="cp1252:strict").stdout


def test_the_command_line_loads_no_qt():
    asked = "import sys, explorer.cli.main; print(*{name.split('.')[0] for name in sys.modules})"
    done = subprocess.run(
        [sys.executable, "-c", asked],
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
        cwd=Path(cli.__file__).parent.parent.parent,
    )
    assert not {"PySide6", "pyqtgraph", "shiboken6"} & set(done.stdout.split())


def test_a_sweep_says_of_each_variant_what_check_says(tmp_path):
    output = tmp_path / "out.csv"
    done = gloaming(
        "sweep", MARGINAL, "--vary", "panels.count=1:2", "--vary", "light.illuminance_lx=200,400",
        "--workers", "1", "-o", output,
    )
    assert done.exit_code == 0
    with output.open(newline="") as stream:
        rows = list(csv.DictReader(stream))
    assert len(rows) == 4
    for row in rows:
        scenario = load_scenario(MARGINAL).scenario
        scenario = with_value(scenario, "panels.count", int(row["panels.count"]))
        scenario = with_value(
            scenario, "light.illuminance_lx", float(row["light.illuminance_lx"])
        )
        variant = tmp_path / "variant.json"
        save_scenario(variant, scenario)
        report = json.loads(gloaming("check", variant, "--json").stdout)[0]
        assert report["verdict"] == row["verdict"]
        for check in report["checks"]:
            assert float(row[f"{check['name']}_margin"]) == check["margin"]


def test_a_sweep_refuses_a_key_that_is_not_there(tmp_path):
    done = gloaming("sweep", MARGINAL, "--vary", "panels.number=1:2", "-o", tmp_path / "out.csv")
    assert done.exit_code == 3
    assert "panels.number" in done.stderr
    assert not (tmp_path / "out.csv").exists()


# --- report -------------------------------------------------------------------------------


@pytest.mark.parametrize("path", some([FALLS_SHORT, RUNS], 2))
def test_report_writes_a_page_and_ends_with_0_whatever_the_verdict(tmp_path, path):
    out = tmp_path / "sheet.html"
    result = gloaming("report", path, "-o", out, "--note", "Second reading.")
    assert result.exit_code == 0, result.output
    text = out.read_text("utf-8")
    verdict = assess(Case(load_scenario(path).scenario)).verdict
    assert f"<strong>{verdict.word}</strong>" in text
    assert "Second reading." in text
    assert result.stdout == f"{out}: written. The verdict is {verdict.word}.\n"


def test_report_writes_a_pdf_where_there_is_no_display(tmp_path):
    out = tmp_path / "sheet.pdf"
    done = started("report", SOON, "-o", out)
    assert done.returncode == 0, done.stderr
    assert done.stderr == ""
    assert out.read_bytes().startswith(b"%PDF")


def test_report_speaks_german(tmp_path):
    out = tmp_path / "sheet.html"
    done = started("report", SOON, "-o", out, "--language", "de")
    assert done.returncode == 0, done.stderr
    text = out.read_text("utf-8")
    assert '<html lang="de">' in text
    assert "<strong>Läuft</strong>" in text
    assert re.search(r"<td class=\"number\">\d+,\d+ V</td>", text)
    given = load_scenario(SOON).scenario
    assert f"<h1>{given.names_de.title}</h1>" in text
    assert given.names_de.operations[0] in text
    assert given.title not in text
    assert sha256_of(canonical_json(given)) in text, "of the file, that a reader finds it again"


def test_report_as_a_page_loads_no_qt(tmp_path):
    code = (
        "import sys; from pathlib import Path; from explorer.cli.report import write_report; "
        f"write_report(Path({SOON!r}), Path({str(tmp_path / 'a.html')!r})); "
        "sys.exit(any(name.startswith('PySide6') for name in sys.modules))"
    )
    root = Path(cli.__file__).parent.parent.parent
    done = subprocess.run([sys.executable, "-c", code], cwd=root, check=False)
    assert done.returncode == 0


@pytest.mark.parametrize(
    ("file", "output", "words"),
    [
        (RUNS, "sheet.doc", "must end in .pdf or .html"),
        (RUNS, "none/sheet.pdf", "there is no folder"),
        ("none.json", "sheet.html", "There is no file none.json"),
    ],
)
def test_report_says_what_is_wrong(tmp_path, file, output, words):
    assert words in refused(gloaming("report", file, "-o", tmp_path / output))
    assert not list(tmp_path.iterdir())


def test_report_does_not_write_over_what_it_is_made_from(tmp_path, scenario_file):
    path = scenario_file("mine.html")
    before = path.read_bytes()
    assert "made from" in refused(gloaming("report", path, "-o", path))
    assert path.read_bytes() == before


def test_report_of_a_broken_scenario_leaves_an_older_sheet(tmp_path, scenario_file):
    out = tmp_path / "sheet.html"
    out.write_text("older")
    assert "illuminance_lx" in refused(
        gloaming("report", scenario_file(light__illuminance_lx=-1), "-o", out)
    )
    assert out.read_text() == "older"

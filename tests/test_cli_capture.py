"""`gloaming capture` turns a table of time and current into an operation, or says what is wrong."""

import json

import numpy as np
import pytest
from click.testing import CliRunner

from explorer.cli import main as cli
from explorer.files.part_json import load_part
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder

PROBE = scenario_folder() / "soil_probe.json"
HEIGHTS_MA, LASTS_MS = (1.0, 8.0, 30.0), (3, 2, 1)


def capture(*arguments):
    return CliRunner().invoke(cli.commands, ["capture", *map(str, arguments)])


@pytest.fixture
def radio_csv(tmp_path):
    """Five cycles of 200 ms, 2 µA asleep, in milliseconds and milliamperes with a decimal comma."""
    current = np.full(10_000, 2e-3)
    for cycle in range(5):
        at = 2000 * cycle + 500
        for lasts, height in zip(LASTS_MS, HEIGHTS_MA, strict=True):
            current[at : at + 10 * lasts] = height
            at += 10 * lasts
    rows = [f"{0.1 * n:.1f};{amps:.6f}".replace(".", ",") for n, amps in enumerate(current)]
    path = tmp_path / "radio.csv"
    path.write_text("Time [ms];Main current [mA]\n" + "\n".join(rows), encoding="latin-1")
    return path


def test_it_prints_the_cycle_its_phases_and_both_errors(radio_csv):
    done = capture(radio_csv)
    assert done.exit_code == 0, done.output
    assert "10000 readings over 1 s" in done.stdout
    assert "Asleep it draws 2 µA on average; it repeats every 0.2 s." in done.stdout
    assert "Charge: kept exactly." in done.stdout
    assert "Deepest droop: within" in done.stdout
    assert done.stdout.splitlines()[-1].split() == ["5", "ms", "1", "ms", "30", "mA"]


def test_json_holds_the_same(radio_csv):
    found = json.loads(capture(radio_csv, "--json").stdout)
    assert [p["current_A"] for p in found["phases"]] == pytest.approx([1e-3, 8e-3, 30e-3])
    assert [p["duration_s"] for p in found["phases"]] == pytest.approx([3e-3, 2e-3, 1e-3])
    # 3 µC + 16 µC + 30 µC and 194 ms of 2 µA.
    assert found["cycle"]["charge_C"] == pytest.approx(49e-6 + 0.194 * 2e-6)
    assert found["period_s"] == pytest.approx(0.2)
    assert found["droop_error"] < 0.01


def test_a_stretch_that_is_named_is_taken(radio_csv):
    found = json.loads(
        capture(radio_csv, "--from", "0.445", "--to", "460 ms", "--json").stdout
    )
    assert found["cycle"]["from_s"] == 0.445
    assert found["cycle"]["length_s"] == pytest.approx(0.015)
    assert found["cycle"]["charge_C"] == pytest.approx(49e-6 + 0.009 * 2e-6)


def test_times_with_too_few_digits_are_spread_evenly_and_that_is_said(radio_csv, tmp_path):
    """As an oscilloscope writes them: six digits, so that those from 1 s on are equal in pairs."""
    rows = [f"{0.95 + 5e-6 * n:.6g},{2e-6 if n % 4000 > 200 else 0.02}" for n in range(20_000)]
    path = tmp_path / "scope.csv"
    path.write_text("time_s,current_A\n" + "\n".join(rows))
    done = capture(path, "--json")
    assert done.exit_code == 0, done.stderr
    found = json.loads(done.stdout)
    assert any("rounded" in note for note in found["notes"])
    assert found["period_s"] == pytest.approx(0.02, rel=2e-3)


def test_a_time_that_is_doubled_by_mistake_is_still_refused(tmp_path):
    rows = [f"{n if n != 50 else 49},{n % 7}" for n in range(100)]
    path = tmp_path / "doubled.csv"
    path.write_text("time_s,current_mA\n" + "\n".join(rows))
    done = capture(path)
    assert done.exit_code == 3
    assert "line 52" in done.stderr


def test_a_scenario_gets_the_load(radio_csv, tmp_path):
    out = tmp_path / "probe.json"
    done = capture(radio_csv, "--scenario", PROBE, "-o", out, "--name", "send")
    assert done.exit_code == 0, done.output
    before, after = load_scenario(PROBE).scenario, load_scenario(out).scenario
    (made,) = after.load.operations
    assert made.name == "send"
    assert made.schedule.interval_s == pytest.approx(0.2)
    assert [p.current_A for p in made.phases] == pytest.approx([998e-6, 7.998e-3, 29.998e-3])
    assert after.load.sleep_A == pytest.approx(2e-6)
    assert after.load.connect_V == before.load.connect_V
    assert after.store == before.store


def test_the_load_is_written_as_a_part_of_one_s_own(radio_csv, tmp_path):
    out = tmp_path / "radio.json"
    done = capture(radio_csv, "--part", out, "--name", "radio node", "--scenario", PROBE)
    assert done.exit_code == 0, done.output
    part = load_part(out)
    assert (part.kind, part.title) == ("load", "radio node")
    assert "radio.csv" in part.source
    assert part.load.operations[0].schedule.interval_s == pytest.approx(0.2)
    assert part.load.connect_V == load_scenario(PROBE).scenario.load.connect_V
    assert capture(radio_csv, "--part", out).exit_code == 0  # without a scenario too


@pytest.mark.parametrize(
    ("text", "arguments", "said"),
    [
        ("time_s,lux\n0,1\n1,2\n", (), "current"),
        ("time_s,current_A\n0,1\n", (), "2"),
        ("time_s,current_A\n0,-1\n1,-1\n2,-1\n", (), "takes no charge"),
        ("time_s,current_A\n0,1\n1,1\n", ("--to", "9"), "does not lie within the capture"),
        ("time_s,current_A\n0,1\n1,5000\n", (), "line 3"),
        ("time_s,current_A\n0,1\n1,1\n", ("-o", "x.json"), "--scenario"),
    ],
)
def test_bad_input_is_a_sentence_and_status_3(tmp_path, text, arguments, said):
    path = tmp_path / "bad.csv"
    path.write_text(text)
    done = capture(path, *arguments)
    assert done.exit_code == 3
    assert said in done.stderr
    assert "Traceback" not in done.output


@pytest.mark.parametrize("over", ["capture", "scenario"])
def test_nothing_is_written_over_what_it_is_made_from(radio_csv, tmp_path, over):
    scenario = tmp_path / "probe.json"
    scenario.write_bytes(PROBE.read_bytes())
    out = {"capture": radio_csv, "scenario": scenario}[over]
    before = out.read_bytes()
    done = capture(radio_csv, "--scenario", scenario, "-o", out)
    assert done.exit_code == 3
    assert "give another name" in done.stderr
    assert out.read_bytes() == before

"""`gloaming bench` prints the agreement and fitted values, or one sentence and status 3."""

import json
from datetime import timedelta

import pytest
from click.testing import CliRunner

from explorer.advice.bench.parameters import with_values
from explorer.advice.spread import default_tolerances
from explorer.cli import main as cli
from explorer.files.part_json import load_part
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import resource_path, scenario_folder
from explorer.scenario.model import with_value
from explorer.scenario.part import taken
from tests.bench_runs import START, dark_run, step_run, written
from tests.make_bench_log import NAME
from tests.meters.bench_meter import SocketMeter

SIZE, SLEEP = "store.capacitance_F", "load.sleep_A"
PROBE, RUN = scenario_folder() / "soil_probe.json", resource_path("logs", NAME)


def bench(*arguments):
    return CliRunner().invoke(cli.commands, ["bench", *map(str, arguments)])


def test_it_says_how_the_forecast_agrees():
    done = bench(PROBE, RUN)
    assert done.exit_code == 0
    assert "does not follow the log" in done.stdout
    assert "RMS deviation" in done.stdout


def test_it_prints_fitted_values_with_their_uncertainty(tmp_path):
    logs = written([dark_run(load_scenario(PROBE).scenario)], tmp_path)
    done = bench(PROBE, *logs, "--light", "1=dark", "--fit", SIZE)
    assert done.exit_code == 0
    line = next(x for x in done.stdout.splitlines() if x.strip().startswith(SIZE))
    assert "±" in line


def test_json_holds_the_same(tmp_path):
    truth = with_values(load_scenario(PROBE).scenario, {SIZE: 1.31})
    logs = written([dark_run(truth)], tmp_path)
    done = bench(PROBE, *logs, "--light", "1=dark", "--json", "--fit", SIZE)
    found = json.loads(done.stdout)
    assert found["runs"][0]["rms_V"] > 10 * found["fit"]["rms_V"]
    assert found["fit"]["converged"]
    (value,) = found["fit"]["values"]
    assert value["path"] == SIZE
    assert abs(value["value"] - 1.31) < value["plus_minus"]
    assert value["plus_minus_by_readings"] < value["plus_minus"]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((PROBE, "none.csv"), "There is no file"),
        (("none.json", RUN), "none.json"),
        ((PROBE, resource_path("logs", "office_lux_1min.csv")), "no column of voltage"),
        ((PROBE, RUN, "--fit", "store.farads"), "store.farads is no value"),
        ((PROBE, RUN, "--fit", "panels.count"), "cannot be fitted"),
        ((PROBE, RUN, "--known", "store.farads=1%"), "store.farads is no value"),
        ((PROBE, RUN, RUN, "--light", "dark"), "say which log, from 1 to 2"),
        ((PROBE, RUN, "--light", "1=bright"), "design, dark, or a level such as 500 lx"),
        ((PROBE, RUN, "--light", "500 lx ± 300 %"), "from 0 to 100 %"),
        ((PROBE, RUN, "--device", "1=-2 mA"), "out of range"),
        ((PROBE, RUN, "--on", "perhaps"), "neither yes nor no"),
        ((PROBE, RUN, "--begins", "someday 09:00"), "mon 09:00"),
        ((PROBE, RUN, "--next"), "--next needs values to fit"),
        ((PROBE, RUN, "--fit", SIZE, "--part", "store"), "store=store.json"),
    ],
)
def test_bad_input_is_one_sentence_and_status_3(arguments, said):
    done = bench(*arguments)
    assert done.exit_code == 3
    assert said in done.stderr
    assert "Traceback" not in done.output


def told(*numbers):
    """That logs were written in the dark, under a steady current."""
    for n in numbers:
        yield from ("--light", f"{n}=dark", "--device", f"{n}=2 mA ± 1 %")


def test_several_logs_of_one_device_become_a_part_that_the_spread_goes_by(tmp_path):
    truth = with_values(load_scenario(PROBE).scenario, {SIZE: 1.31})
    logs = written([dark_run(truth), step_run(truth, seed=2)], tmp_path)
    part_file = tmp_path / "store.json"
    call = (PROBE, *logs, "--light", "1=dark", *told(2), "--fit", SIZE, "--next")
    done = bench(*call, "--part", f"store={part_file}", "--json")
    assert done.exit_code == 0, done.stderr
    found = json.loads(done.stdout)
    assert [run["device"] for run in found["runs"]] == ["design", "current"]
    value = found["fit"]["values"][0]
    assert abs(value["value"] - 1.31) < value["plus_minus"] < 0.05
    assert all(
        one["values"][0]["plus_minus_then"] <= one["values"][0]["plus_minus_now"]
        for one in found["next"]
    )
    part = load_part(part_file)
    assert part.source == "Fitted to run1.csv, run2.csv"
    scenario = load_scenario(PROBE).scenario
    scenario = scenario.model_copy(update={"store": taken(part, scenario.store)})
    told_of = {t.path: t for t in default_tolerances(scenario)}[SIZE]
    assert told_of.is_measured
    assert told_of.amount == pytest.approx(value["plus_minus"] / value["value"], rel=0.01)
    assert told_of.amount < 0.05
    # A store of another size is another store.
    other = {t.path: t for t in default_tolerances(with_value(scenario, SIZE, 3.0))}[SIZE]
    assert not other.is_measured
    assert other.amount > 0.05


def test_logs_of_months_later_tell_what_has_aged(tmp_path):
    truth = with_values(load_scenario(PROBE).scenario, {SIZE: 1.31})
    aged = with_values(truth, {SIZE: 1.15})
    later = START + timedelta(days=240)
    logs = written([step_run(truth), step_run(aged, start=later, seed=2)], tmp_path)
    call = (PROBE, logs[0], "--later", logs[1], *told(1, 2), "--fit", SIZE)
    done = bench(*call)
    assert done.exit_code == 0, done.stderr
    assert "Capacitance has changed by −12 %" in done.stdout
    assert "in 240 d" in done.stdout
    found = json.loads(bench(*call, "--other-meter", "--json").stdout)["drift"]
    change = found["values"][0]
    assert change["seen"]
    assert change["ratio_low"] < 1.15 / 1.31 < change["ratio_high"]
    assert not found["same_meter"]


def test_a_meter_is_read_into_a_run_that_bench_takes(tmp_path):
    meter = SocketMeter(["+3.70E+00", "+3.69E+00", "+3.68E+00"])
    log = tmp_path / "run.csv"
    call = ["measure", meter.address, str(log), "--every", "0.1 s", "--for", "1 s"]
    try:
        done = CliRunner().invoke(cli.commands, call)
        again = CliRunner().invoke(cli.commands, call)
        more = CliRunner().invoke(cli.commands, [*call, "--go-on"])
    finally:
        meter.close()
    assert done.exit_code == 0
    assert "FERNHOLLOW INSTRUMENTS" in done.stdout
    assert "3.7 V at" in done.stdout
    assert again.exit_code == 3
    assert "there already" in again.stderr
    assert more.exit_code == 0
    assert bench(PROBE, log).exit_code == 0


@pytest.mark.parametrize(
    ("arguments", "said"),
    [(("a b", "x.csv"), "no address of a meter"), (("h", "x.csv", "--every", "0"), "out of range")],
)
def test_a_meter_that_cannot_be_is_one_sentence(tmp_path, arguments, said):
    address, log, *options = arguments
    done = CliRunner().invoke(cli.commands, ["measure", address, str(tmp_path / log), *options])
    assert done.exit_code in (2, 3)  # `main` makes 3 of what click refuses
    assert said in done.stderr

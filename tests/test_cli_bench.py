"""`gloaming bench` prints the agreement and fitted values, or one sentence and status 3."""

import json

import pytest
from click.testing import CliRunner

from explorer.cli import main as cli
from explorer.resource_files import resource_path, scenario_folder
from tests.make_bench_log import NAME, TRUTH
from tests.meters.bench_meter import SocketMeter

PROBE, RUN = scenario_folder() / "soil_probe.json", resource_path("logs", NAME)


def bench(*arguments):
    return CliRunner().invoke(cli.commands, ["bench", *map(str, arguments)])


def test_it_says_how_the_forecast_agrees():
    done = bench(PROBE, RUN)
    assert done.exit_code == 0
    assert "does not follow the log" in done.stdout
    assert "Root mean square" in done.stdout


def test_it_prints_fitted_values_with_their_uncertainty():
    done = bench(PROBE, RUN, *(w for path in TRUTH for w in ("--fit", path)))
    assert done.exit_code == 0
    for path in TRUTH:
        line = next(x for x in done.stdout.splitlines() if x.strip().startswith(path))
        assert "±" in line


def test_json_holds_the_same():
    done = bench(PROBE, RUN, "--json", *(w for path in TRUTH for w in ("--fit", path)))
    found = json.loads(done.stdout)
    assert found["rms_V"] > 10 * found["fit"]["rms_V"]
    assert found["fit"]["converged"]
    for value in found["fit"]["values"]:
        off = abs(value["value"] - TRUTH[value["path"]])
        assert off < value["plus_minus_by_readings"] < value["plus_minus"]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((PROBE, "none.csv"), "There is no file"),
        (("none.json", RUN), "none.json"),
        ((PROBE, resource_path("logs", "office_lux_1min.csv")), "no column of voltage"),
        ((PROBE, RUN, "--fit", "store.farads"), "store.farads is no value"),
        ((PROBE, RUN, "--fit", "panels.count"), "cannot be fitted"),
        ((PROBE, RUN, "--known", "store.farads=1%"), "store.farads is no value"),
    ],
)
def test_bad_input_is_one_sentence_and_status_3(arguments, said):
    done = bench(*arguments)
    assert done.exit_code == 3
    assert said in done.stderr
    assert "Traceback" not in done.output


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

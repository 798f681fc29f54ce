"""`gloaming bench` prints the agreement and fitted values, or one sentence and status 3."""

import json

import pytest
from click.testing import CliRunner

from explorer.cli import main as cli
from explorer.resource_files import resource_path, scenario_folder
from tests.make_bench_log import NAME, TRUTH

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
        assert abs(value["value"] - TRUTH[value["path"]]) < value["plus_minus"]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((PROBE, "none.csv"), "There is no file"),
        (("none.json", RUN), "none.json"),
        ((PROBE, resource_path("logs", "office_lux_1min.csv")), "no column named terminal_v"),
        ((PROBE, RUN, "--fit", "store.farads"), "store.farads is no value"),
        ((PROBE, RUN, "--fit", "panels.count"), "cannot be fitted"),
    ],
)
def test_bad_input_is_one_sentence_and_status_3(arguments, said):
    done = bench(*arguments)
    assert done.exit_code == 3
    assert said in done.stderr
    assert "Traceback" not in done.output

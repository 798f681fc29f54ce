"""`gloaming look` shows how a table is understood, and what to say where it can mean two things."""

import json

import pytest
from click.testing import CliRunner

from explorer.cli import main as cli
from explorer.resource_files import resource_path, scenario_folder

OPEN_DATES = """time,store_V,light
03/04/2024 8:00,3.3,1
03/04/2024 8:05,3.2,1
04/04/2024 8:00,3,1
"""


def run(*arguments):
    return CliRunner().invoke(cli.commands, [*map(str, arguments)])


def test_the_first_rows_are_shown_with_their_units():
    done = run("look", resource_path("logs", "office_lux_1min.csv"))
    assert done.exit_code == 0
    first = done.stdout.splitlines()[0]
    assert first.startswith("office_lux_1min.csv: 20560 readings from 2015-02-02 14:19:00")
    assert "Column 2, “lux”: light in lux." in done.stdout
    assert "2  2015-02-02 14:19:00  585.2 lx" in done.stdout


def test_an_open_file_is_refused_with_the_option_that_decides(tmp_path):
    path = tmp_path / "run.csv"
    path.write_text(OPEN_DATES, encoding="utf-8")
    done = run("look", path)
    assert done.exit_code == 3
    said = "Say --dates dmy (03/04/2024 is 2024-04-03) or --dates mdy (03/04/2024 is 2024-03-04)."
    assert said in done.stderr
    told = json.loads(run("look", path, "--dates", "dmy", "--json").stdout)
    assert told["rows"][0][1] == "2024-04-03 08:00:00"
    assert "The column “light” names no unit and was passed over" in told["notes"][0]


@pytest.mark.parametrize("options", [(), ("--dates", "dmy")])
def test_a_run_held_against_a_forecast_is_asked_the_same(tmp_path, options):
    path = tmp_path / "run.csv"
    path.write_text(OPEN_DATES, encoding="utf-8")
    done = run("bench", scenario_folder() / "soil_probe.json", path, *options)
    assert done.exit_code == (0 if options else 3)
    assert bool(options) or "--dates dmy" in done.stderr

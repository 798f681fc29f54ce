"""A sweep on a cluster: the values of this machine, whatever dies on the way."""

import json
import os
import signal
from pathlib import Path

import pyarrow.parquet
import pytest
from click.testing import CliRunner

from explorer.cli.main import commands
from explorer.files import sweep_cluster
from explorer.files.scenario_json import load_scenario
from explorer.files.sweep import Sweep, SweepError, parse_vary, run_sweep
from explorer.files.sweep_cluster import NOTE, run_on_cluster
from explorer.resource_files import scenario_folder
from tests.depth import thorough

PATH = scenario_folder() / "plant_label.json"
CHUNK, ROWS = 24, 24 * 9 + 5


@pytest.fixture(scope="module")
def cluster():
    from distributed import LocalCluster  # a second, which a worker that does not need it saves

    root = str(Path(sweep_cluster.__file__).parents[2])
    paths = os.pathsep.join(filter(None, (root, os.environ.get("PYTHONPATH"))))
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("PYTHONPATH", paths)
        with LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None,
            host="127.0.0.1",
        ) as made:  # fmt: skip
            yield made


@pytest.fixture
def plan(monkeypatch):
    monkeypatch.setattr(sweep_cluster, "CHUNKS_A_PART", 3)
    scenario = load_scenario(PATH).scenario
    light = parse_vary(scenario, f"light.illuminance_lx=20:2000:{ROWS}:ratio")
    return Sweep(scenario=scenario, varied=(light, parse_vary(scenario, "panels.count=2")))


def on_cluster(cluster, plan, output):
    return run_on_cluster(plan, PATH, output, cluster.scheduler_address, chunk=CHUNK)


def values(table):
    return {name: table[name].to_pylist() for name in table.column_names}


@pytest.fixture(scope="module")
def of_this_machine(tmp_path_factory):
    """The same sweep without a cluster, in the same chunks."""
    scenario = load_scenario(PATH).scenario
    light = parse_vary(scenario, f"light.illuminance_lx=20:2000:{ROWS}:ratio")
    sweep = Sweep(scenario=scenario, varied=(light, parse_vary(scenario, "panels.count=2")))
    output = tmp_path_factory.mktemp("here") / "table.parquet"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("explorer.files.sweep.CHUNK", CHUNK)
        list(run_sweep(sweep, PATH, output, workers=1))
    return values(pyarrow.parquet.read_table(output))


@thorough
def test_a_killed_worker_loses_nothing_and_the_values_are_those_of_this_machine(
    cluster, plan, tmp_path, of_this_machine
):
    from distributed import Client

    output = tmp_path / "table.parquet"
    with Client(cluster) as client:
        pids = list(client.run(os.getpid).values())
    counts = on_cluster(cluster, plan, output)
    seen = [next(counts), next(counts)]
    os.kill(pids[0], signal.SIGKILL)
    seen += counts
    assert seen[0] == 0
    assert seen[-1] == ROWS
    assert sorted(p.name for p in output.iterdir()) == [
        NOTE, "part-000000.parquet", "part-000001.parquet", "part-000002.parquet",
        "part-000003.parquet",
    ]  # fmt: skip
    assert values(pyarrow.parquet.read_table(output)) == of_this_machine
    assert {"batch", "march"} == set(of_this_machine["judged_by"])


def test_what_was_interrupted_goes_on_with_the_parts_that_are_missing(
    cluster, plan, tmp_path, of_this_machine
):
    output = tmp_path / "table.parquet"
    counts = on_cluster(cluster, plan, output)
    done = [next(counts), next(counts)][-1]
    counts.close()  # as when the command is ended
    kept = {p: p.stat().st_mtime_ns for p in output.glob("*.parquet")}
    again = list(on_cluster(cluster, plan, output))
    assert again[0] >= done > 0
    assert all(p.stat().st_mtime_ns == since for p, since in kept.items())
    assert values(pyarrow.parquet.read_table(output)) == of_this_machine
    assert list(on_cluster(cluster, plan, output)) == [ROWS]  # nothing is left to do


def test_a_folder_of_something_else_is_left_alone(cluster, plan, tmp_path):
    output = tmp_path / "table.parquet"
    output.mkdir()
    (output / "holiday.jpg").write_bytes(b"sea")
    with pytest.raises(SweepError, match="holds something else"):
        list(on_cluster(cluster, plan, output))
    (output / "holiday.jpg").unlink()
    (output / NOTE).write_text(json.dumps({"sweep": "another"}))
    with pytest.raises(SweepError, match="holds something else"):
        list(on_cluster(cluster, plan, output))


def test_the_command_names_what_is_wrong(tmp_path, monkeypatch):
    monkeypatch.setattr(sweep_cluster, "_PATIENCE_S", 1)
    common = ["sweep", str(PATH), "--vary", "panels.count=1:3"]
    told = CliRunner().invoke(
        commands, [*common, "--cluster", "tcp://127.0.0.1:9", "-o", str(tmp_path / "t.parquet")]
    )
    assert told.exit_code == 3
    assert "No cluster answers at tcp://127.0.0.1:9" in told.output
    told = CliRunner().invoke(
        commands, [*common, "--cluster", "tcp://127.0.0.1:9", "-o", str(tmp_path / "t.csv")]
    )
    assert told.exit_code == 3
    assert "should end with .parquet" in told.output


def test_workers_of_another_version_are_refused(cluster, plan, tmp_path, monkeypatch):
    monkeypatch.setattr(sweep_cluster, "version", lambda _: "0.0.1")
    with pytest.raises(SweepError, match=r"This is version 0\.0\.1"):
        list(on_cluster(cluster, plan, tmp_path / "table.parquet"))


class Asked:
    """A cluster as the client shows it, whose workers answer as they are told to."""

    def __init__(self, **answers):
        self.answers = answers

    def run(self, _, on_error):
        assert on_error == "return"
        return self.answers


def test_a_worker_that_dies_while_it_is_asked_is_not_taken_for_a_stranger():
    mine = sweep_cluster._version()
    gone = OSError("Stream is closed")
    sweep_cluster._refuse_strangers(Asked(one=mine, other=gone), "here")
    with pytest.raises(SweepError, match="has no workers"):
        sweep_cluster._refuse_strangers(Asked(one=gone, other=gone), "here")
    with pytest.raises(SweepError, match="has no workers"):
        sweep_cluster._refuse_strangers(Asked(), "here")
    missing = ModuleNotFoundError("No module named 'explorer'")
    with pytest.raises(SweepError, match="cannot load this program"):
        sweep_cluster._refuse_strangers(Asked(one=mine, other=missing), "here")

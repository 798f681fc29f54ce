"""A study is a folder of plain files that opens again as it was kept, wherever it is moved to."""

import json
import shutil
from dataclasses import replace

import pytest

from explorer.files.disk import FileError
from explorer.files.logs import resolve_log
from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.files.story import RunFile, Story
from explorer.files.study import Laid, Study, keep_study, load_study, remember_sweep
from explorer.files.study_place import DESIGN, NAME, scenario_file, study_folder
from explorer.files.study_results import study_results, write_results
from explorer.files.table_reader.told import Told
from explorer.files.trust import OutsideFile
from explorer.resource_files import resource_path, scenario_folder
from explorer.scenario.logged_run import Conditions
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.study import KeptSweep

RUN = "time,store_V\n0,4.5\n60,4.4\n120,4.3\n"
LUX = "time_s,lux\n" + "".join(f"{900 * i},{300 + i}\n" for i in range(96))
SWEEP = KeptSweep(file="size.csv", vary=("store.capacitance_F=0.1:1:10",))


@pytest.fixture
def before(tmp_path):
    """A design under a log, two runs from two folders with one name, and a design beside."""
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        text = RUN.replace("4.5", "4.6") if name == "b" else RUN
        (tmp_path / name / "run.csv").write_text(text, encoding="utf-8")
        (tmp_path / name / "lux.csv").write_text(LUX, encoding="utf-8")
        logged = with_value(Scenario(), "light.pattern", {"kind": "log", "file": "lux.csv"})
        save_scenario(tmp_path / name / "s.json", logged)
    logged = load_scenario(tmp_path / "a" / "s.json").scenario
    story = Story(
        runs=(
            RunFile(path=tmp_path / "a" / "run.csv", told=Told(decimal="point"),
                    conditions=Conditions(light_lx=0.0, draw="current", current_A=0.002)),
            RunFile(path=tmp_path / "b" / "run.csv", is_later=True,
                    conditions=Conditions(light_lx=450.0, light_share=0.05, connected=True,
                                          begins_s=3600.0)),
        ),
        same_meter=False,
        known=(("load.sleep_A", 0.005),),
    )  # fmt: skip
    laid = Laid(name="Bigger", scenario=with_value(logged, "panels.count", 7),
                path=tmp_path / "b" / "s.json")  # fmt: skip
    return logged, tmp_path / "a" / "s.json", Study(story=story, designs=(laid,))


def kept(before, folder, **more):
    scenario, path, study = before
    return keep_study(folder, scenario, path, study, **more)


def inside(study, folder):
    """The same with paths from the folder on."""
    story = study.story
    runs = tuple(replace(run, path=run.path.relative_to(folder)) for run in story.runs)
    designs = tuple(replace(d, path=d.path.relative_to(folder)) for d in study.designs)
    return replace(study, story=replace(story, runs=runs), designs=designs)


def test_a_study_opens_as_it_was_kept_also_where_it_was_moved_to(before, tmp_path):
    folder = tmp_path / "study"
    design, study = kept(before, folder)
    remember_sweep(folder, SWEEP)
    moved = tmp_path / "elsewhere" / "moved"
    shutil.move(folder, moved)
    for name in ("a", "b"):
        shutil.rmtree(tmp_path / name)
    again = load_study(moved)
    assert inside(again, moved) == replace(inside(study, folder), sweeps=(SWEEP,))
    assert again.story.runs[0].conditions == before[2].story.runs[0].conditions
    assert [run.path.name for run in again.story.runs] == ["run.csv", "run 2.csv"]
    assert again.story.runs[1].path.read_text().count("4.6") == 1
    assert load_scenario(moved / DESIGN).scenario == design
    assert resolve_log(design, moved / DESIGN).readings == 96
    assert resolve_log(again.designs[0].scenario, again.designs[0].path).readings == 96
    assert again.designs[0].scenario.panels.count == 7
    assert len(list((moved / "light").iterdir())) == 1  # both logs are one


def test_every_file_of_it_can_be_read_by_itself(before, tmp_path):
    folder = tmp_path / "study"
    kept(before, folder)
    write_results(study_results(folder))
    names = sorted(p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file())
    assert names == [
        "design-2.json", "light/lux.csv", "results.csv", "results.json", "runs/run 2.csv",
        "runs/run.csv", "scenario.json", "study.json",
    ]  # fmt: skip
    said = (folder / NAME).read_text(encoding="utf-8")
    assert str(tmp_path) not in said
    assert json.loads(said)["runs"][1]["file"] == "runs/run 2.csv"
    found = json.loads((folder / "results.json").read_text(encoding="utf-8"))
    assert [one["file"] for one in found["designs"]] == [DESIGN, "design-2.json"]
    first, second = found["designs"]
    assert first["margins"]["balance"] < second["margins"]["balance"]  # it has more panels
    assert first["inputs_sha256"] != second["inputs_sha256"]
    assert [run["file"] for run in found["runs"]] == ["run.csv", "run 2.csv"]
    head, verdict = (folder / "results.csv").read_text(encoding="utf-8").splitlines()[:2]
    assert head == "quantity,1 New scenario,2 Bigger"
    assert verdict.startswith("Verdict,")


def test_kept_again_it_copies_nothing_twice_and_old_results_are_gone(before, tmp_path):
    folder = tmp_path / "study"
    design, study = kept(before, folder)
    write_results(study_results(folder))
    changed = with_value(design, "panels.count", 3)
    once, same = keep_study(folder, changed, folder / DESIGN, study, own=folder)
    assert (once, same) == (changed, study)
    assert len(list((folder / "runs").iterdir())) == 2
    assert not list(folder.glob("results*"))


def test_a_folder_with_other_things_is_refused_untouched(before, tmp_path):
    folder = tmp_path / "full"
    folder.mkdir()
    (folder / "letter.txt").write_text("dear", encoding="utf-8")
    with pytest.raises(FileError, match="holds other files"):
        kept(before, folder)
    assert [p.name for p in folder.iterdir()] == ["letter.txt"]
    other = tmp_path / "other"
    kept(before, other)
    with pytest.raises(FileError, match="another study"):
        kept(before, other, own=folder)
    with pytest.raises(FileError, match="is a file"):
        kept(before, folder / "letter.txt")


def test_a_run_that_has_gone_keeps_the_old_study(before, tmp_path):
    folder = tmp_path / "study"
    design, study = kept(before, folder)
    said = (folder / NAME).read_bytes()
    story = study.story.with_run(2, RunFile(path=tmp_path / "gone.csv"))
    with pytest.raises(FileError, match=r"There is no file .*gone\.csv"):
        keep_study(folder, with_value(design, "panels.count", 9), folder / DESIGN,
                   replace(study, story=story), own=folder)  # fmt: skip
    assert (folder / NAME).read_bytes() == said
    assert load_scenario(folder / DESIGN).scenario == design


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda d: d.update(format="other"), "not a study"),
        (lambda d: d.update(version=2), "newer program"),
        (lambda d: d.update(runs=5), "runs"),
        (lambda d: d["runs"][0].update(colour="red"), "colour"),
        (lambda d: d["runs"][0]["conditions"].update(light_lx=-1), "light_lx"),
        (lambda d: d["runs"][0]["conditions"].update(draw="much"), "draw"),
        (lambda d: d["runs"][0].update(file="runs/none.csv"), "runs.0.file"),
        (lambda d: d["known"][0].update(share=2.0), "share"),
        (lambda d: d.update(designs=d["designs"] * 6), "designs"),
        (lambda d: d["designs"][0].update(file="runs/run.csv"), "run.csv"),
    ],
)
def test_a_bad_study_ends_in_a_sentence(before, tmp_path, change, said):
    folder = tmp_path / "study"
    kept(before, folder)
    data = json.loads((folder / NAME).read_text(encoding="utf-8"))
    change(data)
    (folder / NAME).write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(FileError, match=said) as refused:
        load_study(folder)
    assert str(refused.value).endswith(".")


@pytest.mark.parametrize("file", ["../a/run.csv", "/etc/hostname", "link.csv"])
def test_a_study_from_a_stranger_reads_nothing_outside_its_folder(before, tmp_path, file):
    folder = tmp_path / "study"
    kept(before, folder)
    (folder / "link.csv").symlink_to(tmp_path / "a" / "run.csv")
    data = json.loads((folder / NAME).read_text(encoding="utf-8"))
    data["runs"][0]["file"] = file
    (folder / NAME).write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(OutsideFile):
        load_study(folder)


def test_a_study_is_known_by_its_folder_and_by_its_files(before, tmp_path):
    folder = tmp_path / "study"
    kept(before, folder)
    for path in (folder, folder / NAME, folder / DESIGN):
        assert study_folder(path) == folder
        assert scenario_file(path) == folder / DESIGN
    lone = scenario_folder() / "soil_probe.json"
    assert study_folder(lone) is None
    assert scenario_file(lone) == lone


def test_a_shipped_log_goes_with_the_study(tmp_path):
    logged = with_value(
        Scenario(), "light.pattern", {"kind": "log", "file": "office_lux_1min.csv"}
    )
    design, _ = keep_study(tmp_path / "s", logged, None, Study())
    assert design.light.pattern.file == "light/office_lux_1min.csv"
    shipped = resource_path("logs", "office_lux_1min.csv")
    assert (tmp_path / "s" / design.light.pattern.file).read_bytes() == shipped.read_bytes()
